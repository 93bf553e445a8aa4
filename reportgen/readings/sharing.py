"""What leaves the house with `--share`: readings without what `[share]` does not allow, before anything is measured.

Method: what is private is taken out of the data, not hidden on the pages; so a page cannot tell what it never had, and
says itself that it is missing. The clock of the season stays for the counting; its name is never printed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np

from reportgen.problems import Problem
from reportgen.readings.types import DiaryEntry, HeatSupply, Readings, Stock
from reportgen.season import Season
from reportgen.season.models import Household, Place

PRIVATE = "kept private by the grower"
STORY = "story.md"
SHORTEST = 4  # letters of a private word worth searching for: shorter ones stand in other words
SHORTEST_NOTE = 12
OFFSET = re.compile(r"fixed at UTC[+-]\d\d:?\d\d")  # a fixed offset tells the zone as well as its name does


def shared(readings: Readings) -> Readings:
    """The readings with only what may leave the house; the same readings where all may."""
    allowed = readings.season.share
    taken: tuple[tuple[bool, Callable[[Readings], Readings]], ...] = (
        (allowed.place, _without_place),
        (allowed.prices, _without_prices),
        (allowed.harvest, _without_harvest),
        (allowed.diary_notes, _without_notes),
        (allowed.away, _without_away),
    )
    for may_go, take_out in taken:
        if not may_go:
            readings = take_out(readings)
    return readings


def _season(readings: Readings, **changed: object) -> Readings:
    return replace(readings, season=readings.season.model_copy(update=changed))


def _without_place(readings: Readings) -> Readings:
    """No name, no latitude: then no day length and no sun either. Altitude goes too, since it narrows a place down."""
    zone = f" of {readings.season.time_zone}"
    clocks = (OFFSET.sub("fixed, without summer time", account.clock.replace(zone, "")) for account in readings.files)
    files = tuple(replace(account, clock=clock) for account, clock in zip(readings.files, clocks, strict=True))
    return _season(replace(readings, files=files), place=Place())


def _without_prices(readings: Readings) -> Readings:
    season = readings.season
    bare = {"price": None, "prices": (), "next_price": None}
    free = _season(
        readings,
        currency=None,
        heating=tuple(source.model_copy(update=bare) for source in season.heating),
        appliances=tuple(appliance.model_copy(update={"price": None}) for appliance in season.appliances),
        crops=tuple(crop.model_copy(update={"shop_price_per_kg": None}) for crop in season.crops),
    )
    return replace(
        free,
        heating=tuple(_unpriced(supply) for supply in readings.heating),
        appliances=tuple(_unpriced(supply) for supply in readings.appliances),
        diary=tuple(replace(entry, cost=None) for entry in readings.diary),
        harvest=tuple(replace(picking, price_per_kg=None) for picking in readings.harvest),
        costs=(),
        books={**readings.books, "costs": False},
    )


def _unpriced(supply: HeatSupply) -> HeatSupply:
    none = {name: np.nan for name in ("cost", "cost_low", "cost_high") if name in supply.intervals}
    return replace(
        supply,
        intervals=supply.intervals.assign(**none),
        gaps=supply.gaps.assign(cost=np.nan),
        stock=None if supply.stock is None else _unpriced_stock(supply.stock),
        reasons={**supply.reasons, "cost": PRIVATE},
    )


def _unpriced_stock(stock: Stock) -> Stock:
    free = tuple(replace(purchase, paid=np.nan) for purchase in stock.purchases)
    return replace(stock, purchases=free, left_paid=np.nan)


def _without_harvest(readings: Readings) -> Readings:
    eaten = _season(readings, household=Household())
    return replace(eaten, harvest=(), books={**readings.books, "harvest": False})


def _without_notes(readings: Readings) -> Readings:
    return replace(
        readings,
        diary=tuple(replace(entry, note="") for entry in readings.diary),
        harvest=tuple(replace(picking, note="") for picking in readings.harvest),
    )


def _without_away(readings: Readings) -> Readings:
    gone = {entry.line for entry in readings.diary if entry.kind == "away"}
    return replace(
        readings,
        diary=tuple(entry for entry in readings.diary if entry.line not in gone),
        questions=tuple(asked for asked in readings.questions if asked.line not in gone),
    )


def named(readings: Readings) -> tuple[Problem, ...]:
    """Every line that would print the name of a private place: title, diary, and the story if it may go."""
    season = readings.season
    if season.share.place or not season.place.name:
        return ()
    name = season.place.name.casefold()
    lines: list[tuple[str, int | None, str, str]] = [("season.toml", None, "title", season.title)]
    lines += [("season.toml", None, "label", season.share.label or "")]
    lines += [("season.toml", None, f"[[question]] {n} · ask", q.ask) for n, q in enumerate(season.questions, start=1)]
    lines += [(season.diary.file, entry.line, "what", entry.what) for entry in _told(readings)]
    lines += [(season.diary.file, entry.line, "thing", entry.thing) for entry in _told(readings)]
    if season.share.diary_notes:
        lines += [(season.diary.file, entry.line, "note", entry.note) for entry in _told(readings)]
    lines += [(STORY, number, "", text) for number, text in enumerate(_story(season), start=1)]
    return tuple(_named(*line) for line in lines if name in line[3].casefold())


def _told(readings: Readings) -> list[DiaryEntry]:
    return [entry for entry in readings.diary if entry.kind != "away" or readings.season.share.away]


def _story(season: Season) -> list[str]:
    path = Path(season.folder) / STORY
    if not season.share.story or not path.is_file():
        return []
    return path.read_text(encoding="utf-8-sig", errors="replace").splitlines()


def _named(file: str, line: int | None, column: str, text: str) -> Problem:
    return Problem(
        slug="private-place-named",
        file=file,
        line=line,
        column=column or None,
        found=f"{text.strip()[:80]!r}",
        expected="no name of the place, which [share] keeps private",
        todo="write it without the name, or set place = true under [share] in season.toml",
    )


def private_words(readings: Readings) -> tuple[str, ...]:
    """What must stand nowhere in the shared pages: the place and its clock, notes, times away; longest first."""
    season, allowed = readings.season, readings.season.share
    words: list[str] = []
    if not allowed.place:
        words += [season.place.name or "", season.time_zone, season.time_zone.rpartition("/")[2].replace("_", " ")]
        words += _coordinates(season)
    if not allowed.diary_notes:
        words += [entry.note for entry in readings.diary if len(entry.note) >= SHORTEST_NOTE]
        words += [picking.note for picking in readings.harvest if len(picking.note) >= SHORTEST_NOTE]
    if not allowed.away:
        words += [entry.what for entry in readings.diary if entry.kind == "away" and len(entry.what) >= SHORTEST_NOTE]
    kept = {word.strip() for word in words if len(word.strip()) >= SHORTEST}
    return tuple(sorted(kept, key=lambda word: (-len(word), word)))


def _coordinates(season: Season) -> list[str]:
    """Latitude and longitude as a page would print them; bare figures stand for much else."""
    place = season.place
    return [f"{value:g}{mark}" for value in (place.latitude, place.longitude) if value for mark in ("°", "\u00a0°")]
