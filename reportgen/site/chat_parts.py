"""Parts of the picture for a group chat: each an SVG of its own height, as wide as the picture inside its edges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from reportgen.drawing import doubt, ink
from reportgen.drawing.axis import Scale
from reportgen.drawing.effects import Row, domain
from reportgen.drawing.pen import Pen, isolated
from reportgen.drawing.widths import wrap
from reportgen.wording import NBSP

WIDTH, EDGE = 1080, 46
INNER = WIDTH - 2 * EDGE
LEAD = 1.22
ALONE, SEVERAL = 40, 33  # pixels of a heading of one clause, and of more
ROW = 25  # pixels of the words of a change
NAME, BAR_FROM, BAR_TO, TOLD = 34, 400, 610, 634  # where a row's parts begin and end
LABEL = 100  # of Keep, Undo and Try


@dataclass(frozen=True, kw_only=True, slots=True)
class Block:
    """`nested`: the inner part is a whole drawing; `section`: a new section begins with it."""

    inner: str
    height: float
    nested: bool = False
    section: bool = False


def lines(paragraphs: Sequence[str], size: float, *, color: str = "ink", bold: bool = False, most: int = 2) -> Block:
    """Words in lines as wide as the picture."""
    rows = [row for words in paragraphs for row in wrap(words, size, INNER, bold=bold, most=most)]
    return Block(inner=_rows(rows, 0, size, color, bold), height=len(rows) * size * LEAD + 6)


def _rows(rows: Sequence[str], x: float, size: float, color: str, bold: bool) -> str:
    weight = ' font-weight="700"' if bold else ""
    return "".join(
        f'<text x="{x:g}" y="{(n + 0.8) * size * LEAD:.1f}" font-size="{size:g}"{weight} fill="var(--{color})">'
        f"{escape(isolated(row))}</text>"
        for n, row in enumerate(rows)
    )


def heading(clauses: Sequence[str]) -> Block:
    """The heading, each clause on lines of its own."""
    size = ALONE if len(clauses) == 1 else SEVERAL
    rows = [row for words in clauses for row in wrap(words, size, INNER, bold=True, most=9)]
    return Block(inner=_rows(rows, 0, size, "ink", True), height=len(rows) * size * LEAD + 8)


def rule() -> Block:
    """A line above a section."""
    return Block(inner=f'<path d="M0 8H{INNER}" stroke="var(--rule2)" stroke-width="2"/>', height=18, section=True)


def shelf(label: str, words: str) -> Block:
    """A row of the plan: its name, and its words in two lines at most."""
    rows = wrap(words, ROW, INNER - LABEL, most=2)
    inner = _rows([label], 0, ROW, "ink", True) + _rows(rows, LABEL, ROW, "ink", False)
    return Block(inner=inner, height=len(rows) * ROW * LEAD + 4)


def changes(rows: Sequence[Row]) -> Block:
    """Each change with its doubt about the zero line, and its interval in words."""
    low, high = domain(rows)
    pen, x = Pen(width=INNER, size=ROW, uid="chat-changes"), Scale(low=low, high=high, start=BAR_FROM, end=BAR_TO)
    pen.text((0, ROW), "What we changed", bold=True, halo=False)
    pen.text((x(0) - 12, ROW), "worse", ink.text("warm"), anchor="end", halo=False)
    pen.text((x(0) + 12, ROW), "better", ink.text("target"), halo=False)
    y = ROW * 1.5
    middles = []
    for row in rows:
        names = wrap(row.words, ROW, BAR_FROM - NAME - 16, most=2)
        told = _told(row)
        high_ = pen.lead * max(len(names), len(told)) + 6
        middles.append((row, names, told, y + high_ / 2))
        y += high_
    pen.boxes([(x(-1), ROW * 1.4, x(1), y)], ink.DUSK)
    pen.line([(x(0), ROW * 0.4), (x(0), y)], ink.INK2, 1.6)
    for row, names, told, middle in middles:
        assert row.doubt is not None
        pen.mark((12, middle), row.mark, 10)
        _middled(pen, NAME, middle, names, ink.INK, False)
        doubt.draw(pen, row.doubt, x, middle, 22, ink.MARK_TOKENS[row.mark])
        _middled(pen, TOLD, middle, told, ink.said(row.mark), row.mark in ("helped", "opposite"))
    return Block(inner=pen.svg(y, "Changes", "Changes with their doubt", "wide"), height=y + 4, nested=True)


def _told(row: Row) -> tuple[str, ...]:
    """The interval, and the verdict where the words of the interval do not tell it."""
    bold = row.mark in ("helped", "opposite")
    verdict = row.verdict.replace(" ", NBSP)
    words = row.brief if bold else f"{row.brief} –{NBSP}{verdict}"
    return wrap(words, ROW, INNER - TOLD, bold=bold, most=2)


def _middled(pen: Pen, x: float, middle: float, rows: Sequence[str], color: str, bold: bool) -> None:
    base = middle - (len(rows) - 1) / 2 * pen.lead + pen.size * 0.35
    pen.lines((x, base), rows, color, bold=bold)
