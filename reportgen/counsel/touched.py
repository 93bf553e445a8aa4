"""What a lever touches, and the caution that stands beside it in a house in which something burns."""

from __future__ import annotations

from collections.abc import Collection

from reportgen.counsel import cautions
from reportgen.counsel.grounds import JudgedLever
from reportgen.counsel.results import Results
from reportgen.season.sources import HeatSource

CARRIES_OVER = frozenset({"water", "bed"})  # what lasts for weeks: changed once, never on and off
NEVER_SWITCHED = CARRIES_OVER | {"heater", "thermostat"}  # nor the last heat, nor the dial over tender crops


def burners(r: Results) -> tuple[HeatSource, ...]:
    """Heaters that burn fuel."""
    return tuple(source for source in r.season.heating if source.fuel != "electricity")


def unvented(r: Results) -> tuple[HeatSource, ...]:
    """Burners whose fumes stay inside, or of which nobody said that they leave."""
    return tuple(source for source in burners(r) if not source.vented)


def flue_words(name: str) -> str:
    """What a grower who left the key out is told, in the same words everywhere."""
    return f"season.toml does not say whether the {name} has a flue"


def caution_of(r: Results, touches: Collection[str], *names: str | None) -> str | None:
    """The usual caution for doing it, or doing it otherwise.

    Args:
        names: What it is called; an appliance of season.toml is known by its name or kind.
    """
    fuels: set[str] = {source.fuel for source in r.season.heating}
    told = [cautions.SEAL] if burners(r) and {"envelope", "air"} & set(touches) else []
    if {"heater", "thermostat"} & set(touches):
        told.append(cautions.heating(fuels))
    if "light" in touches or _on_mains(r, names):
        told.append(cautions.MAINS)
    return joined(told)


def caution_of_lever(r: Results, lever: JudgedLever) -> str | None:
    """That of what the lever touches."""
    told = caution_of(r, lever.touches, lever.name, lever.thing)
    return joined([cautions.FUEL, told or cautions.SEAL]) if lever.unsafe_with else told


def joined(parts: Collection[str | None]) -> str | None:
    """Cautions one after the other, each sentence once, the line on local codes at the end."""
    split = [part.strip() for told in parts if told for part in told.split(cautions.LOCAL)]
    kept = list(dict.fromkeys(part for part in split if part))
    return " ".join([*kept, cautions.LOCAL]) if kept else None


def _on_mains(r: Results, names: Collection[str | None]) -> bool:
    called = " ".join(name.casefold() for name in names if name)
    return any(word.casefold() in called for a in r.season.appliances for word in (a.name, a.kind or a.name))
