"""What a heater or an appliance drew, by its logger's own step: with draw, without, or not known.

An hour's mean cannot tell when heat stopped or how long a compressor ran; the stretches between two readings can.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.measures.exposure import Floats, to_seconds
from reportgen.measures.heating_hours import HEATED_SHARE
from reportgen.readings.join import HELD_S, joined
from reportgen.readings.types import Channel, Readings
from reportgen.units import MEASURES, of_kind

Bools = NDArray[np.bool_]
OF_A_PLUG = of_kind("counter", "power", "switch")  # the first that a plug or a switch has


@dataclass(frozen=True, kw_only=True, slots=True)
class Draw:
    """n stretches between neighbouring readings of one logger, in order of time.

    `starts`, `ends`: seconds since 1970. `amount`: mean power [W] of a counter or power log, 0 or 1 of a switch.
    `known`: False where the record has a gap. `counter`: only a sum is known of each stretch, so one with draw may
    hold a pause. `least_kwh`: the smallest step of a counter [kWh], 0 of other logs. All shapes (n,).
    """

    starts: Floats = field(repr=False)
    ends: Floats = field(repr=False)
    amount: Floats = field(repr=False)
    known: Bools = field(repr=False)
    counter: bool
    switch: bool = False
    least_kwh: float = 0.0

    @property
    def drew(self) -> Bools:
        """Stretches with draw: above 2 % of the largest; a plug's own standby is none; shape (n,)."""
        largest = float(self.amount[self.known].max(initial=0.0))
        return np.asarray(self.known & (self.amount > max(HEATED_SHARE * largest, 1e-9)))

    @property
    def idle(self) -> Bools:
        """Stretches of which the record says that nothing was drawn; shape (n,)."""
        return np.asarray(self.known & ~self.drew)

    @property
    def hours(self) -> Floats:
        """Length of every stretch [h]; shape (n,)."""
        return np.asarray((self.ends - self.starts) / 3600.0)


def draw_of(readings: Readings, name: str) -> Draw | None:
    """The draw of the heater or appliance of that name; None where no logger tells it."""
    loggers = [s.logger for s in readings.season.heating if s.name == name]
    loggers += [s.logger for s in readings.season.appliances if s.name == name]
    logger = next(iter(loggers), None)
    if logger is None:
        return None
    channel = next((c for m in OF_A_PLUG if (c := readings.channel(logger, m)) is not None), None)
    return drawn(channel) if channel is not None and len(channel.values) > 1 else None


def drawn(channel: Channel) -> Draw:
    """The stretches of one channel of a counter, a power log or a switch."""
    seconds, values = to_seconds(pd.DatetimeIndex(channel.values.index)), channel.values.to_numpy(dtype=np.float64)
    kind = MEASURES[channel.measure].kind
    if kind == "counter":
        return _of_counter(seconds, values)
    if kind == "power":
        mean = (values[:-1] + values[1:]) / 2
        return Draw(starts=seconds[:-1], ends=seconds[1:], amount=mean, known=joined(seconds), counter=False)
    return _of_switch(seconds, values)


def _of_counter(seconds: Floats, values: Floats) -> Draw:
    """Rises of a counter; where it fell (a reset, a slip) nothing is known of that stretch."""
    rise = np.diff(values)
    up = rise[rise > 1e-9]
    return Draw(
        starts=seconds[:-1],
        ends=seconds[1:],
        amount=np.maximum(rise, 0.0) * 3.6e6 / np.diff(seconds),
        known=joined(seconds) & (rise >= 0),
        counter=True,
        least_kwh=float(up.min()) if len(up) else 0.0,
    )


def _of_switch(seconds: Floats, values: Floats) -> Draw:
    """States of a switch; a log that writes at a switch holds its last value for at most 24 h (readings/logged_use)."""
    at_a_switch = float(np.mean(np.diff(values) != 0)) > 0.5
    ends = np.minimum(seconds[1:], seconds[:-1] + HELD_S) if at_a_switch else seconds[1:]
    known = np.ones(len(ends), dtype=bool) if at_a_switch else joined(seconds)
    return Draw(starts=seconds[:-1], ends=ends, amount=values[:-1], known=known, counter=False, switch=True)


def idle_runs(draws: Sequence[Draw], least_h: float = 0.0) -> list[tuple[float, float]]:
    """Stretches [s since 1970] in which every one of them is known to have drawn nothing, from the first draw of any
    to the last; neighbours are one.

    Args:
        draws: Of one heater, or of several that heat together.
        least_h: Shorter ones are left out [h]; a counter must besides have had the time for two of its steps.
    """
    if not draws or not any(d.drew.any() for d in draws):
        return []
    first = min(float(d.starts[d.drew].min()) for d in draws if d.drew.any())
    last = max(float(d.ends[d.drew].max()) for d in draws if d.drew.any())
    runs = [(first, last)]
    for draw in draws:
        runs = _common(runs, _runs_of(draw, least_h * 3600.0))
    return [(a, b) for a, b in runs if b - a >= least_h * 3600.0]


def _runs_of(draw: Draw, least_s: float) -> list[tuple[float, float]]:
    starts, ends = draw.starts[draw.idle], draw.ends[draw.idle]
    if not len(starts):
        return []
    new = np.concatenate([[True], starts[1:] - ends[:-1] > 1.0])
    first = np.flatnonzero(new)
    last = np.concatenate([first[1:], [len(starts)]]) - 1
    pairs, shortest = zip(starts[first].tolist(), ends[last].tolist(), strict=True), _shortest_s(draw)
    return [(a, b) for a, b in pairs if b - a >= max(least_s, shortest)]


def _shortest_s(draw: Draw) -> float:
    """How long a counter must stand still before that means no draw: two of its steps at its usual power."""
    if not draw.least_kwh or not draw.drew.any():
        return 0.0
    usual_w = float(np.average(draw.amount[draw.drew], weights=draw.hours[draw.drew]))
    return 2 * draw.least_kwh * 3.6e6 / usual_w


def _common(some: list[tuple[float, float]], others: list[tuple[float, float]]) -> list[tuple[float, float]]:
    both = [(max(a, c), min(b, d)) for a, b in some for c, d in others if min(b, d) > max(a, c)]
    return sorted(both)
