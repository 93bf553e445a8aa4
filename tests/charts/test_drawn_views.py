"""What the pen is told of a review, and what it draws of it: the sample in both units and every odd season."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace
from typing import cast

import pandas as pd
import pytest
from drawing.measured import faults, ids, said
from kept_reviews import review_of

from reportgen.charts.calendar_view import calendar_view
from reportgen.charts.effects_view import effects_view, judged
from reportgen.charts.effects_words import interval_brief, interval_said, refused_brief
from reportgen.charts.frost_view import frost_view
from reportgen.charts.kilogram_view import kilogram_view
from reportgen.charts.nights_views import dots_view, failure_view, ribbon_of
from reportgen.charts.pair_view import pair_view
from reportgen.charts.season_notes import night_notes
from reportgen.charts.season_view import season_view
from reportgen.charts.timeline import divisions
from reportgen.charts.weeks_view import weeks_view
from reportgen.charts.winter import _held
from reportgen.charts.worst_view import worst_view
from reportgen.counsel import cautions
from reportgen.counsel.changes_words import effect_words, shown, unit_of
from reportgen.counsel.grounds import Balance, BalanceWeek, PlanStep
from reportgen.drawing.dots import dots
from reportgen.drawing.effects import effects_flat, effects_tall, effects_wide
from reportgen.drawing.failure import failure
from reportgen.drawing.frost import frost_tall, frost_wide
from reportgen.drawing.kilogram import kilogram
from reportgen.drawing.pair import pair
from reportgen.drawing.season_tall import season_tall
from reportgen.drawing.season_wide import HANDOUT, season_wide
from reportgen.drawing.weeks import weeks_tall, weeks_wide
from reportgen.drawing.worst_night import worst_night
from reportgen.effects import Outcome
from reportgen.review import Review
from reportgen.site.resources import environment
from reportgen.wording import Wording

SIZES = ((500.0, 14.0, "wide"), (360.0, 12.5, "tall"))
SEASONS = (
    "one thermometer",
    "no outdoor logger",
    "only soil",
    "one day",
    "ten days",
    "240 days",
    "a month missing",
    "one reading",
    "southern",
    "US units",
    "deliveries only",
    "diary of every kind",
    "names",
    "extremes",
    "midnight sun",
)
NO_WORD = re.compile(r"\b(nan|NaN|NaT|None|inf)\b")


def balance_of(review: Review) -> Balance:
    """Weeks of money as the review's own weeks have them; a third of the heat not needed."""
    weeks = tuple(
        BalanceWeek(week=w.week, heat_money=w.cost, kg=w.kg, value=w.kg * 9.0, needed_share=2 / 3, monday=w.monday)
        for w in review.harvest.weeks
    )
    nothing = dict.fromkeys(("heat", "appliances", "costs", "changes_by_years", "total", "per_kg"))
    return Balance(**nothing, missing=(), weeks=weeks, reasons={})


def drawn(review: Review) -> dict[str, str]:
    """Every picture that this review has the data for."""
    season = season_view(review)
    out = {"season": season_wide(season), "season tall": season_tall(season), "handout": season_wide(season, HANDOUT)}
    if (effects := effects_view(review)) is not None:
        out |= {"effects": effects_wide(effects), "effects tall": effects_tall(effects), "flat": effects_flat(effects)}
    for n, effect in enumerate(judged(review)):
        if (two := pair_view(review, effect, f"pair{n}")) is not None:
            out[f"pair {n}"] = pair(two)
    if (money := kilogram_view(review)) is not None:
        out |= {"kilogram": kilogram(money), "kilogram tall": kilogram(money, 360, 12.5, "tall")}
    if (cold := frost_view(review)) is not None:
        out |= {"frost": frost_wide(cold), "frost tall": frost_tall(cold)}
    if (weeks := weeks_view(review, balance_of(review))) is not None:
        out |= {"weeks": weeks_wide(weeks), "weeks tall": weeks_tall(weeks)}
    for width, size, kind in SIZES:
        if (night := worst_view(review)) is not None:
            out[f"night {kind}"] = worst_night(night, width, size, kind)
        if (nights := dots_view(review)) is not None:
            out[f"dots {kind}"] = dots(nights, width, size, kind)
        if (fails := failure_view(review)) is not None:
            out[f"failure {kind}"] = failure(fails, width, size, kind)
    return out


