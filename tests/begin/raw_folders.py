"""Folders of raw exports in the shapes that loggers, their programs and greenhouse computers write; every number is
made here, so what a right reading gives is known."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from begin.workbooks import Cell, ods, xlsx

FIRST = dt.datetime(2025, 12, 1)
HOURS = 20 * 24
Column = str | int


@dataclass(frozen=True, kw_only=True)
class Sensor:
    """One measure that must come out: where, its column as season.toml names it, unit, and the written values."""

    where: str
    measure: str
    column: Column
    unit: str
    values: Mapping[dt.datetime, float]
    kept: Callable[[float], float] = float  # from the column's unit to the kept one


@dataclass(frozen=True, kw_only=True)
class Folder:
    """What lies there and what must be understood. `rows`: lines with readings by file; `told`: words that must stand
    in season.toml, `silent`: names that no measure may have; `heating`: sum of each heater's kWh."""

    sensors: Sequence[Sensor]
    rows: Mapping[str, int]
    time: Column | tuple[Column, ...] = "Time"
    told: Sequence[str] = ()
    show: str = "metric"
    heating: Mapping[str, float] = field(default_factory=dict)
    days: tuple[dt.date, dt.date] = (FIRST.date(), (FIRST + dt.timedelta(hours=HOURS - 1)).date())


def hours(first: dt.datetime = FIRST, count: int = HOURS) -> list[dt.datetime]:
    """Whole hours one after the other."""
    return [first + dt.timedelta(hours=n) for n in range(count)]


def air(t: dt.datetime) -> float:
    """Air beside the crop [°C], one decimal."""
    return round(7 + 4 * math.sin((t.hour - 9) / 24 * 6.2832) + 2 * math.sin(t.toordinal() / 3), 1)


def damp(t: dt.datetime) -> float:
    """Humidity beside the crop [%]."""
    return float(round(78 - 9 * math.sin((t.hour - 9) / 24 * 6.2832)))


def frost(t: dt.datetime) -> float:
    """Outdoor air [°C]: colder, with a rhythm of its own."""
    return round(-1.5 + 3.5 * math.sin((t.hour - 8) / 24 * 6.2832) + 3 * math.sin(t.toordinal() / 4), 1)


def bed(t: dt.datetime) -> float:
    """Soil of the bed [°C]: hardly any daily swing."""
    return round(9.3 + 0.4 * math.sin((t.hour - 15) / 24 * 6.2832) - 0.02 * (t - FIRST).days, 2)


def sun(t: dt.datetime) -> float:
    """Radiation outdoors [W/m²]."""
    return float(max(0, round(240 * math.sin((t.hour - 7) / 10 * math.pi)))) if 7 <= t.hour <= 17 else 0.0


def fahrenheit(c: float) -> float:
    """°C written in °F with one decimal."""
    return round(c * 1.8 + 32, 1)


def celsius(f: float) -> float:
    """NIST SP 811, B.9: t/°C = (t/°F − 32)/1.8."""
    return (f - 32) / 1.8


