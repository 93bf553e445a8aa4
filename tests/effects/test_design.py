"""Which columns an estimate has and what is refused: each bound from both sides, on columns made by hand."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from effects.in_memory import entry

from reportgen.effects.causes import Cause
from reportgen.effects.design import (
    Refused,
    _own_share,
    check_heated,
    check_sides,
    check_weather_alike,
    design,
    moves,
    named,
)

N = 28
STEP = np.repeat([0.0, 1.0], N // 2)
RNG = np.random.default_rng(8)
WEATHER = RNG.standard_normal(N)


def test_what_moves_differs_from_its_usual_value_on_four_days() -> None:
    """Three odd days of twenty: it says nothing; four: it does. Differences under 1e-9 are none."""
    flat = np.full(20, 7.0)
    for odd, told in ((0, False), (3, False), (4, True)):
        values = flat.copy()
        values[:odd] += np.arange(odd) + 1.0
        assert moves(values) is told
    assert not moves(flat + 1e-11 * np.arange(20))
    assert moves(flat + 1e-7 * np.arange(20))


def test_the_columns_in_their_order() -> None:
    """Level, step, other steps, yesterday, weather; yesterday and the weather centred, the steps as they are."""
    other = np.array([0.0, 1.0] * (N // 2))
    lag = np.arange(N, dtype=float)
    found = design(STEP, {"vents": other}, lag, {"ton": WEATHER, "sol": WEATHER**2})
    assert found.names == ("level", "step", "vents", "yesterday", "ton", "sol")
    assert found.weather == ("ton", "sol")
    centred = [lag - 13.5, WEATHER - WEATHER.mean(), WEATHER**2 - (WEATHER**2).mean()]
    assert found.x == pytest.approx(np.column_stack([np.ones(N), STEP, other, *centred]))


def test_other_steps_need_days_on_both_sides_and_something_of_their_own() -> None:
    """Always on, never on, the same as one that is there already (or its opposite): left out."""
    one = np.array([0.0, 1.0] * (N // 2))
    others = {"never": np.zeros(N), "always": np.ones(N), "one": one, "twin": one.copy(), "opposite": 1.0 - one}
    assert design(STEP, others, None, {}).names == ("level", "step", "one")
    last, first = np.zeros(N), np.ones(N)
    last[-1], first[0] = 1.0, 0.0
    assert design(STEP, {"last day": last, "from the second": first}, None, {}).names[2:] == (
        "last day", "from the second",
    )  # fmt: skip


@pytest.mark.parametrize(("apart", "told"), [(3, False), (4, True)])
def test_two_steps_on_nearly_the_same_days_are_refused(apart: int, told: bool) -> None:
    """150 days a side, the other step k days later: it leaves the step 1 − r² with r² = (150 − k)/(150 + k); 3 days:
    3.9 %, refused under 5; 4 days: 5.2 %, told."""
    step = np.repeat([0.0, 1.0], 150)
    later = np.repeat([0.0, 1.0], [150 + apart, 150 - apart])
    left = 1 - (150 - apart) / (150 + apart)
    assert (left > 0.05) is told
    if told:
        assert design(step, {"fleece": later}, None, {}).names == ("level", "step", "fleece")
        return
    far = np.repeat([0.0, 1.0, 0.0, 1.0], 75)
    with pytest.raises(Refused, match="told from “fleece”: both came into force") as refused:
        design(step, {"vents": far, "fleece": later}, None, {})
    assert refused.value.blocked_by == ("fleece",)
    assert "a fortnight between it and “fleece”" in refused.value.answerable


@pytest.mark.parametrize(("own", "kept"), [(0.0024, False), (0.0026, True)])
def test_a_weather_column_needs_a_quarter_of_a_percent_of_its_own(own: float, kept: bool) -> None:
    """Two columns at right angles to each other and to level and step: b = cos·a + sin·c has sin² of its own."""
    turned = np.array([1.0, -1.0, 1.0, -1.0] * 7)
    other = np.array([1.0, 1.0, -1.0, -1.0] * 7)
    other[12:16] = [1.0, -1.0, 1.0, -1.0]  # six blocks of four at a right angle, one parallel
    base = np.column_stack([np.ones(N), STEP, turned])
    right = other - base @ np.linalg.lstsq(base, other, rcond=None)[0]
    first = (
        turned
        - np.column_stack([np.ones(N), STEP])
        @ np.linalg.lstsq(np.column_stack([np.ones(N), STEP]), turned, rcond=None)[0]
    )
    mixed = np.sqrt(1 - own) * first / np.linalg.norm(first) + np.sqrt(own) * right / np.linalg.norm(right)
    found = design(STEP, {}, None, {"ton": first, "tod": mixed})
    assert ("tod" in found.weather) is kept
    assert _own_share(mixed, [np.ones(N), STEP, first]) == pytest.approx(own)


def test_weather_that_hardly_moves_is_left_out() -> None:
    """A column that differs on three days only."""
    still = np.zeros(N)
    still[:3] = [1.0, 2.0, 3.0]
    assert design(STEP, {}, None, {"windn": still, "ton": WEATHER}).weather == ("ton",)


def test_own_share_of_nothing_is_nothing() -> None:
    """A constant has no variation; a column at a right angle keeps all of it."""
    assert _own_share(np.full(4, 2.0), [np.ones(4)]) == 0.0
    assert _own_share(np.array([1.0, -1.0, 1.0, -1.0]), [np.ones(4), np.array([1.0, 1, -1, -1])]) == pytest.approx(1.0)


@pytest.mark.parametrize(("days", "told"), [(8, True), (7, False)])
def test_six_days_more_than_columns(days: int, told: bool) -> None:
    """Level and step of eight days leave six free, of seven five."""
    step = np.repeat([0.0, 1.0], [3, days - 3])
    if told:
        assert design(step, {}, None, {}).x.shape == (8, 2)
    else:
        with pytest.raises(Refused, match="7 usable days are too few for 2 things that could explain them") as refused:
            design(step, {}, None, {})
        assert refused.value.blocked_by == ()


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (7, 7, None),
        (6, 7, "only 6 nights before with readings that can be used; at least 7 are needed"),
        (7, 6, "only 6 nights after with"),
        (7, 1, "only 1 night after with"),
        (0, 7, "no night before with"),
    ],
)
def test_seven_nights_on_either_side(before: int, after: int, words: str | None) -> None:
    """Seven are enough; the side with too few is named with its number."""
    step = np.repeat([0.0, 1.0], [before, after])
    if words is None:
        check_sides(step, ("before", "after"))
    else:
        with pytest.raises(Refused, match=words):
            check_sides(step, ("before", "after"))


def test_what_the_other_nights_were_lost_to_is_asked_of_the_right_side() -> None:
    """Of *on* where that lacks nights, of *off* where it does; in brackets behind the number."""
    for off, on, side in ((7, 3, "on"), (3, 7, "off")):
        with pytest.raises(Refused, match=rf"only 3 nights {side} with heat; at least 7 are needed \(lost {side}\)"):
            check_sides(
                np.repeat([0.0, 1.0], [off, on]),
                ("off", "on"),
                "with heat",
                lambda after: f"lost {'on' if after else 'off'}",
            )


SPREAD = np.array([-3.0, -2.0, -1.0, 0.0, 0.0, 1.0, 2.0, 3.0])  # sum of squares 28, variance 28/7 = 4


@pytest.mark.parametrize(("apart", "refused"), [(2.99, None), (3.01, "milder"), (-2.99, None), (-3.01, "colder")])
def test_means_may_lie_one_and_a_half_pooled_deviations_apart(apart: float, refused: str | None) -> None:
    """Two sides of variance 4 have a pooled deviation of 2: 3 K apart at most."""
    nights = np.concatenate([SPREAD, SPREAD + apart])
    step = np.repeat([0.0, 1.0], 8)
    if refused is None:
        check_weather_alike(step, nights)
    else:
        with pytest.raises(Refused, match=f"the nights after were too much {refused} than those before"):
            check_weather_alike(step, nights)


def test_sides_of_unlike_length_are_pooled_by_their_degrees_of_freedom() -> None:
    """Sums of squares of 28 over 7 and of 224 over 15 degrees of freedom: √(252/22) = 3.38 K; 1.5 times is 5.08 K."""
    wide = np.concatenate([2 * SPREAD, 2 * SPREAD])
    bound = 1.5 * np.sqrt((28 + 224) / 22)
    step = np.repeat([0.0, 1.0], [16, 8])
    check_weather_alike(step, np.concatenate([wide, SPREAD + bound - 0.01]))
    with pytest.raises(Refused):
        check_weather_alike(step, np.concatenate([wide, SPREAD + bound + 0.01]))


@pytest.mark.parametrize(
    ("inside", "edge", "told"),
    [(4, 9.0, True), (3, 9.0, False), (3, 3.5, True), (3, -3.5, True), (3, 3.51, False), (3, -3.51, False)],
)
def test_half_of_the_nights_after_must_lie_in_the_range_before(inside: int, edge: float, told: bool) -> None:
    """Before: −3 to 3 °C, half a kelvin more on either end. After: some at 0, the others at the edge; means that stand
    far apart are let through here (twenty deviations)."""
    after = np.array([0.0] * inside + [edge] * (8 - inside)) + 0.0
    nights, step = np.concatenate([SPREAD, after]), np.repeat([0.0, 1.0], 8)
    if told:
        check_weather_alike(step, nights, colder_sd=20.0)
    else:
        with pytest.raises(Refused) as refused:
            check_weather_alike(step, nights, ("off", "on"), colder_sd=20.0)
        assert str(refused.value) == (
            f"the nights on were too much {'milder' if edge > 0 else 'colder'} than those off to be set side by side"
        )


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [((1, 1, 0, 0), (1, 1, 1, 1), True), ((1, 0, 0, 0), (1, 1, 1, 1), False), ((1, 1, 1, 1), (1, 0, 0, 0), False)],
)
def test_half_the_days_of_either_side_are_heated(before: tuple[int, ...], after: tuple[int, ...], told: bool) -> None:
    """Two of four are enough, one is not; a day of which nothing is known counts on no side."""
    step = np.repeat([0.0, 1.0], 5)
    heated = np.array([*before, np.nan, np.nan, *after], dtype=float)
    if told:
        check_heated(step, heated)
    else:
        with pytest.raises(Refused, match="heated on fewer than half the days of one side"):
            check_heated(step, heated)


def test_causes_of_one_name_are_told_apart() -> None:
    """Two groups of the same words; a group of two lines has both names."""
    seal = (entry(dt.date(2026, 1, 5), "seal"),)
    both = (*seal, entry(dt.date(2026, 1, 6), "film", line=3))
    causes = [
        Cause(entries=seal, first=4, last=5),
        Cause(entries=seal, first=8, last=9),
        Cause(entries=both, first=1, last=2),
    ]
    found = named(causes, np.arange(4.0, 11.0))
    assert list(found) == ["seal", "seal (again)", "seal + film"]
    assert found["seal (again)"].tolist() == [0, 0, 0, 0, 0, 0, 1]
    again = named([causes[0]] * 3, np.arange(4.0, 11.0))
    assert list(again) == ["seal", "seal (again)", "seal (again) (again)"]
