"""What has a date in a winter that still runs, and the days that are left of it; every date by hand."""

from __future__ import annotations

import datetime as dt
import sys
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FIRST, GAS, LAST, at, event, grounds, winter
from made_season import ZONE, channel, heater, logger, season

from reportgen.counsel.deadlines import Deadline, deadlines
from reportgen.counsel.next_season import a_year_on, next_season, quiet_until, rest_of_season, still_quiet
from reportgen.measures.stock_left import StockLeft
from reportgen.readings.diary_lines import TICK_LINES
from reportgen.readings.types import DiaryEntry, Inspection

NBSP = "\u00a0"
NOW = dt.date(2026, 1, 20)  # of the last reading, at 18:00


def line(day: str, what: str = "Bubble film", kind: Any = "change", **more: Any) -> DiaryEntry:
    usual: dict[str, Any] = {
        "line": 2,
        "date": dt.date.fromisoformat(day),
        "time": None,
        "kind": kind,
        "what": what,
        "touches": ("envelope",),
        "reversible": True,
        "hoped_for": ("warmer nights",),
        "until": None,
        "cost": None,
        "years": None,
        "written": None,
        "note": "",
    }
    return DiaryEntry(**(usual | more))


def tick(day: str, until: str | None = None, what: str = "Fan at night", **more: Any) -> DiaryEntry:
    """A night or nights of a trial on, from its tick sheet."""
    end = dt.date.fromisoformat(until) if until else None
    return line(day, what, "spell", until=end, **({"line": TICK_LINES + 1} | more))


def running(clock: str = "18:00", last: str = LAST, open_ended: bool = False, **more: Any) -> Any:
    """A winter read to 20 January."""
    of = season(FIRST, last, heating=(GAS,), loggers=(logger("yard", where="outdoor"),))
    of = (of.without_end() if open_ended else of).read_to(at("2026-01-20", clock))
    return winter(of=of, **more)


def told(r: Any, on: Any = None) -> tuple[Deadline, ...]:
    return deadlines(r, grounds() if on is None else on)


def test_nothing_is_due_in_a_winter_that_is_over() -> None:
    """Whatever its books say; nor has it days to come, nor quiet nights that run."""
    over = winter(diary=(line("2026-04-10"), tick("2026-04-12")))
    assert told(over) == () and rest_of_season(over) is None and still_quiet(over) == ()


# ---- looks


def look(day: str) -> Inspection:
    return Inspection(line=2, date=dt.date.fromisoformat(day), bed=None, crop=None, found="nothing", level=0, action="")


@pytest.mark.parametrize(("days", "words"), [(("2026-01-17",), "3"), (("2026-01-10", "2026-01-12"), "8")])
def test_a_look_is_asked_for_three_nights_after_the_last(days: tuple[str, ...], words: str) -> None:
    """From the latest line to the last reading: 17 to 20 January are 3 nights, 12 to 20 are 8."""
    (found,) = told(running(inspections=tuple(map(look, days))))
    assert (
        found.kind == "look" and f"{words}{NBSP}nights" in found.what and f"{days[-1][-2:]}{NBSP}January" in found.why
    )
    assert found.until is None


@pytest.mark.parametrize("days", [(), ("2026-01-18",), ("2026-01-25",)])
def test_no_look_is_asked_for_where_none_is_kept_or_one_was_lately(days: tuple[str, ...]) -> None:
    """Two nights; a line after the last reading alone is no look yet."""
    assert told(running(inspections=tuple(map(look, days)))) == ()


# ---- quiet nights


def test_quiet_nights_run_ten_days_from_a_change() -> None:
    """15 January + 10 = 25: five of ten still to run on the 20th; of two the later one says until when."""
    assert quiet_until(line("2026-01-15")) == dt.date(2026, 1, 25)
    (found,) = told(running(diary=(line("2026-01-15"),)))
    assert (found.kind, found.until) == ("quiet", dt.date(2026, 1, 25))
    assert f"5{NBSP}quiet nights of 10" in found.why and "Bubble film" in found.why and f"25{NBSP}January" in found.what
    (two,) = told(running(diary=(line("2026-01-18", "Door seal"), line("2026-01-12"))))
    assert two.until == dt.date(2026, 1, 28) and f"8{NBSP}quiet nights" in two.why
    assert "Door seal" in two.why and "Bubble film" in two.why
    three = (line("2026-01-18", "Door seal"), line("2026-01-12"), line("2026-01-13", "Base skirt"))
    assert "“Door seal”, “Bubble film” and “Base skirt”" in told(running(diary=three))[0].why


