"""Counsel: what a review says and advises. Events, levers, the hold and the balance first; the plan, the answers and
the findings rest on them: the registry of kinds makes them, then they are ranked."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.counsel.answers import answers
from reportgen.counsel.balance import balance
from reportgen.counsel.deadlines import Deadline, deadlines
from reportgen.counsel.events import events
from reportgen.counsel.facts import Facts
from reportgen.counsel.first import told_first
from reportgen.counsel.grounds import Answer, Grounds, PlanStep, Told
from reportgen.counsel.hold import hold_advice
from reportgen.counsel.kinds import made
from reportgen.counsel.levers import judged_levers
from reportgen.counsel.ranking import rank
from reportgen.counsel.results import Results
from reportgen.counsel.steps import steps
from reportgen.counsel.types import Finding


@dataclass(frozen=True, kw_only=True, slots=True)
class Counsel:
    """All that is said of a measured season."""

    grounds: Grounds
    plan: tuple[PlanStep, ...]
    answers: tuple[Answer, ...]
    told: tuple[Told, ...]
    findings: tuple[Finding, ...]
    deadlines: tuple[Deadline, ...] = ()  # of a winter that still runs


def counsel(results: Results) -> Counsel:
    """What to say and do, in the order in which one rests on the other."""
    happened = events(results)
    grounds = Grounds(
        events=happened,
        levers=judged_levers(results, happened),
        hold_advice=hold_advice(results, happened),
        balance=balance(results),
    )
    return Counsel(
        grounds=grounds,
        plan=steps(results, grounds),
        answers=answers(results, grounds),
        told=told_first(results, grounds),
        findings=find(results, grounds),
        deadlines=deadlines(results, grounds),
    )


def find(results: Results, on: Grounds) -> tuple[Finding, ...]:
    """Every finding of every kind, in the order in which they are told."""
    return rank(made(Facts.of(results, on)))
