"""When airing would have dried a house that was too damp, and how much of that the sensors leave open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from reportgen import air
from reportgen.measures.damp_air import Moist
from reportgen.measures.exposure import Floats, Line, channel_line, hours_above, lowest
from reportgen.measures.places import outdoor
from reportgen.readings.types import Readings


@dataclass(frozen=True, kw_only=True, slots=True)
class Ends:
    """The sensors' band of a count: with all of them wrong one way, and the other; None without their accuracies."""

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Shift:
    """What is added to the readings: temperature [K] and humidity [points], inside and outdoors."""

    temp_k: float = 0.0
    rh: float = 0.0
    outdoor_k: float = 0.0
    outdoor_rh: float = 0.0

    def turned(self) -> Shift:
        """The other way."""
        return Shift(temp_k=-self.temp_k, rh=-self.rh, outdoor_k=-self.outdoor_k, outdoor_rh=-self.outdoor_rh)


AS_READ = Shift()
COVERED = 0.9  # share of the hours inside for which the air outside must be known as well; our own line


def outdoors_covered(readings: Readings, hours_inside: float) -> bool:
    """Whether the air outside is known for nearly all hours with humidity inside: else what was not seen is no wet.

    `hours_inside` [h]: with humidity inside.
    """
    found = [outdoor(readings, measure) for measure in ("air_temperature", "relative_humidity")]
    hours = [channel_line(channel).hours_recorded if channel is not None else 0.0 for channel in found]
    return min(hours) >= COVERED * hours_inside


def airing_curve(moist: Moist, outdoor_c: Floats, outdoor_rh: Floats, high_pct: float, shift: Shift = AS_READ) -> Line:
    """Above 0 where humidity lies above the line and the vapour pressure outside below that inside.

    The lower of two joined lines: humidity − line [points] and e_inside − e_outside [hPa]. `outdoor_c` [°C],
    `outdoor_rh` [%]: at the stamps, shapes (n,).
    """
    e_in = air.vapour_pressure_pa(moist.temp_c + shift.temp_k, moist.humidity(shift.rh))
    e_out = air.vapour_pressure_pa(outdoor_c + shift.outdoor_k, np.clip(outdoor_rh + shift.outdoor_rh, 0.0, 100.0))
    drier = (e_in - e_out) / 100.0
    over = np.where(np.isnan(drier), np.nan, moist.rh.values + shift.rh - high_pct)
    return lowest([moist.curve(over), moist.curve(drier)])


def airing_hours(curve: Line) -> float:
    """Time in which airing would have dried a house that was too damp [h]."""
    return hours_above(curve, 0.0)


def airing_ends(
    readings: Readings, moist: Moist, outdoor_c: Floats, outdoor_rh: Floats, missing: Mapping[str, str]
) -> tuple[Ends, dict[str, str]]:
    """The hours [h] with every sensor wrong the way that makes them most, and the way that makes them fewest.

    `outdoor_c` [°C], `outdoor_rh` [%]: at the stamps, shapes (n,). Both ends are NaN, with a reason, without
    accuracies.
    """
    paths = ("airing_band.low", "airing_band.high")
    if missing:
        return Ends(), dict.fromkeys(paths, missing["airing_hours"])
    channels = [outdoor(readings, measure) for measure in ("air_temperature", "relative_humidity")]
    t_out, h_out = (channel.accuracy if channel is not None else None for channel in channels)
    t_in, h_in = moist.temp_accuracy, moist.rh_accuracy
    if t_in is None or h_in is None or t_out is None or h_out is None:
        unknown = [moist.logger] if t_in is None or h_in is None else []
        unknown += [c.logger for c in channels if c is not None and c.accuracy is None]
        return Ends(), dict.fromkeys(paths, f"no accuracy given for {', '.join(dict.fromkeys(unknown))}")
    most = Shift(temp_k=t_in, rh=h_in, outdoor_k=-t_out, outdoor_rh=-h_out)
    high_pct = readings.season.aims.humidity_high_pct
    low, high = (
        airing_hours(airing_curve(moist, outdoor_c, outdoor_rh, high_pct, shift)) for shift in (most.turned(), most)
    )
    return Ends(low=low, high=high), {}
