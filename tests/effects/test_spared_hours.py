"""The season's hours as the spared heat needs them: money, full power, hours on; by hand."""

from __future__ import annotations

from itertools import pairwise
from types import MappingProxyType

import numpy as np
import pandas as pd
import pytest
from effects.heaters import hourly, meter
from made_season import ZONE, readings, season

from reportgen.effects.spared_hours import dark_hours, heat_hours, on_hours, room
from reportgen.readings.lever_types import Lever, State
from reportgen.season.models import Place

OF = season("2026-01-05", "2026-01-06")
HOURS = pd.date_range("2026-01-05", periods=48, freq="1h", tz=ZONE)


def test_heat_by_the_hour_with_its_money() -> None:
    """1 kWh for 24 hours, 0.949 for 12 and 0.95 for 12, at 0.5 each; of a heater of 1 kW the last is full power, the
    one before is not; room for 0, 0.051 and 0.05; the dehumidifier gives nothing to it."""
    kwh = np.repeat([1.0, 0.949, 0.95], [24, 12, 12])
    log = hourly("2026-01-05", kwh.tolist(), rated_power_w=1000.0)
    dryer = hourly("2026-01-05", [0.4] * 48, name="dryer", role="appliance", rated_power_w=400.0)
    found = heat_hours(readings(OF, heating=(log,), appliances=(dryer,)))
    assert found is not None and found.money is not None
    assert found.kwh == pytest.approx(kwh) and found.money == pytest.approx(0.5 * kwh)
    assert found.room == pytest.approx(1.0 - kwh)
    assert found.flat_out.tolist() == [True] * 24 + [False] * 12 + [True] * 12
    assert found.heated.all() and len(found.dark) == 48


def test_what_is_not_known_gives_nothing() -> None:
    """Hours without a record count 0 and are not heated; 1.9 % of the largest is not heated, 2.1 % is; without a price
    no money; without a rated power no full power and room without end; without a heater nothing at all."""
    kwh = [1.0] * 40 + [0.019, 0.021] + [float("nan")] * 6
    found = heat_hours(readings(OF, heating=(hourly("2026-01-05", kwh, price=float("nan")),)))
    assert found is not None and found.money is None
    assert found.kwh[-6:].tolist() == [0.0] * 6
    assert found.heated.tolist() == [True] * 40 + [False, True] + [False] * 6
    assert not found.flat_out.any() and np.isinf(found.room).all()
    assert heat_hours(readings(OF)) is None


def test_a_meter_is_never_at_full_power() -> None:
    """A sum of two days beside a log: only the log can be seen to be flat out; an appliance at full power is none."""
    log = hourly("2026-01-05", [0.5] * 48, rated_power_w=2000.0)
    sums = meter(["2026-01-05", "2026-01-07"], [1.0], name="tube", rated_power_w=20.0)
    lamp = hourly("2026-01-05", [0.1] * 48, name="lamp", role="appliance", rated_power_w=100.0)
    found = heat_hours(readings(OF, heating=(log, sums), appliances=(lamp,)))
    assert found is not None and not found.flat_out.any()


def test_room_of_no_hours_is_none() -> None:
    """An empty season has no hour and so no bound; no heater gives what was seen at most."""
    assert len(room(np.array([]), [])) == 0
    assert room(np.array([1.0, 3.0]), []) == pytest.approx([2.0, 0.0])


def test_a_lever_is_on_in_the_hours_that_begin_in_its_states() -> None:
    """On from 3:00 to 5:30 and from 22:30 on: the hours of 3, 4, 5 and from 23 h to the season's end."""

    def at(clock: str) -> pd.Timestamp:
        return pd.Timestamp(f"2026-01-05 {clock}", tz=ZONE)

    knots = [at("00:00"), at("03:00"), at("05:30"), at("22:30"), pd.Timestamp("2026-01-07", tz=ZONE)]
    states = tuple(State(from_=a, to=b, on=bool(n % 2)) for n, (a, b) in enumerate(pairwise(knots)))
    lever = Lever(
        name="film", thing=None, touches=(), entries=(), states=states, hours_on=0.0, hours_off=0.0,
        reasons=MappingProxyType({}), lines=(2,), undone=MappingProxyType({}),
    )  # fmt: skip
    assert np.flatnonzero(on_hours(lever, HOURS)).tolist() == [3, 4, 5, *range(23, 48)]


def test_the_sun_of_the_middle_of_an_hour() -> None:
    """20 March on the equator: the sun's centre stands on the horizon at about 6 and 18 h local mean time (almanac: the
    equation of time is 7 min), so that at longitude 0 the hours of 6 to 17 UTC are light by their middles. Without a
    longitude the zone's meridian is taken, 15° east for one hour: by the zone's clock the same hours."""
    utc = pd.date_range("2026-03-20", periods=24, freq="1h", tz="UTC")
    light = ~dark_hours(utc, season(place=Place(latitude=0.0, longitude=0.0)))
    assert np.flatnonzero(light).tolist() == list(range(6, 18))
    local = pd.date_range("2026-03-20", periods=24, freq="1h", tz="Etc/GMT-1")
    assert np.flatnonzero(~dark_hours(local, season(place=Place(latitude=0.0)))).tolist() == list(range(6, 18))
    east = ~dark_hours(utc, season(place=Place(latitude=0.0, longitude=90.0)))
    assert np.flatnonzero(east).tolist() == list(range(12))


def test_surely_dark_by_the_clock() -> None:
    """Without a latitude from 21 to 5 h."""
    assert np.flatnonzero(dark_hours(HOURS[:24], season())).tolist() == [0, 1, 2, 3, 4, 21, 22, 23]
