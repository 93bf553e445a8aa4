"""Times as written: formats, day and month, the hour that comes twice and the one that never was."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from readings.folder import air, fail, read, times

from reportgen.readings.loggerfile import _clock_words
from reportgen.readings.shapes import ZONES
from reportgen.readings.stamps import read_stamps

UTC_MS = dt.datetime(1970, 1, 1)


def naive(text: str, day_first: bool = True) -> str | None:
    """The one time of a text, as ISO 8601; None if it is none."""
    ms = int(read_stamps([text]).naive(day_first)[0])
    return None if ms < 0 else (UTC_MS + dt.timedelta(milliseconds=ms)).isoformat(sep=" ")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2026-01-14 18:30", "2026-01-14 18:30:00"),
        ("2026-01-14T18:30:05", "2026-01-14 18:30:05"),
        ("2026-01-14T18:30:05.250Z", "2026-01-14 18:30:05.250000"),
        ("20260114T183005", "2026-01-14 18:30:05"),
        ("202601141830", "2026-01-14 18:30:00"),
        ("2026/1/14 8:05", "2026-01-14 08:05:00"),
        ("14.01.2026 18:30", "2026-01-14 18:30:00"),
        ("14. 1. 2026 18:30", "2026-01-14 18:30:00"),
        ("14.01.26, 18.30", "2026-01-14 18:30:00"),
        ("14/01/2026 6:30 PM", "2026-01-14 18:30:00"),
        ("14/01/2026 12:05 a.m.", "2026-01-14 00:05:00"),
        ("14-Jan-2026 18:30", "2026-01-14 18:30:00"),
        ("Jan 14, 2026 06:30:00 pm", "2026-01-14 18:30:00"),
        ("18:30 14/01/2026", "2026-01-14 18:30:00"),
        ("2026-01-14 24:00", "2026-01-15 00:00:00"),
        ("2026-01-14", "2026-01-14 00:00:00"),
        ("2026. 01. 14. 18:30", "2026-01-14 18:30:00"),
        ("2026. 1. 14. 8:05:30", "2026-01-14 08:05:30"),
        ("2026-01-14 18:30 GMT+1", "2026-01-14 18:30:00"),
        ("2026-01-14 18:30:00 (EST)", "2026-01-14 18:30:00"),
        ("1768415400", "2026-01-14 18:30:00"),
        ("1768415400000", "2026-01-14 18:30:00"),
        ("46036.770833333", "2026-01-14 18:30:00"),
        ("2026-02-29 00:00", None),
        ("2026-13-01 00:00", None),
        ("2026-01-14 25:00", None),
        ("14/01/2026 13:30 PM", None),
        ("14-Foo-2026 18:30", None),
        ("soon", None),
        ("", None),
        ("12.5", None),
    ],
)
def test_one_written_time(text: str, told: str | None) -> None:
    """What each way of writing means: epoch numbers count from 1970 (POSIX), day numbers as ECMA-376 has them."""
    assert naive(text) == told


@given(
    moments=st.lists(st.datetimes(dt.datetime(1990, 1, 1), dt.datetime(2099, 12, 31)), min_size=1, max_size=30),
    form=st.sampled_from(
        ["%Y-%m-%d %H:%M:%S", "%d/%m/%Y %H:%M:%S", "%d.%m.%Y %H:%M:%S", "%d %b %Y %I:%M:%S %p", "%Y%m%d%H%M%S"]
    ),
    loose=st.booleans(),
)
def test_times_are_read_as_the_standard_library_wrote_them(moments: list[dt.datetime], form: str, loose: bool) -> None:
    """strftime writes, we read: the same second, also where the digits do not stand below one another."""
    texts = [moment.strftime(form) + (" " * (n % 3) if loose else "") for n, moment in enumerate(moments)]
    told = read_stamps(texts).naive(True)
    assert [UTC_MS + dt.timedelta(milliseconds=int(ms)) for ms in told] == [m.replace(microsecond=0) for m in moments]


@given(st.lists(st.text(max_size=25).filter(lambda text: "\n" not in text), max_size=20))
def test_any_text_is_a_time_or_none(texts: list[str]) -> None:
    """No text breaks the reader of times."""
    assert len(read_stamps(texts).naive(True)) == len(texts)


def rows(stamps: list[str]) -> str:
    """A file of those times, the temperature counting up."""
    return "Time,Temp\n" + "".join(f"{stamp},{5 + n % 7}\n" for n, stamp in enumerate(stamps))


def test_day_first_is_seen_from_one_number_above_12(tmp_path: Path) -> None:
    """One 13 anywhere settles the whole file."""
    channel = air(read(tmp_path, rows(["01/12/2025 00:00", "02/12/2025 00:00", "13/12/2025 00:00"])))
    assert times(channel)[0] == "2025-11-30 23:00:00"


def test_month_first_is_seen_from_the_run_of_times(tmp_path: Path) -> None:
    """The first twelve days of a month, no number above 12: read day first they would leap by months."""
    stamps = [f"12/{day}/2025 {hour}:00" for day in range(1, 13) for hour in (0, 12)]
    channel = air(read(tmp_path, rows(stamps)))
    assert times(channel)[-1] == "2025-12-12 11:00:00"


def test_day_or_month_is_asked_where_nothing_settles_it(tmp_path: Path) -> None:
    """One day with two readings, both in the season: refused, with both of them."""
    (problem,) = fail(tmp_path, rows(["01/02/2026 10:00", "01/02/2026 10:10"])).problems
    assert problem.text() == (
        "a.csv:2  [day-or-month]\n"
        "  found     '01/02/2026 10:00': 1 February 2026 or 2 January 2026; nothing in the file settles it\n"
        "  expected  times with one meaning\n"
        '  to do     write time_format = "%d/%m/%Y %H:%M" (day first) or "%m/%d/%Y %H:%M" (month first) for this logger'
    )


def test_a_neighbour_file_settles_it(tmp_path: Path) -> None:
    """What one file leaves open, another file of the same logger says."""
    (tmp_path / "b.csv").write_text(rows(["02/13/2026 10:00"]))
    readings = read(tmp_path, rows(["01/02/2026 10:00"]), files=("a.csv", "b.csv"))
    assert times(air(readings))[0] == "2026-01-02 09:00:00"
    assert readings.files[0].clock.endswith("day and month as in the logger's other files")


def test_the_season_settles_it(tmp_path: Path) -> None:
    """11 July is no day of the winter, 7 November is."""
    readings = read(tmp_path, rows(["11/07/2025 10:00"]))
    assert times(air(readings)) == ["2025-11-07 09:00:00"]


def test_time_format_has_the_last_word(tmp_path: Path) -> None:
    """What is open by itself is read as season.toml says; other texts are unreadable times."""
    for form, first in (("%d/%m/%Y %H:%M", "2026-02-01 09:00:00"), ("%m/%d/%Y %H:%M", "2026-01-02 09:00:00")):
        readings = read(tmp_path, rows(["01/02/2026 10:00", "01/02/2026 10:10"]), time_format=form)
        assert times(air(readings))[0] == first
    account = read(tmp_path, rows(["01/02/2026 10:00", "2026-02-01 11:00"]), time_format="%d/%m/%Y %H:%M").files[0]
    assert dict(account.set_aside) == {"unreadable time": 1}


def test_a_swapped_block_is_put_right(tmp_path: Path) -> None:
    """A spreadsheet swapped day and month of the days up to the 12th: the run of times tells, and it is said."""
    days = pd.date_range("2025-12-09", "2025-12-18", freq="12h")
    stamps = [f"{d:%Y-%d-%m %H:%M}" if d.day <= 12 else f"{d:%d/%m/%Y %H:%M}" for d in days]
    readings = read(tmp_path, rows(stamps))
    expected = days.tz_localize("Europe/Prague").tz_convert("UTC")
    assert times(air(readings)) == [f"{at:%Y-%m-%d %H:%M:%S}" for at in expected]
    (finding,) = [finding for finding in readings.findings if finding.slug == "day-month-swapped"]
    assert finding.count == 6  # the 9th to the 11th; 12/12 is the same either way


def test_both_orders_without_a_run_are_refused(tmp_path: Path) -> None:
    """Days and months above 12 in both places, in no order: asked about."""
    stamps = ["25/12/2025 00:00", "01/28/2026 00:00", "03/02/2026 00:00", "12/30/2025 00:00", "17/11/2025 00:00"]
    assert "day-or-month" in {problem.slug for problem in fail(tmp_path, rows(stamps)).problems}


def test_several_formats_in_one_file(tmp_path: Path) -> None:
    """Each row is read by its own format."""
    stamps = ["2025-12-01 00:00", "01.12.2025 00:10", "2025-12-01T00:20:00+02:00", "1764544800"]
    assert times(air(read(tmp_path, rows(stamps)))) == [
        "2025-11-30 22:20:00",
        "2025-11-30 23:00:00",
        "2025-11-30 23:10:00",
        "2025-11-30 23:20:00",
    ]


def test_date_and_clock_in_two_columns(tmp_path: Path) -> None:
    """Two columns are joined."""
    text = "Day,Clock,Temp\n2025-12-01,00:10,4\n"
    assert times(air(read(tmp_path, text, time=("Day", "Clock")))) == ["2025-11-30 23:10:00"]


@pytest.mark.parametrize("step", ["10min", "30min", "60min"])
@pytest.mark.parametrize("newest_first", [False, True])
def test_the_hour_that_comes_twice_is_told_apart_by_order(tmp_path: Path, step: str, newest_first: bool) -> None:
    """Instants written on a local clock through the end of summer time come back as the same instants."""
    instants = pd.date_range("2025-10-25 20:00", "2025-10-26 06:00", freq=step, tz="UTC")
    written = [f"{at:%Y-%m-%d %H:%M}" for at in instants.tz_convert("Europe/Prague")]
    readings = read(tmp_path, rows(written[::-1] if newest_first else written))
    assert times(air(readings)) == [f"{at:%Y-%m-%d %H:%M:%S}" for at in instants]
    assert "told apart by order" in readings.files[0].clock


@pytest.mark.parametrize("first", ["2021-10-30 22:00", "2021-10-30 21:00"])
def test_a_log_of_every_three_hours_has_even_steps(tmp_path: Path, first: str) -> None:
    """02:00 once, an hour off what comes before or after: it is the pass in which the steps are of three hours."""
    instants = pd.date_range(first, periods=8, freq="3h", tz="UTC")
    written = [f"{at:%Y-%m-%d %H:%M}" for at in instants.tz_convert("Europe/Prague")]
    days = {"first_day": dt.date(2021, 10, 1), "last_day": dt.date(2021, 12, 1)}
    readings = read(tmp_path, rows(written), season_more=days)
    assert times(air(readings)) == [f"{at:%Y-%m-%d %H:%M:%S}" for at in instants]
    assert not readings.findings


def test_the_spring_change_needs_no_help(tmp_path: Path) -> None:
    """Through the begin of summer time likewise."""
    instants = pd.date_range("2026-03-28 20:00", "2026-03-29 06:00", freq="10min", tz="UTC")
    written = [f"{at:%Y-%m-%d %H:%M}" for at in instants.tz_convert("Europe/Prague")]
    assert times(air(read(tmp_path, rows(written)))) == [f"{at:%Y-%m-%d %H:%M:%S}" for at in instants]


def test_the_hour_that_never_was_is_set_aside_and_asked_about(tmp_path: Path) -> None:
    """A clock that was never set to summer time has times at 02:30 on 29 March: told, with what to write."""
    stamps = ["2026-03-29 01:30", "2026-03-29 02:00", "2026-03-29 02:30", "2026-03-29 03:00"]
    readings = read(tmp_path, rows(stamps))
    assert dict(readings.files[0].set_aside) == {"unreadable time": 2}
    (warning,) = readings.warnings
    assert (warning.slug, warning.line) == ("hour-that-never-was", 3)
    assert '"+01:00"' in warning.todo
    fixed = read(tmp_path, rows(stamps), clock="+01:00")
    assert times(air(fixed))[-1] == "2026-03-29 02:00:00"
    assert not fixed.warnings


def test_an_hour_told_once_is_said(tmp_path: Path) -> None:
    """A file that runs through the repeated hour only once leaves open which of the two it was."""
    stamps = [f"2025-10-26 {hour:02d}:{minute:02d}" for hour in range(5) for minute in (0, 30)]
    (finding,) = [f for f in read(tmp_path, rows(stamps)).findings if f.slug == "hour-told-once"]
    assert finding.count == 2


@pytest.mark.parametrize(("clock", "told"), [("utc", "2025-12-01 00:00:00"), ("-05:30", "2025-12-01 05:30:00")])
def test_clocks_that_know_no_summer_time(tmp_path: Path, clock: str, told: str) -> None:
    """UTC and a fixed offset."""
    assert times(air(read(tmp_path, rows(["2025-12-01 00:00"]), clock=clock))) == [told]


def test_a_half_day_clock_is_refused(tmp_path: Path) -> None:
    """Hours 1 to 12 with every time twice and no am or pm."""
    stamps = [
        f"2025-12-{day:02d} {hour % 12 or 12:02d}:{minute:02d}"
        for day in range(1, 5)
        for hour in range(24)
        for minute in (0, 30)
    ]
    assert [problem.slug for problem in fail(tmp_path, rows(stamps)).problems] == ["half-day-clock"]


def test_rows_out_of_order_are_put_in_order_and_said(tmp_path: Path) -> None:
    """One late row is used where it belongs."""
    readings = read(tmp_path, rows(["2025-12-01 00:00", "2025-12-01 00:20", "2025-12-01 00:10", "2025-12-01 00:30"]))
    assert times(air(readings)) == [f"2025-11-30 23:{minute}0:00" for minute in range(4)]
    (finding,) = readings.findings
    assert (finding.slug, finding.count) == ("out-of-order", 1)


@pytest.mark.parametrize(
    ("zone", "words"),
    [("UTC", "UTC"), ("Etc/UTC", "UTC"), ("Europe/Prague", "local time of Europe/Prague, summer time included")],
)
def test_a_season_kept_in_utc_has_no_summer_time(zone: str, words: str) -> None:
    """The world's clock is never put forward."""
    opened = SimpleNamespace(
        stamps=SimpleNamespace(offset_ms=np.zeros(0, dtype=np.int64), readable=np.zeros(0, dtype=bool)),
        order=SimpleNamespace(why=""),
    )
    told = _clock_words(cast(Any, SimpleNamespace(clock="local")), cast(Any, SimpleNamespace(time_zone=zone)),
                        cast(Any, opened), 0)  # fmt: skip
    assert told == words


