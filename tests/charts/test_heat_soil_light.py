"""The pages of heat, soil and light on a house made by closed forms: what each shows, and what an empty season says."""

from __future__ import annotations

import dataclasses
import math
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pandas as pd
import pytest
from counsel.hand import NO_COUNSEL
from heated_house import hours, house
from made_season import channel, readings, season

from reportgen.charts import heat as heat_page
from reportgen.charts import light as light_page
from reportgen.charts import soil as soil_page
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.lines import LEAST_BAR, _inside
from reportgen.charts.types import Drawing, Page, Table
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.readings.types import Readings
from reportgen.review import Review


def review(of: Readings) -> Review:
    """Just what the three pages read."""
    made = SimpleNamespace(
        season=of.season,
        readings=of,
        heat=heat(of),
        soil=soil(of),
        light=light(of),
        harvest=harvest(of),
        frost=frost(of),
        findings=(),
        counsel=NO_COUNSEL,
    )
    return cast("Review", made)


@pytest.fixture(scope="module", params=["metric", "us"])
def pages(request: pytest.FixtureRequest) -> dict[str, Page]:
    """The three pages of a heated house with a probe, a light sensor and a place."""
    crop = {"name": "spinach", "damage_below_c": (4.0, 6.0)}  # stands 2 K below what was held and no lower
    more: dict[str, Any] = {"place": {"latitude": 50.0}, "show": request.param, "crop": (crop,)}
    made = house(house={"soil_bed_volume_m3": 3.0, "u_value_w_m2k": 3.0, "glazing_area_m2": 12.0}, **more)
    at = hours()
    bed = pd.Series(8 + 2 * np.cos(2 * np.pi * (np.arange(len(at)) % 24 - 17) / 24), index=at)
    lit = pd.Series(np.where((at.hour >= 8) & (at.hour < 16), 150.0, 0.0), index=at)
    channels = (*made.channels, channel(bed, "soil_temperature", depth_m=0.1), channel(lit, "ppfd"))
    of = review(dataclasses.replace(made, channels=channels))
    return {m.__name__.rsplit(".", 1)[1]: m.page(of) for m in (heat_page, soil_page, light_page)}


def block(page: Page, uid: str) -> Drawing | Table:
    """The block of that anchor."""
    return next(b for b in page.blocks if getattr(b, "uid", "") == uid)  # type: ignore[return-value]


def test_every_block_is_there(pages: dict[str, Page]) -> None:
    """With all readings each page answers, with all its charts and tables."""
    uids = {name: {getattr(b, "uid", "") for b in page.blocks} for name, page in pages.items()}
    assert {"heat_price", "heat_months", "heat_weeks", "heat_loss", "heat_line", "heat_hours", "heat_sources"} <= uids[
        "heat"
    ]
    assert {"soil_days", "soil_wave", "soil_nights", "soil_weeks"} <= uids["soil"]
    assert {"light_length", "light_days"} <= uids["light"]
    assert all(page.answers for page in pages.values())


def test_tables_hold_the_figures_of_the_titles(pages: dict[str, Page]) -> None:
    """What a chart draws can be summed again from its table."""
    weeks = block(pages["heat"], "heat_weeks")
    assert isinstance(weeks, Drawing)
    assert weeks.table["fan heater kWh"].sum() == pytest.approx(552.19, abs=0.1)  # closed form of the house
    assert weeks.table["EUR"].sum() == pytest.approx(165.66, abs=0.1)
    length = block(pages["light"], "light_length")
    assert isinstance(length, Drawing) and len(length.table) == 56


def test_crops_beside_each_hold(pages: dict[str, Page]) -> None:
    """Two kelvin below what was held the crop still stands; three below it is at risk."""
    price = block(pages["heat"], "heat_price")
    assert isinstance(price, Drawing)
    column = price.table.columns[0]
    hold = price.table[column] if column.endswith("°C") else (price.table[column] - 32) / 1.8
    stood = price.table["would have stood it"] == "spinach"
    assert stood[hold > 6.01].all() and not stood[hold < 5.9].any()


def test_words_are_in_the_shown_unit(pages: dict[str, Page]) -> None:
    """A US page has no °C and no K in titles, a metric page no °F."""
    us = "°F" in block(pages["soil"], "soil_days").subtitle
    for page in pages.values():
        words = " ".join([page.headline, page.lead, *(b.title for b in page.blocks)])
        assert ("°C" not in words) if us else ("°F" not in words)


def test_no_word_is_a_missing_number(pages: dict[str, Page]) -> None:
    """No title, note or cell says nan or None."""
    for page in pages.values():
        for b in page.blocks:
            words = [b.title, *getattr(b, "notes", ()), getattr(b, "description", ""), getattr(b, "subtitle", "")]
            words += [cell for row in getattr(b, "rows", ()) for cell in row]
            assert not any(bad in f" {w} " for w in words for bad in ("nan", "None", " inf"))


def test_empty_season_says_what_to_log() -> None:
    """Without readings each page is one paragraph on what to log, and does not answer."""
    of = review(readings(season()))
    for module in (heat_page, soil_page, light_page):
        page = module.page(of)
        assert not page.answers and len(page.blocks) == 1
        assert "From now on" in page.lead


def test_no_light_sensor_leaves_astronomy_and_says_so() -> None:
    """A place without a light sensor still has its day lengths, and the sentence that clouds are not known."""
    page = light_page.page(review(readings(season(place={"latitude": 50.0}))))
    assert page.answers and block(page, "light_length")
    assert "not the clouds" in " ".join(getattr(b, "text", "") for b in page.blocks)


def test_running_week_steps_hold_their_value() -> None:
    """Each week is drawn from its Monday to the next at its own height; a gap stays a gap."""
    steps = soil_page._steps(pd.Series([1.0, math.nan], index=[pd.Timestamp("2026-01-05"), pd.Timestamp("2026-01-12")]))
    assert steps["change"].tolist()[:2] == [1.0, 1.0] and steps["change"].isna().sum() == 2


def test_bars_of_cut_weeks_stay_within_the_plot() -> None:
    """A season from Wednesday to Thursday: its first week begins before it, its last ends after it."""
    wide, _ = theme.sizes(190)
    canvas = Canvas(size=wide, x_domain=(2.0, 94.0), y_domain=(0.0, 1.0))
    at = np.array([0.0, 7.0, 91.0, 98.0])  # Mondays; the last lies wholly behind
    left, right = _inside(canvas, canvas.px(at + 0.5), canvas.px(at + 6.5))
    assert left.min() >= 0.0 and right.max() <= canvas.size.plot + 1e-9
    assert (right - left >= LEAST_BAR - 1e-9).all()
    assert left[1] == canvas.px(7.5) and right[1] == canvas.px(13.5)  # a whole week is as it was
