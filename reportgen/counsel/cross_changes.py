"""Findings on changes that did two things at once."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding
from reportgen.effects import Effect, Outcome
from reportgen.wording import NBSP, count, digits_for, number, points

WARMER = ("warmer nights", "less heating")


def warmer_but_damper(facts: Facts) -> list[Finding]:
    """Changes that did what was hoped of them for warmth, after which the nights were damper."""
    told = []
    for change in facts.r.effects.changes:
        humid = next((o for o in change.outcomes if o.outcome == "night_humidity"), None)
        if change.verdict == "helped" and set(change.hoped_for[:1]) & set(WARMER) and _damper(humid):
            assert humid is not None
            told.append(_told(change, humid))
    return told


def _damper(humid: Outcome | None) -> bool:
    return humid is not None and humid.refused is None and humid.low > 0


def _told(change: Effect, humid: Outcome) -> Finding:
    digits = digits_for((humid.high - humid.low) / 2)
    effect, low, high = (number(value, digits) for value in (humid.effect, humid.low, humid.high))
    return Finding(
        slug="helped-but-damper",
        page="changes",
        claim=f"“{change.what}” did what you hoped, and the nights after it were {points(effect)} more humid.",
        evidence=f"{count(humid.days_before, 'night')} before against {number(humid.days_after)} after, the weather "
        f"taken out; 95{NBSP}% interval {low} to {points(high)} of relative humidity.",
        how_sure="A hint: the damp is a second look at the same days. The gain itself is fairly sure.",
        next_step="Keep it, and air for an hour at midday on dry days; note each airing in the diary.",
        caution=cautions.SEAL if "envelope" in change.touches else None,
        figure=f"+{points(effect)}",
        figure_note="humidity at night",
        token="humid",
        anchor="changes_effects",
        stake="damp",
        sure="a hint",
        weight=humid.effect,
    )
