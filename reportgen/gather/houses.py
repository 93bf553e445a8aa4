"""Winters → houses: one id through the years is one house; letters for those that give no name; nothing read twice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import count, pairwise

from reportgen.gather.texts import folded
from reportgen.gather.types import House, Winter
from reportgen.problems import Problem

OTHER_FLOOR = 1.1  # times the other winter's floor: measured anew, or another house; our choice
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def winter_word(winter: Winter) -> str:
    """The winter by its years: 2025–26; of a season within one year that year alone."""
    first, last = winter.first_day.year, winter.last_day.year
    return str(first) if first == last else f"{first}–{last % 100:02d}"


def houses_of(winters: Sequence[Winter]) -> tuple[tuple[House, ...], tuple[str, ...]]:
    """The houses, those with a name before those without, and what the organiser should know of how they were told
    apart."""
    groups = [sorted(group, key=_in_time) for group in _joined(winters)]
    named = [group for group in groups if _label(group) is not None]
    nameless = sorted((group for group in groups if _label(group) is None), key=_by_cold)
    told: list[str] = []
    labels = _distinct(named, told)
    letters = _letters({folded(label) for label in labels})
    found = [House(label=label, winters=tuple(group)) for label, group in zip(labels, named, strict=True)]
    found.sort(key=lambda house: _natural(house.label))
    found += [House(label=next(letters), winters=tuple(group)) for group in nameless]
    told += [words for house in found if (words := _perhaps_two(house)) is not None]
    told += _not_joined(found)
    return tuple(found), tuple(told)


def read_twice(winters: Sequence[Winter]) -> list[Problem]:
    """A problem for each winter of one house that was read from two files."""
    by_house: dict[str, list[Winter]] = {}
    for winter in winters:
        if (key := _key(winter)) is not None:
            by_house.setdefault(key, []).append(winter)
    problems = [
        _twice(earlier, later)
        for group in by_house.values()
        for earlier, later in pairwise(sorted(group, key=_in_time))
        if later.first_day <= earlier.last_day
    ]
    known = {problem.file for problem in problems}
    return problems + [problem for problem in _same_twice(winters) if problem.file not in known]


def _same_twice(winters: Iterable[Winter]) -> Iterator[Problem]:
    """Files that say the very same, whatever house they are of."""
    seen: dict[Winter, Winter] = {}
    for winter in winters:
        bare = replace(winter, source="")
        if bare in seen:
            yield _twice(seen[bare], winter)
        else:
            seen[bare] = winter


def _twice(one: Winter, other: Winter) -> Problem:
    days = f"{one.first_day} to {one.last_day} and {other.first_day} to {other.last_day}"
    return Problem(
        slug="winter-twice",
        file=other.source,
        found=f"the winter that {one.source} tells too: the same house, {days}",
        expected="each winter of a house once",
        todo=f"take one of the two out: {one.source} or {other.source}{_or_two(one, other)}",
    )


def _or_two(one: Winter, other: Winter) -> str:
    if not _unlike(one, other):
        return ""
    return (
        f"; if they are two houses ({_called(one)}, {_called(other)}) whose growers chose one `id`, ask one of them "
        "for a review with another id"
    )


def _perhaps_two(house: House) -> str | None:
    """What the organiser should know of winters that one id joins, though they look like those of two houses."""
    pair = next(((one, other) for one, other in pairwise(house.winters) if _unlike(one, other)), None)
    if pair is None:
        return None
    one, other = pair
    return (
        f"One `id` joins {_called(one)} of {one.source} and {_called(other)} of {other.source} as one house. If they "
        "are two, ask one of the growers for a review with another id."
    )


def _unlike(one: Winter, other: Winter) -> bool:
    """Whether two winters of one id may be those of two houses: another name, or a floor of another size."""
    named = one.label is not None and other.label is not None and folded(one.label) != folded(other.label)
    a, b = one.floor_area_m2, other.floor_area_m2
    return named or (a is not None and b is not None and max(a, b) > OTHER_FLOOR * min(a, b))


def _called(winter: Winter) -> str:
    floor = "" if winter.floor_area_m2 is None else f", {winter.floor_area_m2:g} m²"
    return f"“{winter.label or winter.kind or 'a house'}”{floor}"


def _key(winter: Winter) -> str | None:
    """What makes two files ones of the same house; without an id only the same days under one label are."""
    if winter.house_id is not None:
        return f"id {winter.house_id}"
    if winter.label is None:
        return None
    return f"label {folded(winter.label)} {winter.first_day} {winter.last_day}"


def _joined(winters: Iterable[Winter]) -> list[list[Winter]]:
    groups: dict[str, list[Winter]] = {}
    for number, winter in enumerate(winters):
        key = winter.house_id if winter.house_id is not None else f"alone {number}"
        groups.setdefault(key, []).append(winter)
    return list(groups.values())


def _label(group: Sequence[Winter]) -> str | None:
    """The newest that any of its winters has."""
    return next((winter.label for winter in reversed(group) if winter.label is not None), None)


def _distinct(named: Sequence[Sequence[Winter]], told: list[str]) -> list[str]:
    """A label a group, made different where two houses chose the same."""
    labels = [_label(group) or "" for group in named]
    counted = Counter(folded(label) for label in labels)
    used: Counter[str] = Counter()
    found: list[str] = []
    taken = {key for key, times in counted.items() if times == 1}
    for label, group in zip(labels, named, strict=True):
        key = folded(label)
        if counted[key] > 1:
            label, key = _numbered(label, key, used, taken)
            told.append(
                f"More than one house is called “{_label(group)}”: that of {group[-1].source} is told as “{label}”."
            )
        found.append(label)
    return found


def _numbered(label: str, key: str, used: Counter[str], taken: set[str]) -> tuple[str, str]:
    while True:
        used[key] += 1
        made = f"{label} ({used[key]})"
        if folded(made) not in taken:
            taken.add(folded(made))
            return made, key


def _not_joined(houses: Iterable[House]) -> list[str]:
    alone = [house.label for house in houses if house.newest.house_id is None]
    if not alone:
        return []
    which = ", ".join(alone[:10]) + (f" and {len(alone) - 10} more" if len(alone) > 10 else "")
    return [
        f"Without an `id` under [house] of season.toml: {which}. Winters of such a house cannot be joined: each "
        "counts as a house of its own."
    ]


def _letters(taken: set[str]) -> Iterator[str]:
    """A, B, … Z, AA, AB …, without those that somebody is called by."""
    for number in count():
        letters, rest = "", number
        while rest >= 0:
            letters, rest = ALPHABET[rest % len(ALPHABET)] + letters, rest // len(ALPHABET) - 1
        if folded(letters) not in taken:
            yield letters


def _by_cold(group: Sequence[Winter]) -> tuple[bool, float, str]:
    """The coldest nights outdoors first, as the mean of its winters; those not known last."""
    known = [w.headlines.mean_night_outdoor_c for w in group if w.headlines.mean_night_outdoor_c is not None]
    return not known, sum(known) / len(known) if known else 0.0, group[0].source


def _in_time(winter: Winter) -> tuple[str, str, str]:
    return winter.first_day.isoformat(), winter.last_day.isoformat(), winter.source


def _natural(label: str) -> tuple[tuple[int, int, str], ...]:
    """Plot 7 before Plot 12."""
    parts: list[tuple[int, int, str]] = []
    word = ""
    for sign in f"{folded(label)} ":
        if word and word[-1].isdecimal() != sign.isdecimal():
            parts.append((0, int(word), "") if word.isdecimal() else (1, 0, word))
            word = ""
        word += sign
    return tuple(parts)
