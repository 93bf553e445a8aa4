"""At a glance: a strip of the winter, the weightiest findings, the numbers, next winter, and what is not known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from reportgen.charts.glance import Figure, figures
from reportgen.charts.strip import strip
from reportgen.charts.types import Drawing, Page
from reportgen.charts.unknown import unknown
from reportgen.counsel.changes import tried
from reportgen.counsel.grounds import Answer, PlanStep, Told
from reportgen.counsel.ranking import weightiest
from reportgen.counsel.types import Finding
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import Wording, count, day

SHOWN, CLAUSES = 3, 3  # answers that stand open, clauses of the heading


@dataclass(frozen=True, kw_only=True, slots=True)
class Front:
    """All of the first page."""

    headline: str
    lead: str
    strip: Drawing | None
    findings: tuple[Finding, ...]
    others: int  # findings that stand on the other pages only
    figures: tuple[Figure, ...]
    told: tuple[Told, ...]
    answers: tuple[Answer, ...]  # the first three
    folded: tuple[Answer, ...]  # the rest
    steps: tuple[PlanStep, ...]
    unknown: tuple[str, ...]
    cautions: tuple[str, ...]


def front(review: Review, pages: Sequence[Page], document: Mapping[str, Any]) -> Front:
    """The first page of this review; `pages` are the subjects', `document` its review.json."""
    best = weightiest(review.findings)
    return Front(
        headline=_headline(best, review),
        lead=_lead(review),
        strip=strip(review),
        findings=best,
        others=len(review.findings) - len(best),
        figures=figures(document, Wording.of(review.season)),
        told=review.counsel.told,
        answers=review.counsel.answers[:SHOWN],
        folded=review.counsel.answers[SHOWN:],
        steps=review.counsel.plan,
        unknown=unknown(review.findings, pages, document, There.of(review.readings)),
        cautions=tuple(dict.fromkeys(f.caution for f in review.findings if f.caution)),
    )


def _headline(best: Sequence[Finding], review: Review) -> str:
    """The first clauses of what is told first, a sentence each; without any the weightiest finding."""
    if clauses := [told.clause for told in review.counsel.told[:CLAUSES]]:
        return f"{'. '.join(clauses)}."
    if not best:
        return f"{review.season.title}: nothing stands out"
    return best[0].claim.rstrip(".")


def _lead(review: Review) -> str:
    season = review.season
    days = (season.last_day - season.first_day).days + 1
    house = season.house.kind or "house"
    area = f" of {Wording.of(season).area(season.house.floor_area_m2)}" if season.house.floor_area_m2 else ""
    loggers = count(len({channel.logger for channel in review.readings.channels}), "logger")
    changes = len(tried(review.effects.changes))
    diary = f" and {count(changes, 'change')} in the diary" if changes else ""
    span = f"{day(season.first_day, year=True)} to {day(season.last_day, year=True)}"
    one = f"One house, one {There.of(review.readings).season}."
    return f"{count(days, 'day')} in one {house}{area}, {span}: {loggers}{diary}. {one}"
