"""All effects of the winter by verdict, each shaded by its doubt; the do-nothing dates stand in the table."""

from __future__ import annotations

from typing import Any

import pandas as pd

from reportgen.charts.effects_view import effects_view
from reportgen.charts.types import Drawing
from reportgen.counsel.changes import FEWEST_DATES
from reportgen.counsel.changes_words import NAMES, shown, unit_of
from reportgen.counsel.facts import Facts
from reportgen.drawing.effects import Effects, effects_tall, effects_wide
from reportgen.effects import Effect, Outcome
from reportgen.review import Review
from reportgen.wording import Wording, count


def measured(review: Review) -> list[tuple[Effect, Outcome]]:
    """Changes whose hoped-for outcome has an estimate, in order of date; of a group judged as one, the first."""
    kept: list[tuple[Effect, Outcome]] = []
    for change in review.effects.changes:
        hoped = change.declared
        if hoped is None or hoped.refused is not None:
            continue
        if not any(before.what in change.grouped_with and same.outcome == hoped.outcome for before, same in kept):
            kept.append((change, hoped))
    return kept


def name_of(change: Effect) -> str:
    """What it is called; a group by all its names."""
    return " + ".join((change.what, *change.grouped_with))


def overview(review: Review) -> Drawing | None:
    """Every change that a logger can judge, by its verdict, its doubt shaded; None where none has an estimate."""
    view = effects_view(review, "changes_effects")
    if view is None or all(row.doubt is None for group in view.groups for row in group.rows):
        return None
    pairs, facts = measured(review), Facts.of(review)
    dates = max((len(change.do_nothing) for change, _ in pairs), default=0)
    return Drawing(
        uid="changes_effects",
        title=_title(review, view),
        subtitle="Each on the one thing hoped for, nights before and after as if their weather had been the same; "
        "darkest where it most likely lies, 95\u00a0% sure inside the pale ends",
        label=view.label,
        description=view.description,
        wide=effects_wide(view),
        narrow=effects_tall(view),
        table=_overview_data(pairs, facts.w),
        sure="1 is the smallest effect that you said matters; the grey ground is too small to matter.",
        notes=(_dots_words(dates),),
    )


def _title(review: Review, view: Effects) -> str:
    """The largest effect that is beyond doubt, in its own words; without one what the picture is."""
    rows = [row for g in view.groups if g.title in ("Helped", "Did the opposite") for row in g.rows if row.doubt]
    if not rows:
        return "No effect stood out from the doubt"
    first = max(rows, key=lambda row: min(abs(row.doubt.low), abs(row.doubt.high)) if row.doubt else 0.0)
    return f"The clearest effect: {first.said}"


def _dots_words(dates: int) -> str:
    """What the grey dots are, or that the winter left too few of them."""
    if dates < FEWEST_DATES:
        left = "No date" if dates == 0 else f"Only {count(dates, 'date')}"
        return (
            f"{left} of this season stood a week away from every line of the diary: too few to set the changes beside "
            "what luck and weather alone can do. Leave a fortnight between changes from now on."
        )
    return (
        f"The rows marked “no”: what the same sum says of {count(dates, 'date')} on which nothing was done, every "
        "fifth without an entry within a week. They show what luck and weather alone can do; they overlap one another, "
        "so count them and read no more into them."
    )


def _overview_data(pairs: list[tuple[Effect, Outcome]], w: Wording) -> pd.DataFrame:
    rows: list[tuple[Any, ...]] = []
    for change, hoped in pairs:
        head = (name_of(change), NAMES[hoped.outcome], unit_of(hoped, w))
        rows.append((*head, change.when, "yes", *(shown(hoped, v, w) for v in (hoped.effect, hoped.low, hoped.high))))
        rows += [
            (*head, dot.when, "no", *(shown(hoped, v, w) for v in (dot.effect, dot.low, dot.high)))
            for dot in change.do_nothing
        ]
    return pd.DataFrame(rows, columns=["change", "outcome", "unit", "date", "done", "effect", "low", "high"])
