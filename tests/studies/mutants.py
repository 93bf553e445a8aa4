"""How much of a package its own folder of tests holds: small changes to its code, one at a time, and which of them the
tests notice.

    python -m studies.mutants measures ROWS.csv --mutants 60 --modules dial,light    (in tests)
    python -m studies.mutants --write studies/MUTANTS.md ROWS.csv [MORE.csv …]

    python -m studies.mutants measures ROWS.csv --named --watched RAN.json --seconds 60

A mutant is one change of one place: a comparison, a sum, a bound, a constant, a sign, *and* for *or*, a result that is
None. Places are drawn with a seed over all modules named (those of packages inside the package are `house/balance`).
Each mutant is run in a copy of the project: first the test files that name its module, then, if none of them fails, the
rest of the package's own folder. One that no test notices survives; whether it can be noticed at all must be judged by
reading it. With `--watched` it meets first not the files that name its module but the tests that run its line, quickest
first, of so many seconds in all; the file says which they are, and is made where it is not there.
"""

from __future__ import annotations

import csv
import json
import os
import random
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterable, Sequence
from dataclasses import astuple, dataclass, fields
from importlib import import_module
from pathlib import Path
from typing import NoReturn

import click
import pytest
from studies.mutations import Place, mutated, places
from studies.watched import Ran, reaching, watch

ROOT = Path(__file__).parents[2]
COPIED = ("reportgen", "tests", "templates", "sample_season", "pyproject.toml", "README.md", "DEVELOPERS.md")
LOADED = ("pandas", "scipy.stats", "altair", "vl_convert", "pydantic", "pint", "jinja2", "psychrolib", "hypothesis")
LOADED += ("scipy.optimize", "scipy.signal")
BELOW = ("reportgen.season", "reportgen.readings", "reportgen.wording")  # floors that load no package above them
TABLES = ("measured", "dial_measured")  # what a study found: no formula, and a test of the study holds them
PLAIN = ("-q", "-n", "0", "-p", "no:randomly", "-p", "no:cacheprovider", "-W", "ignore:Module already imported")
QUICKEST = 6  # tests that run a line and are tried before the others of them
SLOW_S = 240.0  # a mutant whose tests take longer runs for ever: killed


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One mutant and what became of it: killed, survived or endless."""

    package: str
    module: str
    line: int
    kind: str
    before: str
    after: str
    result: str
    by: str
    seconds: float


def project(folder: Path) -> Path:
    """A copy of the project in which modules may be changed."""
    copy = folder / "project"
    copy.mkdir()
    for name in COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__", ".*"))
        elif source.exists():
            shutil.copy(source, copy / name)
    return copy


def files_for(copy: Path, package: str, module: str) -> tuple[list[Path], list[Path]]:
    """Test files of the package's own folder that name the module (those called after it first), and the others."""
    files = sorted((copy / "tests" / package).rglob("test_*.py"))
    *inner, module = module.split("/")
    dotted = ".".join(["reportgen", *package.split("/"), *inner])
    named = (f"{dotted}.{module} ", f"{dotted}.{module}\n", f"from {dotted} import")
    texts = {file: file.read_text("utf-8") for file in files}
    whole = [f for f in files if any(n in texts[f] for n in named[:2]) or _imported(texts[f], named[2], module)]
    first = sorted(whole, key=lambda file: (module not in file.stem, file.name))
    return first, [file for file in files if file not in whole]


def _imported(text: str, words: str, module: str) -> bool:
    lines = (line for line in text.splitlines() if line.startswith(words))
    return any(module in line.partition("import")[2].replace(",", " ").split() for line in lines)


