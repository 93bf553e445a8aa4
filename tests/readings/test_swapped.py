"""Day and month swapped in part of a file: put right where nothing is in doubt, else asked; never wrong in silence."""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Callable
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from readings.spoiled import DAY_FIRST, MONTH_FIRST, Outcome, Truth, exchange, outcome, truth

from reportgen.inspection import inspect, text

FIRST, LAST = dt.date(2021, 10, 10), dt.date(2022, 4, 30)
LOUD = {"day-or-month", "rows-astray", "days-back-and-forth", "time-told-otherwise"}


def november(day: dt.date) -> bool:
    """The days of one month."""
    return (day.year, day.month) == (2021, 11)


def every_month(_: dt.date) -> bool:
    """Every month's days up to the 12th."""
    return True


def read(folder: Path, series: Truth, *, counter: bool = False, newest_first: bool = False, **more: object) -> Outcome:
    """The outcome in the season of these tests."""
    return outcome(folder, series, series.file(counter, newest_first), FIRST, LAST, **more)


def lines(series: Truth, rows: list[int]) -> str:
    """The lines of those rows in a file that runs forward; the header is the first."""
    return f"lines {rows[0] + 2} to {rows[-1] + 2}"


@pytest.mark.parametrize("counter", [False, True])
@pytest.mark.parametrize("time_format", [None, DAY_FIRST])
def test_a_stretch_that_begins_after_a_missing_hour(tmp_path: Path, counter: bool, time_format: str | None) -> None:
    """After 31/10 23:45 come 11/01 01:00 … 11/12 23:45 and 13/11 00:00: put right, the hour told, also against a
    time_format that fits the rest of the file."""
    hour = (pd.Timestamp("2021-11-01"), pd.Timedelta("1h"))
    series = truth("2021-09-20", "2022-05-05", zone="Europe/London", gaps=(hour,))
    rows = exchange(series, november)
    at = rows[0]
    assert series.texts[at - 1 : at + 1] == ["31/10/2021 23:45", "11/01/2021 01:00"]
    assert series.texts[rows[-1] : rows[-1] + 2] == ["11/12/2021 23:45", "13/11/2021 00:00"]
    seen = read(tmp_path, series, counter=counter, time_format=time_format)
    assert (seen.wrong, seen.lost, seen.problems, seen.warnings) == (0, 0, (), ())
    (words,) = seen.told("day-month-swapped")
    assert f"{lines(series, rows)} read as 1 to 12\xa0November\xa02021, not 11\xa0January to 11\xa0December" in words
    assert f"Above line {at + 2} an hour is missing" in words
    (finding,) = [f for f in seen.findings if f.slug == "day-month-swapped"]
    assert finding.count == len(rows) - 96  # 11/11 is the same either way
    (words,) = read(tmp_path, series, counter=counter, newest_first=True).told("day-month-swapped")
    assert f"Below line {len(series.texts) + 1 - at} an hour is missing" in words


@pytest.mark.parametrize(("zone", "day_first"), [("Europe/Prague", True), ("America/New_York", False)])
@pytest.mark.parametrize("step", ["10min", "15min", "60min"])
@pytest.mark.parametrize("newest_first", [False, True])
@pytest.mark.parametrize("months", [november, every_month])
def test_every_variant_is_put_right(
    tmp_path: Path, zone: str, step: str, day_first: bool, newest_first: bool, months: Callable[[dt.date], bool]
) -> None:
    """Through both changes of summer time, either base, either way round, once or in every month."""
    series = truth("2021-10-05", "2022-04-05", zone=zone, step=step, day_first=day_first)
    exchange(series, months)
    seen = read(tmp_path, series, newest_first=newest_first)
    assert (seen.wrong, seen.lost, seen.problems) == (0, 0, ())
    assert len(seen.told("day-month-swapped")) == 1


@pytest.mark.parametrize("newest_first", [False, True])
def test_text_that_a_spreadsheet_took_for_dates(tmp_path: Path, newest_first: bool) -> None:
    """It made true dates of what it could read month first and left the rest as text: days 1 to 12 of every month."""
    series = truth("2021-10-05", "2022-04-05", step="30min")
    for n, wall in enumerate(series.walls):
        if wall.day <= 12:
            series.texts[n] = f"{wall:%Y-%d-%m %H:%M:%S}"
    seen = read(tmp_path, series, newest_first=newest_first)
    assert (seen.wrong, seen.lost, seen.problems, seen.warnings) == (0, 0, (), ())
    assert seen.told("day-month-swapped")


