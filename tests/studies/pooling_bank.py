"""A bank of simulated houses from which the study of pooling draws its groups.

    nice python -m studies.pooling_bank ROWS.csv 0 26        (in `tests`)

adds the weathers 0 to 25 that `ROWS.csv` lacks. Under each of the first eight stand 28 heated or 22 unheated houses,
under each of the others 13, all unlike, each with habits nobody wrote down. Every house is told on nine dates on which
nothing was done, one in each of nine fortnights that all houses of a weather share, and on two on which something was,
simulated with and without it.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import _entry, readings_of
from simulator import Change, HouseParams, Simulated, simulate
from studies.changes import mean_difference
from studies.house_winters import LATITUDES, _house, _weather
from studies.winters import FIRST, ZONE, hidden

from reportgen.effects.causes import Cause, causes
from reportgen.effects.estimate import day_arrays, outcome_of
from reportgen.effects.outcomes import DayTable, day_table
from reportgen.effects.types import Outcome
from reportgen.gather.types import POOLED
from reportgen.readings.types import Readings

SEED = 20261128
REAL = {0: "Greensboro", 1: "Sand Point", 5: "Sand Point", 6: "Greensboro"}  # all others are the simulator's own
HEATED_OF_FIVE = (0, 2, 4)
FULL = 8  # weathers with enough houses for groups of twenty; the others hold groups of twelve
HOUSES = {True: 28, False: 22}  # under each of those, by heated or not
FEW_HOUSES = 13
FORTNIGHT = 14
QUIET_STARTS = tuple(range(24, 24 + 9 * FORTNIGHT, FORTNIGHT))  # days of the season; the last date is day 149
AFTER_DAYS = 24  # simulated after something was done: the estimator looks at 21
FILM, WATER, BED = "film", "water", "bed"
TOUCHES = {FILM: "envelope", WATER: "water", BED: "bed"}
NOTHING = "nothing"
COLUMNS = (
    "weather", "place", "heated", "house", "fortnight", "when", "deed", "outcome", "effect", "low", "high", "se", "dof",
    "before", "truth", "refused",
)  # fmt: skip
Rows = list[tuple[object, ...]]


@dataclass(frozen=True, kw_only=True, slots=True)
class Sky:
    """One weather and what all houses under it share: the fortnights in which they do the same thing."""

    number: int
    place: str
    heated: bool
    frame: pd.DataFrame
    deeds: tuple[tuple[int, str], ...]  # first day of the fortnight, what is done in it

    @property
    def name(self) -> str:
        """A station's typical year is one weather whoever stands under it."""
        return self.place if self.number in REAL else f"{self.place} {self.number}"


@dataclass(frozen=True, kw_only=True, slots=True)
class Bankhouse:
    """One house under a sky, and what its grower logs."""

    seed: int
    params: HouseParams
    habits: tuple[Change, ...]
    light: bool
    moist: bool
    latitude: float


