"""Houses for the study of the price of a degree: the thermostat left alone or turned twice by date, a film hung in
mid-winter or not, and the heat known by a plug, from a meter or from bottles.

Truth is the same house in the same weather with every date's hold one or two kelvins away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pandas as pd
from effects.in_memory import readings_of
from made_season import store
from simulator import Change, HouseParams, Simulated, simulate
from studies.house_winters import LATITUDES, _habits, _house, _weather
from studies.winters import FIRST, PLACES, ZONE

from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import HeatSupply, Readings
from reportgen.season.models import Aims, Setpoint

AWAY_K = (-4.0, -2.0, -1.0, 1.0, 2.0, 4.0)
LOGS = ("plug", "meter, weekly", "meter, weekly, no rated power", "meter, every four weeks", "bottles")
BOTTLE_KWH = 250.0  # about 18 kg of propane
LEAST_HOLD_C = 2.0


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """One house in one winter. `turns`: the thermostat's dates and holds [°C], the first from the first day on."""

    seed: int
    place: str
    weather: pd.DataFrame
    params: HouseParams
    hidden: tuple[Change, ...]
    film: tuple[Change, ...]
    turns: tuple[tuple[pd.Timestamp, float], ...]

    @property
    def thermostat(self) -> str:
        """Left alone, or turned."""
        return "turned" if len(self.turns) > 1 else "left alone"

    def run(self, away_k: float = 0.0) -> Simulated:
        """Its winter, every date's hold `away_k` from what it was."""
        (_, first), *later = self.turns
        turned = [
            Change(at=at, alters={"hold_c": hold + away_k}, what=f"thermostat {n}", touches=("thermostat",), timed=True)
            for n, (at, hold) in enumerate(later, start=2)
        ]
        params = replace(self.params, hold_c=first + away_k)
        return simulate(self.weather, params, [*self.hidden, *self.film, *turned], self.seed)


def house(seed: int) -> House:
    """The house of that seed: kinds of thermostat and cover go round by turns."""
    rng = np.random.default_rng([20261128, seed])
    place = PLACES[seed % len(PLACES)]
    weather = _weather(place, rng, seed + 900)
    params = replace(_house(rng), u_w_m2k=float(rng.uniform(2.2, 6.5)))
    hold = float(rng.uniform(3, 10))
    coldest = float(weather["temp_c"].quantile(0.002))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    params = replace(params, heater_w=loss * max(hold - coldest, 4.0) * rng.uniform(1.5, 2.2))
    turns = _turns(hold, rng)
    film = _film(params, rng)
    return House(
        seed=seed,
        place=place,
        weather=weather,
        params=params,
        hidden=_habits(params, rng),
        film=film if seed // 2 % 2 else (),
        turns=turns if seed % 2 else turns[:1],
    )


def _day(number: int) -> pd.Timestamp:
    return pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=number, hours=12)


def _turns(hold: float, rng: np.random.Generator) -> tuple[tuple[pd.Timestamp, float], ...]:
    """Down by 1 to 3.5 K in early winter, then anything from 2.5 K down to 2.5 K up."""
    second = max(hold - float(rng.uniform(1.0, 3.5)), LEAST_HOLD_C)
    third = max(second + float(rng.uniform(-2.5, 2.5)), LEAST_HOLD_C)
    first = pd.Timestamp(FIRST, tz=ZONE)
    return (first, hold), (_day(int(rng.integers(30, 65))), second), (_day(int(rng.integers(80, 130))), third)


def _film(params: HouseParams, rng: np.random.Generator) -> tuple[Change, ...]:
    """An inner film between the 45th and the 120th day: a fifth to two fifths less loss through the cover, and darker;
    in every second house the doors are sealed three to six weeks later."""
    day = int(rng.integers(45, 120))
    cover = {
        "u_w_m2k": params.u_w_m2k * float(rng.uniform(0.6, 0.8)),
        "transmission": params.transmission * float(rng.uniform(0.85, 0.95)),
    }
    doors = {"air_changes_h": params.air_changes_h * float(rng.uniform(0.4, 0.7))}
    told: dict[str, Any] = {"touches": ("envelope",), "hoped_for": ("less heating",), "timed": True}
    film = Change(at=_day(day), alters=cover, what="film", **told)
    seal = Change(at=_day(day + int(rng.integers(21, 42))), alters=doors, what="doors sealed", **told)
    return (film, seal) if rng.random() < 0.5 else (film,)


def readings(one: House, made: Simulated) -> dict[str, Readings]:
    """What its grower reads, by how the heat is known."""
    of = readings_of(made, light=bool(one.seed % 3), bed=bool(one.seed % 5), latitude=LATITUDES[one.place])
    dated = tuple(
        Setpoint.model_validate({"from": max(at.date(), of.season.first_day), "c": hold}) for at, hold in one.turns
    )
    season = of.season.model_copy(update={"aims": Aims(hold=dated) if len(dated) > 1 else Aims(hold_c=dated[0].c)})
    found, problems = chains(of.diary, "diary.csv")
    assert not problems, problems
    of = replace(of, season=season, levers=levers_of(found, season))
    (plug,) = of.heating
    weekly = _sums(plug, _every(plug, 7))
    logs = (plug, weekly, replace(weekly, rated_power_w=None), _sums(plug, _every(plug, 28)), _bottles(plug))
    return {name: replace(of, heating=(supply,)) for name, supply in zip(LOGS, logs, strict=True)}


def _every(plug: HeatSupply, days: int) -> np.ndarray:
    """The number of the reading that ends each stretch of the plug."""
    start = plug.intervals["start"]
    return np.asarray((start - start.iloc[0]) // pd.Timedelta(days=days))


def _sums(plug: HeatSupply, number: Sequence[int] | np.ndarray, form: str = "meter") -> HeatSupply:
    table = plug.intervals
    sums = table.groupby(number)[["bought", "heat_kwh", "cost"]].sum()
    ends = table.groupby(number).agg({"start": "min", "end": "max"})
    whole = ends.join(sums).reset_index(drop=True)
    whole = whole.assign(sparse=True, estimated=False, known_sum=range(len(whole)))
    return replace(plug, form=form, intervals=whole)


def _bottles(plug: HeatSupply) -> HeatSupply:
    """A look at the store on the noon of every day on which a bottle ran empty."""
    table = plug.intervals
    burnt = (table["heat_kwh"].cumsum() // BOTTLE_KWH).to_numpy()
    day = ((table["start"] - table["start"].iloc[0].normalize()) - pd.Timedelta(hours=12)) // pd.Timedelta(days=1)
    number = np.asarray(pd.Series(burnt).groupby(day.to_numpy()).transform("min"))
    made = _sums(plug, number, "deliveries")
    amounts = [BOTTLE_KWH] * len(made.intervals)
    return replace(made, rated_power_w=None, fuel="propane", stock=store(*amounts))
