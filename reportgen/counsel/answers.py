"""The grower's questions and their answers."""

from __future__ import annotations

from datetime import date

from reportgen.counsel.answers_lever import about_line
from reportgen.counsel.answers_topics import about_topic, answer, crops_lost, how_cold, weeks_worth
from reportgen.counsel.answers_winters import winters_answer
from reportgen.counsel.brief import fitted, lowered
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Answer, Grounds, PlanStep
from reportgen.counsel.results import Results
from reportgen.counsel.steps import steps
from reportgen.counsel.steps_money import NOT_YET
from reportgen.readings.lever_types import Asked
from reportgen.wording import day

WHY_WORDS = 25


def answers(r: Results, on: Grounds) -> tuple[Answer, ...]:
    """An answer to every question of season.toml, or to the three that stand for none."""
    facts = Facts.of(r)
    if r.readings.questions:
        return tuple(_one(asked, facts, on) for asked in r.readings.questions)
    return (
        crops_lost("What cost us crops?", facts, on),
        weeks_worth("Which weeks were worth heating?", facts, on)
        if r.season.heating
        else how_cold("How cold did it get inside?", facts),
        _first("What first now?" if r.season.so_far else f"What first next {facts.there.season}?", facts, on),
    )


def _one(asked: Asked, facts: Facts, on: Grounds) -> Answer:
    if asked.topic is None:
        return about_line(facts.r, on, asked)
    if asked.topic == "winters":
        return winters_answer(asked.ask, facts)
    return about_topic(asked.ask, asked.topic, facts, on)


def _first(ask: str, facts: Facts, on: Grounds) -> Answer:
    """The first row of the plan, and the one after it."""
    plan = [step for step in steps(facts.r, on) if not step.what.endswith(NOT_YET)]  # to wait is nothing to do first
    plan.sort(key=lambda step: step.row == "Log")
    if not plan:
        return answer(ask, "plan", "Cannot tell", "nothing follows from these readings alone", "", "index")
    first, second = plan[0], next((step for step in plan[1:] if step.row != plan[0].row), None)
    also = "" if second is None else f"also{' log' if second.row == 'Log' else ''}: {lowered(second.what)}"
    why = fitted((f"{first.what}, by {day(_by(first))}", also, first.why), WHY_WORDS)
    return answer(ask, "plan", first.row, why, "", "index", first.caution)


def _by(step: PlanStep) -> date:
    return step.from_ if step.row in ("Log", "Undo", "Try") else step.to
