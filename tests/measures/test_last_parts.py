"""A night's circumstances, a probe's mean and the order of gaps: what stands on the pages beside the large figures."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, supply
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.frost import _circumstances
from reportgen.measures.frost_hours import hour_table
from reportgen.measures.record import record
from reportgen.measures.soil import soil

ZERO = pd.Timestamp("2026-01-05", tz=ZONE)
JAN = [dt.date(2026, 1, n) for n in range(1, 32)]


def test_a_nights_heated_hours_and_wind() -> None:
    """Heated at 17, 18, 20, 8 and 9 h: of the long night (18 to 9 h) that is 18, 20 and 8; wind 2 m/s from 20 to 6 h
    and 9 else, of which the night knows the first alone (and a mean of the hour's change at either end)."""
    at = hours(days=3)
    local = np.asarray(at.hour)
    watts = np.where(np.isin(local, [17, 18, 20, 8, 9]), 500.0, 0.0)
    edge = pd.date_range(ZERO, periods=73, freq="1h")
    wind = np.where((edge.hour >= 20) | (edge.hour <= 6), 2.0, 9.0)
    of = season("2026-01-05", "2026-01-07", loggers=(logger("bench"), logger("yard", where="outdoor")))
    channels = (
        channel(pd.Series(8.0, index=edge)),
        channel(pd.Series(wind, index=edge), "wind_speed", "yard", where="outdoor"),
    )
    made = readings(of, channels=channels, heating=(supply(at, watts),))
    table = _circumstances(made, hour_table(made, None), pd.Index(JAN[4:7]))
    assert table["heated_h"].tolist() == pytest.approx([3.0, 3.0, 2.0])
    assert table["wind"].iloc[:2].tolist() == pytest.approx([2.0, 2.0])
    bare = readings(of, channels=channels[:1])
    told = _circumstances(bare, hour_table(bare, None), pd.Index(JAN[4:7]))
    assert told["heated_h"].isna().all() and told["wind"].isna().all()


def test_an_hour_of_the_season_in_standard_time() -> None:
    """Noon of the 5th is the first hour of that night, 11 h of the 6th its last; the air's mean and ends of the
    hour."""
    edge = pd.date_range(ZERO, periods=49, freq="1h")
    of = season("2026-01-05", "2026-01-06", loggers=(logger("bench"),))
    made = readings(of, channels=(channel(pd.Series(np.arange(49.0), index=edge)),))
    from reportgen.measures.exposure import channel_line

    table = hour_table(made, channel_line(made.channels[0]))
    assert table["clock_h"].tolist() == [*range(24)] * 2
    assert table["night"].tolist() == [JAN[3]] * 12 + [JAN[4]] * 24 + [JAN[5]] * 12
    assert table["inside"].iloc[:2].tolist() == [0.5, 1.5]
    assert (table["inside_start"].iloc[1], table["inside_end"].iloc[1]) == (1.0, 2.0)
    assert (table["watts"] == 0).all() and (table["heated"] == 0).all() and table["outside"].isna().all()


def test_the_heat_of_an_hour_and_what_of_it_is_unsure() -> None:
    """1000 W from the 6th on: before it nothing is known, unless the diary put the heater in on that day; heated is
    what lies over 2 % of the largest hour, by main heaters alone."""
    from dataclasses import replace

    from reportgen.readings.types import DiaryEntry

    at = hours(first="2026-01-06", days=2)
    one = supply(at, np.where(np.asarray(at.hour) < 6, 1000.0, np.where(np.asarray(at.hour) < 12, 20.0, 0.0)))
    of = season("2026-01-05", "2026-01-07", loggers=(logger("bench"),))
    made = replace(readings(of), heating=(one,))
    table = hour_table(made, None)
    assert table["watts"].iloc[:24].isna().all() and table["watts"].iloc[24] == pytest.approx(1000.0)
    assert table["heated"].iloc[24:42].tolist() == [1.0] * 6 + [0.0] * 12 and (table["unsure"] == 0).all()
    came = DiaryEntry(
        line=2, date=JAN[5], time=None, kind="change", what="", touches=("heater",), reversible=None, hoped_for=(),
        until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    known = hour_table(replace(made, diary=(came,)), None)
    assert (known["watts"].iloc[:24] == 0).all() and (known["heated"].iloc[:24] == 0).all()
    backup = hour_table(replace(made, heating=(replace(one, role="backup"),)), None)
    assert backup["heated"].isna().all() and backup["watts"].iloc[24] == pytest.approx(1000.0)
    for day, zero in ((JAN[6], True), (JAN[7], False)):  # a day from its first row still, two days no more
        moved = hour_table(replace(made, diary=(replace(came, date=day),)), None)["watts"].iloc[:24]
        assert bool((moved == 0).all()) is zero
    late = hour_table(replace(made, diary=(replace(came, date=JAN[8]),)), None)
    assert late["watts"].iloc[:24].isna().all()


def test_heat_that_only_a_sum_tells_is_unsure() -> None:
    """2.4 kWh a day on a meter without any outdoor air: 100 W in every hour, and nothing known by the hour."""
    from dataclasses import replace

    from made_season import heater

    made = readings(season("2026-01-05", "2026-01-07"))
    made = replace(made, heating=(heater([("2026-01-05", "2026-01-08", 7.2, 1.0)]),))
    table = hour_table(made, None)
    assert table["unsure"].tolist() == pytest.approx([100.0] * 72) and table["watts"].isna().all()


def test_a_probes_mean_is_by_time_and_its_coldest_day_is_told() -> None:
    """10 °C by the hour over two days and 6 °C on the third: (10 · 48 + 8 · 1 + 6 · 23) / 72; readings too far apart to
    be joined have none."""
    edge = pd.date_range(ZERO, periods=73, freq="1h")
    values = pd.Series(np.where(np.arange(73) <= 48, 10.0, 6.0), index=edge)
    of = season("2026-01-05", "2026-01-07", loggers=(logger("bench"),))
    found = soil(readings(of, channels=(channel(values, "soil_temperature"),)))
    assert found.mean_c == pytest.approx((10 * 48 + 8 + 6 * 23) / 72)
    assert found.coldest is not None and found.coldest[0] == JAN[6]
    apart = pd.Series([9.0, 9.0], index=pd.DatetimeIndex([ZERO, ZERO + pd.Timedelta("30h")]))
    assert soil(readings(of, channels=(channel(apart, "soil_temperature", step_s=3600.0),))).mean_c is None


def test_gaps_of_equal_length_are_in_the_order_of_their_names() -> None:
    """Two loggers that left nothing on the second day."""
    edge = pd.date_range(ZERO, periods=25, freq="1h")
    of = season("2026-01-05", "2026-01-06", loggers=(logger("bench"), logger("attic")))
    both = tuple(channel(pd.Series(5.0, index=edge), logger=name) for name in ("bench", "attic"))
    found = record(readings(of, channels=both)).gaps
    assert found["logger"].tolist() == ["attic", "bench"] and found["hours"].tolist() == [24.0, 24.0]
