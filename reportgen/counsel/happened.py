"""Findings of what happened: one an event, with its cause, what stood in the diary, what was lost, and what to do."""

from __future__ import annotations

from dataclasses import replace

from reportgen.counsel import cautions, happened_next
from reportgen.counsel.brief import begun, heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    OPEN_OR_ALTERED,
    TOO_COLD,
    CropMet,
    Event,
)
from reportgen.counsel.said_events import LONG_MIN, quoted_lines
from reportgen.counsel.types import Said, Source
from reportgen.wording import are, clock, count, day, listed, number, span

AGAIN = "the same would have helped as on "  # of a later event of one cause: nothing more to do
FEW = 3  # crops whose coldest air is told
NOON = 12
MOULD = ("mould", "mold", "rot", "botrytis", "mildew", "fur")


def cold_events(facts: Facts) -> list[Said]:
    """Spells in which the line was crossed, and failures of the heat."""
    told: list[Said] = []
    first: dict[str, str] = {}
    for event in (e for e in facts.on.events if e.kind in ("frost", "failure")):
        said = _cold(facts, event)
        before = first.setdefault(event.cause, day(event.at or event.start))
        same = f"{begun(on_dates(event))} {AGAIN}{before}."
        again = replace(said, next_step=same, caution=None)
        told.append(said if before == day(event.at or event.start) else again)
    return told


def losses(facts: Facts) -> list[Said]:
    """Losses booked by their cause that no spell of cold explains."""
    return [_loss(facts, event) for event in facts.on.events if event.kind == "loss"]


def _cold(facts: Facts, e: Event) -> Said:
    w, lost = facts.w, [c for c in e.crops if c.lost]
    return Said(
        claim=f"{begun(_how_it_came(facts, e))}{_reached(facts, e)}{_lost_words(lost)}.",
        evidence=" ".join(part for part in (_where(facts, e), diary_words(e), _met(facts, e)) if part),
        how_sure=_sure(facts, e),
        next_step=happened_next.step(facts, e),
        caution=_caution(facts, e),
        figure=w.temp(e.minimum_c) if e.minimum_c is not None else count(len(lost), "crop"),
        figure_note=f"coldest, {day(e.at or e.start)}",
        about=_about(e),
        token="cold",
        anchor="frost_failures" if e.cause == HEAT_FAILED and facts.r.frost.failures else None,
        stake="crop lost" if lost else None,
        weight=1000.0 - e.rank,
        subject="event",
        sources=(*in_events(facts, e), *_at_night(facts, e)),
    )


def _about(e: Event) -> str | None:
    if e.source is not None:
        return e.source
    return e.crops[0].crop if e.crops else e.place


def _how_it_came(facts: Facts, e: Event) -> str:
    """The cause with its date, up to where the air's fall is told."""
    when = on_dates(e)
    if e.cause == HEAT_FAILED:
        named = f"the {heater(e.source)}" if e.source else "the heat"
        return f"{named} stopped on {day(e.start)} and the air fell"
    words = {
        HEAT_OUT: f"{when} the heat was out, and the air fell",
        OPEN_OR_ALTERED: f"{when} something stood open or was altered, and the air fell",
        TOO_COLD: f"{when} it was colder than the heater can make good: the air fell",
        NO_HEAT_YET: f"{when} there was no heat yet, and the air fell",
        NO_HEAT_ANY_MORE: f"{when} there was no heat any more, and the air fell",
    }
    return words.get(e.cause, f"{when} the air fell")


def _reached(facts: Facts, e: Event) -> str:
    w, line = facts.w, facts.r.frost.line_c
    if e.minimum_c is None:
        return ""
    after = ""
    if e.line_crossed_after_min is not None:
        after = f": after {minutes(e.line_crossed_after_min)} it was at your frost line of {w.temp(line)}, and"
        return f"{after} it came to {w.temp(e.minimum_c)}"
    under = f", {w.diff(line - e.minimum_c)} under your frost line" if e.minimum_c < line else ""
    return f" to {w.temp(e.minimum_c)}{under}"


def minutes(value: float) -> str:
    """A `value` in minutes: 42 min, or 2.3 h from two hours on."""
    return f"{number(value)}\u00a0min" if value < LONG_MIN else f"{number(value / 60, 1)}\u00a0h"


def _lost_words(lost: list[CropMet]) -> str:
    if not lost:
        return ""
    return f"; {listed([f'{number(c.lost or 0)} {c.crop}' for c in lost])} {_were(lost)} lost to it"


def _were(lost: list[CropMet]) -> str:
    return are(sum(c.lost or 0.0 for c in lost), "was", "were")


def _where(facts: Facts, e: Event) -> str:
    w, told = facts.w, []
    if e.at is not None and e.place:
        told.append(f"at “{e.place}”, coldest at {clock(e.at)} on {day(e.at)}")
    if e.outdoor_c is not None:
        told.append(f"{w.temp(e.outdoor_c)} outdoors then")
    if e.hours is not None and round(e.hours) >= 1:
        told.append(f"{w.hours(e.hours)} {'without heat' if e.cause == HEAT_FAILED else 'under the line'}")
    return f"{begun(', '.join(told))}." if told else ""


