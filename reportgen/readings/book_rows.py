"""The columns and words of each book, and one row of it as an entry; a row that cannot be one tells its faults."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from reportgen.readings.ledger import Columns, Row
from reportgen.readings.levers import in_season
from reportgen.readings.types import Cost, DiaryEntry, Inspection, Picking, Planting, Watering
from reportgen.readings.weights import WEIGHTS as WEIGHTS
from reportgen.readings.weights import split_weight, unit_called
from reportgen.season import Season
from reportgen.units import convert

KINDS = ("change", "spell", "event", "away", "upkeep", "idea")
TOUCHES = ("envelope", "thermostat", "heater", "bed", "water", "air", "light", "plants")
JUDGED_HOPES = ("warmer nights", "less heating", "drier air", "warmer soil", "steadier soil", "more light")
TOLD_HOPES = ("better growth", "fewer losses", "less water", "cooler days", "less work", "safer")
USES = ("eaten", "given", "stored", "lost")
ALWAYS = ("idea", "upkeep")  # kinds whose lines count whenever they were written
MOST_KG = 1e6
MOST_YEARS = 1000.0
LEVELS = ("0", "1", "2", "3")

COLUMNS: Mapping[str, Columns] = MappingProxyType(
    {
        "diary": Columns(
            needed=("date", "kind", "what"),
            optional=(
                "time",
                "touches",
                "reversible",
                "hoped_for",
                "until",
                "cost",
                "years",
                "written",
                "note",
                "undoes",
                "thing",
            ),
        ),
        "harvest": Columns(needed=("date", "crop", "weight"), optional=("unit", "bed", "use", "price_per_kg", "note")),
        "plantings": Columns(
            needed=("crop", "bed", "area_m2", "sown", "planted", "cleared"),
            optional=("cultivar", "plants", "spacing_cm", "lost", "lost_on", "cause"),
        ),
        "watering": Columns(needed=("date", "bed", "litres"), optional=("time",)),
        "inspections": Columns(needed=("date", "bed", "crop", "found", "level"), optional=("action",)),
        "costs": Columns(needed=("date", "what", "kind", "amount"), optional=("years",)),
    }
)


def _money(row: Row, season: Season, column: str, needed: bool = False) -> float | None:
    amount = row.number(column, needed, point=False)
    if amount is not None and season.currency is None:
        todo = 'add currency = "EUR" (or your own) at the top of season.toml'
        row.fault("missing-currency", column, "an amount without a currency", "the key 'currency'", todo)
    return amount


def _in_season(row: Row, season: Season, date: dt.date | None) -> bool:
    """Whether the day belongs to the season; else the row is set aside with a warning."""
    if date is None or season.first_day <= date <= season.last_day:
        return True
    if season.so_far is not None and date > season.last_day:
        row.ledger.tell(
            "after-the-readings",
            line=row.line,
            column="date",
            found=f"{date}, after the last crop reading",
            expected=f"a day up to {season.last_day}, to which the crop logger was read",
            todo="leave it: it counts as soon as the logger is read again",
            level="warning",
        )
        return False
    row.ledger.tell(
        "outside-season",
        line=row.line,
        column="date",
        found=f"{date}, which is not counted",
        expected=f"a day from {season.first_day} to {season.last_day}",
        todo="correct the date, or first_day and last_day of season.toml",
        level="warning",
    )
    return False


def _in_order(row: Row, column: str, first: dt.date | None, then: dt.date | None) -> None:
    if first is not None and then is not None and then < first:
        row.fault(
            "dates-out-of-order", column, f"{then}, before {first}", f"{first} or later", "correct one of the two"
        )


def diary_entry(row: Row, season: Season) -> DiaryEntry | None:
    date, kind = row.date("date", needed=True), row.word("kind", KINDS, needed=True)
    until = row.date("until")
    if kind == "spell" and not row.text("until"):
        todo = "write its last day, or make it a change if it stayed so"
        row.fault("spell-without-end", "until", "an empty cell", "the last day of the spell", todo)
    _in_order(row, "until", date, until)
    entry = DiaryEntry(
        line=row.line,
        date=date or season.first_day,
        time=row.time("time"),
        kind=kind,
        what=row.text("what", needed=True),
        touches=row.words("touches", TOUCHES),
        reversible=row.yes_no("reversible"),
        hoped_for=row.words("hoped_for", JUDGED_HOPES + TOLD_HOPES),
        until=until,
        cost=_money(row, season, "cost"),
        years=row.number("years", most=MOST_YEARS),
        written=row.date("written"),
        note=row.text("note"),
        undoes=row.day_or_words("undoes"),
        thing=" ".join(row.text("thing").split()),
    )
    if row.good and kind not in ALWAYS and not in_season(entry, season):
        _in_season(row, season, date)  # kept for what it is to a later line that takes it back
    return entry if row.good else None


def picking(row: Row, season: Season) -> Picking | None:
    date, crop = row.date("date", needed=True), row.text("crop", needed=True)
    weight, unit = _weight(row, season.harvest.unit)
    price, bed, note = _money(row, season, "price_per_kg"), row.text("bed") or None, row.text("note")
    use = row.word("use", USES, default="eaten")
    if not row.good or date is None or weight is None or not _in_season(row, season, date):
        return None
    kg = float(convert(np.asarray([weight]), unit, "kg")[0])
    if kg >= MOST_KG:
        row.fault("number-too-large", "weight", f"{weight:g} {unit}", "below 1 000 000 kg", "correct weight or unit")
        return None
    return Picking(line=row.line, date=date, crop=crop, weight_kg=kg, bed=bed, use=use, price_per_kg=price, note=note)


_ADVICE = "weigh it; or weigh three bunches once, and write number × that weight, with a note that says so"


def _weight(row: Row, usual: str) -> tuple[float | None, str]:
    """The weight as written and its unit; a count of bunches or heads is refused with advice."""
    cell = row.text("weight", needed=True)
    number, own = split_weight(cell)
    unit = own or _weight_unit(row) or row.ledger.unit or usual
    if own and row.text("unit") and unit_called(row.text("unit")) not in (own, None):
        found = f"{cell!r} beside the unit {row.text('unit')!r}"
        row.fault("not-a-weight", "weight", found, "one unit", "leave the unit of the two that is wrong out")
        return None, unit
    if any(letter.isalpha() for letter in number):
        row.fault("not-a-weight", "weight", repr(cell), "a number; its unit stands in the column 'unit'", _ADVICE)
        return None, unit
    return row.number("weight", point=unit != "g", cell=number), unit


def _weight_unit(row: Row) -> str:
    cell = row.text("unit")
    unit = unit_called(cell) if cell else ""
    if unit is None:
        row.fault("not-a-weight", "unit", repr(cell), f"one of: {', '.join(WEIGHTS)}", _ADVICE)
    return unit or ""


def planting(row: Row, season: Season) -> Planting | None:
    sown, planted, cleared = row.date("sown"), row.date("planted"), row.date("cleared")
    lost_on = row.date("lost_on")
    _in_order(row, "planted", sown, planted)
    _in_order(row, "cleared", planted or sown, cleared)
    _in_order(row, "lost_on", planted or sown, lost_on)
    _in_order(row, "cleared", lost_on, cleared)
    entry = Planting(
        line=row.line,
        crop=row.text("crop", needed=True),
        cultivar=row.text("cultivar") or None,
        bed=row.text("bed") or None,
        area_m2=row.number("area_m2"),
        sown=sown,
        planted=planted,
        cleared=cleared,
        plants=row.number("plants"),
        spacing_cm=row.number("spacing_cm"),
        lost=row.number("lost"),
        cause=row.text("cause"),
        lost_on=lost_on,
    )
    if entry.plants is not None and entry.lost is not None and entry.lost > entry.plants:
        row.fault(
            "more-lost-than-planted", "lost", f"{entry.lost:g}", f"at most {entry.plants:g}", "correct one of them"
        )
    return entry if row.good else None


def watering(row: Row, season: Season) -> Watering | None:
    date, time = row.date("date", needed=True), row.time("time")
    litres, bed = row.number("litres"), row.text("bed") or None
    if not row.good or date is None or not _in_season(row, season, date):
        return None
    return Watering(line=row.line, date=date, time=time, bed=bed, litres=litres)


def inspection(row: Row, season: Season) -> Inspection | None:
    date = row.date("date", needed=True)
    level = row.word("level", LEVELS)
    if not row.good or date is None or not _in_season(row, season, date):
        return None
    return Inspection(
        line=row.line,
        date=date,
        bed=row.text("bed") or None,
        crop=row.text("crop") or None,
        found=row.text("found"),
        level=int(level) if level else None,
        action=row.text("action"),
    )


def cost(row: Row, season: Season) -> Cost | None:
    date, amount = row.date("date", needed=True), _money(row, season, "amount", needed=True)
    what, years = row.text("what", needed=True), row.number("years", most=MOST_YEARS)
    if not row.good or date is None or amount is None:
        return None
    return Cost(line=row.line, date=date, what=what, kind=row.text("kind"), amount=amount, years=years)
