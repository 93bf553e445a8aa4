"""On and off of one lever as one estimate: signs turned, weighed by what each knows, shared nights counted once.

What is put on and taken off again within six weeks shares the nights between its two switches: those are fitted
together, one column on and off. What lies further apart shares no night: the two estimates are independent and are
averaged by the inverse of their variances (fixed effect; Cochran 1954; statsmodels `combine_effects`).

Switches of one lever that say different things show that their own errors are not the whole doubt: another season of
the winter, other plants, another way of putting it up. Their common error is then widened by Birge's ratio,
S = √(Q/(m − 1)) where that is over 1 (Particle Data Group, Review of Particle Physics, Introduction, "Unconstrained
averaging"; R. T. Birge 1932, Physical Review 40:207). It is never made narrower.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.special import stdtrit

from reportgen.effects.types import NAN, Outcome


def turned(outcome: Outcome, on: bool) -> Outcome:
    """The same told as *on* against *off*: of a switch that takes the lever off, signs and sides change places."""
    if on or outcome.refused is not None:
        return outcome if on else replace(outcome, days_before=outcome.days_after, days_after=outcome.days_before)
    return replace(
        outcome,
        effect=-outcome.effect,
        low=-outcome.high,
        high=-outcome.low,
        days_before=outcome.days_after,
        days_after=outcome.days_before,
        before_mean=outcome.before_mean + outcome.effect,  # the level off, at the weather of the days on
        nights=None,
    )


def pooled(parts: Sequence[Outcome]) -> Outcome:
    """One estimate of independent ones, all of them *on* against *off*; refused ones say why only if all are.

    Effect = Σ w·e with w ∝ 1/se²; se = S·(Σ 1/se²)^−½ with S = max(1, √(Q/(m − 1))), Q = Σ (e − effect)²/se²; degrees
    of freedom by Welch and Satterthwaite, which for these weights are 1/Σ(w²/ν); low and high = effect ∓ t(0.975,
    ν)·se, and as much further out as the parts' own ends reach by way of the bed, weighed alike. So is the level off.
    `widened` is S.

    Args:
        parts: One or more, of one outcome and unit.
    """
    told = [part for part in parts if part.refused is None]
    if not told:
        return max(parts, key=lambda part: min(part.days_before, part.days_after))  # the one that came nearest
    if len(told) == 1:
        return told[0]
    precision = np.array([1.0 / part.se**2 for part in told])
    weight = precision / precision.sum()
    values = np.array([part.effect for part in told])
    effect = float(weight @ values)
    widened = max(1.0, float(precision @ (values - effect) ** 2 / (len(told) - 1)) ** 0.5)
    se = widened * float(precision.sum() ** -0.5)
    dof = float(1.0 / (weight**2 / np.array([float(part.dof or 1) for part in told])).sum())
    wide, power = float(stdtrit(dof, 0.975)), float(stdtrit(dof, 0.80))
    below, above = (float(weight @ np.array(ends)) for ends in zip(*map(_beyond, told), strict=True))
    return replace(
        told[0],
        effect=effect,
        low=effect - wide * se - below,
        high=effect + wide * se + above,
        through_bed=any(part.through_bed for part in told),
        smallest_visible=(wide + power) * se,
        se=se,
        dof=round(dof),
        days_before=sum(part.days_before for part in told),
        days_after=sum(part.days_after for part in told),
        before_mean=float(weight @ np.array([part.before_mean for part in told])),
        effective_days=NAN,
        nights=None,
        widened=widened,
    )


def _beyond(part: Outcome) -> tuple[float, float]:
    """How far its ends lie beyond effect ∓ t·se, in its unit: nowhere but where the bed gives warmth back (`bed`)."""
    if not part.through_bed:
        return 0.0, 0.0
    half = float(stdtrit(part.dof or 1, 0.975)) * part.se
    return max(part.effect - half - part.low, 0.0), max(part.high - part.effect - half, 0.0)
