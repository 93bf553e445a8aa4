"""The registry of findings and the rules that tell them agree, and what a finding rests on is there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import reportgen.counsel
from reportgen.counsel.kinds import KINDS, kind_of

FOLDER = Path(reportgen.counsel.__file__).parent
MAKERS = {"Finding", "_finding", "harvest_finding", "finding_of", "told"}


def slugs_in_code() -> dict[str, str]:
    """Slug (an f-string by its fixed beginning) → module, of every call that makes a finding."""
    found = {}
    for path in sorted(FOLDER.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MAKERS:
                named = next((k.value for k in node.keywords if k.arg == "slug"), None)
                given = named if named is not None else (node.args[0] if node.args else None)
                if isinstance(given, ast.Constant) and isinstance(given.value, str):
                    found[given.value] = path.name
                elif isinstance(given, ast.JoinedStr) and isinstance(given.values[0], ast.Constant):
                    found[str(given.values[0].value)] = path.name
    return found


def test_the_walk_over_the_code_finds_the_rules() -> None:
    """Both ways of making a finding are seen, so that the tests below can fail."""
    found = slugs_in_code()
    assert found["nothing-wrong"] == "cross.py"
    assert found["longest-gap"] == "harvest.py"
    assert "than-last-winter-" in found and "helped-" in found


def test_every_rule_is_in_the_registry_and_every_kind_has_a_rule() -> None:
    """A kind that no module tells, or a finding that no kind describes, is a fault."""
    told = slugs_in_code()
    whole = {slug for slug in told if not slug.endswith("-")}
    begun = tuple(slug for slug in told if slug.endswith("-"))
    assert whole - set(KINDS) == set()
    assert {kind for kind in KINDS if kind not in whole and not f"{kind}-".startswith(begun)} == set()


def test_there_are_kinds_enough_over_all_pages() -> None:
    """At least twenty-five kinds, and every page of a subject has some."""
    assert len(KINDS) >= 25
    pages = {kind.page for kind in KINDS.values()}
    assert pages >= {"record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters"}


@pytest.mark.parametrize("slug", sorted(KINDS))
def test_a_kind_says_when_where_and_on_what(slug: str) -> None:
    """Words for when it is told, an anchor of its own page, and dotted paths that begin at a section."""
    kind = KINDS[slug]
    assert kind.told and kind.anchors and kind.paths
    assert all(anchor == kind.page or anchor.startswith(f"{kind.page}_") for anchor in kind.anchors)
    sections = {"record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters"}
    assert all(path.split(".")[0] in sections for path in kind.paths)


def test_the_line_of_the_diary_is_no_part_of_a_kind() -> None:
    """helped-12 is of the kind helped; a slug of no kind is refused."""
    assert kind_of("helped-12") is KINDS["helped"]
    with pytest.raises(KeyError):
        kind_of("no-such-finding")


def test_no_two_kinds_are_told_in_the_same_words() -> None:
    """Each kind is told of its own season."""
    said = [re.sub(r"\W+", " ", f"{kind.page} {kind.told}") for kind in KINDS.values()]
    assert len(said) == len(set(said))
