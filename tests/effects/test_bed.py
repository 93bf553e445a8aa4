"""The bed beside the cold: its column worked out by hand, where it stands, when it must not stand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from effects.in_memory import entry, readings_of
from made_season import readings, season
from simulator import Climate, HouseParams, Simulated, simulate, synthetic

from reportgen.effects import Outcome, effects
from reportgen.effects.bed import share_of_bed, thermostat_stretches, with_what_it_gives_back
from reportgen.effects.causes import causes
from reportgen.effects.heat_days import heat_days
from reportgen.effects.outcomes import day_table

DAY = dt.date(2026, 1, 12)


def column(bed_c: list[float], night_c: list[float], outdoor_c: list[float], shift: float = 0.0) -> list[float]:
    """The column of four days of which the third does not count and the fourth has another thermostat."""
    bed, night, outdoor = (np.asarray(values) + shift for values in (bed_c, night_c, outdoor_c))
    return share_of_bed(
        bed, night, outdoor, np.array([True, True, False, True]), np.array([0.0, 0.0, 0.0, 1.0])
    ).tolist()


TABLE = ([10.0, 10.0, 10.0, 10.0], [4.0, 6.0, 11.0, 8.0], [0.0, 1.0, 4.0, -2.0])


def test_the_column_on_paper() -> None:
    """H is 5 °C (median of 4 and 6; 11 does not count) in the first stretch and 8 °C in the second.

    (10 − 5)/(5 − 0) = 1; (10 − 5)/(5 − 1) = 1.25; (10 − 5)/3 where the pull is 1 K only; (10 − 8)/(8 + 2) = 0.2.
    """
    assert column(*TABLE) == pytest.approx([1.0, 1.25, 5 / 3, 0.2])


def test_it_is_a_matter_of_differences() -> None:
    """Everything 7 K warmer leaves it as it is; a bed as warm as the air is held gives nothing, a colder one takes."""
    assert column(*TABLE, shift=7.0) == pytest.approx(column(*TABLE))
    assert column([5.0, 4.0, 5.0, 6.0], *TABLE[1:]) == pytest.approx([0.0, -0.25, 0.0, -0.2])


def test_a_stretch_without_a_counted_night_has_none() -> None:
    """No night from which to take the hold: not a number, never another stretch's."""
    one = np.ones(2)
    assert np.isnan(share_of_bed(10 * one, 5 * one, 0 * one, one < 0, one)).all()


def test_a_stretch_is_where_the_thermostat_stands_alike() -> None:
    """Two steps of the thermostat make three stretches; a line that touches something else makes none."""
    diary = (
        entry(dt.date(2026, 1, 10), "hold up", touches=("thermostat",), time=dt.time(13)),
        entry(dt.date(2026, 1, 15), "film", line=3, touches=("envelope",), time=dt.time(13)),
        entry(dt.date(2026, 1, 20), "hold down", line=4, touches=("thermostat",), time=dt.time(13)),
    )
    days = np.arange(dt.date(2026, 1, 8).toordinal(), dt.date(2026, 1, 24).toordinal(), dtype=float)
    found = thermostat_stretches(days, causes(readings(season("2026-01-01", "2026-01-31"), diary=diary)))
    assert [len(set(found[a:b])) for a, b in ((0, 3), (3, 13), (13, 16))] == [1, 1, 1]
    assert len(set(found)) == 3


@lru_cache(maxsize=1)
def winter() -> Simulated:
    house = HouseParams(heater_w=4000.0, hold_c=9.0)
    return simulate(synthetic(Climate(mean_c=7.0), "2025-12-05", "2026-02-12", seed=8, step_s=900), house, seed=8)


@lru_cache(maxsize=4)
def told(*touches: str, bed: bool = True) -> dict[str, Outcome]:
    change = entry(DAY, "something", hoped_for=("less heating",), touches=touches)
    (found,) = effects(readings_of(winter(), bed=bed, diary=(change,))).changes
    return {o.outcome: o for o in found.outcomes}


def test_the_beds_columns_stand_last() -> None:
    """Behind all weather of the outdoor logger, so that they explain only what it leaves."""
    assert told("envelope")["heat"].columns[-1] == "ts"
    assert told("envelope")["watts_per_kelvin"].columns[-1] == "tsr"
    assert not {"ts", "tsr"} & set(told("envelope")["lift"].columns)


