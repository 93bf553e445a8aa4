"""Every kind of problem that code tells is explained in explanations.md, once, and no other is."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

import reportgen
from reportgen import limits
from reportgen.cli import main
from reportgen.explained import FILE, LIMITED, explanations, sections
from reportgen.limits import Limit

ROOT = Path(reportgen.__file__).parent
FLOORS = ("season", "readings", "inspection", "begin", "site", "gather")
CALLS = {"Problem": 0, "CheckFinding": 0, "tell": 0, "fault": 0, "nothing": 0}  # name of the call → place of the slug
READING = ("season", "readings")  # floors in which every word with hyphens is a slug, or one of these:
OTHERS = {"utf-8", "utf-16", "cp1252", "utf-8-sig", "utf-16-le", "utf-16-be"}  # encodings
OTHERS |= {"table-row", "table-cell", "covered-table-cell"}  # elements of the OpenDocument format
SLUG = re.compile(r"[a-z]+(-[a-z0-9]+)+|impossible|interpolated|sentinel|stuck|jump|repeated|saturated")


def constants(floors: tuple[str, ...]) -> set[str]:
    """Strings of those floors, and of what opens files, that look like a slug."""
    paths = [ROOT / "disk.py", *(path for floor in floors for path in (ROOT / floor).glob("*.py"))]
    nodes = (node for path in paths for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    return {text for text in texts if SLUG.fullmatch(text)}


def raised() -> dict[str, str]:
    """Slugs given as plain text to a Problem, a CheckFinding, or a helper that makes one → where."""
    found = {}
    for path in (path for floor in FLOORS for path in (ROOT / floor).glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and (slug := _slug_of(node)) is not None:
                found[slug] = f"{path.relative_to(ROOT)}:{node.lineno}"
    return found


def _slug_of(call: ast.Call) -> str | None:
    name = getattr(call.func, "id", getattr(call.func, "attr", ""))
    given = next((k.value for k in call.keywords if k.arg == "slug"), None)
    if given is None and name in CALLS and call.args:
        given = call.args[CALLS[name]]
    if name in CALLS and isinstance(given, ast.Constant) and re.fullmatch(r"[a-z0-9-]+", str(given.value)):
        return str(given.value)
    return None


def test_every_kind_that_is_told_is_explained() -> None:
    """A problem with an unexplained name fails here, with the place that raises it."""
    assert {slug: place for slug, place in raised().items() if slug not in explanations()} == {}
    assert len(raised()) > 30  # the search itself finds them
    assert constants(READING) - OTHERS - set(explanations()) == set()


def test_every_kind_that_is_explained_is_told_somewhere() -> None:
    """An explanation of a kind that no code tells has no place in the file."""
    assert set(explanations()) - constants(FLOORS) == set()


def test_each_is_explained_once() -> None:
    """No heading stands twice, and every section has kinds."""
    headings = re.findall(r"^### (\S+)", FILE.read_text(encoding="utf-8"), re.M)
    assert len(headings) == len(set(headings)) == len(explanations())
    assert all(sections().values())


@pytest.mark.parametrize("slug", sorted(explanations()))
def test_the_explanation_is_for_a_grower(slug: str) -> None:
    """At least two dozen letters, a full stop at the end, and none of the words of the trade of programs."""
    words = explanations()[slug]
    assert len(words) > 24 and (words.endswith(".") or slug == LIMITED)
    assert not re.search(r"\b(parse|parser|exception|traceback|schema|regex|NaN|null|boolean|string|array)\b", words)


def test_too_much_lists_every_limit() -> None:
    """Each of limits.py, in its own words."""
    every = [value for value in vars(limits).values() if isinstance(value, Limit)]
    assert len(every) > 20
    assert [limit.words for limit in every if limit.words not in explanations()[LIMITED]] == []


def explain(*words: str) -> tuple[int, str]:
    """Exit code and all that was printed."""
    done = CliRunner().invoke(main, ["explain", *words], catch_exceptions=False)
    return done.exit_code, " ".join(done.output.split())


def test_explain_prints_the_words_of_the_file() -> None:
    """With or without the brackets in which inspect prints it; a list of all; the nearest for a slip of the pen."""
    words = " ".join(explanations()["day-or-month"].split())
    assert explain("day-or-month") == explain("[day-or-month]") == (0, f"day-or-month {words}")
    code, listed = explain()
    assert code == 0 and all(slug in listed for slug in explanations())
    code, told = explain("day-of-month")
    assert code == 2 and "day-or-month" in told
    assert explain("\x1b[31mred")[0] == 2
