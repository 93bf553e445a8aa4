"""Fire and fumes at the bounds of their rules: which days, which lines, how near; every day by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pytest
from made_season import heater, readings, season

from reportgen.counsel.events_hazard import SMOKE, TOO_NEAR, TRIPPED, hazard_of
from reportgen.counsel.events_safety import safety_events, unvented
from reportgen.counsel.grounds import Event
from reportgen.counsel.levers_safety import _own_lever
from reportgen.counsel.results import Results
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import DiaryEntry

GAS: dict[str, Any] = {"name": "gas heater", "fuel": "propane", "role": "backup", "form": "deliveries", "unit": "kg"}
BOTTLE = [("2026-01-08", "2026-01-19", 30.0, 20.0)]


def entry(
    what: str, day: str, kind: str, line: int, *touches: str, until: str | None = None, **more: Any
) -> DiaryEntry:
    usual: dict[str, Any] = {
        "time": None,
        "touches": touches,
        "reversible": None,
        "hoped_for": (),
        "cost": None,
        "years": None,
        "written": None,
        "note": "",
        "until": dt.date.fromisoformat(until) if until else None,
    }
    return DiaryEntry(line=line, date=dt.date.fromisoformat(day), kind=kind, what=what, **(usual | more))


TAPE = entry("Vents taped", "2026-01-06", "change", 2, "air")
LIT = entry("Gas heater lit", "2026-01-08", "spell", 3, "heater", until="2026-01-17")


def events(*diary: DiaryEntry, rows: Any = BOTTLE, told: Any = (), **gas: Any) -> list[Event]:
    made = season()
    found, problems = chains(diary, "diary.csv")
    assert not problems
    read = readings(made, diary=diary, heating=(heater(rows, **(GAS | gas)),), levers=levers_of(found, made))
    return safety_events(cast("Results", SimpleNamespace(readings=read, season=made)), set(told))


def days(*diary: DiaryEntry, **more: Any) -> list[tuple[int, int, int]]:
    """First and last day of January and the number of days, of every event."""
    return [(e.start.day, (e.end - dt.timedelta(days=1)).day, e.days) for e in events(*diary, **more)]


def test_two_days_without_it_are_no_pause_three_are() -> None:
    """Lit on the 8th and 9th, and on the 11th or the 12th: the 10th alone, or two days, between."""
    first = entry("Gas heater lit", "2026-01-08", "spell", 3, "heater", until="2026-01-09")
    assert days(TAPE, first, entry("Gas heater lit", "2026-01-11", "spell", 4, "heater", until="2026-01-11")) == [
        (8, 11, 3)
    ]
    assert days(TAPE, first, entry("Gas heater lit", "2026-01-12", "spell", 4, "heater", until="2026-01-12")) == [
        (8, 9, 2),
        (12, 12, 1),
    ]


def test_days_of_the_diary_come_before_the_book_and_the_log_tells_its_days() -> None:
    """By the spell ten days; by bottles only the stretch, to the 18th; by a log each day on which it burnt."""
    assert days(TAPE, LIT) == [(8, 17, 10)] and days(TAPE) == [(8, 18, 0)]
    rows = [
        ("2026-01-08 18:00", "2026-01-08 22:00", 1.0, 1.0),
        ("2026-01-09 18:00", "2026-01-09 22:00", 0.0, 0.0),
        ("2026-01-10 18:00", "2026-01-11 02:00", 1.0, 1.0),
    ]
    table = heater(rows, **GAS).intervals.assign(sparse=False)
    assert days(TAPE, rows=rows, intervals=table) == [(8, 10, 2)]


def test_only_days_of_the_season_and_while_the_tape_is_up() -> None:
    """The season begins on 5 January; taped from noon of the 12th: that day counts, the 11th does not."""
    before = entry("Gas heater lit", "2026-01-02", "spell", 3, "heater", until="2026-01-07")
    assert days(entry("Vents taped", "2026-01-05", "change", 2, "air"), before) == [(5, 7, 3)]
    assert days(LIT, entry("Vents taped", "2026-01-12", "change", 4, "air")) == [(12, 17, 6)]
    off = entry("Tape off", "2026-01-12", "change", 4, "air", undoes="2026-01-06")
    assert days(TAPE, LIT, off) == [(8, 12, 5)]


def test_lines_told_with_it_are_those_of_its_levers_and_its_own_until_its_end() -> None:
    """The tape and the spell; a tape taken off after the end is not; a line of the stove that was over before it is
    not, nor one that begins after it; each line once."""
    off = entry("Tape off", "2026-01-20", "change", 4, "air", undoes="2026-01-06")
    old = entry("Gas heater cleaned", "2026-01-05", "upkeep", 5, "heater")
    same = entry("Gas heater swept", "2026-01-08", "upkeep", 6, "heater")
    last = entry("Gas heater turned", "2026-01-17", "upkeep", 7, "heater")
    later = entry("Gas heater stored", "2026-01-18", "upkeep", 8, "heater")
    (found,) = events(TAPE, LIT, off, old, same, last, later)
    assert found.lines == (2, 3, 6, 7) and found.levers == ("Vents taped",)
    other = entry("Stove lit", "2026-01-09", "upkeep", 9, "heater")  # another heater by its words
    beside = entry("Gas heater moved", "2026-01-09", "upkeep", 10, "plants")  # does not touch the heat
    (found,) = events(TAPE, LIT, other, beside)
    assert found.lines == (2, 3)


def test_its_own_line_is_no_lever_that_tightens() -> None:
    """A stove that is called by the air it touches does not shut itself in."""
    own = entry("Gas heater and vents shut", "2026-01-08", "spell", 3, "heater", "air", until="2026-01-17")
    assert events(own) == []


def test_a_line_of_fire_is_told_on_its_own_days_in_the_season_only() -> None:
    """From its day to its last, unless another event carries it."""
    line = entry("RCD tripped", "2026-01-20", "event", 7, until="2026-01-22")
    assert [(e.start.day, e.end.day, e.rank, e.lines) for e in events(line, rows=[])] == [(20, 23, 0, (7,))]
    assert events(line, rows=[], told=(7,)) == []
    for day in ("2026-01-04", "2026-02-02"):
        assert events(entry("RCD tripped", day, "event", 7), rows=[]) == []
    for day in ("2026-01-05", "2026-02-01"):
        assert len(events(entry("RCD tripped", day, "event", 7), rows=[])) == 1


@pytest.mark.parametrize(
    ("fuel", "vented", "open_"),
    [("propane", False, True), ("propane", None, True), ("propane", True, False), ("electricity", None, False)],
)
def test_which_heaters_leave_their_fumes(fuel: str, vented: bool | None, open_: bool) -> None:
    """What burns and is not said to have a flue."""
    one = heater(BOTTLE, **(GAS | {"fuel": fuel, "vented": vented}))
    assert bool(unvented(readings(heating=(one,)))) == open_


@pytest.mark.parametrize(
    ("what", "cause"),
    [
        ("breaker tripped", TRIPPED),
        ("breaker has not tripped", None),
        ("breaker has not yet tripped", None),  # denied two words before
        ("breaker not touched, then it tripped", TRIPPED),  # … and not further off
        ("kitten tripped", None),
        ("fleece against the old stove", TOO_NEAR),  # three words on
        ("fleece against the very old stove", None),  # four
        ("fleece not against the stove", None),
        ("tray lying on the stove", TOO_NEAR),
        ("tray on the stove", None),
        ("fleece near the paraffin", None),
        ("fleece near the lamp", TOO_NEAR),  # a heater of that name
        ("soot on the pane", SMOKE),
        ("without soot", None),
    ],
)
def test_how_near_words_must_stand(what: str, cause: str | None) -> None:
    """A denial within two words before, a heater within three after."""
    assert hazard_of(entry(what, "2026-01-20", "event", 7), ["paraffin lamp"]) == cause
    for kind in ("change", "upkeep", "idea"):
        assert hazard_of(entry(what, "2026-01-20", kind, 7), ["paraffin lamp"]) is None


def test_only_a_spell_with_its_end_tells_the_days_on_which_it_was_lit() -> None:
    """Upkeep over days is no burning, and a spell without an end tells no days: the bottles do."""
    swept = entry("Gas heater away for repair", "2026-01-06", "upkeep", 5, "heater", until="2026-01-07")
    assert days(TAPE, swept) == [(8, 18, 0)] and days(TAPE, LIT, swept) == [(8, 17, 10)]


def test_a_heater_s_own_lever_is_known_by_its_thing_or_its_words() -> None:
    """The first that touches the heat and names it; one that names it and touches the plants is another."""

    def of(name: str, thing: str | None, *touches: str) -> Any:
        return SimpleNamespace(name=name, thing=thing, touches=touches)

    by_thing, by_words = of("Bottle changed", "Gas  heater", "heater"), of("Gas heater lit", None, "heater")
    assert _own_lever("gas heater", (by_thing, by_words)) is by_thing
    assert _own_lever("gas heater", (of("Gas heater moved", None, "plants"), by_words)) is by_words
    assert _own_lever("gas heater", (of("Stove lit", "stove", "heater"),)) is None
