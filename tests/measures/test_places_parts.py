"""Which channel speaks for what, and the weather outdoors in three figures; by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, picking, planting, readings, season

from reportgen.measures.agreement import compared
from reportgen.measures.beds import beds
from reportgen.measures.places import (
    anywhere,
    coldest_crop_air,
    crop_channels,
    main_crop,
    no_outdoor_air,
    outdoor,
    seldom_crop,
    seldom_inside,
    seldom_outdoors,
    seldom_soil,
    soil,
    why_no,
    why_no_soil,
)
from reportgen.measures.weather import weather
from reportgen.readings.probe import EXCHANGED, IN_THE_AIR
from reportgen.readings.types import CheckFinding, Readings

ZERO = pd.Timestamp("2026-01-05", tz=ZONE)


def hourly(name: str, value: float = 5.0, measure: str = "air_temperature", where: str = "crop", **more: Any) -> Any:
    """Two days by the hour."""
    at = pd.date_range(ZERO, periods=49, freq="1h")
    return channel(pd.Series(value, index=at), measure, name, where=where, **more)


def rare(name: str, measure: str = "air_temperature", where: str = "crop") -> Any:
    """A reading a day."""
    at = pd.date_range(ZERO, periods=5, freq="24h")
    return channel(pd.Series(5.0, index=at), measure, name, where=where, step_s=86_400.0)


def made(*channels: Any, findings: tuple[CheckFinding, ...] = ()) -> Readings:
    """A season with these channels; `main` is the main logger of the crop, `yard` stands outdoors, `shed` elsewhere."""
    of = season(
        loggers=(
            logger("bench"), logger("main", main=True), logger("yard", where="outdoor"),
            logger("shed", where="elsewhere"),
        )
    )  # fmt: skip
    return readings(of, channels=channels, findings=findings)


class TestPlaces:
    def test_the_main_logger_comes_first(self) -> None:
        """Whatever the order of the channels; one that writes too seldom speaks for nothing."""
        of = made(hourly("bench"), hourly("main"))
        found = main_crop(of, "air_temperature")
        assert found is not None and found.logger == "main"
        assert [c.logger for c in crop_channels(of, "air_temperature")] == ["main", "bench"]
        mixed = made(hourly("bench"), rare("main"))
        found = main_crop(mixed, "air_temperature")
        assert found is not None and found.logger == "bench" and seldom_crop(mixed, "air_temperature") is None
        alone = seldom_crop(made(rare("main")), "air_temperature")
        assert alone is not None and alone.logger == "main" and seldom_crop(made(), "air_temperature") is None

    def test_the_air_outdoors_by_either_of_its_names(self) -> None:
        """An outdoor_temperature at any logger comes before the air of a logger outdoors."""
        named = hourly("bench", 1.0, "outdoor_temperature")
        found = outdoor(made(hourly("yard", where="outdoor"), named), "air_temperature")
        assert found is not None and found.logger == "bench"
        found = outdoor(made(hourly("yard", where="outdoor")), "air_temperature")
        assert found is not None and found.logger == "yard"
        assert outdoor(made(hourly("bench")), "air_temperature") is None
        for one in (rare("yard", where="outdoor"), rare("bench", "outdoor_temperature")):
            told = seldom_outdoors(made(one), "air_temperature")
            assert told is not None and "apart tell" in no_outdoor_air(made(one))
        assert seldom_outdoors(made(hourly("yard", where="outdoor")), "air_temperature") is None
        assert no_outdoor_air(made()) == why_no(None, "no outdoor logger") == "no outdoor logger"

    def test_the_bed(self) -> None:
        """Beside the crop before elsewhere; a probe that the checks doubt is none, and the reason says why."""
        crop, shed = (
            hourly("bench", measure="soil_temperature"),
            hourly("shed", measure="soil_temperature", where="elsewhere"),
        )
        found = soil(made(shed, crop))
        assert found is not None and found.logger == "bench"
        for slug, words in ((IN_THE_AIR, "hang in the air"), (EXCHANGED, "look exchanged")):
            doubt = CheckFinding(slug=slug, logger="bench", measure=None, start=None, end=None, count=1, words="")
            assert soil(made(crop, findings=(doubt,))) is None and words in why_no_soil(made(crop, findings=(doubt,)))
            found = soil(made(crop, shed, findings=(doubt,)))
            assert found is not None and found.logger == "shed"
        assert why_no_soil(made()) == "no soil temperature was logged" and seldom_soil(made()) is None
        slow = made(rare("bench", "soil_temperature"))
        assert seldom_soil(slow) is not None and "apart tell" in why_no_soil(slow)

    def test_anywhere_inside(self) -> None:
        """The crop's before elsewhere's; what only writes too seldom is told apart."""
        of = made(hourly("shed", measure="ppfd", where="elsewhere"), hourly("bench", measure="ppfd"))
        found = anywhere(of, "ppfd")
        assert found is not None and found.logger == "bench" and seldom_inside(of, "ppfd") is None
        slow = made(rare("shed", "ppfd", "elsewhere"))
        assert anywhere(slow, "ppfd") is None and seldom_inside(slow, "ppfd") is not None
        coldest = coldest_crop_air(made(hourly("bench", 4.0), hourly("main", 6.0)))
        assert coldest is not None and set(coldest.values.tolist()) == {4.0} and coldest_crop_air(made()) is None


def test_two_loggers_side_by_side() -> None:
    """The second 0.5 K over the first but for every tenth reading, 3 K over: median 0.5, a tenth beyond 1 K; what lies
    outside the two instants does not count; under the least number nothing is told."""
    at = pd.date_range(ZERO, periods=481, freq="1h")
    first = channel(pd.Series(5.0, index=at), accuracy=0.5)
    apart = np.where(np.arange(481) % 10 == 0, 3.0, 0.5)
    second = channel(pd.Series(5.0 + apart, index=at), logger="door", accuracy=0.5)
    found = compared(first, second, ZERO, ZERO + pd.Timedelta("20D"))
    assert found is not None
    assert (found.readings, found.median, found.allowed) == (480, 0.5, 1.0)
    assert found.beyond == pytest.approx(0.1) and (found.low, found.high) == (0.5, 3.0) and not found.disagree
    assert replace(found, median=-1.1).disagree and not replace(found, allowed=None).disagree
    assert found.days["difference"].iloc[0] == pytest.approx((3 * 3.0 + 21 * 0.5) / 24)
    assert compared(first, second, ZERO, ZERO + pd.Timedelta("2h")) is None
    bare = compared(replace(first, accuracy=None), second, ZERO, ZERO + pd.Timedelta("20D"))
    assert bare is not None and bare.allowed is None and bare.beyond is None


def test_the_weather_in_three_figures() -> None:
    """−2 °C by night and 4 °C by day with an aim of 6 °C: mean night −2, coldest −2; 8 K under the aim in the hours at
    −2, 2 K in those at 4, and straight lines between."""
    at = pd.date_range(ZERO, periods=49, freq="1h")
    values = np.where((at.hour >= 20) | (at.hour <= 6), -2.0, 4.0)
    of = season("2026-01-05", "2026-01-06", loggers=(logger("yard", where="outdoor"),), aims={"hold_c": 6.0})
    yard = channel(pd.Series(values, index=at), logger="yard", where="outdoor")
    found = weather(readings(of, channels=(yard,)))
    assert (found.mean_night_c, found.coldest_c, found.hours_recorded) == (pytest.approx(-2.0), -2.0, 48.0)
    middle = (values[:-1] + values[1:]) / 2
    assert found.kelvin_hours_below_hold == pytest.approx((6.0 - middle).sum())
    bare = weather(readings(of))
    assert bare.coldest_c is None and set(bare.reasons.values()) == {"no outdoor temperature was logged"}
    short = weather(readings(of, channels=(channel(yard.values[:6], logger="yard", where="outdoor"),)))
    assert short.mean_night_c is None and "80" in short.reasons["mean_night_c"] and len(short.reasons) == 1
    aimless = season("2026-01-05", "2026-01-06", loggers=of.loggers)
    assert weather(readings(aimless, channels=(yard,))).reasons == {
        "kelvin_hours_below_hold": "no hold is named in season.toml"
    }


def test_no_sowing_was_too_late_where_none_was_in_time() -> None:
    """Sown in November and not picked before the dark weeks: nothing tells how late is too late; nor in a season
    without midwinter."""
    rows = (planting("kale", "a", "2025-11-05", sown=dt.date(2025, 11, 5)),)
    picks = (picking("2026-02-20", 8.0, "kale", bed="a"),)
    of = season("2025-10-01", "2026-03-01", place={"latitude": 50.0})
    found = beds(readings(of, plantings=rows, harvest=picks))
    assert found.strips[0].before_dark is False and found.too_late == () and found.in_time is None
    early = replace(found.strips[0], before_dark=True, sown=dt.date(2025, 10, 2))
    both = replace(found, strips=(early, *found.strips))
    assert both.too_late == found.strips and both.in_time == early
    assert replace(both, midwinter=None).too_late == () and replace(both, midwinter=None).in_time is None


def test_whose_pickings_are_whose() -> None:
    """Kale in two beds: a picking with its bed is that bed's, one without could be of either while both stand and
    counts for neither; once one is cleared it is the other's. Two cultivars over their four common weeks: 2 and 1 kg a
    m²."""
    rows = (
        planting("kale", "a", "2026-01-05", "2026-02-10", cultivar="red", area_m2=2.0),
        planting("kale", "b", "2026-01-05", cultivar="green", area_m2=1.0),
    )
    picks = (
        picking("2026-01-08", 4.0, "kale", bed="a"), picking("2026-01-20", 1.0, "kale", bed="b"),
        picking("2026-02-20", 8.0, "kale", bed="b"),
    )  # fmt: skip
    of = season("2026-01-05", "2026-03-01")
    found = beds(readings(of, plantings=rows, harvest=picks))
    assert [(strip.bed, strip.kg) for strip in found.strips] == [("a", 4.0), ("b", 9.0)]
    (pair,) = found.rivals
    assert (pair.cultivars, pair.kg_per_m2) == (("red", "green"), (2.0, 1.0))
    assert pair.start == dt.date(2026, 1, 5)
    open_ = (*picks, picking("2026-01-10", 2.0, "kale"))
    unclear = beds(readings(of, plantings=rows, harvest=open_))
    assert unclear.rivals == () and all(strip.kg is None and strip.reason for strip in unclear.strips)
    late = (*picks, picking("2026-02-25", 2.0, "kale"))
    told = beds(readings(of, plantings=rows, harvest=late))
    assert [(strip.bed, strip.kg) for strip in told.strips] == [("a", 4.0), ("b", 11.0)]