def write(path: Path, lines: Iterable[str], encoding: str = "utf-8") -> None:
    """A text file of these lines."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(("\n".join(lines) + "\n").encode(encoding))


def sensor(
    measure: str,
    column: Column,
    unit: str,
    of: Callable[[dt.datetime], float],
    where: str = "crop",
    kept: Callable[[float], float] = float,
) -> Sensor:
    """A measure with a value every hour."""
    values = {t: of(t) for t in hours()}
    return Sensor(where=where, measure=measure, column=column, unit=unit, values=values, kept=kept)


def an_index_without_a_name(folder: Path) -> Folder:
    """A data frame written with its index: the first name is empty."""
    rows = [f"{n},{t:%Y-%m-%d %H:%M:%S},{air(t)},{damp(t)}" for n, t in enumerate(hours())]
    write(folder / "bench.csv", [",Time,Temp (°C),RH (%)", *rows])
    return Folder(
        sensors=[
            sensor("air_temperature", "Temp (°C)", "degC", air),
            sensor("relative_humidity", "RH (%)", "%", damp),
        ],
        rows={"bench.csv": HOURS},
        told=["not used: column 1"],
    )


def a_time_without_a_name(folder: Path) -> Folder:
    """The time itself stands under an empty name."""
    write(folder / "bench.csv", [";Temp °C;RH %", *(f"{t:%d.%m.%Y %H:%M};{air(t)};{damp(t)}" for t in hours())])
    return Folder(
        sensors=[sensor("air_temperature", "Temp °C", "degC", air), sensor("relative_humidity", "RH %", "%", damp)],
        rows={"bench.csv": HOURS},
        time=1,
    )


def a_header_one_short(folder: Path) -> Folder:
    """Row numbers that the header does not count: every name stands one place too far left."""
    rows = [f'"{n}",{t:%Y-%m-%d %H:%M},{air(t)},{damp(t)}' for n, t in enumerate(hours(), 1)]
    write(folder / "bench.csv", ['"Time","Temp.C","RH"', *rows])
    return Folder(
        sensors=[sensor("air_temperature", "Temp.C", "degC", air), sensor("relative_humidity", "RH", "%", damp)],
        rows={"bench.csv": HOURS},
    )


def year_month_day_hour_minute(folder: Path) -> Folder:
    """The parts of the time in five columns, without leading zeros."""
    rows = [f"{t.year},{t.month},{t.day},{t.hour},{t.minute},{air(t)}" for t in hours()]
    write(folder / "bench.csv", ["Year,Month,Day,Hour,Minute,T_air", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "T_air", "degC", air)],
        rows={"bench.csv": HOURS},
        time=("Year", "Month", "Day", "Hour", "Minute"),
        told=['time_format = "%Y %m %d %H %M"'],
    )


def a_day_and_hours_to_24(folder: Path) -> Folder:
    """The day in one column, hours 1 to 24 in another: 24 is the midnight that ends the day."""
    stamps = [(t, t - dt.timedelta(hours=1)) for t in hours()]
    rows = [f"{before:%d/%m/%Y};{before.hour + 1};{air(t):.1f}".replace(".", ",") for t, before in stamps]
    write(folder / "bench.csv", ["Date;Hour;Air temperature [°C]", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "Air temperature [°C]", "degC", air)],
        rows={"bench.csv": HOURS},
        time=("Date", "Hour"),
        told=['time_format = "%d/%m/%Y %H"'],
    )


def junk_above_and_decimal_commas(folder: Path) -> Folder:
    """A serial number and a title above, date and clock apart, commas for points, old code page."""
    rows = [f"{t:%d.%m.%Y};{t:%H:%M};{air(t):.1f};{damp(t):.1f};3,1".replace(".0;", ",0;") for t in hours()]
    rows = [f"{row[:16]}{row[16:].replace('.', ',')}" for row in rows]
    head = ["Seriennummer: 12345", "Gewächshaus;Messreihe 7", "", "Datum;Uhrzeit;Temperatur °C;Feuchte %;Akku V"]
    write(folder / "haus.csv", [*head, *rows], "cp1252")
    return Folder(
        sensors=[
            sensor("air_temperature", "Temperatur °C", "degC", air),
            sensor("relative_humidity", "Feuchte %", "%", damp),
        ],
        rows={"haus.csv": HOURS},
        time=("Datum", "Uhrzeit"),
    )


def month_first_am_and_pm_in_fahrenheit(folder: Path) -> Folder:
    """Quoted cells, 12/13/2025 1:00 PM, °F: the report prints US units."""
    rows = [f'"{t:%m/%d/%Y %I:%M:%S %p}","{fahrenheit(air(t))}","{damp(t)}"' for t in hours()]
    write(folder / "bench.csv", ['"Date/Time","Temperature(°F)","Humidity(%)"', *rows])
    warm = sensor("air_temperature", "Temperature(°F)", "degF", lambda t: fahrenheit(air(t)), kept=celsius)
    return Folder(
        sensors=[
            warm,
            sensor("relative_humidity", "Humidity(%)", "%", damp),
        ],
        rows={"bench.csv": HOURS},
        time="Date/Time",
        show="us",
    )


def a_greenhouse_computer(folder: Path) -> Folder:
    """Vents, pipes, set points and a weather mast beside the climate: only what was measured is read, each where it
    hangs."""
    names = (
        "Time,Tair,RHair,VentWind,VentLee,Tpipe,HeatSP,CO2,WindDir,Windsp (km/h),Tout,Iglob (W/m2),SlabTemp,tflow out"
    )
    rows = [
        f"{t:%Y-%m-%d %H:%M},{air(t)},{damp(t)},{t.hour},{t.hour / 2},{35 + t.hour / 4},8,420,{t.hour * 15},"
        f"{7.2 + t.hour % 3},{frost(t)},{sun(t):.0f},{bed(t)},{41 + t.hour / 4}"
        for t in hours()
    ]
    write(folder / "climate.csv", [names, *rows])

    def wind(t: dt.datetime) -> float:
        return 7.2 + t.hour % 3

    breeze = sensor("wind_speed", "Windsp (km/h)", "km/h", wind, "outdoor", lambda kmh: kmh / 3.6)
    return Folder(
        sensors=[
            sensor("air_temperature", "Tair", "degC", air),
            sensor("relative_humidity", "RHair", "%", damp),
            sensor("soil_temperature", "SlabTemp", "degC", bed),
            sensor("outdoor_temperature", "Tout", "degC", frost, where="outdoor"),
            sensor("solar_radiation", "Iglob (W/m2)", "W/m²", sun, where="outdoor"),
            breeze,
        ],
        rows={"climate.csv": HOURS},
        told=["not used: VentWind, VentLee, Tpipe, HeatSP, CO2, WindDir, tflow out"],
    )


def two_air_columns_far_apart(folder: Path) -> Folder:
    """The second is nine degrees colder: outdoors, or a cold corner? It is asked, and speaks for nothing."""
    rows = [f"{t:%Y-%m-%d %H:%M}\t{air(t)}\t{air(t) - 9:.1f}" for t in hours()]
    write(folder / "house.txt", ["Time\tT1 (°C)\tT2 (°C)", *rows])
    cold = sensor("air_temperature", "T2 (°C)", "degC", lambda t: round(air(t) - 9, 1), where="elsewhere")
    return Folder(
        sensors=[sensor("air_temperature", "T1 (°C)", "degC", air), cold],
        rows={"house.txt": HOURS},
        told=["? 'T2 (°C)' is 9 °C colder than 'T1 (°C)'"],
    )


def average_lowest_and_highest(folder: Path) -> Folder:
    """The average is the reading; lowest and highest of the hour before are none of that moment."""
    rows = [f"{t:%Y-%m-%dT%H:%M:%S+01:00},{air(t)},{air(t) - 0.4:.1f},{air(t) + 0.5:.1f},{damp(t)}" for t in hours()]
    write(folder / "bench.csv", ["timestamp,tavg,tmin,tmax,rh_avg", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "tavg", "degC", air), sensor("relative_humidity", "rh_avg", "%", damp)],
        rows={"bench.csv": HOURS},
        time="timestamp",
        told=["not used: tmin, tmax"],
    )


def one_logger_over_two_winters(folder: Path) -> Folder:
    """bench-2024 and bench-2025 have one header and no day in common: one logger; the fuller winter is the season."""
    few, many = hours(dt.datetime(2025, 2, 10), 9 * 24), hours()
    for name, when in (("bench-2024.csv", few), ("bench-2025.csv", many)):
        write(folder / "loggers" / name, ["Time,Temp (°C)", *(f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in when)])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)],
        rows={"loggers/bench-2024.csv": 9 * 24, "loggers/bench-2025.csv": HOURS},
        told=["2 files taken as one logger's"],
    )


ODD_NAME = 'my [best] *"bench"* log?.csv'


def a_file_name_full_of_signs(folder: Path) -> Folder:
    """[ ] * ? and quotes in the name are no pattern and break no TOML; a file that a pattern would catch is left."""
    write(folder / ODD_NAME, ["Time,Temp (°C)", *(f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in hours())])
    return Folder(sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)], rows={ODD_NAME: HOURS})


def a_control_sign_in_the_name(folder: Path) -> Folder:
    """A bell in a file's name comes out as a pattern."""
    name = "bench\x07\x7f.csv"
    write(folder / name, ["Time,Temp (°C)", *(f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in hours())])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)],
        rows={name: HOURS},
        told=['files = ["bench??.csv"]'],
    )


