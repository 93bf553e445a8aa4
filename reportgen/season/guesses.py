"""The guesses that `begin` lists at the top of season.toml, until the grower has looked and deleted the list."""

from __future__ import annotations

from pathlib import Path

from reportgen.season.opening import FILE

HEAD = "# Not sure of, please look:"
ITEM = "#   "  # begins a guess; a guess that runs on is indented further


def guesses_left(folder: Path) -> int:
    """How many guesses stand in the folder's season.toml; 0 where there is no such list or no such file."""
    try:
        lines = (folder / FILE).read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError):
        return 0
    if HEAD not in lines:
        return 0
    count = 0
    for line in lines[lines.index(HEAD) + 1 :]:
        if not line.startswith(ITEM):
            break
        count += not line.startswith(f"{ITEM} ")
    return count
