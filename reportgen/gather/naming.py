"""Which thing a line of a diary is: by group.toml, by the diary's own word for it, else of which kind it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from reportgen.gather.group_table import ThingTable
from reportgen.gather.houses import winter_word
from reportgen.gather.texts import folded
from reportgen.gather.types import House, Line, Switched, Winter
from reportgen.problems import Problem

KIND = "kind\n"  # begins the key of what is grouped as a kind; no folded name holds a line break
SWITCHES, OF_A_DAY = 50, 20  # of one lever, and lines of one day, that are looked through: far more than any diary has
NO_HOPE = "no hope noted"


@dataclass(frozen=True, kw_only=True, slots=True)
class Named:
    """One line with the thing it counts as. `key` is equal for lines of one thing; `claimed`: by group.toml;
    `lever`: the lever taken back that it begins."""

    house: House
    winter: Winter
    line: Line
    key: str
    name: str
    is_kind: bool
    claimed: bool
    lever: Switched | None


def named_lines(houses: Iterable[House], things: Sequence[ThingTable]) -> Iterator[Named]:
    """Every line that sets something, with its thing; a line without `touches` of which nobody says what it is is left
    out: nothing is known of it. A line that takes another back is of that one's thing.
    """
    matcher = _Matcher(things)
    for house in houses:
        for winter in house.winters:
            yield from _of_winter(house, winter, matcher)


def _of_winter(house: House, winter: Winter, matcher: _Matcher) -> Iterator[Named]:
    own = {id(line): _of_line(line, matcher) for line in winter.lines}
    by_day: dict[str, list[Line]] = {}
    for line in winter.lines:
        by_day.setdefault(line.when.isoformat(), []).append(line)
    levers = {(lever.name, day): lever for lever in winter.levers for day in lever.entries}
    for line in winter.lines:
        named = own[id(line)]
        undone = _undone(line, by_day)
        if undone is not None and (named is None or named[2]):
            named = own[id(undone)]
        if named is not None:
            key, name, is_kind, claimed = named
            yield Named(
                house=house,
                winter=winter,
                line=line,
                key=key,
                name=name,
                is_kind=is_kind,
                claimed=claimed,
                lever=levers.get((line.what, line.when)),
            )


def claimed_twice(houses: Iterable[House], things: Sequence[ThingTable], file: str) -> list[Problem]:
    """A problem for each line that group.toml takes for two things."""
    matcher, found = _Matcher(things), {}
    for house in houses:
        for winter in house.winters:
            for line in winter.lines:
                names = matcher.names(line)
                if len(names) > 1:
                    found[folded(line.what), tuple(names)] = _twice(house, winter, line, names, file)
    return list(found.values())


def _twice(house: House, winter: Winter, line: Line, names: Sequence[str], file: str) -> Problem:
    where = f"{house.label}, {winter_word(winter)}, {line.when}"
    return Problem(
        slug="two-things-one-line",
        file=file,
        column="[[thing]] · words",
        found=f"“{line.what}” ({where}) has words of “{names[0]}” and of “{names[1]}”",
        expected="one thing a line",
        todo="write longer words, so that only one of the two meets it; or one word under `thing` in that diary",
    )


class _Matcher:
    """Words of group.toml, found as whole words side by side."""

    def __init__(self, things: Sequence[ThingTable]) -> None:
        self._phrases = [
            (thing.name, tuple(dict.fromkeys(_spaced(word) for word in (thing.name, *thing.words)))) for thing in things
        ]
        self._known: dict[str, tuple[str, ...]] = {}

    def names(self, line: Line) -> tuple[str, ...]:
        """The things whose words stand in the diary's own word for it, or, where it has none, in what was done."""
        text = _spaced(line.thing or line.what)
        if text not in self._known:
            self._known[text] = tuple(name for name, words in self._phrases if any(word in text for word in words))
        return self._known[text]


def _spaced(text: str) -> str:
    """Letters and figures of a text, folded, a space before and behind each word."""
    words = "".join(sign if sign.isalnum() else " " for sign in folded(text)).split()
    return f" {' '.join(words)} "


def _of_line(line: Line, matcher: _Matcher) -> tuple[str, str, bool, bool] | None:
    """Key, name, whether it is a kind, whether group.toml says so."""
    if names := matcher.names(line):
        return folded(names[0]), names[0], False, True
    if line.thing:
        return folded(line.thing), line.thing, False, False
    if not line.touches:
        return None
    hope = line.hoped_for[0] if line.hoped_for else NO_HOPE
    name = f"{' and '.join(line.touches)}: {hope}"
    return f"{KIND}{' '.join(sorted(line.touches))}\n{hope}", name, True, False


def _undone(line: Line, by_day: Mapping[str, Sequence[Line]]) -> Line | None:
    """The line that this one takes back, and if that took one back too, the first of all: each of its day, touching
    the same; the last of that day where there are several."""
    found, seen = line, {id(line)}
    for _ in range(SWITCHES):
        of_day = [other for other in by_day.get(found.undoes or "", ())[-OF_A_DAY:] if id(other) not in seen]
        touching = [other for other in of_day if set(other.touches) & set(found.touches)] or of_day
        if not touching:
            break
        found = touching[-1]
        seen.add(id(found))
    return None if found is line else found
