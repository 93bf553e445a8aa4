"""All that a review says, page by page: words of the pages, of the findings, of the first page, plan and handout."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.charts import PAGES, page
from reportgen.charts.handout import handout
from reportgen.charts.index import front
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.types import Finding
from reportgen.review import Review
from reportgen.site.chat_words import text

SPACES = str.maketrans({"\u00a0": " ", "\u202f": ""})  # thousands lose their narrow space: 1 234 is one number


def said(review: Review) -> list[tuple[str, str]]:
    """(page, sentence) of everything that stands on any page; the method page is about no season and left out."""
    pages = [page(slug, review) for slug in PAGES]
    found = [(one.slug, words) for one in pages for words in _page(one)]
    found += [(f.page, words) for f in review.findings for words in _finding(f)]
    found += [("index", words) for words in _first(review, pages)]
    found += [("handout", words) for words in text(handout(review)).splitlines()]
    return [(slug, words.translate(SPACES)) for slug, words in found if words]


def _page(one: Page) -> Iterator[str]:
    yield from (one.headline, one.lead)
    for block in one.blocks:
        if isinstance(block, Note):
            yield from (block.title, block.text)
        elif isinstance(block, Table):
            yield from (block.title, block.subtitle, *block.notes, *(cell for row in block.rows for cell in row))
        else:
            assert isinstance(block, Drawing)
            yield from (block.title, block.subtitle, block.label, block.description, *block.notes)


def _finding(one: Finding) -> Iterator[str]:
    yield from (one.claim, one.evidence, one.how_sure, one.next_step, f"{one.figure} {one.figure_note}")


def _first(review: Review, pages: list[Page]) -> Iterator[str]:
    first = front(review, pages, review.to_dict())
    yield from (*first.clauses, *first.unknown, *first.all_unknown)
    for drawn in (first.season, first.effects, first.weeks, first.kilogram):
        if drawn is not None:
            yield from (drawn.title, drawn.subtitle, drawn.sure)
    for step in review.counsel.plan:
        yield from (step.what, step.why)
    for answer in (*first.answers, *first.folded):
        yield from (answer.ask, answer.answer, answer.why, answer.sure)
    for told in review.counsel.told:
        yield from (told.clause, told.words, told.sure)
