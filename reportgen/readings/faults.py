"""Problems and warnings of one file, gathered while it is read."""

from __future__ import annotations

from dataclasses import dataclass, field

from reportgen.problems import Level, Problem

LONGEST = 400  # characters of what was found that help to find it again


@dataclass(slots=True)
class Faults:
    """The faults of the file named, in the order they were found; `sheet` of a workbook is told beside the column."""

    file: str
    sheet: str = ""
    problems: list[Problem] = field(default_factory=list)

    def tell(
        self,
        slug: str,
        found: str,
        expected: str,
        todo: str,
        *,
        line: int | None = None,
        column: str | None = None,
        level: Level = "problem",
    ) -> None:
        """Notes one; what was found is quoted in part where it is very long."""
        if self.sheet:
            column = f"sheet {self.sheet!r}" + (f", {column}" if column else "")
        self.problems.append(
            Problem(
                slug=slug,
                file=self.file,
                line=line,
                column=column,
                found=found if len(found) <= LONGEST else found[: LONGEST - 1] + "…",
                expected=expected,
                todo=todo,
                level=level,
            )
        )
