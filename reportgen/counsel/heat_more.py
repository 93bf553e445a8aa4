"""More findings of the heat: the heater at its limit, a flame without a flue, no heat known."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost_next import flat_out_words
from reportgen.counsel.types import Said, Source
from reportgen.wording import NBSP, are, count

FLAT_OUT_H = 6.0  # hours at full power before it is worth a sentence; our own line
GAS_WATER_KG = 1.0


def flat_out(facts: Facts) -> Said | None:
    """The heater at its limit, where its size could not be told."""
    if facts.r.heat.heater_needed_w.to_buy is not None and facts.r.heat.heater_needed_w.coldest_hour is not None:
        return None
    worst = max(facts.r.heat.sources, key=lambda s: s.hours_flat_out or 0.0, default=None)
    if worst is None or (worst.hours_flat_out or 0.0) < FLAT_OUT_H:
        return None
    hours = worst.hours_flat_out or 0.0
    below = flat_out_words(facts)
    return Said(
        claim=f"The {heater(worst.name)} ran flat out for {facts.w.hours(hours)}: in those hours it could give "
        "no more.",
        evidence=f"{count(hours, 'hour')} at 95 % or more of its rated power.{below}".replace(" %", f"{NBSP}%"),
        how_sure="Sure if the rated power in season.toml is what it draws.",
        next_step="Draw fleece over the crop at dusk, clear of the heater, when cold is forecast that the "
        f"{heater(worst.name)} cannot hold.",
        caution=cautions.ALONE,
        figure=facts.w.hours(hours),
        figure_note=f"{heater(worst.name)} flat out",
        token="warm",
        about=worst.name,
        weight=hours,
        sources=(Source(csv="heat_sources.csv", how="max", column="hours flat out", value=hours),),
    )


def unvented(facts: Facts) -> Said | None:
    """A flame without a flue, where no event tells of it."""
    if any(event.kind == "safety" and event.source for event in facts.on.events):
        return None
    burners = [s for s in facts.r.heat.sources if s.vented is False and s.fuel != "electricity" and s.kwh]
    if not burners:
        return None
    w = facts.w
    water = sum(s.water_kg or 0.0 for s in burners)
    names = " and ".join(heater(s.name) for s in burners)
    told = f" and set about {w.mass(water, 0)} of water free in it" if water >= GAS_WATER_KG else ""
    return Said(
        claim=f"The {names} burned without a flue: {are(len(burners), 'its', 'their')} fumes stayed in the house"
        f"{told}.",
        evidence=f"{facts.w.kwh(sum(s.kwh or 0.0 for s in burners))} of heat; the water follows from the fuel burned.",
        how_sure="Sure for the water, by the chemistry of burning; nothing here measured the gases.",
        next_step=f"Burn the {names} only with fresh air coming in and a carbon monoxide alarm that works, or replace "
        f"{are(len(burners), 'it', 'them')}.",
        caution=cautions.FUEL,
        figure=w.mass(water, 0) if told else facts.w.kwh(sum(s.kwh or 0.0 for s in burners)),
        figure_note="of water from the flame" if told else "of heat without a flue",
        token="humid",
        about=burners[0].name,
        weight=water,
        sources=(
            Source(
                csv="heat_sources.csv",
                how="sum",
                column=f"water set free {w.mass_unit}",
                value=sum(w.mass_value(s.water_kg or 0.0) for s in facts.r.heat.sources),
            ),
        ),
    )


def no_heat_known(facts: Facts) -> Said | None:
    """A heater without any reading."""
    h = facts.r.heat
    if not facts.r.season.heating or h.kwh:
        return None
    if h.kwh == 0.0:
        return None
    return Said(
        claim="What the heater gave is not known, so a degree of hold has no price here.",
        evidence=f"{str(h.reasons.get('kwh', 'its readings are missing'))[:1].upper()}"
        f"{str(h.reasons.get('kwh', 'its readings are missing'))[1:]}.",
        how_sure="Cannot tell.",
        next_step="Put a plug-in meter with a log on it, or write down the meter once a week at the same hour.",
        figure="—",
        figure_note="heat not known",
        weight=3.0,
    )
