"""season.toml at its edges: numbers, keys, days, names and formats that no season has are told with their line."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from reportgen import limits
from reportgen.problems import Problem, SeasonError
from reportgen.season import load_season

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
"""


def problems(folder: Path, text: str | bytes) -> list[Problem]:
    """The problems of a season.toml."""
    (folder / "season.toml").write_bytes(text if isinstance(text, bytes) else text.encode())
    try:
        load_season(folder)
    except SeasonError as error:
        return list(error.problems)
    return []


def slugs(folder: Path, text: str | bytes) -> list[str]:
    """Their names."""
    return [problem.slug for problem in problems(folder, text)]


@pytest.mark.parametrize("written", ["%", "%Q", "%:z", "%d %d", "%W", "%Y-%m-%d %", ""])
def test_a_time_format_that_is_none_is_told_with_its_line(tmp_path: Path, written: str) -> None:
    """Before any file is opened."""
    (problem,) = problems(tmp_path, TOML.replace('time = "Time"', f'time = "Time"\ntime_format = "{written}"'))
    assert (problem.slug, problem.line) == ("wrong-value", 11)
    assert problem.column == "[[logger]] 1 · time_format"


@pytest.mark.parametrize("written", ["%d/%m/%Y %H:%M", "%Y-%m-%dT%H:%M:%S%z", "%m/%d/%y %I:%M:%S %p", "%H:%M %d.%m.%Y"])
def test_a_time_format_that_is_one_is_taken(tmp_path: Path, written: str) -> None:
    """Those that loggers write."""
    assert slugs(tmp_path, TOML.replace('time = "Time"', f'time = "Time"\ntime_format = "{written}"')) == []


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        (f"altitude_m = {'9' * 5_000}", "toml-syntax"),
        (f"altitude_m = {'9' * 400}", "wrong-value"),
        (f"altitude_m = 1{'0' * 400}.5", "wrong-value"),
        (f"{'a.' * 2_000}a = 1", "toml-syntax"),
        (f"x = {'[' * 5_000}{']' * 5_000}", "toml-syntax"),
        (r'name = "Zero\u0000place"', "wrong-value"),
        (r'name = "Two\nlines"', "wrong-value"),
        (f'name = "{"n" * 300}"', "wrong-value"),
    ],
)
def test_what_no_place_has_is_told(tmp_path: Path, line: str, slug: str) -> None:
    """Integers of thousands of digits, keys of thousands of parts, names with control characters or without end."""
    assert slugs(tmp_path, TOML + f"[place]\n{line}\n") == [slug]


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01"])
@pytest.mark.parametrize("key", ["first_day", "last_day"])
def test_days_out_of_reach_are_told(tmp_path: Path, key: str, day: str) -> None:
    """The last day of the calendar has no morrow."""
    lines = [f"{key} = {day}" if line.startswith(key) else line for line in TOML.splitlines()]
    found = problems(tmp_path, "\n".join(lines))
    assert ("wrong-value", key) in [(problem.slug, problem.column) for problem in found]


def test_no_number_may_be_endless(tmp_path: Path) -> None:
    """TOML knows inf and nan; an offset cannot be either."""
    for word in ("inf", "nan", "-inf"):
        assert slugs(tmp_path, TOML.replace('"T" }', f'"T", offset = {word} }}')) == ["wrong-value"]


def test_a_season_file_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder of that name, a link that leads out, one to itself, one held by another program, one far too long."""
    home = tmp_path / "season"
    home.mkdir()
    file = home / "season.toml"
    file.mkdir()
    assert _slug(home) == "cannot-open"
    file.rmdir()
    (tmp_path / "other.toml").write_text(TOML, encoding="utf-8")
    file.symlink_to(tmp_path / "other.toml")
    assert _slug(home) == "path-leads-out"
    file.unlink()
    file.symlink_to(file)
    assert _slug(home) == "cannot-open"
    file.unlink()
    assert slugs(home, TOML + "#" * limits.SEASON_FILE.most) == ["too-much"]

    def held(self: Path, *_: object) -> object:
        raise PermissionError(13, "in use", str(self))

    monkeypatch.setattr(Path, "open", held)
    assert _slug(home) == "cannot-open"


def _slug(folder: Path) -> str:
    with pytest.raises(SeasonError) as caught:
        load_season(folder)
    return caught.value.problems[0].slug


@pytest.mark.parametrize("name", ["n" * 5_000, "a\0b", "x/" * 3_000])
def test_a_folder_that_cannot_be_named(name: str) -> None:
    """Too long a name, one with a zero byte."""
    assert _slug(Path(name)) == "season-missing"


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
def test_a_folder_that_is_a_link_to_itself(tmp_path: Path) -> None:
    """It is no folder."""
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    assert _slug(tmp_path / "loop") == "season-missing"


def test_more_loggers_and_crops_than_a_house_has(tmp_path: Path) -> None:
    """Told with the number that is read."""
    logger = TOML[TOML.index("[[logger]]") :]
    many = "".join(logger.replace("bench", f"bench {n}") for n in range(limits.LOGGERS.most + 1))
    assert slugs(tmp_path, TOML[: TOML.index("[[logger]]")] + many) == ["too-much"]
    crops = "".join(f'[[crop]]\nname = "crop {n}"\n' for n in range(limits.CROPS.most + 1))
    (problem,) = problems(tmp_path, TOML + crops)
    assert (problem.slug, problem.expected) == ("too-much", limits.CROPS.words)
