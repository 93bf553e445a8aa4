"""DEVELOPERS.md names what is there: files, floors, commands."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
TOLD = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
HISTORY = "\n## Changes\n"  # what stands below tells of files that may be gone


def test_every_file_that_it_names_is_there() -> None:
    """`measures/heat_needed.py` of the package, of the tests or of the project; a bare name anywhere in the package."""
    named = set(re.findall(r"`([\w./-]+\.(?:py|md|toml|csv))`", TOLD.split(HISTORY)[0]))
    assert len(named) > 25
    made = {"ticks.csv", "rows.csv", "diary.csv", "harvest.csv"}  # of a site or a season folder

    def there(name: str) -> bool:
        if any((ROOT / base / name).is_file() for base in ("", "reportgen", "tests", "tests/studies")):
            return True
        return "/" not in name and any((ROOT / "reportgen").rglob(name))

    assert sorted(name for name in named - made if not there(name)) == []


def test_every_floor_is_in_the_table_of_floors() -> None:
    """Each layer of the import contract, by its name."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    layers = project["tool"]["importlinter"]["contracts"][0]["layers"]
    floors = {part.strip().removeprefix("reportgen.") for layer in layers for part in layer.split("|")}
    table = TOLD.split("### The floors")[1].split("\n### ")[0]
    assert sorted(floor for floor in floors if f"`{floor}" not in table) == []


def test_the_picture_fits_a_terminal_and_names_every_floor_of_the_road() -> None:
    """At most 100 columns, boxes closed on both sides."""
    picture = TOLD.split("```text\n")[1].split("```")[0].splitlines()
    assert max(map(len, picture)) <= 100
    assert all(line.count("┌") == line.count("┐") and line.count("└") == line.count("┘") for line in picture)
    road = ("season", "readings", "measures", "effects", "winters", "counsel", "charts", "drawing", "site")
    assert [floor for floor in road if floor not in "\n".join(picture)] == []
    assert "data/review.json" in "\n".join(picture)
