"""Plan, answers and what is told first of odd seasons, of winters of known truth and of the sample: by the rules."""

from __future__ import annotations

import pytest
from counsel.plan_rules import wrong_plan, wrong_words
from kept_reviews import WINTERS, review_of
from odd_seasons import ODD

from reportgen.site.plan_files import plan_files


@pytest.mark.parametrize("name", sorted(ODD))
def test_an_odd_season_has_a_plan_by_the_rules(name: str) -> None:
    """No heater, no diary, ten days, eight months, °F, south of the line: words, dates, verdicts, cautions hold."""
    review = review_of(name)
    assert wrong_plan(review) + wrong_words(review) == []
    assert review.counsel.answers and bool(review.counsel.plan) is bool(plan_files(review))


@pytest.mark.parametrize("name", [*WINTERS, "sample", "sample in °F"])
def test_a_known_winter_has_a_plan_by_the_rules(name: str) -> None:
    """At most two trials, none against a verdict, nothing twice; sure only where a figure stands."""
    review = review_of(name)
    assert wrong_plan(review) + wrong_words(review) == []


def test_no_row_of_the_plan_is_against_an_answer() -> None:
    """What an answer keeps no row undoes, and the other way round."""
    review = review_of("sample")
    rows = {(step.lever, step.row) for step in review.counsel.plan}
    for answer in review.counsel.answers:
        if answer.answer in ("Yes", "Keep it") or answer.answer.endswith(", yes"):
            assert (answer.about, "Undo") not in rows and (answer.about, "Try") not in rows
        if answer.answer.endswith(" off"):
            assert (answer.about, "Keep") not in rows and (answer.about, "Try") not in rows
