"""What a line of the diary says of fire or fumes, by a small list of whole words. Never more than the line says.

Read are lines of the kind *event*, with their notes: a change or an idea tells what was meant, upkeep what was cleaned.
A word within two words behind *no*, *not*, *never* or *nearly* does not count.

- A cut-out or a residual-current switch that tripped: a word of tripping, and the word for such a switch.
- Something on or near a heater: a word of touching, then within three words the heater, its grille or its name.
- Smoke, scorching, fumes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from reportgen.measures.diary_words import says, words_of
from reportgen.readings.types import DiaryEntry

TRIPPED = "a cut-out or a switch tripped"
TOO_NEAR = "something lay on or near a heater"
SMOKE = "the diary speaks of smoke, scorching or fumes"
DENIED = frozenset({"no", "not", "never", "nearly", "almost", "without"})
TRIPS = frozenset({"trip", "trips", "tripped", "tripping"})
SWITCHES = ("cut out", "cutout", "residual current", "rcd", "gfci", "earth leakage", "breaker", "safety switch", "fuse")
AGAINST = frozenset({"against", "touching", "touched", "near", "onto", "over", "across", "beside"})
LAY_ON = frozenset(
    {"fell", "fallen", "slipped", "slid", "lay", "lying", "hung", "hanging", "draped", "dropped", "blown"}
)
HEATERS = frozenset({"heater", "heaters", "grille", "grill", "stove", "burner", "radiator", "element"})
SMOKES = frozenset(
    {"smoke", "smoked", "smoking", "smouldered", "smouldering", "scorched", "singed", "charred", "melted", "fumes"}
    | {"soot", "sooty"}
)
WITHIN = 3  # words between the word of touching and the heater


def hazard_of(entry: DiaryEntry, heaters: Iterable[str] = ()) -> str | None:
    """What the line says of fire or fumes, or None.

    Args:
        heaters: Names of the heaters, as in season.toml.
    """
    if entry.kind != "event":
        return None
    words = [*words_of(entry.what), "", *words_of(entry.note)]
    if _stands(words, TRIPS) and any(says(f"{entry.what} {entry.note}", name) for name in SWITCHES):
        return TRIPPED
    if _near_a_heater(words, heaters):
        return TOO_NEAR
    return SMOKE if _stands(words, SMOKES) else None


def _stands(words: Sequence[str], wanted: frozenset[str]) -> bool:
    """Whether one of the words stands there and is not denied by one of the two before it."""
    return any(word in wanted and not DENIED & set(words[max(i - 2, 0) : i]) for i, word in enumerate(words))


def _near_a_heater(words: Sequence[str], heaters: Iterable[str]) -> bool:
    named = HEATERS | {told[-1] for name in heaters if (told := words_of(name))}
    lay = _stands(words, LAY_ON)
    for i, word in enumerate(words):
        touches = word in AGAINST or (word == "on" and lay)
        if touches and not DENIED & set(words[max(i - 2, 0) : i]) and named & set(words[i + 1 : i + 1 + WITHIN]):
            return True
    return False
