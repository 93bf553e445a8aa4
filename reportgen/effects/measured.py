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
        """k / n, a share 0…1."""
        return self.k / self.n


STUDY_DATE = "2026-11-27"
PLACEBO_WINTERS, PLACEBO_CHANGES = 120, 720
TRUE_WINTERS, TRUE_CHANGES = 60, 180
FALSE_SIGNS_HOPED = Counted(k=18, n=521)  # do-nothing changes given a sign on the outcome hoped for
FALSE_SIGNS_ALL = Counted(k=184, n=5051)  # … on any outcome
PLAIN_FALSE_SIGNS = Counted(k=2007, n=5016)  # the usual before/after picture on the same dates
HELD_TRUTH = Counted(k=1184, n=1230)  # 95 % intervals that held the truth of a true change

# The same by outcome: signs on do-nothing dates, and intervals that held the truth.
FALSE_SIGNS_BY_OUTCOME: Mapping[str, Counted] = MappingProxyType(
    {
        "lift": Counted(k=20, n=602),
        "heat": Counted(k=10, n=345),
        "watts_per_kelvin": Counted(k=2, n=318),
        "night_humidity": Counted(k=31, n=602),
        "soil_mean": Counted(k=25, n=439),
        "soil_swing": Counted(k=12, n=439),
        "daily_light": Counted(k=32, n=602),
    }
)
HELD_BY_OUTCOME: Mapping[str, Counted] = MappingProxyType(
    {
        "lift": Counted(k=149, n=153),
        "heat": Counted(k=80, n=82),
        "watts_per_kelvin": Counted(k=69, n=71),
        "night_humidity": Counted(k=146, n=153),
        "soil_mean": Counted(k=86, n=94),
        "soil_swing": Counted(k=91, n=94),
        "daily_light": Counted(k=142, n=153),
    }
)
NINE_IN_TEN, FAIRLY_SURE = 0.9, 0.8  # measured shares from which the words may be used; below, a hint


def confidence(held: Counted) -> str:
    """The word that a measured share bears."""
    if held.share >= NINE_IN_TEN:
        return "Nine in ten"
    return "Fairly sure" if held.share >= FAIRLY_SURE else "A hint"
