"""A fact of the trade is a number in one place, a dotted path is walked in one place, and pages work nothing out."""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "reportgen"
# A name that says its unit or what is counted, alone or behind other words: 2 K in two modules under one such name is
# one rule written twice. Other names (FEWEST, MOST) mean what their module means.
UNIT = re.compile(r"(?:^|_)(?:C|K|W|KW|KWH|WH|H|S|MS|D|M|M2|M3|KG|L|PA|PCT|DEG|MOL|SHARE|POINTS|HOURS|NIGHTS)$")
# Where numbers are sizes and places on paper.
PICTURES = ("charts/", "drawing/", "site/", "gather/pages/")
HALF = 0.5  # says itself
PERCENTILE = re.compile(r"^0?\.9+[57]?5$")  # 0.95, 0.975, 0.995 …: a quantile says itself
Places = Mapping[tuple[str, float], set[str]]


def assigned(node: ast.stmt) -> Iterator[tuple[str, float]]:
    """Names and numbers of one statement at the top of a module: `A = 1.0`, `A, B = 1.0, 2.0`."""
    if isinstance(node, ast.Assign):
        targets, value = node.targets, node.value
    elif isinstance(node, ast.AnnAssign) and node.value is not None:
        targets, value = [node.target], node.value
    else:
        return
    for target in targets:
        several = isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple)
        pairs = zip(target.elts, value.elts, strict=False) if several else [(target, value)]  # type: ignore[attr-defined]
        for name, number in pairs:
            if isinstance(name, ast.Name) and (found := _number(number)) is not None:
                yield name.id, found


def _number(node: ast.expr) -> float | None:
    """The value of a number, or of numbers multiplied, divided, raised or made negative."""
    allowed = (ast.Constant, ast.BinOp, ast.UnaryOp, ast.operator, ast.unaryop)
    if not all(isinstance(part, allowed) for part in ast.walk(node)):
        return None
    try:
        found = eval(compile(ast.Expression(node), "", "eval"), {"__builtins__": {}})
    except (TypeError, ZeroDivisionError):
        return None
    return float(found) if isinstance(found, int | float) and not isinstance(found, bool) else None


def named_twice(sources: Mapping[str, str]) -> list[str]:
    """Constants of one name and one value in several modules: with a unit in the name anywhere; else, where the value
    is a fraction, off the pictures."""
    places: dict[tuple[str, float], set[str]] = defaultdict(set)
    for where, source in sources.items():
        for node in ast.parse(source).body:
            for name, number in assigned(node):
                fraction = number != round(number) and number != HALF and not where.startswith(PICTURES)
                if number == number and (UNIT.search(name) or fraction):
                    places[name, number].add(where)
    return _several(places)


def typed_twice(sources: Mapping[str, str]) -> list[str]:
    """Numbers with a fraction and four figures or more that stand in several modules, whatever they are called: the
    pound, the foot, the gallon."""
    places: dict[tuple[str, float], set[str]] = defaultdict(set)
    for where, source in sources.items():
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.Constant) and isinstance(node.value, float):
                digits = f"{node.value:.15g}"
                exact = "." in digits and len(digits.replace(".", "").strip("0")) >= 4
                if exact and "e" not in digits and not PERCENTILE.match(digits):
                    places["", node.value].add(where)
    return _several(places)


def _several(places: Places) -> list[str]:
    return sorted(f"{name} {value:g}: {sorted(where)}" for (name, value), where in places.items() if len(where) > 1)


def walkers(sources: Mapping[str, str]) -> list[str]:
    """Functions that go through the parts of a dotted path one by one, or shorten one until it is known."""
    found = []
    for where, source in sources.items():
        for function in ast.walk(ast.parse(source)):
            if isinstance(function, ast.FunctionDef) and _walks(function):
                found.append(f"{where} {function.name}")
    return found


def _walks(function: ast.FunctionDef) -> bool:
    parts = {name for node in ast.walk(function) for name in _named(node)}
    for node in ast.walk(function):
        if isinstance(node, ast.For):
            through = _splits(node.iter, "split") or (isinstance(node.iter, ast.Name) and node.iter.id in parts)
            if through:
                return True
        if isinstance(node, ast.While) and any(_splits(part, "rpartition", "rsplit") for part in ast.walk(node)):
            return True
    return False


def _named(node: ast.AST) -> Iterator[str]:
    """Names of the parts of a split path: `parts = path.split(".")`, `first, *rest = path.split(".")`."""
    if isinstance(node, ast.Assign) and _splits(node.value, "split"):
        for target in node.targets:
            yield from (part.id for part in ast.walk(target) if isinstance(part, ast.Name))


def _splits(node: ast.AST, *how: str) -> bool:
    """`….split(".")`, or another of these methods."""
    called = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in how
    return called and [getattr(given, "value", None) for given in node.args[:1]] == ["."]  # type: ignore[attr-defined]


