"""What a study found of the difference between two winters; written down by hand from it.

Study: tests/studies/two_winters.py, its table tests/studies/TWO_WINTERS.md (a test holds the two together). Whoever
changes the interval runs it again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.effects.measured import Counted, confidence

STUDY_DATE = "2026-11-27"


@dataclass(frozen=True, kw_only=True, slots=True)
class Measured:
    """One outcome: pairs with nothing altered whose interval left out zero, and pairs of a better house whose interval
    held the truth; of all pairs, and of those 3 K and more apart outdoors."""

    missed_zero: Counted
    held_truth: Counted
    far_missed_zero: Counted
    far_held_truth: Counted


def _of(missed: int, held: int, pairs: int, far_missed: int, far_held: int, far: int) -> Measured:
    return Measured(
        missed_zero=Counted(k=missed, n=pairs),
        held_truth=Counted(k=held, n=pairs),
        far_missed_zero=Counted(k=far_missed, n=far),
        far_held_truth=Counted(k=far_held, n=far),
    )


STUDY: Mapping[str, Measured] = MappingProxyType(
    {
        "lift": _of(0, 60, 60, 0, 25, 25),
        "night_minimum": _of(0, 57, 60, 0, 23, 25),
        "heat": _of(1, 35, 37, 0, 16, 16),
        "watts_per_kelvin": _of(0, 35, 36, 0, 15, 15),
        "night_humidity": _of(0, 60, 60, 0, 25, 25),
        "damp_hours": _of(1, 59, 60, 0, 25, 25),
        "soil_mean": _of(3, 36, 39, 1, 15, 16),
        "soil_swing": _of(1, 38, 39, 0, 16, 16),
    }
)


def words(outcome: str) -> str:
    """What the study says of one outcome that it looked at."""
    m = STUDY[outcome]
    return (
        f"{confidence(m.held_truth)}: on simulated pairs of winters such an interval left out zero "
        f"{m.missed_zero.k} of {m.missed_zero.n} times when nothing was altered, and held the truth "
        f"{m.held_truth.k} of {m.held_truth.n} times when the house was."
    )


def totals() -> tuple[Counted, Counted, Counted]:
    """Over all outcomes: left out zero, of those far apart, and held the truth."""
    found = STUDY.values()
    return (
        _sum(m.missed_zero for m in found),
        _sum(m.far_missed_zero for m in found),
        _sum(m.held_truth for m in found),
    )


def _sum(counts: Iterable[Counted]) -> Counted:
    counted = list(counts)
    return Counted(k=sum(c.k for c in counted), n=sum(c.n for c in counted))
