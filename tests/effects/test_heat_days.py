"""Heat of garden days and nights from logs and meters of a few days, by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from effects.heaters import hourly, meter
from made_season import heater, readings, season

from reportgen.effects.heat_days import COLUMNS, HeatDays, heat_days
from reportgen.readings.types import HeatSupply

OF = season("2026-01-05", "2026-01-08")  # four days


def of(*heating: HeatSupply, appliances: tuple[HeatSupply, ...] = ()) -> HeatDays:
    return heat_days(readings(OF, heating=heating, appliances=appliances))


def column(found: HeatDays, name: str) -> list[float]:
    return [pytest.approx(value, nan_ok=True) for value in found.table[name]]


def day(by_day: float, by_night: float) -> list[float]:
    """A date from midnight: night until 6 h, day until 20 h, night."""
    return [by_night] * 6 + [by_day] * 14 + [by_night] * 4


def test_garden_days_run_from_noon_and_nights_from_eight_to_six() -> None:
    """Nights of 1, 2, 3 and 4 kWh an hour (named after their evening) and days of 0.1: from noon to noon 10 hours
    of night and 14 of day; of the last day's only 12 of 24 hours are in the season, too few; its night has 4 of 10."""
    hours = [
        *day(0.1, 9.0)[:20],
        *[1.0] * 10,
        *[0.1] * 14,
        *[2.0] * 10,
        *[0.1] * 14,
        *[3.0] * 10,
        *[0.1] * 14,
        *[4.0] * 4,
    ]
    found = of(hourly("2026-01-05", hours))
    assert column(found, "kwh") == [11.4, 21.4, 31.4, np.nan]
    assert column(found, "night_w") == [1000.0, 2000.0, 3000.0, np.nan]
    assert column(found, "night_heated_h") == [10.0, 10.0, 10.0, np.nan]
    assert column(found, "heated") == [1.0, 1.0, 1.0, np.nan]
    assert column(found, "only_sums") == [0.0] * 4
    assert (found.reason, found.left_out, found.by_hour, found.large_sums) == ("", (), True, ())


