"""Honesty study of the change estimator: false alarms, coverage, half-width, power, refusals; seeded and resumable.

    nice python tests/studies/changes.py rows.csv --placebo 240 --true 120

adds the winters that `rows.csv` lacks; `--write RESULTS.md --date 2026-11-25` tells the table. A winter of changes
that do nothing gives false alarms; one of changes that do something is simulated once more without each (its twin),
so that the truth is known: the mean difference of the two logs over the same 21 days.
"""

from __future__ import annotations

import argparse
import sys
from datetime import timedelta
from pathlib import Path

import pandas as pd
from scipy import stats

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import readings_of
from simulator import Simulated, simulate
from studies.results import write
from studies.winters import Plan, plan

from reportgen.effects import Effect, effects
from reportgen.effects.outcomes import OUTCOMES, day_table

COLUMNS = (
    "seed", "true", "place", "heated", "change", "outcome", "declared", "set", "effect", "low", "high", "truth",
    "verdict", "refused", "days", "before", "plain",
)  # fmt: skip


def seen(made: Simulated, of: Plan) -> pd.DataFrame:
    """Outcomes by garden day of what the loggers saw of a winter."""
    return day_table(
        readings_of(made, light=of.light, lamp=True, moist=of.moist, bed=of.bed, latitude=of.latitude)
    ).outcomes


def run(seed: int, true: bool) -> list[tuple[object, ...]]:
    """Every outcome of every change of one winter, as the public chain tells it."""
    of = plan(seed, true)
    made = simulate(of.weather, of.house, [*of.hidden, *of.told], seed)
    readings = readings_of(made, light=of.light, lamp=True, moist=of.moist, bed=of.bed, latitude=of.latitude)
    found = effects(readings).changes
    rows: list[tuple[object, ...]] = []
    table = seen(made, of)
    for change, effect in zip(of.told, found, strict=True):
        truth = dict.fromkeys(OUTCOMES, 0.0)
        if true:
            truth = mean_difference(table, seen(made.without(change), of), effect)
        rows += [
            (
                seed, true, of.place, of.house.heater_w > 0, change.what, o.outcome, o.declared, o.covariate_set,
                o.effect, o.low, o.high, truth.get(o.outcome, float("nan")), effect.verdict, o.refused or "",
                o.days_before + o.days_after, o.before_mean, plain_sign(table, o.outcome, effect),
            )
            for o in effect.outcomes
        ]  # fmt: skip
    return rows


def plain_sign(table: pd.DataFrame, outcome: str, effect: Effect) -> bool | None:
    """Whether the usual before/after picture would call it a change: two means, t interval for independent nights."""
    if outcome not in table:
        return None
    before, after = (
        table[outcome].reindex([effect.when + timedelta(days=side * n) for n in range(1, 22)]).dropna()
        for side in (-1, 1)
    )
    if min(len(before), len(after)) < 7 or min(before.std(), after.std()) < 1e-3:  # hardly varies
        return None
    return bool(stats.ttest_ind(before, after).pvalue < 0.05)


def mean_difference(with_it: pd.DataFrame, without: pd.DataFrame, effect: Effect) -> dict[str, float]:
    """True effect on each outcome: the mean difference of the twins over the 21 days after the change."""
    days = [effect.when + timedelta(days=n) for n in range(1, 22)]
    return {
        name: float((with_it[name] - without[name]).reindex(days).mean())
        for name in with_it.columns.intersection(without.columns)
    }


def gather(rows_file: Path, wanted: list[tuple[int, bool]]) -> pd.DataFrame:
    """Runs the winters that the file lacks, adding to it one by one."""
    done: set[tuple[int, bool]] = set()
    if rows_file.exists():
        old = pd.read_csv(rows_file)
        done = set(zip(old["seed"].tolist(), old["true"].astype(bool).tolist(), strict=True))
    for seed, true in wanted:
        if (seed, true) not in done:
            table = pd.DataFrame(run(seed, true), columns=list(COLUMNS))
            table.to_csv(rows_file, mode="a", header=not rows_file.exists(), index=False)
    return pd.read_csv(rows_file)


def main() -> None:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("--placebo", type=int, default=0)
    parser.add_argument("--true", type=int, default=0)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--date", default="")
    given = parser.parse_args()
    wanted = [(n, False) for n in range(given.placebo)] + [(10_000 + n, True) for n in range(given.true)]
    table = gather(given.rows, wanted)
    if given.write:
        write(table, given.write, given.date)


if __name__ == "__main__":
    main()