@pytest.mark.parametrize("step", ["10min", "15min", "60min"])
@pytest.mark.parametrize("off", [1.0, -1.0])
@pytest.mark.parametrize("newest_first", [False, True])
@pytest.mark.parametrize("month", [11, 12])
def test_an_hour_is_put_right_where_the_rows_are_numbered(
    tmp_path: Path, step: str, off: float, newest_first: bool, month: int
) -> None:
    """A stretch an hour off: row numbers that run on at both ends leave no doubt; without them it is told and used as
    written. (The hour that it carries over midnight bears the 31st or the 13th, which nothing could swap.)"""
    series = truth("2021-10-20", "2022-01-20", step=step)
    exchange(series, lambda day: day.month == month, off)
    seen = read(tmp_path, series, counter=True, newest_first=newest_first)
    assert (seen.wrong, seen.lost, seen.problems) == (0, 0, ())
    (words,) = seen.told("day-month-swapped")
    way = "ahead of" if off > 0 else "behind"
    assert f"stood an hour {way} the rows around them; put right, for the row numbers show" in words
    silent = read(tmp_path, series, newest_first=newest_first)
    (words,) = silent.told("day-month-swapped")
    assert silent.wrong and not silent.problems
    assert f"stand an hour {way} the rows above and below them" in words


def test_a_stretch_written_anew_with_its_hour_is_put_right_whole(tmp_path: Path) -> None:
    """Where the other program wrote the hour after midnight of the 13th as well, both ends show the hour."""
    series = truth("2021-10-20", "2021-12-20")
    rows = [n for n, wall in enumerate(series.walls) if wall.month == 11 and wall.day <= 12]
    for n in rows:
        series.texts[n] = (series.walls[n] + pd.Timedelta("1h")).strftime(MONTH_FIRST)
    seen = read(tmp_path, series, counter=True)
    assert (seen.wrong, seen.lost, seen.problems) == (0, 0, ())
    (words,) = seen.told("day-month-swapped")
    assert f"{lines(series, rows).capitalize()} stood an hour ahead of the rows around them; put right" in words
    silent = read(tmp_path, series)
    assert silent.wrong and silent.told("clock-hour-wrong")
    assert not silent.problems


def test_a_lone_day_between_gaps_is_asked_about(tmp_path: Path) -> None:
    """One day out of order, days away from any other: both readings and its neighbours are shown; no file is ready.
    With a time_format it is read as that says, and the warning stays."""
    off = [("2021-10-30", "4D"), ("2021-11-04", "16D")]
    series = truth("2021-10-20", "2021-12-20", gaps=tuple((pd.Timestamp(a), pd.Timedelta(b)) for a, b in off))
    rows = exchange(series, november)
    rows = [n for n in rows if series.walls[n].day == 3]
    seen = read(tmp_path, series)
    (problem,) = seen.problems
    assert (problem.slug, problem.line) == ("day-or-month", rows[0] + 2)
    assert problem.found == (
        f"{lines(series, rows)}, '11/03/2021 00:00' and on: 11\xa0March\xa02021 as the rest of the file is written, or "
        "3\xa0November\xa02021 with day and month exchanged; the row above is of 29\xa0October\xa02021 and the row "
        "below of 20\xa0November\xa02021"
    )
    decided = read(tmp_path, series, time_format=DAY_FIRST)
    assert not decided.problems
    assert [w.slug for w in decided.warnings] == ["day-or-month"]


def test_a_lone_day_is_put_right_by_row_numbers(tmp_path: Path) -> None:
    """The same day where rows were lost that are numbered: the gaps are as long as the numbers say."""
    off = [("2021-10-30", "4D"), ("2021-11-04", "16D")]
    series = truth("2021-10-20", "2022-03-20")
    exchange(series, lambda day: day == dt.date(2021, 11, 3))
    lost = pd.Series(False, index=series.walls)
    for begin, length in off:
        lost |= (series.walls >= pd.Timestamp(begin)) & (series.walls < pd.Timestamp(begin) + pd.Timedelta(length))
    keep = ~lost.to_numpy()
    series.instants, series.values = series.instants[keep], series.values[keep]
    series.texts = [text for text, good in zip(series.texts, keep, strict=True) if good]
    series.counts = [n for n, good in zip(series.counts, keep, strict=True) if good]
    seen = read(tmp_path, series, counter=True)
    assert (seen.wrong, seen.lost, seen.problems) == (0, 0, ())
    assert seen.told("day-month-swapped")


HONEST = {
    "day first": truth("2021-10-05", "2022-04-10"),
    "month first": truth("2021-10-05", "2022-04-10", day_first=False, zone="America/New_York"),
    "a year and more": truth("2021-06-01", "2022-08-30", step="60min"),
    "gaps of days": truth(
        "2021-10-05",
        "2022-04-10",
        step="30min",
        gaps=tuple(
            (pd.Timestamp(at), pd.Timedelta(long))
            for at, long in [
                ("2021-11-02 08:00", "9D"), ("2021-11-30", "3D"), ("2022-01-02", "29D"), ("2022-02-02", "18D"),
                ("2022-03-05 17:30", "26h"),
            ]
        ),
    ),
}  # fmt: skip


