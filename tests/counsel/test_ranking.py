"""Findings are told in the order of what is at stake, each once, ties always the same way."""

from __future__ import annotations

from itertools import permutations
from typing import Any

from reportgen.counsel.ranking import rank, weightiest
from reportgen.counsel.types import Finding


def finding(slug: str, stake: Any, sure: Any = "sure", weight: float = 0.0, page: str = "frost") -> Finding:
    return Finding(
        slug=slug, page=page, claim=slug, evidence="", how_sure="", next_step="", figure="", figure_note="",
        anchor="a", stake=stake, sure=sure, weight=weight,
    )  # fmt: skip


def test_what_is_at_stake_comes_before_how_sure_and_weight() -> None:
    """A hint of a lost crop comes before a sure saving, however large."""
    few = [finding("money", "money", weight=900), finding("lost", "crop lost", "a hint"), finding("damp", "damp")]
    assert [f.slug for f in rank(few)] == ["lost", "damp", "money"]


def test_the_order_does_not_depend_on_the_order_given() -> None:
    """Ties are settled by slug: every permutation ranks alike."""
    few = [finding(slug, "damp") for slug in "bca"]
    assert {tuple(f.slug for f in rank(p)) for p in permutations(few)} == {("a", "b", "c")}


def test_nothing_is_said_twice() -> None:
    """The same claim from two pages is told once."""
    assert len(rank([finding("a", "damp"), finding("a", "damp", page="damp")])) == 1


def test_the_first_page_is_not_one_subject_and_keeps_its_good_news() -> None:
    """Of six frost findings the weightiest is on the first page while others wait, and the good news has a place."""
    many = [finding(f"f{n}", "crop at risk") for n in range(6)]
    many += [finding(f"m{n}", "money", page=page) for n, page in enumerate(("heat", "heat", "harvest"))]
    many.append(finding("good record", "good news", page="record"))
    five = weightiest(rank([*many, finding("good", "good news", page="soil")]))
    assert len(five) == 5
    assert five[0].slug == "f0"
    assert sum(f.page == "frost" for f in five) == 1
    assert {"good", "m0", "m2"} <= {f.slug for f in five}


def test_a_page_has_two_places_where_nobody_else_waits() -> None:
    """Of six frost findings and a bill all five places are taken, frost having the rest."""
    many = [finding(f"f{n}", "crop at risk") for n in range(6)] + [finding("m", "money", page="heat")]
    assert [f.slug for f in weightiest(rank(many))] == ["f0", "f1", "f2", "f3", "m"]


def test_nothing_wrong_leads_and_the_house_comes_before_its_record() -> None:
    """A perfect winter opens with its good news; good news of the house goes before a whole record."""
    few = [finding(f"d{n}", "growth", page=page) for n, page in enumerate(("damp", "heat", "soil", "light", "frost"))]
    few.append(finding("whole", "good news", weight=9.0, page="record"))
    assert weightiest(rank([*few, finding("nothing-wrong", "good news", "fairly sure")]))[0].slug == "nothing-wrong"
    assert weightiest(rank([*few, finding("paid", "good news", "a hint", page="harvest")]))[-1].slug == "paid"
