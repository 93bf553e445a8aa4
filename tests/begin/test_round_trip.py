"""Whatever files and columns are called, what begin writes is TOML that loads and names files and columns that are
there; a file that season.toml cannot name is said."""

from __future__ import annotations

import csv
import datetime as dt
import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from reportgen.begin import begin, start
from reportgen.begin.patterns import pattern_of, patterns_of
from reportgen.inspection import inspect
from reportgen.problems import SeasonError
from reportgen.readings.files import matches
from reportgen.season import load_season

letters = st.characters(codec="utf-8", exclude_characters="/\0")
stems = st.text(letters, min_size=1, max_size=40).filter(lambda text: text[0] not in ".~")
# A line end inside a column's name is refused in words: a header is one line.
heads = st.characters(codec="utf-8", exclude_characters="\0\n\r")
names = st.lists(st.text(heads, max_size=30), min_size=1, max_size=5)
NO_FAULT = {"missing-file", "missing-column", "same-column-twice", "path-leads-out", "toml-syntax", "wrong-value"}


@pytest.fixture(autouse=True)
def _one_computer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "computer_zone", lambda: "Europe/Prague")


def written(folder: Path, file: str, header: list[str]) -> None:
    """A logger file with a time, an air temperature and further columns."""
    with (folder / file).open("w", encoding="utf-8", newline="") as opened:
        table = csv.writer(opened)
        table.writerow(["Time", "Temp (°C)", *header])
        for n in range(60):
            moment = dt.datetime(2025, 12, 1) + dt.timedelta(hours=n)
            table.writerow([moment.isoformat(sep=" "), 5 + n % 7, *((n * 7 + k) % 50 for k in range(len(header)))])


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(stem=stems, header=names)
@example(stem="[a]*?", header=['"', "\\", "'''", "a\tb"])
@example(stem="10:30 \\x", header=["Temp (°C)", "", "x" * 250])
@example(stem="\x07\x7f\x85\u2028\n\r", header=["\x01\x7f", "Temp", "\ufeff", "#", "="])
@example(stem="0", header=["1", "0000", "0:0"])
@example(stem="x" * 200, header=["rh"])
def test_any_name_of_a_file_and_of_columns(stem: str, header: list[str]) -> None:
    """season.toml loads, its patterns find just that file, its columns are in the header, and nothing of it is a
    problem of names; where the file cannot be named it is told, not guessed."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        file = f"{stem}.csv"
        try:
            written(folder, file, header)
        except OSError:  # a name that this disk does not take
            return
        try:
            begin(folder, None, False)
        except SeasonError as error:
            assert pattern_of(folder, file) is None, error
            return
        season = load_season(folder)
        assert {pattern for logger in season.loggers for pattern in logger.files} == {pattern_of(folder, file)}
        found = inspect(folder)
        assert found.readings is not None
        assert {account.file for account in found.readings.files} == {file}
        assert [problem.text() for problem in found.problems if problem.slug in NO_FAULT] == []


@settings(max_examples=30, deadline=None)
@given(files=st.sets(stems, min_size=1, max_size=12))
def test_patterns_find_just_their_files(files: set[str]) -> None:
    """For any files that can be named at all the patterns find these and no other of the folder."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        (folder / "another").mkdir()
        mine = []
        for stem in sorted(files):
            try:
                (folder / f"{stem}.csv").write_text("x", encoding="utf-8")
            except OSError:
                continue
            mine.append(f"{stem}.csv")
        (folder / "zz other.txt").write_text("x", encoding="utf-8")
        mine = [file for file in mine if pattern_of(folder, file) is not None]
        patterns = patterns_of(folder, mine)
        found = {name for pattern in patterns for name in _hits(folder, pattern)}
        assert found == set(mine)


def _hits(folder: Path, pattern: str) -> list[str]:
    return [name for name in matches(folder, pattern) if (folder / name).is_file()]


def test_many_files_of_one_logger_are_one_pattern(tmp_path: Path) -> None:
    """Ten daily files come out as one line; another logger beside them is not caught."""
    for day in range(1, 11):
        (tmp_path / f"bench-2025-12-{day:02d}.csv").write_text("x", encoding="utf-8")
    (tmp_path / "yard-2025-12-01.csv").write_text("x", encoding="utf-8")
    files = sorted(path.name for path in tmp_path.glob("bench*"))
    assert patterns_of(tmp_path, files) == ["bench-2025-12-*.csv"]


def test_a_name_that_is_no_text_is_told(tmp_path: Path) -> None:
    """Bytes that are no letters cannot stand in season.toml: the file is left out and its name asked to be changed."""
    written(tmp_path, "bench.csv", [])
    raw = os.fsdecode(b"caf\xe9.csv")
    try:
        written(tmp_path, raw, [])
    except (OSError, UnicodeError):
        pytest.skip("this disk takes no such name")
    result = begin(tmp_path, None, False)
    assert [logger.files for logger in load_season(tmp_path).loggers] == [("bench.csv",)]
    assert any("rename it" in doubt for doubt in result.unsure)
