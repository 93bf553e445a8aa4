"""How a page of a group opens: its pictures in order, or what nobody logged."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.charts.types import Drawing, Note
from reportgen.gather.pages.types import GroupPage

BESIDE = 3  # pictures under the first; the others are folded


def opened(slug: str, headline: str, drawings: Sequence[Drawing], lacking: Sequence[Note]) -> GroupPage:
    """The first picture on top, three under it (where they are odd the last takes the whole column), the rest folded;
    behind them who is not shown."""
    picture, *others = drawings
    beside = others[:BESIDE]
    return GroupPage(
        slug=slug,
        headline=headline,
        picture=picture,
        blocks=(*beside, *lacking),
        rest=tuple(others[BESIDE:]),
        full=frozenset({beside[-1].uid}) if len(beside) % 2 else frozenset(),
    )


def unanswered(slug: str, headline: str, lead: str) -> GroupPage:
    """No house has what this page shows; `lead`: what to log, so that it can."""
    return GroupPage(slug=slug, headline=headline, lead=lead, answers=False)