def running_meters_beside_the_climate(folder: Path) -> Folder:
    """A kWh counter is offered as heating; one in m³ and one of no unit are told and left to the grower."""
    rows = [
        f"{t:%Y-%m-%d %H:%M},{air(t)},{3100 + 0.25 * n:.2f},{88 + 0.03 * n:.2f},{17 + n // 5}"
        for n, t in enumerate(hours())
    ]
    write(folder / "house.csv", ["Time,Temp (°C),Heat kWh,Gas m3,Meter", *rows])
    counter = {t: 3100 + 0.25 * n for n, t in enumerate(hours())}
    used = Sensor(where="crop", measure="heater_energy", column="Heat kWh", unit="kWh", values=counter)
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), used],
        rows={"house.csv": HOURS},
        told=["'Gas m3' of house.csv runs up like a meter", '# heater_energy = { column = "Meter"'],
        heating={"the heater": 0.25 * (HOURS - 1)},
    )


def kilowatt_hours_of_each_step(folder: Path) -> Folder:
    """kWh that fall again and again are what each step used: as a running counter they would be nonsense."""
    rows = [f"{t:%Y-%m-%d %H:%M},{air(t)},{0.2 + 0.1 * (n % 4):.1f}" for n, t in enumerate(hours())]
    write(folder / "house.csv", ["Time,Temp (°C),Energy (kWh)", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)],
        rows={"house.csv": HOURS},
        told=["not used: Energy (kWh) (its numbers fall again and again"],
    )


