"""What the checks saw, in words: one finding for each reason and channel, and for each oddity of a file's times."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.file_rows import FileRows
from reportgen.readings.join import joined
from reportgen.readings.marks import (
    BLANK,
    DEAD_ROW,
    IMPOSSIBLE,
    INTERPOLATED,
    JUMP,
    OUTSIDE,
    REPEATED,
    SENTINEL,
    STUCK,
    USED,
)
from reportgen.readings.merge import Merged
from reportgen.readings.stamps import NAT
from reportgen.readings.swap_words import swaps_words
from reportgen.readings.types import CheckFinding
from reportgen.season import Logger, Season
from reportgen.wording import number

_Make = Callable[[str, Ints, str], CheckFinding]
SATURATED_PCT = 99.5  # from here on a humidity sensor cannot tell more; common practice
HOT_C = 50.0  # possible in a closed house in the sun, more likely a sensor in the sun (season-folder contract)
SATURATED_HOURS = 24.0  # worth a word from a day on; common practice

_ASIDE = (  # mark, slug, the verb for one and for many, and the rest
    (REPEATED, "repeated", "stands", "stand", "at an instant that is told twice; one of them is used"),
    (OUTSIDE, "outside-the-season", "lies", "lie", "before the first or after the last day; set aside"),
    (DEAD_ROW, "dead-row", "stands", "stand", "in rows that say nothing but 0 and error codes; set aside"),
    (SENTINEL, "sentinel", "stands", "stand", "for no reading, such as −999; set aside"),
    (IMPOSSIBLE, "impossible", "cannot", "cannot", "be for this measure; set aside"),
    (
        INTERPOLATED,
        "interpolated",
        "has",
        "have",
        "far more decimals than the file usually writes: computed, set aside",
    ),
    (STUCK, "stuck", "did", "did", "not move for longer than such a sensor can stand still; set aside"),
    (JUMP, "jump", "leaps", "leap", "away from the readings around and back at once; set aside"),
)


def channel_findings(logger: Logger, measure: str, merged: Merged, wet: int, season: Season) -> list[CheckFinding]:
    """What was seen in one channel once its values are coded."""
    code = merged.codes[measure]

    def finding(slug: str, rows: Ints, words: str) -> CheckFinding:
        instants = merged.utc[rows]
        return CheckFinding(
            slug=slug,
            logger=logger.name,
            measure=measure,
            start=moment(int(instants.min()), season),
            end=moment(int(instants.max()), season),
            count=len(rows),
            words=words,
        )

    found = [
        finding(slug, rows, f"{count_words(len(rows), 'value')} {one if len(rows) == 1 else many} {rest}")
        for mark, slug, one, many, rest in _ASIDE
        if len(rows := np.flatnonzero(code == mark))
    ]
    used = merged.order[code[merged.order] == USED]
    found += _disagreements(measure, merged, finding)
    if wet:
        rows = used[merged.values[measure][used] == 100.0]
        words = f"{count_words(wet, 'value')} above 100 % (to 105 %) kept as 100"
        found.append(finding("above-100", rows, words))
    found += _of_values(measure, merged, used, finding)
    return found


def _disagreements(measure: str, merged: Merged, finding: _Make) -> list[CheckFinding]:
    """Values of one instant that differ, between files and within one."""
    rows = np.flatnonzero(merged.codes[measure] == REPEATED)
    others, own = merged.disagreements.get(measure, (0, 0))
    told = (
        (others, f"{others} of {len(rows)} repeated values differ from the one used, that of the file sorting later"),
        (
            own,
            f"{own} of {len(rows)} repeated values differ from the one used, the first for its time in the same file",
        ),
    )
    return [finding("repeated-differ", rows, words) for differ, words in told if differ]


def _of_values(measure: str, merged: Merged, used: Ints, finding: _Make) -> list[CheckFinding]:
    values, found = merged.values[measure][used], []
    if measure.endswith("humidity"):
        wet = used[values >= SATURATED_PCT]
        hours = _hours(merged.utc[used], values >= SATURATED_PCT)
        if hours >= SATURATED_HOURS:
            words = f"{hours:.0f} h at 99.5 % or more, where the sensor cannot tell how wet it is"
            found.append(finding("saturated", wet, words))
    hot = used[values > HOT_C] if measure == "air_temperature" else used[:0]
    if len(hot):
        words = (
            f"{count_words(len(hot), 'value')} above {HOT_C:.0f} °C, up to {values.max():.0f} °C, used as they are: "
            "did the sun shine on the sensor?"
        )
        found.append(finding("above-50", hot, words))
    if measure == "heater_energy" and len(values) > 1:
        drops = used[1:][np.diff(values) < 0]
        if len(drops):
            words = f"the counter began again {count_words(len(drops), 'time')}; what it counted is joined"
            found.append(finding("counter-reset", drops, words))
    return found


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


def file_findings(logger: Logger, parts: Sequence[FileRows], season: Season) -> list[CheckFinding]:
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
            ("stray-unit", part.stray_units, "carry a unit of their own and were read in it"),
        )
        found += [_of_file(logger, part, slug, count, words, season) for slug, count, words in told if count]
        if part.swaps:
            found.append(_swapped(logger, part, season))
        found += [
            CheckFinding(
                slug=odd.slug,
                logger=logger.name,
                measure=None,
                start=moment(odd.span[0], season),
                end=moment(odd.span[1], season),
                count=odd.count,
                words=f"{part.file}: {odd.words}",
            )
            for odd in part.oddities
        ]
    return found


def _of_file(logger: Logger, part: FileRows, slug: str, count: int, words: str, season: Season) -> CheckFinding:
    known = part.utc[part.utc != NAT]
    return CheckFinding(
        slug=slug,
        logger=logger.name,
        measure=None,
        start=moment(int(known.min()), season) if len(known) else None,
        end=moment(int(known.max()), season) if len(known) else None,
        count=count,
        words=f"{part.file}: {count_words(count, 'cell' if slug == 'stray-unit' else 'row')} {words}",
    )


def _swapped(logger: Logger, part: FileRows, season: Season) -> CheckFinding:
    """What was put right of day and month, from the first to the last of those days."""
    known = part.utc[np.isin(part.lines, [line for swap in part.swaps for line in swap.lines]) & (part.utc != NAT)]
    return CheckFinding(
        slug="day-month-swapped",
        logger=logger.name,
        measure=None,
        start=moment(int(known.min()), season) if len(known) else None,
        end=moment(int(known.max()), season) if len(known) else None,
        count=sum(swap.stretch.count for swap in part.swaps),
        words=swaps_words(part.file, part.swaps),
    )


def empty(merged: Merged, measure: str) -> bool:
    """Whether a channel has no value at all."""
    return bool((merged.codes[measure] == BLANK).all())


def moment(utc_ms: int, season: Season) -> pd.Timestamp:
    """An instant in the season's zone."""
    return pd.Timestamp(utc_ms, unit="ms", tz="UTC").tz_convert(season.zone)


def count_words(count: int, noun: str) -> str:
    """`1 value`, `2 values`, `1 200 values`."""
    return f"{number(count)} {noun}" if count == 1 else f"{number(count)} {noun}s"
