"""The difference at equal weather, against statsmodels cell by cell; which weather, which days, and what is refused."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.by_reference import PAIRS, Reference, reference, winters_noise

from reportgen.effects.heat_days import HeatDays
from reportgen.effects.outcomes import DayTable
from reportgen.problems import NotEnoughData
from reportgen.winters.equal import columns_for, differences, equal_weather

UNITS = {"lift": "K", "soil_mean": "K", "daily_light": "mol/m²", "watts_per_kelvin": "W/K"}


def table(year: int, outcomes: dict[str, Any], weather: dict[str, Any], dropped: tuple[int, ...] = ()) -> DayTable:
    """Days from 1 December on; those dropped are not there."""
    days = len(next(iter(outcomes.values())))
    dates = [dt.date(year, 12, 1) + dt.timedelta(days=n) for n in range(days)]
    index = pd.Index(dates, name="date")
    kept = [n for n in range(days) if n not in dropped]
    return DayTable(
        outcomes=pd.DataFrame(outcomes, index).iloc[kept],
        weather=pd.DataFrame(weather, index).iloc[kept],
        heat=HeatDays(table=pd.DataFrame(index=index), reason="no heater", left_out=(), by_hour=False),
        units=MappingProxyType(UNITS),
        missing=MappingProxyType({"soil_mean": "no bed was logged"}),
    )


def winter(seed: int, days: int = 24, colder_k: float = 0.0) -> tuple[np.ndarray[Any, Any], np.ndarray[Any, Any]]:
    """Nights outdoors and a lift that follows them, with noise that remembers."""
    rng = np.random.default_rng(seed)
    outdoor = 2.0 - colder_k + 3.0 * rng.standard_normal(days)
    noise = np.zeros(days)
    for n in range(1, days):
        noise[n] = 0.6 * noise[n - 1] + 0.5 * rng.standard_normal()
    return outdoor, 4.0 - 0.3 * outdoor + noise


def by_hand(y: Any, columns: list[Any], days: list[float], which: list[int]) -> Reference:
    """Level, winter and centred weather in every cell."""
    x = np.column_stack([np.ones(len(y)), which, *(column - np.mean(column) for column in columns)])
    return reference(np.asarray(y), x, [winters_noise(days, which, rho, q) for rho, q in PAIRS])


def test_the_difference_is_the_reference_estimators() -> None:
    """Level, winter and the nights outdoors by statsmodels in each of the thirty noises; the error 1.6 times, with
    0.06 K for each of the kelvin apart and 0.03 K. A day that one winter lacks keeps its distance to its neighbours."""
    (cold, low), (mild, high) = winter(3, colder_k=1.5), winter(4)
    this = table(2025, {"lift": low + 1.0}, {"ton": cold}, dropped=(7, 8))
    last = table(2024, {"lift": high}, {"ton": mild})
    found = equal_weather(this, last, "lift", 1)
    kept = [n for n in range(24) if n not in (7, 8)]
    outdoor = np.concatenate([mild, cold[kept]])
    lift = np.concatenate([high, low[kept] + 1.0])
    theirs = by_hand(lift, [outdoor], [*map(float, range(24)), *map(float, kept)], [0] * 24 + [1] * 22)
    effect, se = theirs.coefficient(1)
    apart = cold[kept].mean() - mild.mean()
    wider = np.sqrt((1.6 * se) ** 2 + (0.06 * apart) ** 2 + 0.03**2)
    assert found.estimate.effect == pytest.approx(effect, rel=1e-8)
    assert found.estimate.se == pytest.approx(wider, rel=1e-8)
    assert found.estimate.low == pytest.approx(effect - theirs.wide * wider, rel=1e-8)
    assert found.estimate.high == pytest.approx(effect + theirs.wide * wider, rel=1e-8)
    assert found.estimate.smallest_visible == pytest.approx((theirs.wide + theirs.power) * wider, rel=1e-8)
    assert found.apart_k == pytest.approx(apart)
    assert (found.days_last, found.days_this, found.columns) == (24, 22, ("ton",))
    assert (found.mean_last, found.mean_this) == (pytest.approx(high.mean()), pytest.approx(low[kept].mean() + 1.0))


def test_the_beds_difference_counts_yesterday() -> None:
    """Soil: one more column, yesterday's bed, on days that have one, so that neither the first day of a winter nor the
    day after a hole counts; the difference is the mean over this winter's days by the delta method."""
    outdoor, noise = zip(*(winter(seed, days=30) for seed in (5, 6)), strict=True)
    beds = []
    for n in (0, 1):
        bed = [8.0]
        for day in range(1, 30):
            bed.append(0.5 * bed[-1] + 3.5 + 0.4 * n + 0.05 * outdoor[n][day] + 0.2 * noise[n][day])
        beds.append(np.array(bed))
    last = table(2024, {"soil_mean": beds[0]}, {"tun": outdoor[0], "ton": outdoor[0] - 2.0})
    this = table(2025, {"soil_mean": beds[1]}, {"tun": outdoor[1], "ton": outdoor[1] - 2.0}, dropped=(10,))
    found = equal_weather(this, last, "soil_mean", 1)
    days = {0: list(range(1, 30)), 1: [n for n in range(1, 30) if n not in (10, 11)]}
    pairs = [(n, day) for n in (0, 1) for day in days[n]]
    y = [beds[n][day] for n, day in pairs]
    columns = [[beds[n][day - 1] for n, day in pairs], [outdoor[n][day] for n, day in pairs]]
    theirs = by_hand(y, columns, [float(day) for _, day in pairs], [n for n, _ in pairs])
    effect, se = theirs.lagged(1, 2, len(days[1]))
    apart = np.delete(outdoor[1], 10).mean() - outdoor[0].mean()
    assert found.estimate.effect == pytest.approx(effect, rel=1e-6)
    wider = np.sqrt((1.6 * se) ** 2 + (0.09 * apart) ** 2 + 0.05**2)
    assert found.estimate.se == pytest.approx(wider, rel=1e-4)  # the reference's derivative is one of differences
    assert found.estimate.dof == len(pairs) - 4
    assert (found.days_last, found.days_this) == (30, 29)
    assert found.mean_this == pytest.approx(np.delete(beds[1], 10).mean())


