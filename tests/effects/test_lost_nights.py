"""What the nights of a side were lost to, by hand; and the sample's refusals with their true reasons."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from reportgen.effects import Changes, effects
from reportgen.effects.heat_days import HeatDays
from reportgen.effects.lost_nights import Need, lost_words, needs_of
from reportgen.readings import read_season
from reportgen.season import load_season

SAMPLE = Path(__file__).parents[2] / "sample_season"
NIGHTS = np.arange(21)


def test_each_night_is_lost_to_the_first_thing_it_lacks() -> None:
    """Of 21 nights 2 lie at another change; of the rest 9 lack heat and 4 more were too mild; 1 lacks the sun."""
    heat = Need(words="the heat was not logged", there=NIGHTS >= 11)
    warm = Need(words="the house was too mild", there=NIGHTS >= 15)
    y = np.where(NIGHTS >= 15, 1.0, np.nan)
    sun = np.where(NIGHTS == 20, np.nan, 5.0)
    said = lost_words(NIGHTS >= 0, NIGHTS < 2, (heat, warm), y, {"sol": sun}, "the heat")
    assert said == "on 9 of 21 the heat was not logged, on 4 of 21 the house was too mild"


def test_one_night_lies_at_another_change() -> None:
    """Numbers agree with their verbs; the weather reading is named in the grower's words."""
    sun = np.where(NIGHTS < 3, np.nan, 5.0)
    said = lost_words(NIGHTS >= 0, NIGHTS == 20, (), np.ones(21), {"sol": sun}, "the heat")
    assert said == "on 3 of 21 the day's sunlight was not logged, 1 of 21 lies at another change or at an event"


@lru_cache(maxsize=1)
def sample() -> Changes:
    """The sample's changes."""
    return effects(read_season(load_season(SAMPLE)))


def refused(what: str, outcome: str) -> str:
    """Why an outcome of a change of the sample was refused."""
    change = next(c for c in sample().changes if what in c.what)
    return str(next(o.refused for o in change.outcomes if o.outcome == outcome))


def test_the_samples_heat_is_missing_where_it_is_missing() -> None:
    """The plug's log begins on 24 November: no heat is known before the bricks of 2 November (all 21 nights) nor before
    the heater itself; the ten days of gas are known by the bottle alone; on the curtain's nights it was too mild."""
    assert "on 21 of 21 the heaters' heat was not logged" in refused("bricks", "heat")
    assert "on 19 of 21 the heaters' heat was not logged" in refused("Fan heater", "watts_per_kelvin")
    assert "the heat of gas heater is known only as a sum over days" in refused("Gas heater", "heat")
    assert "the heaters ran for fewer than 7 of 10 hours" in refused("Old curtain", "watts_per_kelvin")


DAYS = pd.Index(range(4))


def heat_of(**columns: Any) -> HeatDays:
    """Four days of heat."""
    usual = {"kwh": [1.0] * 4, "night_w": [100.0] * 4, "night_heated_h": [10.0] * 4, "only_sums": [0.0] * 4}
    table = pd.DataFrame(usual | columns, DAYS)
    return HeatDays(table=table, reason="", left_out=("gas", "tube"), by_hour=True, large_sums=("gas", "tube"))


def test_what_each_outcome_needs_of_a_night() -> None:
    """In their order: sums, the heaters' log, the air on either side, 7 of 10 hours of heat, more than 3 K of warmth;
    what is known only as a sum lacks no log; what is not known is not short."""
    nan = float("nan")
    heat = heat_of(
        kwh=[nan, nan, 1.0, 1.0], night_w=[nan, nan, 1.0, 1.0], only_sums=[0.0, 1.0, 0.0, 0.0],
        night_heated_h=[nan, 6.9, 7.0, 8.0],
    )  # fmt: skip
    air = {"the air outdoors": np.array([True, False, True, True])}
    found = needs_of(pd.DataFrame({"lift": [nan, 2.9, 3.0, 3.1]}, DAYS), air, heat)
    told = {name: [(need.words, need.there.tolist()) for need in needs] for name, needs in found.items()}
    sums = ("the heat of gas and tube is known only as a sum over days", [True, False, True, True])
    log = ("the heaters' heat was not logged", [False, True, True, True])
    outside = ("the air outdoors was not logged", [True, False, True, True])
    assert told["lift"] == told["night_minimum"] == [outside]
    assert told["heat"] == [sums, log]
    assert told["watts_per_kelvin"] == [
        sums,
        log,
        outside,
        ("the heaters ran for fewer than 7 of 10 hours", [True, False, True, True]),
        ("the house was less than 3\u00a0K (5\u00a0°F) warmer than outdoors", [True, False, False, True]),
    ]
    assert len(needs_of(pd.DataFrame(index=DAYS), air, heat)["watts_per_kelvin"]) == 4


def test_the_two_worst_are_named_most_first() -> None:
    """Of one side only: 21 nights less those of the other; 5, 3 and 2 were lost, 4 had all; several lie at another
    change."""
    side = NIGHTS < 14
    first, second = Need(words="a", there=NIGHTS >= 3), Need(words="b", there=(NIGHTS >= 8) | (NIGHTS == 0))
    y = np.where((NIGHTS == 8) | (NIGHTS == 9), np.nan, 1.0)
    assert lost_words(side, NIGHTS > 99, (first, second), y, {}, "c") == "on 5 of 14 b, on 3 of 14 a"
    assert lost_words(side, NIGHTS < 8, (first, second), y, {}, "c") == (
        "8 of 14 lie at another change or at an event, on 2 of 14 c was not logged"
    )
    assert lost_words(side, NIGHTS > 99, (), np.ones(21), {}, "c") == ""
