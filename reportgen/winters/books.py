"""What changed in the diary between two winters, and which loggers stood elsewhere or were swapped."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from reportgen.readings.types import DiaryEntry, Readings
from reportgen.season.models import Logger

KEPT = ("change", "spell", "upkeep")  # what alters the house (upkeep, if it touches something of it); events do not


def diary_differences(this: Readings, last: Readings) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(only this winter, only last winter): what the diary says was changed, by its own words, in order of date.

    What was put up between the two winters and stayed is of this one: a cover changed in October stands all winter.
    """
    between = [entry for entry in this.diary_before if entry.date > last.season.last_day]
    mine, theirs = _altered((*between, *this.diary)), _altered(last.diary)
    return (
        tuple(text for folded, text in mine.items() if folded not in theirs),
        tuple(text for folded, text in theirs.items() if folded not in mine),
    )


def _altered(diary: Iterable[DiaryEntry]) -> dict[str, str]:
    kept = (e for e in diary if e.kind in KEPT and (e.touches or e.kind != "upkeep"))
    entries = sorted(kept, key=lambda e: (e.date, e.line))
    found: dict[str, str] = {}
    for entry in entries:
        found.setdefault(" ".join(entry.what.casefold().split()), entry.what)
    return found


def logger_warnings(this: Readings, last: Readings) -> tuple[str, ...]:
    """Words for a house that was altered, which does more than a logger, and for every logger that is new, gone, moved
    or another instrument."""
    words: list[str] = []
    for key, text in (("floor_area_m2", "floor area"), ("glazing_area_m2", "glazing area"), ("glazing", "glazing")):
        mine, theirs = getattr(this.season.house, key), getattr(last.season.house, key)
        if mine is not None and theirs is not None and mine != theirs:
            words.append(
                f"The {text} of the house is not the same in both season.toml files ({theirs} then, {mine} now)."
            )
    words += _loggers(this, last)
    if not this.channels or not last.channels:
        words.append("One of the two winters has no logger readings, so only the books can be compared.")
    return tuple(words)


def _loggers(this: Readings, last: Readings) -> list[str]:
    mine = {logger.name: logger for logger in this.season.loggers}
    theirs = {logger.name: logger for logger in last.season.loggers}
    words = [
        f"Logger {name} is new this winter: last winter had none of that name." for name in mine if name not in theirs
    ]
    words += [f"Logger {name} of last winter is not there this winter." for name in theirs if name not in mine]
    for name in mine:
        if name in theirs:
            words += _one(name, mine[name], theirs[name])
    return words


def _one(name: str, mine: Logger, theirs: Logger) -> list[str]:
    words = []
    if has_moved(mine, theirs):
        words.append(f"Logger {name} stood somewhere else last winter, so its figures speak of two places.")
    if mine.shielded != theirs.shielded:
        words.append(f"Logger {name} was screened from the sun in one winter only.")
    if mine.main != theirs.main:
        words.append(f"Logger {name} spoke for the house in one winter only.")
    for measure in sorted(set(mine.measures) & set(theirs.measures)):
        a, b = mine.measures[measure], theirs.measures[measure]
        if (a.accuracy, a.unit or "") != (b.accuracy, b.unit or "") or a.offset != b.offset:
            plain = measure.replace("_", " ")
            words.append(
                f"Logger {name} reads {plain} with another accuracy, unit or offset: it may be another device."
            )
    return words


def has_moved(mine: Logger, theirs: Logger) -> bool:
    """Whether a logger of one name stood in two places; beds that one winter does not name tell nothing."""
    beds = bool(mine.beds and theirs.beds) and set(mine.beds) != set(theirs.beds)
    return beds or (mine.where, mine.under) != (theirs.where, theirs.under)


def same_crop_loggers(this: Readings, last: Readings) -> tuple[str, ...]:
    """Names of the crop loggers that logged the air in the same place in both winters."""
    there = {logger.name: logger for logger in last.season.loggers}
    return tuple(
        logger.name
        for logger in this.season.loggers
        if logger.name in there and not has_moved(logger, there[logger.name]) and _air(this, last, logger.name)
    )


def _air(this: Readings, last: Readings, name: str) -> bool:
    found = (readings.channel(name, "air_temperature") for readings in (this, last))
    return all(channel is not None and channel.where == "crop" and len(channel.values) > 1 for channel in found)


def with_air_of(readings: Readings, names: Sequence[str]) -> Readings:
    """The same without the crop air of other loggers; the readings themselves, where there is none."""
    kept = tuple(
        c for c in readings.channels if c.where != "crop" or c.measure != "air_temperature" or c.logger in names
    )
    return readings if len(kept) == len(readings.channels) else replace(readings, channels=kept)
