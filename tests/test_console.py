"""Words on any console, names in any bytes: never a fall for want of a letter."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from reportgen.console import STANDS_IN, stand_in

TOML = """format = 1
title = "Zima – Ärger · Σ"
first_day = 2025-12-01
last_day = 2025-12-10
time_zone = "Europe/Prague"
[[logger]]
name = "bénch"
where = "crop"
files = ["*.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T" }
"""


def season(folder: Path) -> Path:
    """A season whose file has a name of bytes that are no UTF-8."""
    folder.mkdir()
    (folder / "season.toml").write_text(TOML, encoding="utf-8")
    rows = "".join(f"2025-12-{day:02d} {hour:02d}:00,{hour / 4}\n" for day in range(1, 11) for hour in range(24))
    (folder / os.fsdecode(b"b\xe4nk.csv")).write_text("Time,T\n" + rows, encoding="utf-8")
    return folder


def call(encoding: str, *words: object) -> subprocess.CompletedProcess[bytes]:
    """The command on a console of that encoding."""
    line = [sys.executable, "-m", "reportgen", *(os.fsencode(str(word)) for word in words)]
    return subprocess.run(line, env=os.environ | {"PYTHONIOENCODING": encoding}, capture_output=True, check=False)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="names of bytes as on Linux")
@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_any_console_prints_what_was_understood(tmp_path: Path, encoding: str) -> None:
    """The words are those of the console's letters, with stand-ins where it has none; the folder's name is odd too."""
    home = season(tmp_path / os.fsdecode(b"h\xf6me"))
    done = call(encoding, "inspect", home)
    assert done.returncode == 0, done.stderr
    words = done.stdout.decode(encoding)
    assert "Ready for a review" in words and r"b\xe4nk.csv" in words
    assert {"ascii": "Zima - Arger - ?", "cp1252": "Zima – Ärger · ?"}[encoding] in words


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="names of bytes as on Linux")
def test_json_is_whole_on_any_console(tmp_path: Path) -> None:
    """For programs nothing is replaced."""
    found = json.loads(call("ascii", "inspect", season(tmp_path / "home"), "--json").stdout)
    assert found["season"]["title"] == "Zima – Ärger · Σ"


@pytest.mark.parametrize("words", [["review", "--help"], ["review", "nowhere", "--out", "Σ/–"]])
def test_help_and_faults_on_an_ascii_console(words: list[str], tmp_path: Path) -> None:
    """Neither help nor a fault needs a letter that is not there."""
    done = subprocess.run(
        [sys.executable, "-m", "reportgen", *words],
        env=os.environ | {"PYTHONIOENCODING": "ascii"},
        capture_output=True,
        check=False,
        cwd=tmp_path,
    )
    assert b"Traceback" not in done.stderr
    assert done.stdout.isascii() and done.stderr.isascii()


def test_every_stand_in_is_ascii() -> None:
    """Also for letters that nobody thought of."""
    for letter in [*STANDS_IN, *"é Ω\u0301あ\U0001f331\udce4"]:
        assert stand_in(letter).isascii()
    assert [stand_in(letter) for letter in "é−→°"] == ["e", "-", "->", "deg "]
