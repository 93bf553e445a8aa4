"""Sentences of odd seasons, read as their grower would: nothing is advised that the season does not bear out."""

from __future__ import annotations

import re

import pytest
from kept_reviews import review_of

from reportgen.counsel.brief import heater, lowered
from reportgen.counsel.said_events import lag_words
from reportgen.counsel.types import Finding


def _finding(season: str, slug: str) -> Finding:
    return next(f for f in review_of(season).counsel.findings if f.slug == slug)


@pytest.mark.parametrize("season", ["failing heater", "film that works", "failed without a diary"])
def test_a_frost_without_heat_is_not_called_harmless_where_no_crop_is_known(season: str) -> None:
    assert review_of(season).frost.without_heat_minimum_c.low < 0.0
    said = _finding(season, "without-any-heat")
    assert "not for survival" not in said.next_step
    assert said.next_step.startswith("Do not count on doing without heat")
    assert "bands" not in said.how_sure  # none was spoken of


def test_heat_is_for_growth_where_it_would_not_have_frozen_without() -> None:
    assert review_of("heater from mid-season").frost.without_heat_minimum_c.low > 0.0
    assert "for growth" in _finding("heater from mid-season", "without-any-heat").next_step


def test_no_sum_is_told_where_no_cost_is_known() -> None:
    assert not [told for told in review_of("a diary of events").counsel.told if told.subject == "weeks"]


def test_a_heater_without_a_flue_is_not_asked_to_have_one_tested() -> None:
    plan = [step.what for step in review_of("deliveries only").counsel.plan]
    assert "Clear round the gas heater; test its flame" in plan
    assert not [what for what in plan if "test its flue" in what]


@pytest.mark.parametrize(
    ("name", "called"),
    [
        ("gas", "gas heater"),
        ("Paraffin", "Paraffin heater"),
        ("natural_gas", "natural gas heater"),
        ("fan heater", "fan heater"),
        ("the old cast iron stove", "the old cast…"),
        ("Bertha", "heater “Bertha”"),
    ],
)
def test_a_heater_s_name_stands_after_the(name: str, called: str) -> None:
    assert heater(name) == called


def test_no_fuel_is_spoken_of_as_a_thing() -> None:
    """A heater that the grower calls by its fuel alone is never told as “the gas” that burns, stops or is moved."""
    counsel = review_of("deliveries only").counsel
    said = [text for f in counsel.findings for text in (f.claim, f.evidence, f.next_step, f.figure_note)]
    said += [text for step in counsel.plan for text in (step.what, step.why)]
    said += [text for told in counsel.told for text in (told.clause, told.words)]
    assert [text for text in said if re.search(r"\bthe gas\b(?! heater)", text, re.IGNORECASE)] == []


def test_no_more_fuel_is_advised_for_a_heater_that_has_no_flue() -> None:
    said = _finding("sample", "delivery-lasts")
    assert "delivery" not in said.next_step
    assert "a heater with a flue" in said.next_step


def test_what_is_to_wait_is_not_the_first_thing_to_do() -> None:
    counsel = review_of("diary of every kind").counsel
    assert any(step.what.endswith("do not buy yet") for step in counsel.plan)
    assert not [one for one in counsel.answers if "do not buy yet" in one.why]


def test_a_house_that_froze_is_said_to_hold_only_with_its_heat() -> None:
    said = _finding("failed without a diary", "how-cold-it-may-get")
    assert "held on every night that its heat ran through" in said.claim


@pytest.mark.parametrize("season", ["deliveries only", "failing heater", "three duds", "heater from mid-season"])
def test_no_sentence_stumbles(season: str) -> None:
    counsel = review_of(season).counsel
    said = [text for f in counsel.findings for text in (f.claim, f.evidence, f.next_step)]
    said += [text for told in counsel.told for text in (told.clause, told.words)]
    for text in said:
        for wrong in ("the the ", "On from", ": No ", "1 time,", "only 0 ", "heater can,", "let expect", "in all: ."):
            assert wrong not in text, text


def test_a_long_time_to_the_line_is_told_in_hours() -> None:
    assert lag_words(36.0) == "36\u00a0minutes"
    assert lag_words(258.0) == "4.3\u00a0h"  # 258 / 60, by hand


def test_a_name_within_a_sentence_keeps_its_abbreviation() -> None:
    assert lowered("Bubble film") == "bubble film"
    assert lowered("LED strip") == "LED strip"


def test_nights_without_frost_outdoors_do_not_show_that_the_house_holds() -> None:
    assert not [f for f in review_of("summer").counsel.findings if f.slug == "how-cold-it-may-get"]


def test_each_sentence_of_the_coldest_moment_begins_as_one() -> None:
    assert " No\u00a0nights were logged whole" in _finding("one day", "coldest-moment").evidence


@pytest.mark.parametrize("season", ["one crop", "only temperature"])
def test_a_house_without_heat_that_froze_is_told_of_fleece_before_of_records(season: str) -> None:
    counsel = review_of(season).counsel
    assert counsel.plan[0].what == "Have fleece ready to draw at dusk"
    first = next(one for one in counsel.answers if one.about == "plan")
    assert first.answer == "Before the frost"
