"""Findings on nights of one kind: after watering, without heat."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.effects.nights import of
from reportgen.effects.types import KindOfNight
from reportgen.wording import NBSP, count, digits_for, number
from reportgen.wording import points as in_points


def points(found: KindOfNight) -> tuple[str, str, str]:
    """Effect, low and high of a difference in humidity, rounded by the interval's half-width."""
    digits = digits_for((found.high - found.low) / 2)
    return number(found.effect, digits), number(found.low, digits), number(found.high, digits)


def watering(facts: Facts) -> Said | None:
    """Nights after watering are damper; silent where the interval holds zero."""
    found = of(facts.r.effects.kinds_of_night, "after watering")
    if found is None or found.low <= 0:
        return None
    effect, low, high = points(found)
    return Said(
        claim=f"Nights after watering were {in_points(effect)} more humid than other nights, at equal weather.",
        evidence=f"{count(found.nights, 'night')} after watering against {count(found.others, 'other')}; 95{NBSP}% "
        f"interval {low} to {in_points(high)} of relative humidity.",
        how_sure="A hint: such nights are damper, but you may water on sunny days, and only a light sensor outdoors "
        "lets that be taken out.",
        next_step="Water in the morning of a day that lets you air, and only the beds that need it.",
        figure=f"+{in_points(effect)}",
        figure_note="nights after watering",
        token="humid",
        weight=found.effect,
        holds_for="this kind of cover",
        sources=(_nights_counted("damp_watering", found),),
    )


def heater_off(facts: Facts) -> Said | None:
    """Nights on which the heater stayed off are damper, the weather taken out as far as it can be."""
    found = of(facts.r.effects.kinds_of_night, "without heat")
    if found is None or found.low <= 0:
        return None
    effect, low, high = points(found)
    return Said(
        claim=f"Nights on which the heater stayed off were {in_points(effect)} more humid, at equal weather.",
        evidence=f"{count(found.nights, 'night')} off against {number(found.others)} with heat; 95{NBSP}% interval "
        f"{low} to {in_points(high)} of relative humidity.",
        how_sure="A hint: a thermostat chooses its own nights, and mild nights are moist ones.",
        next_step="On mild damp evenings air for an hour before dusk rather than heat, and note it in the diary.",
        figure=f"+{in_points(effect)}",
        figure_note="nights without heat",
        token="humid",
        weight=found.effect,
        sources=(_nights_counted("damp_unheated", found),),
    )


def _nights_counted(uid: str, found: KindOfNight) -> Source:
    return Source(csv=f"{uid}.csv", how="sum", column=found.name, value=float(found.nights))
