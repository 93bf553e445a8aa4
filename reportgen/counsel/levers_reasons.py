"""Why something about a lever is not known: dotted paths within its entry of review.json → words."""

from __future__ import annotations

from reportgen.counsel.grounds import LeverVerdict
from reportgen.counsel.levers_case import Case

STILL_RUNS = "the winter still runs: what the whole of it would spare is known at its end"
NUMBERS = ("effect", "low", "high", "level")


def reasons_of(case: Case, verdict: LeverVerdict, condition: str | None) -> dict[str, str]:
    """A word for every null and every empty list."""
    reasons = dict(case.lever.reasons)
    if not case.lever.touches:
        reasons["touches"] = "the diary does not say what it touches"
    if condition is None:
        reasons["condition"] = "the verdict needs none"
    reasons |= _of_effect(case, verdict)
    reasons |= _of_money(case)
    if not case.price:
        reasons["price"] = case.effect.without or "nothing else could be told of it"
    if not (case.beside or case.forbidden_by):
        reasons["unsafe_with"] = "no fuel heater without a flue speaks against it"
    reasons |= _of_outcomes(case)
    return reasons


def _of_outcomes(case: Case) -> dict[str, str]:
    if not case.switched:
        return {"outcomes": case.effect.without or "it was not taken back: they stand with its line under changes"}
    refused = ((n, outcome.refused) for n, outcome in enumerate(case.switched) if outcome.refused)
    keys = ("effect", "low", "high", "smallest_visible", "se", "dof", "before_mean")
    return {f"outcomes.{n}.{key}": words for n, words in refused for key in keys}


def _of_effect(case: Case, verdict: LeverVerdict) -> dict[str, str]:
    hoped = case.hoped
    if hoped is None:
        hopes = case.hopes
        why = f"“{hopes[0]}” is nothing a logger can judge" if hopes else "no hope was noted"
        told = {"outcome": why} | dict.fromkeys(NUMBERS, why)
    else:
        why = case.refused
        told = dict.fromkeys(NUMBERS, why) if why else {}
    if verdict == "not judged" and case.warms and hoped is not None:
        why = "a heater is no lever for warmth: it is told under heat"
    if verdict in ("not judged", "cannot tell") and why:
        told["verdict"] = why
    return told


def _of_money(case: Case) -> dict[str, str]:
    effect = case.effect
    told: dict[str, str] = {}
    spared = effect.spared
    if spared is None:
        why = effect.spared_reason
        told |= dict.fromkeys(("spared_kwh", "winter_kwh", "spared_money", "winter_money"), why)
    elif spared.since_money is None or spared.winter_money is None:
        told |= dict.fromkeys(("spared_money", "winter_money"), "some heat of the season has no price")
    if case.running and spared is not None:
        told |= dict.fromkeys(("winter_kwh", "winter_money"), STILL_RUNS)
    if case.payback is None:
        told["payback_winters"] = case.no_payback
    elif case.payback.high is None:
        told["payback_winters.high"] = "perhaps never: its unfavourable end spares no heat"
    return told
