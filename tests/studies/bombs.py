"""Season folders far larger than any winter, each reviewed by the command in a process of its own with bounded memory:
what it ends in, how many seconds of computing and how much memory it takes.

Run from the project's folder: `python tests/studies/bombs.py [NAME …]`; results stand in tests/studies/BOMBS.md.
"""

from __future__ import annotations

import io
import multiprocessing
import os
import re
import resource
import subprocess
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

MEMORY = 3_000_000_000  # bytes a run may ask for; the machine is shared
HEAD = """format = 1
title = "A winter"
first_day = 2025-11-20
last_day = 2026-01-10
time_zone = "Europe/Prague"
currency = "EUR"
"""
LOGGER = """[[logger]]
name = "{name}"
where = "{where}"
files = ["{files}"]
time = "Time"
clock = "utc"
[logger.measures]
air_temperature = {{ column = "T" }}
"""
PAIR = LOGGER.format(name="bench", where="crop", files="a.csv") + LOGGER.format(
    name="yard", where="outdoor", files="b.csv"
)


def readings(days: int = 52, shift: float = 0.0) -> str:
    """Hourly readings that go up and down by day."""
    start = time.mktime((2025, 11, 20, 0, 0, 0, 0, 0, 0))
    rows = []
    for hour in range(24 * days):
        at = time.strftime("%Y-%m-%d %H:%M", time.localtime(start + 3600 * hour))
        rows.append(f"{at},{shift + (hour % 24) * 0.3 + (hour // 24 % 7) * 0.4 + hour % 5 * 0.1:.2f}")
    return "Time,T\n" + "\n".join(rows) + "\n"


def season(folder: Path, toml: str = "", **files: str | bytes) -> Path:
    """A season of two loggers with more in season.toml and more files (a dot in a name written as two underscores)."""
    (folder / "season.toml").write_text(HEAD + toml + PAIR, encoding="utf-8")
    (folder / "a.csv").write_text(readings(shift=3.0), encoding="utf-8")
    (folder / "b.csv").write_text(readings(), encoding="utf-8")
    for name, content in files.items():
        path = folder / name.replace("__", ".")
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


