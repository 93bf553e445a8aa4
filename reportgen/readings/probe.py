"""A soil probe that lies in no soil: one that hangs in the air, or whose column is exchanged with another.

In the ground a daily wave shrinks to exp(−z/D) of the surface's and comes z/D behind it (`reportgen.ground`), and no
garden soil has a larger D than moist sand: a probe 10 cm deep has at most 0.55 of the surface's swing, at least 2.3 h
late. One that swings with the air at once measures air. The other way round, a column of air that swings less than the
bed's and comes after it is the bed's. Room for the surface, which may swing more than the air where the sun reaches it,
and the shares below are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.ground import LARGEST_DIFFUSIVITY_M2_S, OMEGA_DAY, wave_at
from reportgen.problems import Problem
from reportgen.readings.digits import Ints
from reportgen.readings.neighbours import Pair, pair
from reportgen.readings.numbers import Floats
from reportgen.readings.types import Channel, CheckFinding
from reportgen.season import Season
from reportgen.wording import NBSP, number

AIRS = ("air_temperature", "outdoor_temperature")
IN_THE_AIR, EXCHANGED = "probe-in-the-air", "columns-exchanged"
SHALLOW_M = 0.05  # above this depth a bed may well swing with the air
AIR_SHARE, AIR_LAG_H = 0.7, 1.5  # a bed swings less than this share of the air and comes later than this
ROOM = 1.15  # the surface may swing this much more than the air
BED_SHARE, BED_LAG_H = 0.7, 1.0  # seen from the column of the air, the bed's swings so much less and so much later
MOST_LAG_H = 12.0
SURE, LIKELY = 0.8, 0.5  # how alike two waves are from day to day (1 the same but for size and hour)
QUICK_K = 0.3  # changes over three hours beyond the usual of the hour are worth comparing from here on
QUICK_SHARE = 0.5  # in the ground less than this of them arrives
LEAST_WAVE_K = 1.0  # a wave flatter than this carries no phase to speak of
AT_ONCE_MIN = 5.0
DAYS = 7
WINDOW_H, GAP_H = 72, 3


@dataclass(frozen=True, kw_only=True, slots=True)
class _Beside:
    """One curve beside another: `share` of its daily wave and `lag_h` behind it (−12 … 12), how `alike` the waves are
    from day to day, the share of its quick changes (NaN where it has none), and which of the two is `steadier`."""

    share: float
    lag_h: float
    alike: float
    quick: float
    steadier: bool


def doubted_probes(channels: Sequence[Channel], season: Season) -> tuple[list[CheckFinding], list[Problem]]:
    """What is told of soil probes that lie in no soil: a finding each, and a warning where columns look exchanged."""
    airs = [channel for channel in channels if channel.measure in AIRS and channel.where != "elsewhere"]
    found: list[CheckFinding] = []
    asked: list[Problem] = []
    for bed in (channel for channel in channels if channel.measure == "soil_temperature"):
        if bed.depth_m is not None and bed.depth_m < SHALLOW_M:
            continue
        pairs = _pairs(bed, airs)
        for both in pairs:
            if (seen := _as_a_bed(both)) is not None:
                found.append(_exchanged(both, seen, season))
                asked.append(_ask_columns(both, season))
                break
        else:
            beside = [(both, seen) for both in pairs if (seen := _as_the_air(both)) is not None]
            found += [_hangs(both, seen) for both, seen in beside[:1]]
    return found, asked


def _pairs(bed: Channel, airs: Sequence[Channel]) -> list[Pair]:
    """The bed with each air, that of its own logger first, where they have a week in common."""
    pairs = [pair(bed, air) for air in airs if len(bed.values) and len(air.values)]
    long = [both for both in pairs if len(both.hours) and both.hours[-1] - both.hours[0] >= DAYS * 24]
    return sorted(long, key=lambda both: both.two.logger != bed.logger)


def _as_the_air(both: Pair) -> _Beside | None:
    """The probe beside crop air, where it swings with it more, and sooner, than any garden soil would let it."""
    if both.two.where != "crop" or both.two.measure != "air_temperature":
        return None
    seen = _beside(both.hours, both.a, both.b)
    share, lag_h = wave_at(both.one.depth_m or SHALLOW_M, LARGEST_DIFFUSIVITY_M2_S)
    swings = seen.share > max(AIR_SHARE, ROOM * share) and abs(seen.lag_h) < min(AIR_LAG_H, lag_h)
    return seen if swings and seen.alike >= SURE and not seen.quick < QUICK_SHARE else None


def _as_a_bed(both: Pair) -> _Beside | None:
    """The air beside the probe, where it is the air that is damped, late and steady."""
    seen = _beside(both.hours, both.b, both.a)
    late = BED_LAG_H if both.one.depth_m is not None else 2 * BED_LAG_H
    damped = seen.share < BED_SHARE and late <= seen.lag_h < MOST_LAG_H
    return seen if damped and seen.alike >= LIKELY and seen.steadier and not seen.quick > QUICK_SHARE else None


def _beside(hours: Ints, one: Floats, two: Floats) -> _Beside:
    """The first curve beside the second, both by the hour; NaN where there are under seven days of a second's wave."""
    grid = np.arange(hours[0], hours[-1] + 1)
    a, b = _by_hour(grid, hours, one), _by_hour(grid, hours, two)
    wave_a, wave_b = _waves(a), _waves(b)
    known = ~np.isnan(wave_a) & ~np.isnan(wave_b) & (np.abs(wave_b) >= LEAST_WAVE_K)
    if int(known.sum()) < DAYS:
        return _Beside(share=np.nan, lag_h=np.nan, alike=np.nan, quick=np.nan, steadier=False)
    cross = complex((np.conj(wave_b[known]) * wave_a[known]).sum())
    powers = [float((np.abs(wave[known]) ** 2).sum()) for wave in (wave_a, wave_b)]
    return _Beside(
        share=abs(cross) / powers[1],
        lag_h=float(-np.angle(cross) / OMEGA_DAY / 3600.0),
        alike=abs(cross) / max(powers[0] * powers[1], 1e-12) ** 0.5,
        quick=_quick(grid, a, b),
        steadier=bool(_unrest(a) < _unrest(b)),
    )


