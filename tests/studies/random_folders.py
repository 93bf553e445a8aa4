"""Legal seasons drawn at random: any step, place, zone, length and set of books, and the folder of each."""

from __future__ import annotations

import zoneinfo
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from hypothesis import strategies as st
from simulator.toml import dumps

ZONES = sorted(z for z in zoneinfo.available_timezones() if "/" in z and not z.startswith(("Etc/", "SystemV/")))
STEPS_MIN = (1, 2, 5, 10, 15, 20, 30, 37, 60)
MEASURES = ("air_temperature", "relative_humidity", "soil_temperature", "ppfd", "soil_moisture")
COLUMN = {"air_temperature": "t", "relative_humidity": "h", "soil_temperature": "s", "ppfd": "l", "soil_moisture": "w"}
HOPES = (
    "warmer nights",
    "less heating",
    "drier air",
    "warmer soil",
    "steadier soil",
    "more light",
    "better growth",
    "",
)
TOUCHES = ("envelope", "thermostat", "heater", "bed", "water", "air", "light", "plants", "", "envelope;air")
HEATERS = ("none", "plug", "switch", "meter", "bottles", "bills")
CROPS = ("spinach", "lettuce", "rocket", "moon cabbage", "תרד", "kale")

UNTIL = ("spell", "away")
ABOUT = ("hold", "frost", "damp", "money", "light", "soil", "winters")
CORNERS = (date(2024, 2, 20), date(2023, 10, 20), date(2025, 12, 28))  # a leap day, a clock change, a year's end


@dataclass(frozen=True, kw_only=True, slots=True)
class Wish:
    """One season as it was drawn; `noise` seeds its readings, so that it can be made again."""

    noise: int
    first: date
    days: int
    step_min: int
    zone: str
    latitude: float | None
    show: str
    crop: tuple[str, ...]
    outdoor: tuple[str, ...]
    benches: int
    accuracy: float | None
    gaps: float  # share of the readings that is missing, in blocks
    mean_c: float
    swing_k: float
    heater: str
    price: float | None
    vented: bool | None
    hold_c: float | None
    floor_m2: float | None
    glazing_m2: float | None
    diary: tuple[tuple[int, str, str, str, int], ...]  # day, kind, touches, hope, days on
    picked: tuple[tuple[int, str, int], ...] | None  # day, crop, grams
    planted: tuple[tuple[int, str, int], ...] | None
    costs: tuple[tuple[int, float], ...] | None
    questions: tuple[str, ...]


