"""The columns of one estimate: which days, the step, the other entries' steps, the weather; or why there is none."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from reportgen.effects.causes import Cause
from reportgen.effects.gls import Floats
from reportgen.problems import NotEnoughData

FEWEST_A_SIDE = 7  # days or nights; our own line
FEWEST_FREE = 6  # n − p; our own line
MOVES_ON_DAYS = 4  # a column that differs from its usual value on fewer days says nothing
STEP_LEFT = 0.05  # share of a step's own variation that the other steps must leave it
COLUMN_LEFT = 0.0025  # share of a weather column's variation that must be its own
COLDER_SD = 1.5  # sides whose outdoor nights differ by more pooled deviations cannot be set side by side …
COLDER_SD_PER_K = 2.0  # … where it is watts per kelvin, which has the cold divided out already
RANGE_SHARE = 0.5  # … nor can nights of which fewer than half lie in the other side's range …
RANGE_SLACK_K = 0.5  # … half a kelvin more on either end
HEATED_SHARE = 0.5  # of the days of a side: with fewer no heat is told, and no thermostat holds the nights
GROWS = "step by cold"  # the column by which an effect grows with the cold


class Refused(NotEnoughData):
    """Why there is no estimate, and what would have made it answerable."""

    def __init__(self, reason: str, answerable: str, blocked_by: Sequence[str] = ()) -> None:
        super().__init__(reason)
        self.answerable = answerable
        self.blocked_by = tuple(blocked_by)


@dataclass(frozen=True, kw_only=True, slots=True)
class Design:
    """Columns of one estimate: `x` shape (n, p), column 0 ones, column 1 the step; weather columns are centred."""

    x: Floats
    names: tuple[str, ...]
    weather: tuple[str, ...]


def moves(values: Floats) -> bool:
    """The values, shape (n,) in any unit, differ from their commonest on at least four days."""
    _, counts = np.unique(np.round(values, 9), return_counts=True)
    return bool(len(values) - counts.max() >= MOVES_ON_DAYS)


def design(
    step: Floats,
    others: Mapping[str, Floats],
    lag: Floats | None,
    weather: Mapping[str, Floats],
    cold: Floats | None = None,
) -> Design:
    """The columns of one estimate.

    Args:
        step: 0 before, 1 after (or off and on), shape (n,).
        others: Steps of other entries by name; those without days on both sides are left out.
        lag: Yesterday's value where the outcome remembers (soil), else None.
        weather: Weather columns in the order in which they are to be tried.
        cold: How cold each day was where the effect grows with it (heat), else None: the step is then the effect at
            the mean cold of the days after (or on).

    Raises:
        Refused: The step cannot be told from another entry's, or too few days are left for the columns.
    """
    columns, names = [np.ones(len(step)), step], ["level", "step"]
    for name, other in others.items():
        if 0 < other.sum() < len(other) and _own_share(other, [np.ones(len(step)), *columns[2:]]) > 1e-6:
            columns.append(other)
            names.append(name)
    if len(columns) > 2 and _own_share(step, [columns[0], *columns[2:]]) < STEP_LEFT:
        _refuse_twins(step, dict(zip(names[2:], columns[2:], strict=True)))
    if lag is not None:
        columns.append(lag - lag.mean())
        names.append("yesterday")
    if cold is not None and _add_weather(columns, {GROWS: step * (cold - cold[step == 1].mean())}):
        names.append(GROWS)
    used = _add_weather(columns, weather)
    x = np.column_stack(columns)
    if len(step) - x.shape[1] < FEWEST_FREE:
        words = f"{len(step)} usable days are too few for {x.shape[1]} things that could explain them"
        raise Refused(words, "more days without another change around it")
    return Design(x=x, names=(*names, *used), weather=used)


def _own_share(column: Floats, others: Sequence[Floats]) -> float:
    """Share of a column's centred sum of squares that the others cannot explain."""
    centred = column - column.mean()
    total = float(centred @ centred)
    if total <= 0:
        return 0.0
    base = np.column_stack(others)
    left = column - base @ np.linalg.lstsq(base, column, rcond=None)[0]
    return float(left @ left) / total


