"""Random legal seasons down the whole road: what the format allows must end in a review, whatever the season lacks.

    nice -n 10 python -m studies.random_seasons ROWS.csv --seasons 2000 --pages 30 --seed 1        (in `tests`)

writes a row a season (seed, number, seconds, what was wrong) and ends with 1 where anything was. Each season is drawn
by hypothesis, written as a folder, read, measured and weighed; of `--pages` of them every page is drawn too.
"""

from __future__ import annotations

import argparse
import csv
import json
import math
import re
import sys
import tempfile
import time
import traceback
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings

sys.path.insert(0, str(Path(__file__).parents[1]))

from studies.random_folders import Wish, wishes, write_wish

from reportgen.pipeline import analyse, review
from reportgen.problems import SeasonError

NO_WORD = re.compile(r"\b(nan|NaN|NaT|None|undefined|inf|Infinity)\b(?! of)")
SHARES = re.compile(r"(^|\.)(share|share_at_or_above_hold\.\w+|known_share|share_of_household|needed_share)$")
HOURS = re.compile(
    r"(^|\.)(hours_below\.\d+\.\w+|hours_above_\w+\.\w+|hours_recorded|unrecorded_\w+_hours|airing_hours)$"
)
COUNTED = re.compile(r"(^|\.)(nights|nights_partly_logged|kg|rows_read|rows_used|values_read|values_used|pickings)$")


def faults(document: Mapping[str, Any], hours: float) -> Iterator[str]:
    """What no review may hold: a number that is none, a share beyond 0 … 1, more hours than the season has."""
    for path, value in leaves(document):
        if isinstance(value, str) and NO_WORD.search(value):
            yield f"{path}: {value[:80]}"
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        if not math.isfinite(value):
            yield f"{path}: {value}"
        elif SHARES.search(path) and not -1e-9 <= value <= 1 + 1e-9 and "household" not in path:
            yield f"{path}: {value} is no share"
        elif HOURS.search(path) and not -1e-6 <= value <= hours + 1e-6:
            yield f"{path}: {value} of {hours} h"
        elif COUNTED.search(path) and value < 0:
            yield f"{path}: {value}"


def leaves(of: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every value of a document with its dotted path."""
    if isinstance(of, Mapping):
        for key, inner in of.items():
            yield from leaves(inner, f"{path}.{key}" if path else str(key))
    elif isinstance(of, list | tuple):
        for inner in of:
            yield from leaves(inner, path)
    else:
        yield path, of


def ordered(document: Mapping[str, Any]) -> Iterator[str]:
    """Bands and intervals whose ends stand the wrong way round."""
    for path, value in pairs(document):
        low, high = value.get("low"), value.get("high")
        if isinstance(low, int | float) and isinstance(high, int | float) and low > high + 1e-9:
            yield f"{path}: low {low} above high {high}"
        middle = value.get("estimate", value.get("effect"))
        known = [one for one in (low, middle, high) if isinstance(one, int | float)]
        if len(known) == 3 and not known[0] - 1e-6 <= known[1] <= known[2] + 1e-6:
            yield f"{path}: {middle} outside {low} … {high}"


def pairs(of: Any, path: str = "") -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every object that has a low and a high end."""
    if isinstance(of, Mapping):
        if {"low", "high"} <= of.keys():
            yield path, of
        for key, inner in of.items():
            yield from pairs(inner, f"{path}.{key}" if path else str(key))
    elif isinstance(of, list | tuple):
        for inner in of:
            yield from pairs(inner, path)


def judged(wish: Wish, pages: bool) -> list[str]:
    """What is wrong with the review of that season; nothing where all holds, or where it is refused in words."""
    with tempfile.TemporaryDirectory() as name:
        folder = write_wish(wish, Path(name) / "season")
        try:
            found = review(folder, Path(name) / "out") if pages else analyse(folder)
        except SeasonError as error:
            return [f"refused: {p.slug} {p.file} {p.found}" for p in error.problems if p.level == "problem"]
        document = found.to_dict()
        json.dumps(document, allow_nan=False)
        wrong = [*faults(document, found.season.hours), *ordered(document)]
        if pages:
            for page in sorted((Path(name) / "out").glob("*.html")):
                body = re.sub(r"<(script|style)\b.*?</\1>", "", page.read_text("utf-8"), flags=re.DOTALL)
                wrong += [f"{page.name}: {body[max(0, m.start() - 50) : m.end() + 20]}" for m in NO_WORD.finditer(body)]
        return wrong


def main() -> int:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("--seasons", type=int, default=100)
    parser.add_argument("--pages", type=int, default=5)
    parser.add_argument("--seed", type=int, default=1)
    given_ = parser.parse_args()
    count = 0
    bad = 0

    with given_.rows.open("a", newline="", encoding="utf-8") as file:
        out = csv.writer(file)

        @seed(given_.seed)
        @settings(
            max_examples=given_.seasons, deadline=None, database=None, phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )  # fmt: skip
        @given(wish=wishes())
        def each(wish: Wish) -> None:
            nonlocal count, bad
            begun = time.process_time()
            try:
                wrong = judged(wish, pages=count % max(given_.seasons // max(given_.pages, 1), 1) == 0)
            except Exception:
                wrong = [traceback.format_exc(limit=-4)]
            out.writerow(
                [
                    given_.seed,
                    count,
                    round(time.process_time() - begun, 2),
                    " | ".join(wrong),
                    repr(wish) if wrong else "",
                ]
            )
            file.flush()
            count, bad = count + 1, bad + bool(wrong)

        each()
    print(f"{count} seasons, {bad} with something wrong")
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
