"""What a lever truly spared against what is told: houses run with it, without it, and with it from the first day.

    nice -n 15 python -m studies.spared ROWS.csv 0 30        (in `tests`)

adds the houses that `ROWS.csv` lacks; `--write SPARED.md --date 2026-11-27` tells the table. Truth since: heat of the
winter without the lever less heat of the winter with it. Truth winter: heat without it less heat with it from the
first day on. Weather, habits, draughts and watering are the same in all three. Each house is told twice: from heat
logged by the hour, and from a meter read once a week.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import readings_of
from simulator import Change, HouseParams, Simulated, simulate
from studies.house_winters import LATITUDES, _habits, _house, _weather
from studies.spared_results import write
from studies.winters import FIRST, PLACES, ZONE

from reportgen.effects.causes import causes
from reportgen.effects.estimate import day_arrays, outcome_of
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.levers import lever_effects
from reportgen.effects.outcomes import OUTCOMES, day_table
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import HeatSupply, Readings

KINDS = ("cover", "gaps", "curtain")
HEATERS = ("large", "large", "small")  # one house in three has a heater at its limit
COLUMNS = (
    "seed", "kind", "heater", "others", "undone", "log", "by", "truth_since", "since_low", "since_high", "truth_winter",
    "winter_low", "winter_high", "heat", "flat_out", "refused",
)  # fmt: skip
Rows = list[tuple[object, ...]]


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """One house of the study. `own`: the lever's changes, on and perhaps off again; `beside`: told as well."""

    seed: int
    kind: str
    heater: str
    weather: pd.DataFrame
    params: HouseParams
    hidden: tuple[Change, ...]
    own: tuple[Change, ...]
    beside: tuple[Change, ...]
    latitude: float
    undone: bool


