"""A date without an entry that looks like a change: a question, never a claim."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding
from reportgen.effects.causes import causes, event_days, quiet_dates
from reportgen.effects.estimate import bench
from reportgen.effects.outcomes import DayTable
from reportgen.effects.placebo import do_nothing
from reportgen.effects.types import DoNothing
from reportgen.readings.types import Readings
from reportgen.wording import count, day, number

LOOKED_AT = ("watts_per_kelvin", "lift")  # the house itself, by its heat where that is known by the hour
WORDS = {"watts_per_kelvin": "the heat that a degree of warmth took", "lift": "how far the nights stood above outdoors"}
FEWEST = 8  # quiet dates needed before one of them can look odd
ODD = 2.0  # half-widths of the interval that an effect must measure: of thirty dates one in a hundred winters by chance


def unwritten(facts: Facts, days: DayTable) -> Finding | None:
    """The quiet date that looks most like a change; silent where chance explains the best of so many dates."""
    for outcome in LOOKED_AT:
        dates = quiet(facts.r.readings, days, outcome)
        if len(dates) >= FEWEST:
            most = oddest(dates)
            return None if most is None else _told(facts, outcome, most, len(dates))
    return None


def quiet(readings: Readings, days: DayTable, outcome: str) -> tuple[DoNothing, ...]:
    """What the estimator of the changes says of every fifth date without an entry within a week."""
    if outcome not in days.outcomes:
        return ()
    stock = bench(days, causes(readings), event_days(readings))
    return do_nothing(outcome, quiet_dates(readings.season, readings.diary), stock)


def oddest(dates: Sequence[DoNothing]) -> DoNothing | None:
    """The date whose effect measures most half-widths, if it measures ODD of them."""
    most = max(dates, key=lambda d: (half_widths(d), d.when))
    return most if half_widths(most) >= ODD else None


def half_widths(date: DoNothing) -> float:
    """Size of an effect in half-widths of its interval."""
    return abs(date.effect) / max((date.high - date.low) / 2, 1e-9)


def _told(facts: Facts, outcome: str, most: DoNothing, dates: int) -> Finding:
    times, kept = number(half_widths(most), 1), facts.there.diary_lines
    return Finding(
        slug="something-unwritten",
        page="changes",
        claim=f"Was something altered about {day(most.when)}{' that is not in the diary' if kept else ''}?",
        evidence=f"Of {count(dates, 'date')} {'on which nothing was written' if kept else 'tried'}, this one looks "
        "most like a change in "
        f"{WORDS[outcome]}: {times} times the half-width of its interval, where 1 is the usual line.",
        how_sure="A question, not a claim.",
        next_step=f"If you remember something (a pane, a door, a new habit), {'add a' if kept else 'write that'} line "
        f"{'to' if kept else 'into a'} diary.csv and build the report again.",
        figure=day(most.when),
        figure_note="nothing written" if kept else "no diary kept",
        anchor="changes",
        stake="record",
        sure="a hint",
        weight=half_widths(most),
    )
