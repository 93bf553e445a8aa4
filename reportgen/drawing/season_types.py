"""What the season picture is told: plain numbers by the day, and words. Temperatures in the unit shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from reportgen.drawing.axis import Axis, Division
from reportgen.drawing.ink import Mark, Token
from reportgen.drawing.notes import Note

MOST_NAMED = 12  # diary lines that the picture names; the rest are ticks
DAILY_UNDER = 42  # days: a shorter season shows heat and harvest by the day
_RANK: dict[Mark, int] = {"helped": 0, "opposite": 0, "open": 1, "none": 2}


@dataclass(frozen=True, kw_only=True, slots=True)
class Line:
    """A line of the diary: its day (0 is the first), its date and words, and what became of it."""

    day: int
    when: str
    words: str
    mark: Mark
    verdict: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """One part of the stacked bars: its name, colour, and whether it is hatched."""

    name: str
    token: Token
    hatched: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Bar:
    """A week (or day) from its first day to the day after its last, with one amount a source."""

    first: int
    last: int
    parts: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Stacked:
    """Bars over time; `words` stand beside them, the name of the band first."""

    sources: tuple[Source, ...]
    bars: tuple[Bar, ...]
    words: tuple[str, ...]
    brief: str = ""  # column title of the tall picture

    @property
    def most(self) -> float:
        """The highest bar."""
        return max((sum(bar.parts) for bar in self.bars), default=0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Damp:
    """How damp each day was: class 0 (dry) to 3, None not known; words as in Stacked."""

    classes: tuple[int | None, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Nights:
    """The coldest air of each night by the day, inside and outdoors; None not known; `outdoors` may be empty."""

    inside: tuple[float | None, ...]
    outdoors: tuple[float | None, ...]
    axis: Axis  # its heavy value is the frost line
    notes: tuple[Note, ...] = ()  # in order of rank
    rings: tuple[tuple[int, float], ...] = ()  # nights below the line: day, value
    inside_word: str = "Inside"
    outdoors_word: str = "Outdoors"
    explained: tuple[str, ...] = ()  # a sentence a line: what is plotted, its unit, the shaded part
    title: tuple[str, ...] = ()  # of the tall picture's column


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """The whole winter on one axis of time. A part that is None is left out, not drawn empty."""

    uid: str
    label: str
    description: str
    days: int
    divisions: tuple[Division, ...]
    nights: Nights | None = None
    lines: tuple[Line, ...] = ()  # named ones, in order of day
    ticks: tuple[int, ...] = ()  # days of the lines that are not named
    more: str = ""  # how many more there are
    damp: Damp | None = None
    heat: Stacked | None = None
    picked: Stacked | None = None
    dark: tuple[tuple[int, int], ...] = ()  # stretches under ten hours of daylight: first day, day after the last
    dark_words: str = ""
    dark_brief: str = ""
    diary_word: str = "Diary"

    @property
    def daily(self) -> bool:
        """True where bars are days, not weeks."""
        return self.days < DAILY_UNDER


Part = Literal["nights", "damp", "heat", "picked"]


def named(lines: Sequence[Line], most: int = MOST_NAMED) -> tuple[tuple[Line, ...], tuple[int, ...]]:
    """The lines that the picture names (judged first, then by date), and the days of the rest."""
    order = sorted(range(len(lines)), key=lambda n: (_RANK[lines[n].mark], lines[n].day, n))
    kept = sorted(order[:most], key=lambda n: (lines[n].day, n))
    rest = sorted(lines[n].day for n in order[most:])
    return tuple(lines[n] for n in kept), tuple(rest)
