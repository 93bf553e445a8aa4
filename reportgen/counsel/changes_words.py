"""What a change did, in words and shown units: every sentence names its unit, its interval and its count of nights."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.effects import Effect, Outcome
from reportgen.effects.verdict import favourable
from reportgen.wording import MINUS, NBSP, Wording, count, digits_for, number

NAMES: Mapping[str, str] = MappingProxyType(
    {
        "lift": "warmth at night over outdoors",
        "night_minimum": "coldest of the night over outdoors' coldest",
        "heat": "heat a day",
        "watts_per_kelvin": "heat for each degree",
        "night_humidity": "humidity at night",
        "moisture": "water in the night air",
        "damp_hours": "damp hours a night",
        "soil_mean": "temperature of the bed",
        "soil_swing": "daily swing of the bed",
        "daily_light": "light a day inside",
    }
)
PER_KELVIN = "W/K"  # the unit of heat for each degree: W/°F where those are shown
KELVIN = frozenset({"lift", "night_minimum", "soil_mean", "soil_swing"})
WITHIN = 3.0  # one figure of a third of the half-width: one of 2 keeps a decimal and one of 5 does not
SHARES = frozenset({"heat", "watts_per_kelvin", "daily_light"})  # told as a share of what it was without
_BOUND: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "lift": ("Warmed the nights by at most {}", "Cooled the nights by at least {}"),
        "heat": ("Saved at most {} of the heat", "Took at least {} more heat"),
        "watts_per_kelvin": (
            "Saved at most {} of the heat for each degree",
            "Took at least {} more heat for each degree",
        ),
        "night_humidity": ("Dried the night air by at most {}", "Made the night air damper by at least {}"),
        "soil_mean": ("Warmed the bed by at most {}", "Cooled the bed by at least {}"),
        "soil_swing": (
            "Took at most {} off the bed's daily swing",
            "Added at least {} to the bed's daily swing",
        ),
        "daily_light": ("Brought at most {} more light", "Took at least {} of the light"),
    }
)
_DIRECTION: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "lift": ("warmer", "cooler"),
        "night_minimum": ("warmer", "cooler"),
        "heat": ("more", "less"),
        "watts_per_kelvin": ("more", "less"),
        "night_humidity": ("damper", "drier"),
        "moisture": ("damper", "drier"),
        "damp_hours": ("more", "fewer"),
        "soil_mean": ("warmer", "cooler"),
        "soil_swing": ("more swing", "less swing"),
        "daily_light": ("more", "less"),
    }
)


def shown(outcome: Outcome, value: float, wording: Wording) -> float:
    """A difference `value` of that outcome (unit of the outcome) in the shown unit."""
    if outcome.unit == PER_KELVIN:
        return value / wording.diff_value(1.0)
    return wording.diff_value(value) if outcome.outcome in KELVIN else value


def unit_of(outcome: Outcome, wording: Wording) -> str:
    """The shown unit; humidity differences are points, so that nobody takes them for a share of a share."""
    if outcome.outcome in KELVIN:
        return wording.diff_unit
    if outcome.unit == PER_KELVIN:
        return f"W/{wording.diff_unit}"
    return {"%": "points", "kWh": "kWh a day"}.get(outcome.unit, outcome.unit)


def digits(outcome: Outcome, wording: Wording) -> int:
    """Decimals that the interval allows: one significant figure of a third of its half-width."""
    return digits_for(shown(outcome, (outcome.high - outcome.low) / 2, wording) / WITHIN)


def signed(value: float, places: int) -> str:
    """A `value` in any unit as a number with its sign: +0.8, −1.2, 0.0."""
    words = number(value, places)
    return words if words.startswith(MINUS) or not any(c in "123456789" for c in words) else f"+{words}"


def effect_words(outcome: Outcome, wording: Wording) -> str:
    """+0.8 K."""
    places = digits(outcome, wording)
    return f"{signed(shown(outcome, outcome.effect, wording), places)}{NBSP}{unit_of(outcome, wording)}"


def interval_words(outcome: Outcome, wording: Wording) -> str:
    """−0.1 to +1.7 K."""
    places = digits(outcome, wording)
    low, high = (signed(shown(outcome, end, wording), places) for end in (outcome.low, outcome.high))
    return f"{low} to {high}{NBSP}{unit_of(outcome, wording)}"


def direction(outcome: Outcome) -> str:
    """warmer, drier, less …: which way the effect points."""
    return _DIRECTION[outcome.outcome][0 if outcome.effect > 0 else 1]


def days_words(outcome: Outcome, alternates: bool = False) -> str:
    """21 nights before, 20 after."""
    sides = ("off", "on") if alternates else ("before", "after")
    return f"{count(outcome.days_before, 'night')} {sides[0]}, {number(outcome.days_after)} {sides[1]}"


def amount(outcome: Outcome, value: float, wording: Wording) -> str:
    """The size of a `value` (unit of the outcome) without its sign: 0.8 K, 12 %, 3 points.

    Heat and light are told as a share of what they were without.
    """
    if outcome.outcome in SHARES and outcome.before_mean > 0:
        percent = 100 * abs(value) / outcome.before_mean
        places = digits_for(100 * (outcome.high - outcome.low) / 2 / outcome.before_mean / WITHIN)
        return wording.percent(min(percent, 100.0), min(places, 1))
    words = number(abs(shown(outcome, value, wording)), digits(outcome, wording))
    unit = unit_of(outcome, wording)
    return f"{words}{NBSP}{'point' if (words, unit) == ('1', 'points') else unit}"


def bound_words(outcome: Outcome, wording: Wording) -> str:
    """What it did at most (or, where even the best case is harm, at least), first thing in every verdict."""
    best = favourable(outcome)
    words = _BOUND[outcome.outcome][0 if best > 0 else 1]
    return words.format(amount(outcome, best, wording))


def between_words(outcome: Outcome, wording: Wording) -> str:
    """Between 0.3 and 1.4 K warmer; or from 0.3 K cooler to 1.4 K warmer. Shares stay shares."""
    more, less = _DIRECTION[outcome.outcome]
    ends = [amount(outcome, end, wording) for end in (outcome.low, outcome.high)]
    if outcome.low > 0:
        return f"between {ends[0]} and {ends[1]} {more}"
    if outcome.high < 0:
        return f"between {ends[1]} and {ends[0]} {less}"
    none = [not any(c in "123456789" for c in end) for end in ends]
    if all(none):
        return f"{ends[1]}, neither {more} nor {less}"
    if any(none):
        return f"at most {ends[1]} {more}" if none[0] else f"at most {ends[0]} {less}"
    return f"anything from {ends[0]} {less} to {ends[1]} {more}"


def verdict_words(effect: Effect, wording: Wording) -> str:
    """The verdict of a row, led by the bound."""
    hoped = effect.declared
    if effect.verdict == "not judged" or hoped is None:
        return f"Not judged: {effect.reasons.get('verdict', 'no hope was noted')}."
    if hoped.refused is not None:
        return f"Cannot tell: {hoped.refused}."
    led = f"{bound_words(hoped, wording)}; {between_words(hoped, wording)}. "
    tail = {
        "helped": "It helped",
        "hurt": "It hurt",
        "no sign": "No sign that it did anything that you said would matter",
        "cannot tell": one_winter_words(hoped, wording) if effect.too_slow else "Cannot tell whether it did anything",
    }[effect.verdict]
    small = ", by less than you said would matter" if effect.small and effect.verdict in ("helped", "hurt") else ""
    return f"{led}{tail}{small}."


def one_winter_words(hoped: Outcome, wording: Wording) -> str:
    """The answer to a hope for the bed: how small a change the weather of its weeks hides."""
    least = f"{number(shown(hoped, hoped.smallest_visible, wording), digits(hoped, wording))}{NBSP}"
    what = "of the bed's daily swing" if hoped.outcome == "soil_swing" else "of the bed's temperature"
    return (
        f"One winter cannot show it: the weather of these weeks hides most changes {what} under {least}"
        f"{unit_of(hoped, wording)}"
    )


def hope_words(effect: Effect) -> str:
    """What was hoped for, and whether that was written down before."""
    if not effect.hoped_for:
        return "nothing noted"
    hopes = ", ".join(effect.hoped_for)
    if effect.kind == "idea":
        return hopes
    return f"{hopes}; written down before" if effect.hope_written_before else f"{hopes}; named afterwards"
