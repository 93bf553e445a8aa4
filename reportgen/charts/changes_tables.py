"""Tables of the changes: a row a change, what else moved, what could not be told."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.changes import tried
from reportgen.counsel.changes_words import (
    NAMES,
    days_words,
    digits,
    hope_words,
    interval_words,
    shown,
    unit_of,
    verdict_words,
)
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import JudgedLever
from reportgen.counsel.levers_words import cost_words
from reportgen.effects import Effect, Outcome
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, day, number

DASH = "—"


def rows_table(review: Review) -> Table:
    """One row a change."""
    w = Facts.of(review).w
    lever_of = review.counsel.grounds.lever_of
    rows = tuple(_row(change, lever_of(change.line), w) for change in tried(review.effects.changes))
    return Table(
        uid="changes_rows",
        title="Every change, and what it did",
        subtitle="The verdict is on the one thing hoped for, at equal weather; intervals are 95\u00a0% intervals",
        columns=("what, and what was hoped for", "verdict", "what it rests on"),
        rows=rows,
        data=_rows_data(review, w),
        notes=(
            "“Could have been seen” is the smallest true effect that these nights would have shown four times in five. "
            "An effect smaller than that is likely to end in “cannot tell”.",
            *_by_way_of_the_bed(review),
        ),
    )


def _by_way_of_the_bed(review: Review) -> tuple[str, ...]:
    """Why some intervals of warmth reach so far, where one of a hope does."""
    hoped = [change.declared for change in review.effects.changes]
    if not any(outcome is not None and outcome.through_bed for outcome in hoped):
        return ()
    return (
        "On nights mostly without heat, what you did warms or cools the bed too, and the bed gives some of that "
        "back by night. How much cannot be told from the weather's own doing, so an interval of warmth at night "
        "reaches as far as it may. Whether it leaves out zero is told with the bed as warm as it was.",
    )


def _row(change: Effect, lever: JudgedLever | None, w: Wording) -> tuple[str, ...]:
    what = f"{day(change.when)}: {change.what}"
    if change.grouped_with:
        what += f" (one with {'; '.join(change.grouped_with)})"
    verdict = " ".join(part for part in (verdict_words(change, w), cost_words(lever, w)) if part)
    return (f"{what}. Hoped for: {hope_words(change)}.", verdict, _rests_on(change, w))


def _soonest(lever: JudgedLever | None) -> float | None:
    """Winters until its lever has paid its cost, at the favourable end."""
    return lever.payback_winters.low if lever is not None and lever.payback_winters is not None else None


def _rests_on(change: Effect, w: Wording) -> str:
    """Interval, nights, the smallest effect that could have been seen, what else happened."""
    hoped, told = change.declared, []
    if hoped is not None and hoped.refused is None:
        name = NAMES[hoped.outcome]
        told.append(f"{name[:1].upper()}{name[1:]}: {interval_words(hoped, w)}")
        told.append(days_words(hoped, bool(change.switches)))
        told.append(f"could have been seen: {visible_words(hoped, w)}")
    if change.meanwhile:
        told.append(f"Meanwhile: {'; '.join(change.meanwhile)}")
    return ". ".join(f"{part[:1].upper()}{part[1:]}" for part in told) + "." if told else DASH


def visible_words(hoped: Outcome, w: Wording) -> str:
    """0.8 K or more."""
    return f"{number(shown(hoped, hoped.smallest_visible, w), digits(hoped, w))}{NBSP}{unit_of(hoped, w)} or more"


def _rows_data(review: Review, w: Wording) -> pd.DataFrame:
    rows = []
    for change in review.effects.changes:
        hoped = change.declared
        known = hoped is not None and hoped.refused is None
        values = (
            [hoped.effect, hoped.low, hoped.high, hoped.smallest_visible] if hoped is not None else [float("nan")] * 4
        )
        rows.append(
            {
                "diary line": change.line,
                "date": change.when,
                "what": change.what,
                "kind": change.kind,
                "hoped for": "; ".join(change.hoped_for),
                "verdict": change.verdict,
                "outcome": hoped.outcome if hoped is not None else "",
                "unit": unit_of(hoped, w) if hoped is not None else "",
                **{
                    name: shown(hoped, value, w) if hoped is not None and known else float("nan")
                    for name, value in zip(("effect", "low", "high", "smallest visible"), values, strict=True)
                },
                "days before": hoped.days_before if hoped is not None else 0,
                "days after": hoped.days_after if hoped is not None else 0,
                "soonest payback, winters": _soonest(review.counsel.grounds.lever_of(change.line)),
                "why not": change.reasons.get("verdict", ""),
            }
        )
    return pd.DataFrame(rows)


def refused_table(review: Review) -> Table | None:
    """What cannot be told at all, why, and what would have made it answerable; None where nothing was refused."""
    found = [(c, c.declared) for c in review.effects.changes]
    rows = tuple(
        (f"{day(c.when)}: {c.what}", NAMES[o.outcome], str(o.refused), o.answerable or DASH)
        for c, o in found
        if o is not None and o.refused is not None
    )
    if not rows:
        return None
    columns = ("what", "hoped-for outcome", "why it cannot be told", "what would have made it answerable")
    return Table(
        uid="changes_refused",
        title=f"{count(len(rows), 'change')} cannot be told from these readings",
        subtitle="Not told is not the same as no effect",
        columns=columns,
        rows=rows,
        data=pd.DataFrame(list(rows), columns=list(columns)),
    )


def others_table(review: Review) -> Table | None:
    """Outcomes that were not hoped for, without a verdict."""
    w = Facts.of(review).w
    found = [(c, o) for c in review.effects.changes for o in c.outcomes if not o.declared and o.refused is None]
    if not found:
        return None
    told = {c.line: [f"{NAMES[o.outcome]} {interval_words(o, w)}" for d, o in found if d is c] for c, _ in found}
    name = {c.line: f"{day(c.when)}: {c.what}" for c, _ in found}
    rows = tuple((name[line], "; ".join(words)) for line, words in told.items())
    data = pd.DataFrame(
        [
            (c.when, c.what, o.outcome, unit_of(o, w), *(shown(o, v, w) for v in (o.effect, o.low, o.high)))
            for c, o in found
        ],
        columns=["date", "what", "outcome", "unit", "effect", "low", "high"],
    )
    return Table(
        uid="changes_others",
        title="What else moved at the same time, without a verdict",
        subtitle="Outcomes that were not hoped for: 95\u00a0% interval of the effect at equal weather",
        columns=("what", "what else moved, 95\u00a0% intervals"),
        rows=rows,
        data=data,
        notes=(
            "No verdict stands here: whoever looks at every outcome finds a “sign” on about one do-nothing date in "
            "six, measured on made-up winters.",
        ),
    )
