"""Files that cannot be opened, lead out of the folder, bear odd names or hold far too much: told, never a fall."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from readings.folder import air, fail, logger, read, season
from studies.bombs import FAR, workbook

from reportgen import limits
from reportgen.problems import Problem, SeasonError
from reportgen.readings import read_season

PLAIN = "Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,-0.25\n"
DIARY = "date,kind,what\n2025-12-01,event,Snow\n"
ON_LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="links, pipes, names of bytes")


def problems(folder: Path, **more: object) -> list[Problem]:
    """The problems of a folder whose logger reads a.csv, unless told."""
    try:
        read_season(season(folder, logger(**more)))
    except SeasonError as error:
        return [problem for problem in error.problems if problem.level == "problem"]
    return []


def told(folder: Path, **more: object) -> list[tuple[str, str]]:
    """Slug and file of each problem."""
    return [(problem.slug, problem.file) for problem in problems(folder, **more)]


def most(monkeypatch: pytest.MonkeyPatch, name: str, value: int) -> None:
    """Lowers one limit."""
    monkeypatch.setattr(limits, name, replace(getattr(limits, name), most=value))


@pytest.mark.parametrize("name", ["a.csv", "diary.csv", "harvest.csv"])
def test_a_folder_in_place_of_a_file_is_told(tmp_path: Path, name: str) -> None:
    """Nothing is passed over in silence because it is no file."""
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / name).unlink(missing_ok=True)
    (tmp_path / name).mkdir()
    assert told(tmp_path) == [("cannot-open", name)]


@pytest.mark.parametrize("name", ["a.csv", "diary.csv"])
def test_a_file_that_another_program_holds_is_told(tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The system refuses to open it: the problem says so and what to do; the others are still read."""
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "diary.csv").write_text(DIARY, encoding="utf-8")
    opened = Path.open

    def held(self: Path, *args: object, **kwargs: object) -> object:
        if self.name == name:
            raise PermissionError(13, "in use", str(self))
        return opened(self, *args, **kwargs)

    monkeypatch.setattr(Path, "open", held)
    (problem,) = problems(tmp_path)
    assert (problem.slug, problem.file) == ("cannot-open", name)
    assert "in use" in problem.found and "close the program" in problem.todo


@pytest.mark.parametrize("name", ["a.csv", "diary.csv", "meter.csv"])
def test_a_link_that_leads_out_is_refused(tmp_path: Path, name: str) -> None:
    """A logger file, a book, a meter: each only from inside the folder."""
    home = tmp_path / "season"
    home.mkdir()
    (home / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "secret.csv").write_text(PLAIN, encoding="utf-8")
    (home / name).unlink(missing_ok=True)
    (home / name).symlink_to(tmp_path / "secret.csv")
    heat = [{"name": "fan", "fuel": "electricity", "meter": "meter.csv"}] if name == "meter.csv" else []
    with pytest.raises(SeasonError) as caught:
        read_season(season(home, logger(), heating=tuple(heat)))
    assert ("path-leads-out", name) in [(p.slug, p.file) for p in caught.value.problems]


@pytest.mark.parametrize("name", ["a.csv", "diary.csv"])
def test_a_link_to_itself_is_told(tmp_path: Path, name: str) -> None:
    """It is there, and leads to no file."""
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / name).unlink(missing_ok=True)
    (tmp_path / name).symlink_to(tmp_path / name)
    assert told(tmp_path) == [("cannot-open", name)]


@ON_LINUX
def test_a_pipe_is_no_file(tmp_path: Path) -> None:
    """Opening it would wait for ever."""
    os.mkfifo(tmp_path / "a.csv")
    assert told(tmp_path) == [("cannot-open", "a.csv")]


@ON_LINUX
def test_two_stars_end_where_links_lead_back(tmp_path: Path) -> None:
    """Links to the folders above would make endlessly many paths; every file is found once."""
    deep = tmp_path / "x" / "y"
    deep.mkdir(parents=True)
    for n in range(3):
        (deep / f"up{n}").symlink_to(tmp_path, target_is_directory=True)
        (tmp_path / "x" / f"here{n}").symlink_to(tmp_path / "x", target_is_directory=True)
    (deep / "a.csv").write_text(PLAIN, encoding="utf-8")
    readings = read_season(season(tmp_path, logger(files=("**/*.csv",))))
    assert [account.file for account in readings.files] == ["x/y/a.csv"]


