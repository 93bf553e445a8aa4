"""The sample's headline numbers, worked out a second time from its raw files with pandas and numpy alone.

Nothing of reportgen reads, joins or counts on this side: the files are parsed here, laid on a grid of whole minutes
with straight lines between readings, and counted minute by minute. reportgen counts exact crossings of the same
lines between the readings themselves, so hours may differ by the grid: a reading on a whole minute stays where it is,
each crossing is off by up to half a minute, and a sensor with steps of 0.1 sits *on* a round line at times, where the
grid's strict > and an exact integral part. 0.5 % of a count (and 1 h) covers that; wrong clocks, units, gaps or night
borders move these counts by many times as much.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest

from reportgen.measures.damp import damp
from reportgen.measures.frost import frost
from reportgen.measures.harvest import harvest
from reportgen.measures.heat import heat
from reportgen.measures.light import light
from reportgen.measures.soil import soil
from reportgen.readings import read_season
from reportgen.readings.types import Readings
from reportgen.season import load_season

SAMPLE = Path(__file__).parents[2] / "sample_season"
ZONE, STANDARD = "Europe/Bratislava", "Etc/GMT-1"  # Etc/GMT-1 is UTC+1: winter time all year
FIRST, AFTER = pd.Timestamp("2025-10-11", tz=ZONE), pd.Timestamp("2026-04-13", tz=ZONE)
GAP_MIN = {"bench": 30, "door": 60, "yard": 60}  # three usual steps of 10 and 20 minutes


def hours(count: float) -> Any:
    """A count of hours, within what a grid of minutes may miss (see the module)."""
    return pytest.approx(count, rel=0.005, abs=1.0)


@cache
def ours() -> Readings:
    """The sample as reportgen reads it."""
    return read_season(load_season(SAMPLE))


@cache
def toml() -> dict[str, Any]:
    """season.toml, as the standard library reads it."""
    return tomllib.loads((SAMPLE / "season.toml").read_text(encoding="utf-8"))


def minutes(times: pd.Series, values: pd.Series, gap: int) -> pd.Series:
    """Straight lines between readings no more than `gap` minutes apart, at every minute of the season; else NaN."""
    readings = pd.Series(values.to_numpy(dtype=float), index=pd.DatetimeIndex(times)).dropna()
    readings = readings[(readings.index >= FIRST) & (readings.index < AFTER)].groupby(level=0).first()
    every = pd.date_range(FIRST, AFTER, freq="1min", inclusive="left")
    x = (pd.DatetimeIndex(readings.index) - FIRST).total_seconds().to_numpy() / 60.0
    at = np.arange(len(every), dtype=float)
    left = np.searchsorted(x, at, side="right") - 1
    right = np.searchsorted(x, at, side="left")
    inside = (left >= 0) & (right < len(x))
    near = inside & (x[right.clip(0, len(x) - 1)] - x[left.clip(0)] <= gap)
    return pd.Series(np.where(near, np.interp(at, x, readings.to_numpy()), np.nan), index=every)


@cache
def bench() -> pd.DataFrame:
    """Decimal commas, semicolons, German dates in local time; the exports overlap."""
    parts = [pd.read_csv(file, sep=";", skiprows=1, decimal=",") for file in sorted(SAMPLE.glob("loggers/bench-*.csv"))]
    for part in parts:
        stamp = pd.to_datetime(part["Tag"] + " " + part["Uhr"], format="%d.%m.%Y %H:%M")
        part["t"] = stamp.dt.tz_localize(ZONE, ambiguous="infer")
    rows = pd.concat(parts).drop_duplicates("t").sort_values("t")
    names = {"Luft °C": "air", "Feuchte %": "rh", "PPFD": "ppfd"}
    return pd.DataFrame({new: minutes(rows["t"], rows[old], GAP_MIN["bench"]) for old, new in names.items()})


@cache
def door() -> pd.DataFrame:
    """American dates, °F, a clock that never leaves winter time."""
    rows = pd.concat([pd.read_csv(file) for file in sorted(SAMPLE.glob("loggers/door-*.csv"))])
    stamp = pd.to_datetime(rows["Date Time"], format="%m/%d/%Y %I:%M:%S %p")
    times = stamp.dt.tz_localize(STANDARD).dt.tz_convert(ZONE)
    names = {"Temp °F": "air", "Probe °F": "soil"}
    return pd.DataFrame({new: minutes(times, (rows[old] - 32.0) / 1.8, GAP_MIN["door"]) for old, new in names.items()})


@cache
def yard() -> pd.DataFrame:
    """UTC."""
    rows = pd.read_csv(SAMPLE / "loggers" / "yard.csv")
    times = pd.to_datetime(rows["utc"]).dt.tz_convert(ZONE)
    return pd.DataFrame({name: minutes(times, rows[name], GAP_MIN["yard"]) for name in ("air_c", "rh")})


def coldest_air() -> pd.Series:
    """The lower of both crop loggers, minute by minute."""
    return pd.concat([bench()["air"], door()["air"]], axis=1).min(axis=1)


def share_of_hours(held: pd.Series) -> float:
    return float(held.sum()) / 60.0


def vapour_hpa(celsius: pd.Series) -> pd.Series:
    """Saturation over water, Magnus form of WMO-No. 8 (2018), annex 4.B."""
    return pd.Series(6.112 * np.exp(17.62 * celsius / (243.12 + celsius)), index=celsius.index)


def test_the_coldest_moment_its_place_and_the_air_outdoors() -> None:
    """To the reading: the raw °F of the door logger, 0.01 K for rounding of units; outdoors on its straight line."""
    found, air = frost(ours()).minimum, coldest_air()
    assert found.temperature_c == pytest.approx(float(air.min()), abs=0.01)
    assert found.logger == ("door" if door()["air"].min() < bench()["air"].min() else "bench")
    assert found.at == air.idxmin()
    assert found.outdoor_c == pytest.approx(float(yard()["air_c"].iloc[int(air.argmin())]), abs=0.01)


def test_nights_and_hours_near_the_frost_line() -> None:
    """Nights run from 18 to 09 h winter time; the 3 K line lies where the thermostat holds: 1.5 % of its hours."""
    found, air = frost(ours()), coldest_air()
    standard = pd.DatetimeIndex(air.index).tz_convert(STANDARD)
    night = air[(standard.hour >= 18) | (standard.hour < 9)]
    evening = (pd.DatetimeIndex(night.index).tz_convert(STANDARD) - pd.Timedelta(hours=9)).date
    least = night.groupby(evening).min()
    for line in (0, 1, 2, 3, 5):
        assert found.nights_below[str(line)].estimate == int((least < line).sum()), line
        below = share_of_hours(air < line)
        assert found.hours_below[str(line)].estimate == pytest.approx(below, rel=0.015, abs=1.0), line
    assert found.degree_hours_below.estimate == pytest.approx(float((-air).clip(lower=0).sum()) / 60.0, rel=0.01)


def test_hours_too_hot() -> None:
    """Above 25 °C at the main logger."""
    assert frost(ours()).hot_hours.estimate == hours(share_of_hours(bench()["air"] > 25.0))


def test_damp_hours_and_their_band() -> None:
    """Above 80 and 90 %, and above 80 % with every reading 3 points lower and higher."""
    found, rh = damp(ours()), bench()["rh"]
    assert found.hours_recorded == hours(share_of_hours(rh.notna()))
    assert found.hours_above_high.estimate == hours(share_of_hours(rh > 80))
    assert found.hours_above_extreme.estimate == hours(share_of_hours(rh > 90))
    assert found.hours_above_high.low == hours(share_of_hours(rh - 3 > 80))
    assert found.hours_above_high.high == hours(share_of_hours(rh + 3 > 80))


def test_the_longest_damp_spell() -> None:
    """One run without a minute at or under 80 %; its beginning to two minutes."""
    found, wet = damp(ours()).longest_spell, bench()["rh"] > 80
    runs = wet.groupby((wet != wet.shift()).cumsum()).agg(["sum", "first"])
    longest = runs.loc[runs["first"], "sum"]
    assert found.hours == hours(float(longest.max()) / 60.0)
    begins = wet.index[((wet != wet.shift()).cumsum() == longest.idxmax()).to_numpy()][0]
    assert found.start is not None
    assert abs((found.start - begins).total_seconds()) <= 120


def test_dew_on_the_roof_and_what_airing_could_do() -> None:
    """R 0.10 m²K/W (ISO 6946) and the vapour pressures of WMO-No. 8, over ice below 0 °C.

    1 %: reportgen has its vapour pressures from ASHRAE, 0.1 to 0.3 % from these, and works on hours' own readings.
    """
    found, air, rh, out = damp(ours()), bench()["air"], bench()["rh"], yard()["air_c"]
    vapour = rh / 100 * vapour_hpa(air)
    x = np.log(vapour / 6.112)
    dew, ice = 243.12 * x / (17.62 - x), 272.62 * x / (22.46 - x)
    assert found.mean_dew_point_c == pytest.approx(float(dew.mean()), abs=0.05)
    assert found.mean_vpd_kpa == pytest.approx(float(((vapour_hpa(air) - vapour) / 10).mean()), rel=0.01)
    glass = air - toml()["house"]["u_value_w_m2k"] * 0.10 * (air - out)
    wet = dew.where(dew >= 0, ice) > glass
    assert found.glazing_dew_hours.estimate == pytest.approx(share_of_hours(wet), rel=0.01)
    outside = yard()["rh"] / 100 * vapour_hpa(out)
    assert found.airing_hours == pytest.approx(share_of_hours((outside < vapour) & (rh > 80)), rel=0.01)


def test_the_soil_bed() -> None:
    """Its mean to 0.02 K, and the hours under the grower's aim."""
    found, bed = soil(ours()), door()["soil"]
    assert found.mean_c == pytest.approx(float(bed.mean()), abs=0.02)
    assert found.hours_below_aim.estimate == hours(share_of_hours(bed < toml()["aims"]["soil_c"]))


