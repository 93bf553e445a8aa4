"""Diary lines of several houses that look alike and are not said to be one thing, as text for group.toml."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence

from reportgen.gather.group_table import ThingTable
from reportgen.gather.houses import winter_word
from reportgen.gather.naming import Named, named_lines
from reportgen.gather.texts import folded
from reportgen.gather.types import House

MOST = 30  # lines of one [[thing]]: more are no longer looked through by anybody


def alike_lines(houses: Sequence[House], table: Sequence[ThingTable] = ()) -> tuple[str, ...]:
    """A `[[thing]]` for each word that lines of two houses or more share, beside what they touch."""
    open_lines = [n for n in named_lines(houses, table) if not n.claimed and n.line.undoes is None]
    by_word: dict[str, list[Named]] = {}
    for named in open_lines:
        for word in _words(named):
            by_word.setdefault(word, []).append(named)
    found: list[str] = []
    used: set[int] = set()
    for word, lines in sorted(by_word.items(), key=lambda item: (-_houses(item[1]), item[0])):
        left = [named for named in lines if id(named) not in used]
        if _houses(left) > 1 and (any(n.is_kind for n in left) or len({n.key for n in left}) > 1):
            used |= {id(named) for named in left}
            found.append(_table(word, left))
    return tuple(found)


def _houses(lines: Iterable[Named]) -> int:
    return len({named.house.label for named in lines})


def _words(named: Named) -> set[str]:
    from reportgen.readings.lever_doubts import names_of_things  # late: it brings pandas

    return names_of_things(f"{named.line.thing or ''} {named.line.what}")


def _table(word: str, lines: Sequence[Named]) -> str:
    told = [f"# {n.house.label}, {winter_word(n.winter)}: {n.line.what}" for n in lines[:MOST]]
    if len(lines) > MOST:
        told.append(f"# and {len(lines) - MOST} more")
    named = [n.line.thing for n in lines if n.line.thing]
    phrases = dict.fromkeys(folded(n.line.thing or n.line.what) for n in lines)
    words = ", ".join(json.dumps(phrase, ensure_ascii=False) for phrase in phrases)
    name = json.dumps(named[0] if named else word, ensure_ascii=False)
    return "\n".join([*told, "[[thing]]", f"name  = {name}", f"words = [{words}]"])
