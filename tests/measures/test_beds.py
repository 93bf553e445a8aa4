"""Strips per bed: spans, bare ground, the last sowing in time, and what cannot be told apart is not shared out."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from made_season import picking, planting, readings, season

from reportgen.measures.beds import beds, dark_from, midwinter
from reportgen.season.models import Place


def test_midwinter_is_the_solstice_of_the_hemisphere_inside_the_season() -> None:
    """21 December in the north, 21 June in the south (the almanac's solstice day, give or take one), else none."""
    assert midwinter(dt.date(2025, 10, 18), dt.date(2026, 4, 12), 49.2) == dt.date(2025, 12, 21)
    assert midwinter(dt.date(2026, 4, 1), dt.date(2026, 9, 1), -43.0) == dt.date(2026, 6, 21)
    assert midwinter(dt.date(2026, 1, 5), dt.date(2026, 2, 1), 49.2) is None


DOOR = (
    planting("pak choi", "door", "2025-09-22", "2026-01-18", area_m2=1.1),
    planting("parsley", "door", "2025-08-15", area_m2=0.5),
)


def test_a_bed_is_bare_in_part_though_another_crop_still_stands_in_it() -> None:
    """Pak choi is cleared on 18 January, parsley stays: 1.1 of 1.6 m² from 19 January to 12 April, 13 + 28 + 31 + 12 =
    84 days, twelve weeks."""
    (found,) = beds(readings(season("2025-10-11", "2026-04-12"), plantings=DOOR)).bare
    assert (found.m2, found.of_m2, found.weeks) == (pytest.approx(1.1), pytest.approx(1.6), 12.0)
    assert (found.start, found.after, found.open_end, found.whole) == (dt.date(2026, 1, 19), "pak choi", True, False)


def test_an_old_crop_cleared_a_week_after_the_new_one_came_makes_the_bed_no_larger() -> None:
    """2 m² of leek to 1 February, 2 m² of peas from 25 January: 4 m² for eight days only, so nothing lies bare."""
    stood = (
        planting("leek", "east", "2025-10-01", "2026-02-01", area_m2=2.0),
        planting("peas", "east", "2026-01-25", area_m2=2.0),
    )
    assert beds(readings(season("2025-10-11", "2026-04-12"), plantings=stood)).bare == ()


def test_without_areas_only_a_whole_bed_is_told_bare() -> None:
    """Both ends of a span are occupied: bare on 6 to 9 January, four days; the area is not known."""
    stood = (planting("leek", "east", "2026-01-05", "2026-01-05"), planting("peas", "east", "2026-01-10"))
    (found,) = beds(readings(season("2026-01-05", "2026-02-01"), plantings=stood)).bare
    assert (found.start, found.end, found.m2, found.whole) == (dt.date(2026, 1, 6), dt.date(2026, 1, 9), None, True)
    zero = tuple(planting(c, "east", d, area_m2=0.0) for c, d in (("leek", "2026-01-05"), ("peas", "2026-01-10")))
    assert beds(readings(season("2026-01-05", "2026-02-01"), plantings=zero)).bare == ()


def sowings(*dates: str, picked: str = "2025-10-20") -> Any:
    """Crops a, b, c … sown on these dates; the first is picked on `picked`, the others on 1 February."""
    names = "abcdef"[: len(dates)]
    made = tuple(
        planting(c, c, d, sown=dt.date.fromisoformat(d), area_m2=1.0) for c, d in zip(names, dates, strict=True)
    )
    picks = tuple(picking(picked if c == "a" else "2026-02-01", 1.0, c, bed=c) for c in names)
    of = season("2025-10-01", "2026-03-01", place=Place(latitude=49.0))
    return beds(readings(of, plantings=made, harvest=picks))


def test_the_last_sowing_in_time_is_told_only_where_a_later_one_before_midwinter_was_not() -> None:
    """At 49° N the sun is up for under ten hours from about 28 October (almanac: 27 to 30) on."""
    found = sowings("2025-08-20", "2025-09-20")
    assert found.dark_from is not None and dt.date(2025, 10, 26) <= found.dark_from <= dt.date(2025, 10, 31)
    assert found.in_time is not None and found.in_time.crop == "a"
    assert [strip.crop for strip in found.too_late] == ["b"]
    assert sowings("2025-08-20", "2026-01-12").in_time is None  # all later sowings follow midwinter
    assert sowings("2025-08-20").in_time is None  # nothing later was tried
    first = found.dark_from.isoformat()
    assert sowings("2025-08-20", "2025-09-20", picked=first).in_time is None  # on the first such day is not before it
    before = (found.dark_from - dt.timedelta(days=1)).isoformat()
    assert sowings("2025-08-20", "2025-09-20", picked=before).in_time is not None
    assert sowings("2025-08-20", "2025-09-20", picked="2025-11-20").in_time is None  # midwinter is too late a line


def test_of_several_sowings_in_time_the_latest_is_the_line() -> None:
    """a and b, sown on 1 and 20 August, were both picked before the dark weeks; c and d, of September, were not."""
    names = (("a", "2025-08-01"), ("b", "2025-08-20"), ("d", "2025-09-20"), ("c", "2025-09-05"))
    made = tuple(planting(c, c, d, sown=dt.date.fromisoformat(d), area_m2=1.0) for c, d in names)
    picks = tuple(picking("2025-10-20" if c in "ab" else "2026-02-01", 1.0, c, bed=c) for c, _ in names)
    found = beds(
        readings(season("2025-10-01", "2026-03-01", place=Place(latitude=49.0)), plantings=made, harvest=picks)
    )
    assert found.in_time is not None and found.in_time.crop == "b"
    assert [strip.crop for strip in found.too_late] == ["c", "d"]
    same = tuple(planting(c, c, "2025-08-20", sown=dt.date(2025, 8, 20), area_m2=1.0) for c in ("a", "b"))
    late = planting("c", "c", "2025-09-05", sown=dt.date(2025, 9, 5), area_m2=1.0)
    picks = (*picks[:2], picking("2026-02-01", 1.0, "c", bed="c"))
    of = season("2025-10-01", "2026-03-01", place=Place(latitude=49.0))
    tie = beds(readings(of, plantings=(*same[::-1], late), harvest=picks))
    assert tie.in_time is not None and tie.in_time.crop == "b"  # of one day the last by name, in whatever order


def test_sowings_of_one_day_that_came_too_late_are_told_by_name() -> None:
    """Two of 20 September, written in the other order, which is that of their beds too."""
    names = (("a", "east", "2025-08-20"), ("d", "north", "2025-09-20"), ("c", "west", "2025-09-20"))
    made = tuple(planting(c, bed, d, sown=dt.date.fromisoformat(d), area_m2=1.0) for c, bed, d in names)
    picks = tuple(picking("2025-10-20" if c == "a" else "2026-02-01", 1.0, c, bed=bed) for c, bed, _ in names)
    of = season("2025-10-01", "2026-03-01", place=Place(latitude=49.0))
    found = beds(readings(of, plantings=made, harvest=picks))
    assert [strip.crop for strip in found.too_late] == ["c", "d"]


def test_dark_weeks_need_a_latitude_and_a_day_before_them() -> None:
    """No latitude, a season that begins in them, and the tropics have none."""
    for of in (
        season("2025-10-01", "2026-03-01"),
        season("2025-12-01", "2026-03-01", place=Place(latitude=49.0)),
        season("2025-10-01", "2026-03-01", place=Place(latitude=10.0)),
    ):
        assert dark_from(of) is None
    assert dark_from(season("2026-04-01", "2026-09-01", place=Place(latitude=-49.0))) is not None


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
    assert (pair.cultivars, pair.start) == (("Early", "Late"), dt.date(2026, 2, 2))
    assert pair.kg_per_m2 == (1.0, 1.5)


def rivals_of(*more: Any, picks: tuple[Any, ...] = (), late: str = "2026-02-02") -> Any:
    """Early in the east and Late in the west, 5 January to 29 March, one picking of each in February."""
    stood = (
        planting("spinach", "east", "2026-01-05", cultivar="Early", area_m2=1.0),
        planting("spinach", "west", late, cultivar="Late", area_m2=2.0),
        *more,
    )
    known = (picking("2026-03-16", 1.0, bed="east"), picking("2026-03-17", 3.0, bed="west"))
    return beds(readings(season("2026-01-05", "2026-03-29"), plantings=stood, harvest=(*known, *picks))).rivals


def test_cultivars_are_not_compared_where_a_picking_of_one_of_them_may_be_anothers() -> None:
    """A second planting of Early comes to the east bed on 20 March: a picking there on the 23rd may be of either, so
    that neither can be compared with Late, though Late owns nothing that is in doubt. What is in doubt about another
    crop stops nothing."""
    again = planting("spinach", "east", "2026-03-20", cultivar="Early", area_m2=1.0)
    (pair,) = rivals_of(again)
    assert pair.kg_per_m2 == (1.0, 1.5)
    assert rivals_of(again, picks=(picking("2026-03-23", 2.0, bed="east"),)) == ()
    leeks = (planting("leek", "north", "2026-01-05"), planting("leek", "south", "2026-01-05"))
    (pair,) = rivals_of(*leeks, picks=(picking("2026-03-23", 2.0, "leek"),))
    assert pair.kg_per_m2 == (1.0, 1.5)


def test_cultivars_must_have_stood_together_for_four_weeks() -> None:
    """Planted on 1 March, the 29th is four weeks on; planted on the 2nd it is a day less."""
    assert len(rivals_of(late="2026-03-01")) == 1
    assert rivals_of(late="2026-03-02") == ()


def test_only_two_named_cultivars_of_one_crop_with_areas_are_compared() -> None:
    """The same name twice, no name, another crop, no area: no pair."""
    east = planting("spinach", "east", "2026-01-05", cultivar="Early", area_m2=1.0)
    others = (
        planting("spinach", "west", "2026-01-05", cultivar="Early", area_m2=2.0),
        planting("spinach", "west", "2026-01-05", area_m2=2.0),
        planting("kale", "west", "2026-01-05", cultivar="Late", area_m2=2.0),
        planting("spinach", "west", "2026-01-05", cultivar="Late"),
        planting("spinach", "west", "2026-01-05", cultivar="Late", area_m2=2.0),
    )
    for second, found in zip(others, (0, 0, 0, 0, 1), strict=True):
        for pair in ((east, second), (second, east)):
            assert len(beds(readings(season("2026-01-05", "2026-03-29"), plantings=pair, harvest=())).rivals) == found
