"""The base of the degree-hours: the outdoor temperature below which the house needed heat.

Method: base temperature (M. F. Fels 1986, Energy and Buildings 9:5–18): B is scanned so that heat is in proportion to
the degree-hours below B. Where the hold changed in the winter, B moves with it; where the house was altered, each of
its states has a proportion of its own. Methods page, *The price of a degree*.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls
from scipy.stats import t as student_t

from reportgen.measures.days import ENOUGH
from reportgen.measures.exposure import Floats
from reportgen.measures.hold_base import Periods, Weather
from reportgen.problems import NotEnoughData

STEP_C, LOWEST_C, HIGHEST_C = 0.25, -5.0, 25.0
FEWEST_DAYS, FEWEST_PERIODS = 14, 5  # our own lines
OWN_DAYS, OWN_PERIODS = 7, 2  # periods that give a state of the house a proportion of its own; our own lines
LARGE_SHARE = 0.25  # of the winter's degree-hours: a state of so many needs a proportion of its own; our own line
NINE_IN_TEN = 0.95  # quantile of either side

Scan = tuple[Floats, Floats]  # misfit by base, shape (bases,); heat a K h by base and group, (bases, groups)


@dataclass(frozen=True, kw_only=True, slots=True)
class Base:
    """The base found: `above_hold_k` = B − H, heat a kelvin-hour, and how well it tells the heat.

    `slopes`: heat a kelvin-hour [kWh] by state of the house, () where there is one for all; `kwh_per_kh` is their mean
    over the periods' degree-hours. `ends`: the same fit at the lowest and the highest base that the periods allow nine
    in ten times.
    """

    above_hold_k: float
    kwh_per_kh: float
    explained: float
    fitted: Floats = field(repr=False)
    used: NDArray[np.bool_] = field(repr=False)
    slopes: tuple[float, ...] = ()
    ends: tuple[Base, ...] = field(repr=False, default=())


def base(heat: Periods, air: Weather) -> Base:
    """B by scan, as a distance from the hold.

    Raises:
        NotEnoughData: Too few periods with outdoor air, or too few as the house was; or the best B, or one of those
            that the periods allow, lies at an end of the scan.
    """
    middle = float(np.nanmean(air.hold_c))
    bases = np.arange(LOWEST_C, HIGHEST_C + STEP_C / 2, STEP_C) - middle
    pulls = np.maximum(air.hold_c[:, None] + bases[None, :] - air.outdoor_c[:, None], 0.0)
    parts, used = _by_state(pulls, air, heat)
    _enough(heat.kind, int(used.sum()))
    weight = 1.0 / np.sqrt(heat.ends - heat.starts)[used]  # a long period misses by more
    parts, y = parts[:, used], heat.kwh[used] * weight
    group = _groups(parts[:, :, int(np.argmin(np.abs(bases)))], heat.kind)
    x = np.stack([parts[group == n].sum(axis=0) for n in range(max(group) + 1)])
    misses, slopes = _scan(x * weight[None, :, None], y)
    best = int(np.argmin(misses))
    if best in (0, len(bases) - 1) or slopes[best].sum() <= 0:
        raise NotEnoughData("the heat did not follow the cold outdoors closely enough to tell")

    def at(n: int) -> Base:
        fitted = slopes[n] @ x[:, :, n]
        whole = float(((y - y.mean()) ** 2).sum())
        return Base(
            above_hold_k=float(bases[n]),
            kwh_per_kh=float(fitted.sum() / x[:, :, n].sum()),
            explained=1.0 - float(misses[n]) / whole if whole > 0 else 0.0,
            fitted=fitted,
            used=used,
            slopes=tuple(slopes[n][group].tolist()) if max(group) else (),
        )

    low, high = _allowed(misses, len(y) - x.shape[0] - 1)
    return replace(at(best), ends=(at(low), at(high)))


def _enough(kind: str, count: int) -> None:
    fewest = FEWEST_DAYS if kind == "days" else FEWEST_PERIODS
    if count < fewest:
        raise NotEnoughData(
            f"only {_counted(kind, count)} with heat and outdoor air; {fewest} are needed"
            + ("" if kind == "days" else ", so read the meter, or look at the stock, every week or two")
        )


def _counted(kind: str, n: int) -> str:
    one, many = ("day", "days") if kind == "days" else ("stretch", "stretches")
    return f"{n} {one if n == 1 else many}" + ("" if kind == "days" else " between readings")


def _groups(parts: Floats, kind: str) -> NDArray[np.int_]:
    """The number of the proportion of every state, shape (states,): a state in which too few periods mostly lay shares
    that of the one before it (the first: of the next).

    Args:
        parts: Degree-hours below the hold by state and period, shape (states, periods).

    Raises:
        NotEnoughData: Such a state took a large part of the winter's cold.
    """
    own = np.bincount(np.argmax(parts, axis=0), minlength=len(parts))
    share = parts.sum(axis=1) / max(float(parts.sum()), 1e-9)
    few = own < (OWN_DAYS if kind == "days" else OWN_PERIODS)
    if len(parts) > 1 and (few & (share > LARGE_SHARE)).any():
        raise NotEnoughData(
            "the house was altered within the winter, and too few readings lie before or after it to tell what each "
            "house took; read the meter, or look at the stock, every week"
        )
    return np.asarray(np.maximum(np.cumsum(~few) - 1, 0))


def _scan(x: Floats, y: Floats) -> Scan:
    """Least squares with no proportion under zero, at every base.

    Args:
        x: Degree-hours of every group, period and base, shape (groups, periods, bases); y: heat, shape (periods,).
    """
    found = [nnls(x[:, :, n].T, y) for n in range(x.shape[2])]
    return np.array([miss**2 for _, miss in found]), np.array([slopes for slopes, _ in found])


def _allowed(misses: Floats, freedom: int) -> tuple[int, int]:
    """Numbers of the lowest and the highest base whose misfit is no larger than chance makes it nine in ten times.

    Likelihood-ratio interval of one parameter: Σe² ≤ Σe²min · (1 + t²/ν), t of Student with ν degrees of freedom
    (D. M. Bates and D. G. Watts 1988, Nonlinear Regression Analysis, ch. 6).

    Raises:
        NotEnoughData: It reaches an end of the scan.
    """
    line = float(misses.min()) * (1.0 + float(student_t.ppf(NINE_IN_TEN, max(freedom, 1))) ** 2 / max(freedom, 1))
    allowed = np.flatnonzero(misses <= line + 1e-12)
    if allowed[0] == 0 or allowed[-1] == len(misses) - 1:
        raise NotEnoughData("too few readings to tell how the heat followed the cold outdoors")
    return int(allowed[0]), int(allowed[-1])


def _by_state(pulls: Floats, air: Weather, heat: Periods) -> tuple[Floats, NDArray[np.bool_]]:
    """Degree-hours of every state, period and base, shape (states, periods, bases); which periods are known."""
    number = air.states
    found = [sums(pulls * (number == n)[:, None], air.seconds, heat) for n in range(int(number.max(initial=0)) + 1)]
    return np.stack([total for total, _ in found]), found[0][1]


def sums(pulls: Floats, seconds: Floats, heat: Periods) -> tuple[Floats, NDArray[np.bool_]]:
    """Degree-hours of every period and base, shape (periods, bases), scaled to the whole period; which are known.

    `pulls`: kelvins below every base in every hour, shape (hours, bases), NaN where not known; `seconds`: beginnings of
    the hours [s since 1970], shape (hours,).
    """
    unknown: NDArray[np.bool_] = np.asarray(np.isnan(pulls).any(axis=1))
    total = np.vstack([np.zeros(pulls.shape[1]), np.cumsum(np.where(unknown[:, None], 0.0, pulls), axis=0)])
    count = np.concatenate([[0.0], np.cumsum(~unknown)])
    edges = np.append(seconds, seconds[-1] + 3600.0 if len(seconds) else 0.0)

    def until(values: Floats, instants: Floats) -> Floats:
        columns = values if values.ndim == 2 else values[:, None]
        return np.column_stack([np.interp(instants, edges, column) for column in columns.T])

    inside = until(total, heat.ends) - until(total, heat.starts)
    known = (until(count, heat.ends) - until(count, heat.starts))[:, 0]
    length = (heat.ends - heat.starts) / 3600.0
    used = (known >= ENOUGH * length) & (length > 0) & ~np.isnan(heat.kwh)
    return inside * (length / np.where(known > 0, known, 1.0))[:, None], used
