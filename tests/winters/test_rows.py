"""Figures of a winter's sections by their paths: values, bands, and why there are none."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.charts.winters_tables import _notes
from reportgen.winters.headlines import HEADLINES, Headline, band_at, reason_at, sections, value_at, why_no_band
from reportgen.winters.types import EqualWeather, Row

FOUND: dict[str, dict[str, Any]] = {
    "frost": {
        "minimum": {"temperature_c": -3, "low": None},
        "nights_below": [{"estimate": 4}],
        "reasons": {"minimum.temperature_c": "too short a record", "minimum": "no logger"},
    },
    "heat": {
        "kwh": 12.5, "kwh_low": 10.0, "kwh_high": 15.0, "metered": True, "cost": float("nan"),
        "cost_low": 1.0, "cost_high": None,
        "loss": {"estimate": 50.0, "low": 40.0, "high": 60.0},
    },
}  # fmt: skip


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("heat.kwh", 12.5),
        ("frost.minimum.temperature_c", -3.0),
        ("heat.loss.estimate", 50.0),
        ("frost.minimum.low", None),
        ("heat.cost", None),  # not a number
        ("heat.metered", None),  # yes or no is no figure
        ("heat.loss", None),
        ("soil.mean_c", None),
        ("heat.kwh.low", None),
    ],
)
def test_a_number_at_a_path(path: str, value: float | None) -> None:
    """A whole or broken number that is there and finite; nothing else."""
    found = value_at(FOUND, path)
    assert found == value and (found is None or isinstance(found, float))


def headline(band: str = "", no_band: str = "") -> Headline:
    return Headline(key="k", what="w", unit="u", path="heat.kwh", band=band, no_band=no_band)


def test_a_band_stands_below_the_figure_or_beside_it() -> None:
    """`.low` and `.high` of the key, or `_low` and `_high`; one end alone is no band; none is asked for: none."""
    assert band_at(FOUND, headline("heat.loss")) == (40.0, 60.0)
    assert band_at(FOUND, headline("heat.kwh")) == (10.0, 15.0)
    assert band_at(FOUND, headline("heat.cost")) is None
    assert band_at(FOUND, headline()) is None


def test_why_there_is_no_band() -> None:
    """What the headline says; where it says nothing, why the low end is null."""
    assert why_no_band(FOUND, headline(no_band="weighed")) == "weighed"
    assert why_no_band(FOUND, headline("heat.kwh", "metered")) == "metered"
    assert why_no_band(FOUND, headline("frost.minimum.temperature_c")) == "too short a record"
    assert why_no_band(FOUND, headline("heat.loss")) == "not known"


def test_a_reason_is_that_of_the_path_or_of_what_holds_it() -> None:
    """The path itself before the key above it; a section without reasons knows none."""
    assert reason_at(FOUND, "frost.minimum.temperature_c") == "too short a record"
    assert reason_at(FOUND, "frost.minimum.temperature_c.low") == "too short a record"
    assert reason_at(FOUND, "frost.minimum.date") == "no logger"
    assert reason_at(FOUND, "frost.nights_below") == "not known"
    assert reason_at(FOUND, "heat.kwh") == "not known"
    assert reason_at(FOUND, "soil.mean_c") == "not known"


def winter(accuracy: float | None) -> dict[str, dict[str, Any]]:
    """Four days of crop air at 4 °C with one reading of −1."""
    air = pd.Series(4.0, index=pd.date_range("2026-01-05", periods=96, freq="1h", tz=ZONE))
    air.iloc[40] = -1.0
    of = season("2026-01-05", "2026-01-08", logger=(logger("bench", accuracy=accuracy),))
    return sections(readings(of, channels=(channel(air, accuracy=accuracy),)), {})


def test_the_coldest_readings_band_is_its_loggers_accuracy() -> None:
    """−1 °C ± 0.4 K; without an accuracy no band, with the logger's name; without a logger neither."""
    lowest = next(h for h in HEADLINES if h.key == "minimum")
    assert band_at(winter(0.4), lowest) == (pytest.approx(-1.4), pytest.approx(-0.6))
    bare = winter(None)
    assert band_at(bare, lowest) is None and why_no_band(bare, lowest) == "no accuracy given for bench"
    nothing = sections(readings(), {})
    assert band_at(nothing, lowest) is None and value_at(nothing, lowest.path) is None


def test_the_rows_of_the_front_page_and_what_is_better() -> None:
    """The design's headlines: cold, frost, heat, money, picking. More is better of warmth, light and picking, less of
    frost, heat, damp and waiting. What rests on the crop air is told of the same loggers only."""
    front = {h.key for h in HEADLINES if h.headline}
    assert front == {"minimum", "frost_nights", "kwh", "cost", "kg", "cost_per_kg"}
    assert {h.key for h in HEADLINES if h.better == "more"} == {"minimum", "held", "soil", "light", "kg"}
    assert all(h.better in ("more", "less") for h in HEADLINES)
    assert {h.key for h in HEADLINES if h.margin} == {"minimum", "frost_nights", "frost_hours", "held"}
    assert all(h.band or h.no_band for h in HEADLINES)


def row(last: float | None, this: float | None, **more: Any) -> Row:
    return Row(what="heat used", unit="kWh", last=last, this=this, at_equal_weather=None, key="kwh", **more)


def test_a_difference_is_this_winter_less_last() -> None:
    """70 − 100 = −30; at equal weather −12, so the weather made −18 of it. Bands of 65 to 75 and 90 to 110: the
    difference lies between 65 − 110 = −45 and 75 − 90 = −15. Unknown on either side: unknown."""
    equal = EqualWeather(effect=-12.0, low=-20.0, high=-4.0, days_last=1, days_this=1, columns=(), smallest_visible=1.0)
    found = Row(
        what="x", unit="y", last=100.0, this=70.0, at_equal_weather=equal, key="k",
        last_band=(90.0, 110.0), this_band=(65.0, 75.0),
    )  # fmt: skip
    assert (found.difference, found.by_weather, found.difference_band) == (-30.0, -18.0, (-45.0, -15.0))
    assert row(None, 70.0).difference is None and row(100.0, None).difference is None
    assert row(100.0, 70.0).by_weather is None
    bare = Row(what="x", unit="y", last=None, this=70.0, at_equal_weather=equal, key="k", this_band=(65.0, 75.0))
    assert bare.by_weather is None and bare.difference_band is None
    assert row(1.0, 2.0, last_band=(0.0, 2.0)).difference_band is None
    assert not row(1.0, 2.0).headline


def test_a_row_that_shows_a_band_is_not_said_to_have_none() -> None:
    """7 hours of this winter's heat are not known: 522 to 532 kWh; the kilograms of both winters were weighed."""
    usual = {"unit": "kWh", "last": 1034.0, "this": 522.0, "at_equal_weather": None}
    rows = [
        Row(key="kwh", what="heat used", this_band=(522.0, 532.0), **usual),
        Row(key="kg", what="harvest", **usual),
        Row(key="each", what="heat for each kilogram", **usual),
    ]
    reasons = {f"rows.{n}.band": "it was weighed" for n in range(3)}
    review = SimpleNamespace(winters=SimpleNamespace(rows=rows, reasons=reasons), season=season())
    notes = [note for note in _notes(cast("Any", review), rows) if note.startswith("No band")]
    assert notes == ["No band of harvest and heat for each kilogram: it was weighed."]
    pounds = SimpleNamespace(winters=review.winters, season=season(show="us"))
    assert "No band of harvest and heat for each pound: it was weighed." in _notes(cast("Any", pounds), rows)
