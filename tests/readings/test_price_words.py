"""Sums of money in the grower's words, where prices stay at home."""

from __future__ import annotations

import pytest

from reportgen.readings.price_words import prices_told
from reportgen.readings.told import Told


def warned(text: str, currency: str | None = "EUR") -> int:
    """How many warnings one line of the diary gives."""
    found = prices_told([Told(file="diary.csv", line=4, column="what", text=text)], currency)
    assert all((one.file, one.line, one.column, one.level) == ("diary.csv", 4, "what", "warning") for one in found)
    return len(found)


@pytest.mark.parametrize(
    "text",
    [
        "Bubble film for 40 \u20ac",
        "Film (\u20ac40)",
        "Film, 39,90\u00a0EUR",
        "EUR 40 of film",
        "Film, 40.- CHF",
        "Film for 40 euros",
        "a fan at $ 25",
        "a fan, \u00a325.50",
        "fan for 1 200 K\u010d",
        "forty euros of tape",
        "tape, 80 cents",
        "film at 12 eur",
    ],
)
def test_a_number_beside_a_currency_is_told(text: str) -> None:
    """By its sign, its code or its word, before the number or after it."""
    assert warned(text) == 1


@pytest.mark.parametrize(
    "text",
    [
        "Dehumidifier set to 84 %",
        "12 pots of kale",
        "2 pounds of lettuce given away",
        "6 ft of film",
        "3 kr\u00e4uter pots",
        "20 centimetres of straw",
        "TOP 3 beds",
        "Fan at 1500 W for 2 h",
        "Film of 2026-01-14",
        "the euro shop was closed",
    ],
)
def test_other_numbers_are_left_alone(text: str) -> None:
    """Weights, lengths, watts and dates; a pound is a weight where no pounds are paid."""
    assert warned(text) == 0


def test_pounds_are_money_where_they_are_paid() -> None:
    """With GBP as currency."""
    assert warned("film for 20 pounds", "GBP") == 1
