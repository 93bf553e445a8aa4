"""Each logger as lines of words: its files, when it ran, its gaps, and what every channel read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pandas as pd

from reportgen.inspection.found import Found
from reportgen.inspection.layout import wrapped
from reportgen.measures import record_words as say
from reportgen.measures.record import ChannelRecord, FileRecord
from reportgen.season import Logger, Season
from reportgen.wording import NBSP, Wording, count, number, share_words

GAP_H = 1.0  # shorter gaps are counted in the share and not listed; ours, to keep the list to a screen
GAPS_SHOWN = 3


def logger_parts(found: Found) -> list[str]:
    """One block of lines a logger of season.toml."""
    if found.season is None:
        return []
    return [_logger(found, found.season, logger) for logger in found.season.loggers]


def _logger(found: Found, season: Season, logger: Logger) -> str:
    title = f"{logger.name}, {say.place_name(logger.where)}{_speaks(season, logger)}"
    record = found.record
    files = [file for file in record.files if file.logger == logger.name] if record else []
    channels = [channel for channel in record.channels if channel.logger == logger.name] if record else []
    if not files and not channels:
        return f"{title}\n{wrapped('not read; see the problems below')}"
    when = {channel.measure: _when(found, channel) for channel in channels}
    alike = len({tuple(lines) for lines in when.values()}) == 1
    lines = [wrapped(_file(file)) for file in files]
    lines += [wrapped(line) for line in next(iter(when.values()))] if alike else []
    seldom = dict.fromkeys(channel.why_seldom for channel in channels if channel.why_seldom)
    lines += [wrapped(words) for words in seldom]
    for channel in channels:
        lines.append(wrapped(_channel(season, logger, channel)))
        lines += [] if alike else [wrapped(line, 6) for line in when[channel.measure]]
        lines += [wrapped(line, 6) for line in _aside(channel, files)]
    return "\n".join([title, *lines])


def _speaks(season: Season, logger: Logger) -> str:
    alike = [other for other in season.loggers if other.where == logger.where]
    chosen = next((other for other in alike if other.main), alike[0])
    if len(alike) < 2 or logger.where == "elsewhere" or chosen.name != logger.name:
        return ""
    return ", speaks for the house" if logger.where == "crop" else ", speaks for the weather"


def _file(file: FileRecord) -> str:
    aside = say.reasons_words(file.set_aside)
    rows = f"{count(file.rows_read, 'row')}, {number(file.rows_used)} used"
    clock = f"; {file.clock}" if file.clock else ""
    return f"{file.file}: {rows}{f'; set aside: {aside}' if aside else ''}{clock}"


def _channel(season: Season, logger: Logger, channel: ChannelRecord) -> str:
    w = Wording.of(season)
    column = logger.measures[channel.measure]
    head = f"{say.measure_name(channel.measure)}, column {column.column!r}"
    head += f" in {column.unit}" if column.unit else ""
    if channel.why_seldom:
        mean = f", mean {say.value_words(w, channel.measure, channel.mean)}" if channel.mean is not None else ""
        return f"{head}: {say.readings_count(channel.values_used)}{mean}"
    if channel.minimum is None or channel.maximum is None:
        return f"{head}: no reading in the season"
    low, high = (say.value_number(w, channel.measure, v) for v in (channel.minimum, channel.maximum))
    mean = f", mean {say.value_number(w, channel.measure, channel.mean)}" if channel.mean is not None else ""
    values = f"from {low} to {high}{NBSP}{say.unit_name(w, channel.measure)}{mean}"
    return f"{head}: {say.readings_count(channel.values_used)}, {values}"


def _when(found: Found, channel: ChannelRecord) -> list[str]:
    """When a channel ran, and its gaps."""
    if channel.first is None or channel.last is None:
        return []
    span = f"{say.moment(channel.first)} to {say.moment(channel.last)}"
    share = f"{share_words(channel.share)} of the season"
    gaps = [] if channel.why_seldom else _gaps(found, channel)
    return [f"{span}, {say.step_words(channel.step_s)}, {share}", *gaps]


def _aside(channel: ChannelRecord, files: Sequence[FileRecord]) -> list[str]:
    """What was set aside of a channel, unless its files' rows say the same."""
    rows: dict[str, int] = {}
    for file in files:
        for reason, n in file.set_aside.items():
            rows[reason] = rows.get(reason, 0) + n
    own: Mapping[str, int] = {reason: n for reason, n in channel.set_aside.items() if n > rows.get(reason, 0)}
    return [f"set aside: {say.reasons_words(own)}"] if own else []


def _gaps(found: Found, channel: ChannelRecord) -> list[str]:
    if found.record is None:
        return []
    table = found.record.gaps
    mine = table[(table["logger"] == channel.logger) & (table["measure"] == channel.measure)]
    long = mine[mine["hours"] >= GAP_H]
    if long.empty:
        return []
    shown = [_gap(row["start"], row["end"], row["hours"]) for row in long.head(GAPS_SHOWN).to_dict("records")]
    more = len(long) - len(shown)
    rest = f"; and {number(more)} more" if more else ""
    return [f"{count(len(long), 'gap')} of an hour or more: {'; '.join(shown)}{rest}"]


def _gap(start: pd.Timestamp, end: pd.Timestamp, hours: float) -> str:
    return f"{say.stretch_words(start, end)} ({say.long_words(hours)})"
