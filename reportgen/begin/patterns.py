"""File names as season.toml can say them: signs that mean something in a pattern are put in [ ], odd ones become ?."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportgen.readings.files import matches

LONGEST = 200  # letters that season.toml takes
MANY = 6  # more files of one logger than this are named by one pattern, where one finds just them


def pattern_of(folder: Path, file: str) -> str | None:
    """A pattern that finds this file and no other; None where there is none."""
    by_sign = "".join(_sign(char, odd="?") for char in file)
    in_full = "".join(_sign(char, odd=char) for char in file)
    shortened = f"{by_sign[:80]}*{by_sign[-80:]}"
    for pattern in (by_sign, in_full, shortened):
        if can_be_written(pattern) and _finds(folder, pattern) == {file}:
            return pattern
    return None


def patterns_of(folder: Path, files: Sequence[str]) -> list[str]:
    """Patterns that find just these files: one for all where they are many and differ in the middle only."""
    single = [pattern for file in files if (pattern := pattern_of(folder, file)) is not None]
    if len(files) <= MANY:
        return single
    head = _common(files)
    tail = _common([file[len(head) :][::-1] for file in files])[::-1]
    whole = "".join(_sign(char, odd="?") for char in head) + "*" + "".join(_sign(char, odd="?") for char in tail)
    return [whole] if can_be_written(whole) and _finds(folder, whole) == set(files) else single


def _common(texts: Sequence[str]) -> str:
    """The beginning that all texts share."""
    first, last = min(texts), max(texts)
    same = next((n for n, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), min(len(first), len(last)))
    return first[:same]


def can_be_written(path: str) -> bool:
    """Whether season.toml takes this text as a path inside the folder."""
    try:
        path.encode()
    except UnicodeEncodeError:
        return False
    return len(path) <= LONGEST and "\\" not in path and ":" not in path.partition("/")[0]


def _sign(char: str, odd: str) -> str:
    """One letter of a file's name in a pattern."""
    if char in "*?[":
        return f"[{char}]"
    if "\ud800" <= char <= "\udfff":
        return char  # bytes that are no text: such a name cannot be written, nor printed on a page
    return char if char.isprintable() and char not in "\\:" else odd


def _finds(folder: Path, pattern: str) -> set[str]:
    return {name for name in matches(folder, pattern) if (folder / name).is_file()}
