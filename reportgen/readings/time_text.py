"""A written time → the strptime format that reads it, once it is known whether the day comes first."""

from __future__ import annotations

import re

from reportgen.readings.shapes import Shape, understand

_FIELDS = {"Y": "%Y", "m": "%m", "d": "%d", "H": "%H", "M": "%M", "S": "%S", "f": "%f", "YMD": "%Y%m%d"}
_KNOWN = {*_FIELDS, "a", "b"}


def format_of(example: str, day_first: bool) -> str | None:
    """`3/4/2026 0:05` → %d/%m/%Y %H:%M with the day first; None for a shape that has no such format."""
    shape = understand(example)
    if (
        shape is None
        or shape.month is not None
        or shape.sign
        or shape.utc
        or shape.zone_min is not None
        or not set(shape.at) <= _KNOWN
    ):
        return None
    letters = _letters(shape, day_first, example)
    pieces = re.split(r"([0-9]+)", example.strip())
    runs = iter(range(len(pieces)))
    out = []
    for piece in pieces:
        out.append(letters.get(next(runs), piece) if piece[:1].isdigit() else piece.replace("%", "%%"))
    text = "".join(out)
    return re.sub(r"[AaPp]\.?\s?[Mm]\.?$", "%p", text) if shape.half else text


def _letters(shape: Shape, day_first: bool, example: str) -> dict[int, str]:
    """Number of the run of digits → its letter."""
    numbers = re.findall(r"[0-9]+", example)
    letters = {place: _FIELDS[name] for name, place in shape.at.items() if name in _FIELDS}
    if shape.open_order:
        day_first = day_first or shape.dotted
        letters |= {shape.at["a"]: "%d" if day_first else "%m", shape.at["b"]: "%m" if day_first else "%d"}
    if "Y" in shape.at:
        letters[shape.at["Y"]] = "%y" if len(numbers[shape.at["Y"]]) == 2 else "%Y"
    if shape.half and "H" in shape.at:
        letters[shape.at["H"]] = "%I"
    return letters
