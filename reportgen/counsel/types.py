"""A finding: one sentence with its number, its evidence, how sure, and one thing to do."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from reportgen.plain import PAGE_ONLY

# What is at stake, in the order in which findings rank (methods page, *Findings*).
Stake = Literal["crop lost", "crop at risk", "damp", "money", "growth", "record", "good news"]
Sure = Literal["sure", "fairly sure", "a hint", "cannot tell"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """Where the number can be recomputed: `how` over `column` of data/`csv` (after pandas query `rows`, if any)."""

    csv: str  # "frost_nights.csv"
    how: Literal["cell", "count", "sum", "mean", "min", "max"]
    column: str
    rows: str | None = None
    value: float  # the unrounded number the sentence states


@dataclass(frozen=True, kw_only=True, slots=True)
class Finding:
    """One finding. Texts are plain; numbers in them come from wording.Wording, rounded by their uncertainty."""

    slug: str
    page: str  # frost | heat | damp | soil | light | changes | harvest | winters | record
    claim: str
    evidence: str
    how_sure: str  # the words of `sure` and what they rest on
    next_step: str
    caution: str | None = None
    holds_for: Literal["this house", "this kind of cover", "anywhere"] = "this house"
    figure: str = field(metadata=PAGE_ONLY)  # the big number of the row: "−1.2 °C"
    figure_note: str = field(metadata=PAGE_ONLY)  # below it: "coldest, 14 January"
    token: str = field(default="neutral", metadata=PAGE_ONLY)  # palette token of the figure
    anchor: str = field(metadata=PAGE_ONLY)  # uid of the chart or table it rests on
    stake: Stake = field(metadata=PAGE_ONLY)
    sure: Sure = field(metadata=PAGE_ONLY)
    weight: float = field(default=0.0, metadata=PAGE_ONLY)  # within its stake, larger first
    sources: tuple[Source, ...] = field(default=(), metadata=PAGE_ONLY)
