"""Findings across pages: for each a season in which it must be told and one in which it must not."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import channel, heater, logger, picking, readings, season

from reportgen.counsel.cross import findings, nothing_wrong
from reportgen.counsel.cross_changes import warmer_but_damper
from reportgen.counsel.cross_growth import dark_weeks, light_first
from reportgen.counsel.cross_nights import bed_drained, heater_off, night_of, watering
from reportgen.counsel.cross_unwritten import half_widths, oddest, unwritten
from reportgen.counsel.cross_watch import unnoticed, unwatched
from reportgen.counsel.facts import Facts
from reportgen.counsel.nights import table_of
from reportgen.effects.types import Changes, DoNothing
from reportgen.readings.types import DiaryEntry, Watering


def facts(of: Any = None, **more: Any) -> Facts:
    return Facts.of(hand.results(of, **more))


def entry(day: str, kind: str = "event", what: str = "power cut") -> DiaryEntry:
    return DiaryEntry(
        line=2, date=dt.date.fromisoformat(day), time=None, kind=kind, what=what, touches=(), reversible=None,
        hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


GOOD = {
    "frost": {
        "minimum": {"temperature_c": 3.0},
        "nights": 28,
        "unrecorded_cold_hours": 0.0,
        "crops": (),
        "failures": (),
    },
    "damp": {"hours_recorded": 600.0, "hours_above_high": {"estimate": 60.0}, "grey_mould_spells": {"high": 0}},
}


def test_a_perfect_winter_is_told_that_nothing_was_wrong() -> None:
    """A whole record above the frost line, dry and without losses."""
    (told,) = nothing_wrong(hand.results(**GOOD), [])
    assert told.stake == "good news" and "3.0\u00a0°C" in told.evidence
    assert "damp" in told.claim


@pytest.mark.parametrize(
    "worse",
    [
        {"frost": {"minimum": {"temperature_c": -0.1}}},
        {"frost": {"unrecorded_cold_hours": 3.0}},
        {"frost": {"unrecorded_cold_hours": None}},
        {"frost": {"unrecorded_unknown_hours": 3.0}},
        {"frost": {"failures": ({"hours": 3.0},)}},
        {"frost": {"crops": ({"margin_k": -0.5},)}},
        {"damp": {"hours_above_high": {"estimate": 300.0}}},
        {"damp": {"grey_mould_spells": {"high": 1}}},
        {"harvest": (picking("2026-01-06", 1.0, use="lost"),)},
    ],
    ids=["frost", "blind", "no outdoor air", "unknown", "failed", "crop", "damp", "mould", "lost"],
)
def test_nothing_wrong_is_not_said_of_a_winter_with_harm(worse: dict[str, Any]) -> None:
    """Each harm, and each hour that nobody saw, takes the sentence away."""
    made = {name: GOOD.get(name, {}) | worse[name] if isinstance(worse.get(name), dict) else part
            for name, part in GOOD.items()}  # fmt: skip
    rest = {name: part for name, part in worse.items() if name not in GOOD}
    assert nothing_wrong(hand.results(**made, **rest), []) == ()


def test_without_humidity_the_sentence_says_so() -> None:
    """Damp that was not logged is not said to have done no harm."""
    (told,) = nothing_wrong(hand.results(frost=GOOD["frost"]), [])
    assert "damp was not logged" in told.claim


def test_damp_that_is_missing_for_weeks_is_not_said_to_have_done_no_harm() -> None:
    """672 h of season, 372 on record: 300 are missing, and the sentence speaks of the cold alone."""
    damp = GOOD["damp"] | {"hours_recorded": 372.0, "hours_above_high": {"estimate": 60.0}}
    (told,) = nothing_wrong(hand.results(frost=GOOD["frost"], damp=damp), [])
    assert "of the damp 300\u00a0h are missing" in told.claim and "cold or damp" not in told.claim


def failure(day: str, hours: float = 6.0) -> dict[str, Any]:
    return {"start": pd.Timestamp(f"{day} 22:00", tz="Europe/Prague"), "hours": hours, "minimum_c": -2.0}


def test_a_failure_is_unnoticed_only_if_the_diary_is_silent() -> None:
    """A line on the day or the day after is a note of it; no diary, or one that ends before, is not silent."""
    frost = {"failures": (failure("2026-01-14"), failure("2026-01-20", 3.0))}
    kept = (entry("2026-01-06"), entry("2026-01-30"))
    (told,) = unnoticed(facts(frost=frost, diary=kept))
    assert "14\u00a0January" in told.claim and "1\u00a0other failure went" in told.evidence
    assert unnoticed(facts(frost=frost)) == []
    assert unnoticed(facts(frost=frost, diary=(entry("2026-01-06"), entry("2026-01-10")))) == []
    assert unnoticed(facts(frost=frost, diary=(entry("2026-01-15"), entry("2026-01-20")))) == []
    assert unnoticed(facts()) == []


def test_unlogged_hours_of_hard_frost_are_told_with_what_they_may_hide() -> None:
    """Twelve hours are told, with the guess where there is one; none are not."""
    told = unwatched(facts(frost={"unrecorded_cold_hours": 12.0, "could_have_been_c": -3.2}))
    assert told is not None and "12\u00a0h" in told.claim and "\u22123.2\u00a0°C" in told.evidence
    assert unwatched(facts(frost={"unrecorded_cold_hours": 0.0})) is None
    dark = unwatched(facts(frost={"unrecorded_cold_hours": 0.0, "unrecorded_unknown_hours": 744.0, "line_c": 0.0}))
    assert dark is not None and dark.claim.startswith("For 744\u00a0h neither the crop air nor the outdoor air")
    assert dark.stake == "record" and dark.sure == "cannot tell"
    both = unwatched(facts(frost={"unrecorded_cold_hours": 5.0, "unrecorded_unknown_hours": 3.0, "line_c": 0.0}))
    assert both is not None and "For 5\u00a0h" in both.claim and "for another 3\u00a0h neither" in both.claim
    assert unwatched(facts()) is None


def test_dark_weeks_are_told_where_they_took_more_than_they_gave() -> None:
    """Half the money for a tenth of the harvest is told; half for half is not."""
    books = {"harvest": (picking("2026-01-06", 10.0),)}
    heat = {"cost": 100.0, "dark_weeks": {"cost": 50.0, "kg": 1.0}}
    told = dark_weeks(facts(heat=heat, **books))
    assert told is not None and "50\u00a0%" in told.claim and "10\u00a0%" in told.claim
    assert dark_weeks(facts(heat=heat | {"dark_weeks": {"cost": 50.0, "kg": 5.0}}, **books)) is None
    assert dark_weeks(facts(heat=heat)) is None


def test_light_is_named_before_warmth_only_where_warmth_was_kept() -> None:
    """4 mol a day with the hold kept is told; with a cold house, or plenty of light, it is not."""
    light = {"mean_daily_light_mol": 4.0, "days_under_ten_hours": 60}
    warm = {"share_at_or_above_hold": {"estimate": 0.97}}
    told = light_first(facts(light=light, heat=warm))
    assert told is not None and told.sure == "a hint" and "4.0\u00a0mol/m²" in told.claim
    assert light_first(facts(light=light, heat={"share_at_or_above_hold": {"estimate": 0.5}})) is None
    assert light_first(facts(light=light | {"mean_daily_light_mol": 15.0}, heat=warm)) is None
    assert light_first(facts(light={}, heat=warm)) is None


def test_helped_but_damper_needs_an_interval_above_zero() -> None:
    """Warmer nights with 3 to 9 points more humidity are told; −1 to 9 are not; nor is a change that did not help."""
    lift = hand.outcome("lift", 1.5, 0.8, 2.2, declared=True)

    def told(low: float, verdict: str = "helped") -> list[str]:
        changed = hand.change("Film inside", lift, hand.outcome("night_humidity", 6.0, low, 9.0), verdict=verdict)
        return [f.claim for f in warmer_but_damper(facts(effects=Changes(changes=(changed,))))]

    assert "“Film inside” did what you hoped" in told(3.0)[0]
    assert told(-1.0) == []
    assert told(3.0, "no sign") == []


def quiet(effect: float) -> tuple[DoNothing, ...]:
    dates = [dt.date(2026, 1, 6) + dt.timedelta(days=5 * n) for n in range(8)]
    return tuple(DoNothing(when=d, effect=effect if d == dates[3] else 0.2, low=-0.8, high=1.2) for d in dates)


def test_only_a_date_far_outside_its_interval_looks_odd() -> None:
    """Twice the half-width is odd; half as much again, as the best of many dates may be by chance, is not."""
    odd = oddest(quiet(2.1))
    assert odd is not None and odd.when == dt.date(2026, 1, 21)
    assert half_widths(odd) == pytest.approx(2.1)
    assert oddest(quiet(1.5)) is None
    empty = facts()
    assert unwritten(empty, table_of(empty.r)) is None


def nights(extra: float, on: str) -> dict[str, Any]:
    """Seventy days whose humidity at night is higher by `extra` points on every third date (or without heat then)."""
    made = season("2026-01-05", "2026-03-15", logger=(logger("bench"), logger("out", where="outdoor")))
    hours = pd.date_range(made.start, made.end, freq="1h")
    day = np.asarray((hours - hours[0]) / pd.Timedelta(days=1))
    rng = np.random.default_rng(7)
    third = (np.floor(day - 0.5) % 3 == 0) & (day > 0.5)
    daily = np.repeat(rng.normal(0, 1.5, 80), 24)[: len(hours)]
    humid = 80 + daily + extra * third + rng.normal(0, 0.3, len(hours))
    outside = 2 + 3 * np.sin(2 * np.pi * day / 11) + np.repeat(rng.normal(0, 2, 80), 24)[: len(hours)]
    channels = (
        channel(pd.Series(humid, hours), "relative_humidity"),
        channel(pd.Series(8.0 + 0.1 * outside, hours)),
        channel(pd.Series(outside, hours), logger="out", where="outdoor"),
    )
    dates = [made.first_day + dt.timedelta(days=n) for n in range(0, 70, 3)]
    more: dict[str, Any] = {"of": made, "channels": channels}
    if on == "watering":
        more["watering"] = tuple(Watering(line=2, date=d, time=None, bed="east", litres=10.0) for d in dates)
    if on == "heat":
        rows = [(str(a)[:19], str(b)[:19], 0.0 if off else 1.0, 0.3) for a, b, off in
                zip(hours[:-1].tz_localize(None), hours[1:].tz_localize(None), third, strict=False)]  # fmt: skip
        supply = heater(rows, form="logger")
        more["heating"] = (supply.__class__(**(fields(supply) | {"intervals": supply.intervals.assign(sparse=False)})),)
    return more


def fields(supply: Any) -> dict[str, Any]:
    return {name: getattr(supply, name) for name in supply.__slots__}


@pytest.mark.parametrize(("rule", "on"), [(watering, "watering"), (heater_off, "heat")])
def test_nights_of_one_kind_are_told_apart_only_when_they_differ(rule: Any, on: str) -> None:
    """8 points more on such nights are found, 8 within the interval; no difference is not told."""
    damp = facts(**nights(8.0, on))
    told = rule(damp, table_of(damp.r))
    assert told is not None and told.anchor in ("damp_watering", "damp_unheated")
    assert told.weight == pytest.approx(8.0, abs=1.0)
    even = facts(**nights(0.0, on))
    assert rule(even, table_of(even.r)) is None
    nothing = facts()
    assert rule(nothing, table_of(nothing.r)) is None


def cooling(k: float) -> Facts:
    """A bed that loses `k` kelvin from 10 to 13 January, before the coldest moment at 5 o'clock on the 15th."""
    made = season(logger=(logger("bed", "soil_temperature"),))
    hours = pd.date_range(made.start, made.end, freq="1h")
    day = np.asarray((hours - hours[0]) / pd.Timedelta(days=1))
    soil = channel(pd.Series(9.0 - k * np.clip((day - 5.5) / 3, 0, 1), hours), "soil_temperature", "bed")
    at = pd.Timestamp("2026-01-15 05:00", tz="Europe/Prague")
    return facts(made, channels=(soil,), frost={"minimum": {"at": at, "temperature_c": -1.0}})


