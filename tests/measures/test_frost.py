"""Frost margin on curves whose answers are worked out by hand beside each test."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, picking, planting, readings, season
from measures.explained import unexplained

from reportgen.measures.frost import frost
from reportgen.plain import plain
from reportgen.readings.types import Readings

KEYS = {"0", "1", "2", "3", "5"}


def curve(points: dict[str, float], step: str = "10min") -> pd.Series:
    """Readings on straight lines between the given local times."""
    knots = pd.Series(list(points.values()), index=pd.DatetimeIndex(list(points)).tz_localize(ZONE))
    index = pd.date_range(knots.index[0], knots.index[-1], freq=step)
    return knots.reindex(index.union(knots.index)).interpolate("time").reindex(index)


# 5 °C all through, but in one night from 5 °C at 00:00 down to −1 °C at 03:00 and back by 06:00: 2 K/h either way.
DIP = {
    "2026-01-05": 5.0,
    "2026-01-20": 5.0,
    "2026-01-20 03:00": -1.0,
    "2026-01-20 06:00": 5.0,
    "2026-02-02": 5.0,
}


def house(*channels: Any, loggers: tuple[Any, ...] = (), **more: Any) -> Readings:
    """Four weeks with these channels."""
    books = {key: more.pop(key) for key in ("plantings", "harvest", "diary") if key in more}
    named = loggers or (logger("bench", main=True),)
    yard = (logger("yard", where="outdoor"),)
    return readings(season(loggers=(*named, *yard), **more), channels=channels, **books)


def yard(values: pd.Series) -> Any:
    """The outdoor logger."""
    return channel(values, logger="yard", where="outdoor")


def flat(value: float) -> pd.Series:
    """The same all four weeks."""
    return curve({"2026-01-05": value, "2026-02-02": value})


def test_one_dip_counted_by_hand() -> None:
    """Below 0 °C for 1 h (half an hour each way), 0.5 K h; below 1 °C for 2 h, below 2, 3 and 5 °C for 3, 4, 6 h."""
    found = frost(house(channel(curve(DIP)), yard(flat(-3.0))))
    assert found.minimum.temperature_c == pytest.approx(-1.0)
    assert found.minimum.at == pd.Timestamp("2026-01-20 03:00", tz=ZONE)
    assert found.minimum.outdoor_c == pytest.approx(-3.0)
    assert {k: b.estimate for k, b in found.hours_below.items()} == pytest.approx(
        {"0": 1.0, "1": 2.0, "2": 3.0, "3": 4.0, "5": 6.0}
    )
    assert found.degree_hours_below.estimate == pytest.approx(0.5)
    assert {k: b.estimate for k, b in found.nights_below.items()} == dict.fromkeys(KEYS, 1)


def test_the_frost_line_is_the_grower_s() -> None:
    """With the line at 2 °C the margin is −3 K and 3 h lie below."""
    found = frost(house(channel(curve(DIP)), aims={"frost_c": 2.0}))
    assert found.minimum.margin_k == pytest.approx(-3.0)
    assert found.hours_below["0"].estimate == pytest.approx(3.0)


def test_the_band_shifts_every_reading() -> None:
    """± 0.5 K: 1.5 h if it read high all winter, 0.5 h if low; ± 1.5 K: no night, or one."""
    found = frost(house(channel(curve(DIP), accuracy=0.5)))
    assert (found.hours_below["0"].low, found.hours_below["0"].high) == pytest.approx((0.5, 1.5))
    wide = frost(house(channel(curve(DIP), accuracy=1.5)))
    assert (wide.nights_below["0"].low, wide.nights_below["0"].high) == (0, 1)


def test_without_accuracy_there_is_no_band() -> None:
    """Low and high are null, with the logger named."""
    found = plain(frost(house(channel(curve(DIP)))))
    assert found["hours_below"]["0"]["low"] is None
    assert found["reasons"]["hours_below.0.low"] == "no accuracy given for bench"


def test_the_coldest_place_counts() -> None:
    """Two loggers: the minimum is the colder one's, with its name; where one is silent the other speaks.

    The corner's two days at 4 °C and below touch the nights of the 18th, 19th and 20th.
    """
    second = curve({"2026-01-19": 4.0, "2026-01-20 03:00": -2.0, "2026-01-21": 4.0})
    loggers = (logger("bench", main=True), logger("corner"))
    found = frost(house(channel(curve(DIP)), channel(second, logger="corner"), loggers=loggers))
    assert (found.minimum.temperature_c, found.minimum.logger) == (pytest.approx(-2.0), "corner")
    assert found.nights == 27
    assert found.nights_below["5"].estimate == 3


def test_partly_logged_nights_are_counted_apart() -> None:
    """27 whole nights of 28 (the last reaches beyond the season); four hours lost of 15 leave under 80 %."""
    whole = frost(house(channel(flat(5.0))))
    assert (whole.nights, whole.nights_partly_logged) == (27, 1)
    values = flat(5.0)
    lost = (values.index > pd.Timestamp("2026-01-10 20:00", tz=ZONE)) & (
        values.index < pd.Timestamp("2026-01-11 00:00", tz=ZONE)
    )
    found = frost(house(channel(values[~lost])))
    assert (found.nights, found.nights_partly_logged) == (26, 2)


def test_cold_hours_without_a_reading() -> None:
    """−10 °C outdoors all through and six hours without crop air: 6 h, and no model says what they hid."""
    values = flat(5.0)
    start, end = (pd.Timestamp(t, tz=ZONE) for t in ("2026-01-12 00:00", "2026-01-12 06:00"))
    found = frost(house(channel(values[~((values.index > start) & (values.index < end))]), yard(flat(-10.0))))
    assert found.unrecorded_cold_hours == pytest.approx(6.0)
    assert found.could_have_been_c is None
    assert "alike outdoors" in found.reasons["could_have_been_c"]
    assert found.unrecorded_unknown_hours == pytest.approx(0.0, abs=0.35)  # at most the last step of the season
    mild = frost(house(channel(flat(5.0)), yard(flat(-4.9))))
    assert mild.unrecorded_cold_hours == 0.0


def without(values: pd.Series, start: str, end: str) -> pd.Series:
    """The readings less those between two moments."""
    begin, stop = pd.Timestamp(start, tz=ZONE), pd.Timestamp(end, tz=ZONE)
    return values[~((values.index > begin) & (values.index < stop))]


@pytest.mark.parametrize(("outdoor_c", "cold_h"), [(-0.5, 6.0), (0.5, 0.0)])
def test_cold_is_what_lies_under_the_frost_line(outdoor_c: float, cold_h: float) -> None:
    """Six hours without crop air: they count from 0 °C outdoors down, the frost line of this season, not from −5 °C."""
    lost = channel(without(flat(5.0), "2026-01-12 00:00", "2026-01-12 06:00"))
    assert frost(house(lost, yard(flat(outdoor_c)))).unrecorded_cold_hours == pytest.approx(cold_h)


def test_hours_of_which_outdoors_is_unknown_too_are_counted_apart() -> None:
    """Crop air lost from 00 to 06 h, outdoors (−3 °C) from 02 to 10 h: 2 h known to be cold, 4 h unknown. Without any
    outdoor logger all six are unknown, and none is said to be mild."""
    lost = channel(without(flat(5.0), "2026-01-12 00:00", "2026-01-12 06:00"))
    edge = frost(house(channel(flat(5.0)), yard(flat(-3.0)))).unrecorded_unknown_hours  # of the season's last step
    both = frost(house(lost, yard(without(flat(-3.0), "2026-01-12 02:00", "2026-01-12 10:00"))))
    assert both.unrecorded_cold_hours == pytest.approx(2.0)
    assert both.unrecorded_unknown_hours == pytest.approx(4.0 + edge)
    alone = frost(house(lost))
    assert alone.unrecorded_cold_hours is None and alone.reasons["unrecorded_cold_hours"]
    assert alone.unrecorded_unknown_hours == pytest.approx(6.0 + edge)
    assert alone.reasons["could_have_been_c"] != "no cold hour without a reading"
    assert frost(house(channel(flat(5.0)), yard(flat(-3.0)))).reasons["could_have_been_c"].startswith("no cold hour")


def test_a_crop_is_judged_only_while_it_stood() -> None:
    """Cleared on 15 January, the lettuce never met the dip of the 20th; kale, still there, met −1 °C."""
    books = (planting("lettuce", "east", "2026-01-05", "2026-01-15"), planting("kale", "east", "2026-01-06"))
    crops = frost(house(channel(curve(DIP)), plantings=books)).crops
    assert [c.coldest_c for c in crops] == pytest.approx([5.0, -1.0])
    assert [c.margin_k for c in crops] == pytest.approx([7.0, 3.0])  # bands from −2 °C and −4 °C
    assert crops[0].to == dt.date(2026, 1, 14)
    assert not any(c.assumed_standing for c in crops)


def test_a_crop_is_judged_at_its_own_bed() -> None:
    """Its bed's logger stayed at 5 °C while another corner froze."""
    cold = curve({"2026-01-05": -3.0, "2026-02-02": -3.0})
    loggers = (logger("bench", main=True, beds=("east",)), logger("corner", beds=("west",)))
    books = (planting("kale", "east", "2026-01-05"), planting("kale", "south", "2026-01-05"))
    made = house(channel(flat(5.0)), channel(cold, logger="corner"), loggers=loggers, plantings=books)
    assert [(c.place, c.coldest_c) for c in frost(made).crops] == [("bench", 5.0), ("coldest place", -3.0)]


