"""Why too few nights of a side can be used: what each of the others lacked, by name.

Each night is lost to the first thing it lacks: it belongs to another change or event; a reading that the outcome needs
was not there; the night did not count (not heated, not warm enough); a weather reading was not there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.effects.gls import Floats
from reportgen.effects.heat_days import HeatDays
from reportgen.effects.spared import Bools
from reportgen.effects.weather import WORDS
from reportgen.measures.heat_nights import HEATED_ENOUGH_H, LIFT_ENOUGH_K

MOST = 2  # so many causes are named
NOT_LOGGED = "was not logged"


@dataclass(frozen=True, kw_only=True, slots=True)
class Need:
    """Something that a night must have to count; `words` say what it lacked: “the heat was not logged”."""

    words: str
    there: Bools


def needs_of(outcomes: pd.DataFrame, air: Mapping[str, Bools], heat: HeatDays) -> dict[str, tuple[Need, ...]]:
    """What each outcome needs of a night, in the order in which it is looked for.

    Args:
        outcomes: A column an outcome, index = dates.
        air: By the words of the reading (“the air beside the crop”), whether the night has it; shapes (days,).
        heat: The heat of every day.
    """
    lift = tuple(Need(words=f"{name} {NOT_LOGGED}", there=there) for name, there in air.items())
    found = {"lift": lift, "night_minimum": lift}
    table = heat.table
    sums = table["only_sums"].to_numpy(dtype=np.float64) == 1.0
    names = " and ".join(heat.large_sums)
    by_sums = Need(words=f"the heat of {names} is known only as a sum over days", there=~sums)
    found["heat"] = (by_sums, Need(words=f"the heaters' heat {NOT_LOGGED}", there=_known(table["kwh"]) | sums))
    found["watts_per_kelvin"] = (
        by_sums,
        Need(words=f"the heaters' heat {NOT_LOGGED}", there=_known(table["night_w"]) | sums),
        *lift,
        Need(words="the heaters ran for fewer than 7 of 10 hours", there=_at_least(table["night_heated_h"])),
    )
    if "lift" in outcomes:
        warm = ~(outcomes["lift"].to_numpy(dtype=np.float64) <= LIFT_ENOUGH_K)
        cool = Need(words="the house was less than 3\u00a0K (5\u00a0°F) warmer than outdoors", there=warm)
        found["watts_per_kelvin"] = (*found["watts_per_kelvin"], cool)
    return found


def _known(values: pd.Series) -> Bools:
    return values.notna().to_numpy(dtype=bool)


def _at_least(heated_h: pd.Series) -> Bools:
    """Heated long enough, or not known."""
    return np.asarray(~(heated_h.to_numpy(dtype=np.float64) < HEATED_ENOUGH_H))


def lost_words(
    side: Bools, spoiled: Bools, needs: Sequence[Need], y: Floats, columns: Mapping[str, Floats], outcome_words: str
) -> str:
    """On 10 of 21 the heat was not logged, 4 were set aside …: what the nights of a side were lost to, most first.

    Args:
        side: Nights of the window on that side, shape (days,).
        spoiled: … set aside because another change, a switch or an event lies in them.
        needs: Of the outcome, in their order.
        y: The outcome, NaN where it could not be had.
        columns: Weather that is fitted along.
        outcome_words: What the outcome rests on, where no need names it.
    """
    left, total = side & ~spoiled, int(side.sum())
    aside = int((side & spoiled).sum())
    lost = [(aside, "{n} of {all} " + ("lies" if aside == 1 else "lie") + " at another change or at an event")]
    found = [(need.words, need.there) for need in needs]
    found += [(f"{outcome_words} {NOT_LOGGED}", ~np.isnan(y))]
    found += [(f"{WORDS[name]} {NOT_LOGGED}", ~np.isnan(values)) for name, values in columns.items()]
    for words, there in found:
        lost.append((int((left & ~there).sum()), "on {n} of {all} " + words))
        left = left & there
    worst = sorted((entry for entry in lost if entry[0]), key=lambda entry: -entry[0])[:MOST]
    return ", ".join(words.format(n=n, all=total) for n, words in worst)
