"""Nights and crops on one scale of temperature: what each crop met beside the cold that harms it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.axis import Division, Scale, fitting
from reportgen.drawing.notes import Inked, write
from reportgen.drawing.pen import Box, Pen
from reportgen.drawing.season_parts import draw_nights
from reportgen.drawing.season_tall import across
from reportgen.drawing.season_types import Nights
from reportgen.drawing.season_wide import degrees, tick_room
from reportgen.drawing.widths import shorten, width_of, wrap

MOST_CROPS = 6
COLUMN, BAND = 82.0, 17.0  # least room for a crop; half the width of its band
MOST_SIDE = 0.5  # of the width, for all crops
HEIGHT, TALL_HEIGHT = 380.0, 250.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Crop:
    """A crop with a known band: coldest it met, the band's ends, and what is left or missing in words."""

    name: str
    met: float
    low: float
    high: float
    said: tuple[str, ...]
    harmed: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Frost:
    """The nights of the season and, at most six, the crops, the tenderest first."""

    uid: str
    label: str
    description: str
    days: int
    divisions: tuple[Division, ...]
    nights: Nights  # its axis holds the crops' bands too
    crops: tuple[Crop, ...] = ()
    title: str = "What each crop met, and what harms it"
    met_word: str = "coldest it met"
    harm_word: str = "cold that harms it"
    more: str = ""  # crops without a known band, in words


