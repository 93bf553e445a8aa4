"""Looking at a file of which nothing is known: what it says of its columns and times, and what it leaves open."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

import pandas as pd
import pytest

from reportgen.readings.header_words import measure_of, unit_in
from reportgen.readings.sniff import Sniffed, doubt_of, sniff

PRAGUE = ZoneInfo("Europe/Prague")


def sniffed(folder: Path, text: str) -> Sniffed:
    """What a file of that text seems to hold."""
    (folder / "x.csv").write_text(text, encoding="utf-8")
    found = sniff(folder / "x.csv", PRAGUE)
    assert found is not None
    return found


def test_a_file_with_junk_above_and_decimal_commas_is_understood(tmp_path: Path) -> None:
    """The header is found below a serial number and a title; marks, columns, units and times are worked out."""
    text = "Serial: 0815\nMy house;2025\n\nDatum;Uhrzeit;Temperatur (°C);Feuchte %;Akku V\n"
    text += "".join(f"13.12.2025;{hour:02d}:00;{hour / 2:.1f};80,5;3,1\n".replace(".5", ",5") for hour in range(24))
    found = sniffed(tmp_path, text.replace(".0;", ",0;"))
    assert (found.kind, found.header_line, found.delimiter, found.decimal) == ("logger", 4, ";", ",")
    assert (found.time, found.rows, found.step_s) == (("Datum", "Uhrzeit"), 24, 3600.0)
    assert {c.name: (c.measure, c.unit) for c in found.measures} == {
        "Temperatur (°C)": ("air_temperature", "degC"),
        "Feuchte %": ("relative_humidity", "%"),
    }


def test_a_clock_that_skips_the_spring_hour_is_local(tmp_path: Path) -> None:
    """Half-hourly times written by the zone's own rules are seen to be local; the same in UTC + 1 to be fixed."""
    instants = pd.date_range("2026-03-28 20:00", "2026-03-29 12:00", freq="30min", tz="UTC")
    for zone, clock in (("Europe/Prague", "local"), ("Etc/GMT-1", "+01:00")):
        local = instants.tz_convert(zone)
        rows = "".join(f"{at:%Y-%m-%d %H:%M},5.0\n" for at in local)
        found = sniffed(tmp_path, "Time,Temp\n" + rows)
        assert found.clock == clock, found.clock_why


def test_dates_that_could_be_swapped_stay_open(tmp_path: Path) -> None:
    """One day that could be 1 February or 2 January leaves the order open."""
    found = sniffed(tmp_path, "Time,Temp\n01/02/2026 10:00,5\n01/02/2026 10:10,6\n")
    assert found.day_first is None


