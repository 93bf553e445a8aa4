"""Which finding comes first: safety, then the five, then page by page by harm and money; ties settled by slug."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from reportgen.counsel.types import Finding, Stake, Subject, Sure
from reportgen.pages import AS_TOLD

STAKES: Mapping[Stake, int] = MappingProxyType(
    {
        "safety": 0,
        "crop lost": 1,
        "crop at risk": 2,
        "damp": 3,
        "money": 4,
        "growth": 5,
        "record": 6,
        "good news": 7,
    }
)
SURENESS: Mapping[Sure, int] = MappingProxyType(
    {"sure": 0, "nine in ten": 1, "fairly sure": 2, "a hint": 3, "cannot tell": 4}
)
# After safety, which is not counted among them.
FIVE: tuple[Subject, ...] = ("event", "weeks", "lever", "undone", "hold")
SHOWN = 5  # findings that a page shows before it folds the rest
PERFECT = "nothing-wrong"


def rank(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings in the order in which they are told, each said once, with their `rank`; the same input always gives the
    same order."""
    by_page = _once(sorted(found, key=_by_page))
    first = [f for f in by_page if f.stake == "safety"] + _five(by_page)
    rest = [f for f in by_page if f not in first]
    return tuple(replace(f, rank=n) for n, f in enumerate((*first, *rest)))


def _by_page(f: Finding) -> tuple[object, ...]:
    page = AS_TOLD.index(f.page) if f.page in AS_TOLD else len(AS_TOLD)
    return page, f.slug != PERFECT, STAKES[f.stake], SURENESS[f.sure], -f.weight, f.slug, f.claim


def _five(ordered: Sequence[Finding]) -> list[Finding]:
    """The first finding of each of the five subjects: the worst event, the lever to be told first …"""
    taken = (max(_of(ordered, subject), key=lambda f: f.weight, default=None) for subject in FIVE)
    return [finding for finding in taken if finding is not None]


def _of(ordered: Sequence[Finding], subject: Subject) -> list[Finding]:
    return [f for f in ordered if f.subject == subject and f.stake != "safety"]


def _once(ordered: Sequence[Finding]) -> list[Finding]:
    """Without those whose claim was told before."""
    said: set[str] = set()
    kept = []
    for finding in ordered:
        if finding.claim not in said:
            said.add(finding.claim)
            kept.append(finding)
    return kept


def shown(of_page: Sequence[Finding]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """(what a page shows, what it folds away) of its ranked findings; safety is shown and not counted."""
    safety = [f for f in of_page if f.stake == "safety"]
    others = [f for f in of_page if f.stake != "safety"]
    return (*safety, *others[:SHOWN]), tuple(others[SHOWN:])
