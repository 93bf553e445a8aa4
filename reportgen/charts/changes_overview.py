"""All effects of the winter around zero, with the do-nothing dates below each."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd

from reportgen.charts import look as parts
from reportgen.charts import theme
from reportgen.charts.canvas import Canvas
from reportgen.charts.place import nice_ticks, shorten, tick_words
from reportgen.charts.theme import Size
from reportgen.charts.types import Drawing
from reportgen.counsel.changes import FEWEST_DATES, TOKENS
from reportgen.counsel.changes_words import NAMES, effect_words, interval_words, shown, unit_of
from reportgen.counsel.facts import Facts
from reportgen.effects import Effect, Outcome
from reportgen.effects.outcomes import LARGER_IS_BETTER
from reportgen.review import Review
from reportgen.wording import Wording, count, day, of_all

ROW = 46
LONGEST = 12.0  # intervals are drawn to this many times what matters; beyond it they are cut and the table has them


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


def _scaled(change: Effect, hoped: Outcome, value: float) -> float:
    """In multiples of what the grower cares for, positive where better."""
    sign = 1.0 if hoped.outcome in LARGER_IS_BETTER else -1.0
    return float(np.clip(sign * value / change.care, -LONGEST, LONGEST))


def overview(review: Review) -> Drawing | None:
    """Every effect with its interval, the do-nothing dates as grey dots below it; None where nothing was measured."""
    pairs = [(change, hoped) for change, hoped in measured(review) if change.care > 0]
    if not pairs:
        return None
    facts = Facts.of(review)
    wide, narrow = (_draw_overview(pairs, size, facts.w) for size in theme.sizes())
    signs = sum(change.verdict in ("helped", "hurt") for change, _ in pairs)
    dates = max((len(change.do_nothing) for change, _ in pairs), default=0)
    title = (
        f"{of_all(signs, len(pairs), 'change')} with an estimate left a sign that the weather does not explain"
        if len(pairs) > 1
        else f"The one change with an estimate left {'a' if signs else 'no'} sign beyond what the weather explains"
    )
    return Drawing(
        uid="changes_effects",
        title=title,
        subtitle="Effect on what was hoped for, with its 95\u00a0% interval, in multiples of the smallest effect that "
        "you said would matter; right of zero is better, the shaded part is too small to matter",
        label="Interval chart of the effect of every change on the one thing hoped for",
        description=_description(pairs, facts.w),
        wide=wide,
        narrow=narrow,
        table=_overview_data(pairs, facts.w),
        notes=(_dots_words(dates),),
    )


def _description(pairs: list[tuple[Effect, Outcome]], w: Wording) -> str:
    return " ".join(f"{name_of(c)}: {effect_words(o, w)} ({interval_words(o, w)})." for c, o in pairs)


def _dots_words(dates: int) -> str:
    """What the grey dots are, or that the winter left too few of them."""
    if dates < FEWEST_DATES:
        left = "No date" if dates == 0 else f"Only {count(dates, 'date')}"
        return (
            f"{left} of this season stood a week away from every line of the diary: too few to set the changes beside "
            "what luck and weather alone can do. Leave a fortnight between changes next winter."
        )
    return (
        f"Grey dots: what the same sum says of {count(dates, 'date')} on which nothing was done, every fifth "
        "without an entry within a week. They show what luck and weather alone can do; they overlap one another, "
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


def _draw_overview(pairs: list[tuple[Effect, Outcome]], size: Size, w: Wording) -> Any:
    box = Size(
        total=size.total, left=8, right=112 if size.narrow else size.right, height=len(pairs) * ROW, narrow=size.narrow
    )
    scaled = [[_scaled(c, o, v) for v in (o.low, o.effect, o.high)] for c, o in pairs]
    dots = [[_scaled(c, o, dot.effect) for dot in c.do_nothing] for c, o in pairs]
    flat = [v for row in [*scaled, *dots] for v in row] + [-1.0, 1.0]
    ticks = nice_ticks(min(flat), max(flat), 4 if size.narrow else 7)
    canvas = Canvas(size=box, x_domain=(ticks[0], ticks[-1]), y_domain=(len(pairs), 0))
    band = [float(canvas.px(v)) for v in (-1.0, 1.0)]
    canvas.rects([(band[0], 0, band[1], box.height)], theme.line("target"), 0.14)
    canvas.rules([(float(canvas.px(t)), 0, float(canvas.px(t)), box.height) for t in ticks], theme.RULE)
    zero = float(canvas.px(0.0))
    canvas.rules([(zero, 0, zero, box.height)], theme.INK2, 1.2)
    places = [(float(canvas.px(t)), words) for t, words in zip(ticks, tick_words(ticks, "", True), strict=True)]
    title = "worse ← times what matters → better"
    parts.draw_x_words(canvas, places, title)
    for n, (change, hoped) in enumerate(pairs):
        _draw_row(canvas, n, change, hoped, scaled[n], dots[n], w)
    return canvas.chart()


def _draw_row(
    canvas: Canvas, n: int, change: Effect, hoped: Outcome, ends: list[float], dots: list[float], w: Wording
) -> None:
    size, y = canvas.size, n * ROW + 25
    most = int(size.plot / (theme.SMALL * theme.EM_SHARE))
    canvas.words([(0, n * ROW + 9, shorten(f"{name_of(change)}, {day(change.when)}", most))], theme.INK)
    low, middle, high = (float(canvas.px(v)) for v in ends)
    token = TOKENS.get(hoped.outcome, "neutral")
    sign = change.verdict in ("helped", "hurt")
    canvas.dots(canvas.px(dots), np.full(len(dots), y + 11.0), theme.INK2, area=12, opacity=0.55)
    canvas.rules([(low, y, high, y)], theme.line(token), 2.4, "solid" if sign else "dash")
    canvas.rules([(x, y - 4, x, y + 4) for x in (low, high)], theme.line(token), 1.4)
    canvas.ring(middle, y, theme.line(token))
    canvas.words([(size.plot + 8, y - 7, effect_words(hoped, w))], theme.text(token), bold=True)
    canvas.words([(size.plot + 8, y + 8, change.verdict)], theme.INK2)
