"""The commands: `begin`, `inspect`, `review`, `gather`, `explain`. The only place that prints and ends with a code."""

from __future__ import annotations

import json
import os
import sys
import webbrowser
from collections.abc import Sequence
from pathlib import Path

import click

from reportgen import console
from reportgen.problems import Problem, SeasonError
from reportgen.progress import Progress

EXIT_PROBLEMS = 1  # the season has problems
STORY = "story.md"  # its faults are told beside those of a season.toml that cannot be read

FOLDER = click.Path(path_type=Path, file_okay=False)


@click.group(cls=console.Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="reportgen", message="reportgen %(version)s")
def main() -> None:
    """One winter of a small greenhouse, reviewed from its own data.

    A season folder holds one file, season.toml, that says what is where, beside the loggers' own exports and, as far
    as you keep them, a diary, a harvest book and heating readings. Nothing in it is ever changed by a review.

    \b
    In autumn:       reportgen begin my-winter --books   writes a workbook for what you note by hand
    First time:      reportgen begin my-winter           writes a first season.toml for a folder of exports
    Is it readable:  reportgen inspect my-winter         shows what was understood, and every problem at once
    The review:      reportgen review my-winter --open   writes my-winter-review beside it and shows it
    Many gardens:    reportgen gather shared --out group sets the reviews that members shared side by side
    """
    # Matrices here are small: more threads of linear algebra only wait for each other (twice the CPU time, measured).
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


@main.command()
@click.argument("folder", type=FOLDER, default=".")
@click.option(
    "--out",
    type=FOLDER,
    help="Folder for the site; made, or replaced if it is an older site. When left out, FOLDER-review beside FOLDER.",
)
@click.option("--against", type=FOLDER, help="Season folder to compare with (else last_season of season.toml).")
@click.option(
    "--share", is_flag=True, help="Leave out what [share] of season.toml does not allow; adds one ZIP to pass on."
)
@click.option("--open", "show", is_flag=True, help="Show the first page in your browser.")
def review(folder: Path, out: Path | None, against: Path | None, share: bool, show: bool) -> None:
    """Write the review of the season in FOLDER (when left out, the folder you are in) as a site that opens from disk.

    \b
    Exit codes: 0 written; 1 the season has problems (all are listed, nothing is written); 2 wrong call
    Example:    reportgen review sample_season --out site --open
    """
    from reportgen.site.publish import PublishError, check_target

    try:
        out = out or _beside(folder)
        check_target(out, folder)
        _refuse_unreadable(folder)
        from reportgen.pipeline import review as make_review
        from reportgen.site.share import target as zip_of

        with Progress() as progress:
            found = make_review(folder, out, against=against, share=share, tell=progress.tell)
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
    if show:
        _show(out / "index.html")


@main.command()
@click.argument("folder", type=FOLDER, default=".")
@click.option("--against", type=FOLDER, help="Season folder to compare with, as in `review`.")
@click.option("--share", is_flag=True, help="Also what would keep a review from being shared.")
@click.option("--json", "as_json", is_flag=True, help="For programs: the same as JSON.")
def inspect(folder: Path, against: Path | None, share: bool, as_json: bool) -> None:
    """Show what was understood of the season in FOLDER (when left out, the folder you are in), and every problem.

    What it calls ready, `review` makes: both run the same checks. Each [word] behind a problem is its kind, explained
    below the first of them; `reportgen explain WORD` says the same.

    \b
    Exit codes: 0 ready for a review; 1 problems; 2 wrong call
    Example:    reportgen inspect sample_season
    """
    try:
        if not as_json:
            _refuse_unreadable(folder)
    except SeasonError as error:
        from reportgen.inspection.fault_words import unread

        console.say(unread(str(folder), error.problems))
        sys.exit(EXIT_PROBLEMS)
    from reportgen.inspection import inspect as look
    from reportgen.inspection import text

    found = look(folder, against=against, share=share)
    console.say(json.dumps(found.to_dict(), indent=2) if as_json else text(found))
    sys.exit(EXIT_PROBLEMS if found.problems else 0)


@main.command()
@click.argument("folder", type=FOLDER, default=".")
@click.option("--yes", is_flag=True, help="Take every guess, ask nothing.")
@click.option("--force", is_flag=True, help="Replace what is there.")
@click.option("--books", is_flag=True, help="Write books.xlsx instead: an empty workbook for what you note by hand.")
def begin(folder: Path, yes: bool, force: bool, books: bool) -> None:
    """Look at the files in FOLDER (when left out, the folder you are in) and write a first season.toml for them.

    It asks what it cannot know when you sit at a terminal, and says what it was not sure of. With --books it writes
    only books.xlsx, and makes FOLDER if it is missing: one sheet for each of diary, harvest, plantings, watering,
    inspections and costs, with the words that a column takes to choose from and a remark on each column. Fill in
    those that you keep.

    \b
    Exit codes: 0 written; 1 nothing to go by; 2 wrong call (what would be written is there already)
    Example:    reportgen begin my-winter --books     in autumn, then
                reportgen begin my-winter             once there are files of a logger
    """
    from reportgen.begin.refuse import AlreadyBegun, refuse

    try:
        if books:
            _write_books(folder, force)
            return
        refuse(folder, force)
        from reportgen.begin import begin as start

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


