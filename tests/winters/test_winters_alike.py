"""Two winters: only what both grew alike is weighed, only one logger's margins are told, each with its band."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pandas as pd
import pytest
from made_season import ZONE, channel, logger, picking, planting, readings, season

from reportgen.readings.types import DiaryEntry, Readings
from reportgen.winters import Row, winters
from reportgen.winters.books import same_crop_loggers
from reportgen.winters.grown import grown_alike


def sown(crop: str, bed: str, day: str, cleared: str | None = None) -> Any:
    """Sown into the bed on that day."""
    return planting(crop, bed, day, cleared, sown=dt.date.fromisoformat(day))


def books(first: str, last: str, plantings: Any, harvest: Any, **more: Any) -> Readings:
    """A winter of a harvest and a planting book."""
    return readings(season(first, last, **more), plantings=plantings, harvest=harvest)


THIS, LAST = ("2025-10-11", "2026-04-12"), ("2024-10-12", "2025-04-13")
# Leek sown on 1 September in both (10 days apart); this winter peas too, and a second leek on 10 January.
MINE = books(
    *THIS,
    (sown("leek", "a", "2025-09-01"), sown("peas", "b", "2025-09-01"), sown("leek", "c", "2026-01-10")),
    (
        picking("2025-12-01", 2.0, "leek", bed="a"),
        picking("2026-01-05", 1.0, "leek", bed="a", use="lost"),
        picking("2026-03-01", 4.0, "leek", bed="c"),
        picking("2026-03-02", 8.0, "peas", bed="b"),
    ),
)
THEIRS = books(*LAST, (sown("Leek", "a", "2024-09-11"),), (picking("2024-12-01", 3.0, "Leek", bed="a"),))


def test_only_the_crop_and_sowing_that_both_winters_had_are_weighed() -> None:
    """2.0 kg of the autumn leek against 3.0: not the 14.0 kg of this winter, nor what was lost."""
    found = grown_alike(MINE, THEIRS, 1)
    assert (found.this, found.last, found.crops, found.whole) == (2.0, 3.0, ("leek",), False)


def test_one_heat_fed_them_all_where_one_winter_grew_more() -> None:
    """Alike wholly where that is all that either winter picked."""
    same = books(*THIS, MINE.plantings[:1], MINE.harvest[:2])
    assert grown_alike(same, THEIRS, 1).whole


@pytest.mark.parametrize(
    ("mine", "theirs", "why"),
    [
        (MINE, books(*LAST, (sown("leek", "a", "2024-10-20"),), THEIRS.harvest), "no crop within a fortnight"),
        (MINE, readings(season(*LAST), harvest=THEIRS.harvest), "plantings.csv of both"),
        (readings(season(*THIS)), THEIRS, "no harvest was weighed"),
        (
            books(*THIS, MINE.plantings, (picking("2026-03-01", 4.0, "leek"),)),
            THEIRS,
            "does not say which was picked",
        ),
    ],
)
def test_where_nothing_can_be_compared_there_is_a_reason(mine: Readings, theirs: Readings, why: str) -> None:
    """No fortnight in common, no planting book, no harvest, a picking of two sowings."""
    found = grown_alike(mine, theirs, 1)
    assert found.this is None and found.last is None and why in found.reason


def test_the_rows_of_the_harvest_follow() -> None:
    """2.0 and 3.0 kg with the reason for no band; heat by the kilogram has its reason where one grew more."""
    rows = {row.key: row for row in winters(MINE, THEIRS).rows}
    assert (rows["kg"].this, rows["kg"].last) == (2.0, 3.0)
    reasons = winters(MINE, THEIRS).reasons
    place = [row.key for row in winters(MINE, THEIRS).rows].index("kg")
    assert reasons[f"rows.{place}.band"] == "it was weighed"


def air(first: str, level: float, name: str, dip: float) -> Any:
    """Hourly air at one level with one reading `dip` lower, three days in."""
    hours = pd.date_range(first, periods=24 * 30, freq="1h", tz=ZONE)
    values = pd.Series(level, index=hours)
    values.iloc[72] = level - dip
    return channel(values, logger=name, accuracy=0.5)


def winter(first: str, last: str, loggers: Any, channels: Any) -> Readings:
    """A winter of air alone."""
    return readings(season(first, last, logger=loggers), channels=channels)


def test_margins_are_of_the_logger_that_both_winters_had() -> None:
    """The new door logger fell to −9 °C, the bench to −3: beside last winter's bench (+1) the bench counts, −4 K by
    readings, each ± 0.5: −5 to −3 K."""
    bench, door = logger("bench", accuracy=0.5), logger("door", accuracy=0.5)
    mine = winter(
        "2026-01-05", "2026-02-01", (bench, door),
        (air("2026-01-05", 2.0, "bench", 5.0), air("2026-01-05", 1.0, "door", 10.0)),
    )  # fmt: skip
    theirs = winter("2025-01-05", "2025-02-01", (bench,), (air("2025-01-05", 2.0, "bench", 1.0),))
    assert same_crop_loggers(mine, theirs) == ("bench",)
    row = _row(mine, theirs, "minimum")
    assert (row.this, row.last, row.what) == (-3.0, 1.0, "coldest crop air, bench alone")
    assert (row.this_band, row.last_band) == (pytest.approx((-3.5, -2.5)), pytest.approx((0.5, 1.5)))
    assert row.difference_band == pytest.approx((-5.0, -3.0))


def test_what_only_one_winter_did_and_what_last_winter_lost() -> None:
    """Film this winter, tape last winter; of last winter's 20 leeks 5 were lost, a quarter."""

    def did(what: str) -> DiaryEntry:
        return DiaryEntry(
            line=2, date=dt.date(2026, 1, 6), time=None, kind="change", what=what, touches=(), reversible=None,
            hoped_for=(), until=None, cost=None, years=None, written=None, note="",
        )  # fmt: skip

    before = planting("leek", "a", "2024-09-11", plants=20.0, lost=5.0)
    found = winters(replace(MINE, diary=(did("Film"),)), replace(THEIRS, diary=(did("Tape"),), plantings=(before,)))
    assert (found.only_this, found.only_last) == (("Film",), ("Tape",))
    assert found.lost_last == {"leek": pytest.approx(0.25)}


