"""The record says of a channel that writes too seldom why it tells no night, no hour and no extreme."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.measures.record import ChannelRecord, record


def recorded(every_h: float, measure: str = "air_temperature") -> ChannelRecord:
    """One logger that writes every so many hours, in its record."""
    at = pd.date_range("2026-01-05", "2026-02-02", freq=pd.Timedelta(hours=every_h), tz=ZONE, inclusive="left")
    values = pd.Series(5.0 + np.sin(np.arange(len(at))), index=at)
    made = channel(values, measure, step_s=3600.0 * every_h)
    (found,) = record(readings(season(loggers=(logger("bench", measure),)), channels=(made,))).channels
    return found


@pytest.mark.parametrize(
    ("every_h", "measure", "words"),
    [
        (8.0, "air_temperature", "once every 8\u00a0h, and readings more than 3\u00a0h apart"),
        (24.0, "soil_temperature", "about once a day, and readings more than 6\u00a0h apart"),
    ],
)
def test_a_seldom_channel_says_how_often_and_what_is_the_most(every_h: float, measure: str, words: str) -> None:
    """3 h, soil 6 h (season-folder contract): beyond it no minimum and no maximum stands, and the reason says it."""
    found = recorded(every_h, measure)
    assert words in found.why_seldom and "“bench” was read" in found.why_seldom
    assert (found.minimum, found.maximum) == (None, None)
    assert found.mean == pytest.approx(5.0, abs=0.3)  # a sine's mean over whole turns


@pytest.mark.parametrize(
    ("every_h", "measure"), [(1.0, "air_temperature"), (3.0, "air_temperature"), (6.0, "soil_temperature")]
)
def test_up_to_the_most_there_is_nothing_to_say(every_h: float, measure: str) -> None:
    """At the limit itself readings are still joined."""
    found = recorded(every_h, measure)
    assert found.why_seldom == ""
    assert found.minimum is not None and found.maximum is not None
