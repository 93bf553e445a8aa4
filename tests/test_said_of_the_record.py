"""Nothing is said of a logger, a book, a heater or a part of the year that is not true of this season's files."""

from __future__ import annotations

import shutil
from functools import lru_cache
from pathlib import Path

import pytest
from odd_seasons import ODD
from said_files import Files
from said_rules import RULES, no_english, untrue
from said_seasons import SAID
from said_text import said

from reportgen.inspection import inspect
from reportgen.pipeline import analyse

SAMPLE = Path(__file__).parents[1] / "sample_season"
SEASONS = ODD | SAID
SEEN: set[int] = set()  # rules that some season called for


@lru_cache(maxsize=4)
def told(name: str, folder: Path) -> tuple[Files, list[tuple[str, str]]]:
    """The files of a season and all that its review says."""
    return Files(folder), said(analyse(folder))


@pytest.mark.parametrize("name", ["sample", *SEASONS])
def test_every_phrase_is_true_of_the_files(name: str, tmp_path: Path) -> None:
    """Each phrase that names a thing or a part of the year stands only where the files have it; numbers agree."""
    folder = SAMPLE if name == "sample" else SEASONS[name](tmp_path / "season")
    files, sentences = told(name, folder)
    assert len(sentences) > 40
    wrong = {(page, words, *found) for page, words in sentences if (found := untrue(words, files))}
    assert not wrong
    bad = {(page, words, *found) for page, words in sentences if (found := no_english(words))}
    assert not bad