def test_no_margin_is_told_where_no_logger_stood_in_the_same_place() -> None:
    """Moved from bed a to bed b: two places; where one winter names no bed, nothing says that it moved."""
    here, there, unsaid = (logger("bench", beds=beds) for beds in (("a",), ("b",), ()))
    cold = (air("2026-01-05", 2.0, "bench", 5.0),)
    before = (air("2025-01-05", 2.0, "bench", 1.0),)
    mine = winter("2026-01-05", "2026-02-01", (here,), cold)
    moved = _row(mine, winter("2025-01-05", "2025-02-01", (there,), before), "minimum")
    assert moved.this is None and moved.last is None
    assert _row(mine, winter("2025-01-05", "2025-02-01", (unsaid,), before), "minimum").this == -3.0


def test_every_raw_row_has_a_band_or_says_why_not() -> None:
    """Either both bands or a reason."""
    bench = logger("bench")
    mine = winter("2026-01-05", "2026-02-01", (bench,), (air("2026-01-05", 2.0, "bench", 5.0),))
    theirs = winter("2025-01-05", "2025-02-01", (bench,), (air("2025-01-05", 2.0, "bench", 1.0),))
    found = winters(mine, theirs)
    for n, row in enumerate(found.rows):
        if row.key not in {"weather", "lift", "night_minimum", "soil_mean"}:
            assert row.difference_band is not None or found.reasons[f"rows.{n}.band"], row.key


def _row(mine: Readings, theirs: Readings, key: str) -> Row:
    return next(row for row in winters(mine, theirs).rows if row.key == key)
