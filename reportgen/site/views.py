"""What a template prints, ready in text: one frozen view for every thing on a page. Templates loop, test and print."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from markupsafe import Markup

from reportgen.charts import NAMES
from reportgen.charts.anatomy import arranged, halves, in_short, pair
from reportgen.charts.embed import picture
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.happened import AGAIN
from reportgen.counsel.types import Finding
from reportgen.site import resources
from reportgen.site.care import cautions_of, once
from reportgen.site.finding_views import FindingView, begun, rows
from reportgen.site.tables import Column, TableView, of_frame
from reportgen.wording import MONTHS, count

WIDE, CELL, MOST_CARDS = 42, 16, 30  # letters side by side on a phone, of one cell before it wraps; rows as cards
LEAST_BRIEF = 4  # words; fewer say nothing alone


@dataclass(frozen=True, kw_only=True, slots=True)
class ChartView:
    """A chart with its words and its table; half a column wide it is drawn for small widths only."""

    uid: str
    title: str
    subtitle: str
    wide: Markup
    narrow: Markup
    marks: tuple[str, ...]
    numbered_wide: bool
    numbered_narrow: bool
    sure: str  # the one line below it that says how sure
    notes: tuple[str, ...]  # in its fold, above the table
    table: TableView
    slider: bool
    full: bool = True
    form: Literal["chart"] = "chart"


@dataclass(frozen=True, kw_only=True, slots=True)
class TableBlock:
    """A table that stands on its own."""

    title: str
    table: TableView
    notes: tuple[str, ...]
    cards: bool = False  # on a phone each row is a card
    full: bool = True
    form: Literal["table"] = "table"


@dataclass(frozen=True, kw_only=True, slots=True)
class NoteView:
    """A paragraph, or what to log next winter."""

    kind: str
    title: str
    text: str
    number: int
    full: bool = True
    form: Literal["note"] = "note"


Block = ChartView | TableBlock | NoteView


@dataclass(frozen=True, kw_only=True, slots=True)
class PageView:
    """One page of a subject: answer, picture, what explains it, what to do, and everything else folded."""

    slug: str
    nav: str
    headline: str
    lead: str
    more_lead: str
    picture: Block | None
    blocks: tuple[Block, ...]
    rest: tuple[Block, ...]
    rest_title: str
    rest_summary: str
    next_steps: tuple[str, ...]
    findings: tuple[FindingView, ...]
    findings_title: str
    cautions: tuple[str, ...]
    answers: bool
    script: bool
    thirds: bool = False  # three small pictures in a row


@dataclass(frozen=True, kw_only=True, slots=True)
class NavItem:
    """A page in the navigation and in the list of pages; `says`: its answer in short, or what to log."""

    slug: str
    title: str
    answers: bool
    says: str


@dataclass(frozen=True, kw_only=True, slots=True)
class SiteView:
    """What all pages share."""

    title: str
    style: Markup
    script: Markup
    policy: str
    nav: tuple[NavItem, ...]
    ribbon: Markup
    footer: str

    def styled(self, style: str) -> SiteView:
        """The same with another style sheet, which the page's policy then names."""
        return replace(self, style=Markup(style), policy=resources.policy(style, str(self.script)))


def of_page(page: Page, findings: Sequence[Finding], here: frozenset[str]) -> PageView:
    """A page with its findings; `here` are the anchors that exist on any page."""
    placed = arranged(page)
    lead, more = in_short(page.lead)
    own = [finding for finding in findings if finding.page == page.slug]
    picture = _block(placed.picture, 0) if placed.picture is not None else None
    blocks, rest = _in_columns(placed.blocks, 1), _in_columns(placed.rest, 9)
    steps = _next_steps(own)
    if not page.answers:  # one paragraph, and what to log
        lead, more, rest = page.lead, "", ()
    return PageView(
        slug=page.slug,
        nav=NAMES[page.slug],
        headline=begun(page.headline),
        lead=begun(lead),
        more_lead=begun(more),
        picture=picture,
        blocks=blocks,
        rest=rest,
        rest_title="Everything else on this page",
        rest_summary=_counted(placed.rest),
        next_steps=tuple(_step(finding) for finding in steps),
        thirds=any(pair(block) for block in placed.blocks),
        findings=rows(own, anchors=here, on=page.slug),
        findings_title=f"All {count(len(own), 'finding')} of this page" if len(own) > 1 else "The finding of this page",
        cautions=cautions_of([*(f.caution for f in steps), *(_caution(b) for b in page.blocks)]),
        answers=page.answers,
        script=any(b.form == "chart" and b.slider for b in (picture, *blocks, *rest) if b is not None),
    )


