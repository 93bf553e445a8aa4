"""Odd but legal seasons go the whole road: pages drawn, no number that is none in any word, nothing let through raw."""

from __future__ import annotations

import re

import pytest
from kept_reviews import review_of, site_of

NO_WORD = re.compile(r"\b(nan|NaN|NaT|None|undefined|inf|Infinity)\b(?! of)")
POLAR = ("polar night", "midnight sun", "the pole", "the equator")
DRAWN = ("one reading", "a month missing", "only soil", "three days", "names", *POLAR)


@pytest.mark.parametrize("name", DRAWN)
def test_pages_say_only_words(name: str) -> None:
    """Every page is drawn; where a value is missing there are words, never what a program writes for it."""
    pages = {page: page.read_text(encoding="utf-8") for page in site_of(name).rglob("*.html")}
    assert len(pages) > 5
    for page, text in pages.items():
        body = re.sub(r"<(script|style)\b.*?</\1>", "", text, flags=re.DOTALL)
        found = NO_WORD.search(body)
        assert found is None, f"{page.name}: {body[max(0, found.start() - 60) : found.end() + 20]}"
        assert "<script>alert" not in text
        assert "<i>&kale" not in text


def test_the_hours_of_a_clock_change_are_counted() -> None:
    """The season that ends on 29 March 2026, when Prague's clocks jump an hour (EU 2000/84/EC), has 38·24 − 1 hours."""
    found = review_of("ends on the clock change")
    assert found.season.hours == 38 * 24 - 1


def test_entries_on_the_first_and_last_day_are_kept() -> None:
    """A film put up on the first day has no days before it: it is listed, and no effect is made up for it."""
    found = review_of("diary of every kind")
    film = next(change for change in found.to_dict()["changes"] if change["what"] == "First day film")
    assert film["verdict"] in ("cannot tell", "not judged")
    assert all(outcome["refused"] for outcome in film["outcomes"] if outcome["effect"] is None)
    assert all(outcome["effect"] is None for outcome in film["outcomes"])
