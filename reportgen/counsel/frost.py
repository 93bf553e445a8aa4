"""Findings of the Frost page: how close it was where nothing happened, what gaps hid, what a failure would do."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel import cautions
from reportgen.counsel.brief import begun
from reportgen.counsel.events_cause import nights_told
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import (
    COLD_LEAST_H,
    LEAST_H,
    gaps_in,
    hidden,
    hidden_words,
    on_record,
    quoted,
)
from reportgen.measures.frost import CropMargin, Forecast
from reportgen.measures.frost_limit import evening
from reportgen.wording import NBSP, Wording, are, clock, count, day, listed

CLOSE_K = 2.0  # a night this near the line is a close call; our own line
FAR_K = 5.0  # further from it than this the line was not in question; our own line


def closest(facts: Facts) -> Said | None:
    """The coldest moment, where no event tells it."""
    f, w, m = facts.r.frost, facts.w, facts.r.frost.minimum
    if m.temperature_c is None or m.margin_k is None or m.at is None or _told_as_event(facts):
        return None
    lost, spared = hidden(f, w), on_record(f.hours_recorded, f.hours_recorded + f.hours_unrecorded)
    part = f"; {count(f.nights_partly_logged, 'night')} in part" if f.nights_partly_logged else ""
    outside = f" It was {w.temp(m.outdoor_c)} outdoors." if m.outdoor_c is not None else ""
    noted = [e.what for e in facts.r.readings.diary if e.kind == "event" and evening(m.at) in nights_told(e)]
    diary = f" In the diary of that night: {quoted(noted)}." if noted else ""
    return Said(
        claim=_closest_words(facts),
        evidence=f"At {f'the logger “{m.logger}”' if m.logger else 'the crop'} at {clock(m.at)}.{outside}{diary} "
        f"{begun(count(f.nights, 'night'))} {are(f.nights, 'was', 'were')} logged whole{part}.",
        how_sure=f"Sure for the place where the logger hangs{_plus_minus(facts)}."
        + (" It may have been colder in the hours that are not on record." if lost else ""),
        next_step=_after_close(facts, bool(noted))
        if m.margin_k < CLOSE_K
        else f"Keep what you did: the margin was not used up{spared or ' at any time'}.",
        figure=w.temp(m.temperature_c),
        figure_note=f"coldest, {day(m.at)}",
        about=m.logger,
        token="cold",
        stake="crop at risk" if m.margin_k < 0 else "good news" if m.margin_k >= CLOSE_K and not lost else "record",
        weight=max(-m.margin_k, 0.0) + 0.5,
        sources=_at_night(facts),
    )


def _after_close(facts: Facts, noted: bool) -> str:
    """What to do after a close call: of a night on which something happened, against the like of it."""
    if noted:
        clear = ", clear of any heater" if facts.there.heater else ""
        return f"Keep fleece at hand{clear}, and an alarm that tells when the air at the crop falls."
    return f"Draw fleece {_over(facts)} first, on nights forecast {_as_cold(facts)}."


def _told_as_event(facts: Facts) -> bool:
    """An event holds the coldest moment of the season, or one as cold."""
    lowest = facts.r.frost.minimum.temperature_c
    return any(e.minimum_c is not None and lowest is not None and e.minimum_c <= lowest + 0.05 for e in facts.on.events)


def _closest_words(facts: Facts) -> str:
    f, w, m = facts.r.frost, facts.w, facts.r.frost.minimum
    if m.temperature_c is None or m.margin_k is None or m.at is None:
        return ""
    record = " in the hours on record" if gaps_in(f.hours_unrecorded) else ""
    if m.margin_k > FAR_K:
        return f"It was never colder than {w.temp(m.temperature_c)} at the crop{record} ({day(m.at)})."
    side = "under" if m.margin_k < 0 else "above"
    return (
        f"The coldest moment{' on record' if record else ''} was {w.temp(m.temperature_c)} on {day(m.at)}, "
        f"{w.diff(abs(m.margin_k))} {side} your frost line of {w.temp(f.line_c)}."
    )


def _at_night(facts: Facts) -> tuple[Source, ...]:
    """The table of nights, if the coldest moment lay in one of the season's nights."""
    f, w = facts.r.frost, facts.w
    coldest = f.minimum.temperature_c
    if coldest is None or not f.table["inside_min"].min() <= coldest + 1e-9:
        return ()
    return (Source(csv="frost_nights.csv", how="min", column=f"inside {w.temp_unit}", value=w.temp_value(coldest)),)


