"""What a template prints, ready in text: one frozen view for every thing on a page. Templates loop, test and print."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from markupsafe import Markup

from reportgen.charts import NAMES
from reportgen.charts.embed import picture
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.types import Finding
from reportgen.site.care import once
from reportgen.site.finding_views import FindingView, begun, rows
from reportgen.site.tables import Column, TableView, of_frame
from reportgen.wording import MONTHS


@dataclass(frozen=True, kw_only=True, slots=True)
class ChartView:
    """A chart in both widths, its words, its table."""

    uid: str
    title: str
    subtitle: str
    wide: Markup
    narrow: Markup
    marks: tuple[str, ...]
    keys: str  # uid of the chart of this page that lists the same change lines; its own where it is the first
    numbered_wide: bool
    numbered_narrow: bool
    notes: tuple[str, ...]
    table: TableView
    slider: bool
    form: Literal["chart"] = "chart"


@dataclass(frozen=True, kw_only=True, slots=True)
class TableBlock:
    """A table that stands on its own."""

    title: str
    table: TableView
    notes: tuple[str, ...]
    form: Literal["table"] = "table"


@dataclass(frozen=True, kw_only=True, slots=True)
class NoteView:
    """A paragraph, a caution, or what to log next winter."""

    kind: str
    title: str
    text: str
    number: int
    form: Literal["note"] = "note"


Block = ChartView | TableBlock | NoteView


@dataclass(frozen=True, kw_only=True, slots=True)
class PageView:
    """One page of a subject."""

    slug: str
    nav: str
    headline: str
    lead: str
    findings: tuple[FindingView, ...]
    blocks: tuple[Block, ...]
    answers: bool
    script: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class ShownView:
    """One of the handout's three: words beside their chart."""

    claim: str
    evidence: str
    next_step: str
    sure: str
    lines: bool  # numbered change lines stand in the picture
    chart: ChartView


@dataclass(frozen=True, kw_only=True, slots=True)
class NavItem:
    """A page in the navigation; `answers` False is marked as not logged."""

    slug: str
    title: str
    answers: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class SiteView:
    """What all pages share."""

    title: str
    style: Markup
    script: Markup
    policy: str
    nav: tuple[NavItem, ...]
    footer: str


def of_page(page: Page, findings: Sequence[Finding], here: frozenset[str]) -> PageView:
    """A page with its findings; `here` are the anchors that exist on any page."""
    blocks = _keyed(_block(block, n) for n, block in enumerate(page.blocks, start=1))
    own = [finding for finding in findings if finding.page == page.slug]
    return PageView(
        slug=page.slug,
        nav=NAMES[page.slug],
        headline=begun(page.headline),
        lead=begun(page.lead),
        findings=rows(own, anchors=here, on=page.slug),
        blocks=blocks,
        answers=page.answers,
        script=any(block.form == "chart" and block.slider for block in blocks),
    )


def _keyed(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """The same change lines are told in words once a page, below the first chart that numbers them."""
    first: dict[tuple[tuple[str, ...], bool], str] = {}
    out: list[Block] = []
    for block in blocks:
        if block.form == "chart" and block.marks and block.numbered_narrow:
            block = replace(block, keys=first.setdefault((block.marks, block.numbered_wide), block.uid))
        out.append(block)
    return tuple(out)


def _block(block: Drawing | Table | Note, n: int) -> Block:
    if isinstance(block, Drawing):
        return of_drawing(block)
    if isinstance(block, Table):
        return _table(block)
    title = f"{block.title}." if block.kind == "caution" and block.title[-1:].isalpha() else block.title
    return NoteView(kind=block.kind, title=title, text=once(block.text), number=n)


def of_drawing(drawing: Drawing) -> ChartView:
    """A drawing with its pictures drawn and its table in text."""
    drawn = picture(drawing)
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
        keys=drawing.uid,
        numbered_wide=drawn.numbered_wide,
        numbered_narrow=drawn.numbered_narrow,
        notes=drawing.notes,
        table=table,
        slider=drawing.day_slider and bool(table.spots),
    )


def _table(block: Table) -> TableBlock:
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
    return TableBlock(title=begun(block.title), table=view, notes=block.notes)


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
