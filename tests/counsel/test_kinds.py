"""The registry makes the findings: a kind is one entry, and what a finding says stands where its kind says."""

from __future__ import annotations

import re
from dataclasses import fields

import pytest
from counsel import hand
from made_season import season

from reportgen.counsel.facts import Facts
from reportgen.counsel.kinds import KINDS, Kind, kind, kind_of, made
from reportgen.counsel.types import Finding, Said, sure_word

SAID = Said(
    claim="The shed door stood open.",
    evidence="On 3 days.",
    how_sure="Sure: it was seen.",
    next_step="Shut it.",
    figure="3",
    figure_note="days",
    about="shed",
)


def shed(facts: Facts) -> Said | None:
    """Told of a season in °C alone."""
    return None if facts.w.us else SAID


def test_a_new_kind_is_one_entry_and_is_told() -> None:
    """Added to the registry it is made with its page, stake and anchor; the other kinds are as they were."""
    new = {"shed-door": kind("record", "record", "a shed", "record_days other", shed, "record.channels")}
    facts = Facts.of(hand.results(season()))
    (found,) = made(facts, new)
    assert (found.slug, found.page, found.stake, found.anchor) == ("shed-door", "record", "record", "record_days")
    assert (found.about, found.sure, found.claim) == ("shed", "sure", SAID.claim)
    assert made(Facts.of(hand.results(season(show="us"))), new) == ()


def test_what_is_said_may_move_within_its_kind() -> None:
    """Another anchor, another stake, the diary's line behind the slug; several of one kind."""
    said = Said(
        **{f.name: getattr(SAID, f.name) for f in fields(Said)} | {"anchor": "other", "stake": "damp", "line": 7}
    )
    one = kind("record", "record", "a shed", "record_days other", lambda facts: (said, SAID), "record.channels")
    first, second = one.findings("shed-door", Facts.of(hand.results()))
    assert (first.slug, first.anchor, first.stake) == ("shed-door-7", "other", "damp")
    assert (second.slug, second.anchor, second.stake) == ("shed-door", "record_days", "record")


def test_a_finding_carries_all_that_its_maker_said() -> None:
    """No field of what is said is lost on the way, but for the line, which is in the slug."""
    carried = {f.name for f in fields(Finding)}
    assert {f.name for f in fields(Said)} - {"line"} <= carried


def test_how_sure_begins_with_a_sure_word() -> None:
    """Nine in ten is one of them; a sentence that begins with none is refused."""
    assert sure_word("Nine in ten: measured.") == "nine in ten"
    assert sure_word("Fairly sure: measured.") == "fairly sure"
    with pytest.raises(ValueError, match="no sure-word"):
        sure_word("An upper bound.")


def test_there_are_kinds_enough_over_all_pages() -> None:
    """At least twenty-five kinds, and every page of a subject has some."""
    assert len(KINDS) >= 25
    pages = {one.page for one in KINDS.values()}
    assert pages == {"record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters"}


@pytest.mark.parametrize("slug", sorted(KINDS))
def test_a_kind_says_when_where_and_on_what(slug: str) -> None:
    """Words for when it is told, an anchor of its own page, and dotted paths that begin at a section."""
    one: Kind = KINDS[slug]
    assert one.told and one.anchors and one.paths
    assert all(anchor == one.page or anchor.startswith(f"{one.page}_") for anchor in one.anchors)
    sections = {"record", "frost", "heat", "damp", "soil", "light", "changes", "harvest", "winters"}
    sections |= {"events", "levers", "balance", "hold_advice"}
    assert all(path.split(".")[0] in sections for path in one.paths)


def test_the_line_of_the_diary_is_no_part_of_a_kind() -> None:
    """worth-keeping-12 is of the kind worth-keeping; a slug of no kind is refused."""
    assert kind_of("worth-keeping-12") is KINDS["worth-keeping"]
    with pytest.raises(KeyError):
        kind_of("no-such-finding")


def test_no_two_kinds_are_told_in_the_same_words() -> None:
    """Each kind is told of its own season."""
    said = [re.sub(r"\W+", " ", f"{one.page} {one.told}") for one in KINDS.values()]
    assert len(said) == len(set(said))
