"""Problems and warnings of one file, gathered while it is read."""

from __future__ import annotations

from reportgen.problems import Level, Problem


class Faults:
    """Problems and warnings of one file, gathered while it is read."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

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
        """Notes one."""
        self.problems.append(
            Problem(
                slug=slug,
                file=self.file,
                line=line,
                column=column,
                found=found,
                expected=expected,
                todo=todo,
                level=level,
            )
        )
