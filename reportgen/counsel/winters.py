"""Findings of two winters side by side: what is left of a difference once the weather is taken out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source, Stake
from reportgen.winters import Row, measured
from reportgen.wording import are, count, digits_for, number, points

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

LOOK = "Look for what is not as it was: a slipped pane, a worn seal, a logger that hangs elsewhere."
COOLER: Mapping[str, str] = MappingProxyType(
    {
        "lift": "Undo nothing if you meant to hold it cooler: it took less heat too. Else look at the heater.",
        "heat": "Judge what is new by its heat for each degree before you call it a gain: the nights were cooler too.",
    }
)


def than_last(key: str) -> Callable[[Facts], Said | None]:
    """The maker of the finding on one row."""

    def made(facts: Facts) -> Said | None:
        row = next((row for row in facts.r.winters.rows if row.key == key), None)
        return None if row is None else _judged(facts, row)

    return made


def size(facts: Facts, row: Row, value: float, spread: float) -> str:
    """A difference `value` of a row (unit of the row) in words, rounded by `spread`, half its interval's width."""
    if row.unit in ("K", "°C"):
        return facts.w.diff(value, digits_for(facts.w.diff_value(spread)))
    words = number(value, digits_for(spread))
    return points(words) if row.key == "night_humidity" else f"{words}\u00a0{row.unit.removesuffix(' a day')}"


def _bare(facts: Facts, row: Row, value: float, spread: float) -> str:
    """The same number without its unit, where the next one carries it."""
    return size(facts, row, value, spread).partition("\u00a0")[0]


def care(facts: Facts, row: Row) -> float:
    """The smallest difference of a row that the grower cares for, in the unit of the row."""
    cares = facts.r.season.aims.care
    of = {"lift": cares.lift_k, "night_humidity": cares.humidity_points, "soil_mean": cares.soil_k}
    return of.get(row.key, abs(row.last or 0.0) * cares.heat_pct / 100)


def _judged(facts: Facts, row: Row) -> Said | None:
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
    return Said(
        claim=f"At equal weather {words} than last winter.",
        evidence=f"Between {_bare(facts, row, least, half)} and {size(facts, row, most, half)} (95\u00a0% interval), "
        f"from {count(equal.days_this, 'day')} of this winter and {number(equal.days_last)} of last.{listed}",
        how_sure=f"{measured.words(row.key)} That is of the difference, not of its cause: {CAUSE.get(row.key, CAUSES)}"
        f"{_not_alike(facts)}",
        next_step=_next_step(facts, row, better, bool(changed)),
        figure=size(facts, row, equal.effect, half),
        figure_note="than last winter, equal weather",
        about=row.key,
        stake="good news" if better else WORSE[row.key],
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


def _not_alike(facts: Facts) -> str:
    """Loggers or house that are not as last winter: part of any difference may be theirs."""
    warnings = facts.r.winters.warnings
    if not warnings:
        return ""
    things = count(len(warnings), "thing")
    more = " among them" if len(warnings) > 1 else ""
    return (
        f" And {things} about the loggers or the house {are(len(warnings), 'is', 'are')} not as last winter"
        f"{more}: {warnings[0].rstrip('.')}."
        if more
        else f" And one thing is not as last winter: {warnings[0].rstrip('.')}."
    )


def _nothing_new(facts: Facts) -> str:
    return " The diary names nothing new." if facts.there.diary_lines else " No diary tells what was new."


def _next_step(facts: Facts, row: Row, better: bool, changed: bool) -> str:
    if row.key in CAUSE:
        return "Set beside it how full the beds stood and how much was watered in both winters, before the house."
    if row.key in ("lift", "heat") and _cooler_on_less(facts):
        return COOLER[row.key]
    if better:
        return "Keep what is new, and try one thing on and off to learn which it was." if changed else KEEP
    return "Undo what is new one thing at a time, the newest first." if changed else LOOK


def _cooler_on_less(facts: Facts) -> bool:
    """Nights less far above outdoors on less heat a day: the house was held cooler, or heated less."""
    ends = {row.key: row.at_equal_weather for row in facts.r.winters.rows}
    lift, heat = ends.get("lift"), ends.get("heat")
    return lift is not None and heat is not None and lift.high < 0 and heat.high < 0


def no_last(facts: Facts) -> Said | None:
    """No last winter to compare with."""
    if facts.r.winters.rows:
        return None
    return Said(
        claim=f"Whether this {facts.there.season} was better than the last cannot be told: no last season was given.",
        evidence="No folder of last winter is named.",
        how_sure="Cannot tell.",
        next_step="Keep this folder: next winter, name it as the last season and the two are set side by side.",
        figure="—",
        figure_note="no last season",
        stake="record",
        weight=0.5,
    )
