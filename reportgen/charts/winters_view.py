"""Two winters as a doubt picture: each difference at equal weather in multiples of what the grower said matters."""

from __future__ import annotations

import math

from reportgen.counsel.answers_winters import range_words, verdict_of
from reportgen.counsel.brief import fitted
from reportgen.counsel.facts import Facts
from reportgen.counsel.winters import care
from reportgen.drawing.doubt import one_band
from reportgen.drawing.effects import Effects, Group, Row
from reportgen.drawing.ink import Mark
from reportgen.winters import Row as Compared
from reportgen.wording import MINUS, NBSP, number

# What the grower can say matters, in the order in which it is told: key → (its name, more of it, less of it).
WORDS: dict[str, tuple[str, str, str]] = {
    "lift": ("Warmth at night over outdoors", "warmer nights", "cooler nights"),
    "watts_per_kelvin": ("Heat for each degree", "more heat for each degree", "less heat for each degree"),
    "heat": ("Heat in a day", "more heat a day", "less heat a day"),
    "night_humidity": ("Humidity at night", "damper night air", "drier night air"),
    "soil_mean": ("Warmth of the bed", "warmer bed", "colder bed"),
}
GROUPS: tuple[tuple[str, Mark, int | None], ...] = (
    ("Better", "helped", 1),
    ("Worse", "opposite", -1),
    ("No difference to be seen", "open", 0),
    ("Cannot be compared", "open", None),
)


def winters_view(facts: Facts, uid: str) -> Effects | None:
    """None where no difference at equal weather has a size that matters to set it against."""
    found = {row.key: row for row in facts.r.winters.rows}
    rows = [(found[key], _row(found[key], facts)) for key in WORDS if key in found]
    if not any(drawn.doubt is not None for _, drawn in rows):
        return None
    sorted_ = [
        Group(title=title, mark=mark, rows=tuple(_marked(drawn, mark) for r, drawn in rows if _side(r, drawn) == side))
        for title, mark, side in GROUPS
    ]
    groups = tuple(group for group in sorted_ if group.rows)
    told = [f"{g.title}: " + "; ".join(f"{r.words.lower()}, {r.said or r.refused}" for r in g.rows) for g in groups]
    return Effects(
        uid=uid,
        label="Differences between two winters at equal weather, in multiples of what matters",
        description=fitted(told, 58, ". ") + ".",
        groups=groups,
        none="as last winter",
        times="times what we said would matter",
    )


def _side(row: Compared, drawn: Row) -> int | None:
    return None if drawn.doubt is None else verdict_of(row)


def _marked(row: Row, mark: Mark) -> Row:
    return Row(mark=mark, words=row.words, when="", doubt=row.doubt, said=row.said, refused=row.refused)


def _row(row: Compared, facts: Facts) -> Row:
    equal, matters = row.at_equal_weather, care(facts, row)
    if equal is None or not matters > 0 or not math.isfinite(equal.effect) or row.better not in ("more", "less"):
        return Row(mark="open", words=WORDS[row.key][0], when="", doubt=None, refused=_refused(row))
    factor = (1.0 if row.better == "more" else -1.0) / matters
    doubt = one_band(equal.effect, equal.low, equal.high).scaled(factor)
    return Row(mark="open", words=WORDS[row.key][0], when="", doubt=doubt, said=_said(row, facts))


def _refused(row: Compared) -> str:
    """In at most six words."""
    if row.last is None:
        return "not known of last winter"
    return "not known of this winter" if row.this is None else "no equal weather to be had"


def _said(row: Compared, facts: Facts) -> str:
    """0.2 to 0.8 degrees warmer nights; from 0.7 less to 0.2 degrees more."""
    equal = row.at_equal_weather
    assert equal is not None
    _, more, less = WORDS[row.key]
    if equal.low >= 0 or equal.high <= 0:
        return f"{range_words(row, facts)} {more if equal.low >= 0 else less}"
    ends = [_shown(row, facts, end) for end in (equal.low, equal.high)]
    unit = _unit(row)
    places = 0 if unit == "%" else 1
    low = number(ends[0], places).replace("-", MINUS)
    return f"from {low} to +{number(ends[1], places)}{NBSP}{unit}"


def _shown(row: Compared, facts: Facts, value: float) -> float:
    if row.key in ("heat", "watts_per_kelvin") and row.last:
        return 100.0 * value / abs(row.last)
    return facts.w.diff_value(value) if row.key in ("lift", "soil_mean") else value


def _unit(row: Compared) -> str:
    if row.key in ("heat", "watts_per_kelvin"):
        return "%" if row.last else row.unit
    return "points" if row.key == "night_humidity" else "degrees"