@pytest.mark.parametrize("newest_first", [False, True])
@pytest.mark.parametrize("name", HONEST)
def test_honest_files_stay_untouched(tmp_path: Path, name: str, newest_first: bool) -> None:
    """Nothing is exchanged, nothing asked, nothing warned of."""
    seen = read(tmp_path, HONEST[name], newest_first=newest_first)
    assert (seen.wrong, seen.lost, seen.problems, seen.warnings) == (0, 0, (), ())
    assert not seen.slugs & {*LOUD, "day-month-swapped"}


def test_a_day_that_runs_on_in_either_reading_is_asked_about(tmp_path: Path) -> None:
    """One whole day after a gap of a month to the minute: 1 February, or 2 January exchanged. Both are shown."""
    off = [("2022-01-02", "30D"), ("2022-02-02", "18D")]
    series = truth("2021-12-05", "2022-03-10", gaps=tuple((pd.Timestamp(a), pd.Timedelta(b)) for a, b in off))
    (problem,) = read(tmp_path, series).problems
    assert "1\xa0February\xa02022 as the rest of the file is written, or 2\xa0January\xa02022" in problem.found
    decided = read(tmp_path, series, time_format=DAY_FIRST)
    assert (decided.wrong, decided.lost, decided.problems) == (0, 0, ())


def test_exports_that_overlap_stay_untouched(tmp_path: Path) -> None:
    """Ten exports pasted together, each with the ten days before its own; and a later one that begins before all."""
    series = truth("2021-10-05", "2022-02-20", step="60min")
    rows = series.file().splitlines()[1:]
    parts = [rows[max(n - 240, 0) : n + 240] for n in range(0, len(rows), 240)]
    pasted = "\n".join(["Time,Temp", *(row for part in [*parts[2:], rows[:900]] for row in part)])
    seen = outcome(tmp_path, series, pasted, FIRST, LAST)
    assert (seen.wrong, seen.lost, seen.problems, seen.warnings) == (0, 0, (), ())
    assert not seen.slugs & {*LOUD, "day-month-swapped"}


def test_a_clock_set_back_by_hand_stays_untouched(tmp_path: Path) -> None:
    """Three hours told twice with other values are said as repeated and differing; no date is touched."""
    series = truth("2021-11-01", "2022-01-10")
    texts = series.texts
    series.texts = texts[:3000] + texts[2988 : len(texts) - 12]
    seen = read(tmp_path, series)
    assert not seen.problems and not seen.warnings and "day-month-swapped" not in seen.slugs
    assert seen.told("repeated-differ")[0].endswith("the first for its time in the same file")


def test_last_years_year_after_new_year_is_said_loud(tmp_path: Path) -> None:
    """From 31 December 2021 a file goes on with 1 January 2021: outside the season to its end, yet in no order."""
    series = truth("2021-11-01", "2022-02-10")
    series.texts = [text.replace("/2022", "/2021") for text in series.texts]
    (warning,) = [w for w in read(tmp_path, series).warnings if w.slug == "rows-astray"]
    at = next(n for n, text in enumerate(series.texts) if text.startswith("01/01"))
    assert warning.line == at + 2
    assert "1\xa0January to 10\xa0February\xa02021, outside the season" in warning.found
    assert f"line {at + 1} beside them is of 31\xa0December\xa02021" in warning.found


def test_days_outside_among_days_inside_are_said_loud(tmp_path: Path) -> None:
    """A block whose month was mistyped lies outside the season: file, lines, what is read and what stands beside it."""
    series = truth("2021-11-01", "2022-01-30")
    series.texts = [text.replace("/12/2021", "/06/2021") if text < "15" else text for text in series.texts]
    seen = read(tmp_path, series)
    (warning,) = [w for w in seen.warnings if w.slug == "rows-astray"]
    assert "1 to 14\xa0June\xa02021, outside the season" in warning.found
    assert "30\xa0November\xa02021" in warning.found and "15\xa0December\xa02021" in warning.found
    assert seen.told("rows-astray")[0].startswith("a.csv: ")


def test_rows_that_leap_to_and_fro_are_said_loud(tmp_path: Path) -> None:
    """Days in no order: said, with the first two lines; the readings are right all the same."""
    series = truth("2021-11-01", "2021-12-10", step="60min")
    days = sorted({wall.date() for wall in series.walls}, key=lambda day: (day.toordinal() * 17) % 40)
    by_day = {day: [n for n, wall in enumerate(series.walls) if wall.date() == day] for day in days}
    rows = series.file().splitlines()
    seen = outcome(tmp_path, series, "\n".join([rows[0], *(rows[n + 1] for d in days for n in by_day[d])]), FIRST, LAST)
    assert seen.wrong == seen.lost == 0
    (warning,) = seen.warnings
    assert warning.slug == "days-back-and-forth" and warning.line is not None
    assert f"line {warning.line} is of" in warning.found


