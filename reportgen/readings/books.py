"""The grower's books: diary, harvest, plantings, watering, inspections, costs; every faulty row is told at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from reportgen import limits
from reportgen.disk import is_there, too_much
from reportgen.problems import Problem
from reportgen.readings import book_rows
from reportgen.readings.book_rows import COLUMNS as COLUMNS
from reportgen.readings.chains import chains
from reportgen.readings.diary_lines import TICK_LINES
from reportgen.readings.ledger import Row
from reportgen.readings.lever_doubts import lever_doubts
from reportgen.readings.lever_types import Lever
from reportgen.readings.levers import in_season, levers_before, levers_of
from reportgen.readings.opening import open_ledger
from reportgen.readings.shelf import BOOKS as BOOKS
from reportgen.readings.shelf import Place, addressed, shelve
from reportgen.readings.spellings import crop_spellings
from reportgen.readings.ticks import FILE as TICKS_FILE
from reportgen.readings.ticks import read_ticks
from reportgen.readings.types import Cost, DiaryEntry, Inspection, Picking, Planting, Watering
from reportgen.readings.weight_doubts import area_doubts, weight_doubts
from reportgen.season import Season

T = TypeVar("T")


@dataclass(frozen=True, kw_only=True, slots=True)
class Books:
    """All books as read; `books` says which are kept, `places` where each lies."""

    diary: tuple[DiaryEntry, ...]
    levers: tuple[Lever, ...]
    levers_before: tuple[Lever, ...]
    diary_before: tuple[DiaryEntry, ...]
    harvest: tuple[Picking, ...]
    plantings: tuple[Planting, ...]
    watering: tuple[Watering, ...]
    inspections: tuple[Inspection, ...]
    costs: tuple[Cost, ...]
    books: Mapping[str, bool]
    places: Mapping[str, Place]
    ahead: tuple[DiaryEntry, ...] = ()  # of a season that still runs: nights of a tick sheet that are still to come


def read_books(season: Season) -> tuple[Books, list[Problem]]:
    """Every book of the season, and every problem and warning of them."""
    reader = _Reader(season)
    noted = reader.entries("diary", book_rows.diary_entry)
    ticked, of_ticks = read_ticks(season, noted)
    reader.problems += of_ticks
    written = [*noted, *ticked]
    ahead = [e for e in ticked if season.so_far is not None and (e.until or e.date) > season.last_day]
    diary = [entry for entry in written if entry.kind in book_rows.ALWAYS or in_season(entry, season)]
    diary_label = reader.places["diary"].label
    linked, unclear = chains(written, diary_label)
    reader.problems += unclear
    levers = levers_of(linked, season)
    before = levers_before(linked, season)
    of_before = {line for lever in before for line in lever.lines}
    in_these = {line for lever in levers for line in lever.lines}
    reader.problems += lever_doubts([chain for chain in linked if chain.lines & in_these], diary_label)
    harvest = reader.entries("harvest", book_rows.picking)
    plantings = reader.entries("plantings", book_rows.planting)
    watering = reader.entries("watering", book_rows.watering)
    inspections = reader.entries("inspections", book_rows.inspection)
    costs = reader.entries("costs", book_rows.cost)
    books = Books(
        diary=tuple(sorted(diary, key=lambda e: (e.date, e.line))),
        levers=levers,
        levers_before=before,
        diary_before=tuple(replace(e, note="") for e in written if e.line in of_before),
        ahead=tuple(ahead),
        harvest=tuple(sorted(harvest, key=lambda e: (e.date, e.line))),
        plantings=tuple(plantings),
        watering=tuple(sorted(watering, key=lambda e: (e.date, e.line))),
        inspections=tuple(sorted(inspections, key=lambda e: (e.date, e.line))),
        costs=tuple(sorted(costs, key=lambda e: (e.date, e.line))),
        books=MappingProxyType(reader.there),
        places=reader.places,
    )
    reader.problems += weight_doubts(books.harvest, reader.places["harvest"].label)
    reader.problems += area_doubts(books.plantings, season.house.floor_area_m2, reader.places["plantings"].label)
    names = {
        book: [(entry.line, entry.crop) for entry in entries if entry.crop]
        for book, entries in (("harvest", books.harvest), ("plantings", books.plantings), ("inspections", inspections))
    }
    files = {book: place.label for book, place in reader.places.items()}
    kinds = {crop for rows in names.values() for _, crop in rows}
    if len(kinds) > limits.CROPS.most:
        reader.problems.append(_too_many_crops(len(kinds), files["harvest" if harvest else "plantings"]))
    else:
        reader.problems += crop_spellings([crop.name for crop in season.crops], names, files)
    return books, [_of_ticks(problem) for problem in addressed(reader.problems, reader.places)]


def _of_ticks(problem: Problem) -> Problem:
    """A problem of a line that the tick sheet has, named there and not in the diary."""
    if problem.line is None or problem.line <= TICK_LINES:
        return problem
    return replace(problem, file=TICKS_FILE, line=problem.line - TICK_LINES)


def _too_many_crops(count: int, file: str) -> Problem:
    told = too_much(limits.CROPS, f"{count:,} crops in the books")
    return Problem(
        slug=told.slug,
        file=file,
        column="crop",
        found=told.found,
        expected=limits.CROPS.words,
        todo="call a crop by one name, and write the cultivar into its own column",
    )


class _Reader:
    """Opens each book once and gathers the faults of all."""

    def __init__(self, season: Season) -> None:
        self.season = season
        self.places, self.problems = shelve(season)
        self.there: dict[str, bool] = {}

    def entries(self, book: str, make: Callable[[Row, Season], T | None]) -> list[T]:
        """The good rows of a book, in the order they stand."""
        place = self.places[book]
        self.there[book] = place.there and is_there(self.season.folder, place.file)
        if not place.there:
            return []
        most = limits.DIARY_ROWS if book == "diary" else limits.BOOK_ROWS
        ledger = open_ledger(Path(self.season.folder), place.file, COLUMNS[book], most, place.sheet or None)
        made = [entry for row in ledger.rows() if (entry := make(row, self.season)) is not None and row.good]
        self.problems += ledger.problems
        return made