def test_without_outdoor_nights_no_distance_and_no_interval() -> None:
    """The bed's interval grows with the winters' distance, which nobody knows without nights outdoors; light's does
    not."""
    rng = np.random.default_rng(2)
    for outcome, fine in (("soil_swing", False), ("daily_light", True)):
        mine, theirs = (
            table(year, {outcome: 5.0 + rng.standard_normal(25)}, {"sol": 3.0 + rng.standard_normal(25)})
            for year in (2025, 2024)
        )
        units = MappingProxyType(UNITS | {"soil_swing": "K"})
        mine, theirs = (_with(one, units) for one in (mine, theirs))
        if fine:
            assert np.isnan(equal_weather(mine, theirs, outcome, 1).apart_k)
        else:
            with pytest.raises(NotEnoughData, match="how far apart"):
                equal_weather(mine, theirs, outcome, 1)


def _with(one: DayTable, units: Any) -> DayTable:
    return replace(one, units=units)


@pytest.mark.parametrize(("mine", "theirs", "words"), [(20, 21, "20 days of this"), (21, 20, "20 days of last")])
def test_twenty_one_days_each_are_enough(mine: int, theirs: int, words: str) -> None:
    """Twenty in either winter are refused by name; twenty-one in both are told."""
    full = {n: winter(n, days=n) for n in (20, 21)}
    of = {n: {year: table(year, {"lift": full[n][1]}, {"ton": full[n][0]}) for year in (2024, 2025)} for n in full}
    with pytest.raises(NotEnoughData, match=f"only {words} winter have it with its weather, 21 are needed"):
        equal_weather(of[mine][2025], of[theirs][2024], "lift", 1)
    assert equal_weather(of[21][2025], of[21][2024], "lift", 1).days_this == 21


def test_of_equally_few_days_last_winters_are_named() -> None:
    """Twenty in both."""
    outdoor, lift = winter(20, days=20)
    with pytest.raises(NotEnoughData, match="only 20 days of last winter"):
        equal_weather(*(table(year, {"lift": lift}, {"ton": outdoor}) for year in (2025, 2024)), "lift", 1)


@pytest.mark.parametrize(("mine", "theirs", "told"), [(22, 22, True), (21, 30, False), (30, 21, False)])
def test_a_bed_needs_twenty_one_days_that_have_a_yesterday(mine: int, theirs: int, told: bool) -> None:
    """Twenty-one days in a row have twenty with a yesterday: refused in either winter; twenty-two have enough."""
    rng = np.random.default_rng(9)
    this, last = (
        table(year, {"soil_mean": rng.standard_normal(days)}, dict.fromkeys(("ton", "tun"), rng.standard_normal(days)))
        for year, days in ((2025, mine), (2024, theirs))
    )
    if told:
        assert equal_weather(this, last, "soil_mean", 1).days_this == 22
    else:
        with pytest.raises(NotEnoughData, match="too few days in a row"):
            equal_weather(this, last, "soil_mean", 1)


