"""The changes that the mutation study makes, on a module of a few lines."""

from __future__ import annotations

import ast
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import SimpleNamespace

import pytest
from studies.mutants import ROOT, Row, files_for, modules_of, summary
from studies.mutations import mutated, places
from studies.watched import Ran, Watch, reaching

SOURCE = '''"""Words with 3 numbers."""

from typing import Literal

LIMIT = 2.0
Kind = Literal[1, 2]


def kept(values: list[int], least: int = 1) -> list[int] | None:
    """All of `least` and more."""
    if not values or min(values) < 0:
        return None
    return [v - 1 for v in values if v >= least and v != 7]
'''


def changes() -> dict[tuple[str, str], str]:
    return {(place.before, place.after): place.kind for place in places(SOURCE)}


def test_each_kind_of_change_is_made() -> None:
    """By hand: every comparison at its boundary and turned, the difference, the bound, the constant, the result."""
    found = changes()
    wanted = {
        ("min(values) < 0", "min(values) <= 0"): "boundary",
        ("min(values) < 0", "min(values) > 0"): "comparison",
        ("v >= least", "v > least"): "boundary",
        ("v - 1", "v + 1"): "arithmetic",
        ("min(values)", "max(values)"): "bound",
        ("2.0", "2.2"): "constant",
        ("not values", "values"): "boolean",
    }
    assert {pair: found.get(pair) for pair in wanted} == wanted
    assert ("v != 7", "v == 7") in found
    assert any(kind == "return" and after == "return None" for (_, after), kind in found.items())


def test_what_only_names_or_types_is_left_alone() -> None:
    """Annotations, Literal, docstrings and a bare None are no places."""
    assert not any("Literal" in before or "Words" in before for before, _ in changes())
    assert [before for before, _ in changes() if before == "2"] == []
    assert ("return None", "return None") not in changes()


def test_a_guard_against_nought_is_no_place() -> None:
    """A tenth more of 1e-9 changes nothing that can be seen; of 1e-5 it may."""
    assert [place.before for place in places("x = 1e-9\ny = 1e-5\nz = 0.0\n")] == ["1e-05", "0.0"]


def test_a_mutant_differs_in_that_place_alone() -> None:
    """Each is valid Python and unlike the module, no two alike."""
    plain = ast.unparse(ast.parse(SOURCE))
    made = [mutated(SOURCE, place).strip() for place in places(SOURCE)]
    assert plain not in made and len(set(made)) == len(made)
    for text in made:
        assert sum(a != b for a, b in zip(plain.splitlines(), text.splitlines(), strict=True)) == 1


def test_files_named_after_a_module_come_first() -> None:
    """`measures/dial.py` is imported by its own tests."""
    assert "dial" in modules_of("measures")
    assert "house/balance" in modules_of("measures") and "house/measured" not in modules_of("measures")
    inner, _ = files_for(ROOT, "measures", "house/balance")
    assert inner and inner[0].name == "test_balance.py"
    first, rest = files_for(ROOT, "measures", "dial")
    assert first and first[0].name.startswith("test_dial")
    assert not set(first) & set(rest)


RAN: Ran = {
    "a::slow": {"seconds": 9.0, "lines": {"m": [9, 13]}},
    "a::quick": {"seconds": 1.0, "lines": {"m": [9, 12]}},
    "a::other": {"seconds": 0.5, "lines": {"m": [9]}},
    "b::away": {"seconds": 0.1, "lines": {"n": [13]}},
}


def test_the_tests_that_run_a_line_quickest_first_and_no_longer_than_asked() -> None:
    """Of SOURCE, line 12 is the result under the condition of line 11, line 13 the other result; the constant of line 5
    is run at import, by whoever uses the module."""
    assert reaching(RAN, SOURCE, "m", 12, 60.0) == ["a::quick"]
    assert reaching(RAN, SOURCE, "m", 13, 60.0) == ["a::slow"]
    assert reaching(RAN, SOURCE, "m", 5, 60.0) == ["a::other", "a::quick", "a::slow"]
    assert reaching(RAN, SOURCE, "m", 5, 2.0) == ["a::other", "a::quick"]
    assert reaching(RAN, SOURCE, "m", 13, 0.0) == ["a::slow"]  # one at least
    assert reaching(RAN, SOURCE, "m", 11, 60.0) == []


def test_a_tests_lines_are_noted(tmp_path: Path) -> None:
    """Of a package of one module, the lines that a call runs, and of no other file."""
    package = tmp_path / "reportgen" / "p"
    package.mkdir(parents=True)
    (package / "m.py").write_text(SOURCE, "utf-8")
    spec = spec_from_file_location("m", package / "m.py")
    assert spec is not None and spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    one = Watch(package=package, ran={})
    told = one.pytest_runtest_protocol(SimpleNamespace(nodeid="a::test"))  # type: ignore[arg-type]
    next(told)
    assert module.kept([1, 2]) == [0, 1]
    assert list(told) == []
    assert set(one.ran["a::test"]["lines"]["m"]) == {9, 11, 13}


@pytest.mark.parametrize(
    ("results", "share"), [(("killed", "killed", "survived", "endless"), "75"), (("killed",), "100")]
)
def test_the_summary_counts_and_names_survivors(results: tuple[str, ...], share: str) -> None:
    """Endless counts as noticed; a survivor stands with its line and change."""
    rows = [
        Row(
            package="p",
            module="m",
            line=n,
            kind="boundary",
            before="a < b",
            after="a <= b",
            result=r,
            by="",
            seconds=1.0,
        )
        for n, r in enumerate(results)
    ]
    text = summary(rows)
    assert f"| p | all | {len(results)} | {len(results) - ('survived' in results)} | {share} |" in text
    assert ("`p/m.py` 2: boundary, `a < b` → `a <= b`" in text) == ("survived" in results)
