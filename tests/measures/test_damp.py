"""Damp on readings whose hours are counted by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season
from measures.explained import unexplained

from reportgen.measures.damp import damp
from reportgen.measures.damp_mould import at_or_above
from reportgen.measures.exposure import line
from reportgen.plain import plain
from reportgen.readings.types import Inspection, Readings


def steps(parts: list[tuple[float, float]], start: str = "2026-01-06 00:00") -> pd.Series:
    """Minute readings: `hours` at each value in turn, the change within one minute."""
    values = np.concatenate([np.full(round(hours * 60), value) for hours, value in parts])
    return pd.Series(values, index=pd.date_range(start, periods=len(values), freq="1min", tz=ZONE))


def house(rh: pd.Series, temp: float = 10.0, out: tuple[float, float] | None = None, **more: Any) -> Readings:
    """A house of that humidity at one temperature; `out` is outdoor temperature and humidity."""
    accuracy, temp_accuracy = more.pop("accuracy", None), more.pop("temp_accuracy", None)
    inspections = more.pop("inspections", ())
    channels = [channel(rh, "relative_humidity", accuracy=accuracy), channel(rh * 0 + temp, accuracy=temp_accuracy)]
    if out is not None:
        usual = {"logger": "yard", "where": "outdoor"}
        channels += [channel(rh * 0 + out[0], **usual), channel(rh * 0 + out[1], "relative_humidity", **usual)]
    of = season(loggers=(logger("bench", main=True), logger("yard", where="outdoor")), **more)
    return readings(of, channels=tuple(channels), inspections=inspections)


def test_hours_above_both_lines() -> None:
    """10 h at 85 %, 5 h at 95 %, 9 h at 70 %: 15 h above 80 %, 5 h above 90 % (± the minute of each change)."""
    found = damp(house(steps([(10, 85), (5, 95), (9, 70)])))
    assert found.hours_recorded == pytest.approx(24, abs=0.02)
    assert found.hours_above_high.estimate == pytest.approx(15, abs=0.02)
    assert found.hours_above_extreme.estimate == pytest.approx(5, abs=0.02)
    assert found.longest_spell.hours == pytest.approx(15, abs=0.02)
    assert found.longest_spell.start == pd.Timestamp("2026-01-06", tz=ZONE)


def test_exactly_on_the_line_is_not_above_it() -> None:
    """80 % is not above 80 %; leaves are wet from 90 % on."""
    found = damp(house(steps([(10, 80), (5, 90)])))
    assert found.hours_above_high.estimate == pytest.approx(5, abs=0.02)
    assert found.hours_above_extreme.estimate == 0.0
    assert found.leaf_wet_hours.estimate == pytest.approx(5, abs=0.02)


def test_the_band_is_the_same_count_with_shifted_readings() -> None:
    """± 6 points: 85 % counts or not; 70 % never reaches 80 %: 5 to 15 h above 80 %."""
    found = damp(house(steps([(10, 85), (5, 95), (9, 70)]), accuracy=6.0))
    assert (found.hours_above_high.low, found.hours_above_high.high) == pytest.approx((5, 15), abs=0.05)


def test_a_gap_ends_a_spell() -> None:
    """20 h above the line with two hours missing in the middle: the longest is 10 h, the hours are 18."""
    rh = steps([(20, 85)])
    rh = rh[(rh.index <= rh.index[8 * 60]) | (rh.index >= rh.index[10 * 60])]
    found = damp(house(rh))
    assert found.hours_above_high.estimate == pytest.approx(18, abs=0.05)
    assert found.longest_spell.hours == pytest.approx(10, abs=0.05)


def test_dew_forms_where_the_glass_is_colder_than_the_dew_point() -> None:
    """10 °C, 80 %: dew point 6.7 °C. At −5 °C outdoors glass of U 5.8 is 1.3 °C: dew; of U 1.0, 8.5 °C: none."""
    rh = steps([(24, 80)])
    wet = damp(house(rh, out=(-5.0, 90.0), house={"u_value_w_m2k": 5.8}))
    dry = damp(house(rh, out=(-5.0, 90.0), house={"u_value_w_m2k": 1.0}))
    assert wet.glazing_dew_hours.estimate == pytest.approx(24, abs=0.05)
    assert wet.glazing_frost_hours == 0.0
    assert dry.glazing_dew_hours.estimate == 0.0


PANE = {"out": (0.0, 50.0), "house": {"u_value_w_m2k": 5.0}}


def test_roof_and_wall_by_their_own_surface_resistance() -> None:
    """20 °C against 0 °C through U 5: the pane of a roof (R_si 0.10) is 20 − 0.5 · 20 = 10 °C, of a wall (0.13) 7 °C.
    Tables: 1228 and 1002 Pa there, 2339 Pa at 20 °C: dew from 52.5 % on, on the wall from 42.8 % on."""
    found = damp(house(steps([(6, 53), (5, 52), (4, 43.4), (9, 42.3)]), temp=20.0, **PANE))
    assert found.glazing_dew_hours.estimate == pytest.approx(6, abs=0.05)
    assert found.wall_dew_hours == pytest.approx(15, abs=0.05)
    assert found.glazing_frost_hours == 0.0


def test_the_band_of_dew_is_of_both_sensors_wrong_either_way() -> None:
    """± 2 K and ± 2 points. 18 °C: pane 9 °C, 1148 of 2065 Pa, 55.6 % and 2 points more: from 57.6 % on; 22 °C: pane
    11 °C, 1313 of 2645 Pa, 49.6 % less 2: from 47.6 % on; as read from 52.5 % on. 58.6 % is dew whatever is wrong (3
    h), 56.6 % as read (4 h more), 48.6 % at the most (5 h more), 46.6 % never."""
    rh = steps([(3, 58.6), (4, 56.6), (5, 48.6), (12, 46.6)])
    found = damp(house(rh, temp=20.0, accuracy=2.0, temp_accuracy=2.0, **PANE)).glazing_dew_hours
    assert (found.estimate, found.low, found.high) == pytest.approx((7, 3, 12), abs=0.05)
    for known in ({"accuracy": 2.0}, {"temp_accuracy": 2.0}):
        half = damp(house(rh, temp=20.0, **known, **PANE))
        assert half.glazing_dew_hours.estimate == pytest.approx(7, abs=0.05)
        assert np.isnan([half.glazing_dew_hours.low, half.glazing_dew_hours.high]).all()
        for end in ("low", "high"):
            assert half.reasons[f"glazing_dew_hours.{end}"] == "no accuracy given for bench"


def test_of_two_spells_as_long_the_first_is_told() -> None:
    """Three hours above the line twice; with a minute more the second is the longest."""
    even = damp(house(steps([(2, 70), (3, 90), (2, 70), (3, 90), (2, 70)]))).longest_spell
    assert even.start == pd.Timestamp("2026-01-06 02:00", tz=ZONE) - pd.Timedelta("30s")
    longer = damp(house(steps([(2, 70), (3, 90), (2, 70), (3.1, 90), (2, 70)]))).longest_spell
    assert longer.start == pd.Timestamp("2026-01-06 07:00", tz=ZONE) - pd.Timedelta("30s")
    assert longer.hours == pytest.approx(3.1)
    dry = damp(house(steps([(4, 70)])))
    assert dry.longest_spell.hours is None and dry.reasons["longest_spell.hours"].startswith("not above the line")


def test_the_mean_dew_point_is_by_time() -> None:
    """20 °C: 52.5 % is a dew point of 10 °C, 42.8 % of 7 °C (tables: 1228, 1002 of 2339 Pa); 6 h and 18 h: 7.75 °C."""
    found = damp(house(steps([(6, 52.5), (18, 42.84)]), temp=20.0))
    assert found.mean_dew_point_c == pytest.approx(7.75, abs=0.05)
    bare = damp(readings(house(steps([(4, 70)])).season, channels=house(steps([(4, 70)])).channels[:1]))
    assert (bare.mean_dew_point_c, bare.mean_vpd_kpa, bare.near_wet_hours, bare.too_dry_hours) == (None,) * 4
    assert bare.grey_mould_spells.low is None and bare.reasons["grey_mould_spells.low"] == bare.reasons["mean_vpd_kpa"]


def test_near_the_dew_point_is_within_two_kelvin_and_too_dry_over_fourteen_hundred_pascals() -> None:
    """25 °C, 3169 Pa (tables): 55 % lack 1426 Pa, 56.5 % 1379 Pa. 20 °C: a dew point of 18.2 °C at 89.4 % (2090 Pa), of
    17.8 °C at 87.2 % (2038 Pa)."""
    assert damp(house(steps([(5, 55), (7, 56.5)]), temp=25.0)).too_dry_hours == pytest.approx(5, abs=0.05)
    assert damp(house(steps([(5, 89.4), (7, 87.2)]), temp=20.0)).near_wet_hours == pytest.approx(5, abs=0.05)


def test_a_pane_below_freezing_takes_frost_at_the_frost_point() -> None:
    """2 °C, 70 %: dew point −2.9, frost point −2.6 °C (ratio of the curves over water and ice). A pane at −2.75 °C
    lies between: frost, though dew would not form. U·R_si·(T_in − T_out) = 4.75 K with U 4.75, 10 K apart."""
    found = damp(house(steps([(24, 70)]), temp=2.0, out=(-8.0, 90.0), house={"u_value_w_m2k": 4.75}))
    assert found.glazing_frost_hours == pytest.approx(24, abs=0.05)
    # tables over ice: 517.7 Pa at −2, 476.1 at −3 °C, so 486 at −2.75; of 705.6 Pa at 2 °C that is 68.9 %
    edge = damp(house(steps([(6, 69.4), (9, 68.4)]), temp=2.0, out=(-8.0, 90.0), house={"u_value_w_m2k": 4.75}))
    assert edge.glazing_frost_hours == pytest.approx(6, abs=0.05)


def test_a_pane_at_freezing_takes_dew_and_no_frost() -> None:
    """10 °C against −10 °C through U 5: 10 − 0.5 · 20 = 0 °C, not below it; at 70 % the dew point is 4.8 °C."""
    found = damp(house(steps([(6, 70)]), temp=10.0, out=(-10.0, 90.0), house={"u_value_w_m2k": 5.0}))
    assert found.glazing_dew_hours.estimate == pytest.approx(6, abs=0.05) and found.glazing_frost_hours == 0.0


def test_airing_dries_where_the_air_outside_holds_less() -> None:
    """10 °C and 90 % hold 1105 Pa; fog at 5 °C holds 873 Pa: airing dries. Rain at 12 °C, 95 % holds 1333 Pa: not."""
    rh = steps([(12, 90), (12, 60)])
    assert damp(house(rh, out=(5.0, 100.0))).airing_hours == pytest.approx(12, abs=0.05)
    assert damp(house(rh, out=(12.0, 95.0))).airing_hours == 0.0
    assert damp(house(rh, out=(5.0, 100.0))).airing.water_gm3 == pytest.approx(8.46 - 6.80, abs=0.05)


def test_wet_spells_join_over_short_dry_gaps_and_count_wet_hours_only() -> None:
    """6 h wet, 3 h dry, 6 h wet is one spell of 12 wet hours; 5 h dry parts it in two."""
    joined = damp(house(steps([(2, 70), (6, 95), (3, 70), (6, 95), (7, 70)]), temp=20.0))
    assert [round(s.wet_h, 1) for s in joined.wet_spells] == [12.0]
    assert joined.grey_mould_spells.low == 1  # logit 0.384 at 12 h and 20 °C, see the outside test
    parted = damp(house(steps([(2, 70), (6, 95), (5, 70), (6, 95), (5, 70)]), temp=20.0))
    assert [round(s.wet_h, 1) for s in parted.wet_spells] == [6.0, 6.0]


def test_cold_spells_are_counted_apart_and_never_high() -> None:
    """40 wet hours at 8 °C would be high if clipped to 12 °C; they are told as too cold."""
    found = damp(house(steps([(2, 70), (40, 95), (2, 70)]), temp=8.0)).grey_mould_spells
    assert (found.high, found.too_cold_for_equation) == (0, 1)
    assert damp(house(steps([(2, 70), (40, 95), (2, 70)]), temp=15.0)).grey_mould_spells.high == 1


def test_at_or_above_is_what_is_not_below() -> None:
    """A curve that rises through 90 % over an hour: wet from the crossing on, the plateau at 90 % included."""
    index = pd.date_range("2026-01-06", periods=4, freq="15min", tz=ZONE)
    stretch = at_or_above(line(pd.Series([80.0, 100.0, 90.0, 90.0], index=index)), 90.0)
    assert sum(b - a for a, b in stretch) == pytest.approx(450 + 900 + 900)


def test_inspections_keep_their_zeros() -> None:
    """An inspection that found nothing stands in the night before it as such."""
    none = Inspection(line=2, date=dt.date(2026, 1, 7), bed=None, crop=None, found="", level=0, action="")
    table = damp(house(steps([(48, 85)]), inspections=(none,))).table
    assert table["found"][dt.date(2026, 1, 6)] == "nothing found"


def test_means_are_by_time() -> None:
    """12 h at 60 % and 12 h at 80 % at 20 °C: mean deficit 0.3 · 2339 Pa (psychrometric tables: 2339 Pa at 20 °C)."""
    found = damp(house(steps([(12, 60), (12, 80)]), temp=20.0))
    assert found.mean_vpd_kpa == pytest.approx(0.3 * 2.339, rel=2e-3)


@pytest.mark.parametrize("accuracy", [None, 3.0])
def test_every_null_has_its_reason(accuracy: float | None) -> None:
    """With humidity alone, and with nothing at all."""
    assert unexplained(plain(damp(house(steps([(24, 70)]), accuracy=accuracy)))) == []
    assert unexplained(plain(damp(readings()))) == []
