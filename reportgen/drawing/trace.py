"""SVG path data, short: tenths of a unit, each step taken from the rounded point before it, so rounding never adds up.

Grammar of path data: W3C Scalable Vector Graphics 1.1 (Second Edition), chapter 8.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Point = tuple[float, float]


def short(value: float) -> str:
    """A coordinate to a tenth, without what can be left out: −0.5 is "-.5", 3.0 is "3"."""
    return _written(round(value * 10))


def _written(tenths: int) -> str:
    whole, part = divmod(abs(tenths), 10)
    sign = "-" if tenths < 0 else ""
    return f"{sign}{whole or ''}.{part}" if part else f"{sign}{whole}"


def polyline(points: Iterable[Point | None]) -> str:
    """A line through the points, broken at None; a lone point becomes a line of no length, a dot with round ends."""
    out: list[str] = []
    last: tuple[int, int] | None = None
    lone = False
    for point in points:
        if point is None:
            out += ["h0"] if lone else []
            last, lone = None, False
            continue
        here = (round(point[0] * 10), round(point[1] * 10))
        if last is None:
            out.append(f"M{_pair(*here)}")
            lone = True
        else:
            out.append(_step(here[0] - last[0], here[1] - last[1]))
            lone = False
        last = here
    return "".join(out) + ("h0" if lone else "")


def polygon(points: Sequence[Point]) -> str:
    """A closed outline."""
    return f"{polyline(points)}z" if points else ""


def box(x0: float, y0: float, x1: float, y1: float) -> str:
    """An upright box; one without width or height is nothing."""
    a, b, c, d = (round(v * 10) for v in (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
    if a == c or b == d:
        return ""
    return f"M{_pair(a, b)}h{_written(c - a)}v{_written(d - b)}h{_written(a - c)}z"


def runs(points: Sequence[Point | None]) -> list[list[Point]]:
    """The unbroken stretches of a line."""
    out: list[list[Point]] = [[]]
    for point in points:
        if point is None:
            out.append([])
        else:
            out[-1].append(point)
    return [run for run in out if run]


def _step(dx: int, dy: int) -> str:
    if dy == 0:
        return f"h{_written(dx)}"
    return f"v{_written(dy)}" if dx == 0 else f"l{_pair(dx, dy)}"


def _pair(a: int, b: int) -> str:
    """Two numbers with a space only where the second has no minus sign."""
    second = _written(b)
    return f"{_written(a)}{'' if second.startswith('-') else ' '}{second}"