def _by_hour(grid: Ints, hours: Ints, values: Floats) -> Floats:
    """Every hour of the grid, joined over gaps of up to three hours; NaN in longer ones."""
    out = np.interp(grid, hours, values)
    place = np.clip(np.searchsorted(hours, grid), 1, len(hours) - 1)
    out[hours[place] - hours[place - 1] > GAP_H] = np.nan
    return out


def _waves(values: Floats) -> NDArray[np.complex128]:
    """The daily wave of each three days, a day apart, as amplitude · exp(−i · phase of its maximum); NaN with a gap.

    Least squares of mean + trend + cosine + sine of 24 h, as on the soil page.
    """
    if len(values) < WINDOW_H:
        return np.empty(0, dtype=np.complex128)
    parts = np.lib.stride_tricks.sliding_window_view(values, WINDOW_H)[::24]
    t = np.arange(WINDOW_H)
    turn = OMEGA_DAY * 3600.0 * t
    fit = np.linalg.pinv(np.column_stack([np.ones(WINDOW_H), t, np.cos(turn), np.sin(turn)]))
    return np.asarray(parts @ fit[2] - 1j * (parts @ fit[3]))


def _quick(grid: Ints, one: Floats, two: Floats) -> float:
    """Share of the second's changes over three hours, beyond the usual of the hour, that the first goes along with."""
    changes = [_unusual(grid, values) for values in (one, two)]
    known = ~np.isnan(changes[0]) & ~np.isnan(changes[1])
    a, b = changes[0][known], changes[1][known]
    if len(b) < DAYS * 24 or float(np.std(b)) < QUICK_K:
        return float("nan")
    return float((a @ b) / (b @ b))


def _unusual(grid: Ints, values: Floats) -> Floats:
    change = values[GAP_H:] - values[:-GAP_H]
    usual = pd.Series(change).groupby(grid[:-GAP_H] % 24).transform("mean").to_numpy(dtype=np.float64)
    return np.asarray(change - usual)


def _unrest(values: Floats) -> float:
    """How much the mean of a day differs from that of the day before."""
    days = values[: len(values) // 24 * 24].reshape(-1, 24).mean(axis=1)
    steps = np.diff(days)
    return float(np.sqrt(np.nanmean(steps**2))) if np.any(~np.isnan(steps)) else float("nan")


def _hangs(both: Pair, seen: _Beside) -> CheckFinding:
    bed, minutes = both.one, 60 * abs(seen.lag_h)
    late = f"{minutes:.0f}{NBSP}min {'after' if seen.lag_h >= 0 else 'before'} it"
    depth = "" if bed.depth_m is None else f", {number(100 * bed.depth_m)}{NBSP}cm deep,"
    words = (
        f"the soil probe of {bed.logger}{depth} swings {100 * seen.share:.0f}{NBSP}% as much as the air of "
        f"{both.two.logger}, {late if minutes >= AT_ONCE_MIN else 'at the same time'}: it seems to hang in the air"
        f"{_no_soil(bed.depth_m)}. Nothing is reckoned from it"
    )
    return _finding(IN_THE_AIR, both, words)


def _no_soil(depth_m: float | None) -> str:
    if depth_m is None:
        return " or to lie at the surface (its depth_m is not written)"
    share, lag_h = wave_at(depth_m, LARGEST_DIFFUSIVITY_M2_S)
    return f" (moist sand lets {100 * share:.0f}{NBSP}% through, {lag_h:.1f}{NBSP}h late, and other soils less)"


def _exchanged(both: Pair, seen: _Beside, season: Season) -> CheckFinding:
    words = (
        f"soil and air look exchanged: {_column(both.two, season)}, declared as air, swings "
        f"{100 * seen.share:.0f}{NBSP}% as much as {_column(both.one, season)}, declared as soil, and "
        f"{seen.lag_h:.1f}{NBSP}h later, as a bed does. Nothing is reckoned from that soil; what is said of the air "
        "may be the bed's"
    )
    return _finding(EXCHANGED, both, words)


def _column(channel: Channel, season: Season) -> str:
    return f"column {season.logger(channel.logger).measures[channel.measure].column!r} of {channel.logger}"


def _finding(slug: str, both: Pair, words: str) -> CheckFinding:
    bed, index = both.one, both.one.values.index
    return CheckFinding(
        slug=slug, logger=bed.logger, measure=bed.measure, start=index[0], end=index[-1], count=len(index), words=words
    )


def _ask_columns(both: Pair, season: Season) -> Problem:
    return Problem(
        slug=EXCHANGED,
        file="season.toml",
        column=f"[[logger]] {both.one.logger} · {both.one.measure}",
        found=f"{_column(both.one, season)}, declared as soil, swings like air, and {_column(both.two, season)}, "
        "declared as air, swings less and later, like a bed",
        expected="each column under what it measured",
        todo="look which probe is which; if they are exchanged, exchange the two column names in season.toml",
        level="warning",
    )
