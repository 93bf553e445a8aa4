"""What the picture of effects is told of a review: each change's doubt in multiples of what matters, and its words."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from reportgen.charts.effects_words import interval_brief, interval_said, refused_brief
from reportgen.charts.look import UNIT
from reportgen.charts.season_view import SAID
from reportgen.charts.timeline import brief_day
from reportgen.drawing.doubt import Doubt, by_t, one_band
from reportgen.drawing.effects import Effects, Group, Row
from reportgen.drawing.ink import Mark
from reportgen.effects import Effect, Outcome
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.outcomes import LARGER_IS_BETTER
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number

TITLES: tuple[tuple[str, Mark], ...] = (
    ("Helped", "helped"),
    ("Did the opposite", "opposite"),
    ("No sign", "open"),
    ("Cannot tell", "open"),
)
TITLE_OF: Mapping[str, str] = MappingProxyType(
    {"helped": "Helped", "hurt": "Did the opposite", "no sign": "No sign", "cannot tell": "Cannot tell"}
)
MOST_WORDS = 60


def effects_view(review: Review, uid: str = "effects") -> Effects | None:
    """Levers that a logger can judge, on and off of one as one estimate, by verdict; None where there is none."""
    w = Wording.of(review.season)
    rows: dict[str, list[Row]] = {title: [] for title, _ in TITLES}
    for lever in judged_levers(review):
        rows[TITLE_OF[lever.verdict]].append(_row(lever, review, w))
    groups = tuple(Group(title=title, mark=mark, rows=tuple(rows[title])) for title, mark in TITLES if rows[title])
    refused = [row.refused for group in groups for row in group.rows if row.doubt is None]
    if not groups:
        return None
    return Effects(
        uid=uid,
        label="What each thing we changed did on the one thing hoped for, with the weather taken out",
        description=_description(groups),
        groups=groups,
        folded=_folded(refused),
    )


def _folded(refused: list[str]) -> str:
    """How many rows without an estimate there are, and why."""
    whys = "; ".join(dict.fromkeys(refused))
    return f"{count(len(refused), 'more change')} could not be compared: {whys}." if refused else ""


def in_words(view: Effects) -> str:
    """3 helped, 1 did the opposite, 4 cannot be told."""
    words = {"Cannot tell": "cannot be told", "No sign": "showed no sign"}
    told = [f"{number(len(group.rows))}{NBSP}{words.get(group.title, group.title.lower())}" for group in view.groups]
    return ", ".join(told)


def judged_levers(review: Review) -> list[LeverEffect]:
    """Levers with a hope that a logger can judge, in order of date; a heater is no lever for warmth."""
    grounds = review.counsel.grounds
    told = [one for one in review.effects.levers if one.declared is not None and one.verdict in TITLE_OF]
    named = [(one, grounds.lever_of(one.lines[0])) for one in told]
    kept = [one for one, lever in named if lever is None or lever.verdict != "not judged"]
    return sorted(kept, key=lambda one: min(_dates(review)[line] for line in one.lines if line in _dates(review)))


def _dates(review: Review) -> dict[int, date]:
    return {entry.line: entry.date for entry in review.readings.diary}


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


def _row(lever: LeverEffect, review: Review, w: Wording) -> Row:
    hoped = lever.declared
    assert hoped is not None
    lines = [entry for entry in review.readings.diary if entry.line in lever.lines]
    spells = sum(entry.kind == "spell" for entry in lines)
    times = f" ({number(spells)}{NBSP}times)" if spells > 1 else ""
    known = doubt_of(lever, hoped)
    mark, verdict = SAID[lever.verdict]
    return Row(
        mark=mark,
        words=UNIT.sub(NBSP, lines[0].what) + times,
        when=brief_day(lines[0].date),
        doubt=known,
        said=interval_said(hoped, w) if known else "",
        brief=interval_brief(hoped, w) if known else "",
        verdict=verdict,
        refused="" if known else refused_brief(hoped),
    )


def doubt_of(effect: Effect | LeverEffect, hoped: Outcome) -> Doubt | None:
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
