"""Where each book lies: a file of its own, or a sheet of books.xlsx or books.ods; never both."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from reportgen.disk import Unreadable, inside, is_there, shown
from reportgen.problems import Problem
from reportgen.readings.sheet import workbook
from reportgen.season import Season
from reportgen.season.explain import LIKE

WORKBOOKS = ("books.xlsx", "books.ods")
BOOKS = ("diary", "harvest", "plantings", "watering", "inspections", "costs")


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Where one book lies; `sheet` is empty for a text file, `there` says that it is kept."""

    file: str
    sheet: str = ""
    there: bool = True

    @property
    def label(self) -> str:
        """One word for both, by which `addressed` finds the sheet again."""
        return f"{self.file}#{self.sheet}" if self.sheet else self.file

    @property
    def words(self) -> str:
        """As a person is told: books.xlsx, sheet 'diary'."""
        return f"{self.file}, sheet {self.sheet!r}" if self.sheet else self.file

    def column(self, column: str | None) -> str | None:
        """A column with its sheet before it, as `Faults` writes it."""
        if not self.sheet:
            return column
        return f"sheet {self.sheet!r}" + (f", {column}" if column else "")


def shelve(season: Season) -> tuple[Mapping[str, Place], list[Problem]]:
    """The place of every book, and what is wrong with the shelf: two places of one book, a sheet that nobody reads, a
    workbook that cannot be opened."""
    found: dict[str, list[Place]] = {book: _file_of(season, book) for book in BOOKS}
    problems: list[Problem] = []
    for file in WORKBOOKS:
        if is_there(season.folder, file):
            try:
                _take_sheets(season, file, found, problems)
            except Unreadable as error:
                expected = "a workbook with one sheet a book"
                problems.append(
                    Problem(slug=error.slug, file=file, found=error.found, expected=expected, todo=error.todo)
                )
    problems += [_twice(book, places) for book, places in found.items() if len(places) > 1]
    usual = {book: Place(file=getattr(season, book).file, there=False) for book in BOOKS}
    return {book: places[0] if places else usual[book] for book, places in found.items()}, problems


def addressed(problems: Sequence[Problem], places: Mapping[str, Place]) -> list[Problem]:
    """The same problems; those that name a place by its label get its file and its sheet."""
    by_label = {place.label: place for place in places.values() if place.sheet}
    return [
        replace(p, file=place.file, column=place.column(p.column)) if (place := by_label.get(p.file)) else p
        for p in problems
    ]


def _file_of(season: Season, book: str) -> list[Place]:
    """The file of a book, where it is there or season.toml names it: then it must be."""
    table = getattr(season, book)
    named = book in season.model_fields_set and "file" in table.model_fields_set
    if not named and not is_there(season.folder, table.file):
        return []
    return [Place(file=table.file, sheet=table.sheet or "")]


def _take_sheets(season: Season, file: str, found: dict[str, list[Place]], problems: list[Problem]) -> None:
    """Adds the sheets of a workbook that hold rows to the places of their books."""
    sheets = workbook(inside(Path(season.folder), file))
    named = {place.label for places in found.values() for place in places}
    named |= {place.file for places in found.values() for place in places}
    for name, rows in sheets.items():
        filled = sum(any(row) for row in rows) > 1
        book = name.strip().casefold()
        if file in named or not filled:
            continue  # season.toml itself says which sheet is which; a header alone is no book
        if book in BOOKS:
            found[book].append(Place(file=file, sheet=name))
        else:
            problems.append(_unread(file, name))


def _twice(book: str, places: Sequence[Place]) -> Problem:
    first, second = places[:2]
    return Problem(
        slug="book-twice",
        file=shown(second.file),
        column=second.column(None),
        found=f"the {book} book in {first.words} and in {second.words}",
        expected="each book in one place",
        todo=f"put all rows into one of the two, and take the other out ({first.words}, or the rows of {second.words})",
    )


def _unread(file: str, name: str) -> Problem:
    near = difflib.get_close_matches(name.strip().casefold(), BOOKS, n=1, cutoff=LIKE)
    return Problem(
        slug="unread-sheet",
        file=file,
        column=f"sheet {name!r}",
        found="a sheet with rows, which is not read",
        expected=f"sheets called {', '.join(BOOKS)}",
        todo=f"did you mean {near[0]!r}?" if near else "rename it if it is one of these books; else let it be",
        level="warning",
    )