def test_a_bed_that_cooled_before_the_coldest_night_is_told() -> None:
    """Three kelvin in three days are told with the night's date; a steady bed is not."""
    cooled = cooling(3.0)
    told = bed_drained(cooled, table_of(cooled.r))
    assert told is not None and "night was that of 14\u00a0January" in told.evidence
    assert "lost" in told.claim
    steady = cooling(0.2)
    assert bed_drained(steady, table_of(steady.r)) is None


def test_a_night_is_named_after_its_evening() -> None:
    """Five o'clock on the 14th belongs to the night of the 13th, nine in the evening to its own date."""
    assert night_of(pd.Timestamp("2026-01-14 05:00")) == dt.date(2026, 1, 13)
    assert night_of(pd.Timestamp("2026-01-14 21:00")) == dt.date(2026, 1, 14)


def test_a_season_with_nothing_logged_is_told_nothing_across_pages() -> None:
    """No rule invents a fact."""
    assert findings(hand.results()) == ()
    assert readings().channels == ()


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_may_stand(show: str) -> None:
    """All sentences of the rules above pass the rules of wording, in both ways of printing."""
    frost = {"failures": (failure("2026-01-14"),), "unrecorded_cold_hours": 12.0, "could_have_been_c": -3.2}
    heat = {"cost": 100.0, "dark_weeks": {"cost": 50.0, "kg": 1.0}, "share_at_or_above_hold": {"estimate": 0.97}}
    light = {"mean_daily_light_mol": 4.0, "days_under_ten_hours": 60}
    made = season(show=show)
    kept = (entry("2026-01-06"), entry("2026-01-30"))
    f = facts(made, frost=frost, heat=heat, light=light, harvest=(picking("2026-01-06", 10.0),), diary=kept)
    told = [*unnoticed(f), unwatched(f), dark_weeks(f), light_first(f)]
    told += nothing_wrong(hand.results(made, **GOOD), [])
    words = [t for x in told if x for t in (x.claim, x.evidence, x.how_sure, x.next_step, x.caution) if t]
    assert len(words) >= 20
    assert {text: faults(text) for text in words if faults(text)} == {}