def diary_words(e: Event) -> str:
    """What the diary says of it, or that it is silent."""
    if e.diary:
        return f"In the diary: {'; '.join(quoted_lines(e))}."
    silent = e.nobody_noted and e.cause == HEAT_FAILED
    return f"The diary, kept before and after, is silent on {day(e.start)}." if silent else ""


def _met(facts: Facts, e: Event) -> str:
    """What each crop met; a loss is only said to be of the cold where its cause says so."""
    w = facts.w
    met = sorted((c for c in e.crops if c.coldest_c is not None), key=lambda c: (c.coldest_c, c.crop))
    told = [f"the {c.crop}{f' in {c.bed}' if c.bed else ''} {w.temp(c.coldest_c or 0.0)}" for c in met[:FEW]]
    more = f", and {count(len(met) - FEW, 'other crop')} nothing colder" if len(met) > FEW else ""
    return f"Coldest met: {listed(told)}{more}." if told else ""


def _sure(facts: Facts, e: Event) -> str:
    if e.cause == HEAT_FAILED:
        return "Sure for what was recorded; a heater turned off by hand looks the same."
    if e.cause == "not known":
        return "Sure for the temperatures; the cause is not known."
    return "Sure for the temperatures, within the sensors' accuracy."


def _morning_only(facts: Facts) -> bool:
    """Whether the watering book gives a time in every row, and none after noon: then that advice is followed."""
    times = [row.time for row in facts.r.readings.watering]
    return bool(times) and all(time is not None and time.hour < NOON for time in times)


def _caution(facts: Facts, e: Event) -> str | None:
    if e.hazard and e.cause == HEAT_FAILED:
        return f"{cautions.ALONE} {cautions.MAINS}" if "electricity" in facts.fuels else cautions.ALONE
    if e.cause == HEAT_OUT and facts.fuels - {"electricity"}:
        return cautions.FUEL  # it is lit again by hand
    return cautions.ALONE if facts.there.heater and e.cause in (HEAT_FAILED, HEAT_OUT, TOO_COLD, NO_HEAT_YET) else None


def _at_night(facts: Facts, e: Event) -> tuple[Source, ...]:
    """The table of nights, where the event's coldest moment is that of the table."""
    w, table = facts.w, facts.r.frost.table
    if e.minimum_c is None or table.empty or abs(float(table["inside_min"].min()) - e.minimum_c) > 1e-9:
        return ()
    column = f"inside {w.temp_unit}"
    return (Source(csv="frost_nights.csv", how="min", column=column, value=w.temp_value(e.minimum_c)),)


def _number_of(facts: Facts, e: Event) -> int:
    """Its number in data/events.csv."""
    return next(n for n, event in enumerate(facts.on.events, start=1) if event is e)


def in_events(facts: Facts, e: Event) -> tuple[Source, ...]:
    """Its row of data/events.csv: the coldest, the minutes to the line, what was lost."""
    w, row = facts.w, f"event == {_number_of(facts, e)}"
    cells = {
        f"coldest {w.temp_unit}": None if e.minimum_c is None else w.temp_value(e.minimum_c),
        "minutes from the failure to the frost line": e.line_crossed_after_min,
        "days of burning": float(e.days) or None,
        "plants lost": sum(crop.lost or 0.0 for crop in e.crops) or None,
    }
    known = ((column, value) for column, value in cells.items() if value is not None)
    return tuple(Source(csv="events.csv", how="cell", column=name, rows=row, value=value) for name, value in known)


def _loss(facts: Facts, e: Event) -> Said:
    lost = [c for c in e.crops if c.lost]
    names = listed([f"{number(c.lost or 0)} {c.crop}{f' in “{c.bed}”' if c.bed else ''}" for c in lost])
    rotten = any(word in e.cause.casefold() for word in MOULD)
    total = sum(c.lost or 0.0 for c in lost)
    places = list(dict.fromkeys(c.bed for c in lost if c.bed))
    beds = f"the bed “{places[0]}”" if len(places) == 1 else "those beds" if places else "that ground"
    return Said(
        claim=f"{begun(names)} {_were(lost)} lost to {e.cause}{f' {on_dates(e)}' if e.dated else ''}.",
        evidence=f"Counted in plantings.csv under “{e.cause}”{'' if e.dated else '; when, is not written'}. "
        f"{diary_words(e)}".strip(),
        how_sure="Sure: you counted them; the cause is your own word.",
        next_step=f"Plant {beds} wider{'' if _morning_only(facts) else ' and water in the morning only'}."
        if rotten
        else f"Guard {beds} against {e.cause} before planting there again.",
        caution=cautions.SPRAY if rotten else None,
        figure=number(total),
        figure_note=f"lost to {e.cause}",
        about=lost[0].crop if lost else None,
        token="humid" if rotten else "neutral",
        weight=1000.0 - e.rank,
        subject="event",
        sources=in_events(facts, e),
    )


def dates_words(e: Event) -> str:
    """13 January, or from 13 November to 14 November."""
    return day(e.start) if e.start.date() == e.last_day else span(e.start, e.last_day)


def on_dates(e: Event) -> str:
    """On 13 January, or from 13 November to 14 November."""
    return f"on {day(e.start)}" if e.start.date() == e.last_day else span(e.start, e.last_day)
