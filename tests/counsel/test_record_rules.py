"""Findings of the sensors at their bounds, by channels and checks made by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.sentences import faults
from made_season import ZONE, channel, logger, readings, season

from reportgen.counsel import record_sensors
from reportgen.counsel.facts import Facts
from reportgen.counsel.record import gap
from reportgen.counsel.types import Said
from reportgen.measures.agreement import Agreement
from reportgen.measures.record import ChannelRecord
from reportgen.season.sources import MeasureColumn, SensorCheck

NBSP = "\u00a0"
START = pd.Timestamp("2026-01-05", tz=ZONE)


def stands(found: Said | None) -> Said:
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


def record(name: str = "bench", measure: str = "air_temperature", **more: Any) -> ChannelRecord:
    usual: dict[str, Any] = {
        "values_read": 4000,
        "values_used": 4000,
        "set_aside": {},
        "first": START,
        "last": START,
        "step_s": 600.0,
        "hours_recorded": 672.0,
        "hours_in_season": 672.0,
        "minimum": 1.0,
        "mean": 5.0,
        "maximum": 9.0,
        "where": "crop",
        "accuracy": 0.5,
    }
    return ChannelRecord(logger=name, measure=measure, **(usual | more))


def facts(
    *channels: ChannelRecord,
    agreement: Any = (),
    gaps: Any = None,
    loggers: Any = None,
    read: Any = (),
    show: str = "metric",
) -> Facts:
    of = season(loggers=loggers or (logger("bench", main=True), logger("door")), show=show)
    table = pd.DataFrame(gaps or [], columns=["logger", "measure", "start", "end", "hours"])
    r: Any = SimpleNamespace(
        season=of,
        readings=readings(of, channels=read),
        record=SimpleNamespace(channels=channels, agreement=agreement, gaps=table),
    )
    return Facts.of(r)


def test_the_record_is_judged_by_the_main_crop_logger_s_air() -> None:
    """Air before humidity, crop before elsewhere, often before seldom, main before others; what read nothing is out."""
    air, door = record(), record("door")

    def spoken(*channels: ChannelRecord) -> tuple[str, str]:
        found = record_sensors.speaks(facts(*channels).r)
        return found.logger, found.measure

    assert spoken(record(measure="relative_humidity"), door, air) == ("bench", "air_temperature")
    assert spoken(record(where="outdoor"), door)[0] == "door" and spoken(record(why_seldom="x"), door)[0] == "door"
    assert spoken(record(first=None), door)[0] == "door"
    assert spoken(record("door", where="outdoor"), record(measure="relative_humidity"))[0] == "door"
    plain = facts(record("b"), record("a"), loggers=(logger("a"), logger("b")))
    assert record_sensors.speaks(plain.r).logger == "a"  # in the order of season.toml
    assert record_sensors.nothing_read(facts(record(first=None)).r) and not record_sensors.nothing_read(plain.r)


@pytest.mark.parametrize(("bad", "told"), [(40, True), (39, False)])
def test_a_hundredth_set_aside_is_told(bad: int, told: bool) -> None:
    """40 of 4000; what says nothing of the sensor does not count."""
    found = record_sensors.aside(facts(record(set_aside={"stuck": bad, "repeated": 900})))
    assert (found is not None) == told
    if found is not None:
        assert "40 of 4\u202f000" in stands(found).evidence and "900" not in found.claim
        assert found.weight == pytest.approx(0.1)


def test_of_several_the_channel_with_the_largest_share_is_told() -> None:
    """20 % before 10 %; a channel that read nothing has no share."""
    many = facts(record(set_aside={"stuck": 400}), record("door", set_aside={"stuck": 800}), record("x", values_read=0))
    assert (
        "door" in stands(record_sensors.aside(many)).claim and f"20{NBSP}%" in stands(record_sensors.aside(many)).figure
    )
    assert record_sensors.aside(facts(record())) is None


def pair(median: float, allowed: float | None = 1.0, second: str = "door", **more: Any) -> Agreement:
    usual: dict[str, Any] = {
        "measure": "air_temperature",
        "where": "crop",
        "first": "bench",
        "readings": 900,
        "low": 0.0,
        "high": 0.0,
        "beyond": 0.5,
        "days": pd.DataFrame(),
    }
    return Agreement(median=median, allowed=allowed, second=second, **(usual | more))


def test_loggers_that_differ_by_more_than_their_accuracies_are_told() -> None:
    """1.5 K lower where 1.0 are allowed; of two the one with the most times its allowance; 1.0 is no more."""
    found = stands(record_sensors.disagree(facts(agreement=(pair(-1.5),))))
    assert f"1.5{NBSP}K lower" in found.claim and f"allow 1.0{NBSP}K" in found.claim and found.weight == 1.5
    assert found.sources[0].value == -1.5 and f"900{NBSP}readings" in found.evidence.replace(" ", NBSP)
    assert record_sensors.disagree(facts(agreement=(pair(1.0), pair(5.0, None)))) is None
    two = facts(agreement=(pair(3.0, 2.0), pair(1.9, 1.0, "yard"), pair(-1.2, 1.0, "far")))
    assert (
        "yard" in stands(record_sensors.disagree(two)).claim and "higher" in stands(record_sensors.disagree(two)).claim
    )
    us = stands(record_sensors.disagree(facts(agreement=(pair(-1.5),), show="us")))
    assert f"2.7{NBSP}°F lower" in us.claim
    damp = stands(record_sensors.disagree(facts(agreement=(pair(6.0, 4.0, measure="relative_humidity"),))))
    assert f"6.0{NBSP}points higher" in damp.claim


def checked(
    *checks: tuple[float, float],
    accuracy: float | None = 0.5,
    offset: float = 0.0,
    unit: str | None = "degC",
    measure: str = "air_temperature",
) -> Facts:
    column = MeasureColumn(column="Temp", accuracy=accuracy, offset=offset, unit=unit)
    made = tuple(
        SensorCheck(date=dt.date(2025, 10, 1 + n), measure=measure, reference=right, read=read)
        for n, (right, read) in enumerate(checks)
    )
    one = logger("bench", main=True).model_copy(update={"measures": {measure: column}, "checks": made})
    return facts(loggers=(one,))


def test_a_check_beyond_the_accuracy_is_told_with_what_to_take_off() -> None:
    """0.6 K high of ± 0.5: take off 0.6; of two the farther; 0.5 is within; an offset that takes it out, or no
    accuracy, no word."""
    found = stands(record_sensors.ice(checked((0.0, 0.6))))
    assert (
        f"0.6{NBSP}K too high" in found.claim and "Take off" in found.next_step and found.weight == pytest.approx(0.6)
    )
    assert f"1{NBSP}October" in found.claim and "read 0.6 where 0.0" in found.evidence
    far = stands(record_sensors.ice(checked((0.0, 0.6), (0.0, -0.9))))
    assert f"0.9{NBSP}K too low" in far.claim and "Add" in far.next_step and f"2{NBSP}October" in far.claim
    assert (
        record_sensors.ice(checked((0.0, 0.5))) is None
        and record_sensors.ice(checked((0.0, 0.6), accuracy=None)) is None
    )
    assert record_sensors.ice(checked((0.0, 0.6), offset=-0.6)) is None
    assert f"0.6{NBSP}°F" in stands(record_sensors.ice(checked((32.0, 32.6), unit="degF"))).claim
    assert (
        f"6.0{NBSP}points"
        in stands(record_sensors.ice(checked((75.0, 81.0), unit="%", measure="relative_humidity"))).claim
    )


def test_a_sensor_read_too_seldom_is_told_with_how_often() -> None:
    """28 readings, once a day; the crop's air first; others counted; a single one is read once."""
    seldom: dict[str, Any] = {"why_seldom": "x", "values_used": 28, "step_s": 86_400.0}
    found = stands(
        record_sensors.seldom(facts(record(measure="relative_humidity", **seldom), record("door", **seldom), record()))
    )
    assert "“door” was read about once a day" in found.claim and f"28{NBSP}days" in found.evidence
    assert f"1{NBSP}other channel" in found.evidence and (found.figure, found.figure_note) == ("28", "readings in all")
    one = stands(record_sensors.seldom(facts(record(why_seldom="x", values_used=1, step_s=None))))
    assert "read once in" in one.claim and one.figure_note == "reading in all" and "other" not in one.evidence
    outside = facts(record("yard", where="outdoor", **seldom), record(measure="relative_humidity", **seldom))
    assert "“bench”" in stands(record_sensors.seldom(outside)).claim
    assert record_sensors.seldom(facts(record())) is None
    assert (
        "read once in"
        in stands(record_sensors.seldom(facts(record(why_seldom="x", values_used=1, step_s=600.0)))).claim
    )
    twice = stands(record_sensors.seldom(facts(record(why_seldom="x", values_used=2, step_s=86_400.0 * 9))))
    assert f"once every 9{NBSP}days" in twice.claim


