"""Seasons read too seldom, or not at all for a month: no night, no hours and no extremes are made up, on any page."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from kept_reviews import season_of, site_of

SELDOM = (
    "one reading",
    "noon readings",
    "readings before dawn",
    "two readings a month apart",
    "morning and afternoon readings",
)
NO_WORD = re.compile(r"\b(nan|NaN|NaT|None|undefined|inf|Infinity)\b(?! of)")
CLAIMS = re.compile(r"closest call|nothing was wrong|no night fell|logged whole|Nothing was logged outdoors", re.I)
HOURS = 120 * 24  # 1 November to 28 February: 30 + 31 + 31 + 28 days, no clock change between


def built(name: str) -> tuple[dict[str, Any], dict[str, str]]:
    """The review of an odd season as data, and the text of its pages by their name."""
    site = site_of(name)
    found: dict[str, Any] = json.loads((site / "data" / "review.json").read_text("utf-8"))
    return found, {page.stem: _text(page) for page in site.glob("*.html")}


def _text(page: Path) -> str:
    bare = re.sub(r"<(script|style|svg)\b.*?</\1>", " ", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())


def numbers(value: Any) -> Iterator[float]:
    """Every number below a value of the review."""
    if isinstance(value, dict):
        for key, part in value.items():
            if key != "reasons":
                yield from numbers(part)
    elif isinstance(value, list):
        for part in value:
            yield from numbers(part)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield value


@pytest.mark.parametrize("name", SELDOM)
def test_readings_far_apart_tell_no_night_no_hours_and_no_extremes(name: str) -> None:
    """Nulls with reasons in the data, words on every page, and no sentence that needs a night."""
    data, pages = built(name)
    frost, damp, soil = data["frost"], data["damp"], data["soil"]
    assert frost["minimum"]["temperature_c"] is None and "tell" in frost["reasons"]["minimum.temperature_c"]
    assert (frost["nights"], frost["nights_partly_logged"], frost["alarms"]) == (0, 0, [])
    assert not list(numbers([frost["nights_below"], frost["hours_below"], frost["hot_hours"]]))
    assert not list(numbers([damp[key] for key in ("hours_above_high", "longest_spell", "leaf_wet_hours")]))
    assert not list(numbers([soil[key] for key in ("hours_below_aim", "swing_amplitude_k", "lag_h")]))
    for n, channel in enumerate(data["record"]["channels"]):
        assert (channel["minimum"], channel["maximum"], channel["hours_recorded"]) == (None, None, 0.0)
        assert "tell" in data["record"]["reasons"][f"channels.{n}.minimum"]
    assert data["heat"]["kwh"] is None  # power now and then is no heat of the season
    assert not any(effect["effect"] for change in data["changes"] for effect in change["outcomes"])
    assert "too seldom" in pages["frost"] and "too seldom" in pages["damp"] and "too seldom" in pages["record"]
    for page, text in pages.items():
        assert not NO_WORD.search(text), page
        assert not CLAIMS.search(text), (page, CLAIMS.search(text))
        assert "Traceback" not in text


def test_the_mean_of_readings_far_apart_is_the_plain_mean() -> None:
    """120 noon readings: their mean, worked out here from the file itself, and how many they are."""
    data, pages = built("noon readings")
    rows = [line.split(",") for line in (season_of("noon readings") / "all.csv").read_text().splitlines()[1:]]
    means = {channel["measure"]: channel["mean"] for channel in data["record"]["channels"]}
    assert len(rows) == 120
    assert means["air_temperature"] == pytest.approx(sum(float(row[1]) for row in rows) / 120, abs=1e-9)
    assert data["soil"]["mean_c"] == pytest.approx(sum(float(row[5]) for row in rows) / 120, abs=1e-9)
    assert "once a day" in pages["frost"] and "120 readings" in pages["frost"]


@pytest.mark.parametrize("name", ["noon readings", "two readings a month apart", "morning and afternoon readings"])
def test_a_night_that_nobody_read_is_told_as_unknown(name: str) -> None:
    """Inside and outdoors are read too seldom: every hour of the season is unknown, none is said to be mild."""
    frost = built(name)[0]["frost"]
    assert frost["unrecorded_cold_hours"] is None and frost["reasons"]["unrecorded_cold_hours"]
    assert frost["unrecorded_unknown_hours"] == pytest.approx(HOURS)
    assert frost["could_have_been_c"] is None
    assert frost["reasons"]["could_have_been_c"] != "no cold hour without a reading"


def test_cold_outdoors_is_counted_while_the_crop_was_read_at_noon() -> None:
    """The hours under 0 °C of the hourly outdoor file, on a grid of a minute made here, are all unrecorded inside;
    the hour before its first row is unknown."""
    data, pages = built("noon readings beside hourly outdoors")
    rows = [
        line.split(",")
        for line in (season_of("noon readings beside hourly outdoors") / "yard.csv").read_text().splitlines()[1:]
    ]
    outdoor = np.array([float(row[3]) for row in rows])
    minutes = np.interp(np.arange(0.5, 60 * (len(rows) - 1)), 60.0 * np.arange(len(rows)), outdoor)
    frost = data["frost"]
    assert frost["unrecorded_cold_hours"] == pytest.approx((minutes < 0).sum() / 60.0, abs=2.0)  # minutes at crossings
    assert frost["unrecorded_unknown_hours"] == pytest.approx(1.0)
    assert frost["minimum"]["temperature_c"] is None
    assert "the crop air is not on record while it was under 0.0 °C outdoors" in pages["frost"]
    assert "nearly all of it" not in pages["record"].partition("channels recorded")[0]


def test_a_month_missing_indoors_and_out_is_counted_and_said() -> None:
    """Hourly rows up to 30 November 23:00 and from 1 January 00:00 (UTC): 31 days and an hour, and the first hour of
    the season, that begins at 23:00 UTC of the day before its first row; its end, 23:00 UTC, is on record."""
    data, pages = built("a month missing")
    frost = data["frost"]
    assert frost["unrecorded_cold_hours"] == 0.0  # nothing is known to have been cold …
    assert frost["unrecorded_unknown_hours"] == pytest.approx(31 * 24 + 1 + 2)  # summer time in October: 2 h before
    assert not any(finding["slug"] == "nothing-wrong" for finding in data["findings"])
    assert "neither the crop air nor the outdoor air is on record" in pages["frost"]
    heading = r"(Never colder than [^;]* inside|It never froze inside) on record|Frost came in on at least"
    assert re.search(heading, pages["frost"])  # no claim on the whole season
    assert "how cold it was outside then is not on record either" in pages["record"]


def test_a_logger_that_turns_daily_keeps_its_good_weeks() -> None:
    """Hourly to the end of December and at noon from then on: the two months count, the readings at noon do not."""
    data, _ = built("daily from January")
    air = data["record"]["channels"][0]
    assert air["hours_recorded"] == pytest.approx(61 * 24 - 2 + 1, abs=1.01)
    assert data["frost"]["nights"] == 60  # that of 31 December breaks off at midnight
    assert data["frost"]["unrecorded_unknown_hours"] == pytest.approx(HOURS - air["hours_recorded"], abs=0.1)
