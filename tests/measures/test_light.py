"""Daily light: which sensor it is taken from, gloomy runs, the dark days, a lamp's hours."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.light import LEAFY_NEED_MOL, light
from reportgen.measures.light_daily import lamp_hours, runs
from reportgen.plain import plain
from reportgen.readings.types import Readings


def steady(per_day: list[float]) -> pd.Series:
    """Twelve hours of steady light from 6 to 18 h, a value a day, readings every ten minutes."""
    at = pd.date_range("2026-01-05", periods=144 * len(per_day) + 1, freq="10min", tz=ZONE)
    day = np.minimum((np.arange(len(at)) // 144), len(per_day) - 1)
    lit = (at.hour >= 6) & (at.hour < 18)
    return pd.Series(np.where(lit, np.asarray(per_day)[day], 0.0), index=at)


def made(measure: str, per_day: list[float], where: str = "crop", **more: object) -> Readings:
    """A season with one light sensor."""
    name = "bench" if where == "crop" else "garden"
    one = channel(steady(per_day), measure, logger=name, where=where)
    return readings(season(loggers=(logger(name, where=where),), **more), channels=(one,))


def test_quanta_are_summed() -> None:
    """100 µmol/m²s for twelve hours is 4.32 mol/m²."""
    found = light(made("ppfd", [100.0] * 28))
    assert found.mean_daily_light_mol == pytest.approx(4.32, rel=0.002)  # the log's edges take ten minutes
    assert found.days_enough == 0


def test_radiation_outdoors_goes_through_the_cover() -> None:
    """100 W/m² for twelve hours is 4.32 MJ, 9.1 mol outdoors by 2.11 µmol/J, and 70 % of that under the cover."""
    found = light(made("solar_radiation", [100.0] * 28, "outdoor", house={"light_transmission": 0.7}))
    assert found.mean_daily_light_mol == pytest.approx(4.32 * 2.11 * 0.7, rel=0.002)
    assert found.daily.kind == "radiation outdoors"


def test_radiation_outdoors_without_the_covers_share_is_not_guessed() -> None:
    """No transmission given: no light inside, and the reason says what is missing."""
    found = light(made("solar_radiation", [100.0] * 28, "outdoor"))
    assert found.mean_daily_light_mol is None
    assert "light_transmission" in found.reasons["mean_daily_light_mol"]


def test_dark_days_need_only_the_place() -> None:
    """At 50° N every day of January is under ten hours; the shortest of that season is its first."""
    found = light(readings(season(place={"latitude": 50.0})))
    assert found.days_under_ten_hours == 28
    assert found.shortest_day == dt.date(2026, 1, 5)
    assert found.mean_daily_light_mol is None and found.reasons["mean_daily_light_mol"] == "no light was logged"


def test_gloomy_runs() -> None:
    """Four dim days among bright ones are one gloomy run."""
    days = [400.0] * 10 + [20.0] * 4 + [400.0] * 14
    found = light(made("ppfd", days, place={"latitude": 50.0}))
    assert [(run.start, run.days) for run in found.gloomy_runs] == [(dt.date(2026, 1, 15), 4)]
    assert found.gloomy_days == 4


def test_runs_end_at_gaps() -> None:
    """A day without a figure ends a run; the longest comes first."""
    flags = pd.Series([1, 1, 0, 1, 1, 1, np.nan, 1], index=pd.date_range("2026-01-01", periods=8).date)
    assert [run.days for run in runs(flags, 2)] == [3, 2]


def test_lamp_hours_by_hand() -> None:
    """A lack of 6.48 mol is ten hours of a lamp of 180 µmol/m²s; no lack, no hours."""
    assert lamp_hours([6.48, -1.0], 180.0).tolist() == pytest.approx([10.0, 0.0])


def test_lamp_of_the_season() -> None:
    """Each day lacks the need less what came; hours, energy and money follow, and 24 h is all that a day has."""
    lamp = {"name": "lamp", "kind": "lamp", "rated_power_w": 200.0, "hours_per_day": 4.0, "ppfd": 180.0, "price": 0.3}
    from reportgen.season import Appliance

    found = light(made("ppfd", [100.0] * 28, appliances=(Appliance(**lamp),)))
    each = (LEAFY_NEED_MOL - 4.32) * 1e6 / (180 * 3600)
    assert found.lamp is not None and found.lamp.hours == pytest.approx(28 * each, rel=0.002)
    assert found.lamp.cost == pytest.approx(28 * each * 0.2 * 0.3, rel=0.002)
    weak = light(made("ppfd", [100.0] * 28, appliances=(Appliance(**(lamp | {"ppfd": 50.0})),)))
    assert weak.lamp is not None and weak.lamp.days_too_short == 28
    assert (weak.lamp.hours, weak.lamp.hours_a_day) == (28 * 24.0, 24.0)
    assert weak.lamp.kwh == pytest.approx(28 * 24 * 0.2) and weak.lamp.cost == pytest.approx(28 * 24 * 0.2 * 0.3)
    for hours, short in ((23.5, 0), (24.5, 28)):  # the lamp that would need so many hours each day
        ppfd = (LEAFY_NEED_MOL - 4.32) * 1e6 / 3600 / hours
        close = light(made("ppfd", [100.0] * 28, appliances=(Appliance(**(lamp | {"ppfd": ppfd})),)))
        assert close.lamp is not None and close.lamp.days_too_short == short
    unpriced = light(made("ppfd", [100.0] * 28, appliances=(Appliance(**(lamp | {"price": None})),)))
    assert unpriced.lamp is not None and (unpriced.lamp.kwh, unpriced.lamp.cost) == (found.lamp.kwh, None)


@pytest.mark.parametrize(("kind", "ppfd"), [("lamp", None), ("fan", 180.0)])
def test_only_a_lamp_whose_light_is_known_is_reckoned_with(kind: str, ppfd: float | None) -> None:
    """A lamp without its ppfd, or something else that has one, is none; the reason says what is missing."""
    from reportgen.season import Appliance

    one = Appliance(name="a", kind=kind, rated_power_w=200.0, hours_per_day=4.0, ppfd=ppfd)
    found = light(made("ppfd", [100.0] * 28, appliances=(one,)))
    assert found.lamp is None and found.reasons["lamp_hours_needed"] == "no lamp with its ppfd is listed"


def test_the_dark_days_end_with_the_last_under_ten_hours() -> None:
    """49° N from 5 January on: days lengthen through ten hours within the season (about 13 February, almanac)."""
    found = light(readings(season("2026-01-05", "2026-03-15", place={"latitude": 49.0})))
    assert found.ten_from == dt.date(2026, 1, 5) and found.days_under_ten_hours is not None
    assert found.ten_to == found.ten_from + dt.timedelta(days=found.days_under_ten_hours - 1)
    assert dt.date(2026, 2, 10) <= found.ten_to <= dt.date(2026, 2, 16)
    summer = light(readings(season("2026-05-05", "2026-06-15", place={"latitude": 49.0})))
    assert (summer.ten_from, summer.ten_to, summer.days_under_ten_hours) == (None, None, 0)


def test_minutes_of_the_lamp_count_and_days_with_light_enough_do_not() -> None:
    """Two days lack about a third of a mol, half an hour of 200 µmol/m²s; by what the table says of each of them."""
    from reportgen.season import Appliance

    full = LEAFY_NEED_MOL / 4.32 * 100.0
    lamp = Appliance(name="lamp", kind="lamp", logger="plug", ppfd=200.0)
    found = light(made("ppfd", [full * 1.1] * 20 + [full * 0.97] * 2 + [full * 1.1] * 6, appliances=(lamp,)))
    lack = LEAFY_NEED_MOL - found.daily.table["inside_mol"].iloc[20:22].to_numpy()
    assert (lack > 0.2).all() and (lack < 0.7).all()
    assert found.lamp is not None and found.lamp.days == 2 and found.lamp.days_too_short == 0
    assert found.lamp.hours == pytest.approx(lack.sum() * 1e6 / (200 * 3600))
    assert found.lamp.hours_a_day == pytest.approx(found.lamp.hours / 2)
    assert (found.lamp.kwh, found.lamp.cost) == (None, None)
    assert found.lack_mol == pytest.approx(lack.mean())
    bright = light(made("ppfd", [full * 1.1] * 28, appliances=(lamp,)))
    assert bright.lamp is not None and (bright.lamp.hours, bright.lamp.days, bright.lamp.hours_a_day) == (0.0, 0, 0.0)


def test_every_key_of_the_section_stands() -> None:
    """An empty season has all keys, null, each with a reason."""
    section = plain(light(readings()))
    keys = ("days_under_ten_hours", "shortest_day_h", "mean_daily_light_mol", "lamp_hours_needed")
    assert all(section[key] is None and section["reasons"][key] for key in keys)


@pytest.mark.parametrize("latitude", [-90.0, -70.0, 0.0, 70.0, 90.0])
@pytest.mark.parametrize("where", ["crop", "outdoor"])
def test_light_at_every_latitude_has_no_number_that_is_none(latitude: float, where: str) -> None:
    """A lamp burns through the polar night: its light is counted, and no share of a sun that does not rise is told."""
    found = light(made("ppfd", [100.0] * 28, where, place={"latitude": latitude}, house={"light_transmission": 0.7}))
    share = found.daily.table["share"].dropna()
    assert np.isfinite(share).all()
    assert len(share) == (0 if latitude >= 70 else 28)  # all of it is dusk there
    assert found.mean_daily_light_mol == pytest.approx(4.32 * (0.7 if where == "outdoor" else 1.0), rel=0.002)


def test_a_sun_that_stays_down_or_up_is_told_as_a_stretch() -> None:
    """70° in January 2026 by the NREL algorithm (pvlib): down to the 16th in the north, up to the 23rd in the south."""
    north = light(readings(season(place={"latitude": 70.0})))
    south = light(readings(season(place={"latitude": -70.0})))
    assert north.sunless is not None and (north.sunless.start, north.sunless.end) == (
        dt.date(2026, 1, 5),
        dt.date(2026, 1, 16),
    )
    assert north.sunlit is None and south.sunless is None
    assert south.sunlit is not None and south.sunlit.end == dt.date(2026, 1, 23)
    assert (north.shortest_day_h, north.days_under_ten_hours) == (0.0, 28)