def frost_wide(view: Frost, width: float = 1040, size: float = 13.5) -> str:
    """Nights at the left, a column a crop at the right, one scale for both."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-w")
    crops = view.crops[:MOST_CROPS]
    column = _column(crops, size, width)
    side = column * len(crops) + 26 if crops else 0.0
    top = size * 1.9 if crops else size
    names = max(width_of(w, size, bold=True) for w in (view.nights.inside_word, view.nights.outdoors_word)) + 12
    day = Scale(low=0, high=max(view.days, 8), start=tick_room(view.nights.axis, size), end=width - side - names)
    axis = view.nights.axis
    y = Scale(low=axis.low, high=axis.high, start=top + HEIGHT, end=top)
    degrees(pen, axis, y, day.start, width if crops else day.end)
    _crops(pen, crops, y, width - column * len(crops), column)
    _curves(pen, view, day, y)
    end = _months(pen, view, day, y.start)
    if crops:
        end = max(end, _key(pen, view, width - column * len(crops) + 8, y.start + size * 1.35))
        pen.text((width, size), view.title, anchor="end", bold=True)
    return pen.svg(end, view.label, view.description, "wide")


def _curves(pen: Pen, view: Frost, day: Scale, y: Scale) -> None:
    inked = Inked()
    draw_nights(pen, view.nights, lambda at, value: (day(at), y(value)), inked)
    ends = []
    for values, word, color in (
        (view.nights.inside, view.nights.inside_word, ink.text("cold")),
        (view.nights.outdoors, view.nights.outdoors_word, ink.line("neutral")),
    ):
        known = [v for v in values if v is not None]
        ends += [(y(known[-1]), word, color)] if known else []
    ends.sort()
    free = 0.0
    for at, word, color in ends:
        base = max(at + pen.size * 0.35, free)
        pen.text((day.end + 8, base), word, color, bold=True)
        free = base + pen.lead
    area = Box(day.start + 2, y.end - 2, day.end + 4, y.start - 2)
    for note in view.nights.notes:
        at_ = (day(note.day + 0.5), y(note.value))
        write(pen, at_, note.words, ink.text(note.token), inked, area, italic=note.italic, stroke=ink.line(note.token))


def _months(pen: Pen, view: Frost, day: Scale, foot: float, *, brief: bool = False) -> float:
    for division in view.divisions:
        x0, x1 = day(division.first), day(division.last)
        if division.first > 0:
            pen.line([(x0, foot), (x0, foot + 6)], ink.EDGE)
        for words in (division.brief,) if brief else (division.name, division.brief):
            if width_of(words, pen.size) <= x1 - x0 - 4:
                at = ((x0 + x1) / 2, foot + 5 + pen.size)
                pen.text(at, words, ink.INK2, anchor="middle", halo=False)
                break
    return foot + pen.size * 2


def _column(crops: Sequence[Crop], size: float, width: float) -> float:
    """Room for the longest word of a name, so that no name is cut; never more than half of the picture for all."""
    words = [word for crop in crops for word in crop.name.split()]
    longest = max((width_of(word, size, bold=True) for word in words), default=0.0) + 8
    return max(COLUMN, min(longest, MOST_SIDE * width / max(len(crops), 1)))


def _crops(pen: Pen, crops: tuple[Crop, ...], y: Scale, left: float, column: float) -> None:
    """A band, a ring and the way between them; the name and what is left above both."""
    for n, crop in enumerate(crops):
        x = left + column * (n + 0.5)
        pen.boxes([(x - BAND, y(crop.high), x + BAND, y.held(crop.low))], ink.line("cold"), 0.3)
        pen.line([(x - BAND, y(crop.high)), (x + BAND, y(crop.high))], ink.line("cold"), 2)
        pen.line([(x, y(crop.high)), (x, y(crop.met))], ink.line("cold" if crop.harmed else "target"), 2.4)
        pen.circle((x, y(crop.met)), 5.5, stroke=ink.line("cold"), width=2.6)
        names = wrap(crop.name, pen.size, column - 6, bold=True, most=3)
        upper = min(y(crop.met) - 6, y(crop.high)) - 8
        base = max(upper - pen.lead * (len(names) + len(crop.said) - 1), y.end + pen.size)
        base = pen.lines((x, base), names, anchor="middle", bold=True)
        pen.lines((x, base), crop.said, ink.text("cold" if crop.harmed else "target"), anchor="middle", bold=True)


def _key(pen: Pen, view: Frost, x: float, base: float) -> float:
    """What ring and band are, in words beside them: in one row, or in two; gives where they end."""
    met, harm = (width_of(words, pen.size) for words in (view.met_word, view.harm_word))
    rows = 1 if x + 12 + met + 40 + harm <= pen.width else 2
    x = min(x, pen.width - max(met, harm) - 22) if rows == 2 else x
    pen.circle((x + 4, base - pen.size * 0.35), 5, stroke=ink.line("cold"), width=2.6)
    pen.text((x + 16 if rows == 1 else x + 22, base), view.met_word, ink.INK2)
    base += pen.lead * (rows - 1)
    right = pen.width - harm if rows == 1 else x + 22
    pen.boxes([(right - 22, base - pen.size * 0.8, right - 6, base)], ink.line("cold"), 0.3)
    pen.text((right, base), view.harm_word, ink.INK2)
    return base + pen.size * 0.6


def frost_tall(view: Frost, width: float = 360, size: float = 12.5) -> str:
    """Nights above, a row a crop below them."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-t")
    day = Scale(low=0, high=max(view.days, 8), start=tick_room(view.nights.axis, size), end=width - 4)
    axis = view.nights.axis
    known = [v for v in (*view.nights.inside, *view.nights.outdoors) if v is not None]
    low = max((t.at for t in axis.ticks if t.at <= min(known)), default=axis.low)
    y = Scale(low=low, high=axis.high, start=size + TALL_HEIGHT, end=size)
    shown = tuple(tick for tick in axis.ticks if tick.at >= low)
    for tick in fitting(shown, y, pen.lead, axis.heavy):
        frost = tick.at == axis.heavy
        color = ink.line("cold") if frost else ink.RULE
        pen.line([(day.start, y(tick.at)), (day.end, y(tick.at))], color, 1.2 if frost else 1)
        words = ink.text("cold") if frost else ink.INK2
        at = (day.start - 5, y(tick.at) + size * 0.33)
        pen.text(at, tick.words, words, anchor="end", bold=frost, halo=False)
    _tall_curves(pen, view, day, y)
    end = _months(pen, view, day, y.start, brief=True)
    crops = view.crops[:MOST_CROPS]
    if crops:
        end = _tall_crops(pen, view, crops, end + size)
    for line in wrap(view.more, size, width) if view.more else ():
        pen.text((0, end + size), line, ink.INK2)
        end += pen.lead
    return pen.svg(end + 6, view.label, view.description, "tall")


