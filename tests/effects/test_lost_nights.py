"""What the nights of a side were lost to, by hand; and the sample's refusals with their true reasons."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import numpy as np

from reportgen.effects import Changes, effects
from reportgen.effects.lost_nights import Need, lost_words
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
