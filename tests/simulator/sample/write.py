"""Writes both winters of the sample season; what is written by hand (season.toml, story, README) is left alone."""

from __future__ import annotations

from pathlib import Path

from simulator.sample import last_winter, this_winter
from simulator.sample.books import last_books, this_books, this_diary
from simulator.sample.loggers import LOGGERS
from simulator.write import write_season

FILES_BY_HAND = ("season.toml", "story.md", "README.md", "pictures/plan.png")


def write_sample(folder: Path) -> Path:
    """Loggers and books of both winters into `folder`; the same bytes on every run.

    Each winter's season.toml must already stand there: it is written by hand, as a grower would.
    """
    zone, last = this_winter.ZONE, folder / "last_winter"
    truth, before = this_winter.winter(), last_winter.winter()
    write_season(
        folder, truth, LOGGERS, zone=zone, books=this_books(truth, zone), diary=this_diary(), toml_text=_toml(folder)
    )
    write_season(last, before, last_winter.LOGGERS, zone=zone, books=last_books(before, zone), toml_text=_toml(last))
    return folder


def _toml(folder: Path) -> str:
    return (folder / "season.toml").read_text(encoding="utf-8")