def _tall_curves(pen: Pen, view: Frost, day: Scale, y: Scale) -> None:
    inked = Inked()
    draw_nights(pen, view.nights, lambda at, value: (day(at), y(value)), inked, 2.0)
    area = Box(day.start + 2, y.end - 2, day.end, y.start - 2)
    for note in view.nights.notes:
        at = (day(note.day + 0.5), y(note.value))
        words = note.brief or note.words
        write(pen, at, words, ink.text(note.token), inked, area, italic=note.italic, stroke=ink.line(note.token))
    for values, word, token in (
        (view.nights.inside, view.nights.inside_word, "cold"),
        (view.nights.outdoors, view.nights.outdoors_word, "neutral"),
    ):
        known = [(n, v) for n, v in enumerate(values) if v is not None]
        for share in (0.9, 0.7, 0.15, 0.4):
            if not known:
                break
            n, v = known[int((len(known) - 1) * share)]
            color = ink.text("cold") if token == "cold" else ink.INK2
            if write(pen, (day(n + 0.5), y(v)), word, color, inked, area):
                break


def _tall_crops(pen: Pen, view: Frost, crops: tuple[Crop, ...], top: float) -> float:
    axis = view.nights.axis
    ends = [v for crop in crops for v in (crop.met, crop.high, max(crop.low, axis.low))] + [axis.heavy or 0.0]
    low = max((t.at for t in axis.ticks if t.at <= min(ends)), default=axis.low)
    high = min((t.at for t in axis.ticks if t.at >= max(ends)), default=axis.high)
    x = Scale(low=low, high=high, start=8, end=pen.width - 14)
    pen.text((0, top), shorten(view.title, pen.size, pen.width, bold=True), bold=True)
    y = top + pen.size * 2.1
    rows = []
    for crop in crops:
        rows.append((crop, y))
        y += pen.size * 3.6
    foot = y - pen.size * 1.6
    for tick in across(axis.ticks, x, axis.heavy, pen.size):
        if low <= tick.at <= high:
            color = ink.line("cold") if tick.at == axis.heavy else ink.RULE
            pen.line([(x(tick.at), top + 8), (x(tick.at), foot)], color)
            half = width_of(tick.words, pen.size) / 2
            at = min(max(x(tick.at), half), pen.width - half)
            pen.text((at, foot + pen.size * 1.2), tick.words, ink.INK2, anchor="middle", halo=False)
    for crop, at_ in rows:
        _tall_crop(pen, crop, x, at_)
    return _key(pen, view, 8, foot + pen.size * 2.7) + pen.lead * 0.6


def _tall_crop(pen: Pen, crop: Crop, x: Scale, y: float) -> None:
    said = " ".join(crop.said)
    color = "cold" if crop.harmed else "target"
    room = pen.width - width_of(said, pen.size, bold=True) - 10
    pen.text((0, y), shorten(crop.name, pen.size, room, bold=True), bold=True)
    pen.text((pen.width, y), said, ink.text(color), anchor="end", bold=True)  # type: ignore[arg-type]
    y += pen.size
    pen.boxes([(x.held(crop.low), y - 7, x(crop.high), y + 7)], ink.line("cold"), 0.3)
    pen.line([(x(crop.high), y - 8), (x(crop.high), y + 8)], ink.line("cold"), 2)
    pen.line([(x(crop.high), y), (x(crop.met), y)], ink.line(color), 2.4)  # type: ignore[arg-type]
    pen.circle((x(crop.met), y), 5, stroke=ink.line("cold"), width=2.4)
