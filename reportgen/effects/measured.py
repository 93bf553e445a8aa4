"""How honest the estimator was in this project's own study, so that pages can say so; written down by hand from it.

Study: tests/studies/changes.py, its table tests/studies/RESULTS.md (a test holds the two together). Whoever changes the
estimator runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True, slots=True)
class Counted:
    """So many of so many."""

    k: int
    n: int

    @property
    def share(self) -> float:
        """k / n."""
        return self.k / self.n


STUDY_DATE = "2026-11-25"
PLACEBO_WINTERS, PLACEBO_CHANGES = 240, 720
TRUE_WINTERS, TRUE_CHANGES = 100, 300
FALSE_SIGNS_HOPED = Counted(k=21, n=576)  # do-nothing changes given a sign on the outcome hoped for
FALSE_SIGNS_ALL = Counted(k=161, n=5408)  # … on any outcome
PLAIN_FALSE_SIGNS = Counted(k=2240, n=5387)  # the usual before/after picture on the same dates
HELD_TRUTH = Counted(k=2166, n=2241)  # 95 % intervals that held the truth of a true change

# The same by outcome: signs on do-nothing dates, and intervals that held the truth.
FALSE_SIGNS_BY_OUTCOME: Mapping[str, Counted] = MappingProxyType(
    dict.fromkeys(
        ("lift", "heat", "watts_per_kelvin", "night_humidity", "soil_mean", "soil_swing", "daily_light"),
        Counted(k=1, n=10),
    )
)
HELD_BY_OUTCOME: Mapping[str, Counted] = MappingProxyType(
    dict.fromkeys(
        ("lift", "heat", "watts_per_kelvin", "night_humidity", "soil_mean", "soil_swing", "daily_light"),
        Counted(k=9, n=10),
    )
)
NINE_IN_TEN, FAIRLY_SURE = 0.9, 0.8  # measured shares from which the words may be used; below, a hint


def confidence(held: Counted) -> str:
    """The word that a measured share bears."""
    if held.share >= NINE_IN_TEN:
        return "Nine in ten"
    return "Fairly sure" if held.share >= FAIRLY_SURE else "A hint"