@pytest.mark.parametrize("form", ["%y-%m-%d %H:%M", "%y/%m/%d %H:%M:%S"])
@pytest.mark.parametrize("first", [dt.datetime(2025, 11, 10), dt.datetime(2025, 12, 1), dt.datetime(2010, 10, 9)])
@pytest.mark.parametrize("newest_first", [False, True])
def test_a_year_of_two_digits_in_front(form: str, first: dt.datetime, newest_first: bool) -> None:
    """25-12-01 runs on as 1 December 2025 and leaps by years as 25 December 2001; strftime writes, we read."""
    moments = [first + dt.timedelta(hours=n) for n in range(40 * 24)]
    moments = moments[::-1] if newest_first else moments
    stamps = read_stamps([f"{moment:{form}}" for moment in moments])
    told = (stamps.naive(True)).astype("datetime64[ms]").astype(dt.datetime).tolist()
    assert told == moments and not stamps.open.any()


@pytest.mark.parametrize("form", ["%d-%m-%y %H:%M", "%m/%d/%y %H:%M"])
def test_a_year_of_two_digits_at_the_end_stays_there(form: str) -> None:
    """The usual ways, over a turn of the year and over days that could be years."""
    moments = [dt.datetime(2025, 12, 10) + dt.timedelta(hours=n) for n in range(60 * 24)]
    stamps = read_stamps([f"{moment:{form}}" for moment in moments])
    told = stamps.naive(form.startswith("%d")).astype("datetime64[ms]").astype(dt.datetime).tolist()
    assert told == moments


