"""Next winter's trials: the plans in short, then for each a tick sheet and the rows for the diary."""

from __future__ import annotations

import csv
import math
from datetime import date
from itertools import pairwise

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.changes_words import PER_KELVIN
from reportgen.counsel.facts import Facts
from reportgen.counsel.next_season import rest_of_season
from reportgen.counsel.steps_try import trials as dated_trials
from reportgen.effects import Trial
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, day, digits_for, number

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")  # never the machine's locale


def trial_tables(review: Review) -> list[Table]:
    """The plans in short, then for each a tick sheet and the rows for the diary."""
    trials = dated_trials(review, review.counsel.grounds)
    if not trials:
        return []
    w = Facts.of(review).w
    which = _which(review, trials)
    tables = [_plans(trials, w, which)]
    for n, trial in enumerate(trials, start=1):
        tables += [_ticks(n, trial), _diary(n, trial, which)]
    return tables


def _which(review: Review, trials: tuple[Trial, ...]) -> str:
    """The winter in which they stand: this one where it still runs and has room for them."""
    rest = rest_of_season(review)
    return "this" if rest is not None and trials[0].nights[0].night <= rest.last else "next"


def _plans(trials: tuple[Trial, ...], w: Wording, which: str) -> Table:
    rows = tuple(
        (
            trial.what,
            f"{day(trial.nights[0].night, year=True)} to {day(trial.nights[-1].night, year=True)}",
            f"{count(sum(night.on for night in trial.nights), 'night')} on, "
            f"{number(sum(not night.on for night in trial.nights))} off",
            _seen(trial, trial.visible, w),
            _seen(trial, trial.visible_now, w),
            trial.why,
        )
        for trial in trials
    )
    columns = ("switch on and off", "when", "nights", "would find", "this winter's change could find", "why")
    return Table(
        uid="changes_trials",
        title=f"{which.capitalize()} winter: {count(len(trials), 'trial')} that can answer",
        subtitle="Blocks of three or four nights on and off through the same weather, for four weeks",
        columns=columns,
        rows=rows,
        data=pd.DataFrame(list(rows), columns=list(columns)),
        notes=(
            "Switch at noon, so that no night is cut in two. Weekdays fall on both sides as evenly as such blocks "
            "allow. Leave everything else as it is in these weeks and the three before and after; what cannot wait "
            "goes into the diary.",
            "Only for what can be switched in minutes. What takes an afternoon to put up is changed once, with three "
            "quiet weeks before and after.",
            "“Would find”: the smallest effect that the plan shows four times in five, by a study of made-up winters.",
        ),
    )


def _seen(trial: Trial, value: float, w: Wording) -> str:
    if not math.isfinite(value):
        return "not known"
    scale = {"K": w.diff_value(1.0), PER_KELVIN: 1.0 / w.diff_value(1.0)}.get(trial.visible_unit, 1.0)
    units = {"K": w.diff_unit, PER_KELVIN: f"W/{w.diff_unit}", "%": "points", "kWh": "kWh a day"}
    amount, unit = scale * value, units.get(trial.visible_unit, trial.visible_unit)
    return f"{number(amount, min(digits_for(amount / 3), 1))}{NBSP}{unit}"


def _ticks(n: int, trial: Trial) -> Table:
    starts = [i for i, night in enumerate(trial.nights) if night.switch]
    blocks = [trial.nights[a:b] for a, b in pairwise([*starts, len(trial.nights)])]
    rows = tuple(
        (_day_of(block[0].night), "on" if block[0].on else "off", _day_of(block[-1].night), "☐ " * len(block))
        for block in blocks
    )
    return Table(
        uid=f"changes_ticks_{n}",
        title=f"Tick sheet: {trial.what}",
        subtitle="A line a block, a box a night, named after its evening; tick it when it was so, and write beside it "
        "when it was not",
        columns=("switch at noon of", "to", "last night", "nights done"),
        rows=tuple((a, b, c, d.strip()) for a, b, c, d in rows),
        data=pd.DataFrame(
            [(x.night, "on" if x.on else "off", "yes" if x.switch else "no") for x in trial.nights],
            columns=["night", "state", "switch at noon"],
        ),
    )


def _day_of(night: date) -> str:
    return f"{WEEKDAYS[night.weekday()]} {day(night)}"


def _diary(n: int, trial: Trial, which: str) -> Table:
    header, *lines = list(csv.reader(trial.diary_rows))
    return Table(
        uid=f"changes_plan_{n}",
        title=f"For {which} winter's diary: {trial.what}",
        subtitle="These rows can be pasted into diary.csv as they are; change them if the nights came out otherwise",
        columns=tuple(header),
        rows=tuple(tuple(line) for line in lines),
        data=pd.DataFrame(lines, columns=header),
    )
