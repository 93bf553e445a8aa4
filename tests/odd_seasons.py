"""Seasons that are legal and odd, written by hand as the plain files of a grower: one function per season folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd

AIR = 'air_temperature = { column = "t", unit = "degC", accuracy = 0.5 }'
BARE_AIR = 'air_temperature = { column = "t", unit = "degC" }'
DAMP = 'relative_humidity = { column = "h", accuracy = 3.0 }'
OUT = 'outdoor_temperature = { column = "o", unit = "degC", accuracy = 0.5 }\noutdoor_humidity = { column = "oh" }'
SOIL = 'soil_temperature = { column = "s", unit = "degC", depth_m = 0.1 }'
PLACE = "[place]\nlatitude = 49.0\nlongitude = 16.0\n"
HOUSE = '[house]\nkind = "glasshouse"\nfloor_area_m2 = 12.0\nglazing_area_m2 = 30.0\nu_value_w_m2k = 4.0\n'
PICKED = "date,crop,weight,unit\n{day},kale,120,g\n"


def head(first: str, last: str, zone: str = "Europe/Prague", title: str = "Odd winter", more: str = "") -> str:
    """The first lines of season.toml."""
    return (
        f"format = 1\ntitle = '{title}'\nfirst_day = {first}\nlast_day = {last}\ntime_zone = \"{zone}\"\n"
        f'currency = "EUR"\n{more}\n'
    )


def logger(name: str, where: str, file: str, *measures: str, more: str = "") -> str:
    """One [[logger]] that reads all columns from one file on the UTC clock."""
    lines = "\n".join(measures)
    return (
        f'\n[[logger]]\nname = "{name}"\nwhere = "{where}"\nfiles = ["{file}"]\ntime = "time"\nclock = "utc"\n{more}'
        f"[logger.measures]\n{lines}\n"
    )


def readings(first: str, last: str, step: str = "1h", low: float = -6.0, high: float = 10.0) -> pd.DataFrame:
    """Readings of every column, from the UTC midnight of the first day to the end of the last."""
    at = pd.date_range(first, pd.Timestamp(last) + pd.Timedelta(days=1), freq=step, inclusive="left")
    hour = np.asarray(at.hour + at.minute / 60.0)
    day = np.asarray((at - at[0]) / pd.Timedelta(days=1))
    weather = np.cos(day / 3.7) + 0.4 * np.sin(day / 1.3) + 0.2 * np.cos(day * 7.1)
    swing = np.cos((hour - 14.0) * np.pi / 12.0)
    out = (low + high) / 2 + (high - low) / 2 * (0.5 * weather + 0.4 * swing)
    draw = 1200.0 * (out < (low + high) / 2)
    columns = {
        "time": at.strftime("%Y-%m-%d %H:%M"),
        "t": (out + 3.0 + 2.0 * np.clip(swing, 0, 1) + 0.1 * np.sin(day * 19)).round(2),
        "h": np.clip(85 - 18 * swing + 4 * np.sin(day), 20, 99).round(1),
        "o": out.round(2),
        "oh": np.clip(80 - 10 * swing, 20, 99).round(1),
        "s": (6 + 2 * np.cos(day / 9) + 0.5 * np.cos((hour - 17) * np.pi / 12)).round(2),
        "p": draw.round(0),
        "lux": (400 * np.clip(swing, 0, 1)).round(1),
    }
    return pd.DataFrame(columns)


def write(folder: Path, toml: str, table: pd.DataFrame, **files: str) -> Path:
    """The folder, written; `files` are the books by their stem."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "season.toml").write_text(toml, encoding="utf-8")
    table.to_csv(folder / "all.csv", index=False)
    for stem, text in files.items():
        (folder / f"{stem}.csv").write_text(text, encoding="utf-8")
    return folder


def _plain(first: str, last: str, *measures: str, where: str = "crop", **more: str) -> Callable[[Path], Path]:
    """A season of one logger with those measures and nothing else."""

    def made(folder: Path) -> Path:
        return write(
            folder, head(first, last, **more) + logger("one", where, "all.csv", *measures), readings(first, last)
        )

    return made


def _whole(first: str = "2025-11-20", last: str = "2026-01-25", **change: str) -> tuple[str, pd.DataFrame]:
    """season.toml and readings of an ordinary house with crop and outdoor loggers."""
    toml = head(first, last, **change) + PLACE + HOUSE
    toml += logger("bench", "crop", "all.csv", AIR, DAMP, SOIL) + logger("yard", "outdoor", "all.csv", OUT)
    return toml, readings(first, last)


