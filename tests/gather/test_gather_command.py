"""The command as an organiser calls it; the site itself is written by a stand-in."""

from __future__ import annotations

import json
import subprocess
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner, Result
from gather.hand import change, put, review

from reportgen.cli import main
from reportgen.gather.group_file import group_table
from reportgen.gather.types import Group


def call(*words: object) -> Result:
    """The command run in this process."""
    return CliRunner().invoke(main, ["gather", *(str(word) for word in words)], catch_exceptions=False)


@pytest.fixture
def written(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Group, Path]]:
    """What the writer of the site was given."""
    given: list[tuple[Group, Path]] = []
    stand_in = ModuleType("reportgen.gather.site")

    def write_group(group: Group, out: Path, tell: Callable[[str], None]) -> None:
        tell("drawing the pages")
        given.append((group, out))

    stand_in.write_group = write_group  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "reportgen.gather.site", stand_in)
    return given


def test_it_says_what_was_read_what_was_left_out_and_where_the_site_is(
    collected: Path, tmp_path: Path, written: list[tuple[Group, Path]]
) -> None:
    """House by house with its files, the broken one with its reason, houses that could not be joined."""
    done = call(collected, "--out", tmp_path / "group", "--mark", "plot 7")
    assert done.exit_code == 0
    [(group, out)] = written
    assert out == tmp_path / "group" and group.mark == "Plot 7"
    assert "Read: 7 winters of 6 houses." in done.stdout
    assert "  Plot 7: 2024–25 (collected/plot-7-2024.json), 2025–26 (collected/plot-7-2025.json)" in done.stdout
    assert "Left out: 1 file.\n  collected/plot-15.json: it ends in the middle" in done.stdout
    assert "`id`" in done.stdout and str(tmp_path / "group" / "index.html") in done.stdout
    assert "look alike" not in done.stdout


def test_it_prints_the_lines_that_look_alike_ready_to_be_pasted(
    tmp_path: Path, written: list[tuple[Group, Path]]
) -> None:
    """Two houses with one word and no group.toml."""
    lines = [[change("2025-12-10", what)] for what in ("Bubble wrap inside", "bubbles, two layers")]
    put(tmp_path / "in", a=review(1, changes=lines[0]), b=review(2, changes=lines[1]))
    done = call(tmp_path / "in", "--out", tmp_path / "group")
    assert '[[thing]]\nname  = "bubble"\nwords = ["bubble wrap inside", "bubbles, two layers"]' in done.stdout


def test_problems_are_all_listed_and_nothing_is_written(tmp_path: Path, written: list[tuple[Group, Path]]) -> None:
    """Exit code 1; each problem with its kind."""
    put(tmp_path / "in", a=review(1), b=review(1))
    (tmp_path / "in" / "group.toml").write_text("titel = 1\n", encoding="utf-8")
    done = call(tmp_path / "in", "--out", tmp_path / "group", "--mark", "Plot 9")
    assert done.exit_code == 1 and written == [] and not (tmp_path / "group").exists()
    assert all(f"[{slug}]" in done.stderr for slug in ("winter-twice", "unknown-key", "no-such-house"))
    assert "3 problems; nothing was written." in done.stderr


def test_an_out_that_would_touch_what_is_gathered_is_refused(tmp_path: Path, written: list[tuple[Group, Path]]) -> None:
    """Inside a place, the place itself, around it; a folder of somebody else's, the site of one review; a call without
    --out or PLACE."""
    place = put(tmp_path / "in", a=review(1), b=review(2))
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "site" / "data").mkdir(parents=True)
    (tmp_path / "site" / "data" / "review.json").write_bytes(b"{}")
    marker = {"format": 1, "files": ["data/review.json"]}
    (tmp_path / "site" / ".reportgen-site.json").write_text(json.dumps(marker), encoding="utf-8")
    for out in (place / "site", place, tmp_path, tmp_path / "mine", tmp_path / "site"):
        assert call(place, "--out", out).exit_code == 2, out
    assert call(place / "a.json", place / "b.json", "--out", place).exit_code == 2
    assert call(place).exit_code == 2 and call("--out", tmp_path / "x").exit_code == 2
    assert written == [] and sorted(p.name for p in place.iterdir()) == ["a.json", "b.json"]


def test_what_is_printed_obeys_nobody(tmp_path: Path, written: list[tuple[Group, Path]]) -> None:
    """Labels, lines of the diary and names of files come from strangers."""
    evil = "x\x1b[31m\u202e"
    both = [
        review(n, house={"label": f"{evil}{n}"}, changes=[change("2025-12-10", f"bubble {evil}{n}")]) for n in (1, 2)
    ]
    put(tmp_path / "in", **{evil: both[0], "b": both[1], "c": []})
    done = call(tmp_path / "in", "--out", tmp_path / "group")
    assert done.exit_code == 0
    assert "\x1b" not in done.output and "\u202e" not in done.output


def test_the_group_file_of_the_help_is_one(tmp_path: Path) -> None:
    """What it shows can be copied as it stands."""
    shown = call("--help").stdout
    example = shown[shown.index("title =") : shown.index("Exit codes")]
    (tmp_path / "group.toml").write_text(textwrap.dedent(f"    {example}"), encoding="utf-8")
    table, _ = group_table([tmp_path], None)
    assert table.title == "The gardens under the old brickworks" and table.things[0].words[1] == "bubble wrap"


@pytest.mark.parametrize("words", [["--help"], ["nowhere", "--out", "x"], ["nowhere"]])
def test_help_and_wrong_calls_import_nothing_heavy(words: list[str], tmp_path: Path) -> None:
    """As for every other command."""
    code = (
        "import sys; from reportgen.cli import main;\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print([n for n in ('pandas', 'numpy', 'pydantic', 'pint', 'scipy', 'altair') if n in sys.modules])"
    )
    line = [sys.executable, "-c", code, "gather", *words]
    done = subprocess.run(line, capture_output=True, text=True, cwd=tmp_path, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
