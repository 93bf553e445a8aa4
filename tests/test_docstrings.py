"""Every public function of the floors that work numbers out says what it takes, gives and raises, and in what unit."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "reportgen"
FLOORS = ("measures", "effects", "winters", "counsel", "gather")
WITH_FORMULAS = ("air.py", "sun.py", "ground.py", "measures/", "gather/")
WORDS_ALONE = ("gather/pages/", "gather/site.py")  # frozen results in, words out, as `charts` and `site`, not read

ARRAYS = re.compile(r"\b(Floats|Ints|Bools|NDArray|ArrayLike)\b")
FLOATS = re.compile(r"\b(float|Floats|ArrayLike|complex)\b")
# A unit in square brackets: [K], [W/m²], [s since 1970], [kWh], [mol m⁻²], [1] or [no unit] where there is none.
BRACKETS = re.compile(
    r"\[(?:no unit|share|count|money|points|weeks|1|°|°C|%|au|min|UTC|days?\b|"
    r"(?:m|k|M|µ)?(?:K|W|J|g|m|h|s|d|mol|Pa|Wh|L)\b)"
)
# Or a word that is one.
WORDS = re.compile(
    r"°C|°|%|\b(?:K|W/K|W|kW|kWh|kg|mol|m²)\b|"
    r"(?i:\b(?:kilograms?|kelvins?|shares?|part of|ratio|hours?|minutes|seconds|days|weeks|winters|years|money|watts|"
    r"probability|degrees|UTC|no unit|any unit|unit of|shown unit|own units?|same unit|standard error|correlation|"
    r"standard deviations?)\b)"
)
SOURCE = re.compile(
    r"Source:|common practice|our own|textbook formula|"
    r"\b(?:ISO|EN|DIN|VDI|ASHRAE|FAO|WMO|NIST|Meeus|psychrolib)\b|\b(?:1[89]|20)\d\d\b"
)
# A name that says its unit (DEVELOPERS.md, *Names and units*), or that can have but one.
NAMED = re.compile(
    r"(?:^|_)(?:c|k|w|h|s|m|m2|m3|kg|kwh|pct|pa|mol|mj|deg|sd|m3s|m3k|l|share|ratio|hours|days|seconds|latitude|longitude)$"
)
CURVED = {"exp", "expm1", "log", "log1p", "log10", "sqrt", "tanh", "sin", "cos", "tan", "arctan2", "arccos", "angle"}
# Numbers that only turn one unit into another, count or halve are no formula.
PLAIN = {0, 1, 2, 3, 7, 12, 24, 60, 100, 1000, 3600, 86400, 1440, 0.5, 1e6, 1e9, 3.6}

Function = ast.FunctionDef


def public(tree: ast.Module) -> Iterator[tuple[str, Function]]:
    """Functions of the module and of its public classes, by name; nested ones are left out."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield from ((f"{node.name}.{m.name}", m) for m in node.body if isinstance(m, ast.FunctionDef))


def own(function: Function) -> Iterator[ast.AST]:
    """What stands in the function itself and not in one nested in it."""
    waiting: list[ast.AST] = list(function.body)
    while waiting:
        node = waiting.pop()
        if not isinstance(node, ast.FunctionDef | ast.Lambda | ast.ClassDef):
            yield node
            waiting.extend(ast.iter_child_nodes(node))


def signature(function: Function) -> str:
    given = function.args
    asked = [a.annotation for a in (*given.posonlyargs, *given.args, *given.kwonlyargs) if a.annotation]
    return " ".join(ast.unparse(part) for part in [*asked, function.returns] if part is not None)


def kept_in(function: Function) -> set[ast.AST]:
    """Raises whose error the function itself catches."""
    kept: set[ast.AST] = set()
    for node in own(function):
        if isinstance(node, ast.Try):
            caught = {
                name
                for one in node.handlers
                if one.type is not None
                for name in re.findall(r"\w+", ast.unparse(one.type))
            }
            inside = [deep for part in node.body for deep in ast.walk(part) if isinstance(deep, ast.Raise)]
            kept |= {deep for deep in inside if deep.exc and re.findall(r"\w+", ast.unparse(deep.exc))[0] in caught}
    return kept


def numbers_without_unit(function: Function) -> list[str]:
    """Arguments that are numbers and whose name does not say in what unit."""
    given = function.args
    asked = [a for a in (*given.posonlyargs, *given.args, *given.kwonlyargs) if a.annotation]
    return [a.arg for a in asked if FLOATS.search(ast.unparse(a.annotation or a)) and not NAMED.search(a.arg)]


def raises(function: Function) -> bool:
    kept = kept_in(function)
    return any(isinstance(node, ast.Raise) and node.exc is not None and node not in kept for node in own(function))


