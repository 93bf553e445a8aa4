"""What leaves the house with `--share`: readings without what `[share]` does not allow, before anything is measured.

Method: what is private is taken out of the data, not hidden on the pages; so a page cannot tell what it never had, and
says itself that it is missing. The clock of the season stays for the counting; its name is never printed.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from reportgen.problems import Problem
from reportgen.readings.aliases import neutral
from reportgen.readings.folded import Private, PrivateName, parts_of
from reportgen.readings.price_words import prices_told
from reportgen.readings.spot import PrivateSpot
from reportgen.readings.told import STORY, Told, told
from reportgen.readings.types import PRIVATE, HeatSupply, Readings, Stock
from reportgen.season.located import located
from reportgen.season.models import Household, Place

SHORTEST_NOTE = 12
OFFSET = re.compile(r"fixed at UTC[+-]\d\d:?\d\d")  # a fixed offset tells the zone as well as its name does


def shared(readings: Readings, last: Readings | None) -> tuple[Readings, Readings | None]:
    """Both winters with only what this one's `[share]` lets out of the house; the same readings where that is all."""
    last = by_one_rule(readings, last)
    readings, last = neutral(readings, last, place_names(readings, last))
    return without_private(readings), None if last is None else without_private(last)


def without_private(readings: Readings) -> Readings:
    """One winter without what its `[share]` does not allow."""
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
    held = _held(readings, "place", there=readings.season.place.latitude is not None)
    return _season(replace(readings, files=files, held_back=held), place=Place())


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
        diary_before=tuple(replace(entry, cost=None) for entry in readings.diary_before),
        harvest=tuple(replace(picking, price_per_kg=None) for picking in readings.harvest),
        costs=(),
        books={**readings.books, "costs": False},
        held_back=_held(readings, "prices", there=season.currency is not None or bool(readings.costs)),
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
    held = _held(readings, "harvest", there=readings.books.get("harvest", bool(readings.harvest)))
    return replace(eaten, harvest=(), books={**readings.books, "harvest": False}, held_back=held)


def _held(readings: Readings, what: str, *, there: bool) -> frozenset[str]:
    """What is held back, this too where there is any: pages then say so, and not that nobody wrote it down."""
    return readings.held_back | {what} if there else readings.held_back


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


def place_names(readings: Readings, last: Readings | None) -> tuple[PrivateName, ...]:
    """What a private place is called, in either winter: its name, each part of it, and the town of its clock.

    A town by which a crop is known (Brussels sprouts) tells nothing.
    """
    if readings.season.share.place:
        return ()
    winters = [readings] if last is None else [readings, last]
    names: dict[str, PrivateName] = {}
    for winter in winters:
        kinds = [*(crop.name for crop in winter.season.crops), *(picking.crop for picking in winter.harvest)]
        kinds += [word for planting in winter.plantings for word in (planting.crop, planting.cultivar or "")]
        area, _, town = winter.season.time_zone.rpartition("/")
        place = {name: PrivateName(name) for name in parts_of(winter.season.place.name or "")}
        clock = PrivateName(town.replace("_", " "))
        if area and area != "Etc" and not any(clock.told_in(kind) for kind in kinds):
            place[clock.name] = clock
        names |= place
    return tuple(name for name in names.values() if name.searchable)


def by_one_rule(readings: Readings, last: Readings | None) -> Readings | None:
    """Last winter with this one's `[share]`: what may leave the house is said once, and under one label."""
    if last is None:
        return None
    nameless = readings.season.share.model_copy(update={"label": None})
    return replace(last, season=last.season.model_copy(update={"share": nameless}))


def unfit_to_share(readings: Readings, last: Readings | None, below: str) -> tuple[Problem, ...]:
    """Everything the grower typed that names a private place, and warnings of sums of money, of both winters at once.

    Args:
        readings: The winter that is shared.
        last: The one it is compared with.
        below: The folder of the latter, as this winter names it.
    """
    last = by_one_rule(readings, last)
    private: tuple[Private, ...] = (*place_names(readings, last), *spots(readings, last, pairs=True))
    found: list[Problem] = []
    for winter, before in ((readings, ""), (last, f"{below}/")):
        if winter is not None:
            texts = told(winter, story=winter is readings)
            sums = () if winter.season.share.prices else prices_told(texts, winter.season.currency)
            faults = located([*named(texts, private), *sums], winter.season.folder)
            found += [replace(fault, file=f"{before}{fault.file}") for fault in faults]
    return tuple(found)


def place_named(readings: Readings, *more: str) -> bool:
    """Whether what the grower typed, without the story, or one of `more` names the place that is kept private."""
    private: tuple[Private, ...] = (*place_names(readings, None), *spots(readings, None, pairs=True))
    texts = (*more, *(one.text for one in told(readings, story=False)))
    return bool(private) and any(_names(text, private) for text in texts)


def named(texts: Sequence[Told], private: Sequence[Private]) -> tuple[Problem, ...]:
    """Every text that names a private place; in a story also where a line's end cuts the name in two."""
    found = {one: one.text for one in texts if _names(one.text, private)}
    for one, after in itertools.pairwise(texts):
        both = f"{one.text}\n{after.text}"
        if one.file == after.file == STORY and not {one, after} & found.keys() and _names(both, private):
            found[one] = both
    return tuple(_named(one, text) for one, text in found.items())


def _names(text: str, private: Sequence[Private]) -> bool:
    return any(one.told_in(text) for one in private)


def _named(one: Told, text: str) -> Problem:
    return Problem(
        slug="private-place-named",
        file=one.file,
        line=one.line,
        column=one.column,
        found=f"{text.strip()[:80]!r}",
        expected="no name of the place, which [share] keeps private",
        todo="write it without the name, or set place = true under [share] in season.toml",
    )


def private_words(readings: Readings, last: Readings | None) -> tuple[Private, ...]:
    """What must stand nowhere in the shared pages, of either winter: the place, its spot and its clock, notes, times
    away."""
    last = by_one_rule(readings, last)
    winters = [readings] if last is None else [readings, last]
    clocks = [] if readings.season.share.place else [w.season.time_zone for w in winters if "/" in w.season.time_zone]
    written = [word for winter in winters for word in _written(winter)]
    words = [PrivateName(word) for word in dict.fromkeys([*clocks, *written])]
    return (*place_names(readings, last), *words, *spots(readings, last, pairs=False))


def spots(readings: Readings, last: Readings | None, *, pairs: bool) -> tuple[PrivateSpot, ...]:
    """The coordinates of a private place, of either winter."""
    if readings.season.share.place:
        return ()
    places = [winter.season.place for winter in (readings, last) if winter is not None]
    return tuple(PrivateSpot(place.latitude, place.longitude, pairs=pairs) for place in places)


def _written(winter: Readings) -> list[str]:
    """Notes and times away that stay at home; words that stand in a shared line as well give nothing away."""
    allowed = winter.season.share
    words: list[str] = []
    if not allowed.diary_notes:
        words += [*(entry.note for entry in winter.diary), *(picking.note for picking in winter.harvest)]
    if not allowed.away:
        words += [entry.what for entry in winter.diary if entry.kind == "away"]
    open_words = "\n".join(one.text for one in told(winter, story=False))
    return [word for word in words if len(word) >= SHORTEST_NOTE and not PrivateName(word).told_in(open_words)]
