"""Which channel speaks for what: the coldest crop air, the main logger, the outdoor air."""

from __future__ import annotations

from reportgen.measures.exposure import Line, line, lowest
from reportgen.readings.places import channels_at, outdoor_channel
from reportgen.readings.types import Channel, Readings


def _of(readings: Readings, where: str, measure: str) -> list[Channel]:
    return channels_at(readings.season, readings.channels, where, measure)


def main_crop(readings: Readings, measure: str) -> Channel | None:
    """The measure at the crop logger that speaks for the house, else at the first crop logger that has it."""
    return next(iter(_of(readings, "crop", measure)), None)


def crop_channels(readings: Readings, measure: str) -> list[Channel]:
    """The measure at every crop logger, the main one first."""
    return _of(readings, "crop", measure)


def outdoor(readings: Readings, measure: str) -> Channel | None:
    """A measure outdoors. `air_temperature` and `relative_humidity` also find outdoor_temperature / outdoor_humidity.

    An outdoor_* measure may sit on any logger; among several outdoor loggers the one with `main`, else the first.
    """
    return outdoor_channel(readings.season, readings.channels, measure)


def soil(readings: Readings) -> Channel | None:
    """Soil temperature of the bed: the main crop logger's, else any crop logger's, else elsewhere's."""
    found = _of(readings, "crop", "soil_temperature") or _of(readings, "elsewhere", "soil_temperature")
    return next(iter(found), None)


def anywhere(readings: Readings, measure: str) -> Channel | None:
    """The first channel of that measure at any logger inside (crop, then elsewhere)."""
    found = _of(readings, "crop", measure) or _of(readings, "elsewhere", measure)
    return next(iter(found), None)


def coldest_crop_air(readings: Readings) -> Line | None:
    """The lowest of all crop air temperatures, in the hours in which any crop logger records."""
    channels = crop_channels(readings, "air_temperature")
    return lowest([line(channel.values) for channel in channels]) if channels else None
