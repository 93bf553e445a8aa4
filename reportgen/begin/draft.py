"""The season as a whole: its days, title, place, money; what the files show of it and what a person must say."""

from __future__ import annotations

import datetime as dt
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reportgen.begin.files import Seen
from reportgen.begin.heating import Heater
from reportgen.begin.loggers import Draft, in_fahrenheit
from reportgen.begin.questions import Asker
from reportgen.begin.zones import currency_of

LONGEST_DAYS = 290  # a longer record holds more than one winter's half-year
A_DAY_S_WORTH = 0.25  # share of a usual day's readings that a day at the ends of a record must have; a guess
TURN = 7  # July: the month in which one winter's year ends and the next begins
MONEY = ("cost", "price_per_kg", "price_per_lb", "amount")


@dataclass(kw_only=True, slots=True)
class Outline:
    """All of season.toml but the loggers and heaters."""

    title: str
    first_day: dt.date
    last_day: dt.date
    time_zone: str
    show: str
    house_id: str = ""
    currency: str | None = None
    place_name: str | None = None
    latitude: float | None = None
    longitude: float | None = None


def outline(
    loggers: Sequence[Draft], heaters: Sequence[Heater], seen: Sequence[Seen], zone: str, asker: Asker
) -> Outline:
    """Asked where a person is there, else guessed and told."""
    low, high = _days(loggers, asker)
    first = asker.get("First day of the season", low.isoformat(), _day) or low
    last = asker.get("Last day of the season", high.isoformat(), lambda text: _day_from(text, first)) or high
    guess = title_of(first, last)
    us = in_fahrenheit(loggers)
    return Outline(
        title=asker.get("Title of the report", guess, lambda text: text[:200]) or guess,
        first_day=first,
        last_day=max(first, last),
        time_zone=zone,
        show=asker.choose("Print in metric or US units", ("metric", "us"), "us" if us else "metric"),
        currency=_currency(heaters, seen, zone, asker),
        place_name=asker.get("Name of the place, as the report prints it (empty to stay private)", "", _name),
        latitude=_degrees(asker, "Latitude in degrees, south negative (empty if you would rather not say)", 90.0),
        longitude=_degrees(asker, "Longitude in degrees, west negative (empty if you would rather not say)", 180.0),
    )


def _days(loggers: Sequence[Draft], asker: Asker) -> tuple[dt.date, dt.date]:
    """The days over which the crop loggers recorded, cut to the winter with most of them where there is more."""
    days = _crop_days(loggers)
    low, high = min(days), max(days)
    winters = {day.year - (day.month < TURN) for day in days}
    if len(winters) == 1 and (high - low).days <= LONGEST_DAYS:
        asker.doubt(f"the season's days: taken from the files, {low} to {high}") if asker.alone else None
        return low, high
    first, last = fullest_winter(days)
    asker.doubt(
        f"the season's days: the files run from {low} to {high}; of their winters that with most readings beside the "
        f"crop was taken, {first} to {last}"
    )
    return first, last


def _crop_days(loggers: Sequence[Draft]) -> list[dt.date]:
    """The days with air readings beside the crop; where there are none, those of any reading."""
    air = {day for draft in loggers if draft.where == "crop" for day in whole_days(draft.days_of("air_temperature"))}
    crop = [draft for draft in loggers if draft.where == "crop"] or list(loggers)
    other = {day for draft in crop for measure in draft.measures for day in whole_days(draft.days_of(measure))}
    every = {day for draft in loggers for measure in draft.measures for day in whole_days(draft.days_of(measure))}
    return sorted(air or other or every)


def whole_days(days: Mapping[dt.date, int]) -> list[dt.date]:
    """The days of a record without those at its ends of which it has only an hour or so: the day on which the logger
    was hung up late, or read off early, would be a gap."""
    if not days:
        return []
    least = A_DAY_S_WORTH * statistics.median(days.values())
    full = [day for day, count in days.items() if count >= least]
    return [day for day in sorted(days) if min(full) <= day <= max(full)]


def fullest_winter(days: Sequence[dt.date]) -> tuple[dt.date, dt.date]:
    """First and last day, October to April, of the winter with most days of readings; of two alike the later."""
    winters: dict[int, list[dt.date]] = {}
    for day in days:
        winters.setdefault(day.year - (day.month < TURN), []).append(day)
    cold = {year: [day for day in found if day.month >= 10 or day.month <= 4] for year, found in winters.items()}
    best = max(cold, key=lambda year: (len(cold[year]), year))
    kept = cold[best] or winters[best]
    return min(kept), max(kept)


def title_of(first: dt.date, last: dt.date) -> str:
    """Winter 2025–26."""
    middle = first + (last - first) / 2
    year = middle.year if middle.month >= 7 else middle.year - 1
    return f"Winter {year}–{(year + 1) % 100:02d}"


def _currency(heaters: Sequence[Heater], seen: Sequence[Seen], zone: str, asker: Asker) -> str | None:
    """Asked for only where money stands somewhere."""
    columns = {cell.casefold().strip() for one in seen if one.role for cell in one.header}
    if not any(heater.price is not None for heater in heaters) and not columns & set(MONEY):
        return None
    guess = currency_of(zone)
    doubt = f"the currency: taken as {guess}"
    return asker.get("Currency, three letters", guess, _three_letters, doubt) or guess


def _three_letters(text: str) -> str | None:
    code = text.strip().upper()
    return code if len(code) == 3 and code.isascii() and code.isalpha() else None


def _name(text: str) -> str | None:
    return text[:200]


def _day(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        return None


def _day_from(text: str, first: dt.date) -> dt.date | None:
    """A day at or after the first, at most two years later."""
    found = _day(text)
    return found if found is not None and 0 <= (found - first).days <= 731 else None


def _degrees(asker: Asker, question: str, most: float) -> float | None:
    def read(text: str) -> float | None:
        try:
            value = float(text.replace(",", ".").replace("\u2212", "-"))
        except ValueError:
            return None
        return value if abs(value) <= most else None

    return asker.get(question, "", read)
