"""Keys in US units → the metric keys whose place they take; one of the two, not both.

Every key of season.toml that ends in a temperature, length, area, volume or weight may be written in US units:
hold_f for hold_c, lift_f for lift_k, depth_ft or depth_in for depth_m, area_ft2 for area_m2, shop_price_per_lb for
shop_price_per_kg. Which metric key is meant is found by the models: it is the one the table has.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from reportgen.problems import Problem
from reportgen.season.keys import keys_at
from reportgen.season.opening import FILE
from reportgen.season.positions import Lines, Path, address, line_of
from reportgen.units import FOOT_M, INCH_M, POUND_KG


@dataclass(frozen=True, kw_only=True, slots=True)
class Scale:
    """metric = (US − zero) × factor."""

    factor: float
    zero: float = 0.0

    def metric(self, value: float) -> float:
        """A number of the file in the kept unit; fourteen digits, so that 50 °F is 10 °C and not 10.000000000000002."""
        return float(f"{(value - self.zero) * self.factor:.14g}")

    def us(self, value: float) -> float:
        """A bound in the unit of the file."""
        return value / self.factor + self.zero


@dataclass(frozen=True, kw_only=True, slots=True)
class Ending:
    """How a US key is told from its metric one: `us` stands where that has `metric`, at the end unless `inside`."""

    us: str
    metric: str
    scale: Scale
    inside: bool = False

    def swapped(self, key: str) -> str | None:
        """The metric key that a US key would stand for."""
        if self.inside:
            return key.replace(self.us, self.metric, 1) if self.us in key else None
        return f"{key.removesuffix(self.us)}{self.metric}" if key.endswith(self.us) else None

    def back(self, key: str) -> str | None:
        """The US key of a metric one."""
        if self.inside:
            return key.replace(self.metric, self.us, 1) if self.metric in key else None
        return f"{key.removesuffix(self.metric)}{self.us}" if key.endswith(self.metric) else None


ENDINGS = (
    Ending(us="_f", metric="_c", scale=Scale(factor=1 / 1.8, zero=32.0)),
    Ending(us="_f", metric="_k", scale=Scale(factor=1 / 1.8)),
    Ending(us="_ft", metric="_m", scale=Scale(factor=FOOT_M)),
    Ending(us="_in", metric="_m", scale=Scale(factor=INCH_M)),
    Ending(us="_ft2", metric="_m2", scale=Scale(factor=FOOT_M**2)),
    Ending(us="_ft3", metric="_m3", scale=Scale(factor=FOOT_M**3)),
    Ending(us="_per_lb", metric="_per_kg", scale=Scale(factor=1 / POUND_KG)),
    Ending(us="_lb_per_", metric="_kg_per_", scale=Scale(factor=POUND_KG), inside=True),
)
STEP = Ending(us="f", metric="c", scale=ENDINGS[0].scale)  # of one step of hold or dial: { from = …, f = 50 }


@dataclass(frozen=True, kw_only=True, slots=True)
class Written:
    """A key as the file has it: its path there, its value, and how it was converted."""

    path: Path
    value: Any
    scale: Scale


@dataclass(kw_only=True, slots=True)
class Metric:
    """The keys of a season.toml in metric units. `written`: by metric path, what stands in the file."""

    data: dict[str, Any]
    written: dict[Path, Written] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def as_written(self, path: Path) -> Written | None:
        """What stands in the file where a metric path, or a part of its value, leads."""
        return next((self.written[path[:n]] for n in range(len(path), 0, -1) if path[:n] in self.written), None)


def metric(data: Mapping[str, Any], lines: Lines) -> Metric:
    """The same keys, those in US units under their metric names; both of one thing are a problem."""
    found = Metric(data=copy.deepcopy(dict(data)))
    _walk(found.data, (), found, lines)
    return found


def us_keys(known: Sequence[str]) -> list[str]:
    """The keys in US units that may stand for some of these."""
    twins = (ending.back(key) for key in known for ending in ENDINGS)
    return list(dict.fromkeys([twin for twin in twins if twin is not None] + (["f"] if "c" in known else [])))


def _walk(here: Any, path: Path, found: Metric, lines: Lines) -> None:
    if isinstance(here, list):
        for n, inner in enumerate(here):
            _walk(inner, (*path, n), found, lines)
        return
    if not isinstance(here, dict):
        return
    known = keys_at(path)
    for key in list(here):
        twin = _twin(key, known)
        if twin is None:
            _walk(here[key], (*path, key), found, lines)
            continue
        name, scale = twin
        value = here.pop(key)
        if name in here:
            found.problems.append(_both((*path, key), name, lines))
            continue
        here[name] = _converted(value, scale)
        found.written[(*path, name)] = Written(path=(*path, key), value=value, scale=scale)


def _twin(key: str, known: Sequence[str]) -> tuple[str, Scale] | None:
    """The metric key that this one stands for in a table of these keys."""
    if key in known:
        return None
    if key == STEP.us and STEP.metric in known:
        return STEP.metric, STEP.scale
    named = ((ending.swapped(key), ending.scale) for ending in ENDINGS)
    return next(((name, scale) for name, scale in named if name is not None and name in known), None)


def _converted(value: Any, scale: Scale) -> Any:
    """The number, or a list of numbers, in metric; anything else as it is, for the models to refuse."""
    if isinstance(value, list):
        return [_converted(inner, scale) for inner in value]
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    try:
        return scale.metric(float(value))
    except OverflowError:
        return value


def _both(path: Path, name: str, lines: Lines) -> Problem:
    return Problem(
        slug="both-units",
        file=FILE,
        line=line_of(lines, path),
        column=address(path),
        found=f"both {path[-1]} and {name}",
        expected="one of the two",
        todo="take the other one out",
    )
