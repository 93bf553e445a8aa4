"""How near the price of a degree comes to the truth: simulated houses, each heated again at other holds.

Run by hand: `python -m pytest -m study tests/studies/test_hold_prices.py -s`; written down in HOLD_PRICES.md. A
house is simulated once at its hold, its
readings go through the same measure as a grower's, and the same house in the same weather is then really heated at
holds 2 K and 4 K away. Ratios are estimate ÷ truth.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
from made_season import channel, logger, readings, season
from simulator import simulate
from studies.winters import FIRST, LAST, ZONE, plan

from reportgen.measures.degree import at_hold
from reportgen.measures.heat import heat
from reportgen.measures.house.season import HouseModel
from reportgen.readings.types import HeatSupply, Readings

AWAY_K = (-4.0, -2.0, 2.0, 4.0)
EVERY_DAYS = (0, 7, 28)
LEAST_KWH = 50.0  # a hold that needed next to no heat has no ratio
BY_DEGREE_HOURS = HouseModel(
    house=None, why="degree-hours alone", first=dt.date(2025, 10, 18), whole=np.zeros(0, dtype=bool), states=()
)
HEATER_W = 6000.0  # never at its limit: a heater that is too small is another question


def ratios(seed: int) -> list[dict[str, Any]]:
    """Estimate ÷ truth of one house, a row a kind of reading; none where the measure says that it cannot tell.

    `every`: days between meter readings, 0 for a plug logged every quarter hour.
    """
    one = plan(seed, true=False)
    house = replace(one.house, heater_w=HEATER_W)
    made = simulate(one.weather, house, one.hidden, seed)
    holds = {away: replace(house, hold_c=house.hold_c + away) for away in AWAY_K}
    truth = {away: simulate(one.weather, held, one.hidden, seed).kwh() for away, held in holds.items()}
    rows = []
    for every in EVERY_DAYS:
        found = heat(_readings(made.frame, every), BY_DEGREE_HOURS)
        row: dict[str, Any] = {"seed": seed, "every": every, "place": one.place, "told": bool(found.price_of_hold)}
        for away, true in truth.items():
            estimate = at_hold(found, (found.hold_found_c or 0.0) + away, "kwh")
            row[f"{away:+.0f} K"] = estimate / true if estimate is not None and true > LEAST_KWH else np.nan
        rows.append(row)
    return rows


def _readings(frame: pd.DataFrame, every_days: int) -> Readings:
    """The season as a grower's loggers would have it, without noise."""
    local = frame.tz_convert(ZONE)
    local = local[(local.index >= pd.Timestamp(FIRST, tz=ZONE)) & (local.index < pd.Timestamp(LAST, tz=ZONE))]
    loggers = (logger("bench"), logger("yard", where="outdoor"))
    return readings(
        season(FIRST, str(local.index[-1].date()), loggers=loggers),
        channels=(channel(local["temp_in_c"]), channel(local["temp_out_c"], logger="yard", where="outdoor")),
        heating=(_supply(local["heater_w"], every_days),),
    )


def _supply(watts: pd.Series, every_days: int) -> HeatSupply:
    step = watts.index[1] - watts.index[0]
    kwh = watts * (step / pd.Timedelta(hours=1)) / 1000.0
    if every_days:
        kwh = kwh.resample(f"{every_days}D", origin="start_day", label="left").sum()
        ends = [*kwh.index[1:], watts.index[-1]]
        starts = list(kwh.index)
    else:
        starts, ends = list(kwh.index - step), list(kwh.index)
    table = pd.DataFrame({"start": starts, "end": ends, "bought": kwh.to_numpy(), "heat_kwh": kwh.to_numpy()})
    table = table.assign(cost=0.3 * table["heat_kwh"], sparse=bool(every_days), estimated=False)
    return HeatSupply(
        name="heater",
        fuel="electricity",
        role="main",
        form="logger",
        kind=None,
        unit="kWh",
        intervals=table,
        rated_power_w=HEATER_W,
        vented=None,
        heating_value="",
        co2_kg_per_unit=None,
    )


def table(seeds: range) -> pd.DataFrame:
    """One row a house and kind of reading."""
    return pd.DataFrame([row for seed in seeds for row in ratios(seed)])


def spread(values: pd.Series) -> str:
    """Median and 5–95 % of a ratio, as it is written down."""
    low, middle, high = values.quantile([0.05, 0.5, 0.95])
    return f"{middle:.2f} ({low:.2f}–{high:.2f})"


def report(found: pd.DataFrame) -> str:
    """The results as a table in Markdown."""
    names = {0: "a plug, by the quarter hour", 7: "a meter, weekly", 28: "a meter, every four weeks"}
    lines = ["| heat known from | houses | told | −4 K | −2 K | +2 K | +4 K |", "|---|---|---|---|---|---|---|"]
    for every, rows in found.groupby("every"):
        cells = [spread(rows[f"{away:+.0f} K"].dropna()) for away in AWAY_K]
        lines.append(f"| {names[int(every)]} | {len(rows)} | {int(rows['told'].sum())} | {' | '.join(cells)} |")
    return "\n".join(lines)