def test_what_cannot_be_compared_says_why() -> None:
    """Not logged in one winter (with its reason), other units, nothing that varies; `differences` keeps the words."""
    outdoor, lift = winter(7)
    mine, theirs = (table(year, {"lift": lift}, {"ton": outdoor}) for year in (2025, 2024))
    with pytest.raises(NotEnoughData, match=r"^this winter: no bed was logged$"):
        equal_weather(mine, theirs, "soil_mean", 1)
    soil = table(2025, {"soil_mean": lift}, {"ton": outdoor})
    with pytest.raises(NotEnoughData, match=r"^last winter: no bed was logged$"):
        equal_weather(soil, theirs, "soil_mean", 1)
    with pytest.raises(NotEnoughData, match=r"^this winter: not logged$"):
        equal_weather(mine, theirs, "daily_light", 1)
    other = _with(theirs, MappingProxyType({"lift": "°F"}))
    with pytest.raises(NotEnoughData, match="units that cannot"):
        equal_weather(mine, other, "lift", 1)
    flat = [table(year, {"lift": np.full(24, 3.0)}, {"ton": outdoor}) for year in (2025, 2024)]
    with pytest.raises(NotEnoughData, match="did not vary"):
        equal_weather(*flat, "lift", 1)
    found = differences(mine, theirs, ("lift", "soil_mean"), 1)
    assert found["soil_mean"] == "this winter: no bed was logged"
    lifted = found["lift"]
    assert not isinstance(lifted, str) and lifted.estimate.effect == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("beyond", "slack", "told"),
    [(12, 2.0, True), (13, 2.0, False), (13, 0.5, True), (13, -0.5, True), (13, 0.51, False), (13, -0.51, False)],
)
def test_half_of_this_winters_nights_must_have_their_like(beyond: int, slack: float, told: bool) -> None:
    """Last winter's nights lay from −2 to 6 °C; of this winter's 24 as many lie beyond. Half of them is enough, one
    fewer is not; half a kelvin beyond either end still counts as its like."""
    last_c = np.linspace(-2.0, 6.0, 24)
    this_c = np.linspace(-1.9, 5.9, 24)
    this_c[:beyond] = 6.0 + slack if slack > 0 else -2.0 + slack
    rng = np.random.default_rng(1)
    this, last = (
        table(year, {"lift": rng.standard_normal(24)}, {"ton": c}) for year, c in ((2025, this_c), (2024, last_c))
    )
    if told:
        assert equal_weather(this, last, "lift", 1).days_this == 24
    else:
        with pytest.raises(NotEnoughData, match="too unlike"):
            equal_weather(this, last, "lift", 1)


def frame(*names: str, empty: tuple[str, ...] = ()) -> pd.DataFrame:
    """One day of weather; the empty ones are columns without a value."""
    return pd.DataFrame({name: [np.nan if name in empty else 1.0] for name in names})


def test_the_first_set_that_both_winters_have_whole() -> None:
    """Sun and cold where both have the sun; else by the day's warmth; else what both have of the last set."""
    sunny = frame("ton", "hd5", "hd10", "sol")
    dull = frame("ton", "hd5", "hd10", "tod", "csrng", "cs")
    assert columns_for("lift", sunny, sunny) == ("ton", "hd5", "hd10", "sol")
    assert columns_for("lift", dull, dull) == ("ton", "hd5", "hd10")  # the second set less the bed
    assert columns_for("night_humidity", dull, dull) == ("ton", "hd10", "tod", "csrng", "cs")
    some = frame("ton", "cs")
    assert columns_for("night_humidity", some, dull) == ("ton", "cs")
    assert columns_for("lift", sunny, frame("ton", "hd5", "hd10", "sol", empty=("sol",))) == ("ton", "hd5", "hd10")
    assert columns_for("lift", frame("ton", "hd5", "hd10", "sol", empty=("sol",)), sunny) == ("ton", "hd5", "hd10")


def test_wind_stands_only_beside_the_first_set() -> None:
    """Heat for each kelvin: wind beside the whole first set, and only where both winters logged it."""
    full, still = frame("ton", "tod", "sol", "windn", "tsr"), frame("ton", "tod", "sol")
    assert columns_for("watts_per_kelvin", full, full) == ("ton", "tod", "sol", "windn")
    assert columns_for("watts_per_kelvin", full, still) == ("ton", "tod", "sol")
    assert columns_for("watts_per_kelvin", frame("ton", "windn"), full) == ("ton",)
