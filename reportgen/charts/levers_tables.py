"""Levers as tables: what each verdict rests on, and what each did beside what was hoped."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.changes import as_outcome, verdict_words
from reportgen.counsel.changes_words import KELVIN, NAMES, SHARES, between_words, unit_of
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Ends, JudgedLever
from reportgen.counsel.levers_words import payback_words, side_outcome
from reportgen.counsel.sides import money_words
from reportgen.effects import Outcome
from reportgen.effects.outcomes import HEAT
from reportgen.review import Review
from reportgen.wording import Wording, count, number

LEVERS, BESIDE = "levers", "levers_beside"
NOTHING = "–"


def levers_tables(review: Review) -> tuple[Table, ...]:
    """Both tables; nothing where the diary holds no lever."""
    facts = Facts.of(review, review.counsel.grounds)
    levers = facts.on.levers
    if not levers:
        return ()
    beside = _beside_data(levers, facts.w)
    return (_levers(facts, levers), *([_beside(facts, levers, beside)] if len(beside) else []))


def _levers(facts: Facts, levers: Sequence[JudgedLever]) -> Table:
    return Table(
        uid=LEVERS,
        title=f"{count(len(levers), 'lever')}, and what each verdict rests on",
        subtitle="On and off of one thing are one estimate: the lever on against off, at equal weather, 95\u00a0% "
        "interval",
        columns=("lever", "verdict", "what it did", "nights off, on", "money"),
        rows=tuple(_row(facts, lever) for lever in levers),
        data=_levers_data(facts, levers),
        notes=_notes(levers),
    )


def _notes(levers: Sequence[JudgedLever]) -> tuple[str, ...]:
    wide = [lever.name for lever in levers if lever.widened > 1]
    if not wide:
        return ()
    return (
        "Where the switches of one lever say different things, its interval is widened by how far they disagree (the "
        f"file has the factor): {'; '.join(wide)}.",
    )


def _row(facts: Facts, lever: JudgedLever) -> tuple[str, ...]:
    hoped, w = as_outcome(facts, lever), facts.w
    did = f"{NAMES[hoped.outcome]}: {between_words(hoped, w)}" if hoped is not None else NOTHING
    off, on = lever.counted_days
    pays = payback_words(lever.payback_winters) if lever.payback_winters is not None and lever.outcome in HEAT else ""
    money = [words for words in (money_words(lever, w), pays) if words]
    return (
        lever.name,
        verdict_words(lever),
        did,
        f"{number(off)}, {number(on)}" if hoped is not None else NOTHING,
        "; ".join(money) or NOTHING,
    )


def _levers_data(facts: Facts, levers: Sequence[JudgedLever]) -> pd.DataFrame:
    return pd.DataFrame([_cells(facts, lever) for lever in levers])


def _cells(facts: Facts, lever: JudgedLever) -> dict[str, object]:
    w, hoped = facts.w, as_outcome(facts, lever)
    off, on = lever.counted_days
    return {
        "lever": lever.name,
        "first diary line": lever.lines[0] if lever.lines else 0,
        "diary lines": "; ".join(str(line) for line in lever.lines),
        "touches": "; ".join(lever.touches),
        "verdict": lever.verdict,
        "condition": lever.condition or "",
        "hoped for": lever.hoped or "",
        "outcome": lever.outcome or "",
        **_numbers(hoped, w),
        "widened by": lever.widened if hoped is not None else float("nan"),
        "nights off": off,
        "nights on": on,
        "h off": round(lever.hours_off, 1),
        "h on": round(lever.hours_on, 1),
        **_ends("spared kWh", lever.spared_kwh),
        **_ends("a whole winter kWh", lever.winter_kwh),
        **(_ends(f"spared {w.currency}", lever.spared_money) if w.currency else {}),
        **(_ends(f"a whole winter {w.currency}", lever.winter_money) if w.currency else {}),
        **({f"cost {w.currency}": _or_nan(lever.cost)} if w.currency else {}),
        "years": _or_nan(lever.years),
        **_ends("winters until it has paid", lever.payback_winters),
        "not with": "; ".join(lever.unsafe_with),
        "why not": lever.reasons.get("verdict", ""),
    }


def _numbers(hoped: Outcome | None, w: Wording) -> dict[str, object]:
    """Effect and ends in the unit of their row, and as a share of the level without it."""
    if hoped is None:
        none = dict.fromkeys(("effect", "low", "high", "low, % of without it", "high, % of without it"), float("nan"))
        return {"unit": "", **none}
    scale = w.diff_value(1.0) if hoped.outcome in KELVIN else 1.0
    level = hoped.before_mean if hoped.before_mean > 0 and hoped.outcome in SHARES else float("nan")
    return {
        "unit": unit_of(hoped, w),
        "effect": scale * hoped.effect,
        "low": scale * hoped.low,
        "high": scale * hoped.high,
        "low, % of without it": 100 * hoped.low / level,
        "high, % of without it": 100 * hoped.high / level,
    }


def _ends(name: str, ends: Ends | None) -> dict[str, object]:
    low, high = (None, None) if ends is None else (ends.low, ends.high)
    return {f"{name}, least": _or_nan(low), f"{name}, most": _or_nan(high)}


def _or_nan(value: float | None) -> float:
    return float("nan") if value is None else value


def _beside(facts: Facts, levers: Sequence[JudgedLever], data: pd.DataFrame) -> Table:
    rows = []
    for lever in levers:
        known = [side for side in lever.price if side.outcome in NAMES]
        told = [f"{NAMES[side.outcome]} {between_words(side_outcome(side), facts.w)}" for side in known]
        if told:
            rows.append((lever.name, "; ".join(told)))
    return Table(
        uid=BESIDE,
        title="What each lever did beside what was hoped",
        subtitle="A second look: it alters a verdict only where the whole interval lies beyond what you said matters",
        columns=("lever", "beside it, 95\u00a0% intervals"),
        rows=tuple(rows),
        data=data,
    )


def _beside_data(levers: Sequence[JudgedLever], w: Wording) -> pd.DataFrame:
    return pd.DataFrame(
        [
            {
                "lever": lever.name,
                "first diary line": lever.lines[0] if lever.lines else 0,
                "outcome": side.outcome,
                **_numbers(side_outcome(side), w),
                "beyond what matters": "yes" if side.beyond_care else "no",
            }
            for lever in levers
            for side in lever.price
        ]
    )
