"""What one logger file holds once it is opened, and once it is read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from reportgen.readings.digits import Ints
from reportgen.readings.files import Found
from reportgen.readings.marks import Codes
from reportgen.readings.numbers import Floats
from reportgen.readings.order import Order
from reportgen.readings.stamps import Stamps
from reportgen.readings.swap_hour import Swap
from reportgen.readings.table import Table


@dataclass(frozen=True, kw_only=True, slots=True)
class Oddity:
    """Something seen in the run of a file's rows: how many rows, their first and last instant [ms UTC], in words."""

    slug: str
    count: int
    span: tuple[int, int]
    words: str


@dataclass(kw_only=True, slots=True)
class FileRows:
    """Rows of one file in the order of its times: line, instant [ms UTC, NAT if none], value and code by measure."""

    file: str
    lines: Ints
    utc: Ints
    values: Mapping[str, Floats]
    codes: dict[str, Codes]
    sentinel: Mapping[str, NDArray[np.bool_]]
    zero: Mapping[str, NDArray[np.bool_]]  # 0 as written, before units and offset
    interpolated: Mapping[str, NDArray[np.bool_]]
    clock: str
    out_of_order: int = 0
    repeated_hour_once: int = 0
    missing_hour: int = 0
    swaps: Sequence[Swap] = ()
    oddities: list[Oddity] = field(default_factory=list)
    stray_units: int = 0


@dataclass(kw_only=True, slots=True)
class Opened:
    """A file of which the table and the written times are read, but not yet the order of day and month."""

    found: Found
    table: Table
    stamps: Stamps
    order: Order
    texts: Sequence[str]
