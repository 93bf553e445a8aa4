"""What the checks saw, in words: one finding for each reason and channel, and for each oddity of a file's times."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.checks import resolution
from reportgen.readings.digits import Ints
from reportgen.readings.join import joined
from reportgen.readings.marks import (
    ALL_ZERO,
    BLANK,
    IMPOSSIBLE,
    JUMP,
    OUTSIDE,
    REPEATED,
    SENTINEL,
    STUCK,
    USED,
)
from reportgen.readings.merge import Merged
from reportgen.readings.numbers import Floats
from reportgen.readings.rows import FileRows
from reportgen.readings.stamps import NAT
from reportgen.readings.types import Finding
from reportgen.season import Logger, Season
from reportgen.wording import number

_Make = Callable[[str, Ints, str], Finding]
SATURATED_PCT = 99.5  # from here on a humidity sensor cannot tell more; common practice
SATURATED_HOURS = 24.0  # worth a word from a day on; common practice
LINE_READINGS = 12  # so many readings on one straight line, off the sensor's steps, are computed; common practice

_ASIDE = (
    (REPEATED, "repeated", "stand at an instant that is told twice; one of them is used"),
    (OUTSIDE, "outside-the-season", "lie before the first or after the last day; set aside"),
    (SENTINEL, "sentinel", "stand for no reading, such as −999; set aside"),
    (ALL_ZERO, "all-zero", "stand in rows in which every column is 0; set aside"),
    (IMPOSSIBLE, "impossible", "cannot be for this measure; set aside"),
    (STUCK, "stuck", "did not move for longer than such a sensor can stand still; set aside"),
    (JUMP, "jump", "leap away from the readings around them and come back; set aside"),
)


def channel_findings(logger: Logger, measure: str, merged: Merged, wet: int, season: Season) -> list[Finding]:
    """What was seen in one channel once its values are coded."""
    code = merged.codes[measure]

    def finding(slug: str, rows: Ints, words: str) -> Finding:
        instants = merged.utc[rows]
        return Finding(
            slug=slug,
            logger=logger.name,
            measure=measure,
            start=moment(int(instants.min()), season),
            end=moment(int(instants.max()), season),
            count=len(rows),
            words=words,
        )

    found = [
        finding(slug, rows, f"{count_words(len(rows), 'value')} {_agreeing(words, len(rows))}")
        for mark, slug, words in _ASIDE
        if len(rows := np.flatnonzero(code == mark))
    ]
    used = merged.order[code[merged.order] == USED]
    if differ := merged.disagreements.get(measure, 0):
        rows = np.flatnonzero(code == REPEATED)
        words = f"{differ} of {len(rows)} repeated values differ from the one used, that of the file sorting later"
        found.append(finding("repeated-differ", rows, words))
    if wet:
        rows = used[merged.values[measure][used] == 100.0]
        words = f"{count_words(wet, 'value')} above 100 % (to 105 %) kept as 100"
        found.append(finding("above-100", rows, words))
    found += _of_values(measure, merged, used, finding)
    return found


def _agreeing(words: str, n: int) -> str:
    """The verb of one value: it stands, lies, leaps."""
    if n != 1:
        return words
    verb, _, rest = words.partition(" ")
    ends = {"stand": "stands", "lie": "lies", "leap": "leaps"}
    return f"{ends.get(verb, verb)} {rest}".replace("and come back", "and comes back")


def _of_values(measure: str, merged: Merged, used: Ints, finding: _Make) -> list[Finding]:
    values, found = merged.values[measure][used], []
    if measure.endswith("humidity"):
        wet = used[values >= SATURATED_PCT]
        hours = _hours(merged.utc[used], values >= SATURATED_PCT)
        if hours >= SATURATED_HOURS:
            words = f"{hours:.0f} h at 99.5 % or more, where the sensor cannot tell how wet it is"
            found.append(finding("saturated", wet, words))
    if measure == "heater_energy" and len(values) > 1:
        drops = used[1:][np.diff(values) < 0]
        if len(drops):
            words = f"the counter began again {count_words(len(drops), 'time')}; what it counted is joined"
            found.append(finding("counter-reset", drops, words))
    if measure.endswith(("temperature", "humidity")):
        line = used[straight(merged.utc[used] / 1000.0, values)]
        if len(line):
            words = "on straight lines off the sensor's steps: computed, not measured"
            found.append(finding("straight-line", line, f"{count_words(len(line), 'value')} {words}"))
    return found


def straight(seconds: Floats, values: Floats) -> NDArray[np.bool_]:
    """Readings of a run of at least 12 on one sloping line whose slope is no whole number of the sensor's steps."""
    mask = np.zeros(len(values), dtype=bool)
    step = resolution(values)
    if len(values) < 2 * LINE_READINGS or step == 0:
        return mask
    rise, lapse = np.diff(values), np.diff(seconds)
    off_grid = np.abs(rise / step - np.round(rise / step)) > 0.02
    slope = rise / np.where(lapse > 0, lapse, 1.0)
    even = np.abs(np.diff(slope)) <= 1e-6 * np.abs(slope[:-1])
    good = even & off_grid[:-1] & off_grid[1:] & (np.abs(rise[:-1]) > 1e-9)
    if int(good.sum()) < LINE_READINGS - 2:
        return mask
    good &= joined(seconds)[1:]
    edges = np.flatnonzero(np.diff(np.concatenate([[False], good, [False]]).astype(np.int8)))
    for first, last in edges.reshape(-1, 2):
        if last - first + 2 >= LINE_READINGS:
            mask[first : last + 2] = True
    return mask


