"""A copy of the package to which lines were added, and a season run through it in a process of its own."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]


@dataclass(frozen=True)
class Put:
    """Text put behind a line (or lines) of a file that is there."""

    file: str
    behind: str
    text: str


def copied(base: Path, put: Sequence[Put], written: Mapping[str, str] | None = None) -> Path:
    """The copy with those files written anew and those lines added; every line to put behind stands there once."""
    copy = base / "project"
    shutil.copytree(ROOT / "reportgen", copy / "reportgen", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "templates", copy / "templates")
    for name, text in (written or {}).items():
        (copy / "reportgen" / name).write_text(text, encoding="utf-8")
    for one in put:
        path = copy / "reportgen" / one.file
        there = path.read_text(encoding="utf-8")
        assert there.count(one.behind) == 1, f"{one.file} has not one line {one.behind!r}"
        path.write_text(there.replace(one.behind, one.behind + one.text), encoding="utf-8")
    return copy


def run(copy: Path, code: str, *args: Path) -> str:
    """What that code prints, run with the copy in place of the package; `args` are sys.argv[1:]."""
    own = f"import reportgen\nassert reportgen.__file__.startswith({str(copy)!r}), reportgen.__file__\n"
    done = subprocess.run(
        [sys.executable, "-c", own + code, *map(str, args)],
        check=True,
        capture_output=True,
        encoding="utf-8",
        cwd=copy,
        env=os.environ | {"PYTHONPATH": str(copy), "PYTHONIOENCODING": "utf-8"},
    )
    return done.stdout


def reviewed(copy: Path, season: Path, site: Path) -> Path:
    """The site of a season, made by the copy."""
    run(copy, "import sys\nfrom reportgen.pipeline import review\nreview(sys.argv[1], sys.argv[2])\n", season, site)
    return site
