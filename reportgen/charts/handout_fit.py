"""Whether the handout is one sheet: its height on paper, worked out with the widest fallback font.

The sheet must stay whole on both usual papers, so it is measured as wide as A4 and as high as US Letter (ISO 216: 210 ×
297 mm; ANSI/ASME Y14.1: 215.9 × 279.4 mm), its margins taken off. Sizes and spaces are those of handout.css, in
rem; what this rule gives is held by a test that prints the page.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from reportgen.charts.handout_parts import Handout, Level
from reportgen.drawing.widths import wrap

POINT = 72 / 25.4  # points in a millimetre
SIDE_MM, TOP_MM = 13.0, 8.0  # margins, as handout.css has them
WIDE = (210.0 - 2 * SIDE_MM) * POINT
HIGH = (279.4 - 2 * TOP_MM) * POINT
SPARE = 0.99  # of the height, for what rounding takes
FULL = Level(root=9.6, rows=8, notes=True, dates=True, low=False, full=True)
TIGHT = replace(FULL, root=8.5)
SHORT = replace(TIGHT, rows=6, notes=False, dates=False, low=True, full=False)
LEVELS = (
    FULL,
    TIGHT,
    replace(TIGHT, rows=6),
    replace(TIGHT, rows=6, low=True),
    replace(TIGHT, rows=6, low=True, notes=False),
    replace(TIGHT, rows=6, low=True, notes=False, full=False),
    SHORT,
    replace(SHORT, clauses=2),
    replace(SHORT, rows=5, clauses=2),
    replace(SHORT, rows=4, clauses=2),
    replace(SHORT, rows=3, clauses=2),
    replace(SHORT, rows=3, clauses=1),
)
TEXT, LEAD = 0.95, 1.2  # rem of all small text, and its line height
H1, H2, ANSWER = 1.5, 1.15, 1.3
SERIF = 1.04  # the widest serif over the widest sans, bold
COLUMN_GAP, PART = 1.6, 0.7  # rem: between columns; margin and padding above a part
PLAN, PLAN_ALONE = 1.1, 2.2  # width of the plan to the other columns; where it stands with the kilogram alone
MONEY = 62 * POINT  # widest that the kilogram's picture is drawn
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


def fits(sheet: Handout) -> bool:
    """True where it is one page at its level."""
    return height_of(sheet) <= HIGH * SPARE


def height_of(sheet: Handout) -> float:
    """Points from the top of the sheet to its foot."""
    page = _Paper(sheet.level.root)
    parts = [
        page.text([sheet.title], size=1.0) + 0.2 * page.rem,
        page.heading(sheet.clauses, H1, WIDE, 1.13) + 0.8 * page.rem,
        *(
            page.text([f"{one.words} {one.caution}"], width=WIDE - 14, bold=True) + 0.4 * page.rem
            for one in sheet.safety
        ),
        _answers(page, sheet),
        _season(page, sheet),
        _changes(page, sheet),
        _columns(page, sheet),
        _foot(page, sheet),
    ]
    return sum(parts)


class _Paper:
    """Heights of words at one root size, in points."""

    def __init__(self, root: float) -> None:
        self.rem = root

    def text(
        self,
        paragraphs: Iterable[str],
        *,
        width: float = WIDE,
        size: float = TEXT,
        bold: bool = False,
        gap: float = 0.15,
    ) -> float:
        """Paragraphs of small text."""
        pt = size * self.rem
        return sum(
            len(wrap(words, pt, width, bold=bold, most=99)) * pt * LEAD + gap * self.rem
            for words in paragraphs
            if words
        )

    def heading(self, lines: Iterable[str], size: float, width: float, lead: float = 1.2) -> float:
        """Serif headings, each on lines of its own."""
        pt = size * self.rem
        return sum(len(wrap(words, pt * SERIF, width, bold=True, most=99)) * pt * lead for words in lines if words)


def _drawn(svg: str, width: float) -> float:
    """Height of a picture at that width."""
    found = _VIEW.search(svg)
    return float(found[2]) * width / float(found[1]) if found else 0.0


def _answers(page: _Paper, sheet: Handout) -> float:
    if not sheet.answers:
        return 0.0
    width = (WIDE - 2 * COLUMN_GAP * page.rem) / 3
    columns = [
        page.text([one.ask, one.why, one.sure], width=width)
        + page.heading([one.answer], ANSWER, width)
        + 0.15 * page.rem
        for one in sheet.answers
    ]
    return max(columns) + 1.1 * page.rem


def _season(page: _Paper, sheet: Handout) -> float:
    if sheet.season is None:
        return 0.0
    words = page.heading([sheet.season.title], H2, WIDE) + page.text([sheet.season.sub], gap=0.3)
    return words + _drawn(sheet.season.wide, WIDE) + PART * page.rem


def _changes(page: _Paper, sheet: Handout) -> float:
    if sheet.changes is None:
        return 0.0
    words = page.heading([sheet.changes.title], H2, WIDE)
    words += page.text([f"{sheet.changes.sub} {sheet.changes.refused}".strip()], gap=0.3)
    return words + _drawn(sheet.changes.flat, WIDE) + PART * page.rem


def plan_wide(sheet: Handout) -> bool:
    """Whether the plan stands beside the kilogram alone."""
    return sheet.kilogram is not None and bool(sheet.plan) and not sheet.how


def _columns(page: _Paper, sheet: Handout) -> float:
    """Kilogram, plan, how we know: the highest of them."""
    there = sum((sheet.kilogram is not None, bool(sheet.plan), bool(sheet.how)))
    if not there:
        return 0.0
    wide = (PLAN_ALONE if plan_wide(sheet) else PLAN) if sheet.plan else 0.0
    unit = (WIDE - (there - 1) * COLUMN_GAP * page.rem) / (there - bool(sheet.plan) + wide)
    highest = 0.0
    if sheet.kilogram is not None:
        money = page.heading([sheet.kilogram.title], H2, unit) + page.text([sheet.kilogram.note], width=unit)
        highest = money + _drawn(sheet.kilogram.svg, min(unit, MONEY))
    if sheet.plan:
        highest = max(highest, _plan(page, sheet, wide * unit))
    if sheet.how:
        highest = max(highest, page.heading(["How we know"], H2, unit) + page.text(sheet.how, width=unit))
    return highest + PART * page.rem


def _plan(page: _Paper, sheet: Handout, width: float) -> float:
    lines = [f"{line.row}: {'. '.join(line.steps)}. {line.caution}" for line in sheet.plan]
    return page.heading([sheet.plan_title], H2, width) + page.text(lines, width=width - page.rem)


def _foot(page: _Paper, sheet: Handout) -> float:
    return page.text([" ".join(("Take care.", *sheet.care, sheet.closing))], width=WIDE * 0.98) + PART * page.rem
