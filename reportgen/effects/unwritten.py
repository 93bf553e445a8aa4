"""The date without an entry that looks most like a change: a question, never a claim."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from reportgen.effects.types import DoNothing, OddDate

LOOKED_AT = ("watts_per_kelvin", "lift")  # the house itself, by its heat where that is known by the hour
FEWEST = 8  # quiet dates needed before one of them can look odd
ODD = 2.0  # half-widths of the interval that an effect must measure: of thirty dates one in a hundred winters by chance


def odd_date(quiet: Callable[[str], Sequence[DoNothing]]) -> OddDate | None:
    """The quiet date that looks most like a change; None where chance explains the best of so many dates.

    Args:
        quiet: outcome → what the estimator of the changes says of every fifth date without an entry within a week.
    """
    for outcome in LOOKED_AT:
        dates = quiet(outcome)
        if len(dates) >= FEWEST:
            most = oddest(dates)
            if most is None:
                return None
            return OddDate(when=most.when, outcome=outcome, half_widths=half_widths(most), dates=len(dates))
    return None


def oddest(dates: Sequence[DoNothing]) -> DoNothing | None:
    """The date whose effect measures most half-widths, if it measures ODD of them."""
    most = max(dates, key=lambda d: (half_widths(d), d.when))
    return most if half_widths(most) >= ODD else None


def half_widths(date: DoNothing) -> float:
    """Size of an effect in half-widths of its interval [no unit]."""
    return abs(date.effect) / max((date.high - date.low) / 2, 1e-9)
