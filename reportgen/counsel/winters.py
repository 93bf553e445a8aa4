"""Findings of two winters side by side: what is left of a difference once the weather is taken out."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source, Stake
from reportgen.winters import Row, measured
from reportgen.wording import count, day, digits_for, number, points

JUDGED = ("lift", "heat", "night_humidity", "soil_mean")  # one row a subject: judging all would raise false alarms
WORDS = {
    "lift": ("the nights stood {size} further above outdoors", "the nights stood {size} less far above outdoors"),
    "heat": ("the house used {size} more heat a day", "the house used {size} less heat a day"),
    "night_humidity": (
        "the night air was {size} of relative humidity damper",
        "the night air was {size} of relative humidity drier",
    ),
    "soil_mean": ("the bed was {size} warmer", "the bed was {size} colder"),
}
WORSE: Mapping[str, Stake] = MappingProxyType(
    {"lift": "growth", "heat": "money", "night_humidity": "damp", "soil_mean": "growth"}
)
CAUSES = "two winters differ in more than one thing."
CAUSE: Mapping[str, str] = MappingProxyType(
    {"night_humidity": "another winter's crop and watering are in it, and no logger tells them from the house."}
)
KEEP = "Write down what you do differently from last winter, down to a new door seal, so that it can be kept."


def findings(r: Results) -> tuple[Finding, ...]:
    """Rows that differ at equal weather, how much the weather explains, and what stops the comparison."""
    facts, found = Facts.of(r), r.winters
    if not found.rows:
        return (_no_last(facts),)
    rows = {row.key: row for row in found.rows}
    told = [_judged(facts, rows[key]) for key in JUDGED if key in rows]
    told += [_weather(facts, rows), _moved(facts)]
    return tuple(finding for finding in told if finding is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="winters", **({"anchor": "winters_rows"} | more))


def size(facts: Facts, row: Row, value: float, spread: float) -> str:
    """A difference of a row in words, rounded by its interval's half-width."""
    if row.unit in ("K", "°C"):
        return facts.w.diff(value, digits_for(facts.w.diff_value(spread)))
    words = number(value, digits_for(spread))
    return points(words) if row.key == "night_humidity" else f"{words}\u00a0{row.unit.removesuffix(' a day')}"


def _bare(facts: Facts, row: Row, value: float, spread: float) -> str:
    """The same number without its unit, where the next one carries it."""
    return size(facts, row, value, spread).partition("\u00a0")[0]


def care(facts: Facts, row: Row) -> float:
    """The smallest difference of a row that the grower cares for, in the row's unit."""
    cares = facts.r.season.aims.care
    of = {"lift": cares.lift_k, "night_humidity": cares.humidity_points, "soil_mean": cares.soil_k}
    return of.get(row.key, abs(row.last or 0.0) * cares.heat_pct / 100)


def _judged(facts: Facts, row: Row) -> Finding | None:
    """One row whose interval excludes zero; silent else (the table shows the interval)."""
    equal = row.at_equal_weather
    if equal is None or equal.low <= 0 <= equal.high or abs(equal.effect) < care(facts, row):
        return None
    better = (equal.effect > 0) == (row.better == "more")
    half = (equal.high - equal.low) / 2
    least, most = sorted((abs(equal.low), abs(equal.high)))
    half = min(half, 2 * least)  # an end that is not zero is not printed as zero
    words = WORDS[row.key][0 if equal.effect > 0 else 1].format(size=size(facts, row, abs(equal.effect), half))
    r = facts.r
    changed = r.winters.only_this[:3]
    named = "; ".join(f"“{what}”" for what in changed)
    listed = f" The diary has new this winter: {named}." if changed else _nothing_new(facts)
    return _finding(
        f"than-last-winter-{row.key.replace('_', '-')}",
        claim=f"At equal weather {words} than last winter.",
        evidence=f"Between {_bare(facts, row, least, half)} and {size(facts, row, most, half)} (95\u00a0% interval), "
        f"from {count(equal.days_this, 'day')} of this winter and {number(equal.days_last)} of last.{listed}",
        how_sure=f"{measured.words(row.key)} That is of the difference, not of its cause: {CAUSE.get(row.key, CAUSES)}",
        next_step=_next_step(row, better, bool(changed)),
        figure=size(facts, row, equal.effect, half),
        figure_note="than last winter, equal weather",
        stake="good news" if better else WORSE[row.key],
        sure="fairly sure",
        weight=abs(equal.effect) / max(half, 1e-9),
        sources=(
            Source(
                csv="winters_rows.csv",
                how="cell",
                column="equal weather",
                rows=f"key == '{row.key}'",
                value=equal.effect,
            ),
        ),
    )


