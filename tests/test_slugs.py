"""Every slug that code raises is explained in README.md, and README.md explains no other."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import reportgen
from reportgen.readings.slugs import SLUGS

ROOT = Path(reportgen.__file__).parent
README = Path(__file__).parents[1] / "README.md"
READING = ("season", "readings")  # floors whose slugs stand in readings/slugs.py
ABOVE = ("inspection", "begin", "site")  # a slug of these is explained all the same
CALLS = {"Problem": 0, "Finding": 0, "tell": 0, "fault": 0, "_nothing": 0}  # name of the call → place of the slug


def explained() -> dict[str, str]:
    """The anchors of README's problems with their words."""
    section = README.read_text(encoding="utf-8").partition("<!-- problems -->")[2].partition("<!-- /problems -->")[0]
    parts = re.split(r"^#### (\S+)\n", section, flags=re.M)[1:]
    return {slug: words.partition("\n###")[0].strip() for slug, words in zip(parts[::2], parts[1::2], strict=True)}


def raised(floors: tuple[str, ...]) -> dict[str, str]:
    """Slugs given as plain text to a Problem, a Finding of the checks, or a helper that makes one → where."""
    found = {}
    for path in (path for floor in floors for path in (ROOT / floor).glob("*.py")):
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


def test_every_slug_that_is_raised_is_registered() -> None:
    """A problem with an unlisted name fails here, with the place that raises it."""
    assert {slug: place for slug, place in raised(READING).items() if slug not in SLUGS} == {}
    assert len(raised(READING)) > 30  # the search itself finds them


def test_readme_explains_every_slug_and_no_other() -> None:
    """One heading a slug, in both directions."""
    assert sorted(explained()) == sorted({*SLUGS, *raised(ABOVE)})


@pytest.mark.parametrize("slug", sorted(explained()))
def test_the_explanation_is_for_a_grower(slug: str) -> None:
    """At least two dozen letters, a full stop at the end, and none of the words of the trade of programs."""
    words = explained()[slug]
    assert len(words) > 24 and words.endswith(".")
    assert not re.search(r"\b(parse|parser|exception|traceback|schema|regex|NaN|null|boolean|string|array)\b", words)
