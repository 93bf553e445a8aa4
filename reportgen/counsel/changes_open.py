"""Findings of what the changes leave open: what cannot be told, what was never hoped for, what was never written."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.answers_lever import UNDONE
from reportgen.counsel.changes import CSV, OPEN, open_levers, tried
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import JudgedLever
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import quoted
from reportgen.effects import Effect
from reportgen.effects.types import SOIL
from reportgen.measures.there import There
from reportgen.wording import are, count, day, number, span

FEW = 3  # more open levers than this are told as a count
WORDS = {"watts_per_kelvin": "the heat that a degree of warmth took", "lift": "how far the nights stood above outdoors"}


def caution(facts: Facts, change: Effect) -> str | None:
    """The usual caution where doing it (again) can hurt."""
    burns = bool(facts.fuels - {"electricity"})  # as beside a lever: where nothing burns, nothing is sealed in
    told = [cautions.SEAL] if burns and "envelope" in change.touches else []
    if "heater" in change.touches:
        told.append(cautions.heating(facts.fuels))
    if "light" in change.touches:
        told.append(cautions.MAINS)
    return " ".join(dict.fromkeys(part for part in told if part)) or None


def cannot_tell(facts: Facts) -> Said | None:
    """All levers that stay open, once."""
    left = open_levers(facts)
    if not left:
        return None
    judged = [lever for lever in facts.on.levers if lever.verdict != "not judged"]
    many = (
        "The one thing you altered"
        if len(judged) == 1
        else f"{number(len(left))} of {count(len(judged), 'thing')} you altered{_beside(judged)}"
    )
    return Said(
        claim=f"{many} cannot be told from this {facts.there.season}'s readings.",
        evidence=_whys(left),
        how_sure="Cannot tell: that is not the same as no effect.",
        next_step=_next_step(facts, left),
        figure=f"{number(len(left))} of {number(len(judged))}",
        figure_note="cannot be told",
        about=left[0].name if len(left) == 1 else None,
        weight=float(len(left)),
        sources=(
            _counted(f"verdict in {list(OPEN)}", len(left)),
            _counted("verdict != 'not judged'", len(judged)),
        ),
    )


UNLIKE = "to be set side by side"  # of a refusal: the weather before and after was too unlike


def _beside(judged: list[JudgedLever]) -> str:
    """What safety decides is counted elsewhere, though its effect may be open too."""
    return ", beside what is to stay off in any case," if any(lever.verdict in UNDONE for lever in judged) else ""


def _counted(rows: str, n: int) -> Source:
    return Source(csv=CSV, how="count", column="lever", rows=rows, value=float(n))


def _whys(left: list[JudgedLever]) -> str:
    """Each with its verdict and, where they are few, its reason."""
    if len(left) <= FEW:
        return " ".join(f"“{lever.name}”: {_why(lever)}." for lever in left)
    groups = {
        verdict: [x.name for x in left if x.verdict == verdict] for verdict in dict.fromkeys(x.verdict for x in left)
    }
    told = [f"{verdict}: {quoted(names)}" for verdict, names in groups.items()]
    return f"{'. '.join(word[:1].upper() + word[1:] for word in told)}. The table says why."


def _why(lever: JudgedLever) -> str:
    reason = lever.reasons.get("verdict", "")
    return ", ".join(part for part in (lever.verdict, lever.condition or reason) if part)


def _next_step(facts: Facts, left: list[JudgedLever]) -> str:
    planned = [lever.name for lever in left if lever.verdict == "try on and off"]
    if planned:
        when = "by" if facts.r.season.so_far else f"next {facts.there.season} by"
        return f"Switch {quoted(planned[:2])} on and off {when} the dated plan."
    if all(lever.outcome in SOIL for lever in left):
        return "Treat one bed next time and leave another as it is, a probe at the same depth in each, and compare."
    if not facts.there.outdoor_air:
        return f"{_outdoors(facts.there)} Then a change can be told from the weather."
    if all(UNLIKE in lever.reasons.get("verdict", "") for lever in left):
        return "Alter nothing for it: the weather did not allow it to be told, and another year's may."
    return "Change one thing at a time, three quiet weeks on either side."


def _outdoors(there: There) -> str:
    if there.logged("outdoor_air"):
        return "Let the logger outdoors write every ten minutes, day and night."
    if there.outdoor_named:
        return "Find out why the logger outdoors wrote nothing."
    return "Hang one logger outdoors in the shade, out of the rain."


def none(facts: Facts) -> Said | None:
    """No change in the diary."""
    if tried(facts.r.effects.changes):
        return None
    season = facts.r.season
    why = facts.r.effects.reason or "the diary holds no change that was carried out"
    return Said(
        claim=f"No change can be judged this {facts.there.season}.",
        evidence=f"{why[:1].upper()}{why[1:]}, {span(season.first_day, season.last_day)}.",
        how_sure="Sure.",
        next_step="Write one line in a diary for each change from now on: the date, what you did, and what you hope.",
        figure="0",
        figure_note="dated changes",
        weight=1.0,
    )


def no_hope(facts: Facts) -> Said | None:
    """Changes without a hope that a logger can judge."""
    done = tried(facts.r.effects.changes)
    if not done or any(change.verdict != "not judged" for change in done):
        return None
    return Said(
        claim=f"No change in the diary names a hope that a logger can judge ({count(len(done), 'change')} in all).",
        evidence="; ".join(f"“{change.what}”, {day(change.when)}" for change in done) + ".",
        how_sure="Sure.",
        next_step="Write what you hope for beside each change from now on, before you make it: warmer nights, less "
        "heating, drier air, warmer or steadier soil, more light.",
        figure=number(len(done)),
        figure_note=f"{are(len(done), 'change', 'changes')} without a hope",
        weight=1.0,
    )


def unwritten(facts: Facts) -> Said | None:
    """The quiet date that looks most like a change: a question, never a claim."""
    odd, noted = facts.r.effects.odd_date, facts.there.diary_lines
    if odd is None:
        return None
    times = number(odd.half_widths, 1)
    return Said(
        claim=f"Was something altered about {day(odd.when)}{' that is not in the diary' if noted else ''}?",
        evidence=f"Of {count(odd.dates, 'date')} {'without an entry' if noted else 'tried'}, this one "
        f"looks most like a change in {WORDS[odd.outcome]}: {times} times the half-width of its interval, "
        "where 1 is the usual line.",
        how_sure="A hint: a question, not a claim.",
        next_step=f"If you remember something (a pane, a door, a new habit), {'add a' if noted else 'write that'} line "
        f"{'to the' if noted else 'into a'} diary and build the report again.",
        figure=day(odd.when),
        figure_note="nothing written" if noted else "no diary kept",
        weight=odd.half_widths,
    )
