"""The verdict on the one outcome a change was hoped to move, and what it can have been worth.

Rules: methods page, *What a change did*, *Verdict* and *What it can have been worth*.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER
from reportgen.effects.types import NAN, Outcome, Verdict
from reportgen.season import Care

# What a hope is judged on; the second word where the change touches the envelope of a heated house.
JUDGED_ON: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "warmer nights": ("lift", "watts_per_kelvin"),
        "less heating": ("heat", "watts_per_kelvin"),
        "drier air": ("night_humidity", "night_humidity"),
        "warmer soil": ("soil_mean", "soil_mean"),
        "steadier soil": ("soil_swing", "soil_swing"),
        "more light": ("daily_light", "daily_light"),
    }
)
FALSE_SIGN = 0.024  # a do-nothing change given a sign, measured on simulated winters (methods page)


@dataclass(frozen=True, kw_only=True, slots=True)
class Worth:
    """What a change can have been worth at most; None with the reason."""

    at_most: float | None
    saves_at_most: float | None  # money a season
    reasons: Mapping[str, str]


def judged_outcome(hope: str, touches: Sequence[str], heated_house: bool) -> str | None:
    """The outcome a hope is judged on; None where no logger can judge it."""
    pair = JUDGED_ON.get(hope)
    return None if pair is None else pair[int(heated_house and "envelope" in touches)]


def care_for(outcome: Outcome, care: Care) -> float:
    """The smallest effect worth having, in the unit of the outcome; NaN where the aims name none."""
    fixed = {
        "lift": care.lift_k,
        "night_minimum": care.lift_k,
        "night_humidity": care.humidity_points,
        "soil_mean": care.soil_k,
        "soil_swing": care.soil_k,
    }
    percent = {"heat": care.heat_pct, "watts_per_kelvin": care.heat_pct, "daily_light": care.light_pct}
    if outcome.outcome in percent:
        return abs(outcome.before_mean) * percent[outcome.outcome] / 100
    return fixed.get(outcome.outcome, NAN)


def verdict_of(outcome: Outcome, care: float) -> tuple[Verdict, bool]:
    """The verdict, and whether the whole interval lies inside what the grower cares for (`care`, unit of the outcome).

    Nothing is inside where `care` is NaN.
    """
    if outcome.refused is not None:
        return "cannot tell", False
    small = -care <= outcome.low and outcome.high <= care
    if outcome.low > 0 or outcome.high < 0:
        better = (outcome.effect > 0) == (outcome.outcome in LARGER_IS_BETTER)
        return ("helped" if better else "hurt"), small
    return ("no sign" if small else "cannot tell"), small


def favourable(outcome: Outcome) -> float:
    """The favourable end of the interval in the unit of the outcome, positive where it is better than before."""
    return outcome.high if outcome.outcome in LARGER_IS_BETTER else -outcome.low


def worth(outcome: Outcome | None, heat_cost: float | None) -> Worth:
    """The bound (unit of the outcome; of heat a share), and what that is of the season's `heat_cost` [money].

    The money only where the outcome is heat and the cost is known.
    """
    if outcome is None or outcome.refused is not None:
        why = "no outcome that a logger can judge was hoped for" if outcome is None else str(outcome.refused)
        return Worth(at_most=None, saves_at_most=None, reasons={"at_most": why})
    bound = favourable(outcome)
    if outcome.outcome not in HEAT:
        return Worth(at_most=bound, saves_at_most=None, reasons={})
    if outcome.before_mean <= 0:
        why = "there was no heat before it that could have been saved"
        return Worth(at_most=None, saves_at_most=None, reasons={"at_most": why})
    share = min(bound / outcome.before_mean, 1.0)  # nobody saves more than all of it
    at_most = share if outcome.outcome == "heat" else bound  # heat is told as a fraction of what it was without
    return Worth(at_most=at_most, saves_at_most=None if heat_cost is None else share * heat_cost, reasons={})


def chance_of_false_sign(judged: int, rate: float = FALSE_SIGN) -> float:
    """How likely at least one of so many do-nothing changes would be given a sign: a probability, 0…1.

    `rate`: the same of one change. The changes are taken as independent.
    """
    return float(1 - (1 - rate) ** judged)