def _nothing_new(facts: Facts) -> str:
    return " The diary names nothing new." if facts.there.diary_lines else " No diary tells what was new."


def _next_step(row: Row, better: bool, changed: bool) -> str:
    if row.key in CAUSE:
        return "Set beside it how full the beds stood and how much was watered in both winters, before the house."
    if better:
        return "Keep what is new, and try one thing on and off to learn which it was." if changed else KEEP
    return "Go through what is different from last winter, the newest seals and heaters first, and undo one at a time."


def _weather(facts: Facts, rows: dict[str, Row]) -> Finding | None:
    """The weather's own difference, which explains most raw differences."""
    row = rows.get("weather")
    if row is None or row.difference is None or abs(row.difference) < 0.5 or not math.isfinite(row.difference):
        return None
    w, found = facts.w, facts.r.winters
    word = "colder" if row.difference < 0 else "milder"
    span = "" if found.first_day is None or found.last_day is None else (
        f" Only the days both winters have count: {day(found.first_day)} to {day(found.last_day)}."
    )  # fmt: skip
    heat = rows.get("heat")
    part = ""
    if heat is not None and heat.by_weather is not None and heat.difference is not None:
        kwh, weather = heat.difference, heat.by_weather
        part = f" Heat differed by {number(kwh, 1)}\u00a0kWh a day; the weather explains {number(weather, 1)} of it."
    return _finding(
        "weather-of-two-winters",
        claim=f"This winter's nights were {w.diff(abs(row.difference))} {word} outdoors than last winter's.",
        evidence=f"Mean of the nights outdoors, 20 to 6 o'clock.{span}{part}",
        how_sure="Sure as far as both outdoor loggers read alike.",
        next_step="Read the column at equal weather, not the raw one, before you praise or blame a change.",
        figure=w.diff(row.difference),
        figure_note="outdoors, nights",
        stake="record",
        sure="sure",
        weight=abs(row.difference),
        sources=(
            Source(
                csv="winters_rows.csv", how="cell", column="difference", rows="key == 'weather'", value=row.difference
            ),
        ),
    )


def _moved(facts: Facts) -> Finding | None:
    warnings = facts.r.winters.warnings
    if not warnings:
        return None
    return _finding(
        "winters-not-alike",
        claim=f"{count(len(warnings), 'thing')} about the loggers or the house "
        f"{'is' if len(warnings) == 1 else 'are'} not as last winter, so part of any difference may be theirs.",
        evidence=" ".join(warnings[:3]),
        how_sure="Sure: the two season.toml files say so.",
        next_step="Keep each logger in its place with its name, and run a moved one beside the old spot for a week.",
        figure=number(len(warnings)),
        figure_note="not as last winter",
        stake="record",
        sure="sure",
        weight=float(len(warnings)),
        anchor="winters_alike",
    )


def _no_last(facts: Facts) -> Finding:
    return _finding(
        "no-last-winter",
        claim=f"Whether this {facts.there.season} was better than the last cannot be told: no last season was given.",
        evidence="No [last_season] folder stands in season.toml.",
        how_sure="Cannot tell.",
        next_step="Keep this folder: next winter, name it under [last_season] and the two are set side by side.",
        figure="—",
        figure_note="no last season",
        anchor="winters_missing",
        stake="record",
        sure="cannot tell",
        weight=0.5,
    )