def test_patterns_find_what_they_say(tmp_path: Path) -> None:
    """* stays in its folder, ** goes through all of them, a leading dot must be written."""
    for name in ("a1.csv", "in/a2.csv", "in/deep/a3.csv", "in/.a4.csv", "in/b.txt"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(PLAIN, encoding="utf-8")
    for pattern, names in {
        "*.csv": ["a1.csv"],
        "in/*.csv": ["in/a2.csv"],
        "*/*/a?.csv": ["in/deep/a3.csv"],
        "**/a*.csv": ["a1.csv", "in/a2.csv", "in/deep/a3.csv"],
        "in/**": ["in/a2.csv", "in/b.txt", "in/deep/a3.csv"],
        "in\\[ab][0-9].csv": ["in/a2.csv"],
        "in/.*": ["in/.a4.csv"],
    }.items():
        found = read_season(season(tmp_path, logger(files=(pattern,)))).files
        assert [account.file for account in found] == names, pattern


@ON_LINUX
def test_a_name_that_is_no_utf8_is_read_and_can_be_printed(tmp_path: Path) -> None:
    """An old system wrote ä as one byte: the file is read and its name shown with that byte written out."""
    (tmp_path / os.fsdecode(b"b\xe4nk.csv")).write_text(PLAIN, encoding="utf-8")
    readings = read_season(season(tmp_path, logger(files=("*.csv",))))
    assert [account.file for account in readings.files] == [r"b\xe4nk.csv"]
    assert air(readings).values.tolist() == [4.5, -0.25]


@pytest.mark.parametrize("name", ["n" * 200 + "é" * 100 + ".csv", "x/" * 60 + "a.csv", "a\0.csv"])
def test_a_name_no_file_can_have_is_a_missing_file(tmp_path: Path, name: str) -> None:
    """Too long, too deep, with a zero byte."""
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    more = {"files": (name,)}
    try:
        read_season(
            season(tmp_path).model_copy(update={"loggers": (season(tmp_path).loggers[0].model_copy(update=more),)})
        )
    except SeasonError as error:
        assert {problem.slug for problem in error.problems} == {"missing-file"}
    else:
        raise AssertionError("it was read")


def test_a_header_longer_than_any_is_told(tmp_path: Path) -> None:
    """Above 131 072 characters, the most that the standard reader of CSV takes in one cell: in a book and a logger."""
    long = "x" * 140_000
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "diary.csv").write_text(f"date,kind,what,{long}\n2025-12-01,event,Snow,\n", encoding="utf-8")
    assert told(tmp_path)[0][1] == "diary.csv"
    (tmp_path / "diary.csv").unlink()
    assert [p.slug for p in fail(tmp_path, f"Time,{long},Temp\n2025-12-01 00:00,1,2\n").problems] == ["too-much"]


def test_numbers_and_days_no_season_has(tmp_path: Path) -> None:
    """A weight of 5 000 digits and the last day of the calendar are told in their cells, not computed with."""
    rows = f"2025-12-01,kale,{'9' * 4_900}\n9999-12-31,kale,1\n2025-12-01,kale,1e9\n"
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "harvest.csv").write_text("date,crop,weight\n" + rows, encoding="utf-8")
    found = [(problem.slug, problem.line) for problem in problems(tmp_path)]
    assert found == [("number-too-large", 2), ("not-a-date", 3), ("not-a-weight", 4)]
    assert all(len(problem.found) <= 400 for problem in problems(tmp_path))


LOWERED: dict[str, tuple[str, int, Callable[[Path], object], str]] = {
    "bytes of a file": ("FILE_BYTES", 40, lambda f: None, "a.csv"),
    "lines": ("FILE_ROWS", 2, lambda f: None, "a.csv"),
    "rows of all files": ("SEASON_ROWS", 1, lambda f: None, "a.csv"),
    "one line": ("LINE_BYTES", 30, lambda f: (f / "a.csv").write_bytes(PLAIN.encode() + b"1" * 50), "a.csv"),
    "columns": ("COLUMNS", 10, lambda f: (f / "a.csv").write_text("Time,Temp" + ",x" * 20 + PLAIN[9:]), "a.csv"),
    "bytes of a book": ("BOOK_BYTES", 20, lambda f: None, "diary.csv"),
    "rows of the diary": ("DIARY_ROWS", 0, lambda f: None, "diary.csv"),
    "rows of a book": (
        "BOOK_ROWS",
        1,
        lambda f: (f / "harvest.csv").write_text("date,crop,weight\n" + "2025-12-01,kale,1\n" * 2),
        "harvest.csv",
    ),
    "a cell": (
        "BOOK_CELL",
        5,
        lambda f: (f / "diary.csv").write_text(DIARY + "2025-12-02,event,Much snow\n"),
        "diary.csv",
    ),
    "crops": (
        "CROPS",
        1,
        lambda f: (f / "harvest.csv").write_text("date,crop,weight\n2025-12-01,kale,1\n2025-12-01,leek,1\n"),
        "harvest.csv",
    ),
}