@pytest.mark.parametrize(
    "entry",
    [line("2026-01-10"), line("2026-01-15", kind="event"), line("2026-01-15", hoped_for=("good looks",))],
)
def test_what_no_logger_judges_or_is_over_needs_no_quiet(entry: DiaryEntry) -> None:
    """Ten nights after 10 January are over on the 20th; an event; a hope of another kind."""
    assert told(running(diary=(entry,))) == ()


def test_what_is_unsafe_does_not_wait() -> None:
    """Only where something is unsafe."""
    r = running(diary=(line("2026-01-15"),))
    assert "does not wait" in told(r, grounds(events=(event("safety", "fumes"),)))[0].why
    assert "does not wait" not in told(r, grounds(events=(event(),)))[0].why


# ---- trials


@pytest.mark.parametrize(
    ("spells", "words", "until"),
    [
        ((tick("2026-01-19", "2026-01-21"),), f"off at noon on 22{NBSP}January", dt.date(2026, 1, 22)),
        ((tick("2026-01-20"),), f"off at noon on 21{NBSP}January", dt.date(2026, 1, 21)),
        ((tick("2026-01-19"), tick("2026-01-23")), f"on at noon on 23{NBSP}January", dt.date(2026, 1, 23)),
        (
            (tick("2026-01-23"), tick("2026-01-18", "2026-01-20")),
            f"off at noon on 21{NBSP}January",
            dt.date(2026, 1, 21),
        ),
    ],
)
def test_a_trial_is_switched_at_its_next_turn(spells: Any, words: str, until: dt.date) -> None:
    """On through its nights, off at the noon after the last of them; between two, on at the noon of the next."""
    (found,) = told(running(diary=spells))
    assert found.kind == "trial" and words in found.what and found.until == until


def test_a_trial_whose_last_night_was_yesterday_goes_on_and_an_older_one_is_over() -> None:
    """Its ticks end on the 19th: no further turn is known, tick every night; on the 18th: over."""
    (found,) = told(running(diary=(tick("2026-01-19"),)))
    assert found.until is None and "every night" in found.what
    assert told(running(diary=(tick("2026-01-18"),))) == ()


def test_before_noon_the_night_is_yesterdays() -> None:
    """A last reading at 11:00 still lies in the night of the 19th: the switch at noon of the 20th is to come."""
    assert told(running("11:00", diary=(tick("2026-01-19"),)))[0].until == NOW
    assert told(running("12:00", diary=(tick("2026-01-19"),)))[0].until is None


def test_lines_of_the_diary_are_no_trial_and_ticks_ahead_are() -> None:
    """A spell that was written by hand is none; a tick of a night to come counts once."""
    assert told(running(diary=(tick("2026-01-20", line=TICK_LINES),))) == ()
    ahead = tick("2026-01-22")
    (found,) = told(running(diary=(tick("2026-01-20"),), ahead=(ahead,)))
    assert found.until == dt.date(2026, 1, 21)
    (only,) = told(running(ahead=(ahead,)))
    assert only.until == dt.date(2026, 1, 22) and "on at noon" in only.what
    two = told(running(diary=(tick("2026-01-20"), tick("2026-01-20", what="Vent at noon"))))
    assert len(two) == 2


# ---- stock


def stock(low: float, high: float, left: float = 4.5, **more: Any) -> StockLeft:
    usual: dict[str, Any] = {"name": "gas stove", "fuel": "propane", "unit": "kg", "nights": 12}
    return StockLeft(left=left, low=low, high=high, **(usual | more))