def _meter(folder: Path) -> Path:
    toml, table = _whole()
    toml += '[[heating]]\nname = "fan"\nrole = "main"\nfuel = "electricity"\nmeter = "meter.csv"\n'
    toml += 'unit = "kWh"\nprice = 0.3\n'
    days = pd.date_range("2025-11-20", "2026-01-25", freq="7D").strftime("%Y-%m-%d")
    rows = "\n".join(f"{day},{100 + 40 * n}" for n, day in enumerate(days))
    return write(folder, toml + "[aims]\nhold_c = 4.0\n", table, meter=f"date,reading\n{rows}\n")


def _deliveries(folder: Path) -> Path:
    toml, table = _whole()
    toml += '[[heating]]\nname = "gas"\nrole = "main"\nfuel = "propane"\ndeliveries = "bottles.csv"\nunit = "kg"\n'
    toml += 'vented = false\nheat_kwh_per_unit = 13.8\nheating_value = "gross"\n'
    bottles = "date,amount,cost\n2025-11-25,11,29\n2025-12-20,11,29\n2026-01-10,11,31\n"
    return write(folder, toml, table, bottles=bottles)


def _one_picking(folder: Path) -> Path:
    toml, table = _whole()
    return write(folder, toml, table, harvest=PICKED.format(day="2025-12-24"))


def _us(folder: Path) -> Path:
    toml, table = _whole(zone="America/Chicago", more='show = "us"')
    table["t"] = (table["t"] * 9 / 5 + 32).round(1)
    toml = toml.replace(AIR, 'air_temperature = { column = "t", unit = "degF", accuracy = 0.7 }')
    return write(folder, toml, table, harvest="date,crop,weight,unit\n2025-12-24,kale,5,oz\n")


def _hold_by_date(folder: Path) -> Path:
    toml, table = _whole()
    hold = "[aims]\nhold = [{ from = 2025-12-01, c = 6.0 }, { from = 2026-01-10, c = -1.0 }]\nalarm_c = 2.0\n"
    plug = logger("plug", "elsewhere", "all.csv", 'heater_power = { column = "p", unit = "W" }')
    heat = '[[heating]]\nname = "fan"\nrole = "main"\nfuel = "electricity"\nlogger = "plug"\nrated_power_w = 1200\n'
    prices = "prices = [{ from = 2025-10-01, price = 0.0001 }, { from = 2026-01-01, price = 1000000.0 }]\n"
    return write(folder, toml + hold + plug + heat + prices, table)


def _two_outdoor(folder: Path) -> Path:
    toml, table = _whole()
    more = logger("north", "outdoor", "all.csv", BARE_AIR, more="main = true\n")
    return write(folder, toml + more, table)


def _month_missing(folder: Path) -> Path:
    toml, table = _whole("2025-10-15", "2026-02-20")
    return write(folder, toml, table[~table["time"].str.startswith("2025-12")])


def _diary(folder: Path) -> Path:
    toml, table = _whole()
    rows = [
        "2025-11-20,change,First day film,envelope,yes,warmer nights,,,,2025-11-01",
        "2025-12-20,change,Fleece & <b>film</b>,bed;air,no,drier air;warmer nights,,40,4,",
        "2025-12-22,change,Water butts,bed,yes,better growth,,25,,2025-12-30",
        "2025-12-05,spell,Curtain,envelope,yes,warmer nights,2025-12-15,,,",
        "2025-12-10,spell,Curtain,envelope,yes,warmer nights,2025-12-28,,,",
        "2025-12-12,spell,Fan,air,yes,drier air,2026-01-25,,,",
        "2026-01-02,event,Power cut,,,,,,,",
        "2025-12-27,away,With family,,,,2026-01-03,,,",
        "2026-01-05,upkeep,Glass washed,light,,more light,,,,",
        "2026-01-07,idea,Thermal screen,envelope,yes,less heating,,300,10,",
        "2026-01-25,event,Door open all day,,,,,,,",
        *(f"2026-01-{n % 28 + 1:02d},event,Note {n},,,,,,," for n in range(1, 29)),
    ]
    text = "date,kind,what,touches,reversible,hoped_for,until,cost,years,written\n" + "\n".join(rows) + "\n"
    return write(folder, toml, table, diary=text)