def an_ods_with_notes_in_front(folder: Path) -> Folder:
    """Real dates and times on the second sheet, below two lines of title."""
    rows: list[list[Cell]] = [["House log", None, None], [None, None, None], ["Time", "Temp (°C)", "RH (%)"]]
    rows += [[t, air(t), damp(t)] for t in hours()]
    ods(folder / "bench.ods", {"About": [["kept by hand in spring"]], "Data 2025": rows})
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), sensor("relative_humidity", "RH (%)", "%", damp)],
        rows={"bench.ods": HOURS},
        told=['sheet = "Data 2025"'],
    )


def an_xlsx_with_date_and_clock(folder: Path) -> Folder:
    """A column of dates and one of times of day, as day numbers in date formats; a sheet for each logger."""
    head: list[Cell] = ["Date", "Clock", "Temp (°C)"]
    crop_rows: list[list[Cell]] = [[t.date(), t.time(), air(t)] for t in hours()]
    cold_rows: list[list[Cell]] = [[t.date(), t.time(), frost(t)] for t in hours()]
    xlsx(folder / "winter.xlsx", {"Bench": [head, *crop_rows], "Outside": [["Date", "Clock", "Tout"], *cold_rows]})
    return Folder(
        sensors=[
            sensor("air_temperature", "Temp (°C)", "degC", air),
            sensor("outdoor_temperature", "Tout", "degC", frost, where="outdoor"),
        ],
        rows={"winter.xlsx": HOURS},
        time=("Date", "Clock"),
    )


def one_name_for_two_columns(folder: Path) -> Folder:
    """Two columns of one name: each is named by its place."""
    rows = [f"{t:%Y-%m-%d %H:%M},{air(t)},{damp(t)},{air(t) + 0.5:.1f},{damp(t)}" for t in hours()]
    write(folder / "two.csv", ["Time,Temp °C,RH %,Temp °C,RH %", *rows])
    second = sensor("air_temperature", 4, "degC", lambda t: round(air(t) + 0.5, 1))
    return Folder(
        sensors=[
            sensor("air_temperature", 2, "degC", air),
            sensor("relative_humidity", 3, "%", damp),
            second,
            sensor("relative_humidity", 5, "%", damp),
        ],
        rows={"two.csv": HOURS},
    )


