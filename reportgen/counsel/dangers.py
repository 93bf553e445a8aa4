"""Findings of fire and fumes: told before any plant, certain only where a flue is known to be missing."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.brief import begun, heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Event
from reportgen.counsel.happened import dates_words, diary_words, in_events
from reportgen.counsel.touched import flue_words
from reportgen.counsel.types import Said
from reportgen.counsel.whole import quoted
from reportgen.wording import count, day, listed

WIDER_APART = "the book tells how much was burnt, not on which of these days"

UNDO = "Undo what keeps the house tight, or replace the burner, before it is lit again."


def dangers(facts: Facts) -> list[Said]:
    """Fire and fumes, each event once."""
    found = [event for event in facts.on.events if event.kind == "safety"]
    return [_fumes(facts, event) if event.source is not None else _hazard(facts, event) for event in found]


def _fumes(facts: Facts, e: Event) -> Said:
    """A burner in a tightened house. Where nobody wrote down whether it has a flue, that is asked."""
    return Said(
        claim=_claim(e),
        evidence=" ".join(part for part in (diary_words(e), "" if e.days else f"{begun(WIDER_APART)}.") if part),
        how_sure="Cannot tell: season.toml does not say whether it has a flue; nothing here measured the gases."
        if e.flue_unsaid
        else "Sure that it burned there; nothing here measured the gases.",
        next_step=f"{_asked(e)}{UNDO[:1].lower()}{UNDO[1:]}" if e.flue_unsaid else UNDO,
        caution=f"{cautions.FUEL} {cautions.SEAL}",
        figure=count(e.days, "day") if e.days else day(e.start),
        figure_note="no flue noted, house tight" if e.flue_unsaid else "with fumes in the house",
        about=e.source,
        token="humid",
        weight=1000.0 - e.rank,
        subject="safety",
        sources=in_events(facts, e),
    )


def _asked(e: Event) -> str:
    return (
        f"Write vented = true beside the {_burner(e)} in season.toml if a flue takes its fumes out of the house; if "
        "not, "
    )


def _burner(e: Event) -> str:
    return heater(e.source or "", len((e.source or "").split()))


def _claim(e: Event) -> str:
    when = f"on {count(e.days, 'day')}" if e.days else f"some time {dates_words(e)}"
    tight = f" while {listed([quoted([name]) for name in e.levers])} kept the house tight" if e.levers else ""
    if e.flue_unsaid:
        return (
            f"The {_burner(e)} burned {when}{tight}. {flue_words(_burner(e))}: without one its fumes stayed "
            "with whoever was in."
        )
    return f"The {_burner(e)} burned without a flue {when}{tight}: its fumes stayed with whoever was in."


def _hazard(facts: Facts, e: Event) -> Said:
    """A line of the diary that speaks of fire or of mains power that cut out."""
    return Said(
        claim=f"{begun(e.cause)}, {dates_words(e)}: that speaks of fire or shock before any plant.",
        evidence=diary_words(e) or f"{begun(dates_words(e))}.",
        how_sure="Sure that it was noted.",
        next_step="Have a licensed electrician find out why before the heater runs again.",
        caution=cautions.MAINS,
        figure=day(e.start),
        figure_note="power cut out",
        about=None,
        token="humid",
        weight=1000.0 - e.rank,
        subject="safety",
        sources=in_events(facts, e),
    )