def perhaps(row: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A book of up to five such rows, or no book."""
    return st.one_of(st.none(), st.lists(row, max_size=5).map(tuple))


def wishes() -> st.SearchStrategy[Wish]:
    """Legal seasons of 1 to 60 days, now and then longer; zero areas are no season (they must lie above 0)."""
    day = st.integers(0, 59)
    some = st.one_of(st.none(), st.floats(0.5, 300.0).map(lambda v: round(v, 1)))
    return st.builds(
        Wish,
        noise=st.integers(0, 10**6),
        first=st.one_of(st.dates(date(2015, 1, 1), date(2026, 8, 1)), st.sampled_from(CORNERS)),
        days=st.one_of(st.integers(1, 60), st.sampled_from((1, 2, 10, 29, 120))),
        step_min=st.sampled_from(STEPS_MIN),
        zone=st.sampled_from(ZONES),
        latitude=st.one_of(st.none(), st.integers(-90, 90).map(float), st.sampled_from((90.0, -90.0, 0.0, 66.6))),
        show=st.sampled_from(("metric", "us")),
        crop=st.lists(st.sampled_from(MEASURES), min_size=1, unique=True).map(tuple),
        outdoor=st.lists(st.sampled_from(("air_temperature", "relative_humidity", "ppfd")), unique=True).map(tuple),
        benches=st.integers(1, 3),
        accuracy=st.sampled_from((None, 0.0, 0.5, 2.0)),
        gaps=st.sampled_from((0.0, 0.0, 0.05, 0.5, 0.97)),
        mean_c=st.floats(-25, 25).map(lambda v: round(v, 1)),
        swing_k=st.sampled_from((0.0, 2.0, 8.0, 14.0)),
        heater=st.sampled_from(HEATERS),
        price=st.sampled_from((None, 0.0, 0.3, 1e4)),
        vented=st.sampled_from((None, True, False)),
        hold_c=st.sampled_from((None, -3.0, 2.0, 5.0, 18.0)),
        floor_m2=some,
        glazing_m2=some,
        diary=st.lists(
            st.tuples(day, st.sampled_from(("change", "spell", "event", "away", "upkeep", "idea")),
                      st.sampled_from(TOUCHES), st.sampled_from(HOPES), st.integers(0, 30)), max_size=8,
        ).map(tuple),
        picked=perhaps(st.tuples(day, st.sampled_from(CROPS), st.integers(0, 3000))),
        planted=perhaps(st.tuples(day, st.sampled_from(CROPS), st.integers(1, 40))),
        costs=perhaps(st.tuples(day, st.sampled_from((0.0, 12.5, 400.0)))),
        questions=st.lists(st.sampled_from(ABOUT), max_size=3).map(tuple),
    )  # fmt: skip


def write_wish(wish: Wish, folder: Path) -> Path:
    """The folder of that season."""
    folder.mkdir(parents=True)
    table = readings(wish)
    table.to_csv(folder / "all.csv", index=False)
    (folder / "season.toml").write_text(dumps(settings_of(wish)), encoding="utf-8")
    for name, text in books(wish).items():
        (folder / f"{name}.csv").write_text(text, encoding="utf-8")
    return folder


def readings(wish: Wish) -> pd.DataFrame:
    """Made readings of every column, on the UTC clock, over the season and a few hours on either side."""
    rng = np.random.default_rng(wish.noise)
    count = max(wish.days * 1440 // wish.step_min, 1)
    if wish.step_min < 5:  # a long season by the minute says nothing more than its first days
        count = min(count, 6 * 1440 // wish.step_min)
    start = pd.Timestamp(wish.first, tz=wish.zone).tz_convert("UTC").ceil("min").tz_localize(None)
    at = start + pd.to_timedelta(np.arange(count) * wish.step_min, unit="min")
    turn = np.arange(count) * wish.step_min / 1440.0 * 2 * np.pi
    air = wish.mean_c + wish.swing_k * np.cos(turn) + np.cumsum(rng.normal(0, 0.05, count)).clip(-6, 6)
    table = pd.DataFrame({"time": at.strftime("%Y-%m-%d %H:%M"), "t": (air + 3).clip(-38, 60).round(1)})
    table["o"] = air.clip(-50, 50).round(1)
    table["h"] = (75 - 2 * wish.swing_k * np.cos(turn) + rng.normal(0, 3, count)).clip(1, 100).round(1)
    table["s"] = (wish.mean_c / 2 + 5 + rng.normal(0, 0.1, count)).clip(-15, 40).round(2)
    table["l"] = (400 * np.clip(np.cos(turn), 0, 1)).round(1)
    table["w"] = (0.3 + 0.02 * np.sin(turn / 9)).round(3)
    table["p"] = np.where(air < (wish.hold_c or 4.0), 900.0, 0.0) * (rng.random(count) < 0.8)
    table["x"] = (table["p"] > 0).astype(int)
    for n in range(1, wish.benches):
        table[f"t{n}"] = (table["t"] + rng.normal(0.4, 0.2, count)).round(1)
    block = (np.arange(count) * wish.step_min // 360).astype(int)
    kept = rng.random(block.max() + 1)[block] >= wish.gaps
    kept[0] = True
    return table[kept]


def settings_of(wish: Wish) -> dict[str, Any]:
    """Its season.toml."""
    last = wish.first + timedelta(days=wish.days - 1)
    found: dict[str, Any] = {
        "format": 1, "title": "A drawn season", "first_day": wish.first, "last_day": last, "time_zone": wish.zone,
        "currency": "EUR", "show": wish.show,
    }  # fmt: skip
    if wish.latitude is not None:
        found["place"] = {"latitude": wish.latitude, "longitude": 10.0}
    house = {"floor_area_m2": wish.floor_m2, "glazing_area_m2": wish.glazing_m2}
    if any(house.values()):
        found["house"] = {key: value for key, value in house.items() if value is not None}
    if wish.hold_c is not None:
        found["aims"] = {"hold_c": wish.hold_c}
    if wish.questions:
        found["question"] = [{"ask": f"What about {about}?", "about": about} for about in wish.questions]
    found["logger"] = loggers(wish)
    heating = heater(wish)
    if heating:
        found["heating"] = [heating]
    return found


def loggers(wish: Wish) -> list[dict[str, Any]]:
    """A bench with its measures, further benches with air alone, outdoors and the heater's plug."""

    def of(name: str, where: str, measures: dict[str, dict[str, Any]]) -> dict[str, Any]:
        return {
            "name": name,
            "where": where,
            "files": ["all.csv"],
            "time": "time",
            "clock": "utc",
            "measures": measures,
        }

    def measure(name: str, column: str) -> dict[str, Any]:
        unit = {"unit": "degC"} if name.endswith("temperature") else {}
        known = (
            {"accuracy": wish.accuracy}
            if wish.accuracy is not None and name.endswith(("temperature", "humidity"))
            else {}
        )
        deep = {"depth_m": 0.1} if name.startswith("soil") else {}
        return {"column": column} | unit | known | deep

    found = [of("bench", "crop", {name: measure(name, COLUMN[name]) for name in wish.crop})]
    found += [
        of(f"bench {n}", "crop", {"air_temperature": measure("air_temperature", f"t{n}")})
        for n in range(1, wish.benches)
    ]
    column = {"air_temperature": "o", "relative_humidity": "h", "ppfd": "l"}
    if wish.outdoor:
        found.append(of("yard", "outdoor", {name: measure(name, column[name]) for name in wish.outdoor}))
    if wish.heater == "plug":
        found.append(of("plug", "elsewhere", {"heater_power": {"column": "p", "unit": "W"}}))
    if wish.heater == "switch":
        found.append(of("plug", "elsewhere", {"heater_on": {"column": "x"}}))
    return found


def heater(wish: Wish) -> dict[str, Any]:
    """Its heater, as the season has one."""
    price = {} if wish.price is None else {"price": wish.price}
    gas = {} if wish.vented is None else {"vented": wish.vented}
    electric = {"name": "fan", "role": "main", "fuel": "electricity"}
    match wish.heater:
        case "plug":
            return electric | {"logger": "plug", "rated_power_w": 1000.0} | price
        case "switch":
            return electric | {"logger": "plug", "rated_power_w": 900.0} | price
        case "meter":
            return electric | {"meter": "meter.csv", "unit": "kWh"} | price
        case "bottles":
            burnt = {"name": "gas", "role": "main", "fuel": "propane", "deliveries": "bottles.csv", "unit": "kg"}
            return burnt | {"heat_kwh_per_unit": 13.8, "heating_value": "gross"} | gas | price
        case "bills":
            return electric | {"bills": "bills.csv", "unit": "kWh"} | price
    return {}


def books(wish: Wish) -> dict[str, str]:
    """Its books by their stem."""

    def on(day: int) -> str:
        return (wish.first + timedelta(days=min(day, wish.days - 1))).isoformat()

    found: dict[str, str] = {}
    span = range(0, wish.days, 7)
    match wish.heater:
        case "meter":
            read = [wish.first + timedelta(days=day) for day in (*span, wish.days)]  # two at least, or no meter
            found["meter"] = "date,reading\n" + "".join(f"{day},{100 + 9 * n}\n" for n, day in enumerate(read))
        case "bottles":
            found["bottles"] = "date,amount,cost\n" + "".join(f"{on(d)},11,29\n" for d in span[::2])
        case "bills":
            found["bills"] = "date,amount,cost,from\n" + f"{on(wish.days)},120,40,{on(0)}\n"
    if wish.diary:
        found["diary"] = "date,kind,what,touches,reversible,hoped_for,until,cost,years\n" + "".join(
            f"{on(day)},{kind},Thing {n},{touches},yes,{hope},{on(day + long) if kind in UNTIL else ''},20,3\n"
            for n, (day, kind, touches, hope, long) in enumerate(wish.diary)
        )
    if wish.picked is not None:
        found["harvest"] = "date,crop,weight,unit\n" + "".join(f"{on(d)},{crop},{g},g\n" for d, crop, g in wish.picked)
    if wish.planted is not None:
        found["plantings"] = "crop,bed,area_m2,sown,planted,cleared\n" + "".join(
            f"{crop},east,{area / 10},,{on(d)},\n" for d, crop, area in wish.planted
        )
    if wish.costs is not None:
        found["costs"] = "date,what,kind,amount\n" + "".join(f"{on(d)},Thing,other,{a}\n" for d, a in wish.costs)
    return found
