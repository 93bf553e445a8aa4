"""What a thing did, in words and in multiples of what is worth having: one rule for pictures, sentences and tables."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.charts.effects_words import WAYS
from reportgen.counsel.changes_words import WITHIN, signed
from reportgen.effects.outcomes import LARGER_IS_BETTER
from reportgen.gather.types import RELATIVE, Stratum
from reportgen.season.models import Care
from reportgen.wording import NBSP, Wording, digits_for, number

_CARE = Care()  # what is worth having where a grower says nothing else
CARE: Mapping[str, float] = MappingProxyType(
    {
        "lift": _CARE.lift_k,
        "night_minimum": _CARE.lift_k,
        "heat": _CARE.heat_pct / 100,
        "watts_per_kelvin": _CARE.heat_pct / 100,
        "night_humidity": _CARE.humidity_points,
        "soil_mean": _CARE.soil_k,
        "soil_swing": _CARE.soil_k,
    }
)
# What an outcome is called beside a thing's name.
ON: Mapping[str, str] = MappingProxyType(
    {
        "lift": "warmth of the nights",
        "night_minimum": "coldest of the night",
        "heat": "heat used",
        "watts_per_kelvin": "heat for each degree",
        "night_humidity": "damp of the night air",
        "moisture": "water in the night air",
        "damp_hours": "damp hours of the night",
        "soil_mean": "warmth of the bed",
        "soil_swing": "swing of the bed",
        "daily_light": "light inside",
    }
)


def on(outcome: str) -> str:
    """Warmth of the nights, …; an outcome that is not known here by its own word."""
    return ON.get(outcome, outcome.replace("_", " "))


def factor(outcome: str) -> float | None:
    """From the stratum's unit to multiples of what is worth having, better to the right; None where none is known."""
    care = CARE.get(outcome)
    return None if care is None else (1.0 if outcome in LARGER_IS_BETTER else -1.0) / care


def shown(stratum: Stratum, value: float, w: Wording) -> float:
    """A value in the unit that the page shows."""
    if stratum.outcome in RELATIVE:
        return value * 100
    return w.diff_value(value) if stratum.unit == "K" else value


def unit(stratum: Stratum, w: Wording) -> str:
    """The unit of a table's column."""
    return w.diff_unit if stratum.unit == "K" else stratum.unit


def places(stratum: Stratum, low: float, high: float, w: Wording) -> int:
    """Decimals that the interval allows."""
    half = abs(shown(stratum, high, w) - shown(stratum, low, w)) / 2
    return min(digits_for(half / WITHIN), 1)


def interval(stratum: Stratum, low: float, high: float, w: Wording, *, brief: bool = False) -> str:
    """12 to 19 % less heat for each degree; from 3 % less to 8 % more heat."""
    more, less, brief_more, brief_less = _ways(stratum.outcome)
    full_more, full_less = (brief_more, brief_less) if brief else (more, less)
    a, b = shown(stratum, low, w), shown(stratum, high, w)
    n = places(stratum, low, high, w)
    if a >= 0 or b <= 0:
        near, far = (a, b) if a >= 0 else (-b, -a)
        told = number(near, n) if number(near, n) == number(far, n) else f"{number(near, n)} to {number(far, n)}"
        return f"{told}{_unit(stratum, number(far, n))} {full_more if a >= 0 else full_less}"
    down, up = number(-a, n), number(b, n)
    if number(0.0, n) in (down, up) and down != up:
        end, way = (up, full_more) if down == number(0.0, n) else (down, full_less)
        return f"from none to {end}{_unit(stratum, end)} {way}"
    return f"from {down}{_unit(stratum, down)} {brief_less} to {up}{_unit(stratum, up)} {full_more}"


def estimate(stratum: Stratum, value: float, spread: float, w: Wording) -> str:
    """+12 % or −0.4 degrees, with the decimals that its interval allows."""
    n = places(stratum, -spread, spread, w)
    told = signed(shown(stratum, value, w), n)
    return f"{told}{_unit(stratum, told.lstrip('+−'))}"


def _unit(stratum: Stratum, told: str) -> str:
    if stratum.outcome in RELATIVE:
        return f"{NBSP}%"
    word = {"K": "degrees", "points": "points"}.get(stratum.unit)
    if word is None:
        return f"{NBSP}{stratum.unit}"
    return f"{NBSP}{word.removesuffix('s') if told == '1' else word}"


def _ways(outcome: str) -> tuple[str, str, str, str]:
    name = on(outcome)
    return WAYS.get(outcome, (f"more {name}", f"less {name}", "more", "less"))
