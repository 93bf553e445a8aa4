"""Next winter's on/off plans: balanced, dated, pasteable, and only where they can answer."""

from __future__ import annotations

import csv
import datetime as dt
import itertools
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pandas as pd
import pytest
from effects.in_memory import entry
from made_season import readings, season

from reportgen.effects.causes import causes
from reportgen.effects.trial import (
    _unevenness,
    best_start,
    blocks,
    coldest_stretch,
    dated,
    free_starts,
    plan_from,
    states_of,
    tryables,
)
from reportgen.effects.types import Effect, Outcome

COLD = dt.date(2026, 1, 20)
IDEA = entry(dt.date(2026, 1, 5), "fleece, double", kind="idea", hoped_for=("warmer nights",), reversible=True)


def test_blocks_are_three_or_four_nights_and_fill_four_weeks() -> None:
    """As the method asks: 28 nights in blocks of three or four, about half of them on."""
    assert set(blocks()) <= {3, 4}
    assert sum(blocks()) == 28
    assert 12 <= sum(states_of(blocks())) <= 16


def test_weekdays_are_spread_over_on_and_off() -> None:
    """No habit of the week may go along with it: at most one weekday is on (or off) in all four weeks.

    With blocks of three or four nights in 28 no plan does better: found by trying all of them.
    """
    nights = plan_from(dt.date(2026, 11, 9))
    on = [sum(n.on for n in nights if n.night.weekday() == weekday) for weekday in range(7)]
    assert sum(n in (0, 4) for n in on) <= 1


def test_rows_pasted_into_the_diary_give_the_plan_back() -> None:
    """Read as diary rows, they are one spell that is on in exactly the nights of the plan."""
    (could,), _ = tryables((), (IDEA,), False)
    trial = dated(could, dt.date(2026, 11, 9))
    rows = list(csv.DictReader(trial.diary_rows))
    diary = tuple(
        entry(
            dt.date.fromisoformat(row["date"]),
            row["what"],
            kind=row["kind"],
            time=dt.time.fromisoformat(row["time"]),
            until=dt.date.fromisoformat(row["until"]),
            line=n,
        )
        for n, row in enumerate(rows, start=2)
    )
    (cause,) = causes(readings(season("2026-10-18", "2027-04-12"), diary=diary))
    on = {n.night.toordinal() for n in trial.nights if n.on}
    assert {day for a, b in cause.blocks for day in range(a, b + 1)} == on
    assert cause.names == ("fleece, double",)


def test_a_trial_starts_where_its_nights_are_free_and_matter_most() -> None:
    """Cold on 28 nights from 1 January: from that night on. With the tenth taken, from the eleventh, which keeps the
    most of them. Three weeks stay free on either side."""
    first, last, cold = dt.date(2025, 10, 18), dt.date(2026, 4, 12), dt.date(2026, 1, 1)
    days = [first + dt.timedelta(days=n) for n in range((last - first).days + 1)]
    need = pd.Series([float(cold <= day < cold + dt.timedelta(days=28)) for day in days], index=pd.Index(days))
    assert best_start(free_starts(first, last, ()), need) == cold
    assert best_start(free_starts(first, last, {dt.date(2026, 1, 10)}), need) == dt.date(2026, 1, 11)
    starts = free_starts(first, last, ())
    assert starts[0] == dt.date(2025, 11, 8) and starts[-1] + dt.timedelta(days=27 + 21) == last
    assert best_start(starts, None) == starts[0] and best_start((), need) is None


def test_the_coldest_stretch_is_the_one_with_the_lowest_mean() -> None:
    """Three nights at -9 among nights at 0; nothing is the coldest of nothing."""
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(20)]
    minima = pd.Series([-9.0 if 5 <= n <= 7 else 0.0 for n in range(20)], index=pd.Index(days))
    assert coldest_stretch(minima, 3) == (days[5], days[7])
    assert coldest_stretch(minima.iloc[:0], 3) is None


def test_why_there_is_no_plan() -> None:
    """Not reversible, not said, soil, or no hope that a logger can judge: each with its reason."""
    ideas = [
        entry(COLD, "paint", kind="idea", hoped_for=("warmer nights",), reversible=False),
        entry(COLD, "mat", kind="idea", hoped_for=("warmer nights",)),
        entry(COLD, "pipe", kind="idea", hoped_for=("warmer soil",), reversible=True),
        entry(COLD, "song", kind="idea", hoped_for=("better growth",), reversible=True),
    ]
    found, without = tryables((), ideas, True)
    assert found == ()
    for what, word in (("paint", "undone"), ("mat", "reversible"), ("pipe", "bed"), ("song", "what it is hoped")):
        assert word in without[what]


