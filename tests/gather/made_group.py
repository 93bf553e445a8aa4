"""An invented group: six gardens of one valley that hung the same film, and one file that was cut off on its way.

Short winters in half-hour steps with hourly loggers, so that seven reviews cost a few seconds; the truth of each house
is the simulator's. `made_group(folder)` writes what an organiser would have collected:

    plot-3/          built site   heated, labelled, film and a lower dial
    plot-7-2024.json bare review    heated, labelled, its first winter: a fan
    plot-7-2025.json bare review    … its second: the film, beside the first
    plot-9.zip       as packed      heated, logged and shown in °F, two at once
    plot-12.zip      as packed      heated, keeps its prices to itself, a curtain
    garden-e.json    bare review    unheated, no label, film and water barrels
    garden-f.json    bare review    no label, no id, a burner without a flue, tape
    plot-15.json     broken: cut off in the middle
    group.toml       title and what counts as one thing
"""

from __future__ import annotations

import io
import json
import tempfile
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

import pandas as pd
from simulator import Change, Climate, HouseParams, default_loggers, simulate, synthetic, toml, write_season
from simulator.logger import LoggerSpec, Sensor

from reportgen.pipeline import analyse
from reportgen.site.render import document_of
from reportgen.site.share import without_offsets

ZONE = "Europe/Prague"
STEP_S, STEP_MIN = 1800, 60
CLIMATE = Climate(mean_c=8.0)
FILM = {"u_w_m2k": 2.3, "transmission": 0.62}
GROUP_TOML = """\
title = "The gardens under the old brickworks"
show  = "metric"
story = "We hung the same film in one fortnight and wrote down what else we did."

[[thing]]
name  = "bubble film"
words = ["bubble film", "bubble wrap", "insulating film"]

[[thing]]
name  = "fan"
words = ["fan"]
"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Made:
    """One winter of one house, before it is simulated."""

    year: int  # in which it begins
    house: HouseParams
    changes: tuple[Change, ...]
    house_id: str | None
    label: str | None = None
    fahrenheit: bool = False
    share: bool = False
    kind: str = "free-standing glasshouse"
    kg: float = 0.0  # picked each week; 0: no harvest book
    seed: int = 7
    tables: Mapping[str, Any] = field(default_factory=dict)
    books: Mapping[str, Sequence[Mapping[str, object]]] = field(default_factory=dict)


def noon(day: str) -> pd.Timestamp:
    """Noon of a local day."""
    return pd.Timestamp(f"{day} 12:00").tz_localize(ZONE)


def done(day: str, what: str, touches: str, hope: str, **more: Any) -> Change:
    """One line of a diary, at noon."""
    until = more.pop("until", None)
    return Change(
        at=noon(day), until=None if until is None else noon(until), what=what, touches=tuple(touches.split(";")),
        hoped_for=(hope,), timed=True, written=day, **more,
    )  # fmt: skip


def film(day: str, what: str, thing: str = "", hope: str = "less heating") -> Change:
    """The thing that all six did, each in their own words."""
    return done(day, what, "envelope", hope, alters=FILM, cost=48.0, years=4, thing=thing)


def fan(day: str) -> Change:
    """Does nothing but stir: its truth is none."""
    return done(day, "Fan on through the night", "air", "drier air", reversible=True)


def _curtain() -> tuple[Change, ...]:
    spells = (("2026-01-08", "2026-01-15"), ("2026-01-22", "2026-01-29"), ("2026-02-05", "2026-02-12"))
    return tuple(
        done(
            first, "Night curtain drawn", "envelope", "less heating", until=last, kind="spell",
            alters={**FILM, "curtain_m2kw": 0.25}, reversible=True,
        )
        for first, last in spells
    )  # fmt: skip


HEATED = HouseParams(heater_w=3500.0, hold_c=4.0, air_changes_h=1.5, wet=0.6)
BOTTLES = [  # none before the cold of January
    {"date": "2026-01-08", "amount": 11, "cost": 30, "left": ""},
    {"date": "2026-02-27", "amount": 11, "cost": 31, "left": 4},
]
GAS = {
    "name": "gas heater", "role": "backup", "fuel": "propane", "deliveries": "heating/bottles.csv", "vented": False,
    "unit": "kg", "heat_kwh_per_unit": 13.98, "heating_value": "gross",
}  # fmt: skip
TAPED = {**FILM, "air_changes_h": 0.5}


def _winters() -> dict[str, Made]:
    """Every winter by its word, in the order in which it is made: one that another is set beside comes before it."""
    return {
        "plot-3": Made(
            year=2025, house=HEATED, house_id="three", label="Plot 3", kg=0.9,
            changes=(
                film("2025-12-15", "Bubble film inside the roof", thing="bubble film"),
                done("2026-01-20", "Dial one degree lower", "thermostat", "less heating", alters={"hold_c": 3.0}),
            ),
        ),
        "plot-7-2024": Made(
            year=2024, house=HEATED, house_id="seven", label="Plot 7", kg=0.7, seed=8, changes=(fan("2025-01-08"),)
        ),
        "plot-7-2025": Made(
            year=2025, house=HEATED, house_id="seven", label="Plot 7", kg=0.8,
            changes=(film("2025-12-16", "Bubble wrap on the north side and the roof"),),
        ),
        "plot-9": Made(
            year=2025, house=HouseParams(heater_w=3000.0, hold_c=3.0, floor_m2=14.0, glazing_m2=36.0, volume_m3=30.0),
            house_id="nine", label="Plot 9", fahrenheit=True, share=True, kind="lean-to",
            changes=(
                film("2025-12-14", "Insulating film under the glass"),
                fan("2026-01-19"),
                done("2026-01-20", "Brush along the foot of the door", "envelope", "warmer nights"),
            ),
        ),
        "plot-12": Made(
            year=2025, house=HouseParams(heater_w=4000.0, hold_c=6.0, wet=0.8), house_id="twelve", label="Plot 12",
            share=True, kg=1.4, changes=(film("2025-12-17", "Bubble film, two layers", "Bubble Film"), *_curtain()),
        ),
        "garden-e": Made(
            year=2025, house=HouseParams(floor_m2=9.0, glazing_m2=26.0, volume_m3=20.0), house_id="five", kg=0.3,
            kind="tunnel",
            changes=(
                film("2025-12-15", "Bubble film as an inner skin", hope="warmer nights"),
                done("2026-01-22", "Four water barrels along the wall", "water", "warmer nights",
                     alters={"mass_kj_k": 2500.0, "mass_w_k": 25.0}),
            ),
        ),
        "garden-f": Made(
            year=2025, house=HouseParams(heater_w=2400.0, hold_c=4.0), house_id=None, kg=0.5,
            tables={"gas": GAS}, books={"heating/bottles.csv": BOTTLES},
            changes=(
                film("2025-12-14", "Bubble wrap all round", thing="bubble film"),
                Change(at=noon("2026-01-08"), alters={"backup_w": 1500.0}),  # only its bottles tell of it
                done("2026-01-12", "Gaps taped shut", "envelope;air", "less heating", alters=TAPED, thing="tape"),
                done("2026-02-05", "Tape off again", "envelope;air", "drier air",
                     alters={"air_changes_h": 1.0}, thing="tape", undoes="Gaps taped shut"),
            ),
        ),
    }  # fmt: skip


def _loggers(made: Made) -> tuple[LoggerSpec, ...]:
    """Hourly loggers, those of one house on the scale of °F."""
    specs = default_loggers(made.house.heater_w > 0, step_min=STEP_MIN)
    if not made.fahrenheit:
        return specs

    def turned(sensor: Sensor) -> Sensor:
        return replace(sensor, unit="degF", accuracy=0.9) if sensor.unit == "degC" else sensor

    return tuple(replace(spec, sensors=tuple(turned(sensor) for sensor in spec.sensors)) for spec in specs)


def _season(made: Made, folder: Path) -> Path:
    """Its season folder."""
    ends = f"{made.year}-10-31T23:00", f"{made.year + 1}-02-28T23:00"
    winter = simulate(synthetic(CLIMATE, *ends, made.seed, STEP_S), made.house, made.changes, made.seed)
    house = {"kind": made.kind, "floor_area_m2": made.house.floor_m2, "glazing_area_m2": made.house.glazing_m2}
    house |= {"glazing": "single glass"} | ({} if made.house_id is None else {"id": made.house_id})
    label = {} if made.label is None else {"label": made.label}
    tables: dict[str, Any] = {"house": house, "share": {**label, "harvest": True, "prices": not made.share}}
    tables |= {"show": "us"} if made.fahrenheit else {}
    books = {**made.books, **({"harvest": _pickings(made)} if made.kg else {})}
    write_season(folder, winter, _loggers(made), zone=ZONE, title=f"Winter {made.year}", season=tables, books=books)
    if "gas" in made.tables:  # beside the heater that is worked out
        gas = "\n".join(f"{key} = {toml.value(item)}" for key, item in made.tables["gas"].items())
        file = folder / "season.toml"
        file.write_text(f"{file.read_text(encoding='utf-8')}\n[[heating]]\n{gas}\n", encoding="utf-8")
    return folder


def _pickings(made: Made) -> list[dict[str, object]]:
    days = pd.date_range(f"{made.year}-11-08", f"{made.year + 1}-02-21", freq="7D")
    return [{"date": day.date(), "crop": "spinach", "weight": made.kg, "unit": "kg"} for day in days]


@cache
def documents() -> Mapping[str, dict[str, Any]]:
    """The review.json of every winter by its word; made once a process, nothing is drawn."""
    found: dict[str, dict[str, Any]] = {}
    with tempfile.TemporaryDirectory() as room:
        for word, made in _winters().items():
            folder = _season(made, Path(room) / word)
            before = Path(room) / word.replace("2025", "2024")
            against = before if before != folder and before.exists() else None
            review = analyse(folder, against=against, share=made.share)
            found[word] = document_of(review, share=made.share)
    return found


def text_of(document: Mapping[str, Any]) -> bytes:
    """As a site's data/review.json stands on disk."""
    return json.dumps(document, ensure_ascii=False, indent=1).encode()


def packed(document: Mapping[str, Any]) -> bytes:
    """A ZIP as `review --share` packs it, with one page for all."""
    built = without_offsets({"index.html": b"<p>A page</p>", "data/review.json": text_of(document)})
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in built.items():
            archive.writestr(zipfile.ZipInfo(f"review/{name}"), data)
    return out.getvalue()


def made_group(folder: Path) -> Path:
    """Writes what an organiser would have collected, as the head of this file lists it, and returns the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    of = documents()
    (folder / "plot-3" / "data").mkdir(parents=True)
    (folder / "plot-3" / "data" / "review.json").write_bytes(text_of(of["plot-3"]))
    for word in ("plot-7-2024", "plot-7-2025", "garden-e", "garden-f"):
        (folder / f"{word}.json").write_bytes(text_of(of[word]))
    for word in ("plot-9", "plot-12"):
        (folder / f"{word}.zip").write_bytes(packed(of[word]))
    (folder / "plot-15.json").write_bytes(text_of(of["plot-3"])[:5_000])
    (folder / "group.toml").write_text(GROUP_TOML, encoding="utf-8")
    return folder