def test_the_missing_accuracy_and_outdoor_logger() -> None:
    """Told where something was read and they are missing."""
    assert "bench" in stands(record_sensors.accuracy(facts(record(accuracy=None)))).claim
    assert (
        record_sensors.accuracy(facts(record())) is None and record_sensors.accuracy(facts(record(first=None))) is None
    )
    assert "Hang one logger" in stands(record_sensors.outdoors(facts(record()))).next_step
    yard = (logger("bench", main=True), logger("yard", where="outdoor"))
    assert "fresh battery" in stands(record_sensors.outdoors(facts(record(), loggers=yard))).next_step
    hours = pd.Series(1.0, pd.date_range(START, periods=480, freq="1h"))
    there = (channel(hours, logger="yard", where="outdoor"),)
    assert record_sensors.outdoors(facts(record(), loggers=yard, read=there)) is None
    daily = (channel(hours[::24], logger="yard", where="outdoor", step_s=86_400.0),)
    assert record_sensors.outdoors(facts(record(), loggers=yard, read=daily)) is None
    assert record_sensors.outdoors(facts(record(first=None))) is None


def gaps(hours: float, *more: float, name: str = "bench", **of: Any) -> Said | None:
    start = START + pd.Timedelta(days=2)
    rows = [(name, "air_temperature", start, start + pd.Timedelta(hours=h), h) for h in (hours, *more)]
    return gap(facts(record(**of.pop("record", {})), gaps=rows, **of))