def run(copy: Path, files: Sequence[Path | str]) -> tuple[str, str]:
    """killed | survived | endless, and the test that noticed. Each run is a fork of this process, which has loaded the
    large libraries and, of the project, what does not rest on the package: loading them again would take longer than
    most tests."""
    if not files:
        return "survived", ""
    with tempfile.NamedTemporaryFile("w+", suffix=".txt") as out:
        child = os.fork()
        if not child:
            _forked(copy, lambda: int(pytest.main(["-x", *PLAIN, *map(str, files)])), out.fileno())
        code = _waited(child)
        if code is None:
            return "endless", ""
        if code == 0:
            return "survived", ""
        out.seek(0)  # the fork wrote at the same place
        lines = [line for line in out.read().splitlines() if line.startswith(("FAILED ", "ERROR"))]
        whole = list(dict.fromkeys(str(file).partition("::")[0] for file in files))
        if whole != list(files) and lines and all(line.startswith("ERROR: not found") for line in lines):
            return run(copy, whole)  # the mutant gave a test another name
        if not lines:
            out.seek(0)
            raise click.ClickException(f"the tests did not run: {out.read()[-2000:]}")
    return "killed", lines[0].split(" ")[1].rpartition("/")[2]


def made_ready(copy: Path, package: str) -> None:
    """What is the same for every mutant is done once: the tests compiled, and the floors below the package loaded."""
    sys.path[:0] = [str(copy), str(copy / "tests")]
    with tempfile.TemporaryFile() as out:
        child = os.fork()
        if not child:
            tests = str(copy / "tests" / package)
            _forked(copy, lambda: int(pytest.main(["--collect-only", *PLAIN, tests])), out.fileno())
        os.waitpid(child, 0)
    sys.dont_write_bytecode = True  # of a mutant nothing may stay behind
    for name in (*LOADED, *BELOW):
        import_module(name)
    above = [name for name in sys.modules if name.startswith(f"reportgen.{package.replace('/', '.')}")]
    for name in [name for name in sys.modules if name.partition(".")[0] == "reportgen"] if above else []:
        del sys.modules[name]


def ran_by(copy: Path, package: str, file: Path) -> Ran:
    """What each test of the folder runs, as the file has it; where it is not there, the tests are run for it."""
    file = file.absolute()  # the fork works elsewhere
    if not file.exists():
        with tempfile.TemporaryFile() as out:
            child = os.fork()
            if not child:
                _forked(copy, lambda: watch(copy, package, file, PLAIN), out.fileno())
            _, status = os.waitpid(child, 0)
        if os.waitstatus_to_exitcode(status) != 0 or not file.exists():
            raise click.ClickException("the tests fail without any change")
    ran: Ran = json.loads(file.read_text("utf-8"))
    return ran


def _forked(copy: Path, tests: Callable[[], int], out: int) -> NoReturn:
    """In the fork: the tests of the copy, their words into a file; never returns."""
    code = 99
    try:
        for name in [name for name in sys.modules if name.partition(".")[0] == "studies"]:
            del sys.modules[name]
        for stream in (1, 2):
            os.dup2(out, stream)
        os.chdir(copy)
        code = tests()
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def _waited(child: int) -> int | None:
    """The fork's exit code; None where it ran too long and was ended."""
    begun = time.monotonic()
    while time.monotonic() - begun < SLOW_S:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.1)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def judged(
    copy: Path,
    package: str,
    module: str,
    place: Place,
    whole: bool,
    named: Sequence[str] = (),
    reached: Sequence[str] | None = None,
) -> Row:
    """The mutant's row; the module is put back afterwards. `named`: test files to take in place of its own; `reached`:
    tests to take first in place of files."""
    file = copy / "reportgen" / package / f"{module}.py"
    plain, was, begun = file.read_text("utf-8"), file.stat(), time.monotonic()
    first, rest = files_for(copy, package, module)
    if named:
        every = {file.stem: file for file in (*first, *rest)}
        first, rest = [every[name] for name in named], [file for name, file in every.items() if name not in named]
    try:
        file.write_text(mutated(plain, place), "utf-8")
        result, by = run(copy, first if reached is None else reached[:QUICKEST])
        if result == "survived" and reached is not None:
            result, by = run(copy, reached[QUICKEST:])
        if result == "survived" and whole:
            result, by = run(copy, rest if reached is None else [*first, *rest])
    finally:
        file.write_text(plain, "utf-8")
        os.utime(file, ns=(was.st_atime_ns, was.st_mtime_ns))  # as it was compiled
    return Row(
        package=package,
        module=module,
        line=place.line,
        kind=place.kind,
        before=place.before,
        after=place.after,
        result=result,
        by=by,
        seconds=round(time.monotonic() - begun, 1),
    )


