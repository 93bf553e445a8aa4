"""From the readings of a season to its hours, in standard time, and the house fitted to them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.days import DATE, ENOUGH, bounds, dates
from reportgen.measures.exposure import Floats, channel_line
from reportgen.measures.frost_hours import hour_table
from reportgen.measures.heating_hours import APPLIANCES, heat_by_hour, hourly_mean
from reportgen.measures.house.hours import EVENING_H, MORNING_H, NIGHT_END_H, NIGHT_H, Bools, HouseHours
from reportgen.measures.house.meter import Sum, by_the_hour
from reportgen.measures.house.response import Response, respond
from reportgen.measures.house.states import HouseState, states_of
from reportgen.measures.light_daily import QUANTA_PER_JOULE
from reportgen.measures.places import anywhere, main_crop, outdoor, seldom_crop, seldom_outdoors, soil, why_no
from reportgen.once import once
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings
from reportgen.sun import zenith
from reportgen.units import DAY_S

DARK_DEG = 93.0  # the sun 3° under the horizon
DARK_FROM_H, DARK_TO_H = 21, 5  # dark where the place is not known; common practice, no source
BRIDGED_H = 3  # gaps of up to so many hours are bridged
LITTLE = 0.05  # a source known only as sums, under this share of a strong logged hour, counts as its mean
UNSURE = 0.1  # share of an hour's heat that may be known only as a sum
STRONG = 0.9  # quantile of the heated hours
PRESENT_NIGHTS = 8  # heated nights that make a state one to speak of


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseModel:
    """The fitted house of a season, or `why` there is none.

    `first`: date of the first of its days. `whole`: evenings whose long night can be told, shape (nights,).
    `states`: what the house was, in the order of first being so; `present` is the number of the last of them with at
    least eight heated nights. `dial`: what the heater's thermostat was set to, else the hold aimed for, by hour; NaN
    where neither is known.
    """

    house: Response | None
    why: str
    first: date
    whole: Bools
    states: tuple[HouseState, ...]
    present: int = 0
    dial: Floats | None = None

    def dial_c(self, hold_c: float) -> Floats | float:
        """The dial by the hour [°C], shape (n,), the hold found where it is not known; or one figure, where no hour's
        is.
        """
        return hold_c if self.dial is None else np.where(np.isnan(self.dial), hold_c, self.dial)

    def evenings(self) -> list[date]:
        """The date of every evening of `whole`."""
        return [self.first + timedelta(days=n) for n in range(len(self.whole))]


@once
def house_model(readings: Readings) -> HouseModel:
    """The house of a season as a balance; a season that cannot carry it says why."""
    states: tuple[HouseState, ...] = ()
    first, whole = readings.season.first_day, np.zeros(0, dtype=bool)
    try:
        if not readings.heating:
            raise NotEnoughData("no heater is listed in season.toml")
        hours, first, whole, states = house_hours(readings)
        house = respond(_metered(hours, readings, first) if not hours.heaters_w.any() else hours)
    except NotEnoughData as why:
        return HouseModel(house=None, why=str(why), first=first, whole=whole, states=states)
    dial = _dial(readings, first, house.hours.count)
    return HouseModel(house=house, why="", first=first, whole=whole, states=states, present=_present(house), dial=dial)


def no_house(why: str) -> HouseModel:
    """No house: of a section that is asked for what was logged alone."""
    return HouseModel(house=None, why=why, first=date.min, whole=np.zeros(0, dtype=bool), states=())


def _present(house: Response) -> int:
    """The last state in which at least eight nights were heated; the last of all where none has as many."""
    spans = house.hours.nights(NIGHT_H, NIGHT_END_H)
    night_state = house.hours.state[spans][:, 0] if len(spans) else house.hours.state[-1:]
    heated = (house.hours.heated[spans].sum(axis=1) > 0) if len(spans) else np.zeros(1, dtype=bool)
    for state in dict.fromkeys(night_state[::-1].tolist()):
        if int((heated & (night_state == state)).sum()) >= PRESENT_NIGHTS:
            return int(state)
    return int(night_state[-1])


def _dial(readings: Readings, first: date, count: int) -> Floats:
    days = [first + timedelta(days=n) for n in range(count // 24)]
    told = [readings.season.dial_on(day) for day in days]
    kept = [readings.season.hold_on(day) if dial is None else dial for day, dial in zip(days, told, strict=True)]
    return np.repeat(np.array([np.nan if hold is None else hold for hold in kept], dtype=np.float64), 24)


def house_hours(readings: Readings) -> tuple[HouseHours, date, Bools, tuple[HouseState, ...]]:
    """The hours of a season, the date of the first, which long nights are whole (shape (nights,)), and the house's
    states.

    Raises:
        NotEnoughData: No crop air, no outdoor air, or never both.
    """
    crop, outside = main_crop(readings, "air_temperature"), outdoor(readings, "air_temperature")
    if crop is None or outside is None:
        seldom = seldom_crop(readings, "air_temperature") or seldom_outdoors(readings, "air_temperature")
        raise NotEnoughData(why_no(seldom, "it needs crop air and outdoor air together"))
    seconds, first = _standard_hours(readings)
    table = _at(hour_table(readings, channel_line(crop)), seconds)
    both = np.asarray(table["inside"].notna() & table["outside"].notna(), dtype=bool)
    if not both.any():
        raise NotEnoughData("it needs crop air and outdoor air together")
    days = np.flatnonzero(both.reshape(-1, 24).any(axis=1))
    kept = slice(int(days[0]) * 24, (int(days[-1]) + 1) * 24)
    table, seconds, first = table.iloc[kept], seconds[kept], first + timedelta(days=int(days[0]))
    both = both[kept]
    state, states = states_of(readings, seconds)
    hours = _hours(readings, table, seconds, both & ~_eventful(readings, seconds), state)
    return hours, first, _whole(both, hours), states


def _standard_hours(readings: Readings) -> tuple[Floats, date]:
    """Beginnings of all hours [s since 1970], whole days in standard time."""
    starts, _ = bounds(readings.season, DATE)
    return np.asarray((starts[:, None] + 3600.0 * np.arange(24)[None, :]).ravel()), dates(readings.season)[0]


def _at(table: pd.DataFrame, seconds: Floats) -> pd.DataFrame:
    index = pd.to_datetime(seconds, unit="s", utc=True)
    return table.set_axis(pd.DatetimeIndex(table.index).tz_convert("UTC")).reindex(index)


def _hours(readings: Readings, table: pd.DataFrame, seconds: Floats, logged: Bools, state: np.ndarray) -> HouseHours:
    index = pd.DatetimeIndex(table.index)
    watts = table["watts"].to_numpy(dtype=np.float64)
    spread = np.nan_to_num(table["unsure"].to_numpy(dtype=np.float64))
    heaters, other, spread = _little_sums(np.nan_to_num(watts), _appliances(readings, index), spread)
    by_hour = not np.isnan(watts).all()
    sure = ~np.isnan(watts) & (spread <= UNSURE * np.maximum(heaters, 1.0)) if by_hour else np.ones(len(index), bool)
    sun = _sun(readings, index)
    return HouseHours(
        temp_air_c=_bridged(table["inside"].to_numpy(dtype=np.float64)),
        temp_outdoor_c=_bridged(table["outside"].to_numpy(dtype=np.float64)),
        temp_soil_c=_probe(readings, index) if sun is not None else None,
        heaters_w=heaters if by_hour else np.zeros(len(index)),
        spread_w=spread if by_hour else np.zeros(len(index)),
        other_w=other,
        sun_w_m2=sun,
        wind_m_s=_logged(readings, "wind_speed", index),
        dark=_dark(readings, index, len(index)),
        logged=logged & sure,
        state=state,
        rated_w=_rated(readings),
    )


def _little_sums(heaters: Floats, other: Floats, spread: Floats) -> tuple[Floats, Floats, Floats]:
    """A mat on a little meter does not make its hours unknown: it counts with its mean."""
    heated, told = heaters[heaters > 0], spread[spread > 0]
    if len(told) and len(heated) and float(told.mean()) <= LITTLE * float(np.quantile(heated, STRONG)):
        return heaters, other + np.where(spread > 0, told.mean(), 0.0), np.zeros(len(spread))
    return heaters, other, spread


def _appliances(readings: Readings, index: pd.DatetimeIndex) -> Floats:
    if not readings.appliances:
        return np.zeros(len(index))
    told = heat_by_hour(readings)[APPLIANCES]
    told = told.set_axis(pd.DatetimeIndex(told.index).tz_convert("UTC")).reindex(index)
    return np.asarray(np.nan_to_num(told.to_numpy(dtype=np.float64)))


def _rated(readings: Readings) -> float | None:
    """Heat of all heaters known by the hour at their rated power [W]; of all heaters where none is."""
    fine = [s for s in readings.heating if len(s.intervals) and not bool(s.intervals["sparse"].all())]
    told = [s.rated_power_w for s in (fine or readings.heating)]
    return None if not told or any(r is None for r in told) else float(sum(r for r in told if r is not None))


def _bridged(values: Floats) -> Floats:
    known = ~np.isnan(values)
    at = np.arange(len(values), dtype=np.float64)
    return np.asarray(np.interp(at, at[known], values[known]))


def _logged(readings: Readings, measure: str, index: pd.DatetimeIndex) -> Floats | None:
    """A measure outdoors by the hour, bridged; None where under 80 % of the hours have it."""
    channel = outdoor(readings, measure)
    return None if channel is None else _mostly(hourly_mean(channel.values, index, measure))


def _mostly(values: Floats) -> Floats | None:
    return _bridged(values) if float((~np.isnan(values)).mean()) >= ENOUGH else None


def _sun(readings: Readings, index: pd.DatetimeIndex) -> Floats | None:
    """Light by the hour [W/m²]: outdoors, else indoors; none where the place is not known."""
    if readings.season.place.latitude is None:
        return None
    for measure, factor in (("solar_radiation", 1.0), ("ppfd", QUANTA_PER_JOULE)):
        for channel in (outdoor(readings, measure), anywhere(readings, measure)):
            found = None if channel is None else _mostly(hourly_mean(channel.values, index))
            if found is not None:
                return np.asarray(found / factor)
    return None


def _probe(readings: Readings, index: pd.DatetimeIndex) -> Floats | None:
    channel = soil(readings)
    return None if channel is None else _mostly(hourly_mean(channel.values, index, channel.measure))


def _dark(readings: Readings, index: pd.DatetimeIndex, count: int) -> Bools:
    place = readings.season.place
    hour = np.arange(count) % 24
    if place.latitude is None:
        return np.asarray((hour >= DARK_FROM_H) | (hour < DARK_TO_H))
    middle = index + pd.Timedelta(minutes=30)
    if place.longitude is not None:
        return np.asarray(zenith(middle, place.latitude, place.longitude) > DARK_DEG)
    noon = index.normalize() + pd.to_timedelta(hour + 0.5, unit="h")  # the sun taken to be highest at 12 h
    return np.asarray(zenith(pd.DatetimeIndex(noon), place.latitude, 0.0) > DARK_DEG)


def _eventful(readings: Readings, seconds: Floats) -> Bools:
    """Hours of the garden days that an event of the diary touches: a door ajar, a power cut; shape (n,)."""
    out = np.zeros(len(seconds), dtype=bool)
    for entry in readings.diary:
        if entry.kind != "event":
            continue
        starts = readings.season.midnight(entry.date).timestamp()
        ends = readings.season.midnight((entry.until or entry.date) + timedelta(days=1))
        out |= (seconds >= starts - DAY_S / 2) & (seconds < ends.timestamp() + DAY_S / 2)
    return out


def _whole(both: Bools, hours: HouseHours) -> Bools:
    """Evenings whose long night has no gap of more than three hours; shape (nights,)."""
    spans = hours.nights(EVENING_H, MORNING_H)
    if not len(spans):
        return np.zeros(0, dtype=bool)
    windows = np.lib.stride_tricks.sliding_window_view(~both[spans], BRIDGED_H + 1, axis=1)
    return np.asarray(~np.asarray(windows.all(axis=2)).any(axis=1), dtype=bool)


def _metered(hours: HouseHours, readings: Readings, first: date) -> HouseHours:
    """The hours with the heat of one meter or set of bills made hourly.

    Raises:
        NotEnoughData: More than one heater, deliveries, or what `by_the_hour` refuses.
    """
    if len(readings.heating) != 1:
        raise NotEnoughData("the heat is not known by the hour, and sums tell it only where there is a single heater")
    form = readings.heating[0].form
    if form not in ("meter", "bills"):
        told = "only by what was bought" if form == "deliveries" else "and sums tell it only of a meter or of bills"
        raise NotEnoughData(f"the heat is not known by the hour, {told}")
    table = readings.heating[0].intervals.dropna(subset=["heat_kwh"])
    zero = _standard_zero(readings, first)
    sums: list[Sum] = []
    covered = np.zeros(hours.count, dtype=bool)
    for start, end, kwh in zip(table["start"], table["end"], table["heat_kwh"], strict=True):
        a, b = (round((stamp.timestamp() - zero) / 3600.0) for stamp in (start, end))
        low, high = max(a, 0), min(b, hours.count)
        if high > low:
            sums.append((low, high, 1000.0 * float(kwh) * (high - low) / (b - a)))
            covered[low:high] = True
    if not sums:
        raise NotEnoughData("no reading of the meter falls in the logged season")
    return by_the_hour(replace(hours, logged=hours.logged & covered), sums)


def _standard_zero(readings: Readings, first: date) -> float:
    starts, _ = bounds(readings.season, DATE)
    return float(starts[(first - readings.season.first_day).days])