def _hours(utc_ms: Ints, at: NDArray[np.bool_]) -> float:
    """Hours between joined readings that both are."""
    if len(utc_ms) < 2:
        return 0.0
    seconds = utc_ms / 1000.0
    both = at[1:] & at[:-1]
    if not both.any():
        return 0.0
    both &= joined(seconds)
    return float(np.diff(seconds)[both].sum() / 3600.0)


def file_findings(logger: Logger, parts: Sequence[FileRows], season: Season) -> list[Finding]:
    """What was seen in the times and cells of each file."""
    found = []
    for part in parts:
        told = (
            ("out-of-order", part.out_of_order, "stand before the time of the row above; put in order"),
            ("hour-that-never-was", part.missing_hour, "stand in the hour that summer time leaves out; set aside"),
            (
                "hour-told-once",
                part.repeated_hour_once,
                "stand in the hour that comes twice, which the file has once; read as fits their neighbours",
            ),
            ("day-month-swapped", part.swapped, "had day and month swapped; put right by their neighbours"),
            ("stray-unit", part.stray_units, "carry a unit of their own and were read in it"),
        )
        known = part.utc[part.utc != NAT]
        found += [
            Finding(
                slug=slug,
                logger=logger.name,
                measure=None,
                start=moment(int(known.min()), season) if len(known) else None,
                end=moment(int(known.max()), season) if len(known) else None,
                count=count,
                words=f"{part.file}: {count_words(count, 'cell' if slug == 'stray-unit' else 'row')} {words}",
            )
            for slug, count, words in told
            if count
        ]
    return found


def empty(merged: Merged, measure: str) -> bool:
    """Whether a channel has no value at all."""
    return bool((merged.codes[measure] == BLANK).all())


def moment(utc_ms: int, season: Season) -> pd.Timestamp:
    """An instant in the season's zone."""
    return pd.Timestamp(utc_ms, unit="ms", tz="UTC").tz_convert(season.zone)


def count_words(count: int, noun: str) -> str:
    """`1 value`, `2 values`, `1 200 values`."""
    return f"{number(count)} {noun}" if count == 1 else f"{number(count)} {noun}s"