def _refuse_twins(step: Floats, others: Mapping[str, Floats]) -> None:
    one = np.ones(len(step))
    closest = min(others, key=lambda name: _own_share(step, [one, others[name]]))
    raise Refused(
        f"it cannot be told from “{closest}”: both came into force on nearly the same days",
        f"a fortnight between it and “{closest}”, or one of the two switched off again for some nights",
        (closest,),
    )


def _add_weather(columns: list[Floats], weather: Mapping[str, Floats]) -> tuple[str, ...]:
    used = []
    for name, values in weather.items():
        if moves(values) and _own_share(values, columns) >= COLUMN_LEFT:
            columns.append(values - values.mean())
            used.append(name)
    return tuple(used)


USABLE = "with readings that can be used"


def check_sides(
    step: Floats,
    words: tuple[str, str],
    usable: str = USABLE,
    lost: Callable[[bool], str] = lambda on: "",
) -> None:
    """Refuse under seven usable days on a side.

    Args:
        step: 0 before, 1 after (or off and on), shape (n,); no unit.
        words: What the two sides are called.
        usable: What made a night count.
        lost: What the other nights of a side (True: after, on) were lost to, in words; empty where that is not known.

    Raises:
        Refused: A side has too few.
    """
    for count, side in ((int((step == 0).sum()), words[0]), (int((step == 1).sum()), words[1])):
        if count < FEWEST_A_SIDE:
            nights = "no night" if count == 0 else f"only {count} {'night' if count == 1 else 'nights'}"
            reason = f"{nights} {side} {usable}; at least {FEWEST_A_SIDE} are needed"
            why = lost(side == words[1])
            reason = f"{reason} ({why})" if why else reason
            raise Refused(reason, f"a week or more of such nights {side}, with nothing else changed in them")


def check_weather_alike(
    step: Floats, outdoor_night: Floats, words: tuple[str, str] = ("before", "after"), colder_sd: float = COLDER_SD
) -> None:
    """Refuse where the outdoor nights of the two sides were too different to be set side by side.

    Args:
        step: 0 before, 1 after (or off and on), shape (n,).
        outdoor_night: Mean outdoors of each night [°C], shape (n,).
        words: What the two sides are called.
        colder_sd: Pooled standard deviations by which their means may differ.

    Raises:
        Refused: Their means lie too far apart, or too few nights after lie in the range of those before.
    """
    before, after = outdoor_night[step == 0], outdoor_night[step == 1]
    pooled = np.sqrt(((len(before) - 1) * before.var(ddof=1) + (len(after) - 1) * after.var(ddof=1)) / (len(step) - 2))
    apart = float(after.mean() - before.mean())
    inside = (after >= before.min() - RANGE_SLACK_K) & (after <= before.max() + RANGE_SLACK_K)
    if abs(apart) > colder_sd * pooled or inside.mean() < RANGE_SHARE:
        colder = "colder" if apart < 0 else "milder"
        raise Refused(
            f"the nights {words[1]} were too much {colder} than those {words[0]} to be set side by side",
            "the same change switched on and off through the same weather",
        )


def check_heated(step: Floats, heated: Floats) -> None:
    """Refuse heat where fewer than half the days of a side were heated.

    `step`: 0 before, 1 after (or off and on); `heated`: 1 where any hour of the day was, 0 where none, NaN where that
    is not known; shapes (n,), no unit.

    Raises:
        Refused: They were.
    """
    if not mostly_heated(step, heated):
        raise Refused(
            "the house was heated on fewer than half the days of one side",
            "the same change in a stretch of winter in which the heating runs on most days",
        )


def mostly_heated(step: Floats, heated: Floats) -> bool:
    """Whether at least half the days of each side were heated; a side of which nothing is known was not.

    `step`: 0 before, 1 after (or off and on); `heated`: 1 where any hour of the day was, 0 where none, NaN where that
    is not known; shapes (n,), no unit.
    """
    known = ~np.isnan(heated)
    sides = (heated[known & (step == on)] for on in (0, 1))
    return all(len(side) > 0 and float(side.mean()) >= HEATED_SHARE for side in sides)


def named(causes: Sequence[Cause], days: Floats) -> dict[str, Floats]:
    """Steps of other causes (0 or 1, no unit) by name, shapes as `days`; two of one name get a number."""
    out: dict[str, Floats] = {}
    for cause in causes:
        name = " + ".join(cause.names)
        while name in out:
            name += " (again)"
        out[name] = cause.on(days)
    return out
