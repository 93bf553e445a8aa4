"""Small seasons made up in memory for tests: whatever is not named is empty."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pandas as pd

from reportgen.readings.types import Channel, HeatSupply, Picking, Planting, Purchase, Readings, Stock
from reportgen.season.models import Logger, MeasureColumn, Season

ZONE = "Europe/Prague"


def season(first: str = "2026-01-05", last: str = "2026-02-01", **more: Any) -> Season:
    """A season of the given days (Monday 5 January to Sunday 1 February unless told)."""
    return Season(
        folder=Path(),
        format=1,
        title="A made-up winter",
        first_day=dt.date.fromisoformat(first),
        last_day=dt.date.fromisoformat(last),
        time_zone=ZONE,
        currency="EUR",
        **more,
    )


def readings(of: Season | None = None, **more: Any) -> Readings:
    """Readings of that season; every book given is there."""
    of = of or season()
    empty: dict[str, Any] = dict.fromkeys(
        [
            "files",
            "channels",
            "findings",
            "diary",
            "harvest",
            "plantings",
            "watering",
            "inspections",
            "costs",
            "heating",
            "appliances",
        ],
        (),
    )
    books = {name: name in more for name in ["diary", "harvest", "plantings", "watering", "inspections", "costs"]}
    return Readings(**(empty | {"season": of, "books": books, "warnings": ()} | more))


def picking(day: str, kg: float, crop: str = "spinach", **more: Any) -> Picking:
    """One weighing."""
    more = {"bed": None, "use": "eaten", "price_per_kg": None, "note": "", "line": 2} | more
    return Picking(date=dt.date.fromisoformat(day), crop=crop, weight_kg=kg, **more)


def planting(crop: str, bed: str, planted: str, cleared: str | None = None, **more: Any) -> Planting:
    """One planting."""
    more = {"sown": None, "cultivar": None, "area_m2": None, "plants": None, "spacing_cm": None, "lost": None} | more
    return Planting(
        line=2,
        crop=crop,
        bed=bed,
        planted=dt.date.fromisoformat(planted),
        cleared=dt.date.fromisoformat(cleared) if cleared else None,
        **({"cause": ""} | more),
    )


def heater(rows: list[tuple[str, str, float, float]], **more: Any) -> HeatSupply:
    """A heater from rows of start, end, kWh, cost."""
    table = pd.DataFrame(
        {
            "start": pd.to_datetime([r[0] for r in rows]).tz_localize(ZONE),
            "end": pd.to_datetime([r[1] for r in rows]).tz_localize(ZONE),
            "bought": [r[2] for r in rows],
            "heat_kwh": [r[2] for r in rows],
            "cost": [r[3] for r in rows],
            "sparse": [True] * len(rows),
            "estimated": [False] * len(rows),
        }
    )
    usual: dict[str, Any] = {
        "name": "fan heater",
        "fuel": "electricity",
        "role": "main",
        "form": "meter",
        "kind": None,
        "unit": "kWh",
        "rated_power_w": None,
        "vented": None,
        "heating_value": "",
        "co2_kg_per_unit": None,
    }
    if more.get("form") == "deliveries":
        usual["stock"] = store(*(r[2] for r in rows if r[2]))
    return HeatSupply(**(usual | {"intervals": table} | more))


def store(*amounts: float, left: float = 0.0) -> Stock:
    """A stock of these deliveries, without prices."""
    day = pd.Timestamp("2026-01-05", tz=ZONE)
    bought = tuple(Purchase(at=day, amount=amount, paid=float("nan")) for amount in amounts)
    return Stock(purchases=bought, opening=0.0, used_before=0.0, left=left, left_paid=float("nan"))


def channel(values: pd.Series, measure: str = "air_temperature", logger: str = "bench", **more: Any) -> Channel:
    """One channel of readings."""
    count = len(values)
    usual: dict[str, Any] = {"where": "crop", "accuracy": None, "depth_m": None, "step_s": 3600.0}
    return Channel(
        logger=logger, measure=measure, values=values, values_read=count, values_used=count, **(usual | more)
    )


def logger(name: str, measure: str = "air_temperature", **more: Any) -> Logger:
    """A logger of one measure."""
    column = MeasureColumn(column="Temp", accuracy=more.pop("accuracy", None))
    usual = {"where": "crop", "files": ("a.csv",), "time": "Time", "measures": {measure: column}}
    return Logger(name=name, **(usual | more))
