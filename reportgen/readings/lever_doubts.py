"""Diary lines that may be one lever and do not say so: asked about, never joined."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations

from reportgen.problems import Problem
from reportgen.readings.chains import Chain
from reportgen.readings.diary_lines import listed, normal
from reportgen.readings.types import DiaryEntry

LETTERS = 4  # shorter words name no thing
# Words that say where, when or how, and what every line of the same `touches` may hold: no names of things.
NO_THINGS = frozenset(
    "about above added again air along another around away back bed beds before behind below beside between both "  # noqa: SIM905
    "bottom bought change changed close closed cold corner cover covered cut day days door down drawn east evening "
    "every first floor from front frost glass glasshouse greenhouse half hand heat heater heaters heating high house "
    "hung inside instead into keep kept last later left less light low lower made mended middle more morning mornings "
    "moved near new night nights north old once only onto open opened other outside over plants put removed right roof "
    "room second set shut side sides small south start started stood stopped switched taken than that their them then "
    "thermostat third this through took turned twice under until upper wall walls warm warmer water watering week west "
    "when while whole winter with without".split()
)


def lever_doubts(chains: Sequence[Chain], file: str) -> list[Problem]:
    """A warning for each lever that shares a thing and `touches` with an earlier one, and for two things in one."""
    found = [problem for chain in chains for problem in _two_things(chain, file)]
    asked: set[int] = set()
    for earlier, later in combinations(chains, 2):
        pair = _shared(earlier, later)
        if pair is not None and pair[1].line not in asked:
            asked.add(pair[1].line)
            found.append(_asked(*pair, file))
    return found


def _shared(earlier: Chain, later: Chain) -> tuple[DiaryEntry, DiaryEntry, str] | None:
    """The latest line of the one and the first of the other that may speak of the same thing, with its word."""
    for first in reversed(earlier.entries):
        for second in later.entries:
            if "upkeep" in (first.kind, second.kind) or not set(first.touches) & set(second.touches):
                continue
            if words := _same_thing(first, second):
                return first, second, min(words)
    return None


def _same_thing(first: DiaryEntry, second: DiaryEntry) -> set[str]:
    """The words of one thing in both; where both name their thing, that alone counts."""
    if first.thing and second.thing:
        return {first.thing} if normal(first.thing) == normal(second.thing) else set()
    return _words(first) & _words(second)


def _words(entry: DiaryEntry) -> set[str]:
    return names_of_things(f"{entry.thing} {entry.what}")


def names_of_things(text: str) -> set[str]:
    """The words of a text that may name a thing, folded and in the singular."""
    found = re.findall(r"[^\W\d_]+", text.casefold())
    return {_singular(word) for word in found if len(word) >= LETTERS and word not in NO_THINGS}


def _singular(word: str) -> str:
    return word[:-1] if len(word) > LETTERS and word.endswith("s") and not word.endswith("ss") else word


def _two_things(chain: Chain, file: str) -> Iterator[Problem]:
    named = [entry for entry in chain.entries if entry.thing]
    for entry in named[1:]:
        if normal(entry.thing) != normal(named[0].thing):
            yield Problem(
                slug="one-lever-or-two",
                file=file,
                line=entry.line,
                column="thing",
                found=f"“{entry.thing}” here and “{named[0].thing}” in {listed(named[:1])}, which are one lever",
                expected="one word for one thing",
                todo="write the same word under “thing” in both; the first is taken until then",
                level="warning",
            )


def _asked(first: DiaryEntry, second: DiaryEntry, word: str, file: str) -> Problem:
    touches = " and ".join(touch for touch in second.touches if touch in first.touches)
    return Problem(
        slug="one-lever-or-two",
        file=file,
        line=second.line,
        column="undoes",
        found=f"“{second.what}” shares “{word}” and touches {touches}, as does {listed([first])}",
        expected="“undoes” in a line that takes an earlier one back; else two things, each with its word under “thing”",
        todo=f"write {first.date} under “undoes” if this line takes that one back; if both stay, leave it as it is",
        level="warning",
    )
