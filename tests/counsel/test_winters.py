"""Findings of two winters: told where the interval excludes zero and is worth something, silent else."""

from __future__ import annotations

from typing import Any, cast

import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import season

from reportgen.charts.winters import _told
from reportgen.counsel.answers_winters import winters_answer
from reportgen.counsel.facts import Facts
from reportgen.winters import EqualWeather, Row, Winters


def row(key: str, low: float, high: float, unit: str = "K", last: float = 5.0, this: float = 6.0, **more: Any) -> Row:
    equal = EqualWeather(
        effect=(low + high) / 2,
        low=low,
        high=high,
        days_last=120,
        days_this=118,
        columns=("ton",),
        smallest_visible=1.0,
    )
    usual: dict[str, Any] = {"what": key, "better": "more"}
    return Row(key=key, unit=unit, last=last, this=this, at_equal_weather=equal, **(usual | more))


def told(*rows: Row, show: str = "metric", **more: Any) -> dict[str, Any]:
    compared = Winters(last="Last winter", rows=rows, reasons={}, **more)
    return {f.slug: f for f in hand.told_on(hand.results(season(show=show), winters=compared), "winters")}


def test_without_a_last_winter_only_that_is_told() -> None:
    """One finding, that it cannot be told, and how to make it tellable."""
    (only,) = hand.told_on(hand.results(), "winters")
    assert (only.slug, only.sure) == ("no-last-winter", "cannot tell")


@pytest.mark.parametrize(
    ("low", "high", "there"), [(0.6, 1.4, True), (-0.2, 1.4, False), (0.1, 0.7, False), (-1.4, -0.6, True)]
)
def test_a_difference_is_told_only_where_it_excludes_zero_and_matters(low: float, high: float, there: bool) -> None:
    """0.6 to 1.4 K is told; an interval over zero is not, nor 0.4 K where half a kelvin matters."""
    assert ("than-last-winter-lift" in told(row("lift", low, high))) is there


def test_better_and_worse_are_told_apart() -> None:
    """Warmer nights are good news, colder ones hold growth back; less heat is good news; damper air is damp."""
    assert told(row("lift", 0.6, 1.4))["than-last-winter-lift"].stake == "good news"
    assert told(row("lift", -1.4, -0.6))["than-last-winter-lift"].stake == "growth"
    heat = row("heat", -4.0, -2.0, "kWh a day", better="less")
    assert told(heat)["than-last-winter-heat"].stake == "good news"
    damp = row("night_humidity", 3.0, 6.0, "%", better="less")
    assert told(damp)["than-last-winter-night-humidity"].stake == "damp"


def test_an_end_that_is_not_zero_is_not_printed_as_zero() -> None:
    """0.03 to 1.23 K: the lower end keeps a digit that shows it."""
    evidence = told(row("lift", 0.03, 1.23))["than-last-winter-lift"].evidence
    assert "Between 0.03 and 1.23\u00a0K" in evidence


def test_what_is_not_alike_stands_in_the_comparison_and_is_no_finding() -> None:
    """One warning in the singular, two in the plural, none not at all; the weather alone is no finding."""
    lift = row("lift", 0.6, 1.4)
    assert "one thing is not as last winter: a." in told(lift, warnings=("a.",))["than-last-winter-lift"].how_sure
    assert "2\u00a0things" in told(lift, warnings=("a.", "b."))["than-last-winter-lift"].how_sure
    assert "not as last winter" not in told(lift)["than-last-winter-lift"].how_sure
    cold = Row(key="weather", what="", unit="°C", last=3.0, this=1.0, at_equal_weather=None)
    assert told(cold, warnings=("a.",)) == {}


def test_humidity_of_another_winter_is_never_called_the_house() -> None:
    """Another crop and watering are in it: said, and looked at before the house, whether better or worse."""
    for low, high in ((3.0, 6.0), (-6.0, -3.0)):
        found = told(row("night_humidity", low, high, "%", better="less"))["than-last-winter-night-humidity"]
        assert "crop and watering" in found.how_sure
        assert "how much was watered" in found.next_step
    assert "crop" not in told(row("lift", 0.6, 1.4))["than-last-winter-lift"].how_sure


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_may_stand(show: str) -> None:
    """All of them pass the rules of wording in both ways of printing."""
    rows = (
        row("lift", 0.6, 1.4), row("heat", -4.0, -2.0, "kWh a day", better="less"), row("soil_mean", -1.5, -0.7, "°C"),
        row("night_humidity", 3.0, 6.0, "%", better="less"),
        Row(key="weather", what="", unit="°C", last=3.0, this=1.0, at_equal_weather=None),
    )  # fmt: skip
    found = told(*rows, show=show, warnings=("Logger door is new.",), only_this=("Film at 3 °C",))
    assert len(found) == 4
    words = [t for f in found.values() for t in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if t]
    assert {text: faults(text) for text in words if faults(text)} == {}


def test_cooler_nights_on_less_heat_are_no_reason_to_undo_what_is_new() -> None:
    """The thermostat was turned down: to undo what is new and to keep what is new cannot both stand on the page."""
    both = told(
        row("lift", -2.6, -1.3), row("heat", -6.7, -3.6, "kWh a day", better="less"), only_this=("Thermostat down",)
    )
    steps = {slug: found.next_step for slug, found in both.items()}
    assert "Undo nothing" in steps["than-last-winter-lift"]
    assert "cooler" in steps["than-last-winter-heat"]
    assert not any("Undo what is new" in step or "Keep what is new" in step for step in steps.values())
    alone = told(row("lift", -2.6, -1.3), only_this=("Thermostat down",))["than-last-winter-lift"].next_step
    assert alone == "Undo what is new one thing at a time, the newest first."


def test_nothing_new_is_not_to_be_undone() -> None:
    """Without a line that is new this winter there is nothing to undo: the house is looked over."""
    assert "Undo" not in told(row("lift", -2.6, -1.3))["than-last-winter-lift"].next_step


def test_a_house_held_cooler_on_less_heat_is_better_and_worse() -> None:
    """Nights 1.3 to 2.6 K cooler, 33 to 61 % less heat a day, as much for each degree: not Worse alone."""
    rows = (
        row("lift", -2.6, -1.3),
        row("watts_per_kelvin", -34.5, 1.08, "W/K", last=116.0, better="less"),
        row("heat", -6.7, -3.6, "kWh a day", last=11.0, better="less"),
        row("night_humidity", -3.0, 5.1, "%", better="less"),
    )
    facts = Facts.of(hand.results(season(), winters=Winters(last="Last winter", rows=rows, reasons={})))
    found = winters_answer("Is it going better?", facts)
    assert found.answer == "Better and worse"
    assert "33 to 61\u00a0% less heat a day" in found.why
    assert "level: humidity" in found.why and "or not" not in found.why


def test_the_page_of_both_winters_names_both_sides() -> None:
    """Better and worse: the heading says in what it is either, and not the worse alone."""
    rows = (
        row("lift", -2.6, -1.3),
        row("heat", -6.7, -3.6, "kWh a day", last=11.0, better="less"),
    )
    r = hand.results(season(), winters=Winters(last="Last winter", rows=rows, reasons={}))
    words = _told(cast("Any", r), "a claim")
    assert words.startswith("Better and worse than last winter at equal weather: 1.3 to 2.6")
    assert words.endswith("33 to 61\u00a0% less heat a day")
