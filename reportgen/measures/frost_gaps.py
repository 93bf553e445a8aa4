"""What gaps may have hidden: hours without crop air while it was under the frost line outside, or who knows how cold.

Nothing recorded is not nothing that happened: what lay under the frost line outdoors is counted, and what nobody
measured outdoors either is counted apart.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Line, clip, hours_below
from reportgen.measures.frost_ahead import Ahead, gap_low
from reportgen.season import Season

COLUMNS = ("start", "end", "hours", "cold_hours", "unknown_hours", "outdoor_c", "could_have_been_c")
LEAST_S = 60.0  # shorter breaks are joints of two loggers, not gaps


def blind(curve: Line | None, season: Season) -> list[tuple[float, float]]:
    """Stretches of the season without crop air [s since 1970]."""
    start, end = season.start.timestamp(), season.end.timestamp()
    if curve is None or len(curve.values) < 2:
        return [(start, end)]
    first, last = curve.seconds[:-1][curve.joined], curve.seconds[1:][curve.joined]
    edges = np.concatenate([[start], np.column_stack([first, last]).ravel(), [end]])
    pairs = zip(edges[0::2].tolist(), edges[1::2].tolist(), strict=True)
    return [(a, b) for a, b in pairs if b - a > LEAST_S]


def gap_table(curve: Line | None, outside: Line | None, told: Ahead, season: Season) -> pd.DataFrame:
    """Gaps in which frost may hide, in the season's order.

    Columns: start, end, hours; cold_hours, outdoors under the frost line; unknown_hours, outdoors not known either;
    outdoor_c, the coldest known outdoors, and could_have_been_c, the low side (NaN where not known).
    """
    rows = []
    for a, b in blind(curve, season):
        start, end = (pd.Timestamp(t, unit="s", tz="UTC").tz_convert(season.zone) for t in (a, b))
        part = clip(outside, start, end) if outside is not None else None
        known = part.hours_recorded if part is not None else 0.0
        cold = hours_below(part, season.aims.frost_c) if part is not None and known else 0.0
        unknown = max((b - a) / 3600.0 - known, 0.0)
        unknown = unknown if unknown * 3600.0 > LEAST_S else 0.0
        if cold <= 0 and not unknown:
            continue
        coldest = could = float("nan")
        if part is not None and len(part.values):
            coldest = float(part.values.min())
            if cold > 0:
                could = gap_low(told, coldest)
        rows.append((start, end, (b - a) / 3600.0, cold, unknown, coldest, could))
    return pd.DataFrame(rows, columns=list(COLUMNS))
