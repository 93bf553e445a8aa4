"""The coldest reading of every day, inside and outdoors: the table behind the season's picture."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd

from reportgen.measures.days import DATE, dates, enough, window_stats
from reportgen.measures.exposure import line
from reportgen.measures.places import coldest_crop_air, outdoor
from reportgen.review import Review
from reportgen.wording import Wording


def coldest_by_day(review: Review) -> pd.DataFrame | None:
    """Columns date, inside and (where logged) outdoors, in the shown unit; NaN where too little was logged."""
    inside = coldest_crop_air(review.readings)
    if inside is None:
        return None
    season, w = review.season, Wording.of(review.season)
    frame = pd.DataFrame({"date": dates(season)})
    frame["inside"] = _shown(enough(window_stats(inside, season, DATE), "min"), w)
    air = outdoor(review.readings, "air_temperature")
    if air is not None:
        frame["outdoors"] = _shown(enough(window_stats(line(air.values), season, DATE), "min"), w)
    return frame


def _shown(values: pd.Series, w: Wording) -> Any:
    return values.map(w.temp_value).to_numpy(dtype=np.float64)
