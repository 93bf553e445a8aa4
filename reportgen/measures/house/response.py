"""What another amount of heat would have done to the air: logged air + response.

What sun, wind, sky, vents and leaks did is already in the air that was logged, so only the answer to the change of heat
is worked out. With x = other air − logged air, p = other heat − logged heat and a_k = e^(−1/lag):

(U_t + K₀ + C − Σ w(1 − a))·x = p + C·x₋₁ + Σ w·a·L₋₁(x),   K₀ = G + Σg + D

The links w are the hidden masses (g at their lags) and the bed (G·b at the bed's lags), so that a bed cools by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import Balance, fit_balance
from reportgen.measures.house.bed import AIR_LAGS_H, Bed, fit_bed
from reportgen.measures.house.hours import HouseHours, Ints

LEAST_LIFT_K = 2.0  # under it an hour's misfit tells nothing of its loss
LOSS_BETWEEN = (0.4, 2.5)  # of U: an hour's loss is held within these
SMOOTHED_H = 5  # an hour's misfit is taken as the mean of these hours
OUTDOORS_REACHES_BED_H = 100.0  # lag by which the ground around the bed follows a colder copy of the winter


@dataclass(frozen=True, kw_only=True, slots=True)
class Response:
    """The fitted house.

    `loss_w_k`: U_t, the loss of every hour, shape (n,) [W/K]: an hour's misfit is mostly more or less loss (wind,
    doors). `fitted_loss_w_k`: the same without the hour's misfit. `otherwise_w`: what the air would lose more than it
    did in this house, shape (n,); 0 in the house as it was. `links_w_k`, `keeps`: w and a of the passive links, shape
    (k,). `held_w_k`: K₀ [W/K]. `bed_outdoors_w_k`: what a colder world takes through the ground [W/K].
    """

    hours: HouseHours
    balance: Balance
    bed: Bed | None
    loss_w_k: Floats = field(repr=False)
    fitted_loss_w_k: Floats = field(repr=False)
    otherwise_w: Floats = field(repr=False)
    links_w_k: Floats = field(repr=False)
    lags_h: Floats = field(repr=False)
    held_w_k: float
    bed_outdoors_w_k: float

    @property
    def keeps(self) -> Floats:
        """a of every link [no unit], the share of itself that it keeps from one hour to the next; shape (k,).

        e^(−1/lag), the answer of one capacity behind one resistance (textbook formula).
        """
        return np.asarray(np.exp(-1.0 / self.lags_h))

    def stiffness_w_k(self) -> Floats:
        """What holds the air against one hour's change of heat [W/K]; shape (n,)."""
        eased = float((self.links_w_k * (1.0 - self.keeps)).sum())
        return self.loss_w_k + (self.held_w_k + self.balance.air_wh_k - eased)

    def eased_w_k(self, hours: float) -> float:
        """What still holds the air after so many hours, beside its loss [W/K]."""
        return self.held_w_k - float((self.links_w_k * (1.0 - self.keeps**hours)).sum())


def respond(hours: HouseHours) -> Response:
    """The house of a season, fitted.

    Raises:
        NotEnoughData: See `balance.fit_balance`.
    """
    balance, bed = fit_balance(hours), fit_bed(hours)
    links = list(balance.masses)
    if bed is not None:
        links += [(balance.bed_w_k * share, lag) for share, lag in zip(bed.to_air, AIR_LAGS_H, strict=True)]
    wind = 0.0 if hours.wind_m_s is None else balance.wind_w_k * hours.wind_m_s
    usual = balance.loss_w_k[hours.state] + wind
    return Response(
        hours=hours,
        balance=balance,
        bed=bed,
        loss_w_k=_loss_by_hour(hours, balance, usual),
        fitted_loss_w_k=usual,
        otherwise_w=np.zeros(hours.count),
        links_w_k=np.array([link for link, _ in links]),
        lags_h=np.array([lag for _, lag in links]),
        held_w_k=balance.deep_w_k + balance.bed_w_k + sum(mass for mass, _ in balance.masses),
        bed_outdoors_w_k=0.0 if bed is None else balance.bed_w_k * bed.to_outdoors,
    )