def test_the_bed_explains_nothing_where_it_was_changed_itself() -> None:
    """A change of the bed would hide in its own warmth: no column of the bed, and the page says so."""
    for outcome, name in (("heat", "ts"), ("watts_per_kelvin", "tsr"), ("lift", "tsd")):
        assert not {"ts", "tsr", "tsd"} & set(told("bed")[outcome].columns)
        assert name in told("bed")[outcome].left_out


def test_without_a_probe_the_other_columns_stay() -> None:
    """No bed logged: the sunlight is not given up with it, and what is missing is named."""
    bare = told("envelope", bed=False)["heat"]
    assert "sol" in bare.columns and bare.left_out == ("ts",)
    assert told("envelope", bed=False)["watts_per_kelvin"].refused is None


def test_an_appliance_is_no_heat_loss() -> None:
    """A dehumidifier as large as the heater doubles the heat of a day and moves no watts per kelvin."""
    plain = readings_of(winter())
    aside = replace(plain.heating[0], name="dehumidifier", role="appliance")
    both = replace(plain, appliances=(aside,))
    alone, together = heat_days(plain).table, heat_days(both).table
    assert together["kwh"].dropna().to_numpy() == pytest.approx(2 * alone["kwh"].dropna().to_numpy())
    assert together["night_w"].dropna().to_numpy() == pytest.approx(alone["night_w"].dropna().to_numpy())
    per_k = [day_table(of).outcomes["watts_per_kelvin"].dropna().to_numpy() for of in (plain, both)]
    assert per_k[0] == pytest.approx(per_k[1])


def ends(effect: float, low: float, high: float) -> Outcome:
    return Outcome(outcome="lift", unit="K", declared=True, effect=effect, low=low, high=high, before_mean=4.0)


@pytest.mark.parametrize(
    ("beside", "without", "low", "high"),
    [
        ((0.1, -0.3, 0.5), (0.4, -0.6, 1.4), -0.6, 1.4),  # zero inside: the outer ends of both
        ((0.6, 0.2, 1.0), (0.7, -0.4, 1.8), 0.2, 1.8),  # warmer, and warmer on the whole: the end near zero stays
        ((0.6, 0.2, 1.0), (-0.1, -1.2, 1.0), -1.2, 1.0),  # … but not where the whole points the other way
        ((-0.6, -1.0, -0.2), (-0.7, -1.8, 0.4), -1.8, -0.2),  # colder
        ((0.6, 0.2, 1.9), (0.7, 0.3, 1.1), 0.2, 1.9),  # never narrower than it was
    ],
)
def test_an_end_reaches_as_far_as_the_bed_may_give_back(
    beside: tuple[float, ...], without: tuple[float, ...], low: float, high: float
) -> None:
    """Middle and error stay those beside the bed; the ends by hand."""
    found = with_what_it_gives_back(ends(*beside), ends(*without))
    assert (found.effect, found.low, found.high, found.through_bed) == (beside[0], low, high, True)


@lru_cache(maxsize=1)
def cold_house() -> Simulated:
    weather = synthetic(Climate(mean_c=7.0), "2025-12-05", "2026-02-12", seed=8, step_s=900)
    return simulate(weather, HouseParams(), seed=8)


@lru_cache(maxsize=4)
def cold(*touches: str, bed: bool = True) -> Outcome:
    change = entry(DAY, "something", hoped_for=("warmer nights",), touches=touches)
    (found,) = effects(readings_of(cold_house(), bed=bed, diary=(change,))).changes
    return next(o for o in found.outcomes if o.outcome == "lift")


def test_without_heat_the_bed_gives_back_what_was_done() -> None:
    """A probe in the bed of a house without heat: the interval holds what the house would tell without the probe, but
    for an end near zero; without a probe, with a thermostat, or of the bed itself there is nothing to add."""
    told_, bare = cold("envelope"), cold("envelope", bed=False)
    assert told_.through_bed and "tsd" in told_.columns
    assert (told_.low <= bare.low or told_.low > 0) and (told_.high >= bare.high or told_.high < 0)
    assert not bare.through_bed
    assert not cold("bed").through_bed
    assert not told("envelope")["lift"].through_bed
