"""Private names in any spelling: text folded until spellings are one, then compared by rules of whole words.

Folded are case, accents (also decomposed, or written out: Müller, Mueller), entities and percent signs of addresses,
spaces of every kind, underscores, hyphens and all other punctuation. What decides is the number of letters:

- up to two: the word exactly as it is written, alone;
- three to five: a word of its own (Aas, AAS_1, aas-bench, AasBench), or one put together with a word of the garden
  (aasbench), never a part of another (Gaas);
- six and seven: also inside a longer word;
- eight and more: anywhere, however it is cut up.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Iterable
from functools import cached_property, lru_cache
from typing import Protocol
from urllib.parse import unquote

INSIDE, ANYWHERE = 6, 8  # letters from which a name counts within a word, and across words
FEWEST = 3  # letters from which a name is compared folded; below, articles and units would be taken for it
GARDEN = (
    "air|bed|bench|door|east|farm|field|frame|garden|glasshouse|greenhouse|grow|gh|hothouse|house|humidity|"
    "indoor|indoors|inside|log|logger|loggers|north|outdoor|outdoors|outside|plot|polytunnel|probe|road|"
    "sensor|shed|soil|south|street|temp|temperature|tunnel|village|weather|west|winter|yard"
)
LETTERS = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i", "ħ": "h", "ŋ": "n"}
)
WRITTEN_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe", "æ": "ae"})
PARTS = re.compile(r"[,;/()|]+")
UNSEEN = {"Mn", "Cf"}  # accents that follow their letter; soft hyphens and joiners
HUMP = re.compile(r"(?<=[^\W\d_A-Z])(?=[A-Z])|(?<=[^\W\d_])(?=\d)|(?<=\d)(?=[^\W\d_])")
NO_WORD = re.compile(r"[\W_]+")


def _bare(text: str) -> str:
    """Entities and addresses read, accents and unseen signs gone; capitals still there."""
    if "%" in text:
        text = unquote(text, errors="ignore")
    if "&" in text:
        text = html.unescape(html.unescape(text))
    if text.isascii():
        return text
    return "".join(sign for sign in unicodedata.normalize("NFKD", text) if unicodedata.category(sign) not in UNSEEN)


def words_of(text: str) -> str:
    """The folded words of a text with one space between them; a hump (AasBench) and a figure (aas1) begin a word."""
    humps = HUMP.sub(" ", _bare(text))
    return NO_WORD.sub(" ", humps.casefold().translate(LETTERS)).strip()


@lru_cache(maxsize=8)  # one page is searched for every name in turn
def squeezed(text: str) -> str:
    """The folded letters and figures of a text with nothing between them."""
    return NO_WORD.sub("", _bare(text).casefold().translate(LETTERS))


class Private(Protocol):
    """Something that may not leave the house."""

    name: str

    def told_in(self, text: str) -> bool:
        """Whether a text gives it away."""


class PrivateName:
    """One name that may not leave the house, in all its spellings."""

    def __init__(self, name: str) -> None:
        self.name = name.strip()
        composed = unicodedata.normalize("NFKC", html.unescape(self.name))
        spellings = [composed, composed.casefold().translate(WRITTEN_OUT)]
        if len(short := re.sub("(?<=[aou])e", "", squeezed(composed))) >= INSIDE:
            spellings.append(short)  # Mueller is Müller
        self._spellings = dict.fromkeys(words_of(spelling) for spelling in spellings)
        self._glued = {spelling.replace(" ", "") for spelling in self._spellings}

    @property
    def searchable(self) -> bool:
        """Whether there is a letter or figure to look for."""
        return bool(min(self._glued, key=len))

    def within(self, text: str) -> bool:
        """Whether the letters stand in it at all, also inside another word: for names that can be replaced."""
        if self._tiny:
            return self._as_written(text)
        plain = squeezed(text)
        return any(glued in plain for glued in self._glued)

    def told_in(self, text: str) -> bool:
        """Whether a text names it, by the rules above."""
        if not self.within(text):
            return False
        return self._tiny or bool(self._pattern.search(words_of(text)))

    @property
    def _tiny(self) -> bool:
        return len(max(self._glued, key=len)) < FEWEST

    def _as_written(self, text: str) -> bool:
        words = NO_WORD.split(unicodedata.normalize("NFKC", html.unescape(text)))
        return unicodedata.normalize("NFKC", self.name) in words

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        return re.compile("|".join(form for spelling in self._spellings for form in _forms(spelling)))


def _forms(words: str) -> Iterable[str]:
    """Patterns on folded words (words_of), by the number of letters."""
    glued = words.replace(" ", "")
    joined = words.replace(" ", " ?")  # its own words together or apart
    if len(glued) < FEWEST:
        return
    yield f"(?<![^ ]){joined}(?![^ ])"
    yield f"(?<![^ ])(?!(?:{GARDEN})(?![^ ]))(?:{GARDEN})*{joined}(?:{GARDEN})*(?![^ ])"
    if len(glued) >= INSIDE:
        yield joined
        yield f"(?<![^ ]){' ?'.join(glued)}(?![^ ])"
    if len(glued) >= ANYWHERE:
        yield " ?".join(glued)


def parts_of(name: str) -> tuple[str, ...]:
    """A name and, where commas or brackets divide it (Quarry End, Northmoor), each of its parts."""
    return tuple(dict.fromkeys(part.strip() for part in (name, *PARTS.split(name)) if part.strip()))
