"""What the dots, the failure's bars and the ribbon are told of a review."""

from __future__ import annotations

import math
from itertools import pairwise

from reportgen.charts.season_view import by_day, degrees_axis
from reportgen.drawing.dots import Dots, Kind, each
from reportgen.drawing.doubt import one_band
from reportgen.drawing.failure import Cold, Failure, Harm
from reportgen.drawing.ink import Token
from reportgen.drawing.ribbon import ribbon
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number

EDGES_K = (0.0, 1.0, 2.0, 3.0, 5.0)  # of the margin above the frost line
LOOKS: tuple[tuple[Token, float], ...] = (
    ("cold", 1.0),
    ("cold", 0.78),
    ("cold", 0.6),
    ("cold", 0.42),
    ("neutral", 0.5),
    ("neutral", 0.32),
)


def dots_view(review: Review, uid: str = "dots") -> Dots | None:
    """Nights by how near they came to the frost line; None without a night on record."""
    w, table = Wording.of(review.season), review.frost.table
    margins = [float(v) for v in table["margin_k"] if math.isfinite(v)] if "margin_k" in table else []
    if not margins:
        return None
    line = w.temp_value(review.frost.line_c)
    ends = [f"{number(line + w.diff_value(k), 0 if not w.us else 1)}" for k in EDGES_K]
    words = [
        f"below{NBSP}{ends[0]}°",
        *(f"{a} to{NBSP}{b}°" for a, b in pairwise(ends)),
        f"over{NBSP}{ends[-1]}°",
    ]
    counts = [0] * len(words)
    for margin in margins:
        counts[sum(margin >= k for k in EDGES_K)] += 1
    band = review.frost.nights_below["0"]
    spread = band.low == band.low and round(band.low) != round(band.high)
    note = f"{number(band.low)} to {number(band.high)} by the sensor’s accuracy" if spread else ""
    kinds = tuple(
        Kind(
            words=words[n],
            nights=counts[n],
            said=number(counts[n]),
            token=LOOKS[n][0],
            shade=LOOKS[n][1],
            note=note if n == 0 else "",
            strong=n == 0,
        )
        for n in range(len(words))
    )
    one = each(len(margins))
    return Dots(
        uid=uid,
        label=f"{count(len(margins), 'night')}, one dot each, by the coldest air inside",
        description="; ".join(f"{k.words} {count(k.nights, 'night')}" for k in kinds) + ".",
        kinds=kinds,
        each_words=f"one dot is {count(one, 'night')}" if one > 1 else "",
    )


def failure_view(review: Review, uid: str = "failure") -> Failure | None:
    """Air eight hours after the heat fails, by outdoor temperature; None where the house was not worked out."""
    w, rows = Wording.of(review.season), review.frost.after_failure
    if not rows:
        return None
    colds = []
    for row in rows:
        f = row.after_8h
        middle, low, high = (w.temp_value(v) for v in (f.estimate, f.low, f.high))
        words = f"{number(w.temp_value(row.outdoor_c))}{NBSP}{w.temp_unit}"
        colds.append(Cold(words=words, doubt=one_band(middle, low, high), said=f"{number(middle)}°"))
    harms = _harms(review, w)
    # A band that reaches far below every row would only shrink them: its far end is cut by the axis.
    ends = [v for c in colds for v in (c.doubt.low, c.doubt.high)]
    near = [h for h in harms if h.high > min(ends) - w.diff_value(1.0)]
    level = w.percent(100 * rows[0].after_8h.level)
    return Failure(
        uid=uid,
        label="Air inside eight hours after the heat fails, by how cold it is outdoors",
        description="; ".join(f"at {c.words} outdoors about {c.said}" for c in colds) + f"; the bars hold {level}.",
        rows=tuple(colds),
        axis=degrees_axis([*ends, w.temp_value(review.frost.line_c)], w, review.frost.line_c),
        harms=tuple(near),
    )


def _harms(review: Review, w: Wording) -> list[Harm]:
    """Damage bands of the crops, those with the same band under one name."""
    bands: dict[tuple[float, float], list[str]] = {}
    for m in review.frost.crops:
        if m.damage_high_c is None:
            continue
        low = m.damage_low_c if m.damage_low_c is not None else m.damage_high_c
        names = bands.setdefault((w.temp_value(low), w.temp_value(m.damage_high_c)), [])
        names += [m.crop] if m.crop not in names else []
    return [Harm(low=a, high=b, words=f"{', '.join(names)} harmed") for (a, b), names in sorted(bands.items())]


def ribbon_of(review: Review) -> str:
    """The ribbon as SVG; '' without a crop logger."""
    w = Wording.of(review.season)
    inside = by_day(review, "inside_min", w)
    return ribbon(inside, by_day(review, "outdoor_min", w), w.temp_value(review.frost.line_c)) if inside else ""
