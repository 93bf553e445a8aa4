"""A finding: one sentence with its number, its evidence, how sure, and one thing to do."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from reportgen.plain import PAGE_ONLY

# What is at stake, in the order in which findings of a page are told (methods page, *Findings*).
Stake = Literal["safety", "crop lost", "crop at risk", "damp", "money", "growth", "record", "good news"]
# sure: counted within its band · nine in ten: measured to hold that often · fairly sure: measured, 80 to 90 of 100
# · a hint: not measured, so no figure · cannot tell.
Sure = Literal["sure", "nine in ten", "fairly sure", "a hint", "cannot tell"]
# The subjects that every short form of the review speaks of, in their order (grounds.Told).
Subject = Literal["safety", "event", "weeks", "lever", "undone", "hold"]
HoldsFor = Literal["this house", "this kind of cover", "anywhere"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """Where the number can be recomputed: `how` over `column` of data/`csv` (after pandas query `rows`, if any)."""

    csv: str  # "frost_nights.csv"
    how: Literal["cell", "count", "sum", "mean", "min", "max"]
    column: str
    rows: str | None = None
    value: float  # the unrounded number the sentence states


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """What the maker of a kind says; the registry (kinds.py) adds slug, page, anchor and stake of the kind.

    Texts are plain; numbers in them come from wording.Wording, rounded by their uncertainty. `how_sure` begins with
    one of the sure-words. `line`: of diary.csv, where each change has a finding of its own.
    """

    claim: str
    evidence: str
    how_sure: str
    next_step: str
    figure: str  # the big number of the row: "−1.2 °C"
    figure_note: str  # below it: "coldest, 14 January"
    about: str | None = None  # the lever, crop, logger, heater … it speaks of
    caution: str | None = None
    token: str = "neutral"  # palette token of the figure
    anchor: str | None = None  # another one of its kind's anchors than the first
    stake: Stake | None = None  # another one than its kind's
    weight: float = 0.0  # within its stake, larger first
    holds_for: HoldsFor = "this house"
    line: int | None = None
    subject: Subject | None = None
    sources: tuple[Source, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Finding:
    """One finding as it stands in review.json and on its page; `rank` 0 is told first."""

    slug: str
    page: str  # a slug of reportgen.pages
    about: str | None
    rank: int = 0
    claim: str
    evidence: str
    how_sure: str  # the page's very words
    next_step: str
    caution: str | None = None
    holds_for: HoldsFor = "this house"
    figure: str = field(metadata=PAGE_ONLY)
    figure_note: str = field(metadata=PAGE_ONLY)
    token: str = field(default="neutral", metadata=PAGE_ONLY)
    anchor: str = field(metadata=PAGE_ONLY)  # uid of the chart or table it rests on
    stake: Stake = field(metadata=PAGE_ONLY)
    weight: float = field(default=0.0, metadata=PAGE_ONLY)
    subject: Subject | None = field(default=None, metadata=PAGE_ONLY)
    sources: tuple[Source, ...] = field(default=(), metadata=PAGE_ONLY)

    @property
    def sure(self) -> Sure:
        """The sure-word with which `how_sure` begins."""
        return sure_word(self.how_sure)


def sure_word(how_sure: str) -> Sure:
    """The sure-word with which a sentence begins.

    Raises:
        ValueError: It begins with none.
    """
    begun = how_sure.casefold()
    for word in get_args(Sure):
        if begun.startswith(word):
            found: Sure = word
            return found
    raise ValueError(f"no sure-word at the head of: {how_sure}")
