"""Spells in which it was too cold: where the frost line (a heated house) or a standing crop's damage band (a house
without heat) was crossed, with the failures of the heat; joined within 48 h into happenings of at most seven days."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from reportgen.counsel.results import Results
from reportgen.measures.exposure import Line, spells_below
from reportgen.measures.frost_crops import air_while, place_of
from reportgen.measures.frost_nights import air_lines, coldest_line
from reportgen.measures.frost_types import CropMargin, Failure
from reportgen.readings.types import Channel

JOINED_S, MOST_S = 48 * 3600.0, 7 * 86_400.0
COLDEST = 3  # spells of a house without heat that are told
Airs = Sequence[tuple[Channel, Line]]
Spell = tuple[float, float]  # start, end [s since 1970]


@dataclass(frozen=True, kw_only=True, slots=True)
class Happening:
    """One cold happening: its spells below the line in order, and the failures of the heat in it."""

    spells: tuple[Spell, ...]
    failures: tuple[Failure, ...] = ()

    @property
    def start_s(self) -> float:
        """Its beginning [s since 1970]: of the first spell, or of the failure before it."""
        return min([a for a, _ in self.spells] + [f.start.timestamp() for f in self.failures])

    @property
    def end_s(self) -> float:
        """Its end [s since 1970]."""
        return max([b for _, b in self.spells] + [f.end.timestamp() for f in self.failures])

    @property
    def hours(self) -> float:
        """Time below the line [h]."""
        return sum(b - a for a, b in self.spells) / 3600.0


def happenings(r: Results, airs: Airs) -> tuple[Happening, ...]:
    """Every cold happening of the season, in order of time; of a house without heat the three coldest."""
    curve = coldest_line(r.readings)
    if curve is None:
        return ()
    if any(len(supply.intervals) for supply in r.readings.heating):
        return joined(spells_below(curve, r.frost.line_c), r.frost.failures)
    found = joined(band_spells(r, airs, curve), ())
    coldest = sorted(found, key=lambda one: lowest(curve, one.start_s, one.end_s)[0])[:COLDEST]
    return tuple(sorted(coldest, key=lambda one: one.start_s))


def band_spells(r: Results, airs: Airs, coldest: Line) -> list[Spell]:
    """Stretches in which a crop stood in air below the warmer end of its damage band; overlapping ones are one."""
    found: list[Spell] = []
    for crop in r.frost.crops:
        if crop.damage_high_c is not None:
            found += spells_below(air_of(r, airs, coldest, crop), crop.damage_high_c)
    merged: list[Spell] = []
    for start, end in sorted(found):
        if merged and start <= merged[-1][1]:
            start, end = merged[-1][0], max(end, merged.pop()[1])
        merged.append((start, end))
    return merged


def air_of(r: Results, airs: Airs, coldest: Line, crop: CropMargin) -> Line:
    """The air a crop met while it stood: of its bed's logger, else of the coldest place."""
    _, own = place_of(r.readings, airs, crop.bed)
    return air_while(own if own is not None else coldest, r.season, crop.from_, crop.to)


def joined(spells: Iterable[Spell], failures: Iterable[Failure]) -> tuple[Happening, ...]:
    """Spells and failures less than 48 h apart as one, none longer than seven days; what runs on longer is told in
    weeks. A spell that ended before the heat failed stays an event of its own."""
    parts = [Happening(spells=(piece,)) for spell in spells for piece in _weeks(spell)]
    parts += [Happening(spells=(), failures=(failure,)) for failure in failures]
    kept: list[Happening] = []
    for part in sorted(parts, key=lambda one: (one.start_s, one.end_s)):
        if kept and _one(kept[-1], part):
            last = kept.pop()
            part = replace(last, spells=last.spells + part.spells, failures=last.failures + part.failures)
        kept.append(part)
    return tuple(kept)


def _one(before: Happening, after: Happening) -> bool:
    if after.start_s < before.end_s:  # one and the same time
        return True
    if after.failures and not before.failures:  # what came before a failure was not its doing
        return False
    near = after.start_s - before.end_s <= JOINED_S
    return near and max(before.end_s, after.end_s) - before.start_s <= MOST_S


def _weeks(spell: Spell) -> list[Spell]:
    start, end = spell
    edges = [*np.arange(start, end, MOST_S).tolist(), end]
    return [(a, b) for a, b in pairwise(edges) if b > a]


def lowest(curve: Line, start_s: float, end_s: float) -> tuple[float, float]:
    """The coldest reading between two instants and its time [s since 1970]; NaN where nothing was recorded."""
    first = int(np.searchsorted(curve.seconds, start_s, side="left"))
    inside = curve.values[first : int(np.searchsorted(curve.seconds, end_s, side="right"))]
    if not len(inside):
        return float("nan"), float("nan")
    spot = int(np.argmin(inside))
    return float(inside[spot]), float(curve.seconds[first + spot])


def coldest_place(airs: Airs, start_s: float, end_s: float) -> str | None:
    """The logger that read the coldest of those hours."""
    found = [(lowest(curve, start_s, end_s)[0], channel.logger) for channel, curve in airs]
    known = [pair for pair in found if not np.isnan(pair[0])]
    return min(known)[1] if known else None


def crop_airs(r: Results) -> Airs:
    """The crop loggers' air in the season's days, the main one first."""
    return air_lines(r.readings)
