"""SVG path data made short: shifted, rounded to a tenth of a unit, written relative to the point before.

Grammar of path data: W3C Scalable Vector Graphics 1.1 (Second Edition), chapter 8. Rounding never adds up along a
path, because every step is taken from the rounded point before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

TOKEN = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])|(-?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)")
TAKES = {"M": 2, "L": 2, "T": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "A": 7, "Z": 0}
CIRCLE = re.compile(r"^M([\d.]+),0A\1,\1,0,1,1,-\1,0A\1,\1,0,1,1,\1,0Z?$")


def compact(d: str, dx: float = 0.0, dy: float = 0.0) -> str:
    """The same path moved by (dx, dy), every coordinate within 0.05 of where it was."""
    out: list[str] = []
    pen = start = (0, 0)  # where the pen was left, in tenths
    (x, y), left, top = (dx, dy), dx, dy  # where the pen is, unrounded; start of the part
    for command, numbers in _steps(d):
        upper = command.upper()
        base = (0.0, 0.0) if command.isupper() else (x - dx, y - dy)
        if upper == "Z":
            out.append("z")
            x, y, pen = left, top, start
            continue
        points = _points(upper, numbers, base, (x - dx, y - dy), (dx, dy))
        spots = [(_tenths(a), _tenths(b)) for a, b in points]
        out.append(_written(upper, numbers, spots, pen))
        x, y = points[-1]
        pen = spots[-1]
        if upper == "M":
            left, top, start = x, y, pen
    return "".join(out)


def _tenths(value: float) -> int:
    return round(value * 10)


def _steps(d: str) -> Iterator[tuple[str, list[float]]]:
    """Commands with their numbers, repeated commands made explicit."""
    command, numbers = "", list[float]()
    for letter, value in TOKEN.findall(d):
        if letter:
            command, numbers = letter, []
            if letter in "Zz":
                yield letter, []
            continue
        numbers.append(float(value))
        if len(numbers) == TAKES[command.upper()]:
            yield command, numbers
            numbers = []
            command = {"M": "L", "m": "l"}.get(command, command)


def _points(
    upper: str, numbers: list[float], base: tuple[float, float], here: tuple[float, float], by: tuple[float, float]
) -> list[tuple[float, float]]:
    """The step's points, absolute and moved; the last is where the pen goes."""
    if upper == "H":
        return [(base[0] + numbers[0] + by[0], here[1] + by[1])]
    if upper == "V":
        return [(here[0] + by[0], base[1] + numbers[0] + by[1])]
    pairs = numbers[5:] if upper == "A" else numbers
    return [(base[0] + a + by[0], base[1] + b + by[1]) for a, b in zip(pairs[::2], pairs[1::2], strict=True)]


def _written(upper: str, numbers: list[float], spots: list[tuple[int, int]], pen: tuple[int, int]) -> str:
    """The step relative to the pen, lines along an axis as h or v."""
    if upper == "A":
        radii = [_tenths(numbers[0]), _tenths(numbers[1])]
        end = [spots[0][0] - pen[0], spots[0][1] - pen[1]]
        flags = f"{_text(_tenths(numbers[2]))} {int(numbers[3])} {int(numbers[4])} "
        return "a" + _joined(radii) + " " + flags + _joined(end)
    steps = [n for a, b in spots for n in (a - pen[0], b - pen[1])]
    if upper in "LHV" and steps[1] == 0:
        return "h" + _text(steps[0])
    if upper in "LHV" and steps[0] == 0:
        return "v" + _text(steps[1])
    letter = "l" if upper in "LHV" else upper.lower()
    return letter + _joined(steps)


def _joined(numbers: list[int]) -> str:
    """Numbers with a space only where the next one has no minus sign."""
    out = ""
    for value in numbers:
        words = _text(value)
        out += words if not out or words.startswith("-") else f" {words}"
    return out


def _text(tenths: int) -> str:
    whole, part = divmod(abs(tenths), 10)
    sign = "-" if tenths < 0 else ""
    return f"{sign}{whole}.{part}" if part and whole else f"{sign}.{part}" if part else f"{sign}{whole}"


def radius(d: str) -> float | None:
    """Radius of a path that is one full circle around the origin, else None."""
    found = CIRCLE.match(d)
    return float(found[1]) if found else None
