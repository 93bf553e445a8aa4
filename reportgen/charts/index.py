"""Winter, the first page: what is told first, three answers, the season in one picture, and next winter."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from reportgen.charts.calendar_view import Calendar, calendar_view
from reportgen.charts.front_words import SHOWN, above, not_answered
from reportgen.charts.types import Drawing, Page
from reportgen.charts.unknown import unknown
from reportgen.charts.winter import Sketch, effects_sketch, kilogram_sketch, season_drawing, weeks_sketch
from reportgen.counsel import cautions
from reportgen.counsel.deadlines import Deadline
from reportgen.counsel.grounds import Answer, Told
from reportgen.counsel.next_season import next_season, rest_of_season
from reportgen.measures.there import There
from reportgen.review import Review

CLAUSES, OPEN = 3, 3  # clauses of the heading, things not known that stand open


@dataclass(frozen=True, kw_only=True, slots=True)
class Front:
    """All of the first page."""

    clauses: tuple[str, ...]
    safety: tuple[Told, ...]
    season: Drawing | None
    effects: Sketch | None
    kilogram: Sketch | None
    weeks: Sketch | None  # where no kilogram can be told
    answers: tuple[Answer, ...]  # the first three
    folded: tuple[Answer, ...]  # the rest
    deadlines: tuple[Deadline, ...]  # of a winter that still runs
    dated_first: bool  # above the answers; else below the picture, where they would be too many words before it
    now: Calendar | None  # what can still be done in it
    calendar: Calendar | None
    unknown: tuple[str, ...]  # what is not known, in a few words
    all_unknown: tuple[str, ...]  # all of it, with why and what would tell


def front(review: Review, pages: Sequence[Page], document: Mapping[str, Any]) -> Front:
    """The first page of this review; `pages` are the subjects', `document` its review.json."""
    told, answers = review.counsel.told, review.counsel.answers
    safety = tuple(one for one in told if one.subject == "safety")
    season, kilogram = season_drawing(review), kilogram_sketch(review)
    fixed = [f"{one.clause} Take care" for one in safety]
    fixed += [season.title, season.subtitle] if season is not None else []
    dated = [f"{one.what} {one.why} {cautions.brief(one.caution or '')}" for one in review.counsel.deadlines]
    head = above(fixed, _clauses(review, pages), dated, answers[:SHOWN])
    open_ = unknown(review.findings, pages, document, There.of(review.readings))
    first, last = _next(review)
    rest = rest_of_season(review)
    plan = review.counsel.plan
    soon = [step for step in plan if rest is not None and step.from_ <= rest.last]
    return Front(
        clauses=head.clauses,
        safety=safety,
        season=season,
        effects=effects_sketch(review),
        kilogram=kilogram,
        weeks=weeks_sketch(review) if kilogram is None else None,
        answers=head.answers,
        folded=answers[SHOWN:],
        deadlines=review.counsel.deadlines,
        dated_first=head.dated_first,
        now=calendar_view(soon, rest.first, rest.last) if rest is not None else None,
        calendar=calendar_view([step for step in plan if step not in soon], first, last),
        unknown=tuple(_first_words(line) for line in open_[:OPEN]),
        all_unknown=open_,
    )


def _first_words(line: str) -> str:
    """The line up to its reason."""
    head = re.split(r"(?<=[a-z0-9’]): |(?<=\.) ", line, maxsplit=1)[0].rstrip(".")
    return f"{head}."


def _next(review: Review) -> tuple[date, date]:
    following = next_season(review)
    return following.first, following.last


def _clauses(review: Review, pages: Sequence[Page]) -> tuple[str, ...]:
    """The first clauses of what is told first, a sentence each; where that is little, what the first pages say."""
    first = [one for one in review.counsel.told if one.subject != "safety"]
    told = [one.clause for one in not_answered(first, review.counsel.answers[:SHOWN])]
    quiet = not any(one.subject == "event" for one in review.counsel.told)
    said = {page.slug: page.headline for page in pages if page.answers}
    frost = [said["frost"]] if quiet and "frost" in said else []
    more = [said[slug] for slug in ("damp", "light", "record") if slug in said] if len(told) < 2 else []
    clauses = [*frost, *told, *more][:CLAUSES]
    return tuple(clause if clause.endswith((".", "…")) else f"{clause}." for clause in clauses) or (
        "Nothing recorded.",
    )
