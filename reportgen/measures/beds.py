"""A strip per bed: what stood where from sowing to clearing, what it gave, and which ground lay bare."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from reportgen.measures.beds_bare import Bare, Plot, bare_ground
from reportgen.measures.days import dates
from reportgen.measures.light_daily import TEN_HOURS
from reportgen.readings.types import Picking, Planting, Readings
from reportgen.season import Season
from reportgen.sun import day_length_h


@dataclass(frozen=True, kw_only=True, slots=True)
class Strip:
    """One planting. `kg` is None where the pickings cannot be told apart from another planting's (`reason`)."""

    bed: str
    crop: str
    cultivar: str | None
    area_m2: float | None
    sown: date | None
    start: date  # in the bed: planted, else sown, else the season's first day
    end: date  # cleared, else the season's last day
    cleared: bool
    first_picked: date | None
    last_picked: date | None
    kg: float | None
    days_to_first: int | None  # from sowing to the first picking
    kg_per_m2_week: float | None  # per m² and week in the bed
    lost: float | None
    cause: str
    lost_on: date | None
    plants: float | None
    before_dark: bool | None  # first picked before the dark weeks; None where it cannot be told
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Rivals:
    """Two cultivars of one crop, compared only over the weeks in which both stood; one bed each unless said."""

    crop: str
    cultivars: tuple[str, str]
    start: date
    end: date
    kg_per_m2: tuple[float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Beds:
    """All strips, by bed and start.

    `bare`: stretches in which ground lay bare, the largest first. `dark_from`: the first day of the season's dark weeks
    (under ten hours of daylight), None without a latitude or where the season has no day before them.
    """

    strips: tuple[Strip, ...]
    bare: tuple[Bare, ...]
    dark_from: date | None
    midwinter: date | None
    rivals: tuple[Rivals, ...]
    reason: str = ""  # why there are no strips

    @property
    def in_time(self) -> Strip | None:
        """The latest sowing that was picked before the dark weeks, where a later one, sown before midwinter, was not:
        only then does the season tell how late is too late."""
        told = [strip for strip in self.strips if strip.sown is not None and strip.before_dark is not None]
        early = [strip for strip in told if strip.before_dark]
        if not early or self.midwinter is None:
            return None
        latest = max(early, key=lambda strip: (strip.sown or date.min, strip.crop))
        return latest if self.too_late else None

    @property
    def too_late(self) -> tuple[Strip, ...]:
        """Sowings before midwinter, later than every one that was picked before the dark weeks; the first first."""
        told = [
            (strip.sown, strip) for strip in self.strips if strip.sown is not None and strip.before_dark is not None
        ]
        last = max((sown for sown, strip in told if strip.before_dark), default=None)
        if last is None or self.midwinter is None:
            return ()
        found = [(sown, strip.crop, strip) for sown, strip in told if last < sown <= self.midwinter]
        return tuple(strip for _, _, strip in sorted(found, key=lambda one: one[:2]))


def beds(readings: Readings) -> Beds:
    """Strips from plantings.csv and harvest.csv; nothing is shared out where two plantings could own a picking."""
    if not readings.plantings:
        return Beds(strips=(), bare=(), dark_from=None, midwinter=None, rivals=(), reason="no plantings.csv")
    season = readings.season
    owned = owners(readings)
    dark = dark_from(season)
    strips = [_strip(readings, i, owned, dark) for i in range(len(readings.plantings))]
    strips.sort(key=lambda s: (s.bed, s.start, s.crop, s.cultivar or ""))
    return Beds(
        strips=tuple(strips),
        bare=bare_ground([Plot(s.bed, s.crop, s.start, s.end, s.area_m2) for s in strips], dates(season)),
        dark_from=dark,
        midwinter=midwinter(season.first_day, season.last_day, season.place.latitude),
        rivals=_rivals(readings, owned),
    )


def dark_from(season: Season) -> date | None:
    """The first day under ten hours of daylight, where the season has a day before it; None without a latitude."""
    if season.place.latitude is None:
        return None
    days = dates(season)
    dark = day_length_h(days, season.place.latitude) < TEN_HOURS
    return next((day for n, day in enumerate(days) if dark[n] and n), None) if not dark[0] else None


def midwinter(first: date, last: date, latitude: float | None) -> date | None:
    """The solstice with the shortest day that lies in the season: 21 December north, 21 June south of the equator.

    `latitude` [°], north positive; None is taken as north. None where the season holds no such day.
    """
    south = latitude is not None and latitude < 0
    found = [date(year, 6 if south else 12, 21) for year in range(first.year, last.year + 1)]
    return next((day for day in found if first <= day <= last), None)


def _span(readings: Readings, planting: Planting) -> tuple[date, date]:
    season = readings.season
    start = planting.planted or planting.sown or season.first_day
    return start, max(planting.cleared or season.last_day, start)


def owners(readings: Readings) -> list[list[int]]:
    """For every picking the plantings it may have come from: same crop, same bed where named, standing that day."""
    found = []
    for picking in readings.harvest:
        fits = [i for i, planting in enumerate(readings.plantings) if _may_be(readings, picking, planting)]
        found.append(fits)
    return found


def _may_be(readings: Readings, picking: Picking, planting: Planting) -> bool:
    start, end = _span(readings, planting)
    same_bed = picking.bed is None or planting.bed is None or picking.bed == planting.bed
    return picking.crop == planting.crop and same_bed and start <= picking.date <= end


def _strip(readings: Readings, i: int, owned: list[list[int]], dark: date | None) -> Strip:
    planting = readings.plantings[i]
    start, end = _span(readings, planting)
    kept = [(p, o) for p, o in zip(readings.harvest, owned, strict=True) if i in o and p.use != "lost"]
    alone = all(len(o) == 1 for _, o in kept)
    known = alone and bool(readings.harvest)
    days = [p.date for p, _ in kept] if known else []
    kg = sum(p.weight_kg for p, _ in kept) if known else None
    weeks = ((end - start).days + 1) / 7
    first = min(days, default=None)
    return Strip(
        bed=planting.bed or "",
        crop=planting.crop,
        cultivar=planting.cultivar,
        area_m2=planting.area_m2,
        sown=planting.sown,
        start=start,
        end=end,
        cleared=planting.cleared is not None,
        first_picked=first,
        last_picked=max(days, default=None),
        kg=kg,
        days_to_first=(first - planting.sown).days if first and planting.sown else None,
        kg_per_m2_week=kg / planting.area_m2 / weeks if kg is not None and planting.area_m2 else None,
        lost=planting.lost,
        cause=planting.cause,
        lost_on=planting.lost_on,
        plants=planting.plants,
        before_dark=None if dark is None or not known else first is not None and first < dark,
        reason="" if known else _why(readings, alone),
    )


def _why(readings: Readings, alone: bool) -> str:
    if not readings.harvest:
        return readings.without("harvest", "no harvest.csv")
    return (
        "" if alone else "two plantings of this crop stood at once and the harvest book does not say which was picked"
    )


def _rivals(readings: Readings, owned: list[list[int]]) -> tuple[Rivals, ...]:
    """Pairs of cultivars of a crop that stood together at least four weeks and whose pickings can be told apart."""
    found = []
    plantings = readings.plantings
    for i, a in enumerate(plantings):
        for j in range(i + 1, len(plantings)):
            b = plantings[j]
            if a.crop != b.crop or not a.cultivar or not b.cultivar or a.cultivar == b.cultivar:
                continue
            start = max(_span(readings, a)[0], _span(readings, b)[0])
            end = min(_span(readings, a)[1], _span(readings, b)[1])
            if (end - start).days < 28 or not a.area_m2 or not b.area_m2:
                continue
            if any(len(o) > 1 for o in owned if i in o or j in o):
                continue
            kg = tuple(_kg_between(readings, owned, n, start, end) for n in (i, j))
            per = (kg[0] / a.area_m2, kg[1] / b.area_m2)
            pair = (a.cultivar, b.cultivar)
            found.append(Rivals(crop=a.crop, cultivars=pair, start=start, end=end, kg_per_m2=per))
    return tuple(found)


def _kg_between(readings: Readings, owned: list[list[int]], i: int, start: date, end: date) -> float:
    rows = zip(readings.harvest, owned, strict=True)
    return sum(p.weight_kg for p, o in rows if o == [i] and start <= p.date <= end and p.use != "lost")
