"""Findings on winters of known truth: which must be told, which must not, and what each rests on."""

from __future__ import annotations

import re

import pytest
from counsel.sentences import faults, grade
from counsel.worlds import scenario
from kept_reviews import WINTERS, review_of
from scenarios import hits

from reportgen.counsel import find
from reportgen.counsel.kinds import kind_of
from reportgen.dotted import value_at


@pytest.mark.parametrize("name", WINTERS)
def test_what_is_true_is_told_and_what_is_not_is_left(name: str) -> None:
    """Every finding that the truth calls for is there, and none that it rules out."""
    slugs = {finding.slug for finding in review_of(name).findings}
    wanted = scenario(name)
    assert set(wanted.must) - hits(slugs, wanted.must) == set()
    assert hits(slugs, wanted.must_not) == set()


def test_recall_and_precision_over_all_truths() -> None:
    """Over all winters: told of those that must be, and not told of those that must not, counted together."""
    due = told = barred = kept = 0
    for name in WINTERS:
        slugs, wanted = {f.slug for f in review_of(name).findings}, scenario(name)
        due, told = due + len(wanted.must), told + len(hits(slugs, wanted.must))
        barred, kept = barred + len(wanted.must_not), kept + len(wanted.must_not) - len(hits(slugs, wanted.must_not))
    # A table with little in it proves little.
    assert due >= 12 and barred >= 25
    assert told / due == 1.0
    assert kept / barred == 1.0


def test_a_perfect_winter_is_not_scolded() -> None:
    """No crop is called lost, and nothing says that harm was done by damp."""
    told = review_of("perfect winter").findings
    assert not [f.slug for f in told if f.stake == "crop lost"]
    assert not [f.slug for f in told if f.slug in ("hours-too-damp", "coldest-moment") and f.stake != "good news"]


@pytest.mark.parametrize("name", [*WINTERS, "sample", "sample in °F"])
def test_every_sentence_may_stand(name: str) -> None:
    """Claim, evidence, how sure, next step, caution, figure and its note of every finding; every line of the plan."""
    review = review_of(name)
    words = [
        text
        for f in review.findings
        for text in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution, f.figure, f.figure_note)
        if text
    ]
    words += [text for s in review.counsel.plan for text in (s.what, s.why, s.caution) if text]
    assert words
    assert {text: faults(text) for text in words if faults(text)} == {}


@pytest.mark.parametrize("name", [*WINTERS, "sample"])
def test_what_a_finding_rests_on_is_there(name: str) -> None:
    """Its kind is in the registry, on its page, linked to an anchor of the kind, and its paths lead somewhere."""
    review = review_of(name)
    document = review.to_dict()
    for finding in review.findings:
        kind = kind_of(finding.slug)
        assert finding.page == kind.page, finding.slug
        assert finding.anchor in kind.anchors, finding.slug
        for path in kind.paths:
            value_at(document, path)


@pytest.mark.parametrize("name", [*WINTERS, "sample"])
def test_a_finding_says_what_to_do_and_how_sure(name: str) -> None:
    """No empty text; a claim and a next step are sentences; no claim is said twice."""
    told = review_of(name).findings
    names = ("season.toml", *(logger.name for logger in review_of(name).season.loggers))
    for finding in told:
        assert all((finding.claim, finding.evidence, finding.how_sure, finding.next_step, finding.figure)), finding.slug
        begun = [text for text in (finding.claim, finding.evidence, finding.next_step) if text[0].islower()]
        assert all(text.startswith(names) for text in begun), finding.slug
        assert finding.claim[-1] in ".?" and finding.next_step[-1] == ".", finding.slug
    assert len({f.claim for f in told}) == len(told)


def test_the_same_winter_is_told_the_same_way_each_time() -> None:
    """Found again from the same results: the same findings in the same order."""
    review = review_of("three duds")
    assert find(review, review.counsel.grounds) == review.findings


@pytest.mark.parametrize("name", [*WINTERS, "sample"])
def test_cautions_stand_where_heat_is_asked_for(name: str) -> None:
    """A step that speaks of a burner or of more heat carries a caution of this house."""
    review = review_of(name)
    for finding in review.findings:
        asks = any(word in finding.next_step for word in ("second source of heat", "Burn it", "licensed trade"))
        if asks and review.season.heating:
            assert finding.caution, finding.slug


def test_temperatures_are_printed_in_one_unit() -> None:
    """A season shown in °F has no °C and no kelvin in what it says itself; one shown in °C has no °F."""
    for name, barred in (("sample in °F", r"\d\u00a0(?:°C|K)(?!\w)"), ("sample", "°F")):
        for f in review_of(name).findings:
            for text in (f.claim, f.evidence, f.next_step, f.figure, f.figure_note):
                own = re.sub("“[^”]*”", "", text)
                assert not re.search(barred, own), (f.slug, own)


def test_most_sentences_are_for_a_reader_of_twelve() -> None:
    """By the Flesch-Kincaid grade the claims and steps of the sample are at grade 8 on the mean, none beyond 16.

    Source: Kincaid et al. 1975, Research Branch Report 8-75: 0.39 words a sentence + 11.8 syllables a word − 15.59.
    Syllables are counted by runs of vowels, which is right to one in ten; hence the room above a twelve-year-old's 7.
    """
    grades = {f.slug: grade(f"{f.claim} {f.next_step}") for f in review_of("sample").findings}
    assert sum(grades.values()) / len(grades) <= 8.0
    assert {slug: round(g) for slug, g in grades.items() if g > 16} == {}
