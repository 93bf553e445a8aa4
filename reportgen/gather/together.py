"""What a group may try together: how many houses more each open thing takes, and a calendar of opposite turns.

In the calendar all switch on the same Saturdays, three weeks apart, the length that the estimator of one house looks at
on either side of a change. Houses begin one after another, up to four turns apart, so that their first changes do not
share a fortnight; from then on every second house has the thing on while its neighbour has it off, so that what the
weather does to those weeks stands in their estimates with opposite signs. Only what some house has taken back again is
proposed, and nothing that closes a house in which a fuel burns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from reportgen.gather.pool import houses_by_weather, not_pooled, pooled
from reportgen.gather.pool_power import MOST, more_spread, more_together
from reportgen.gather.pool_recipe import FEWEST_FOR_VERDICT, SHARED_ERROR, gardens, spread
from reportgen.gather.types import POOLED, House, Stratum, Thing

BETWEEN_HOUSES = 0.3  # sd between houses as a share of the effect, where fewer than three houses cannot tell it
TURN = timedelta(days=21)
SHORT_TURN = timedelta(days=14)
NO_SWITCH = ((12, 20), (1, 2))  # first and last day without a switch: families are away or busy (our choice)
SATURDAY = 5
BEGINNINGS = 4  # turns after one another in which houses begin
FEWEST_TURNS = 3  # left to the last beginner: on, off and on
HOUSES_A_THING = FEWEST_FOR_VERDICT + 1  # one more than a verdict takes: one may drop out


@dataclass(frozen=True, kw_only=True, slots=True)
class StillOpen:
    """One thing and outcome that the houses could not tell yet, and what would settle it at 80 % power.

    `spread`, `one_weather`: houses more if each changes in a fortnight of its own, or all in one; None: not by 40 more.
    """

    thing: str
    outcome: str
    heated: bool | None
    k: int
    spread: int | None
    one_weather: int | None
    why: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Turn:
    """Days, both ends included, through which a thing is on or off; it is switched, if at all, on the first."""

    first_day: date
    last_day: date
    on: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One house of the calendar: its thing and turns; or no turns and the reason."""

    house: str
    thing: str | None
    turns: tuple[Turn, ...]
    reason: str | None


def still_open(things: Sequence[Thing]) -> tuple[StillOpen, ...]:
    """Every stratum that houses measured and did not settle, the nearest to be settled first."""
    found = [
        _open(thing, stratum)
        for thing in things
        for stratum in thing.strata
        if stratum.members and stratum.outcome in POOLED and not _settled(stratum)
    ]
    return tuple(sorted(found, key=lambda o: (o.spread is None, o.spread or 0, o.thing, o.outcome, str(o.heated))))


def _settled(of: Stratum) -> bool:
    told = pooled(of)
    return told is not None and told.more_houses == 0


def _open(thing: Thing, of: Stratum) -> StillOpen:
    all_of = gardens(of.members)
    effect, least = float(all_of.effects.mean()), float(np.median(all_of.ses))
    guessed = not_pooled(of) is not None
    sd = float(np.hypot(BETWEEN_HOUSES * effect, least)) if guessed else spread(all_of.effects, all_of.ses)
    known = (effect, sd, least, SHARED_ERROR[of.outcome], houses_by_weather(of))
    apart, together = more_spread(*known), more_together(*known)
    return StillOpen(
        thing=thing.name,
        outcome=of.outcome,
        heated=of.heated,
        k=all_of.k,
        spread=apart,
        one_weather=together,
        why=_why(apart, together, guessed),
    )


def _why(apart: int | None, together: int | None, guessed: bool) -> str:
    """What the two counts rest on, and why one of them is missing."""
    taken = (
        "Taken: the effect these houses saw, and houses that differ by three tenths of it."
        if guessed
        else "Taken: the mean and the spread that these houses saw."
    )
    if apart is None:
        return f"{taken} The effect is then too small beside how houses differ for {MOST} more to tell it."
    if together is None:
        return (
            f"{taken} Changed in one fortnight, even {MOST} more would not tell it: they share the weather's error, "
            "and that does not shrink with their number."
        )
    return taken


