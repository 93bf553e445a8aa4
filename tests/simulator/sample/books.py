"""The books of both winters. Sums that depend on the weather are worked out from the simulated truth."""

from __future__ import annotations

import pandas as pd

from simulator.house import Simulated
from simulator.sample.growth import Stand, growth, picking_rows, planting_row

Rows = list[dict[str, object]]
PROPANE_KWH_KG = 13.98  # gross, 50.3 MJ/kg

THIS = (
    Stand(crop="spinach", cultivar="own seed", bed="south", area_m2=2.2, g_per_mol=5.2, sown="2025-09-05",
          planted="2025-09-05", cleared="", plants=90, lost=4, cause="slugs",
          picked=("2025-10-19", "2025-11-09", "2025-11-30", "2026-01-04", "2026-02-08", "2026-03-01", "2026-03-15",
                  "2026-03-29", "2026-04-09")),
    Stand(crop="lettuce", cultivar="winter butterhead", bed="south", area_m2=1.4, g_per_mol=5.6, sown="2025-08-28",
          planted="2025-09-24", cleared="2026-01-25", plants=24, lost=9, cause="grey mould", spacing_cm=25,
          picked=("2025-10-26", "2025-11-16", "2025-12-07", "2025-12-24", "2026-01-25")),
    Stand(crop="lamb's lettuce", bed="north", area_m2=1.8, g_per_mol=3.4, sown="2025-09-12", planted="2025-09-12",
          cleared="2026-03-22", plants=160, lost=0, spacing_cm=8,
          picked=("2025-11-23", "2025-12-14", "2026-01-11", "2026-02-15", "2026-03-08", "2026-03-22")),
    Stand(crop="rocket", bed="north", area_m2=0.8, g_per_mol=4.6, sown="2025-09-14", planted="2025-09-14",
          cleared="2026-03-15", plants=60, lost=6, cause="flea beetle", spacing_cm=8,
          picked=("2025-10-18", "2025-11-02", "2025-11-22", "2025-12-20", "2026-02-22", "2026-03-15")),
    Stand(crop="pak choi", bed="door", area_m2=1.1, g_per_mol=6.2, sown="2025-08-30", planted="2025-09-22",
          cleared="2026-01-18", plants=18, lost=7, lost_on="2026-01-16", cause="frost",
          spacing_cm=20,
          picked=("2025-10-25", "2025-11-15", "2025-12-06", "2026-01-17")),
    Stand(crop="parsley", bed="door", area_m2=0.5, g_per_mol=3.0, sown="2025-06-20", planted="2025-08-15",
          cleared="", plants=10, lost=0, spacing_cm=20,
          picked=("2025-10-30", "2025-11-27", "2025-12-23", "2026-02-05", "2026-03-12", "2026-04-05")),
    Stand(crop="lettuce", cultivar="cut-and-come-again", bed="south", area_m2=1.4, g_per_mol=3.4, sown="2026-01-12",
          planted="2026-02-14", cleared="", plants=40, lost=3, cause="slugs", spacing_cm=15,
          picked=("2026-03-20", "2026-03-31", "2026-04-11")),
    Stand(crop="rocket", bed="north", area_m2=0.8, g_per_mol=4.6, sown="2026-02-20", planted="2026-03-16",
          cleared="", plants=60, lost=0, spacing_cm=8, picked=("2026-04-10",)),
)  # fmt: skip

LAST = (
    Stand(crop="spinach", bed="south", area_m2=2.2, g_per_mol=4.9, sown="2024-09-10", planted="2024-09-10",
          cleared="", plants=90, lost=7, cause="slugs",
          picked=("2024-10-27", "2024-11-24", "2025-01-12", "2025-02-23", "2025-03-16", "2025-04-06")),
    Stand(crop="lettuce", bed="south", area_m2=1.4, g_per_mol=5.0, sown="2024-09-05", planted="2024-10-01",
          cleared="2025-01-10", plants=24, lost=13, cause="grey mould", spacing_cm=25,
          picked=("2024-11-03", "2024-12-01", "2025-01-10")),
    Stand(crop="lamb's lettuce", bed="north", area_m2=1.8, g_per_mol=3.2, sown="2024-09-22", planted="2024-09-22",
          cleared="2025-03-23", plants=150, lost=0, spacing_cm=8,
          picked=("2024-12-08", "2025-01-19", "2025-02-16", "2025-03-23")),
    Stand(crop="rocket", bed="north", area_m2=0.8, g_per_mol=4.6, sown="2024-09-15", planted="2024-09-15",
          cleared="2025-03-10", plants=60, lost=10, cause="flea beetle", spacing_cm=8,
          picked=("2024-10-20", "2024-11-17", "2025-03-09")),
)  # fmt: skip


def this_books(truth: Simulated, zone: str) -> dict[str, Rows]:
    """Every book but the diary."""
    return _beds(THIS, truth, zone) | {
        "watering": _watering(),
        "inspections": _inspections(),
        "costs": _costs(),
        "heating/mat-meter.csv": meter_rows(
            truth, zone, "mat_kwh", ("2025-10-11", "2026-03-01", "2026-03-15", "2026-03-29", "2026-04-12"), 12.4
        ),
        "heating/bottles.csv": _bottles(truth),
    }


def last_books(truth: Simulated, zone: str) -> dict[str, Rows]:
    """Every book of the winter before but its diary."""
    days = ("2024-10-12", "2024-11-03", "2024-11-17", "2024-12-01", "2024-12-15", "2024-12-31", "2025-01-12",
            "2025-01-26", "2025-02-09", "2025-02-16", "2025-02-23", "2025-03-09",
            "2025-03-30", "2025-04-13")  # fmt: skip
    return _beds(LAST, truth, zone) | {"heating/meter.csv": meter_rows(truth, zone, "heater_kwh", days, 4812.6)}


