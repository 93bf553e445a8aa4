"""Every slug that the season and reading floors write is in the registry, and none is there for nothing."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import reportgen
from reportgen.readings import slugs

ROOT = Path(reportgen.__file__).parent
OTHERS = {"utf-8", "utf-16", "cp1252", "utf-8-sig", "utf-16-le", "utf-16-be"}  # encodings
OTHERS |= {"table-row", "table-cell", "covered-table-cell"}  # elements of the OpenDocument format
SLUG = re.compile(r"[a-z]+(-[a-z0-9]+)+|impossible|interpolated|sentinel|stuck|jump|repeated|saturated")


def _written() -> set[str]:
    """Strings of the code that look like a slug, in calls and tuples of the two floors and of what opens files."""
    found: set[str] = set()
    for folder in (ROOT / "season", ROOT / "readings", ROOT):
        for path in folder.glob("disk.py" if folder == ROOT else "*.py"):
            if path.name == "slugs.py":
                continue
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Constant) and isinstance(node.value, str) and SLUG.fullmatch(node.value):
                    found.add(node.value)
    return found


def test_no_slug_is_written_that_is_not_registered() -> None:
    """A slug in a Problem or Finding that the registry does not know fails here."""
    assert _written() - OTHERS - set(slugs.SLUGS) == set()


def test_every_registered_slug_is_written_somewhere() -> None:
    """A slug that no code writes has no place in the registry."""
    assert set(slugs.SLUGS) - _written() == set()


def test_every_meaning_is_one_line() -> None:
    """Each slug is explained in one line that ends with a full stop."""
    assert all(words.endswith(".") and "\n" not in words and len(words) < 110 for words in slugs.SLUGS.values())
