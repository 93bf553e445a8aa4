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
from reportgen.findings.types import Finding
from reportgen.site.tables import Column, TableView, of_frame

LONG = 10  # characters of a figure that still fit its column at full size
SURE = re.compile(r"^(sure|fairly sure|a hint|cannot tell)\b[:.,]?\s*", re.I)


@dataclass(frozen=True, kw_only=True, slots=True)
class FindingView:
    """One row: figure · claim, evidence, next step, caution · how sure, with the link to its chart."""

    anchor: str
    figure: str
    figure_note: str
    long: bool  # the figure is set smaller
    token: str
    claim: str
    evidence: str
    sure: str
    how_sure: str
    next_step: str
    caution: str | None
    caution_above: str  # anchor of the row that tells the same caution in full
    holds_for: str
    href: str
    link: str


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
    subtitle: str
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
        headline=page.headline,
        lead=page.lead,
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


def rows(findings: Iterable[Finding], *, anchors: frozenset[str], on: str) -> tuple[FindingView, ...]:
    """Findings as rows of the page `on`; on another page than their own they link to it."""
    told: dict[str, str] = {}
    views = []
    for finding in findings:
        above = told.get(finding.caution or "", "")
        views.append(_finding(finding, anchors, on, above))
        if finding.caution:
            told.setdefault(finding.caution, anchor(finding))
    return tuple(views)


def sure(finding: Finding) -> str:
    """How sure, as a word: Sure, Fairly sure, A hint, Cannot tell."""
    return finding.sure[:1].upper() + finding.sure[1:]


def anchor(finding: Finding) -> str:
    """The finding's own anchor on its page."""
    return f"finding-{finding.slug}"


def _finding(finding: Finding, anchors: frozenset[str], on: str, above: str) -> FindingView:
    page = "" if finding.page == on else f"{finding.page}.html"
    known = finding.anchor in anchors
    target = f"#{finding.anchor}" if known else ("" if not page else f"#{anchor(finding)}")
    rest = SURE.sub("", finding.how_sure, count=1)
    holds = "" if finding.holds_for == "this house" else finding.holds_for
    return FindingView(
        anchor=anchor(finding),
        figure=finding.figure,
        figure_note=finding.figure_note,
        long=len(finding.figure) > LONG,
        token=finding.token,
        claim=finding.claim,
        evidence=finding.evidence,
        sure=sure(finding),
        how_sure=rest[:1].upper() + rest[1:],
        next_step=finding.next_step,
        caution=finding.caution,
        caution_above=above,
        holds_for=holds,
        href=f"{page}{target}",
        link=f"See {NAMES.get(finding.page, 'the page')}" if page else "See the picture",
    )


def _block(block: Drawing | Table | Note, n: int) -> Block:
    if isinstance(block, Drawing):
        return of_drawing(block)
    if isinstance(block, Table):
        return _table(block)
    return NoteView(kind=block.kind, title=block.title, text=block.text, number=n)


def of_drawing(drawing: Drawing) -> ChartView:
    """A drawing with its pictures drawn and its table in text."""
    drawn = picture(drawing)
    frame = drawing.table if drawing.shown is None else drawing.shown
    table = of_frame(
        frame, uid=drawing.uid, caption=drawing.subtitle, whole=len(drawing.table), spots=drawing.day_slider
    )
    return ChartView(
        uid=drawing.uid,
        title=drawing.title,
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
    # The subtitle is the table's caption; said once.
    return TableBlock(title=block.title, subtitle="", table=view, notes=block.notes)


FIGURE = re.compile(r"^[−+±<>≤≥≈]?\s?(?:[A-Z]{3}\u00a0)?[−+]?\d[\d\u202f.,]*(?:\u00a0?[%°\w·/²³⁻¹]+)?$")
EMPTY = frozenset({"", "–", "—"})


def _all_numbers(cells: tuple[str, ...]) -> bool:
    """True where every cell that says something is one number, with or without its unit."""
    said = [cell for cell in cells if cell not in EMPTY]
    return bool(said) and all(FIGURE.match(cell) for cell in said)
