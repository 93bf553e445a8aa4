"""Why something about a change is not known: dotted paths within its entry of review.json → words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from reportgen.effects.types import SOIL, Outcome, Verdict
from reportgen.effects.verdict import JUDGED_ON
from reportgen.readings.types import DiaryEntry

UNJUDGED: Mapping[str, str] = MappingProxyType(
    {
        "idea": "an idea, not done yet",
        "event": "an event; its days are left out of every comparison",
        "upkeep": "the diary does not say what it touches",
    }
)
ONE_WINTER = "one winter cannot show it: the bed answers slowly, and the weather of these weeks hides what was done"
NUMBERS = ("effect", "low", "high", "smallest_visible", "se", "dof", "before_mean")


def unjudged_reasons(entry: DiaryEntry) -> dict[str, str]:
    """Of an entry that no estimate was tried for."""
    why = UNJUDGED[entry.kind]
    paths = ("verdict", "outcomes", "at_most", "hope_written_before")
    return dict.fromkeys(paths, why) | _empty(entry, ())


def reasons_of(
    entry: DiaryEntry,
    grouped: Sequence[str],
    declared: str | None,
    hoped: Outcome | None,
    outcomes: Sequence[Outcome],
    verdict: Verdict,
) -> dict[str, str]:
    """Of a change or spell: why it cannot be judged or told, the numbers it lacks, the lists that are empty."""
    reasons = _empty(entry, grouped)
    if declared is None:
        told = f"“{entry.hoped_for[0]}” is nothing a logger can judge" if entry.hoped_for else "no hope was noted"
        reasons["verdict"] = told
    elif hoped is not None and hoped.refused is not None:
        reasons["verdict"] = hoped.refused
    elif hoped is not None and hoped.outcome in SOIL and verdict == "cannot tell":
        reasons["verdict"] = ONE_WINTER
    if entry.written is None:
        when = "the diary does not say when the hope was noted"
        reasons["hope_written_before"] = when if entry.hoped_for else "no hope was noted"
    for n, outcome in enumerate(outcomes):
        if outcome.refused is not None:
            reasons |= {f"outcomes.{n}.{name}": outcome.refused for name in NUMBERS}
    return reasons


def unjudged_hopes(entry: DiaryEntry) -> tuple[str, ...]:
    """Hopes that no logger can judge."""
    return tuple(hope for hope in entry.hoped_for if hope not in JUDGED_ON)


def _empty(entry: DiaryEntry, grouped: Sequence[str]) -> dict[str, str]:
    reasons = {}
    if not entry.touches:
        reasons["touches"] = "the diary does not say what it touches"
    if not entry.hoped_for:
        reasons["hoped_for"] = "no hope was noted"
    if not entry.thing:
        reasons["thing"] = "the diary has no word for it under “thing”"
    if not grouped:
        reasons["grouped_with"] = "nothing else was changed within three days of it"
    return reasons