def effect(what: str, line: int, **more: Any) -> Effect:
    """A change with one outcome hoped for."""
    hoped = Outcome(outcome="lift", unit="K", declared=True, effect=0.1, low=-0.9, high=1.1, smallest_visible=1.9)
    usual: dict[str, Any] = {
        "when": COLD, "what": what, "kind": "change", "touches": ("air",), "hoped_for": ("warmer nights", "drier air"),
        "hope_written_before": None, "grouped_with": (), "verdict": "cannot tell", "at_most": None,
        "outcomes": (hoped,), "reasons": MappingProxyType({}), "line": line, "reversible": True, "thing": "vent",
    }  # fmt: skip
    return Effect(**(usual | more))


def test_a_row_of_blocks_by_hand() -> None:
    """3 on, 4 off, 3 on: ones and noughts; the plan switches where they change, and on its first night."""
    assert states_of((3, 4, 3)) == [1, 1, 1, 0, 0, 0, 0, 1, 1, 1]
    nights = plan_from(dt.date(2026, 11, 9))
    assert len(nights) == 28 and [n.night for n in nights] == [
        dt.date(2026, 11, 9) + dt.timedelta(days=n) for n in range(28)
    ]
    assert [n.on for n in nights] == [bool(state) for state in states_of(blocks())]
    edges = {0, *itertools.accumulate(blocks()[:-1])}
    assert {i for i, n in enumerate(nights) if n.switch} == edges


def test_no_row_of_blocks_is_more_even() -> None:
    """Of all rows of threes and fours of 28 nights: nights on of each weekday from 2, and of all from 14, squared and
    summed (in halves of a night); of equals the one that stands first in order."""

    def uneven(row: tuple[int, ...]) -> int:
        on = [state for n, length in enumerate(row) for state in [n % 2 == 0] * length]
        return sum((2 * sum(on[day::7]) - 4) ** 2 for day in range(7)) + (2 * sum(on) - 28) ** 2

    rows = [row for count in range(1, 11) for row in itertools.product((3, 4), repeat=count) if sum(row) == 28]
    least = min(map(uneven, rows))
    assert blocks() == min(row for row in rows if uneven(row) == least)


def test_how_uneven_a_row_is_by_hand() -> None:
    """Four weeks of 3 on, 4 off: three weekdays always on, four never: 7 · 4², and twice 12 from 28: 4² more.

    A week on, a week off: every weekday on in two of four, 14 of 28: even. 14 on, 7 off, 7 on: each weekday on in three
    of four, 7 · 2², and twice 21 from 28: 14².
    """
    assert _unevenness((3, 4) * 4) == 7 * 16 + 16
    assert _unevenness((7, 7, 7, 7)) == 0
    assert _unevenness((14, 7, 7)) == 7 * 4 + 14**2


def test_what_could_be_tried_of_changes_and_ideas() -> None:
    """A change that could not tell, judged on the first hope: 0.41/0.76 of what its interval shows now. An idea on the
    first of its hopes that a logger can judge: 1.42 times 0.41 K; of damp 1.42 times 2.1 points; of heat not known."""
    ideas = (
        replace(IDEA, line=9, hoped_for=("better growth", "warmer nights")),
        replace(IDEA, line=10, what="fan", hoped_for=("drier air",), thing="fan"),
        replace(IDEA, line=11, what="less hold", hoped_for=("less heating",)),
    )
    found, without = tryables((effect("vents", 2),), ideas, True)
    assert [(t.line, t.what, t.outcome, t.hoped_for, t.idea) for t in found] == [
        (2, "vents", "lift", "warmer nights", False),
        (9, "fleece, double", "lift", "warmer nights", True),
        (10, "fan", "night_humidity", "drier air", True),
        (11, "less hold", "heat", "less heating", True),
    ]
    assert found[0].visible == pytest.approx(1.9 * 0.41 / 0.76) and found[0].visible_now == 1.9
    assert found[1].visible == pytest.approx(0.41 * 1.42) and found[1].visible_now != found[1].visible_now
    assert found[2].visible == pytest.approx(2.1 * 1.42) and found[3].visible != found[3].visible
    assert [t.visible_unit for t in found] == ["K", "K", "%", ""]
    assert [t.thing for t in found] == ["vent", None, "fan", None]
    assert found[0].hopes == ("warmer nights", "drier air") and found[0].touches == ("air",)
    assert not without


@pytest.mark.parametrize(
    ("outcome", "share"),
    [("lift", 0.41 / 0.76), ("heat", 2.9 / 5.0), ("night_humidity", 2.1 / 3.5), ("daily_light", 0.6)],
)
def test_how_much_narrower_switching_is(outcome: str, share: float) -> None:
    """As measured: 0.76 to 0.41 K, 5.0 to 2.9 kWh, 3.5 to 2.1 points; the weakest of them for others. A refused one is
    judged as if it had not been."""
    hoped = Outcome(outcome=outcome, unit="u", declared=True, smallest_visible=2.0)
    (one,), _ = tryables((effect("x", 2, outcomes=(hoped,)),), (), True)
    assert one.visible == pytest.approx(2.0 * share) and one.visible_unit == "u"
    (other,), _ = tryables((effect("x", 2, outcomes=(replace(hoped, refused="no"),)),), (), True)
    assert other.visible_now != other.visible_now
    alone = {"lift": 0.41 * 1.42, "night_humidity": 2.1 * 1.42}.get(outcome)
    assert other.visible == pytest.approx(alone) if alone else other.visible != other.visible