def drawn(package: str, modules: Sequence[str], number: int, seed: int) -> list[tuple[str, Place]]:
    """So many places of those modules, drawn without replacement, in the order of the modules."""
    folder = ROOT / "reportgen" / package
    every = [(module, place) for module in modules for place in places((folder / f"{module}.py").read_text("utf-8"))]
    chosen = random.Random(seed).sample(range(len(every)), min(number, len(every)))
    return [every[n] for n in sorted(chosen)]


def modules_of(package: str) -> list[str]:
    """Modules of a package and of those inside it, without their `__init__` and without tables."""
    folder = ROOT / "reportgen" / package
    files = (file.relative_to(folder).with_suffix("") for file in folder.rglob("*.py"))
    return sorted(file.as_posix() for file in files if file.name not in ("__init__", *TABLES))


def read(files: Iterable[Path]) -> list[Row]:
    """Rows of one or more results."""
    rows = []
    for file in files:
        with file.open(encoding="utf-8", newline="") as lines:
            for cells in csv.DictReader(lines):
                known = {**cells, "line": int(cells["line"]), "seconds": float(cells["seconds"])}
                rows.append(Row(**known))  # type: ignore[arg-type]
    return rows


def summary(rows: Sequence[Row]) -> str:
    """Killed of each module, and every survivor with its line and change."""
    out = ["| package | module | mutants | killed | of 100 |", "|---|---|---|---|---|"]
    for package, module in dict.fromkeys((row.package, row.module) for row in rows):
        own = [row for row in rows if (row.package, row.module) == (package, module)]
        out.append(_line(package, module, own))
    for package in dict.fromkeys(row.package for row in rows):
        out.append(_line(package, "all", [row for row in rows if row.package == package]))
    out += ["", "Survivors:", ""]
    out += [
        f"- `{row.package}/{row.module}.py` {row.line}: {row.kind}, `{row.before}` → `{row.after}`"
        for row in rows
        if row.result == "survived"
    ]
    return "\n".join(out) + "\n"


def _line(package: str, module: str, rows: Sequence[Row]) -> str:
    killed = sum(row.result != "survived" for row in rows)
    return f"| {package} | {module} | {len(rows)} | {killed} | {100 * killed / len(rows):.0f} |"


@click.command(help=__doc__)
@click.argument("names", nargs=-1, required=True)
@click.option("--mutants", default=60, help="How many places are drawn.")
@click.option("--seed", default=1)
@click.option("--modules", default="", help="Modules with commas between; all of the package without it.")
@click.option("--tests", default="", help="Test files with commas between, in place of those that name the module.")
@click.option("--whole/--named", default=True, help="Whether survivors meet the rest of the folder too.")
@click.option("--watched", type=click.Path(path_type=Path), help="What each test runs; made if not there.")
@click.option("--seconds", default=60.0, help="With --watched: how long the tests that run a line may take.")
@click.option("--write", type=click.Path(path_type=Path), help="Summary of results instead of a run.")
def main(
    names: tuple[str, ...],
    mutants: int,
    seed: int,
    modules: str,
    tests: str,
    whole: bool,
    watched: Path | None,
    seconds: float,
    write: Path | None,
) -> None:
    if write is not None:
        write.write_text(summary(read(Path(name) for name in names)), "utf-8")
        return
    package, out = names[0], Path(names[1])
    chosen = drawn(package, modules.split(",") if modules else modules_of(package), mutants, seed)
    with tempfile.TemporaryDirectory() as folder, out.open("w", encoding="utf-8", newline="") as lines:
        copy = project(Path(folder))
        made_ready(copy, package)
        ran = None if watched is None else ran_by(copy, package, watched)
        writer = csv.writer(lines)
        writer.writerow([field.name for field in fields(Row)])
        for module, place in chosen:
            source = (copy / "reportgen" / package / f"{module}.py").read_text("utf-8")
            reached = None if ran is None else reaching(ran, source, module, place.line, seconds)
            row = judged(copy, package, module, place, whole, tests.split(",") if tests else (), reached)
            writer.writerow(astuple(row))
            lines.flush()
            click.echo(f"{row.result:9} {row.module}:{row.line} {row.before} → {row.after} ({row.seconds} s) {row.by}")


if __name__ == "__main__":
    main()