def formula(function: Function) -> bool:
    """It multiplies, divides or raises with a number of its own, or bends a curve."""
    compared = {part for node in own(function) if isinstance(node, ast.Compare) for part in ast.walk(node)}
    for node in own(function):
        if node in compared:  # a line to be passed and no formula
            continue
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in CURVED:
            return True
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mult | ast.Div | ast.Pow):
            numbers = [side.value for side in (node.left, node.right) if isinstance(side, ast.Constant)]
            if any(isinstance(number, int | float) and number not in PLAIN for number in numbers):
                return True
    return False


def lacks(function: Function, formulas: bool, around: str) -> list[str]:
    """What a docstring leaves out, in words.

    Args:
        formulas: Whether a formula must name its source.
        around: The module's docstring, where the source may stand for all of its functions.
    """
    told = ast.get_docstring(function)
    if not told:
        return ["no docstring"]
    asked = signature(function)
    missing = []
    if ARRAYS.search(asked) and not re.search(r"\bshapes?\b", told, re.IGNORECASE):
        missing.append("arrays without the word shape")
    if raises(function) and "Raises:" not in told:
        missing.append("raises without Raises:")
    if FLOATS.search(asked) and not (BRACKETS.search(told) or WORDS.search(told)):
        missing.append("numbers without a unit")
    unnamed = [name for name in numbers_without_unit(function) if not re.search(rf"\b{name}\b", told)]
    missing += [f"a number that nobody explains: {name}" for name in unnamed]
    if formulas and formula(function) and not SOURCE.search(told + around):
        missing.append("a formula without its source")
    return missing


def faults(source: str, where: str) -> dict[str, list[str]]:
    tree = ast.parse(source)
    formulas = where.startswith(WITH_FORMULAS)
    around = ast.get_docstring(tree) or ""
    names = [(name, node) for name, node in public(tree) if not node.name.startswith("_")]
    told = {f"{where}:{node.lineno} {name}": lacks(node, formulas, around) for name, node in names}
    return {name: missing for name, missing in told.items() if missing}


def sources() -> list[Path]:
    deep = [path for floor in FLOORS for path in sorted((ROOT / floor).rglob("*.py"))]
    read = [path for path in deep if not path.relative_to(ROOT).as_posix().startswith(WORDS_ALONE)]
    return [ROOT / "air.py", ROOT / "sun.py", ROOT / "ground.py", *read]


def lacking(source: str, where: str = "measures/made.py") -> list[str]:
    return [fault for missing in faults(source, where).values() for fault in missing]


def test_every_public_function_says_what_it_takes_gives_and_raises() -> None:
    found: dict[str, list[str]] = {}
    for path in sources():
        found |= faults(path.read_text(encoding="utf-8"), path.relative_to(ROOT).as_posix())
    assert len(sources()) > 150
    assert not found, "\n".join(f"{name}: {', '.join(missing)}" for name, missing in found.items())


WHOLE = '''
def wet(air: Floats) -> Floats:
    """Hours wet [h] of this air; shape (n,). Source: FAO-56.

    Raises:
        ValueError: It is empty.
    """
    if not len(air):
        raise ValueError("none")
    return 0.622 * air
'''


def test_a_whole_docstring_passes() -> None:
    assert lacking(WHOLE) == []


@pytest.mark.parametrize(
    ("taken", "fault"),
    [
        ("; shape (n,)", "arrays without the word shape"),
        ("Hours wet [h]", "numbers without a unit"),
        (" of this air", "a number that nobody explains: air"),
        ("Raises:", "raises without Raises:"),
        (" Source: FAO-56.", "a formula without its source"),
    ],
)
def test_a_docstring_without_one_of_them_is_found(taken: str, fault: str) -> None:
    assert lacking(WHOLE.replace(taken, "")) == [fault]


def test_methods_are_read_and_nested_and_own_functions_are_not() -> None:
    assert lacking("class Wet:\n    def hours(self) -> int:\n        return 1\n") == ["no docstring"]
    assert lacking("class _Wet:\n    def hours(self) -> int:\n        return 1\n") == []
    assert lacking("def _wet() -> int:\n    return 1\n") == []
    inner = "    def line(x: float) -> float:\n        raise ValueError\n"
    nested = f'def wet() -> str:\n    """Words."""\n{inner}    return ""\n'
    assert lacking(nested) == []


def test_a_raise_that_the_function_catches_needs_no_section() -> None:
    caught = (
        'def wet() -> str:\n    """Words."""\n    try:\n        raise Refused("x")\n    except {}:\n        return ""\n'
    )
    assert lacking(caught.format("Refused")) == []
    assert lacking(caught.format("OSError")) == ["raises without Raises:"]


def test_a_bracket_without_a_unit_is_no_unit() -> None:
    assert lacking('def wet(x: float) -> float:\n    """It [see above], of x."""\n') == ["numbers without a unit"]


def test_a_unit_conversion_and_a_line_to_pass_are_no_formula() -> None:
    assert lacking('def wet(x: float) -> float:\n    """Hours [h] of x."""\n    return x / 3600.0\n') == []
    assert lacking('def wet(x: float) -> bool:\n    """Hours [h] of x."""\n    return x > 0.8 * 9\n') == []
