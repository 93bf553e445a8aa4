"""A page of the group as the templates print it: the views of a season's pages, with the group's names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.brief import begun
from reportgen.gather.pages import NAMES
from reportgen.gather.pages.types import Block, GroupPage
from reportgen.site.care import cautions_of, once
from reportgen.site.views import Block as View
from reportgen.site.views import NoteView, PageView, of_drawing, of_table
from reportgen.wording import count


def of_page(page: GroupPage) -> PageView:
    """The page ready to print."""
    picture = None if page.picture is None else _view(page.picture, half=False, n=0)
    return PageView(
        slug=page.slug,
        nav=NAMES[page.slug],
        headline=begun(page.headline),
        lead=page.lead,
        more_lead="",
        picture=picture,
        blocks=tuple(_placed(page.blocks, page.full, 1)),
        rest=tuple(_placed(page.rest, frozenset(_uid(b) for b in page.rest), 20)),
        rest_title="Everything else on this page",
        rest_summary=_counted(page.rest),
        next_steps=page.next_steps,
        findings=(),
        findings_title="",
        cautions=cautions_of(page.cautions),
        answers=page.answers,
        script=False,
    )


def _placed(blocks: Sequence[Block], full: frozenset[str], first: int) -> list[View]:
    """Halves in pairs; a lone half takes the whole column."""
    half = [isinstance(b, Drawing) and _uid(b) not in full for b in blocks]
    run = 0
    for n, one in enumerate([*half, False]):
        if not one and run % 2:
            half[n - 1] = False
        run = run + 1 if one else 0
    return [_view(b, half=h, n=n) for n, (b, h) in enumerate(zip(blocks, half, strict=True), start=first)]


def _uid(block: Block) -> str:
    return "" if isinstance(block, Note) else block.uid


def _view(block: Block, *, half: bool, n: int) -> View:
    if isinstance(block, Drawing):
        return of_drawing(block, half=half)
    if isinstance(block, Table):
        return replace(of_table(block), full=True)
    return NoteView(kind=block.kind, title=block.title, text=once(block.text), number=n)


def _counted(rest: Sequence[Block]) -> str:
    pictures = sum(isinstance(block, Drawing) for block in rest)
    tables = sum(isinstance(block, Table) for block in rest)
    parts = [count(n, word) for n, word in ((pictures, "picture"), (tables, "table")) if n]
    return begun(" and ".join(parts))
