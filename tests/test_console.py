"""Words on any console, names in any bytes: never a fall for want of a letter."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from reportgen.console import STANDS_IN, harmless, printable, say, stand_in
from reportgen.explained import explanations

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
    assert [stand_in(letter) for letter in "é−→°ßłµ½"] == ["e", "-", "->", "deg ", "ss", "l", "u", " 1/2"]


OBEYED = "\x1b\x07\x08\x7f\x9b\x85\u202e\u2066\u2069\u200e\u200f\u061c\u2028\u2029\ufeff\u00ad\U000e0041"
PAGES = ["cp437", "cp850", "cp1252", "latin-1", "cp1250", "ascii", "utf-8"]


def odd_season(folder: Path) -> Path:
    """Escapes, controls and signs of direction in the title, a logger's name, a header, the diary and a file's name."""
    folder.mkdir()
    toml = (
        TOML.replace("*.csv", "a*.csv")
        .replace("Σ", "Σ \\u009b31m\\u202e\\u2066red ½ µ ß ł")
        .replace("bénch", "bench\\u202e")
    )
    (folder / "season.toml").write_text(toml, encoding="utf-8")
    rows = "".join(f"2025-12-{day:02d} {hour:02d}:00,{hour / 4}\n" for day in range(1, 11) for hour in range(24))
    (folder / "a\x1b[31m\nb.csv").write_text("Time,T,\x1b]0;owned\x07\n" + rows, encoding="utf-8")
    diary = "date,kind,what,\x1b[2J\u202e\n2025-12-40\x1b[31m,change,film\u202e\n"
    (folder / "diary.csv").write_text(diary, encoding="utf-8")
    return folder


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="names of bytes as on Linux")
@pytest.mark.parametrize(("encoding", "command"), [("cp437", ["inspect"]), ("cp1252", ["review", "--out", "site"])])
def test_nothing_of_a_folder_reaches_a_terminal_as_a_command(tmp_path: Path, encoding: str, command: list[str]) -> None:
    """No traceback, and nothing printed but letters and ends of line."""
    home = odd_season(tmp_path / "home")
    done = call(encoding, command[0], home, *command[1:2], *(tmp_path / last for last in command[2:]))
    assert done.returncode == 1  # the diary's date
    for stream in (done.stdout, done.stderr):
        words = stream.decode(encoding)
        assert "Traceback" not in words
        assert [letter for letter in words if letter in OBEYED or (letter < " " and letter != "\n")] == []
    said = (done.stdout + done.stderr).decode(encoding)
    assert "diary.csv:2" in said and ("\\x1b[31m" in said or command[0] == "review")  # which names no warning


@pytest.mark.parametrize("encoding", PAGES)
def test_every_code_page_can_say_everything(encoding: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stream as Windows gives it, redirected or not: all that is ever explained, and letters of everywhere."""
    stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding, errors="strict")
    printable(stream)
    monkeypatch.setattr("sys.stdout", stream)
    say("\n".join([*explanations().values(), "Zima – Ärger · Σ ½ µ ß ł あ \U0001f331 −1.2\u00a0°C", OBEYED]))
    stream.flush()
    words = stream.buffer.getvalue().decode(encoding)  # type: ignore[attr-defined]
    assert len(words) > 10_000 and "1.2" in words and "\x1b" not in words


@pytest.mark.parametrize("letter", list(OBEYED))
def test_what_a_terminal_would_obey_is_shown(letter: str) -> None:
    """Each such sign stands as its number; letters, joiners in a word, and our own ends of line stay."""
    told = harmless(f"a{letter}b")
    assert told.isprintable() and told.startswith("a\\") and told.endswith("b")
    assert harmless("naïve — ½ °C\nمی\u200cخواهم\t\U0001f331") == "naïve — ½ °C\nمی\u200cخواهم\t\U0001f331"


@pytest.mark.parametrize("words", [["review", "\x1b[31m", "--out", "\u202e"], ["inspect", "--\x1b[31m"], ["\x1b[2J"]])
def test_a_wrong_call_is_quoted_harmlessly(words: list[str], tmp_path: Path) -> None:
    """Neither a folder, nor an option, nor a command that is none."""
    done = subprocess.run(
        [sys.executable, "-m", "reportgen", *words], capture_output=True, check=False, cwd=tmp_path, text=True
    )
    assert done.returncode in (1, 2)
    said = done.stdout + done.stderr
    assert "\x1b" not in said and "\u202e" not in said and "Traceback" not in said
