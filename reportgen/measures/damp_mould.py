"""Grey-mould weather: the index of Broome et al. 1995 on each wet spell; it ranks nights and is no forecast.

J. C. Broome, J. T. English, J. J. Marois, B. A. Latorre and J. C. Aviles, Phytopathology 85 (1995) 97–102, fitted on
grape: logit = −2.647866 − 0.374927 W + 0.061601 W T − 0.001511 W T², W wet hours, T their mean temperature [°C].
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.damp_air import Moist, local
from reportgen.measures.exposure import Line, spells_below
from reportgen.readings.types import Readings

WET_PCT = 90.0  # humidity from which leaves are taken as wet; Sentelhas et al. 2008, Agric. For. Meteorol. 148, 392
DRY_GAP_S = 4 * 3600.0  # a longer dry gap ends a spell; Broome et al. 1995
COLDEST_C = 12.0  # below it the equation was not fitted
SEEN_DAYS = 7  # what an inspection finds is set beside the wet spells of the week before; common practice, no source
WORDS = ("mould", "mold", "fur", "rot", "botrytis")  # of an inspection that found some
LOW, MODERATE, HIGH = 0.0, 0.5, 1.0  # classes on the logit, as commonly used with it


@dataclass(frozen=True, kw_only=True, slots=True)
class WetSpell:
    """One wet spell: from the first to the last wet moment, its wet hours, their mean temperature, its class."""

    start: pd.Timestamp
    end: pd.Timestamp
    wet_h: float
    mean_c: float
    index: float  # the logit; NaN where it was too cold
    klass: str  # none | low | moderate | high | too cold | unknown


@dataclass(frozen=True, kw_only=True, slots=True)
class MouldSeen:
    """Inspections that found mould or rot beside what the index said of the week before.

    `looked`: dates of visits in the season; `found`: those that found some; `warned`: of these, those with a spell
    ranked moderate or high that ended in the week before or lasted still.
    """

    looked: tuple[date, ...]
    found: tuple[date, ...]
    warned: tuple[date, ...]


def mould_seen(spells: Sequence[WetSpell], readings: Readings) -> MouldSeen:
    """What the visits of the season found, beside the index."""
    season = readings.season
    inside = [i for i in readings.inspections if season.first_day <= i.date <= season.last_day]
    found = sorted({i.date for i in inside if (i.level or 0) > 0 and any(word in i.found.casefold() for word in WORDS)})
    ranked = [s for s in spells if s.klass in ("moderate", "high")]
    warned = [
        when
        for when in found
        if any(s.start.date() <= when <= s.end.date() + timedelta(days=SEEN_DAYS) for s in ranked)
    ]
    return MouldSeen(looked=tuple(sorted({i.date for i in inside})), found=tuple(found), warned=tuple(warned))


def logit(wet_h: float, mean_c: float) -> float:
    """The index of Broome et al. 1995 [no unit] of a wet spell of `wet_h` hours at a mean of `mean_c` °C."""
    return -2.647866 + wet_h * (-0.374927 + 0.061601 * mean_c - 0.001511 * mean_c**2)


def class_of(index: float) -> str:
    """none up to an index [no unit] of 0, low below 0.5, moderate below 1.0, else high."""
    return "none" if index <= LOW else "low" if index < MODERATE else "moderate" if index < HIGH else "high"


def at_or_above(curve: Line, limit: float) -> list[tuple[float, float]]:
    """Start and end [s since 1970] of each recorded stretch at or above a line: what is not strictly below it.

    `limit`: the line, in the unit of the curve.
    """
    linked = np.flatnonzero(curve.joined)
    if not len(linked):
        return []
    breaks = np.flatnonzero(np.diff(linked) > 1)
    firsts = np.concatenate([[linked[0]], linked[breaks + 1]])
    lasts = np.concatenate([linked[breaks], [linked[-1]]]) + 1
    recorded = list(zip(curve.seconds[firsts].tolist(), curve.seconds[lasts].tolist(), strict=True))
    below = spells_below(curve, limit)
    out: list[tuple[float, float]] = []
    k = 0
    for start, end in recorded:
        at = start
        while k < len(below) and below[k][0] < end:
            if below[k][0] > at:
                out.append((at, below[k][0]))
            at = below[k][1]
            k += 1
        if at < end:
            out.append((at, end))
    return out


def wet_spells(moist: Moist) -> tuple[WetSpell, ...]:
    """Spells at or above 90 %, dry or unrecorded gaps of up to 4 h inside them; W counts the wet hours only."""
    stretches = at_or_above(moist.rh, WET_PCT)
    temp = moist.curve(moist.temp_c)
    groups: list[list[tuple[float, float]]] = []
    for stretch in stretches:
        if groups and stretch[0] - groups[-1][-1][1] <= DRY_GAP_S:
            groups[-1].append(stretch)
        else:
            groups.append([stretch])
    return tuple(_spell(group, temp, moist) for group in groups)


def _spell(group: list[tuple[float, float]], temp: Line, moist: Moist) -> WetSpell:
    wet_h = sum(b - a for a, b in group) / 3600.0
    mean_c = _mean_in(group, temp)
    known = mean_c == mean_c
    cold = known and mean_c < COLDEST_C
    index = logit(wet_h, mean_c) if known and not cold else float("nan")
    return WetSpell(
        start=local(group[0][0], moist.rh),
        end=local(group[-1][1], moist.rh),
        wet_h=wet_h,
        mean_c=mean_c,
        index=index,
        klass="unknown" if not known else "too cold" if cold else class_of(index),
    )


def _mean_in(group: list[tuple[float, float]], temp: Line) -> float:
    """Mean temperature over the stretches, by time; NaN where it is not logged in any of them."""
    area = length = 0.0
    for a, b in group:
        inside = temp.seconds[(temp.seconds > a) & (temp.seconds < b)]
        at = np.concatenate([[a], inside, [b]])
        value, step = temp.at(at), np.diff(at)
        middle = (value[:-1] + value[1:]) / 2
        good = ~np.isnan(middle)
        area += float((middle[good] * step[good]).sum())
        length += float(step[good].sum())
    return area / length if length else float("nan")
