"""Nights of one kind against the others: the reference's estimate, and which nights are of which kind."""

from __future__ import annotations

import datetime as dt
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.by_reference import PAIRS, noise, reference
from made_season import readings, season

from reportgen.effects.heat_days import HeatDays
from reportgen.effects.nights import compared, kinds_of_night, of, unheated, watered
from reportgen.effects.outcomes import DayTable
from reportgen.readings.types import Watering

N = 40
DATES = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(N)]
INDEX = pd.Index(DATES, name="date")
RNG = np.random.default_rng(6)
COLD = RNG.standard_normal(N)
KIND = np.arange(N) % 3 == 0
DAMP = 80.0 - 2.0 * COLD + 3.0 * KIND + 0.5 * RNG.standard_normal(N)
WEATHER = {"ton": COLD, "hd10": COLD**2, "tod": COLD + RNG.standard_normal(N)}


def table(weather: Any = None, heated_h: Any = None, outcome: str = "night_humidity") -> DayTable:
    heat = pd.DataFrame({} if heated_h is None else {"night_heated_h": heated_h}, INDEX)
    return DayTable(
        outcomes=pd.DataFrame({outcome: DAMP}, INDEX),
        weather=pd.DataFrame(WEATHER if weather is None else weather, INDEX),
        heat=HeatDays(table=heat, reason="", left_out=(), by_hour=True),
        units=MappingProxyType({outcome: "%"}),
        missing=MappingProxyType({}),
    )


def kind(values: Any) -> pd.Series:
    return pd.Series(np.asarray(values, dtype=float), INDEX)


def test_the_nights_of_a_kind_are_the_references_step() -> None:
    """Level, kind and what the season has of the last set of weather (no set is whole), by statsmodels in thirty
    noises; a night of which the kind is not known is out."""
    marked = np.where(np.arange(N) == 5, np.nan, KIND.astype(float))
    found = compared(table(), "night_humidity", kind(marked), "after watering")
    rows = [n for n in range(N) if n != 5]
    columns = [WEATHER[name][rows] for name in ("ton", "hd10", "tod")]
    x = np.column_stack([np.ones(39), KIND[rows], *(c - c.mean() for c in columns)])
    theirs = reference(DAMP[rows], x, [noise([float(n) for n in rows], *pair) for pair in PAIRS])
    effect, se = theirs.coefficient(1)
    assert found is not None and found.name == "after watering"
    assert (found.effect, found.low) == (pytest.approx(effect), pytest.approx(effect - theirs.wide * se))
    assert found.high == pytest.approx(effect + theirs.wide * se)
    assert (found.nights, found.others) == (14, 25)
    assert found.table["kind"].tolist() == KIND[rows].astype(int).tolist()
    assert (
        found.table["date"].tolist() == [DATES[n] for n in rows]
        and found.table["value"].tolist() == DAMP[rows].tolist()
    )


def test_the_first_whole_set_of_weather_counts() -> None:
    """With bed and cold the second set is whole: moisture of the air, which it has not, is no reason to drop it, and
    the almanac's sun of the third is not taken."""
    rng = np.random.default_rng(2)
    whole = WEATHER | {"tsd": rng.standard_normal(N), "cs": rng.standard_normal(N)}
    found = compared(table(whole), "night_humidity", kind(KIND))
    x = np.column_stack([np.ones(N), KIND, *(c - c.mean() for c in (whole[n] for n in ("ton", "hd10", "tod", "tsd")))])
    theirs = reference(DAMP, x, [noise([float(n) for n in range(N)], *pair) for pair in PAIRS])
    assert found is not None and found.effect == pytest.approx(theirs.coefficient(1)[0])


@pytest.mark.parametrize(("nights", "told"), [(10, True), (9, False), (30, True), (31, False)])
def test_ten_nights_of_either_kind(nights: int, told: bool) -> None:
    """Ten of forty and thirty of forty are told, nine and thirty-one are not."""
    some = np.isin(np.arange(N), np.random.default_rng(1).permutation(N)[:nights])
    assert (compared(table(), "night_humidity", kind(some)) is not None) is told


def test_nothing_to_compare() -> None:
    """An outcome that was not logged."""
    assert compared(table(outcome="lift"), "night_humidity", kind(KIND)) is None


def test_watered_nights_lie_between_the_first_and_the_last() -> None:
    """Watered on 8 and 10 January (and before the season): 1 on both, 0 between, unknown outside."""
    days = (dt.date(2026, 1, 2), dt.date(2026, 1, 8), dt.date(2026, 1, 10))
    rows = tuple(Watering(line=2, date=day, time=None, bed=None, litres=None) for day in days)
    found = watered(readings(season("2026-01-05", "2026-01-12"), watering=rows))
    assert found.tolist() == [pytest.approx(v, nan_ok=True) for v in (np.nan,) * 3 + (1.0, 0.0, 1.0) + (np.nan,) * 2]
    edge = watered(readings(season("2026-01-08", "2026-01-10"), watering=rows))
    assert edge.tolist() == [1.0, 0.0, 1.0]
    assert watered(readings(season("2026-01-05", "2026-01-12"))).isna().all()


def test_unheated_nights_have_less_than_an_hour_of_heat() -> None:
    """0 and 0.9 h: without heat; 1 h: with; unknown: unknown. Without heat by the hour there are none."""
    hours = [0.0, 0.9, 1.0, np.nan] * 10
    assert unheated(table(heated_h=hours)).tolist()[:4] == [1.0, 1.0, 0.0, pytest.approx(np.nan, nan_ok=True)]
    assert not len(unheated(table()))


def test_both_kinds_of_the_season() -> None:
    """Watered every third day and unheated every other night: both told, in this order, and found by name."""
    rows = tuple(Watering(line=2, date=DATES[n], time=None, bed=None, litres=None) for n in range(0, N, 3))
    book = readings(season("2026-01-01", "2026-02-09"), watering=rows)
    found = kinds_of_night(book, table(heated_h=[0.0, 5.0] * 20))
    assert [one.name for one in found] == ["after watering", "without heat"]
    assert of(found, "without heat") is found[1] and of(found, "else") is None
    assert kinds_of_night(readings(season("2026-01-01", "2026-02-09")), table()) == ()
