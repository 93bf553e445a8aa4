"""Two winters: the shared days, what is cut to them, and the difference at equal weather on houses of known truth."""

from __future__ import annotations

import datetime as dt
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import heater, logger, readings, season

from reportgen.effects.gls import Estimate
from reportgen.effects.heat_days import HeatDays
from reportgen.effects.outcomes import DayTable
from reportgen.problems import NotEnoughData
from reportgen.winters.apart import widened
from reportgen.winters.books import diary_differences, logger_warnings
from reportgen.winters.common import moved, restrict, shared_days, years_between
from reportgen.winters.equal import columns_for, equal_weather


def made_winter(
    year: int, days: int, rng: np.random.Generator, *, better_k: float = 0.0, colder_k: float = 0.0
) -> DayTable:
    """A house of known truth: lift follows the outdoor night; its noise fades from day to day and its level wanders.

    The size of the noise (0.8 K, ρ = 0.6, a wandering level of 0.08 K a day) is a choice of ours, of the order that
    night lifts of small houses show.
    """
    n = np.arange(days)
    outdoor = 4.0 - colder_k - 6.0 * np.sin(np.pi * n / days) + _fading(days, 0.7, 2.5, rng)
    wander = np.cumsum(rng.normal(0, 0.08, days))
    lift = 3.0 + better_k - 0.25 * outdoor + _fading(days, 0.6, 0.8, rng) + wander - wander.mean()
    index = pd.Index([dt.date(year, 11, 1) + dt.timedelta(days=int(k)) for k in n], name="date")
    weather = pd.DataFrame(
        {"ton": outdoor, "hd5": np.maximum(0, 5 - outdoor), "hd10": np.maximum(0, 10 - outdoor)}, index
    )
    empty = pd.DataFrame(index=index)
    return DayTable(
        outcomes=pd.DataFrame({"lift": lift}, index),
        weather=weather,
        heat=HeatDays(table=empty, reason="no heater", left_out=(), by_hour=False),
        units=MappingProxyType({"lift": "K"}),
        missing=MappingProxyType({}),
    )


def _fading(days: int, rho: float, sd: float, rng: np.random.Generator) -> np.ndarray[Any, np.dtype[np.float64]]:
    out, now = np.zeros(days), rng.normal(0, sd)
    for k in range(days):
        out[k] = now
        now = rho * now + rng.normal(0, sd * np.sqrt(1 - rho**2))
    return out


def test_a_colder_winter_in_the_same_house_shows_no_difference() -> None:
    """Same house, 3 K colder: the raw lift differs by about 0.75 K, the interval at equal weather covers zero."""
    rng = np.random.default_rng(11)
    last, this = made_winter(2024, 120, rng), made_winter(2025, 120, rng, colder_k=3.0)
    found = equal_weather(this, last, "lift", 1)
    assert found.mean_this - found.mean_last > 0.4
    assert found.estimate.low < 0 < found.estimate.high


def test_a_house_improved_by_a_known_amount_is_found() -> None:
    """Improved by 2 K in a milder winter: the interval holds 2 and excludes zero."""
    rng = np.random.default_rng(12)
    last, this = made_winter(2024, 120, rng), made_winter(2025, 120, rng, better_k=2.0, colder_k=-2.0)
    estimate = equal_weather(this, last, "lift", 1).estimate
    assert estimate.low < 2.0 < estimate.high
    assert estimate.low > 0


def test_every_day_with_its_weather_counts() -> None:
    """60 and 50 days, of which three have no outdoor night: 57 of this winter, 50 of the last."""
    rng = np.random.default_rng(16)
    last, this = made_winter(2024, 50, rng), made_winter(2025, 60, rng)
    this.weather.iloc[10:13, this.weather.columns.get_loc("ton")] = np.nan
    found = equal_weather(this, last, "lift", 1)
    assert (found.days_this, found.days_last) == (57, 50)


