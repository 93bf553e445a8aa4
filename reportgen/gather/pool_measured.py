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


def _rates(nothing: tuple[int, int, int], done: tuple[int, int, int, int, int] | None = None) -> Rates:
    """Groups with nothing done, false signs, false verdicts; groups with something done, means held, next houses held
    there and anywhere, wrong signs."""
    groups, signs, verdicts = nothing
    counted = (None,) * 4 if done is None else tuple(Counted(k=k, n=done[0]) for k in done[1:])
    held, there, anywhere, wrong = counted
    return Rates(
        false_signs=Counted(k=signs, n=groups),
        false_verdicts=Counted(k=verdicts, n=groups),
        mean_held=held,
        next_there=there,
        next_anywhere=anywhere,
        wrong_sign=wrong,
    )


STUDY_DATE = "2026-11-27"
HOUSES, HEATED_HOUSES, WEATHERS = 440, 283, 24
GROUPS = 48000  # of 3, 5, 8, 12 and 20 houses; they share the houses
BY_ARRANGEMENT: Mapping[str, Rates] = MappingProxyType(
    {
        "one fortnight": _rates((8000, 44, 23), (12000, 11911, 11931, 11850, 5)),
        "one winter": _rates((8000, 20, 3)),
        "many weathers": _rates((8000, 27, 7), (12000, 11863, 11833, 11844, 0)),
    }
)
BY_OUTCOME: Mapping[str, Rates] = MappingProxyType(
    {
        "lift": _rates((6000, 23, 12), (4000, 3954, 3857, 3832, 0)),
        "heat": _rates((3000, 8, 1), (2000, 1996, 1968, 1954, 0)),
        "watts_per_kelvin": _rates((3000, 17, 7), (2000, 1998, 1984, 1979, 0)),
        "night_humidity": _rates((6000, 12, 6), (8000, 7938, 7961, 7938, 5)),
        "soil_mean": _rates((6000, 31, 7), (8000, 7888, 7994, 7991, 0)),
    }
)
MISSED = (
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
