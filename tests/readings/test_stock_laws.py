"""Laws of a store, whatever was bought and whenever somebody looked: nothing appears, nothing vanishes."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from made_season import channel
from made_season import season as made
from readings.paper_books import YARD, outdoors

from reportgen.readings.degree_hours import pull
from reportgen.readings.stock import Burnt, Level, Lot, burnt

SEASON = made("2025-11-01", "2026-02-28", aims={"hold_c": 5.0}, logger=(YARD,))
PULL = pull(SEASON, (channel(outdoors(), where="outdoor", logger="yard"),)).as_stock(SEASON.start.timestamp())
START, END = SEASON.start.timestamp() - 80 * 86_400.0, SEASON.end.timestamp()

AMOUNT = st.floats(min_value=0.5, max_value=500.0)


@st.composite
def books(draw: Any) -> tuple[list[Lot], list[Level]]:
    """Up to six lots from 80 days before the season on, and up to three looks at what was there."""
    at = sorted(draw(st.lists(st.integers(1, 190), min_size=1, max_size=6, unique=True)))
    lots = [
        Lot(at=START + day * 86_400.0, amount=draw(AMOUNT), paid=draw(st.floats(min_value=0.0, max_value=900.0)))
        for day in at
    ]
    levels = [Level(at=lots[0].at, amount=0.0)]
    looks = sorted(draw(st.lists(st.integers(at[0] + 1, 199), max_size=3, unique=True)))
    for day in [*looks, None]:
        when = END if day is None else START + day * 86_400.0 + 3600.0
        there = levels[-1].amount + sum(lot.amount for lot in lots if levels[-1].at <= lot.at < when)
        levels.append(Level(at=when, amount=draw(st.floats(min_value=0.0, max_value=1.0)) * there))
    return lots, levels


def used_by(found: Burnt, instant: float) -> float:
    """Burnt up to an instant between two pieces."""
    return sum(piece.used for piece in found.pieces if piece.end <= instant + 1e-6)


@settings(max_examples=60, deadline=None)
@given(books())
def test_amounts_and_money_are_kept(book: tuple[list[Lot], list[Level]]) -> None:
    """Σ used + left = Σ bought; Σ paid for what was used + paid for what is left = Σ paid; left is what was seen."""
    lots, levels = book
    found = burnt(lots, levels, PULL)
    bought, paid = sum(lot.amount for lot in lots), sum(lot.paid for lot in lots)
    assert sum(piece.used for piece in found.pieces) + found.left == pytest.approx(bought, abs=1e-6)
    assert sum(piece.paid for piece in found.pieces) + found.left_paid == pytest.approx(paid, abs=1e-6)
    assert found.left == pytest.approx(levels[-1].amount, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(books())
@example(  # burnt to nothing in a summer without cold
    (
        [Lot(at=START + day * 86_400.0, amount=1.0, paid=0.0) for day in (1, 4, 5)],
        [Level(at=at, amount=0.0) for at in (START + 86_400.0, START + 5 * 86_400.0 + 3600.0, END)],
    )
)
def test_nothing_is_burnt_before_it_came_and_every_look_is_met(book: tuple[list[Lot], list[Level]]) -> None:
    """The pieces follow on one another; by the end of each no more is burnt than had come; each look is met."""
    lots, levels = book
    found = burnt(lots, levels, PULL)
    assert all(one.end == pytest.approx(other.start) for one, other in pairwise(found.pieces))
    assert all(piece.used >= -1e-9 for piece in found.pieces)
    for piece in found.pieces:
        came = sum(lot.amount for lot in lots if lot.at < piece.end)
        assert used_by(found, piece.end) <= came + 1e-6
    for level in levels[1:]:
        came = sum(lot.amount for lot in lots if lot.at < level.at)
        assert came - used_by(found, level.at) == pytest.approx(level.amount, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.lists(AMOUNT, min_size=1, max_size=5), st.floats(min_value=0.1, max_value=1.0))
def test_where_the_store_never_runs_short_the_rate_is_one(amounts: list[float], share: float) -> None:
    """All bought before the season and never looked at: one rate a degree-hour to the end."""
    lots = [Lot(at=START + 86_400.0 * n, amount=a, paid=1.0) for n, a in enumerate(amounts)]
    levels = [Level(at=lots[0].at, amount=0.0), Level(at=END, amount=(1 - share) * sum(amounts))]
    found = burnt(lots, levels, PULL)
    cold = [float(np.diff(PULL.until(np.array([piece.start, piece.end])))[0]) for piece in found.pieces]
    rates = [piece.used / pull_k for piece, pull_k in zip(found.pieces, cold, strict=True) if pull_k > 1.0]
    assert rates == pytest.approx([sum(amounts) * share / (695 * 24)] * len(rates), rel=1e-3)
