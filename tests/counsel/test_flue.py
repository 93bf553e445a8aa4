"""A burner's flue: told as missing only where season.toml says so, asked for where it says nothing."""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from typing import Any

import pytest
from counsel.grounded import GAS, event, grounds, lever, winter
from counsel.test_steps import of_row
from kept_reviews import SAMPLE

from reportgen.counsel.answers_lever import lever_why
from reportgen.counsel.brief import words_in
from reportgen.counsel.facts import Facts
from reportgen.counsel.kinds import KINDS
from reportgen.counsel.levers_safety import Burner
from reportgen.counsel.levers_words import never_lit
from reportgen.pipeline import analyse
from reportgen.review import Review

ACCUSED = re.compile(r"without a flue (on|some)|fumes stayed (inside|in the house)|has no flue|give it a flue")


@pytest.fixture(scope="module")
def unsaid(tmp_path_factory: pytest.TempPathFactory) -> Review:
    """The sample season, in which nobody wrote whether its gas heater has a flue."""
    folder = tmp_path_factory.mktemp("unsaid") / "season"
    shutil.copytree(SAMPLE, folder)
    toml = folder / "season.toml"
    text = toml.read_text("utf-8")
    assert "vented = false" in text
    toml.write_text(text.replace("vented = false", ""), "utf-8")
    return analyse(folder)


def said_of(review: Review) -> list[str]:
    """Every sentence of findings, plan, answers and what is told first."""
    c = review.counsel
    told = [words for f in c.findings for words in (f.claim, f.evidence, f.how_sure, f.next_step)]
    told += [words for step in c.plan for words in (step.what, step.why)]
    told += [words for answer in c.answers for words in (answer.answer, answer.why)]
    return told + [one.words for one in c.told] + [x.condition or "" for x in c.grounds.levers]


def test_who_left_it_out_is_asked_and_not_accused(unsaid: Review) -> None:
    """No sentence says that it has none; the finding, the plan and the verdict ask; the cautions stay."""
    told = said_of(unsaid)
    assert [words for words in told if ACCUSED.search(words)] == []
    (fumes,) = (f for f in unsaid.counsel.findings if f.slug == "fire-or-fumes")
    assert "season.toml does not say whether the gas heater has a flue" in fumes.claim
    assert fumes.sure == "cannot tell" and "vented = true" in fumes.next_step
    assert fumes.caution and "carbon monoxide" in fumes.caution
    (asked,) = (s for s in unsaid.counsel.plan if "carbon monoxide" in s.what.casefold())
    assert asked.why == "season.toml does not say whether the gas heater has a flue"
    tape = next(x for x in unsaid.counsel.grounds.levers if x.thing == "vent tape")
    assert tape.verdict == "not while that burns here" and "does not say whether it has one" in str(tape.condition)
    own = next(x for x in unsaid.counsel.grounds.levers if x.thing == "gas heater")
    assert own.verdict == "not again" and "unless it has a flue, which season.toml does not say" in str(own.condition)
    told_first = next(one for one in unsaid.counsel.told if one.subject == "safety")
    assert told_first.caution and "does not say whether" in told_first.words and "ure:" not in told_first.sure


def test_the_words_of_a_condition() -> None:
    """Said to have none: never. Not said: unless it has one. One of two said: never."""
    burner = Burner(name="gas stove", main=False, flue_unsaid=True, lit=(), lever=None)
    none = replace(burner, name="paraffin heater", flue_unsaid=False)
    assert never_lit([burner]) == "never with the gas stove lit unless it has a flue"
    assert never_lit([none]) == "never with the paraffin heater lit"
    assert "unless" not in never_lit([burner, none])
    assert never_lit([burner, replace(burner, name="stove")]).endswith("lit unless they have a flue")


def danger(**more: Any) -> Any:
    """The finding of a burner in a tightened house."""
    usual = {"days": 10, "source": "gas stove", "minimum_c": None, "crops": (), "levers": ("Tape",)}
    on = grounds(events=(event("safety", "x", **(usual | more)),))
    (found,) = KINDS["fire-or-fumes"].findings("fire-or-fumes", Facts.of(winter(sources=(GAS,)), on))
    return found


def test_a_book_without_days_is_of_fumes_too() -> None:
    """Where the days are not known the burner is still what is spoken of: no electrician, and the caution of fuel."""
    found = danger(days=0)
    assert "burned without a flue some time" in found.claim and "no days" not in found.claim
    assert "electrician" not in found.next_step and found.caution and "carbon monoxide" in found.caution
    assert "not on which of these days" in found.evidence


def test_a_flue_known_to_be_missing_is_told_as_certain() -> None:
    """vented = false: sure that it burned."""
    found = danger()
    assert "burned without a flue on 10\u00a0days while “Tape”" in found.claim and found.sure == "sure"


def test_a_burner_that_was_never_lit_left_no_fumes() -> None:
    """It has no flue and gave no heat: nothing stayed inside this winter."""
    told = of_row("Before the frost", winter(sources=(GAS,)), grounds())
    assert told[0].why == "the gas stove has no flue: its fumes would stay inside"
    asked = of_row("Before the frost", winter(sources=(replace_source(),)), grounds())
    assert asked[0].why == "season.toml does not say whether the gas stove has a flue" and asked[0].caution


def replace_source() -> Any:
    """The gas stove of which nobody wrote whether it has a flue."""
    return GAS.model_copy(update={"vented": None})


def test_the_warning_is_never_what_is_left_out_of_an_answer() -> None:
    """However many words the figures take, the burner stands in the 25."""
    film = lever("Film", unsafe_with=("gas stove",), condition="never with the gas stove lit", cost=123.0, years=3.0)
    words = lever_why(winter(sources=(GAS,)), film)
    assert "ever with the gas stove lit" in words and words_in(words) <= 25
