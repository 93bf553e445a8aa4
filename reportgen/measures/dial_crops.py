"""What the crops that stood ask of a night: the warmer end of the tenderest one's damage band.

A crop that lived through one night is no proof for the next; only tabled or given bands count. Where the week before
was mild nothing hardened, and the band lies 3 K higher: hardiness moves by 3 to 5 K within days (spinach by about 3 K
in one day at 5/2 °C: Fennell and Li 1985, J. Am. Soc. Hort. Sci.).
"""

from __future__ import annotations

from datetime import date

import numpy as np
import pandas as pd

from reportgen.measures.frost_crops import band_of, standing
from reportgen.readings.types import Readings

UNHARDENED_K = 3.0
MILD_C = (
    5.0  # mean night minimum of the seven nights before, from which on nothing hardens: our own line, from the 5/2 °C
)
WEEK, FEWEST = 7, 4  # nights before; fewer than four of them known count as mild


def mild(lows: pd.Series) -> pd.Series:
    """Nights before which nothing could harden, or nobody knows; index as `lows`, the night minima by evening."""
    before = lows.shift(1).rolling(WEEK, min_periods=FEWEST).mean()
    return ~(before < MILD_C)


def night_limits(readings: Readings, lows: pd.Series) -> pd.DataFrame:
    """The tenderest standing crop of every night.

    Args:
        lows: Coldest crop air by evening [°C].

    Returns: index as `lows`; limit_c (NaN: no crop with a known band), crop, unhardened (the 3 K are in it), unknown
    (tuple of the crops without a band).
    """
    soft = mild(lows)
    out = pd.DataFrame({"limit_c": np.nan, "crop": "", "unhardened": soft}, index=lows.index)
    unknown: dict[date, list[str]] = {day: [] for day in lows.index}
    for row in standing(readings):
        days = [day for day in lows.index if row.first <= day <= row.last]
        band = band_of(readings, row.crop)
        if band is None:
            for day in days:
                unknown[day].append(row.crop)
            continue
        limit = band[1] + UNHARDENED_K * soft.loc[days].astype(float)
        tenderer = limit.index[~(out.loc[days, "limit_c"] >= limit)]
        out.loc[tenderer, "limit_c"] = limit.loc[tenderer]
        out.loc[tenderer, "crop"] = row.crop
    out["unknown"] = [tuple(dict.fromkeys(unknown[day])) for day in lows.index]
    return out