def newest_first_in_utf_16(folder: Path) -> Folder:
    """The latest reading on top, tabs, two bytes a letter; a probe that may hang anywhere is asked about."""
    rows = [f"{t:%Y-%m-%d %H:%M}\t{air(t)}\t{bed(t)}" for t in reversed(hours())]
    write(folder / "bench.txt", ["Time\tTemp °C\tExt. probe °C", *rows], "utf-16")
    return Folder(
        sensors=[sensor("air_temperature", "Temp °C", "degC", air)],
        rows={"bench.txt": HOURS},
        told=['# soil_temperature = { column = "Ext. probe °C", unit = "degC" }'],
    )


def seconds_since_1970_behind_a_row_number(folder: Path) -> Folder:
    """A record number that looks like a spreadsheet's day, and the time as seconds since 1970 (UTC)."""
    utc = dt.timedelta(hours=1)
    epoch = dt.datetime(1970, 1, 1)
    rows = [f"{45000 + n},{round((t - utc - epoch).total_seconds())},{air(t)}" for n, t in enumerate(hours())]
    write(folder / "bench.csv", ["record,unixtime,temperature_c", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "temperature_c", "degC", air)],
        rows={"bench.csv": HOURS},
        time="unixtime",
    )


def one_fahrenheit_among_celsius(folder: Path) -> Folder:
    """Of three temperature columns one is in °F: the report prints in metric."""
    write(
        folder / "a.csv", ["Time,Temp (°C),Bed probe (°C)", *(f"{t:%Y-%m-%d %H:%M},{air(t)},{bed(t)}" for t in hours())]
    )
    write(folder / "yard.csv", ["Time,Temp (°F)", *(f"{t:%Y-%m-%d %H:%M},{fahrenheit(frost(t))}" for t in hours())])
    cold = sensor("outdoor_temperature", "Temp (°F)", "degF", lambda t: fahrenheit(frost(t)), "outdoor", celsius)
    return Folder(
        sensors=[
            sensor("air_temperature", "Temp (°C)", "degC", air),
            sensor("soil_temperature", "Bed probe (°C)", "degC", bed),
            cold,
        ],
        rows={"a.csv": HOURS, "yard.csv": HOURS},
    )


def am_and_pm_in_a_column(folder: Path) -> Folder:
    """Date, a 12-hour clock, and AM or PM beside it."""
    rows = [f"{t:%m/%d/%Y},{t:%I:%M:%S},{t:%p},{air(t)},{damp(t)}" for t in hours()]
    write(folder / "bench.csv", ["Date,Time,AM/PM,Temp (°C),RH (%)", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), sensor("relative_humidity", "RH (%)", "%", damp)],
        rows={"bench.csv": HOURS},
        time=("Date", "Time", "AM/PM"),
    )


def exports_that_tell_all_so_far(folder: Path) -> Folder:
    """The logger's memory was never emptied: each export begins anew; and one is a copy."""
    rows = [f"{t:%Y-%m-%d %H:%M},{air(t)},{damp(t)}" for t in hours()]
    spans = {"house_1.csv": 100, "house_2.csv": 300, "house_3.csv": HOURS, "house_3 - Copy.csv": HOURS}
    for name, count in spans.items():
        write(folder / name, ["Time,Temp (°C),RH (%)", *rows[:count]])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), sensor("relative_humidity", "RH (%)", "%", damp)],
        rows=spans,
        told=["4 files taken as one logger's"],
    )


def a_folder_a_month(folder: Path) -> Folder:
    """nov/bench.csv and dec-2025/bench.csv."""
    when = hours(FIRST - dt.timedelta(days=10), HOURS)
    for name, month in (("nov", 11), ("dec-2025", 12)):
        rows = [f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in when if t.month == month]
        write(folder / name / "bench.csv", ["Time,Temp (°C)", *rows])
    values = {t: air(t) for t in when}
    return Folder(
        sensors=[Sensor(where="crop", measure="air_temperature", column="Temp (°C)", unit="degC", values=values)],
        rows={"nov/bench.csv": 240, "dec-2025/bench.csv": HOURS - 240},
        days=(when[0].date(), when[-1].date()),
    )


def a_year_of_two_digits_in_front(folder: Path) -> Folder:
    """25-12-01 is the first of December 2025."""
    write(folder / "bench.csv", ["Time,Temp (°C)", *(f"{t:%y-%m-%d %H:%M},{air(t)}" for t in hours())])
    return Folder(sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)], rows={"bench.csv": HOURS})


