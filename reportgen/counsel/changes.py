"""Findings of the levers: one each with its verdict word for word and both its sides; one for all that stays open."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.counsel import cautions
from reportgen.counsel.changes_words import (
    NAMES,
    SHARES,
    between_words,
    effect_words,
    interval_words,
    shown,
)
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Ends, JudgedLever, LeverVerdict, PriceSide
from reportgen.counsel.levers_words import known_only
from reportgen.counsel.sides import power_words, told_money
from reportgen.counsel.types import Said, Source, Stake, Subject
from reportgen.effects import Effect, Outcome, measured
from reportgen.wording import NBSP, Wording, count, listed, number

CSV = "levers.csv"
TOKENS = {
    "lift": "warm",
    "heat": "money",
    "watts_per_kelvin": "money",
    "night_humidity": "humid",
    "soil_mean": "soil",
    "soil_swing": "soil",
    "daily_light": "sun",
}
WIDER = 1.05  # from which a widened interval is told: less is not to be seen in its printed ends
FEWEST_DATES = 5  # do-nothing dates below this are too few to set a change beside
HARM: dict[str, Stake] = {"heat": "money", "watts_per_kelvin": "money", "night_humidity": "damp"}
KEPT: frozenset[LeverVerdict] = frozenset({"keep", "keep with a condition"})
OPEN: tuple[LeverVerdict, ...] = ("try on and off", "change once", "cannot tell")
UNDONE: frozenset[LeverVerdict] = frozenset({"not while that burns here", "not again", "leave undone"})


def tried(changes: Iterable[Effect]) -> list[Effect]:
    """What was done to the house: changes, spells, and upkeep that says what it touches."""
    return [c for c in changes if c.kind in ("change", "spell") or (c.kind == "upkeep" and bool(c.touches))]


def kept(facts: Facts) -> list[Said]:
    """Levers worth keeping, with or without a condition."""
    return [_told(facts, lever) for lever in facts.on.levers if lever.verdict in KEPT]


def undone(facts: Facts) -> list[Said]:
    """Levers better left undone."""
    return [_told(facts, lever) for lever in facts.on.levers if lever.verdict in UNDONE]


def not_worth_it(facts: Facts) -> list[Said]:
    """Levers that did nothing that would matter, or that cannot pay."""
    return [_told(facts, lever) for lever in facts.on.levers if lever.verdict == "not worth it"]


def _told(facts: Facts, lever: JudgedLever) -> Said:
    hoped = as_outcome(facts, lever)
    return Said(
        claim=f"“{lever.name}”: {verdict_words(lever)}.{_side(facts, hoped)}",
        evidence=" ".join(
            part for part in (_price(facts, lever), _money(facts, lever), _days(lever, hoped, facts.w)) if part
        ),
        how_sure=_sure(facts, lever, hoped),
        next_step=_next_step(lever),
        caution=_caution(facts, lever),
        figure=effect_words(hoped, facts.w) if hoped is not None else "—",
        figure_note=NAMES[hoped.outcome] if hoped is not None else "not told",
        about=lever.name,
        token=TOKENS.get(lever.outcome or "", "neutral"),
        stake=_stake(lever),
        weight=lever.weight,
        line=lever.lines[0] if lever.lines else None,
        anchor="changes_effects" if _drawn(facts) else "changes_rows",
        subject=_subject(lever),
        sources=_sources(hoped, lever, facts.w),
    )


def _drawn(facts: Facts) -> bool:
    """Whether the page has its picture: a lever that is judged has an estimate."""
    for one in facts.r.effects.levers:
        lever = facts.on.lever_of(one.lines[0]) if one.lines else None
        judged = one.verdict != "not judged" and (lever is None or lever.verdict != "not judged")
        if judged and one.declared is not None and one.declared.refused is None:
            return True
    return False


def verdict_words(lever: JudgedLever) -> str:
    """The one verdict, word for word, with its condition."""
    return f"{lever.verdict}{f' ({lever.condition})' if lever.condition else ''}"


def _subject(lever: JudgedLever) -> Subject | None:
    return "undone" if lever.undone_in_season else "lever"


def as_outcome(facts: Facts, lever: JudgedLever) -> Outcome | None:
    """The outcome hoped for, the lever on, so that its numbers are printed as everywhere; None if it is not known."""
    if lever.outcome is None or lever.effect is None or lever.low is None or lever.high is None:
        return None
    off, on = lever.counted_days
    means = (o.before_mean for c in facts.r.effects.changes if c.line in lever.lines for o in c.outcomes
             if o.outcome == lever.outcome and o.refused is None)  # fmt: skip
    return Outcome(
        outcome=lever.outcome, unit=lever.unit, declared=True, effect=lever.effect, low=lever.low, high=lever.high,
        days_before=off, days_after=on, before_mean=next(means, float("nan")),
    )  # fmt: skip


def _side(facts: Facts, hoped: Outcome | None) -> str:
    """Humidity at night: between 1 and 6 points damper with it, at equal weather; after a space."""
    if hoped is None:
        return ""
    name = NAMES[hoped.outcome]
    return f" {name[:1].upper()}{name[1:]}: {between_words(hoped, facts.w)} with it, at equal weather."


def _price(facts: Facts, lever: JudgedLever) -> str:
    """What it did beside what was hoped: only what left out zero, and what the condition does not name already."""
    if lever.verdict == "keep with a condition":
        return ""
    told = [f"{NAMES[p.outcome]} {_ends(p, facts.w)}" for p in lever.price if p.outcome in NAMES and p.low * p.high > 0]
    return f"Beside it, at a second look: {listed(told)}." if told else ""


def _ends(p: PriceSide, w: Wording) -> str:
    side = Outcome(
        outcome=p.outcome,
        unit=p.unit,
        declared=False,
        effect=p.effect,
        low=p.low,
        high=p.high,
        before_mean=p.before_mean,
    )
    return between_words(side, w)


def _money(facts: Facts, lever: JudgedLever) -> str:
    """Since it was on, in a winter like this one, and what it cost; two ends, never a middle."""
    w, told = facts.w, []
    spared, winter = told_money(lever, lever.spared_money), told_money(lever, lever.winter_money)
    if spared is not None and w.currency:
        told.append(f"it spared {_range(spared, w)} since it was on")
    if winter is not None and w.currency:
        told.append(f"a whole {facts.there.season} like this one {_range(winter, w)}")
    if lever.cost:
        told.append(f"it cost {w.money(lever.cost)}")
    if power := power_words(facts.r, lever):
        told.append(f"it drew {power}")
    words = ", ".join(told)
    flat = " Part of what it spared went into warmth." if lever.flat_out and spared is not None else ""
    return f"{words[:1].upper()}{words[1:]}.{flat}" if words else ""


def _range(ends: Ends, w: Wording) -> str:
    low, high = max(ends.low or 0.0, 0.0), ends.high
    if high is None:
        return f"at least {w.money(low, 0)}"
    if high <= 0:
        return "nothing"
    return f"at most {w.money(high, 0)}" if round(low) <= 0 else w.money_range(low, high)


def _days(lever: JudgedLever, hoped: Outcome | None, w: Wording) -> str:
    off, on = lever.counted_days
    if hoped is None or not (off or on):
        return ""
    apart = (
        f" Its own switches do not agree: the interval is {number(lever.widened, 1)} times as wide for it."
        if lever.widened >= WIDER
        else ""
    )
    return f"95{NBSP}% interval {interval_words(hoped, w)}, from {count(off, 'night')} off and {number(on)} on.{apart}"


def _sure(facts: Facts, lever: JudgedLever, hoped: Outcome | None) -> str:
    """How often such intervals held, by the study; what was switched on and off was not part of it."""
    if hoped is None:
        return "Sure: it is a rule of safety, whatever it did for the house."
    own = [c for c in facts.r.effects.changes if c.line in lever.lines]
    if any(c.switches for c in own):
        return "A hint: the study of made-up winters tried changes that last, none switched on and off."
    held, false = measured.HELD_BY_OUTCOME[hoped.outcome], measured.FALSE_SIGNS_BY_OUTCOME[hoped.outcome]
    late = " The hope was named afterwards, which makes a lucky pick likelier." if _named_late(own) else ""
    return (
        f"{measured.confidence(held)}: in a study of made-up winters such an interval held the truth {number(held.k)} "
        f"of {number(held.n)} times, and {number(false.k)} of {number(false.n)} changes that did nothing got a sign."
        f"{late}"
    )


def _named_late(own: list[Effect]) -> bool:
    return any(c.hoped_for and c.hope_written_before is False for c in own)


_NEXT: dict[LeverVerdict, str] = {
    "keep": "Keep it.",
    "keep with a condition": "Keep it, on that condition.",
    "not while that burns here": "Undo it, or replace that burner first.",
    "not again": "Do not use it again here.",
    "leave undone": "Leave it undone.",
    "not worth it": "Do not repeat it for this reason.",
}


def _next_step(lever: JudgedLever) -> str:
    """What to do, its condition with it: the sentence may stand without the finding."""
    if lever.verdict == "keep with a condition" and lever.condition:
        first = lever.condition.split("; ")[0]
        return f"Keep it, knowing its other side: {first}." if known_only(first) else f"Keep it, but {first}."
    if lever.verdict == "not while that burns here" and not lever.on_now:
        return "Leave it off, or replace that burner first."
    return _NEXT[lever.verdict]


def _caution(facts: Facts, lever: JudgedLever) -> str | None:
    """Only what the advice itself touches."""
    if lever.verdict in UNDONE:
        return cautions.FUEL if lever.unsafe_with or lever.verdict == "not again" else None
    burns = bool(facts.fuels - {"electricity"})
    if lever.verdict in KEPT and "envelope" in lever.touches and burns:
        return cautions.SEAL
    return cautions.heating(facts.fuels) if lever.verdict in KEPT and "heater" in lever.touches else None


def _stake(lever: JudgedLever) -> Stake | None:
    if lever.verdict == "keep with a condition":
        return "money"
    return HARM.get(lever.outcome or "", "growth") if lever.verdict in UNDONE else None


def _sources(hoped: Outcome | None, lever: JudgedLever, w: Wording) -> tuple[Source, ...]:
    """Its row of data/levers.csv: the effect with both ends; of a share the ends as they are said."""
    if hoped is None or not lever.lines:
        return ()
    share = hoped.outcome in SHARES and hoped.before_mean > 0
    ends = {"low": hoped.low, "high": hoped.high}
    cells = {"effect": shown(hoped, hoped.effect, w)}
    if share:
        cells |= {f"{name}, % of without it": 100 * value / hoped.before_mean for name, value in ends.items()}
    else:
        cells |= {name: shown(hoped, value, w) for name, value in ends.items()}
    row = f"`first diary line` == {lever.lines[0]}"
    return tuple(Source(csv=CSV, how="cell", column=name, rows=row, value=value) for name, value in cells.items())


def open_levers(facts: Facts) -> list[JudgedLever]:
    """Levers of which this season cannot tell."""
    return [lever for lever in facts.on.levers if lever.verdict in OPEN]
