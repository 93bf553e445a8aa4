"""Whole words by which a line of the diary speaks of the heat. Nothing more is read into a line than it says."""

from __future__ import annotations

import re
from collections.abc import Iterable

from reportgen.readings.types import DiaryEntry

HEAT = frozenset(
    {"heat", "heating", "heated", "heater", "heaters", "boiler", "burner", "stove", "radiator", "thermostat", "gas"}
    | {"plug", "socket", "fuse", "power", "electricity", "mains", "current", "breaker", "switch", "bottle", "cylinder"}
    | {"paraffin", "kerosene", "pellets", "propane", "pilot", "furnace"}
)
_WORD = re.compile(r"[^\W\d_]+")


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text, folded, in order; `cut-out` is two of them."""
    return tuple(_WORD.findall(text.casefold()))


def says(text: str, phrase: str) -> bool:
    """Whether the words of a phrase stand in a text side by side, as whole words."""
    inside, wanted = words_of(text), words_of(phrase)
    spots = range(len(inside) - len(wanted) + 1)
    return bool(wanted) and any(inside[i : i + len(wanted)] == wanted for i in spots)


def speaks_of_heat(entry: DiaryEntry, names: Iterable[str] = ()) -> bool:
    """Whether a line, with its note, has a word of heating or the name of a heater, or touches the heat."""
    text = f"{entry.what} {entry.note}"
    named = any(says(text, name) for name in names)
    return named or bool(HEAT & set(words_of(text))) or bool({"heater", "thermostat"} & set(entry.touches))
