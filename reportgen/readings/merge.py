"""The files of one logger put together: overlapping, repeated and outside the season."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.file_rows import FileRows
from reportgen.readings.marks import OUTSIDE, REPEATED, SENTINEL, USED, Codes
from reportgen.readings.numbers import Floats
from reportgen.readings.stamps import NAT
from reportgen.season import Season

Bools = NDArray[np.bool_]


@dataclass(kw_only=True, slots=True)
class Merged:
    """All rows of a logger, file after file; file n is rows starts[n] to starts[n + 1].

    `order`: the rows that have a time, by instant; of one instant the file whose name sorts later comes first.
    """

    utc: Ints
    order: Ints
    starts: Ints
    lines: Ints
    values: dict[str, Floats]
    codes: dict[str, Codes]
    raw_zero: dict[str, Bools]  # 0 as written
    interpolated: dict[str, Bools]
    disagreements: dict[str, tuple[int, int]] = field(default_factory=dict)  # with another file, within one


def merge(files: Sequence[FileRows], measures: Sequence[str], season: Season) -> Merged:
    """The rows of all files; repeated values, those outside the season and sentinels are coded."""
    utc = np.concatenate([part.utc for part in files])
    merged = Merged(
        utc=utc,
        order=_by_time(files, utc),
        starts=np.concatenate([[0], np.cumsum([len(part.utc) for part in files])]),
        lines=np.concatenate([part.lines for part in files]),
        values={name: np.concatenate([part.values[name] for part in files]) for name in measures},
        codes={name: np.concatenate([part.codes[name] for part in files]) for name in measures},
        raw_zero={name: np.concatenate([part.zero[name] for part in files]) for name in measures},
        interpolated={name: np.concatenate([part.interpolated[name] for part in files]) for name in measures},
    )
    start, end = int(season.start.timestamp() * 1000), int(season.end.timestamp() * 1000)
    outside = (utc != NAT) & ((utc < start) | (utc > end))
    sentinel = {name: np.concatenate([part.sentinel[name] for part in files]) for name in measures}
    ordered = utc[merged.order]
    twice = bool((np.diff(ordered) == 0).any())
    for name in measures:
        code = merged.codes[name]
        if twice:
            _mark_repeated(merged, name)
        code[outside & (code == USED)] = OUTSIDE
        code[sentinel[name] & (code == USED)] = SENTINEL
    return merged


def _by_time(files: Sequence[FileRows], utc: Ints) -> Ints:
    known = np.flatnonzero(utc != NAT)
    if bool((np.diff(utc[known]) > 0).all()):
        return known
    file = np.repeat(np.arange(len(files)), [len(part.utc) for part in files])
    return known[np.lexsort((known, -file[known], utc[known]))]


def _mark_repeated(merged: Merged, name: str) -> None:
    """Of several values of one instant the first in `order` stays; how many of the others differ is counted, those of
    another file than its own and those of the same."""
    code, values = merged.codes[name], merged.values[name]
    rows = merged.order[code[merged.order] == USED]
    if not len(rows):
        return
    same = np.concatenate([[False], np.diff(merged.utc[rows]) == 0])
    leader = rows[np.maximum.accumulate(np.where(same, 0, np.arange(len(rows))))]
    differ = values[rows[same]] != values[leader[same]]
    file, its = (np.searchsorted(merged.starts, at[same], side="right") for at in (rows, leader))
    merged.disagreements[name] = int((differ & (file != its)).sum()), int((differ & (file == its)).sum())
    code[rows[same]] = REPEATED
