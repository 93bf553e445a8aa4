"""What several houses say together about one change and one outcome; or in words why they say nothing yet.

Only a house's own before and after comes in. The mean is one of houses, each with the same weight: weighing by
precision told next houses wrong (68 to 84 of 100 from eight houses on), because a change does more in a house that
loses more. A sign is called a verdict only if no single garden carries it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from reportgen.gather.pool_power import MOST, more_spread
from reportgen.gather.pool_recipe import (
    FEWEST_FOR_VERDICT,
    FEWEST_POOLED,
    SHARED_ERROR,
    Interval,
    gardens,
    interval,
    spread,
    understated,
)
from reportgen.gather.types import POOLED, Pooled, Stratum
from reportgen.wording import count

TOO_FEW, CANNOT_TELL, ON_ONE = "too few for a verdict", "cannot tell", "rests on one garden"


@dataclass(frozen=True, kw_only=True, slots=True)
class Without:
    """The mean's 95 % interval with one house left out, in the unit of the stratum."""

    house: str
    low: float
    high: float

    @property
    def leaves_out_zero(self) -> bool:
        """Whether the others still tell."""
        return self.low > 0 or self.high < 0


@dataclass(frozen=True, kw_only=True, slots=True)
class Judged:
    """What the recipe says of k houses. `carried_by`: houses without which the others cannot tell."""

    k: int
    interval: Interval
    carried_by: tuple[str, ...]
    survives: bool
    verdict: str


def not_pooled(of: Stratum) -> str | None:
    """Why a stratum is shown house by house only, as a sentence; None where it can be pooled."""
    if of.outcome not in POOLED:
        return "Shown, not pooled: how far houses under one weather err together is not known for this."
    houses = len({member.house for member in of.members})
    if houses < FEWEST_POOLED:
        return f"Shown, not pooled: {count(houses, 'house')} could tell, and it takes {FEWEST_POOLED}."
    return None


def pooled(of: Stratum) -> Pooled | None:
    """The mean over houses, what the next house may expect, and the verdict; None where `not_pooled` says why.

    Ends are 95 %, in the unit of the effects (a fraction where the outcome is pooled as one).
    """
    if not_pooled(of) is not None:
        return None
    judged = judge(of)
    found, verdict = judged.interval, judged.verdict
    more = 0 if verdict in ("more", "less") else _more(of, found.mean)
    return Pooled(
        k=judged.k,
        mean=found.mean,
        low=found.low,
        high=found.high,
        next_low=found.next_low,
        next_high=found.next_high,
        houses_by_weather=houses_by_weather(of),
        survives=judged.survives,
        verdict=verdict,
        more_houses=more,
        why=f"{_why(verdict, judged.k, judged.carried_by)}{_outlook(more)}{_bed(of)}",
    )


def judge(of: Stratum) -> Judged:
    """Interval and verdict of a stratum that can be pooled."""
    all_of = gardens(of.members)
    found = interval(all_of, of.outcome, of.heated)
    lone = tuple(w.house for w in leave_one_out(of) if not _same_sign(w, found.mean))
    survives = all_of.k > FEWEST_POOLED and found.leaves_out_zero and not lone
    verdict = _verdict(all_of.k, found, survives)
    return Judged(k=all_of.k, interval=found, carried_by=lone, survives=survives, verdict=verdict)


def leave_one_out(of: Stratum) -> tuple[Without, ...]:
    """The interval of the others for each house, weathers counted anew; empty for fewer than four houses."""
    houses = tuple(dict.fromkeys(member.house for member in of.members))
    if len(houses) <= FEWEST_POOLED or of.outcome not in POOLED:
        return ()
    found = []
    for house in houses:
        rest = interval(gardens([m for m in of.members if m.house != house]), of.outcome, of.heated)
        found.append(Without(house=house, low=rest.low, high=rest.high))
    return tuple(found)


def houses_by_weather(of: Stratum) -> tuple[int, ...]:
    """How many houses stand under each weather, the most first; a house of several winters under that of its first."""
    first = {member.house: member.weather for member in reversed(of.members)}
    return tuple(sorted(Counter(first.values()).values(), reverse=True))


def _same_sign(without: Without, mean: float) -> bool:
    return without.low > 0 if mean > 0 else without.high < 0


def _verdict(k: int, found: Interval, survives: bool) -> str:
    if k < FEWEST_FOR_VERDICT:
        return TOO_FEW
    if not found.leaves_out_zero:
        return CANNOT_TELL
    if not survives:
        return ON_ONE
    return "more" if found.mean > 0 else "less"


def _more(of: Stratum, mean: float) -> int | None:
    """Houses more, each in a fortnight of its own, at the mean and the spread that these showed."""
    all_of = gardens(of.members)
    sd, least = spread(all_of.effects, all_of.ses), float(np.median(all_of.ses))
    return more_spread(mean, sd, least, SHARED_ERROR[of.outcome], houses_by_weather(of))


def _why(verdict: str, k: int, carried_by: Sequence[str]) -> str:
    if verdict == TOO_FEW:
        return f"A verdict takes {FEWEST_FOR_VERDICT} houses; {k} could tell."
    if verdict == CANNOT_TELL:
        return "No change at all lies within the interval of the mean."
    if verdict == ON_ONE:
        which = "One house" if len(carried_by) == 1 else f"Any one of {len(carried_by)} houses"
        return f"{which} of {k}, left out, takes the verdict with it: the others cannot tell."
    return f"{k} houses tell it, and so do the others whichever house is left out."


def _bed(of: Stratum) -> str:
    if not understated(of.outcome, of.heated):
        return ""
    return (
        " Where a probe lies in the bed, the middle of a house's bar is its gain at an equally warm bed; what the bed "
        "gains as well comes on top, so the interval reaches further on that side."
    )


def _outlook(more: int | None) -> str:
    if more == 0:
        return ""
    if more is None:
        return f" Even {MOST} more houses would hardly settle it: the mean is small beside how these differ."
    each = "each " if more > 1 else ""
    return (
        f" If the mean and the spread are what these houses saw, {count(more, 'more house', 'more houses')}, {each}"
        "changed in another fortnight, would settle it in four groups of five."
    )
