"""What the Frost and Damp findings say, and keep silent about, on seasons made by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import ZONE, channel, logger, readings, season

from reportgen.counsel.alarms import best_alarm
from reportgen.counsel.types import Finding
from reportgen.measures.damp import damp
from reportgen.measures.frost import Alarm, frost
from reportgen.readings.types import Inspection


def told(air: pd.Series | None, rh: pd.Series | None = None, **more: Any) -> dict[str, Finding]:
    """Findings by slug; of equal slugs the first."""
    books = {key: more.pop(key) for key in ("plantings", "diary", "inspections") if key in more}
    channels = [channel(air, accuracy=0.3)] if air is not None else []
    channels += [channel(rh, "relative_humidity", accuracy=3.0)] if rh is not None else []
    channels += [channel(air - 6, logger="yard", where="outdoor", accuracy=0.3)] if air is not None else []
    channels += more.pop("more_channels", ())
    of = season(loggers=(logger("bench", main=True), logger("yard", where="outdoor")), **more)
    made = readings(of, channels=tuple(channels), **books)
    r = hand.results(of, frost=frost(made), damp=damp(made), channels=tuple(channels), **books)
    found = hand.told_on(r, "frost", "damp")
    for finding in found:
        for text in (finding.claim, finding.evidence, finding.how_sure, finding.next_step, finding.caution):
            assert not text or faults(text) == []
    return {finding.slug: finding for finding in reversed(found)}


def steady(value: float, dip: float | None = None) -> pd.Series:
    """Four weeks at a value; with `dip`, three hours of it in the night of 19 January."""
    index = pd.date_range("2026-01-05", "2026-02-02", freq="10min", tz=ZONE)
    series = pd.Series(value, index=index)
    if dip is not None:
        series[
            (index >= pd.Timestamp("2026-01-20 02:00", tz=ZONE)) & (index < pd.Timestamp("2026-01-20 05:00", tz=ZONE))
        ] = dip
    return series


def test_a_warm_winter_is_good_news() -> None:
    """8 °C all winter: never colder is good news, and nothing speaks of frost or of how close it was."""
    found = told(steady(8.0))
    assert found["coldest-moment"].claim.startswith("It was never colder than 8.0")
    assert found["coldest-moment"].stake == "good news"
    assert not {"cold-event", "which-alarm-line"} & set(found)


def test_a_frost_that_no_event_tells_is_told_with_its_number() -> None:
    """−1 °C for three hours: a risk to crops, one kelvin under the line, with what the sensor may be off."""
    found = told(steady(8.0, dip=-1.0))["coldest-moment"]
    assert "−1.0\u00a0°C" in found.claim and "1.0\u00a0K under" in found.claim and found.stake == "crop at risk"
    assert "±\u00a00.3\u00a0K" in found.how_sure


def test_a_close_call_is_no_good_news() -> None:
    """1 °C above the line by a kelvin: told with its margin; 6 °C away it is only never colder."""
    assert "1.0\u00a0K above your frost line" in told(steady(8.0, dip=1.0))["coldest-moment"].claim
    assert "above" not in told(steady(8.0, dip=6.0))["coldest-moment"].claim


def test_in_fahrenheit_every_temperature_is() -> None:
    """No °C and no K in any sentence."""
    for finding in told(steady(8.0, dip=-3.0), steady(85.0), show="us").values():
        text = f"{finding.claim} {finding.evidence} {finding.next_step} {finding.figure}"
        assert "°C" not in text and "\u00a0K" not in text


def test_damp_is_told_by_its_share() -> None:
    """85 % all winter is damp; 60 % is good news. What stands in the tables alone is no finding."""
    damp_winter = told(steady(10.0), steady(85.0))
    assert damp_winter["hours-too-damp"].stake == "damp"
    dry = told(steady(10.0), steady(60.0))
    assert dry["hours-too-damp"].stake == "good news"
    assert not {"longest-damp-spell", "grey-mould-weather", "hours-too-dry", "dew-on-the-glass"} & set(dry)
    assert "past noon" not in dry["hours-too-damp"].next_step and "at noon" in damp_winter["hours-too-damp"].next_step


@pytest.mark.parametrize(("accuracy", "words"), [(3.0, "may be, 0\u00a0h to 672\u00a0h."), (None, "")])
def test_airing_hours_carry_their_sensors_band(accuracy: float | None, words: str) -> None:
    """82 % inside at 10 °C, 80 % outside at 4 °C: 672 of 672 hours above 80 %; sensors of ± 3 points leave 0 to 672.

    Without an accuracy no band is said.
    """
    air, inside, outside = steady(10.0), steady(82.0), steady(80.0)
    found = told(
        air,
        more_channels=(
            channel(inside, "relative_humidity", accuracy=accuracy),
            channel(outside, "relative_humidity", logger="yard", where="outdoor", accuracy=accuracy),
        ),
    )
    evidence = found["airing-or-drying"].evidence
    assert "672\u00a0h of 672\u00a0h" in evidence
    assert words in evidence and ("may be," in evidence) is bool(words)


def test_without_sensors_both_are_silent() -> None:
    """No crop air, no humidity: nothing but that nobody watched."""
    assert set(told(None)) == {"hours-nobody-watched"}


def ring(alarm_c: float, rings: int, needed: int, warning_h: float | None) -> Alarm:
    """One row of the alarm table."""
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


def test_the_alarm_advised_warns_longest_without_crying_wolf() -> None:
    """4 °C warns longer but is needed once in ten; 3 °C half the time; with none worth hearing, the least bad."""
    rows = (ring(2, 3, 3, 0.5), ring(3, 4, 2, 1.5), ring(4, 20, 2, 4.0))
    assert best_alarm(rows) == rows[1]
    assert best_alarm((rows[2], ring(5, 40, 2, 6.0))) == rows[2]
    assert best_alarm((ring(2, 0, 0, None),)) is None


@pytest.mark.parametrize(("found", "told_"), [("grey mould", True), ("nothing", False)])
def test_mould_that_the_index_did_not_rank_is_told(found: str, told_: bool) -> None:
    """4 °C and 95 % all winter is too cold to rank: mould found then did not wait for the index; no mould, no word."""
    looked = Inspection(
        line=2, date=dt.date(2026, 1, 20), bed=None, crop=None, found=found, level=2 if told_ else 0, action=""
    )
    said = told(steady(4.0), steady(95.0), inspections=(looked,))
    assert ("mould-index-did-not-fit" in said) is told_
    if told_:
        assert "1 of 1\u00a0visit" in said["mould-index-did-not-fit"].claim


def test_mould_after_a_ranked_spell_is_not_called_a_misfit() -> None:
    """20 °C and 95 % for weeks ranks high (Broome et al. 1995): the index had warned."""
    looked = Inspection(line=2, date=dt.date(2026, 1, 20), bed=None, crop=None, found="mould", level=2, action="")
    assert "mould-index-did-not-fit" not in told(steady(20.0), steady(95.0), inspections=(looked,))
