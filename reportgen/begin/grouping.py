"""Which files are parts of one logger's record: a header in common, names that differ by a number, a month or a season
only, and hardly any common days."""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import PurePosixPath

from reportgen.begin.files import Seen
from reportgen.readings.header_words import plain_words
from reportgen.readings.shapes import MONTHS
from reportgen.readings.sniff import Sniffed, SniffedColumn

OVERLAP = 0.2  # files of one header that overlap by less than this share of the shorter are parts of one logger
_SEASONS = "autumn|fall|winter|spring|summer|season|herbst|fruhjahr|fruhling|sommer|podzim|zima|jaro|leto|hiver"
_MONTHS = (  # in full, and with three letters or a few more as they are written beside a time
    "january|february|march|april|june|july|august|september|october|november|december|januar|februar|marz|oktober|"
    "dezember|leden|unor|brezen|duben|kveten|cerven|cervenec|srpen|zari|rijen|listopad|prosinec|janvier|fevrier|"
    "juillet|septembre|octobre|novembre|decembre"
)
_DATES = frozenset(
    [*_SEASONS.split("|"), *_MONTHS.split("|"), *(word for short in MONTHS.values() for word in short.split())]
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Group:
    """The files of one logger, in order of name, and what they seem to hold together."""

    files: tuple[str, ...]
    sheet: str
    sniffed: Sniffed


def groups(seen: Sequence[Seen]) -> list[Group]:
    """Every logger file in the group it belongs to."""
    found: list[list[tuple[Seen, Sniffed]]] = []
    for one in seen:
        if one.sniffed is None:
            continue
        home = next((group for group in found if _continues(group, one, one.sniffed)), None)
        if home is None:
            found.append([(one, one.sniffed)])
        else:
            home.append((one, one.sniffed))
    return [_group(parts) for parts in found]


def _continues(group: Sequence[tuple[Seen, Sniffed]], one: Seen, sniffed: Sniffed) -> bool:
    first, seen = group[0]
    same = stem(first.file) == stem(one.file) and first.sheet == one.sheet and seen.header == sniffed.header
    return same and all(overlap(other, sniffed) < OVERLAP for _, other in group)


def stem(file: str) -> str:
    """A file's folder and the words of its name without its ending, numbers, months and seasons."""
    path = PurePosixPath(file)
    return f"{path.parent.as_posix()}/{' '.join(own_words(path.stem))}"


def own_words(name: str) -> list[str]:
    """The words of a name that are no date: `bench 2024-jan` as bench."""
    words = re.split(r"[\W\d_]+", plain_words(name))
    return [word for word in words if word and word not in _DATES]


def overlap(one: Sniffed, other: Sniffed) -> float:
    """Share of the shorter record that the other covers too; whole where a span is not known."""
    if one.first is None or one.last is None or other.first is None or other.last is None:
        return 1.0
    shared = (min(one.last, other.last) - max(one.first, other.first)).total_seconds()
    shorter = min((s.last - s.first).total_seconds() for s in (one, other) if s.first and s.last)
    return max(shared, 0.0) / shorter if shorter > 0 else 0.0


def _group(parts: Sequence[tuple[Seen, Sniffed]]) -> Group:
    sniffed = [one for _, one in parts]
    base = max(sniffed, key=lambda one: len(one.measures))  # a probe may have been unplugged in one of them
    spans = [(one.first, one.last) for one in sniffed if one.first is not None and one.last is not None]
    orders = {one.day_first for one in sniffed if one.day_first is not None}
    return Group(
        files=tuple(seen.file for seen, _ in parts),
        sheet=parts[0][0].sheet,
        sniffed=replace(
            base,
            columns=tuple(_together(column, sniffed) for column in base.columns),
            first=min((low for low, _ in spans), default=None),
            last=max((high for _, high in spans), default=None),
            day_first=next(iter(orders)) if len(orders) == 1 else base.day_first,
            clock=next((one.clock for one in sniffed if one.clock is not None), None),
        ),
    )


def _together(column: SniffedColumn, sniffed: Sequence[Sniffed]) -> SniffedColumn:
    """A column with the readings of all files."""
    same = [other for one in sniffed for other in one.columns if other.address == column.address]
    days: Counter[dt.date] = Counter()
    for other in same:
        days.update(other.days)
    lows = [other.low for other in same if other.low is not None]
    highs = [other.high for other in same if other.high is not None]
    return replace(
        column,
        filled=sum(other.filled for other in same),
        low=min(lows, default=None),
        high=max(highs, default=None),
        days=dict(days),
    )
