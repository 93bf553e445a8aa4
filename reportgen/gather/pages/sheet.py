"""The group's handout: one sheet with what was learnt, what to try together and who switches when."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reportgen.charts.handout_words import GUIDANCE
from reportgen.charts.timeline import brief_day
from reportgen.counsel.brief import begun
from reportgen.counsel.cautions import LOCAL
from reportgen.counsel.cautions import brief as caution_brief
from reportgen.drawing.together import Together, renamed, together_tall, together_wide
from reportgen.gather.pages.index import Front
from reportgen.gather.pages.plan import Turns, names
from reportgen.gather.pages.together_view import together_view
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.words import houses, thing_of
from reportgen.wording import NBSP, count

ROWS, CHAT_ROWS = 4, 4
TURNS, OPEN = 8, 3
MANY_TURNS, FEW_ROWS = 4, 3  # with more turns the picture has fewer rows
WIDE, SIZE = 760.0, 12.5


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """All of the sheet, in words and SVG."""

    title: str
    clauses: tuple[str, ...]
    apart: tuple[str, ...]
    view: Together | None
    chat: tuple[Together, ...]  # of one row, two, … for the chat picture
    flat: str
    tall: str
    plan_title: str
    turns: tuple[tuple[str, str], ...]  # houses, and when they have it on
    turns_more: str
    open_: tuple[str, ...]
    care: tuple[str, ...]
    care_brief: str
    closing: str
    tight: bool


def sheet(told: Told, front: Front, title: str) -> Sheet:
    """The sheet's parts."""
    many = len(front.plan.turns) > MANY_TURNS
    view = together_view(told, "sheet", FEW_ROWS if many else ROWS, "on the page Things")
    turns = tuple((names(one, told, 5, ""), _on(one, len(front.plan.things) > 1)) for one in front.plan.turns[:TURNS])
    left = len(front.plan.turns) - len(turns)
    care = tuple(GUIDANCE.sub("", words).replace(LOCAL, "").strip() for words in front.cautions)
    so_many = f"{houses(len(told.group.houses))}, {count(told.winters, 'winter')}"
    return Sheet(
        title=title,
        clauses=front.clauses,
        apart=front.told_apart,
        view=view,
        chat=tuple(one for n in range(1, CHAT_ROWS + 1) if (one := together_view(told, "chat", n)) is not None),
        flat=together_wide(view, WIDE, SIZE, "flat") if view else "",
        tall=together_tall(renamed(view, "sheet-tall")) if view else "",
        plan_title=front.plan_title,
        turns=turns,
        turns_more=f"{begun(count(left, 'more row'))} on the first page." if left > 0 else "",
        open_=front.open_[: 1 if many else OPEN],
        care=(*care, LOCAL) if care else (),
        care_brief=" ".join(dict.fromkeys(caution_brief(words) for words in front.cautions)),
        closing=f"{so_many}: what held here need not hold elsewhere.",
        tight=bool(view and len(view.rows) > 2) or len(turns) > 4,
    )


def _on(one: Turns, named: bool) -> str:
    """On 3 Oct to 23 Oct, 14 Nov to 4 Dec."""
    spans = [f"{brief_day(t.first_day)}{NBSP}to {brief_day(t.last_day)}" for t in one.turns if t.on]
    what = f"{thing_of(one.thing, 200)} on " if named else "on "
    return f"{what}{', '.join(spans)}"


def text(sheet_: Sheet) -> str:
    """The same in plain words."""
    return "\n".join([*_lines(sheet_), ""])


def _lines(s: Sheet) -> Iterator[str]:
    yield from (s.title, "", *s.clauses, *s.apart)
    if s.view is not None:
        yield ""
        for row in s.view.rows:
            parts = [row.said, row.said_next, row.verdict]
            yield f"{row.words} ({row.note}): {'; '.join(part for part in parts if part)}."
    if s.turns or s.open_:
        yield from ("", f"{s.plan_title}:")
        yield from (f"{who}: {when}." for who, when in s.turns)
        yield from s.open_
    if s.care:
        yield from ("", "Take care:", *s.care)
    yield from ("", s.closing)
