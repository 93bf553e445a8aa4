"""How the record is said in words: names of measures, readings with their unit, steps, stretches, reasons."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import pandas as pd

from reportgen.readings.join import most_apart_s
from reportgen.readings.types import CheckFinding
from reportgen.units import MEASURES, TEMPERATURE_UNITS
from reportgen.wording import NBSP, Wording, clock, count, day, number

_DIGITS = {"%": 0, "W": 0, "W/m²": 0, "µmol/m²/s": 0, "0/1": 0, "m³/m³": 2, "m³/s": 3}
_WHERE = {"crop": "beside the crop", "outdoor": "outdoors", "elsewhere": "elsewhere"}


def measure_name(measure: str) -> str:
    """`air_temperature` as the pages call it: air temperature."""
    known = MEASURES.get(measure)
    return (known.words if known is not None else "") or measure.replace("_", " ")


def place_name(where: str) -> str:
    """Where a logger hangs, in words."""
    return _WHERE.get(where, where)


def unit_name(w: Wording, measure: str) -> str:
    """The unit a measure is shown in."""
    kept = MEASURES[measure].kept
    return w.temp_unit if kept in TEMPERATURE_UNITS else kept


def value_number(w: Wording, measure: str, value: float) -> str:
    """A `value` of a measure, in its kept unit, as a number in its shown unit, without the unit."""
    kept = MEASURES[measure].kept
    if kept in TEMPERATURE_UNITS:
        return number(w.temp_value(value), 1)
    return number(value, _DIGITS.get(kept, 1))


def value_words(w: Wording, measure: str, value: float) -> str:
    """A `value` of a measure, in its kept unit, with its shown unit: −2.3 °C."""
    return f"{value_number(w, measure, value)}{NBSP}{unit_name(w, measure)}"


def step_words(step_s: float | None) -> str:
    """The usual time between two readings [s] in words: every 10 min."""
    if step_s is None:
        return "one reading or none"
    if step_s < 60:
        return f"every {number(step_s)}{NBSP}s"
    if step_s < 5400:
        minutes = step_s / 60
        return f"every {number(minutes, 0 if abs(minutes - round(minutes)) < 0.05 else 1)}{NBSP}min"
    if step_s >= 2 * 86_400:
        return f"every {number(step_s / 86_400)}{NBSP}days"
    hours = step_s / 3600
    return f"every {number(hours, 0 if abs(hours - round(hours)) < 0.05 else 1)}{NBSP}h"


def joined_over(measure: str) -> str:
    """The longest time over which two readings of a measure are joined: 3 h."""
    return f"{number(most_apart_s(measure) / 3600)}{NBSP}h"


def moment(when: pd.Timestamp) -> str:
    """5 January 2026, 06:00."""
    return f"{day(when, year=True)}, {clock(when)}"


def long_words(hours: float) -> str:
    """How long: 40 min, 6 h, 3 days."""
    if hours < 1:
        return f"{number(max(hours * 60, 1))}{NBSP}min"
    if hours < 48:
        return f"{number(hours, 0 if hours >= 10 else 1)}{NBSP}h"
    return f"{number(hours / 24, 0 if hours >= 240 else 1)}{NBSP}days"


def stretch_words(start: pd.Timestamp, end: pd.Timestamp) -> str:
    """From when to when, naming a day once: 5 January, 06:00 to 14:00."""
    if start.date() == end.date():
        return f"{day(start)}, {clock(start)} to {clock(end)}"
    return f"{day(start)}, {clock(start)} to {day(end)}, {clock(end)}"


def reason_name(reason: str) -> str:
    """A reason for setting aside, as words."""
    return reason.replace("_", " ").replace("-", " ")


def reasons_words(set_aside: Mapping[str, int]) -> str:
    """What was set aside and why: 12 stuck, 3 impossible; empty when nothing was."""
    return ", ".join(f"{number(n)}{NBSP}{reason_name(reason)}" for reason, n in set_aside.items() if n)


def whose(logger: str, measures: Sequence[str]) -> str:
    """A logger and what it measured: bench, air temperature and relative humidity."""
    names = [measure_name(measure) for measure in measures]
    listed = " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)
    return f"{logger}, {listed}" if listed else logger


def together(findings: Iterable[CheckFinding]) -> list[tuple[CheckFinding, tuple[str, ...]]]:
    """What the checks saw, with the measures of one logger of which the same is said."""
    groups: dict[tuple[object, ...], tuple[CheckFinding, list[str]]] = {}
    for one in findings:
        key = (one.logger, one.slug, one.start, one.end, one.words)
        measures = groups.setdefault(key, (one, []))[1]
        if one.measure is not None:
            measures.append(one.measure)
    return [(first, tuple(measures)) for first, measures in groups.values()]


def readings_count(n: int) -> str:
    """1 reading, 25 432 readings."""
    return count(n, "reading")
