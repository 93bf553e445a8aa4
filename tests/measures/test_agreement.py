"""Two loggers side by side: the difference between them, against differences put in by hand."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, readings

from reportgen.measures.agreement import agreement


def wave(step: str, shift: float = 0.0) -> pd.Series:
    """A straight ramp over four weeks plus a shift, so that joining readings loses nothing."""
    index = pd.date_range("2026-01-05", "2026-02-02", freq=step, tz=ZONE)
    hours = (index - index[0]) / pd.Timedelta(hours=1)
    return pd.Series(np.asarray(hours) * 0.01 + shift, index=index)


def test_a_shift_is_found_whatever_the_steps() -> None:
    """A second logger 0.8 K higher at another step differs by 0.8 K, all of the time."""
    pair = (
        channel(wave("10min"), accuracy=0.3),
        channel(wave("7min", 0.8), logger="second", accuracy=0.4),
    )
    (found,) = agreement(readings(channels=pair))
    assert (found.first, found.second) == ("bench", "second")
    assert [found.median, found.low, found.high] == pytest.approx([0.8, 0.8, 0.8])
    assert found.allowed == pytest.approx(0.7)
    assert found.beyond == pytest.approx(1.0)
    assert found.disagree


def test_accuracies_that_explain_it_are_no_disagreement() -> None:
    """0.5 K between two sensors of ± 0.4 K is within what they promise."""
    pair = (channel(wave("10min"), accuracy=0.4), channel(wave("10min", 0.5), logger="second", accuracy=0.4))
    (found,) = agreement(readings(channels=pair))
    assert not found.disagree
    assert found.beyond == 0.0


def test_without_accuracy_nothing_is_called_a_disagreement() -> None:
    """No allowance is made up."""
    pair = (channel(wave("10min")), channel(wave("10min", 5.0), logger="second"))
    (found,) = agreement(readings(channels=pair))
    assert found.allowed is None and found.beyond is None and not found.disagree


def test_only_one_place_and_one_measure_are_compared() -> None:
    """Crop and outdoors, air and soil, or two soil depths are not set against each other."""
    apart = (
        channel(wave("10min")),
        channel(wave("10min"), logger="out", where="outdoor"),
        channel(wave("10min"), "soil_temperature", logger="a", depth_m=0.1),
        channel(wave("10min"), "soil_temperature", logger="b", depth_m=0.3),
    )
    assert agreement(readings(channels=apart)) == ()


def test_loggers_that_never_ran_together_are_not_compared() -> None:
    """One stopped before the other began."""
    early, late = wave("10min")[:1000], wave("10min")[2000:]
    assert agreement(readings(channels=(channel(early), channel(late, logger="second")))) == ()
