"""More findings of the heat: the heater at its limit, water from a flame, appliances that heat too, no heat known."""

from __future__ import annotations

from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost_next import flat_out_words
from reportgen.counsel.types import Finding, Source
from reportgen.wording import NBSP, are, count, number

FLAT_OUT_H = 6.0  # hours at full power before it is worth a sentence; our own line
APPLIANCE_SHARE = 0.05
GAS_WATER_KG = 1.0


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="heat", **more)


def flat_out(facts: Facts) -> Finding | None:
    """The heater at its limit."""
    worst = max(facts.r.heat.sources, key=lambda s: s.hours_flat_out or 0.0, default=None)
    if worst is None or (worst.hours_flat_out or 0.0) < FLAT_OUT_H:
        return None
    hours = worst.hours_flat_out or 0.0
    below = flat_out_words(facts)
    return _finding(
        "heater-flat-out",
        claim=f"The {worst.name} ran flat out for {facts.w.hours(hours)}: in those hours it could give no more.",
        evidence=f"{count(hours, 'hour')} at 95 % or more of its rated power.{below}".replace(" %", f"{NBSP}%"),
        how_sure="Sure if the rated power in season.toml is what it draws.",
        next_step="Cover the crop inside when such cold is forecast; colder than that, the house follows the outdoors.",
        caution=" ".join((cautions.heating(facts.fuels), cautions.ALONE)).strip(),
        figure=facts.w.hours(hours),
        figure_note=f"{worst.name} flat out",
        token="warm",
        anchor="heat_sources",
        stake="crop at risk",
        sure="sure",
        weight=hours,
        sources=(Source(csv="heat_sources.csv", how="max", column="hours flat out", value=hours),),
    )


def unvented(facts: Facts) -> Finding | None:
    """Water that a flame without a flue sets free in the house."""
    burners = [s for s in facts.r.heat.sources if s.vented is False and s.fuel != "electricity" and s.kwh]
    if not burners:
        return None
    w = facts.w
    water = sum(s.water_kg or 0.0 for s in burners)
    names = " and ".join(s.name for s in burners)
    told = f" and set about {w.mass(water, 0)} of water free in it" if water >= GAS_WATER_KG else ""
    return _finding(
        "fumes-in-the-house",
        claim=f"The {names} burned without a flue: {are(len(burners), 'its', 'their')} fumes stayed in the house"
        f"{told}.",
        evidence=f"{facts.w.kwh(sum(s.kwh or 0.0 for s in burners))} of heat; the water follows from the fuel burned.",
        how_sure="Sure for the water, by the chemistry of burning; nothing here measured the gases.",
        next_step="Use it only with fresh air and a carbon monoxide alarm, and look at the Damp page for the nights on "
        "which it ran.",
        caution=cautions.FUEL,
        figure=f"{number(water)}{NBSP}kg" if told else facts.w.kwh(sum(s.kwh or 0.0 for s in burners)),
        figure_note="of water from the flame" if told else "of heat without a flue",
        token="humid",
        anchor="heat_sources",
        stake="damp",
        sure="sure",
        weight=water,
    )


def appliances(facts: Facts) -> Finding | None:
    """What lamps, fans and dehumidifiers gave."""
    h, w = facts.r.heat, facts.w
    given, whole = h.appliances_kwh, (h.kwh or 0.0) + h.appliances_kwh
    if h.kwh is None or whole <= 0 or given < APPLIANCE_SHARE * whole:
        return None
    costs = [a.cost for a in h.appliances]
    money = f" for {w.money(sum(c for c in costs if c is not None))}" if all(c is not None for c in costs) else ""
    names = ", ".join(a.name for a in h.appliances)
    share = w.percent(100 * given / whole)
    return _finding(
        "appliances-heat-too",
        claim=f"{share} of the heat came from the {names}: {w.kwh(given)}{money}.",
        evidence="All that such an appliance draws ends as heat in the house; it is counted in the heat loss and shown "
        "apart in the money.",
        how_sure="Sure as far as its use was logged; by rated power and hours it is an estimate.",
        next_step="Count it when you judge what it costs: on heated nights its heat spares the heater as much.",
        caution=cautions.MAINS,
        figure=share,
        figure_note="of the heat",
        token="neutral",
        anchor="heat_sources",
        stake="money",
        sure="fairly sure",
        weight=0.0,
    )


def no_heat_known(facts: Facts) -> Finding | None:
    """A heater without any reading."""
    h = facts.r.heat
    if not facts.r.season.heating or h.kwh:
        return None
    if h.kwh == 0.0:
        return None
    return _finding(
        "heat-not-known",
        claim="What the heater gave is not known, so a degree of hold has no price here.",
        evidence=f"{str(h.reasons.get('kwh', 'its readings are missing'))[:1].upper()}"
        f"{str(h.reasons.get('kwh', 'its readings are missing'))[1:]}.",
        how_sure="Cannot tell.",
        next_step="Put a plug-in meter with a log on it, or write down the meter once a week at the same hour.",
        caution=cautions.MAINS,
        figure="—",
        figure_note="heat not known",
        anchor="heat_missing",
        stake="record",
        sure="cannot tell",
        weight=3.0,
    )
