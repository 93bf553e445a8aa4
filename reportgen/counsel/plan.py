"""Next winter in five short lists: keep, undo, try, buy, log; each with its arithmetic, how sure, and its caution."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.counsel import cautions
from reportgen.counsel.changes_open import caution as change_caution
from reportgen.counsel.changes_words import NAMES, days_words, interval_words
from reportgen.counsel.facts import Facts
from reportgen.counsel.plan_log import to_log
from reportgen.counsel.plan_money import to_buy
from reportgen.counsel.plan_types import ORDER, Step, next_year
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding
from reportgen.effects import Effect, Trial
from reportgen.wording import count, day

__all__ = ["ORDER", "Step", "plan"]


def plan(r: Results, found: Iterable[Finding] = ()) -> tuple[Step, ...]:
    """The plan in the order keep, undo, try, buy, log.

    Args:
        r: The measured season.
        found: Its findings, so that a step can name the one it follows from.
    """
    facts, slugs = Facts.of(r), {finding.slug for finding in found}
    steps = [step for change in r.effects.changes if (step := _judged(facts, change)) is not None]
    steps += [_trial(facts, trial) for trial in r.effects.trials]
    steps += to_buy(facts)
    steps += to_log(facts)
    known = [step if step.finding in slugs else step.without_finding() for step in steps]
    return tuple(sorted(known, key=lambda step: ORDER.index(step.what)))


def _judged(facts: Facts, change: Effect) -> Step | None:
    """What helped is kept, what hurt is undone where it can be; the rest waits for a trial."""
    declared = change.declared
    if declared is None or change.verdict not in ("helped", "hurt"):
        return None
    name = NAMES[declared.outcome]
    why = (
        f"{name[:1].upper()}{name[1:]}: {interval_words(declared, facts.w)} at equal weather (95\u00a0% interval), "
        f"{days_words(declared, bool(change.switches))}."
    )
    caution = change_caution(facts, change)
    if change.verdict == "helped":
        small = " It is less than you said would matter." if change.small else ""
        return Step(
            what="keep",
            text=f"Keep “{change.what}”.",
            why=why + small,
            how_sure="Fairly sure.",
            caution=caution,
            when=next_year(change.when),
            finding=f"helped-{change.line}",
        )
    undo = "Undo" if change.reversible is not False else "It cannot be undone, so make up for"
    return Step(
        what="undo",
        text=f"{undo} “{change.what}”.",
        why=f"{why} It was judged on that alone: look first at what else it did.",
        how_sure="Fairly sure.",
        caution=caution,
        when=next_year(facts.r.season.first_day),
        finding=f"hurt-{change.line}",
    )


def _trial(facts: Facts, trial: Trial) -> Step:
    nights = trial.nights
    switches = sum(night.switch for night in nights)
    span = f", from {day(nights[0].night, year=True)} to {day(nights[-1].night, year=True)}" if nights else ""
    return Step(
        what="try",
        text=f"Switch “{trial.what}” on and off{span}.",
        why=f"{count(switches, 'switch', 'switches')} at noon over {count(len(nights), 'night')}: {trial.why}.",
        how_sure="Blocks on and off meet the same weather, which before and after do not.",
        caution=_trial_caution(facts, trial),
        when=nights[0].night if nights else None,
        cost=_cost_of(facts, trial.what),
        finding="cannot-tell",
    )


def _trial_caution(facts: Facts, trial: Trial) -> str | None:
    touched = {word for e in facts.r.readings.diary if e.what == trial.what for word in e.touches}
    if "envelope" in touched or (touched & {"air", "heater"} and facts.fuels - {"electricity"}):
        return cautions.SEAL
    return cautions.heating(facts.fuels) or None if touched & {"heater", "thermostat"} else None


def _cost_of(facts: Facts, what: str) -> float | None:
    return next((e.cost for e in facts.r.readings.diary if e.what == what and e.cost is not None), None)
