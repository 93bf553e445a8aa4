"""Findings of the sensors: what was set aside, which loggers disagree, what a check in ice showed, what is missing."""

from __future__ import annotations

from reportgen.counsel.brief import begun
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Said, Source
from reportgen.measures import record_words as say
from reportgen.measures.agreement import Agreement
from reportgen.measures.places import outdoor, seldom_outdoors
from reportgen.measures.record import ChannelRecord
from reportgen.measures.seldom import how_often
from reportgen.measures.there import outdoors_named
from reportgen.season.sources import Logger, SensorCheck
from reportgen.units import MEASURES, TEMPERATURE_UNITS
from reportgen.wording import NBSP, Wording, count, day, number, share_of, share_words

COUNTED = "Sure: every row of every file is counted."
MANY = 0.01  # share of a channel's values set aside that is worth a sentence; ours
# Reasons that say nothing about the sensor.
HOUSEKEEPING = ("outside the season", "repeated", "not a reading", "unreadable time")


def speaks(r: Results) -> ChannelRecord:
    """The channel the record is judged by: the main crop logger's air, else the first that has readings.

    At one place one that was read too seldom comes after the others.
    """
    order = {logger.name: (not logger.main, n) for n, logger in enumerate(r.season.loggers)}
    found = [channel for channel in r.record.channels if channel.first is not None]
    return min(
        found,
        key=lambda c: (
            c.measure != "air_temperature",
            c.where != "crop",
            bool(c.why_seldom),
            order.get(c.logger, (True, 99)),
        ),
    )


def nothing_read(r: Results) -> bool:
    """No logger has a reading in the season."""
    return all(channel.first is None for channel in r.record.channels)


def seldom(facts: Facts) -> Said | None:
    """Channels that were read too seldom for anything but a mean."""
    r = facts.r
    found = [c for c in r.record.channels if c.why_seldom]
    if not found:
        return None
    first = min(found, key=lambda c: (c.where != "crop", c.measure != "air_temperature"))
    others = len(found) - 1
    more = f" So it is with {count(others, 'other channel')}." if others else ""
    single = first.values_used < 2
    how = f"read {how_often(first.step_s)}" if first.step_s is not None and not single else "read once"
    return Said(
        claim=f"“{first.logger}” was {how} in {say.measure_name(first.measure)}: too seldom to tell a night, hours or "
        "the coldest moment.",
        evidence=f"{say.readings_count(first.values_used)} in {number(first.hours_in_season / 24.0)}{NBSP}days; what "
        f"lay between them nobody knows.{more}",
        how_sure="Sure: the times of the readings say so.",
        next_step="Let a logger write every ten minutes or so, day and night; if you read a thermometer by hand, one "
        "that keeps its lowest and highest, read each morning, at least tells how cold it was.",
        figure=number(first.values_used),
        figure_note="reading in all" if single else "readings in all",
        weight=50.0,
    )


def aside(facts: Facts) -> Said | None:
    """Readings of a channel that could not be used."""
    r = facts.r
    shares = [(_faulty(c) / c.values_read, c) for c in r.record.channels if c.values_read]
    many = [entry for entry in shares if entry[0] >= MANY]
    if not many:
        return None
    share, channel = max(many, key=lambda entry: (entry[0], entry[1].name))
    reasons = {reason: n for reason, n in channel.set_aside.items() if reason not in HOUSEKEEPING}
    return Said(
        claim=f"{begun(share_of(share))} of what {channel.logger} read as {say.measure_name(channel.measure)} could "
        f"not be used: {say.reasons_words(reasons)}.",
        evidence=f"{number(_faulty(channel))} of {say.readings_count(channel.values_read)}; the limits stand on the "
        "method page.",
        how_sure="A hint: a rule cannot tell a faulty sensor from a true oddity every time.",
        next_step="Hang the sensor in a ventilated screen, dry and out of the sun, and put it beside another for a day "
        "before you trust it again.",
        figure=share_words(share),
        figure_note="set aside",
        weight=10.0 * share,
    )


def _faulty(channel: ChannelRecord) -> int:
    return sum(n for reason, n in channel.set_aside.items() if reason not in HOUSEKEEPING)