def in_brief(headline: str) -> str:
    """A page's heading up to its colon or semicolon, where that is a sentence by itself."""
    head = re.split(r"[;:] ", headline, maxsplit=1)[0]
    return head if len(head.split()) >= LEAST_BRIEF else headline


def _in_columns(blocks: Sequence[Drawing | Table | Note], first: int) -> tuple[Block, ...]:
    pairs = zip(blocks, halves(blocks), strict=True)
    return tuple(_block(block, n, half=half) for n, (block, half) in enumerate(pairs, start=first))


def _next_steps(findings: Sequence[Finding], most: int = 3) -> tuple[Finding, ...]:
    """The first findings that have something to do, each said once."""
    said: dict[str, Finding] = {}
    for finding in findings:
        if finding.next_step and AGAIN not in finding.next_step:
            said.setdefault(_step(finding), finding)
    return tuple(said.values())[:most]


def _step(finding: Finding) -> str:
    """What to do; of a lever by its name, since the sentence stands without the finding."""
    if finding.page != "changes" or not finding.about:
        return finding.next_step
    words = finding.next_step
    return f"{finding.about}: {words[:1].lower()}{words[1:]}"


def _caution(block: Drawing | Table | Note) -> str | None:
    return block.text if isinstance(block, Note) and block.kind == "caution" else None


def _counted(rest: Sequence[Drawing | Table | Note]) -> str:
    pictures = sum(isinstance(block, Drawing) for block in rest)
    tables = sum(isinstance(block, Table) for block in rest)
    parts = [count(n, word) for n, word in ((pictures, "picture"), (tables, "table")) if n]
    return f"{' and '.join(parts)}, with how they were counted".capitalize() if parts else "How it was counted"


def _block(block: Drawing | Table | Note, n: int, half: bool = False) -> Block:
    if isinstance(block, Drawing):
        return of_drawing(block, half=half)
    if isinstance(block, Table):
        return replace(of_table(block), full=not half)
    return NoteView(kind=block.kind, title=block.title, text=once(block.text), number=n)


def of_drawing(drawing: Drawing, *, half: bool = False) -> ChartView:
    """A drawing with its pictures drawn and its table in text; half a column wide only the small one is drawn."""
    drawn = picture(drawing, narrow_only=half)
    frame = drawing.table if drawing.shown is None else drawing.shown
    table = of_frame(
        frame, uid=drawing.uid, caption=drawing.subtitle, whole=len(drawing.table), spots=drawing.day_slider
    )
    return ChartView(
        uid=drawing.uid,
        title=begun(drawing.title),
        subtitle=drawing.subtitle,
        wide=Markup(drawn.wide),  # our own engine's marks, every word in them escaped
        narrow=Markup(drawn.narrow),
        marks=drawn.marks,
        numbered_wide=drawn.numbered_wide,
        numbered_narrow=drawn.numbered_narrow,
        sure=drawing.sure,
        notes=drawing.notes,
        table=table,
        slider=drawing.day_slider and bool(table.spots),
        full=not half,
    )


def of_table(block: Table) -> TableBlock:
    """A table that stands on its own, its columns of numbers found."""
    columns = tuple(
        Column(name=name, numeric=_all_numbers(tuple(row[n] for row in block.rows)))
        for n, name in enumerate(block.columns)
    )
    view = TableView(
        uid=block.uid,
        id=f"{block.uid}-t",
        caption=block.subtitle or block.title,
        summary="",
        columns=columns,
        rows=block.rows,
        csv=f"{block.uid}.csv",
    )
    cards = _letters(block) > WIDE and len(block.rows) <= MOST_CARDS
    return TableBlock(title=begun(block.title), table=view, notes=block.notes, cards=cards)


def _letters(block: Table) -> int:
    """Letters of the widest cell of each column, side by side with a space between them."""
    columns = zip(block.columns, *block.rows, strict=True)
    return sum(min(max(map(len, cells)), CELL) + 2 for cells in columns)


# One number with its unit in a few words ("4.6 kWh a day"), no second number, and no date.
FIGURE = re.compile(
    r"^(?:over |under |about )?[−+±<>≤≥≈]?\s?(?:[A-Z]{3}\u00a0)?[−+]?\d[\d\u202f.,]*"
    rf"(?:[\u00a0 ]?(?!(?:{'|'.join(MONTHS)})\b)[%°a-zA-Z·/²³⁻¹][^\d(]{{0,12}})?$"
)
EMPTY = frozenset({"", "–", "—"})


def _all_numbers(cells: tuple[str, ...]) -> bool:
    """True where every cell that says something is one number, with or without its unit."""
    said = [cell for cell in cells if cell not in EMPTY]
    return bool(said) and all(FIGURE.match(cell) for cell in said)