def house(seed: int) -> House:
    """The house of that seed: kinds, heaters, others and undoing go round by turns."""
    rng = np.random.default_rng([20261127, seed])
    place = PLACES[seed % len(PLACES)]
    weather = _weather(place, rng, seed + 500)
    params = _house(rng)
    kind, heater = KINDS[seed // 3 % 3], HEATERS[seed // 9 % 3]
    coldest = float(weather["temp_c"].quantile(0.002))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    share = rng.uniform(1.5, 2.2) if heater == "large" else rng.uniform(0.35, 0.6)
    params = replace(params, heater_w=loss * max(params.hold_c - coldest, 4.0) * share)
    undone = seed % 4 == 3
    own = _own(kind, params, rng, undone)
    return House(
        seed=seed,
        kind=kind,
        heater=heater,
        weather=weather,
        params=params,
        hidden=_habits(params, rng),
        own=own,
        beside=_beside(params, rng, own) if seed % 2 else (),
        latitude=LATITUDES[place],
        undone=undone,
    )


def _day(number: int) -> pd.Timestamp:
    return pd.Timestamp(FIRST, tz=ZONE) + pd.Timedelta(days=number, hours=12)


def _own(kind: str, params: HouseParams, rng: np.random.Generator, undone: bool) -> tuple[Change, ...]:
    alters = {
        "cover": {"u_w_m2k": params.u_w_m2k * float(rng.uniform(0.6, 0.88))},
        "gaps": {"air_changes_h": params.air_changes_h * float(rng.uniform(0.3, 0.7))},
        "curtain": {"curtain_m2kw": float(rng.uniform(0.06, 0.25))},
    }[kind]
    touches = ("air",) if kind == "gaps" else ("envelope",)
    start = int(rng.integers(35, 80 if undone else 125))
    end = _day(start + int(rng.integers(30, 70))) if undone else None
    told: dict[str, Any] = {"touches": touches, "timed": True, "reversible": True}
    on = Change(at=_day(start), until=end, alters=alters, what=kind, hoped_for=("less heating",), **told)
    return (on,) if end is None else (on, Change(at=end, what=f"{kind} off", undoes=kind, **told))


def _beside(params: HouseParams, rng: np.random.Generator, own: tuple[Change, ...]) -> tuple[Change, ...]:
    """One or two further changes of the diary, ten days and more from the lever's own."""
    deeds: tuple[tuple[str, dict[str, float], tuple[str, ...]], ...] = (
        ("sealed pane", {"u_w_m2k": params.u_w_m2k * 0.93}, ("envelope",)),
        ("watered less", {"plants_m2": params.plants_m2 * 0.7}, ("water",)),
        ("mat", {"other_w": 40.0}, ("heater",)),
    )
    found: list[Change] = []
    for n in rng.permutation(len(deeds))[: int(rng.integers(1, 3))]:
        what, alters, touches = deeds[n]
        at = _day(int(rng.integers(20, 150)))
        if all(abs((at - other.at).days) >= 10 for other in (*own, *found)) and not set(alters) & set(own[0].alters):
            found.append(Change(at=at, alters=alters, what=what, touches=touches, timed=True))
    return tuple(found)


def run(one: House, own: tuple[Change, ...]) -> Simulated:
    """Its winter with these of the lever's changes."""
    return simulate(one.weather, one.params, [*one.hidden, *one.beside, *own], one.seed)


def readings(one: House, made: Simulated, *, weekly: bool) -> Readings:
    """What its grower reads, the diary's undoing said."""
    of = readings_of(made, light=bool(one.seed % 3), bed=bool(one.seed % 5), lamp=True, latitude=one.latitude)
    undoes = {change.what: change.undoes for change in one.own if change.undoes}
    diary = tuple(replace(e, undoes=undoes.get(e.what, "")) for e in of.diary)
    found, problems = chains(diary, "diary.csv")
    assert not problems, problems
    heating = tuple(_weekly(supply) for supply in of.heating) if weekly else of.heating
    return replace(of, diary=diary, levers=levers_of(found, of.season), heating=heating)


def _weekly(supply: HeatSupply) -> HeatSupply:
    """The same heater with a meter read on every seventh day."""
    table = supply.intervals
    week = ((table["start"] - table["start"].iloc[0]) / pd.Timedelta(days=7)).astype(int)
    sums = table.groupby(week)[["bought", "heat_kwh", "cost"]].sum()
    ends = table.groupby(week).agg({"start": "min", "end": "max"})
    whole = ends.join(sums).reset_index(drop=True).assign(sparse=True, estimated=False, known_sum=-1)
    return replace(supply, form="meter", intervals=whole)


def told(of: Readings) -> LeverEffect:
    """What is told of the lever of the study."""
    found = causes(of)
    arrays = day_arrays(day_table(of), found, frozenset())
    measured = [{name: outcome_of(cause, name, arrays) for name in OUTCOMES} for cause in found]
    number = next(n for n, lever in enumerate(of.levers) if lever.name in KINDS)
    return lever_effects(of, arrays, measured)[number]


def rows(seed: int) -> Rows:
    """The house of that seed, told by the hour and by the week."""
    one = house(seed)
    made, without = run(one, one.own), run(one, ())
    whole = run(one, (replace(one.own[0], at=pd.Timestamp(one.weather.index[0]), until=None),))
    since, winter = without.kwh() - made.kwh(), without.kwh() - whole.kwh()
    found: Rows = []
    for log in ("hour", "week"):
        effect = told(readings(one, made, weekly=log == "week"))
        s = effect.spared
        ends = (s.since_kwh, s.winter_kwh) if s is not None else (None, None)
        low_high = [v for e in ends for v in ((e.low, e.high) if e is not None else (np.nan, np.nan))]
        by = "" if s is None else "nights" if s.relative is not None else "weeks" if log == "week" else "days"
        found.append(
            (
                seed, one.kind, one.heater, len(one.beside), one.undone, log, by, since, *low_high[:2], winter,
                *low_high[2:], without.kwh(), s.flat_out if s is not None else None, effect.spared_reason,
            )
        )  # fmt: skip
    return found


def main() -> None:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("first", type=int, nargs="?", default=0)
    parser.add_argument("end", type=int, nargs="?", default=0)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--date", default="")
    given = parser.parse_args()
    done = set(pd.read_csv(given.rows)["seed"]) if given.rows.exists() else set()
    for seed in range(given.first, given.end):
        if seed not in done:
            table = pd.DataFrame(rows(seed), columns=list(COLUMNS))
            table.to_csv(given.rows, mode="a", header=not given.rows.exists(), index=False)
    if given.write:
        write(pd.read_csv(given.rows), given.write, given.date)


if __name__ == "__main__":
    main()
