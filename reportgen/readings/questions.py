"""What the grower asks: each question led to its subject, or to the diary line it is about."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.problems import Problem
from reportgen.readings.diary_lines import alike, listed, meant
from reportgen.readings.lever_types import Asked, Lever
from reportgen.readings.types import DiaryEntry
from reportgen.season import Season
from reportgen.season.models import TOPICS, Question

EXPECTED = f"the date or the words of a line of the diary, or one of: {', '.join(TOPICS)}"


def questions(
    season: Season, diary: Sequence[DiaryEntry], levers: Sequence[Lever]
) -> tuple[tuple[Asked, ...], list[Problem]]:
    """Every question with what it is about, and a problem for each that is about nothing, or about two things."""
    asked: list[Asked] = []
    problems: list[Problem] = []
    for number, question in enumerate(season.questions, start=1):
        topic = question.about.strip().lower()
        lines = [] if topic in TOPICS else _lines(question.about.strip(), diary, levers)
        if topic in TOPICS or len(lines) == 1:
            line = lines[0].line if lines else None
            asked.append(Asked(ask=question.ask, topic=None if lines else topic, line=line))
        else:
            problems.append(_problem(number, question, lines, diary))
    return tuple(asked), problems


def _lines(about: str, diary: Sequence[DiaryEntry], levers: Sequence[Lever]) -> list[DiaryEntry]:
    """One line a thing: of lines that are one lever the first; what sets something goes before what is only noted."""
    named = meant(about, diary)
    lever_of = {line: number for number, lever in enumerate(levers) for line in lever.lines}
    first: dict[int, DiaryEntry] = {}
    for entry in named:
        if entry.line in lever_of:
            first.setdefault(lever_of[entry.line], entry)
    return list(first.values()) or named


def _problem(number: int, question: Question, lines: Sequence[DiaryEntry], diary: Sequence[DiaryEntry]) -> Problem:
    near = alike(question.about, diary, TOPICS)
    todo = f"did you mean {near!r}?" if near else "write the date of the line it is about, as in the diary"
    found = f"{question.about!r}, which no line of the diary has"
    if lines:
        found, todo = (
            f"{question.about!r}, which is more than one: {listed(lines)}",
            "write the words of the one you mean",
        )
    elif not diary:
        found = f"{question.about!r}, and no diary is kept"
    return Problem(
        slug="question-about-nothing",
        file="season.toml",
        column=f"[[question]] {number} · about",
        found=found,
        expected=EXPECTED,
        todo=todo,
    )
