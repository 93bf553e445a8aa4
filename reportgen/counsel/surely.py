"""How sure: *sure* is counted within its band, *nine in ten* has a measured coverage of 90 % or more, *fairly sure* of
80 to 90; below that no figure stands."""

from __future__ import annotations

from reportgen.counsel.grounds import JudgedLever
from reportgen.effects.measured import FAIRLY_SURE, NINE_IN_TEN
from reportgen.wording import count, number

COUNTED = "Sure: counted, within the loggers' accuracy."


def by_level(level: float | None) -> str:
    """Nine in ten, fairly sure, or nothing, by the probability that an interval was made for.

    `level`: that probability, 0…1; None where it is not known.
    """
    if level is None or level < FAIRLY_SURE:
        return ""
    return "Nine in ten" if level >= NINE_IN_TEN else "Fairly sure"


def lever_sure(lever: JudgedLever) -> str:
    """Nine in ten, 21 nights without it and 20 with it, at equal weather; empty where there is no figure."""
    word, (off, on) = by_level(lever.level), lever.counted_days
    if not word or lever.low is None:
        return ""
    nights = f": {count(off, 'night')} without it, {number(on)} with it" if off or on else ""
    return f"{word}{nights}, at equal weather."
