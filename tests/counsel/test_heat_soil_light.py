"""Findings of heat, soil and light: which must appear on a season made by closed forms, and that their words stand."""

from __future__ import annotations

import dataclasses
from functools import lru_cache
from types import SimpleNamespace
from typing import Any, cast

import numpy as np
import pandas as pd
import pytest
from counsel import hand
from counsel.sentences import faults
from heated_house import hours, house, outdoor_c, steps, supply
from made_season import channel, readings, season

from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.readings.types import Readings
from reportgen.season import Appliance, HeatSource


def results(of: Readings) -> Results:
    """Just what the three pages read."""
    made = SimpleNamespace(
        season=of.season,
        readings=of,
        heat=heat(of),
        soil=soil(of),
        light=light(of),
        harvest=harvest(of),
        frost=SimpleNamespace(
            holding_limit=None, crops=(), hours_recorded=672.0, minimum=SimpleNamespace(at=None), line_c=0.0
        ),
    )
    return cast("Results", made)


def whole(show: str = "metric") -> Readings:
    """The heated house with a probe in its bed, a light sensor inside, an unvented burner beside and a lamp."""
    lamp = Appliance(name="lamp", kind="lamp", rated_power_w=100.0, hours_per_day=2.0, ppfd=150.0, price=0.3)
    burner = HeatSource(name="burner", fuel="propane", role="backup", meter="m.csv", vented=False, unit="kg")
    main = HeatSource(name="fan heater", fuel="electricity", logger="bench", rated_power_w=900.0)
    more: dict[str, Any] = {"place": {"latitude": 50.0}, "show": show, "currency": "EUR"}
    of = house(house={"soil_bed_volume_m3": 3.0, "u_value_w_m2k": 3.0, "glazing_area_m2": 12.0}).season
    of = of.model_validate(of.model_dump(by_alias=False) | more | {"heating": (main, burner), "appliances": (lamp,)})
    at = hours()
    made = house()
    bed = 8 + 2 * np.cos(2 * np.pi * (np.arange(len(at)) % 24 - 17) / 24)
    light_at = np.where((at.hour >= 8) & (at.hour < 16), 150.0, 0.0)
    light_at[24 * 20 : 24 * 24] *= 0.1
    channels = (
        *made.channels,
        channel(pd.Series(bed, index=at), "soil_temperature", accuracy=0.3),
        channel(steps(light_at, at), "ppfd"),
    )
    watts = np.minimum(80.0 * np.maximum(5.0 - outdoor_c(at), 0.0), 900.0)
    gas = supply(at, np.full(len(at), 40.0), price=0.2, every=24 * 14, name="burner", fuel="propane", unit="kg")
    gas = dataclasses.replace(gas, vented=False, heating_value="gross", role="backup")
    fan = supply(at, watts, rated_power_w=900.0)
    return dataclasses.replace(made, season=of, channels=channels, heating=(fan, gas))


def told(of: Readings) -> list[Finding]:
    """All findings of the three pages."""
    return list(hand.told_on(results(of), "heat", "soil", "light"))


@lru_cache
def told_of(show: str = "metric") -> tuple[Finding, ...]:
    """Findings of the whole house, once."""
    return tuple(told(whole(show)))


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_stands(show: str) -> None:
    """No sentence carries a stray number, a breaking space before a unit, or a word the reader would not know."""
    found = told_of(show)
    for finding in found:
        for words in (finding.claim, finding.evidence, finding.how_sure, finding.next_step, finding.figure_note):
            assert faults(words) == [], (finding.slug, words)
    assert ("°C" in " ".join(f.claim for f in found)) == (show == "metric")


def test_what_must_be_told() -> None:
    """A house with all readings tells of hold, degree, loss, limit, flame, bed and light."""
    slugs = {finding.slug for finding in told_of()}
    assert {"the-hold", "heat-loss", "heater-size", "fumes-in-the-house"} <= slugs
    assert {"bed-below-the-root-line", "days-under-ten-hours", "daily-light", "what-a-lamp-would-add"} <= slugs


def test_what_can_hurt_carries_its_caution() -> None:
    """Fuel burned inside always brings the caution on carbon monoxide; a lamp that on mains power near water."""
    by_slug = {finding.slug: finding for finding in told_of()}
    assert "carbon monoxide" in (by_slug["fumes-in-the-house"].caution or "")
    assert by_slug["fumes-in-the-house"].stake == "safety"
    assert "residual-current" in (by_slug["what-a-lamp-would-add"].caution or "")


def test_a_heater_too_small_is_no_good_news() -> None:
    """The main heater gives 900 W, the coldest hour needs 1,196 W: the crop is at risk, with the number of nights."""
    found = next(f for f in told_of() if f.slug == "heater-size")
    assert found.stake == "crop at risk"
    assert "900" in found.claim


def test_nothing_logged_tells_nothing() -> None:
    """An empty season has no finding of heat, soil or light."""
    assert told(readings(season())) == []


def test_a_heater_without_readings_asks_for_a_meter() -> None:
    """A heater whose heat value is unknown: cannot tell, and what to log."""
    made = whole()
    blind = made.heating[0].intervals.assign(heat_kwh=np.nan)
    found = told(dataclasses.replace(made, heating=(dataclasses.replace(made.heating[0], intervals=blind),)))
    assert "heat-not-known" in {finding.slug for finding in found}
    assert "the-hold" not in {finding.slug for finding in found}
