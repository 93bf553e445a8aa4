"""Counsel: what a review says and advises. Events, levers, the hold and the balance first; the plan, the answers and
the findings rest on them. One module a page for the findings, then ranked."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module

from reportgen.counsel.answers import answers
from reportgen.counsel.balance import balance
from reportgen.counsel.events import events
from reportgen.counsel.first import told_first
from reportgen.counsel.grounds import Answer, Grounds, PlanStep, Told
from reportgen.counsel.hold import hold_advice
from reportgen.counsel.levers import judged_levers
from reportgen.counsel.ranking import rank
from reportgen.counsel.results import Results
from reportgen.counsel.steps import steps
from reportgen.counsel.types import Finding

PAGES = ("record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters", "cross")


@dataclass(frozen=True, kw_only=True, slots=True)
class Counsel:
    """All that is said of a measured season."""

    grounds: Grounds
    plan: tuple[PlanStep, ...]
    answers: tuple[Answer, ...]
    told: tuple[Told, ...]
    findings: tuple[Finding, ...]


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
        findings=find(results),
    )


def find(results: Results) -> tuple[Finding, ...]:
    """Every finding of every page, the weightiest first; *nothing wrong here* where none speaks of harm or cost."""
    found: list[Finding] = []
    for page in PAGES:
        found.extend(import_module(f"reportgen.counsel.{page}").findings(results))
    found.extend(import_module("reportgen.counsel.cross").nothing_wrong(results, found))
    return rank(found)
