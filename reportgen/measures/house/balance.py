"""The heat balance of the dark hours, fitted to one winter of one house.

P + X = U_s·(T_i − T_o) + W·v·(T_i − T_o) + C·dT_i/dt + G·(T_i − T_s) + Σ g_k·(T_i − L_k(T_i)) + D·(T_i − mean T_o)
        − Σ s_k·L_k(S) + c

with P the heaters and X other heat [W], U_s one value for every state of the house, v the wind, T_s the bed's probe
and L_k an exponential lag. All coefficients but c are at least 0. With a probe and light: G and the lags 4, 16 and 64 h
(skin of the soil, staging, barrels). Without: D (the deep ground) and the lags 4, 16, 64 and 300 h in their place.

Where the thermostat commands, the heat answers to the misfit e; where it does not (no heat, or flat out), the air does,
and its density carries the factor K, all that holds the air at once. So what is made least is
N/2·ln Σe² − Σ_(hours not in command) ln K. Hours at rated power need not be left out. Own method, tried on simulated
houses whose truth is known (methods page, *The house as a balance*).
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.hours import Bools, HouseHours, lagged
from reportgen.problems import NotEnoughData

MASS_LAGS_H = (4.0, 16.0, 64.0, 300.0)  # of hidden masses that follow the air
BESIDE_PROBE = 3  # of them with a probe, which tells the slowest itself
SUN_LAGS_H = (4.0, 16.0, 64.0)  # sun stored by day and given back by night
WIND_USUAL_M_S = 3.0  # at which the wind's share of the loss counts in what holds the air at once
SETTLING_H = 72  # the lags are still settling
LEAST_HEATED_H = 150  # dark heated hours below which nothing is told
LEAST_SPREAD_K = 2.0  # standard deviation of the outdoor air in them below which nothing is told
LEAST_FREE_H = 100  # dark hours without command: fewer, and the house was never seen to cool by itself
AT_LIMIT_SHARE = 0.05  # "heater at its limit": share of dark hours at rated power
TURNS = 500  # of the optimiser
LEAST_OWN = 0.05  # a term that varies by less of its own size than this is as good as the constant
MOST_OF_HEAT = 10.0  # × the heat: a term larger than this is cancelled by another and means nothing


@dataclass(frozen=True, kw_only=True, slots=True)
class Balance:
    """The fitted coefficients.

    `loss_w_k`: U of every state [W/K]. `wind_w_k`: W [W/K for 1 m/s], 0 without a wind logger. `air_wh_k`: C, air and
    what warms with it [Wh/K]. `bed_w_k`: G [W/K], 0 without a probe. `deep_w_k`: D [W/K], 0 with one. `masses`: pairs
    of g [W/K] and lag [h]. `constant_w`: c [W]. `misfit_w`: e, shape (n,), NaN in hours that were not fitted [W].
    `asked_w`: heat that the balance asks for in every hour, sun of the hour apart, shape (n,) [W].
    `limit_share`: share of the fitted hours at rated power. `free_hours`: fitted hours in which the thermostat was not
    in command, so that the air answered. `kind`: "probe", "no probe" or "meter".
    """

    loss_w_k: Floats
    wind_w_k: float
    air_wh_k: float
    bed_w_k: float
    deep_w_k: float
    masses: tuple[tuple[float, float], ...]
    constant_w: float
    misfit_w: Floats = field(repr=False)
    asked_w: Floats = field(repr=False)
    limit_share: float
    free_hours: int
    kind: str

    @property
    def at_limit(self) -> bool:
        """Whether the heater stood at its rated power for more than 5 % of the dark hours."""
        return self.limit_share > AT_LIMIT_SHARE


def fit_balance(hours: HouseHours) -> Balance:
    """The balance of a season.

    Raises:
        NotEnoughData: Fewer than 150 dark heated hours, or all of them alike outdoors.
    """
    used = usable(hours)
    _refuse_too_little(hours, used)
    columns = [column for column in _columns(hours) if _tells(column, used)]
    design = np.column_stack([column.values for column in columns])
    heat = hours.heaters_w + hours.other_w
    free = ~hours.commanded[used]
    fitted, constant = _most_likely(design[used], heat[used], free, hours.state[used], columns)
    misfit = np.full(hours.count, np.nan)
    asked = design @ fitted + constant
    _refuse_impossible(design[used] * fitted, constant, heat[used])
    misfit[used] = heat[used] - asked[used]
    found = dict(zip([column.name for column in columns], fitted.tolist(), strict=True))
    states = int(hours.state.max()) + 1
    return Balance(
        loss_w_k=np.array([found[f"U{n}"] for n in range(states)]),
        wind_w_k=found.get("W", 0.0),
        air_wh_k=found.get("C", 0.0),
        bed_w_k=found.get("G", 0.0),
        deep_w_k=found.get("D", 0.0),
        masses=tuple((found[f"g{n}"], lag) for n, lag in enumerate(MASS_LAGS_H) if f"g{n}" in found),
        constant_w=constant,
        misfit_w=misfit,
        asked_w=asked - hours.other_w,
        limit_share=float((used & hours.flat_out).sum() / used.sum()),
        free_hours=int(free.sum()),
        kind="meter" if hours.by_meter else "no probe" if hours.temp_soil_c is None else "probe",
    )


def refuse_unseen_cooling(balance: Balance) -> None:
    """Nothing is told of a house without heat that was heated in nearly every dark hour.

    Raises:
        NotEnoughData: Fewer than 100 fitted hours in which the air was left to itself.
    """
    if balance.free_hours < LEAST_FREE_H:
        raise NotEnoughData(
            f"the heater was in command of all but {balance.free_hours} dark hours, so this house was never seen to "
            "cool by itself"
        )


def usable(hours: HouseHours) -> Bools:
    """The hours that are fitted: dark, logged, not the first three days; shape (n,)."""
    used = hours.dark & hours.logged
    used[:SETTLING_H] = False
    used[-1:] = False
    return used


def _refuse_too_little(hours: HouseHours, used: Bools) -> None:
    heated = used & hours.heated
    if heated.sum() < LEAST_HEATED_H:
        raise NotEnoughData(
            f"only {int(heated.sum())} dark hours were heated and fully logged; {LEAST_HEATED_H} are needed"
        )
    if float(hours.temp_outdoor_c[heated].std()) < LEAST_SPREAD_K:
        raise NotEnoughData("the heated hours were all alike outdoors, so warm and cold ones cannot be told apart")


def _refuse_impossible(terms: Floats, constant: float, heat: Floats) -> None:
    """Terms that cancel each other at many times the heat are no house.

    Args:
        terms: Each term's part of the heat in the fitted hours [W], shape (hours, terms).
    """
    most = MOST_OF_HEAT * float(np.sqrt((heat**2).mean()))
    largest = float(np.sqrt((terms**2).mean(axis=0)).max())
    if not np.isfinite(largest) or max(largest, abs(constant)) > most:
        raise NotEnoughData("the heated hours were too much alike to tell the parts of the house apart")


def _tells(column: _Column, used: Bools) -> bool:
    """Whether a term can be told from the constant; the losses always stay."""
    if column.state is not None:
        return True
    values = column.values[used]
    return float(values.std()) > LEAST_OWN * float(np.sqrt((values**2).mean()))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Column:
    """One term: its values [K or the like], how far it holds the air at once, and the state to which it belongs."""

    name: str
    values: Floats
    grip: float
    state: int | None = None


def _columns(hours: HouseHours) -> list[_Column]:
    air, probe = hours.temp_air_c, hours.temp_soil_c
    out = [
        _Column(name=f"U{n}", values=np.where(hours.state == n, hours.lift_k, 0.0), grip=1.0, state=n)
        for n in range(int(hours.state.max()) + 1)
    ]
    if hours.wind_m_s is not None:
        out.append(_Column(name="W", values=hours.wind_m_s * hours.lift_k, grip=WIND_USUAL_M_S))
    out.append(_Column(name="C", values=np.gradient(air), grip=0.0))
    if probe is not None:
        out.append(_Column(name="G", values=air - probe, grip=1.0))
    else:
        out.append(_Column(name="D", values=air - hours.temp_outdoor_c.mean(), grip=1.0))
    for n, lag in enumerate(MASS_LAGS_H[: BESIDE_PROBE if probe is not None else len(MASS_LAGS_H)]):
        out.append(_Column(name=f"g{n}", values=air - lagged(air, lag), grip=float(np.exp(-1.0 / lag))))
    sun_lags = () if hours.sun_w_m2 is None else SUN_LAGS_H[: 1 if probe is not None else len(SUN_LAGS_H)]
    for n, lag in enumerate(sun_lags):
        assert hours.sun_w_m2 is not None
        out.append(_Column(name=f"s{n}", values=-lagged(hours.sun_w_m2, lag), grip=0.0))
    return out


def _most_likely(
    design: Floats, heat: Floats, free: Bools, state: np.ndarray, columns: list[_Column]
) -> tuple[Floats, float]:
    """Coefficients (columns,) ≥ 0 and the constant, by L-BFGS-B with its gradient from a start by non-negative least
    squares. Bounded, without a random source: the same hours give the same figures."""
    from scipy.optimize import minimize, nnls  # late: slow to import

    scale = np.sqrt((design**2).mean(axis=0)) + 1e-9
    z = np.column_stack([design / scale, np.ones(len(heat))])
    spread = max(float(heat.std()), 1.0)
    start, _ = nnls(np.column_stack([z, -np.ones(len(heat))]), heat)
    first = np.append(np.maximum(start[:-2], 1e-3 * spread), start[-2] - start[-1])
    states = sorted({c.state for c in columns if c.state is not None})
    loose = np.array([float((free & (state == n)).sum()) for n in states])
    grips = np.array([[_grip(c, n) for c in columns] for n in states]) / scale

    def cost(q: Floats) -> tuple[float, Floats]:
        misfit = heat - z @ q
        squares = max(float(misfit @ misfit), 1e-9)
        held = grips @ q[:-1] + 1e-6 * spread + 1e-9
        slope = -(len(heat) / squares) * (z.T @ misfit)
        slope[:-1] -= (loose / held) @ grips
        return 0.5 * len(heat) * float(np.log(squares / len(heat))) - float(loose @ np.log(held)), slope

    bounds = [(1e-6, None)] * len(columns) + [(None, None)]
    q = minimize(cost, first, jac=True, method="L-BFGS-B", bounds=bounds, options={"maxiter": TURNS}).x
    return np.asarray(q[:-1] / scale), float(q[-1])


def _grip(column: _Column, state: int) -> float:
    return column.grip if column.state in (None, state) else 0.0
