"""Ground that lay bare: a bed of which one crop is cleared is bare in part, though another still stands in it.

A bed's ground is the largest area that stood in it on four weeks' days at least, so that a few days on which the old
crop is not yet cleared and the new one set out make it no larger. A planting without an area leaves its bed without
one: then only days with nothing in it at all are told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import NamedTuple

FOUR_WEEKS_D = 28
LEAST = 0.1  # share of the bed's ground: less is a path or a rounding; our own line


class Plot(NamedTuple):
    """What took up ground from its first to its last day, both included; `area_m2` None where not given."""

    bed: str
    crop: str
    start: date
    end: date
    area_m2: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Bare:
    """A stretch of days, both ends included, in which ground of a bed lay bare; `m2` of its `of_m2`, None where areas
    are not given and the whole bed was bare. `after`: what was cleared there last. `open_end`: to the last day."""

    bed: str
    start: date
    end: date
    m2: float | None
    of_m2: float | None
    after: str | None
    open_end: bool

    @property
    def weeks(self) -> float:
        """How long it lay bare, first and last day counted [weeks]."""
        return ((self.end - self.start).days + 1) / 7

    @property
    def whole(self) -> bool:
        """Whether all of the bed was bare."""
        return self.m2 is None or self.of_m2 is None or self.m2 > (1 - LEAST) * self.of_m2


def bare_ground(plots: Sequence[Plot], days: Sequence[date]) -> tuple[Bare, ...]:
    """Every such stretch of the season's days, by weeks times area, the largest first; plots without a bed left out."""
    beds = sorted({plot.bed for plot in plots if plot.bed})
    found = [one for bed in beds for one in _of_bed(bed, [p for p in plots if p.bed == bed], days)]
    return tuple(sorted(found, key=lambda b: (-(b.m2 or 0.0) * b.weeks, -b.weeks, b.bed, b.start)))


def _of_bed(bed: str, plots: Sequence[Plot], days: Sequence[date]) -> Iterator[Bare]:
    sized = all(plot.area_m2 for plot in plots)
    stood = [[plot for plot in plots if plot.start <= day <= plot.end] for day in days]
    taken = [sum((plot.area_m2 or 0.0) if sized else 1.0 for plot in here) for here in stood]
    ground = _ground(taken) if sized else 1.0
    free = [round(max(ground - area, 0.0), 3) for area in taken]
    for amount, run in groupby(range(len(days)), key=free.__getitem__):
        spots = list(run)
        if amount > LEAST * ground:
            start, end = days[spots[0]], days[spots[-1]]
            yield Bare(
                bed=bed,
                start=start,
                end=end,
                m2=amount if sized else None,
                of_m2=ground if sized else None,
                after=_cleared_last(plots, start),
                open_end=end == days[-1],
            )


def _ground(taken: Sequence[float]) -> float:
    """The area that stood on four weeks' days at least [m²]; of a shorter season on every day."""
    return sorted(taken, reverse=True)[min(FOUR_WEEKS_D, len(taken)) - 1]


def _cleared_last(plots: Sequence[Plot], start: date) -> str | None:
    before = [(plot.end, plot.crop) for plot in plots if plot.end < start]
    return max(before)[1] if before else None