def _plus_minus(facts: Facts) -> str:
    """, within the sensor's ± 0.5 K."""
    f = facts.r.frost
    channel = facts.r.readings.channel(f.minimum.logger or "", "air_temperature")
    if channel is None or channel.accuracy is None:
        return "; its accuracy is not given"
    return f", within its ±{NBSP}{facts.w.diff(channel.accuracy)}"


def if_it_fails(facts: Facts) -> Said | None:
    """Where the air would be after a failure, from the house's own behaviour."""
    f, w = facts.r.frost, facts.w
    row = next((x for x in f.after_failure if x.outdoor_c <= -5.0), None)
    if row is None:
        return None
    words = {"<3": "within three hours", "3-8": "between three and eight hours", ">8": "after more than eight hours"}
    when = words.get(row.hours_to_line)
    reach = (
        f"the air would be at the frost line {when}" if when else "the air may or may not reach the frost line by dawn"
    )
    return Said(
        claim=f"If the heat fails at {w.temp(row.outdoor_c, 0)} outdoors, {reach}.",
        evidence=f"About {_after_words(w, row.after_3h, 3)}, {_after_words(w, row.after_8h, 8)}; "
        f"from {count(f.ahead.stopped_nights, 'heated night')} of your own house, as it is now.",
        how_sure="Nine in ten: on simulated houses with known truth about nine in ten failures ended in such a span.",
        next_step="Agree before the frost who comes when the heater fails, and lay out the fleece they would draw, "
        "clear of any heater.",
        caution=cautions.ALONE,
        figure=w.temp(row.after_3h_c, 0),
        figure_note=f"after 3{NBSP}h at {w.temp(row.outdoor_c, 0)}",
        token="cold",
        stake="crop at risk" if row.after_8h_c < f.line_c else "good news",
        weight=0.4,
    )


def _after_words(w: Wording, told: Forecast, hours: int) -> str:
    """−1 °C after 8 h (−3 to 1 °C)."""
    return f"{w.temp(told.estimate, 0)} after {hours}{NBSP}h ({w.temp(told.low, 0)} to {w.temp(told.high, 0)})"


def without_heat(facts: Facts) -> Said | None:
    """The coldest night as it would have been without heat, and whom the heat kept from it."""
    f, w = facts.r.frost, facts.w
    bare = f.without_heat_minimum_c
    if bare.estimate != bare.estimate:
        return None
    saved = [c for c in f.crops if _saved(c)]
    names = listed(dict.fromkeys(_planting(c, f.crops) for c in saved))
    told = " on the nights that can be worked out" if gaps_in(f.hours_unrecorded) else ""
    known = [c for c in f.crops if c.without_heat_c is not None and c.damage_high_c is not None]
    met = any((c.without_heat_c or 0.0) < (c.damage_high_c or 0.0) for c in known)
    none = f" No crop with a known damage band would have met it{told}." if known and not met else ""
    harmless = bare.low >= f.line_c or (len(known) == len(f.crops) > 0 and not met and not told)
    return Said(
        claim=f"Without heat the coldest night would have been about {w.temp(bare.estimate, 0)} inside."
        + (f" Heat kept from the cold that harms it: {names}." if names else none),
        evidence=f"Between {w.temp(bare.low, 0)} and {w.temp(bare.high, 0)}, from how the air of this house followed "
        f"its heat, the outdoor air and its bed; told for {count(len(f.without_heat_nights), 'night')}, on the chart.",
        how_sure="Nine in ten for the air: of ten such spans on simulated houses about nine held the truth."
        f"{' Damage bands are rough.' if names or none else ''}",
        next_step=f"Grow {names} again only if the weeks of heat they take are worth it."
        if len(saved) > 1
        else f"Grow {names} again only if the weeks of heat this takes are worth it."
        if names
        else "Count the heat as bought for growth, not for survival, and weigh it so against its price."
        if harmless
        else "Do not count on doing without heat: write down what stood there and the cold it came through, then weigh "
        "the heat against its price.",
        figure=w.temp(bare.estimate, 0),
        figure_note="coldest without heat",
        token="cold",
        stake="good news" if names else "money",
        weight=1.0,
    )


