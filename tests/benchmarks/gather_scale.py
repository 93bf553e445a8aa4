"""What gathering many reviews takes, from 2 houses to 500 with 2 000 winters: processor seconds and most memory.

Run by hand: python tests/benchmarks/gather_scale.py [--write tests/studies/GATHER.md]. Copies of the reviews of the
sample season and of the invented group under other ids, labels and figures, half of them as ZIPs, each run in a process
of its own. With the site's writer there, the site is written too.
"""

from __future__ import annotations

import argparse
import datetime as dt
import importlib.util
import json
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))
SAMPLE = Path(__file__).parents[2] / "sample_season"
SIZES = ((2, 1), (10, 1), (20, 2), (50, 4), (125, 4), (250, 4), (500, 4))  # houses, winters of each
MOST_S, MOST_MB = 60, 500
YEAR, NEWEST = dt.timedelta(days=365), 2025


def write(folder: Path, houses: int, winters: int, models: list[dict[str, Any]]) -> None:
    """The reviews of so many houses through so many winters."""
    from gather.made_group import packed, text_of

    rng = random.Random(5)
    for number in range(houses):
        for back in range(winters):
            model = models[(number + back) % len(models)]
            document = other(model, number, back, rng)
            name = folder / f"house-{number:03d}-{back}"
            if number % 2:
                name.with_suffix(".zip").write_bytes(packed(document))
            else:
                name.with_suffix(".json").write_bytes(text_of(document))


def other(model: dict[str, Any], number: int, back: int, rng: random.Random) -> dict[str, Any]:
    """A copy of a review as one of another house, some winters ago, with other figures."""
    document = json.loads(json.dumps(model))
    shift = (dt.date.fromisoformat(document["season"]["first_day"]).year - NEWEST + back) * YEAR
    document["house"] |= {"id": f"{number + 1:016x}", "label": f"Plot {number + 1}"}
    for key in ("first_day", "last_day"):
        document["season"][key] = (dt.date.fromisoformat(document["season"][key]) - shift).isoformat()
    for line in document["changes"]:
        line["when"] = (dt.date.fromisoformat(line["when"]) - shift).isoformat()
        line["what"] += f" ({number})" if rng.random() < 0.3 else ""
        for outcome in line["outcomes"]:
            if outcome["effect"] is not None:
                by = rng.gauss(0.0, outcome["se"])
                outcome |= {key: outcome[key] + by for key in ("effect", "low", "high")}
    return document


def run(folder: Path, out: Path) -> None:
    """One gathering in this process; prints what it took."""
    from reportgen.gather.gathering import gather

    start = time.process_time()
    group = gather([folder])
    read = time.process_time() - start
    drawn = None
    if importlib.util.find_spec("reportgen.gather.site") is not None:
        from reportgen.gather.site import write_group

        start = time.process_time()
        write_group(group, out, lambda _: None)
        drawn = time.process_time() - start
    found = {"things": len(group.things), "left": len(group.left_out), "read": read, "drawn": drawn, "mb": most_mb()}
    print(json.dumps(found))


def most_mb() -> float:
    """The most memory that this process held; what `getrusage` tells counts that of the process it came from."""
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    return int(next(line for line in status.splitlines() if line.startswith("VmHWM")).split()[1]) / 1024


def measured(houses: int, winters: int, models: list[dict[str, Any]]) -> dict[str, Any]:
    """One size, in a process of its own."""
    with tempfile.TemporaryDirectory() as room:
        folder = Path(room) / "in"
        folder.mkdir()
        write(folder, houses, winters, models)
        line = [sys.executable, __file__, "--one", str(folder), str(Path(room) / "out")]
        done = subprocess.run(line, stdout=subprocess.PIPE, text=True, check=True)
        size = sum(file.stat().st_size for file in folder.iterdir()) / 1e6
        return {"houses": houses, "winters": houses * winters, "size": size} | json.loads(done.stdout)


def table(rows: list[dict[str, Any]]) -> str:
    """The rows as the results are written down."""
    drawn = any(row["drawn"] is not None for row in rows)
    what = "read and told apart, and the site written" if drawn else "read and told apart (no site was written)"
    lines = [
        "# Many reviews at once", "",
        "Written by `python tests/benchmarks/gather_scale.py --write tests/studies/GATHER.md` on two shared cores "
        f"(Python {sys.version_info.major}.{sys.version_info.minor}, Linux): reviews {what}, each size in a process of "
        "its own. Copies of eight reviews (40 to 230 kB, the sample season's the largest) under other ids, labels and "
        "figures, every second house as ZIPs. Seconds are of computing, two of them for loading; memory is its peak.",
        "",
        f"Aim: 500 houses with 2,000 winters within {MOST_S} seconds and {MOST_MB} MB, and no more than in proportion.",
        "", "| houses | winters | files MB | things | read s | ms a winter | site s | MB |",
        "|---|---|---|---|---|---|---|---|",
    ]  # fmt: skip
    for row in rows:
        site = "–" if row["drawn"] is None else f"{row['drawn']:.1f}"
        each = 1000 * row["read"] / row["winters"]
        lines.append(
            f"| {row['houses']} | {row['winters']:,} | {row['size']:.1f} | {row['things']} | {row['read']:.1f} | "
            f"{each:.0f} | {site} | {row['mb']:.0f} |"
        )
    return "\n".join(lines) + "\n"


def main() -> None:
    """Every size, as a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--one", nargs=2, type=Path)
    given = parser.parse_args()
    if given.one:
        run(*given.one)
        return
    from gather.made_group import documents

    from reportgen.pipeline import analyse

    models = [analyse(SAMPLE).to_dict(), *documents().values()]
    rows = []
    for size in SIZES:
        rows.append(measured(*size, models))
        print(rows[-1], file=sys.stderr)
    text = table(rows)
    if given.write:
        given.write.write_text(text, encoding="utf-8")
    print(text)


if __name__ == "__main__":
    main()
