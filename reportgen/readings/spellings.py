"""Crops that may be one crop spelled several ways: asked about, never merged."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence

from reportgen.problems import Problem

ALIKE = 0.84  # likeness from which two names are asked about: one letter in seven; common practice, no source


def crop_spellings(
    declared: Sequence[str], written: Mapping[str, Sequence[tuple[int, str]]], files: Mapping[str, str]
) -> list[Problem]:
    """One warning for each name that looks like another one.

    Args:
        declared: Names of the [[crop]] tables.
        written: By book, each crop with its line.
        files: By book, its file.
    """
    first: dict[str, tuple[str, int]] = {}
    for book, entries in written.items():
        for line, name in entries:
            first.setdefault(name, (files[book], line))
    known = list(dict.fromkeys(declared))
    warnings = []
    for name, (file, line) in first.items():
        if name not in known and (alike := _alike(name, known)) is not None:
            warnings.append(_ask(name, alike, file, line))
        if name not in known:
            known.append(name)
    return warnings


def _alike(name: str, known: Sequence[str]) -> str | None:
    scores = {other: difflib.SequenceMatcher(a=_bare(name), b=_bare(other)).ratio() for other in known}
    best = max(scores, key=lambda other: scores[other], default=None)
    return best if best is not None and scores[best] >= ALIKE else None


def _bare(name: str) -> str:
    return " ".join(name.casefold().split())


def _ask(name: str, alike: str, file: str, line: int) -> Problem:
    return Problem(
        slug="crop-spelling",
        file=file,
        line=line,
        column="crop",
        found=f"{name!r} beside {alike!r}; they are counted as two crops",
        expected="one spelling for one crop",
        todo=f"write {alike!r} if it is the same crop",
        level="warning",
    )
