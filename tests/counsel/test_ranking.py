"""Findings are told in one order: safety, the five, then page by page by harm; each once, ties always the same way."""

from __future__ import annotations

from itertools import permutations
from typing import Any

from reportgen.counsel.ranking import SHOWN, rank, shown
from reportgen.counsel.types import Finding


def finding(
    slug: str, stake: Any, sure: str = "Sure.", weight: float = 0.0, page: str = "frost", subject: Any = None
) -> Finding:
    return Finding(
        slug=slug, page=page, about=None, claim=slug, evidence="", how_sure=sure, next_step="", figure="",
        figure_note="", anchor="a", stake=stake, weight=weight, subject=subject,
    )  # fmt: skip


def slugs(found: Any) -> list[str]:
    return [f.slug for f in found]


def test_safety_comes_first_then_the_five_in_their_order() -> None:
    """Whatever their pages and weights: fumes, event, weeks, the lever, the lever undone, the hold, the rest."""
    few = [
        finding("hold", "money", page="heat", subject="hold"), finding("rest", "crop lost", weight=900),
        finding("lever", "good news", page="changes", subject="lever"),
        finding("undone", "damp", page="changes", subject="undone"), finding("event", "crop at risk", subject="event"),
        finding("weeks", "money", page="harvest", subject="weeks"), finding("fumes", "safety", page="heat"),
    ]  # fmt: skip
    assert slugs(rank(few)) == ["fumes", "event", "weeks", "lever", "undone", "hold", "rest"]
    assert [f.rank for f in rank(few)] == list(range(7))


def test_of_two_events_the_worse_is_one_of_the_five_and_the_other_waits_on_its_page() -> None:
    """By weight; a safety event is not counted among them."""
    few = [
        finding("mild", "crop at risk", weight=1, subject="event"),
        finding("hard", "crop lost", weight=2, page="harvest", subject="event"),
        finding("hold", "money", page="heat", subject="hold"),
    ]
    assert slugs(rank(few)) == ["hard", "hold", "mild"]


def test_the_rest_is_told_page_by_page_by_harm_then_money() -> None:
    """Frost before heat before damp; on one page a hint of a lost crop before a sure saving, the larger sum first."""
    few = [
        finding("damp", "damp", page="damp"), finding("small", "money", page="heat", weight=5),
        finding("large", "money", page="heat", weight=50), finding("lost", "crop lost", "A hint."),
        finding("cold", "crop at risk", weight=900),
    ]  # fmt: skip
    assert slugs(rank(few)) == ["lost", "cold", "large", "small", "damp"]


def test_the_order_does_not_depend_on_the_order_given() -> None:
    """Ties are settled by slug: every permutation ranks alike."""
    few = [finding(slug, "damp") for slug in "bca"]
    assert {tuple(slugs(rank(p))) for p in permutations(few)} == {("a", "b", "c")}


def test_nothing_is_said_twice() -> None:
    """The same claim from two pages is told once."""
    assert len(rank([finding("a", "damp"), finding("a", "damp", page="damp")])) == 1


def test_a_page_shows_five_and_folds_the_rest_and_safety_is_not_counted() -> None:
    """Eight findings with one of safety: it and five are shown, two are folded."""
    many = rank([*(finding(f"f{n}", "damp", weight=-n) for n in range(7)), finding("fumes", "safety")])
    first, rest = shown(many)
    assert slugs(first) == ["fumes", "f0", "f1", "f2", "f3", "f4"]
    assert slugs(rest) == ["f5", "f6"]
    assert SHOWN == 5
