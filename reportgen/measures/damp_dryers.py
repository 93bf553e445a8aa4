"""How long each dehumidifier ran, by its logger's own step, and how long the air then stayed above its setting."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from reportgen.measures.damp_air import Moist, time_in
from reportgen.measures.draw import Draw, draw_of
from reportgen.measures.exposure import Floats, spells_above
from reportgen.plain import PAGE_ONLY
from reportgen.readings.types import Readings
from reportgen.season.sources import Appliance


@dataclass(frozen=True, kw_only=True, slots=True)
class Dryer:
    """One dehumidifier: hours it ran, and of these, hours with the air still above its set point.

    `well_above_h`: with the air above it by more than the logger's accuracy: nearer than that the machine may hold its
    setting by its own sensor. None where no accuracy is given.

    `by_rating`: the log is a running counter, and the hours are its kWh over the rated power. `in_part`: a counter
    without a rated power, of which only the stretches in which it drew anything are known: it ran in some part of them.
    """

    name: str
    set_pct: float
    ran_h: float
    still_above_h: float
    hours_known: float
    by_rating: bool = False
    in_part: bool = False
    well_above_h: float | None = field(default=None, metadata=PAGE_ONLY)


def dryers(moist: Moist, readings: Readings) -> tuple[Dryer, ...]:
    """Every dehumidifier whose use a logger tells and whose set point is named."""
    named = [a for a in readings.season.appliances if a.kind == "dehumidifier" and a.setpoint_pct is not None]
    pairs = [(one, draw_of(readings, one.name)) for one in named]
    return tuple(_dryer(moist, readings, one, draw) for one, draw in pairs if draw is not None and draw.known.any())


def _dryer(moist: Moist, readings: Readings, one: Appliance, draw: Draw) -> Dryer:
    starts, ends, counted = _in_season(readings, draw)
    set_pct = one.setpoint_pct or 0.0
    share = _share_run(draw, one.rated_power_w)
    hours = np.where(counted, ends - starts, 0.0) / 3600.0
    over = np.where(counted, time_in(spells_above(moist.rh, set_pct), starts, ends), 0.0)
    well = None
    if moist.rh_accuracy is not None:
        far = np.where(counted, time_in(spells_above(moist.rh, set_pct + moist.rh_accuracy), starts, ends), 0.0)
        well = float((share * far).sum())
    return Dryer(
        name=one.name,
        set_pct=set_pct,
        ran_h=float((share * hours).sum()),
        still_above_h=float((share * over).sum()),
        hours_known=float(hours.sum()),
        by_rating=draw.counter and one.rated_power_w is not None,
        in_part=draw.counter and one.rated_power_w is None,
        well_above_h=well,
    )


def _in_season(readings: Readings, draw: Draw) -> tuple[Floats, Floats, np.ndarray[tuple[int], np.dtype[np.bool_]]]:
    """Its stretches cut to the season, and which of them are known and not empty."""
    first, last = readings.season.start.timestamp(), readings.season.end.timestamp()
    starts, ends = np.clip(draw.starts, first, last), np.clip(draw.ends, first, last)
    return starts, ends, np.asarray(draw.known & (ends > starts))


def _share_run(draw: Draw, rated_power_w: float | None) -> Floats:
    """Share of each stretch that it ran: a counter's mean power over the rated power, else all or nothing."""
    if draw.counter and rated_power_w is not None:
        return np.asarray(draw.amount / rated_power_w)
    return draw.drew.astype(np.float64)
