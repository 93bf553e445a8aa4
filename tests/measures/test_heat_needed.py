"""Which nights' heat a standing crop needed: worked by hand on a week whose winter without heat is written down.

The bands are those of the grower (season.toml): lettuce harmed from −2 °C, leek from −12 °C.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, planting, readings, season

from reportgen.measures.days import dates
from reportgen.measures.heat_needed import HeatNeeded, heat_needed, needed_by_week
from reportgen.readings.types import Readings
from reportgen.season.models import Crop

CROPS = (
    Crop(name="lettuce", damage_below_c=(-4.0, -2.0)),
    Crop(name="leek", damage_below_c=(-18.0, -12.0)),
    Crop(name="oddleaf"),
)
NAN = float("nan")


def of(first: str = "2026-01-05", last: str = "2026-01-11", **more: Any) -> Any:
    """Monday to Sunday, with the three crops."""
    return season(first, last, crop=CROPS, **more)


def by_night(money: float = 1.0, nights: int = 7, first: str = "2026-01-05", **more: Any) -> Any:
    """A heater that burns 4 kWh for `money` from 18 to 24 h of every evening."""
    days = [dt.date.fromisoformat(first) + dt.timedelta(days=n) for n in range(nights)]
    return heater([(f"{d} 18:00", f"{d} 23:59", 4.0, money) for d in days], **more)


def table(read: Readings, low: list[float], half: float = 1.0, outdoor: float = -15.0) -> pd.DataFrame:
    """The winter without heat: the low end of each night, its middle and its high end `half` apart."""
    lows = pd.Series(low, index=pd.Index(dates(read.season), name="date"))
    names = ("without_heat_low_c", "without_heat_c", "without_heat_high_c")
    made = pd.DataFrame({name: lows + n * half for n, name in enumerate(names)})
    return made.assign(outdoor_min=outdoor)


def found(low: list[float], *stood: Any, half: float = 1.0, outdoor: float = -15.0, **more: Any) -> HeatNeeded:
    """The week judged."""
    books: dict[str, Any] = {"heating": (by_night(),), "plantings": stood} | more
    read = readings(books.pop("of", of()), **books)
    return heat_needed(read, table(read, low, half, outdoor))


LETTUCE, LEEK = planting("lettuce", "east", "2025-11-01"), planting("leek", "east", "2025-11-01")
WEEK = [-1.0, -1.5, -2.5, -3.5, -5.0, -2.0, 3.0]  # low ends; the high ends lie 2 K above


def test_only_what_the_low_end_left_above_the_band_was_not_needed() -> None:
    """Lettuce (−2 °C): lows −1, −1.5, −2, 3 spare it (4 nights, EUR 4); −2.5 and −3.5 spare it by the high end alone
    (−0.5, −1.5: EUR 6 in all); −5 does not (its high end is −3)."""
    told = found(WEEK, LETTUCE)
    assert [night.need for night in told.nights] == [
        "not needed", "not needed", "perhaps", "perhaps", "needed", "not needed", "not needed"
    ]  # fmt: skip
    assert (told.judged.nights, told.judged.money) == (7, pytest.approx(7.0))
    assert (told.spared_low.money, told.spared_high.money) == (pytest.approx(4.0), pytest.approx(6.0))
    assert told.spared_low.kwh == pytest.approx(16.0)
    assert told.tender == ("lettuce",) and not told.assumed and told.reason == ""


def test_the_share_of_the_week_is_of_its_judged_money() -> None:
    """4 of 7 equal nights were spared: 3/7 needed."""
    assert needed_by_week(found(WEEK, LETTUCE)) == {dt.date(2026, 1, 5): pytest.approx(3 / 7)}


def test_a_crop_counts_only_on_the_nights_it_stood() -> None:
    """Cleared on the 9th: its last night is the 8th, and −5 on the 9th harms nobody; leek stands −12."""
    gone = planting("lettuce", "east", "2025-11-01", "2026-01-09")
    needs = [night.need for night in found(WEEK, gone, LEEK).nights]
    assert needs == ["not needed", "not needed", "perhaps", "perhaps", "not needed", "not needed", "not needed"]


def test_a_crop_without_a_band_stops_the_verdict_on_its_nights() -> None:
    """Oddleaf has no band and comes on the 8th: the three nights before are judged (two spared, one perhaps), the four
    after are not; of these the lettuce needed one surely and one perhaps."""
    told = found(WEEK, LETTUCE, planting("oddleaf", "east", "2026-01-08"))
    assert (told.judged.nights, told.no_band.nights, told.no_forecast.nights) == (3, 4, 0)
    assert (told.spared_low.nights, told.spared_high.nights) == (2, 3)
    assert (told.known_low.nights, told.known_high.nights) == (2, 3)
    assert told.unknown_crops == ("oddleaf",)
    assert [night.without_band for night in told.nights] == [()] * 3 + [("oddleaf",)] * 4
    assert told.heated.money == pytest.approx(7.0)


def test_nights_without_a_forecast_are_counted_apart() -> None:
    """Two of seven cannot be told; money of the rest only."""
    told = found([NAN, NAN, *WEEK[2:]], LETTUCE)
    assert (told.no_forecast.nights, told.judged.nights, told.judged.money) == (2, 5, pytest.approx(5.0))


def test_a_night_whose_middle_is_not_told_names_no_crop() -> None:
    """Its ends alone (−5 and −3 °C, under lettuce's −2) are no forecast: nothing is said to have needed heat."""
    read = readings(of(), heating=(by_night(),), plantings=(LETTUCE,))
    made = table(read, [-5.0] * 7)
    made.iloc[0, made.columns.get_loc("without_heat_c")] = NAN
    first, second, *_ = heat_needed(read, made).nights
    assert (first.need, first.crops, first.surely, first.stood) == ("not judged", (), (), ("lettuce",))
    assert (second.need, second.crops, second.surely) == ("needed", ("lettuce",), ("lettuce",))


def test_nothing_planted_is_judged_and_needs_nothing_while_no_crop_named_is_not_judged() -> None:
    """A kept book of plantings with an empty week: all spared. No book, no crop, no picking: not judged, with why."""
    later = planting("lettuce", "east", "2026-01-11")
    assert [night.need for night in found([-9.0] * 7, later).nights][:6] == ["not needed"] * 6
    nothing = found(WEEK, of=season("2026-01-05", "2026-01-11"), plantings=())
    assert nothing.judged.nights == 0 and "no crop is named" in nothing.reason


def test_without_plantings_the_crops_are_assumed_to_have_stood_and_it_says_so() -> None:
    """season.toml names three crops, one without a band."""
    assert found(WEEK).assumed


def test_no_heater_no_heat_no_prices() -> None:
    """Each has its reason; without prices kWh stand."""
    assert "no heater" in found(WEEK, LETTUCE, heating=()).reason
    cold = found(WEEK, LETTUCE, heating=(heater([("2026-01-05", "2026-01-06", 0.0, 0.0)]),))
    assert cold.reason == "no night had heat" and cold.judged.nights == 0
    free = found(WEEK, LETTUCE, heating=(by_night(NAN),))
    assert free.judged.money is None and free.spared_low.kwh == pytest.approx(16.0)
    assert needed_by_week(free) == {dt.date(2026, 1, 5): pytest.approx(3 / 7)}


def test_a_colder_place_is_told_colder_by_its_usual_difference() -> None:
    """The door logger reads 1 K under the main one every night: −1.5 becomes −2.5 there and the lettuce needed it."""
    bench = logger("bench", beds=("west",), main=True)
    made = of(logger=(bench, logger("door", beds=("east",))))
    hours = pd.date_range("2026-01-05", "2026-01-12", freq="1h", tz=ZONE)
    airs = tuple(channel(pd.Series(c, index=hours), logger=name) for name, c in (("bench", 4.0), ("door", 3.0)))
    told = found(WEEK, LETTUCE, of=made, channels=airs)
    assert [night.need for night in told.nights][:2] == ["not needed", "perhaps"]


def test_a_place_of_which_no_air_is_known_is_told_as_the_table_has_it() -> None:
    """No logger at all, or one that stopped before the season's nights: nothing is known to be colder there, and the
    nights of the table stand as they are."""
    as_it_is = [night.need for night in found(WEEK, LETTUCE).nights]
    bench = logger("bench", beds=("west",), main=True)
    made = of(logger=(bench, logger("door", beds=("east",))))
    hours = pd.date_range("2026-01-05", "2026-01-12", freq="1h", tz=ZONE)
    alone = channel(pd.Series(4.0, index=hours), logger="bench")
    noon = channel(pd.Series(1.0, index=hours[10:16]), logger="door")
    for airs in ((), (alone,), (alone, noon)):
        assert [night.need for night in found(WEEK, LETTUCE, of=made, channels=airs).nights] == as_it_is


def test_trays_are_named_and_not_judged() -> None:
    """Sown on the 1st and set out on the 20th: somewhere in between, and the book does not say where."""
    trays = planting("leek", "east", "2026-01-10", sown=dt.date(2026, 1, 1))
    assert found(WEEK, LETTUCE, trays).trays == ("leek",)


def test_the_house_could_be_left_to_hardy_crops_once_the_tender_one_is_gone() -> None:
    """Lettuce is cleared on 13 January, leek stays: from Monday the 19th … the 12th still has lettuce. A new lettuce on
    2 February meets −5 °C at once: until the 1st."""
    of_weeks = of("2026-01-05", "2026-02-08")
    stood = (
        planting("lettuce", "east", "2025-11-01", "2026-01-13"),
        LEEK,
        planting("lettuce", "east", "2026-02-02"),
    )
    told = found([-5.0] * 35, *stood, of=of_weeks, heating=(by_night(nights=35),))
    assert (told.hardy_from, told.hardy_until) == (dt.date(2026, 1, 19), dt.date(2026, 2, 1))


def test_no_such_week_while_a_crop_without_a_band_stands_or_a_night_cannot_be_told() -> None:
    """Oddleaf rules nothing out; nor does a night without forecast at −15 °C outdoors for leek (−12); at −8 it does."""
    of_weeks, heat = of("2026-01-05", "2026-02-08"), (by_night(nights=35),)
    odd = planting("oddleaf", "west", "2025-11-01")
    assert found([-5.0] * 35, LEEK, odd, of=of_weeks, heating=heat).hardy_from is None
    holed = [*([-5.0] * 34), NAN]
    assert found(holed, LEEK, of=of_weeks, heating=heat).hardy_from is None
    assert found(holed, LEEK, of=of_weeks, heating=heat, outdoor=-8.0).hardy_from == dt.date(2026, 1, 5)


def test_the_first_such_week_is_the_one_in_which_heating_begins() -> None:
    """Heated from Sunday the 18th on: the week of Monday the 12th has that night; from the 19th on it has none."""
    of_weeks = of("2026-01-05", "2026-02-08")
    for first, monday in (("2026-01-18", 12), ("2026-01-19", 19)):
        heat = (by_night(nights=14, first=first),)
        assert found([-5.0] * 35, LEEK, of=of_weeks, heating=heat).hardy_from == dt.date(2026, 1, monday)


def test_such_a_spell_is_a_whole_week_at_least() -> None:
    """Lettuce is set out again on Monday the 26th: the week to Sunday the 25th is seven days; on the 25th it is six."""
    of_weeks = of("2026-01-05", "2026-02-08")
    gone = planting("lettuce", "east", "2025-11-01", "2026-01-15")
    for back, told in (("2026-01-26", (dt.date(2026, 1, 19), dt.date(2026, 1, 25))), ("2026-01-25", (None, None))):
        again = planting("lettuce", "east", back)
        said = found([-5.0] * 35, LEEK, gone, again, of=of_weeks, heating=(by_night(nights=35),))
        assert (said.hardy_from, said.hardy_until) == told


def test_a_week_without_heat_in_it_is_not_spoken_of() -> None:
    """Heated on the first week only, and lettuce stood in it."""
    of_weeks = of("2026-01-05", "2026-02-08")
    gone = planting("lettuce", "east", "2025-11-01", "2026-01-12")
    assert found([-5.0] * 35, LEEK, gone, of=of_weeks, heating=(by_night(nights=7),)).hardy_from is None
