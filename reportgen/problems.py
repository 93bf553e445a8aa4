"""What can be wrong with a season, and how it is told: one frozen value with an address.

A problem stops the review; a warning is told and the review goes on. Both come all at once, never one by one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Level = Literal["problem", "warning"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Problem:
    """One fault of the season folder, with its address and what to do about it.

    `slug` is stable; explanations.md tells what it means. `file` is relative to the season folder, `line`
    counts from 1, `column` is the name of a column or of a key.
    """

    slug: str
    file: str
    line: int | None = None
    column: str | None = None
    found: str
    expected: str
    todo: str
    level: Level = "problem"

    @property
    def address(self) -> str:
        """Where it stands: `file`, `file:line` or `file:line, column NAME`."""
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return place if self.column is None else f"{place}, {self.column}"

    def text(self) -> str:
        """The fault in four lines, as it is printed."""
        rows = (("found", self.found), ("expected", self.expected), ("to do", self.todo))
        lines = [f"  {name:<9} {one_line(words)}" for name, words in rows]
        return "\n".join([f"{one_line(self.address)}  [{self.slug}]", *lines])

    def to_dict(self) -> dict[str, str | int | None]:
        """The fault for programs (`inspect --json`)."""
        return {
            "slug": self.slug,
            "level": self.level,
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "found": self.found,
            "expected": self.expected,
            "todo": self.todo,
        }


def one_line(text: str) -> str:
    """A text out of a file or its name that cannot begin a line of its own."""
    return " ".join(text.splitlines())


class SeasonError(Exception):
    """The season cannot be reviewed; carries every problem found, in order of file and line."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems, key=lambda p: (p.file, p.line or 0, p.column or "", p.slug)))
        super().__init__("\n".join(problem.text() for problem in self.problems))


class NotEnoughData(Exception):
    """A figure cannot be had from this season; the message is the reason in the grower's words."""
