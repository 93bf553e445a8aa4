"""Looks at a folder, asks what it cannot know, and writes its first season.toml."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from reportgen.begin.draft import outline
from reportgen.begin.files import Seen, look_through, not_looked_at, settled, winters_below
from reportgen.begin.heating import Heater, heaters
from reportgen.begin.identity import known_id, new_id
from reportgen.begin.loggers import drafts
from reportgen.begin.questions import Ask, Asker
from reportgen.begin.refuse import nothing, refuse
from reportgen.begin.settle import settle_loggers
from reportgen.begin.write import BOOKS, toml_text
from reportgen.begin.zones import computer_zone, zone_of
from reportgen.problems import Problem, SeasonError
from reportgen.readings.season_reader import read_what_can_be
from reportgen.season import load_season
from reportgen.season.explain import FILE

MOST_TOLD = 9  # kinds of problem that are told beside the guesses; the rest is for inspect


@dataclass(frozen=True, kw_only=True, slots=True)
class BeginResult:
    """`text`: the season.toml that was written. `unsure`: in words, what a person should look at."""

    text: str
    unsure: tuple[str, ...]


def begin(folder: str | Path, ask: Ask | None, force: bool, *, make_id: Callable[[], str] = new_id) -> BeginResult:
    """Writes a first season.toml for a folder of exports.

    Args:
        folder: The folder; exports may lie in folders inside it.
        ask: Called with a question and a guess, gives the answer; None takes every guess.
        force: Replace a season.toml that is there.
        make_id: Gives the id of a house that has none yet in this folder, nor in a winter below it.

    Raises:
        AlreadyBegun: A season.toml is there and `force` is not set.
        SeasonError: There is no such folder, or no file in it that a logger wrote.
    """
    folder = Path(folder)
    refuse(folder, force)
    asker = Asker(ask=ask)
    zone = _zone(asker)
    seen = settled(folder, look_through(folder, ZoneInfo(zone)), ZoneInfo(zone))
    found = drafts(folder, seen)
    if not any(draft.days_of(measure) for draft in found for measure in draft.measures):
        expected = "a CSV, XLSX or ODS file with times and readings"
        raise SeasonError([nothing("no-logger-file", _what_was_there(seen), expected)])
    settle_loggers(folder, found, asker, zone)
    warm = heaters(seen, found, asker)
    whole = outline(found, warm, seen, zone, asker)
    _dials(warm, whole.show == "us", asker)
    _odd_books(seen, not_looked_at(folder), asker)
    winters = winters_below(folder)
    whole.house_id = known_id([folder, *(folder / name for name in winters)]) or make_id()
    text = toml_text(whole, found, warm, seen, asker.unsure, winters)
    (folder / FILE).write_text(text, encoding="utf-8")
    if doubts := _what_inspect_says(folder):
        for doubt in doubts:
            asker.doubt(doubt)
        text = toml_text(whole, found, warm, seen, asker.unsure, winters)
        (folder / FILE).write_text(text, encoding="utf-8")
    return BeginResult(text=text, unsure=tuple(asker.unsure))


def _zone(asker: Asker) -> str:
    guess = computer_zone()
    doubt = f"the time zone: {guess} was taken, as this computer is set; summer time hangs on it"
    return asker.get("Time zone of the house, such as Europe/Prague", guess, zone_of, doubt) or guess


def _dials(warm: Sequence[Heater], us: bool, asker: Asker) -> None:
    """Asks what each heater's thermostat was set to; where nobody answers it stays a comment."""
    unit, low, high = ("°F", 14.0, 104.0) if us else ("°C", -10.0, 40.0)

    def read(text: str) -> float | None:
        try:
            value = float(text.replace(",", ".").replace("\u2212", "-"))
        except ValueError:
            return None
        return value if low <= value <= high else None

    for heater in warm:
        if not heater.kind:
            question = f"What was the thermostat of {heater.name} set to, in {unit} (empty if it has none)"
            heater.dial = asker.get(question, "", read)


def _odd_books(seen: list[Seen], others: list[str], asker: Asker) -> None:
    """Tells of files that look kept by hand and are no book as they stand, and of a second book of one kind."""
    for one in seen:
        notes = one.sniffed is None and one.file.lower().endswith(".txt") and one.why.startswith("no table")
        if not one.role and not notes:
            asker.doubt(f"{one.label} is not used: {one.why}")
    if others:
        shortly = ", ".join(others[:4]) + (f" and {len(others) - 4} more" if len(others) > 4 else "")
        asker.doubt(
            f"not looked at: {shortly}; a logger's export is read as CSV, text, XLSX or ODS, unpacked, and named so"
        )
    for name in BOOKS:
        files = [one.file for one in seen if one.role == name]
        if len(files) > 1:
            asker.doubt(f"several files could be the {name} book: {', '.join(files)}; {files[0]} was taken")


def _what_inspect_says(folder: Path) -> list[str]:
    """Problems that are left in the folder as it now is."""
    try:
        _, problems = read_what_can_be(load_season(folder))
    except SeasonError as error:
        problems = error.problems
    alike: dict[tuple[str, str, str | None], list[Problem]] = {}
    for problem in problems:
        alike.setdefault((problem.slug, problem.file, problem.column), []).append(problem)
    told = [_together(group) for group in alike.values()]
    more = [f"and {len(told) - MOST_TOLD} more that `reportgen inspect` lists"] if len(told) > MOST_TOLD else []
    return told[:MOST_TOLD] + more


def _together(group: list[Problem]) -> str:
    """The first of several alike, and how many there are."""
    first, rest = group[0], len(group) - 1
    more = f" (and {rest} more like it)" if rest else ""
    return f"{first.address}: {first.found}{more}; {first.todo}"


def _what_was_there(seen: list[Seen]) -> str:
    if not seen:
        return "no CSV, text, XLSX or ODS file in the folder"
    return "; ".join(f"{one.label}: {one.why or one.role}" for one in seen[:8])
