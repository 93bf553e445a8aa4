"""The cold end of a heated house: on which nights the heat decided, and whether the air inside fell with the cold.

With a thermostat the night's minimum inside is flat in the outdoor air as long as the heater can hold, rises with it on
mild nights and falls with it where the heater runs flat out. One line through all three says nothing of the last, so
only nights with heat are looked at, and a limit is told only where they fell with the cold. Methods page, *How cold may
it get outside*; figures on simulated houses: tests/studies/FROST.md.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reportgen.measures.exposure import Floats
from reportgen.measures.frost_fit import Regression, limit_of, regress
from reportgen.wording import count

FEWEST_HEATED = 5  # nights with heat, before it is told that all of them held; our own line
FEWEST_FALLING = 10  # nights on the line below the bend (study: 8 were bent by single nights, 20 reached over the bend)
LEAST_SLOPE = 0.1  # [K inside for one outdoors] a thermostat's own fall between its steps is under it; our own line
BEND_STEP_K = 0.25
OVER_HOLD_K = 1.0  # up to so far above the usual hold a night counts as held by its heat
KNOWN_SHARE = 0.8  # of the nights, of which the heated hours are known, to go by them
COLDER_SHARE = 0.6  # of the nights: among them the hold is looked for, since mild ones do not stand at it
HOLD_SHARE, HOLD_NIGHTS, HOLD_WIDTH_K = 0.25, 8, 1.0  # share and least number of them within so much: they stand at it

HELD = "held on every night down to the coldest seen; colder was not tested"
CLOSE = "held on every night down to the coldest seen, but only just"
NOT_BY_COLD = "it fell below the frost line on {}, and not by how cold it was outdoors"
FEW_TO_FALL = "it fell below the frost line on {}, and {} with heat are too few to name a limit; {} are needed"
DIFFER = "nights of the same outdoor minimum differ too much to name a limit"

Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, slots=True)
class ColdEnd:
    """`outdoor_c`: the limit [°C], or None with its `reason`. `line`: of the nights on which the air fell with the
    cold, None where it did not; `falling`: which of the nights given those are, shape (n,)."""

    outdoor_c: float | None
    reason: str
    line: Regression | None
    falling: Mask


def with_heat(inside_c: Floats, heated_h: Floats, hold_c: float | None) -> tuple[Mask, bool]:
    """The nights on which the heat decided, shape (n,), and whether the heating log says so.

    Where the heated hours are not known, they are those no more than 1 K above the hold.

    Args:
        inside_c: The nights' minima inside [°C], shape (n,).
        heated_h: Hours with heat, NaN where not known, shape (n,).
        hold_c: From `hold_by_nights`; none of the nights without it.
    """
    if len(heated_h) and np.isfinite(heated_h).mean() >= KNOWN_SHARE:
        return np.nan_to_num(heated_h) > 0, True
    if hold_c is None:
        return np.zeros(len(inside_c), dtype=bool), False
    return np.asarray(inside_c <= hold_c + OVER_HOLD_K), False


def hold_by_nights(outdoor_c: Floats, inside_c: Floats) -> float | None:
    """The minimum inside at which a thermostat left most of the colder nights [°C]; None where they stand at none.

    Method (our own): the middle of the quarter of them, at least 8, that lie closest together, within 1 K. In simulated
    houses it was off by more than 1 K in 7 of 293 (tests/studies/FROST.md).

    Args:
        outdoor_c: Minima outdoors [°C] of nights at one setting, shape (n,).
        inside_c: Minima inside of the same nights [°C], shape (n,).
    """
    colder = np.argsort(outdoor_c, kind="stable")[: int(COLDER_SHARE * len(outdoor_c))]
    ordered = np.sort(inside_c[colder])
    least = max(int(HOLD_SHARE * len(ordered)), HOLD_NIGHTS)
    if len(ordered) < least:
        return None
    width = ordered[least - 1 :] - ordered[: len(ordered) - least + 1]
    first = int(np.argmin(width))
    return float(np.median(ordered[first : first + least])) if width[first] <= HOLD_WIDTH_K else None


def cold_end(outdoor_c: Floats, inside_c: Floats, line_c: float, all_seen: tuple[Floats, Floats]) -> ColdEnd:
    """The limit of a heated house.

    Args:
        outdoor_c: Minima outdoors of the nights with heat [°C], shape (n,).
        inside_c: Minima inside of the same nights [°C], shape (n,).
        line_c: The frost line [°C].
        all_seen: Minima outdoors and inside of every night of the same state, heated or not [°C], shapes (m,): none is
            forgotten that crossed the line or held.
    """
    coldest = float(all_seen[0].min())
    crossed = all_seen[0][all_seen[1] < line_c]
    falling = below_bend(outdoor_c, inside_c)
    line = regress(outdoor_c[falling], inside_c[falling])
    if line is None or line.slope_at_least() <= LEAST_SLOPE:
        return ColdEnd(outdoor_c=None, reason=_flat(len(outdoor_c), len(crossed)), line=None, falling=falling)
    limit = limit_of(line, outdoor_c[falling], inside_c[falling], line_c)
    limit, why = _judged(limit, coldest, crossed)
    return ColdEnd(outdoor_c=limit, reason=why, line=line, falling=falling)


def _flat(nights: int, crossed: int) -> str:
    """What is said where the air did not fall with the cold, or too few nights tell."""
    if not crossed:
        return HELD
    if nights < FEWEST_FALLING:
        return FEW_TO_FALL.format(_nights(crossed), _nights(nights), FEWEST_FALLING)
    return NOT_BY_COLD.format(_nights(crossed))


def _judged(limit: float | None, coldest: float, crossed: Floats) -> tuple[float | None, str]:
    """Never under a night that crossed the line; never above a night that held, where none crossed it."""
    if len(crossed):
        return (None, DIFFER) if limit is None else (max(limit, float(crossed.max())), "")
    if limit is None or limit >= coldest:
        return None, CLOSE
    return (
        None,
        HELD,
    )  # within 2 K above a limit told beyond the record one night in eight fell below the line: too often


def below_bend(outdoor_c: Floats, inside_c: Floats) -> Mask:
    """The nights colder than the bend at which the minimum inside leaves its level, shape (n,).

    Least squares of level − slope · (bend − outdoors where colder), the bend by scan in 0.25 K (textbook: a broken
    stick); at least ten nights lie below it. None of them where there are fewer.
    """
    best, found = np.inf, np.zeros(len(outdoor_c), dtype=bool)
    if len(outdoor_c) < FEWEST_FALLING:
        return found
    over_all = float(outdoor_c.max()) + BEND_STEP_K
    for bend in [*np.arange(float(outdoor_c.min()), over_all, BEND_STEP_K).tolist(), over_all]:
        under = np.maximum(bend - outdoor_c, 0.0)
        fit = regress(under, inside_c) if (under > 0).sum() >= FEWEST_FALLING else None
        if fit is not None and fit.s < best:
            best, found = fit.s, np.asarray(outdoor_c <= bend)
    return found


def _nights(number: int) -> str:
    return count(number, "night")
