"""Every form on plain and very odd views: words apart and inside the picture, nothing that a page may not carry."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from drawing import made_views as made
from drawing.measured import faults, ids, said

from reportgen.drawing.dots import dots
from reportgen.drawing.effects import effects_flat, effects_tall, effects_wide
from reportgen.drawing.failure import failure
from reportgen.drawing.frost import frost_tall, frost_wide
from reportgen.drawing.kilogram import kilogram
from reportgen.drawing.pair import pair
from reportgen.drawing.season_tall import season_tall
from reportgen.drawing.season_types import Season
from reportgen.drawing.season_wide import HANDOUT, season_wide
from reportgen.drawing.weeks import weeks_tall, weeks_wide
from reportgen.drawing.worst_night import worst_night

SEASONS: dict[str, Season] = {
    "plain": made.season(),
    "10 days": made.season(10, many=3),
    "1 day": made.season(1, many=1),
    "240 days": made.season(240),
    "no heater": made.season(heat=()),
    "no harvest": made.season(picked=False),
    "no diary": made.season(many=0),
    "no outdoors": made.season(outdoors=False),
    "nothing but nights": made.season(heat=(), picked=False, damp=False, many=0, dark=False),
    "no nights": made.season(with_nights=False),
    "nothing but the diary": made.season(with_nights=False, heat=(), picked=False, damp=False),
    "thirty lines in a month": made.season(many=30, crowd=True),
    "thirty lines": made.season(many=30),
    "minus 40": made.season(low=-40.0, high=3.0),
    "plus 45": made.season(low=5.0, high=45.0),
    "minus 40 to plus 45": made.season(low=-40.0, high=45.0),
    "Fahrenheit": made.season(low=5.0, high=61.0, us=True),
    "southern": made.season(first=date(2026, 4, 20)),
    "long names": made.season(many=12, text=made.LONG, heat=(made.LONG, made.LONG + " two", "mat")),
    "right to left": made.season(text=made.RIGHT_TO_LEFT, heat=(made.RIGHT_TO_LEFT, "gas")),
    "holes": made.season(holes=True),
    "long in ten days": made.season(10, many=30, text=made.LONG),
}
EFFECTS = {
    "plain": made.effects(),
    "one": made.effects((0.3,)),
    "only refused": made.effects((None, None)),
    "wide": made.effects((11.0, -9.0, 2.0)),
    "beyond": made.effects((40.0, -40.0, 0.0)),
    "many": made.effects(tuple(n / 3 - 3 if n % 2 else None for n in range(24))),
    "long": made.effects((3.0, 1.0, -1.0, None), made.LONG),
    "right to left": made.effects((3.0, 1.0, -1.0, None), made.RIGHT_TO_LEFT),
}
FROSTS = {
    "plain": made.frost(),
    "no crops": made.frost(crops=0),
    "one crop": made.frost(crops=1),
    "two crops": made.frost(crops=2),
    "six": made.frost(crops=6),
    "long": made.frost(crops=6, text=made.LONG),
    "10 days": made.frost(10),
    "no outdoors": made.frost(outdoors=False),
    "Fahrenheit": made.frost(low=5.0, high=61.0, us=True),
    "plus 45": made.frost(low=-40.0, high=45.0),
}
DRAWN: dict[str, Callable[[], str]] = {}
for name, season in SEASONS.items():
    DRAWN |= {
        f"season wide, {name}": lambda v=season: season_wide(v),  # type: ignore[misc]
        f"season tall, {name}": lambda v=season: season_tall(v),  # type: ignore[misc]
        f"season handout, {name}": lambda v=season: season_wide(v, HANDOUT),  # type: ignore[misc]
    }
for name, effect in EFFECTS.items():
    DRAWN |= {
        f"effects wide, {name}": lambda v=effect: effects_wide(v),  # type: ignore[misc]
        f"effects tall, {name}": lambda v=effect: effects_tall(v),  # type: ignore[misc]
        f"effects flat, {name}": lambda v=effect: effects_flat(v),  # type: ignore[misc]
    }
for name, cold in FROSTS.items():
    DRAWN |= {
        f"frost wide, {name}": lambda v=cold: frost_wide(v),  # type: ignore[misc]
        f"frost tall, {name}": lambda v=cold: frost_tall(v),  # type: ignore[misc]
    }
for size in ((1040.0, 14.0, "wide"), (360.0, 12.5, "tall"), (250.0, 13.0, "one")):
    DRAWN |= {
        f"kilogram {size[0]:g}, {name}": lambda v=view, s=size: kilogram(v, *s)  # type: ignore[misc]
        for name, view in {
            "plain": made.kilogram(),
            "no shop": made.kilogram(shop=None),
            "heat only": made.kilogram((8.0,)),
            "slivers": made.kilogram((0.05, 0.02, 30.0), 40.0),
            "long": made.kilogram(name=made.LONG),
        }.items()
    }
for size in ((500.0, 14.0, "wide"), (360.0, 12.5, "tall")):
    DRAWN |= {
        f"worst night {size[0]:g}, {name}": lambda v=view, s=size: worst_night(v, *s)  # type: ignore[misc]
        for name, view in {
            "plain": made.worst(),
            "one": made.worst(1, heat=False),
            "thirty": made.worst(30),
            "long": made.worst(4, text=made.LONG),
        }.items()
    }
    DRAWN |= {
        f"dots {size[0]:g}, {name}": lambda v=view, s=size: dots(v, *s)  # type: ignore[misc]
        for name, view in {
            "plain": made.dots(),
            "many": made.dots((300, 0, 1, 300, 0, 0)),
            "one": made.dots((0, 0, 0, 0, 0, 1)),
        }.items()
    }
    DRAWN |= {
        f"failure {size[0]:g}, {name}": lambda v=view, s=size: failure(v, *s)  # type: ignore[misc]
        for name, view in {
            "plain": made.failure(),
            "no harm": made.failure(harms=0),
            "long": made.failure(text=made.LONG),
            "one": made.failure((20.0,)),
            "far": made.failure((20.0, -40.0)),
        }.items()
    }
DRAWN |= {f"pair, {up:g}": lambda u=up: pair(made.pair(u)) for up in (1.0, -1.0, 0.02, 8.0)}  # type: ignore[misc]
for name, week in {
    "plain": made.weeks(),
    "10 days": made.weeks(10),
    "240 days": made.weeks(240),
    "not known": made.weeks(known=False),
    "dear": made.weeks(dear=500.0),
    "free": made.weeks(dear=0.0),
}.items():
    DRAWN |= {
        f"weeks wide, {name}": lambda v=week: weeks_wide(v),  # type: ignore[misc]
        f"weeks tall, {name}": lambda v=week: weeks_tall(v),  # type: ignore[misc]
    }


@pytest.mark.parametrize("name", DRAWN)
def test_words_stand_apart_and_inside_the_picture(name: str) -> None:
    """No two lines of words touch by the width table, none reaches out, no bad number, no style, a name and words."""
    assert faults(DRAWN[name]()) == []


@pytest.mark.parametrize("name", DRAWN)
def test_the_same_view_gives_the_same_bytes_and_ids_of_its_own(name: str) -> None:
    """Ids begin with the view's uid and none stands twice."""
    svg = DRAWN[name]()
    assert svg == DRAWN[name]()
    assert all(one.startswith("made") for one in ids(svg))
    assert len(set(ids(svg))) == len(ids(svg))


