"""Next winter in five short lists: keep, undo, try, buy, log; each with its arithmetic, how sure, and its caution."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from reportgen.effects import Effect, Trial
from reportgen.findings import cautions
from reportgen.findings.facts import Facts
from reportgen.findings.results import Results
from reportgen.wording import count, day, digits_for, number

What = Literal["keep", "undo", "try", "buy", "log"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """One line of the plan."""

    what: What
    text: str
    why: str  # the arithmetic, or what it rests on
    how_sure: str
    caution: str | None = None


def plan(r: Results) -> tuple[Step, ...]:
    """The plan in the order keep, undo, try, buy, log."""
    facts = Facts.of(r)
    steps = [step for change in r.effects.changes if (step := _judged(change)) is not None]
    steps += [_trial(trial) for trial in r.effects.trials]
    steps += _buy(facts)
    steps += _log(facts)
    order = ("keep", "undo", "try", "buy", "log")
    return tuple(sorted(steps, key=lambda step: order.index(step.what)))


def _judged(change: Effect) -> Step | None:
    """What helped is kept, what hurt is undone where it can be; the rest waits for a trial."""
    declared = change.declared
    if declared is None or change.verdict not in ("helped", "hurt"):
        return None
    unit = "points" if declared.unit == "%" else declared.unit
    digits = digits_for((declared.high - declared.low) / 2)
    why = (
        f"{number(declared.low, digits)} to {number(declared.high, digits)} {unit} at equal weather (95\u00a0% "
        "interval), "
        f"{count(declared.days_before, 'day')} before and {number(declared.days_after)} after."
    )
    caution = cautions.SEAL if "envelope" in change.touches else None
    if change.verdict == "helped":
        small = " It is less than you said would matter." if change.small else ""
        return Step(
            what="keep", text=f"Keep: {change.what}.", why=why + small, how_sure="Fairly sure.", caution=caution
        )
    undo = "Undo" if change.reversible is not False else "It cannot be undone, so make up for it"
    return Step(what="undo", text=f"{undo}: {change.what}.", why=why, how_sure="Fairly sure.", caution=caution)


def _trial(trial: Trial) -> Step:
    nights = trial.nights
    switches = sum(night.switch for night in nights)
    span = f", from {day(nights[0].night, year=True)} to {day(nights[-1].night, year=True)}" if nights else ""
    return Step(
        what="try",
        text=f"Switch on and off: {trial.what}{span}.",
        why=f"{count(switches, 'switch', 'switches')} at noon over {count(len(nights), 'night')}. {trial.why}".strip(),
        how_sure="This winter could not tell; on and off nights through the same weather can.",
    )


def _buy(facts: Facts) -> list[Step]:
    steps = [*_heat_next_winter(facts)]
    for entry in facts.r.readings.diary:
        if entry.kind == "idea" and entry.cost:
            cost, heat = entry.cost, facts.number("heat.cost")
            part = f", which is {facts.w.percent(100 * cost / heat)} of this winter's heat" if heat else ""
            years = f", {facts.w.money(cost / entry.years)} for each year it lasts" if entry.years else ""
            steps.append(
                Step(
                    what="buy",
                    text=f"Not yet: {entry.what}.",
                    why=f"It costs {facts.w.money(cost)}{part}{years}. No season has shown what it would save here.",
                    how_sure="Cannot tell before it has been tried.",
                    caution=cautions.heating(facts.fuels) if "heater" in entry.touches else None,
                )
            )
    return steps


def _heat_next_winter(facts: Facts) -> list[Step]:
    """Two kelvin less or more hold in this winter's weather; a winter 2 K colder costs what 2 K more hold costs."""
    rows = facts.at("heat.price_of_hold") or []
    tested = {row["hold_c"]: row for row in rows if row.get("tested") and row.get("cost") is not None}
    hold, cost = facts.number("heat.hold_found_c"), facts.number("heat.cost")
    if hold is None or not cost or not tested:
        return []
    lower = max((c for c in tested if c <= hold - 1.5), default=None)
    upper = min((c for c in tested if c >= hold + 1.5), default=None)
    steps = []
    caution = cautions.heating(facts.fuels) or None
    if lower is not None:
        saved = cost - tested[lower]["cost"]
        kg = facts.r.harvest.kg
        each = f", {facts.money_per_mass(saved / kg)} picked" if kg else ""
        steps.append(
            Step(
                what="try",
                text=f"A hold of {facts.w.temp(lower)} in place of {facts.w.temp(hold)}, if your crops stand it.",
                why=f"In this winter's weather it would have saved about {facts.w.money(saved)}{each}.",
                how_sure="Fairly sure within a few degrees of what was held.",
                caution=caution,
            )
        )
    if upper is not None:
        more = tested[upper]["cost"] - cost
        apart = facts.w.diff(upper - hold)
        steps.append(
            Step(
                what="buy",
                text=f"Put by about {facts.w.money(cost + more)} for heat if next winter is {apart} colder.",
                why=f"A winter {apart} colder at the same hold costs what this winter would have at "
                f"{facts.w.temp(upper)}: "
                f"{facts.w.money(more)} more.",
                how_sure="Fairly sure for the heat; prices may change.",
            )
        )
    return steps


def _log(facts: Facts) -> list[Step]:
    """What to write down or measure so that what stayed open can be answered."""
    r = facts.r
    outdoor = any(c.where == "outdoor" or c.measure.startswith("outdoor") for c in r.readings.channels)
    unknown = sorted({c.logger for c in r.readings.channels if c.accuracy is None and "temperature" in c.measure})
    wants: Iterable[tuple[bool, str, str]] = (
        (
            not outdoor,
            "A thermometer outdoors, in shade and out of the rain.",
            "Without it no weather can be taken out.",
        ),
        (
            not any(c.measure == "soil_temperature" for c in r.readings.channels),
            "A probe in the bed, a hand deep.",
            "It tells whether the bed carries the night.",
        ),
        (
            not r.readings.books.get("harvest", False),
            "A line in harvest.csv for each picking.",
            "Without weights no cost per weight.",
        ),
        (
            not r.readings.books.get("diary", False),
            "A line in diary.csv for each change, with what you hope.",
            "Only a dated change can be judged.",
        ),
        (
            not r.readings.books.get("plantings", False),
            "Sowing and clearing dates in plantings.csv.",
            "They tell which sowing fed the dark weeks.",
        ),
        (
            bool(unknown),
            f"The ± of {', '.join(unknown)} from its leaflet, as accuracy in season.toml.",
            "Every count of hours then gets its band.",
        ),
    )
    sure = "Sure: it was missing this winter."
    return [Step(what="log", text=text, why=why, how_sure=sure) for wanted, text, why in wants if wanted]
