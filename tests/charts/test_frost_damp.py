"""The Frost and Damp pages: whole on full seasons, honest on thin ones, drawn small enough."""

from __future__ import annotations

from functools import lru_cache
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from counsel.hand import NO_COUNSEL
from made_season import ZONE, channel, logger, planting, readings, season

from reportgen.charts import damp as damp_page
from reportgen.charts import frost as frost_page
from reportgen.charts.damp_carpet import edges
from reportgen.charts.embed import picture
from reportgen.charts.types import Drawing
from reportgen.effects.types import Changes
from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.heat import heat

CHART_KB = 60


def review(*channels: Any, show: str = "metric", **more: Any) -> Any:
    """Only what the two pages read."""
    of = season(
        "2025-12-01",
        "2026-02-28",
        loggers=(logger("bench", main=True), logger("yard", where="outdoor")),
        show=show,
        house={"u_value_w_m2k": 5.8},
        place={"latitude": 49.0, "longitude": 17.0},
    )
    made = readings(of, channels=channels, **more)
    return SimpleNamespace(
        season=of,
        readings=made,
        frost=frost(made),
        heat=heat(made),
        damp=damp(made),
        effects=Changes(changes=()),
        counsel=NO_COUNSEL,
    )


@lru_cache(maxsize=1)
def winter() -> tuple[Any, ...]:
    """Three months of an unheated house with all sensors."""
    index = pd.date_range("2025-12-01", "2026-03-01", freq="1h", tz=ZONE)
    hour, day = index.hour.to_numpy(), np.arange(len(index)) / 24
    out = -2 + 5 * np.sin(day / 5) + 3 * np.cos((hour - 15) / 24 * 2 * np.pi)
    inside = out + 0.5 * (6 - out)
    rh = 82 + 12 * np.sin(day / 7) - 5 * np.cos((hour - 15) / 24 * 2 * np.pi)
    make = {name: pd.Series(v, index=index) for name, v in {"out": out, "in": inside, "rh": rh}.items()}
    return (
        channel(make["in"], accuracy=0.4),
        channel(make["rh"], "relative_humidity", accuracy=3.0),
        channel(make["in"] * 0 + 6, "soil_temperature"),
        channel(make["out"], logger="yard", where="outdoor"),
        channel(make["rh"] * 0 + 88, "relative_humidity", logger="yard", where="outdoor"),
    )


BOOKS = {"plantings": (planting("kale", "east", "2025-12-01", lost=0.0), planting("lettuce", "east", "2025-12-01"))}


def uids(page: Any) -> list[str]:
    """Anchors of a page in order."""
    return [block.uid for block in page.blocks if hasattr(block, "uid")]


@pytest.mark.parametrize("show", ["metric", "us"])
@pytest.mark.parametrize("subject", [frost_page, damp_page])
def test_a_full_season_gives_a_full_page(subject: Any, show: str) -> None:
    """Every drawing has both widths within the budget, a table, a description, and anchors stand once."""
    page = subject.page(review(*winter(), show=show, **BOOKS))
    assert page.answers
    assert len(uids(page)) == len(set(uids(page)))
    for block in page.blocks:
        if isinstance(block, Drawing):
            drawn = picture(block)
            assert len(drawn.wide) + len(drawn.narrow) < CHART_KB * 1000
            assert len(block.table) and block.description.endswith(".")
            if show == "us":
                assert "°C" not in " ".join([block.subtitle, block.title, *map(str, block.table.columns)])


def test_what_findings_point_to_is_there() -> None:
    """The anchors that findings use on a full season."""
    made = review(*winter(), **BOOKS)
    assert {"frost_nights", "frost_worst", "frost_crops", "frost_limit", "frost_alarms"} <= set(
        uids(frost_page.page(made))
    )
    wanted = {"damp_carpet", "damp_months", "damp_clock", "damp_nights", "damp_airing", "damp_dew"}
    assert wanted <= set(uids(damp_page.page(made)))


@pytest.mark.parametrize("subject", [frost_page, damp_page])
def test_without_the_sensor_the_page_says_what_to_log(subject: Any) -> None:
    """One note, and the page is marked as not answering."""
    page = subject.page(review())
    assert not page.answers
    assert [block.kind for block in page.blocks] == ["missing"]


def test_crop_air_alone_still_makes_a_page() -> None:
    """No outdoor air, no soil: the nights stand, the rest says what it lacks."""
    page = frost_page.page(review(winter()[0]))
    assert "frost_nights" in uids(page)
    missing = [block for block in page.blocks if getattr(block, "kind", "") == "missing"]
    assert any("outdoor" in note.text for note in missing)


def test_humidity_alone_still_makes_a_page() -> None:
    """Dew and airing say what they lack."""
    page = damp_page.page(review(winter()[1]))
    assert "damp_carpet" in uids(page)
    assert sum(getattr(block, "kind", "") == "missing" for block in page.blocks) == 2


def test_nights_without_a_reading_are_named() -> None:
    """A week without any logger is one gap, from its first empty evening."""
    values = winter()[0].values
    lost = (values.index > pd.Timestamp("2026-01-10", tz=ZONE)) & (values.index < pd.Timestamp("2026-01-17", tz=ZONE))
    made = review(channel(values[~lost]))
    (gap,) = [g for g in frost_page.night_gaps(made.frost.table) if g.start.month == 1]
    assert (gap.start.day, gap.end.day) == (10, 16)


def test_a_carpet_has_the_grower_s_lines_among_its_limits() -> None:
    """Six limits for seven classes, rising, with both lines."""
    for high, extreme in ((80.0, 90.0), (75.0, 85.0), (70.0, 95.0)):
        limits = edges(high, extreme)
        assert limits == sorted(limits) and len(limits) == 6 and {high, extreme} <= set(limits)


def test_nights_are_called_damper_only_where_they_are() -> None:
    """A heater that dries the nights: noon is the damp half, and no sentence says that it is not."""
    index = pd.date_range("2025-12-01", "2026-03-01", freq="1h", tz=ZONE)
    noon = np.cos((index.hour.to_numpy() - 13) / 24 * 2 * np.pi)
    told = {}
    for name, way in (("noon", 10.0), ("night", -10.0)):
        air = pd.Series(6.0 + 0.1 * noon, index=index)
        made = review(channel(air), channel(pd.Series(80.0 + way * noon, index=index), "relative_humidity"))
        (clock,) = [b for b in damp_page.page(made).blocks if getattr(b, "uid", "") == "damp_clock"]
        told[name] = " ".join(clock.notes)
    assert "nights are mostly damper" in told["night"] and "nights are mostly damper" not in told["noon"]
    assert all("lasts past noon" in words for words in told.values())


def test_without_a_listed_heater_nobody_says_that_nothing_heats() -> None:
    """A house ten degrees warmer than outdoors may be heated by what nobody listed."""
    text = " ".join(getattr(block, "text", "") for block in frost_page.page(review(*winter(), **BOOKS)).blocks)
    assert "if nothing heats the house, the nights above are those without heat" in text