def test_wide_and_tall_share_no_id() -> None:
    """Both stand on one page."""
    view = made.season()
    assert not set(ids(season_wide(view))) & set(ids(season_tall(view)))


@pytest.mark.parametrize("draw", [season_wide, season_tall])
def test_what_is_not_there_is_not_drawn(draw: Callable[[Season], str]) -> None:
    """A band without data leaves neither words nor colour."""
    bare = draw(made.season(heat=(), picked=False, damp=False, many=0, dark=False, outdoors=False))
    words = " ".join(line.words for line in said(bare))
    assert "Heat" not in words and "Damp" not in words and "Outdoors" not in words and "daylight" not in words
    assert not any(token in bare for token in ("--warm", "--humid", "--lift", "--dusk", "--target"))


def test_a_crowd_of_lines_is_named_by_twelve_and_counted() -> None:
    """Twelve lines are named, the judged ones first; the others are ticks."""
    view = SEASONS["thirty lines in a month"]
    assert len(view.lines) == 12 and len(view.ticks) == 18
    assert {line.mark for line in view.lines} == {"helped", "opposite"}
    for draw in (season_wide, season_tall):
        assert any("18 more" in line.words for line in said(draw(view)))


def test_the_tall_picture_is_as_high_as_its_rule() -> None:
    """At least 420 for the time, 4.7 a day up to 960, more only where the words need it."""
    heights = {days: _height(season_tall(made.season(days, many=0, dark=False))) for days in (10, 150, 240)}
    assert 420 <= heights[10] < 420 + 90
    assert 4.7 * 150 <= heights[150] < 4.7 * 150 + 90
    assert 960 <= heights[240] < 960 + 90
    assert _height(season_tall(SEASONS["long in ten days"])) > 600


def _height(svg: str) -> float:
    return float(svg.split('viewBox="0 0 ')[1].split('"')[0].split()[1])


def test_refused_rows_fold_into_one_line_beyond_fourteen() -> None:
    """And stay rows up to fourteen."""
    assert any("could not be compared" in line.words for line in said(effects_wide(EFFECTS["many"])))
    assert not any("could not be compared" in line.words for line in said(effects_wide(EFFECTS["plain"])))


def test_sizes_of_a_plain_winter() -> None:
    """A picture takes at most 60 KB in both sizes together, effects 14 and a kilogram 3; the sample is held closer."""
    assert len(season_wide(SEASONS["plain"])) + len(season_tall(SEASONS["plain"])) < 60_000
    assert len(effects_wide(EFFECTS["plain"])) + len(effects_tall(EFFECTS["plain"])) < 14_000
    assert len(kilogram(made.kilogram())) < 3_000


@pytest.mark.parametrize("crops", [2, 4])
def test_the_name_of_a_crop_in_one_word_is_not_cut(crops: int) -> None:
    """Ten bold letters are wider than a column: the columns widen."""
    assert "silverbeet" in frost_wide(made.frost(crops=crops, text="silverbeet"))
