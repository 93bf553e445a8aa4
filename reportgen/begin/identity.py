"""The id of a house: twelve random letters that say nothing of it, the same each winter."""

from __future__ import annotations

import secrets
from pathlib import Path

from reportgen.problems import SeasonError
from reportgen.season.opening import parsed, season_text

LETTERS = "bcdfghjkmnpqrstvwxz"  # without vowels they make no word, without l no figure one
LENGTH = 12
LONGEST = 64  # as season.toml takes it


def new_id() -> str:
    """Twelve letters that nobody can guess; 19 to the twelfth power, two thousand million million."""
    return "".join(secrets.choice(LETTERS) for _ in range(LENGTH))


def known_id(folders: list[Path]) -> str | None:
    """The id that one of these season folders has, the first of them that has any."""
    return next((found for folder in folders if (found := _id_in(folder)) is not None), None)


def _id_in(folder: Path) -> str | None:
    try:
        house = parsed(season_text(folder)).get("house")
    except SeasonError:
        return None
    found = house.get("id") if isinstance(house, dict) else None
    return found if isinstance(found, str) and 0 < len(found) <= LONGEST and found.isprintable() else None
