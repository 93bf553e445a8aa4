"""Evidence first: the numbers of a sentence are worked out again from the CSV of the chart it links to.

`tests/counsel/test_sources.py` follows the cells a finding names itself. Here each kind of sentence has a recipe of
its own, written from the headings of the tables alone, and every number that stands in the sentence is held against it:
a sentence that says something else than its table fails, whatever cell it names.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from counsel.recipes_books import BOOKS
from counsel.recipes_climate import CLIMATE
from counsel.recipes_grounds import GROUNDS
from counsel.said import apart, numbers

RECIPES = {**CLIMATE, **BOOKS, **GROUNDS}
# Kinds whose number is no cell, count, sum, mean, least or largest of a file in data/; none is left.
NOT_FROM_TABLES: dict[str, str] = {}


def kind(slug: str) -> str:
    """A slug without the diary's line."""
    return re.sub(r"-\d+$", "", slug)


@pytest.fixture(scope="session")
def findings(sample_site: Path) -> list[dict[str, str]]:
    """The findings of the built sample."""
    told: list[dict[str, str]] = json.loads((sample_site / "data" / "review.json").read_text("utf-8"))["findings"]
    return told


def test_a_sentence_that_says_something_else_would_be_seen() -> None:
    """A number off by one step is told; one within half a step of its last digit is not."""
    assert apart("It fell to −5.2 °C on 3 nights", (-5.17, 3)) == []
    assert apart("It fell to −5.3 °C on 4 nights", (-5.17, 3)) == [(-5.3, -5.17), (4.0, 3.0)]
    assert [n for n, _ in numbers("1\u202f254 h, EUR 8.48, −3 K")] == [1254.0, 8.48, -3.0]


def test_each_sentence_says_what_its_tables_say(sample_site: Path, findings: list[dict[str, str]]) -> None:
    """Every number of every sentence with a recipe, from the files in data/ and pandas alone."""

    def table(uid: str) -> Any:
        return pd.read_csv(sample_site / "data" / f"{uid}.csv")

    wrong = {}
    for finding in findings:
        recipe = RECIPES.get(kind(finding["slug"]))
        if recipe:
            found = apart(finding["claim"], recipe(table, finding["claim"]))
            if found:
                wrong[finding["slug"]] = (finding["claim"], found)
    assert wrong == {}


def _halved(frame: Any) -> Any:
    return frame.iloc[: len(frame) // 2]


def _altered(frame: Any) -> Any:
    numeric = frame.select_dtypes("number").columns
    return frame.assign(**{name: 1.5 * frame[name] + 1 for name in numeric})


def _exchanged(frame: Any) -> Any:
    numeric = frame.select_dtypes("number").columns
    return frame.assign(**dict(zip(numeric, (frame[name] for name in reversed(numeric)), strict=True)))


def _notices(recipe: Any, table: Any, claim: str) -> bool:
    """Whether a sentence no longer fits its tables, or the recipe finds its rows no more."""
    try:
        return bool(apart(claim, recipe(table, claim)))
    except (AssertionError, KeyError, ValueError, TypeError, IndexError, StopIteration):
        return True


def test_every_recipe_reads_its_tables(sample_site: Path, findings: list[dict[str, str]]) -> None:
    """With other numbers in them, half of their rows gone or their columns exchanged each sentence is contradicted."""

    def read(alter: Any) -> Any:
        return lambda uid: alter(pd.read_csv(sample_site / "data" / f"{uid}.csv"))

    told = [(RECIPES[kind(f["slug"])], f) for f in findings if kind(f["slug"]) in RECIPES]
    blind = [
        finding["slug"]
        for recipe, finding in told
        if not any(_notices(recipe, read(alter), finding["claim"]) for alter in (_altered, _halved, _exchanged))
    ]
    assert blind == []


def test_no_kind_slips_through(findings: list[dict[str, str]]) -> None:
    """Each finding of the sample has a recipe, or a stated reason why its number is no figure of one table."""
    told = {kind(finding["slug"]) for finding in findings}
    assert told - RECIPES.keys() - NOT_FROM_TABLES.keys() == set()
    assert len(told & RECIPES.keys()) >= 10 * len(told & NOT_FROM_TABLES.keys())
    assert not RECIPES.keys() & NOT_FROM_TABLES.keys()
