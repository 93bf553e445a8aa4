"""What gaps may have hidden: hours without crop air while it froze hard outside."""

from __future__ import annotations

import numpy as np
import pandas as pd

from reportgen.measures.exposure import Line, clip, hours_below
from reportgen.measures.frost_types import CoolingModel
from reportgen.season import Season

COLD_C = -5.0  # hours without a reading count from here on (review.json)
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


def gap_table(
    curve: Line | None, outside: Line | None, soil: Line | None, model: CoolingModel, season: Season
) -> pd.DataFrame:
    """Gaps in which it was under −5 °C outside: start, end, hours, cold_hours, outdoor_c, could_have_been_c (NaN)."""
    rows = []
    for a, b in blind(curve, season) if outside is not None else []:
        start, end = (pd.Timestamp(t, unit="s", tz="UTC").tz_convert(season.zone) for t in (a, b))
        part = clip(outside, start, end) if outside is not None else None
        if part is None or len(part.values) < 2 or (cold := hours_below(part, COLD_C)) <= 0:
            continue
        coldest = float(part.values.min())
        could = _could(coldest, float(part.seconds[part.values.argmin()]), soil, model)
        rows.append((start, end, (b - a) / 3600.0, cold, coldest, could))
    return pd.DataFrame(rows, columns=["start", "end", "hours", "cold_hours", "outdoor_c", "could_have_been_c"])


def _could(outdoor_c: float, second: float, soil: Line | None, model: CoolingModel) -> float:
    """Lower bound of the model at that moment; the soil is its latest reading before it."""
    if not model.kind or soil is None or not len(soil.values):
        return float("nan")
    i = max(int(np.searchsorted(soil.seconds, second, side="right")) - 1, 0)
    return model.share_out * outdoor_c + model.share_soil * float(soil.values[i]) + model.constant_c - model.band_k
