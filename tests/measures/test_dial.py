"""The dial's offsets, the crops' limits and the room between them, on nights that can be reckoned by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from heated_house import hours, steps, supply
from made_season import channel, logger, planting, readings, season

from reportgen.measures.dial import Offsets, dial_nights, offsets
from reportgen.measures.dial_alarm import alarm_between
from reportgen.measures.dial_crops import mild, night_limits
from reportgen.measures.dial_room import DialRoom, dial_room, down_by, lowest_dial, setting
from reportgen.measures.frost_nights import air_lines, night_table, outdoor_line
from reportgen.measures.frost_types import Alarm
from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import heat_by_hour
from reportgen.readings.types import DiaryEntry, Readings

DAYS = 42
DIAL_C = 6.0
FIRST = dt.date(2026, 1, 5)


def made(
    night_c: dict[int, float], flat: dict[int, int] | None = None, *, dial: float | None = DIAL_C, **more: Any
) -> Readings:
    """42 days by the hour: 12 °C by day; 5.5 °C from 18 to 09 h, or what `night_c` says of that night; the heater at
    400 W of 1000 in those hours, at 1000 W in the first `flat` of them."""
    at = hours(days=DAYS)
    hour = np.asarray(at.hour)
    night = np.asarray([(stamp - pd.Timedelta(hours=12)).date() for stamp in at])
    number = np.array([(day - FIRST).days for day in night])
    dark = (hour >= 18) | (hour < 9)
    inside = np.where(dark, [night_c.get(n, 5.5) for n in number], 12.0)
    since = (hour - 18) % 24
    hot = dark & (since < np.array([(flat or {}).get(n, 0) for n in number]))
    watts = np.where(hot, 1000.0, np.where(dark, 400.0, 0.0))
    source: dict[str, Any] = {"name": "fan heater", "role": "main", "fuel": "electricity", "logger": "plug"}
    if dial is not None:
        source["dial"] = ({"from": dt.date(2026, 1, 1), "c": dial},)
    plug = logger("plug", "heater_power", where="elsewhere")
    show = more.pop("show", "metric")
    of = season(
        first="2026-01-05",
        last=str(at[-1].date()),
        loggers=(logger("bench"), plug),
        heating=(source,),
        crops=tuple(more.pop("crops", ())),
        show=show,
    )
    bench = channel(steps(inside, at), accuracy=more.pop("accuracy", 0.5))
    return readings(of, channels=(bench,), heating=(supply(at, watts, rated_power_w=1000.0),), **more)


def told(of: Readings, found: tuple[Stretch, ...] = (), failed: tuple[dt.date, ...] = ()) -> pd.DataFrame:
    """Its nights."""
    table = night_table(of, air_lines(of), outdoor_line(of))
    return dial_nights(of, heat_by_hour(of), table, found, failed)


def room(of: Readings, found: tuple[Stretch, ...] = ()) -> DialRoom:
    """Its advice."""
    table = night_table(of, air_lines(of), outdoor_line(of))
    return dial_room(of, told(of, found), night_limits(of, table["inside_min"]))


def event(day: str) -> DiaryEntry:
    """An event of the diary."""
    rest: dict[str, Any] = {"reversible": None, "until": None, "cost": None, "years": None, "written": None}
    return DiaryEntry(
        line=2,
        date=dt.date.fromisoformat(day),
        time=None,
        kind="event",
        what="Door ajar",
        touches=(),
        hoped_for=(),
        note="",
        **rest,
    )


def found_5() -> tuple[Stretch, ...]:
    """The hold found, where no dial is written."""
    last = FIRST + dt.timedelta(days=DAYS - 1)
    return (Stretch(first=FIRST, last=last, hold_c=5.0, hours=400, how="heated night hours", kwh=1.0),)


def test_an_offset_is_the_night_s_coldest_air_less_the_dial() -> None:
    """5.5 − 6 = −0.5 K on 40 nights, 4.8 − 6 = −1.2 K on one, by hand; the 42nd night is not logged to 9 h."""
    seen = offsets(told(made({10: 4.8})))
    assert seen is not None
    assert seen.nights == 41
    assert seen.median_k == pytest.approx(-0.5)
    assert seen.coldest_k == pytest.approx(-1.2)
    assert seen.coldest_on == dt.date(2026, 1, 15)
    assert seen.loggers == ("bench",)


def test_the_night_of_an_event_or_of_a_failure_is_not_the_thermostat_s() -> None:
    """−3 °C on the night of a failure, −2 °C on that of an open door: neither is counted, nor the night before the
    day of the diary's line, which may have been meant."""
    of = made({10: -3.0, 20: -2.0}, diary=(event("2026-01-25"),))
    nights = told(of, failed=(dt.date(2026, 1, 15),))
    seen = offsets(nights)
    assert seen is not None
    assert seen.coldest_k == pytest.approx(-0.5)
    assert [day.day for day in nights.index[nights["eventful"]]] == [15, 24, 25]


