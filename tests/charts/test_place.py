"""Axes whatever their numbers: ticks that rise, enclose the values and can be put into words."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.charts.place import broken, nice_ticks, tick_words, wrap

ENDS = st.floats(min_value=-1e15, max_value=1e15, allow_nan=False)


@pytest.mark.parametrize(
    ("low", "high"),
    [(0, 0), (0, 1e-12), (0, 1e-300), (5e-324, 1e-300), (1e12, 1e12 + 1e-3), (-1e-9, 1e-9), (0, 1e300), (math.nan, 1)],
)
def test_ticks_of_next_to_nothing(low: float, high: float) -> None:
    """A cost per kilogram of next to nothing, or of more than there is money, has an axis all the same."""
    _rise(nice_ticks(low, high))


@given(low=ENDS, high=ENDS)
def test_ticks_rise_and_enclose(low: float, high: float) -> None:
    """For any two ends, up to a billionth of them."""
    ticks = nice_ticks(low, high)
    _rise(ticks)
    if high > low:
        slack = 1e-6 + 1e-6 * max(abs(low), abs(high))
        assert ticks[0] <= low + slack and high - slack <= ticks[-1]


def _rise(ticks: list[float]) -> None:
    assert 2 <= len(ticks) <= 20
    assert all(before < after for before, after in itertools.pairwise(ticks))
    assert len(tick_words(ticks, "kg")) == len(ticks)


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        ("appliances", ["appli-", "ances"]),
        ("oil-filled radiator", ["oil-", "filled", "radiator"]),
        ("heat", ["heat"]),
        ("12\u202f345\u202f678", ["12\u202f345\u202f6…"]),  # a number is never parted
    ],
)
def test_a_word_too_long_for_its_room_is_parted_and_not_cut(words: str, lines: list[str]) -> None:
    """Nine characters: at its hyphen, else in its middle."""
    assert wrap(broken(words, 9), 9) == lines
