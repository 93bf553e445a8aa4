"""The handout in plain words, for those who cannot see its picture."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.charts.handout_parts import Changes, Handout


def text(sheet: Handout) -> str:
    """All that the sheet says, a line each."""
    return "\n".join([*_lines(sheet), ""])


def _lines(sheet: Handout) -> Iterator[str]:
    yield from (sheet.title, "", *sheet.clauses)
    yield from (f"{one.words} {one.caution}" for one in sheet.safety)
    for one in sheet.answers:
        yield from ("", one.ask, f"{one.answer}. {one.why}", *([one.sure] if one.sure else []))
    if sheet.season is not None:
        yield from ("", f"{sheet.season.title}.", sheet.season.description)
    if sheet.changes is not None:
        yield from ("", *_changes(sheet.changes))
    if sheet.kilogram is not None:
        yield from ("", *(words for words in (sheet.kilogram.description, sheet.kilogram.note) if words))
    if sheet.plan:
        yield from ("", f"{sheet.plan_title}:")
        yield from (f"{line.row}: {'. '.join(line.steps)}. {line.caution}".rstrip() for line in sheet.plan)
    if sheet.how:
        yield from ("", "How we know:", *sheet.how)
    if sheet.care:
        yield from ("", "Take care:", *sheet.care)
    yield from ("", sheet.closing)


def _changes(changes: Changes) -> Iterator[str]:
    yield f"{changes.title}."
    yield from (f"{row.words}, {row.when}: {row.said or row.brief} – {row.verdict}." for row in changes.rows)
    yield from (words for words in (changes.sub, changes.refused) if words)
