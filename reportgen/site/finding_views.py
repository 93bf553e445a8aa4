"""Findings as rows of a page, ready in text: what each says there, and where its link leads."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import get_args

from reportgen.charts import NAMES
from reportgen.counsel.types import Finding, Sure
from reportgen.site.care import Care

LONG = 10  # characters of a figure that still fit its column at full size
SURE = re.compile(rf"^({'|'.join(get_args(Sure))})\b[:.,;]?\s*", re.I)


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
    caution: str  # what of it no row above has told yet
    caution_above: str  # anchor of the row that told all of it
    holds_for: str
    href: str
    link: str


def rows(
    findings: Iterable[Finding], *, anchors: frozenset[str], on: str, care: Care | None = None
) -> tuple[FindingView, ...]:
    """Findings as rows of the page `on`; on another page than their own they link to it."""
    care = Care() if care is None else care
    return _apart(tuple(_finding(finding, anchors, on, care) for finding in findings))


def sure(finding: Finding) -> str:
    """How sure, as a word: Sure, Fairly sure, A hint, Cannot tell."""
    return begun(finding.sure)


def anchor(finding: Finding) -> str:
    """The finding's own anchor on its page."""
    return f"finding-{finding.slug}"


def begun(words: str) -> str:
    """Words that begin as a sentence does."""
    return words[:1].upper() + words[1:]


def _apart(views: tuple[FindingView, ...]) -> tuple[FindingView, ...]:
    """Of two findings of one kind the second has an anchor of its own; the first keeps the plain one."""
    names = [view.anchor for view in views]
    before = [names[:n].count(name) for n, name in enumerate(names)]
    return tuple(replace(v, anchor=f"{v.anchor}-{n + 1}") if n else v for v, n in zip(views, before, strict=True))


def _finding(finding: Finding, anchors: frozenset[str], on: str, care: Care) -> FindingView:
    caution, above = care.told(finding.caution or "", anchor(finding))
    page = "" if finding.page == on else f"{finding.page}.html"
    known = finding.anchor in anchors
    target = f"#{finding.anchor}" if known else ("" if not page else f"#{anchor(finding)}")
    rest = SURE.sub("", finding.how_sure, count=1)
    holds = "" if finding.holds_for == "this house" else finding.holds_for
    return FindingView(
        anchor=anchor(finding),
        figure=begun(finding.figure),
        figure_note=finding.figure_note,
        long=len(finding.figure) > LONG,
        token=finding.token,
        claim=begun(finding.claim),
        evidence=finding.evidence,
        sure=sure(finding),
        how_sure=begun(rest),
        next_step=finding.next_step,
        caution=caution,
        caution_above=above,
        holds_for=holds,
        href=f"{page}{target}",
        link=f"See {NAMES.get(finding.page, 'the page')}" if page else "See the picture",
    )