def _names(folder: Path) -> Path:
    long, rtl = "The long south bench behind the old pear wall by the third water butt, left", "תרד חורף"
    toml, table = _whole(title='<script>alert(1)</script> & "Sons"')
    toml = toml.replace('"bench"', f'"{long}"') + f'[[crop]]\nname = "{rtl}"\nshop_price_per_kg = 0.0001\n'
    picked = f"date,crop,weight,unit\n2025-12-24,{rtl},2,kg\n2026-01-02,<i>&kale,0.5,kg\n"
    return write(folder, toml, table, harvest=picked)


def _extremes(folder: Path) -> Path:
    toml, _ = _whole()
    table = readings("2025-11-20", "2026-01-25")
    spread = (table["o"] - table["o"].min()) / (table["o"].max() - table["o"].min())
    table["o"] = (-40 + 75 * spread).round(2)
    table["t"] = (-40 + 85 * spread).round(2)
    return write(folder, toml, table)


def _crops_only(folder: Path) -> Path:
    toml, table = _whole()
    crops = '[[crop]]\nname = "spinach"\narea_m2 = 4.0\n[[crop]]\nname = "moon cabbage"\n'
    return write(folder, toml + crops, table)


def _plantings_only(folder: Path) -> Path:
    toml, table = _whole()
    text = "crop,bed,area_m2,sown,planted,cleared\nspinach,east,2,2025-09-01,2025-10-01,\n"
    text += "kale,west,1,,2025-12-01,2026-01-02\n"
    return write(folder, toml, table, plantings=text)


def _empty_books(folder: Path) -> Path:
    toml, table = _whole()
    heads = {
        "diary": "date,kind,what\n",
        "harvest": "date,crop,weight\n",
        "plantings": "crop,bed,area_m2,sown,planted,cleared\n",
        "watering": "date,bed,litres\n",
        "inspections": "date,bed,crop,found,level\n",
        "costs": "date,what,kind,amount\n",
    }
    return write(folder, toml, table, **heads)


def _other_last(folder: Path) -> Path:
    last = "2024-11-20", "2025-01-25"
    table = readings(*last, step="30min")
    table["t"] = (table["t"] * 9 / 5 + 32).round(1)
    toml = head(*last, more='show = "us"').replace("EUR", "USD")
    toml += logger("gadget", "crop", "all.csv", 'air_temperature = { column = "t", unit = "degF" }')
    write(folder / "before", toml, table, harvest="date,crop,weight,unit\n2024-12-24,leek,3,lb\n")
    toml, table = _whole()
    return write(folder / "now", toml + '[last_season]\nfolder = "../before"\n', table)


def _southern(folder: Path) -> Path:
    toml, table = _whole("2025-05-20", "2025-07-25", zone="Australia/Adelaide")
    return write(folder, toml.replace("latitude = 49.0", "latitude = -35.0"), table)


def _summer(folder: Path) -> Path:
    toml, _ = _whole("2025-06-01", "2025-07-15")
    return write(folder, toml, readings("2025-06-01", "2025-07-15", low=12.0, high=34.0))


def _half_hour(folder: Path) -> Path:
    toml, table = _whole("2025-12-01", "2026-01-10", zone="Asia/Kolkata")
    return write(folder, toml, table)


def _clock_change(folder: Path) -> Path:
    toml, table = _whole("2026-02-20", "2026-03-29")
    return write(folder, toml, table)


def _at_latitude(latitude: float, first: str, last: str, zone: str, longitude: float = 20.0) -> Callable[[Path], Path]:
    """An ordinary house there, with light logged inside and outdoors (a lamp burns by day, whatever the sun does)."""

    def made(folder: Path) -> Path:
        toml, table = _whole(first, last, zone=zone)
        toml = toml.replace("latitude = 49.0\nlongitude = 16.0", f"latitude = {latitude}\nlongitude = {longitude}")
        toml = toml.replace(SOIL, f'{SOIL}\nppfd = {{ column = "lux" }}')
        toml = toml.replace(OUT, f'{OUT}\nsolar_radiation = {{ column = "lux" }}')
        picked = f"date,crop,weight,unit\n{first},kale,120,g\n{last},kale,80,g\n"
        return write(folder, toml, table, harvest=picked)

    return made


