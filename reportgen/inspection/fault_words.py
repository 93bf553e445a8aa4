"""Problems and warnings as plain text: each fault with its address, each kind explained once."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.explained import explanations
from reportgen.inspection.layout import wrapped
from reportgen.problems import Problem, one_line

ALIKE_SHOWN = 4  # faults of one kind in one column that are told in full
LINES_SHOWN = 12  # lines of further faults alike that are named


def fault_parts(warnings: Sequence[Problem], problems: Sequence[Problem]) -> list[str]:
    """Warnings, then problems; every kind is explained below the first fault of it."""
    explained: set[str] = set()
    return [_faults("Warnings", warnings, explained), _faults("Problems", problems, explained)]


def _faults(title: str, faults: Sequence[Problem], explained: set[str]) -> str:
    """Every fault; of many alike in one column the first few, and how many more there are."""
    if not faults:
        return ""
    alike: dict[tuple[str, str, str | None], list[Problem]] = {}
    for fault in faults:
        alike.setdefault((fault.slug, fault.file, fault.column), []).append(fault)
    blocks = []
    for group in alike.values():
        blocks += [_fault(problem) for problem in group[:ALIKE_SHOWN]]
        if rest := group[ALIKE_SHOWN:]:
            lines = ", ".join(str(problem.line) for problem in rest[:LINES_SHOWN] if problem.line)
            lines += " …" if len(rest) > LINES_SHOWN else ""
            blocks.append(wrapped(f"and {len(rest)} more like it" + (f", in lines {lines}" if lines else "")))
        slug = group[0].slug
        if slug not in explained and slug in explanations():
            blocks.append(_explained(slug))
            explained.add(slug)
    return "\n\n".join([f"{title}: {len(faults)}", *blocks])


def _fault(problem: Problem) -> str:
    rows = (("found", problem.found), ("expected", problem.expected), ("to do", problem.todo))
    lines = [wrapped(f"{name:<9} {words}", 4, 10) for name, words in rows]
    return "\n".join([f"  {one_line(problem.address)}  [{problem.slug}]", *lines])


def _explained(slug: str) -> str:
    first, *rest = explanations()[slug].split("\n")
    return "\n".join([wrapped(f"{slug}: {first}", 2, 4), *(wrapped(line, 6) for line in rest)])


def to_mend(problems: Sequence[Problem]) -> str:
    """The verdict where there are problems."""
    return f"{len(problems)}\u00a0problem{'s' * (len(problems) != 1)} to mend before a review can be made."


def unread(folder: str, problems: Sequence[Problem]) -> str:
    """All that can be said of a folder whose season.toml is not there or cannot be read."""
    head = wrapped(f"{folder}: season.toml could not be understood, so no other file was opened.", 0)
    parts = [head, *fault_parts((), problems), to_mend(problems)]
    return "\n\n".join(part for part in parts if part)