@pytest.mark.parametrize(
    ("name", "measure", "unit"),
    [
        ("Temp (°F)", "air_temperature", "degF"),
        ("Teplota půdy °C", "soil_temperature", "degC"),
        ("Außentemperatur [°C]", "outdoor_temperature", "degC"),
        ("Humidité (%)", "relative_humidity", "%"),
        ("Power (kW)", "heater_power", "kW"),
        ("Taupunkt °C", None, None),
        ("Battery V", None, None),
        ("PPFD µmol/m²/s", "ppfd", "µmol/m²/s"),
        ("Substrate T", "soil_temperature", None),
        ("Slab temp [°C]", "soil_temperature", "degC"),
        ("Bed probe 2 °C", "soil_temperature", "degC"),
        ("Slab EC", None, None),
        ("Slab WC (%)", "soil_moisture", "%"),
        ("tavg", "air_temperature", None),
        ("T_mean (°C)", "air_temperature", "degC"),
        ("AvgTemp", "air_temperature", None),
        ("tmax", None, None),
        ("Temp min °C", None, None),
        ("ventwind", None, None),
        ("VentWind", None, None),
        ("Vent lee (%)", None, None),
        ("Lüftung %", None, None),
        ("Mixing valve", None, None),
        ("Wind dir", None, None),
        ("Windrichtung", None, None),
        ("Gust km/h", None, None),
        ("Windspeed", "wind_speed", None),
        ("Vent (km/h)", "wind_speed", "km/h"),
        ("Vitesse du vent", "wind_speed", None),
        ("Window %", None, None),
        ("Flow out °C", None, None),
        ("Return pipe", None, None),
        ("Vorlauf °C", None, None),
        ("Duct out °C", "duct_out_temperature", "degC"),
        ("South bench temp", "air_temperature", None),
        ("Outlet temp", None, None),
        ("TempOut", "outdoor_temperature", None),
        ("RH out", "outdoor_humidity", None),
        ("Temp..C.", "air_temperature", "degC"),
        ("Power_W", "heater_power", "W"),
        ("Air flow m3/h", "duct_airflow", "m3/h"),
        ("Duct airflow (cfm)", "duct_airflow", "cfm"),
        ("Water flow", None, None),
        ("TempF", "air_temperature", "degF"),
        ("tempinf", "air_temperature", "degF"),
        ("temp1c", "air_temperature", "degC"),
        ("OutTempF", "outdoor_temperature", "degF"),
        ("Temp offset", "air_temperature", None),
        ("Luftfuktighet (%)", "relative_humidity", "%"),
        ("Luftfugtighed", "relative_humidity", None),
        ("Luftkosteus", "relative_humidity", None),
        ("Kosteus (%)", "relative_humidity", "%"),
        ("Páratartalom", "relative_humidity", None),
        ("Umidade (%)", "relative_humidity", "%"),
        ("Wilgotność", "relative_humidity", None),
        ("Влажность, %", "relative_humidity", "%"),
        ("Lämpötila (°C)", "air_temperature", "degC"),
        ("Hőmérséklet", "air_temperature", None),
        ("Температура", "air_temperature", None),
        ("Jordfuktighet", "soil_moisture", None),
        ("Jordtemperatur", "soil_temperature", None),
        ("Utetemperatur", "outdoor_temperature", None),
        ("Ulkolämpötila", "outdoor_temperature", None),
    ],
)
def test_header_words(name: str, measure: str | None, unit: str | None) -> None:
    """Names in several languages suggest a measure and a unit; a dew point, how far a vent stands open, a pipe or the
    highest since the row before is none."""
    assert (measure_of(name), unit_in(name, measure)) == (measure, unit)


def test_a_counter_of_rows_is_no_meter_and_a_sawtooth_no_counter(tmp_path: Path) -> None:
    """A meter runs up now and again; the number of the row does at every step; use of each step falls as often."""
    rows = "".join(f"2025-12-01 {n:02d}:00,{n},{100 + n // 3},{n % 4}\n" for n in range(24))
    found = sniffed(tmp_path, "Time,n,Meter kWh,Energy kWh\n" + rows)
    assert {column.name: column.runs_up for column in found.columns[1:]} == {
        "n": False,
        "Meter kWh": True,
        "Energy kWh": False,
    }
    assert [column.name for column in found.measures] == ["Meter kWh"]


def test_fahrenheit_without_a_unit_is_doubted() -> None:
    """Half of the values above 50 in a column said to be °C is told; a cold winter in °C is not."""
    assert "°F" in doubt_of("air_temperature", None, 30.0, 52.0, 88.0)
    assert doubt_of("air_temperature", None, -5.0, 6.0, 31.0) == ""


def test_a_hand_kept_book_is_no_logger(tmp_path: Path) -> None:
    """Dates without a time of day beside words make a book."""
    found = sniffed(tmp_path, "date,crop,weight\n2025-12-01,spinach,0.4\n2025-12-05,lettuce,0.2\n")
    assert (found.kind, found.time) == ("book", ("date",))


def test_a_probe_that_was_mostly_unplugged_is_a_measure(tmp_path: Path) -> None:
    """-- in most rows, numbers in the rest: a column of temperatures; only words are a column of none."""
    rows = [f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00,5.1,{'--' if n < 70 else 9.2},--" for n in range(96)]
    seen = sniffed(tmp_path, "\n".join(["Time,Temp °C,Soil °C,Probe 2 °C", *rows]))
    assert [(column.looks, column.measure) for column in seen.columns[1:]] == [
        ("number", "air_temperature"),
        ("number", "soil_temperature"),
        ("empty", None),
    ]