def test_swapping_the_winters_turns_the_sign() -> None:
    """This against last is minus last against this, to rounding."""
    rng = np.random.default_rng(13)
    last, this = made_winter(2024, 60, rng), made_winter(2025, 60, rng, better_k=1.0)
    there, back = equal_weather(this, last, "lift", 1).estimate, equal_weather(last, this, "lift", -1).estimate
    assert there.effect == pytest.approx(-back.effect, abs=1e-9)
    assert there.low == pytest.approx(-back.high, abs=1e-9)


def test_three_weeks_are_the_least() -> None:
    """Twenty days in one winter are refused, with the number."""
    rng = np.random.default_rng(14)
    with pytest.raises(NotEnoughData, match="only 20 days of this winter"):
        equal_weather(made_winter(2025, 20, rng), made_winter(2024, 60, rng), "lift", 1)


@pytest.mark.study
def test_study_of_false_alarms_and_coverage() -> None:
    """400 pairs of winters of 120 days: false alarms at most 6 %, coverage of a true 1 K at least 94 %."""
    rng = np.random.default_rng(15)
    alarms = covered = 0
    for _ in range(400):
        last = made_winter(2024, 120, rng)
        same = equal_weather(made_winter(2025, 120, rng, colder_k=2.0), last, "lift", 1).estimate
        better = equal_weather(made_winter(2025, 120, rng, better_k=1.0, colder_k=2.0), last, "lift", 1).estimate
        alarms += not same.low < 0 < same.high
        covered += better.low < 1.0 < better.high
    print(alarms / 400, covered / 400)
    assert alarms / 400 <= 0.06
    assert covered / 400 >= 0.94


def test_shared_days_lie_in_this_winters_dates() -> None:
    """October to April against November to May of the year before: November to April."""
    this, last = season("2025-10-18", "2026-04-12"), season("2024-11-02", "2025-05-01")
    assert years_between(this, last) == 1
    assert shared_days(this, last) == (dt.date(2025, 11, 2), dt.date(2026, 4, 12))
    assert shared_days(this, season("2025-06-01", "2025-07-01")) is None


def test_a_leap_day_moves_to_the_twenty_eighth() -> None:
    """29 February has no like in a common year."""
    assert moved(dt.date(2024, 2, 29), 1) == dt.date(2025, 2, 28)


def test_heat_is_cut_to_the_shared_days_by_time() -> None:
    """A ten-day reading of which four days lie inside keeps 40 % of its heat and money."""
    supply = heater([("2026-01-05", "2026-01-15", 100.0, 30.0)])
    cut = restrict(readings(heating=(supply,)), dt.date(2026, 1, 11), dt.date(2026, 1, 20)).heating[0].intervals
    assert cut["heat_kwh"].sum() == pytest.approx(40.0)
    assert cut["cost"].sum() == pytest.approx(12.0)


def test_moved_and_swapped_loggers_are_warned_about() -> None:
    """Another place, another accuracy, a new and a missing logger are each told once, by name."""
    this = readings(season(logger=(logger("bench", where="elsewhere"), logger("door"), logger("new", accuracy=0.5))))
    last = readings(season(logger=(logger("bench"), logger("door", accuracy=0.5), logger("old"))))
    words = " ".join(logger_warnings(this, last))
    for name, part in (
        ("bench", "somewhere else"),
        ("door", "another accuracy"),
        ("new", "is new"),
        ("old", "not there"),
    ):
        assert any(name in line and part in line for line in logger_warnings(this, last)), words


def test_the_diary_tells_what_only_one_winter_had() -> None:
    """The same words in another case are the same thing; events do not alter a house."""
    from reportgen.readings.types import DiaryEntry

    def entry(what: str, kind: str = "change") -> DiaryEntry:
        return DiaryEntry(
            line=2, date=dt.date(2026, 1, 6), time=None, kind=kind, what=what, touches=(), reversible=None,
            hoped_for=(), until=None, cost=None, years=None, written=None, note="",
        )  # fmt: skip

    this = readings(diary=(entry("Vents sealed"), entry("Bubble film"), entry("power cut", "event")))
    last = readings(diary=(entry("vents  sealed"), entry("old heater")))
    assert diary_differences(this, last) == (("Bubble film",), ("old heater",))


