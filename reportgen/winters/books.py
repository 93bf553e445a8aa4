"""What changed in the diary between two winters, and which loggers stood elsewhere or were swapped."""

from __future__ import annotations

from reportgen.readings.types import Readings
from reportgen.season.models import Logger

KEPT = ("change", "spell", "upkeep")  # what alters the house (upkeep, if it touches something of it); events do not


def diary_differences(this: Readings, last: Readings) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(only this winter, only last winter): what the diary says was changed, by its own words, in order of date."""
    mine, theirs = _altered(this), _altered(last)
    return (
        tuple(text for folded, text in mine.items() if folded not in theirs),
        tuple(text for folded, text in theirs.items() if folded not in mine),
    )


def _altered(readings: Readings) -> dict[str, str]:
    kept = (e for e in readings.diary if e.kind in KEPT and (e.touches or e.kind != "upkeep"))
    entries = sorted(kept, key=lambda e: (e.date, e.line))
    found: dict[str, str] = {}
    for entry in entries:
        found.setdefault(" ".join(entry.what.casefold().split()), entry.what)
    return found


def logger_warnings(this: Readings, last: Readings) -> tuple[str, ...]:
    """Words for every logger that is new, gone, moved or another instrument, and for a house that was altered."""
    words = list(_loggers(this, last))
    for key, text in (("floor_area_m2", "floor area"), ("glazing_area_m2", "glazing area"), ("glazing", "glazing")):
        mine, theirs = getattr(this.season.house, key), getattr(last.season.house, key)
        if mine is not None and theirs is not None and mine != theirs:
            words.append(
                f"The {text} of the house is not the same in both season.toml files ({theirs} then, {mine} now)."
            )
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
    if (mine.where, mine.beds, mine.under) != (theirs.where, theirs.beds, theirs.under):
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
