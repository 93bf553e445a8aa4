"""Logger files → drafts of [[logger]] tables: files of one logger together, columns of one measure apart."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import PurePosixPath

from reportgen.begin.files import Seen
from reportgen.readings.header_words import outdoors
from reportgen.readings.sniff import Sniffed, SniffedColumn

OVERLAP = 0.2  # files of one header that overlap by less than this share of the shorter are parts of one logger
APART_K = 3.0  # a logger with its middle this much below all others hangs outdoors, if nothing else says so; a guess
_NUMBERED = re.compile(r"[-_. ]*\(?\d[\d-]*\)?$")


@dataclass(kw_only=True, slots=True)
class Draft:
    """One logger to be: `measures` in order, measure → its column."""

    name: str
    where: str
    files: list[str]
    sniffed: Sniffed
    measures: dict[str, SniffedColumn]
    units: dict[str, str] = field(default_factory=dict)
    time_format: str | None = None
    clock: str = "local"
    main: bool = False

    @property
    def days(self) -> tuple[dt.date, dt.date] | None:
        """First and last day of its files, on the clock as written."""
        first, last = self.sniffed.first, self.sniffed.last
        if first is None or last is None:
            return None
        return first.date(), (last - dt.timedelta(seconds=1)).date()


def drafts(seen: Sequence[Seen]) -> list[Draft]:
    """The loggers that the files seem to be of."""
    found: list[Draft] = []
    for group in _groups([one for one in seen if one.role == "logger"]):
        for measures in split_measures(group[0][1].measures):
            found.append(_draft(group, measures, found))
    _guess_outdoors(found)
    return found


def split_measures(columns: Sequence[SniffedColumn]) -> list[dict[str, SniffedColumn]]:
    """The first column of each measure is one sensor's, the second another's, and so on."""
    sensors: list[dict[str, SniffedColumn]] = []
    for column in columns:
        if column.measure is None:
            continue
        free = next((sensor for sensor in sensors if column.measure not in sensor), None)
        if free is None:
            free = {}
            sensors.append(free)
        free[column.measure] = column
    return sensors


def _groups(seen: Sequence[Seen]) -> list[list[tuple[str, Sniffed]]]:
    """Files that are parts of one logger's record: one name but for a number, one header, hardly any overlap."""
    groups: list[list[tuple[str, Sniffed]]] = []
    for one in seen:
        if one.sniffed is None:
            continue
        home = next((group for group in groups if _continues(group, one.file, one.sniffed)), None)
        if home is None:
            groups.append([(one.file, one.sniffed)])
        else:
            home.append((one.file, one.sniffed))
    return groups


def _continues(group: Sequence[tuple[str, Sniffed]], file: str, sniffed: Sniffed) -> bool:
    same = stem(group[0][0]) == stem(file) and group[0][1].header == sniffed.header
    return same and all(_overlap(other, sniffed) < OVERLAP for _, other in group)


def stem(file: str) -> str:
    """A file's folder and name without its ending and its number or date."""
    path = PurePosixPath(file)
    bare = _NUMBERED.sub("", path.stem.casefold())
    return f"{path.parent.as_posix()}/{bare or path.stem.casefold()}"


def _overlap(one: Sniffed, other: Sniffed) -> float:
    """Share of the shorter record that the other covers too; whole where a span is not known."""
    if one.first is None or one.last is None or other.first is None or other.last is None:
        return 1.0
    shared = (min(one.last, other.last) - max(one.first, other.first)).total_seconds()
    shorter = min((s.last - s.first).total_seconds() for s in (one, other) if s.first and s.last)
    return max(shared, 0.0) / shorter if shorter > 0 else 0.0


def _draft(group: Sequence[tuple[str, Sniffed]], measures: dict[str, SniffedColumn], others: Sequence[Draft]) -> Draft:
    files, first = [file for file, _ in group], group[0][1]
    spans = [(s.first, s.last) for _, s in group if s.first is not None and s.last is not None]
    return Draft(
        name=free_name(stem(files[0]).rpartition("/")[2], [draft.name for draft in others]),
        where=_where(files[0], measures),
        files=files,
        sniffed=_spanning(first, spans),
        measures=measures,
        clock=next((s.clock for _, s in group if s.clock is not None), None) or "local",
    )


def _spanning(first: Sniffed, spans: list[tuple[dt.datetime, dt.datetime]]) -> Sniffed:
    from dataclasses import replace

    if not spans:
        return first
    return replace(first, first=min(low for low, _ in spans), last=max(high for _, high in spans))


def free_name(wanted: str, taken: Sequence[str]) -> str:
    """A name not yet given: the wanted one, else with a number."""
    wanted = wanted.strip(" -_.") or "logger"
    names = [wanted, *(f"{wanted} {n}" for n in range(2, 1000))]
    return next(name for name in names if name not in taken)


def _where(file: str, measures: dict[str, SniffedColumn]) -> str:
    inside = {"air_temperature", "relative_humidity", "soil_temperature"} & set(measures)
    outside = {"outdoor_temperature", "outdoor_humidity"} & set(measures)
    if outdoors(file) or (outside and not inside):
        return "outdoor"
    if {"air_temperature", "relative_humidity", "soil_temperature", "soil_moisture", "ppfd"} & set(measures):
        return "crop"
    return "elsewhere"


def _guess_outdoors(found: list[Draft]) -> None:
    """Where no logger says it is outdoors, the clearly coldest of several is taken to be."""
    if any(draft.where == "outdoor" or "outdoor_temperature" in draft.measures for draft in found):
        return
    middles = sorted((middle, n) for n, draft in enumerate(found) if (middle := _middle_c(draft)) is not None)
    if len(middles) > 1 and middles[1][0] - middles[0][0] >= APART_K:
        found[middles[0][1]].where = "outdoor"


def _middle_c(draft: Draft) -> float | None:
    column = draft.measures.get("air_temperature")
    if column is None or column.middle is None:
        return None
    return (column.middle - 32) / 1.8 if degrees(column)[0] == "degF" else column.middle


def degrees(column: SniffedColumn) -> tuple[str, bool]:
    """The temperature unit of a column, and whether its level leaves a doubt."""
    if column.unit is not None:
        return column.unit, bool(column.doubt)
    middle = column.middle if column.middle is not None else 0.0
    if middle > 200:
        return "K", False
    # Half a winter's readings above 35 would be hot in °C; 26 to 35 is a warm house in °C or a cold one in °F.
    return ("degF", middle < 35) if middle >= 26 else ("degC", False)
