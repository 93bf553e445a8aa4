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
    """For each word that lines of two houses or more share: a `[[thing]]` of those that group.toml does not know, or,
    where it knows some of them, what to add to its words."""
    by_word: dict[str, list[Named]] = {}
    for named in named_lines(houses, table):
        if named.line.undoes is None:
            for word in _words(named):
                by_word.setdefault(word, []).append(named)
    found: list[str] = []
    used: set[int] = set()
    for word, lines in sorted(by_word.items(), key=lambda item: (-_houses(item[1]), item[0])):
        known = tuple(dict.fromkeys(named.name for named in lines if named.claimed))
        left = [named for named in lines if not named.claimed and id(named) not in used]
        if left and _houses(lines) > 1 and (known or _open(left)):
            used |= {id(named) for named in left}
            found.append(_addition(known, left) if known else _table(word, left))
    return tuple(found)


def _open(lines: Sequence[Named]) -> bool:
    """Whether lines of two houses or more are not yet one thing."""
    return _houses(lines) > 1 and (any(n.is_kind for n in lines) or len({n.key for n in lines}) > 1)


def _houses(lines: Iterable[Named]) -> int:
    return len({named.house.label for named in lines})


def _words(named: Named) -> set[str]:
    from reportgen.readings.lever_doubts import names_of_things  # late: it brings pandas

    return names_of_things(f"{named.line.thing or ''} {named.line.what}")


def _told(lines: Sequence[Named]) -> list[str]:
    told = [f"# {n.house.label}, {winter_word(n.winter)}: {n.line.what}" for n in lines[:MOST]]
    return [*told, *([f"# and {len(lines) - MOST} more"] if len(lines) > MOST else [])]


def _phrases(lines: Iterable[Named]) -> str:
    """What group.toml knows them by, quoted."""
    phrases = dict.fromkeys(folded(n.line.thing or n.line.what) for n in lines)
    return ", ".join(json.dumps(phrase, ensure_ascii=False) for phrase in phrases)


def _table(word: str, lines: Sequence[Named]) -> str:
    named = next((n.line.thing for n in lines if n.line.thing), word)
    name = json.dumps(named, ensure_ascii=False)
    return "\n".join([*_told(lines), "[[thing]]", f"name  = {name}", f"words = [{_phrases(lines)}]"])


def _addition(known: Sequence[str], lines: Sequence[Named]) -> str:
    which = " or ".join(f"“{name}”" for name in known[:3])
    return "\n".join(
        [*_told(lines), f"# If that is {which}, add to its words in group.toml:", f"#   {_phrases(lines)}"]
    )
