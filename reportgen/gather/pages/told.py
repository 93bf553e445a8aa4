"""A group with what its houses say together: each stratum pooled once, with the one verdict that every page says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from reportgen.drawing.ink import Mark
from reportgen.effects.outcomes import LARGER_IS_BETTER
from reportgen.gather.pages.effect_words import factor
from reportgen.gather.pages.words import by_label, houses, wording
from reportgen.gather.pool import pooled
from reportgen.gather.types import POOLED, RELATIVE, Group, House, Line, Pooled, Stratum, Thing
from reportgen.wording import Wording

HEATER = "a heater warms: not judged"
WARMED = frozenset({"lift", "heat", "watts_per_kelvin", "soil_mean"})
NOT_HERE = "not for a house in which a fuel burns"
PRINTED, JUDGED = 3, 5  # houses for a sum of them, and for a verdict


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """One thing, one outcome, one kind of house: what its houses say together."""

    thing: Thing
    stratum: Stratum
    pooled: Pooled | None
    mark: Mark
    verdict: str

    @property
    def k(self) -> int:
        """Houses with an estimate of their own."""
        return len({member.house for member in self.stratum.members})

    @property
    def better(self) -> bool:
        """Whether the mean lies on the side hoped for."""
        return self.pooled is not None and (self.pooled.mean > 0) == (self.stratum.outcome in LARGER_IS_BETTER)


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """The group, every stratum with its verdict, and of each thing the one it was hoped for (`mains`)."""

    group: Group
    w: Wording
    said: tuple[Said, ...]
    mains: tuple[Said, ...]
    houses: dict[str, House]
    lines: dict[tuple[str, object, str], Line]  # every diary line by house, day and words
    burning: tuple[str, ...]  # houses in which a fuel burns

    @property
    def winters(self) -> int:
        """Reviews that were read."""
        return sum(len(house.winters) for house in self.group.houses)

    def of(self, thing: Thing) -> tuple[Said, ...]:
        """All that is told of one thing."""
        return tuple(one for one in self.said if one.thing is thing)

    def ours(self, label: str) -> bool:
        """Whether that is the marked house."""
        return self.group.mark is not None and label == self.group.mark


def told_of(group: Group) -> Told:
    """The group with its verdicts; things with most houses come first."""
    burning = tuple(h.label for h in group.houses if any(w.burner or w.sealed_burner for w in h.winters))
    lines = _lines(group)
    said: list[Said] = []
    mains: list[Said] = []
    for thing in group.things:
        heater = "heater" in touched(thing, lines)
        own = [_said(thing, stratum, burning=burning, heater=heater) for stratum in thing.strata]
        said += own
        mains += _mains(own, thing, lines)
    mains.sort(key=_place)
    return Told(
        group=group,
        w=wording(group),
        said=tuple(said),
        mains=tuple(mains),
        houses=by_label(group),
        lines=lines,
        burning=burning,
    )


def weight(said: Said) -> float:
    """How far all together lie from nothing, by the end nearer to it, in multiples of what is worth having."""
    size = abs(factor(said.stratum.outcome) or 0.0)
    return 0.0 if said.pooled is None else min(abs(said.pooled.low), abs(said.pooled.high)) * size


def _place(said: Said) -> tuple[bool, float, bool, int, str, bool]:
    """Judged things first, by their unfavourable end; then by how many houses could tell."""
    firm = said.mark in ("helped", "opposite")
    first = -weight(said) if firm else 0.0
    return (not firm, first, said.thing.is_kind, -said.k, said.thing.name.casefold(), said.stratum.heated is False)


def held_back(thing: Thing, burning: Iterable[str]) -> bool:
    """Whether a thing is neither praised nor proposed: it closes the house, and in this group a fuel burns inside."""
    return thing.seals and bool(tuple(burning))


def touched(thing: Thing, lines: dict[tuple[str, object, str], Line]) -> frozenset[str]:
    """All that its diary lines say they alter."""
    own = (lines.get((house, day, what)) for house, _, day, what in thing.lines)
    return frozenset(touch for line in own if line is not None for touch in line.touches)


def _said(thing: Thing, stratum: Stratum, *, burning: Sequence[str], heater: bool) -> Said:
    """The verdict; of what closes the house none that praises it in houses where a fuel burns, and never without that
    word where one burns in a house of the group that is not among them."""
    found = pooled(stratum)
    mark, verdict = _verdict(stratum, found)
    if heater and stratum.outcome in WARMED:
        mark, verdict = "open", HEATER
    elif mark == "helped" and thing.seals and any(member.house in burning for member in stratum.members):
        mark, verdict = "open", NOT_HERE
    elif mark == "helped" and thing.seals and burning:
        verdict = f"{verdict}; {NOT_HERE}"
    elif mark in ("helped", "opposite") and _small(stratum, found):
        verdict = f"{verdict}, by less than is worth having"
    return Said(thing=thing, stratum=stratum, pooled=found, mark=mark, verdict=verdict)


def _verdict(stratum: Stratum, found: Pooled | None) -> tuple[Mark, str]:
    k = len({member.house for member in stratum.members})
    if found is None:
        if not k:
            return "open", "no house could tell"
        return "open", "too few to put together" if k < PRINTED else "shown, not put together"
    if found.verdict in ("more", "less"):
        better = (found.verdict == "more") == (stratum.outcome in LARGER_IS_BETTER)
        return ("helped", "helped") if better else ("opposite", "did the opposite")
    if found.verdict.startswith("rests on one"):
        return "open", "rests on one house"
    if found.verdict.startswith("too few"):
        return "open", f"too few for a verdict: {houses(k)}, it takes {JUDGED}"
    return "open", "cannot tell yet"


def _small(stratum: Stratum, found: Pooled | None) -> bool:
    """Whether all that the mean may be is too small to matter."""
    times = abs(factor(stratum.outcome) or 0.0)
    return found is not None and 0 < times * max(abs(found.low), abs(found.high)) < 1


def _mains(own: list[Said], thing: Thing, lines: dict[tuple[str, object, str], Line]) -> list[Said]:
    """The outcome that was hoped for most often, of heated and unheated houses apart; else the one most houses told."""
    hoped: Counter[str] = Counter()
    for house, _, day, what in thing.lines:
        line = lines.get((house, day, what))
        hoped.update(one.outcome for one in (line.outcomes if line else ()) if one.declared)
    if is_dial(thing, lines) and hoped and all(outcome in RELATIVE for outcome in hoped):
        return []
    able = [one for one in own if one.stratum.outcome in POOLED and (one.k or one.stratum.refused)]
    known = [one for one in able if one.verdict != HEATER]
    if not known:
        return []
    first = max(known, key=lambda one: (hoped[one.stratum.outcome] if one.k else -1, one.k, -_rank(one)))
    return [one for one in known if one.stratum.outcome == first.stratum.outcome]


def is_dial(thing: Thing, lines: dict[tuple[str, object, str], Line]) -> bool:
    """Whether it turns a thermostat: what that spares goes by its degrees, and no share of the heat tells it."""
    return "thermostat" in touched(thing, lines)


def _rank(said: Said) -> int:
    order = ("watts_per_kelvin", "heat", "lift", "night_humidity", "soil_mean")
    return order.index(said.stratum.outcome)


def _lines(group: Group) -> dict[tuple[str, object, str], Line]:
    return {(h.label, line.when, line.what): line for h in group.houses for w in h.winters for line in w.lines}
