"""How near the price of a degree comes to the truth: simulated houses, each heated again with every hold moved.

    python -m studies.hold_prices ROWS.csv 100 160        (in `tests`)

adds the houses that ROWS.csv lacks; `python -m studies.hold_prices_results ROWS.csv DATE` writes the tables. Seeds 0 to
47 are those by which the spans were chosen, 100 and up those that tell how often they hold. Truth is heat of the house
at the moved holds less its heat as it was; told is what the measure makes of a grower's readings.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from simulator import Simulated
from studies.hold_houses import AWAY_K, House, house, readings

from reportgen.measures.heat import heat
from reportgen.measures.heat_types import Heat
from reportgen.measures.house.season import no_house
from reportgen.readings.types import Readings

BLIND = "plug, no balance of the house"


def rows(seed: int) -> Iterator[dict[str, Any]]:
    """One house: a row a way in which its heat is known and a move of its holds."""
    one = house(seed)
    made = one.run()
    logs = readings(one, made)
    of = next(iter(logs.values()))
    was = kwh(made, of)
    truth = {away: kwh(one.run(away), of) - was for away in AWAY_K if _asked(one, away)}
    found = {name: heat(told) for name, told in logs.items()}
    found[BLIND] = heat(logs["plug"], no_house("not asked for"))
    for name, section in found.items():
        about = {"seed": seed, "thermostat": one.thermostat, "film": len(one.film), "log": name, "measured": was}
        about |= {"by_run": section.priced_by_run, "refused": section.reasons.get("price_of_degree", "")}
        about["mean_days"] = section.basis.mean_days if section.basis is not None else np.nan
        for away, true in truth.items():
            yield about | {"away": away, "true": true} | _told(section, away)


def _asked(one: House, away_k: float) -> bool:
    """4 K are told of one hold all winter long, so only where the thermostat was left alone."""
    return abs(away_k) < 4.0 or one.thermostat == "left alone"


def kwh(made: Simulated, of: Readings) -> float:
    """Heat of the season's days [kWh]."""
    watts = made.frame["heater_w"]
    index = pd.DatetimeIndex(watts.index)
    inside = (index > of.season.start) & (index <= of.season.end)
    return float(watts[inside].sum()) * ((index[1] - index[0]) / pd.Timedelta(hours=1)) / 1000.0


def _told(found: Heat, away_k: float) -> dict[str, float]:
    """The told change and its ends [kWh]; NaN where refused. 4 K away by the table of holds."""
    ends = dict.fromkeys(("kwh", "low", "high"), np.nan)
    own = next((row for row in found.price_of_degree if row.away_k == away_k), None)
    if own is not None:
        ends = {end: getattr(own, end) for end in ends}
    elif found.price_of_hold and found.hold_found_c is not None:
        holds = [row.hold_c for row in found.price_of_hold]
        at = found.hold_found_c + away_k
        ends = {end: np.interp(at, holds, [getattr(row, end) for row in found.price_of_hold]) for end in ends}
    return {"told" if end == "kwh" else end: float(value) - (found.kwh or 0.0) for end, value in ends.items()}


def main(file: Path, seeds: range) -> None:
    """Adds the houses that the file lacks, one by one."""
    had = set(pd.read_csv(file)["seed"]) if file.exists() else set()
    for seed in seeds:
        if seed not in had:
            pd.DataFrame(rows(seed)).to_csv(file, mode="a", header=not file.exists(), index=False)


if __name__ == "__main__":
    main(Path(sys.argv[1]), range(int(sys.argv[2]), int(sys.argv[3])))