@pytest.mark.parametrize("case", sorted(LOWERED))
def test_past_a_limit_there_is_one_problem_with_the_limit(
    tmp_path: Path, case: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each limit by itself, lowered so that small files pass it."""
    name, value, make, file = LOWERED[case]
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "diary.csv").write_text(DIARY, encoding="utf-8")
    make(tmp_path)
    assert told(tmp_path) == []
    most(monkeypatch, name, value)
    found = problems(tmp_path)
    assert {(problem.slug, problem.file) for problem in found} == {("too-much", file)}
    assert getattr(limits, name).words in found[0].found + found[0].expected


def test_too_many_files_of_a_logger(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By a star that takes in too much, and below two stars."""
    for n in range(4):
        (tmp_path / f"a{n}.csv").write_text(PLAIN, encoding="utf-8")
    most(monkeypatch, "LOGGER_FILES", 3)
    assert told(tmp_path, files=("*.csv",)) == [("too-much", "season.toml")]
    most(monkeypatch, "FOLDER_ENTRIES", 3)
    assert told(tmp_path, files=("**/a0.csv",)) == [("too-much", "season.toml")]


def test_a_sheet_with_one_cell_in_the_last_corner_is_refused_unopened(tmp_path: Path) -> None:
    """1.4 kilobytes that the reader would hold as 17 billion cells; named and unnamed cells, and an honest sheet."""
    first = b"2025-12-01 00:00"
    good = FAR.replace(b"Time", first).replace(b"1048576", b"2").replace(b"XFD", b"B")
    for sheet, slug in ((FAR, "too-much"), (FAR.replace(b"XFD", b"xfd"), "too-much"), (good, "missing-column")):
        (tmp_path / "a.xlsx").write_bytes(workbook(sheet))
        assert told(tmp_path, files=("a.xlsx",)) == [(slug, "a.xlsx")]
    nameless = FAR.replace(b'<c r="XFD1048576">', b"<c/>" * 16_000 + b"<c>")
    (tmp_path / "a.xlsx").write_bytes(workbook(nameless))
    assert told(tmp_path, files=("a.xlsx",)) == [("too-much", "a.xlsx")]


def test_a_workbook_is_measured_unpacked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ten megabytes of spaces pack to ten kilobytes: what counts is what they unpack to."""
    small = FAR.replace(b"1048576", b"2").replace(b"XFD", b"B")
    (tmp_path / "a.xlsx").write_bytes(workbook(small, shared=10_000_000))
    assert (tmp_path / "a.xlsx").stat().st_size < 20_000
    most(monkeypatch, "UNPACKED_BYTES", 9_000_000)
    assert told(tmp_path, files=("a.xlsx",)) == [("too-much", "a.xlsx")]


def test_a_damaged_workbook_is_told(tmp_path: Path) -> None:
    """Cut anywhere, or with one byte changed: a problem or readings, never a fall."""
    whole = workbook(FAR.replace(b"1048576", b"2").replace(b"XFD", b"B"))
    for n in range(0, len(whole), 23):
        for raw in (whole[:n], whole[:n] + bytes([whole[n] ^ 0x55]) + whole[n + 1 :]):
            (tmp_path / "a.xlsx").write_bytes(raw)
            assert {slug for slug, _ in told(tmp_path, files=("a.xlsx",))} <= {
                "not-a-table", "empty-file", "missing-column", "too-much", "unreadable-time"
            }  # fmt: skip


def test_what_is_read_is_still_read(tmp_path: Path) -> None:
    """The ordinary file, for comparison."""
    assert air(read(tmp_path, PLAIN)).values.tolist() == [4.5, -0.25]


def test_control_characters_in_a_book_become_spaces(tmp_path: Path) -> None:
    """They are no letters, and a page that held them could not be shown."""
    (tmp_path / "a.csv").write_text(PLAIN, encoding="utf-8")
    (tmp_path / "diary.csv").write_bytes(b"date,kind,what\n2025-12-01,event,a\x00b\x1b[31mc\n")
    (entry,) = read_season(season(tmp_path)).diary
    assert entry.what == "a b [31mc"