def test_the_bed_is_weather_for_the_damp_and_the_houses_own_doing_for_the_warmth() -> None:
    """Over a whole winter a better cover warms the bed too, so the bed's warmth is taken out of no warmth outcome."""
    known = pd.DataFrame({name: [1.0] for name in ("ton", "hd5", "hd10", "tod", "tsd")})
    assert "tsd" not in columns_for("lift", known, known)
    assert "tsd" not in columns_for("night_minimum", known, known)
    assert "tsd" in columns_for("night_humidity", known, known)


def plain(se: float, dof: int = 60, effect: float = 1.0) -> Estimate:
    """An estimate within the winters, before anything is added for their distance."""
    nan = float("nan")
    return Estimate(
        effect=effect, se=se, low=nan, high=nan, smallest_visible=nan, dof=dof, coefficients=(), effective_days=60.0
    )


def half(outcome: str, se: float, apart_k: float, last_mean: float = 1.0) -> float:
    wide = widened(plain(se), outcome, apart_k, last_mean)
    assert (wide.low + wide.high) / 2 == pytest.approx(1.0)
    return (wide.high - wide.low) / 2


T60 = 2.0003  # Student's t(0.975) at 60 degrees of freedom, as tabled


@pytest.mark.parametrize(
    ("outcome", "se", "apart_k", "mean", "root"),
    [
        ("lift", 0.1, 4.0, 3.0, 0.29),  # √(0.16² + 0.24² + 0.03²) = √0.0841
        ("night_humidity", 0.0, 0.0, 85.0, 1.3),  # another crop and watering alone
        ("heat", 0.625, 5.0, 20.0, 1.9**0.5),  # 1.6 · 0.625 = 1; 0.9 % · 5 · 20 = 0.9; 1.5 % · 20 = 0.3
        ("watts_per_kelvin", 0.0, 1.6, 100.0, 2.5),  # √((1.25 % · 1.6 · 100)² + 1.5²) = √(2² + 1.5²)
        ("damp_hours", 0.5, 0.0, 4.0, 0.8),  # nothing added to winters equally cold
        ("daily_light", 0.5, 4.0, 4.0, 0.8),  # never tried: as it is within the winters
    ],
)
def test_the_interval_of_two_winters_on_paper(
    outcome: str, se: float, apart_k: float, mean: float, root: float
) -> None:
    """t times the root of three squares: 1.6 standard errors, k a kelvin apart, a."""
    assert half(outcome, se, apart_k, mean) == pytest.approx(T60 * root, rel=1e-4)


def test_laws_of_the_interval_of_two_winters() -> None:
    """A colder winter is as far away as a milder one; further is wider; heat in another unit scales along."""
    assert half("lift", 0.1, -4.0) == half("lift", 0.1, 4.0) > half("lift", 0.1, 2.0) > half("lift", 0.1, 0.0)
    assert half("heat", 6.0, 3.0, 200.0) == pytest.approx(10 * half("heat", 0.6, 3.0, 20.0))
    assert half("lift", 0.3, 0.0) >= T60 * 1.6 * 0.3 * 0.9999


def test_no_interval_where_the_distance_of_the_winters_is_unknown() -> None:
    """Without outdoor nights nobody knows by how much to widen: no interval for what widens."""
    with pytest.raises(NotEnoughData, match="how far apart"):
        widened(plain(0.1), "lift", float("nan"), 3.0)
    assert widened(plain(0.1), "daily_light", float("nan"), 3.0).se == pytest.approx(0.16)


def test_winters_further_apart_get_a_wider_interval_and_say_by_how_much() -> None:
    """The same two records with this winter's outdoor nights 4 K colder: wider, and the distance is carried along."""
    far, near = (
        equal_weather(
            made_winter(2025, 120, np.random.default_rng(21), colder_k=k),
            made_winter(2024, 120, np.random.default_rng(22)),
            "lift",
            1,
        )
        for k in (4.0, 0.0)
    )
    assert far.apart_k == pytest.approx(near.apart_k - 4.0)
    assert far.estimate.high - far.estimate.low > near.estimate.high - near.estimate.low
