"""On which line of a TOML file a key stands; the standard parser does not tell."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

Path = tuple[str | int, ...]
Lines = Mapping[Path, int]

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"""^\s*((?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*'))*)\s*=""")


def _parts(dotted: str) -> tuple[str, ...]:
    return tuple(part.strip().strip("\"'") for part in dotted.split("."))


def key_lines(text: str) -> Mapping[Path, int]:
    """Line number of every table header and key, by path (`("logger", 0, "name")`); lines count from 1."""
    lines: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    table: Path = ()
    for number, line in enumerate(text.splitlines(), start=1):
        if header := _HEADER.match(line):
            table = _table(_parts(header[2]), header[1] == "[[", counts)
            lines.setdefault(table, number)
        elif key := _KEY.match(line):
            lines.setdefault((*table, *_parts(key[1])), number)
    return lines


def _table(parts: tuple[str, ...], is_array: bool, counts: dict[Path, int]) -> Path:
    """The full path of a table header: below an array of tables it belongs to the last entry."""
    path: Path = ()
    for depth, part in enumerate(parts):
        path = (*path, part)
        if is_array and depth == len(parts) - 1:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def line_of(lines: Mapping[Path, int], path: Sequence[str | int]) -> int | None:
    """The line of a path, or of the nearest table or key that holds it."""
    for length in range(len(path), 0, -1):
        if (found := lines.get(tuple(path[:length]))) is not None:
            return found
    return None


def address(path: Sequence[str | int]) -> str:
    """A path as the file writes it, entries counted from 1: `[[logger]] 2 · files`, `[place] · latitude`, `title`."""
    words: list[str] = []
    for part in path:
        if isinstance(part, int) and words:
            words[-1] = f"[[{words[-1]}]] {part + 1}" if len(words) == 1 else f"{words[-1]} {part + 1}"
        else:
            words.append(str(part))
    if len(words) > 1 and not words[0].startswith("[["):
        words[0] = f"[{words[0]}]"
    return " · ".join(words) or "(whole file)"
