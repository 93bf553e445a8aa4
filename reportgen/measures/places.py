"""Which channel speaks for what: the coldest crop air, the main logger, the outdoor air.

Only channels that write often enough to tell a night are given: what is read once a day or less has only a mean, and
`why_no` says so.
"""

from __future__ import annotations

from reportgen.measures.exposure import Line, channel_line, lowest
from reportgen.measures.seldom import too_seldom, why_seldom
from reportgen.readings.places import OUTDOOR_NAMES, channels_at
from reportgen.readings.probe import EXCHANGED, IN_THE_AIR
from reportgen.readings.types import Channel, CheckFinding, Readings

NO_OUTDOORS = "no outdoor logger"


def _all(readings: Readings, where: str, measure: str) -> list[Channel]:
    return channels_at(readings.season, readings.channels, where, measure)


def _of(readings: Readings, where: str, measure: str) -> list[Channel]:
    """Those of them that write often enough to tell nights, hours and extremes."""
    return [channel for channel in _all(readings, where, measure) if not too_seldom(channel)]


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
    special = OUTDOOR_NAMES.get(measure)
    if special is not None:
        for where in ("outdoor", "crop", "elsewhere"):
            if found := _of(readings, where, special):
                return found[0]
    return next(iter(_of(readings, "outdoor", measure)), None)


def seldom_crop(readings: Readings, measure: str) -> Channel | None:
    """The measure at a crop logger that writes too seldom, where no crop logger writes often enough."""
    found = _all(readings, "crop", measure)
    return next(iter(found), None) if all(map(too_seldom, found)) else None


def seldom_outdoors(readings: Readings, measure: str) -> Channel | None:
    """The same outdoors, by either of the names that a measure has there."""
    if outdoor(readings, measure) is not None:
        return None
    found = _all(readings, "outdoor", measure)
    if measure in OUTDOOR_NAMES:
        found += [
            c for where in ("outdoor", "crop", "elsewhere") for c in _all(readings, where, OUTDOOR_NAMES[measure])
        ]
    return next(iter(found), None)


def seldom_soil(readings: Readings) -> Channel | None:
    """The bed's temperature where it is written too seldom for waves, hours and nights."""
    found = [*_all(readings, "crop", "soil_temperature"), *_all(readings, "elsewhere", "soil_temperature")]
    return next(filter(too_seldom, found), None) if soil(readings) is None else None


def seldom_inside(readings: Readings, measure: str) -> Channel | None:
    """The first channel of that measure inside that writes too seldom, where none writes often enough."""
    found = _all(readings, "crop", measure) + _all(readings, "elsewhere", measure)
    return next(iter(found), None) if anywhere(readings, measure) is None else None


def why_no(seldom: Channel | None, else_: str) -> str:
    """Why a measure is not there to tell from: it was written too seldom, or else it was not logged at all."""
    return why_seldom(seldom) if seldom is not None else else_


def no_outdoor_air(readings: Readings) -> str:
    """Why there is no outdoor air to set anything against."""
    return why_no(seldom_outdoors(readings, "air_temperature"), NO_OUTDOORS)


def soil(readings: Readings) -> Channel | None:
    """Soil temperature of the bed: the main crop logger's, else any crop logger's, else elsewhere's.

    A probe that lies in no soil is none: `doubted_soil` says why.
    """
    doubted = {finding.logger for finding in doubted_soil(readings)}
    found = [*_of(readings, "crop", "soil_temperature"), *_of(readings, "elsewhere", "soil_temperature")]
    return next((channel for channel in found if channel.logger not in doubted), None)


def doubted_soil(readings: Readings) -> list[CheckFinding]:
    """What the checks say of soil probes that hang in the air, or whose column is exchanged with another."""
    return [finding for finding in readings.findings if finding.slug in (IN_THE_AIR, EXCHANGED)]


def why_no_soil(readings: Readings) -> str:
    """Why there is no soil temperature to reckon with."""
    told = next(iter(doubted_soil(readings)), None)
    if told is None:
        return why_no(seldom_soil(readings), "no soil temperature was logged")
    if told.slug == EXCHANGED:
        return f"the columns of soil and air look exchanged, so the soil of {told.logger} is not reckoned with"
    return f"the soil probe of {told.logger} seems to hang in the air, so it tells nothing of the bed"


def anywhere(readings: Readings, measure: str) -> Channel | None:
    """The first channel of that measure at any logger inside (crop, then elsewhere)."""
    found = _of(readings, "crop", measure) or _of(readings, "elsewhere", measure)
    return next(iter(found), None)


def coldest_crop_air(readings: Readings) -> Line | None:
    """The lowest of all crop air temperatures, in the hours in which any crop logger records."""
    channels = crop_channels(readings, "air_temperature")
    return lowest([channel_line(channel) for channel in channels]) if channels else None