def test_daily_light() -> None:
    """Mean sum of the days with light on record, mol/m²; 1 %, because a day short of readings may or may not count."""
    ppfd = bench()["ppfd"]
    days = ppfd.groupby(pd.DatetimeIndex(ppfd.index).date).agg(["sum", "count"])
    whole = days.loc[days["count"] >= 0.95 * 1440, "sum"] * 60e-6
    assert light(ours()).mean_daily_light_mol == pytest.approx(float(whole.mean()), rel=0.01)


def test_days_under_ten_hours() -> None:
    """Sunrise equation with the sun's declination by Spencer 1971 (0.0006 rad): within a day at either end."""
    phi = np.radians(toml()["place"]["latitude"])
    dates = pd.date_range("2025-10-11", "2026-04-12")
    g = 2 * np.pi * (dates.day_of_year.to_numpy() - 1) / 365
    decl = 0.006918 - 0.399912 * np.cos(g) + 0.070257 * np.sin(g) - 0.006758 * np.cos(2 * g)
    decl += 0.000907 * np.sin(2 * g) - 0.002697 * np.cos(3 * g) + 0.00148 * np.sin(3 * g)
    cosine = (np.sin(np.radians(-0.833)) - np.sin(phi) * np.sin(decl)) / (np.cos(phi) * np.cos(decl))
    length = 2 * np.degrees(np.arccos(cosine)) / 15
    found = light(ours())
    assert found.days_under_ten_hours is not None
    assert abs(found.days_under_ten_hours - int((length < 10).sum())) <= 2
    assert found.shortest_day_h == pytest.approx(float(length.min()), abs=0.03)


