"""Two winters of one simulated house under other weather: false alarms and coverage of the difference at equal weather.

A long study, run by hand (`pytest -m study`); its rates are told on the page of the two winters.
"""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from scenarios import HEATED, winter, written
from simulator import Climate, Simulated

from reportgen.effects.outcomes import DayTable, day_table
from reportgen.problems import NotEnoughData
from reportgen.readings import read_season
from reportgen.season import load_season
from reportgen.winters.equal import equal_weather

PAIRS = 80
OUTCOMES = ("lift", "heat", "night_humidity", "soil_mean")
FIRST = 400  # seeds from here on; those below 380 settled by how much the interval is widened


def table_of(simulated: Simulated) -> DayTable:
    """The garden days of a simulated winter, read from its own files."""
    with tempfile.TemporaryDirectory() as folder:
        return day_table(read_season(load_season(written(Path(folder) / "winter", simulated))))


def weather(seed: int, milder_k: float = 0.0) -> Climate:
    """A winter's climate; every seed has another weather."""
    return Climate(mean_c=9.0 + milder_k + seed % 3)


def three(seed: int) -> tuple[DayTable, DayTable, DayTable]:
    """(last winter, this winter of the same house, this winter of the better house); every other house is unheated.

    This winter is a kelvin colder, as cold or a kelvin milder by turns.
    """
    house = HEATED if seed % 2 == 0 else replace(HEATED, heater_w=0.0)
    better = replace(house, u_w_m2k=0.75 * house.u_w_m2k, wet=0.6 * house.wet)  # tighter cover, drier floor
    then, now = weather(seed), weather(seed, (-1.0, 1.0, 0.0)[seed % 3])
    return (
        table_of(winter(house, climate=then, seed=1000 + seed)),
        table_of(winter(house, climate=now, seed=2000 + seed)),
        table_of(winter(better, climate=now, seed=2000 + seed)),
    )


def study(first: int = FIRST, pairs: int = PAIRS) -> dict[str, tuple[int, int, int]]:
    """Outcome → (pairs, false alarms with nothing altered, true differences inside the interval)."""
    counts = {outcome: [0, 0, 0] for outcome in OUTCOMES}
    for seed in range(first, first + pairs):
        last, same, better = three(seed)
        for outcome in OUTCOMES:
            try:
                null, found = (equal_weather(t, last, outcome, 0).estimate for t in (same, better))
            except NotEnoughData:
                continue
            true = float((better.outcomes[outcome] - same.outcomes[outcome]).dropna().mean())
            tally = counts[outcome]
            tally[0] += 1
            tally[1] += not null.low <= 0 <= null.high
            tally[2] += found.low <= true <= found.high
    return {outcome: (a, b, c) for outcome, (a, b, c) in counts.items()}


@pytest.mark.study
def test_false_alarms_and_coverage_of_two_winters() -> None:
    """With nothing altered at most one pair in ten is called different; a true difference lies inside in nine of ten.

    Looser than 5 and 95 in 100, since eighty pairs tell a rate to ± 3 in 100 only.
    """
    found = study()
    print(found)
    for outcome, (pairs, alarms, covered) in found.items():
        assert pairs >= PAIRS / 2, outcome
        assert alarms / pairs <= 0.10, outcome
        assert covered / pairs >= 0.90, outcome
