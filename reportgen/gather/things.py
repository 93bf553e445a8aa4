"""The things that the houses changed, those of most houses first, each with its lines and its strata."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from reportgen.gather.group_table import ThingTable
from reportgen.gather.houses import winter_word
from reportgen.gather.naming import Named, named_lines
from reportgen.gather.strata import closes, strata_of
from reportgen.gather.types import House, Thing


def things_of(houses: Sequence[House], table: Sequence[ThingTable] = ()) -> tuple[Thing, ...]:
    """Every thing that a line counts as; what members or organiser named before what is only of one kind."""
    by_key: dict[str, list[Named]] = {}
    for named in named_lines(houses, table):
        by_key.setdefault(named.key, []).append(named)
    things = [_thing(lines) for lines in by_key.values()]
    return tuple(sorted(things, key=_weight))


def _thing(lines: Sequence[Named]) -> Thing:
    return Thing(
        name=_name(lines),
        is_kind=lines[0].is_kind,
        seals=_seals(lines),
        lines=tuple((n.house.label, winter_word(n.winter), n.line.when, n.line.what) for n in lines),
        strata=strata_of(lines),
    )


def _name(lines: Iterable[Named]) -> str:
    """The spelling that most lines have; of equals the first."""
    return Counter(named.name for named in lines).most_common(1)[0][0]


def _seals(lines: Iterable[Named]) -> bool:
    """Any line that puts it on closes the house."""
    return any(closes(named.line) for named in lines if named.line.undoes is None)


def _weight(thing: Thing) -> tuple[bool, int, str]:
    return thing.is_kind, -len({house for house, *_ in thing.lines}), thing.name.casefold()