def test_a_night_flat_out_is_not_counted_and_is_told_apart() -> None:
    """One hour of 15 at rated power is 7 % of the night, above 5 %."""
    nights = told(made({10: 1.0}, flat={10: 1}))
    seen = offsets(nights)
    assert seen is not None
    assert (seen.coldest_k, seen.flat_out_nights, seen.nights) == (pytest.approx(-0.5), 1, 40)


def test_without_a_rated_power_no_night_is_called_flat_out() -> None:
    """What is not known is not guessed: the cold night then counts, which can only raise the lowest setting."""
    of = made({10: 1.0}, flat={10: 1})
    bare = readings(of.season, channels=of.channels, heating=(supply_without_rating(of),))
    seen = offsets(told(bare))
    assert seen is not None
    assert (seen.coldest_k, seen.flat_out_nights) == (pytest.approx(-5.0), 0)


def supply_without_rating(of: Readings) -> Any:
    """The same heater, its rated power not given."""
    return replace(of.heating[0], rated_power_w=None)


def test_where_no_dial_is_written_the_hold_found_stands_for_it() -> None:
    """5.5 − 5 = 0.5 K; the advice names no setting."""
    of = made({}, dial=None, crops=[{"name": "leek"}])
    seen = offsets(told(of, found_5()))
    assert seen is not None
    assert seen.median_k == pytest.approx(0.5)
    found = room(of, found_5())
    assert found.dial_c is None
    assert found.held_c == pytest.approx(5.0)
    assert found.down_by_k == 3.0  # leek: −12 °C is far below; at most 3 K


@pytest.mark.parametrize(
    ("limit", "coldest", "accuracy", "lowest"),
    [(-2.0, -1.2, 0.5, 0.7), (0.0, -3.0, 0.2, 4.2), (5.0, 0.5, 1.0, 6.5)],
)
def test_the_lowest_dial_by_hand(limit: float, coldest: float, accuracy: float, lowest: float) -> None:
    """limit − coldest offset + accuracy + 1 K: −2 + 1.2 + 0.5 + 1 = 0.7, and so on."""
    assert lowest_dial(limit, coldest, accuracy) == pytest.approx(lowest)


def test_the_dial_goes_down_by_whole_half_degrees_and_three_at_most() -> None:
    """6 → 4.3: 1.7 K of room are 1.5; 6 → 0: 3; 6 → 7: none. In °F whole degrees: 1.7 K = 3.06 °F, so 3 °F."""
    assert down_by(6.0, 4.3, 0.5) == pytest.approx(1.5)
    assert down_by(6.0, 0.0, 0.5) == 3.0
    assert down_by(6.0, 7.0, 0.5) == 0.0
    assert down_by(6.0, 4.3, 5 / 9) == pytest.approx(3 * 5 / 9)


def test_the_tenderest_crop_with_a_known_limit_decides() -> None:
    """Pak choi from −2 °C beside leek from −12 °C; nights of 5.5 °C are mild, so 3 K are added: 1 °C. Coldest offset
    −1.2: lowest = 1 + 1.2 + 0.5 + 1 = 3.7 °C; 2.3 K of room are 2 K."""
    crops = [{"name": "pak choi", "damage_below_c": (-4.0, -2.0)}, {"name": "leek"}]
    found = room(made({10: 4.8}, crops=crops))
    assert (found.crop, found.limit_c, found.unhardened) == ("pak choi", pytest.approx(1.0), True)
    assert found.lowest_c == pytest.approx(3.7)
    assert found.down_by_k == pytest.approx(2.0)
    assert found.usually_c == pytest.approx(6.0 - 2.0 - 0.5)
    assert found.coldest_c == pytest.approx(6.0 - 2.0 - 1.2)
    assert found.reason is None
    assert found.short_by_k is None


def test_a_dial_without_room_is_told_how_much_it_lacks() -> None:
    """Tomato from 5 °C, 8 °C after a mild week: 8 + 0.5 + 0.5 + 1 = 10 °C, and the dial is at 6."""
    found = room(made({}, crops=[{"name": "tomato"}]))
    assert (found.down_by_k, found.short_by_k) == (0.0, pytest.approx(4.0))


