"""The numbers of a sentence, and whether tables bear them out."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

Tables = Callable[[str], Any]  # uid of a chart or table → its CSV as a frame
# What the numbers of a sentence must be, in their order; None: no figure of these tables (the reason stands beside).
Expected = Sequence[Any]
Recipe = Callable[[Tables, str], Expected]

NUMBER = re.compile(r"[−+]?\d+(?:\s\d{3}(?!\d))*(?:\.\d+)?")
OF_TABLE = 0.002  # tables are rounded for reading, so a sum or a quotient of cells may be off by as much
OF_TENTHS = 0.01  # hours of the tables are rounded to a tenth


def numbers(text: str) -> list[tuple[float, float]]:
    """(value, half a step of its last digit) of each number in a sentence."""
    found = []
    for match in NUMBER.finditer(text):
        plain = re.sub(r"\s", "", match[0]).replace("−", "-")
        found.append((float(plain), 0.5 * 10.0 ** -len(plain.partition(".")[2])))
    return found


def apart(claim: str, expected: Expected) -> list[tuple[float, float]]:
    """(said, worked out) of each number that the tables do not bear out."""
    said = numbers(claim)
    assert len(said) == len(expected), (claim, said, expected)
    wrong = []
    for (value, half_step), true in zip(said, expected, strict=True):
        if true is not None and not abs(value - true) <= half_step + OF_TABLE * abs(true) + OF_TENTHS:
            wrong.append((value, float(true)))
    return wrong


def day_of(moment: str) -> float:
    """Day of the month of an ISO date or moment."""
    return float(moment[8:10])
