"""Failures in the record: what counts as one, by the heater log's own step."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.exposure import line
from reportgen.measures.frost_failure import failures, told_evenings
from reportgen.measures.frost_types import Failure
from reportgen.readings.types import DiaryEntry
from reportgen.season.sources import HeatSource

HOLD_C = 6.0


def at(moment: str) -> pd.Timestamp:
    """A local time of January."""
    return pd.Timestamp(f"2026-01-{moment}", tz=ZONE)


def found(
    air: dict[str, float], off: tuple[str, str] | None, measure: str = "heater_power", step: str = "5min", **more: Any
) -> tuple[Failure, ...]:
    """Failures of a house held at 6 °C whose air runs straight between the points, whose heater draws 1000 W but for
    the stretch `off`."""
    knots = pd.Series([6.0, *air.values(), 6.0], index=[at("05 00:00"), *map(at, air), at("10 00:00")])
    grid = pd.date_range(knots.index[0], knots.index[-1], freq="5min")
    curve = line(knots.reindex(grid.union(knots.index)).interpolate("time"))
    clock = pd.date_range("2026-01-05", "2026-01-10", freq=step, tz=ZONE)
    on = pd.Series(1.0, index=clock)
    if off is not None:
        on[(clock >= at(off[0])) & (clock < at(off[1]))] = 0.0
    hours = pd.Timedelta(step) / pd.Timedelta("1h")
    values = {
        "heater_power": on * 1000.0,
        "heater_on": on,
        "heater_energy": (on * hours).shift(1, fill_value=0).cumsum(),
    }
    values = {name: column.drop(column.index[more.get("dead", slice(0, 0))]) for name, column in values.items()}
    source = HeatSource(name="fan heater", fuel="electricity", logger="plug")
    made = season(heating=(source,), logger=(logger("plug", measure, where="elsewhere"),))
    plug = channel(values[measure], measure, "plug", where="elsewhere")
    read = readings(made, channels=(plug,), diary=more.get("diary", ()))
    hold = pd.Series(HOLD_C, index=pd.date_range("2026-01-05", "2026-01-10", freq="1h", tz=ZONE))
    return failures(read, curve, more.get("hold", hold))


# From 6 °C at 22:00 down 2 K/h to −4 °C at 03:00; warmed again from 06:00.
FALLS = {"06 22:00": 6.0, "07 03:00": -4.0, "07 06:00": -4.0, "07 11:00": 6.0}
OFF = ("06 22:00", "07 06:00")


@pytest.mark.parametrize("measure", ["heater_power", "heater_on", "heater_energy"])
def test_a_failure_begins_and_ends_by_the_log_s_own_step(measure: str) -> None:
    """Off from 22:00 to 06:00 in five-minute rows, 0 °C crossed at 01:00: 3 h; −4 °C at the lowest."""
    (one,) = found(FALLS, OFF, measure)
    assert abs(one.start - at("06 22:00")) <= pd.Timedelta("5min")
    assert abs(one.end - at("07 06:00")) <= pd.Timedelta("5min")
    assert one.hours == pytest.approx(8.0, abs=0.1)
    assert (one.minimum_c, one.source) == (pytest.approx(-4.0), "fan heater")
    assert one.line_crossed_after_min == pytest.approx(180.0, abs=5.0)


def test_it_begins_when_the_heat_was_missed() -> None:
    """Off since noon in the sun; the air came under the hold at 22:00, and that is the beginning."""
    (one,) = found({"06 08:00": 6.2, "06 12:00": 12.0, "06 21:30": 6.5} | FALLS, ("06 11:00", "07 06:00"))
    assert one.start == at("06 22:00")


def test_the_line_that_was_never_crossed() -> None:
    """Down to 2 °C only: a failure, and no minutes to the line."""
    (one,) = found({"06 22:00": 6.0, "07 00:00": 2.0, "07 06:00": 1.8, "07 08:00": 6.0}, OFF)
    assert one.line_crossed_after_min is None


def test_no_failure_while_warm_or_short_or_steady_or_heated_or_without_a_hold() -> None:
    """Near the hold; under 4 °C for an hour; heated all the time; lying still; no hold known."""
    assert found({"06 22:00": 6.0, "07 03:00": 4.2, "07 06:00": 4.2, "07 08:00": 6.0}, OFF) == ()
    assert found({"06 22:00": 6.0, "07 03:00": 4.5, "07 03:30": 3.5, "07 04:30": 3.5, "07 05:00": 6.0}, OFF) == ()
    assert found(FALLS, None) == ()
    steady = {"05 01:00": 3.0, "09 23:00": 2.5}
    assert found(steady, OFF) == ()
    assert (
        found(FALLS, OFF, hold=pd.Series(np.nan, index=pd.date_range("2026-01-05", periods=120, freq="1h", tz=ZONE)))
        == ()
    )


@pytest.mark.parametrize(("low_c", "count"), [(4.1, 0), (3.9, 1)])
def test_a_failure_lies_two_kelvin_under_the_hold(low_c: float, count: int) -> None:
    """Held at 6 °C: eight hours at 4.1 °C are none, at 3.9 °C one."""
    assert len(found({"06 22:00": 6.0, "06 22:30": low_c, "07 06:00": low_c, "07 06:30": 6.0}, OFF)) == count


@pytest.mark.parametrize(("end", "count"), [("07 00:51", 0), ("07 01:03", 1)])
def test_a_failure_lasts_two_hours(end: str, count: int) -> None:
    """From 6 to 3 °C between 22:55 and 22:58, so under 4 °C from 22:57, to a minute after `end`: 1 h 55 and 2 h 7."""
    up = str(pd.Timestamp(f"2026-01-{end}") + pd.Timedelta("3min"))[8:16]
    assert len(found({"06 22:00": 6.2, "06 22:55": 6.0, "06 22:58": 3.0, end: 3.0, up: 6.0}, OFF)) == count


@pytest.mark.parametrize(("low_c", "count"), [(2.45, 0), (2.35, 1)])
def test_a_failure_falls_by_a_kelvin_since_the_heat_was_missed(low_c: float, count: int) -> None:
    """3.4 °C when the heater stops: 0.95 K lower is a house that lies still, 1.05 K lower one that was left."""
    air = {"06 20:00": 6.0, "06 21:00": 3.4, "06 22:05": 3.4, "07 05:00": low_c, "07 06:00": low_c, "07 08:00": 6.0}
    assert len(found(air, OFF)) == count


@pytest.mark.parametrize(
    ("time", "counts"),
    [(dt.time(21, 46), True), (dt.time(21, 44), False), (dt.time(22, 59), True), (dt.time(23, 1), False)],
)
def test_the_diarys_time_counts_from_a_quarter_before_to_an_hour_after(time: dt.time, counts: bool) -> None:
    """The log, five minutes a step, shows the draw to end at 22:00 (with the row of 21:55 the last that drew)."""
    (one,) = found(FALLS, OFF, "heater_on", diary=(event("Power cut", time),))
    assert one.by_diary is counts
    if counts:
        assert one.start == pd.Timestamp.combine(dt.date(2026, 1, 6), time).tz_localize(ZONE)
        assert one.hours == pytest.approx((one.end - one.start) / pd.Timedelta("1h"))


@pytest.mark.parametrize("measure", ["heater_power", "heater_energy"])
def test_an_empty_record_is_not_known(measure: str) -> None:
    """The plug wrote nothing from 22:00 to 06:00 (rows 552 to 647 of five minutes since the 5th)."""
    assert found(FALLS, OFF, measure, dead=slice(46 * 12, 54 * 12)) == ()


def test_before_the_first_and_after_the_last_heat_nothing_failed() -> None:
    """A heater that came on the 8th, and one that was put away on the 6th."""
    assert found(FALLS, ("05 00:00", "08 00:00")) == ()
    assert found(FALLS, ("06 20:00", "10 01:00")) == ()


def test_a_coarse_counter_that_stands_still_may_still_heat() -> None:
    """A counter of whole kWh of a heater of 1 kW must stand still for two hours before that tells anything: in steps
    of one hour the night shows, and a counter of 5 kWh shows nothing."""
    assert len(found(FALLS, OFF, "heater_energy", step="1h")) == 1
    assert found(FALLS, OFF, "heater_energy", step="5h") == ()


def event(what: str, time: dt.time, day: int = 6, kind: str = "event") -> DiaryEntry:
    """A line of the diary of January."""
    return DiaryEntry(
        line=2, date=dt.date(2026, 1, day), time=time, kind=kind, what=what, touches=(), reversible=None, hoped_for=(),
        until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line_of_diary", "start"),
    [
        (event("Power cut", dt.time(22, 10)), "06 22:10"),
        (event("Fan heater found standing", dt.time(7, 30), 7), "06 22:00"),
        (event("An owl in the garden", dt.time(22, 10)), "06 22:00"),
        (event("Heater turned down", dt.time(22, 10), kind="change"), "06 22:00"),
    ],
)
def test_the_diary_s_own_time_of_it(line_of_diary: DiaryEntry, start: str) -> None:
    """An event that speaks of the heat, within the hour; not the time at which it was found, nor another matter."""
    (one,) = found(FALLS, OFF, diary=(line_of_diary,))
    assert abs(one.start - at(start)) <= pd.Timedelta("5min")
    assert one.by_diary == (start != "06 22:00")


def test_the_diary_s_nights_without_heat() -> None:
    """At 23:30 of the 12th to the 13th: two evenings; at 06:00 of the 15th: that of the 14th; of the 18th, no time: the
    17th and the 18th. What does not speak of heat, and a change of the heater, is none."""

    def told(day: int, clock: str | None, what: str, kind: str = "event", until: int | None = None) -> DiaryEntry:
        return DiaryEntry(
            line=2, date=dt.date(2026, 1, day), time=dt.time.fromisoformat(clock) if clock else None, kind=kind,
            what=what, touches=(), reversible=None, hoped_for=(), cost=None, years=None, written=None, note="",
            until=dt.date(2026, 1, until) if until else None,
        )  # fmt: skip

    made = readings(
        diary=(
            told(12, "23:30", "Bottle ran empty", until=13), told(15, "06:00", "Power cut"),
            told(18, None, "Fuse blown"), told(20, "23:00", "Door left open"), told(22, None, "New heater", "change"),
        )
    )  # fmt: skip
    assert {day.day for day in told_evenings(made)} == {12, 13, 14, 17, 18}
