"""The winter outdoors, the house as others see it, and the sensors' band of the airing hours, on made-up seasons."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, readings, season

from reportgen.measures.damp import damp
from reportgen.measures.identity import hashed, identity
from reportgen.measures.weather import NO_HOLD, NO_OUTDOOR, coldest_outdoors, weather
from reportgen.readings.types import Readings
from reportgen.season.models import House, Share


def outdoors(first: str, last: str, values: list[float], step: str = "1h", **more: object) -> Readings:
    """A season whose outdoor air goes through these values again and again."""
    at = pd.date_range(first, pd.Timestamp(last) + pd.Timedelta(days=1), freq=step, tz=ZONE)
    repeated = [values[n % len(values)] for n in range(len(at))]
    of = season(first, last, logger=(logger("yard", where="outdoor"),), **more)
    air = channel(pd.Series(repeated, index=at), logger="yard", where="outdoor")
    return readings(of, channels=(air,))


def test_a_steady_winter_by_hand() -> None:
    """−2 °C for ten days under a hold of 5 °C: 7 K × 240 h = 1680 K h, every night −2 °C."""
    found = weather(outdoors("2026-01-05", "2026-01-14", [-2.0], aims={"hold_c": 5.0}))
    assert (found.mean_night_c, found.coldest_c, found.hours_recorded) == (-2.0, -2.0, 240.0)
    assert found.kelvin_hours_below_hold == pytest.approx(1680.0)
    assert not found.reasons


def test_each_day_counts_against_its_own_hold() -> None:
    """Four days without a hold, three at 5 °C, three at 1 °C, with 3 °C outdoors: 3 × 24 × 2 = 144 K h."""
    holds = (
        {"from": pd.Timestamp("2026-01-09").date(), "c": 5.0},
        {"from": pd.Timestamp("2026-01-12").date(), "c": 1.0},
    )
    found = weather(outdoors("2026-01-05", "2026-01-14", [3.0], aims={"hold": holds}))
    assert found.kelvin_hours_below_hold == pytest.approx(144.0)


def test_what_cannot_be_had_says_why() -> None:
    """Without a hold no kelvin-hours, without an outdoor logger nothing."""
    assert dict(weather(outdoors("2026-01-05", "2026-01-14", [3.0])).reasons) == {"kelvin_hours_below_hold": NO_HOLD}
    nothing = weather(readings())
    assert (nothing.mean_night_c, nothing.coldest_c, nothing.hours_recorded) == (None, None, 0.0)
    assert set(nothing.reasons.values()) == {NO_OUTDOOR}


def test_the_house_as_others_see_it() -> None:
    """The id as a hash that no case alters, the label as given; each missing key with its words."""
    bare = identity(readings())
    assert (bare.id, bare.label, bare.heated) == (None, None, False)
    assert set(bare.reasons) == {"id", "label", "kind", "floor_area_m2", "glazing_area_m2", "glazing"}
    of = season(house=House(id="Red Gate", floor_area_m2=12.0), share=Share(label="Plot 7"))
    heated = identity(readings(of, heating=(heater([("2026-01-05", "2026-01-06", 3.0, 1.0)]),)))
    assert (heated.id, heated.label, heated.heated) == (hashed("red  gate"), "Plot 7", True)
    assert len(hashed("red gate")) == 16 and hashed("red gate") != hashed("red gat")


def _damp(accuracy: dict[str, float | None]) -> Readings:
    """Two days at 10 °C and 82 % inside; 10 °C and 80 % outdoors: airing dries by a hair, all day."""
    at = pd.date_range("2026-01-05", "2026-01-07", freq="1h", tz=ZONE)
    of = season("2026-01-05", "2026-01-06", logger=(logger("bench"), logger("yard", where="outdoor")))
    rows = (("bench", "air_temperature", 10.0), ("bench", "relative_humidity", 82.0))
    rows += (("yard", "air_temperature", 10.0), ("yard", "relative_humidity", 80.0))
    return readings(
        of,
        channels=tuple(
            channel(
                pd.Series(value, index=at), measure, name, where="crop" if name == "bench" else "outdoor",
                accuracy=accuracy.get(f"{name} {measure}"),
            )
            for name, measure, value in rows
        ),
    )  # fmt: skip


ALL = ("bench air_temperature", "bench relative_humidity", "yard air_temperature", "yard relative_humidity")


@pytest.mark.parametrize(("wrong", "low"), [(0.5, 48.0), (1.5, 0.0), (3.0, 0.0)])
def test_the_band_of_the_airing_hours(wrong: float, low: float) -> None:
    """Humidities each wrong by half a point leave 81.5 against 80.5 %: still drier outdoors. Wrong by 1.5 points it is
    80.5 against 81.5 %, so that not one hour is sure; all 48 remain possible."""
    band = damp(_damp({name: wrong if "humidity" in name else 0.0 for name in ALL})).airing_band
    assert (band.low, band.high) == (pytest.approx(low), pytest.approx(48.0))


def test_a_band_needs_the_accuracy_of_all_four_sensors() -> None:
    """The logger whose accuracy is missing is named."""
    found = damp(_damp(dict.fromkeys(ALL[:3], 0.5)))
    assert found.airing_hours == pytest.approx(48.0)
    assert (found.airing_band.low, found.reasons["airing_band.low"]) == (None, "no accuracy given for yard")


def test_the_coldest_outdoors_is_one_figure_by_day_or_night() -> None:
    """A first morning at −9 °C (it belongs to no long night of the season), nights of −4 °C: it is −9."""
    at = pd.date_range("2026-01-05", periods=20 * 24, freq="1h", tz=ZONE)
    values = pd.Series(-4.0 + 0.1 * (np.arange(len(at)) % 2), index=at)
    values.iloc[5] = -9.0
    made = season("2026-01-05", "2026-01-24", logger=(logger("yard", where="outdoor"),))
    read = readings(made, channels=(channel(values, logger="yard", where="outdoor"),))
    assert coldest_outdoors(read) == weather(read).coldest_c == -9.0
    assert coldest_outdoors(readings(made)) is None
