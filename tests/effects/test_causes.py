"""What was done and when: grouping, spells with their switches, spoiled days, quiet dates."""

from __future__ import annotations

import datetime as dt
import itertools

import numpy as np
import pytest
from effects.in_memory import entry
from made_season import readings, season

from reportgen.effects.causes import Cause, causes, event_days, quiet_dates, touched_days

JAN = dt.date(2026, 1, 10)


def ordinal(day: int, month: int = 1) -> int:
    return dt.date(2026, month, day).toordinal()


def of(*entries: object) -> tuple[Cause, ...]:
    return causes(readings(season("2025-12-01", "2026-02-28"), diary=entries))


def test_without_a_time_both_garden_days_are_spoiled() -> None:
    """A date alone touches the garden day before it and its own; D is the last of the two."""
    (cause,) = of(entry(JAN, "seal"))
    assert (cause.first, cause.last) == (ordinal(9), ordinal(10))


@pytest.mark.parametrize(
    ("clock", "day"), [(dt.time(9), 9), (dt.time(11, 59), 9), (dt.time(12), 10), (dt.time(23), 10)]
)
def test_with_a_time_one_garden_day_is_spoiled(clock: dt.time, day: int) -> None:
    """The garden day runs from noon to noon, standard time."""
    assert touched_days(entry(JAN, "seal", time=clock), season()) == (ordinal(day), ordinal(day))


def test_summer_time_moves_the_garden_day() -> None:
    """12:30 on a summer-time clock is 11:30 standard time: still the day before."""
    july = season("2026-07-01", "2026-07-31")
    day = dt.date(2026, 7, 10)
    assert touched_days(entry(day, "x", time=dt.time(12, 30)), july) == ((day.toordinal() - 1,) * 2)


@pytest.mark.parametrize(("apart", "groups"), [(0, 1), (3, 1), (4, 2)])
def test_changes_up_to_three_days_apart_are_one(apart: int, groups: int) -> None:
    """Three days chain two changes into one; four do not."""
    found = of(entry(JAN, "a"), entry(JAN + dt.timedelta(days=apart), "b", line=3))
    assert len(found) == groups


def test_a_chain_longer_than_a_week_is_too_long() -> None:
    """Four changes three days apart span nine days: no single change."""
    chain = [entry(JAN + dt.timedelta(days=3 * n), f"c{n}", line=n + 2) for n in range(4)]
    assert of(*chain)[0].too_long
    assert not of(*chain[:3])[0].too_long


def test_rows_of_a_spell_are_one_thing_switched() -> None:
    """Two rows of one name, however written, are one cause, on from date to `until` included."""
    rows = [
        entry(JAN, "Night curtain", kind="spell", until=dt.date(2026, 1, 12)),
        entry(dt.date(2026, 1, 20), "night curtain", kind="spell", until=dt.date(2026, 1, 21), line=3),
    ]
    (cause,) = of(*rows)
    days = np.arange(ordinal(9), ordinal(23), dtype=float)
    on = {dt.date.fromordinal(int(d)).day for d in days[cause.on(days) == 1]}
    assert on == {10, 11, 12, 20, 21}


def test_a_switch_at_noon_spoils_no_night_but_one_in_the_evening_does() -> None:
    """Between 10 and 16 h no night outcome is lost; at 20 h the night of the switch is."""
    until = dt.date(2026, 1, 12)
    noon = of(entry(JAN, "c", kind="spell", until=until, time=dt.time(12)))[0]
    late = of(entry(JAN, "c", kind="spell", until=until, time=dt.time(20)))[0]
    assert noon.spoiled("lift") == frozenset()
    assert late.spoiled("lift") == {ordinal(10), ordinal(13)}


def test_upkeep_counts_only_where_it_touches_something() -> None:
    """Cleaning a gutter is no cause; mending a leak of the envelope is."""
    assert of(entry(JAN, "gutter", kind="upkeep")) == ()
    assert len(of(entry(JAN, "leak", kind="upkeep", touches=("envelope",)))) == 1


def test_events_lose_their_days() -> None:
    """A power cut without a time spoils both garden days that touch it."""
    assert event_days(readings(diary=(entry(JAN, "cut", kind="event"),))) == {ordinal(9), ordinal(10)}


def test_quiet_dates_stay_a_week_away_from_every_entry() -> None:
    """Every fifth date, none within seven days of an entry; ideas and absences do not count."""
    of_season = season("2026-01-01", "2026-02-28")
    diary = [entry(dt.date(2026, 1, 21), "x"), entry(dt.date(2026, 2, 10), "y", kind="idea")]
    found = quiet_dates(of_season, diary)
    assert all(abs((day - dt.date(2026, 1, 21)).days) > 7 for day in found)
    assert dt.date(2026, 2, 10) in found
    assert {(b - a).days % 5 for a, b in itertools.pairwise(found)} == {0}
