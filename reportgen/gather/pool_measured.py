"""How honest pooling was in this project's own study, so that pages can say so; written down by hand from it.

Study: tests/studies/pooling.py, its tables tests/studies/POOLING.md (a test holds the two together). Whoever changes
the recipe, or the estimator of one house, runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.effects.measured import Counted


@dataclass(frozen=True, kw_only=True, slots=True)
class Rates:
    """Groups of simulated houses, so many of so many; None where none of that kind was drawn.

    `false_signs`: nothing was done and the mean's interval leaves out 0; `false_verdicts`: and a verdict was given.
    `mean_held`: something was done and the mean's interval held the mean truth. `next_there`, `next_anywhere`: the next
    house's interval held its truth, of a house under the same weather or under any. `wrong_sign`: a verdict that was.
    """

    false_signs: Counted
    false_verdicts: Counted
    mean_held: Counted | None
    next_there: Counted | None
    next_anywhere: Counted | None
    wrong_sign: Counted | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Missed:
    """Groups of so many houses whose interval held the mean truth less often than in 95 of 100."""

    what: str  # outcome, whose, and what was done, in the words of POOLING.md
    arrangement: str
    houses: int
    held: Counted
    places: int  # weathers and fortnights from which all groups of the row come


STUDY_DATE = "2026-11-27"
HOUSES, HEATED_HOUSES, WEATHERS = 440, 283, 24
GROUPS = 48000  # of 3, 5, 8, 12 and 20 houses; they share the houses
BY_ARRANGEMENT: Mapping[str, Rates] = MappingProxyType(
    {
        "one fortnight": Rates(
            false_signs=Counted(k=43, n=8000),
            false_verdicts=Counted(k=23, n=8000),
            mean_held=Counted(k=11911, n=12000),
            next_there=Counted(k=11935, n=12000),
            next_anywhere=Counted(k=11842, n=12000),
            wrong_sign=Counted(k=5, n=12000),
        ),
        "one winter": Rates(
            false_signs=Counted(k=29, n=8000),
            false_verdicts=Counted(k=7, n=8000),
            mean_held=None,
            next_there=None,
            next_anywhere=None,
            wrong_sign=None,
        ),
        "many weathers": Rates(
            false_signs=Counted(k=40, n=8000),
            false_verdicts=Counted(k=8, n=8000),
            mean_held=Counted(k=11836, n=12000),
            next_there=Counted(k=11834, n=12000),
            next_anywhere=Counted(k=11858, n=12000),
            wrong_sign=Counted(k=0, n=12000),
        ),
    }
)
BY_OUTCOME: Mapping[str, Rates] = MappingProxyType(
    {
        "lift": Rates(
            false_signs=Counted(k=23, n=6000),
            false_verdicts=Counted(k=12, n=6000),
            mean_held=Counted(k=3954, n=4000),
            next_there=Counted(k=3857, n=4000),
            next_anywhere=Counted(k=3832, n=4000),
            wrong_sign=Counted(k=0, n=4000),
        ),
        "heat": Rates(
            false_signs=Counted(k=29, n=3000),
            false_verdicts=Counted(k=6, n=3000),
            mean_held=Counted(k=1969, n=2000),
            next_there=Counted(k=1973, n=2000),
            next_anywhere=Counted(k=1960, n=2000),
            wrong_sign=Counted(k=0, n=2000),
        ),
        "watts_per_kelvin": Rates(
            false_signs=Counted(k=17, n=3000),
            false_verdicts=Counted(k=7, n=3000),
            mean_held=Counted(k=1998, n=2000),
            next_there=Counted(k=1984, n=2000),
            next_anywhere=Counted(k=1979, n=2000),
            wrong_sign=Counted(k=0, n=2000),
        ),
        "night_humidity": Rates(
            false_signs=Counted(k=12, n=6000),
            false_verdicts=Counted(k=6, n=6000),
            mean_held=Counted(k=7938, n=8000),
            next_there=Counted(k=7961, n=8000),
            next_anywhere=Counted(k=7938, n=8000),
            wrong_sign=Counted(k=5, n=8000),
        ),
        "soil_mean": Rates(
            false_signs=Counted(k=31, n=6000),
            false_verdicts=Counted(k=7, n=6000),
            mean_held=Counted(k=7888, n=8000),
            next_there=Counted(k=7994, n=8000),
            next_anywhere=Counted(k=7991, n=8000),
            wrong_sign=Counted(k=0, n=8000),
        ),
    }
)
MISSED = (
    Missed(what="heat, film", arrangement="many weathers", houses=20, held=Counted(k=184, n=200), places=14),
    Missed(
        what="humidity at night, heated, film",
        arrangement="one fortnight",
        houses=12,
        held=Counted(k=189, n=200),
        places=14,
    ),
    Missed(
        what="humidity at night, heated, film",
        arrangement="one fortnight",
        houses=20,
        held=Counted(k=171, n=200),
        places=14,
    ),
    Missed(what="bed, unheated, bed", arrangement="many weathers", houses=12, held=Counted(k=176, n=200), places=4),
    Missed(what="bed, unheated, bed", arrangement="many weathers", houses=20, held=Counted(k=152, n=200), places=4),
)
