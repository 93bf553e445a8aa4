"""Findings on nights of one kind: after watering, without heat, after days in which the bed had cooled."""

from __future__ import annotations

from datetime import date, timedelta

import pandas as pd

from reportgen.counsel.facts import Facts
from reportgen.counsel.nights import Nights, compared, unheated, watered
from reportgen.counsel.types import Finding, Source
from reportgen.effects.outcomes import DayTable
from reportgen.wording import NBSP, count, day, digits_for, number
from reportgen.wording import points as in_points

DRAIN_K = 1.0  # the bed cooled by this in the three days before the coldest night


def points(found: Nights) -> tuple[str, str, str]:
    """Effect, low and high of a difference in humidity, rounded by the interval's half-width."""
    e = found.estimate
    digits = digits_for((e.high - e.low) / 2)
    return number(e.effect, digits), number(e.low, digits), number(e.high, digits)


def watering(facts: Facts, days: DayTable) -> Finding | None:
    """Nights after watering are damper; silent where the interval holds zero."""
    found = compared(days, "night_humidity", watered(facts.r))
    if found is None or found.estimate.low <= 0:
        return None
    effect, low, high = points(found)
    return Finding(
        slug="damp-after-watering",
        page="damp",
        claim=f"Nights after watering were {in_points(effect)} more humid than other nights, at equal weather.",
        evidence=f"{count(found.kind, 'night')} after watering against {count(found.others, 'other')}; 95{NBSP}% "
        f"interval {low} to {in_points(high)} of relative humidity.",
        how_sure="Fairly sure that such nights are damper. You may water on sunny days, and only a light sensor "
        "outdoors lets that be taken out.",
        next_step="Water in the morning of a day that lets you air, and only the beds that need it.",
        figure=f"+{in_points(effect)}",
        figure_note="nights after watering",
        token="humid",
        anchor="damp_watering",
        stake="damp",
        sure="fairly sure",
        weight=found.estimate.effect,
        holds_for="this kind of cover",
        sources=(_nights_counted("damp_watering", "after watering", found),),
    )


def heater_off(facts: Facts, days: DayTable) -> Finding | None:
    """Nights on which the heater stayed off are damper, the weather taken out as far as it can be."""
    found = compared(days, "night_humidity", unheated(days))
    if found is None or found.estimate.low <= 0:
        return None
    effect, low, high = points(found)
    return Finding(
        slug="damp-with-the-heater-off",
        page="damp",
        claim=f"Nights on which the heater stayed off were {in_points(effect)} more humid, at equal weather.",
        evidence=f"{count(found.kind, 'night')} off against {number(found.others)} with heat; 95{NBSP}% interval "
        f"{low} to {in_points(high)} of relative humidity.",
        how_sure="A hint: a thermostat chooses its own nights, and mild nights are moist ones.",
        next_step="On mild damp evenings try an hour of airing before dusk rather than heat, and write it in the "
        "diary.",
        figure=f"+{in_points(effect)}",
        figure_note="nights without heat",
        token="humid",
        anchor="damp_unheated",
        stake="damp",
        sure="a hint",
        weight=found.estimate.effect,
        sources=(_nights_counted("damp_unheated", "without heat", found),),
    )


def _nights_counted(uid: str, column: str, found: Nights) -> Source:
    return Source(csv=f"{uid}.csv", how="sum", column=column, value=float(found.kind))


def bed_drained(facts: Facts, days: DayTable) -> Finding | None:
    """The bed had cooled by a kelvin and more in the three days before the coldest night."""
    at = facts.at("frost.minimum.at")
    if at is None or "soil_mean" not in days.outcomes:
        return None
    night = night_of(pd.Timestamp(at))
    soil = days.outcomes["soil_mean"]
    before, after = soil.get(night - timedelta(days=4)), soil.get(night - timedelta(days=1))
    if before is None or after is None or pd.isna(before) or pd.isna(after) or before - after < DRAIN_K:
        return None
    lost = facts.w.diff(before - after)
    first, last = day(night - timedelta(days=4)), day(night - timedelta(days=1))
    return Finding(
        slug="bed-drained-before-the-cold",
        page="soil",
        claim=f"The bed had already lost {lost} in the three days before the coldest night.",
        evidence=f"Daily means of the soil probe, {first} to {last}; the coldest night was that of {day(night)}.",
        how_sure="Fairly sure for the place of the probe.",
        next_step="When a cold spell is forecast, shut the house early on the sunny days before it, so that the bed "
        "goes into it warm.",
        figure=lost,
        figure_note="lost before the cold",
        token="soil",
        anchor="soil_days",
        stake="growth",
        sure="fairly sure",
        weight=float(before - after),
    )


def night_of(at: pd.Timestamp) -> date:
    """The evening whose night holds this instant: 5 o'clock on the 14th belongs to the night of the 13th."""
    return (at - pd.Timedelta(hours=12)).date()