def test_only_what_is_open_says_why_it_cannot_be_tried() -> None:
    """A change that could not tell and cannot be undone has its reason; one that helped has none; nor one that
    hoped for nothing."""
    fixed = effect("paint", 3, reversible=False)
    done = effect("seal", 4, reversible=False, verdict="helped")
    silent = effect("move", 5, outcomes=())
    found, without = tryables((fixed, done, silent), (), True)
    assert found == () and dict(without) == {"paint": "it cannot be undone"}
    song = replace(IDEA, hoped_for=("better growth",))
    bare = replace(IDEA, what="bare", hoped_for=())
    pipe = replace(IDEA, what="pipe", hoped_for=("warmer soil",))
    unsaid = replace(IDEA, what="mat", reversible=None)
    _, why = tryables((), (song, bare, pipe, unsaid), True)
    assert why["fleece, double"] == why["bare"] == "the diary does not say what it is hoped to do"
    assert why["pipe"].startswith("the bed remembers for weeks")
    assert why["mat"].startswith("the diary does not say whether it can be undone")


def test_the_dated_plan_has_its_rows() -> None:
    """Header, then a row a block on: from its first night to its last, at noon, with all that the change touches and
    hopes; the last block to the last night. Words with a comma are quoted."""
    (could, idea), _ = tryables((effect("vents, upper", 2),), (IDEA,), False)
    start = dt.date(2026, 11, 9)
    trial = dated(could, start)
    assert trial.diary_rows[0] == "date,time,kind,what,touches,reversible,hoped_for,until"
    spans, at = [], 0
    for n, length in enumerate(blocks()):
        if n % 2 == 0:
            spans.append((start + dt.timedelta(days=at), start + dt.timedelta(days=at + length - 1)))
        at += length
    assert list(trial.diary_rows[1:]) == [
        f'{a},12:00,spell,"vents, upper",air,yes,warmer nights;drier air,{b}' for a, b in spans
    ]
    assert (trial.why, dated(idea, start).why) == ("this winter could not tell", "it was noted as an idea")
    assert (trial.what, trial.outcome, trial.visible, trial.visible_unit) == (
        "vents, upper",
        "lift",
        could.visible,
        "K",
    )
    assert (trial.hoped_for, trial.visible_now, trial.nights) == ("warmer nights", 1.9, plan_from(start))


def test_starts_that_are_free() -> None:
    """Three nights in a season of 1 to 47 January …: a lead of 21 before and after leaves starts on the 22nd to the
    24th; a taken night takes every start whose nights hold it; a season a day too short has none."""
    first, last = dt.date(2026, 1, 1), dt.date(2026, 2, 16)
    day = dt.date(2026, 1, 22)
    assert free_starts(first, last, (), nights=3) == tuple(day + dt.timedelta(days=n) for n in range(3))
    assert free_starts(first, last, {day + dt.timedelta(days=3)}, nights=3) == (day,)
    assert free_starts(first, last, {day}, nights=3) == (day + dt.timedelta(days=1), day + dt.timedelta(days=2))
    assert free_starts(first, dt.date(2026, 2, 14), (), nights=3) == (day,)
    assert free_starts(first, dt.date(2026, 2, 13), (), nights=3) == ()


def test_the_start_that_matters_most_is_the_earliest_of_equals() -> None:
    """Means of two nights: 1, 2, 2 …: the second. A start with no night known of two is passed over, with one it
    counts; where no start is known, the first."""
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(6)]
    need = pd.Series([0.0, 2.0, 2.0, 2.0], index=pd.Index(days[:4]))
    assert best_start(days[:3], need, nights=2) == days[1]
    half = pd.Series([9.0], index=pd.Index(days[3:4]))
    assert best_start(days[:4], half, nights=2) == days[2]
    assert best_start(days[:2], half, nights=2) == days[0]
    assert best_start(days[:2], need.iloc[:0], nights=2) == days[0]
    assert best_start(days[1:3], None) == days[1]


def test_the_coldest_stretch_reaches_to_the_last_night() -> None:
    """Nights of 5, 4, 3, 2, 1: the last two; of equals the first; a stretch of which fewer than half are known is none:
    one of two is, one of three is not."""
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(5)]
    minima = pd.Series([5.0, 4.0, 3.0, 2.0, 1.0], index=pd.Index(days))
    assert coldest_stretch(minima, 2) == (days[3], days[4])
    assert coldest_stretch(minima[::-1], 5) == (days[0], days[4])
    assert coldest_stretch(minima * 0, 2) == (days[0], days[1])
    gaps = pd.Series([5.0, 1.0], index=pd.Index([days[0], days[4]]))
    assert coldest_stretch(gaps, 2) == (days[3], days[4])
    assert coldest_stretch(gaps, 3) is None
    assert coldest_stretch(minima, 6) is None