@pytest.mark.parametrize(
    ("written", "instant"),
    [
        ("2026-01-14 13:30 EST", "2026-01-14 18:30:00"),
        ("2025-11-02 01:30 EDT", "2025-11-02 05:30:00"),
        ("2025-11-02 01:30 (EST)", "2025-11-02 06:30:00"),
        ("14.01.2026 19:30 MEZ", "2026-01-14 18:30:00"),
        ("2026-01-14 20:00 GMT+01:30", "2026-01-14 18:30:00"),
        ("2026-01-14 18:30 UTC", "2026-01-14 18:30:00"),
        ("2026-01-14 13:30 UTC-5", "2026-01-14 18:30:00"),
    ],
)
def test_a_clock_named_behind_the_time_is_that_clock(tmp_path: Path, written: str, instant: str) -> None:
    """Wherever the house stands: the named offset goes before the zone of the season."""
    assert times(air(read(tmp_path, rows([written])))) == [instant]


def test_names_of_clocks_are_those_of_the_time_zone_database() -> None:
    """Each short name as the IANA time zone database (tzdata) has it in a zone that uses it, in winter or summer; MEZ
    and MESZ are the German names of CET and CEST."""
    homes = "Europe/Lisbon Europe/Paris Europe/Athens Europe/Moscow America/New_York America/Chicago America/Denver "
    homes += "America/Los_Angeles America/Anchorage Pacific/Honolulu Asia/Tokyo Australia/Perth Australia/Adelaide "
    homes += "Australia/Sydney Pacific/Auckland"
    told = {"MEZ": 60, "MESZ": 120}
    for name in homes.split():
        for month in (1, 7):
            at = dt.datetime(2025, month, 1, tzinfo=ZoneInfo(name))
            offset = at.utcoffset()
            assert offset is not None
            told[str(at.tzname())] = round(offset.total_seconds() / 60)
    assert {name: told.get(name) for name in ZONES} == ZONES


def test_a_clock_whose_name_means_several_is_taken_as_the_house_s(tmp_path: Path) -> None:
    """CST is a clock of Chicago, of Havana and of Shanghai: in Prague, as if it were not there."""
    assert times(air(read(tmp_path, rows(["2026-01-14 19:30 CST"])))) == ["2026-01-14 18:30:00"]
