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


@pytest.mark.parametrize(("readings_both", "told"), [(47, 0), (48, 1)])
def test_a_day_of_half_hours_is_the_least(readings_both: int, told: int) -> None:
    """48 readings that both cover are compared, 47 are not."""
    few = wave("30min")[:readings_both]
    pair = (channel(few), channel(wave("30min", 0.5), logger="second"))
    found = agreement(readings(channels=pair))
    assert len(found) == told
    assert [one.readings for one in found] == [48] * told


def test_only_the_days_of_the_season_are_compared() -> None:
    """Differences of before the first day and after the last do not count: 5 K then, 0.5 K within."""
    index = pd.date_range("2026-01-01", "2026-02-06", freq="30min", tz=ZONE)
    of = readings().season
    inside = (index >= of.start) & (index < of.end)
    assert inside.any() and (index < of.start).any() and (index >= of.end).any()
    first = pd.Series(0.0, index=index)
    second = pd.Series(np.where(inside, 0.5, 5.0), index=index)
    (found,) = agreement(readings(channels=(channel(first), channel(second, logger="second"))))
    assert found.readings == int(inside.sum())
    assert found.low == pytest.approx(0.5)
    assert found.days["date"].min() == of.first_day and found.days["date"].max() == of.last_day
    assert found.days["difference"].tolist() == pytest.approx([0.5] * len(found.days))


def test_a_difference_of_exactly_the_allowance_is_none() -> None:
    """0.5 K between sensors of ± 0.25 K: neither beyond nor a disagreement (both are exact in binary)."""
    index = pd.date_range("2026-01-05", "2026-02-02", freq="30min", tz=ZONE)
    pair = (
        channel(pd.Series(1.0, index=index), accuracy=0.25),
        channel(pd.Series(1.5, index=index), logger="second", accuracy=0.25),
    )
    (found,) = agreement(readings(channels=pair))
    assert found.allowed == 0.5 and found.beyond == 0.0 and not found.disagree


def test_what_hangs_elsewhere_is_compared_with_nothing() -> None:
    """Two loggers at no named place may hang at two."""
    pair = (channel(wave("10min"), where="elsewhere"), channel(wave("10min", 1.0), logger="second", where="elsewhere"))
    assert agreement(readings(channels=pair)) == ()
