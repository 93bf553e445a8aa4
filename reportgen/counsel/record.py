"""Findings of the record: that nothing was read, and what the longest gap may hide; then those of the sensors."""

from __future__ import annotations

import pandas as pd

from reportgen.counsel.facts import Facts
from reportgen.counsel.record_sensors import COUNTED, nothing_read, speaks
from reportgen.counsel.results import Results
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import COLD_LEAST_H, NEARLY
from reportgen.measures import record_words as say
from reportgen.measures.exposure import channel_line, clip
from reportgen.measures.places import outdoor, seldom_outdoors
from reportgen.wording import NBSP, Wording, count

WHOLE = NEARLY
LONG_GAP_H = 24.0  # a gap worth a sentence holds a whole night; ours


def nothing(facts: Facts) -> Said | None:
    """No logger gave a reading."""
    if not nothing_read(facts.r):
        return None
    return Said(
        claim="No logger has a reading in the season, so no page can say what the house did.",
        evidence="The files of all loggers, between the first and the last day of season.toml.",
        how_sure=COUNTED,
        next_step="Set first_day and last_day to the days of the loggers' files. If they are so already, the loggers "
        f"recorded nothing: let one beside the crop and one outdoors in the shade write every ten{NBSP}minutes.",
        figure="0",
        figure_note="readings",
        weight=100.0,
    )


def gap(facts: Facts) -> Said | None:
    """The longest gap of the channel that speaks for the record."""
    r = facts.r
    if nothing_read(r):
        return None
    channel, gaps = speaks(r), r.record.gaps
    mine = gaps[(gaps["logger"] == channel.logger) & (gaps["measure"] == channel.measure)]
    if channel.why_seldom or mine.empty or float(mine.iloc[0]["hours"]) < LONG_GAP_H:
        return None
    start, end, hours = (mine.iloc[0][name] for name in ("start", "end", "hours"))
    return Said(
        claim=f"Nothing was recorded at {channel.logger} for {say.long_words(float(hours))}, from {say.moment(start)}; "
        f"{_coldest_outside(r, start, end)}.",
        evidence=(f"The longest of {count(len(mine), 'gap')}" if len(mine) > 1 else "The only gap")
        + " of that channel. What was colder or damper in a gap is in no count.",
        how_sure=COUNTED,
        next_step="If the battery gave out, fit a fresh one each autumn (lithium cells bear cold better; common "
        "practice, no source); if the memory was full, read it off sooner.",
        figure=say.long_words(float(hours)),
        figure_note="longest gap",
        about=channel.logger,
        weight=float(hours) / 24.0,
        sources=(
            Source(csv="record_gaps.csv", how="max", column="hours", rows=f"name == {channel.name!r}", value=hours),
        ),
    )


def _coldest_outside(r: Results, start: pd.Timestamp, end: pd.Timestamp) -> str:
    found = outdoor(r.readings, "air_temperature")
    part = clip(channel_line(found), start, end) if found is not None else None
    if part is None or part.hours_recorded < COLD_LEAST_H:
        seldom = seldom_outdoors(r.readings, "air_temperature")
        return "how cold it was outside then is " + (
            "not on record either" if seldom is None else "not known either, from readings so far apart"
        )
    w = Wording.of(r.season)
    lost = (end - start) / pd.Timedelta(hours=1) - part.hours_recorded
    known = f" as far as is known; {w.hours(lost)} are not on record outside either" if lost >= 2 * COLD_LEAST_H else ""
    return f"outside it fell to {w.temp(float(part.values.min()))} in that time{known}"
