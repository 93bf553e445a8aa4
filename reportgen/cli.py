"""The commands: `review`, `inspect`, `begin`. The only place that prints and that ends with a code."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from reportgen import console
from reportgen.problems import Problem, SeasonError

EXIT_PROBLEMS = 1  # the season has problems

FOLDER = click.Path(path_type=Path, file_okay=False)


@click.group(cls=console.Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="reportgen", message="reportgen %(version)s")
def main() -> None:
    """One winter of a small greenhouse, reviewed from its own data.

    A season folder holds one file, season.toml, that says what is where, beside the loggers' own exports and, as far
    as you keep them, a diary, a harvest book and heating readings. Nothing in it is ever changed by a review.

    \b
    First time:      reportgen begin my-winter      writes a first season.toml for a folder of exports
    Is it readable:  reportgen inspect my-winter    shows what was understood, and every problem at once
    The review:      reportgen review my-winter --out site
    """


@main.command()
@click.argument("folder", type=FOLDER)
@click.option(
    "--out", required=True, type=FOLDER, help="Folder for the site; made, or replaced if it is an older site."
)
@click.option("--against", type=FOLDER, help="Season folder to compare with (else last_season of season.toml).")
@click.option(
    "--share", is_flag=True, help="Leave out what [share] of season.toml does not allow; adds one ZIP to pass on."
)
def review(folder: Path, out: Path, against: Path | None, share: bool) -> None:
    """Write the review of the season in FOLDER as a site that opens from disk.

    \b
    Exit codes: 0 written; 1 the season has problems (all are listed, nothing is written); 2 wrong call
    Example:    reportgen review sample_season --out site
    """
    from reportgen.pipeline import review as make_review
    from reportgen.site import PublishError
    from reportgen.site.share import target as zip_of

    try:
        with _progress() as tell:
            found = make_review(folder, out, against=against, share=share, tell=tell)
    except SeasonError as error:
        _list_problems(error.problems)
        sys.exit(EXIT_PROBLEMS)
    except PublishError as error:
        raise click.UsageError(str(error)) from None
    _list_warnings(found.readings.warnings, share=share)
    console.say(f"Site: {out / 'index.html'}")
    if share:
        console.say(f"To pass on: {zip_of(out)}")
    for number, finding in enumerate(found.findings[:3], start=1):
        console.say(f"{number}. {finding.claim}\n   {finding.next_step}")


@main.command()
@click.argument("folder", type=FOLDER)
@click.option("--against", type=FOLDER, help="Season folder to compare with, as in `review`.")
@click.option("--share", is_flag=True, help="Also what would keep a review from being shared.")
@click.option("--json", "as_json", is_flag=True, help="For programs: the same as JSON.")
def inspect(folder: Path, against: Path | None, share: bool, as_json: bool) -> None:
    """Show what was understood of the season in FOLDER, and every problem at once.

    What it calls ready, `review` makes: both run the same checks.

    \b
    Exit codes: 0 ready for a review; 1 problems; 2 wrong call
    """
    from reportgen.inspection import inspect as look
    from reportgen.inspection import text

    found = look(folder, against=against, share=share)
    console.say(json.dumps(found.to_dict(), indent=2) if as_json else text(found))
    sys.exit(EXIT_PROBLEMS if found.problems else 0)


@main.command()
@click.argument("folder", type=FOLDER)
@click.option("--yes", is_flag=True, help="Take every guess, ask nothing.")
@click.option("--force", is_flag=True, help="Replace a season.toml that is there.")
def begin(folder: Path, yes: bool, force: bool) -> None:
    """Look at the files in FOLDER and write a first season.toml for them.

    It asks what it cannot know when you sit at a terminal, and says what it was not sure of.

    \b
    Exit codes: 0 written; 1 nothing to go by; 2 wrong call (season.toml is there already)
    """
    from reportgen.begin import AlreadyBegun
    from reportgen.begin import begin as start

    try:
        result = start(folder, ask=None if yes or not sys.stdin.isatty() else _ask, force=force)
    except SeasonError as error:
        _list_problems(error.problems)
        sys.exit(EXIT_PROBLEMS)
    except AlreadyBegun as error:
        raise click.UsageError(str(error)) from None
    console.say(f"Wrote {folder / 'season.toml'}.")
    for doubt in result.unsure:
        console.say(f"Not sure: {doubt}")
    console.say(f"Next: reportgen inspect {folder}")


def _ask(question: str, guess: str) -> str:
    return str(click.prompt(question, default=guess))


class _progress:  # noqa: N801 - reads as a word where it is used
    """One line on stderr that says what is being done; silent when stderr is no terminal."""

    def __enter__(self) -> Callable[[str], None]:
        return self._tell

    def __exit__(self, *_: object) -> None:
        if sys.stderr.isatty():
            console.say("\r\x1b[K", err=True, nl=False)

    def _tell(self, words: str) -> None:
        if sys.stderr.isatty():
            console.say(f"\r\x1b[K… {words}", err=True, nl=False)


def _list_problems(problems: Sequence[Problem]) -> None:
    for problem in problems:
        console.say(problem.text() + "\n", err=True)
    faults = sum(problem.level == "problem" for problem in problems)
    console.say(f"{faults} problem{'s' * (faults != 1)}; nothing was written.", err=True)


def _list_warnings(warnings: Sequence[Problem], *, share: bool) -> None:
    if warnings:
        plural, how = "s" * (len(warnings) != 1), "inspect --share" if share else "inspect"
        console.say(f"{len(warnings)} warning{plural}; `reportgen {how}` lists them.", err=True)
