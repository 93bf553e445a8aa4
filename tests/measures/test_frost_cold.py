"""The cold end of a heated house, on nights whose answer can be worked out by hand."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from made_season import readings, season

from reportgen.measures.frost_cold import (
    CLOSE,
    DIFFER,
    HELD,
    below_bend,
    cold_end,
    hold_by_nights,
    with_heat,
)
from reportgen.measures.frost_limit import NO_HOLD, holding_limit, told_by
from reportgen.readings.types import DiaryEntry

NAN = float("nan")
NBSP = "\u00a0"
SWING = 0.2 * (-1.0) ** np.arange(200)  # K, by turns: scatter that no cold explains


def nights(outdoor_c: np.ndarray, inside_c: np.ndarray, heated_h: np.ndarray | float = 9.0) -> pd.DataFrame:
    """Whole nights from 1 November on."""
    index = pd.Index([dt.date(2025, 11, 1) + dt.timedelta(n) for n in range(len(outdoor_c))], name="date")
    columns = {"outdoor_min": outdoor_c, "inside_min": inside_c, "heated_h": heated_h}
    return pd.DataFrame({"share": 1.0, "outdoor_share": 1.0, **columns}, index=index)


def held(outdoor_c: np.ndarray, level_c: float = 3.0, bend_c: float = -4.0, slope: float = 0.75) -> np.ndarray:
    """A thermostat's level, and flat out below the bend: 3 °C down to −4, 0 °C at −8."""
    return level_c - slope * np.maximum(bend_c - outdoor_c, 0.0)


def end(outdoor_c: np.ndarray, inside_c: np.ndarray, line_c: float = 0.0) -> tuple[float | None, str]:
    found = cold_end(outdoor_c, inside_c, line_c, (outdoor_c, inside_c))
    return found.outdoor_c, found.reason


def test_a_plateau_has_no_limit_however_cold_it_was() -> None:
    """2.6 °C ± 0.2 from 0 down to −17.6 °C: nothing falls, so nothing is told but that it held."""
    out = np.linspace(0.0, -17.6, 60)
    found = cold_end(out, 2.6 + SWING[:60], 0.0, (out, 2.6 + SWING[:60]))
    assert (found.outdoor_c, found.reason, found.line) == (None, HELD, None)


def test_a_heater_too_small_meets_the_frost_line_where_its_line_does() -> None:
    """3 °C down to −4 °C, then 0.75 K a kelvin: 0 °C at −8 by hand; the level above the bend does not tilt the line."""
    out = np.arange(6.0, -12.01, -0.25)
    limit, why = end(out, held(out))
    assert limit == pytest.approx(-8.0, abs=0.051) and why == ""
    found = cold_end(out, held(out), 0.0, (out, held(out)))
    assert found.line is not None and found.line.slope == pytest.approx(0.75)
    assert out[found.falling].max() == pytest.approx(-4.0, abs=0.26)
    assert end(out, held(out), 1.5)[0] == pytest.approx(-6.0, abs=0.051)


def test_no_limit_colder_than_a_night_that_fell_below_the_line() -> None:
    """A night at 1 °C outdoors with −0.2 °C inside, heated or not, holds the limit up."""
    out = np.arange(6.0, -12.01, -0.25)
    seen = np.append(out, 1.0), np.append(held(out), -0.2)
    assert cold_end(out, held(out), 0.0, seen).outdoor_c == 1.0


def test_no_limit_where_all_nights_held() -> None:
    """Seen to −6 °C, 1.5 °C inside: the line says −8, which was not tested. Seen to −7.9 with ± 0.2 K: the bound meets
    0 °C before −7.9 (0.075 − 1.7 · 0.2 < 0), yet it held there: only just, and no number."""
    out = np.arange(6.0, -6.01, -0.25)
    found = cold_end(out, held(out), 0.0, (out, held(out)))
    assert (found.outdoor_c, found.reason) == (None, HELD) and found.line is not None
    out = np.arange(6.0, -7.91, -0.1)
    near = held(out) + 0.5 * np.maximum(SWING[: len(out)], -0.1)
    assert near.min() > 0.0 and end(out, near) == (None, CLOSE)


def test_what_the_cold_does_not_decide() -> None:
    """0.1 °C ± 0.2 at any cold: half of the nights fell below the line. Scatter of 2 K on a slope of 0.3: even the
    mildest may."""
    out = np.linspace(0.0, -15.0, 40)
    assert end(out, 0.1 + SWING[:40]) == (
        None,
        f"it fell below the frost line on 20{NBSP}nights, and not by how cold it was outdoors",
    )
    assert end(out, 1.5 + 0.3 * out + 10 * SWING[:40]) == (None, DIFFER)