@pytest.mark.parametrize(("hours", "told"), [(24.0, True), (23.9, False)])
def test_a_gap_of_a_day_is_told(hours: float, told: bool) -> None:
    """It holds a whole night; weight in days."""
    found = gaps(hours)
    assert (found is not None) == told
    if found is not None:
        assert stands(found).weight == 1.0 and "only gap" in found.evidence
        assert f"longest of 2{NBSP}gaps" in stands(gaps(hours, 5.0)).evidence
        assert gaps(hours, name="door") is None and gaps(hours, record={"why_seldom": "x"}) is None


def test_how_cold_it_was_outside_in_a_gap() -> None:
    """−9 °C; two hours of it missing outside too are told; under an hour known is not on record."""
    yard = (logger("bench", main=True), logger("yard", where="outdoor"))
    start = START + pd.Timedelta(days=2)
    hours = pd.date_range(start, start + pd.Timedelta(hours=48), freq="1h")
    outside = pd.Series(-3.0, hours)
    outside[hours[5]] = -9.0

    def told(values: pd.Series) -> str:
        return stands(gaps(48.0, loggers=yard, read=(channel(values, logger="yard", where="outdoor"),))).claim

    assert f"−9.0{NBSP}°C" in told(outside) and "as far as is known" not in told(outside)
    assert "as far as is known" in told(outside[:-2]) and f"2{NBSP}h are not on record" in told(outside[:-2])
    assert "as far as is known" not in told(outside[:-1])
    assert "not on record either" in stands(gaps(48.0)).claim
