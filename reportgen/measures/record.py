"""The record: how much of the winter was logged, what was set aside and why, and where the gaps are.

Coverage is the time that joined readings cover (the gap rule of the season folder), shared by month.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from reportgen.measures.agreement import Agreement, agreement
from reportgen.measures.exposure import Line, channel_line, clip
from reportgen.measures.record_words import measure_name
from reportgen.measures.seldom import COUNTERS, too_seldom, why_seldom
from reportgen.plain import PAGE_ONLY
from reportgen.readings.columns import SWITCHES
from reportgen.readings.join import HELD_S, Floats
from reportgen.readings.types import Channel, CheckFinding, FileAccount, Readings
from reportgen.season import Season

NO_READING = "no reading in the season"


@dataclass(frozen=True, kw_only=True, slots=True)
class FileRecord:
    """One logger file: rows read = rows used + rows set aside."""

    file: str
    logger: str
    rows_read: int
    rows_used: int
    set_aside: Mapping[str, int]
    clock: str = field(default="", metadata=PAGE_ONLY)


@dataclass(frozen=True, kw_only=True, slots=True)
class ChannelRecord:
    """One measure of one logger in its kept unit; statistics are of the season, null where it has nothing."""

    logger: str
    measure: str
    values_read: int
    values_used: int
    set_aside: Mapping[str, int]
    first: pd.Timestamp | None
    last: pd.Timestamp | None
    step_s: float | None
    hours_recorded: float
    hours_in_season: float
    minimum: float | None
    mean: float | None
    maximum: float | None
    where: str = field(default="", metadata=PAGE_ONLY)
    accuracy: float | None = field(default=None, metadata=PAGE_ONLY)
    why_seldom: str = field(
        default="", metadata=PAGE_ONLY
    )  # why it tells no night, hour or extreme; empty where it does

    @property
    def name(self) -> str:
        """How the pages call it: `bench · air temperature`."""
        return f"{self.logger} · {measure_name(self.measure)}"

    @property
    def share(self) -> float:
        """Share of the season's hours recorded, 0 … 1."""
        return self.hours_recorded / self.hours_in_season if self.hours_in_season else 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Record:
    """Everything *The record* says; the first two fields are review.json's `record`."""

    files: tuple[FileRecord, ...]
    channels: tuple[ChannelRecord, ...]
    reasons: Mapping[str, str]
    months: pd.DataFrame = field(metadata=PAGE_ONLY)  # name, month (its first day in the season), hours, share
    days: pd.DataFrame = field(metadata=PAGE_ONLY)  # name, date, hours, share
    gaps: pd.DataFrame = field(metadata=PAGE_ONLY)  # name, logger, measure, start, end, hours; longest first
    findings: tuple[CheckFinding, ...] = field(default=(), metadata=PAGE_ONLY)
    agreement: tuple[Agreement, ...] = field(default=(), metadata=PAGE_ONLY)  # pairs of loggers at one place


def record(readings: Readings) -> Record:
    """What was recorded of the season, file by file and channel by channel."""
    season = readings.season
    covers = [(channel, covered(channel, season)) for channel in readings.channels]
    channels = tuple(_channel_record(channel, spans, season) for channel, spans in covers)
    return Record(
        files=tuple(_file_record(account) for account in readings.files),
        channels=channels,
        reasons=_reasons(channels),
        months=_shared(channels, [spans for _, spans in covers], _month_edges(season), "month"),
        days=_shared(channels, [spans for _, spans in covers], _day_edges(season), "date"),
        gaps=_all_gaps(channels, [spans for _, spans in covers], season),
        findings=readings.findings,
        agreement=agreement(readings),
    )


def covered(channel: Channel, season: Season) -> Floats:
    """Recorded stretches of a channel inside the season; shape (n, 2), start and end [s since 1970], rising.

    Joined readings cover the time between them; a switch log covers each value's hold, at most 24 h.
    """
    curve = channel_line(channel)
    if len(curve.seconds) < 2:
        return np.empty((0, 2))
    starts, ends = curve.seconds[:-1], curve.seconds[1:]
    # on/off logs that write at a switch hold their last value
    if channel.measure in SWITCHES and _writes_at_switches(curve):
        ends, joined = np.minimum(ends, starts + HELD_S), np.ones(len(starts), dtype=bool)
    else:
        joined = curve.joined
    low, high = season.start.timestamp(), season.end.timestamp()
    spans = np.column_stack([np.clip(starts[joined], low, high), np.clip(ends[joined], low, high)])
    return spans[spans[:, 1] > spans[:, 0]]


def _writes_at_switches(curve: Line) -> bool:
    """More than half of the neighbours differ (the same rule as for a heater's on/off log)."""
    return float(np.mean(np.diff(curve.values) != 0)) > 0.5


def hours_between(spans: Floats, edges: Floats) -> Floats:
    """Recorded hours in each cell between neighbouring `edges` [s since 1970]; shape (cells,).

    `spans`: starts and ends of what is recorded [s since 1970], shape (n, 2), rising and apart.
    """
    if len(spans) == 0:
        return np.zeros(len(edges) - 1)
    covered_s = np.cumsum(np.column_stack([np.zeros(len(spans)), spans[:, 1] - spans[:, 0]]).ravel())
    in_cell: Floats = np.diff(np.interp(edges, spans.ravel(), covered_s)) / 3600.0
    return in_cell


