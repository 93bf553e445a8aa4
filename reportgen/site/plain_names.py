"""Every page in plain names but Record and Method, and the cells of tables: those name files and keys."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from reportgen.charts.calendar_view import Calendar
from reportgen.charts.index import Front
from reportgen.charts.plain_names import plain
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.grounds import Answer
from reportgen.counsel.types import Finding

KEYED = frozenset({"record", "method"})  # pages that name files and keys


def plain_page(page: Page) -> Page:
    """The page with all its sentences in plain names; cells of tables stay as they are."""
    if page.slug in KEYED:
        return page
    blocks = tuple(_block(block) for block in page.blocks)
    return replace(page, headline=plain(page.headline), lead=plain(page.lead), blocks=blocks)


def _block(block: Drawing | Table | Note) -> Drawing | Table | Note:
    if isinstance(block, Note):
        return replace(block, title=plain(block.title), text=plain(block.text))
    if isinstance(block, Drawing):
        block = replace(block, sure=plain(block.sure))
    return replace(block, title=plain(block.title), subtitle=plain(block.subtitle), notes=_all(block.notes))


def plain_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of a page that names no file; those of Record keep their keys."""
    return tuple(finding if finding.page in KEYED else _finding(finding) for finding in findings)


def _finding(finding: Finding) -> Finding:
    return replace(
        finding,
        claim=plain(finding.claim),
        evidence=plain(finding.evidence),
        how_sure=plain(finding.how_sure),
        next_step=plain(finding.next_step),
    )


def plain_front(front: Front) -> Front:
    """The first page."""
    return replace(
        front,
        clauses=_all(front.clauses),
        answers=tuple(map(_answer, front.answers)),
        folded=tuple(map(_answer, front.folded)),
        deadlines=tuple(replace(one, what=plain(one.what), why=plain(one.why)) for one in front.deadlines),
        now=_calendar(front.now),
        calendar=_calendar(front.calendar),
        unknown=_all(front.unknown),
        all_unknown=_all(front.all_unknown),
    )


def _answer(answer: Answer) -> Answer:
    return replace(answer, why=plain(answer.why), sure=plain(answer.sure))


def _calendar(view: Calendar | None) -> Calendar | None:
    if view is None:
        return None
    rows = [(row, [replace(i, what=plain(i.what), why=plain(i.why)) for i in row.items]) for row in view.rows]
    return replace(view, rows=tuple(replace(row, items=tuple(items)) for row, items in rows))


def _all(lines: Iterable[str]) -> tuple[str, ...]:
    return tuple(map(plain, lines))
