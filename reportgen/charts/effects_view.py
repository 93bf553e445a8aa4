"""What the picture of effects is told of a review: each change's doubt in multiples of what matters, and its words."""

from __future__ import annotations

import math
from collections.abc import Callable

from reportgen.charts.effects_words import interval_brief, interval_said, refused_brief
from reportgen.charts.look import UNIT
from reportgen.charts.season_view import Said, said_of
from reportgen.charts.timeline import brief_day
from reportgen.drawing.doubt import Doubt, by_t, one_band
from reportgen.drawing.effects import Effects, Group, Row
from reportgen.drawing.ink import Mark
from reportgen.effects import Effect, Outcome
from reportgen.effects.outcomes import LARGER_IS_BETTER
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number

TITLES: tuple[tuple[str, Mark], ...] = (
    ("Helped", "helped"),
    ("Did the opposite", "opposite"),
    ("No sign", "open"),
    ("Cannot tell", "open"),
)
MOST_WORDS = 60


def effects_view(review: Review, uid: str = "effects", said: Callable[[Effect], Said] = said_of) -> Effects | None:
    """Changes that a logger can judge, grouped by verdict; None where there is none."""
    w = Wording.of(review.season)
    rows: dict[str, list[Row]] = {title: [] for title, _ in TITLES}
    for effect in judged(review):
        title = _title(said(effect))
        if title in rows:
            rows[title].append(_row(effect, w, said(effect)))
    groups = tuple(Group(title=title, mark=mark, rows=tuple(rows[title])) for title, mark in TITLES if rows[title])
    refused = sum(row.doubt is None for group in groups for row in group.rows)
    if not groups:
        return None
    return Effects(
        uid=uid,
        label="What each change did on the one thing hoped for, with the weather taken out",
        description=_description(groups),
        groups=groups,
        folded=f"{count(refused, 'more change')} could not be compared." if refused else "",
    )


def judged(review: Review) -> list[Effect]:
    """Changes with a hope that a logger can judge, in order of date; of a group judged as one, the first."""
    kept: list[Effect] = []
    for effect in review.effects.changes:
        hoped = effect.declared
        if effect.kind not in ("change", "spell") or hoped is None:
            continue
        if not any(e.what in effect.grouped_with and _same(e.declared, hoped) for e in kept):
            kept.append(effect)
    return kept


def _same(one: Outcome | None, other: Outcome) -> bool:
    return one is not None and one.outcome == other.outcome


def _title(said: Said) -> str:
    mark, words = said
    if mark in ("helped", "opposite"):
        return "Helped" if mark == "helped" else "Did the opposite"
    return "No sign" if words == "no sign" else "Cannot tell" if mark == "open" else ""


def _row(effect: Effect, w: Wording, said: Said) -> Row:
    hoped = effect.declared
    assert hoped is not None
    names = UNIT.sub(NBSP, " + ".join((effect.what, *effect.grouped_with)))
    times = f" ({number(len(effect.switches))}{NBSP}times)" if len(effect.switches) > 1 else ""
    known = doubt_of(effect, hoped)
    return Row(
        mark=said[0],
        words=names + times,
        when=brief_day(effect.when),
        doubt=known,
        said=interval_said(hoped, w) if known else "",
        brief=interval_brief(hoped, w) if known else "",
        verdict=said[1],
        refused="" if known else refused_brief(hoped),
    )


def doubt_of(effect: Effect, hoped: Outcome) -> Doubt | None:
    """The effect in multiples of what matters, better to the right; by the estimator's own t where it is known."""
    if hoped.refused is not None or not math.isfinite(hoped.effect) or not effect.care > 0:
        return None
    factor = (1.0 if hoped.outcome in LARGER_IS_BETTER else -1.0) / effect.care
    if hoped.dof and math.isfinite(hoped.se):
        return by_t(hoped.effect, hoped.se, hoped.dof).scaled(factor)
    return one_band(hoped.effect, hoped.low, hoped.high).scaled(factor)


def _description(groups: tuple[Group, ...]) -> str:
    """The verdicts with their numbers, as many as 60 words hold."""
    parts = [f"{group.title}: {row.words}, {row.said or row.refused}." for group in groups for row in group.rows]
    told: list[str] = []
    for part in parts:
        if len(" ".join([*told, part]).replace(NBSP, " ").split()) > MOST_WORDS - 6:
            break
        told.append(part)
    left = len(parts) - len(told)
    return " ".join([*told, *([f"And {count(left, 'more row')}."] if left else [])])