def test_a_crop_without_a_band_stops_its_weeks_alone() -> None:
    """Rocket until 18 January (two weeks), then leek: four weeks can be advised, and rocket is named."""
    of = made({}, plantings=(planting("rocket", "a", "2026-01-01", "2026-01-19"), planting("leek", "b", "2026-01-01")))
    found = room(of)
    assert found.unknown == ("rocket",)
    assert found.stopped == (dt.date(2026, 1, 5), dt.date(2026, 1, 12))
    assert found.weeks[0] == dt.date(2026, 1, 19)
    assert (found.crop, found.down_by_k) == ("leek", 3.0)


def test_a_crop_without_a_band_all_winter_stops_the_advice() -> None:
    """Whatever else stood; what it lived through is no band."""
    of = made({}, plantings=(planting("rocket", "a", "2026-01-01", lost=0), planting("leek", "b", "2026-01-01")))
    found = room(of)
    assert found.down_by_k is None
    assert found.reason == "rocket has no known limit of cold"
    assert found.usually_c == pytest.approx(5.5)  # the nights are told all the same


def test_too_few_nights_no_crop_no_accuracy_are_said() -> None:
    """Each stops the advice with its own words."""
    few = made({}, flat=dict.fromkeys(range(20), 2), crops=[{"name": "leek"}])
    assert "only 21 nights count of the 30 needed" in (room(few).reason or "")
    assert "no crop with a known limit" in (room(made({})).reason or "")
    assert room(made({}, crops=[{"name": "leek"}], accuracy=None)).reason == "no accuracy is given for bench"


def test_without_a_heater_or_with_sums_alone_nothing_is_told() -> None:
    """No setting, and the reason why."""
    of = made({}, crops=[{"name": "leek"}])
    none = readings(season(first="2026-01-05", last="2026-02-15", loggers=(logger("bench"),)), channels=of.channels)
    assert room(none).reason == "no heater is listed in season.toml"
    at = hours(days=DAYS)
    weekly = supply(at, np.full(len(at), 400.0), every=168)
    assert "not known by the hour" in (room(readings(of.season, channels=of.channels, heating=(weekly,))).reason or "")


def test_in_degrees_fahrenheit_the_step_is_one_of_them() -> None:
    """3 K are 5.4 °F: 5 °F is the most."""
    found = room(made({}, crops=[{"name": "leek"}], show="us"))
    assert found.down_by_k == pytest.approx(5 * 5 / 9)


def test_mild_is_what_the_seven_nights_before_were() -> None:
    """Means of 4 °C harden, of 6 °C not; fewer than four nights known count as mild."""
    index = pd.Index([FIRST + dt.timedelta(days=n) for n in range(20)])
    soft = mild(pd.Series([4.0] * 10 + [6.0] * 10, index=index))
    assert soft.iloc[:4].all()
    assert not soft.iloc[4:11].any()
    assert soft.iloc[17:].all()


def test_of_several_settings_the_one_that_took_most_heat_is_spoken_of() -> None:
    """3 °C took 50 kWh on five nights, 6 °C 20 on ten."""
    frame = pd.DataFrame({"heated": True, "held_c": [3.0] * 5 + [6.0] * 10, "kwh": [10.0] * 5 + [2.0] * 10})
    assert setting(frame) == 3.0
    assert setting(frame, running=True) == 6.0  # a winter that still runs: what it is set to now


def alarm(c: float, rings: int, needed: int, warning_h: float | None) -> Alarm:
    """One line."""
    return Alarm(alarm_c=c, rings=rings, needed=needed, warning_h=warning_h)


def test_the_alarm_that_served_or_why_none_did() -> None:
    """Two hours ahead and mostly needed serves; minutes, mostly for nothing, silent and no line do not."""
    good, early = alarm(2.0, 3, 2, 2.0), alarm(3.0, 40, 3, 5.0)
    assert alarm_between((good, early), 1.0, 5.0).alarm == good
    assert alarm_between((alarm(2.0, 3, 3, 0.3), early), 1.0, 5.0).why == "minutes"
    assert alarm_between((early,), 1.0, 5.0).why == "for nothing"
    assert alarm_between((alarm(2.0, 0, 0, None),), 1.0, 5.0).why == "silent"
    assert alarm_between((good,), 3.0, 5.0).why == "no line"


def test_no_night_is_no_offset() -> None:
    """An empty season tells nothing."""
    nights = pd.DataFrame({"counted": pd.Series(dtype=bool), "offset_k": pd.Series(dtype=float)})
    assert offsets(nights) is None
    assert isinstance(offsets(told(made({}))), Offsets)
