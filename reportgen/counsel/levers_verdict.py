"""The verdict on a lever: the first row that holds, from the top.

Safety first, whatever it saved; then what it did; then what could still be found out. A row is a function that gives
the verdict with its condition, or None where it does not hold.
"""

from __future__ import annotations

from collections.abc import Callable

from reportgen.counsel.grounds import LeverVerdict
from reportgen.counsel.levers_case import Case
from reportgen.counsel.levers_words import (
    at_most_words,
    fitting,
    never_lit,
    payback_words,
    price_words,
    worse,
    years_words,
)
from reportgen.effects.types import SOIL
from reportgen.effects.verdict import favourable

Told = tuple[LeverVerdict, str | None]
YEARS_UNSAID = 1.0  # what the balance takes for a cost without years
LIGHT = "daily_light"


def verdict_on(case: Case) -> Told:
    """Verdict and condition of a lever."""
    return next(told for row in ROWS if (told := row(case)) is not None)


def _burns(case: Case) -> Told | None:
    """It tightens the house and a fuel heater without a flue is the main heat, or burned behind it."""
    if not case.forbidden_by:
        return None
    if all(b.flue_unsaid for b in case.forbidden_by):
        whether = "it has one" if len(case.forbidden_by) == 1 else "they have one"
        asked = f"season.toml does not say whether {whether}"
        return "not while that burns here", fitting((never_lit(case.forbidden_by), asked))
    return "not while that burns here", fitting((never_lit(case.forbidden_by), "replace that or give it a flue first"))


def _fumes(case: Case) -> Told | None:
    """It is itself such a heater, and burned in a tightened house."""
    if not case.sealed:
        return None
    if case.own_flue_unsaid:
        asked = "unless it has a flue, which season.toml does not say"
        return "not again", f"{asked}; else one that has, or an electric one"
    return "not again", "a heater with a flue or an electric one in its place, else grow hardy crops only"


def _not_judged(case: Case) -> Told | None:
    """Nothing was hoped that a logger can judge; or it is a heater hoped to warm, which is told under heat."""
    return ("not judged", None) if case.hoped is None or case.warms else None


def _refused(case: Case) -> Told | None:
    """Nothing can be told, for the reason given."""
    return ("cannot tell", None) if case.refused else None


def _hurt(case: Case) -> Told | None:
    """It hurt, or it was undone and what that was hoped to bring came true."""
    if case.effect.verdict != "hurt" and not (case.undoing_helped and case.effect.verdict != "helped"):
        return None
    if not _undoing_costs_heat(case):
        return "leave undone", None
    if case.beside:
        return "leave undone", f"undone it takes more heat; {never_lit(case.beside, 'tighten with')}"
    if set(case.lever.touches) & {"air", "envelope"}:
        return "leave undone", "or closed on frosty nights and aired by day: undone it takes more heat"
    return "leave undone", "undone it takes more heat"


def _undoing_costs_heat(case: Case) -> bool:
    sides = [side for side in case.price if side.outcome in ("heat", "watts_per_kelvin")]
    return any(side.high < 0 for side in sides)


def _keep(case: Case) -> Told | None:
    """It helped and is paid for; nothing beside it is dearer than the grower said would matter."""
    if case.effect.verdict != "helped" or _conditions(case):
        return None
    light = any(side.outcome == LIGHT and worse(side) for side in case.price)
    early = case.on_now and not case.effect.before_heat and not light and case.judged_on_heat
    return "keep", "up before the first heated night" if early else None


def _keep_if(case: Case) -> Told | None:
    """It helped, at a price that must be named."""
    if case.effect.verdict != "helped":
        return None
    named = [price_words(side, case.w) for side in case.price if worse(side)]
    return "keep with a condition", fitting(dict.fromkeys([*_conditions(case), *named]))


def _conditions(case: Case) -> list[str]:
    """What stands against plain *keep*, the weightiest first."""
    said = [never_lit(case.beside)] if case.beside else []
    if case.judged_on_heat and (case.cost or 0.0) > 0:
        if case.running:
            said.append("whether it pays is known when the winter is over")
        elif case.payback is None:
            said.append("whether it pays is not known" if case.winter_kwh is None else "even at best it does not pay")
        elif case.payback.high is None or case.payback.high > _years(case):
            said.append(f"{payback_words(case.payback)}, against {years_words(case.years)}")
    return said + [price_words(side, case.w) for side in case.price if side.beyond_care and worse(side)]


def _years(case: Case) -> float:
    return YEARS_UNSAID if case.years is None else case.years


def _not_worth_it(case: Case) -> Told | None:
    """Whatever it did is too little to matter; or not even its best end pays within the years it lasts."""
    hoped = case.hoped
    if hoped is None:
        return None
    if case.effect.verdict == "no sign":
        return "not worth it", at_most_words(hoped, case.w)
    if not (case.judged_on_heat and (case.cost or 0.0) > 0):
        return None
    if case.payback is not None and case.years is not None and (case.payback.low or 0.0) > case.years:
        return "not worth it", f"{at_most_words(hoped, case.w)}; {payback_words(case.payback)}"
    if case.winter_kwh is not None and (case.winter_kwh.high or 0.0) <= 0:
        return "not worth it", at_most_words(hoped, case.w)
    return None


def _bed(case: Case) -> Told | None:
    """The bed answers too slowly for one winter."""
    if case.hoped is None or case.hoped.outcome not in SOIL:
        return None
    return "cannot tell", "one winter cannot show it"


def _try(case: Case) -> Told | None:
    """It may be worth having, is switched in minutes, and nothing forbids a trial."""
    hoped = case.hoped
    if hoped is None or not case.in_minutes or not favourable(hoped) > case.effect.care:
        return None
    return "try on and off", at_most_words(hoped, case.w)


def _once(case: Case) -> Told | None:
    """It may be worth having; only one lasting change can show it."""
    rest = [never_lit(case.beside)] if case.beside else []
    if case.hoped is not None:
        rest.append(at_most_words(case.hoped, case.w))
    leave = "leave it undone" if case.undone else "leave it as it is"
    return "change once", fitting([f"three quiet weeks on either side, or {leave}", *rest])


ROWS: tuple[Callable[[Case], Told | None], ...] = (
    _burns,
    _fumes,
    _not_judged,
    _refused,
    _hurt,
    _keep,
    _keep_if,
    _not_worth_it,
    _bed,
    _try,
    _once,
)