# A fit, a quantile, a spread, a correlation, a probability: the floors below `counsel` work them out.
STATISTICS = re.compile(
    r"polyfit|lstsq|solve|(lin)?regress|(nan)?quantile|percentile|(nan)?median|(nan)?std|stdev|(nan)?var|corr(coef)?|"
    r"ppf|cdf|convolve"
)
NO_STATISTICS = ("counsel/", "charts/", "drawing/", "site/", "inspection/", "gather/pages/", "wording.py")


def worked_out(sources: Mapping[str, str]) -> list[str]:
    """Statistics that are called where only words and pictures are made."""
    found = []
    for where, source in sources.items():
        if where.startswith(NO_STATISTICS):
            called = (node.func for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call))
            names = (node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "") for node in called)
            found += [f"{where} {name}" for name in names if STATISTICS.fullmatch(name)]
    return found


def sources(paths: Iterable[Path] = ()) -> dict[str, str]:
    return {path.relative_to(ROOT).as_posix(): path.read_text("utf-8") for path in paths or sorted(ROOT.rglob("*.py"))}


def test_no_number_of_the_trade_is_written_down_twice() -> None:
    """Import it from where it stands with its source; what is not the same fact gets another name."""
    found = sources()
    assert len(found) > 500
    assert named_twice(found) == []
    assert typed_twice(found) == []


def test_dotted_paths_are_walked_in_one_module() -> None:
    """Findings, the story and the two winters ask `dotted` for what stands at a path and why it is null."""
    assert walkers(sources()) == ["dotted.py value_at", "dotted.py why_null"]


def test_counsel_and_pages_work_out_no_statistic() -> None:
    """But for how many decimals a column of a table is printed with."""
    assert worked_out(sources()) == ["site/tables.py median"]


def test_a_statistic_on_a_page_is_found() -> None:
    assert worked_out({"charts/a.py": "slope, level = np.polyfit(x, y, 1)"}) == ["charts/a.py polyfit"]
    assert worked_out({"counsel/a.py": "median(widths)", "measures/a.py": "median(widths)"}) == ["counsel/a.py median"]
    assert worked_out({"charts/theme.py": 'ink = "var(--ink)"'}) == []


@pytest.mark.parametrize(
    ("first", "second", "told"),
    [
        ("CLOSE_K = 2.0", "CLOSE_K = 2.0", True),
        ("A_S, WEEK_S = 1.0, 7 * 86_400.0", "WEEK_S: float = 604_800.0", True),
        ("WIDER = 1.6", "WIDER = 1.6", True),
        ("CLOSE_K = 2.0", "CLOSE_K = 3.0", False),
        ("CLOSE_K = 2.0", "FAR_K = 2.0", False),
        ("FEWEST = 8", "FEWEST = 8", False),
        ("HALF = 0.5", "HALF = 0.5", False),
        ("CLOSE_K = 2.0", "from reportgen.a import CLOSE_K", False),
    ],
)
def test_one_name_and_one_value_in_two_modules_is_found(first: str, second: str, told: bool) -> None:
    assert bool(named_twice({"a.py": first, "b.py": second})) is told


def test_sizes_on_paper_may_agree_by_chance_but_not_what_has_a_unit() -> None:
    assert named_twice({"drawing/a.py": "SIZE = 12.5", "charts/b.py": "SIZE = 12.5"}) == []
    assert named_twice({"charts/a.py": "FAR_K = 5.0", "counsel/b.py": "FAR_K = 5.0"})


def test_an_exact_number_is_found_wherever_it_is_typed() -> None:
    assert typed_twice({"a.py": "KG = 0.45359237", "b.py": "def f(x):\n    return x / 0.45359237"})
    assert typed_twice({"a.py": "x = 1.16", "b.py": "x = 1.16"}) == []
    assert typed_twice({"a.py": "x = 0.975", "b.py": "x = 0.975"}) == []
    assert typed_twice({"a.py": "x = 0.3048 + 0.3048"}) == []


@pytest.mark.parametrize(
    ("body", "walks"),
    [
        ('for part in path.split("."):\n        here = here[part]', True),
        ('first, *rest = path.split(".")\n    for part in rest:\n        here = getattr(here, part)', True),
        ('while rest:\n        rest = rest.rpartition(".")[0]', True),
        ('return path.partition(".")[0]', False),
        ('return [part.strip() for part in key.split(".")]', False),
        ('for part in path.split("/"):\n        here = here[part]', False),
    ],
)
def test_a_second_walker_is_found(body: str, walks: bool) -> None:
    source = f"def step(here, path, rest, key):\n    {body}\n"
    assert walkers({"a.py": source}) == (["a.py step"] if walks else [])