def looked_over(pictures: dict[str, str]) -> list[str]:
    """Faults of all pictures, and words that are none."""
    found = [f"{name}: {fault}" for name, svg in pictures.items() for fault in faults(svg)]
    found += [
        f"{name}: {line.words}" for name, svg in pictures.items() for line in said(svg) if NO_WORD.search(line.words)
    ]
    every = [one for svg in pictures.values() for one in ids(svg)]
    return found + [f"id {one} twice" for one in {one for one in every if every.count(one) > 1}]


@pytest.mark.parametrize("name", ["sample", "sample in °F"])
def test_the_sample_is_drawn_whole(name: str) -> None:
    """Every form has something to draw, and draws it without a fault; sizes stay within what a page may carry."""
    review = review_of(name)
    pictures = drawn(review)
    assert looked_over(pictures) == []
    assert len(pictures) >= 24
    assert len(pictures["season"]) + len(pictures["season tall"]) <= 48_000
    assert len(pictures["effects"]) + len(pictures["effects tall"]) <= 14_000
    assert len(pictures["kilogram"]) <= 3_000
    assert len(ribbon_of(review)) <= 2_000


def test_the_samples_pictures_say_its_numbers() -> None:
    """Numbers of the season's own files (README of the sample): coldest −5.2 °C on 14 January, 32.5 kg picked."""
    words = " ".join(line.words for line in said(season_wide(season_view(review_of("sample")))))
    assert "heater stood still" in words and "−5.2°" in words and "32.5\u00a0kg" in words
    us = " ".join(line.words for line in said(season_wide(season_view(review_of("sample in °F")))))
    assert "32°" in us and "22.7°" in us and "71.7\u00a0lb" in us  # −5.17 °C and 32.5 kg by the exact factors


@pytest.mark.parametrize("name", ["sample", "sample in °F"])
def test_every_week_with_a_picking_says_its_weight(name: str) -> None:
    """The tallest bars too: 8.2, and from ten on 11, so that it fits above 27 weeks."""
    view = weeks_view(review_of(name), balance_of(review_of(name)))
    assert view is not None
    wanted = [week.said for week in view.weeks if week.said]
    words = [line.words for line in said(weeks_wide(view))]
    assert wanted and all(words.count(one) >= wanted.count(one) for one in wanted)
    assert all(("." in one) == (float(one) < 10) for one in wanted)


def test_a_coldest_moment_that_no_night_of_the_picture_holds_is_said_so() -> None:
    """1 °C at one in the morning of the first day: its night began before the season, and the picture's coldest is
    another. By day in the season: in no night drawn."""
    review = review_of("sample")
    first = pd.Timestamp(review.season.first_day, tz=review.season.zone)

    def description(hours: float, colder_k: float = 1.0) -> str:
        lowest = review.frost.minimum
        assert lowest.temperature_c is not None
        moved = replace(lowest, at=first + pd.Timedelta(hours=hours), temperature_c=lowest.temperature_c - colder_k)
        return season_view(replace(review, frost=replace(review.frost, minimum=moved))).description

    assert "on 11\u00a0Oct, before the first night drawn; " in description(1)
    assert "on 12\u00a0Oct, in no night drawn; " in description(24 + 14)
    assert "drawn" not in description(24, colder_k=0.0)


def test_the_picture_of_the_worst_night_begins_with_what_led_to_it() -> None:
    """The sample's heater stood still from 22:40 (its diary), the coldest moment was at 06:24: eight hours back would
    leave the beginning out by a quarter. Where no event tells of it, eight hours."""
    review = review_of("sample")
    view, at = worst_view(review), review.frost.minimum.at
    assert view is not None and at is not None
    begun = pd.Timestamp("2026-01-13 22:40", tz=review.season.zone)
    assert at + pd.Timedelta(hours=view.first) <= begun - pd.Timedelta(minutes=59) and view.first >= -14.0
    assert any(p is not None and p[0] < -8.0 for p in view.tracks[0].points)
    grounds = replace(review.counsel.grounds, events=())
    quiet = worst_view(replace(review, counsel=replace(review.counsel, grounds=grounds)))
    assert quiet is not None and quiet.first == -8.0


