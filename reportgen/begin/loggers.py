"""Logger files → drafts of [[logger]] tables: what hangs outdoors apart, and each column of one measure apart."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from reportgen.begin.files import Seen
from reportgen.begin.grouping import Group, groups, overlap
from reportgen.begin.patterns import patterns_of
from reportgen.readings.header_words import outdoors
from reportgen.readings.sniff import Sniffed, SniffedColumn
from reportgen.units import CELSIUS_ZERO_K, FAHRENHEIT_K, TEMPERATURE_UNITS, is_temperature

APART_K = 3.0  # a logger with its middle this much below all others hangs outdoors, if nothing else says so; a guess
ROUNDED_F = 0.6  # [°F] by which the mean of a day may differ when both columns are rounded, to whole degrees at worst
SAME_DAYS = 0.5  # share of the shorter record that two loggers must have in common for their levels to be compared
_NUMBERED = re.compile(r"[-_. ]*\(?\d[\d-]*\)?$")
_WEATHER = ("outdoor_temperature", "outdoor_humidity", "wind_speed")
_METER_WORDS = re.compile(r"m3|m³|\bgas|\bl\b|lit(?:er|re)|\boil\b|olej|\bol\b|plyn", re.I)
INSIDE = ("air_temperature", "relative_humidity", "soil_temperature", "soil_moisture", "ppfd")


@dataclass(frozen=True, kw_only=True, slots=True)
class Offer:
    """A column that only a person can place: written as a line that is commented out, with the question."""

    column: SniffedColumn
    measure: str
    unit: str
    question: str


@dataclass(kw_only=True, slots=True)
class Draft:
    """One logger to be: `measures` in order, measure → its column. `question` is on where it hangs."""

    name: str
    where: str
    files: tuple[str, ...]
    patterns: list[str]
    sheet: str
    sniffed: Sniffed
    measures: dict[str, SniffedColumn]
    units: dict[str, str] = field(default_factory=dict)
    offers: list[Offer] = field(default_factory=list)
    time_format: str | None = None
    clock: str = "local"
    main: bool = False
    question: str = ""

    @property
    def label(self) -> str:
        """Its first file, and the sheet where it has any."""
        return f"{self.files[0]}, sheet {self.sheet!r}" if self.sheet else self.files[0]

    def days_of(self, measure: str) -> Mapping[dt.date, int]:
        """Readings of a measure by day, on the clock as written."""
        column = self.measures.get(measure)
        return column.days if column is not None else {}


def in_fahrenheit(loggers: Sequence[Draft]) -> bool:
    """Whether most of the temperatures are logged in °F."""
    units = [unit for draft in loggers for unit in draft.units.values() if unit in TEMPERATURE_UNITS]
    return 2 * units.count("degF") > len(units)


def drafts(folder: Path, seen: Sequence[Seen]) -> list[Draft]:
    """The loggers that the files seem to be of."""
    found: list[Draft] = []
    for group in groups([one for one in seen if one.role == "logger"]):
        patterns = patterns_of(folder, group.files)
        for outside, measures in _sensors(group):
            found.append(_draft(group, patterns, outside, measures, found))
    _ask_of_one_file(found)
    _guess_outdoors(found)
    return found


def _sensors(group: Group) -> list[tuple[bool, dict[str, SniffedColumn]]]:
    """The sensors of a group: each with whether it hangs outdoors for sure, and its columns by measure."""
    firm = [column for column in group.sniffed.measures if not column.loose and not _unit_unknown(column)]
    firm = [column for n, column in enumerate(firm) if not any(in_other_unit(column, one) for one in firm[:n])]
    probes = [column for column in group.sniffed.columns if column.loose]
    measured = firm if any(is_temperature(column.measure) for column in firm) else [*firm, *probes]
    by_name = outdoors(_bare(group.files[0])) or outdoors(group.sheet)
    weather = [column for column in measured if column.measure in _WEATHER or _quanta_outside(column)]
    if weather:
        weather += [column for column in measured if column.measure == "solar_radiation"]
    if by_name:
        return [(True, sensor) for sensor in split_measures(measured)]
    rest = [column for column in measured if column not in weather]
    inside = [(False, sensor) for sensor in split_measures(rest)]
    return inside + [(True, sensor) for sensor in split_measures(weather)]


def in_other_unit(column: SniffedColumn, one: SniffedColumn) -> bool:
    """Whether a column tells another one again, in °F for °C or the other way round, as many apps export both."""
    if column.measure != one.measure or {column.unit, one.unit} != {"degC", "degF"}:
        return False
    c, f = (one, column) if one.unit == "degC" else (column, one)
    days = [day for day, count in c.days.items() if count and f.days.get(day) == count]
    gaps = [f.sums[day] / f.days[day] - (c.sums[day] / c.days[day] / FAHRENHEIT_K + 32.0) for day in days]
    return len(gaps) > 0 and max(map(abs, gaps)) < ROUNDED_F


def _bare(file: str) -> str:
    """A file's path without its ending."""
    return file.rpartition(".")[0] or file


def _quanta_outside(column: SniffedColumn) -> bool:
    return column.measure == "ppfd" and outdoors(column.name)


def _unit_unknown(column: SniffedColumn) -> bool:
    """A counter of which nothing says what it counts."""
    return column.measure == "heater_energy" and column.unit is None


def split_measures(columns: Sequence[SniffedColumn]) -> list[dict[str, SniffedColumn]]:
    """The first column of each measure is one sensor's, the second another's, and so on."""
    sensors: list[dict[str, SniffedColumn]] = []
    for column in columns:
        measure = column.measure or "air_temperature"  # of a file whose only temperature is that of a probe
        free = next((sensor for sensor in sensors if measure not in sensor), None)
        if free is None:
            free = {}
            sensors.append(free)
        free[measure] = column
    return sensors


