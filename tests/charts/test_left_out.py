"""A page says what its figures lack, with its count, and says nothing where nothing is missing."""

from __future__ import annotations

import dataclasses
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.charts import NAMES
from reportgen.charts import soil as soil_page
from reportgen.charts.left_out import RESTS_ON, left_out, no_soil
from reportgen.measures.record import record
from reportgen.measures.soil import soil
from reportgen.readings.types import CheckFinding
from reportgen.review import Review
from reportgen.units import MEASURES


def review(measure: str, count: int, read: int = 26_000, **more: Any) -> Review:
    """A record of one channel of which so many values were impossible."""
    at = pd.date_range("2026-01-05", periods=48, freq="h", tz=ZONE)
    one = channel(pd.Series(5.0, index=at), measure)
    aside = {"impossible": count} if count else {}
    one = dataclasses.replace(one, values_read=read, set_aside={**aside, "stuck": 4})
    of = readings(season(loggers=(logger("bench", measure),), **more), channels=(one,))
    return cast("Review", SimpleNamespace(season=of.season, readings=of, record=record(of)))


def words(slug: str, of: Review) -> str:
    """The note of a page with plain spaces; empty without one."""
    note = left_out(slug, of)
    return note.text.replace("\u00a0", " ").replace("\u202f", " ") if note is not None else ""


def test_the_count_the_channel_and_the_limits_are_told() -> None:
    """Three of 26 000 readings of the air: on the frost page and not on that of light."""
    of = review("air_temperature", 3)
    assert words("frost", of) == (
        "3 of 26 000 readings of air temperature at bench cannot be (below −40.0 or above 75.0 °C). They were set "
        "aside, and no figure of this page has them."
    )
    assert words("light", of) == ""


def test_one_reading_is_told_as_one() -> None:
    """Its sentence agrees with it."""
    assert words("frost", review("air_temperature", 1)).endswith("It was set aside, and no figure of this page has it.")


def test_nothing_is_said_of_other_reasons() -> None:
    """Stuck readings stand on The record; without an impossible one no page speaks."""
    assert all(words(slug, review("air_temperature", 0)) == "" for slug in RESTS_ON)


def test_in_fahrenheit_for_those_who_read_it() -> None:
    """−40 °C is −40 °F and 75 °C is 167 °F."""
    assert "(below −40.0 or above 167.0 °F)" in words("frost", review("air_temperature", 3, show="us"))


def test_humidity_a_little_above_a_hundred_was_possible() -> None:
    """It was kept as 100, so the line is drawn at 105."""
    assert "(below 0 or above 105 %)" in words("damp", review("relative_humidity", 2))


def test_a_counter_has_a_lowest_only() -> None:
    """A running counter cannot be below 0 and has no highest."""
    assert "(below 0.0 kWh)" in words("heat", review("heater_energy", 2))


@pytest.mark.parametrize("measure", sorted(MEASURES))
def test_every_measure_is_told_on_some_page(measure: str) -> None:
    """A new measure that no page tells of would be missing from a sum in silence."""
    assert any(words(slug, review(measure, 1)) for slug in RESTS_ON)


def doubted(slug: str) -> Review:
    """A season whose one soil probe the checks doubt."""
    at = pd.date_range("2026-01-05", periods=480, freq="h", tz=ZONE)
    words = "the soil probe of bench swings 95 % as much as the air"
    one = CheckFinding(
        slug=slug, logger="bench", measure="soil_temperature", start=at[0], end=at[-1], count=480, words=words
    )
    probe = channel(pd.Series(5.0, index=at), "soil_temperature", depth_m=0.1)
    of = readings(season(loggers=(logger("bench", "soil_temperature"),)), channels=(probe,), findings=(one,))
    return cast("Review", SimpleNamespace(season=of.season, readings=of, record=record(of), soil=soil(of)))


def test_a_probe_in_the_air_is_told_where_the_bed_matters() -> None:
    """The pages that rest on the bed say what the checks saw; that of damp has nothing of it."""
    told = {slug for slug in NAMES if no_soil(slug, doubted("probe-in-the-air")) is not None}
    assert told == {"frost", "soil", "changes", "winters"}
    note = no_soil("soil", doubted("probe-in-the-air"))
    assert note is not None and note.text == "The soil probe of bench swings 95 % as much as the air."


def test_exchanged_columns_are_told_where_the_air_matters_too() -> None:
    """What heat and damp say may be the bed's."""
    told = {slug for slug in NAMES if no_soil(slug, doubted("columns-exchanged")) is not None}
    assert told == {"frost", "soil", "changes", "winters", "heat", "damp"}


def test_the_soil_page_does_not_say_that_nothing_was_logged() -> None:
    """A probe was there; it lay in no bed."""
    page = soil_page.page(doubted("probe-in-the-air"))
    assert page.headline == "Soil: no probe that lies in the bed" and not page.answers
