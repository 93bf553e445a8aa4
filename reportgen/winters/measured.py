"""What a study found of the difference between two winters (tests/studies/test_two_winters.py, 25 November 2026).

80 pairs of winters of one simulated house (seeds 400 to 479), every other house unheated; heat has 40 pairs. Counts:
pairs in which nothing was altered and the interval missed zero, and pairs of a better house in which it held the truth.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True, slots=True)
class Measured:
    """Counts of one outcome."""

    pairs: int
    missed_zero: int
    held_truth: int


STUDY: Mapping[str, Measured] = MappingProxyType(
    {
        "lift": Measured(pairs=80, missed_zero=2, held_truth=75),
        "heat": Measured(pairs=40, missed_zero=1, held_truth=37),
        "night_humidity": Measured(pairs=80, missed_zero=1, held_truth=79),
        "soil_mean": Measured(pairs=80, missed_zero=1, held_truth=79),
    }
)


def words(outcome: str) -> str:
    """What the study says of one outcome that it looked at."""
    m = STUDY[outcome]
    return (
        f"On {m.pairs} simulated pairs of winters such an interval missed zero {m.missed_zero} of {m.pairs} times when "
        f"nothing was altered, and held the truth {m.held_truth} of {m.pairs} times when the house was."
    )
