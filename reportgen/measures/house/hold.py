"""What another hold would have taken in this winter's weather.

The winter is run again with the target moved; the change is averaged with that of the degree-hours (M. F. Fels 1986,
Energy and Buildings 9:5–18) unless the heater stood at its limit, which degree-hours do not know, or its hours were
made from a meter. Bands: true ÷ told of the change, from simulated houses (methods page, *The price of a degree*).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from reportgen.measures.exposure import Floats
from reportgen.measures.house.hours import Ints
from reportgen.measures.house.response import Response, runs

CHANGE = {"probe": (0.86, 1.20), "no probe": (0.80, 1.20), "meter": (0.82, 1.40)}  # true ÷ told change of heat
CHANGE_AT_LIMIT = (0.75, 1.20)
LOW_TARGET = 0.1  # quantile of the commanded dark air that stands for the target elsewhere
FEWEST_COMMANDED = 20


def usual_target(house: Response, hold_c: Floats | float) -> Floats:
    """What the thermostat was asked to keep in every hour [°C]: the logged air where it was in command, else the colder
    tenth of that air; shape (n,)."""
    hours = house.hours
    seen = hours.temp_air_c[hours.commanded & hours.dark & hours.logged]
    low = np.quantile(seen, LOW_TARGET) if len(seen) > FEWEST_COMMANDED else hold_c
    return np.where(hours.commanded, hours.temp_air_c, low)


def ratios(house: Response, target_c: Floats, moves_k: Iterable[Floats | float]) -> list[float]:
    """Heat of the run with the target moved by so many kelvins ÷ heat of the run without [no unit], one a move.

    `target_c`: shape (n,), of every hour [°C]; a move is one figure or shape (n,) [K]. 1 where the run needs no heat.
    """
    rated = house.hours.rated_w
    limit = np.inf if rated is None else max(rated, float(house.hours.heaters_w.max()))
    same, *moved = runs(house, [target_c, *(target_c + move for move in moves_k)], limit)[1].sum(axis=1).tolist()
    return [heat / same if same > 0 else 1.0 for heat in moved]


def change_span(house: Response) -> tuple[float, float]:
    """True ÷ told change of heat [no unit]: the span that held about nine in ten of the simulated houses."""
    return CHANGE_AT_LIMIT if house.balance.at_limit else CHANGE[house.balance.kind]


def share_of_run(house: Response) -> float:
    """How much the run counts beside the degree-hours: all where the heater stood at its limit, which they do not know;
    nothing where the hours of the heat were made from a meter (HOLD_PRICES.md: the run was the worse of the two)."""
    if house.balance.at_limit:
        return 1.0
    return 0.0 if house.hours.by_meter else 0.5


def changes_by_part(house: Response, target_c: Floats, moves_k: Sequence[Floats], part: Ints) -> Floats:
    """Change of heat in each part of the winter ÷ the heat of the whole run as it was; shape (moves, parts).

    Args:
        target_c: Of every hour [°C], shape (n,).
        moves_k: How far the target moves, each of shape (n,) [K].
        part: The number of the part of every hour, 0 …; −1: in none; shape (n,).
    """
    rated = house.hours.rated_w
    limit = np.inf if rated is None else max(rated, float(house.hours.heaters_w.max()))
    same, *moved = runs(house, [target_c, *(target_c + move for move in moves_k)], limit)[1]
    whole = float(same.sum())
    parts = [part == n for n in range(int(part.max()) + 1)]
    changes = [[float((heat - same)[inside].sum()) for inside in parts] for heat in moved]
    return np.array(changes) / whole if whole > 0 else np.zeros((len(moves_k), len(parts)))
