"""A year of metered gas with bills of unequal length: what the books sum to is what the meter counted.

Source of the series: data/gas_meter.md. A US therm is 105 480 400 J (NIST SP 811, appendix B.8): 29.300 111 kWh.
"""

from __future__ import annotations

import datetime as dt
from itertools import accumulate, cycle, takewhile
from pathlib import Path

import pandas as pd
import pytest
from made_season import ZONE
from made_season import season as made

from reportgen.readings.heating import read_heating

FILE = Path(__file__).parent / "data" / "gas_meter.csv"
KWH_PER_THERM = 105_480_400 / 3.6e6
FIRST = dt.date(2016, 1, 1)
DAYS = 366
BILLS = (33, 28, 31, 35, 27, 30)  # days, in turn


def test_bills_of_unequal_length_sum_to_what_the_meter_counted(tmp_path: Path) -> None:
    """Readings every 27 to 35 days: each stretch is the sum of its own days, all of them the sum of the year.

    A meter is read at noon, so half of the first and last day belong outside; the running meter here counts from noon
    to noon. Tolerance: the readings are written to a hundredth of a therm, one error at each end.
    """
    daily = pd.read_csv(FILE, parse_dates=["date"]).set_index("date")["therm"]
    counted = daily.loc[str(FIRST) :].iloc[:DAYS].cumsum()
    ends = [0, *takewhile(lambda day: day < DAYS, accumulate(cycle(BILLS))), DAYS]
    running = [5000.0 + (0.0 if n == 0 else float(counted.iloc[n - 1])) for n in ends]
    dates = [FIRST + dt.timedelta(days=n) for n in ends]
    rows = [f"{day},{reading:.2f}" for day, reading in zip(dates, running, strict=True)]
    (tmp_path / "meter.csv").write_text("date,reading\n" + "\n".join(rows) + "\n", encoding="utf-8")
    season = made(
        heating=(
            {"name": "boiler", "fuel": "natural_gas", "meter": "meter.csv", "unit": "therm", "heating_value": "gross"},
        ),
    ).model_copy(update={"folder": tmp_path, "first_day": FIRST, "last_day": FIRST + dt.timedelta(days=DAYS)})
    (boiler,), _, problems = read_heating(season, ())
    assert not problems
    found = boiler.intervals
    assert found["sparse"].all() and len(found) == len(ends) - 1
    for start, end, kwh in zip(ends[:-1], ends[1:], found["heat_kwh"], strict=True):
        assert kwh == pytest.approx(float(daily.loc[str(FIRST) :].iloc[start:end].sum()) * KWH_PER_THERM, abs=0.3)
    assert float(found["heat_kwh"].sum()) == pytest.approx(float(counted.iloc[-1]) * KWH_PER_THERM, abs=0.3)
    assert found["start"].iloc[0] == pd.Timestamp(FIRST).tz_localize(ZONE) + pd.Timedelta(hours=12)