@pytest.mark.parametrize(("lost", "night_known"), [(2, True), (3, False)])
def test_four_fifths_of_a_night_must_be_known(lost: int, night_known: bool) -> None:
    """Eight of ten hours are enough, seven are not; the power is that of the known hours, the hours heated are drawn up
    to ten: half of them heated are five."""
    night = [np.nan] * lost + [2.0] * ((10 - lost) // 2) + [0.0] * (10 - lost - (10 - lost) // 2)
    hours = [0.0] * 20 + night + [0.0] * 66
    found = of(hourly("2026-01-05", hours))
    told = (10 - lost) // 2 / (10 - lost)
    assert column(found, "only_sums") == [0.0] * 4  # not logged is not known only as a sum
    assert column(found, "night_w")[0] == (2000.0 * told if night_known else np.nan)
    assert column(found, "night_heated_h")[0] == (10.0 * told if night_known else np.nan)
    assert column(found, "kwh")[0] == 24 / (24 - lost) * 2.0 * ((10 - lost) // 2)


@pytest.mark.parametrize(("lost", "known"), [(4, True), (5, False)])
def test_four_fifths_of_a_garden_day_must_be_known(lost: int, known: bool) -> None:
    """Twenty of 24 hours are 83 %, nineteen 79 %; their mean stands for all."""
    hours = [0.0] * 12 + [np.nan] * lost + [1.0] * (24 - lost) + [0.0] * 60
    found = of(hourly("2026-01-05", hours))
    assert column(found, "kwh")[0] == (24.0 if known else np.nan)
    assert column(found, "heated")[0] == (1.0 if known else np.nan)


def test_a_day_is_heated_by_any_hour_above_two_percent() -> None:
    """One hour of 1 kWh on the first garden day, one of 0.019 (1.9 %) on the second, of 0.021 on the third."""
    hours = np.zeros(96)
    hours[[15, 39, 63]] = [1.0, 0.019, 0.021]
    assert column(of(hourly("2026-01-05", hours.tolist())), "heated")[:3] == [1.0, 0.0, 1.0]


def test_appliances_heat_the_day_and_not_the_night_of_the_heaters() -> None:
    """A lamp of 0.5 kWh an hour beside 1: 36 kWh a garden day, 1000 W at night."""
    log = hourly("2026-01-05", [1.0] * 96)
    found = of(log, appliances=(hourly("2026-01-05", [0.5] * 96, name="lamp", role="appliance"),))
    assert column(found, "kwh")[0] == 36.0 and column(found, "night_w")[0] == 1000.0


def test_a_heater_known_only_as_sums_is_named() -> None:
    """Two kilowatts beside a log of one are large, 90 watts small; without a rated power it may be any size. Of the
    days on which a large one gave a third, nothing is told: they are known only as sums."""
    log = hourly("2026-01-05", [1.0] * 96)
    stove = meter(["2026-01-06", "2026-01-07"], [12.0], name="stove", rated_power_w=2000.0)
    tube = meter(["2026-01-06", "2026-01-07"], [0.1], name="tube", rated_power_w=90.0)
    unknown = meter(["2026-01-06", "2026-01-07"], [0.1], name="box")
    found = of(log, stove, tube, unknown)
    assert found.left_out == ("stove", "tube", "box") and found.large_sums == ("stove", "box")
    assert column(found, "only_sums") == [1.0, 1.0, 0.0, 0.0]
    assert column(found, "night_w") == [np.nan, np.nan, 1000.0, np.nan]
    edge = meter(["2026-01-06", "2026-01-07"], [0.1], name="edge", rated_power_w=100.0)
    assert of(log, edge).large_sums == ()  # a tenth of the largest hour is no more than slight


def test_nothing_by_the_hour_but_what_sums_hide() -> None:
    """A log of one day beside a stove's large sum over it: nothing is left, and its name is told."""
    found = of(hourly("2026-01-06", [0.5] * 24), meter(["2026-01-05", "2026-01-09"], [11.0], name="stove"))
    assert found.reason == "the heat of stove is known only as sums over many days"
    assert list(found.table) == list(COLUMNS) and found.table.isna().all().all() and not found.by_hour


def test_no_heater_no_heat() -> None:
    """The reason, and a table of nothing."""
    found = of()
    assert found.reason == "no heater is listed" and found.table.isna().all().all() and len(found.table) == 4
    aside = of(appliances=(hourly("2026-01-05", [1.0] * 96, name="lamp", role="appliance"),))
    assert aside.reason == "no heater is listed"


NOONS = [f"2026-01-{d} 12:00" for d in ("05", "06", "07", "08", "09")]


def test_a_meter_read_at_noon_tells_days_and_no_nights() -> None:
    """10, 0.2 (2 % of the largest: not heated), 0.21 and 5 kWh; the lamp adds its share to the days, not to whether
    they were heated."""
    found = of(meter(NOONS, [10.0, 0.2, 0.21, 5.0]))
    assert column(found, "kwh") == [10.0, 0.2, 0.21, 5.0]
    assert column(found, "heated") == [1.0, 0.0, 1.0, 1.0]
    assert found.table["night_w"].isna().all() and not found.by_hour and found.reason == ""
    lamp = hourly("2026-01-05 12:00", [0.5] * 72, name="lamp", role="appliance")
    lit = of(meter(NOONS, [10.0, 0.2, 0.21, 5.0]), appliances=(lamp,))
    assert column(lit, "kwh") == [22.0, 12.2, 12.21, 5.0]
    assert column(lit, "heated") == [1.0, 0.0, 1.0, 1.0]


def test_two_meters_are_added_and_one_that_is_not_known_hides_the_day() -> None:
    """10 + 1 and 20 + 2 kWh; the second is not read on the third day."""
    two = of(meter(NOONS[:4], [10.0, 20.0, 30.0]), meter(NOONS[:3], [1.0, 2.0], name="tube"))
    assert column(two, "kwh") == [11.0, 22.0, np.nan, np.nan]


@pytest.mark.parametrize(
    ("start", "end", "kwh"),
    [
        ("05 10:00", "06 10:00", 24.0),  # 22 of 24 hours of the garden day
        ("05 07:12", "06 07:12", 24.0),  # 19.2 of 24 hours, just four fifths
        ("05 07:11", "06 07:11", None),
        ("05 11:00", "06 13:00", 24.0 * 24 / 26),  # 26 hours, told as 24 of them
        ("05 10:59", "06 13:00", None),
        ("05 14:00", "06 12:00", 24.0 * 24 / 22),
        ("05 12:00", "06 08:00", 24.0 * 24 / 20),
        ("05 12:00", "06 07:00", None),  # 19 hours
    ],
)
def test_a_reading_a_day_may_be_taken_at_another_hour(start: str, end: str, kwh: float | None) -> None:
    """At least four fifths of the garden day, of a stretch of 26 hours at most, drawn to 24."""
    found = of(meter([f"2026-01-{start}", f"2026-01-{end}"], [24.0]))
    if kwh is None:
        assert found.reason.startswith("the heaters were read too seldom") and found.table.isna().all().all()
    else:
        assert column(found, "kwh")[0] == kwh and np.isnan(found.table["kwh"].iloc[1])


def test_of_two_stretches_the_one_that_covers_more_of_the_day_counts() -> None:
    """20 hours of 20 kWh and, read twice, 22 hours of 11: 12 kWh a day."""
    rows = [("2026-01-05 12:00", "2026-01-06 08:00", 20.0, 1.0), ("2026-01-05 12:00", "2026-01-06 10:00", 11.0, 1.0)]
    assert column(of(heater(rows)), "kwh")[0] == 12.0
    assert column(of(heater(rows[::-1])), "kwh")[0] == 12.0


def test_a_delivery_a_day_is_no_reading() -> None:
    """However often a tank is filled, it tells of no day; nor does an empty book."""
    rows = [(a, b, 5.0, 1.0) for a, b in pairwise(NOONS)]
    assert of(heater(rows, form="deliveries")).reason.startswith("the heat is known only by what was bought")
    assert of(replace(heater(rows), intervals=heater(rows).intervals.iloc[:0])).reason.startswith("the heaters were")


def test_a_stove_by_the_sack_beside_a_meter_is_named() -> None:
    """The meter of the small heater was read often enough or not: it is the stove of which no day is known."""
    sacks = heater([("2026-01-05 12:00", "2026-01-20 12:00", 90.0, 1.0)], form="deliveries", name="pellet stove")
    weekly = heater([("2026-01-05 12:00", "2026-01-12 12:00", 7.0, 1.0)], name="fan heater")
    reason = of(sacks, weekly).reason
    assert reason.startswith("the heat of the pellet stove is known only by what was bought") and "noon" not in reason
