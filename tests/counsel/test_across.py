"""Findings that rest on two subjects, and *nothing wrong here*: each told of its season and silent in another."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import channel, heater, logger, picking, readings, season

from reportgen.counsel.damp_nights import heater_off, watering
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost import unwatched
from reportgen.counsel.light import before_warmth
from reportgen.counsel.perfect import nothing_wrong
from reportgen.counsel.soil import drained, night_of
from reportgen.effects.nights import kinds_of_night
from reportgen.effects.outcomes import day_table
from reportgen.effects.types import Changes, DoNothing
from reportgen.effects.unwritten import half_widths, odd_date, oddest
from reportgen.measures.soil import soil as soil_of
from reportgen.readings.types import Watering


def facts(of: Any = None, **more: Any) -> Facts:
    return Facts.of(hand.results(of, **more))


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
    told = nothing_wrong(facts(**GOOD))
    assert told is not None and "less heat" not in told.next_step  # no heater is listed: there is none to spare
    assert told is not None
    assert "3.0\u00a0°C" in told.evidence
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
    whole = {name: GOOD.get(name, {}) | worse[name] if isinstance(worse.get(name), dict) else part
            for name, part in GOOD.items()}  # fmt: skip
    rest = {name: part for name, part in worse.items() if name not in GOOD}
    assert nothing_wrong(facts(**whole, **rest)) is None


def test_without_humidity_the_sentence_says_so() -> None:
    """Damp that was not logged is not said to have done no harm."""
    told = nothing_wrong(facts(frost=GOOD["frost"]))
    assert told is not None
    assert "damp was not logged" in told.claim


def test_damp_that_is_missing_for_weeks_is_not_said_to_have_done_no_harm() -> None:
    """672 h of season, 372 on record: 300 are missing, and the sentence speaks of the cold alone."""
    damp = GOOD["damp"] | {"hours_recorded": 372.0, "hours_above_high": {"estimate": 60.0}}
    told = nothing_wrong(facts(frost=GOOD["frost"], damp=damp))
    assert told is not None
    assert "of the damp 300\u00a0h are missing" in told.claim and "cold or damp" not in told.claim


def test_unlogged_hours_of_hard_frost_are_told_with_what_they_may_hide() -> None:
    """Twelve hours are told, with the guess where there is one; none are not."""
    told = unwatched(facts(frost={"unrecorded_cold_hours": 12.0, "could_have_been_c": -3.2}))
    assert told is not None and "12\u00a0h" in told.claim and "\u22123.2\u00a0°C" in told.evidence
    assert unwatched(facts(frost={"unrecorded_cold_hours": 0.0})) is None
    dark = unwatched(facts(frost={"unrecorded_cold_hours": 0.0, "unrecorded_unknown_hours": 744.0, "line_c": 0.0}))
    assert dark is not None and dark.claim.startswith("For 744\u00a0h neither the crop air nor the outdoor air")
    assert dark.stake == "record" and dark.how_sure.startswith("Cannot tell")
    both = unwatched(facts(frost={"unrecorded_cold_hours": 5.0, "unrecorded_unknown_hours": 3.0, "line_c": 0.0}))
    assert both is not None and "For 5\u00a0h" in both.claim and "for another 3\u00a0h neither" in both.claim
    assert unwatched(facts()) is None


def test_light_is_named_before_warmth_only_where_warmth_was_kept() -> None:
    """4 mol a day with the hold kept is told; with a cold house, or plenty of light, it is not."""
    light = {"mean_daily_light_mol": 4.0, "days_under_ten_hours": 60}
    warm = {"share_at_or_above_hold": {"estimate": 0.97}}
    told = before_warmth(facts(light=light, heat=warm))
    assert told is not None and told.how_sure.startswith("A hint") and "4.0\u00a0mol/m²" in told.claim
    assert before_warmth(facts(light=light, heat={"share_at_or_above_hold": {"estimate": 0.5}})) is None
    assert before_warmth(facts(light=light | {"mean_daily_light_mol": 15.0}, heat=warm)) is None
    assert before_warmth(facts(light={}, heat=warm)) is None


def quiet(effect: float) -> tuple[DoNothing, ...]:
    dates = [dt.date(2026, 1, 6) + dt.timedelta(days=5 * n) for n in range(8)]
    return tuple(DoNothing(when=d, effect=effect if d == dates[3] else 0.2, low=-0.8, high=1.2) for d in dates)


def test_only_a_date_far_outside_its_interval_looks_odd() -> None:
    """Twice the half-width is odd; half as much again, as the best of many dates may be by chance, is not."""
    odd = oddest(quiet(2.1))
    assert odd is not None and odd.when == dt.date(2026, 1, 21)
    assert half_widths(odd) == pytest.approx(2.1)
    assert oddest(quiet(1.5)) is None
    found = odd_date(lambda outcome: quiet(2.1) if outcome == "lift" else ())
    assert found is not None and (found.outcome, found.dates) == ("lift", 8)
    assert found.half_widths == pytest.approx(2.1)
    assert odd_date(lambda outcome: quiet(2.1)[:7]) is None  # too few dates to call one odd


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


def night_facts(**more: Any) -> Facts:
    """Facts of a season whose kinds of night were compared."""
    read = hand.results(**more).readings
    found = kinds_of_night(read, day_table(read))
    return facts(effects=Changes(changes=(), kinds_of_night=found), **more)


@pytest.mark.parametrize(("rule", "on"), [(watering, "watering"), (heater_off, "heat")])
def test_nights_of_one_kind_are_told_apart_only_when_they_differ(rule: Any, on: str) -> None:
    """8 points more on such nights are found, 8 within the interval; no difference is not told."""
    told = rule(night_facts(**nights(8.0, on)))
    assert told is not None
    assert told.weight == pytest.approx(8.0, abs=1.0)
    assert rule(night_facts(**nights(0.0, on))) is None
    assert rule(night_facts()) is None


def cooling(k: float) -> Facts:
    """A bed that loses `k` kelvin from 10 to 13 January, before the coldest moment at 5 o'clock on the 15th."""
    made = season(logger=(logger("bed", "soil_temperature"),))
    hours = pd.date_range(made.start, made.end, freq="1h")
    day = np.asarray((hours - hours[0]) / pd.Timedelta(days=1))
    soil = channel(pd.Series(9.0 - k * np.clip((day - 5.5) / 3, 0, 1), hours), "soil_temperature", "bed")
    at = pd.Timestamp("2026-01-15 05:00", tz="Europe/Prague")
    bed = soil_of(readings(made, channels=(soil,)))
    return facts(made, channels=(soil,), soil=bed, frost={"minimum": {"at": at, "temperature_c": -1.0}})


