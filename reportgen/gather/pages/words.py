"""Names and short words of the group's pages: what strangers wrote is cut, kept from turning lines around, and escaped
where it is printed."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

from reportgen.counsel.brief import begun
from reportgen.drawing.pen import isolated
from reportgen.drawing.widths import shorten, width_of
from reportgen.gather.types import Group, House, Winter
from reportgen.wording import NBSP, Wording, count, listed, number

NAME_ROOM = 190.0  # units of a name in a sentence, at 14 a letter: about 24 letters
THING_ROOM = 330.0
END_SHARE = 0.4  # of a name's room, for its last words
NONE_FOUND = "none in the record"  # as a review words it that no heater failed
UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Zl", "Zp"})
JOINERS = "\u200c\u200d"  # words of some scripts, and some pictures, need them
MOST_NAMES = 6  # in a sentence
WORD = {0: "none", 1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}


def wording(group: Group) -> Wording:
    """How the group's pages print quantities; money has its own currency in each house."""
    return Wording(us=group.show == "us", currency="")


def plain_words(words: str) -> str:
    """A stranger's words on one line, without what is not seen: control characters and marks that turn lines around."""
    kept = "".join(c if c in JOINERS or unicodedata.category(c) not in UNSEEN else " " for c in words)
    return " ".join(kept.split())


def plain_text(text: str) -> str:
    """A stranger's text of several lines, without what is not seen."""
    return "\n".join(plain_words(line) if line.strip() else "" for line in text.splitlines())


def cut_name(label: str, room: float = NAME_ROOM) -> str:
    """A house's name for a picture, cut by measured width in its middle: houses of one garden often begin alike. The
    pen keeps it from turning a line around."""
    words = plain_words(label)
    end = _end(words, room * END_SHARE) if width_of(words, 14) > room else ""
    if not end:
        return shorten(words, 14, room) or "a house without a name"
    return f"{shorten(words.removesuffix(end), 14, room - width_of(f' {end}', 14))} {end}"


def _end(words: str, room: float) -> str:
    """The last words that fit into the room, fewer than all; '' where the last one does not."""
    kept = ""
    for word in reversed(words.split(" ")[1:]):
        longer = f"{word} {kept}".rstrip()
        if width_of(longer, 14) > room:
            break
        kept = longer
    return kept


def name_of(label: str, room: float = NAME_ROOM) -> str:
    """A house's name for a sentence."""
    return isolated(cut_name(label, room))


def cut_thing(name: str, room: float = THING_ROOM) -> str:
    """A thing's name for a picture."""
    return shorten(plain_words(name), 14, room) or "a thing without a name"


def thing_of(name: str, room: float = THING_ROOM) -> str:
    """A thing's name for a sentence."""
    return isolated(cut_thing(name, room))


def named(labels: Iterable[str], most: int = MOST_NAMES) -> str:
    """Plot 2, Plot 5 and 3 more."""
    return listed([name_of(label) for label in labels], most)


def whole(words: str) -> str:
    """A stranger's words in full, for a table; – where there are none."""
    return isolated(plain_words(words)) or "–"


def in_words(n: int) -> str:
    """One to nine in letters, more in figures."""
    return WORD.get(n, number(n))


def houses(n: int) -> str:
    """1 house, 2 houses."""
    return count(n, "house")


def winter_name(winter: Winter) -> str:
    """2025–26; 2026 where it ends in the year in which it began."""
    first, last = winter.first_day.year, winter.last_day.year
    return str(first) if first == last else f"{first}–{last % 100:02d}"


def unbroken(words: str) -> str:
    """2025–26 for a table's cell: the line is not broken behind the dash."""
    return words.replace("–", "–\u2060")


def kind_of(winter: Winter) -> str:
    """Heated polytunnel; unheated house; a house of which nothing is told."""
    what = shorten(plain_words(winter.kind or "").casefold(), 14, NAME_ROOM) or "house"
    if winter.heated is None:
        return begun(f"{what}, heating not said") if winter.kind else "Kind not said"
    return begun(f"{'heated' if winter.heated else 'unheated'} {what}")


def kept_private(winter: Winter, *paths: str) -> bool:
    """Whether the review says of a figure, by the beginning of its path, that it stays in the house."""
    return any(path.startswith(paths) and "private" in words for path, words in winter.headlines.reasons)


def no_outdoors(winter: Winter) -> bool:
    """Whether nothing outdoors is on record: reviews of older releases do not tell the nights, but judged changes."""
    if winter.headlines.mean_night_outdoor_c is not None:
        return False
    return not any(one.effect is not None for line in winter.lines for one in line.outcomes)


def by_label(group: Group) -> dict[str, House]:
    """Every house by its name."""
    return {house.label: house for house in group.houses}


def range_words(values: Sequence[float], digits: int, unit: str) -> str:
    """0.8 to 3.1 kg; 0.8 kg where all are printed alike."""
    low, high = number(min(values), digits), number(max(values), digits)
    return f"{low}{NBSP}{unit}" if low == high else f"{low} to {high}{NBSP}{unit}"
