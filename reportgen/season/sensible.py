"""Numbers of a sensor that no sensor has, and a longitude that its clock does not bear out."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from zoneinfo import ZoneInfo

from reportgen.problems import Problem
from reportgen.season.models import Season
from reportgen.season.sources import Logger, MeasureColumn
from reportgen.units import MEASURES, convert, convert_difference

# slug, path of the key, found, expected, to do
Fault = tuple[str, tuple[str | int, ...], str, str, str]
FAR_H = 4.0  # [h] no zone keeps a clock further than this from its sun; the widest in use is about 3 h, from memory
DEGREES_AN_HOUR = 15.0  # the Earth's turn


def sensor_faults(season: Season) -> list[Fault]:
    """An offset or accuracy as wide as all that the measure can be, and a check of a value it cannot have."""
    faults: list[Fault] = []
    for n, logger in enumerate(season.loggers):
        for name, column in logger.measures.items():
            faults += _too_wide(n, name, column)
        faults += _impossible_checks(n, logger)
    return faults


def _too_wide(n: int, name: str, column: MeasureColumn) -> Iterator[Fault]:
    measure = MEASURES[name]
    unit, width = column.unit or measure.kept, measure.highest - measure.lowest
    for key, value in (("offset", column.offset), ("accuracy", column.accuracy or 0.0)):
        if value and math.isfinite(width) and abs(convert_difference(value, unit, measure.kept)) >= width:
            expected = f"less than {convert_difference(width, measure.kept, unit):g} {unit}, all that it can be"
            yield "wrong-value", ("logger", n, "measures", name, key), f"{value:g}", expected, "correct this value"


def _impossible_checks(n: int, logger: Logger) -> Iterator[Fault]:
    import numpy as np  # late: a fault of season.toml is told at once

    for k, check in enumerate(logger.checks):
        column = logger.measures.get(check.measure)
        if column is None:
            continue  # told as an unknown measure
        measure = MEASURES[check.measure]
        unit = column.unit or measure.kept
        for key in ("reference", "read"):
            value = getattr(check, key)
            kept = float(convert(np.asarray([value]), unit, measure.kept)[0])
            if not measure.lowest <= kept <= measure.highest:
                path = ("logger", n, "checks", k, key)
                ends = convert(np.asarray([measure.lowest, measure.highest], dtype=np.float64), measure.kept, unit)
                yield "wrong-value", path, f"{value:g}", f"{ends[0]:g} to {ends[1]:g} {unit}", "correct this value"


def doubts(season: Season) -> list[Problem]:
    """What may be right and is asked about: a longitude that lies hours away from the clock of the season."""
    longitude = season.place.longitude
    if longitude is None:
        return []
    clock_h = _standard_h(season.zone, season.first_day.year)
    apart = (longitude / DEGREES_AN_HOUR - clock_h + 12.0) % 24.0 - 12.0
    if abs(apart) <= FAR_H:
        return []
    return [
        Problem(
            slug="longitude-far-from-clock",
            file="season.toml",
            column="[place] · longitude",
            found=f"longitude {longitude:g} beside the clock of {season.time_zone}: the sun would stand highest "
            f"about {abs(apart):.0f} hours {'before' if apart > 0 else 'after'} noon",
            expected=f"a longitude within {FAR_H:g} hours of that clock (east is positive, west negative)",
            todo="look at the sign of longitude, and at time_zone; only sunrise and sunset depend on it",
            level="warning",
        )
    ]


def _standard_h(zone: ZoneInfo, year: int) -> float:
    """Standard time of the zone, hours ahead of UTC."""
    moments = [dt.datetime(year, month, 1, tzinfo=zone) for month in (1, 7)]
    return min(offset.total_seconds() for moment in moments if (offset := moment.utcoffset()) is not None) / 3600.0
