"""A small season to be shared, with anything that is wanted in any of its fields; made up, of no place."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import odd_seasons

FIRST, LAST = "2026-01-05", "2026-01-25"
DIARY = "date,kind,what,touches,hoped_for,note,thing,cost\n"


def small(
    folder: Path,
    *,
    place: str = "Owlbarrow",
    zone: str = "Europe/Bratislava",
    share: str = "",
    logger: str = "bench",
    file: str = "loggers/all.csv",
    toml: str = "",
    **fields: str,
) -> Path:
    """Three hourly weeks of one crop and one outdoor logger in one file; `fields`: title, kind, what, note, thing, bed,
    crop, cultivar, cause, found, label, ask, story; `toml` stands before `[share]`, `share` in it."""
    table = odd_seasons.readings(FIRST, LAST)
    more = f'[[question]]\nask = {quoted(fields["ask"])}\nabout = "frost"\n' if "ask" in fields else ""
    text = odd_seasons.head(FIRST, LAST, zone=zone, title="TITLE", more="").replace(
        "'TITLE'", quoted(fields.get("title", "A winter"))
    )
    text += f"[place]\nname = {quoted(place)}\nlatitude = 48.612\nlongitude = 18.447\n"
    text += f"[house]\nkind = {quoted(fields.get('kind', 'glasshouse'))}\nfloor_area_m2 = 12.0\n{more}{toml}\n"
    beds = f"beds = [{quoted(fields.get('bed', 'south'))}]\n"
    text += odd_seasons.logger("LOGGER", "crop", "FILE", odd_seasons.AIR, odd_seasons.DAMP, more=beds)
    text += odd_seasons.logger("yard", "outdoor", "FILE", odd_seasons.OUT)
    text = text.replace('"LOGGER"', quoted(logger)).replace('"FILE"', quoted(file))
    label = f"label = {quoted(fields['label'])}\n" if "label" in fields else ""
    text += f"[share]\n{label}{share}\n"
    odd_seasons.write(folder, text, table, **_books(fields))
    (folder / file).parent.mkdir(parents=True, exist_ok=True)
    (folder / "all.csv").rename(folder / file)
    if "story" in fields:
        (folder / "story.md").write_text(fields["story"], encoding="utf-8")
    return folder


def _books(fields: dict[str, str]) -> dict[str, str]:
    def cells(*names: str) -> str:
        return ",".join('"' + fields.get(name, "").replace('"', '""') + '"' for name in names)

    what = cells("what") if "what" in fields else "Bubble film"
    crop = cells("crop") if "crop" in fields else "kale"
    bed = cells("bed") if "bed" in fields else "south"
    return {
        "diary": f"{DIARY}2026-01-15,change,{what},envelope,warmer nights,{cells('note', 'thing')},30\n",
        "plantings": "crop,cultivar,bed,area_m2,sown,planted,cleared,cause\n"
        f"{crop},{cells('cultivar')},{bed},2,2025-09-01,2025-10-01,,{cells('cause')}\n",
        "inspections": f"date,bed,crop,found,level\n2026-01-12,{bed},{crop},{cells('found')},1\n",
        "harvest": f"date,crop,weight,unit\n2026-01-14,{crop},120,g\n",
    }


def quoted(text: str) -> str:
    """A text of TOML, which bars control characters."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def unpacked(packed: Path) -> dict[str, bytes]:
    """Every member of a ZIP by its name, pictures of the pages and all; nothing stands beside them."""
    with zipfile.ZipFile(io.BytesIO(packed.read_bytes())) as archive:
        assert archive.comment == b""
        assert all(not entry.extra and not entry.comment for entry in archive.infolist())
        return {entry.filename: archive.read(entry) for entry in archive.infolist()}


def problems(error: Any) -> list[tuple[str, int | None, str | None]]:
    """File, line and column of each private-place-named."""
    return [(p.file, p.line, p.column) for p in error.problems if p.slug == "private-place-named"]