def _one_reading(folder: Path) -> Path:
    toml, table = _whole()
    return write(folder, toml, table.iloc[[400]])


def _kept(keep: Callable[[pd.Series], pd.Series]) -> Callable[[Path], Path]:
    """An ordinary house of which only the rows at some times were written; a heater by its power stands in it too."""

    def made(folder: Path) -> Path:
        toml, table = _whole("2025-11-01", "2026-02-28")
        toml += logger("plug", "elsewhere", "all.csv", 'heater_power = { column = "p", unit = "W" }')
        toml += '[[heating]]\nname = "fan"\nrole = "main"\nfuel = "electricity"\nlogger = "plug"\nprice = 0.3\n'
        diary = "date,kind,what,touches,reversible,hoped_for\n2025-12-20,change,Fleece,bed,yes,warmer nights\n"
        return write(folder, toml + "[aims]\nhold_c = 3.0\n", table[keep(table["time"])], diary=diary)

    return made


def _noon_beside_hourly(folder: Path) -> Path:
    toml, table = _whole("2025-11-01", "2026-02-28")
    folder.mkdir(parents=True, exist_ok=True)
    table.to_csv(folder / "yard.csv", index=False)
    toml = toml.replace('where = "outdoor"\nfiles = ["all.csv"]', 'where = "outdoor"\nfiles = ["yard.csv"]')
    return write(folder, toml, table[table["time"].str.endswith("12:00")])


ODD: dict[str, Callable[[Path], Path]] = {
    "one thermometer": _plain("2025-11-20", "2026-01-25", BARE_AIR),
    "no outdoor logger": _plain("2025-11-20", "2026-01-25", AIR, DAMP, SOIL),
    "no humidity": _plain("2025-11-20", "2026-01-25", AIR, OUT, SOIL),
    "only outdoor": _plain("2025-11-20", "2026-01-25", OUT, where="outdoor"),
    "only soil": _plain("2025-11-20", "2026-01-25", SOIL),
    "only humidity": _plain("2025-11-20", "2026-01-25", DAMP),
    "only light": _plain("2025-11-20", "2026-01-25", 'ppfd = { column = "lux" }'),
    "one day": _plain("2026-01-05", "2026-01-05", AIR, DAMP, OUT, SOIL),
    "three days": _plain("2026-01-05", "2026-01-07", AIR, DAMP, OUT, SOIL),
    "ten days": _plain("2026-01-05", "2026-01-14", AIR, DAMP, OUT, SOIL),
    "240 days": _plain("2025-09-20", "2026-05-17", AIR, DAMP, OUT, SOIL),
    "a month missing": _month_missing,
    "one reading": _one_reading,
    "noon readings": _kept(lambda time: time.str.endswith("12:00")),
    "noon readings beside hourly outdoors": _noon_beside_hourly,
    "readings before dawn": _kept(lambda time: time.str.endswith("05:00")),
    "two readings a month apart": _kept(lambda time: time.isin(["2025-12-05 12:00", "2026-01-05 12:00"])),
    "morning and afternoon readings": _kept(lambda time: time.str.endswith(("07:00", "15:00"))),
    "daily from January": _kept(lambda time: (time < "2026-01-01") | time.str.endswith("12:00")),
    "southern": _southern,
    "summer": _summer,
    "heater by meter": _meter,
    "deliveries only": _deliveries,
    "one picking": _one_picking,
    "US units": _us,
    "hold by date": _hold_by_date,
    "two outdoor loggers": _two_outdoor,
    "diary of every kind": _diary,
    "names": _names,
    "extremes": _extremes,
    "crops without plantings": _crops_only,
    "plantings without crops": _plantings_only,
    "empty books": _empty_books,
    "another last winter": _other_last,
    "half-hour zone": _half_hour,
    "ends on the clock change": _clock_change,
    "polar night": _at_latitude(70.0, "2025-11-10", "2026-02-10", "Europe/Oslo"),
    "midnight sun": _at_latitude(-70.0, "2025-11-01", "2026-02-10", "Antarctica/Mawson", 63.0),
    "the pole": _at_latitude(90.0, "2026-02-20", "2026-04-10", "UTC", 0.0),
    "the equator": _at_latitude(0.0, "2025-11-20", "2026-01-25", "Africa/Libreville", 9.4),
}


def odd_season(name: str, folder: Path) -> Path:
    """The season folder of that name, written below `folder`."""
    return ODD[name](folder)
