"""Prices stay private wherever a line of the diary lies."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from made_season import readings

from reportgen.readings.sharing import _without_prices
from reportgen.readings.types import DiaryEntry


def test_what_was_put_up_before_the_season_keeps_its_price_to_itself() -> None:
    """As a line of the season does."""
    cover = DiaryEntry(
        line=2, date=dt.date(2025, 10, 12), time=None, kind="change", what="Cover", touches=("envelope",),
        reversible=None, hoped_for=(), until=None, cost=640.0, years=12.0, written=None, note="",
    )  # fmt: skip
    free = _without_prices(replace(readings(), diary=(cover,), diary_before=(cover,)))
    assert [entry.cost for entry in (*free.diary, *free.diary_before)] == [None, None]
