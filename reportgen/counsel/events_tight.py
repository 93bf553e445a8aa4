"""What tightens the house, so that what burns in it has less air: the one rule of events, verdicts, plan and answers.

The rule, in this order. Only a lever that touches the envelope or the air can. Words that take a cover away (`tape
taken off`, `film removed`) do not tighten. Else a word of closing (tape, seal, film, curtain, closed …) does. Else a
word of opening (opened, aired, ajar …) or of what stores warmth (barrels, bricks …) does not. Else what was hoped of
it tells: less heating or warmer nights tighten; what is to dry, stir or cool the air does not. Only the words of the
line that puts it on are read, whole words alone. While a lever is off, undone or not up yet it tightens nothing; one
put up before the season tightens all of it.
"""

from __future__ import annotations

from collections.abc import Collection

from reportgen.measures.diary_words import says, words_of
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import DiaryEntry, Readings

TOUCHES = frozenset({"envelope", "air"})
HOPES = frozenset({"less heating", "warmer nights"})
TAKEN_AWAY = ("taken off", "taken down", "taken out", "taken away", "came off", "pulled off", "removed", "untaped")
UNCOVERED = ("uncovered", "unsealed", "unblocked", "cut away", "torn off")
CLOSING = frozenset(
    {"tape", "taped", "taping", "seal", "sealed", "sealing", "sealant", "caulk", "caulked", "putty", "foam", "stuffed"}
    | {"close", "closed", "closing", "shut", "blocked", "plugged", "filled", "draught", "draughts", "draft"}
    | {"film", "bubble", "polythene", "sheet", "sheeting", "glazing", "lining", "lined", "fleece", "blanket"}
    | {"curtain", "curtains", "screen", "shutter", "shutters", "cover", "covered", "insulation", "insulated"}
    | {"draughtproofed", "draughtproofing", "weatherstrip", "weatherstripping", "panel", "panels", "boards", "board"}
)
OPENING = frozenset(
    {"open", "opened", "opener", "openers", "opening", "opens", "ajar", "air", "aired", "airing", "ventilated"}
    | {"ventilation", "ventilator", "vent", "vents", "unlatched"}
)


STORING = frozenset(
    {
        "barrel",
        "barrels",
        "butt",
        "butts",
        "drum",
        "drums",
        "tank",
        "tanks",
        "jug",
        "jugs",
        "bottle",
        "bottles",
        "water",
    }
    | {"brick", "bricks", "stone", "stones", "slab", "slabs", "rocks", "gravel", "mat", "cable", "bed", "hotbed"}
)


def tightens(lever: Lever, readings: Readings) -> bool:
    """Whether the house has less air while that lever is on."""
    puts_on = _first_line(lever, readings)
    if puts_on is None:
        return shuts(lever.name, lever.touches, ())
    return shuts(puts_on.what, lever.touches, puts_on.hoped_for)


def shuts(what: str, touches: Collection[str], hoped_for: Collection[str]) -> bool:
    """The same of the words of one line, of what it touches and of what was hoped of it."""
    if not TOUCHES & set(touches):
        return False
    if any(says(what, phrase) for phrase in (*TAKEN_AWAY, *UNCOVERED)):
        return False
    words = set(words_of(what))
    if words & CLOSING:
        return True
    if words & (OPENING | STORING):
        return False
    return bool(HOPES & set(hoped_for))


def tight_levers(readings: Readings) -> tuple[Lever, ...]:
    """Every lever that tightens the house at some time of the season."""
    return tuple(lever for lever in (*readings.levers_before, *readings.levers) if tightens(lever, readings))


def _first_line(lever: Lever, readings: Readings) -> DiaryEntry | None:
    return next((entry for entry in (*readings.diary, *readings.diary_before) if entry.line == lever.lines[0]), None)
