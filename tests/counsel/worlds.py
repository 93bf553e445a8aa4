"""Reviews of the winters of known truth, each made once a test run."""

from __future__ import annotations

import re
import shutil
import tempfile
from functools import lru_cache
from pathlib import Path

from scenarios import SCENARIOS, Scenario

from reportgen.pipeline import analyse
from reportgen.review import Review

NAMES = [scenario.name for scenario in SCENARIOS]
SAMPLE = Path(__file__).parents[2] / "sample_season"


def scenario(name: str) -> Scenario:
    """The winter of that name."""
    return next(s for s in SCENARIOS if s.name == name)


@lru_cache(maxsize=32)
def review_of(name: str) -> Review:
    """The review of one of them, or of the sample season ("sample", "sample in °F")."""
    if name == "sample":
        return analyse(SAMPLE)
    if name == "sample in °F":
        with tempfile.TemporaryDirectory() as folder:
            shutil.copytree(SAMPLE, Path(folder) / "season")
            toml = Path(folder) / "season" / "season.toml"
            toml.write_text(re.sub(r"(?m)^show\s*=.*$", 'show = "us"', toml.read_text()))
            return analyse(toml.parent)
    with tempfile.TemporaryDirectory() as folder:
        return analyse(scenario(name).write(Path(folder) / "winter"))