def a_file_whose_name_says_what_it_holds(folder: Path) -> Folder:
    """time,value in temperature.csv; a log without an ending beside it is told of."""
    write(folder / "temperature.csv", ["time,value", *(f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in hours())])
    write(folder / "LOG001", ["nothing that is read"])
    return Folder(
        sensors=[sensor("air_temperature", "value", "degC", air)],
        rows={"temperature.csv": HOURS},
        time="time",
        told=["not looked at: LOG001"],
    )


def a_yard_in_fahrenheit_without_a_unit(folder: Path) -> Folder:
    """Numbers around 25 outdoors beside 7 °C in the house: °F, and asked about; a file without a header is told of."""
    write(folder / "bench.csv", ["Time,Temp (°C)", *(f"{t:%Y-%m-%d %H:%M},{air(t)}" for t in hours())])
    cold = {t: fahrenheit(frost(t) - 4) for t in hours()}
    write(folder / "yard.csv", ["Time,Temperature", *(f"{t:%Y-%m-%d %H:%M},{cold[t]}" for t in hours())])
    write(folder / "yard_2.csv", [f"{t + dt.timedelta(days=30):%Y-%m-%d %H:%M},{cold[t]}" for t in hours()])
    yard = Sensor(
        where="outdoor",
        measure="outdoor_temperature",
        column="Temperature",
        unit="degF",
        values=cold,
        kept=celsius,
    )
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), yard],
        rows={"bench.csv": HOURS, "yard.csv": HOURS},
        told=["it was taken as degF", "yard_2.csv is not used: it begins with readings"],
    )


def a_file_a_day_month_first(folder: Path) -> Folder:
    """12/01 to 12/12 could be read either way, and 12/12 is the same both ways: the files from 12/13 on say how."""
    days = sorted({t.date() for t in hours()})
    rows = {}
    for day in days:
        lines = [f"{t:%m/%d/%Y %H:%M},{air(t)}" for t in hours() if t.date() == day]
        write(folder / f"log_{day}.csv", ["Time,Temp (°C)", *lines])
        rows[f"log_{day}.csv"] = len(lines)
    return Folder(sensors=[sensor("air_temperature", "Temp (°C)", "degC", air)], rows=rows)


def one_sensor_in_both_units(folder: Path) -> Folder:
    """°C and °F of one sensor side by side: it is one sensor."""
    rows = [f"{t:%Y-%m-%d %H:%M},{air(t)},{fahrenheit(air(t))},{damp(t)}" for t in hours()]
    write(folder / "bench.csv", ["Time,Temp (°C),Temp (°F),RH (%)", *rows])
    return Folder(
        sensors=[sensor("air_temperature", "Temp (°C)", "degC", air), sensor("relative_humidity", "RH (%)", "%", damp)],
        rows={"bench.csv": HOURS},
        told=["not used: Temp (°F)"],
    )


SHAPES: tuple[Callable[[Path], Folder], ...] = (
    an_index_without_a_name,
    a_time_without_a_name,
    a_header_one_short,
    year_month_day_hour_minute,
    a_day_and_hours_to_24,
    junk_above_and_decimal_commas,
    month_first_am_and_pm_in_fahrenheit,
    a_greenhouse_computer,
    two_air_columns_far_apart,
    average_lowest_and_highest,
    one_logger_over_two_winters,
    a_file_name_full_of_signs,
    a_control_sign_in_the_name,
    running_meters_beside_the_climate,
    kilowatt_hours_of_each_step,
    an_ods_with_notes_in_front,
    an_xlsx_with_date_and_clock,
    one_name_for_two_columns,
    newest_first_in_utf_16,
    seconds_since_1970_behind_a_row_number,
    one_fahrenheit_among_celsius,
    am_and_pm_in_a_column,
    exports_that_tell_all_so_far,
    a_folder_a_month,
    a_year_of_two_digits_in_front,
    a_file_whose_name_says_what_it_holds,
    a_yard_in_fahrenheit_without_a_unit,
    a_file_a_day_month_first,
    one_sensor_in_both_units,
)