def _draft(
    group: Group,
    patterns: list[str],
    outside: bool,
    measures: dict[str, SniffedColumn],
    others: Sequence[Draft],
) -> Draft:
    first = not any(draft.files == group.files and draft.sheet == group.sheet for draft in others)
    name = name_of(group.files, group.sheet)
    taken = [draft.name for draft in others]
    return Draft(
        name=free_name(f"{name} weather" if outside and not first else name, taken),
        where="outdoor" if outside else "crop" if set(INSIDE) & set(measures) else "elsewhere",
        files=group.files,
        patterns=patterns,
        sheet=group.sheet,
        sniffed=group.sniffed,
        measures=measures,
        offers=_offers(group) if first else [],
        time_format=group.sniffed.time_format,
        clock=group.sniffed.clock or "local",
    )


def _offers(group: Group) -> list[Offer]:
    """The columns that nobody but the grower can place."""
    found = []
    warm = any(is_temperature(column.measure) and not column.loose for column in group.sniffed.columns)
    for column in group.sniffed.columns:
        if column.loose and warm:
            question = "a probe: in the bed? or outdoor_temperature? Leave it out where it hangs in the air beside"
            found.append(Offer(column=column, measure="soil_temperature", unit=degrees(column)[0], question=question))
        elif _unit_unknown(column):
            question = "it runs up like a meter: does it count kWh?"
            found.append(Offer(column=column, measure="heater_energy", unit="kWh", question=question))
    return found


def meters(seen: Sequence[Seen]) -> list[tuple[str, str]]:
    """Columns of logger files that run up like the meter of a fuel: the file and the column's name."""
    return [
        (one.label, column.name)
        for one in seen
        if one.role == "logger" and one.sniffed is not None
        for column in one.sniffed.columns
        if column.runs_up and column.measure is None and _METER_WORDS.search(column.name)
    ]


def name_of(files: Sequence[str], sheet: str) -> str:
    """A name for the logger of these files: that of the first without its dates, or that of its sheet."""
    stem = PurePosixPath(files[0]).stem
    short = re.fullmatch(r".*?\D\d{1,2}", stem)  # peg-1 and peg-2 are two pegs
    bare = stem if len(files) == 1 and short else _NUMBERED.sub("", stem) or stem
    name = f"{bare} {sheet}" if sheet else bare
    return "".join(char if char.isprintable() else " " for char in name.casefold())[:120]


def free_name(wanted: str, taken: Sequence[str]) -> str:
    """A name not yet given: the wanted one, else with a number."""
    wanted = wanted.strip(" -_.") or "logger"
    names = [wanted, *(f"{wanted} {n}" for n in range(2, 1000))]
    return next(name for name in names if name not in taken)


def _ask_of_one_file(found: list[Draft]) -> None:
    """Two air columns of one file are not one beside the crop and one outdoors by guess: the colder one is asked
    about, and speaks for nothing until then."""
    for draft in found:
        middle = middle_c(draft)
        beside = [o for o in found if o is not draft and o.files == draft.files and o.sheet == draft.sheet]
        warmer = [(m, o) for o in beside if o.where != "outdoor" and (m := middle_c(o)) is not None]
        if draft.where != "crop" or middle is None or not warmer:
            continue
        top, other = max(warmer, key=lambda pair: pair[0])
        if top - middle >= APART_K:
            here, there = (one.measures["air_temperature"].name for one in (draft, other))
            draft.where = "elsewhere"
            draft.question = f"{here!r} is {top - middle:.0f} °C colder than {there!r} of one file: outdoors, or crop?"


def _guess_outdoors(found: list[Draft]) -> None:
    """Where no logger says it is outdoors, the clearly coldest of several files is taken to be."""
    warm = {"outdoor_temperature", "air_temperature"}
    if any(draft.where == "outdoor" and warm & set(draft.measures) for draft in found):
        return
    if any(draft.question for draft in found):  # a column may be the one outdoors: no other is taken for it
        return
    crop = [draft for draft in found if draft.where == "crop"]
    middles = sorted((middle, n) for n, draft in enumerate(crop) if (middle := middle_c(draft)) is not None)
    if len(middles) < 2 or middles[1][0] - middles[0][0] < APART_K:
        return
    coldest, next_one = crop[middles[0][1]], crop[middles[1][1]]
    if coldest.files != next_one.files and overlap(coldest.sniffed, next_one.sniffed) >= SAME_DAYS:
        coldest.where = "outdoor"


def middle_c(draft: Draft) -> float | None:
    """The middle of a logger's air as it is understood [°C]; None where it has none."""
    column = draft.measures.get("air_temperature")
    if column is None or column.middle is None:
        return None
    unit = degrees(column)[0]
    return {"degF": (column.middle - 32) / 1.8, "K": column.middle - CELSIUS_ZERO_K}.get(unit, column.middle)


def degrees(column: SniffedColumn) -> tuple[str, bool]:
    """The temperature unit of a column, and whether its level leaves a doubt."""
    if column.unit is not None:
        return column.unit, bool(column.doubt)
    middle = column.middle if column.middle is not None else 0.0
    if middle > 200:
        return "K", False
    # Half a winter's readings above 35 would be hot in °C; 26 to 35 is a warm house in °C or a cold one in °F.
    return ("degF", middle < 35) if middle >= 26 else ("degC", False)
