"""Heat, soil and light of seasons with next to nothing in them: a result with reasons, never a crash."""

from __future__ import annotations

from dataclasses import replace

import pandas as pd
import pytest
from heated_house import hours, house, supply
from made_season import channel, readings

from reportgen.measures.heat import heat
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.plain import plain
from reportgen.readings.types import Readings


def _short() -> pd.DatetimeIndex:
    return hours(days=56)[:2]


def thin() -> dict[str, Readings]:
    """Seasons that lack one thing or nearly everything."""
    whole = house()
    empty = replace(whole.heating[0], intervals=whole.heating[0].intervals.iloc[:0])
    one = pd.Series([8.0, 8.0], index=_short())
    return {
        "a heater that never wrote": replace(whole, heating=(empty,)),
        "no outdoor logger": replace(whole, channels=whole.channels[:1]),
        "no crop logger": replace(whole, channels=whole.channels[1:]),
        "two readings": replace(whole, channels=(channel(one), channel(one, "soil_temperature"), channel(one, "ppfd"))),
        "one reading": replace(whole, channels=tuple(replace(c, values=c.values.iloc[:1]) for c in whole.channels)),
        "a heater off all winter": replace(whole, heating=(supply(hours(), 0.0 * hours().hour.to_numpy()),)),
        "heaters only": replace(whole, channels=()),
        "a week": readings(whole.season.model_copy(update={"last_day": whole.season.first_day})),
    }


@pytest.mark.parametrize("name", list(thin()))
@pytest.mark.parametrize("measure", [heat, soil, light])
def test_a_thin_season_gives_nulls_with_reasons(name: str, measure: object) -> None:
    """The section has a plain form, and every null of its top level has its reason in words."""
    section = plain(measure(thin()[name]))  # type: ignore[operator]
    for key, value in section.items():
        if value is None:
            assert section["reasons"].get(key), key
        if isinstance(value, dict) and key != "reasons":
            assert all(part is not None or section["reasons"].get(f"{key}.{end}") for end, part in value.items()), key
