"""The tick sheet of the plan's trials as a page of its own to print: a box for each night, on or off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from reportgen.counsel.grounds import PlanStep
from reportgen.site import resources
from reportgen.wording import day

SHEET = "data/ticks.html"
STYLE = (
    "body{font:1rem/1.4 system-ui,sans-serif;margin:1rem;color:#17211d;background:#fff}main{max-width:48rem}"
    "h1{font-size:1.3rem}h2{font-size:1.1rem}.nights{columns:3 12rem}.nights p{margin:.2rem 0;break-inside:avoid}"
    ".box{display:inline-block;width:1em;height:1em;border:1.5px solid;vertical-align:-.15em}"
    "section{break-inside:avoid}"
)


@dataclass(frozen=True, slots=True)
class NightLine:
    """One night, and whether the thing is on in it."""

    day: str
    state: str


@dataclass(frozen=True, slots=True)
class TrialSheet:
    """One trial's nights with its caution."""

    what: str
    caution: str
    nights: tuple[NightLine, ...]


def tick_sheet(plan: Sequence[PlanStep], title: str) -> str:
    """The page; '' where nothing is tried by nights."""
    trials = tuple(_trial(step) for step in plan if step.nights)
    if not trials:
        return ""
    template = resources.environment().get_template("ticks.html")
    policy = resources.policy(STYLE, "")
    return template.render(title=title, trials=trials, style=Markup(STYLE), policy=policy)


def _trial(step: PlanStep) -> TrialSheet:
    lines = tuple(NightLine(day(night, year=True), "on" if on else "off") for night, on in step.nights)
    return TrialSheet(what=step.what, caution=step.caution or "", nights=lines)
