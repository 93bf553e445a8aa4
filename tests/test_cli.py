"""The commands as a grower calls them: what they print, where, and with which exit code."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from reportgen.cli import main

SAMPLE = Path(__file__).parents[1] / "sample_season"


def call(*words: object) -> Result:
    """The command run in this process."""
    return CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A copy of the sample season to break."""
    return Path(shutil.copytree(SAMPLE, tmp_path / "season"))


def test_review_names_the_page_and_the_three_weightiest_findings(tmp_path: Path) -> None:
    """A review says where the site is and its three weightiest findings, in the order of review.json, and exits 0."""
    done = call("review", SAMPLE, "--out", tmp_path / "site")
    assert done.exit_code == 0
    assert str(tmp_path / "site" / "index.html") in done.stdout
    document = json.loads((tmp_path / "site" / "data" / "review.json").read_text(encoding="utf-8"))
    lines = done.stdout.splitlines()
    for number, finding in enumerate(document["findings"][:3], start=1):
        assert f"{number}. {finding['claim']}" in lines


def test_a_season_with_problems_lists_all_and_writes_nothing(season: Path, tmp_path: Path) -> None:
    """Two faults in two files: both are told on stderr, exit code 1, no site."""
    toml = season / "season.toml"
    text = toml.read_text(encoding="utf-8")
    broken = text.replace("\nsoil_c ", "\nsoli_c ").replace("\nlatitude   = ", "\nlatitude   = 1")
    assert broken.count("soli_c") == 1 and broken != text.replace("\nsoil_c ", "\nsoli_c ")
    toml.write_text(broken, encoding="utf-8")
    done = call("review", season, "--out", tmp_path / "site")
    assert done.exit_code == 1
    assert "soli_c" in done.stderr and "latitude" in done.stderr
    assert not (tmp_path / "site").exists()


def test_wrong_calls_exit_2(season: Path, tmp_path: Path) -> None:
    """No --out, an --out inside the season, a foreign folder that is not empty: a usage error that says what to do."""
    assert call("review", season).exit_code == 2
    assert call("review", season, "--out", season / "site").exit_code == 2
    foreign = tmp_path / "foreign"
    foreign.mkdir()
    (foreign / "letter.txt").write_text("mine", encoding="utf-8")
    done = call("review", season, "--out", foreign)
    assert done.exit_code == 2
    assert (foreign / "letter.txt").read_text(encoding="utf-8") == "mine"


def test_a_folder_without_a_season_file_says_how_to_begin(tmp_path: Path) -> None:
    """The first mistake of all: pointing at raw files. The answer names `reportgen begin`."""
    done = call("review", tmp_path, "--out", tmp_path / "site")
    assert done.exit_code == 1
    assert "season.toml" in done.stderr and "begin" in done.stderr


def test_inspect_exits_by_what_it_found(season: Path) -> None:
    """Ready: 0, and valid JSON on request. With a problem: 1."""
    assert call("inspect", season).exit_code == 0
    assert json.loads(call("inspect", season, "--json").stdout)
    (season / "diary.csv").write_text("date,kind,what\n2025-13-45,change,sealed\n", encoding="utf-8")
    done = call("inspect", season)
    assert done.exit_code == 1
    assert "diary.csv" in done.stdout


@pytest.mark.parametrize("words", [["--help"], ["review", "--help"], ["inspect", "--help"], ["begin", "--help"]])
def test_help_teaches_with_exit_codes_or_a_first_step(words: list[str]) -> None:
    """Each help names what to do first or the exit codes."""
    done = call(*words)
    assert done.exit_code == 0
    assert "Exit codes" in done.stdout or "First time" in done.stdout
