"""Findings of the changes: what helped, what hurt, what did nothing that matters, and what cannot be told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from reportgen.counsel.changes_open import CSV, cannot_tell, caution, finding_of, no_hope, none
from reportgen.counsel.changes_words import (
    NAMES,
    between_words,
    days_words,
    effect_words,
    interval_words,
    shown,
)
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source, Stake
from reportgen.effects import Effect, Outcome, measured
from reportgen.effects.placebo import beaten
from reportgen.wording import NBSP, number, of_all

TOKENS = {
    "lift": "warm",
    "heat": "money",
    "watts_per_kelvin": "money",
    "night_humidity": "humid",
    "soil_mean": "soil",
    "soil_swing": "soil",
    "daily_light": "sun",
}
FEWEST_DATES = 5  # do-nothing dates below this are too few to set a change beside
HARM: dict[str, Stake] = {"heat": "money", "watts_per_kelvin": "money", "night_humidity": "damp"}


def findings(r: Results) -> tuple[Finding, ...]:
    """One finding a change with a sign or a sign of nothing, and one for all that cannot be told."""
    facts = Facts.of(r)
    done = tried(r.effects.changes)
    if not done:
        return (none(facts),)
    if all(change.verdict == "not judged" for change in done):
        return (no_hope(facts, done),)
    told = [finding for change in done if (finding := _judged(facts, change)) is not None]
    open_ = [change for change in done if change.verdict == "cannot tell"]
    return (*told, *([cannot_tell(facts, open_, len(done))] if open_ else []))


def tried(changes: Iterable[Effect]) -> list[Effect]:
    """What was done to the house: changes, spells, and upkeep that says what it touches."""
    return [c for c in changes if c.kind in ("change", "spell") or (c.kind == "upkeep" and bool(c.touches))]


def _judged(facts: Facts, change: Effect) -> Finding | None:
    hoped = change.declared
    if hoped is None or hoped.refused is not None or change.verdict not in ("helped", "hurt", "no sign"):
        return None
    rule = {"helped": _helped, "hurt": _hurt, "no sign": _no_sign}[change.verdict]
    return rule(facts, change, hoped)


def evidence(facts: Facts, change: Effect, hoped: Outcome) -> str:
    """Interval, nights, what was taken out, the do-nothing dates, what else happened."""
    alternates = bool(change.switches)
    said = [
        f"{NAMES[hoped.outcome][:1].upper()}{NAMES[hoped.outcome][1:]}: {effect_words(hoped, facts.w)}, 95{NBSP}% "
        f"interval {interval_words(hoped, facts.w)}, with the weather taken out; {days_words(hoped, alternates)}."
    ]
    if len(change.do_nothing) >= FEWEST_DATES:
        larger, dates = beaten(hoped.effect, change.do_nothing), len(change.do_nothing)
        said.append(f"It is larger than on {of_all(larger, dates, 'date')} on which nothing was done.")
    if change.meanwhile:
        said.append(f"In the same weeks: {_quoted(change.meanwhile)}.")
    if change.grouped_with:
        said.append(f"Done within three days of: {_quoted(change.grouped_with)}. They are judged as one.")
    return " ".join(said)


def _quoted(entries: Sequence[str]) -> str:
    """“Door left ajar”; “Vents shut”: the grower's own words, marked as such."""
    return "; ".join(f"“{entry}”" for entry in entries)


def _common(facts: Facts, change: Effect, hoped: Outcome) -> dict[str, Any]:
    best = change.saves_at_most if change.saves_at_most is not None else 0.0
    return {
        "evidence": evidence(facts, change, hoped),
        "caution": caution(facts, change),
        "figure": effect_words(hoped, facts.w),
        "figure_note": NAMES[hoped.outcome],
        "token": TOKENS.get(hoped.outcome, "neutral"),
        "weight": max(best, 0.0) or abs(hoped.effect) / change.care if change.care > 0 else max(best, 0.0),
        "sources": (
            Source(
                csv=CSV,
                how="cell",
                column="effect",
                rows=f"`diary line` == {change.line}",
                value=shown(hoped, hoped.effect, facts.w),
            ),
        ),
    }


def _sure(change: Effect, hoped: Outcome) -> str:
    hope = (
        "The hope was written down before, so it was not picked to fit."
        if change.hope_written_before
        else "The hope was named afterwards, which makes a lucky pick likelier."
    )
    return f"{_measured(change, hoped)} {hope}"


def _measured(change: Effect, hoped: Outcome) -> str:
    """How often such intervals held, by the study; what was switched on and off was not part of it."""
    if change.switches:
        return "Fairly sure: the study of made-up winters tried changes that last, none switched on and off."
    held, false = measured.HELD_BY_OUTCOME[hoped.outcome], measured.FALSE_SIGNS_BY_OUTCOME[hoped.outcome]
    return (
        f"{measured.confidence(held)}: in a study of made-up winters such an interval held the truth {number(held.k)} "
        f"of {number(held.n)} times, and {number(false.k)} of {number(false.n)} changes that did nothing got a sign."
    )


def _helped(facts: Facts, change: Effect, hoped: Outcome) -> Finding:
    small = " That is less than you said would matter." if change.small else ""
    return finding_of(
        f"helped-{change.line}",
        claim=f"“{change.what}” helped: {between_words(hoped, facts.w)} at equal weather.{small}",
        how_sure=_sure(change, hoped),
        next_step="Keep it.",
        stake="good news",
        sure="fairly sure",
        **_common(facts, change, hoped),
    )


def _hurt(facts: Facts, change: Effect, hoped: Outcome) -> Finding:
    undo = "Leave it off" if change.switches else "Undo it"
    undo = f"{undo}, or" if change.reversible is not False else "It cannot be undone;"
    return finding_of(
        f"hurt-{change.line}",
        claim=f"“{change.what}” did the opposite of what you hoped: {between_words(hoped, facts.w)} at equal weather.",
        how_sure=_sure(change, hoped),
        next_step=f"{undo} look at what else it brought on the Changes page before you decide.",
        stake=HARM.get(hoped.outcome, "growth"),
        sure="fairly sure",
        **_common(facts, change, hoped),
    )


def _no_sign(facts: Facts, change: Effect, hoped: Outcome) -> Finding:
    return finding_of(
        f"no-sign-{change.line}",
        claim=f"“{change.what}” did nothing that you said would matter: {between_words(hoped, facts.w)}.",
        how_sure=f"{_measured(change, hoped)} It may still be good for something that no logger sees.",
        next_step="Do not repeat it for this reason alone.",
        stake="money" if change.cost else "record",
        sure="fairly sure",
        **_common(facts, change, hoped),
    )