def test_two_loggers_in_one_file_are_said_loud(tmp_path: Path) -> None:
    """Each time twice with different values: the one used is named, with both lines."""
    series = truth("2021-11-01", "2021-11-20")
    rows = series.file().splitlines()
    twice = [rows[0]] + [line for row in rows[1:] for line in (row, f"{row.rsplit(',', 1)[0]},2.25")]
    seen = outcome(tmp_path, series, "\n".join(twice), FIRST, LAST)
    assert seen.wrong == 0
    (warning,) = [w for w in seen.warnings if w.slug == "time-told-otherwise"]
    assert f"at 2021-11-01 00:00 line 2 reads {series.values[0]:.2f} and line 3 reads 2.25" in warning.found


def test_inspect_is_not_ready_in_silence(tmp_path: Path) -> None:
    """What is asked stands between the folder and a review; what is said loud stands beside Ready."""
    off = [("2021-10-30", "4D"), ("2021-11-04", "16D")]
    series = truth("2021-10-20", "2021-12-20", gaps=tuple((pd.Timestamp(a), pd.Timedelta(b)) for a, b in off))
    exchange(series, november)
    (tmp_path / "a.csv").write_text(series.file())
    (tmp_path / "season.toml").write_text(
        'format = 1\ntitle = "W"\nfirst_day = 2021-10-20\nlast_day = 2021-12-20\ntime_zone = "Europe/Prague"\n'
        '[[logger]]\nname = "bench"\nwhere = "crop"\nfiles = ["a.csv"]\ntime = "Time"\n'
        '[logger.measures]\nair_temperature = { column = "Temp", unit = "degC" }\n'
    )
    found = inspect(tmp_path)
    assert not found.complete
    assert "1\xa0problem to mend" in text(found)


BASES = st.fixed_dictionaries(
    {
        "zone": st.sampled_from(["Europe/Prague", "Europe/London", "America/New_York", "America/Denver"]),
        "step": st.sampled_from(["10min", "15min", "60min"]),
        "day_first": st.booleans(),
    }
)
GAPS = st.lists(
    st.tuples(
        st.integers(0, 200 * 24).map(lambda h: pd.Timestamp("2021-09-25") + pd.Timedelta(hours=h)),
        st.one_of(st.integers(1, 72), st.integers(1, 25).map(lambda days: 24 * days)).map(
            lambda h: pd.Timedelta(hours=h)
        ),
    ),
    max_size=5,
).map(tuple)
CLOCK_DAYS = [dt.date(2021, 10, 31), dt.date(2021, 11, 7), dt.date(2022, 3, 13), dt.date(2022, 3, 27)]


def clear_of_clock_changes(gaps: tuple[tuple[pd.Timestamp, pd.Timedelta], ...]) -> bool:
    """Which of the two hours is missing at a change of the clock is another matter."""
    day = pd.Timedelta("1D")
    return not any(
        begin < pd.Timestamp(change) + day and begin + length > pd.Timestamp(change)
        for begin, length in gaps
        for change in CLOCK_DAYS
    )


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(
    base=BASES,
    gaps=GAPS,
    months=st.sets(st.integers(1, 12), max_size=4),
    part=st.tuples(st.integers(1, 12), st.integers(1, 12)),
    counter=st.booleans(),
    newest_first=st.booleans(),
    told=st.booleans(),
)
def test_what_is_put_right_is_the_truth(
    base: dict[str, object], gaps: tuple[tuple[pd.Timestamp, pd.Timedelta], ...], months: set[int],
    part: tuple[int, int], counter: bool, newest_first: bool, told: bool,
) -> None:  # fmt: skip
    """Any months' days in part or whole, any gaps, any base: the readings are the truth, or it is asked or said."""
    assume(clear_of_clock_changes(gaps))
    series = truth("2021-09-25", "2022-05-05", gaps=gaps, **base)  # type: ignore[arg-type]
    low, high = min(part), max(part)
    exchange(series, lambda day: day.month in months and low <= day.day <= high)
    form = (DAY_FIRST if base["day_first"] else MONTH_FIRST) if told else None
    with tempfile.TemporaryDirectory() as name:
        seen = read(Path(name), series, counter=counter, newest_first=newest_first, time_format=form)
    if seen.wrong or seen.lost:
        asked = [fault for fault in (*seen.problems, *seen.warnings) if fault.slug in LOUD]
        assert asked, (seen.wrong, seen.lost)
    if not months:
        assert not seen.told("day-month-swapped") and (seen.wrong, seen.lost) == (0, 0)