def this_diary() -> Rows:
    """What the diary holds beside the changes of the simulation."""
    return [
        {"date": "2025-10-20", "kind": "upkeep", "what": "Gutter cleaned and a slipped pane put back"},
        {"date": "2025-12-27", "kind": "away", "what": "With family", "until": "2026-01-03"},
        {"date": "2025-12-28", "time": "15:00", "kind": "upkeep", "what": "New battery in the door logger",
         "note": "the neighbour's doing"},
        {"date": "2026-01-18", "kind": "idea", "what": "Second curtain behind the door", "thing": "door curtain",
         "touches": "envelope",
         "reversible": "yes", "hoped_for": "less heating"},
        {"date": "2026-02-06", "time": "12:00", "kind": "upkeep",
         "what": "Metering plug moved to the other socket, its counter began again"},
        {"date": "2026-02-28", "time": "08:40", "kind": "upkeep", "what": "Bench logger hung back on its hook",
         "note": "it lay switched off on the path since the evening"},
    ]  # fmt: skip


def meter_rows(truth: Simulated, zone: str, column: str, days: tuple[str, ...], start: float) -> Rows:
    """Readings at noon of a running meter whose truth is that running sum [kWh]."""
    frame = truth.frame
    if column == "mat_kwh":
        frame = frame.assign(mat_kwh=_sum_kwh(frame["appliances_w"] - frame["dehumidifier_w"]))
    rows: Rows = []
    for day in days:
        noon = pd.Timestamp(f"{day} 12:00").tz_localize(zone)
        reading = start + float(frame[column].asof(noon.tz_convert("UTC")))
        rows.append({"date": day, "time": "12:00", "reading": f"{reading:.1f}"})
    return rows


def _sum_kwh(watts: pd.Series) -> pd.Series:
    step_h = (watts.index[1] - watts.index[0]) / pd.Timedelta(hours=1)
    return watts.cumsum() * step_h / 1000


def _beds(stands: tuple[Stand, ...], truth: Simulated, zone: str) -> dict[str, Rows]:
    light = growth(truth, zone)
    picked = sorted((row for s in stands for row in picking_rows(s, light)), key=lambda row: str(row["date"]))
    return {"harvest": picked, "plantings": [planting_row(s) for s in stands]}


def _bottles(truth: Simulated) -> Rows:
    burnt = truth.kwh("backup_w") / PROPANE_KWH_KG
    return [
        {"date": "2025-10-11", "amount": 0.0, "cost": "", "left": "", "note": "none in the shed"},
        {"date": "2026-01-03", "amount": 5.0, "cost": 17.9, "left": "", "note": "steel bottle"},
        {"date": "2026-01-08", "amount": 8.0, "cost": 26.4, "left": "", "note": "steel bottle"},
        {"date": "2026-01-13", "amount": 0.0, "cost": "", "left": f"{13.0 - burnt:.1f}", "note": "weighed, put away"},
    ]  # fmt: skip


def _watering() -> Rows:
    """Every third day until the change of 3 February, then every fourth and half as much."""
    rows: Rows = []
    for bed, litres in (("south", 9.0), ("north", 7.0), ("door", 4.0)):
        early = pd.date_range("2025-10-12", "2026-02-02", freq="3D")
        late = pd.date_range("2026-02-04", "2026-04-11", freq="4D")
        away = (early >= "2025-12-27") & (early <= "2026-01-03")
        rows += [{"date": d.date(), "time": "17:30", "bed": bed, "litres": litres} for d in early[~away]]
        rows += [{"date": d.date(), "time": "09:00", "bed": bed, "litres": litres * 0.6} for d in late]
    return sorted(rows, key=lambda row: (str(row["date"]), str(row["bed"])))


def _inspections() -> Rows:
    seen = (
        ("2025-10-19", "south", "lettuce", "nothing", 0, ""),
        ("2025-11-09", "south", "lettuce", "nothing", 0, ""),
        ("2025-11-23", "north", "lamb's lettuce", "nothing", 0, ""),
        ("2025-12-07", "south", "lettuce", "first grey fur on lower leaves", 1, "lower leaves taken off"),
        ("2025-12-20", "south", "lettuce", "grey mould on four heads", 2, "four heads taken out"),
        ("2026-01-04", "south", "lettuce", "grey mould on five more heads", 3, "five heads taken out"),
        ("2026-01-14", "door", "pak choi", "glassy frozen leaves", 3, "seven plants collapsed two days later"),
        ("2026-01-14", "south", "spinach", "limp at dawn, upright by noon", 1, ""),
        ("2026-01-25", "south", "lettuce", "bed cleared", 1, ""),
        ("2026-02-15", "north", "lamb's lettuce", "nothing", 0, ""),
        ("2026-03-01", "south", "spinach", "a few greenfly", 1, "rubbed off by hand"),
        ("2026-03-22", "south", "lettuce", "nothing", 0, ""),
        ("2026-04-06", "south", "spinach", "nothing", 0, ""),
    )
    keys = ("date", "bed", "crop", "found", "level", "action")
    return [dict(zip(keys, row, strict=True)) for row in seen]


def _costs() -> Rows:
    bought = (
        ("2025-10-12", "seed", "seed", 11.4, 1),
        ("2025-10-12", "compost, four bags", "soil", 27.6, 1),
        ("2025-12-02", "batteries for the loggers", "logging", 6.2, 1),
        ("2026-01-02", "carbon monoxide alarm", "safety", 34.0, 7),
        ("2026-03-01", "warming mat", "growing", 38.0, 6),
    )
    return [dict(zip(("date", "what", "kind", "amount", "years"), row, strict=True)) for row in bought]
