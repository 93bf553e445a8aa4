"""The plan month by month for the page: each step from half-month to half-month, as classes s1…s24 and e1…e24."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import get_args

from reportgen.charts.timeline import brief_day
from reportgen.counsel import cautions
from reportgen.counsel.grounds import PlanRow, PlanStep
from reportgen.wording import MONTHS

MOST_MONTHS, MOST_ITEMS, MOST_A_ROW = 12, 10, 3
_SLUGS = {
    "Before the frost": "before",
    "Sow": "sow",
    "Keep": "keep",
    "Undo": "undo",
    "Try": "try",
    "Buy or put by": "buy",
    "Log": "log",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Item:
    """One step: `start` and `end` are half-months from 1; `late` where its words hang from its end."""

    start: int
    end: int
    late: bool
    what: str
    why: str
    when: str
    caution: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One row of the plan that has anything."""

    slug: str
    name: str
    items: tuple[Item, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Calendar:
    """The months along the top and the rows below; `left_out` steps found no room."""

    months: tuple[str, ...]
    rows: tuple[Row, ...]
    left_out: int = 0


def calendar_view(plan: Sequence[PlanStep], first: date, last: date) -> Calendar | None:
    """The plan over the months of the next season; None where there is nothing to do."""
    months = _months(min([first, *(s.from_ for s in plan)]), max([last, *(s.to for s in plan)]), first)
    rows, left, shown = [], MOST_ITEMS, 0
    for name in get_args(PlanRow):
        steps = [step for step in plan if step.row == name][: min(MOST_A_ROW, left)]
        left, shown = left - len(steps), shown + len(steps)
        if steps:
            items = tuple(_item(step, months) for step in _joined(steps))
            rows.append(Row(slug=_SLUGS[name], name=name, items=items))
    if not rows:
        return None
    names = tuple(MONTHS[month - 1] for _, month in months)
    return Calendar(months=names, rows=tuple(rows), left_out=len(plan) - shown)


def _joined(steps: list[PlanStep]) -> list[PlanStep]:
    """What is to be logged over the same days stands as one."""
    first = steps[0]
    if first.row != "Log" or any((s.from_, s.to) != (first.from_, first.to) for s in steps):
        return steps
    whats = [first.what, *(f"{s.what[:1].lower()}{s.what[1:]}" for s in steps[1:])]
    care = " ".join(dict.fromkeys(s.caution for s in steps if s.caution))
    return [replace(first, what="; ".join(whats), caution=care or None)]


def _months(start: date, end: date, first: date) -> list[tuple[int, int]]:
    """Year and month of every column, at most twelve: a plan that begins long before keeps the season's own months."""
    count = (end.year - start.year) * 12 + end.month - start.month + 1
    if count > MOST_MONTHS:
        start, count = first, MOST_MONTHS
    return [(start.year + (start.month - 1 + n) // 12, (start.month - 1 + n) % 12 + 1) for n in range(count)]


def _half(day: date, months: list[tuple[int, int]]) -> int:
    """The half-month of a day, held inside the calendar."""
    year, month = months[0]
    n = ((day.year - year) * 12 + day.month - month) * 2 + (1 if day.day <= 15 else 2)
    return min(max(n, 1), 2 * len(months))


def _item(step: PlanStep, months: list[tuple[int, int]]) -> Item:
    start, end = _half(step.from_, months), _half(step.to, months)
    return Item(
        start=start,
        end=max(start, end),
        late=start > len(months) * 2 * 0.6,
        what=step.what,
        why=_short_why(step),
        when=_when(step),
        caution=cautions.brief(step.caution or ""),
    )


def _short_why(step: PlanStep) -> str:
    """The first part of the reason, of what is kept or tried its price too; what is to be logged has its reason under
    what is not known. The whole stands in the calendar file."""
    most = {"Keep": 2, "Try": 2, "Log": 0}.get(step.row, 1)
    return "; ".join(step.why.split("; ")[:most])


def _when(step: PlanStep) -> str:
    """3 Nov; 3–23 Nov; 31 Aug – 14 Sep."""
    if step.from_ == step.to:
        return brief_day(step.from_)
    if (step.from_.year, step.from_.month) == (step.to.year, step.to.month):
        return f"{step.from_.day}–{brief_day(step.to)}"
    return f"{brief_day(step.from_)} – {brief_day(step.to)}"
