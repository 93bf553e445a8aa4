"""The report's own words: a place that is called by one of them is not told by the pages that use it."""

from __future__ import annotations

import ast
import calendar
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from reportgen.site.resources import templates

TEMPLATES = (".html", ".css", ".js", ".txt", ".md")


@cache
def own_words() -> str:
    """Every text that stands in this package and every name of the calendar. Read only once a private name was found in
    a page, to see whose word it is."""
    root = Path(__file__).parents[1]
    files = sorted(path for path in templates().rglob("*") if path.suffix in TEMPLATES)
    texts = [path.read_text(encoding="utf-8") for path in files]
    texts += [text for path in sorted(root.rglob("*.py")) for text in _texts(path)]
    return "\n".join([*texts, *calendar.month_name, *calendar.month_abbr, *calendar.day_name, *calendar.day_abbr])


def _texts(path: Path) -> Iterator[str]:
    """The texts of one module without its docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    alone = {node.value for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in alone:
            yield node.value
