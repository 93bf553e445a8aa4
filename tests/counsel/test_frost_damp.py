"""What the Frost and Damp findings say, and keep silent about, on seasons made by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from counsel.sentences import faults
from made_season import ZONE, channel, logger, planting, readings, season

from reportgen.counsel import damp as damp_rules
from reportgen.counsel import frost as frost_rules
from reportgen.counsel.frost_next import best_alarm
from reportgen.counsel.types import Finding
from reportgen.measures.damp import damp
from reportgen.measures.frost import Alarm, frost


def told(air: pd.Series | None, rh: pd.Series | None = None, **more: Any) -> dict[str, Finding]:
    """Findings by slug; of equal slugs the first."""
    books = {key: more.pop(key) for key in ("plantings", "diary", "inspections") if key in more}
    channels = [channel(air, accuracy=0.3)] if air is not None else []
    channels += [channel(rh, "relative_humidity", accuracy=3.0)] if rh is not None else []
    channels += [channel(air - 6, logger="yard", where="outdoor", accuracy=0.3)] if air is not None else []
    channels += more.pop("more_channels", ())
    of = season(loggers=(logger("bench", main=True), logger("yard", where="outdoor")), **more)
    made = readings(of, channels=tuple(channels), **books)
    r: Any = SimpleNamespace(season=of, readings=made, frost=frost(made), damp=damp(made))
    found = [*frost_rules.findings(r), *damp_rules.findings(r)]
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
    """8 °C all winter: the coldest moment is good news, and nothing speaks of frost."""
    found = told(steady(8.0))
    assert found["coldest-moment"].stake == "good news"
    assert not {"nights-below-the-line", "crop-in-its-damage-band", "which-alarm-line"} & set(found)


def test_a_frost_is_told_with_its_number_and_band() -> None:
    """−1 °C for three hours: one night, risk to crops, the band in the evidence, ends alike said once."""
    found = told(steady(8.0, dip=-1.0))
    assert "−1.0\u00a0°C" in found["coldest-moment"].claim and found["coldest-moment"].stake == "crop at risk"
    assert found["nights-below-the-line"].figure == "1"
    assert "they may, 1\u00a0night and 3\u00a0h" in found["nights-below-the-line"].evidence


def test_the_tenderest_crop_leads_and_a_loss_is_no_proof() -> None:
    """Cucumber (from 5 °C) and lettuce (from −2 °C) at −3 °C: both told; the loss is told as noted, not as caused."""
    books = (
        planting("cucumber", "east", "2026-01-05", lost=4.0),
        planting("lettuce", "east", "2026-01-05"),
        planting("kale", "east", "2026-01-05"),
    )
    crop = told(steady(8.0, dip=-3.0), plantings=books)["crop-in-its-damage-band"]
    assert "cucumber" in crop.claim and crop.stake == "crop lost"
    assert "cannot tell" in crop.evidence and crop.sure == "a hint"


def test_a_hardy_crop_alone_is_not_at_risk() -> None:
    """Leeks stand −3 °C."""
    assert "crop-in-its-damage-band" not in told(
        steady(8.0, dip=-3.0), plantings=(planting("leek", "east", "2026-01-05"),)
    )


def test_in_fahrenheit_every_temperature_is() -> None:
    """No °C and no K in any sentence."""
    for finding in told(steady(8.0, dip=-3.0), steady(85.0), show="us").values():
        text = f"{finding.claim} {finding.evidence} {finding.next_step} {finding.figure}"
        assert "°C" not in text and "\u00a0K" not in text


def test_damp_is_told_by_its_share() -> None:
    """85 % all winter is damp; 60 % is good news and has no spell."""
    damp_winter = told(steady(10.0), steady(85.0))
    assert damp_winter["hours-too-damp"].stake == "damp" and "longest-damp-spell" in damp_winter
    dry = told(steady(10.0), steady(60.0))
    assert dry["hours-too-damp"].stake == "good news"
    assert not {"longest-damp-spell", "grey-mould-weather", "hours-too-dry"} & set(dry)


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


def test_dry_and_hot_is_told_too() -> None:
    """30 °C at 40 % lacks 2.5 kPa: too dry all winter."""
    assert "hours-too-dry" in told(steady(30.0), steady(40.0))


def test_without_sensors_both_are_silent() -> None:
    """No crop air, no humidity: nothing."""
    assert told(None) == {}


def ring(alarm_c: float, rings: int, needed: int, warning_h: float | None) -> Alarm:
    """One row of the alarm table."""
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


def test_the_alarm_advised_warns_longest_without_crying_wolf() -> None:
    """4 °C warns longer but is needed once in ten; 3 °C half the time; with none worth hearing, the least bad."""
    rows = (ring(2, 3, 3, 0.5), ring(3, 4, 2, 1.5), ring(4, 20, 2, 4.0))
    assert best_alarm(rows) == rows[1]
    assert best_alarm((rows[2], ring(5, 40, 2, 6.0))) == rows[2]
    assert best_alarm((ring(2, 0, 0, None),)) is None


@pytest.mark.parametrize(("share", "words"), [(0.995, "over 99\u00a0%"), (1.0, "100\u00a0%"), (0.42, "42\u00a0%")])
def test_all_is_said_only_of_all(share: float, words: str) -> None:
    """99.5 % does not become 100 %, and what looks like all of it is told as a little less."""
    w = SimpleNamespace(percent=lambda value: f"{np.round(value):.0f}\u00a0%")
    assert damp_rules.most_of(w, share) == words  # type: ignore[arg-type]
