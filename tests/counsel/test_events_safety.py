"""Fire and fumes: which words of the diary tell of them, which levers tighten a house, which days come together."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from made_season import heater, readings, season

from reportgen.counsel.events_hazard import SMOKE, TOO_NEAR, TRIPPED, hazard_of
from reportgen.counsel.events_safety import UNSAID, UNVENTED, safety_events
from reportgen.counsel.events_tight import tightens
from reportgen.counsel.results import Results
from reportgen.counsel.said_events import safety_clause
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_before, levers_of
from reportgen.readings.types import DiaryEntry, HeatSupply, Readings


def entry(what: str, day: str = "2026-01-10", kind: str = "event", line: int = 2, **more: Any) -> DiaryEntry:
    """One line of the diary."""
    usual: dict[str, Any] = {
        "time": None, "touches": (), "reversible": None, "hoped_for": (), "until": None, "cost": None, "years": None,
        "written": None, "note": "",
    }  # fmt: skip
    return DiaryEntry(line=line, date=dt.date.fromisoformat(day), kind=kind, what=what, **(usual | more))


@pytest.mark.parametrize(
    ("what", "note", "cause"),
    [
        ("Heater stood still", "its overheat cut-out had tripped", TRIPPED),
        ("RCD tripped in the rain", "", TRIPPED),
        ("Tripped over the hose", "", None),
        ("Breaker looked at", "it had not tripped", None),
        ("Heater off", "a fleece had slipped against the grille", TOO_NEAR),
        ("Tray fell on the fan heater", "", TOO_NEAR),
        ("Switched on the fan heater", "", None),
        ("Smoke from the stove", "", SMOKE),
        ("No smoke and no smell", "", None),
        ("Door left open", "", None),
        ("Smokehouse built", "", None),
    ],
)
def test_only_what_the_line_says(what: str, note: str, cause: str | None) -> None:
    """Each sentence read by a person: what it tells of fire or fumes."""
    assert hazard_of(entry(what, note=note), ["fan heater"]) == cause


def test_a_change_tells_what_was_meant_and_not_what_befell() -> None:
    """A new breaker that trips sooner is no accident."""
    assert hazard_of(entry("Breaker that tripped too often changed", kind="change")) is None


def read(*diary: DiaryEntry, heating: tuple[HeatSupply, ...] = ()) -> Readings:
    """A season of January with those lines."""
    made = season()
    found, problems = chains(diary, "diary.csv")
    assert not problems
    return readings(made, diary=diary, heating=heating, levers=levers_of(found, made))


@pytest.mark.parametrize(
    ("what", "touches", "hoped_for", "tight"),
    [
        ("Vents and door gap taped shut to keep the fog out", "air", "drier air", True),
        ("Tape taken off the vents", "air", "drier air", False),
        ("Bubble film inside the roof", "envelope", "less heating", True),
        ("Door brush fitted", "air", "less heating", True),
        ("Dehumidifier set to 84 %", "air", "drier air", False),
        ("Roof opener set to start at 15 °C", "air", "cooler days", False),
        ("Vents opened at noon", "air", "warmer nights", False),
        ("Glass washed", "envelope", "more light", False),
        ("Water butts", "bed", "warmer nights", False),
        ("Four water barrels along the north wall", "air", "warmer nights", False),
        ("Water barrels closed and the gaps sealed", "air", "warmer nights", True),
        ("Curtain at night", "envelope", "", True),
    ],
)
def test_what_tightens_a_house(what: str, touches: str, hoped_for: str, tight: bool) -> None:
    """By the written rule: taken away, closed, opened, hoped."""
    line = entry(what, kind="change", touches=(touches,), hoped_for=(hoped_for,) if hoped_for else ())
    made = read(line)
    assert tightens(made.levers[0], made) == tight


GAS = {"name": "gas heater", "fuel": "propane", "role": "backup", "form": "deliveries", "unit": "kg"}
BOTTLE = [("2026-01-08", "2026-01-19", 30.0, 20.0)]
TAPE = entry("Vents taped", "2026-01-06", "change", 2, touches=("air",))
LIT = entry(
    "Gas heater lit", "2026-01-08", "spell", 3, touches=("heater",), until=dt.date(2026, 1, 17),
    note="low vent left open",
)  # fmt: skip
OPENED = entry("Tape off", "2026-01-12", "change", 4, touches=("air",), undoes="2026-01-06")


def safety(*diary: DiaryEntry, **gas: Any) -> list[Any]:
    """The safety events of that diary and a gas heater."""
    made = read(*diary, heating=(heater(BOTTLE, **(GAS | gas)),))
    return safety_events(cast("Results", SimpleNamespace(readings=made, season=made.season)), set())


def test_the_days_on_which_fuel_burnt_without_a_flue_in_a_taped_house() -> None:
    """Lit from the 8th to the 17th: ten days behind tape; five where the tape came off at noon of the 12th. With a
    flue, or with no tape, there is none."""
    (found,) = safety(TAPE, LIT, vented=False)
    assert (found.kind, found.cause, found.rank, found.days) == ("safety", UNVENTED, 0, 10)
    assert not found.flue_unsaid
    assert (found.start, found.end) == tuple(pd.Timestamp(d, tz="Europe/Prague") for d in ("2026-01-08", "2026-01-18"))
    assert (found.source, found.levers, found.lines) == ("gas heater", ("Vents taped",), (2, 3))
    assert found.diary == ("Vents taped", "Gas heater lit: low vent left open")
    assert [event.days for event in safety(TAPE, LIT, OPENED)] == [5]
    assert [event.days for event in safety(TAPE, LIT, vented=False)] == [10]
    assert safety(TAPE, LIT, vented=True) == []
    assert safety(LIT) == []
    assert safety(TAPE, LIT, fuel="electricity") == []


def test_a_house_taped_before_the_season_is_as_tight() -> None:
    """Taped in October, before the first day: the burner of January is lit behind it all the same. A door brush that
    only its hope tells of counts too; glass washed in October does not."""

    def lit_behind(*earlier: DiaryEntry) -> list[Any]:
        made = season()
        before = levers_before(chains(earlier, "diary.csv")[0], made)
        now = levers_of(chains([LIT], "diary.csv")[0], made)
        of = readings(made, diary=(LIT,), heating=(heater(BOTTLE, **GAS, vented=False),), levers=now)
        whole = replace(of, levers_before=before, diary_before=earlier)
        return safety_events(cast("Results", SimpleNamespace(readings=whole, season=made)), set())

    (found,) = lit_behind(replace(TAPE, date=dt.date(2025, 10, 6)))
    assert (found.days, found.levers, found.diary[0]) == (10, ("Vents taped",), "Vents taped")
    brush = entry("Door brush fitted", "2025-10-06", "change", touches=("air",), hoped_for=("less heating",))
    assert [event.days for event in lit_behind(brush)] == [10]
    assert lit_behind(entry("Glass washed", "2025-10-06", "change", touches=("envelope",))) == []


def test_a_flue_that_nobody_wrote_down_is_asked_for() -> None:
    """`vented` left out: the caution stands, but nothing says that there is none."""
    (found,) = safety(TAPE, LIT)
    assert (found.cause, found.flue_unsaid, found.days) == (UNSAID, True, 10)
    assert "does not say" in found.cause and "without a flue" not in safety_clause(found)
    assert safety_clause(found) == "The gas heater burned 10\u00a0days in a house made tight: no flue is noted"


def test_a_book_of_bottles_does_not_tell_the_day() -> None:
    """Without a line of the diary only the stretch of the bottles is known."""
    (found,) = safety(TAPE)
    assert found.days == 0
    assert (found.start.day, found.end.day) == (8, 19)


def test_a_line_of_fire_on_a_mild_day_is_an_event_of_its_own(tmp_path: Path) -> None:
    """And one that another event carries is not told twice."""
    line = entry("RCD tripped", "2026-01-20", line=7)
    (found,) = safety(line)
    assert (found.kind, found.cause, found.rank, found.diary) == ("safety", TRIPPED, 0, ("RCD tripped",))
    made = read(line)
    assert safety_events(cast("Results", SimpleNamespace(readings=made, season=made.season)), {7}) == []
