"""Reviews and sites that many tests read: each made once a test run, by whichever process asks first.

A site is a folder that nobody may write to; a review is read from the file that its maker left.
"""

from __future__ import annotations

import copyreg
import os
import pickle
import re
import shutil
import time
from collections.abc import Callable, Mapping
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from odd_seasons import ODD
from said_seasons import SAID
from scenarios import SCENARIOS

from reportgen.pipeline import analyse, review
from reportgen.review import Review

SAMPLE = Path(__file__).parents[1] / "sample_season"
WINTERS = tuple(one.name for one in SCENARIOS)  # of known truth
RUN = Path(os.environ["REPORTGEN_TEST_RUN"])  # conftest.py makes it and takes it away
LONGEST_S = 600.0


def _proxy(of: dict[Any, Any]) -> Mapping[Any, Any]:
    return MappingProxyType(of)


def _unproxied(of: Any) -> tuple[Callable[..., Any], tuple[dict[Any, Any]]]:
    return _proxy, (dict(of),)


copyreg.pickle(MappingProxyType, _unproxied)


def _us(folder: Path) -> Path:
    shutil.copytree(SAMPLE, folder)
    toml = folder / "season.toml"
    toml.write_text(re.sub(r"(?m)^show\s*=.*$", 'show = "us"', toml.read_text("utf-8")), "utf-8")
    return folder


MAKERS: Mapping[str, Callable[[Path], Path]] = (
    {"sample in °F": _us} | ODD | SAID | {one.name: one.write for one in SCENARIOS}
)
assert len(MAKERS) == 1 + len(ODD) + len(SAID) + len(SCENARIOS), "two seasons of one name"


def season_of(name: str) -> Path:
    """The season folder of that name: the sample, an odd season, one of `said_seasons` or a winter of known truth."""
    if name == "sample":
        return SAMPLE

    def make(spot: Path) -> None:
        folder = MAKERS[name](spot / "season")
        (spot / "where").write_text(folder.relative_to(spot).as_posix(), "utf-8")

    spot = _made("season", name, make)
    return spot / (spot / "where").read_text("utf-8")


@lru_cache(maxsize=64)
def review_of(name: str) -> Review:
    """Its review."""

    def make(spot: Path) -> None:
        found = analyse(season_of(name))
        (spot / "review").write_bytes(pickle.dumps(found, protocol=5))

    found: Review = pickle.loads((_made("review", name, make) / "review").read_bytes())
    return found


def site_of(name: str) -> Path:
    """Its built site, to be read only."""
    return _made("site", name, lambda spot: review(season_of(name), spot / "site")) / "site"


def _made(kind: str, name: str, make: Callable[[Path], Any]) -> Path:
    """The folder that `make` filled, in this or another process of the run; where that one failed, it is tried here."""
    spot = RUN / f"{kind} {re.sub(r'[^0-9A-Za-z]+', '_', name)}"
    try:
        spot.mkdir()
    except FileExistsError:
        if _waited(spot):
            return spot
        spot = RUN / f"{spot.name} of {os.getpid()}"
        spot.mkdir()
    try:
        make(spot)
    except BaseException:
        (spot / "failed").touch()
        raise
    (spot / "done").touch()
    return spot


def _waited(spot: Path) -> bool:
    """Whether another process made it; waits until it has, or has not."""
    until = time.monotonic() + LONGEST_S
    while time.monotonic() < until:
        if (spot / "done").exists() or (spot / "failed").exists():
            return (spot / "done").exists()
        time.sleep(0.05)
    return False
