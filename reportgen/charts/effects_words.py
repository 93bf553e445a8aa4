"""An effect's interval in plain words, and in six words at most why there is none: what stands beside its doubt bar."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from reportgen.counsel.changes_words import KELVIN, PER_KELVIN, SHARES, digits, shown, unit_of
from reportgen.effects import Outcome
from reportgen.wording import MINUS, NBSP, Wording, digits_for, number

# outcome → what more and less of it is, and the short forms
WAYS: Mapping[str, tuple[str, str, str, str]] = MappingProxyType(
    {
        "lift": ("warmer nights", "colder nights", "warmer", "colder"),
        "night_minimum": ("warmer at the coldest", "colder at the coldest", "warmer", "colder"),
        "heat": ("more heat a day", "less heat a day", "more heat", "less heat"),
        "watts_per_kelvin": ("more heat for each degree", "less heat for each degree", "more heat", "less heat"),
        "night_humidity": ("damper night air", "drier night air", "damper", "drier"),
        "moisture": ("more water in the night air", "less water in the night air", "damper", "drier"),
        "damp_hours": ("more damp hours a night", "fewer damp hours a night", "damper", "drier"),
        "soil_mean": ("warmer bed", "colder bed", "warmer", "colder"),
        "soil_swing": ("more swing in the bed", "less swing in the bed", "more swing", "less swing"),
        "daily_light": ("more light", "less light", "more light", "less light"),
    }
)
_REFUSED: tuple[tuple[str, str], ...] = (
    (r"read too seldom: a change|only by what was bought", "heat not known by the day"),
    (r"set side by side", "weather before and after too unlike"),
    (r"cannot be told", "mixed up with other changes"),
    (r"chain of changes", "too many changes close together"),
    (r"with heat|heated on", "too few heated nights"),
    (r"hardly varied", "it hardly varied in these weeks"),
    (r"outdoor", "no outdoor logger to compare by"),
    (r"night|usable days|few", "too few nights to compare"),
    (r"^no |not ", "nothing was logged of it"),
)


def _ends(outcome: Outcome, w: Wording) -> tuple[tuple[float, float], int, str]:
    """Both ends as they are told, their decimals and unit."""
    if outcome.outcome in SHARES and outcome.before_mean > 0:
        scale = 100.0 / outcome.before_mean
        low, high = outcome.low * scale, outcome.high * scale
        return (max(low, -100.0), high), min(digits_for((high - low) / 2 / 3.0), 1), f"{NBSP}%"
    unit = f"{NBSP}degrees" if outcome.outcome in KELVIN else f"{NBSP}points" if outcome.unit == "%" else ""
    if not unit and outcome.outcome != "damp_hours":
        unit = f"{NBSP}{unit_of(outcome, w) if outcome.unit == PER_KELVIN else outcome.unit}"
    return (shown(outcome, outcome.low, w), shown(outcome, outcome.high, w)), digits(outcome, w), unit


def interval_said(outcome: Outcome, w: Wording) -> str:
    """27 to 43 % less heat for each degree; from 1.2 degrees colder to 0.4 warmer nights."""
    more, less, _, brief_less = WAYS[outcome.outcome]
    (low, high), places, unit = _ends(outcome, w)
    if low >= 0:
        return f"{_range(low, high, places)}{_noun(unit, high, places)} {more}"
    if high <= 0:
        return f"{_range(-high, -low, places)}{_noun(unit, -low, places)} {less}"
    first = f"from {number(-low, places)}{_noun(unit, -low, places)} {brief_less}"
    return f"{first} to {number(high, places)} {more}"


def interval_brief(outcome: Outcome, w: Wording) -> str:
    """27–43 % less heat; −1.2 to +0.4 degrees."""
    _, _, more, less = WAYS[outcome.outcome]
    (low, high), places, unit = _ends(outcome, w)
    if low >= 0 or high <= 0:
        a, b = (low, high) if low >= 0 else (-high, -low)
        return f"{_range(a, b, places).replace(' to ', '–')}{_noun(unit, b, places)} {more if low >= 0 else less}"
    return f"{MINUS}{number(-low, places)} to +{number(high, places)}{unit or f'{NBSP}h'}"


def _range(low: float, high: float, places: int) -> str:
    a, b = number(low, places), number(high, places)
    return a if a == b else f"{a} to {b}"


def _noun(unit: str, value: float, places: int) -> str:
    """1 point, 1 degree."""
    return unit.removesuffix("s") if number(value, places) == "1" else unit


def refused_brief(outcome: Outcome | None) -> str:
    """Why there is no estimate, in at most six words."""
    told = (outcome.refused if outcome is not None else None) or ""
    return next((brief for pattern, brief in _REFUSED if re.search(pattern, told)), "cannot be told")
