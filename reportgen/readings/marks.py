"""The reasons for which a row or a value is set aside, in the order in which they are asked."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

Codes = NDArray[np.uint8]

REASONS = (
    "not a reading",
    "unreadable time",
    "repeated",
    "outside the season",
    "dead row",
    "sentinel",
    "impossible",
    "interpolated",
    "stuck",
    "jump",
)
USED = 0
NOT_A_READING, BAD_TIME, REPEATED, OUTSIDE, DEAD_ROW, SENTINEL, IMPOSSIBLE, INTERPOLATED, STUCK, JUMP = range(1, 11)
BLANK = 255  # an empty cell is no value: it is neither used nor set aside


def counted(codes: Codes) -> Mapping[str, int]:
    """How many values were set aside under each reason; reasons without any are not there."""
    counts = np.bincount(codes[codes != BLANK], minlength=len(REASONS) + 1)
    return MappingProxyType({reason: int(n) for reason, n in zip(REASONS, counts[1:], strict=False) if n})


def row_codes(columns: list[Codes]) -> Codes:
    """One code a row: used when any value is, else the first reason in order; a row of blanks is no reading."""
    worst: Codes = np.minimum.reduce(columns)
    return np.where(worst == BLANK, np.uint8(NOT_A_READING), worst)
