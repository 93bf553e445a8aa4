"""Two winters of one simulated house under other weather: false alarms and coverage of the difference at equal weather.

    nice python tests/studies/two_winters.py pairs.csv --pairs 60 --write TWO_WINTERS.md --date 2026-11-26

adds the pairs that `pairs.csv` lacks. Each winter has a crop that grows, a grower who waters and doors that leak in
ways of its own; every second pair lies 3 to 5 K apart outdoors, the others up to 2 K. This winter is simulated twice:
in the same house, and in a better one (cover a quarter tighter, floor drier), whose truth is the mean difference of the
two. Seeds lie beyond those by which the interval was chosen.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd
from scipy import stats

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import readings_of
from simulator import Climate, HouseParams, Simulated, simulate, synthetic
from studies.results import table, two_rates
from studies.winters import FIRST, LAST, STEP_S, ZONE, hidden

from reportgen.effects.outcomes import DayTable, day_table
from reportgen.problems import NotEnoughData
from reportgen.winters.apart import APART
from reportgen.winters.equal import equal_weather

FIRST_SEED = 20_200  # by those below, three of the intervals were widened
COLUMNS = (
    "seed", "apart", "heated", "outcome", "low", "high", "better_low", "better_high", "truth", "last_mean", "effect",
    "se", "dof",
)  # fmt: skip
FAR_K = 3.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Pair:
    """Last winter, this winter of the same house, this winter of the better house, as garden days."""

    last: DayTable
    same: DayTable
    better: DayTable
    heated: bool


def pair(seed: int) -> Pair:
    """The three winters of that seed."""
    rng = np.random.default_rng([20261126, seed])
    mean_c = rng.uniform(6.5, 10.5)
    shift_k = rng.choice((-1.0, 1.0)) * (rng.uniform(3.0, 5.0) if seed % 2 else rng.uniform(0.0, 2.0))
    heated = bool(rng.random() < 0.7)
    house = HouseParams(
        u_w_m2k=rng.uniform(2.4, 4.5),
        air_changes_h=rng.uniform(0.5, 1.8),
        heater_w=4000.0 if heated else 0.0,
        hold_c=rng.uniform(4.0, 10.0),
        plants_m2=5.0,
        capacity_kj_k=rng.uniform(600, 1500),
    )
    better = replace(house, u_w_m2k=0.75 * house.u_w_m2k, wet=0.6 * house.wet)
    logged = int(rng.integers(0, 3))
    weathers = [_weather(mean_c + shift, 2 * seed + n) for n, shift in enumerate((0.0, shift_k))]
    made = [
        simulate(weathers[which], of, hidden(of, np.random.default_rng([seed, which])), 2 * seed + which)
        for which, of in ((0, house), (1, house), (1, better))
    ]
    last, same, improved = (_table(one, logged) for one in made)
    return Pair(last=last, same=same, better=improved, heated=heated)


def _weather(mean_c: float, seed: int) -> pd.DataFrame:
    start, end = (pd.Timestamp(day, tz=ZONE).tz_convert("UTC") for day in (FIRST, LAST))
    return synthetic(Climate(mean_c=mean_c), start, end, seed, STEP_S)


def _table(made: Simulated, logged: int) -> DayTable:
    """Light and humidity outdoors too (0), a bed probe only (1), nothing but temperature (2)."""
    return day_table(readings_of(made, light=logged == 0, moist=logged == 0, bed=logged < 2))


def run(seed: int) -> list[tuple[object, ...]]:
    """One row an outcome that could be had at equal weather."""
    of, rows = pair(seed), []
    for outcome in APART:
        try:
            null, found = (equal_weather(this, of.last, outcome, 0) for this in (of.same, of.better))
        except NotEnoughData:
            continue
        truth = float((of.better.outcomes[outcome] - of.same.outcomes[outcome]).mean())
        ends = (null.estimate.low, null.estimate.high, found.estimate.low, found.estimate.high)
        null_only = (null.estimate.effect, null.estimate.se, null.estimate.dof)
        rows.append((seed, null.apart_k, of.heated, outcome, *ends, truth, null.mean_last, *null_only))
    return rows


def marked(rows: pd.DataFrame) -> pd.DataFrame:
    """With `sign` (nothing altered, zero outside), `holds` (better house, truth inside), `told` (zero outside)."""
    out = rows.copy()
    out["sign"] = (out["low"] > 0) | (out["high"] < 0)
    out["holds"] = (out["better_low"] <= out["truth"]) & (out["truth"] <= out["better_high"])
    out["told"] = ((out["better_low"] > 0) | (out["better_high"] < 0)) & (out["truth"].abs() > 0)
    out["once"] = out["effect"].abs() > np.maximum(_without_distance(out), 1e-6)  # damp every hour of both: no sign
    out["half"] = (out["high"] - out["low"]) / 2
    out["far"] = out["apart"].abs() >= FAR_K
    return out


def _without_distance(rows: pd.DataFrame) -> pd.Series:
    """Half of the interval if it took no account of how far apart the winters lay: t · 1.6 · se alone."""
    added = rows["outcome"].map(APART)
    unit = np.where([a.of_mean for a in added], rows["last_mean"].abs(), 1.0)
    grown = np.asarray([a.per_k for a in added]) * unit * rows["apart"]
    least = np.asarray([a.least for a in added]) * unit
    within = np.sqrt(np.maximum(rows["se"] ** 2 - grown**2 - least**2, 0.0))
    return pd.Series(stats.t.ppf(0.975, rows["dof"]) * within, index=rows.index)


def text(rows: pd.DataFrame, date: str) -> str:
    """TWO_WINTERS.md."""
    found = marked(rows)
    far = found[found["far"]]
    pairs = [int(part["seed"].nunique()) for part in (found, far)]
    lines = [
        "# Two winters of one house",
        "",
        f"Run on {date}; seeds [20261126, {FIRST_SEED} + n]; tests/studies/two_winters.py. {pairs[0]} pairs of winters "
        f"of a simulated house, {pairs[1]} of them 3 K and more apart outdoors at night; each pair has a weather of "
        "its own. In brackets: counts and the exact 95 % binomial interval.",
        "",
        "On pairs before these (seeds 20000 to 20071 and, for the bed's mean, 20100 to 20171 too) the narrower "
        "intervals first planned held the truth of a better house in 43 of 52 (watts per kelvin, 0.5 % a kelvin), 88 "
        "of 101 (bed, 0.045 K a kelvin) and 38 of 48 (its daily swing, 0.055 K a kelvin), and left out zero with "
        "nothing altered in 3, 10 and 9. They are widened since, to 1.25 %, 0.09 K and 0.11 K; all others are as they "
        "were chosen elsewhere, and held 90 to 100 % on both sets.",
        "",
        "## Nothing altered: the interval leaves out zero (aim: at most 5 %)",
        "",
        *table(("outcome", "all pairs", "3 K and more apart"), two_rates(found, far, "outcome", "sign")),
        "The same without the winters' distance (1.6 times the plain interval alone):",
        "",
        *table(("outcome", "all pairs", "3 K and more apart"), two_rates(found, far, "outcome", "once")),
        "## A better house: the interval holds the truth (aim: at least 95 %)",
        "",
        *table(("outcome", "all pairs", "3 K and more apart"), two_rates(found, far, "outcome", "holds")),
        "## A better house: the interval leaves out zero",
        "",
        *table(("outcome", "all pairs", "3 K and more apart"), two_rates(found, far, "outcome", "told")),
        "## Half-width, median",
        "",
        *table(
            ("outcome", "all pairs", "3 K and more apart"),
            [
                (str(name), f"{group['half'].median():.2g}", f"{group.loc[group['far'], 'half'].median():.2g}")
                for name, group in found.groupby("outcome")
            ],
        ),
    ]
    return "\n".join(lines)


def gather(rows_file: Path, seeds: list[int]) -> pd.DataFrame:
    """Runs the pairs that the file lacks, adding to it one by one."""
    done = set(pd.read_csv(rows_file)["seed"].tolist()) if rows_file.exists() else set()
    for seed in seeds:
        if seed not in done:
            made = pd.DataFrame(run(seed), columns=list(COLUMNS))
            made.to_csv(rows_file, mode="a", header=not rows_file.exists(), index=False)
    return pd.read_csv(rows_file)


def main() -> None:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("--pairs", type=int, default=0)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--date", default="")
    given = parser.parse_args()
    rows = gather(given.rows, [FIRST_SEED + n for n in range(given.pairs)])
    if given.write:
        given.write.write_text(text(rows, given.date), encoding="utf-8", newline="")


if __name__ == "__main__":
    main()
