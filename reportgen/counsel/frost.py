"""Findings of the Frost page: how close it was, which crops, what gaps hid, what a failure would do, which alarm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost_next import CLOSE_K, NEXT
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import gaps_in, hidden, on_record
from reportgen.measures.frost import CropMargin, Forecast
from reportgen.wording import NBSP, Wording, are, between, clock, count, day, number


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the frost measure says; silent where it cannot."""
    facts = Facts.of(r)
    if r.frost.minimum.temperature_c is None:
        return ()
    rules = (_closest, _nights, _failure, _if_it_fails, _without_heat, *NEXT)
    told = [finding for rule in rules if (finding := rule(facts)) is not None]
    return (*_crops(facts), *told)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="frost", **more)


def _place(facts: Facts) -> str:
    m = facts.r.frost.minimum
    return f"at the logger “{m.logger}”" if m.logger else "in the house"


def _closest(facts: Facts) -> Finding | None:
    f, w = facts.r.frost, facts.w
    m = f.minimum
    if m.temperature_c is None or m.margin_k is None or m.at is None:
        return None
    below = m.margin_k < 0
    side = "below" if below else "above"
    outside = f" It was {w.temp(m.outdoor_c)} outdoors." if m.outdoor_c is not None else ""
    lost, known = hidden(f, w), " on record" if gaps_in(f.hours_unrecorded) else ""
    spared = on_record(f.hours_recorded, f.hours_recorded + f.hours_unrecorded)
    part = f"; {count(f.nights_partly_logged, 'night')} in part" if f.nights_partly_logged else ""
    return _finding(
        "coldest-moment",
        claim=f"The coldest moment{known} was {w.temp(m.temperature_c)} on {day(m.at)}, "
        f"{w.diff(abs(m.margin_k))} {side} your frost line of {w.temp(f.line_c)}.",
        evidence=f"{_place(facts)[:1].upper()}{_place(facts)[1:]} at {clock(m.at)}.{outside} "
        f"{count(f.nights, 'night')} {are(f.nights, 'was', 'were')} logged whole{part}." + (f" {lost}" if lost else ""),
        how_sure=f"Sure for the place where the logger hangs{_plus_minus(facts)}."
        + (" It may have been colder in the hours that are not on record." if lost else ""),
        next_step=f"{_look(facts)} guard that place first."
        if below or m.margin_k < CLOSE_K
        else f"Keep what you did: the margin was not used up{spared or ' at any time'}.",
        figure=w.temp(m.temperature_c),
        figure_note=f"coldest, {day(m.at)}",
        token="cold",
        anchor="frost_nights",
        stake="crop at risk" if below else "good news" if m.margin_k >= CLOSE_K and not lost else "record",
        sure="sure",
        weight=max(-m.margin_k, 0.0) + 0.5,
        sources=_at_night(facts),
    )


def _look(facts: Facts) -> str:
    """What of that night is on record and worth a look."""
    f, there = facts.r.frost, facts.there
    asked = (
        (there.diary_lines, "what was written in the diary"),
        (there.heater and bool(f.table["heated_h"].notna().any()), "whether the heater ran"),
        (bool(f.table["clear"].notna().any()), "how clear the sky was"),
    )
    told = [words for known, words in asked if known]
    return f"Look at that night in the tables: {', '.join(told)}. Then" if told else "On such a night"


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


def _crops(facts: Facts) -> list[Finding]:
    """The crops that met their damage band, the hardest hit first; at most two."""
    hit = [c for c in facts.r.frost.crops if c.margin_k is not None and c.margin_k < 0 and c.coldest_at is not None]
    hit.sort(key=lambda c: (c.margin_k or 0.0, c.crop))
    return [_crop(facts, c) for c in hit[:2]]


