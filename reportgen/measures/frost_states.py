"""The holding limit and the flat-out temperature of the house in each of its states.

Both are of that state alone: the limit from its own nights; flat out from the winter run again in a house that was in
that state all along, its loss of every hour × U of that state ÷ U of the hour's own (methods page, *The house as a
balance*).
"""

from __future__ import annotations

from collections.abc import Collection
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import ENOUGH
from reportgen.measures.exposure import Band
from reportgen.measures.frost_limit import told_by
from reportgen.measures.frost_types import StateLimit
from reportgen.measures.house.hours import NIGHT_END_H, NIGHT_H
from reportgen.measures.house.loss import loss_by_state
from reportgen.measures.house.response import in_state
from reportgen.measures.house.season import PRESENT_NIGHTS, HouseModel
from reportgen.measures.house.size import FlatOut, flat_out
from reportgen.measures.house.states import HouseState
from reportgen.problems import NotEnoughData


def limit_by_state(
    model: HouseModel, table: pd.DataFrame, failed: Collection[date], frost_c: float, hold_c: float | None
) -> tuple[StateLimit, ...]:
    """One row a state of a fitted house, in the order in which they first were; none without a balance.

    Args:
        table: From `frost_nights.night_table`.
        failed: Evenings of nights on which the heat failed.
        hold_c: The hold found last [°C], where the dial is not known.
    """
    if model.house is None:
        return ()
    told = loss_by_state(model.house)
    return tuple(_row(model, state, told[state.number], table, failed, frost_c, hold_c) for state in model.states)


def _row(
    model: HouseModel,
    state: HouseState,
    loss: tuple[Band | None, int],
    table: pd.DataFrame,
    failed: Collection[date],
    frost_c: float,
    hold_c: float | None,
) -> StateLimit:
    heated = _heated_evenings(model, state.number)
    flat, no_flat = _flat(model, state.number, len(heated), loss, hold_c)
    both = table[(table["share"] >= ENOUGH) & (table["outdoor_share"] >= ENOUGH)]
    nights = both[[day in heated and day not in failed for day in both.index]]
    told = told_by(nights.assign(heated_h=1.0), frost_c, heated=True, after=" in this state")
    return StateLimit(
        state=" and ".join(state.on),
        holding_limit_c=told.outdoor_c,
        flat_out_c=None if flat is None else flat.outdoor_c,
        flat_out_half_k=None if flat is None else flat.half_k,
        nights=len(heated),
        present=state.number == model.present,
        coldest_seen_c=float(nights["outdoor_min"].min()) if len(nights) else None,
        why_no_limit=told.reason,
        why_no_flat_out=no_flat,
    )


def _heated_evenings(model: HouseModel, number: int) -> set[date]:
    """Evenings of the nights N that began in that state and were heated."""
    assert model.house is not None
    hours = model.house.hours
    spans = hours.nights(NIGHT_H, NIGHT_END_H)
    if not len(spans):
        return set()
    own = (hours.state[spans[:, 0]] == number) & hours.heated[spans].any(axis=1)
    return {model.first + timedelta(days=int(n)) for n in np.flatnonzero(own)}


def _flat(
    model: HouseModel, number: int, nights: int, loss: tuple[Band | None, int], hold_c: float | None
) -> tuple[FlatOut | None, str]:
    """Where the heater would run flat out, told only of a state whose loss can be told."""
    try:
        if nights < PRESENT_NIGHTS:
            raise NotEnoughData(f"only {nights} heated {_word(nights)} in this state; {PRESENT_NIGHTS} are needed")
        if loss[0] is None:
            raise NotEnoughData(f"{loss[1]} {_word(loss[1])} in this state with heat for 7 of 10 hours: too few")
        if hold_c is None:
            raise NotEnoughData("too few heated night hours to tell what was held")
        assert model.house is not None
        house = in_state(model.house, number) if len(model.states) > 1 else model.house
        return flat_out(house, model.dial_c(hold_c)), ""
    except NotEnoughData as why:
        return None, str(why)


def _word(count: int) -> str:
    return "night" if count == 1 else "nights"
