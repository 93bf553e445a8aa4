"""Findings of what the changes leave open: what cannot be told, what was never hoped for, what was never written."""

from __future__ import annotations

from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.changes_words import bound_words, days_words, interval_words, one_winter_words
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding, Source
from reportgen.effects import Effect
from reportgen.effects.types import SOIL
from reportgen.measures.there import There
from reportgen.wording import are, count, day, number, span

CSV = "changes_rows.csv"
FEW = 3  # more open changes than this are told as a count


def finding_of(slug: str, **more: Any) -> Finding:
    """A finding of this page."""
    return Finding(slug=slug, page="changes", **({"anchor": "changes_effects"} | more))


def caution(facts: Facts, change: Effect) -> str | None:
    """The usual caution where doing it (again) can hurt."""
    told = [cautions.SEAL] if "envelope" in change.touches else []
    if "heater" in change.touches:
        told.append(cautions.heating(facts.fuels))
    if "light" in change.touches:
        told.append(cautions.MAINS)
    return " ".join(dict.fromkeys(part for part in told if part)) or None


def cannot_tell(facts: Facts, changes: list[Effect], tried: int) -> Finding:
    many = "The one change" if tried == 1 else f"{number(len(changes))} of {count(tried, 'change')}"
    return finding_of(
        "cannot-tell",
        claim=f"{many} cannot be told from this {facts.there.season}'s readings.",
        evidence=_whys(facts, changes),
        how_sure="Cannot tell: that is not the same as no effect.",
        next_step=_next_step(facts, changes),
        figure=f"{number(len(changes))} of {number(tried)}",
        figure_note="cannot be told",
        stake="record",
        sure="cannot tell",
        weight=float(len(changes)),
        anchor="changes_rows",
        sources=(Source(csv=CSV, how="count", column="verdict", rows="verdict == 'cannot tell'", value=len(changes)),),
    )


def _whys(facts: Facts, changes: list[Effect]) -> str:
    """Each with its reason where they are few; else how many of which kind, the table on the page has the rest."""
    if len(changes) <= FEW:
        return ". ".join(f"“{change.what}”: {_why(facts, change)}" for change in changes) + "."
    open_ = [c for c in changes if c.declared is not None and c.declared.refused is None]
    names, n, rest = "; ".join(f"“{c.what}”" for c in changes), len(open_), len(changes) - len(open_)
    wide = f"{number(n)} {are(n, 'has', 'have')} an interval that holds zero and also more than you said would matter"
    if not rest:
        return f"{names}. Each has an interval that holds zero and also more than you said would matter."
    if not n:
        return f"{names}. For none could nights be set side by side; the table says why."
    return f"{names}. Of these, {wide}; {number(rest)} could not be set side by side at all. The table says why."


def _next_step(facts: Facts, changes: list[Effect]) -> str:
    slow = [c for c in changes if c.declared is not None and c.declared.outcome in SOIL]
    no_trial = facts.r.effects.no_trial
    unsaid = [c.what for c in changes if c.reversible is None and c.what in no_trial and c not in slow]
    if unsaid:
        return (
            f"Write yes or no under “reversible” beside “{unsaid[0]}” in diary.csv: what can be undone gets a dated "
            "on/off plan for next winter, which can tell much smaller effects."
        )
    if len(slow) == len(changes):
        return "Next winter treat one bed and leave another as it is, a probe at the same depth in each, and compare."
    if not facts.there.outdoor_air:
        return f"{_outdoors(facts.there)} Then a change can be told from the weather."
    return "Next winter leave a fortnight between two changes, and log the nights before and after each."


def _outdoors(there: There) -> str:
    if there.logged("outdoor_air"):
        return "Let the logger outdoors write every ten minutes, day and night."
    if there.outdoor_named:
        return "Look why the logger outdoors wrote nothing."
    return "Hang one logger outdoors in the shade, out of the rain."


def _why(facts: Facts, change: Effect) -> str:
    hoped = change.declared
    if hoped is None or hoped.refused is not None:
        return str(change.reasons.get("verdict", "not judged"))
    if change.too_slow:
        words = one_winter_words(hoped, facts.w)
        return f"{words[:1].lower()}{words[1:]} ({interval_words(hoped, facts.w)}, {days_words(hoped)})"
    led = bound_words(hoped, facts.w)
    return f"{led[:1].lower()}{led[1:]}, and perhaps not at all ({interval_words(hoped, facts.w)}, {days_words(hoped)})"


def none(facts: Facts) -> Finding:
    season = facts.r.season
    why = facts.r.effects.reason or "the diary holds no change that was carried out"
    return finding_of(
        "no-change-noted",
        claim=f"No change can be judged this {facts.there.season}.",
        evidence=f"{why[:1].upper()}{why[1:]}, {span(season.first_day, season.last_day)}.",
        how_sure="Sure.",
        next_step="Write one line in diary.csv for each change next winter: the date, what you did, and what you hope.",
        figure="0",
        figure_note="dated changes",
        anchor="changes_missing",
        stake="record",
        sure="sure",
        weight=1.0,
    )


def no_hope(facts: Facts, done: list[Effect]) -> Finding:
    return finding_of(
        "no-hope-noted",
        claim=f"No change in the diary names a hope that a logger can judge ({count(len(done), 'change')} in all).",
        evidence="; ".join(f"“{change.what}”, {day(change.when)}" for change in done) + ".",
        how_sure="Sure.",
        next_step="Write what you hope for beside each change next winter, before you make it: warmer nights, less "
        "heating, drier air, warmer or steadier soil, more light.",
        figure=number(len(done)),
        figure_note=f"{are(len(done), 'change', 'changes')} without a hope",
        anchor="changes_rows",
        stake="record",
        sure="sure",
        weight=1.0,
    )
