"""Findings that few seasons call for: each on figures that must call it forth, and on figures that must not."""

from __future__ import annotations

import dataclasses
import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from counsel.hand import change
from counsel.sentences import faults

from reportgen.counsel import changes_open, frost_next, light, soil
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said
from reportgen.effects.types import Changes
from reportgen.measures.exposure import Band
from reportgen.measures.frost_types import Away
from reportgen.measures.there import There
from reportgen.season.models import Aims, House
from reportgen.wording import Wording

MONDAY = dt.date(2026, 3, 16)


def facts(latitude: float = 50.0, **sections: Any) -> Facts:
    """Just what one rule reads."""
    season = SimpleNamespace(
        aims=Aims(hot_c=25.0),
        house=House(light_transmission=0.7),
        place=SimpleNamespace(latitude=latitude),
        first_day=dt.date(2025, 10, 1),
        last_day=MONDAY,
    )
    r = SimpleNamespace(season=season, **sections)
    return cast("Facts", SimpleNamespace(r=r, w=Wording(us=False, currency="EUR"), there=There()))


def stands(found: Said | None) -> Said:
    """It is said, and every sentence of it may stand."""
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


def frost(**figures: Any) -> SimpleNamespace:
    """The frost section of a season without heat of day and without absences, but for what is given."""
    nights = pd.DataFrame({"heated_h": [5.0]}, index=[MONDAY])
    usual = {"open_week": None, "hot_hours": Band(estimate=0.0), "away": (), "line_c": 0.0, "table": nights}
    return SimpleNamespace(**(usual | figures))


def test_three_hot_days_running_say_when_to_open_up() -> None:
    """With a week in which it was too hot three days running, of longer days in the north; silent without one."""
    hot = frost(open_week=MONDAY, hot_hours=Band(estimate=31.0))
    found = stands(frost_next.hot(facts(frost=hot)))
    assert "16\u00a0March" in found.claim and "25\u00a0°C" in found.claim and "31\u00a0h" in found.evidence
    assert "no more heating by day" in found.next_step
    autumn = stands(frost_next.hot(facts(-50.0, frost=hot)))
    assert "heating" not in autumn.next_step and "next year" not in autumn.next_step
    assert frost_next.hot(facts(frost=frost())) is None


def away(coldest_c: float | None, blind_hours: float) -> Away:
    """Five nights with nobody there."""
    figures: dict[str, Any] = {
        "start": dt.date(2025, 12, 27),
        "end": dt.date(2025, 12, 31),
        "nights": 5,
        "coldest_c": coldest_c,
        "blind_hours": blind_hours,
    }
    return Away(**{field.name: figures.get(field.name) for field in dataclasses.fields(Away)})


@pytest.mark.parametrize(
    ("absence", "words"),
    [
        (away(0.4, 0.0), "0.4\u00a0°C"),
        (away(6.0, 30.0), "6.0\u00a0°C"),
        (away(None, 120.0), "no crop air"),
    ],
)
def test_an_absence_with_a_close_call_or_blind_hours_is_told(absence: Away, words: str) -> None:
    """Close to the frost line, long without a reading, or with none at all."""
    found = stands(frost_next.away(facts(frost=frost(away=(absence,)))))
    assert words in found.claim and "5 nights" in found.claim.replace("\u00a0", " ")


def test_a_mild_absence_on_record_is_not_told() -> None:
    """Six degrees at the coldest, every hour on record."""
    assert frost_next.away(facts(frost=frost(away=(away(6.0, 0.0),)))) is None


@pytest.mark.parametrize(("seen", "told"), [(0.35, True), (0.69, False), (None, False)])
def test_a_cover_that_lets_less_through_is_told(seen: float | None, told: bool) -> None:
    """Half of what it should: told, with the caution of roofs. As it should, or not known: silent."""
    found = light.cover(facts(light=SimpleNamespace(daily=SimpleNamespace(transmission_seen=seen))))
    assert (found is not None) == told
    if found is not None:
        stands(found)
        assert "35\u00a0%" in found.claim and "70\u00a0%" in found.claim and found.caution


def duct(**hours: float) -> SimpleNamespace:
    """A fan through the bed, its hours on record."""
    usual = {"recorded_h": 1000.0, "used_h": 120.0, "missed_h": 40.0, "drained_h": 0.0}
    return SimpleNamespace(channel="probe", duct=SimpleNamespace(stored_kwh=None, **(usual | hours)))


def test_a_fan_through_the_bed_is_told_by_its_hours() -> None:
    """120 of the 160 h worth it are 75 %; a fan that cools the bed is told as money; no fan, no word."""
    found = stands(soil.fan(facts(soil=duct())))
    assert "75\u00a0%" in found.claim and found.stake == "good news"
    drains = stands(soil.fan(facts(soil=duct(drained_h=200.0))))
    assert "cooled the bed for 200\u00a0h" in drains.claim and drains.stake == "money"
    assert soil.fan(facts(soil=SimpleNamespace(channel=None, duct=None))) is None


def test_changes_without_a_hope_are_counted_and_named() -> None:
    """Two changes that hope for nothing a logger can judge."""
    done = [change("Shelf painted", verdict="not judged"), change("Bench moved", verdict="not judged")]
    found = stands(changes_open.no_hope(facts(effects=Changes(changes=tuple(done)))))
    assert (
        "2\u00a0changes in all" in found.claim and "Shelf painted" in found.evidence and "Bench moved" in found.evidence
    )
