"""How unlike the weather of two sides may be: 1.5 pooled deviations for most outcomes, 2 for watts per kelvin."""

from __future__ import annotations

import numpy as np
import pytest

from reportgen.effects.causes import Cause
from reportgen.effects.design import COLDER_SD, COLDER_SD_PER_K, Refused, check_weather_alike
from reportgen.effects.estimate import DayArrays, outcome_of

N = 21
SPREAD = np.linspace(-1.7, 1.7, N)  # of a side's nights about their mean [K]
DAYS = np.arange(1.0, 2 * N + 2)
CAUSE = Cause(entries=(), first=N + 1, last=N + 1)


def arrays(apart_sd: float) -> DayArrays:
    """Three weeks on either side of one day; the nights after colder by so many standard deviations of a side."""
    colder = apart_sd * SPREAD.std(ddof=1)
    outdoor = np.concatenate([SPREAD, [0.0], SPREAD[::-1] - colder])
    noise = np.random.default_rng(3).normal(0.0, 1.0, len(DAYS))
    names = ("lift", "heat", "night_humidity", "watts_per_kelvin")
    return DayArrays(
        days=DAYS,
        outcomes=dict.fromkeys(names, 50.0 - outdoor + noise),
        weather={"ton": outdoor},
        heated=np.ones(len(DAYS)),
        units=dict.fromkeys(names, ""),
        missing={},
        causes=(CAUSE,),
        lost=frozenset(),
    )


@pytest.mark.parametrize(
    ("apart_sd", "refused", "per_k_refused"), [(1.4, False, False), (1.7, True, False), (2.1, True, True)]
)
def test_only_watts_per_kelvin_bear_nights_more_unlike(apart_sd: float, refused: bool, per_k_refused: bool) -> None:
    """1.4 deviations: all are told; 1.7: watts per kelvin alone; 2.1: none."""
    found = {name: outcome_of(CAUSE, name, arrays(apart_sd)).refused for name in arrays(apart_sd).outcomes}
    assert (found.pop("watts_per_kelvin") is not None) is per_k_refused
    assert {why is not None for why in found.values()} == {refused}


def test_the_words_name_the_colder_side() -> None:
    """Nights 1.7 deviations colder after: refused at 1.5 in those words, not at 2."""
    outdoor = np.concatenate([SPREAD, SPREAD - 1.7 * SPREAD.std(ddof=1)])
    step = np.repeat([0.0, 1.0], N)
    with pytest.raises(Refused, match="the nights after were too much colder"):
        check_weather_alike(step, outdoor, colder_sd=COLDER_SD)
    check_weather_alike(step, outdoor, colder_sd=COLDER_SD_PER_K)
