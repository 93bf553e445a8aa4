"""Levers: both sides of what the grower set, and one verdict each.

What a lever did stands in `effects`; here its two sides are set beside each other, its money against its cost, and one
verdict is given that every page, plan row and answer says. What burns beside it: `levers_safety`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from types import MappingProxyType

from reportgen.counsel.grounds import Ends, Event, JudgedLever, PriceSide
from reportgen.counsel.levers_case import Case
from reportgen.counsel.levers_reasons import STILL_RUNS, reasons_of
from reportgen.counsel.levers_safety import Burner, burners, burns_with, hopes_of, sealed_in, stays_beside
from reportgen.counsel.levers_verdict import verdict_on
from reportgen.counsel.results import Results
from reportgen.effects.lever_types import LeverEffect, Range
from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER
from reportgen.effects.types import Outcome
from reportgen.effects.verdict import care_for
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import DiaryEntry
from reportgen.wording import Wording

LEVEL = 0.95
SIDES = ("watts_per_kelvin", "heat", "night_humidity", "daily_light", "lift")


def judged_levers(r: Results, happened: Sequence[Event]) -> tuple[JudgedLever, ...]:
    """Every lever of the season with its verdict, the one to be told first first.

    First is what is surest to matter: by the unfavourable end of its money or of its effect, each as a multiple of
    what the grower said would matter.
    """
    burning = burners(r.readings)
    told = [
        _judged(r, lever, effect, burning) for lever, effect in zip(r.readings.levers, r.effects.levers, strict=True)
    ]
    return tuple(sorted(told, key=lambda lever: -lever.weight))


def _judged(r: Results, lever: Lever, effect: LeverEffect, burning: Sequence[Burner]) -> JudgedLever:
    entries = [e for e in r.readings.diary if e.line in lever.lines]
    case = _case(r, lever, effect, entries, burning)
    verdict, condition = verdict_on(case)
    hoped = None if case.refused else case.hoped
    spared = effect.spared
    winter_money = _ends(spared.winter_money if spared and r.season.so_far is None else None)
    return JudgedLever(
        name=lever.name,
        thing=lever.thing,
        touches=lever.touches,
        entries=lever.entries,
        states=lever.states,
        hours_on=lever.hours_on,
        hours_off=lever.hours_off,
        verdict=verdict,
        condition=condition,
        outcome=case.hoped.outcome if case.hoped is not None else None,
        effect=hoped.effect if hoped else None,
        low=hoped.low if hoped else None,
        high=hoped.high if hoped else None,
        level=LEVEL if hoped else None,
        spared_kwh=_ends(spared.since_kwh if spared else None),
        spared_money=_ends(spared.since_money if spared else None),
        winter_kwh=case.winter_kwh,
        winter_money=winter_money,
        payback_winters=case.payback,
        price=case.price,
        unsafe_with=tuple(b.name for b in (case.beside or case.forbidden_by)),
        reasons=MappingProxyType(reasons_of(case, verdict, condition)),
        outcomes=case.switched,
        unit=case.hoped.unit if case.hoped is not None else "",
        lines=lever.lines,
        hoped=effect.hope,
        relative=_ends(spared.relative if spared else None),
        cost=case.cost,
        years=case.years,
        on_now=case.on_now,
        undone_in_season=case.undone,
        saves_heat="less heating" in case.hopes or case.judged_on_heat,
        flat_out=spared is not None and spared.flat_out,
        weight=_weight(case, winter_money, r),
        before_heat=effect.before_heat,
        counted_days=(hoped.days_before, hoped.days_after) if hoped else (0, 0),
        widened=hoped.widened if hoped else 1.0,
        flue_unsaid=_flue_unsaid(case),
    )


def _case(
    r: Results, lever: Lever, effect: LeverEffect, entries: Sequence[DiaryEntry], burning: Sequence[Burner]
) -> Case:
    readings, spared = r.readings, effect.spared
    hoped = effect.declared
    own = [b for b in burning if b.lever is lever]
    cost = _cost(entries)
    winter_money = spared.winter_money if spared else None
    hopes = hopes_of(lever, readings)
    asked = "less heating" in hopes or (hoped is not None and hoped.outcome in HEAT)
    running = r.season.so_far is not None  # what a whole winter would spare is not known before its end
    payback, why = (None, STILL_RUNS) if running and asked else _payback(cost, winter_money, effect, asked)
    on_now = bool(lever.states) and lever.states[-1].on
    return Case(
        lever=lever,
        effect=effect,
        hoped=hoped,
        hopes=hopes,
        forbidden_by=burns_with(lever, burning, readings),
        beside=stays_beside(lever, burning, readings),
        sealed=any(sealed_in(b, readings) for b in own),
        own_flue_unsaid=any(b.flue_unsaid for b in own),
        refused=effect.without or (hoped.refused or "" if hoped is not None else ""),
        price=() if effect.without else _price(effect, r),
        payback=payback,
        no_payback=why,
        winter_kwh=_ends(spared.winter_kwh if spared and not running else None),
        running=running,
        cost=cost,
        years=next((e.years for e in entries if e.years is not None), None),
        on_now=on_now,
        undone=bool(lever.undone) and not on_now,
        undoing_helped=bool(lever.undone) and not on_now and _undoing_helped(lever, effect, entries),
        spell=any(e.kind == "spell" for e in entries),
        reversible=any(e.reversible is True for e in entries),
        w=Wording.of(r.season),
    )


def _flue_unsaid(case: Case) -> bool:
    """Whether no burner that speaks against it is known to have no flue."""
    against = case.forbidden_by or case.beside
    return all(b.flue_unsaid for b in against) if against else case.own_flue_unsaid


def _ends(of: Range | None) -> Ends | None:
    return None if of is None else Ends(low=of.low, high=of.high)


def _cost(entries: Iterable[DiaryEntry]) -> float | None:
    """What its lines cost; rows of one spell repeat one price, which counts once."""
    paid: dict[tuple[str, ...], float] = {}
    for entry in entries:
        if entry.cost is not None:
            key = (entry.what, "spell") if entry.kind == "spell" else (entry.what, str(entry.line))
            paid[key] = max(paid.get(key, 0.0), entry.cost)
    return sum(paid.values()) if paid else None


def _payback(cost: float | None, winter: Range | None, effect: LeverEffect, asked: bool) -> tuple[Ends | None, str]:
    """Winters like this one until it has paid its cost, soonest and latest; None with the reason."""
    if not asked:
        return None, "it was not meant to save heat"
    if cost is None:
        return None, "the diary names no cost"
    if winter is None:
        known = effect.spared is not None
        return None, "some heat of the season has no price" if known else effect.spared_reason
    if winter.high <= 0:
        return None, "even at best it spares no heat"
    return Ends(low=cost / winter.high, high=cost / winter.low if winter.low > 0 else None), ""


def _price(effect: LeverEffect, r: Results) -> tuple[PriceSide, ...]:
    """What it did beside what was hoped: heat, humidity, light, warmth; each only where it could be told."""
    hoped = effect.declared
    skipped = {hoped.outcome} if hoped is not None else set()
    if skipped & HEAT or effect.outcome("watts_per_kelvin") is not None:
        skipped |= HEAT - {"watts_per_kelvin"} if not skipped & HEAT else HEAT
    found = (effect.outcome(name) for name in SIDES if name not in skipped)
    return tuple(_side(outcome, r) for outcome in found if outcome is not None)


def _side(outcome: Outcome, r: Results) -> PriceSide:
    care = care_for(outcome, r.season.aims.care)
    beyond = outcome.high < -care if outcome.outcome in LARGER_IS_BETTER else outcome.low > care
    return PriceSide(
        outcome=outcome.outcome,
        unit=outcome.unit,
        effect=outcome.effect,
        low=outcome.low,
        high=outcome.high,
        level=LEVEL,
        beyond_care=beyond,
        before_mean=outcome.before_mean,
    )


def _undoing_helped(lever: Lever, effect: LeverEffect, entries: Sequence[DiaryEntry]) -> bool:
    """What the line that took it off was hoped to bring came true: on, the lever was worse in that."""
    last = entries[-1]
    judged = {
        "warmer nights": "lift",
        "less heating": "heat",
        "drier air": "night_humidity",
        "more light": "daily_light",
    }
    found = effect.outcome(judged.get(last.hoped_for[0], "")) if last.hoped_for and last.line in lever.undone else None
    if found is None:
        return False
    return found.high < 0 if found.outcome in LARGER_IS_BETTER else found.low > 0


def _weight(case: Case, winter_money: Ends | None, r: Results) -> float:
    """The unfavourable end of its money, or of its effect, in multiples of what would matter; 0 where that is none."""
    if case.refused or case.hoped is None or case.warms:  # nothing to tell of it
        return 0.0
    hoped, care = case.hoped, case.effect.care
    by_effect = by_money = 0.0
    if care > 0:
        by_effect = min(abs(hoped.low), abs(hoped.high)) / care if hoped.low * hoped.high > 0 else 0.0
    cost, percent = r.effects.heat_cost, r.season.aims.care.heat_pct
    if winter_money is not None and winter_money.low is not None and cost:
        by_money = winter_money.low / (cost * percent / 100.0)
    return max(by_effect, by_money, 0.0)
