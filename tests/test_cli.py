"""The commands as a grower calls them: what they print, where, and with which exit code."""

from __future__ import annotations

import io
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from reportgen import cli
from reportgen.cli import main
from reportgen.progress import Progress

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
    """An --out inside the season, a foreign folder that is not empty: a usage error that says what to do."""
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


@pytest.mark.parametrize("command", sorted(main.commands))
def test_every_help_teaches_by_an_example(command: str) -> None:
    """Exit codes and a call that can be typed as it stands; the first page names a first step. All in ASCII."""
    done = call(command, "--help")
    assert done.exit_code == 0 and done.stdout.isascii()
    assert "Exit codes:" in done.stdout and re.search(rf"Example: +reportgen {command}", done.stdout)
    assert "First time:" in call("--help").stdout


def small_season(folder: Path) -> Path:
    """Ten days of one logger."""
    folder.mkdir()
    (folder / "season.toml").write_text(
        'format = 1\ntitle = "Ten days"\nfirst_day = 2025-12-01\nlast_day = 2025-12-10\ntime_zone = "Europe/Prague"\n'
        '[[logger]]\nname = "bench"\nwhere = "crop"\nfiles = ["bench.csv"]\ntime = "Time"\n'
        '[logger.measures]\nair_temperature = { column = "T", unit = "degC" }\n',
        encoding="utf-8",
    )
    rows = [f"2025-12-{day:02d} {hour:02d}:00,{4 + hour / 4}" for day in range(1, 11) for hour in range(24)]
    (folder / "bench.csv").write_text("\n".join(["Time,T", *rows]) + "\n", encoding="utf-8")
    return folder


def test_the_short_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a folder the one you are in, without --out a folder beside it, and --open shows its first page."""
    shown: list[str] = []
    monkeypatch.setattr("webbrowser.open", lambda page: bool(shown.append(page)) or True)
    monkeypatch.chdir(small_season(tmp_path / "my winter"))
    assert "Ready for a review" in call("inspect").stdout
    done = call("review", "--open")
    first = tmp_path / "my winter-review" / "index.html"
    assert done.exit_code == 0 and first.is_file()
    assert shown == [first.as_uri()]
    assert call("begin").exit_code == 2  # season.toml is there


def test_without_a_browser_the_page_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Relative to where one is or not, the whole path is said."""
    monkeypatch.setattr("webbrowser.open", lambda page: False)
    monkeypatch.chdir(tmp_path)
    cli._show(Path("winter-review") / "index.html")
    assert str(tmp_path / "winter-review" / "index.html") in capsys.readouterr().err


def test_where_the_site_goes_when_nobody_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beside the season, by its name: as it is named, from inside it, and from a folder below."""
    monkeypatch.chdir(small_season(tmp_path / "winter"))
    assert cli._beside(Path("../winter")) == Path("../winter-review")
    assert cli._beside(Path()) == tmp_path / "winter-review"
    (tmp_path / "winter" / "loggers").mkdir()
    monkeypatch.chdir(tmp_path / "winter" / "loggers")
    assert cli._beside(Path("..")) == tmp_path / "winter-review"
    with pytest.raises(click.UsageError):
        cli._beside(Path("/"))


def test_progress_tells_each_stage_with_its_seconds(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal a line a stage, by a clock that is given; nothing else where there is none."""
    ticks = iter([0.0, 1.5, 1.5, 4.0, 4.0])
    monkeypatch.setattr("time.monotonic", lambda: next(ticks))
    for watched, told in ((True, ["reading ... 1.5 s", "drawing ... 2.5 s", "done in 4.0 s"]), (False, [])):
        stream = io.StringIO()
        monkeypatch.setattr(stream, "isatty", lambda watched=watched: watched, raising=False)
        monkeypatch.setattr("sys.stderr", stream)
        with Progress() as progress:
            progress.tell("reading")
            progress.tell("drawing")
        assert stream.getvalue().splitlines() == told


@pytest.mark.parametrize(
    "words", [["--help"], ["review", "--help"], ["explain", "stuck"], ["review", "nowhere"], ["inspect", "nowhere"]]
)
def test_help_and_input_errors_import_nothing_heavy(words: list[str], tmp_path: Path) -> None:
    """What takes the time is not imported: pandas, numpy, pydantic, pint, scipy, altair."""
    code = (
        "import sys; from reportgen.cli import main;\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print([n for n in ('pandas', 'numpy', 'pydantic', 'pint', 'scipy', 'altair') if n in sys.modules])"
    )
    line = [sys.executable, "-c", code, *words]
    done = subprocess.run(line, capture_output=True, text=True, cwd=tmp_path, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
