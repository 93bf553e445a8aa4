"""A season folder as it lay on one morning of its winter: a copy in which every later row is taken out."""

from __future__ import annotations

import datetime as dt
import re
import shutil
from pathlib import Path

STAMPS = (  # a date with, as far as it stands there, its time: ISO 8601, day.month.year, month/day/year with AM and PM
    (re.compile(r"(\d{4}-\d\d-\d\d)[T ,]+(\d\d:\d\d)"), "%Y-%m-%d %H:%M"),
    (re.compile(r"(\d\d\.\d\d\.\d{4});(\d\d:\d\d)"), "%d.%m.%Y %H:%M"),
    (re.compile(r"(\d\d/\d\d/\d{4}) (\d\d:\d\d:\d\d [AP]M)"), "%m/%d/%Y %I:%M:%S %p"),
)
DAY = re.compile(r"\d{4}-\d\d-\d\d")


def cut(folder: Path, to: Path, at: dt.datetime) -> Path:
    """The folder as it was at that local time; last winter, if it lies in it, stays whole."""
    shutil.copytree(folder, to, ignore=shutil.ignore_patterns("story.md", "pictures"))
    for file in to.rglob("*.csv"):
        if "last_winter" in file.parts:
            continue
        head, *lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
        kept = [_without_later_days(line, at) for line in lines if not _later(line, at)]
        file.write_text("".join([head, *kept]), encoding="utf-8")
    return to


def _later(line: str, at: dt.datetime) -> bool:
    for pattern, form in STAMPS:
        if found := pattern.search(line):
            return dt.datetime.strptime(" ".join(found.groups()), form) > at
    days = DAY.findall(line)
    return bool(days) and dt.date.fromisoformat(days[0]) > at.date()


def _without_later_days(line: str, at: dt.datetime) -> str:
    """A planting that is there already does not tell when it will be cleared, or what will be lost."""
    for day in DAY.findall(line):
        if dt.date.fromisoformat(day) > at.date():
            line = line.replace(day, "")
    return line
