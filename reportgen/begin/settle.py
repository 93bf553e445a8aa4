"""What only a person can settle of each logger: its name, where it hangs, °C or °F, day or month first, its clock."""

from __future__ import annotations

from reportgen.begin.loggers import Draft, degrees, free_name
from reportgen.begin.questions import Asker
from reportgen.begin.time_text import format_of
from reportgen.units import MEASURES, TEMPERATURE_UNITS

OPEN = ("wind_speed", "heater_power", "heater_energy")  # measures whose unit the level hardly tells
PLACES = ("crop", "outdoor", "elsewhere")
_OUTDOOR = {"air_temperature": "outdoor_temperature", "relative_humidity": "outdoor_humidity"}


def settle_loggers(found: list[Draft], asker: Asker, zone: str) -> None:
    """Asks about each logger in turn and writes the answers into the drafts."""
    for n, draft in enumerate(found):
        _name_and_place(draft, [other.name for k, other in enumerate(found) if k != n], asker)
        _units(draft, asker)
        _day_or_month(draft, asker, zone)
    _main(found, asker)
    if asker.alone:
        places = ", ".join(f"{draft.name} ({draft.where})" for draft in found)
        asker.doubt(f"where each logger hangs, crop, outdoor or elsewhere: {places}")
    if unknown := [draft.name for draft in found if draft.sniffed.clock is None]:
        asker.doubt(
            f"the clock of {', '.join(unknown)}: taken as local time that follows summer time; nothing in the files "
            "shows otherwise"
        )


def _name_and_place(draft: Draft, taken: list[str], asker: Asker) -> None:
    files = ", ".join(draft.files)
    columns = ", ".join(column.name for column in draft.measures.values())
    name = asker.get(f"A name for the logger of {files} with {columns}", draft.name, lambda text: text[:200])
    draft.name = free_name(name or draft.name, taken)
    draft.where = asker.choose(f"Where does {draft.name} hang", PLACES, draft.where)
    if draft.where == "outdoor":
        draft.measures = {_OUTDOOR.get(measure, measure): column for measure, column in draft.measures.items()}


def _units(draft: Draft, asker: Asker) -> None:
    quiet = []
    for measure, column in draft.measures.items():
        if MEASURES[measure].kept in TEMPERATURE_UNITS:
            unit, doubtful = degrees(column)
            if doubtful:
                unit = _ask_degrees(draft, column.name, unit, column.middle, asker)
            elif column.unit is None:
                quiet.append(f"{column.name!r} as {unit}")
            draft.units[measure] = unit
        elif column.unit is not None:
            draft.units[measure] = column.unit
        else:
            draft.units[measure] = _by_level(measure, column.high)
            if measure in OPEN:
                quiet.append(f"{column.name!r} as {draft.units[measure]}")
    if quiet:
        asker.doubt(f"{draft.files[0]} does not say its units; by their level taken: {', '.join(quiet)}")


def _ask_degrees(draft: Draft, column: str, guess: str, middle: float | None, asker: Asker) -> str:
    level = f"half of its readings lie above {middle:.0f}" if middle is not None else "its level does not tell"
    question = f"Is column {column!r} of {draft.files[0]} in °C or °F; {level}"
    doubt = f"column {column!r} of {draft.files[0]}: {level}, so it was taken as {guess}"
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


def _day_or_month(draft: Draft, asker: Asker, zone: str) -> None:
    """Asks only where the files leave it open."""
    seen = draft.sniffed
    if seen.day_first is not None or not seen.time_example:
        return
    guess = "month" if zone.startswith("America/") else "day"
    question = f"{draft.files[0]} has times such as {seen.time_example}: which comes first"
    doubt = f"{draft.files[0]}: in {seen.time_example} the {guess} was taken to come first; nothing in the file says so"
    first = asker.choose(question, ("day", "month"), guess, doubt) == "day"
    draft.time_format = format_of(seen.time_example, first)


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
