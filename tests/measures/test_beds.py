"""Strips per bed: spans, empty weeks and the refusal to share out what cannot be told apart."""

from __future__ import annotations

import datetime as dt

import pytest
from made_season import picking, planting, readings, season

from reportgen.measures.beds import beds, empty_days, midwinter


def test_midwinter_is_the_solstice_of_the_hemisphere_inside_the_season() -> None:
    """21 December in the north, 21 June in the south (the almanac's solstice day, give or take one), else none."""
    assert midwinter(dt.date(2025, 10, 18), dt.date(2026, 4, 12), 49.2) == dt.date(2025, 12, 21)
    assert midwinter(dt.date(2026, 4, 1), dt.date(2026, 9, 1), -43.0) == dt.date(2026, 6, 21)
    assert midwinter(dt.date(2026, 1, 5), dt.date(2026, 2, 1), 49.2) is None


def test_empty_days_are_those_no_planting_covers() -> None:
    """Overlapping plantings are not counted twice and both ends of a span are occupied."""
    first, last = dt.date(2026, 1, 1), dt.date(2026, 1, 10)
    stood = [(dt.date(2026, 1, 2), dt.date(2026, 1, 4)), (dt.date(2026, 1, 4), dt.date(2026, 1, 5))]
    assert empty_days(stood, first, last) == 6
    assert empty_days([], first, last) == 10


def test_a_strip_counts_its_own_pickings_only() -> None:
    """Two crops in one bed each own their weighings; per m² and week uses the days in the bed."""
    stood = (planting("spinach", "east", "2026-01-05", "2026-01-18", area_m2=2.0, sown=dt.date(2025, 12, 1)),)
    picks = (picking("2026-01-12", 4.0, bed="east"), picking("2026-01-13", 9.0, "kale", bed="east"))
    (strip,) = beds(readings(plantings=stood, harvest=picks)).strips
    assert strip.kg == 4.0
    assert strip.days_to_first == 42
    assert strip.kg_per_m2_week == pytest.approx(1.0)


def test_two_plantings_that_could_both_own_a_picking_get_no_weight() -> None:
    """The book names no bed and two plantings stood: neither is credited, and the strip says why."""
    stood = (planting("spinach", "east", "2026-01-05"), planting("spinach", "west", "2026-01-05"))
    found = beds(readings(plantings=stood, harvest=(picking("2026-01-12", 4.0),)))
    assert all(strip.kg is None and strip.reason for strip in found.strips)


def test_cultivars_are_compared_only_while_both_stood() -> None:
    """Weights before the later one was planted do not count for the earlier one."""
    made = season("2026-01-05", "2026-03-29")
    stood = (
        planting("spinach", "east", "2026-01-05", cultivar="Early", area_m2=1.0),
        planting("spinach", "west", "2026-02-02", cultivar="Late", area_m2=2.0),
    )
    picks = (
        picking("2026-01-12", 5.0, bed="east"),
        picking("2026-02-09", 1.0, bed="east"),
        picking("2026-02-10", 3.0, bed="west"),
    )
    (pair,) = beds(readings(made, plantings=stood, harvest=picks)).rivals
    assert pair.start == dt.date(2026, 2, 2)
    assert pair.kg_per_m2 == (1.0, 1.5)
