"""Short words: how many a line has, and how a line is kept to so many."""

from __future__ import annotations

import re
from collections.abc import Iterable

# A figure with its unit is one word, as is a range of two: "EUR 50 to 100", "27 to 43 %", "13 January".
_NUMBER = r"[−+]?\d[\d.,\u202f]*"
FIGURE = re.compile(rf"(?:[A-Z]{{3}}\u00a0)?{_NUMBER}(?:\u00a0[^\s,;:]+)?(?: to {_NUMBER}(?:\u00a0[^\s,;:]+)?)?")
NAME_WORDS, NAME_LETTERS = 3, 32
OPEN_ENDS = frozenset(
    {"a", "an", "the", "of", "in", "on", "at", "to", "for", "and", "or", "with", "its", "own", "under"}
)


def words_in(text: str) -> int:
    """How many words a reader meets; a figure with its unit, or a range of two, is one."""
    return len(FIGURE.sub("0", text).split())


def fitted(parts: Iterable[str], most: int, join: str = "; ") -> str:
    """The first part and as many of the following as stay within `most` words; empty ones are passed over."""
    kept: list[str] = []
    for part in parts:
        if part and (not kept or words_in(join.join([*kept, part])) <= most):
            kept.append(part)
    return join.join(kept)


def short(name: str, words: int = NAME_WORDS, letters: int = NAME_LETTERS) -> str:
    """A name in its first words, as many as there may be of words and letters; a single word too long for that ends at
    a hyphen or the like where it has one."""
    split = [word for word in re.split(r"[ \t\n]", name) if word]  # a no-break space keeps a number with its unit
    kept = split[:words]
    while len(kept) > 1 and (
        len(" ".join(kept)) > letters or (len(kept) < len(split) and kept[-1].casefold() in OPEN_ENDS)
    ):
        kept.pop()
    text = " ".join(kept).rstrip(",;:.")
    if len(text) > letters:
        joint = max(text.rfind(mark, 1, letters - 1) for mark in "-_./")
        text = text[: joint if joint > 0 else letters - 1]
    return text if text == name else f"{text}…"


# What a heater can be called so that "the" may stand before it; names of fuels that are no thing to put a hand on.
_HEATERS = frozenset(
    {"heater", "heaters", "heating", "stove", "stoves", "burner", "burners", "boiler", "radiator", "radiators", "lamp"}
    | {"lamps", "mat", "mats", "cable", "cables", "fan", "blower", "convector", "oven", "furnace", "fire", "tube"}
    | {"tubes", "rod", "rods", "pump", "candle", "candles", "lantern", "panel", "panels", "plug", "pipe", "pipes"}
)
_FUELS = frozenset(
    {"gas", "propane", "butane", "lpg", "paraffin", "kerosene", "petroleum", "oil", "diesel", "wood", "pellet"}
    | {"pellets", "logs", "coal", "charcoal", "peat", "alcohol", "ethanol", "electric", "electricity", "mains"}
)


def heater(name: str, words: int = NAME_WORDS) -> str:
    """A heater as it stands after *the*: gas heater of “gas”; heater “Bertha” of a name that tells no thing."""
    bare = name.casefold().replace("_", " ").split()
    if bare and all(word in _FUELS or word == "natural" for word in bare):
        return f"{name.replace('_', ' ')} heater"
    if any(word.strip(",;:.()") in _HEATERS for word in bare):
        return short(name, words)
    return f"heater “{short(name, max(words - 1, 1))}”"


def cut(text: str, most: int) -> str:
    """A sentence in its first words, where it has more than it may have."""
    if words_in(text) <= most:
        return text
    kept: list[str] = []
    for word in text.split(" "):
        if words_in(" ".join([*kept, word])) >= most:
            break
        kept.append(word)
    return f"{' '.join(kept).rstrip(',;:.')}…"


def begun(text: str) -> str:
    """Words that begin as a sentence does."""
    return text[:1].upper() + text[1:]


def lowered(text: str) -> str:
    """As within a sentence; what begins with a currency, an abbreviation or a number stays."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]
