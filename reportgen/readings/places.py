"""Which logger speaks for a place: the one with `main`, else the first that is listed and has the measure."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.readings.types import Channel
from reportgen.season import Season
from reportgen.units import MEASURES

# A measure outdoors may also stand under a name of its own, on any logger.
OUTDOOR_NAMES = {measure.outdoors_of: name for name, measure in MEASURES.items() if measure.outdoors_of}


def channels_at(season: Season, channels: Sequence[Channel], where: str, measure: str) -> list[Channel]:
    """Channels of that measure at loggers standing there, the main logger first, then as listed."""
    order = sorted(season.loggers, key=lambda logger: not logger.main)
    names = [logger.name for logger in order if logger.where == where]
    known = {(channel.logger, channel.measure): channel for channel in reversed(channels)}
    found = [known.get((name, measure)) for name in names]
    return [channel for channel in found if channel is not None and len(channel.values)]


def outdoor_channel(season: Season, channels: Sequence[Channel], measure: str) -> Channel | None:
    """A measure outdoors: under its own name on any logger, else at the outdoor logger that speaks for the weather."""
    special = OUTDOOR_NAMES.get(measure)
    if special is not None:
        for where in ("outdoor", "crop", "elsewhere"):
            if found := channels_at(season, channels, where, special):
                return found[0]
    return next(iter(channels_at(season, channels, "outdoor", measure)), None)