def in_state(house: Response, state: int) -> Response:
    """The same winter in a house that was in one state all along: each hour's loss × U of that state ÷ U of its own."""
    own = house.balance.loss_w_k
    factor = own[state] / np.maximum(own[house.hours.state], 1e-9)
    loss = house.loss_w_k * factor
    more = (loss - house.loss_w_k) * house.hours.lift_k
    return replace(house, loss_w_k=loss, fitted_loss_w_k=house.fitted_loss_w_k * factor, otherwise_w=more)


def _loss_by_hour(hours: HouseHours, balance: Balance, usual: Floats) -> Floats:
    known = np.isfinite(balance.misfit_w)
    window = np.ones(SMOOTHED_H) / SMOOTHED_H
    total = np.convolve(np.where(known, balance.misfit_w, 0.0), window, "same")
    mean = total / np.maximum(np.convolve(known.astype(float), window, "same"), 1e-9)
    moved = usual + mean / np.maximum(hours.lift_k, LEAST_LIFT_K)
    low, high = LOSS_BETWEEN
    return np.where(known, np.clip(moved, low * usual, high * usual), usual)


def run(
    house: Response, target_c: Floats | float | None = None, limit_w: float = 0.0, colder_k: float = 0.0
) -> tuple[Floats, Floats]:
    """The winter again, hour by hour: the air [°C] and the heat [W], shapes (n,).

    Args:
        house: The fitted house.
        target_c: Heat is given only while the air would lie below it, shape (n,) or one figure; None: no heat at all.
        limit_w: The most the heater gives [W].
        colder_k: How much colder it is outdoors all winter [K].
    """
    air, heat = runs(house, [-1e9 if target_c is None else target_c], limit_w, [colder_k])
    return air[0], heat[0]


def runs(
    house: Response, targets_c: Sequence[Floats | float], limit_w: float, colder_k: Sequence[float] = (0.0,)
) -> tuple[Floats, Floats]:
    """As `run`, several winters at once: the air [°C] and the heat [W], shapes (winters, n).

    Method (our own): the equation of the module's head, solved from hour to hour, all winters in step.

    Args:
        house: The fitted house.
        targets_c: Each of shape (n,) or one figure; one for all winters, or one each.
        limit_w: The most the heater gives [W].
        colder_k: How much colder it is outdoors all winter [K]; one for all winters, or one each.
    """
    hours, held = house.hours, house.stiffness_w_k()
    reaches = house.bed_outdoors_w_k * (1.0 - np.exp(-np.arange(hours.count) / OUTDOORS_REACHES_BED_H))
    gone = hours.heaters_w + hours.spread_w + house.otherwise_w
    count = max(len(targets_c), len(colder_k))
    lost = gone[:, None] + (house.loss_w_k + reaches)[:, None] * np.broadcast_to(np.asarray(colder_k), count)
    wanted = np.broadcast_to([np.broadcast_to(target, hours.count) for target in targets_c], (count, hours.count))
    asked = (wanted - hours.temp_air_c).T * held[:, None]  # heat that keeps the target, but for what carries over
    capacity, keeps, pulls = house.balance.air_wh_k, house.keeps[:, None], house.links_w_k * house.keeps
    followed, x = np.zeros((len(pulls), count)), np.zeros(count)
    moved, heat = np.empty((hours.count, count)), np.empty((hours.count, count))
    for t in range(hours.count):
        base = capacity * x - lost[t] + pulls @ followed
        heat[t] = np.minimum(np.maximum(asked[t] - base, 0.0), limit_w)
        moved[t] = x = (base + heat[t]) / held[t]
        followed = keeps * followed + (1.0 - keeps) * x
    return hours.temp_air_c + moved.T, heat.T


def after_stop(house: Response, starts: Ints, hours: int) -> Floats:
    """Air [°C] in each hour after the heater stops, every start its own night; shape (hours, starts)."""
    stiff, capacity = house.stiffness_w_k(), house.balance.air_wh_k
    pulls, keeps = house.links_w_k * house.keeps, house.keeps
    followed, x = np.zeros((len(starts), len(keeps))), np.zeros(len(starts))
    gone = house.hours.heaters_w + house.hours.spread_w + house.otherwise_w
    out = []
    for n in range(hours):
        at = starts + n
        x = (-gone[at] + capacity * x + followed @ pulls) / stiff[at]
        followed = keeps * followed + (1.0 - keeps) * x[:, None]
        out.append(house.hours.temp_air_c[at] + x)
    return np.array(out)
