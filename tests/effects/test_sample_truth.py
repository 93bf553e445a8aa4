"""The sample season's own changes against what they truly did: its simulator can run each winter without them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from simulator import simulate, true_effect
from simulator.sample import this_winter

from reportgen.effects import effects
from reportgen.readings import read_season
from reportgen.season import load_season

SAMPLE = Path(__file__).parents[2] / "sample_season"


def test_the_samples_intervals_hold_what_was_truly_done() -> None:
    """Of the judged changes at most one interval misses the truth, and no verdict has the wrong sign.

    Truth: the same winter simulated without that change, worked out by the simulator's own code. Changes judged as one
    are left out: their truth is not one twin's. One miss of seven intervals of 95 % comes in a quarter of all winters.
    """
    winter = this_winter.winter()
    truth = {change.what: change for change in winter.changes}
    missed, judged = [], 0
    for change in effects(read_season(load_season(SAMPLE))).changes:
        hoped = change.declared
        if hoped is None or hoped.refused is not None or change.grouped_with or change.what not in truth:
            continue
        true = true_effect(winter, truth[change.what], hoped.outcome)
        judged += 1
        if change.verdict in ("helped", "hurt"):
            assert (hoped.effect > 0) == (true > 0), (change.what, true, hoped.effect)
        if not hoped.low <= true <= hoped.high:
            missed.append((change.what, true, hoped.low, hoped.high))
    assert judged >= 4
    assert len(missed) <= 1, missed


def test_the_film_spared_what_is_told() -> None:
    """Heat of the same winter without the film, and with it from the first day, by the simulator's own code: since it
    went up, and by a whole winter, the truth lies between the two ends."""
    winter = this_winter.winter()
    film = next(change for change in winter.changes if change.what.startswith("Bubble film"))
    without = winter.without(film)
    first = replace(film, at=winter.frame.index[0])
    whole = simulate(winter.weather, winter.house, [first if c is film else c for c in winter.changes], winter.seed)
    readings = read_season(load_season(SAMPLE))
    told = next(
        effect.spared
        for lever, effect in zip(readings.levers, effects(readings).levers, strict=True)
        if lever.thing == "bubble film"
    )
    assert told is not None
    given = {name: sum(made.kwh(power) for power in ("heater_w", "backup_w")) for name, made in
             {"with": winter, "without": without, "whole": whole}.items()}  # fmt: skip
    assert told.since_kwh.low < given["without"] - given["with"] < told.since_kwh.high
    assert told.winter_kwh.low < given["without"] - given["whole"] < told.winter_kwh.high
