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


NIGHT, DAY_SUM = "lift", "heat"


def spell(clock: dt.time | None, **more: object) -> Cause:
    """On from the tenth to the twelfth, switched at that time."""
    return of(entry(JAN, "c", kind="spell", until=dt.date(2026, 1, 12), time=clock, **more))[0]


@pytest.mark.parametrize(
    ("clock", "outcome", "lost"),
    [
        (None, NIGHT, {10, 13}),
        (None, "daily_light", {10, 13}),
        (dt.time(9, 59), NIGHT, {9, 12}),
        (dt.time(10), NIGHT, set()),
        (dt.time(16), NIGHT, set()),
        (dt.time(16, 1), NIGHT, {10, 13}),
        (dt.time(10, 59), DAY_SUM, {9, 12}),
        (dt.time(11), DAY_SUM, set()),
        (dt.time(13), DAY_SUM, set()),
        (dt.time(13, 1), DAY_SUM, {10, 13}),
        (dt.time(12), "daily_light", {10, 13}),
        (dt.time(9), "daily_light", {10, 13}),
    ],
)
def test_which_days_a_switch_spoils(clock: dt.time | None, outcome: str, lost: set[int]) -> None:
    """Without a time the day of the switch; of a night none between 10 and 16 h; of the heat from noon to noon none
    between 11 and 13 h; else the garden day that holds it, which before noon is the day before's; of the light of a
    date the date itself."""
    assert spell(clock).spoiled(outcome) == {ordinal(day) for day in lost}


def test_a_step_spoils_all_days_from_its_first_to_its_last_and_is_on_after_it() -> None:
    """Two changes two days apart, without a time: 9 to 12 January; on from the 13th. It does not go off again."""
    (cause,) = of(entry(JAN, "a"), entry(dt.date(2026, 1, 12), "b", line=3))
    assert cause.spoiled("lift") == {ordinal(day) for day in (9, 10, 11, 12)}
    days = np.arange(ordinal(8), ordinal(15), dtype=float)
    assert cause.on(days).tolist() == [0, 0, 0, 0, 0, 1, 1]
    assert not cause.alternates and cause.names == ("a", "b")
    assert spell(None).alternates
    assert spell(None).on(np.arange(ordinal(9), ordinal(14), dtype=float)).tolist() == [0, 1, 1, 1, 0]


def test_switches_fitted_as_one_spoil_what_each_of_them_spoils() -> None:
    """A cause made of two: the days of both, and none between them."""
    one, two = Cause(entries=(), first=5, last=6), Cause(entries=(), first=20, last=20)
    joint = Cause(entries=(), first=5, last=20, blocks=((6, 19),), switched=(one, two))
    assert joint.spoiled("lift") == {5, 6, 20}


def test_a_spell_reaches_from_its_first_night_to_its_last() -> None:
    """Two rows, given in the other order: from the first to the last; one without an end, to the season's last day."""
    rows = (
        entry(dt.date(2026, 1, 20), "curtain", kind="spell", line=2),
        entry(JAN, "curtain", kind="spell", until=dt.date(2026, 1, 12), line=3),
    )
    (cause,) = of(*rows)
    assert (cause.first, cause.last) == (ordinal(10), ordinal(28, 2))
    assert sorted(cause.blocks) == [(ordinal(10), ordinal(12)), (ordinal(20), ordinal(28, 2))]


def test_causes_stand_in_order_of_their_first_day() -> None:
    """A spell of the fifth stands before a change of the tenth; of equals by their names."""
    found = of(
        entry(JAN, "zinc", line=2),
        entry(dt.date(2026, 1, 5), "curtain", kind="spell", until=dt.date(2026, 1, 6), line=3),
        entry(dt.date(2026, 1, 9), "awning", kind="spell", until=JAN, line=4),
    )
    assert [cause.names for cause in found] == [("curtain",), ("awning",), ("zinc",)]


def test_a_chain_is_measured_from_one_change_to_the_next() -> None:
    """Days 10, 13, 16: one group of six days; 10, 13, 17: two groups. Of one day by the time, one without at noon."""
    near = [entry(dt.date(2026, 1, day), f"c{day}", line=day) for day in (16, 10, 13)]
    assert [cause.names for cause in of(*near)] == [("c10", "c13", "c16")]
    far = [entry(dt.date(2026, 1, day), f"c{day}", line=day) for day in (10, 13, 17)]
    assert [cause.names for cause in of(*far)] == [("c10", "c13"), ("c17",)]
    clocks = (dt.time(13), None, dt.time(11))
    day = [entry(JAN, f"n{n}", line=n, time=clock) for n, clock in enumerate(clocks, start=2)]
    assert of(*day)[0].names == ("n4", "n3", "n2")
    assert (of(*day)[0].first, of(*day)[0].last) == (ordinal(9), ordinal(10))


@pytest.mark.parametrize(("last", "long"), [(17, False), (18, True)])
def test_seven_days_are_one_group_and_eight_are_too_long(last: int, long: bool) -> None:
    """From the tenth to the seventeenth at most, by threes."""
    days = (10, 13, 15, last)
    (cause,) = of(*(entry(dt.date(2026, 1, day), f"c{day}", line=day) for day in days))
    assert cause.too_long is long


def test_an_hour_told_twice_is_the_first() -> None:
    """The clock goes back on 25 October 2026: 12:30 that day is 12:30 standard time; so is the garden day's noon."""
    autumn = season("2026-10-01", "2026-11-30")
    day = dt.date(2026, 10, 25)
    assert touched_days(entry(day, "x", time=dt.time(12, 30)), autumn) == ((day.toordinal(),) * 2)
    assert touched_days(entry(day, "x", time=dt.time(2, 30)), autumn) == ((day.toordinal() - 1,) * 2)
    spring = season("2026-03-01", "2026-04-30")
    jump = dt.date(2026, 3, 29)
    assert touched_days(entry(jump, "x", time=dt.time(2, 30)), spring) == ((jump.toordinal() - 1,) * 2)


def test_an_event_with_an_end_lasts_to_it() -> None:
    """From the garden day before its date to its last day; an end before that shortens nothing; only events count."""
    book = readings(
        season("2026-01-01", "2026-01-31"),
        diary=(
            entry(JAN, "power cut", kind="event", until=dt.date(2026, 1, 12)),
            entry(dt.date(2026, 1, 20), "door", kind="event", until=dt.date(2026, 1, 19), time=dt.time(13), line=3),
            entry(dt.date(2026, 1, 25), "seal", line=4),
        ),
    )
    assert event_days(book) == {ordinal(day) for day in (9, 10, 11, 12, 20)}


def test_quiet_dates_are_every_fifth_away_from_what_was_done() -> None:
    """1, 6, … 31 January. A spell from 14 to 16 January keeps 7 to 23 busy; ideas and absences keep nothing busy."""
    month = season("2026-01-01", "2026-01-31")
    done = entry(dt.date(2026, 1, 14), "curtain", kind="spell", until=dt.date(2026, 1, 16))
    aside = [entry(dt.date(2026, 1, 2), "x", kind=kind) for kind in ("idea", "away")]
    assert [day.day for day in quiet_dates(month, aside)] == [1, 6, 11, 16, 21, 26, 31]
    assert [day.day for day in quiet_dates(month, [done, *aside])] == [1, 6, 26, 31]
    edge = entry(dt.date(2026, 1, 13), "x", kind="spell", until=dt.date(2026, 1, 18))
    assert [day.day for day in quiet_dates(month, [edge])] == [1, 26, 31]
    assert [day.day for day in quiet_dates(month, [edge], every=10, apart=2)] == [1, 21, 31]
