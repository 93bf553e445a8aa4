"""The wheel carries all it needs: installed away from the project's folder, it writes the sample's site."""

from __future__ import annotations

import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built wheel of the project as it stands."""
    out = tmp_path_factory.mktemp("wheel")
    run([sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", out], ROOT)
    return next(out.glob("*.whl"))


def run(command: list[object], folder: Path) -> str:
    """The command's output; a failure shows what it said."""
    done = subprocess.run([str(part) for part in command], cwd=folder, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_every_template_is_in_the_wheel(wheel: Path) -> None:
    """Each file of templates/ travels as reportgen/templates/, the explanations too, and nothing of the tests does."""
    names = set(zipfile.ZipFile(wheel).namelist())
    templates = {f"reportgen/{p.relative_to(ROOT).as_posix()}" for p in (ROOT / "templates").rglob("*") if p.is_file()}
    assert {*templates, "reportgen/explanations.md", "reportgen/py.typed"} - names == set()
    assert not [name for name in names if name.startswith("tests")]


def test_review_runs_from_the_wheel_alone(wheel: Path, tmp_path: Path) -> None:
    """With the wheel and the dependencies, but without the project's folder, a review is written."""
    run([sys.executable, "-m", "venv", "--without-pip", "env"], tmp_path)
    scripts = tmp_path / "env" / ("Scripts" if sys.platform == "win32" else "bin")
    library = Path(
        run([scripts / "python", "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"], tmp_path).strip()
    )
    zipfile.ZipFile(wheel).extractall(library)
    # Path files of that other folder are not read from here: an editable install of the project stays out of sight.
    (library / "dependencies.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    found = run([scripts / "python", "-c", "import reportgen; print(reportgen.__file__)"], tmp_path).strip()
    assert library in Path(found).parents
    said = run([scripts / "python", "-m", "reportgen", "review", ROOT / "sample_season", "--out", "site"], tmp_path)
    assert "index.html" in said
    assert (tmp_path / "site" / "index.html").is_file()
    assert (tmp_path / "site" / "data" / "review.json").is_file()