def workbook(sheet: bytes, shared: int = 0) -> bytes:
    """The least XLSX with that sheet, and a part of so many spaces."""
    rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    pack = "http://schemas.openxmlformats.org/package/2006/"
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr(
            "[Content_Types].xml",
            f'<Types xmlns="{pack}content-types"><Default Extension="xml" ContentType="application/xml"/></Types>',
        )
        packed.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{pack}relationships"><Relationship Id="r1" Type="{rel}/officeDocument" '
            'Target="xl/workbook.xml"/></Relationships>',
        )
        packed.writestr(
            "xl/workbook.xml",
            f'<workbook xmlns="{main}" xmlns:r="{rel}"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets>'
            "</workbook>",
        )
        packed.writestr(
            "xl/_rels/workbook.xml.rels",
            f'<Relationships xmlns="{pack}relationships"><Relationship Id="r1" Type="{rel}/worksheet" '
            'Target="worksheets/sheet1.xml"/></Relationships>',
        )
        packed.writestr("xl/worksheets/sheet1.xml", sheet)
        if shared:
            with packed.open("xl/sharedStrings.xml", "w", force_zip64=True) as part:
                for _ in range(shared // 10_000_000):
                    part.write(b" " * 10_000_000)
    return out.getvalue()


FAR = (
    b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">'
    b'<c r="A1" t="inlineStr"><is><t>Time</t></is></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    b"</sheetData></worksheet>"
)


def _sheet(folder: Path, sheet: bytes, shared: int = 0) -> Path:
    season(folder, a__xlsx=workbook(sheet, shared))
    toml = folder / "season.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace("a.csv", "a.xlsx"), encoding="utf-8")
    return folder


def _picture(width: int, height: int) -> bytes:
    from PIL import Image

    Image.MAX_IMAGE_PIXELS = None
    out = io.BytesIO()
    Image.new("RGB", (width, height), (20, 90, 40)).save(out, "PNG", compress_level=1)
    return out.getvalue()


def _pictures(folder: Path, count: int, width: int, height: int) -> Path:
    season(folder, story__md="\n\n".join(f"![a](p{n}.png)" for n in range(count)))
    raw = _picture(width, height)
    for n in range(count):
        (folder / f"p{n}.png").write_bytes(raw)
    return folder


def _many_files(folder: Path, count: int) -> Path:
    season(folder)
    for n in range(count):
        (folder / f"x{n:06d}.csv").write_text("Time,T\n", encoding="utf-8")
    toml = folder / "season.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace('"a.csv"', '"**/x*.csv"'), encoding="utf-8")
    return folder


def _loggers(folder: Path, count: int) -> Path:
    season(folder)
    more = "".join(LOGGER.format(name=f"shelf {n}", where="crop", files="a.csv") for n in range(count - 2))
    with (folder / "season.toml").open("a", encoding="utf-8") as toml:
        toml.write(more)
    return folder


def _diary(count: int) -> str:
    days = [f"2025-12-{n % 31 + 1:02d}" for n in range(count)]
    rows = [f"{d},change,Change {n},envelope,warmer nights" for n, d in enumerate(days)]
    return "date,kind,what,touches,hoped_for\n" + "\n".join(rows) + "\n"


def _crops(count: int) -> str:
    names = [f"{chr(97 + n % 26)}{chr(97 + n // 26 % 26)}{n * 7919 % 100_003}" for n in range(count)]
    rows = "\n".join(f"2025-12-{n % 31 + 1:02d},{name},0.{n % 9 + 1}" for n, name in enumerate(names))
    return f"date,crop,weight\n{rows}\n"


def _rows(count: int) -> bytes:
    at = (f"{2025 + n // 31_536_000}-11-20 {n // 3600 % 24:02d}:{n // 60 % 60:02d}:{n % 60:02d}" for n in range(count))
    return ("Time,T\n" + "\n".join(f"{one},{n % 97 / 10}" for n, one in enumerate(at)) + "\n").encode()


def _full(count: int) -> bytes:
    """A sheet of times as day numbers and seven columns of readings."""
    head = b'<c r="%c1" t="inlineStr"><is><t>%s</t></is></c>'
    rows = [b'<row r="1">' + head % (b"A", b"Time") + head % (b"B", b"T") + b"</row>"]
    for n in range(2, count):
        cells = b"".join(b'<c r="%c%d"><v>5</v></c>' % (letter, n) for letter in b"BCDEFGH")
        rows.append(b'<row r="%d"><c r="A%d"><v>%.6f</v></c>' % (n, n, 45981 + n / 24_000) + cells + b"</row>")
    return FAR[: FAR.index(b"<row")] + b"".join(rows) + b"</sheetData></worksheet>"


CASES: dict[str, Callable[[Path], Path]] = {
    "an ordinary season": season,
    "a workbook with one cell in XFD1048576": lambda f: _sheet(f, FAR),
    "2 GB of zipped spaces": lambda f: _sheet(f, FAR.replace(b"XFD1048576", b"B1048576"), 2_000_000_000),
    "a line of 200 MB": lambda f: season(f, a__csv=b"Time,T\n2025-11-20 00:00," + b"1" * 200_000_000),
    "a line of 140 MB": lambda f: season(f, a__csv=b"Time,T\n2025-11-20 00:00," + b"1" * 140_000_000),
    "a cell of 200 MB in the diary": lambda f: season(f, diary__csv=b"date,kind,what\n" + b"x" * 200_000_000),
    "100 MB of line ends": lambda f: season(f, a__csv=b"Time,T\n" + b"\n" * 100_000_000),
    "16 000 [ in story.md": lambda f: season(f, story__md="[" * 16_000),
    "1 000 [ in one paragraph": lambda f: season(f, story__md="[ " * 1_000 + "word " * 1_500),
    "300 lists within each other": lambda f: season(f, story__md="\n".join("  " * n + "- a" for n in range(300))),
    "4 MB of words": lambda f: season(f, story__md="word " * 800_000),
    "100 000 bytes of words": lambda f: season(f, story__md=("word " * 1_900 + "\n\n") * 10),
    "100 000 files by **": lambda f: _many_files(f, 100_000),
    "2 000 crops": lambda f: season(f, harvest__csv=_crops(2_000)),
    "100 crops": lambda f: season(f, harvest__csv=_crops(100)),
    "100 000 diary rows": lambda f: season(f, diary__csv=_diary(100_000)),
    "500 diary rows": lambda f: season(f, diary__csv=_diary(500)),
    "300 loggers": lambda f: _loggers(f, 300),
    "40 loggers": lambda f: _loggers(f, 40),
    "2 000 000 rows in a file": lambda f: season(f, a__csv=_rows(1_999_000)),
    "4 000 000 rows in two files": lambda f: season(f, a__csv=_rows(1_999_000), b__csv=_rows(1_999_000)),
    "a sheet of 7 200 000 cells": lambda f: _sheet(f, _full(900_000)),
    "a picture of 237 megapixels": lambda f: _pictures(f, 1, 15_400, 15_400),
    "a hundred pictures of 119 megapixels": lambda f: _pictures(f, 100, 10_900, 10_900),
    "eight pictures of 119 megapixels": lambda f: _pictures(f, 8, 10_900, 10_900),
}


def _bounded() -> None:
    """What is written to counts, not what is only set aside: the drawing engine sets aside tens of gigabytes."""
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))


def run(folder: Path, out: Path) -> tuple[str, float, float]:
    """How a review ends, its seconds of computing and its peak of memory [MB]."""
    words = [sys.executable, "-m", "reportgen", "review", str(folder), "--out", str(out)]
    with tempfile.TemporaryFile() as told:
        # Not by RUSAGE_CHILDREN, whose peak is that of all children so far.
        process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=told, preexec_fn=_bounded)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        told.seek(0)
        text = told.read().decode(errors="replace")
    slugs = ", ".join(sorted(set(re.findall(r"\[([a-z-]+)\]$", text, re.M))))
    end = {0: "a site", 1: slugs}.get(process.returncode, f"exit code {process.returncode}: {text[-200:]}")
    end = f"a traceback: {text[-200:]}" if "Traceback" in text else end
    return end, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main(names: list[str]) -> None:
    """One line of a table for each case."""
    for name, make in CASES.items():
        if names and name not in names:
            continue
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place) / "season"
            folder.mkdir()
            maker = multiprocessing.get_context("fork").Process(target=make, args=(folder,))
            maker.start()  # in a process of its own: a child's peak begins with what its parent holds
            maker.join()
            end, seconds, peak = run(folder, Path(place) / "site")
        print(f"| {name} | {end} | {seconds:.1f} | {peak:.0f} |", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
