"""What is told first, the answers and the plan as a page prints them, each caution once and beside its row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from reportgen.charts import NAMES
from reportgen.counsel import cautions
from reportgen.counsel.brief import begun
from reportgen.counsel.deadlines import Deadline
from reportgen.counsel.grounds import Answer, PlanStep, Told
from reportgen.site.care import Care
from reportgen.wording import day


@dataclass(frozen=True, kw_only=True, slots=True)
class ToldView:
    """One of the things told first."""

    clause: str
    words: str
    sure: str
    caution: str
    above: bool  # the caution was told above
    href: str
    link: str


@dataclass(frozen=True, kw_only=True, slots=True)
class AnswerView:
    """A question with its answer."""

    ask: str
    answer: str
    why: str
    sure: str
    sure_word: str  # the word alone: what it rests on stands where the link leads
    caution: str
    above: bool
    href: str
    link: str


@dataclass(frozen=True, kw_only=True, slots=True)
class StepView:
    """A row of the plan."""

    row: str
    when: str
    what: str
    why: str
    caution: str
    above: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class DeadlineView:
    """A line of what has a date."""

    what: str
    why: str
    caution: str


def deadlines(lines: Iterable[Deadline]) -> tuple[DeadlineView, ...]:
    """In their order, each caution in a few words; in full it stands under *Take care*."""
    return tuple(
        DeadlineView(what=_ended(one.what), why=_ended(begun(one.why)), caution=cautions.brief(one.caution or ""))
        for one in lines
    )


def told(things: Iterable[Told], care: Care) -> tuple[ToldView, ...]:
    """In their order."""
    views = []
    for one in things:
        caution, above = care.told(one.caution or "", "")
        href, link = _link(one.page, None)
        views.append(
            ToldView(
                clause=_ended(one.clause),
                words=one.words,
                sure=one.sure,
                caution=caution,
                above=bool(above),
                href=href,
                link=link,
            )
        )
    return tuple(views)


def answers(given: Iterable[Answer], care: Care) -> tuple[AnswerView, ...]:
    """In the order in which they were asked."""
    views = []
    for one in given:
        caution, above = care.told(one.caution or "", "")
        href, link = _link(one.page, one.anchor)
        views.append(
            AnswerView(
                ask=one.ask,
                answer=one.answer,
                why=_ended(one.why),
                sure=one.sure,
                sure_word=one.sure.partition(":")[0].rstrip("."),
                caution=caution,
                above=bool(above),
                href=href,
                link=link,
            )
        )
    return tuple(views)


def steps(plan: Iterable[PlanStep], care: Care) -> tuple[StepView, ...]:
    """The plan for next winter, below what was told in `care`."""
    views = []
    for step in plan:
        caution, above = care.told(step.caution or "", "")
        views.append(
            StepView(
                row=step.row,
                when=when(step.from_, step.to),
                what=step.what,
                why=step.why,
                caution=caution,
                above=bool(above),
            )
        )
    return tuple(views)


def when(first: date, last: date) -> str:
    """3 November to 4 December 2026; the year of both where they differ."""
    if first == last:
        return day(first, year=True)
    return f"{day(first, year=first.year != last.year)} to {day(last, year=True)}"


def _link(page: str, anchor: str | None) -> tuple[str, str]:
    if page == "index":
        return "#plan", "See the plan"
    return f"{page}.html{'#' + anchor if anchor else ''}", f"See {NAMES[page]}"


def _ended(words: str) -> str:
    return words if words.endswith(("…", ".", "?")) else f"{words}."