def test_a_bed_that_cooled_before_the_coldest_night_is_told() -> None:
    """Three kelvin in three days are told with the night's date; a steady bed is not."""
    cooled = cooling(3.0)
    told = drained(cooled)
    assert told is not None and "night was that of 14\u00a0January" in told.evidence
    assert "lost" in told.claim
    steady = cooling(0.2)
    assert drained(steady) is None


def test_a_night_is_named_after_its_evening() -> None:
    """Five o'clock on the 14th belongs to the night of the 13th, nine in the evening to its own date."""
    assert night_of(pd.Timestamp("2026-01-14 05:00")) == dt.date(2026, 1, 13)
    assert night_of(pd.Timestamp("2026-01-14 21:00")) == dt.date(2026, 1, 14)


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_may_stand(show: str) -> None:
    """All sentences of the rules above pass the rules of wording, in both ways of printing."""
    frost = {"unrecorded_cold_hours": 12.0, "could_have_been_c": -3.2}
    heat = {"share_at_or_above_hold": {"estimate": 0.97}}
    light = {"mean_daily_light_mol": 4.0, "days_under_ten_hours": 60}
    of = season(show=show)
    f = facts(of, frost=frost, heat=heat, light=light)
    told = [unwatched(f), before_warmth(f), nothing_wrong(facts(of, **GOOD))]
    words = [t for x in told if x for t in (x.claim, x.evidence, x.how_sure, x.next_step, x.caution) if t]
    assert len(words) >= 12
    assert {text: faults(text) for text in words if faults(text)} == {}
