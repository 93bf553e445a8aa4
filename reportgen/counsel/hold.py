"""The hold: how far the thermostat may come down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pandas as pd

from reportgen.counsel.grounds import HEAT_FAILED, HEAT_OUT, OPEN_OR_ALTERED, Ends, Event, HoldAdvice
from reportgen.counsel.results import Results
from reportgen.measures.dial import dial_nights
from reportgen.measures.dial_alarm import alarm_between
from reportgen.measures.dial_crops import night_limits
from reportgen.measures.dial_price import spared
from reportgen.measures.dial_room import DialRoom, dial_room, monday
from reportgen.measures.frost_failure import failure_evenings
from reportgen.measures.frost_limit import nights_of

NO_HEAT = "no heater is listed in season.toml"


def hold_advice(r: Results, happened: Sequence[Event]) -> HoldAdvice:
    """What can be advised on the thermostat, by the nights it kept and the crops that stood."""
    if not r.readings.heating or r.heat.by_hour is None:
        return HoldAdvice(
            dial_c=None, down_by_k=None, usually_c=None, coldest_c=None, nights=0, crop=None, reason=NO_HEAT
        )
    table = r.frost.table
    nights = dial_nights(r.readings, r.heat.by_hour, table, r.heat.stretches, not_the_dial_s(r, happened))
    room = dial_room(r.readings, nights, night_limits(r.readings, table["inside_min"]))
    return _with_price(r, room, nights, _with_alarm(r, room, replace(_advice(r, room), by_night=nights)))


def _advice(r: Results, room: DialRoom) -> HoldAdvice:
    told = room.told
    down = room.down_by_k
    return HoldAdvice(
        dial_c=room.dial_c,
        down_by_k=down,
        usually_c=room.usually_c,
        coldest_c=room.coldest_c,
        nights=0 if told is None else told.nights,
        crop=room.crop,
        reason=room.reason,
        lowest_c=None if room.dial_c is None or not down else room.dial_c - down,
        short_by_k=room.short_by_k,
        limit_c=room.limit_c,
        unknown_crops=room.unknown,
        flat_out_c=r.frost.holding_limit.heater_flat_out_c,
        held_c=room.held_c,
        tail_c=room.tail_c,
        unhardened=room.unhardened,
        weeks=room.weeks,
        stopped_weeks=room.stopped,
        flat_out_nights=0 if told is None else told.flat_out_nights,
    )


def not_the_dial_s(r: Results, happened: Sequence[Event]) -> set[date]:
    """Evenings of nights whose cold is not the thermostat's: the heat failed, or something stood open."""
    out = failure_evenings(r.frost.failures, r.frost.table)
    for event in happened:
        if event.kind == "failure" or event.cause in (HEAT_FAILED, HEAT_OUT, OPEN_OR_ALTERED):
            out |= nights_of(event.start, event.end)
    return out


def _with_alarm(r: Results, room: DialRoom, advice: HoldAdvice) -> HoldAdvice:
    """The line between the lowest setting and what was held; from the frost line, where there is no such room."""
    if room.held_c is None or not r.frost.alarms:
        return advice
    lowest = room.lowest_c if room.down_by_k and room.lowest_c is not None else r.frost.line_c
    found = alarm_between(r.frost.alarms, lowest, room.held_c)
    line = found.alarm or found.best
    if line is None:
        return replace(advice, alarm_why=found.why)
    return replace(
        advice,
        alarm_c=line.alarm_c,
        alarm_warning_h=line.warning_h,
        alarm_rings=line.rings,
        alarm_needed=line.needed,
        alarm_why=found.why,
    )


def _with_price(r: Results, room: DialRoom, nights: pd.DataFrame, advice: HoldAdvice) -> HoldAdvice:
    if not room.down_by_k or room.held_c is None:
        return advice
    own = {day for day in nights.index if monday(day) in room.weeks}
    found = spared(r.frost.model, r.heat, room.held_c, room.down_by_k, own)
    if found is None:
        return advice
    money = None if found.money_low is None else Ends(low=found.money_low, high=found.money_high)
    return replace(advice, saves_kwh=Ends(low=found.kwh_low, high=found.kwh_high), saves_money=money)
