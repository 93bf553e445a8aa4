"""How the record is said: each sentence with the number that it must have, by hand."""

from __future__ import annotations

import pandas as pd
import pytest
from made_season import ZONE, channel, season

from reportgen.measures.record_words import (
    joined_over,
    long_words,
    measure_name,
    moment,
    place_name,
    readings_count,
    reason_name,
    reasons_words,
    step_words,
    stretch_words,
    together,
    unit_name,
    value_number,
    value_words,
    whose,
)
from reportgen.measures.seldom import how_often, seldom_step, too_seldom, why_seldom
from reportgen.readings.types import CheckFinding
from reportgen.wording import Wording, share_words

DAY_S = 86_400.0


def plain(text: str) -> str:
    """With plain spaces and a plain minus."""
    return text.replace("\u00a0", " ").replace("\u202f", " ").replace("−", "-")


@pytest.mark.parametrize(
    ("step_s", "words"),
    [
        (None, "one reading or none"), (30.0, "every 30 s"), (59.0, "every 59 s"), (60.0, "every 1 min"),
        (600.0, "every 10 min"), (602.0, "every 10 min"), (615.0, "every 10.2 min"), (5399.0, "every 90 min"),
        (5400.0, "every 1.5 h"), (3 * 3600.0, "every 3 h"), (3 * 3600.0 + 179, "every 3 h"),
        (3 * 3600.0 + 181, "every 3.1 h"), (3 * 3600.0 - 179, "every 3 h"), (3 * 3600.0 - 360, "every 2.9 h"),
        (598.0, "every 10 min"), (2 * DAY_S - 2, "every 48 h"),
        (3 * 3600.0 + 360, "every 3.1 h"), (DAY_S, "every 24 h"), (2 * DAY_S, "every 2 days"),
        (7 * DAY_S, "every 7 days"),
    ],
)  # fmt: skip
def test_steps(step_s: float | None, words: str) -> None:
    """Seconds, minutes from 60 s, hours from an hour and a half, days from two on."""
    assert plain(step_words(step_s)) == words


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (0.001, "1 min"), (0.5, "30 min"), (1.0, "1.0 h"), (9.9, "9.9 h"), (10.0, "10 h"), (47.9, "48 h"),
        (48.0, "2.0 days"), (239.0, "10.0 days"), (240.0, "10 days"), (480.0, "20 days"),
    ],
)  # fmt: skip
def test_how_long(hours: float, words: str) -> None:
    """Minutes under an hour, hours under two days."""
    assert plain(long_words(hours)) == words


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "0 %"), (0.004, "under 1 %"), (0.01, "1 %"), (0.5, "50 %"), (0.99, "99 %"), (0.995, "over 99 %"),
        (0.9999, "100 %"), (1.0, "100 %"),
    ],
)  # fmt: skip
def test_shares_never_claim_all_or_nothing(share: float, words: str) -> None:
    """0 and 100 % are said of nothing and all alone, to a hundredth of a percent."""
    assert plain(share_words(share)) == words


def test_values_with_their_units() -> None:
    """A temperature with a tenth, in the reader's unit (−2.3 °C are 27.86 °F); the other measures with as many digits
    as their sensors tell."""
    metric, us = Wording.of(season()), Wording.of(season(show="us"))
    assert plain(value_words(metric, "air_temperature", -2.3)) == "-2.3 °C"
    assert plain(value_words(us, "air_temperature", -2.3)) == "27.9 °F"
    told = {
        ("relative_humidity", 81.4): "81 %", ("heater_power", 1999.6): "2 000 W", ("solar_radiation", 99.6): "100 W/m²",
        ("ppfd", 99.6): "100 µmol/m²/s", ("heater_on", 1.0): "1 0/1", ("soil_moisture", 0.256): "0.26 m³/m³",
        ("duct_airflow", 0.0256): "0.026 m³/s", ("wind_speed", 3.14): "3.1 m/s",
    }  # fmt: skip
    assert {key: plain(value_words(metric, *key)) for key in told} == told
    assert plain(value_number(us, "soil_temperature", 10.0)) == "50.0"
    assert (unit_name(metric, "soil_temperature"), unit_name(us, "wind_speed")) == ("°C", "m/s")


def test_names() -> None:
    """A measure by its own words, where it has some, a place by its phrase; an unknown one by its own name."""
    assert (measure_name("air_temperature"), measure_name("heater_on")) == ("air temperature", "heater on or off")
    assert measure_name("moon_light") == "moon light"
    assert [place_name(w) for w in ("crop", "outdoor", "elsewhere", "attic")] == [
        "beside the crop", "outdoors", "elsewhere", "attic",
    ]  # fmt: skip
    assert (reason_name("out_of-range"), plain(joined_over("soil_temperature"))) == ("out of range", "6 h")
    assert plain(joined_over("air_temperature")) == "3 h"
    assert (plain(readings_count(1)), plain(readings_count(25432))) == ("1 reading", "25 432 readings")