def _crop(facts: Facts, c: CropMargin) -> Finding:
    w = facts.w
    coldest, under, high = c.coldest_c or 0.0, -(c.margin_k or 0.0), c.damage_high_c or 0.0
    lost = bool(c.lost)
    bed = f" in the bed “{c.bed}”" if c.bed else ""
    before = (
        f" The week before had been {w.temp(c.week_before_c)} at its nights' coldest on average."
        if (c.week_before_c is not None)
        else ""
    )
    losses = f" You noted {count(c.lost or 0, 'plant')} lost; from what, a thermometer cannot tell." if lost else ""
    assumed = " No planting dates, so it is judged as if it stood all season." if c.assumed_standing else ""
    when = day(c.coldest_at) if c.coldest_at is not None else ""
    return _finding(
        "crop-in-its-damage-band",
        claim=f"The {c.crop}{bed} met {w.temp(coldest)} on {when}, {w.diff(under)} colder than where its damage begins "
        f"({w.temp(high)}).",
        evidence=f"Coldest air at {'the ' if c.place == 'coldest place' else 'the logger '}{c.place} while it stood, "
        f"against {c.source}.{before}{losses}{assumed}",
        how_sure=f"A hint for damage: hardiness moves by {w.diff(3, 0)} to {w.diff(5, 0)} with the weeks before"
        + (", and the band is from memory." if c.source.startswith("from memory") else "."),
        next_step=f"Cover that bed on nights forecast near {w.temp(high)} indoors, or sow a hardier kind there.",
        figure=w.temp(coldest),
        figure_note=f"{c.crop}, {when}",
        token="cold",
        anchor="frost_crops",
        stake="crop lost" if lost else "crop at risk",
        sure="a hint",
        weight=under,
    )


def _nights(facts: Facts) -> Finding | None:
    f, w = facts.r.frost, facts.w
    nights, hours = f.nights_below["0"], f.hours_below["0"]
    if not math.isfinite(nights.estimate) or nights.estimate < 1:
        return None
    band = ""
    if math.isfinite(nights.low):
        band = (
            " If the sensors read wrong by all they may, "
            f"{between(count(nights.low, 'night'), count(nights.high, 'night'))} and "
            f"{between(w.hours(hours.low), w.hours(hours.high))}."
        )
    return _finding(
        "nights-below-the-line",
        claim=f"On {count(nights.estimate, 'night')} the air fell below {w.temp(f.line_c)}, for "
        f"{w.hours(hours.estimate, 1)} "
        "in all.",
        evidence=f"{count(f.nights, 'night').capitalize()} logged whole, {w.hours(f.hours_recorded)} on record.{band}",
        how_sure="Sure within that band." if band else "Fairly sure; without the sensors' accuracy there is no band.",
        next_step="Go through the worst nights' table: each has its own cause.",
        figure=number(nights.estimate),
        figure_note=f"{are(nights.estimate, 'night', 'nights')} below {w.temp(f.line_c, 0)}",
        token="cold",
        anchor="frost_worst",
        stake="crop at risk",
        sure="sure" if band else "fairly sure",
        weight=nights.estimate / 10,
        sources=(
            Source(
                csv="frost_nights.csv",
                how="count",
                column=f"inside {w.temp_unit}",
                rows=f"`inside {w.temp_unit}` < {w.temp_value(f.line_c)!r}",
                value=nights.estimate,
            ),
        ),
    )


def _failure(facts: Facts) -> Finding | None:
    """The failures in the record, told once with the worst of them."""
    f, w = facts.r.frost, facts.w
    if not f.failures:
        return None
    worst = min(f.failures, key=lambda x: x.minimum_c)
    many = len(f.failures) > 1
    claim = (
        f"The heat failed {number(len(f.failures))} times; the worst was {day(worst.start)}: {w.hours(worst.hours)} "
        f"without heat, down to {w.temp(worst.minimum_c)}."
        if many
        else f"The heat failed on {day(worst.start)}: {w.hours(worst.hours)} without it, and the air fell to "
        f"{w.temp(worst.minimum_c)}."
    )
    return _finding(
        "the-heat-failed",
        claim=claim,
        evidence="Hours in which the main heater used nothing while the air was more than "
        f"{w.diff(2, 0)} under what it usually held, and falling.",
        how_sure="Fairly sure: a heater turned off by hand looks the same.",
        next_step="Have an alarm that wakes you (the table says which line), and something that bridges three hours: "
        "fleece over the beds, or a second source of heat that is allowed to run alone.",
        caution=f"{cautions.ALONE} {cautions.heating(facts.fuels)}".strip(),
        figure=w.hours(worst.hours),
        figure_note=f"without heat, {day(worst.start)}",
        token="cold",
        anchor="frost_failures",
        stake="crop at risk",
        sure="fairly sure",
        weight=max(f.line_c - worst.minimum_c, 0.0),
    )


