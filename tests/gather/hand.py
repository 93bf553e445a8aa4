"""Reviews written by hand, as small as they may be: what is not named is not in them."""

from __future__ import annotations

import datetime as dt
import io
import json
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from scipy import stats

from reportgen.gather.houses import houses_of
from reportgen.gather.schema import winter_of
from reportgen.gather.types import House, Winter

UNITS = {"lift": "K", "heat": "kWh", "watts_per_kelvin": "W/K", "night_humidity": "%", "soil_mean": "K"}


def review(number: int = 1, **more: Any) -> dict[str, Any]:
    """The review of one heated house; `more` replaces whole sections."""
    head = {"title": "A winter", "first_day": "2025-11-01", "last_day": "2026-02-28", "currency": "EUR"}
    house = {"id": f"{number:016x}", "label": f"Plot {number}", "heated": True, "kind": "glasshouse"}
    share = {"place": True, "prices": True, "harvest": True}
    return {"format": 1, "season": head, "share": share, "house": house} | more


def season(first: str, last: str) -> dict[str, str]:
    """The head of a winter of those days."""
    return {"title": "A winter", "first_day": first, "last_day": last}


def change(when: str, what: str, *outcomes: Mapping[str, Any], **more: Any) -> dict[str, Any]:
    """A line of the diary that touches the cover and hopes for less heating."""
    usual = {"when": when, "what": what, "kind": "change", "touches": ["envelope"], "hoped_for": ["less heating"]}
    return usual | {"verdict": "cannot tell", "outcomes": list(outcomes)} | more


def outcome(name: str, effect: float, se: float = 0.2, dof: int = 30, **more: Any) -> dict[str, Any]:
    """An outcome with the interval that belongs to its standard error."""
    half = float(stats.t.ppf(0.975, dof)) * se
    told = {"outcome": name, "unit": UNITS.get(name, "K"), "declared": False, "effect": effect, "se": se, "dof": dof}
    told |= {"low": effect - half, "high": effect + half, "before_mean": 4.0, "days_before": 21, "days_after": 21}
    return told | {"refused": None} | more


def refused(name: str, why: str, **more: Any) -> dict[str, Any]:
    """An outcome that could not be told."""
    empty = dict.fromkeys(("effect", "low", "high", "se", "dof", "before_mean"))
    return {"outcome": name, "unit": UNITS.get(name, "K"), "declared": False, "refused": why} | empty | more


def raw(document: object) -> bytes:
    """As a file."""
    return json.dumps(document).encode()


def winter(document: object, source: str = "a.json") -> Winter:
    """As it is read."""
    return winter_of(raw(document), source)


def houses(*documents: Mapping[str, Any]) -> tuple[House, ...]:
    """As houses, from files 0.json, 1.json …"""
    return houses_of([winter(document, f"{n}.json") for n, document in enumerate(documents)])[0]


def packed(members: Mapping[str, bytes] | Sequence[tuple[str, bytes]], **how: Any) -> bytes:
    """A ZIP of those members."""
    out = io.BytesIO()
    pairs = members.items() if isinstance(members, Mapping) else members
    with zipfile.ZipFile(out, "w", **({"compression": zipfile.ZIP_DEFLATED} | how)) as archive:
        for name, data in pairs:
            archive.writestr(zipfile.ZipInfo(name), data, compress_type=how.get("compression", zipfile.ZIP_DEFLATED))
    return out.getvalue()


def put(folder: Path, **files: object) -> Path:
    """Each document as NAME.json in the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, document in files.items():
        (folder / f"{name}.json").write_bytes(raw(document))
    return folder


def day(text: str) -> dt.date:
    """A date."""
    return dt.date.fromisoformat(text)
