"""*Nothing wrong here*: where the record is good enough to say so and nothing in it speaks of harm."""

from __future__ import annotations

from reportgen.counsel.changes import UNDONE
from reportgen.counsel.facts import Facts
from reportgen.counsel.record import WHOLE
from reportgen.counsel.types import Said
from reportgen.counsel.whole import LEAST_H
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.wording import count

LONG_DAMP = 0.3  # share of all hours above the high line from which the damp is no longer nothing


def nothing_wrong(facts: Facts) -> Said | None:
    """The good news of a whole season; silent where any harm, or any hour that nobody saw, speaks against it."""
    lowest, nights = facts.number("frost.minimum.temperature_c"), facts.number("frost.nights")
    blind = facts.number("frost.unrecorded_cold_hours")
    if (facts.number("frost.unrecorded_unknown_hours") or 0.0) >= LEAST_H:
        return None
    if lowest is None or not nights or blind is None or blind > 0 or lowest < facts.r.season.aims.frost_c:
        return None
    if _harmed(facts) or facts.on.events or any(lever.verdict in UNDONE for lever in facts.on.levers):
        return None
    return Said(
        claim=f"Nothing was wrong this {facts.there.season}: no crop came to harm by {_known(facts)}.",
        evidence=f"{count(nights, 'whole night')} on record, the coldest at {facts.w.temp(lowest)}, and no cold hour "
        "without a reading.",
        how_sure="Sure for the places where the loggers stood.",
        next_step="Change one thing at a time next winter, and only for less work"
        f"{' or less heat' if facts.there.heater else ''}.",
        figure="0",
        figure_note="things wrong",
        token="target",
        weight=100.0,
    )


def _known(facts: Facts) -> str:
    """Of what the record can speak: of damp only where it was logged nearly the whole winter."""
    damp, hours = facts.number("damp.hours_recorded") or 0.0, facts.r.season.hours
    if damp >= WHOLE * hours:
        return "cold or damp that the record can show"
    if not damp:
        seldom = NOTHING_TOLD in (facts.at("damp.reasons") or {}).get("hours_above_high.estimate", "")
        return f"cold that the record can show; damp was {'read too seldom to tell' if seldom else 'not logged'}"
    return f"cold that the record can show; of the damp {facts.w.hours(hours - damp)} are missing"


def _harmed(facts: Facts) -> bool:
    """A crop in its damage band, a failure of the heat, long damp, high mould weather, or losses in the books."""
    crops = [c.get("margin_k") for c in facts.at("frost.crops") or []]
    above, recorded = facts.number("damp.hours_above_high.estimate"), facts.number("damp.hours_recorded")
    lost = facts.r.harvest.lost_kg > 0 or any((s.lost or 0) > 0 for s in facts.r.harvest.beds.strips)
    return (
        any(margin is not None and margin < 0 for margin in crops)
        or bool(facts.at("frost.failures"))
        or bool(recorded and above is not None and above / recorded >= LONG_DAMP)
        or (facts.number("damp.grey_mould_spells.high") or 0) > 0
        or lost
    )