def test_few_nights_with_heat() -> None:
    """Four tell nothing; five that held are told; two of seven below the line name no limit; ten nights carry one."""
    out = np.arange(20.0, -20.0, -1.0)
    air = held(out)
    assert told_by(nights(out, air, np.where(np.arange(40) < 4, 3.0, 0.0)), 0.0, True).reason == (
        "only 4 nights with heat; 5 are needed"
    )
    assert (
        told_by(nights(out, air, 0.0), 0.0, True, " since May").reason == "no night with heat since May; 5 are needed"
    )
    unseen = told_by(nights(out, 0.2 * np.arange(40.0), NAN), 0.0, True)  # no eight of them within a kelvin
    assert unseen.reason == NO_HOLD and not unseen.used.any()
    mild = nights(out[:20], air[:20], np.where(np.arange(20) < 5, 3.0, 0.0))
    assert told_by(mild, 0.0, True).reason == HELD
    seven = told_by(nights(out[22:29], air[22:29]), 1.5, True)
    assert seven.reason == (
        f"it fell below the frost line on 2{NBSP}nights, and 7{NBSP}nights with heat are too few to name a limit; "
        "10 are needed"
    )
    ten = np.arange(-4.0, -13.01, -1.0)
    assert end(ten, held(ten))[0] == pytest.approx(-8.0, abs=0.051) and not below_bend(ten[:9], held(ten[:9])).any()


def test_nights_with_heat_are_the_log_s_where_there_is_one() -> None:
    """Known of 8 nights in 10: those of more than 0 h. Known of fewer: by the hold, 3 °C and 1 K more."""
    hours = np.array([0.0, 0.5, 9.0, 0.0, 4.0, 0.0, 1.0, 2.0, NAN, NAN])
    air = np.array([9.0, 3.0, 3.1, 4.1, 3.0, 4.0, 2.0, 3.0, 3.0, 9.0])
    used, logged = with_heat(air, hours, 3.0)
    assert logged and used.tolist() == [False, True, True, False, True, False, True, True, False, False]
    hours[0] = NAN
    used, logged = with_heat(air, hours, 3.0)
    assert not logged and used.tolist() == [False, True, True, False, True, True, True, True, True, False]
    assert not with_heat(air, hours, None)[0].any() and not with_heat(air[:0], hours[:0], None)[1]


def test_the_hold_is_where_the_colder_nights_stand() -> None:
    """Of 50 nights the 30 colder: nine at 2.5 … 2.7 °C (by 0.025 K) and 21 from 4 °C on, 0.5 K apart: the middle of any
    eight of the nine is 2.5875 or 2.6125 °C. Spread by 0.2 K they stand at none: eight reach over 1.4 K. Eleven nights
    have six colder ones: too few."""
    out = np.arange(50.0)
    stand = 2.5 + 0.025 * np.arange(9)
    air = np.concatenate([stand, 4.0 + 0.5 * np.arange(41)])
    assert hold_by_nights(out, air) in (pytest.approx(2.5875), pytest.approx(2.6125))
    assert hold_by_nights(out, 0.2 * np.arange(50.0)) is None
    assert hold_by_nights(out[:11], np.full(11, 3.0)) is None and hold_by_nights(out[:14], np.full(14, 3.0)) == 3.0


def altered(day: dt.date, touches: tuple[str, ...]) -> DiaryEntry:
    """A change of that day."""
    return DiaryEntry(
        line=2, date=day, time=None, kind="change", what="", touches=touches, reversible=None, hoped_for=(), until=None,
        cost=None, years=None, written=None, note="",
    )  # fmt: skip


def test_a_spring_after_the_last_change_does_not_lean_on_its_mild_nights() -> None:
    """Heat not logged. A hundred winter nights at 2.6 °C down to −17.6 °C; then the door is sealed, and of 40 nights
    six stand at 2.6 °C (−2 to −7 °C outdoors) and 34 lie on 7 + 0.5 · outdoors from 0 °C up. One line through both
    would fall to the frost line; they held at −7, and nothing colder was tested since."""
    winter, spring = (
        np.linspace(2.0, -17.6, 100),
        np.concatenate([np.linspace(-2.0, -7.0, 6), np.linspace(0.0, 12, 34)]),
    )
    out = np.concatenate([winter, spring])
    air = np.concatenate([np.full(106, 2.6), 7.0 + 0.5 * spring[6:]]) + SWING[:140]
    table = nights(out, air, NAN)
    made = readings(season("2025-11-01", "2026-04-30"), diary=(altered(table.index[99], ("envelope",)),))
    found = holding_limit(made, table, set(), True, None)
    assert (found.outdoor_c, found.reason, found.chosen) == (None, HELD, "at the hold")
    assert found.coldest_seen_c == -7.0 and int(found.points["fitted"].sum()) == 6


def test_a_failed_night_is_left_out_and_counted() -> None:
    """Sixty nights at 2.6 °C, one at −5.4: with it a limit could not be told; without it all held."""
    out = np.linspace(0.0, -17.6, 60)
    air = 2.6 + SWING[:60]
    air[30] = -5.4
    table = nights(out, air)
    found = holding_limit(readings(), table, {table.index[30]}, True, None)
    assert (found.reason, found.left_out, found.chosen) == (HELD, 1, "with heat")
    assert "not by how cold" in holding_limit(readings(), table, set(), True, None).reason
