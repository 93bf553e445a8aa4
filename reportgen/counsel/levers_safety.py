"""What burns in the house, and what must not be tight beside it.

The rule. A fuel heater without a flue (`vented` left out counts as none) gives its fumes to the air of the house. What
*tightens* the house is told in events_tight.py.

- A tightening lever is *not while that burns here* where such a heater is the main heat, or gave heat while the lever
  was on. A backup counts by the days on which it burned: by the diary's own line for it where there is one, else by
  its book.
- Where such a heater is a backup that did not burn while the lever was on, the lever is kept on the condition that it
  is never lit behind it: the heater still belongs to the house. The same where a lever was undone.
- Of the heater itself fumes speak against it where it burned while any lever that tightens was on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import pandas as pd

from reportgen.counsel.events_tight import tight_levers, tightens
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import HeatSupply, Readings

FLAMELESS = frozenset({"electricity"})
Stretch = tuple[float, float]  # seconds since 1970


@dataclass(frozen=True, kw_only=True, slots=True)
class Burner:
    """A fuel heater without a flue; `lit`: when it gave heat; `lever`: the diary's own line for it, if there is one;
    `flue_unsaid`: season.toml does not say whether it has one."""

    name: str
    main: bool
    flue_unsaid: bool
    lit: tuple[Stretch, ...]
    lever: Lever | None


def hopes_of(lever: Lever, readings: Readings) -> tuple[str, ...]:
    """All that was hoped of a lever, in the order of its lines."""
    lines = (e for e in readings.diary if e.line in lever.lines)
    return tuple(dict.fromkeys(hope for entry in lines for hope in entry.hoped_for))


def burners(readings: Readings) -> tuple[Burner, ...]:
    """Every fuel heater without a flue that belongs to the house, in the order of season.toml."""
    found = []
    for supply in readings.heating:
        if supply.fuel in FLAMELESS or supply.vented:
            continue
        lever = _own_lever(supply.name, readings.levers)
        main, unsaid = supply.role == "main", supply.vented is None
        found.append(Burner(name=supply.name, main=main, flue_unsaid=unsaid, lit=_lit(supply, lever), lever=lever))
    return tuple(found)


def _own_lever(name: str, levers: Iterable[Lever]) -> Lever | None:
    """The lever that is this heater: it touches the heater, and its thing or its words name it."""
    wanted = " ".join(name.casefold().split())
    for lever in levers:
        told = " ".join(f"{lever.thing or ''} {lever.name}".casefold().split())
        if "heater" in lever.touches and wanted in told:
            return lever
    return None


def _lit(supply: HeatSupply, lever: Lever | None) -> tuple[Stretch, ...]:
    """When it gave heat: by the diary where it says so, within what its book tells."""
    table = supply.intervals
    burnt = table[table["heat_kwh"].fillna(table["bought"]).to_numpy(dtype=float) > 0] if len(table) else table
    book = [(_s(start), _s(end)) for start, end in zip(burnt["start"], burnt["end"], strict=True)]
    if lever is None:
        return tuple(book)
    return tuple((_s(state.from_), _s(state.to)) for state in lever.states if state.on)


def _s(moment: pd.Timestamp) -> float:
    return float(moment.timestamp())


def lit_with(burner: Burner, lever: Lever) -> bool:
    """Whether it gave heat at any time while the lever was on."""
    on = [(_s(state.from_), _s(state.to)) for state in lever.states if state.on]
    return any(max(a, c) < min(b, d) for a, b in on for c, d in burner.lit)


def burns_with(lever: Lever, burning: Iterable[Burner], readings: Readings) -> tuple[Burner, ...]:
    """Burners that forbid a lever that tightens: the main heat, or lit while it was on."""
    if not tightens(lever, readings):
        return ()
    return tuple(b for b in burning if b.lever is not lever and (b.main or lit_with(b, lever)))


def stays_beside(lever: Lever, burning: Iterable[Burner], readings: Readings) -> tuple[Burner, ...]:
    """Burners that belong to the house beside a lever that tightens, whether they burned or not."""
    return tuple(b for b in burning if b.lever is not lever) if tightens(lever, readings) else ()


def sealed_in(burner: Burner, readings: Readings) -> tuple[Lever, ...]:
    """Levers that tightened the house while it burned."""
    others = (lever for lever in tight_levers(readings) if lever is not burner.lever)
    return tuple(lever for lever in others if lit_with(burner, lever))
