"""Numbers in English words → figures, as far as degrees go: forty-eight point six → 48.6."""

from __future__ import annotations

import re

ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
TEENS = (
    "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"
)  # fmt: skip
SMALL = ("zero", *ONES, *TEENS)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_DIGIT = "|".join(SMALL[:10])
_SPELLED = re.compile(
    rf"\b(?:(?P<hundred>(?:a|one)[\s-]+hundred)(?:[\s-]+and)?[\s-]*)?"
    rf"(?:(?P<tens>{'|'.join(TENS)})(?:[\s-]+(?P<ones>{'|'.join(ONES)}))?|(?P<small>{'|'.join(reversed(SMALL))}))?\b"
    rf"(?:\s+point(?P<decimals>(?:[\s-]+(?:{_DIGIT}))+))?",
    re.IGNORECASE,
)


def in_figures(text: str) -> str:
    """The text with its numbers up to 199 in figures, also with decimals; all else as it is."""
    return _SPELLED.sub(_figure, text)


def _figure(found: re.Match[str]) -> str:
    if not any(found[name] for name in ("hundred", "tens", "small")):
        return found[0]
    number = 100 * bool(found["hundred"])
    for name, words, least in (("tens", TENS, 2), ("ones", ONES, 1), ("small", SMALL, 0)):
        if found[name]:
            number += (words.index(found[name].casefold()) + least) * (10 if name == "tens" else 1)
    decimals = [str(SMALL.index(word)) for word in re.findall(_DIGIT, (found["decimals"] or "").casefold())]
    tail = found[0][len(found[0].rstrip()) :]
    return f"{number}{'.' if decimals else ''}{''.join(decimals)}{tail}"
