"""No page but Record and Method names a file or a key to the grower, outside tables and links to files."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from markupsafe import Markup
from odd_seasons import odd_season

from reportgen.charts.plain_names import PLAIN, plain
from reportgen.pipeline import analyse
from reportgen.site.plain_names import KEYED
from reportgen.site.render import files

NAMED = re.compile(
    r"\b[\w-]+\.(?:csv|toml)\b|\b[a-z]+(?:_[a-z0-9]+)*_(?:c|k|m2|m3|kg|pct|w|w_m2k|week)\b|\[\[?\w+\]\]?"
)
UNSEEN = re.compile(
    r"<(style|script|svg|table|title|head)\b.*?</\1>|<p class=\"small noprint\">.*?</p>|<a\b[^>]*>.*?</a>", re.S
)
ODD = ("heater by meter", "empty books", "names", "only light", "two outdoor loggers")


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("Write it into diary.csv.", "Write it into the diary."),
        ("No plantings.csv was kept", "No planting book was kept"),
        ("the heater's rated_power_w, needs u_value_w_m2k", "the heater's rated power, needs the U-value"),
        ("in plantings.csv, harvest.csv or season.toml", "in the planting book, the harvest book or the season file"),
        ("It burned. season.toml does not say it", "It burned. The season file does not say it"),
        ("The same as a file: harvest_weeks.csv", "The same as a file: harvest_weeks.csv"),
    ],
)
def test_a_name_becomes_words(said: str, read: str) -> None:
    """With an article where none stands before it; the files of the site itself keep their names."""
    assert plain(said) == read


def test_no_plain_word_is_a_name() -> None:
    """What is put in place of a name is none."""
    assert not [word for word in PLAIN.values() if NAMED.search(word)]


@pytest.mark.parametrize("name", ODD)
def test_pages_name_no_file(name: str, tmp_path: Path) -> None:
    """Sentences of every page, as they are read."""
    season = odd_season(name, tmp_path / "season")
    told = files(analyse(season), lambda _: None)
    found = []
    for file, content in told.items():
        if file.endswith(".html") and "/" not in file and Path(file).stem not in KEYED:
            words = Markup(UNSEEN.sub(" ", content.decode("utf-8"))).striptags()
            found += [f"{file}: {words[max(0, m.start() - 60) : m.end() + 20]}" for m in NAMED.finditer(words)]
    assert found == []
