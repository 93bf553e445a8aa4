"""Which sowings of two winters are alike, what they gave, what was lost; by the calendar and by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from made_season import picking, planting, readings, season

from reportgen.readings.types import Planting, Readings
from reportgen.winters.grown import grown_alike
from reportgen.winters.lost import MUCH_LOST, lost_shares

THIS, LAST = ("2025-10-11", "2026-04-12"), ("2024-10-12", "2025-04-13")


def sown(crop: str, day: str | None, bed: str = "a", planted: str | None = None) -> Planting:
    """Sown on that day, set out on the other."""
    return planting(crop, bed, planted or day or "", sown=dt.date.fromisoformat(day) if day else None)


def book(days: tuple[str, str], plantings: Any, *picked: Any) -> Readings:
    return readings(season(*days), plantings=tuple(plantings), harvest=picked)


@pytest.mark.parametrize(("day", "alike"), [("2024-09-15", True), ("2024-09-16", False), ("2024-08-18", True)])
def test_a_fortnight_apart_is_alike_and_a_day_more_is_not(day: str, alike: bool) -> None:
    """1 September against 15 September, 16 September and 18 August of the year before."""
    mine = book(THIS, [sown("leek", "2025-09-01")], picking("2025-12-01", 2.0, "leek"))
    theirs = book(LAST, [sown("Leek", day)], picking("2024-12-01", 3.0, "Leek"))
    found = grown_alike(mine, theirs, 1)
    assert (found.this, found.last) == ((2.0, 3.0) if alike else (None, None))
    assert found.crops == (("leek",) if alike else ())


def test_without_a_sowing_the_setting_out_counts() -> None:
    """Sown in one winter alone: by the days set out, three apart. Sown months apart in both: not alike, though set out
    together."""
    mine = book(THIS, [sown("kale", None, planted="2025-10-20")], picking("2025-12-01", 2.0, "kale"))
    theirs = book(LAST, [sown("kale", "2024-08-01", planted="2024-10-23")], picking("2024-12-01", 3.0, "kale"))
    assert grown_alike(mine, theirs, 1).this == 2.0
    early = book(THIS, [sown("kale", "2025-06-01", planted="2025-10-20")], picking("2025-12-01", 2.0, "kale"))
    assert grown_alike(early, theirs, 1).this is None


def test_each_sowing_has_one_like_the_nearest() -> None:
    """Two sowings this winter, 1 and 10 September, against one of 9 September: the second is its like, the first has
    none. The other way about the same."""
    two = [sown("peas", "2025-09-01", "a"), sown("peas", "2025-09-10", "b")]
    picked = (picking("2025-12-01", 1.0, "peas", bed="a"), picking("2025-12-02", 4.0, "peas", bed="b"))
    one = book(LAST, [sown("peas", "2024-09-09", "c")], picking("2024-12-01", 3.0, "peas", bed="c"))
    found = grown_alike(book(THIS, two, *picked), one, 1)
    assert (found.this, found.last, found.whole) == (4.0, 3.0, False)
    turned = grown_alike(one, book(THIS, two, *picked), -1)
    assert (turned.this, turned.last, turned.whole) == (3.0, 4.0, False)


def test_what_was_lost_weighs_nothing_on_either_side() -> None:
    """3 kg of which 1 was lost: 2, and that is all that was picked."""
    lost = (picking("2025-12-01", 2.0, "leek"), picking("2025-12-02", 1.0, "leek", use="lost"))
    mine = book(THIS, [sown("leek", "2025-09-01")], *lost)
    theirs = book(LAST, [sown("leek", "2024-09-01")], picking("2024-12-01", 3.0, "leek"))
    assert (grown_alike(mine, theirs, 1).this, grown_alike(mine, theirs, 1).whole) == (2.0, True)


def test_no_book_on_one_side_is_told() -> None:
    """A harvest or a planting book that either winter lacks."""
    full = book(THIS, [sown("leek", "2025-09-01")], picking("2025-12-01", 2.0, "leek"))
    bare, unsown = book(LAST, [sown("leek", "2024-09-01")]), book(LAST, [], picking("2024-12-01", 2.0, "leek"))
    for pair in ((full, bare), (bare, full)):
        assert "no harvest was weighed" in grown_alike(*pair, 0).reason
    for pair in ((full, unsown), (unsown, full)):
        assert "plantings.csv of both" in grown_alike(*pair, 0).reason


def test_pickings_of_one_of_two_sowings_are_not_shared_out() -> None:
    """Two sowings of leek stand at once in one bed and only one has a like: nobody knows of which was picked, in either
    winter."""
    one = book(LAST, [sown("leek", "2024-09-01")], picking("2024-12-01", 3.0, "leek"))
    two = book(THIS, [sown("leek", "2025-09-01"), sown("leek", "2025-10-15")], picking("2025-12-01", 2.0, "leek"))
    assert "does not say which" in grown_alike(two, one, 1).reason
    assert "does not say which" in grown_alike(one, two, -1).reason


def test_the_share_lost_is_that_of_the_worst_planting() -> None:
    """5 of 20 and 6 of 12 leeks: a half; peas without the number lost, beans without plants and none of no plants are
    left out; none lost is a share of nought."""
    rows = (
        planting("leek", "a", "2025-09-01", plants=20.0, lost=5.0),
        planting("leek", "b", "2025-09-01", plants=12.0, lost=6.0),
        planting("leek", "c", "2025-09-01", plants=10.0, lost=1.0),
        planting("peas", "a", "2025-09-01", plants=20.0),
        planting("beans", "a", "2025-09-01", lost=3.0),
        planting("chard", "a", "2025-09-01", plants=0.0, lost=0.0),
        planting("kale", "a", "2025-09-01", plants=8.0, lost=0.0),
    )
    assert lost_shares(readings(plantings=rows)) == {"leek": 0.5, "kale": 0.0}
    assert pytest.approx(1 / 3) == MUCH_LOST
