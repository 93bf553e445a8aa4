"""Chains of diary lines that are one lever, and every `undoes` that does not lead to one line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from reportgen.problems import Problem
from reportgen.readings.diary_lines import alike, listed, meant, moment, normal
from reportgen.readings.types import DiaryEntry

ACTING = ("change", "spell", "upkeep")  # kinds that set something; an event befalls, an idea is not done yet


@dataclass(kw_only=True, slots=True)
class Chain:
    """Lines that are one lever, in order of time. `puts`: line → whether it puts the lever on; `undone`: line → the
    line it takes back; `on`: how the latest lasting line left it (a spell alone counts as on: it comes again)."""

    entries: list[DiaryEntry]
    puts: dict[int, bool]
    undone: dict[int, int] = field(default_factory=dict)
    on: bool = True

    @property
    def lines(self) -> set[int]:
        """Their lines in the file."""
        return set(self.puts)


def chains(diary: Iterable[DiaryEntry], file: str) -> tuple[list[Chain], list[Problem]]:
    """Every lever of the diary in order of its first line, and every `undoes` that is not clear.

    A line whose `undoes` is not clear begins a chain of its own: so that the other faults are seen too.
    """
    entries = sorted(diary, key=moment)
    found: list[Chain] = []
    problems: list[Problem] = []
    for number, entry in enumerate(entries):
        told = _add(entry, entries[:number], entries[number + 1 :], found) if entry.undoes else None
        if told is not None:
            problems.append(_unclear(entry, file, *told))
        if not any(entry.line in chain.puts for chain in found):
            _begin(entry, found)
    acting = [chain for chain in found if len(chain.entries) > 1 or chain.entries[0].kind != "upkeep"]
    return acting, problems


def spells_by_name(spells: Iterable[DiaryEntry]) -> list[list[DiaryEntry]]:
    """Rows of spells that are one thing switched on and off: those with one `what`, in order of their first."""
    named: dict[str, list[DiaryEntry]] = {}
    for entry in sorted(spells, key=lambda e: (e.date, e.line)):
        named.setdefault(normal(entry.what), []).append(entry)
    return list(named.values())


def _begin(entry: DiaryEntry, found: list[Chain]) -> None:
    """A line that takes nothing back: a row more of a known spell, or a lever of its own."""
    if entry.kind not in ACTING:
        return
    known = _same_spell(entry, found)
    if known is None:
        found.append(Chain(entries=[entry], puts={entry.line: True}))
        return
    chain, row = known
    chain.puts[entry.line] = chain.puts[row.line]
    if row.line in chain.undone:
        chain.undone[entry.line] = chain.undone[row.line]
    chain.entries.append(entry)


def _same_spell(entry: DiaryEntry, found: Sequence[Chain]) -> tuple[Chain, DiaryEntry] | None:
    if entry.kind != "spell":
        return None
    rows = [
        (chain, row)
        for chain in found
        for row in chain.entries
        if row.kind == "spell" and normal(row.what) == normal(entry.what)
    ]
    return rows[0] if rows else None


Told = tuple[str, str, str]  # found, expected, to do
_EXPECTED = "the date, or the words under “what”, of one earlier change, spell or upkeep"


def _add(
    entry: DiaryEntry, before: Sequence[DiaryEntry], after: Sequence[DiaryEntry], found: Sequence[Chain]
) -> Told | None:
    """Joins a line to the lever it takes back; words for a problem where that is not one lever."""
    if entry.kind not in ACTING:
        todo = "make it a change if it was done, or leave “undoes” empty"
        return f"“undoes” in a line of the kind {entry.kind}", "“undoes” in a change, a spell or upkeep", todo
    named = [e for e in meant(entry.undoes, before) if e.kind in ACTING]
    if not named:
        return _no_line(entry, before, after)
    holding = [(chain, e) for e in named for chain in found if e.line in chain.puts and _holds(chain, e)]
    if not holding:
        latest = listed(next(chain for chain in found if named[-1].line in chain.puts).entries[-1:])
        return (
            f"{listed(named)}, already taken back",
            _EXPECTED,
            f"name the line that held then, or correct it: {latest}",
        )
    if len({id(chain) for chain, _ in holding}) > 1:
        todo = "write the words of the one that this line takes back; or its date, if that has only one line"
        return f"{entry.undoes!r}, which is more than one: {listed(e for _, e in holding)}", _EXPECTED, todo
    chain, target = holding[-1]
    known = _same_spell(entry, found)
    if known is not None and known[0] is not chain:
        todo = "write the same under “undoes” in all rows of this spell, or in none"
        return f"a spell that takes back {listed([target])} here and nothing in line {known[1].line}", _EXPECTED, todo
    held = [e for e in chain.entries if e.kind != "spell" and chain.puts[e.line] == chain.on]
    _join(entry, chain, held[-1] if held else target)
    return None


def _holds(chain: Chain, entry: DiaryEntry) -> bool:
    """What the line did is still so: nothing after it took it back for good."""
    return chain.puts[entry.line] == chain.on if entry.kind != "spell" else chain.on


def _join(entry: DiaryEntry, chain: Chain, target: DiaryEntry) -> None:
    chain.entries.append(entry)
    chain.puts[entry.line] = not chain.on
    chain.undone[entry.line] = target.line
    if entry.kind != "spell":
        chain.on = not chain.on


def _no_line(entry: DiaryEntry, before: Sequence[DiaryEntry], after: Sequence[DiaryEntry]) -> Told:
    later = meant(entry.undoes, after)
    if later:
        todo = "write “undoes” in the later of the two lines"
        return f"{entry.undoes!r}, which comes after this line: {listed(later)}", _EXPECTED, todo
    other = meant(entry.undoes, before)
    if other:
        return f"{listed(other)}, of the kind {other[0].kind}", _EXPECTED, "name the change itself, or leave it empty"
    near = alike(entry.undoes, [e for e in before if e.kind in ACTING])
    todo = (
        f"did you mean {near!r}?" if near else "write the date of the line that this one takes back, or leave it empty"
    )
    return f"{entry.undoes!r}, which no earlier line has", _EXPECTED, todo


def _unclear(entry: DiaryEntry, file: str, found: str, expected: str, todo: str) -> Problem:
    return Problem(
        slug="undoes-unclear", file=file, line=entry.line, column="undoes", found=found, expected=expected, todo=todo
    )
