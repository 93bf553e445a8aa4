"""Words of strangers as they may be kept: on one line, and nothing in them that a page or a terminal obeys."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable

JOINERS = "\u200c\u200d"  # they belong to words of some scripts, and to pictures
# Unicode: controls, signs without a shape (they turn the direction of reading), halves of a sign, signs of nobody.
OBEYED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
MARKS = 4  # accents on one letter; Vietnamese takes two, written Hebrew with its chant three (from memory)
_OVER = "\u0300-\u036f\u0483-\u0489\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f"  # set over the letter before
_PILES = re.compile(f"[{_OVER}]{{{MARKS + 1},}}")


def on_one_line(text: str) -> str:
    """The text on one line, without what a page or a terminal would obey and without towers of accents."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    spaced = " ".join(text.split())
    kept = "".join(sign for sign in spaced if sign in JOINERS or unicodedata.category(sign) not in OBEYED)
    return " ".join(_PILES.sub(lambda pile: pile[0][:MARKS], kept).split())


def hidden(names: Iterable[str]) -> Callable[[str], str]:
    """What takes these names of loggers and files out of words of a review: they may be that of a place."""
    known = sorted({name for name in names if name.strip()}, key=len, reverse=True)
    if not known:
        return lambda text: text
    listed = "|".join(re.escape(name) for name in known)
    pattern = re.compile(rf"(?:(?<=for )|(?<=of )|(?<=, )|“)(?:{listed})(?!\w)”?")
    return lambda text: pattern.sub("a logger", text)


def folded(text: str) -> str:
    """Words as they are compared: without case, doubled spaces and the ways in which one letter can be written."""
    return " ".join(unicodedata.normalize("NFKC", text).split()).casefold()


def told(source: str) -> str:
    """A file's name as it may be printed: one line, odd bytes as \\xe4."""
    return on_one_line(source.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace"))
