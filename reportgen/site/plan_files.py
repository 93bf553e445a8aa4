"""The plan as files: a table, a calendar (RFC 5545) and a sheet of ticks, each with its cautions."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import pandas as pd

from reportgen.counsel.cautions import LOCAL
from reportgen.counsel.grounds import BY_TICKS, PlanStep
from reportgen.counsel.touched import joined
from reportgen.review import Review
from reportgen.site.tables import csv_text
from reportgen.site.tick_sheet import SHEET, tick_sheet

PLAN, ROWS, TICKS = "data/plan.ics", "data/plan.csv", "data/ticks.csv"
FOLD_OCTETS = 75  # RFC 5545, 3.1: a line is no longer, its break not counted
LONG_DAYS = 35  # a row that lasts longer is told on its first day and its last, so that it does not fill a calendar


@dataclass(frozen=True, kw_only=True, slots=True)
class _Entry:
    """One entry of the calendar; both days included."""

    first: date
    last: date
    summary: str
    words: str


def plan_files(review: Review) -> dict[str, str]:
    """data/plan.ics and plan.csv, and data/ticks.csv with its sheet to print where something is tried; nothing without
    a plan."""
    plan = review.counsel.plan
    if not plan:
        return {}
    out = {PLAN: calendar(plan, review.season.title, review.season.last_day), ROWS: rows(plan, review.season.currency)}
    if any(step.nights for step in plan):
        out |= {TICKS: ticks(plan), SHEET: tick_sheet(plan, review.season.title)}
    return out


def calendar(plan: Sequence[PlanStep], title: str, last_day: date) -> str:
    """An iCalendar of all-day entries without an alarm; the same plan gives the same text."""
    stamp = f"{last_day:%Y%m%d}T000000Z"
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//reportgen//plan//EN", f"NAME:{_text(f'Plan after: {title}')}"]
    for number, step in enumerate(plan):
        for entry in _entries(step):
            lines += _event(entry, stamp, f"{title}|{number}|{step.row}")
    return "".join(f"{folded}\r\n" for line in [*lines, "END:VCALENDAR"] for folded in _folded(line))


def rows(plan: Sequence[PlanStep], currency: str | None) -> str:
    """A line a step: row, from, to, what, why, lever, what it costs, caution."""
    table = pd.DataFrame(
        {
            "row": [step.row for step in plan],
            "from": [step.from_.isoformat() for step in plan],
            "to": [step.to.isoformat() for step in plan],
            "what": [step.what for step in plan],
            "why": [step.why for step in plan],
            "lever": [step.lever or "" for step in plan],
            f"{currency or 'money'} it costs": [float("nan") if s.cost is None else s.cost for s in plan],
            "nights of the trial": [len(step.nights) for step in plan],
            "take care": [step.caution or "" for step in plan],
        }
    )
    return csv_text(table)


def _entries(step: PlanStep) -> Iterator[_Entry]:
    """A trial by its blocks, a long row by its two ends, all else as it stands."""
    words = " ".join(part for part in (f"{step.why}.", f"Take care: {step.caution}" if step.caution else "") if part)
    head = f"{step.row}: {step.what}"
    if step.nights:
        yield from _blocks(step, words)
    elif (step.to - step.from_).days > LONG_DAYS:
        yield _Entry(first=step.from_, last=step.from_, summary=head, words=f"Until {step.to.isoformat()}. {words}")
        yield _Entry(first=step.to, last=step.to, summary=f"{head} (ends)", words=words)
    else:
        yield _Entry(first=step.from_, last=step.to, summary=head, words=words)


def _blocks(step: PlanStep, words: str) -> Iterator[_Entry]:
    starts = [n for n, (_, on) in enumerate(step.nights) if n == 0 or on != step.nights[n - 1][1]]
    for a, b in pairwise([*starts, len(step.nights)]):
        night, on = step.nights[a]
        state = "on" if on else "off"
        yield _Entry(
            first=night,
            last=step.nights[b - 1][0],
            summary=f"{step.row}: {step.what} ({state})",
            words=f"Switch {state} at noon of the first day. {words}",
        )


def _event(entry: _Entry, stamp: str, key: str) -> list[str]:
    uid = hashlib.sha256(f"{key}|{entry.first}|{entry.summary}".encode()).hexdigest()[:32]
    return [
        "BEGIN:VEVENT",
        f"UID:{uid}@reportgen.invalid",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{entry.first:%Y%m%d}",
        f"DTEND;VALUE=DATE:{entry.last + timedelta(days=1):%Y%m%d}",
        f"SUMMARY:{_text(entry.summary)}",
        f"DESCRIPTION:{_text(entry.words)}",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    ]


def _text(words: str) -> str:
    """A TEXT value (RFC 5545, 3.3.11)."""
    for plain, escaped in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\r\n", "\\n"), ("\n", "\\n"), ("\r", "\\n")):
        words = words.replace(plain, escaped)
    return "".join(c for c in words if c >= " " or c == "\t")


def _folded(line: str) -> Iterator[str]:
    """The line in parts of at most 75 octets, no letter cut in two; each after the first begins with a space."""
    part, size = "", 0
    for letter in line:
        octets = len(letter.encode("utf-8"))
        if size + octets > FOLD_OCTETS:
            yield part
            part, size = " ", 1
        part, size = part + letter, size + octets
    yield part


def _told(step: PlanStep) -> str:
    """The lever's name; of an idea, which is no lever yet, what the plan calls it."""
    return step.lever or step.what.removesuffix(BY_TICKS)


def ticks(plan: Sequence[PlanStep]) -> str:
    """date, what, on: a line a night of each trial, by the words of the diary's own line, by which the filled-in sheet
    is read again; the last line is the caution."""
    rows = [(night.isoformat(), _told(step), "yes" if on else "no") for step in plan for night, on in step.nights]
    caution = joined([step.caution for step in plan if step.nights]) or LOCAL
    return csv_text(pd.DataFrame([*rows, ("", f"Take care: {caution}", "")], columns=["date", "what", "on"]))