def sky(number: int) -> Sky:
    """The weather of that number; film goes up under every sky, watering and bed edge take turns."""
    rng = np.random.default_rng([SEED, number])
    place = REAL.get(number, "simulated weather")
    things = [FILM, (WATER, BED)[number // 5 % 2]]
    starts = [int(rng.integers(24, 60)), int(rng.integers(80, 115))]
    if rng.random() < 0.5:
        things.reverse()
    return Sky(
        number=number,
        place=place,
        heated=number % 5 in HEATED_OF_FIVE,
        frame=_weather(place, rng, 7000 + number),
        deeds=tuple(zip(starts, things, strict=True)),
    )


def house(of: Sky, number: int) -> tuple[Bankhouse, np.random.Generator]:
    """The house of that number under a sky, and the generator from which its days are drawn."""
    rng = np.random.default_rng([SEED, of.number, number])
    params = _house(rng)
    coldest = float(of.frame["temp_c"].quantile(0.002))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    power = loss * max(params.hold_c - coldest, 4.0) * float(rng.uniform(1.5, 2.2)) if of.heated else 0.0
    params = replace(params, heater_w=power)
    logged = int(rng.integers(0, 3))  # 0: light and humidity outdoors too
    one = Bankhouse(
        seed=100 * of.number + number,
        params=params,
        habits=hidden(params, rng),
        light=logged == 0,
        moist=logged < 2,
        latitude=LATITUDES[of.place],
    )
    return one, rng


def run(of: Sky, one: Bankhouse, changes: tuple[Change, ...], days: int | None = None) -> Simulated:
    """Its winter, whole or as far as that day of the season."""
    return simulate(of.frame if days is None else of.frame[: _noon(days)], one.params, changes, one.seed)


def _noon(day: int) -> pd.Timestamp:
    return pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=day, hours=12)


def _logged(one: Bankhouse, made: Simulated) -> Readings:
    return readings_of(made, light=one.light, moist=one.moist, bed=True, latitude=one.latitude)


def deed(thing: str, rng: np.random.Generator) -> tuple[str, float]:
    """Which parameter of the house it alters, and by what factor."""
    name, low, high = {
        FILM: ("u_w_m2k", 0.65, 0.85),
        WATER: ("wet", 0.3, 0.8),
        BED: ("edge_w_k", 0.1, 0.6),
    }[thing]
    return name, float(rng.uniform(low, high))


def altered(one: Bankhouse, told: Change, name: str, factor: float) -> tuple[Change, ...]:
    """Its habits with the deed: what they set later is set by the same factor lower, so that the deed lasts."""
    later = [
        replace(c, alters={**c.alters, name: c.alters[name] * factor}) if c.at > told.at and name in c.alters else c
        for c in one.habits
    ]
    before = [c.alters[name] for c in one.habits if c.at <= told.at and name in c.alters]
    level = before[-1] if before else getattr(one.params, name)
    return (*later, replace(told, alters={name: level * factor}))


def diary_line(thing: str, day: int) -> Change:
    """How the diary tells it: a date without a time of day."""
    return Change(at=_noon(day), what=thing, touches=(TOUCHES[thing],), hoped_for=("less heating",))


def told(of: Readings, table: DayTable, line: Change) -> tuple[Cause, dict[str, Outcome]]:
    """All pooled outcomes of one diary line."""
    (cause,) = causes(replace(of, diary=(_entry(line, 2),)))
    arrays = day_arrays(table, (cause,), frozenset())
    return cause, {name: outcome_of(cause, name, arrays) for name in POOLED}


def rows(of: Sky, number: int) -> Rows:
    """Everything that one house is told: nine dates without a deed, two with one."""
    one, rng = house(of, number)
    base = run(of, one, one.habits)
    readings = _logged(one, base)
    table = day_table(readings)
    found: Rows = []
    for start in QUIET_STARTS:
        line = diary_line(FILM, start + int(rng.integers(0, FORTNIGHT)))
        _, outcomes = told(readings, table, line)
        found += _told_rows(of, number, start, line, NOTHING, outcomes, dict.fromkeys(POOLED, 0.0))
    for start, thing in of.deeds:
        day = start + int(rng.integers(0, FORTNIGHT))
        line = diary_line(thing, day)
        made = run(of, one, altered(one, line, *deed(thing, rng)), day + AFTER_DAYS)
        twin = day_table(_logged(one, replace(base, frame=base.frame[: _noon(day + AFTER_DAYS)])))
        done = _logged(one, replace(made, changes=()))
        done_table = day_table(done)
        cause, outcomes = told(done, done_table, line)
        found += _told_rows(of, number, start, line, thing, outcomes, mean_difference(done_table, twin, cause))
    return found


def _told_rows(
    of: Sky, number: int, start: int, line: Change, thing: str, told: dict[str, Outcome], truth: dict[str, float]
) -> Rows:
    when = line.at.date().isoformat()
    return [
        (
            of.name, of.place, of.heated, number, start, when, thing, name, o.effect, o.low, o.high, o.se, o.dof,
            o.before_mean, truth.get(name, float("nan")), o.refused or "",
        )
        for name, o in told.items()
    ]  # fmt: skip


def main() -> None:
    """The command line of the bank."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("first", type=int)
    parser.add_argument("end", type=int)
    given = parser.parse_args()
    done = set()
    if given.rows.exists():
        old = pd.read_csv(given.rows)
        done = set(zip(old["weather"], old["heated"].astype(bool), old["house"], strict=True))
    for n in range(given.first, given.end):
        of = sky(n)
        for number in range(HOUSES[of.heated] if n < FULL else FEW_HOUSES):
            if (of.name, of.heated, number) not in done:
                table = pd.DataFrame(rows(of, number), columns=list(COLUMNS))
                table.to_csv(given.rows, mode="a", header=not given.rows.exists(), index=False)


if __name__ == "__main__":
    main()