def _if_it_fails(facts: Facts) -> Finding | None:
    f, w = facts.r.frost, facts.w
    row = next((x for x in f.after_failure if x.outdoor_c <= -5.0), None)
    if row is None:
        return None
    words = {"<3": "within three hours", "3-8": "between three and eight hours", ">8": "after more than eight hours"}
    when = words.get(row.hours_to_line)
    reach = (
        f"the air would be at the frost line {when}" if when else "the air may or may not reach the frost line by dawn"
    )
    return _finding(
        "if-the-heat-fails",
        claim=f"If the heat fails at {w.temp(row.outdoor_c, 0)} outdoors, {reach}.",
        evidence=f"{_measured_failure(facts)}About {_after_words(w, row.after_3h, 3)}, "
        f"{_after_words(w, row.after_8h, 8)}; "
        f"from {count(f.ahead.stopped_nights, 'heated night')} of your own house, as it is now.",
        how_sure="Fairly sure: on simulated houses with known truth about nine in ten failures ended in such a span.",
        next_step="Decide now what you would do: who can be there in that time, and what they would light or cover.",
        caution=f"{cautions.ALONE} {cautions.heating(facts.fuels)}".strip(),
        figure=w.temp(row.after_3h_c, 0),
        figure_note=f"after 3{NBSP}h at {w.temp(row.outdoor_c, 0)}",
        token="cold",
        anchor="frost_after",
        stake="crop at risk" if row.after_8h_c < f.line_c else "good news",
        sure="fairly sure",
        weight=0.4,
    )


def _after_words(w: Wording, told: Forecast, hours: int) -> str:
    """−1 °C after 8 h (−3 to 1 °C)."""
    return f"{w.temp(told.estimate, 0)} after {hours}{NBSP}h ({w.temp(told.low, 0)} to {w.temp(told.high, 0)})"


def _measured_failure(facts: Facts) -> str:
    """What a failure of this season did, told before any forecast."""
    f, w = facts.r.frost, facts.w
    if not f.failures:
        return ""
    worst = min(f.failures, key=lambda x: x.minimum_c)
    return f"Measured on {day(worst.start)}: {w.temp(worst.minimum_c)} after {w.hours(worst.hours)} without heat. "


def _without_heat(facts: Facts) -> Finding | None:
    f, w = facts.r.frost, facts.w
    bare = f.without_heat_minimum_c
    if not math.isfinite(bare.estimate):
        return None
    saved = [c for c in f.crops if _saved(c)]
    names = ", ".join(dict.fromkeys(_planting(c, f.crops) for c in saved))
    crops = f" Heat kept from the cold that harms it: {names}." if names else ""
    told = " on the nights that can be worked out" if gaps_in(f.hours_unrecorded) else ""
    none = f" No crop with a known damage band would have met it{told}." if not names and f.crops else ""
    return _finding(
        "without-any-heat",
        claim=f"Without heat the coldest night would have been about {w.temp(bare.estimate, 0)} inside.{crops}{none}",
        evidence=f"Between {w.temp(bare.low, 0)} and {w.temp(bare.high, 0)}, from how the air of this house followed "
        f"its heat, the outdoor air and its bed; told for {count(len(f.without_heat_nights), 'night')}, on the chart.",
        how_sure="Fairly sure for the air: of ten such spans on simulated houses about nine held the truth. Damage "
        "bands are rough.",
        next_step="Set this against the heat bill: it is what the money bought."
        if names
        else "Ask of each crop whether it needs heat at all.",
        figure=w.temp(bare.estimate, 0),
        figure_note="coldest without heat",
        token="cold",
        anchor="frost_bare",
        stake="good news" if names else "money",
        sure="fairly sure",
        weight=1.0,
    )


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
