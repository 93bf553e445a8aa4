"""What only a person can settle of each logger: its name, where it hangs, °C or °F, day or month first, its clock."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

from reportgen.begin.grouping import OVERLAP, overlap, stem, together
from reportgen.begin.loggers import APART_K, Draft, degrees, free_name, middle_c
from reportgen.begin.questions import Asker
from reportgen.readings.places import OUTDOOR_NAMES
from reportgen.readings.sniff import sniff
from reportgen.readings.time_text import format_of
from reportgen.season.sources import shown
from reportgen.units import MEASURES, TEMPERATURE_UNITS

OPEN = ("wind_speed", "heater_power", "heater_energy")  # measures whose unit the level hardly tells
OTHER = "other"
PLACES = ("crop", "outdoor", "elsewhere")


def settle_loggers(folder: Path, found: list[Draft], asker: Asker, zone: str) -> None:
    """Asks about each logger in turn and writes the answers into the drafts."""
    quiet: dict[str, list[str]] = {}
    for n, draft in enumerate(found):
        _name_and_place(draft, [other.name for k, other in enumerate(found) if k != n], asker)
        quiet.setdefault(draft.label, []).extend(_units(draft, _warmest_inside(found), asker))
        _place_probes(draft, asker)
    for label, guesses in quiet.items():
        if guesses:
            asker.doubt(f"{label} does not say its units; by their level taken: {', '.join(guesses)}")
    _days_and_months(folder, found, asker, zone)
    _main(found, asker)
    _files_together(found, asker)
    if asker.alone:
        places = ", ".join(f"{draft.name} ({draft.where})" for draft in found)
        asker.doubt(f"where each logger hangs, crop, outdoor or elsewhere: {places}")
    if unknown := [draft.name for draft in found if draft.sniffed.clock is None]:
        asker.doubt(
            f"the clock of {', '.join(unknown)}: taken as local time that follows summer time; nothing in the files "
            "shows otherwise"
        )


def _name_and_place(draft: Draft, taken: list[str], asker: Asker) -> None:
    files = ", ".join(draft.files[:5]) + (f" and {len(draft.files) - 5} more" if len(draft.files) > 5 else "")
    columns = ", ".join(shown(column.name or column.address) for column in draft.measures.values())
    name = asker.get(f"A name for the logger of {files} with {columns}", draft.name, lambda text: text[:200])
    draft.name = free_name(name or draft.name, taken)
    told = f"{draft.question.partition(':')[0]}. " if draft.question else ""
    draft.where = asker.choose(f"{told}Where does {draft.name} hang", PLACES, draft.where, draft.question)
    if not asker.alone:
        draft.question = ""
    if draft.where == "outdoor":
        draft.measures = {OUTDOOR_NAMES.get(measure, measure): column for measure, column in draft.measures.items()}


def _place_probes(draft: Draft, asker: Asker) -> None:
    """Columns that only the grower can place: asked, else left out and told."""
    for offer in list(draft.offers):
        name = shown(offer.column.name or offer.column.address)
        question, options = f"Where is the probe {name!r} of {draft.label}", ["soil", "outdoor", OTHER]
        if offer.measure == "heater_energy":
            question, options = f"What does {name!r} of {draft.label} count", ["kWh", "Wh", "MJ", OTHER]
        doubt = f"{name!r} of {draft.label} is not used yet: {offer.question}"
        answer = asker.choose(question, options, OTHER, doubt)
        if answer == OTHER:
            continue
        draft.offers.remove(offer)
        measure = {"soil": "soil_temperature", "outdoor": "outdoor_temperature"}.get(answer, "heater_energy")
        draft.measures.setdefault(measure, offer.column)
        draft.units.setdefault(measure, answer if measure == "heater_energy" else offer.unit)


def _warmest_inside(found: list[Draft]) -> float | None:
    """The middle of the warmest air beside the crop [°C], if any."""
    middles = [middle for draft in found if draft.where == "crop" and (middle := middle_c(draft)) is not None]
    return max(middles, default=None)


def _units(draft: Draft, inside: float | None, asker: Asker) -> list[str]:
    """Writes the unit of every column; those that are guessed quietly, in words. `inside`: air beside the crop [°C]."""
    quiet = []
    for measure, column in draft.measures.items():
        if MEASURES[measure].kept in TEMPERATURE_UNITS:
            unit, doubtful = degrees(column)
            if column.unit is None and draft.where == "outdoor" and unit == "degC" and _warmer(column.middle, inside):
                unit, doubtful = "degF", True  # outdoors the winter is no warmer than in the house
            name = shown(column.name or column.address)
            if doubtful:
                unit = _ask_degrees(draft, name, unit, column.middle, asker)
            elif column.unit is None:
                quiet.append(f"{name!r} as {unit}")
            if column.loose:
                asker.doubt(f"{name!r} of {draft.label}: a probe, taken as {measure.replace('_', ' ')}")
            draft.units[measure] = unit
        elif column.unit is not None:
            draft.units[measure] = column.unit
            if column.doubt:
                asker.doubt(f"{column.name!r} of {draft.label}: {column.doubt}")
        else:
            draft.units[measure] = _by_level(measure, column.high)
            if measure in OPEN:
                quiet.append(f"{column.name!r} as {draft.units[measure]}")
    return quiet


def _warmer(middle: float | None, inside: float | None) -> bool:
    return middle is not None and inside is not None and middle > inside + APART_K


def _ask_degrees(draft: Draft, column: str, guess: str, middle: float | None, asker: Asker) -> str:
    level = f"half of its readings lie above {middle:.0f}" if middle is not None else "its level does not tell"
    question = f"Is column {column!r} of {draft.label} in °C or °F; {level}"
    doubt = f"column {column!r} of {draft.label}: {level}; it was taken as {guess}"
    return asker.choose(question, ("degC", "degF"), guess, doubt)


def _by_level(measure: str, high: float | None) -> str:
    """The unit that the highest readings suggest, where a measure has several."""
    kept, accepted = MEASURES[measure].kept, MEASURES[measure].accepted
    top = high if high is not None else 0.0
    if "fraction" in accepted:
        return "fraction" if 0 < top <= 1 else "%"
    if measure == "soil_moisture":
        return "%" if top > 1 else kept
    if measure == "heater_power":
        return "kW" if 0 < top < 30 else "W"  # no heater of a house draws less than 30 W, or more than 30 kW
    return kept


def _days_and_months(folder: Path, found: list[Draft], asker: Asker, zone: str) -> None:
    """Asks only where the files leave it open, once a file; the days are then counted anew."""
    answers: dict[str, bool] = {}
    for draft in found:
        seen = draft.sniffed
        if seen.day_first is not None or not seen.time_example:
            continue
        if draft.label not in answers:
            answers[draft.label] = _day_first(draft, asker, zone)
        first = answers[draft.label]
        again = together(sniff(folder / file, ZoneInfo(zone), draft.sheet or None, first) for file in draft.files)
        if again is not None:
            columns = {column.address: column for column in again.columns}
            draft.sniffed, draft.time_format = again, again.time_format
            draft.measures = {measure: columns[column.address] for measure, column in draft.measures.items()}
        draft.time_format = draft.time_format or format_of(seen.time_example, first)


def _day_first(draft: Draft, asker: Asker, zone: str) -> bool:
    guess = "month" if zone.startswith("America/") else "day"
    example = draft.sniffed.time_example
    question = f"{draft.label} has times such as {example}: which comes first"
    doubt = f"{draft.label}: in {example} the {guess} was taken to come first; nothing in the file says so"
    return asker.choose(question, ("day", "month"), guess, doubt) == "day"


def _files_together(found: list[Draft], asker: Asker) -> None:
    """Several files were taken as one logger's: told, since two loggers of one make write the same header."""
    for draft in {draft.files: draft for draft in found}.values():
        if len(draft.files) > 1 and asker.alone:
            shortly = ", ".join(draft.files[:4]) + (" …" if len(draft.files) > 4 else "")
            asker.doubt(f"{len(draft.files)} files taken as one logger's, one after the other or told again: {shortly}")
    for file, drafts in _by_workbook(found).items():
        first, rest = drafts[0], drafts[1:]
        if rest and all(stem(one.sheet) == stem(first.sheet) and _after(one, first) for one in rest):
            sheets = ", ".join(one.sheet for one in drafts)
            asker.doubt(
                f"the sheets {sheets} of {file} look like one logger's record in parts: copy their rows into one "
                "sheet, or save each as a CSV; until then each is a logger by itself, and one speaks for the house"
            )


def _by_workbook(found: list[Draft]) -> dict[str, list[Draft]]:
    """The loggers of each workbook, one a sheet."""
    books: dict[str, list[Draft]] = {}
    for draft in found:
        if draft.sheet and all(other.sheet != draft.sheet for other in books.get(draft.files[0], [])):
            books.setdefault(draft.files[0], []).append(draft)
    return books


def _after(one: Draft, other: Draft) -> bool:
    """Whether two sheets have one header and hardly a day in common."""
    return one.sniffed.header == other.sniffed.header and overlap(one.sniffed, other.sniffed) < OVERLAP


def _main(found: list[Draft], asker: Asker) -> None:
    """Of several loggers beside the crop one speaks for the house."""
    crop = [draft for draft in found if draft.where == "crop" and "air_temperature" in draft.measures]
    if len(crop) < 2:
        return
    best = max(crop, key=lambda draft: draft.measures["air_temperature"].filled)
    names = [draft.name for draft in crop]
    doubt = f"which logger speaks for the house: {best.name!r} was taken, of {', '.join(names)}"
    chosen = asker.choose("Which logger beside the crop speaks for the house", names, best.name, doubt)
    next(draft for draft in crop if draft.name == chosen).main = True
