"""Which finding comes first: by what is at stake, then how sure, then its weight, ties settled by slug."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from reportgen.counsel.types import Finding, Stake, Sure

STAKES: Mapping[Stake, int] = MappingProxyType(
    {"crop lost": 0, "crop at risk": 1, "damp": 2, "money": 3, "growth": 4, "record": 5, "good news": 6}
)
SURENESS: Mapping[Sure, int] = MappingProxyType({"sure": 0, "fairly sure": 1, "a hint": 2, "cannot tell": 3})

PERFECT = "nothing-wrong"


def rank(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings in the order in which they are told, each said once; the same input always gives the same order."""
    ordered = sorted(found, key=lambda f: (STAKES[f.stake], SURENESS[f.sure], -f.weight, f.slug, f.claim))
    return _once(ordered)


def weightiest(found: Iterable[Finding], count: int = 5) -> tuple[Finding, ...]:
    """The first page's findings: the weightiest, two of a page at most, and good news among them where there is some.

    `found` is ranked. Pages and stakes take turns, so that five nights of frost do not hide the damp and the bill.
    *Nothing wrong here* leads where it is told.
    """
    ranked = list(found)
    taken: list[Finding] = []
    for finding in ranked:
        new = all((t.page, t.stake) != (finding.page, finding.stake) for t in taken)
        if len(taken) < count and new and sum(t.page == finding.page for t in taken) < 2:
            taken.append(finding)
    for finding in ranked:
        if len(taken) < count and finding not in taken:
            taken.append(finding)
    good = _good(ranked)
    if good is not None and len(taken) == count and good not in taken:
        taken[-1] = good
    return tuple(sorted(taken, key=lambda f: (f.slug != PERFECT, ranked.index(f))))


def _good(ranked: list[Finding]) -> Finding | None:
    """The best news: that nothing was wrong, else of the house, else of its record."""
    news = [f for f in ranked if f.stake == "good news"]
    return min(news, key=lambda f: (f.slug != PERFECT, f.page == "record", ranked.index(f)), default=None)


def _once(ordered: list[Finding]) -> tuple[Finding, ...]:
    """Without those that say the same: the same slug and claim, or the same claim on another page."""
    said: set[str] = set()
    kept = []
    for finding in ordered:
        if finding.claim not in said:
            said.add(finding.claim)
            kept.append(finding)
    return tuple(kept)
