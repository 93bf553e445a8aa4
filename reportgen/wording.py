"""Numbers, units and dates as the report prints them: metric or US, a real minus, non-breaking spaces."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

import pandas as pd

from reportgen.season import Season
from reportgen.units import FOOT_M, POUND_KG

NBSP = "\u00a0"
ALL = 0.9999  # share from which a part is told as the whole
MINUS = "\u2212"
MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]  # never the machine's locale: same folder, same bytes


def number(value: float, digits: int = 0) -> str:
    """A number with a real minus, thousands split by a narrow space, no −0."""
    text = f"{abs(value):,.{digits}f}".replace(",", "\u202f")
    negative = value < 0 and any(c in "123456789" for c in text)
    return (MINUS if negative else "") + text


def shares(values: Sequence[float], digits: int = 0) -> list[float]:
    """Values rounded so that they add up to their rounded sum: the one place where printed parts meet a printed sum.

    Largest remainder (Hare): each is rounded down, and the units that are missing go to the largest remainders; of
    equal ones to the first.
    """
    scale = 10.0**digits
    scaled = [round(value * scale, 6) for value in values]  # 0.29 × 100 is 28.999…
    down = [math.floor(value) for value in scaled]
    missing = round(sum(scaled)) - sum(down)
    by_remainder = sorted(range(len(scaled)), key=lambda n: (down[n] - scaled[n], n))
    for n in by_remainder[:missing]:
        down[n] += 1
    return [value / scale for value in down]


def digits_for(uncertainty: float) -> int:
    """Decimals that an uncertainty allows: one significant figure of it, at most two decimals."""
    if not math.isfinite(uncertainty) or uncertainty <= 0:
        return 1
    return min(max(-math.floor(math.log10(uncertainty)), 0), 2)


def day(when: date | pd.Timestamp, year: bool = False) -> str:
    """14 January (2026)."""
    text = f"{when.day}{NBSP}{MONTHS[when.month - 1]}"
    return f"{text}{NBSP}{when.year}" if year else text


def month(when: date | pd.Timestamp) -> str:
    """January."""
    return MONTHS[when.month - 1]


def clock(when: pd.Timestamp) -> str:
    """05:40."""
    return f"{when.hour:02d}:{when.minute:02d}"


def count(n: float, one: str, many: str | None = None) -> str:
    """1 night, 2 nights, no nights."""
    word = one if round(n) == 1 else (many or one + "s")
    return f"{'no' if round(n) == 0 else number(round(n))}{NBSP}{word}"


def of_all(n: float, of: float, one: str, many: str | None = None) -> str:
    """3 of 5 nights, none of 5 nights, 1 of 1 night: the noun agrees with the whole."""
    return f"{number(round(n)) if round(n) else 'none'} of {count(of, one, many)}"


def are(n: float, one: str = "is", many: str = "are") -> str:
    """The verb that goes with so many: 1 is, 2 are, no … are."""
    return one if round(n) == 1 else many


def share_words(share: float) -> str:
    """A share in percent that never claims all or nothing where it is not: 98 %, over 99 %, under 1 %."""
    if 0 < share < 0.01:
        return f"under 1{NBSP}%"
    if 0.99 < share < ALL:
        return f"over 99{NBSP}%"
    return f"{number(100 * share)}{NBSP}%"


def share_of(share: float) -> str:
    """The same before *of*: all of the hours, none of the hours, 98 % of them."""
    return "all" if share >= ALL else "none" if share <= 0 else share_words(share)


def share_time(share: float, time: str = "of the time") -> str:
    """The same of a time: 98 % of the time, all of the time, at no time; `time` may go on: of the time on record."""
    return f"at no time{time.removeprefix('of the time')}" if share <= 0 else f"{share_of(share)} {time}"


def share_in(share: float, n: float, one: str, many: str | None = None) -> str:
    """In 93 % of the 3 467 damp hours; in every one of them, in none of them."""
    single = round(n) == 1
    whole = f"the one {one}" if single else f"the {count(n, one, many)}"
    if share >= ALL:
        return f"in {whole}" if single else f"in every one of {whole}"
    return f"in {share_of(share)} of {whole}"


def points(value: str) -> str:
    """3 points, 1 point: a difference of percentages, its number already in words."""
    return f"{value}{NBSP}{'point' if value.lstrip(MINUS + '+') == '1' else 'points'}"


def listed(names: Iterable[str], most: int | None = None) -> str:
    """Parsley, kale and rocket; where there are more than `most`: parsley, kale and 2 more."""
    every = list(names)
    if most is not None and len(every) > most:
        return f"{', '.join(every[: most - 1])} and {len(every) - most + 1} more"
    return " and ".join(part for part in (", ".join(every[:-1]), *every[-1:]) if part)


def span(first: date | pd.Timestamp, last: date | pd.Timestamp) -> str:
    """From 5 January to 9 January; on 5 January where both are that day."""
    same = (first.year, first.month, first.day) == (last.year, last.month, last.day)
    return f"on {day(first)}" if same else f"from {day(first)} to {day(last)}"


def between(low: str, high: str) -> str:
    """11 to 23 h: a unit that both carry stands once; 11 h alone where both are printed alike."""
    if low == high:
        return low
    value, _, unit = low.rpartition(NBSP)
    return f"{value} to {high}" if value and high.rpartition(NBSP)[2] == unit else f"{low} to {high}"


def largest(values: Sequence[float], least: float) -> int | None:
    """Where the value stands that may be called the most: above 0, and above every other by `least` at least.

    None where there is nothing to choose from, nothing at all, or no difference that matters. NaN counts as not known.
    """
    known = sorted((v, n) for n, v in enumerate(values) if not math.isnan(v))
    if len(known) < 2 or known[-1][0] <= 0 or known[-1][0] - known[-2][0] < least:
        return None
    return known[-1][1]


@dataclass(frozen=True, kw_only=True, slots=True)
class Wording:
    """How this season's report prints quantities; values come in the kept units (°C, K, kWh, kg, m²).

    `currency` is empty where none is given: a word, so that no sentence can print that it is missing. Money is then
    None in every result, and whoever prints it must ask for that first.
    """

    us: bool
    currency: str

    @classmethod
    def of(cls, season: Season) -> Wording:
        """By `show` and `currency` of the season."""
        return cls(us=season.show == "us", currency=season.currency or "")

    def temp(self, celsius: float, digits: int = 1) -> str:
        """A temperature: −1.2 °C or 29.8 °F."""
        return f"{number(self.temp_value(celsius), digits)}{NBSP}{self.temp_unit}"

    def temp_value(self, celsius: float) -> float:
        """A temperature in the shown unit, for a chart or table."""
        return celsius * 9 / 5 + 32 if self.us else celsius

    @property
    def temp_unit(self) -> str:
        """°C or °F."""
        return "°F" if self.us else "°C"

    def diff(self, kelvin: float, digits: int = 1) -> str:
        """A temperature difference: 3.4 K or 6.1 °F."""
        return f"{number(self.diff_value(kelvin), digits)}{NBSP}{self.diff_unit}"

    def diff_value(self, kelvin: float) -> float:
        """A difference in the shown unit."""
        return kelvin * 9 / 5 if self.us else kelvin

    @property
    def diff_unit(self) -> str:
        """K or °F."""
        return "°F" if self.us else "K"

    def degrees(self, kelvin: float, digits: int = 1) -> str:
        """The same in a gardener's words: 3.4 degrees, of the scale that is shown; 1 degree."""
        told = number(self.diff_value(kelvin), digits)
        return f"{told}{NBSP}{'degree' if told == '1' else 'degrees'}"

    def mass(self, kg: float, digits: int = 1) -> str:
        """A weight: 3.4 kg or 7.5 lb."""
        return f"{number(self.mass_value(kg), digits)}{NBSP}{self.mass_unit}"

    def picked(self, kg: float) -> str:
        """What a crop gave, so that little is not nothing: 3.4 kg, 0.04 kg."""
        return self.mass(kg, 1 if self.mass_value(kg) >= 1.0 or not kg else 2)

    def mass_value(self, kg: float) -> float:
        """A weight in the shown unit (1 lb = 0.45359237 kg, exact)."""
        return kg / POUND_KG if self.us else kg

    @property
    def mass_unit(self) -> str:
        """kg or lb."""
        return "lb" if self.us else "kg"

    def area(self, m2: float, digits: int = 1) -> str:
        """An area: 21.6 m² or 232.5 ft² (1 ft = 0.3048 m, exact)."""
        return f"{number(m2 / FOOT_M**2 if self.us else m2, digits)}{NBSP}{'ft²' if self.us else 'm²'}"

    def money(self, amount: float, digits: int = 2) -> str:
        """An amount with the ISO 4217 code: EUR 12.40."""
        return f"{self.currency}{NBSP}{number(amount, digits)}".strip(NBSP)

    def money_range(self, low: float, high: float, digits: int = 0) -> str:
        """Two amounts: EUR 190 to 199."""
        return f"{self.money(low, digits)} to {number(high, digits)}"

    def kwh(self, value: float, digits: int = 0) -> str:
        """Energy: 412 kWh."""
        return f"{number(value, digits)}{NBSP}kWh"

    def hours(self, value: float, digits: int = 0) -> str:
        """A length of time: 34 h."""
        return f"{number(value, digits)}{NBSP}h"

    def percent(self, value: float, digits: int = 0) -> str:
        """A percentage, given in percent: 93 %."""
        return f"{number(value, digits)}{NBSP}%"
