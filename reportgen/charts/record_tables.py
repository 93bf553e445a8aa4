"""Tables of the record: files, channels, gaps, what the checks saw, loggers side by side."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Table
from reportgen.measures import record_words as say
from reportgen.measures.agreement import Agreement
from reportgen.measures.record import ChannelRecord, FileRecord
from reportgen.review import Review
from reportgen.units import MEASURES, TEMPERATURE_UNITS
from reportgen.wording import NBSP, Wording, are, count, day, largest, number, share_words

GAPS_SHOWN = 12
LEAST_H = 0.1  # by which a gap must lead to be called the longest; our own line
NOTHING = "—"


def files(review: Review) -> Table:
    """Every file: rows read = rows used + rows set aside."""
    found = review.record.files
    read, used = sum(f.rows_read for f in found), sum(f.rows_used for f in found)
    aside = read - used
    title = f"Of {count(read, 'row')} read, {number(used)} {are(used)} used and {number(aside)} set aside"
    return Table(
        uid="record_files",
        title=title if aside else f"All rows read are used, {number(read)} in all",
        subtitle="Every row below the header of every logger file: used, or set aside for one reason",
        columns=("file", "logger", "rows read", "used", "set aside, and why", "how its times were read"),
        rows=tuple(_file_row(file) for file in found),
        data=pd.DataFrame(
            {
                "file": [f.file for f in found],
                "logger": [f.logger for f in found],
                "rows read": [f.rows_read for f in found],
                "rows used": [f.rows_used for f in found],
                "rows set aside": [f.rows_read - f.rows_used for f in found],
                "reasons": [say.reasons_words(f.set_aside) for f in found],
                "clock": [f.clock for f in found],
            }
        ),
        notes=("Used plus set aside is always what was read: no row is lost without a word.",),
    )


def _file_row(file: FileRecord) -> tuple[str, ...]:
    aside = say.reasons_words(file.set_aside) or "none"
    return (file.file, file.logger, number(file.rows_read), number(file.rows_used), aside, file.clock or NOTHING)


def channels(review: Review) -> Table:
    """Every channel with its span, step, share, extremes and what was set aside."""
    w, found = Wording.of(review.season), review.record.channels
    return Table(
        uid="record_channels",
        title=f"{count(len(found), 'channel')}: what each one read",
        subtitle="One row for each measure of each logger, in the season's days",
        columns=("channel", "place", "readings used", "step", "recorded", "lowest", "mean", "highest", "set aside"),
        rows=tuple(_channel_row(w, channel) for channel in found),
        data=pd.DataFrame(
            {
                "channel": [c.name for c in found],
                "place": [say.place_name(c.where) for c in found],
                "values read": [c.values_read for c in found],
                "values used": [c.values_used for c in found],
                "values set aside": [c.values_read - c.values_used for c in found],
                "reasons": [say.reasons_words(c.set_aside) for c in found],
                "first": [c.first for c in found],
                "last": [c.last for c in found],
                "step s": [c.step_s for c in found],
                "share of the season %": [100 * c.share for c in found],
                "unit": [MEASURES[c.measure].kept for c in found],
                "lowest": [c.minimum for c in found],
                "mean": [c.mean for c in found],
                "highest": [c.maximum for c in found],
                "accuracy": [c.accuracy for c in found],
            }
        ),
    )


def _channel_row(w: Wording, c: ChannelRecord) -> tuple[str, ...]:
    low, mean, high = (
        NOTHING if value is None else say.value_words(w, c.measure, value) for value in (c.minimum, c.mean, c.maximum)
    )
    aside = say.reasons_words(c.set_aside) or "none"
    share = share_words(c.share)
    return (
        c.name, say.place_name(c.where), number(c.values_used), say.step_words(c.step_s), share, low, mean, high, aside
    )  # fmt: skip


def gaps(review: Review) -> Table | None:
    """The longest gaps of an hour or more; all of them in the file."""
    seldom = {c.name for c in review.record.channels if c.why_seldom}
    table = review.record.gaps
    table = table[~table["name"].isin(seldom)]
    long = table[table["hours"] >= 1.0]
    if long.empty:
        return None
    shared = long.groupby(["logger", "start", "end", "hours"], sort=False)["measure"].agg(list).reset_index()
    shown = shared.head(GAPS_SHOWN).to_dict("records")
    first = shown[0]
    where = f"{say.long_words(first['hours'])} of {first['logger']}, from {day(first['start'])}"
    title = f"One gap: {where}"
    if len(shared) > 1:
        top = largest([float(hours) for hours in shared["hours"]], LEAST_H)
        title = f"No gap was longer than {say.long_words(first['hours'])}"
        if top is not None:
            title = f"The longest gap: {where}"
    rest = len(shared) - len(shown)
    notes = (f"In the file beside the page: {count(rest, 'shorter gap')} of an hour or more.",) if rest else ()
    return Table(
        uid="record_gaps",
        title=title,
        subtitle="Stretches of the season without a reading, longest first",
        columns=("logger", "measures", "from", "to", "how long"),
        rows=tuple(
            (
                g["logger"],
                ", ".join(say.measure_name(measure) for measure in g["measure"]),
                say.moment(g["start"]),
                say.moment(g["end"]),
                say.long_words(g["hours"]),
            )
            for g in shown
        ),
        data=table[["name", "logger", "measure", "start", "end", "hours"]],
        notes=notes,
    )


def checks(review: Review) -> Table | None:
    """What the checks and the clock rules saw."""
    found = review.record.findings
    if not found:
        return None
    told = say.together(found)
    return Table(
        uid="record_checks",
        title=f"The checks saw {count(len(told), 'thing')} worth knowing",
        subtitle="Limits and reasons stand on the method page; nothing was changed or filled in unless it says so",
        columns=("channel", "when", "readings", "what"),
        rows=tuple(
            (
                say.whose(f.logger, measures),
                NOTHING if f.start is None or f.end is None else say.stretch_words(f.start, f.end),
                number(f.count),
                f.words,
            )
            for f, measures in told
        ),
        data=pd.DataFrame(
            {
                "check": [f.slug for f in found],
                "logger": [f.logger for f in found],
                "measure": [f.measure for f in found],
                "start": [f.start for f in found],
                "end": [f.end for f in found],
                "readings": [f.count for f in found],
                "what": [f.words for f in found],
            }
        ),
    )


def difference_words(w: Wording, measure: str, value: float) -> str:
    """A difference with its unit: 0.8 K, 5 points."""
    if MEASURES[measure].kept in TEMPERATURE_UNITS:
        return w.diff(value, 1)
    return f"{number(value, 1)}{NBSP}points"


def side_by_side(review: Review) -> Table | None:
    """Loggers of one place against each other."""
    found = review.record.agreement
    if not found:
        return None
    w = Wording.of(review.season)
    return Table(
        uid="record_agreement",
        title=_agreement_title(found),
        subtitle="Second logger less first, at every reading of the first; the middle 95 % of the differences",
        columns=("measure", "first", "second", "readings", "usual difference", "mostly from", "to", "allowed by both"),
        rows=tuple(_agreement_row(w, one) for one in found),
        data=pd.DataFrame(
            {
                "measure": [a.measure for a in found],
                "first": [a.first for a in found],
                "second": [a.second for a in found],
                "readings compared": [a.readings for a in found],
                "median difference": [a.median for a in found],
                "low 2.5 %": [a.low for a in found],
                "high 97.5 %": [a.high for a in found],
                "sum of accuracies": [a.allowed for a in found],
                "share beyond": [a.beyond for a in found],
            }
        ),
        notes=(
            "A difference does not say which of the two is right. If they hang apart, it is a true difference within "
            "the house; hang them side by side for a day and look again.",
        ),
    )


def _agreement_title(found: tuple[Agreement, ...]) -> str:
    off = [one for one in found if one.disagree]
    if off:
        one = max(off, key=lambda a: abs(a.median) / (a.allowed or 1.0))
        return f"Further apart than their accuracies allow: {one.first} and {one.second}"
    if all(one.allowed is None for one in found):
        return "Loggers side by side: how far apart they read"
    return "On average the loggers agree within their accuracies"


def _agreement_row(w: Wording, a: Agreement) -> tuple[str, ...]:
    usual, low, high = (difference_words(w, a.measure, value) for value in (a.median, a.low, a.high))
    allowed = "no accuracy given" if a.allowed is None else difference_words(w, a.measure, a.allowed)
    return (say.measure_name(a.measure), a.first, a.second, number(a.readings), usual, low, high, allowed)
