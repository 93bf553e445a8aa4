"""What the house as a balance tells of heat: its loss by state, other holds, the heater it needs.

Method page, *The house as a balance*. What a season cannot carry is None with its reason.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta

import numpy as np

from reportgen.measures.exposure import Band, Floats
from reportgen.measures.frost_ahead import present
from reportgen.measures.heat_types import HeaterNeeded, HoldPrice, StateLoss, Stretch
from reportgen.measures.house.hold import changes_by_part, ratios, usual_target
from reportgen.measures.house.hours import Ints
from reportgen.measures.house.loss import loss_by_state, loss_w_per_k
from reportgen.measures.house.response import Response
from reportgen.measures.house.season import HouseModel
from reportgen.measures.house.size import BUY, sizes_w
from reportgen.measures.house.states import HouseState
from reportgen.problems import NotEnoughData

NAN = float("nan")


def losses(model: HouseModel) -> tuple[Band, int, tuple[StateLoss, ...]]:
    """The present state's loss [W/K], the nights it rests on, and every state's.

    Raises:
        NotEnoughData: The season carries no balance, or the present state has too few heated nights.
    """
    house = _house(model)
    whole, nights = loss_w_per_k(house)
    if len(model.states) <= 1:
        return whole, nights, (_state_loss(model, model.states[0], whole, nights),) if model.states else ()
    found = loss_by_state(house)
    listed = tuple(_state_loss(model, state, *found[state.number]) for state in model.states)
    now, count = found[model.present]
    if now is None:
        raise NotEnoughData(f"only {count} nights as the house is now were heated for 7 of 10 hours")
    return now, count, listed


def _house(model: HouseModel) -> Response:
    if model.house is None:
        raise NotEnoughData(model.why)
    return model.house


def _state_loss(model: HouseModel, state: HouseState, band: Band | None, nights: int) -> StateLoss:
    hours = np.flatnonzero(_house(model).hours.state == state.number)
    first, last = (model.first + timedelta(days=int(hour) // 24) for hour in (hours[0], hours[-1]))
    return StateLoss(
        state=" and ".join(state.on),
        from_=first,
        to=last,
        nights=nights,
        w_per_k=band or Band(estimate=NAN),
        present=state.number == model.present,
    )


def needed(model: HouseModel, hold_c: float | None, no_hold: str, coldest_c: float | None) -> HeaterNeeded:
    """The heater that keeps the dial, else the aim, else the hold found, in the house as it is now; `coldest_c`: of
    the winter outdoors, to be told beside it.

    Raises:
        NotEnoughData: The season carries no balance by the hour.
    """
    _house(model)
    if hold_c is None:
        raise NotEnoughData(no_hold)
    house, dial = present(model), model.dial_c(hold_c)
    now, colder = sizes_w(house, dial)
    return HeaterNeeded(
        coldest_hour=now.estimate,
        five_colder=colder.estimate,
        to_buy=BUY * now.estimate,
        coldest_band=now,
        five_band=colder,
        coldest_c=coldest_c,
        at_limit=house.balance.at_limit,
    )


def by_run(model: HouseModel, found: Sequence[Stretch], measured_kwh: float, moves_k: Floats) -> Floats:
    """Change of heat [kWh] of every move and stretch by the winter run again, shape (moves, stretches).

    Args:
        model: With a fitted house.
        found: Stretches with the hold found in each.
        measured_kwh: The winter's heat.
        moves_k: By how much each stretch's hold moves [K], shape (moves, stretches).
    """
    house = _house(model)
    kept = held_by_hour(found, model.first, house.hours.count)
    usual = 0.0 if np.isnan(kept).all() else float(np.nanmedian(kept))
    target = usual_target(house, np.nan_to_num(kept, nan=usual))
    part = _stretch_by_hour(found, model.first, house.hours.count)
    hourly = np.where(part >= 0, moves_k[:, part], 0.0)
    share = np.zeros(moves_k.shape)
    told = changes_by_part(house, target, list(hourly), part)
    share[:, : told.shape[1]] = told
    return measured_kwh * share


def _stretch_by_hour(found: Sequence[Stretch], first: date, count: int) -> Ints:
    """The number of the stretch of every hour of the house's days, −1 where none is; shape (count,)."""
    days = [first + timedelta(days=n) for n in range(count // 24)]
    numbers = [next((n for n, one in enumerate(found) if one.first <= day <= one.last), -1) for day in days]
    return np.repeat(np.array(numbers, dtype=np.int64), 24)


def held_by_hour(found: Sequence[Stretch], first: date, count: int) -> Floats:
    """The hold found, by the hour of the house's days [°C]; NaN where none was; shape (count,)."""
    days = [first + timedelta(days=n) for n in range(count // 24)]
    holds = [next((one.hold_c for one in found if one.first <= day <= one.last), None) for day in days]
    return np.repeat(np.array([NAN if hold is None else hold for hold in holds], dtype=np.float64), 24)


def above_dated_aims(
    model: HouseModel, found: Sequence[Stretch], measured_kwh: float | None, aim_on: Callable[[date], float | None]
) -> float:
    """Heat that kept the air above aims that change with the date [kWh]: the winter run again, never above its aim.

    `aim_on`: the aim of a date [°C], None where there is none.

    Raises:
        NotEnoughData: The season carries no balance, or its heat is not known.
    """
    house = _house(model)
    if measured_kwh is None:
        raise NotEnoughData("the heat of a source is not known")
    kept = held_by_hour(found, model.first, house.hours.count)
    days = [model.first + timedelta(days=n) for n in range(house.hours.count // 24)]
    aims = np.repeat(np.array([NAN if (aim := aim_on(day)) is None else aim for day in days], dtype=np.float64), 24)
    target = usual_target(house, np.nan_to_num(kept, nan=float(np.nanmedian(kept))))
    (kept_share,) = ratios(house, target, [np.minimum(np.nan_to_num(aims - kept), 0.0)])
    return max(measured_kwh * (1.0 - kept_share), 0.0)


def above_aim(rows: Sequence[HoldPrice], measured_kwh: float | None, found_c: float | None, aim_c: float) -> float:
    """Heat that kept the air above the aim [kWh]: measured less what the table of holds tells of the aim.

    Raises:
        NotEnoughData: No table of holds, or an aim beyond its rows.
    """
    if not rows or measured_kwh is None or found_c is None:
        raise NotEnoughData("what other holds would have taken cannot be told")
    if aim_c >= found_c:
        return 0.0
    if aim_c < rows[0].hold_c:
        raise NotEnoughData("the aim lies further from what was held than other holds are told")
    at_aim = float(np.interp(aim_c, [row.hold_c for row in rows], [row.kwh for row in rows]))
    return max(measured_kwh - at_aim, 0.0)