def disagree(facts: Facts) -> Said | None:
    """Two loggers of one place that differ by more than they may."""
    r = facts.r
    off = [one for one in r.record.agreement if one.disagree]
    if not off:
        return None
    one = max(off, key=lambda a: (abs(a.median) / (a.allowed or 1.0), a.first, a.second))
    usual, allowed = (_difference(r, one, value) for value in (abs(one.median), one.allowed or 0.0))
    more = "lower" if one.median < 0 else "higher"
    return Said(
        claim=f"“{one.second}” usually reads {usual} {more} than “{one.first}” in {say.measure_name(one.measure)}; "
        f"their accuracies allow {allowed}.",
        evidence=f"{say.readings_count(one.readings)} of both at the same time.",
        how_sure="Sure that they differ; not which of them is right, nor whether both hung at one spot.",
        next_step=f"Hang “{one.first}” and “{one.second}” side by side in the shade for a day. If they still differ, "
        "check both in melting ice and write what they read into the key checks; if they agree, the house itself "
        "differs by that much.",
        figure=usual,
        figure_note="between two loggers",
        token="warm",
        weight=abs(one.median) / (one.allowed or 1.0),
        sources=(
            Source(
                csv="record_agreement.csv",
                how="max",
                column="median difference",
                rows=f"first == {one.first!r} and second == {one.second!r} and measure == {one.measure!r}",
                value=one.median,
            ),
        ),
    )


def _difference(r: Results, one: Agreement, value: float) -> str:
    if MEASURES[one.measure].kept in TEMPERATURE_UNITS:
        return Wording.of(r.season).diff(value)
    return f"{number(value, 1)}{NBSP}points"


def ice(facts: Facts) -> Said | None:
    """A check the grower made that the accuracy does not cover and no offset takes out."""
    r = facts.r
    found = [(logger, check) for logger in r.season.loggers for check in logger.checks if _off(logger, check)]
    if not found:
        return None
    logger, check = max(found, key=lambda pair: abs(pair[1].read - pair[1].reference))
    unit = _unit(logger, check)
    by = f"{number(abs(check.read - check.reference), 1)}{NBSP}{unit}"
    more = "high" if check.read > check.reference else "low"
    return Said(
        claim=f"{logger.name} read {by} too {more} in your check of {day(check.date)}, more than its accuracy allows.",
        evidence=f"It read {number(check.read, 1)} where {number(check.reference, 1)} was right, in "
        f"{say.measure_name(check.measure)}.",
        how_sure="Sure for that check: it is one point; a sensor may be off by another amount elsewhere.",
        next_step=f"{'Take off' if more == 'high' else 'Add'} {by} by the key offset of that column in season.toml, "
        "run the review again, and check once more when the season has ended.",
        figure=by,
        figure_note=f"too {more}",
        token="warm",
        weight=abs(check.read - check.reference),
    )


def _off(logger: Logger, check: SensorCheck) -> bool:
    column = logger.measures[check.measure]
    return column.accuracy is not None and abs(check.read + column.offset - check.reference) > column.accuracy


def _unit(logger: Logger, check: SensorCheck) -> str:
    unit = logger.measures[check.measure].unit or MEASURES[check.measure].kept
    return {"degC": "K", "degF": "°F", "%": "points"}.get(unit, unit)


def outdoors(facts: Facts) -> Said | None:
    """Nothing was logged outdoors."""
    r = facts.r
    if (
        nothing_read(r)
        or outdoor(r.readings, "air_temperature") is not None
        or seldom_outdoors(r.readings, "air_temperature") is not None
    ):
        return None
    named = outdoors_named(r.season)
    return Said(
        claim="Nothing was logged outdoors, so the weather cannot be taken out of any change.",
        evidence="The thermometer outdoors that season.toml lists left no reading in the season's days."
        if named
        else "No logger of season.toml is outdoors and none has an outdoor_temperature.",
        how_sure="Sure.",
        next_step="Give the outdoor logger a fresh battery and an empty memory, and name its files of these days in "
        "season.toml."
        if named
        else "Hang one logger outdoors in the shade, out of the rain, away from the house wall: it is the "
        "cheapest way to learn what a change did.",
        figure="—",
        figure_note="no outdoor logger",
        weight=20.0,
    )


def accuracy(facts: Facts) -> Said | None:
    """The channel that speaks for the record has no accuracy."""
    r = facts.r
    if nothing_read(r) or speaks(r).accuracy is not None:
        return None
    channel = speaks(r)
    return Said(
        claim=f"The accuracy of {channel.logger} is not given, so no count can say how much the sensor leaves open.",
        evidence=f"season.toml has no accuracy beside {say.measure_name(channel.measure)} of {channel.logger}. A "
        f"sensor that is {Wording.of(r.season).diff(0.5)} off can turn a night of frost into none.",
        how_sure="Sure.",
        next_step=f"Write the ± of {channel.logger}'s data sheet as accuracy beside its column, in the column's unit.",
        figure="±\u00a0?",
        figure_note="accuracy unknown",
        weight=1.0,
    )
