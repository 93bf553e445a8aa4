"""Events of the sample season, of simulated winters of known truth and of odd ones."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pandas as pd
import pytest
from counsel.nights_by_hand import results
from kept_reviews import review_of
from odd_seasons import odd_season

from reportgen.counsel.events import events
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    NOT_KNOWN,
    OPEN_OR_ALTERED,
    TOO_COLD,
    UNHEATED,
    Event,
)
from reportgen.readings.season_reader import read_season
from reportgen.season.load import load_season

CAUSES = {HEAT_FAILED, HEAT_OUT, OPEN_OR_ALTERED, TOO_COLD, NO_HEAT_YET, NO_HEAT_ANY_MORE, UNHEATED, NOT_KNOWN}
ODD = (
    "one thermometer", "only soil", "one day", "240 days", "southern", "heater by meter", "deliveries only",
    "hold by date", "diary of every kind", "extremes", "plantings without crops", "daily from January", "polar night",
    "half-hour zone",
)  # fmt: skip
ZONE = "Europe/Bratislava"


def sound(found: tuple[Event, ...]) -> None:
    """Causes as defined, the worst first, cold ones apart and of seven days at most (a failure may begin before)."""
    cold = sorted((e for e in found if e.kind in ("frost", "failure")), key=lambda e: e.start)
    assert {e.cause for e in cold} <= CAUSES
    assert [e.rank for e in found] == sorted(e.rank for e in found)
    assert all(a.end <= b.start for a, b in pairwise(cold))
    assert all(e.start < e.end for e in found)
    assert all(e.end - e.start <= pd.Timedelta(days=7, hours=12) for e in cold)
    assert all(e.line_crossed_after_min is None or e.line_crossed_after_min >= 0 for e in found)


def test_the_sample_s_failure_is_one_event_with_its_cause_its_line_and_its_crops() -> None:
    """By the raw files: the plug's counter stands at 103.30 kWh from 22:30 to 06:30, the diary writes 22:40; the door
    logger writes 33.3 °F at 23:04 and 31.2 °F at 23:24, so 32 °F was crossed at 23:16.4; its lowest, 22.7 °F at 06:24,
    is −5.2 °C; the yard then lay between −7.5 and −7.3 °C."""
    found = review_of("sample").counsel.grounds.events
    sound(found)
    (night,) = [e for e in found if e.kind == "failure"]
    assert (night.cause, night.source, night.rank) == (HEAT_FAILED, "fan heater", 0)
    assert night.start == pd.Timestamp("2026-01-13 22:40", tz=ZONE)
    assert night.heat_back == pd.Timestamp("2026-01-14 06:30", tz=ZONE)
    assert night.line_crossed_after_min == pytest.approx(36.4, abs=0.1)
    assert (night.at, night.place) == (pd.Timestamp("2026-01-14 06:24", tz=ZONE), "door")
    assert night.minimum_c == pytest.approx((22.7 - 32) / 1.8, abs=0.01)
    assert night.outdoor_c == pytest.approx(-7.4, abs=0.1)
    assert night.diary == (
        "Heater stood still overnight: its overheat cut-out had tripped; a fleece had slipped against the grille",
    )
    assert not night.nobody_noted
    met = {crop.crop: (crop.lost, crop.cause) for crop in night.crops}
    assert (met["pak choi"], met["parsley"], met["lettuce"]) == ((7.0, "frost"), (0.0, None), (0.0, None))
    assert night.seen == ("glassy frozen leaves",)
    assert [e.cause for e in found if e.kind == "loss"] == ["grey mould", "slugs", "flea beetle"]


def test_the_sample_s_gas_behind_tape_is_told_first() -> None:
    """The diary: taped on 10 December until 21 February, gas lit from 3 to 12 January; season.toml: vented = false."""
    first = review_of("sample").counsel.grounds.events[0]
    assert (first.kind, first.days, first.source) == ("safety", 10, "gas heater")
    assert first.levers == ("Vents and door gap taped shut to keep the fog out",)
    assert (str(first.start.date()), str(first.end.date())) == ("2026-01-03", "2026-01-13")


def test_the_failing_heater_is_one_event_that_nobody_noted() -> None:
    """The simulated heater gives nothing from 22:00 to 07:00 of 17 January, in loggers of twenty minutes."""
    found = review_of("failing heater").counsel.grounds.events
    sound(found)
    (night,) = [e for e in found if e.kind == "failure"]
    assert (night.cause, night.nobody_noted, night.diary) == (HEAT_FAILED, True, ())
    truth = pd.Timestamp("2026-01-17 22:00", tz="Europe/Prague"), pd.Timestamp("2026-01-18 07:00", tz="Europe/Prague")
    assert abs(night.start - truth[0]) <= pd.Timedelta(minutes=40)
    assert night.heat_back is not None and abs(night.heat_back - truth[1]) <= pd.Timedelta(minutes=40)


@pytest.mark.parametrize("name", ["film that works", "perfect winter", "only temperature"])
def test_a_winter_without_a_failure_tells_none(name: str) -> None:
    """No heater stopped in these."""
    found = review_of(name).counsel.grounds.events
    sound(found)
    assert not [e for e in found if e.kind == "failure"]


@pytest.mark.parametrize("name", ODD)
def test_odd_seasons(name: str, tmp_path: Path) -> None:
    """No traceback, and what holds of all events."""
    sound(events(results(read_season(load_season(odd_season(name, tmp_path / "s"))))))