def test_without_planting_dates_a_crop_stands_all_winter() -> None:
    """Named in season.toml with its own band, or only picked: assumed standing; unknown crops have no band."""
    crops = frost(
        house(
            channel(curve(DIP)),
            crop=({"name": "kale", "damage_below_c": -6.0},),
            harvest=(picking("2026-01-10", 1.0, crop="skirret"),),
        )
    )
    named, picked = crops.crops
    assert (named.margin_k, named.assumed_standing) == (pytest.approx(5.0), True)
    assert picked.margin_k is None
    assert crops.reasons["crops.1.margin_k"] == "no band known for this crop"


def test_the_week_before_and_what_was_survived() -> None:
    """Seven nights at 5 °C before the dip; with 0 lost, −1 °C is what it stood."""
    books = (planting("kale", "east", "2026-01-05", lost=0.0), planting("leek", "east", "2026-01-05", lost=2.0))
    kale, leek = frost(house(channel(curve(DIP)), plantings=books)).crops
    assert kale.week_before_c == pytest.approx(5.0)
    assert (kale.survived_c, leek.survived_c) == (pytest.approx(-1.0), None)


def test_hot_hours_need_a_screen() -> None:
    """Two hours above 25 °C by hand (20 to 30 and back in 4 h); an unscreened logger gives none, with the reason."""
    hot = curve({"2026-01-05": 20.0, "2026-01-10 12:00": 20.0, "2026-01-10 14:00": 30.0, "2026-01-10 16:00": 20.0,
                 "2026-02-02": 20.0})  # fmt: skip
    assert frost(house(channel(hot))).hot_hours.estimate == pytest.approx(2.0)
    bare = frost(house(channel(hot), loggers=(logger("bench", main=True, shielded=False),)))
    assert "sun" in bare.reasons["hot_hours.estimate"]