def test_what_was_set_aside() -> None:
    """Every reason that set something aside; nothing, no words."""
    assert plain(reasons_words({"stuck": 12, "leap": 0, "im_possible": 3})) == "12 stuck, 3 im possible"
    assert reasons_words({"stuck": 0}) == ""


def test_when() -> None:
    """A day is named once where it is the same."""
    first, later = pd.Timestamp("2026-01-05 06:00", tz=ZONE), pd.Timestamp("2026-01-05 14:30", tz=ZONE)
    assert plain(moment(first)) == "5 January 2026, 06:00"
    assert plain(stretch_words(first, later)) == "5 January, 06:00 to 14:30"
    assert plain(stretch_words(first, later + pd.Timedelta(days=1))) == "5 January, 06:00 to 6 January, 14:30"


def test_whose_readings() -> None:
    """One, two and three measures; none."""
    names = ["air_temperature", "relative_humidity", "ppfd"]
    light = measure_name("ppfd")
    assert whose("bench", names[:1]) == "bench, air temperature"
    assert whose("bench", names[:2]) == "bench, air temperature and relative humidity"
    assert whose("bench", names) == f"bench, air temperature, relative humidity and {light}"
    assert whose("bench", []) == "bench"


def test_what_is_said_of_two_measures_of_one_logger_is_said_once() -> None:
    """The same words of air and humidity at one time are one; of another time, or another logger, its own."""

    def found(logger: str, measure: str | None, day: int) -> CheckFinding:
        start = pd.Timestamp(f"2026-01-{day:02d}", tz=ZONE)
        return CheckFinding(logger=logger, measure=measure, slug="gap", start=start, end=start, count=1, words="A gap.")

    every = [found("bench", "air_temperature", 5), found("bench", "relative_humidity", 5), found("bench", None, 6)]
    told = together([*every, found("door", "air_temperature", 5)])
    assert [(one.logger, measures) for one, measures in told] == [
        ("bench", ("air_temperature", "relative_humidity")), ("bench", ()), ("door", ("air_temperature",)),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("measure", "step_s", "count", "seldom"),
    [
        ("air_temperature", 10_800.0, 2, False), ("air_temperature", 10_801.0, 2, True),
        ("air_temperature", 3600.0, 1, True), ("air_temperature", None, 5, True),
        ("soil_temperature", 21_600.0, 9, False),
        ("soil_temperature", 21_601.0, 9, True), ("heater_on", DAY_S, 1, False), ("heater_energy", 9 * DAY_S, 2, False),
    ],
)  # fmt: skip
def test_which_channels_write_too_seldom(measure: str, step_s: float | None, count: int, seldom: bool) -> None:
    """More than 3 h apart, of soil 6 h, or a single reading; switches hold and counters are differenced."""
    assert seldom_step(measure, step_s, count) is seldom
    at = pd.date_range("2026-01-06", periods=count, freq="1h", tz=ZONE)
    assert too_seldom(channel(pd.Series(1.0, index=at), measure, step_s=step_s)) is seldom


@pytest.mark.parametrize(
    ("step_s", "words"),
    [
        (8 * 3600.0, "once every 8 h"), (0.89 * DAY_S, "once every 21 h"), (0.91 * DAY_S, "about once a day"),
        (1.09 * DAY_S, "about once a day"), (1.11 * DAY_S, "once every 27 h"), (1.99 * DAY_S, "once every 48 h"),
        (2 * DAY_S, "once every 2 days"), (31 * DAY_S, "once every 31 days"),
    ],
)  # fmt: skip
def test_how_often_something_was_read(step_s: float, words: str) -> None:
    """Within a tenth of a day it is once a day; from two days on it is days."""
    assert plain(how_often(step_s)) == words


def test_why_a_channel_tells_no_night() -> None:
    """With its step and the limit of its measure; one reading has no step."""
    at = pd.date_range("2026-01-06", periods=9, freq="8h", tz=ZONE)
    soil = channel(pd.Series(9.0, index=at), "soil_temperature", "bed", step_s=8 * 3600.0)
    assert plain(why_seldom(soil)) == (
        "“bed” was read once every 8 h, and readings more than 6 h apart tell no night, no hours and no extremes"
    )
    lone = channel(pd.Series(9.0, index=at[:1]), "air_temperature", "bed", step_s=None)
    assert plain(why_seldom(lone)) == (
        "“bed” has a single reading, and one reading tells no night, no hours and no extremes"
    )
