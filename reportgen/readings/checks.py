"""What cannot be: impossible values, all-zero rows, stuck and jumping sensors, each a code with its limits here."""

from __future__ import annotations

import numpy as np

from reportgen.readings.digits import Ints
from reportgen.readings.marks import IMPOSSIBLE
from reportgen.readings.merge import Merged
from reportgen.readings.types import Finding
from reportgen.season import Logger, Season
from reportgen.units import MEASURES

HUMIDITIES = ("relative_humidity", "outdoor_humidity")
WET_LIMIT = 105.0  # a saturated sensor reads a little above 100 %: kept as 100 up to here (season-folder contract)


def check_channel(logger: Logger, measure: str, merged: Merged, rows: Ints, season: Season) -> list[Finding]:
    """Codes what cannot be among the used rows of a channel (in order of time) and tells what was seen."""
    limits, values, code = MEASURES[measure], merged.values[measure], merged.codes[measure]
    if measure in HUMIDITIES:
        wet = rows[(values[rows] > 100.0) & (values[rows] <= WET_LIMIT)]
        values[wet] = 100.0
    seen = values[rows]
    code[rows[(seen < limits.lowest) | (seen > limits.highest) | np.isnan(seen)]] = IMPOSSIBLE
    return []
