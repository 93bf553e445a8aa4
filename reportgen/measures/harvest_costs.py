"""What a kilogram cost, counted three ways: heat alone, everything that was used up, and everything by its years."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from reportgen.measures.harvest_things import HOURS, Thing, things
from reportgen.measures.heat_sums import cost_of
from reportgen.readings.types import Readings

Group = Literal["heat", "appliance", "used up", "by its years"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """One line of what the winter cost. `paid` and `years`: of a thing that lasts. `book`: diary.csv or costs.csv, or
    empty. `before`: it stands in last winter's books."""

    what: str
    group: Group
    amount: float
    paid: float | None = None
    years: float | None = None
    book: str = ""
    before: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class CostBars:
    """Money of the winter and per kg.

    `heat`: heaters. `running`: heat, appliances and what was used up within a year; None where nothing but heat was
    noted. `everything`: the one before and each longer-lived thing's price ÷ its years; None where nothing of the kind
    was noted. `parts` add up to the last that is there. `without_price`: appliances whose use nobody priced, which are
    in none of them. `twice`, `past`: see harvest_things. `hours`: of the grower's own work, rows of costs.csv of the
    kind `hours`; they are no money and in no bar. All None where the heaters' cost is not known.
    """

    heat: float | None
    running: float | None
    everything: float | None
    heat_per_kg: float | None
    running_per_kg: float | None
    everything_per_kg: float | None
    parts: tuple[Part, ...]
    without_price: tuple[str, ...] = ()
    twice: tuple[str, ...] = ()
    past: tuple[str, ...] = ()
    hours: float | None = None
    reasons: Mapping[str, str] = field(default_factory=dict)

    def named(self, group: Group) -> tuple[str, ...]:
        """What is in a group."""
        return tuple(part.what for part in self.parts if part.group == group)


def cost_bars(readings: Readings, heat: float | None, kg: float | None, last: Readings | None = None) -> CostBars:
    """The three bars [money, and money a kilogram], and what is in them.

    `heat`: cost of the season's heat [money]; `kg`: what was picked. Things of the books of `last` that still serve are
    in them too.
    """
    bought = things(readings, last)
    appliances = {supply.name: cost_of(supply).value for supply in readings.appliances}
    parts = [*_heat(readings, heat), *_priced(appliances), *(_part(thing) for thing in bought.counted)]
    order: tuple[Group, ...] = ("heat", "appliance", "used up", "by its years")
    parts.sort(key=lambda part: order.index(part.group))
    sums = {group: [part.amount for part in parts if part.group == group] for group in order}
    start = heat if heat is not None else (0.0 if not readings.heating else None)
    extra, lasting = sums["appliance"] + sums["used up"], sums["by its years"]
    running = start + sum(extra) if start is not None and extra else None
    before = start if running is None else running
    everything = before + sum(lasting) if before is not None and lasting else None
    worked = [cost.amount for cost in readings.costs if cost.kind.casefold() == HOURS]

    def per_kg(amount: float | None) -> float | None:
        return amount / kg if amount is not None and kg else None

    return CostBars(
        heat=heat,
        running=running,
        everything=everything,
        heat_per_kg=per_kg(heat),
        running_per_kg=per_kg(running),
        everything_per_kg=per_kg(everything),
        parts=tuple(parts),
        without_price=tuple(name for name, cost in appliances.items() if cost is None),
        twice=bought.twice,
        past=bought.past,
        hours=sum(worked) if worked else None,
        reasons={} if start is not None else {"running": "the cost of the heat is not known"},
    )


def _heat(readings: Readings, heat: float | None) -> list[Part]:
    if heat is None:
        return []
    costs = {supply.name: cost_of(supply).value for supply in readings.heating}
    return [Part(what=name, group="heat", amount=cost) for name, cost in costs.items() if cost is not None]


def _priced(appliances: Mapping[str, float | None]) -> list[Part]:
    return [Part(what=name, group="appliance", amount=cost) for name, cost in appliances.items() if cost is not None]


def _part(thing: Thing) -> Part:
    lasts = {"paid": thing.amount, "years": thing.years} if thing.lasts else {}
    group: Group = "by its years" if thing.lasts else "used up"
    return Part(what=thing.what, group=group, amount=thing.share, book=thing.book, before=thing.before, **lasts)
