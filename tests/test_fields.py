"""Every field of a result is asked for by some test: by its name on a result, or by its key in review.json.

A search for words, by name alone: two results with a field of one name count as one.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parent
ROOT = TESTS.parent / "reportgen"
FLOORS = ("measures", "effects", "winters")


def is_result(node: ast.stmt) -> bool:
    """A frozen dataclass that other modules may use."""
    if not isinstance(node, ast.ClassDef) or node.name.startswith("_"):
        return False
    made = [ast.unparse(one) for one in node.decorator_list]
    return any(one.startswith("dataclass") and "frozen=True" in one for one in made)


def fields(source: str) -> Iterator[str]:
    """Class.field of every frozen dataclass of a module."""
    for node in ast.parse(source).body:
        if is_result(node):
            assert isinstance(node, ast.ClassDef)
            for part in node.body:
                if isinstance(part, ast.AnnAssign) and isinstance(part.target, ast.Name):
                    yield f"{node.name}.{part.target.id}"


def asked(source: str) -> set[str]:
    """Names that a test reads from something (`x.name`) or names in a string; making a result asks nothing."""
    words: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Attribute):
            words.add(node.attr)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            words |= set(re.findall(r"\w+", node.value))
    return words


def all_fields() -> set[str]:
    paths = [path for floor in FLOORS for path in sorted((ROOT / floor).rglob("*.py"))]
    return {f"{path.parent.relative_to(ROOT)}/{name}" for path in paths for name in fields(path.read_text("utf-8"))}


def all_asked() -> set[str]:
    paths = [path for path in sorted(TESTS.rglob("*.py")) if path != Path(__file__)]
    return set().union(*(asked(path.read_text("utf-8")) for path in paths))


# Asked for by no test by name. What is struck off stays off: a field of this list that a test asks for fails here too.
LEFT = frozenset(
    f"{result}.{name}"
    for result, names in {
        "effects/Known": "by_state",
        "measures/Base": "above_hold_k",
        "measures/ChannelRecord": "why_seldom",
        "measures/DuctLines": "inlet outlet",
        "measures/Heat": "change_span loss_nights",
        "measures/HeatCurve": "knots",
        "measures/HoldingLimit": "flat_out_half_k",
        "measures/Source": "by_tariff",
        "measures/StateLimit": "flat_out_half_k",
        # working parts of the balance: the studies in tests/studies hold what comes of them against known houses
        "measures/house/Balance": "asked_w bed_w_k free_hours limit_share wind_w_k",
        "measures/house/Bed": "to_air to_outdoors",
        "measures/house/HouseHours": "by_meter wind_m_s",
        "measures/house/NightLine": "knee_c week_c",
        "measures/house/Response": "bed_outdoors_w_k fitted_loss_w_k held_w_k lags_h links_w_k otherwise_w",
    }.items()
    for name in names.split()
)


def test_every_field_of_a_result_is_asked_for_by_a_test() -> None:
    words = all_asked()
    unasked = {name for name in all_fields() if name.rpartition(".")[2] not in words}
    assert not unasked - LEFT, f"write a test that asks for {sorted(unasked - LEFT)}"
    assert not LEFT - unasked, f"a test asks for these by now, strike them off: {sorted(LEFT - unasked)}"


MADE = """
@dataclass(frozen=True, kw_only=True)
class Wet:
    hours: float
    mean_c: float

@dataclass
class Loose:
    x: int

@dataclass(frozen=True)
class _Own:
    y: int
"""


def test_fields_of_frozen_results_are_found() -> None:
    assert list(fields(MADE)) == ["Wet.hours", "Wet.mean_c"]


def test_making_a_result_asks_for_nothing() -> None:
    assert "hours" not in asked("Wet(hours=1.0)\n")
    assert "hours" in asked("assert Wet(hours=1.0).hours == 1.0\n")
    assert {"damp", "hours"} <= asked('value(review, "damp.wet.hours")\n')