def _file_record(account: FileAccount) -> FileRecord:
    return FileRecord(
        file=account.file,
        logger=account.logger,
        rows_read=account.rows_read,
        rows_used=account.rows_used,
        set_aside=account.set_aside,
        clock=account.clock,
    )


def _channel_record(channel: Channel, spans: Floats, season: Season) -> ChannelRecord:
    inside = channel.values[(channel.values.index >= season.start) & (channel.values.index <= season.end)]
    seldom = bool(len(inside)) and too_seldom(channel)
    return ChannelRecord(
        logger=channel.logger,
        measure=channel.measure,
        values_read=channel.values_read,
        values_used=channel.values_used,
        set_aside=channel.set_aside,
        first=pd.Timestamp(inside.index[0]) if len(inside) else None,
        last=pd.Timestamp(inside.index[-1]) if len(inside) else None,
        step_s=channel.step_s,
        hours_recorded=float(np.diff(spans, axis=1).sum() / 3600.0),
        hours_in_season=season.hours,
        minimum=float(inside.min()) if len(inside) and not seldom else None,
        mean=_mean_of_readings(inside) if seldom else _mean(channel, season),
        maximum=float(inside.max()) if len(inside) and not seldom else None,
        where=channel.where,
        accuracy=channel.accuracy,
        why_seldom=why_seldom(channel) if seldom else "",
    )


def _mean_of_readings(values: pd.Series) -> float | None:
    """The plain mean of readings too far apart to be joined; of a single one there is none."""
    return float(values.mean()) if len(values) > 1 else None


def _mean(channel: Channel, season: Season) -> float | None:
    """Mean over the recorded time of the joined line, so that a change of step weighs nothing; none of a counter."""
    if channel.measure in COUNTERS:
        return None
    curve = clip(channel_line(channel), season.start, season.end)
    if curve.hours_recorded <= 0:
        return None
    middle = (curve.values[:-1] + curve.values[1:]) / 2
    return float((middle * curve.hours).sum() / curve.hours_recorded)


def _reasons(channels: tuple[ChannelRecord, ...]) -> dict[str, str]:
    reasons = {} if channels else {"channels": "no usable channel"}
    for n, channel in enumerate(channels):
        if channel.first is None:
            names = ("first", "last", "minimum", "mean", "maximum")
            reasons |= {f"channels.{n}.{name}": NO_READING for name in names}
        elif channel.mean is None:
            counter = channel.measure in COUNTERS
            why = "a running counter has no mean" if counter else channel.why_seldom or "no joined readings"
            reasons[f"channels.{n}.mean"] = why
        if channel.why_seldom:
            reasons |= {f"channels.{n}.{name}": channel.why_seldom for name in ("minimum", "maximum")}
        if channel.step_s is None:
            reasons[f"channels.{n}.step_s"] = "fewer than two readings"
    return reasons


def _month_edges(season: Season) -> pd.DatetimeIndex:
    firsts = pd.date_range(pd.Timestamp(season.first_day).replace(day=1), pd.Timestamp(season.last_day), freq="MS")
    inner = [season.midnight(first.date()) for first in firsts[1:]]
    return pd.DatetimeIndex([season.start, *inner, season.end])


def _day_edges(season: Season) -> pd.DatetimeIndex:
    return season.midnights


def _shared(
    channels: tuple[ChannelRecord, ...], spans: list[Floats], edges: pd.DatetimeIndex, unit: str
) -> pd.DataFrame:
    """Recorded hours and share of every month or day, one row a channel and cell."""
    seconds = np.asarray([edge.timestamp() for edge in edges])
    lengths = np.diff(seconds) / 3600.0
    rows = [
        {"name": channel.name, unit: edge.date(), "hours": hours, "share": hours / length}
        for channel, own in zip(channels, spans, strict=True)
        for edge, hours, length in zip(edges[:-1], hours_between(own, seconds), lengths, strict=True)
    ]
    return pd.DataFrame(rows, columns=["name", unit, "hours", "share"])


def gaps(spans: Floats, season: Season) -> list[tuple[pd.Timestamp, pd.Timestamp]]:
    """Stretches of the season, longer than a second, that nothing covers, its beginning and end included.

    `spans`: starts and ends [s since 1970], shape (n, 2), rising and apart.
    """
    edges = np.concatenate([[season.start.timestamp()], spans.ravel(), [season.end.timestamp()]]).reshape(-1, 2)
    missing = edges[edges[:, 1] - edges[:, 0] > 1.0]
    return [
        (
            pd.Timestamp(low, unit="s", tz="UTC").tz_convert(season.zone),
            pd.Timestamp(high, unit="s", tz="UTC").tz_convert(season.zone),
        )
        for low, high in missing
    ]


def _all_gaps(channels: tuple[ChannelRecord, ...], spans: list[Floats], season: Season) -> pd.DataFrame:
    """Every gap of every channel, longest first."""
    rows = [
        {
            "name": channel.name,
            "logger": channel.logger,
            "measure": channel.measure,
            "start": start,
            "end": end,
            "hours": (end - start) / pd.Timedelta(hours=1),
        }
        for channel, own in zip(channels, spans, strict=True)
        for start, end in gaps(own, season)
    ]
    table = pd.DataFrame(rows, columns=["name", "logger", "measure", "start", "end", "hours"])
    return table.sort_values(["hours", "name"], ascending=[False, True], ignore_index=True)
