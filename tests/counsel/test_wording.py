"""Every sentence that the sample season's findings and plan say, held to rules of plain wording."""

from __future__ import annotations

from pathlib import Path

import pytest
from counsel.sentences import faults, grade, syllables

SAMPLE = Path(__file__).parents[2] / "sample_season"
SEASONS = sorted(toml.parent for toml in SAMPLE.rglob("season.toml")) if SAMPLE.exists() else []
BAD = {
    "The regression shows it.": "jargon",
    "It fell to {low}.": "unfilled",
    "It fell to nan\u00a0°C.": "not a number",
    "Two  spaces.": "two spaces",
    "It cost 3.14159 a day.": "too many digits",
    "It fell to -3\u00a0°C.": "hyphen",
    "It fell to 3 °C.": "breaking space",
    "1\u00a0nights were cold.": "plural",
}


@pytest.mark.parametrize("sentence", sorted(BAD))
def test_the_rules_catch_a_bad_sentence(sentence: str) -> None:
    """Each rule catches a sentence made to break it: the test below can fail."""
    assert any(BAD[sentence] in fault for fault in faults(sentence))


def test_a_plain_sentence_may_stand() -> None:
    """A sentence as a grower would say it has no fault."""
    assert faults("The air fell to \u22121.2\u00a0°C on 14\u00a0January, for 3\u00a0h.") == []


@pytest.mark.parametrize("folder", SEASONS, ids=[folder.name for folder in SEASONS])
def test_every_sentence_of_the_sample_may_stand(folder: Path) -> None:
    """Claim, evidence, how sure, next step and caution of every finding, and every line of the plan."""

    from reportgen.pipeline import analyse

    review = analyse(folder)
    sentences = [
        text for f in review.findings for text in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if text
    ]
    sentences += [text for s in review.counsel.plan for text in (s.what, s.why, s.caution) if text]
    assert sentences
    assert {s: faults(s) for s in sentences if faults(s)} == {}


@pytest.mark.parametrize(("word", "count"), [("bed", 1), ("house", 1), ("heater", 2), ("humidity", 4), ("little", 2)])
def test_syllables_are_counted_as_a_dictionary_does(word: str, count: int) -> None:
    """Plain words of the report, syllables as any English dictionary divides them."""
    assert syllables(word) == count


def test_a_hard_sentence_has_a_higher_grade_than_a_plain_one() -> None:
    """The measure can tell a plain sentence from an official one."""
    plain = "The air was too damp at night. Open the vents at noon."
    hard = "Nocturnal hygrometric conditions necessitated considerably intensified ventilation thereafter."
    assert grade(plain) < 4 < 16 < grade(hard)
