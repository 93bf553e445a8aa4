"""A folder is looked at whatever state it is in; the good parts are shown beside every problem."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from reportgen.inspection import inspect, text

TOML = """format = 1
title = "A winter"
first_day = 2025-12-01
last_day = 2025-12-10
time_zone = "Europe/Prague"
[[logger]]
name = "bench"
where = "crop"
files = ["bench.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T" }
[[logger]]
name = "yard"
where = "outdoor"
files = ["yard.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T" }
"""


def rows(year: int = 2025) -> str:
    """Ten days of hourly readings."""
    start = dt.datetime(year, 12, 1)
    lines = [f"{start + dt.timedelta(hours=n):%Y-%m-%d %H:%M},{5 + n % 7 / 10}" for n in range(240)]
    return "Time,T\n" + "\n".join(lines) + "\n"


def folder(path: Path, toml: str = TOML, **files: str) -> Path:
    """A season of two loggers; `files` replaces or adds some, a dot written as two underscores."""
    given_files = {"season.toml": toml, "bench.csv": rows(), "yard.csv": rows()}
    given_files |= {name.replace("__", "."): content for name, content in files.items()}
    for name, content in given_files.items():
        (path / name).write_text(content, encoding="utf-8")
    return path


def test_the_good_logger_is_shown_beside_the_broken_one(tmp_path: Path) -> None:
    """An empty file is one problem; the other logger's 240 readings are shown all the same."""
    found = inspect(folder(tmp_path, yard__csv=""))
    assert [problem.slug for problem in found.problems] == ["empty-file"]
    words = text(found).replace("\u00a0", " ")
    assert "240 readings" in words and "not read; see the problems below" in words
    assert not found.complete


def test_a_logger_of_another_year_is_a_warning_with_its_line(tmp_path: Path) -> None:
    """All its rows lie ten years off: it is named with the line of season.toml where its files stand."""
    found = inspect(folder(tmp_path, yard__csv=rows(2035)))
    assert [(w.slug, w.line) for w in found.warnings if w.slug == "no-reading-in-season"] == [
        ("no-reading-in-season", 16)
    ]
    assert "no reading in the season" in text(found)


def test_many_faults_alike_are_told_in_a_few_lines(tmp_path: Path) -> None:
    """Thirty bad dates: four in full, the others by their lines; programs get all thirty."""
    book = "date,crop,weight\n" + "soon,kale,0.1\n" * 30
    found = inspect(folder(tmp_path, harvest__csv=book))
    assert len(found.to_dict()["problems"]) == 30
    words = text(found)
    assert words.count("[not-a-date]") == 4
    assert "and 26 more like it, in lines 6, 7, 8" in words


def test_without_a_folder_there_is_one_problem(tmp_path: Path) -> None:
    """Nothing is raised."""
    found = inspect(tmp_path / "nowhere")
    assert [problem.slug for problem in found.problems] == ["season-missing"]
    assert found.to_dict()["record"] is None
    assert "no other file was opened" in " ".join(text(found).split())


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(garbage=st.binary(max_size=300))
def test_any_bytes_as_a_file_give_words_and_no_fall(tmp_path: Path, garbage: bytes) -> None:
    """Random bytes as a logger file and as a book: a text and a list, never an exception."""
    folder(tmp_path)
    (tmp_path / "yard.csv").write_bytes(garbage)
    (tmp_path / "diary.csv").write_bytes(garbage)
    found = inspect(tmp_path)
    assert text(found)
    assert found.to_dict()["format"] == 1


WRONG = ["1", "-1", "1.5", '"x"', "true", "[]", "{}", "2025-01-01", '["a"]', "[[1]]", "nan", "{ a = 1 }"]
KEYS = ["format", "title", "first_day", "time_zone", "currency", "show", "name", "where", "files", "time", "place"]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(key=st.sampled_from(KEYS), value=st.sampled_from(WRONG))
def test_any_value_for_any_key_gives_a_list_of_problems(tmp_path: Path, key: str, value: str) -> None:
    """A right key with a wrong value is told with its line or accepted, never a fall."""
    lines = [f"{key} = {value}" if line.startswith(f"{key} =") else line for line in TOML.splitlines()]
    if key in ("currency", "show", "place"):
        lines.insert(1, f"{key} = {value}")
    found = inspect(folder(tmp_path, "\n".join(lines)))
    assert text(found)
    assert all(problem.todo and problem.expected for problem in found.problems)


@pytest.mark.parametrize("name", ["text", "to_dict"])
def test_looking_twice_says_the_same(tmp_path: Path, name: str) -> None:
    """The same folder gives the same words."""
    one, two = inspect(folder(tmp_path)), inspect(tmp_path)
    assert text(one) == text(two) if name == "text" else one.to_dict() == two.to_dict()
