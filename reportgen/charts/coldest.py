"""The coldest reading of every night, inside and outdoors: the table behind the season's picture."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.charts.season_view import by_day
from reportgen.measures.days import dates
from reportgen.measures.places import coldest_crop_air
from reportgen.review import Review
from reportgen.wording import Wording


def coldest_by_night(review: Review) -> pd.DataFrame | None:
    """Columns date (of the evening), inside and (where logged) outdoors, in the shown unit, as the picture draws them;
    NaN where too little was logged, None without air beside the crop."""
    if coldest_crop_air(review.readings) is None:
        return None
    w = Wording.of(review.season)
    frame = pd.DataFrame({"date": dates(review.season)})
    frame["inside"] = _column(by_day(review, "inside_min", w), len(frame))
    outdoors = by_day(review, "outdoor_min", w)
    if outdoors:
        frame["outdoors"] = _column(outdoors, len(frame))
    return frame


def _column(values: Sequence[float | None], count: int) -> np.ndarray:
    return np.array([np.nan if v is None else v for v in values] or [np.nan] * count, dtype=np.float64)
