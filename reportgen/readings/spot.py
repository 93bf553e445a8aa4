"""Coordinates of a private place in a text: a bare figure stands for much else, so only with what marks it as one.

Marks are a compass letter or word of its own axis (48.6° N, latitude 48.6), minutes of arc (48°36′), the other figure
beside it, and a degree sign where the figure is as precise as no temperature is told. A whole degree with a degree sign
alone is the commonest way to write a temperature, and as a place a belt around the Earth: it counts in a pair only.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from reportgen.readings.number_words import in_figures

RUN_END = "\x1e"  # ends a run of text: what stands on both sides of it is no sentence (ASCII's record separator)
MOST_BETWEEN = 12  # signs between latitude and longitude
ARC = 1 / 60  # degrees; minutes of arc are compared as precisely as they are written
PRECISE = 2  # decimals from which a figure with a degree sign alone is no temperature; pages tell those to one decimal
LATITUDE, LONGITUDE = "latitude", "longitude"

DEGREE = r"(?:\s*(?:°|º|deg(?:rees?)?\b\.?)(?!\s*(?:[CFK]|celsius|fahrenheit|kelvin)\b))"
MINUTES = r"(?:\s*(?P<minutes>\d{1,2}(?:[.,]\d+)?)\s*(?:[′'’´]|min(?:utes?)?\b)"
SECONDS = r"(?:\s*(?P<seconds>\d{1,2}(?:[.,]\d+)?)\s*(?:[″\"”]|['’′]{2}|sec(?:onds?)?\b))?)"
# 15° east of south is how a house stands, no longitude.
AFTER = (
    r"(?:\s*(?:(?P<letter>[NSEWO])\b(?!/)|(?P<word>(?i:north|south|east|west))(?i:ern|erly)?\b"
    r"(?!\s+of\s+(?:due\s+)?(?:north|south|east|west))))"
)
BEFORE = (
    r"(?:(?P<name>(?i:latitude|longitude|lat\b\.?|lon\b\.?|long\.))(?:\s+(?i:is|of|about|some))?\s*[:=]?\s*[-−–+]?\s*"
    r"|\b(?P<ahead>[NSEW])\s*)"
)
TIGHT = re.compile(rf"{DEGREE}?\s*[,;/]?\s*[-−+]?")
LISTED = re.compile(rf"{DEGREE}?\s*[,;/]\s*[-−+]?")
# What makes a figure one of something else, or one of a list of more than two.
OF_MORE = re.compile(
    r"\s*(?:%|°\s*[CFK]|(?:[cm]?m|k?g|l|h|k?Wh?|min|days?|hours?|weeks?)\b|(?:,|and|or|to|[-–/])\s*\d)"
)
AXES = {"n": LATITUDE, "s": LATITUDE, "e": LONGITUDE, "w": LONGITUDE, "o": LONGITUDE}


@dataclass(frozen=True, kw_only=True, slots=True)
class _Figure:
    """One figure of a text that may be a coordinate, without its sign."""

    value: float
    decimals: int
    start: int  # of its digits
    end: int
    degree: bool  # a degree sign follows that is not of a temperature
    arc: bool  # minutes follow
    axis: str | None  # told by a compass letter or a word


@dataclass(frozen=True, slots=True)
class _Given:
    """Latitude or longitude as season.toml has it."""

    axis: str
    value: float
    decimals: int

    def is_told_as(self, figure: _Figure) -> bool:
        """Whether it is that figure: rounded or cut off, to a tenth of a degree at least (some 10 km) where it is as
        precise, or told more precisely."""
        if figure.arc:
            return abs(figure.value - self.value) <= max(ARC, 10.0**-self.decimals)
        if figure.decimals > self.decimals:
            return -(10.0**-self.decimals) / 2 <= figure.value - self.value < 10.0**-self.decimals
        if figure.decimals == 0 < self.decimals:
            return False
        step = 10**figure.decimals
        rounded, cut = round(self.value * step), int(self.value * step + 1e-6)  # 1e-6: a float's own error
        return round(figure.value * step) in (rounded, cut)


class PrivateSpot:
    """Latitude and longitude, as precise as season.toml has them or less, down to a tenth of a degree (some 10 km)."""

    def __init__(self, latitude: float | None, longitude: float | None, *, pairs: bool) -> None:
        """`pairs`: the text is one that somebody typed: there one figure after the other tells it too, and a figure to
        one decimal with a degree sign; in a table or a chart of readings they do not."""
        both = ((LATITUDE, latitude), (LONGITUDE, longitude))
        self._given = [_Given(axis, abs(value), _decimals(value)) for axis, value in both if value is not None]
        self.name = ", ".join(f"{value:g}°" for _, value in both if value is not None)
        self._typed = pairs
        around = {int(one.value) + step for one in self._given for step in (-1, 0, 1)}
        whole = "|".join(str(number) for number in sorted(around, reverse=True) if number >= 0)
        self._pattern = re.compile(
            rf"{BEFORE}?(?<!\d)(?<!\d\.)(?P<figure>0*(?:{whole})(?:[.,]\d+)?)(?!\d)"
            rf"(?P<degree>{DEGREE})?(?:(?<=[°º.a-z])(?P<arc>{MINUTES}{SECONDS}))?{AFTER}?"
            if whole
            else "(?!)"
        )

    def told_in(self, text: str) -> bool:
        """Whether a text gives the spot away."""
        if self._typed:
            text = in_figures(text)
        figures = list(self._figures(text))
        return any(self._alone(one) for one in figures) or any(
            self._pair(text, one, other) for one, other in pairwise(figures)
        )

    def _figures(self, text: str) -> Iterator[_Figure]:
        for found in self._pattern.finditer(text):
            figure, minutes, seconds = (_number(found[name]) for name in ("figure", "minutes", "seconds"))
            yield _Figure(
                value=figure + minutes / 60 + seconds / 3600,
                decimals=len(re.split("[.,]", found["figure"])[1]) if re.search("[.,]", found["figure"]) else 0,
                start=found.start("figure"),
                end=found.end("figure"),
                degree=found["degree"] is not None,
                arc=found["arc"] is not None,
                axis=_axis(found),
            )

    def _alone(self, figure: _Figure) -> bool:
        for given in self._given:
            if not given.is_told_as(figure) or figure.axis not in (None, given.axis):
                continue
            if figure.axis or figure.arc:
                return True
            if figure.degree and figure.decimals >= (1 if self._typed else PRECISE) and given.decimals:
                return True
        return False

    def _pair(self, text: str, one: _Figure, other: _Figure) -> bool:
        """Whether two figures that follow each other are the place; whole degrees only where nothing else stands
        between them, since 15 and 50 are also centimetres."""
        between = text[one.end : other.start]
        marked = one.degree or other.degree
        if len(self._given) < 2 or len(between) > MOST_BETWEEN or RUN_END in between or re.search(r"\d", between):
            return False
        latitude, longitude = self._given
        in_order = latitude.is_told_as(one) and longitude.is_told_as(other)
        if not in_order and not (latitude.is_told_as(other) and longitude.is_told_as(one)):
            return False
        if not (marked or self._typed) or not between:
            return False
        if one.decimals or other.decimals:
            return True
        if marked:
            return bool(TIGHT.fullmatch(between))
        return in_order and bool(LISTED.fullmatch(between)) and not OF_MORE.match(text, other.end)


def _axis(found: re.Match[str]) -> str | None:
    """Of which axis a figure is, by the words around it. A bare 15 W is a heater's."""
    if found["name"]:
        return LATITUDE if found["name"].casefold().startswith("lat") else LONGITUDE
    sure = found["degree"] is not None or found["arc"] is not None
    if found["word"]:
        return AXES[found["word"][0].casefold()] if sure or re.search("[.,]", found["figure"]) else None
    letter = found["letter"]
    if letter and (sure or letter in "NSE"):
        return AXES[letter.casefold()]
    ahead = found["ahead"]
    return AXES[ahead.casefold()] if ahead and (sure or re.search("[.,]", found["figure"])) else None


def _number(figure: str | None) -> float:
    return float(figure.replace(",", ".")) if figure else 0.0


def _decimals(value: float) -> int:
    return len(f"{abs(value):.6f}".rstrip("0").partition(".")[2])
