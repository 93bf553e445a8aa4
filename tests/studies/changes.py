"""Honesty study of the change estimator: false alarms, coverage, half-width, power, refusals; seeded and resumable.

    nice python tests/studies/changes.py rows.csv --placebo 120 --true 60

adds the winters that `rows.csv` lacks; `--write RESULTS.md --date 2026-11-25` tells the table. Dates are drawn over the
whole season. A winter of changes that do nothing (two diaries of three dates each) gives false alarms; one of changes
that do something is simulated once more without each (its twin), so that the truth is known: the mean difference of the
two logs over the same 21 days.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pandas as pd
from scipy import stats

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import readings_of
from simulator import Change, Simulated, simulate
from studies.results import write
from studies.winters import Plan, drawn, plan

from reportgen.effects.causes import Cause, causes
from reportgen.effects.estimate import DayArrays, day_arrays, outcome_of
from reportgen.effects.outcomes import OUTCOMES, DayTable, day_table
from reportgen.effects.verdict import judged_outcome
from reportgen.readings.types import Readings

DIARIES = 2  # of three do-nothing dates each, for one simulated winter
COLUMNS = (
    "seed", "true", "place", "weather", "when", "heated", "change", "outcome", "declared", "set", "effect", "low",
    "high", "truth", "refused", "days", "before", "plain",
)  # fmt: skip
Rows = list[tuple[object, ...]]


def logged(made: Simulated, of: Plan) -> Readings:
    """What the loggers of a plan saw of a winter, with the diary that its changes make."""
    return readings_of(made, light=of.light, lamp=True, moist=of.moist, bed=of.bed, latitude=of.latitude)


def run(seed: int, true: bool) -> Rows:
    """Every outcome of every change of one winter, by the estimator of the pages."""
    of = plan(seed, true)
    if true:
        made = simulate(of.weather, of.house, [*of.hidden, *of.told], seed)
        return _diary(seed, of, made, true=True)
    made = simulate(of.weather, of.house, of.hidden, seed)
    rows: Rows = []
    for number in range(DIARIES):
        told = drawn(of, number)
        rows += _diary(seed, replace(of, told=told), replace(made, changes=(*of.hidden, *told)), true=False)
    return rows


def _diary(seed: int, of: Plan, made: Simulated, *, true: bool) -> Rows:
    """One diary of changes at least 25 days apart, each a cause of its own."""
    readings = logged(made, of)
    table = day_table(readings)
    found = causes(readings)
    arrays = day_arrays(table, found, frozenset())
    rows: Rows = []
    for change, cause in zip(of.told, found, strict=True):
        truth = dict.fromkeys(OUTCOMES, 0.0)
        if true:
            twin = day_table(logged(made.without(change), of))
            truth = mean_difference(table, twin, cause)
        rows += _outcomes(seed, of, change, cause, arrays, table, truth, true)
    return rows


def _outcomes(
    seed: int,
    of: Plan,
    change: Change,
    cause: Cause,
    arrays: DayArrays,
    table: DayTable,
    truth: dict[str, float],
    true: bool,
) -> Rows:
    heated = of.house.heater_w > 0
    hoped = judged_outcome(change.hoped_for[0], change.touches, heated)
    when = cause.entries[0].date
    rows: Rows = []
    for name in OUTCOMES:
        o = outcome_of(cause, name, arrays)
        rows.append(
            (
                seed, true, of.place, of.weather_name, when.isoformat(), heated, change.what, name, name == hoped,
                o.covariate_set, o.effect, o.low, o.high, truth.get(name, float("nan")), o.refused or "",
                o.days_before + o.days_after, o.before_mean, plain_sign(table.outcomes, name, cause),
            )
        )  # fmt: skip
    return rows


def _around(cause: Cause, side: int) -> list[object]:
    """The 21 days before (−1) or after (1) the date of a change."""
    when = cause.entries[0].date
    return [when + timedelta(days=side * n) for n in range(1, 22)]


def plain_sign(table: pd.DataFrame, outcome: str, cause: Cause) -> bool | None:
    """Whether the usual before/after picture would call it a change: two means, t interval for independent nights."""
    if outcome not in table:
        return None
    before, after = (table[outcome].reindex(_around(cause, side)).dropna() for side in (-1, 1))
    if min(len(before), len(after)) < 7 or min(before.std(), after.std()) < 1e-3:  # hardly varies
        return None
    return bool(stats.ttest_ind(before, after).pvalue < 0.05)


def mean_difference(with_it: DayTable, without: DayTable, cause: Cause) -> dict[str, float]:
    """True effect on each outcome: the mean difference of the twins over the 21 days after the change."""
    both = with_it.outcomes.columns.intersection(without.outcomes.columns)
    apart = with_it.outcomes[both] - without.outcomes[both]
    return {str(name): float(apart[name].reindex(_around(cause, 1)).mean()) for name in both}


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
