"""What one page of a group shows, in order."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.charts.types import Drawing, Note, Table

Block = Drawing | Table | Note


@dataclass(frozen=True, kw_only=True, slots=True)
class GroupPage:
    """Answer, picture, what explains it, what to do; `full` names blocks that take the whole column."""

    slug: str
    headline: str
    lead: str = ""
    picture: Drawing | Table | None = None
    blocks: tuple[Block, ...] = ()
    rest: tuple[Block, ...] = ()
    full: frozenset[str] = frozenset()
    next_steps: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    answers: bool = True
    says: str = ""  # in the list of pages; else the headline


@dataclass(frozen=True, kw_only=True, slots=True)
class Lack:
    """Houses that a page cannot show, and what to log."""

    houses: tuple[str, ...]
    why: str