@pytest.mark.parametrize("channels", [(), (channel(flat(5.0)),), (yard(flat(-7.0)),)])
def test_every_null_has_its_reason(channels: tuple[Any, ...]) -> None:
    """With nothing, with crop air alone, with outdoor air alone."""
    section = plain(frost(house(*channels)))
    assert unexplained(section) == []
    assert set(section["nights_below"]) == KEYS


def test_what_a_gap_could_have_hidden() -> None:
    """An unheated house that follows T_in = 0.6 T_out + 0.4 · 8 + 0.5 exactly, blind for six hours at −10 °C outdoors:
    −6 + 3.2 + 0.5 = −2.3 °C. Every night lies on the line, so that its lower bound is the line."""
    out = flat(-2.0)
    wave = 3.0 * np.sin(np.arange(len(out)) / 40.0)
    out = out + wave
    start, end = (pd.Timestamp(t, tz=ZONE) for t in ("2026-01-20 00:00", "2026-01-20 06:00"))
    out[(out.index >= start) & (out.index <= end)] = -10.0
    inside = 0.6 * out + 0.4 * 8.0 + 0.5
    inside = inside[(inside.index <= start) | (inside.index >= end)]
    found = frost(house(channel(inside), yard(out)))
    assert found.unrecorded_cold_hours == pytest.approx(6.0, abs=0.2)
    assert found.could_have_been_c == pytest.approx(-2.3, abs=0.05)
