"""Which files are parts of one logger's record: a header in common, names that differ by a number, a month or a season
only, and hardly any common days; or days in common that both tell alike, as copies and exports of all so far do."""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import isclose
from pathlib import PurePosixPath

from reportgen.begin.files import Seen
from reportgen.readings.header_words import plain_words
from reportgen.readings.shapes import MONTHS
from reportgen.readings.sniff import Sniffed, SniffedColumn

ALIKE_DAYS, MOSTLY = 2, 0.6  # days that two files tell alike, at least, and of those that both tell at all
OVERLAP = 0.2  # files of one header that overlap by less than this share of the shorter are parts of one logger
# Words of a file's name that mark a copy; from memory.
COPIES = ("copy", "kopie", "copie", "copia", "kopia", "kopio", "of", "export", "download")
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
    if first.sheet != one.sheet or seen.header != sniffed.header:
        return False
    named, copied = stem(first.file) == stem(one.file), _uncopied(first.file) == _uncopied(one.file)
    return all(
        (named and overlap(other, sniffed) < OVERLAP) or (copied and tells_again(other, sniffed)) for _, other in group
    )


def _uncopied(file: str) -> str:
    """The words of a file's name without those that mark a copy, whatever the folder."""
    return " ".join(word for word in own_words(PurePosixPath(file).stem) if word not in COPIES)


def tells_again(one: Sniffed, other: Sniffed) -> bool:
    """Whether two files of one header tell some days alike in every column, and none otherwise: no two loggers do."""
    pairs = [(a, b) for a, b in zip(one.columns, other.columns, strict=True) if a.sums and b.sums]
    whole = {d for a, b in pairs for d in a.days.keys() & b.days.keys() if a.days[d] == b.days[d]}
    moves = [(a, b) for a, b in pairs if a.low != a.high]
    if not moves or len(whole) < ALIKE_DAYS or len(whole) < MOSTLY * len(_shared(pairs)):
        return False
    return all(
        isclose(a.sums[d], b.sums[d], abs_tol=1e-6) for a, b in moves for d in whole if d in a.sums and d in b.sums
    )


def _shared(pairs: Sequence[tuple[SniffedColumn, SniffedColumn]]) -> set[dt.date]:
    return {day for a, b in pairs for day in a.days.keys() & b.days.keys()}


def stem(file: str) -> str:
    """The words of a file's folders without years, months and seasons, and those of its name without any number too."""
    path = PurePosixPath(file)
    folders = ["-".join(_undated(part)) for part in path.parent.parts]
    return "/".join([*(part for part in folders if part), " ".join(own_words(path.stem))])


def _undated(folder: str) -> list[str]:
    """The words of a folder's name that are no month, season or year; other numbers may be those of houses or beds."""
    words = re.split(r"[\W_]+", plain_words(folder))
    return [word for word in words if word and word not in _DATES and not re.fullmatch(r"(?:19|20)\d\d", word)]


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
    whole = together(one for _, one in parts)
    return Group(files=tuple(seen.file for seen, _ in parts), sheet=parts[0][0].sheet, sniffed=whole or parts[0][1])


def together(parts: Iterable[Sniffed | None]) -> Sniffed | None:
    """The files of one logger as one; None where nothing was found in any."""
    sniffed = [one for one in parts if one is not None]
    if not sniffed:
        return None
    base = max(sniffed, key=lambda one: len(one.measures))  # a probe may have been unplugged in one of them
    spans = [(one.first, one.last) for one in sniffed if one.first is not None and one.last is not None]
    orders = {one.day_first for one in sniffed if one.day_first is not None and not _mirrored(one)}
    return replace(
        base,
        columns=tuple(_together(column, sniffed) for column in base.columns),
        first=min((low for low, _ in spans), default=None),
        last=max((high for _, high in spans), default=None),
        day_first=next(iter(orders)) if len(orders) == 1 else base.day_first,
        clock=next((one.clock for one in sniffed if one.clock is not None), None),
    )


def _mirrored(one: Sniffed) -> bool:
    """A file of one day such as 11/11, which is the same with day and month exchanged."""
    return (
        one.first is not None
        and one.last is not None
        and one.first.date() == one.last.date()
        and (one.first.day == one.first.month)
    )


def _together(column: SniffedColumn, sniffed: Sequence[Sniffed]) -> SniffedColumn:
    """A column with the readings of all files."""
    same = [other for one in sniffed for other in one.columns if other.address == column.address]
    days: Counter[dt.date] = Counter()
    for other in same:
        days |= Counter(other.days)  # of a day in several files the most: it may be told again
    lows = [other.low for other in same if other.low is not None]
    highs = [other.high for other in same if other.high is not None]
    return replace(
        column,
        filled=sum(other.filled for other in same),
        low=min(lows, default=None),
        high=max(highs, default=None),
        days=dict(days),
    )