def test_the_aim_and_how_far_it_was_missed() -> None:
    """3 °C from 24 November, 6 °C from 17 March; 0.01 of a share: sensor steps lie on the very line."""
    air, steps = coldest_air(), toml()["aims"]["hold"]
    aim = pd.Series(np.nan, index=air.index)
    for step in steps:
        aim[air.index >= pd.Timestamp(step["from"], tz=ZONE)] = step["c"]
    known = air.notna() & aim.notna()
    found = heat(ours())
    assert found.share_at_or_above_hold.estimate == pytest.approx(float((air >= aim)[known].mean()), abs=0.01)
    short = float((aim - air).clip(lower=0)[known].sum()) / 60.0
    assert found.degree_hours_below_hold.estimate == pytest.approx(short, rel=0.01)


def counted(file: str) -> pd.DataFrame:
    """What a counter counted between its rows; where it began again, its new reading."""
    rows = pd.read_csv(SAMPLE / "loggers" / file)
    step = rows["kWh"].diff().fillna(0.0)
    return pd.DataFrame({"t": rows["time"], "kwh": step.where(step >= 0, rows["kWh"])})


def test_heat_money_and_carbon_dioxide_by_source() -> None:
    """Sums of the raw counters, meter and bottles; a cent a row at the change of price."""
    found = heat(ours())
    by_name = {source.name: source for source in found.sources}
    fan, gas, mat = toml()["heating"]
    plug = counted("plug.csv")
    late = plug["t"] >= str(fan["prices"][1]["from"])
    cost = sum(
        float(plug.loc[part, "kwh"].sum()) * p["price"] for part, p in zip((~late, late), fan["prices"], strict=True)
    )
    bottles = pd.read_csv(SAMPLE / "heating" / "bottles.csv")
    left = float(bottles["left"].dropna().iloc[-1])
    kg = float(bottles["amount"].sum()) - left
    meter = pd.read_csv(SAMPLE / "heating" / "mat-meter.csv")["reading"]
    mat_kwh = float(meter.iloc[-1] - meter.iloc[0])
    assert by_name["fan heater"].kwh == pytest.approx(float(plug["kwh"].sum()), abs=0.01)
    assert by_name["fan heater"].cost == pytest.approx(cost, abs=0.02)
    assert by_name["gas heater"].kwh == pytest.approx(kg * gas["heat_kwh_per_unit"], rel=1e-6)
    assert by_name["warming mat"].kwh == pytest.approx(mat_kwh, abs=0.01)
    assert found.appliances_kwh == pytest.approx(float(counted("plug-dry.csv")["kwh"].sum()), abs=0.01)
    co2 = (
        float(plug["kwh"].sum()) * fan["co2_kg_per_unit"]
        + kg * gas["co2_kg_per_unit"]
        + mat_kwh * mat["co2_kg_per_unit"]
    )
    assert found.co2_kg == pytest.approx(co2, rel=1e-6)


def test_kilograms_by_crop_and_the_shop() -> None:
    """The harvest book added up, times the shop prices."""
    book = pd.read_csv(SAMPLE / "harvest.csv")
    kg = book.groupby("crop")["weight"].sum() / 1000.0
    prices = {crop["name"]: crop["shop_price_per_kg"] for crop in toml()["crop"]}
    found = harvest(ours())
    assert found.kg == pytest.approx(float(kg.sum()), abs=1e-6)
    assert {crop.crop: crop.kg for crop in found.crops} == pytest.approx(kg.to_dict(), abs=1e-6)
    assert found.shop_value == pytest.approx(sum(float(kg[name]) * prices[name] for name in kg.index), abs=0.01)
    eaten = float(book.loc[book["use"].isin(["eaten", "stored"]), "weight"].sum()) / 1000.0
    need = toml()["household"]["vegetables_kg_per_week"] * (AFTER - FIRST).days / 7.0
    assert found.share_of_household == pytest.approx(eaten / need, rel=0.005)
    heat_cost = heat(ours()).cost
    assert heat_cost is not None
    assert found.cost_per_kg == pytest.approx(heat_cost / float(kg.sum()), abs=0.001)