@pytest.mark.parametrize("name", SEASONS)
def test_odd_seasons_are_drawn_without_a_fault(name: str) -> None:
    """What is there is drawn, what is not is left out; never a traceback, a NaN or words over one another."""
    review = review_of(name)
    assert looked_over(drawn(review)) == []


def outcome(name: str, unit: str, low: float, high: float, before: float = float("nan")) -> Outcome:
    """An estimated outcome."""
    return Outcome(
        outcome=name, unit=unit, declared=True, effect=(low + high) / 2, low=low, high=high, before_mean=before
    )


def test_watts_for_a_degree_are_those_of_the_degrees_that_are_shown() -> None:
    """18 W/K are 10 W/°F: a degree Fahrenheit is 5/9 K."""
    us, metric = (Wording(us=us, currency="USD") for us in (True, False))
    made = outcome("watts_per_kelvin", "W/K", -36.0, 0.0)
    assert shown(made, -18.0, us) == pytest.approx(-10.0) and unit_of(made, us) == "W/°F"
    assert shown(made, -18.0, metric) == -18.0 and unit_of(made, metric) == "W/K"
    assert effect_words(made, us).endswith("W/°F")


@pytest.mark.parametrize(
    ("made", "words", "brief"),
    [
        (outcome("lift", "K", 0.24, 1.68), "0.2 to 1.7\u00a0degrees warmer nights", "0.2–1.7\u00a0degrees warmer"),
        (
            outcome("lift", "K", -1.2, 0.4),
            "from 1.2\u00a0degrees colder to 0.4 warmer nights",
            "−1.2 to +0.4\u00a0degrees",
        ),
        (outcome("night_humidity", "%", -18.0, -2.5), "2 to 18\u00a0points drier night air", "2–18\u00a0points drier"),
        (
            outcome("watts_per_kelvin", "W/K", -54.0, -34.0, 126.0),
            "27 to 43\u00a0% less heat for each degree",
            "27–43\u00a0% less heat",
        ),
        (
            outcome("night_humidity", "%", -1.2, 5.05),
            "from 1\u00a0point drier to 5 damper night air",
            "−1 to +5\u00a0points",
        ),
    ],
)
def test_an_interval_in_plain_words(made: Outcome, words: str, brief: str) -> None:
    """Its own unit, in degrees and points, the side that it points to."""
    w = Wording(us=False, currency="EUR")
    assert (interval_said(made, w), interval_brief(made, w)) == (words, brief)


def test_reasons_have_at_most_six_words() -> None:
    """Whatever was refused."""
    for why in ("the nights after were too much milder than those before to be set side by side", "something else", ""):
        refused = Outcome(outcome="lift", unit="K", declared=True, refused=why)
        assert 1 <= len(refused_brief(refused).split()) <= 6
    assert refused_brief(None) == "cannot be told"
    bought = "the heat is known only by what was bought: a change needs the heat of each day"
    assert refused_brief(cast("Outcome", SimpleNamespace(refused=bought))) == "heat not known by the day"


def test_months_and_weeks_part_the_season_without_a_gap() -> None:
    """From the first day to the last, over a turn of the year and in a short season."""
    for days in (1, 9, 41, 42, 184, 240):
        first = date(2025, 11, 20)
        parts = divisions(first, first + timedelta(days=days - 1))
        assert parts[0].first == 0 and parts[-1].last == days
        assert all(a.last == b.first for a, b in itertools.pairwise(parts))


def step(row: str, start: date, end: date, caution: str | None = None) -> PlanStep:
    """A step of the plan."""
    return PlanStep(row=row, from_=start, to=end, what=f"{row} <it>", why="3 to 18 points", lever=None, caution=caution)  # type: ignore[arg-type]


def test_the_plan_stands_in_half_months() -> None:
    """From the month of the first step; the 15th is the first half, the 16th the second; rows without steps are out."""
    first, last = date(2026, 10, 11), date(2027, 4, 12)
    plan = [step("Keep", date(2026, 10, 15), date(2027, 4, 12)), step("Sow", date(2026, 9, 16), date(2026, 9, 30))]
    found = calendar_view(plan, first, last)
    assert found is not None
    assert found.months == ("September", "October", "November", "December", "January", "February", "March", "April")
    assert [(row.name, row.items[0].start, row.items[0].end) for row in found.rows] == [("Sow", 2, 2), ("Keep", 3, 15)]
    assert calendar_view([], first, last) is None