@main.command()
@click.argument("places", metavar="PLACE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--out", type=FOLDER, required=True, help="Folder for the group's site; made, or an older one replaced.")
@click.option(
    "--group", "group_file", type=click.Path(path_type=Path), help="The group.toml, if not beside the reviews."
)
@click.option("--mark", metavar="LABEL", help="The house to mark in every picture: a copy for its grower.")
def gather(places: tuple[Path, ...], out: Path, group_file: Path | None, mark: str | None) -> None:
    """Set the reviews of many houses or winters side by side and write one site about them.

    PLACE is a ZIP of `review --share`, a built site, a review.json, or a folder of such. Only the figures, the diary's
    lines and the names of the houses are read, no notes, no story and no place; nothing in PLACE is changed. A file
    that is no sound review is left out with its reason. Two winters are the fewest, of one house or of two.

    Members name their house by `id` under [house] of season.toml (any word, the same every winter; it leaves the house
    only as a hash) and by `label` under [share]. A group.toml beside the reviews may say what counts as one thing:

    \b
      title = "The gardens under the old brickworks"
      show  = "metric"                       # or "us"
      story = "What we set out to learn."    # your words, at the foot of the first page
      [[thing]]
      name  = "bubble film"
      words = ["bubble film", "bubble wrap"] # any of these in a line of a diary

    \b
    Exit codes: 0 written; 1 problems (all are listed, nothing is written); 2 wrong call
    Example:    reportgen gather shared-reviews --out group
    """
    from reportgen.disk import is_there
    from reportgen.gather.shelf import spots
    from reportgen.gather.target import check_target
    from reportgen.site.publish import PublishError

    try:
        check_target(out, places)
        if not any(is_there(place.parent, place.name) for place in places):
            spots(places)  # tells of all that are not there, before what reads them is loaded
        from reportgen.gather.gathering import gather as read_all
        from reportgen.gather.told import alike_words, read_words

        with Progress() as progress:
            group = read_all(places, group_file, mark, tell=progress.tell)
            from reportgen.gather.site import write_group

            write_group(group, out, progress.tell)
    except SeasonError as error:
        _list_problems(error.problems)
        sys.exit(EXIT_PROBLEMS)
    except PublishError as error:
        raise click.UsageError(str(error)) from None
    console.say(read_words(group))
    if group.alike:
        console.say(alike_words(group))
    console.say(f"Site: {out / 'index.html'}")


@main.command()
@click.argument("word", metavar="[WORD]", required=False)
def explain(word: str | None) -> None:
    """Say what one kind of problem means and what to do about it. Without WORD: the names of all kinds.

    WORD is what stands in [ ] behind a problem that `inspect` or `review` told.

    \b
    Exit codes: 0 explained; 2 no such kind
    Example:    reportgen explain day-or-month
    """
    from reportgen.explained import explanations, nearest, sections

    if word is None:
        for title, kinds in sections().items():
            console.say(f"{title}\n{console.wrapped(', '.join(kinds))}\n")
        console.say("reportgen explain WORD says what one of them means.")
        return
    slug = word.strip("[]").lower()
    if slug not in explanations():
        near = nearest(slug)
        hint = f"did you mean {near}?" if near else "`reportgen explain` lists all"
        raise click.UsageError(f"no kind of problem is called {word!r}; {hint}")
    console.say(f"{slug}\n{console.wrapped(explanations()[slug])}")


def _beside(folder: Path) -> Path:
    """Where the site goes when nobody said: FOLDER-review beside the season."""
    from reportgen.site.publish import resolved

    named = folder if folder.name not in ("", "..") else resolved(folder)
    if not named.name:
        raise click.UsageError("this folder has no name of its own; say with --out where the site goes")
    return named.with_name(f"{named.name}-review")


def _refuse_unreadable(folder: Path) -> None:
    """A missing or broken season.toml is told at once, unless there is a story whose faults belong beside it."""
    from reportgen.disk import is_there
    from reportgen.season.opening import parsed, season_text

    if not is_there(folder, STORY):
        parsed(season_text(folder))


def _write_books(folder: Path, force: bool) -> None:
    from reportgen.begin.workbook import write_books

    written = write_books(folder, force)
    console.say(f"Wrote {folder / written.file}: {', '.join(written.books)}.")
    for book in written.kept:
        console.say(f"{book.file} is there already, so there is no sheet for {book.name}.")
    console.say("Fill in what you keep; a sheet that stays empty is taken for a book that is not kept.")


def _show(page: Path) -> None:
    """The page in the browser; where there is none, that is said."""
    if not webbrowser.open(page.resolve().as_uri()):
        console.say(f"No browser could be opened. Open it yourself: {page.resolve()}", err=True)


def _ask(question: str, guess: str) -> str:
    return str(click.prompt(console.harmless(question), default=guess))


def _list_problems(problems: Sequence[Problem]) -> None:
    for problem in problems:
        console.say(problem.text() + "\n", err=True)
    faults = sum(problem.level == "problem" for problem in problems)
    console.say(f"{faults} problem{'s' * (faults != 1)}; nothing was written.", err=True)
    if problems:
        console.say(f"What one of them means: reportgen explain {problems[0].slug}", err=True)


def _list_warnings(warnings: Sequence[Problem], *, share: bool) -> None:
    if warnings:
        plural, how = "s" * (len(warnings) != 1), "inspect --share" if share else "inspect"
        console.say(f"{len(warnings)} warning{plural}; `reportgen {how}` lists them.", err=True)
