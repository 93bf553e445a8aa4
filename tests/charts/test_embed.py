"""Pictures in the page: short, with ids of their own, named for a screen reader, coloured by the style sheet alone."""

from __future__ import annotations

import datetime as dt
import re
import xml.etree.ElementTree as ET

import numpy as np
import pandas as pd
import pytest

from reportgen.charts.build import Curve, Look, carpet, time_lines
from reportgen.charts.embed import picture, tidy
from reportgen.charts.pathdata import compact, radius
from reportgen.charts.types import Drawing

DAYS = [dt.date(2025, 11, 1) + dt.timedelta(days=n) for n in range(40)]


def drawing(uid: str, label: str = "Line chart of the coldest reading") -> Drawing:
    """A small chart with a gap."""
    frame = pd.DataFrame({"date": DAYS, "inside": np.sin(np.arange(40.0))})
    frame.loc[10:14, "inside"] = np.nan
    wide, narrow = time_lines(frame, "date", (Curve("inside", "cold", "inside"),), Look(unit="°C"))
    words = {"title": "It was cold", "subtitle": "coldest, °C", "label": label, "description": "Lowest −1.0 °C."}
    return Drawing(uid=uid, wide=wide, narrow=narrow, table=frame, day_slider=True, **words)


@pytest.mark.parametrize(
    ("raw", "short"),
    [
        ("M0,22.5h1.5v7.5h-1.5Z", "m0 22.5h1.5v7.5h-1.5z"),
        ("M10,10L20,10L20,30", "m10 10h10v20"),
        ("M0,0L1,1L2,2", "m0 0l1 1l1 1"),
        ("M1e1,0H5V-2", "m10 0h-5v-2"),
    ],
)
def test_a_path_says_the_same_in_fewer_letters(raw: str, short: str) -> None:
    """Steps become relative, along an axis h or v (grammar: SVG 1.1, chapter 8); written out by hand."""
    assert compact(raw) == short


def test_a_shift_moves_absolute_and_relative_paths_alike() -> None:
    """Moved by (3, 4): both ways of writing one square give the same path."""
    assert compact("M1,1L2,1L2,2Z", 3, 4) == compact("m1,1l1,0l0,1z", 3, 4) == "m4 5h1v1z"


def test_rounding_does_not_add_up() -> None:
    """A thousand steps of 0.04, each far below the rounding, end within 0.05 of where they should."""
    d = "M0,0" + "".join(f"L{0.04 * n:.2f},0" for n in range(1, 1001))
    ends = sum(float(step) for step in re.findall(r"h(-?[\d.]+)", compact(d)))
    assert abs(ends - 40.0) <= 0.05


def test_a_full_circle_is_known_by_its_radius() -> None:
    """Two half arcs around the origin are a dot; anything else is not."""
    assert radius("M2.5,0A2.5,2.5,0,1,1,-2.5,0A2.5,2.5,0,1,1,2.5,0") == 2.5
    assert radius("M2.5,0L0,0") is None


def test_both_pictures_have_role_name_and_description() -> None:
    """Each width is an image with a name and a description whose id exists; its inside is hidden."""
    drawn = picture(drawing("frost_nights"))
    for svg, suffix in ((drawn.wide, "w"), (drawn.narrow, "n")):
        root = ET.fromstring(svg)
        assert root.get("role") == "img"
        assert root.get("aria-label") == "Line chart of the coldest reading"
        described = root.get("aria-describedby")
        assert [e.text for e in root.iter() if e.get("id") == described] == ["Lowest −1.0 °C."]
        assert root.get("class") == suffix
        assert [child.get("aria-hidden") for child in root if child.tag == "g"] == ["true"]


def test_words_of_a_user_cannot_leave_their_attribute() -> None:
    """A label with quotes and tags stays words."""
    label = '"><script>alert(1)</script>'
    root = ET.fromstring(picture(drawing("a", label)).wide)
    assert root.get("aria-label") == label
    assert not [e for e in root.iter() if "script" in e.tag]


def test_the_same_drawing_gives_the_same_bytes_whatever_was_drawn_before() -> None:
    """No counter of the engine reaches the page."""
    first = picture(drawing("a"))
    picture(drawing("b"))
    assert picture(drawing("a")) == first


def test_ids_stand_under_the_drawings_own_name_and_references_follow() -> None:
    """A gradient that the engine calls gradient_7 is renumbered, and what is filled with it too."""
    raw = (
        '<svg xmlns="http://www.w3.org/2000/svg"><defs><linearGradient id="gradient_7"/></defs>'
        '<path fill="url(#gradient_7)" d="M0,0L1,1"/></svg>'
    )
    short = tidy(ET.fromstring(raw), "frost-w")
    assert 'id="frost-w-0"' in short and 'fill="url(#frost-w-0)"' in short
    assert "gradient_7" not in short


def test_neighbours_that_differ_only_in_shape_are_one_path() -> None:
    """Three ticks of one colour are one path, and a fourth of another colour stays apart."""
    ticks = "".join(f'<path class="x" stroke="a" d="M{n},0v5"/>' for n in range(3))
    raw = f'<svg xmlns="http://www.w3.org/2000/svg"><g>{ticks}<path stroke="b" d="M9,0v5"/></g></svg>'
    assert tidy(ET.fromstring(raw), "u") == '<path stroke="a" d="M0 0v5M1 0v5M2 0v5"/><path stroke="b" d="M9 0v5"/>'


def test_no_colour_is_fixed_and_nothing_of_the_engine_is_left() -> None:
    """Colours are custom properties only, so that dark and print are the style sheet's."""
    svg = picture(drawing("a")).wide
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg))
    assert colours and all(colour.startswith("var(--") or colour == "none" for colour in colours)
    assert "aria-roledescription" not in svg and "font-family" not in svg


def test_a_carpet_of_a_whole_winter_fits_its_budget() -> None:
    """177 days by 24 hours of smooth temperatures, both widths together: at most 60 kB (the site's own budget)."""
    days = [dt.date(2025, 10, 18) + dt.timedelta(days=n) for n in range(177)]
    rows = [
        {"date": day, "hour": hour, "value": 6 + 5 * np.sin((hour - 9) / 24 * 2 * np.pi) + 3 * np.sin(n / 9)}
        for n, day in enumerate(days)
        for hour in range(24)
    ]
    wide, narrow = carpet(pd.DataFrame(rows), [0, 3, 6, 9, 12, 15], [f"class {n}" for n in range(7)], Look(unit="°C"))
    words = {"title": "t", "subtitle": "s", "label": "l", "description": "d"}
    drawn = picture(Drawing(uid="c", wide=wide, narrow=narrow, table=pd.DataFrame(), **words))
    assert len(drawn.wide) + len(drawn.narrow) <= 60_000