def test_the_plan_has_at_most_ten_items_and_three_a_row() -> None:
    """What finds no room is counted; a plan that begins years before keeps to twelve months."""
    day = date(2026, 11, 1)
    plan = [step(row, day, day) for row in ("Sow", "Keep", "Undo", "Try", "Log") for _ in range(5)]
    found = calendar_view(plan, date(2026, 10, 1), date(2027, 4, 30))
    assert found is not None and sum(len(row.items) for row in found.rows) == 10 and found.left_out == 15
    long = calendar_view([step("Log", date(2024, 1, 1), day)], date(2026, 10, 1), date(2027, 4, 30))
    assert long is not None and len(long.months) == 12 and long.rows[0].items[0].start == 1


def test_the_plan_as_a_list() -> None:
    """Classes, no style attribute; what the grower typed is escaped; each step has its dates and its caution, in
    the few words that stand beside a row (in full it stands under *Take care*)."""
    plan = [step("Try", date(2026, 11, 1), date(2026, 11, 28), cautions.SEAL)]
    view = calendar_view(plan, date(2026, 10, 1), date(2027, 4, 30))
    made = environment().from_string('{% from "calendar.html" import calendar %}{{ calendar(c) }}').render(c=view)
    assert 'class="s3 e4"' in made and "style=" not in made and "<it>" not in made
    assert "1–28\u00a0Nov" in made and "Never seal a house in which something burns." in made


def test_a_line_of_the_diary_beside_the_coldest_night_ends_at_a_word() -> None:
    """34 letters at most; "Heater stood still: its overheat cut-out" would break off within the overheat."""
    table = pd.DataFrame({"at": [pd.Timestamp("2026-01-15 05:00")], "logger": ["door"]}, index=[date(2026, 1, 14)])
    lit = SimpleNamespace(kind="spell", what="Gas heater lit", date=date(2026, 1, 14), until=date(2026, 1, 15))
    stood = SimpleNamespace(
        kind="event", what="Heater stood still: its overheat cut-out had tripped", date=date(2026, 1, 14)
    )
    made = SimpleNamespace(
        readings=SimpleNamespace(diary=(lit, stood)),
        season=SimpleNamespace(first_day=date(2026, 1, 14)), frost=SimpleNamespace(table=table, line_c=0.0),
        heat=SimpleNamespace(holds=(), kwh=None),
    )  # fmt: skip
    (note,) = night_notes(made, Wording(us=False, currency=""), [-5.2], [None])  # type: ignore[arg-type]
    assert note.words == "15\u00a0January: heater stood still: its overheat…, −5.2°"
    made.readings.diary = (lit,)  # what burned for days is no cause of one night's cold
    (note,) = night_notes(made, Wording(us=False, currency=""), [-5.2], [None])  # type: ignore[arg-type]
    assert note.words == "15\u00a0January: −5.2°"


@pytest.mark.parametrize(
    ("found", "aims", "lows", "said_"),
    [
        (3.5, (3.0,), [3.2] * 40, "held near 3\u00a0°C"),  # one figure in the title and in the picture
        (5.8, (8.0, 3.0), [8.1] * 40 + [3.2] * 29, ""),  # turned down twice: no one warmth was held
        (5.8, (), [5.6] * 20, "held near 6\u00a0°C"),
        (None, (8.0,), [8.1] * 20, ""),
    ],
)
def test_the_title_and_the_picture_name_one_held_warmth(
    found: float | None, aims: tuple[float, ...], lows: list[float], said_: str
) -> None:
    """By the longest run of nights near an aim, and only where the whole season's heat does not speak against it."""
    first = date(2026, 1, 1)
    holds = tuple((first + timedelta(days=40 * n), aim) for n, aim in enumerate(aims))
    index = [first + timedelta(days=n) for n in range(len(lows))]
    review = SimpleNamespace(
        season=SimpleNamespace(first_day=first, last_day=index[-1]),
        heat=SimpleNamespace(hold_found_c=found, holds=holds, kwh=100.0),
        frost=SimpleNamespace(table=pd.DataFrame({"inside_min": lows}, index=index)),
    )
    words = _held(cast("Review", review), Wording(us=False, currency="EUR"))
    assert (f"held near {words}" if words else "") == said_
