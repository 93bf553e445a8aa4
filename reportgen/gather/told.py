"""What was gathered, in the words that the command prints."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.gather.houses import winter_word
from reportgen.gather.types import Group, House

MOST = 40  # lines of one list; the page of the record has all


def read_words(group: Group) -> str:
    """What was read, house by house, what was left out and why, and what the organiser should know."""
    winters = sum(len(house.winters) for house in group.houses)
    lines = [f"Read: {_count(winters, 'winter')} of {_count(len(group.houses), 'house')}."]
    lines += _shortened([_house(house) for house in group.houses])
    if group.left_out:
        lines.append(f"Left out: {_count(len(group.left_out), 'file')}.")
        lines += _shortened([f"  {one.source}: {one.reason}" for one in group.left_out])
    return "\n".join([*lines, *group.told])


def alike_words(group: Group) -> str:
    """Lines that may be one thing, to be pasted."""
    head = "These lines look alike. Put what is one thing into group.toml beside the reviews:"
    return "\n\n".join([head, *_shortened(list(group.alike))])


def _house(house: House) -> str:
    winters = ", ".join(f"{winter_word(winter)} ({winter.source})" for winter in house.winters)
    return f"  {house.label}: {winters}"


def _shortened(lines: Sequence[str]) -> list[str]:
    more = len(lines) - MOST
    return [*lines[:MOST], *([f"  and {more:,} more"] if more > 0 else [])]


def _count(number: int, of: str) -> str:
    return f"{number:,} {of}{'s' * (number != 1)}"