def _over(facts: Facts) -> str:
    """The place that was coldest, by its logger where there are several."""
    loggers = {channel.logger for channel in facts.r.readings.channels if channel.where == "crop"}
    logger = facts.r.frost.minimum.logger
    return f"at “{logger}”" if logger and len(loggers) > 1 else "over the crop"


def _as_cold(facts: Facts) -> str:
    """near −4 °C, by what it was outdoors then; without a logger there, by the date."""
    m = facts.r.frost.minimum
    if m.outdoor_c is not None:
        return f"near {facts.w.temp(m.outdoor_c, 0)}"
    return f"as cold as {day(m.at)}" if m.at is not None else "to freeze"


def _planting(c: CropMargin, crops: Sequence[CropMargin]) -> str:
    """The crop, with its dates where another planting of it was not spared."""
    alike = [other for other in crops if other.crop == c.crop]
    if all(_saved(other) for other in alike) or len(alike) == 1:
        return c.crop
    return f"the {c.crop} that stood from {day(c.from_)}"


def _saved(c: CropMargin) -> bool:
    """Without heat it would have met its band; with heat it did not."""
    if c.without_heat_c is None or c.damage_high_c is None or c.margin_k is None:
        return False
    return c.without_heat_c < c.damage_high_c <= c.margin_k + c.damage_high_c


def unwatched(facts: Facts) -> Said | None:
    """Hours under the frost line outdoors, or of which outdoors is not known either, without any crop air."""
    cold = facts.number("frost.unrecorded_cold_hours") or 0.0
    unknown = facts.number("frost.unrecorded_unknown_hours") or 0.0
    if cold < COLD_LEAST_H and unknown < LEAST_H:
        return None
    w, could, hours = facts.w, facts.number("frost.could_have_been_c"), cold if cold >= COLD_LEAST_H else unknown
    guess = f" The air could have been as low as {w.temp(could)}." if could is not None else ""
    return Said(
        claim=hidden_words(cold, unknown, w.temp(facts.number("frost.line_c") or 0.0)),
        evidence=f"Hours without crop air on record"
        f"{', by the outdoor air of that time' if cold >= COLD_LEAST_H else ''}.{guess}",
        how_sure="Cannot tell what happened in them; that they are missing is sure.",
        next_step=_watch(facts),
        figure=w.hours(hours),
        figure_note="cold and unwatched" if cold >= COLD_LEAST_H else "of which nobody knows",
        token="cold",
        stake="crop at risk" if cold >= COLD_LEAST_H else "record",
        weight=hours,
    )


def _watch(facts: Facts) -> str:
    """What keeps the next cold hours on record, by what hangs at the crop."""
    if facts.number("frost.minimum.temperature_c") is not None:
        return (
            "Put fresh batteries into the loggers before the cold begins, and keep a second logger in the coldest "
            "corner."
        )
    if facts.there.logged("crop_air"):
        return "Hang the logger in the coldest corner of the crop and let it write every ten minutes, day and night."
    if "air_temperature" in facts.there.unheard:
        return "Find out why the logger inside left no reading that can be used, before the cold begins."
    return (
        "Hang a logger among the plants, in the coldest corner, before the cold begins, and let it write every ten "
        "minutes, day and night."
    )
