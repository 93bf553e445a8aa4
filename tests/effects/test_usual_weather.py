"""Nights moved to the usual weather, by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

from reportgen.effects.types import Outcome
from reportgen.effects.usual_weather import at_usual_weather


def outcome(nights: pd.DataFrame | None) -> Outcome:
    """A lift with these nights."""
    return Outcome(outcome="lift", unit="K", declared=True, nights=nights)


def test_nights_lie_off_the_line_by_what_the_weather_does_not_explain() -> None:
    """Without the change the estimate says 4, 6, 5, 5 K at −2, −4, −3, −3 °C: the line 2 − 1·T. The second night was
    2 K over its estimate (6 + 2 on the line), the fourth 1 K over (5 + 1); the first and third lie on it. A night
    without outdoor air is left out."""
    nights = pd.DataFrame(
        {
            "outdoor_c": [-2.0, -4.0, -3.0, -3.0, np.nan],
            "without_change": [4.0, 6.0, 5.0, 5.0, 5.0],
            "value": [4.0, 8.0, 5.0, 6.0, 9.0],
            "after": [False, True, False, True, True],
        }
    )
    found = at_usual_weather(outcome(nights))
    assert found is not None
    assert (found.level, found.slope) == (pytest.approx(2.0), pytest.approx(-1.0))
    assert found.outdoor_c.tolist() == [-2.0, -4.0, -3.0, -3.0]
    assert found.moved == pytest.approx([4.0, 8.0, 5.0, 6.0])
    assert found.after.tolist() == [0.0, 1.0, 0.0, 1.0]


def test_a_night_is_moved_by_the_weather_that_its_own_estimate_knows_and_the_line_does_not() -> None:
    """Estimates of 4, 6, 5 and 7 K at −2, −4, −3, −3 °C: slope −1 through their means (−3, 5.5), so the line says 5.5
    at −3. The night at its estimate of 7 K (a sunny day before) is moved to 5.5."""
    nights = pd.DataFrame(
        {
            "outdoor_c": [-2.0, -4.0, -3.0, -3.0],
            "without_change": [4.0, 6.0, 5.0, 7.0],
            "value": [4.0, 6.0, 5.0, 7.0],
            "after": [False] * 4,
        }
    )
    found = at_usual_weather(outcome(nights))
    assert found is not None
    assert found.moved == pytest.approx([4.5, 6.5, 5.5, 5.5])


@pytest.mark.parametrize("outdoor_c", [[-2.0, -3.0], [-2.0, -2.0, -2.0, -2.0]])
def test_two_nights_or_nights_all_alike_are_no_picture(outdoor_c: list[float]) -> None:
    """Nor is an outcome whose nights are not kept."""
    count = len(outdoor_c)
    nights = pd.DataFrame(
        {"outdoor_c": outdoor_c, "without_change": [5.0] * count, "value": [5.0] * count, "after": [False] * count}
    )
    assert at_usual_weather(outcome(nights)) is None
    assert at_usual_weather(outcome(None)) is None


@pytest.mark.parametrize(("name", "moved"), [("heat", [5.0, 7.0, 6.0, 0.0]), ("lift", [5.0, 7.0, 6.0, -1.0])])
def test_heat_is_never_moved_below_nothing(name: str, moved: list[float]) -> None:
    """The line 2.5 − 1·T says 5.5 at −3 °C. A day of 0.5 kWh whose estimate said 7 would come to −1: drawn at none."""
    nights = pd.DataFrame(
        {"outdoor_c": [-2.0, -4.0, -3.0, -3.0], "without_change": [4.0, 6.0, 5.0, 7.0],
         "value": [4.5, 6.5, 5.5, 0.5], "after": [False] * 4}
    )  # fmt: skip
    found = at_usual_weather(replace(outcome(nights), outcome=name))
    assert found is not None
    assert found.moved == pytest.approx(moved)
