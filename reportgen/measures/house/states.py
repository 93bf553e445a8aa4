"""What the house was from when to when: the combination of its envelope and air levers, on or off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.hours import Ints
from reportgen.readings.lever_types import Lever
from reportgen.readings.types import Readings

TOUCH = frozenset({"envelope", "air"})
HOPES = frozenset({"warmer nights", "less heating"})
SHORTEST_H = 240  # a state that lasted less than ten days in all is told with the one before it


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseState:
    """One combination of levers. `on`: the names of those that were on; `hours`: how long it lasted in all."""

    number: int
    on: tuple[str, ...]
    hours: int


def states_of(readings: Readings, seconds: Floats) -> tuple[Ints, tuple[HouseState, ...]]:
    """The number of the state of every hour, shape (n,), and the states in the order in which they first were.

    Spells that come and go are one state on and one off. A combination that lasted under ten days in all takes the
    number of the one before it in time.
    """
    levers = [lever for lever in readings.levers if TOUCH & set(lever.touches) and _counts(lever, readings)]
    keys = [tuple(row) for row in np.column_stack([_on(lever, seconds) for lever in levers]).tolist()] if levers else []
    if not keys:
        return np.zeros(len(seconds), dtype=np.int64), (HouseState(number=0, on=(), hours=len(seconds)),)
    lasted = {key: keys.count(key) for key in dict.fromkeys(keys)}
    order: dict[tuple[bool, ...], int] = {}
    numbers, current = [], -1
    longest = max(lasted, key=lambda key: lasted[key])
    for key in keys:
        if lasted[key] >= SHORTEST_H or key == longest:
            current = order.setdefault(key, len(order))
        numbers.append(current)
    state = np.array(numbers, dtype=np.int64)
    state[state < 0] = 0
    named = {number: key for key, number in order.items()}
    return state, tuple(
        HouseState(
            number=n,
            on=tuple(lever.name for lever, on in zip(levers, named[n], strict=True) if on),
            hours=int((state == n).sum()),
        )
        for n in range(len(order))
    )


def _counts(lever: Lever, readings: Readings) -> bool:
    """Whether it was hoped to save heat or to warm, or nothing was hoped for."""
    hopes = {hope for entry in readings.diary if entry.line in lever.lines for hope in entry.hoped_for}
    return bool(hopes & HOPES) or not hopes


def _on(lever: Lever, seconds: Floats) -> np.ndarray:
    out = np.zeros(len(seconds), dtype=bool)
    for state in lever.states:
        if state.on:
            out |= (seconds >= state.from_.timestamp()) & (seconds < state.to.timestamp())
    return out
