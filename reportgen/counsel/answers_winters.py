"""Better or worse than last winter: at equal weather, and only where the interval leaves nothing between."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.counsel.answers_topics import WHY_WORDS, answer
from reportgen.counsel.brief import fitted
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Answer
from reportgen.winters.types import Row
from reportgen.wording import NBSP, between, digits_for, number, points

# What is compared, in the order in which it is told: key → (better, worse).
COMPARED: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "lift": ("warmer at night", "cooler at night"),
        "watts_per_kelvin": ("less heat for each degree", "more heat for each degree"),
        "heat": ("less heat a day", "more heat a day"),
        "night_humidity": ("drier at night", "damper at night"),
    }
)

LEVEL: Mapping[str, str] = MappingProxyType(
    {
        "lift": "warmth at night",
        "watts_per_kelvin": "heat for each degree",
        "heat": "heat a day",
        "night_humidity": "humidity",
    }
)


def winters_answer(ask: str, facts: Facts) -> Answer:
    """Better, worse or level on warmth, heat and damp at equal weather, then money as it was paid."""
    found = facts.r.winters
    if not found.rows:
        why = found.reasons.get("rows") or found.reasons.get("last") or "no last winter was named"
        return answer(ask, "winters", "Cannot tell", why, "", "winters")
    rows = {row.key: row for row in found.rows}
    told = [(row, verdict_of(row)) for key in COMPARED if (row := rows.get(key)) is not None and row.at_equal_weather]
    told = _one_heat(told)
    if not told:
        return answer(ask, "winters", "Cannot tell", "nothing could be set at equal weather", "", "winters")
    better, worse = (sum(verdict == word for _, verdict in told) for word in (1, -1))
    parts = [_words(row, verdict, facts) for row, verdict in sorted(told, key=lambda pair: pair[1] == 0)]
    sure = "Nine in ten, at equal weather: each beyond its interval."
    return answer(
        ask, "winters", _word(better, worse), fitted((*parts, _money(rows, facts)), WHY_WORDS), sure, "winters"
    )


def _one_heat(told: list[tuple[Row, int]]) -> list[tuple[Row, int]]:
    """Of the two figures of heat one: that for each degree, but where it is level and the heat of a day is not: a house
    held cooler on less heat is both better and worse, and not worse alone."""
    verdicts = {row.key: verdict for row, verdict in told}
    if "watts_per_kelvin" not in verdicts:
        return told
    held_otherwise = not verdicts["watts_per_kelvin"] and verdicts.get("heat")
    left_out = "watts_per_kelvin" if held_otherwise else "heat"
    return [(row, verdict) for row, verdict in told if row.key != left_out]


def _word(better: int, worse: int) -> str:
    if better and worse:
        return "Better and worse"
    return "Better" if better else "Worse" if worse else "Level"


def verdict_of(row: Row) -> int:
    """1 better, −1 worse, 0 level: an interval that holds zero."""
    equal = row.at_equal_weather
    if equal is None or equal.low <= 0 <= equal.high:
        return 0
    return 1 if (equal.effect > 0) == (row.better == "more") else -1


def _words(row: Row, verdict: int, facts: Facts) -> str:
    better, worse = COMPARED[row.key]
    if verdict == 0:
        return f"level: {LEVEL[row.key]}"
    return f"{range_words(row, facts)} {better if verdict > 0 else worse}"


def range_words(row: Row, facts: Facts) -> str:
    """Both ends of the difference without its sign, in the shown unit; heat as a share of last winter's."""
    equal = row.at_equal_weather
    assert equal is not None
    ends = sorted((abs(equal.low), abs(equal.high)))
    if row.key in ("heat", "watts_per_kelvin") and row.last:
        return between(*(facts.w.percent(100 * end / abs(row.last)) for end in ends))
    if row.key in ("lift", "soil_mean"):
        shown = [facts.w.diff_value(end) for end in ends]
        places = min(digits_for((shown[1] - shown[0]) / 6), 1)
        return between(*(f"{number(end, places)}{NBSP}degrees" for end in shown))
    return between(*(points(number(end)) for end in ends))


def _money(rows: Mapping[str, Row], facts: Facts) -> str:
    row = rows.get("cost")
    if row is None or row.this is None or row.last is None or not facts.w.currency:
        return ""
    return f"heat {facts.w.money(row.this, 0)} after {number(row.last)}"
