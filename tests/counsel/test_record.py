"""What the record's findings say of seasons made by hand; every sentence held to plain wording."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
from counsel import hand
from counsel.sentences import faults
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.record import record
from reportgen.season.sources import MeasureColumn, SensorCheck

BOTH = (logger("bench"), logger("out", where="outdoor"))


def steady(start: str = "2026-01-05", end: str = "2026-02-02", value: float = 5.0) -> pd.Series:
    """Ten-minute readings that all say the same."""
    index = pd.date_range(start, end, freq="10min", tz=ZONE)
    return pd.Series(value, index=index)


def results(*channels: Any, loggers: tuple[Any, ...] = ()) -> Any:
    """Only what these findings read."""
    of = season(loggers=loggers or (logger("bench"),))
    made = readings(of, channels=channels)
    return SimpleNamespace(season=of, readings=made, record=record(made))


def said(*channels: Any, **more: Any) -> dict[str, Any]:
    """Findings by slug, each sentence checked."""
    found = hand.told_on(results(*channels, **more), "record")
    sentences = [text for f in found for text in (f.claim, f.evidence, f.how_sure, f.next_step)]
    assert {s: faults(s) for s in sentences if faults(s)} == {}
    return {f.slug: f for f in found}


def test_a_whole_record_is_no_finding() -> None:
    """All of the winter, with an outdoor logger and accuracies: its tables say so, and nobody is told what to do."""
    out = channel(steady(value=-3.0), logger="out", where="outdoor", accuracy=0.5)
    assert said(channel(steady(), accuracy=0.5), out, loggers=BOTH) == {}


def test_a_long_gap_is_told_with_the_cold_outside_it() -> None:
    """Two days without a reading while it was −9 °C outside."""
    values = pd.concat([steady(end="2026-01-10"), steady("2026-01-12")])
    outside = steady(value=-3.0)
    outside.loc["2026-01-11 05:00"] = -9.0
    found = said(channel(values, accuracy=0.5), channel(outside, logger="out", where="outdoor"), loggers=BOTH)
    claim = found["longest-gap-in-the-record"].claim
    assert claim == (
        "Nothing was recorded at bench for 2.0\u00a0days, from 10\u00a0January\u00a02026, 00:00; outside it fell to "
        "\u22129.0\u00a0°C in that time."
    )


def test_set_aside_readings_are_named_with_their_reason() -> None:
    """5 % stuck is worth a sentence; rows outside the season are not the sensor's fault."""
    values = steady()
    aside = {"stuck": 500, "outside the season": 4000}
    faulty = replace(channel(values, set_aside=aside, accuracy=0.5), values_read=10_000)
    claim = said(faulty)["readings-set-aside"].claim
    assert claim == "5\u00a0% of what bench read as air temperature could not be used: 500\u00a0stuck."


def test_loggers_that_differ_more_than_they_may_are_told() -> None:
    """2 K apart, ± 0.5 K each; which of them is right is not claimed."""
    pair = (channel(steady(), accuracy=0.5), channel(steady(value=3.0), logger="second", accuracy=0.5))
    finding = said(*pair, loggers=(logger("bench"), logger("second")))["loggers-disagree"]
    assert finding.claim == (
        "“second” usually reads 2.0\u00a0K lower than “bench” in air temperature; their accuracies allow 1.0\u00a0K."
    )
    assert "not which of them is right" in finding.how_sure


def test_an_ice_check_beyond_the_accuracy_asks_for_an_offset() -> None:
    """It read 1.2 °C in melting ice with ± 0.5 given: take 1.2 K off. With the offset in place nothing is said."""
    check = SensorCheck(date=dt.date(2025, 10, 12), measure="air_temperature", reference=0.0, read=1.2)
    off = logger("bench", accuracy=0.5, checks=(check,))
    finding = said(channel(steady(), accuracy=0.5), loggers=(off,))["sensor-reads-off"]
    assert finding.claim.startswith("bench read 1.2\u00a0K too high in your check of 12\u00a0October")
    assert finding.next_step.startswith("Take off 1.2\u00a0K")
    column = MeasureColumn(column="Temp", accuracy=0.5, offset=-1.2)
    mended = off.model_copy(update={"measures": {"air_temperature": column}})
    assert "sensor-reads-off" not in said(channel(steady(), accuracy=0.5), loggers=(mended,))


def test_what_is_missing_is_asked_for() -> None:
    """No outdoor logger and no accuracy are each one finding; no reading at all is the only one."""
    assert {"no-outdoor-logger", "no-accuracy-given"} <= set(said(channel(steady())))
    assert list(said()) == ["nothing-recorded"]