def stocked(
    monkeypatch: pytest.MonkeyPatch,
    *stores: StockLeft,
    nights: list[float] | None = None,
    on: Any = None,
    outdoors: bool = True,
) -> tuple[tuple[Deadline, ...], list[Any]]:
    """Deadlines of these stores, and the cold nights they were asked of."""
    asked: list[Any] = []
    monkeypatch.setattr(
        sys.modules[deadlines.__module__], "stock_left", lambda readings, cold: (asked.append(list(cold)), stores)[1]
    )
    cold = nights or [-2.0, 0.0, -0.1]
    days = [dt.date(2026, 1, 10 + n) for n in range(len(cold))]
    frost = SimpleNamespace(table=pd.DataFrame({"outdoor_min": cold}, index=days))
    hours = pd.date_range("2026-01-10", "2026-01-20", freq="1h", tz=ZONE)
    air = (channel(pd.Series(1.0, hours), logger="yard", where="outdoor"),) if outdoors else ()
    return told(running(frost=frost, channels=air), on), asked


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (3.9, 7.2, "3 to 7 nights of frost"),  # whole nights: a part of one does not carry a night
        (3.1, 3.9, f"about 3{NBSP}nights"),
        (0.5, 1.9, "0 to 1 nights"),
        (1.0, 1.5, f"about 1{NBSP}night of frost"),
        (0.2, 0.9, "not one more night"),
    ],
)
def test_a_store_is_told_in_whole_nights_of_frost(
    low: float, high: float, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rounded down, by the hardest and the mildest of 12 nights; nights under 0 °C outdoors are those of frost."""
    (found,), asked = stocked(monkeypatch, stock(low, high))
    assert words in found.what and f"4.5{NBSP}kg" in found.what and f"12{NBSP}nights" in found.why
    assert "carbon monoxide" in (found.caution or "")
    assert asked == [[dt.date(2026, 1, 10), dt.date(2026, 1, 12)]]


@pytest.mark.parametrize(
    ("left", "unit", "words"),
    [(9.96, "kg", f"10.0{NBSP}kg"), (10.0, "gal_us", f"10{NBSP}US gal"), (12.6, "kg", f"13{NBSP}kg")],
)
def test_ten_and_more_are_told_whole(left: float, unit: str, words: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the unit in words."""
    (found,), _ = stocked(monkeypatch, stock(3.0, 7.0, left, unit=unit))
    assert found.what.startswith(f"{words} left")


def test_a_store_that_must_not_burn_is_not_counted_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its nights are not told; whether its flue is known is."""
    fumes = event("safety", "fumes", source="gas stove")
    (found,), _ = stocked(monkeypatch, stock(3.0, 7.0), on=grounds(events=(fumes,)))
    assert "Do not count on" in found.what and "nights" not in found.what and "flue" not in found.why
    unsaid = event("safety", "fumes", source="gas stove", flue_unsaid=True)
    (found,), _ = stocked(monkeypatch, stock(3.0, 7.0), on=grounds(events=(unsaid,)))
    assert "flue is not told" in found.why
    (other,), _ = stocked(monkeypatch, stock(3.0, 7.0), on=grounds(events=(event(source="gas stove"),)))
    assert "3 to 7" in other.what  # a failure of it is no reason not to light it


def test_without_outdoor_air_no_nights_are_promised(monkeypatch: pytest.MonkeyPatch) -> None:
    """How cold it was is not known."""
    assert stocked(monkeypatch, stock(3.0, 7.0), outdoors=False)[0] == ()


# ---- the rest of the winter


def test_the_rest_of_a_winter_begins_the_day_after_the_last_reading() -> None:
    """21 January to 12 April as season.toml names it; all of it may be the coldest; ready within a week."""
    found = rest_of_season(running(diary=(line("2026-01-12"), line("2026-01-15"))))
    assert found is not None
    first, last = dt.date(2026, 1, 21), dt.date(2026, 4, 12)
    assert (found.first, found.last, found.coldest, found.running) == (first, last, (first, last), True)
    assert found.begins == dt.date(2026, 1, 28) and found.quiet == dt.date(2026, 1, 25)
    assert (found.heated, found.frost, found.unlogged) == (None, None, frozenset())


def test_without_a_last_day_four_weeks_are_planned() -> None:
    """20 January + 28 days; a last day that has come leaves nothing."""
    found = rest_of_season(running(open_ended=True))
    assert found is not None and found.last == dt.date(2026, 2, 17) and found.quiet is None
    assert rest_of_season(running(last="2026-01-20")) is None
    one = rest_of_season(running(last="2026-01-21"))
    assert one is not None and one.first == one.last == one.begins == dt.date(2026, 1, 21)


def test_absences_to_come_are_kept_whole() -> None:
    """One that ends after the last reading, even one that has begun; one that ended with it is over."""
    lines = (
        line("2026-01-18", "Away", "away", until=dt.date(2026, 1, 22)),
        line("2026-01-10", "Away", "away", until=NOW),
        line("2026-02-01", "Away", "away"),
        line("2026-02-01", "Thaw", "event"),
    )
    found = rest_of_season(running(diary=lines))
    assert found is not None
    assert found.away == ((dt.date(2026, 1, 18), dt.date(2026, 1, 22)), (dt.date(2026, 2, 1), dt.date(2026, 2, 1)))


@pytest.mark.parametrize(("end", "loose"), [("2026-01-14", True), ("2026-01-13 23:00", False)])
def test_heat_is_taken_as_logged_as_in_the_last_week(end: str, loose: bool) -> None:
    """A sum over days that reaches into 14 to 20 January: none of the days to come is known by the day."""
    supply = heater([("2026-01-05", end, 30.0, 9.0)])
    found = rest_of_season(running(heating=(supply,)))
    assert found is not None
    assert len(found.unlogged) == ((dt.date(2026, 4, 12) - NOW).days if loose else 0)


# ---- next season's dates


def test_a_season_that_is_over_moves_a_year_on() -> None:
    """Heat from 3 November to 2 March, frost on 5 December and 1 March alone, away over Christmas."""
    days = [dt.date(2025, 12, 4), dt.date(2025, 12, 5), dt.date(2026, 2, 28), dt.date(2026, 3, 1)]
    frost = SimpleNamespace(table=pd.DataFrame({"outdoor_min": [0.0, -1.0, 3.0, -0.1]}, index=days))
    rows = [
        ("2025-11-02 10:00", "2025-11-02 22:00", 0.09, 0.0),
        ("2025-11-03 10:00", "2025-11-03 22:00", 0.1, 0.0),
        ("2026-03-01 18:00", "2026-03-02 06:00", 4.0, 1.0),
    ]
    away = line("2025-12-24", "Away", "away", until=dt.date(2025, 12, 27))
    found = next_season(winter(frost=frost, heating=(heater(rows),), diary=(away, line("2026-01-12"))))
    assert (found.first, found.last) == (dt.date(2026, 10, 11), dt.date(2027, 4, 12))
    assert found.heated == (dt.date(2026, 11, 3), dt.date(2027, 3, 2))
    assert found.frost == (dt.date(2026, 12, 5), dt.date(2027, 3, 1))
    assert found.away == ((dt.date(2026, 12, 24), dt.date(2026, 12, 27)),)
    assert (found.begins, found.unlogged, found.running) == (dt.date(2026, 11, 3), frozenset(), False)
    bare = next_season(winter(frost=frost))
    assert (bare.heated, bare.begins) == (None, dt.date(2026, 12, 5))
    none = next_season(winter())
    assert (none.frost, none.coldest, none.begins) == (None, None, dt.date(2026, 11, 10))  # a month on


def test_only_sums_over_more_than_a_day_and_a_half_are_not_known_by_the_day() -> None:
    """37 h are two or three days together; 36 h, or a sum of nothing, are not."""
    rows = [
        ("2025-12-01 00:00", "2025-12-02 13:00", 5.0, 1.0),
        ("2025-12-05 00:00", "2025-12-06 12:00", 5.0, 1.0),
        ("2025-12-10 00:00", "2025-12-14 00:00", 0.0, 0.0),
    ]
    found = next_season(winter(heating=(heater(rows),)))
    assert found.unlogged == {dt.date(2026, 12, 1), dt.date(2026, 12, 2)}


def test_a_leap_day_moves_to_the_last_of_february() -> None:
    """29 February 2028 is 28 February 2029."""
    assert a_year_on(dt.date(2028, 2, 29)) == dt.date(2029, 2, 28)
    assert a_year_on(dt.date(2028, 2, 28)) == dt.date(2029, 2, 28)
