"""Findings of the record: how whole it is, and what the longest gap may hide; then those of the sensors."""

from __future__ import annotations

import pandas as pd

from reportgen.counsel import record_sensors as sensors
from reportgen.counsel.record_sensors import speaks, told
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import COLD_LEAST_H, NEARLY
from reportgen.measures import record_words as say
from reportgen.measures.exposure import channel_line, clip
from reportgen.measures.places import outdoor, seldom_outdoors
from reportgen.measures.record_words import joined_over
from reportgen.measures.there import There
from reportgen.wording import NBSP, Wording, count

WHOLE = NEARLY
LONG_GAP_H = 24.0  # a gap worth a sentence holds a whole night; ours


def findings(r: Results) -> tuple[Finding, ...]:
    """What the record itself says; silent where it is whole and nothing was set aside."""
    if all(channel.first is None for channel in r.record.channels):
        return (_nothing(),)
    rules = (_share, _gap, *sensors.RULES)
    return tuple(finding for rule in rules if (finding := rule(r)) is not None)


def _nothing() -> Finding:
    return told(
        "nothing-recorded",
        claim="No logger has a reading in the season, so no page can say what the house did.",
        evidence="The files of all loggers, between the first and the last day of season.toml.",
        next_step="Look first whether first_day and last_day are those of these files. If they are, the loggers "
        f"recorded nothing: let one beside the crop and one outdoors in the shade write every ten{NBSP}minutes.",
        figure="0",
        figure_note="readings",
        anchor="record",
        weight=100.0,
    )


def _share(r: Results) -> Finding | None:
    channel = speaks(r)
    if channel.why_seldom:
        return None
    whole = channel.share >= WHOLE
    words = say.share_words(channel.share)
    missing, winter = say.long_words(channel.hours_in_season - channel.hours_recorded), There.of(r.readings).season
    return told(
        "how-whole-the-record-is",
        claim=f"{words[:1].upper()}{words[1:]} of the {winter} is on record at {channel.logger}"
        + (": what the pages say holds for nearly all of it." if whole else f"; nothing is known of {missing}."),
        evidence=f"{say.readings_count(channel.values_used)} of {say.measure_name(channel.measure)}, "
        f"{say.step_words(channel.step_s)}; readings further apart than three steps, or "
        f"{joined_over(channel.measure)}, are not joined.",
        next_step="Keep it so: read the loggers off once a month and change the batteries in autumn."
        if whole
        else "Read the loggers off once a month next winter: then a flat battery or a full memory costs days.",
        figure=words,
        figure_note=f"of the {winter} recorded",
        anchor="record_days",
        stake="good news" if whole else "record",
        weight=0.0 if whole else 10.0 * (1.0 - channel.share),
        sources=(
            Source(
                csv="record_channels.csv",
                how="max",
                column="share of the season %",
                rows=f"channel == {channel.name!r}",
                value=100.0 * channel.share,
            ),
        ),
    )


def _gap(r: Results) -> Finding | None:
    channel, gaps = speaks(r), r.record.gaps
    mine = gaps[(gaps["logger"] == channel.logger) & (gaps["measure"] == channel.measure)]
    if channel.why_seldom or mine.empty or float(mine.iloc[0]["hours"]) < LONG_GAP_H:
        return None
    start, end, hours = (mine.iloc[0][name] for name in ("start", "end", "hours"))
    return told(
        "longest-gap-in-the-record",
        claim=f"Nothing was recorded at {channel.logger} for {say.long_words(float(hours))}, from {say.moment(start)}; "
        f"{_coldest_outside(r, start, end)}.",
        evidence=(f"The longest of {count(len(mine), 'gap')}" if len(mine) > 1 else "The only gap")
        + " of that channel. What was colder or damper in a gap is in no count.",
        next_step="If the battery gave out, fit a fresh one each autumn (lithium cells bear cold better; common "
        "practice, no source); if the memory was full, read it off sooner.",
        figure=say.long_words(float(hours)),
        figure_note="longest gap",
        anchor="record_gaps",
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