def reversible(thing: Thing, houses: Sequence[House]) -> bool:
    """Whether some house has taken the thing back again: a spell, a line that undoes, or one that was undone."""
    lines = {(house, when, words) for house, _, when, words in thing.lines}
    for house in houses:
        own = [line for winter in house.winters for line in winter.lines]
        ours = [line for line in own if (house.label, line.when, line.what) in lines]
        undone = {line.undoes for line in own if line.undoes}
        if any(ln.kind == "spell" or ln.undoes or ln.what in undone or ln.when.isoformat() in undone for ln in ours):
            return True
    return False


def calendar(houses: Sequence[House], things: Sequence[Thing], first_day: date, last_day: date) -> tuple[Row, ...]:
    """Who has what on and off from when to when; the same for the same houses and things, in the order of houses.

    Things come in the order in which they matter; each takes six houses or more before the next one gets any.

    Args:
        first_day: First day of the winter to come.
        last_day: Its last day.
    """
    can = [thing for thing in things if reversible(thing, houses)]
    days = switch_days(first_day, last_day)
    if not can or len(days) < 2:
        reason = (
            "Nothing that the group tried has been taken back by anyone yet: there is nothing to switch on and off."
            if not can
            else "The winter is too short for two turns of two weeks and more."
        )
        return tuple(Row(house=house.label, thing=None, turns=(), reason=reason) for house in houses)
    used = can[: max(1, len(houses) // HOUSES_A_THING)]
    beginnings = min(BEGINNINGS, max(2, len(days) - FEWEST_TURNS + 1))
    rows, begun = [], dict.fromkeys((thing.name for thing in used), 0)
    for number, house in enumerate(houses):
        thing = _thing_for(house, used, number)
        if thing is None:
            rows.append(Row(house=house.label, thing=None, turns=(), reason=_burns(used)))
            continue
        rows.append(
            Row(
                house=house.label,
                thing=thing.name,
                turns=_turns(days, last_day, begun[thing.name] % beginnings),
                reason=None,
            )
        )
        begun[thing.name] += 1
    return tuple(rows)


def _thing_for(house: House, used: Sequence[Thing], number: int) -> Thing | None:
    """The next thing in turn that is safe in that house."""
    burns = any(winter.burner or winter.sealed_burner for winter in house.winters)
    in_turn = [used[(number + n) % len(used)] for n in range(len(used))]
    return next((thing for thing in in_turn if not (thing.seals and burns)), None)


def _burns(used: Sequence[Thing]) -> str:
    names = " and ".join(thing.name for thing in used)
    return f"A heater that burns fuel stands or stood in it, and {names} would close it: no turn is proposed."


def switch_days(first_day: date, last_day: date) -> tuple[date, ...]:
    """Saturdays three weeks apart on which all switch, or leave as it is.

    The turn over Christmas is laid so that no Saturday falls into the days without a switch; a last turn of less than
    two weeks is not begun.
    """
    anchor = _before_christmas(first_day, last_day) or first_day + timedelta(days=(SATURDAY - first_day.weekday()) % 7)
    while anchor - TURN >= first_day:
        anchor -= TURN
    while anchor < first_day:
        anchor += TURN
    days = []
    while anchor + SHORT_TURN - timedelta(days=1) <= last_day:
        days.append(anchor)
        anchor += TURN
    return tuple(days)


def _before_christmas(first_day: date, last_day: date) -> date | None:
    """The last Saturday before the days without a switch, where these lie in the winter."""
    for year in (first_day.year - 1, first_day.year):
        begin = date(year, *NO_SWITCH[0])
        end = date(year + 1, *NO_SWITCH[1])
        if begin <= last_day and end >= first_day:
            eve = begin - timedelta(days=1)
            return eve - timedelta(days=(eve.weekday() - SATURDAY) % 7)
    return None


def _turns(days: Sequence[date], last_day: date, begins: int) -> tuple[Turn, ...]:
    """Off until the turn in which it begins, then on and off by turns."""
    found = []
    for number, day in enumerate(days):
        last = min(day + TURN, last_day + timedelta(days=1)) - timedelta(days=1)
        found.append(Turn(first_day=day, last_day=last, on=number >= begins and (number - begins) % 2 == 0))
    return tuple(found)
