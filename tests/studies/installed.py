"""Installed as others will have it: wheel and sdist, oldest and newest dependencies, odd folders, plain locale.

    python tests/studies/installed.py [PYTHON …]

For each Python (this one when none is named) it makes an environment in a folder with blanks, umlauts and quotes,
installs the wheel from wheels only (no compiler), on the oldest Python with the oldest dependencies that pyproject.toml
allows (a constraints file written here), then the sdist with the newest, reviews the sample under `LC_ALL=C` and an
odd `TZ`, and holds review.json against that of this checkout. Needs a package index, so it is no part of the suite.
"""

from __future__ import annotations

import json
import math
import os
import re
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_season"
ODD = "it's “Müllers” fólder"
OLDEST_PYTHON = "3.11."
CLOSE = 1e-6  # of a number, relative: another release of linear algebra rounds elsewhere


def oldest(folder: Path) -> Path:
    """A constraints file that pins every dependency to its lower bound."""
    needs = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    lines = [re.sub(r">=(.+)$", lambda m: f"~={m[1]}.0" if m[1].count(".") == 1 else f"=={m[1]}.*", n) for n in needs]
    pinned = folder / "oldest.txt"
    pinned.write_text("\n".join(lines) + "\n", "utf-8")
    return pinned


def run(command: list[Any], folder: Path = ROOT, **env: str) -> str:
    """The command's output, run in that folder; a failure stops with what it said."""
    done = subprocess.run(
        [str(c) for c in command], capture_output=True, text=True, cwd=folder, env={**os.environ, **env}
    )
    if done.returncode:
        raise SystemExit(f"{command}\n{done.stdout}\n{done.stderr}")
    return done.stdout


def built(folder: Path) -> tuple[Path, Path]:
    """The wheel and the sdist of this checkout."""
    for kind in ("wheel", "sdist"):
        run([sys.executable, "-m", "hatchling", "build", "-t", kind, "-d", folder])
    return next(folder.glob("*.whl")), next(folder.glob("*.tar.gz"))


def reviewed(python: str, package: Path, folder: Path, *more: Any) -> dict[str, Any]:
    """The sample's review by the package installed into an environment of its own."""
    folder.mkdir(parents=True)
    run([python, "-m", "venv", folder / "env"])
    own = folder / "env" / ("Scripts" if os.name == "nt" else "bin") / "python"
    run([own, "-m", "pip", "install", "-q", "--disable-pip-version-check", package, *more])
    versions = run([own, "-m", "pip", "list", "--format", "freeze", "--disable-pip-version-check"])
    print("   ", " ".join(line for line in versions.split() if line.split("==")[0] in SHOWN))
    site = folder / "site of it"
    run(
        [own, "-m", "reportgen", "review", SAMPLE, "--out", site], folder,
        LC_ALL="C", TZ="Pacific/Chatham", PYTHONPATH="", OPENBLAS_NUM_THREADS="1",
    )  # fmt: skip
    found: dict[str, Any] = json.loads((site / "data" / "review.json").read_text("utf-8"))
    return found


SHOWN = {"altair", "click", "numpy", "pandas", "pint", "Pint", "pydantic", "scipy", "vl-convert-python", "pillow"}


def apart(one: Any, two: Any, path: str = "") -> Iterator[str]:
    """Where two documents differ by more than rounding."""
    if isinstance(one, dict) and isinstance(two, dict) and one.keys() == two.keys():
        for key in one:
            yield from apart(one[key], two[key], f"{path}.{key}")
    elif isinstance(one, list) and isinstance(two, list) and len(one) == len(two):
        for n, (a, b) in enumerate(zip(one, two, strict=True)):
            yield from apart(a, b, f"{path}.{n}")
    elif isinstance(one, float) and isinstance(two, int | float):
        if not math.isclose(one, two, rel_tol=CLOSE, abs_tol=1e-9):
            yield f"{path}: {one} and {two}"
    elif one != two:
        yield f"{path}: {str(one)[:80]} and {str(two)[:80]}"


def main(pythons: list[str]) -> int:
    """Installs, reviews, compares, prints."""
    wrong = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        wheel, sdist = built(folder / "dist")
        run([sys.executable, "-m", "reportgen", "review", SAMPLE, "--out", folder / "here"], OPENBLAS_NUM_THREADS="1")
        mine = json.loads((folder / "here" / "data" / "review.json").read_text("utf-8"))
        wheels = ["--only-binary", ":all:", "--no-binary", "psychrolib"]  # no compiler; psychrolib is plain Python
        for n, python in enumerate(pythons):
            version = run([python, "-c", "import platform; print(platform.python_version())"]).strip()
            kind = ("wheel, oldest", wheel, [*wheels, "-c", oldest(folder)])
            if not version.startswith(OLDEST_PYTHON):  # the oldest releases have no wheels for a newer Python
                kind = ("wheel, newest", wheel, wheels)
            for what, package, more in (kind, ("sdist, newest", sdist, [])):
                print(f"Python {version}, {what}:")
                found = reviewed(python, package, folder / f"{ODD} {n} {what}", *more)
                faults = list(apart(mine, found))
                wrong += len(faults)
                print(f"    {len(faults)} differences", *faults[:8], sep="\n      ")
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:] or [sys.executable]))
