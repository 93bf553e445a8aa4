"""The season picture, wide: time runs across; the diary's lines come down a staircase into the nights, the damp, the
heat and the harvest."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.apart import apart
from reportgen.drawing.axis import Axis, Scale, fitting
from reportgen.drawing.notes import Inked, write
from reportgen.drawing.pen import DOT, Box, Part, Pen
from reportgen.drawing.season_parts import draw_damp, draw_nights, draw_stacked
from reportgen.drawing.season_types import Line, Season, Stacked
from reportgen.drawing.widths import shorten, width_of, wrap

FEWEST = 8  # days on the axis, so that a few days are not blown up into a poster


@dataclass(frozen=True, kw_only=True, slots=True)
class Frame:
    """Sizes of the wide picture: the page's, or the handout's, which has marks without names."""

    width: float = 1040
    size: float = 14
    right: float = 186  # for words beside the bands
    nights: float = 212
    heat: float = 84
    picked: float = 70
    strip: float = 16  # the damp band
    names: bool = True
    brief: bool = False
    kind: str = "wide"


PAGE = Frame()
HANDOUT = Frame(
    width=760, size=13, right=104, nights=126, heat=44, picked=36, names=False, brief=True, kind="wide flat"
)
CHAT = Frame(
    width=988,
    size=27,
    right=190,
    nights=236,
    heat=84,
    picked=68,
    strip=28,
    names=False,
    brief=True,
    kind="wide flat",
)


def season_wide(view: Season, frame: Frame = PAGE) -> str:
    """The picture as SVG."""
    pen = Pen(width=frame.width, size=frame.size, uid=f"{view.uid}-{'w' if frame.names else 'h'}")
    left = tick_room(view.nights.axis, frame.size) if view.nights else frame.size * 1.5
    day = Scale(low=0, high=max(view.days, FEWEST), start=left, end=frame.width - frame.right)
    steps, top = _steps(pen, view, frame, day)
    bottom = _bottom(view, frame, top)
    _ground(pen, view, day, top, bottom)
    _falls(pen, view, steps, day, bottom, top, frame)
    y = _nights(pen, view, frame, day, top)
    y = _damp(pen, view, frame, day, y)
    for stacked, high in ((view.heat, frame.heat), (view.picked, frame.picked)):
        y = _stacked(pen, stacked, frame, day, y, high)
    end = _time(pen, view, frame, day, bottom)
    return pen.svg(end, view.label, view.description, frame.kind)


@dataclass(frozen=True, slots=True)
class _Step:
    line: Line
    y: float
    rows: tuple[str, ...]
    same: bool  # the verdict stands on the last row


def _steps(pen: Pen, view: Season, frame: Frame, day: Scale) -> tuple[list[_Step], float]:
    """Where each named line's words stand, and where the bands begin."""
    y = frame.size if frame.names else 0.0
    steps: list[_Step] = []
    for line in view.lines if frame.names else ():
        room = frame.width - day(line.day + 0.5) - frame.size * 0.85
        rows = wrap(f"{line.when}  {line.words}", frame.size, room)
        verdict = width_of(f" – {line.verdict}", frame.size, bold=True)
        same = not line.verdict or width_of(rows[-1], frame.size) + verdict <= room
        steps.append(_Step(line, y, rows, same))
        y += pen.lead * (len(rows) + (not same)) + 2
    if frame.names and view.more:
        pen.text((0, frame.size), view.more, ink.INK2) if not steps or width_of(view.more, frame.size) < day(
            steps[0].line.day
        ) - 12 else pen.text((0, y), view.more, ink.INK2)
        y += 0 if steps else pen.lead
    return steps, y + (frame.size if frame.names else frame.size * 1.6)


def _falls(pen: Pen, view: Season, steps: list[_Step], day: Scale, bottom: float, top: float, frame: Frame) -> None:
    """Dotted lines from each named line down through the bands, with mark, words and verdict; ticks for the rest."""
    for step in steps:
        x = day(step.line.day + 0.5)
        pen.line([(x, step.y + 2), (x, bottom)], ink.EDGE, dash=DOT)
        pen.mark((x, step.y - frame.size * 0.32), step.line.mark)
        _words(pen, step, x + frame.size * 0.8)
    for line in () if frame.names else view.lines:
        x = day(line.day + 0.5)
        pen.line([(x, top - 6), (x, bottom)], ink.EDGE, dash=DOT)
        pen.mark((x, top - 12), line.mark)
    for tick in view.ticks:
        pen.line([(day(tick + 0.5), top - 10), (day(tick + 0.5), top - 3)], ink.INK2, 1.4)


def _words(pen: Pen, step: _Step, x: float) -> None:
    line = step.line
    verdict = Part(f"{' – ' if step.same else ''}{line.verdict}", ink.said(line.mark), True)
    for n, row in enumerate(step.rows):
        parts = [Part(row)]
        if n == 0 and row.startswith(line.when):
            parts = [Part(line.when, ink.INK2), Part(row[len(line.when) :])]
        if n == len(step.rows) - 1 and step.same and line.verdict:
            parts.append(verdict)
        pen.rich((x, step.y + n * pen.lead), parts)
    if not step.same:
        pen.rich((x, step.y + len(step.rows) * pen.lead), [verdict])


def _bottom(view: Season, frame: Frame, top: float) -> float:
    """Where the lowest band ends."""
    y = top + (frame.nights + 16 if view.nights else 0) + (frame.strip + 14 if view.damp else 0)
    for stacked, high in ((view.heat, frame.heat), (view.picked, frame.picked)):
        y += high + 14 if stacked is not None else 0
    return max(y - 14, top + 8)


def _ground(pen: Pen, view: Season, day: Scale, top: float, bottom: float) -> None:
    pen.boxes([(day(a), top - 10, day(b), bottom) for a, b in view.dark], ink.DUSK)


def tick_room(axis: Axis, size: float) -> float:
    """What the words of a temperature axis take left of the plot."""
    return max(width_of(tick.words, size, bold=tick.at == axis.heavy) for tick in axis.ticks) + 8


def degrees(pen: Pen, axis: Axis, y: Scale, left: float, right: float) -> None:
    """Grid lines of a temperature axis with their words, the frost line in its colour."""
    for tick in fitting(axis.ticks, y, pen.lead, axis.heavy):
        frost = tick.at == axis.heavy
        pen.line(
            [(left, y(tick.at)), (right, y(tick.at))], ink.line("cold") if frost else ink.RULE, 1.2 if frost else 1
        )
        color = ink.text("cold") if frost else ink.INK2
        pen.text((left - 6, y(tick.at) + pen.size * 0.33), tick.words, color, anchor="end", bold=frost, halo=False)


def _nights(pen: Pen, view: Season, frame: Frame, day: Scale, top: float) -> float:
    nights = view.nights
    if nights is None:
        return top
    y = Scale(low=nights.axis.low, high=nights.axis.high, start=top + frame.nights, end=top)
    degrees(pen, nights.axis, y, day.start, day.end)
    inked = Inked()
    draw_nights(pen, nights, lambda at, value: (day(at), y(value)), inked)
    _beside_nights(pen, view, frame, day, y, top)
    for line in view.lines:
        x = day(line.day + 0.5)
        inked.curve([(x, top), (x, top + frame.nights)])
    area = Box(day.start + 2, top - 4, day.end, top + frame.nights + 5)
    for note in nights.notes:
        at = (day(note.day + 0.5), y(note.value))
        words = note.brief if frame.brief and note.brief else note.words
        write(pen, at, words, ink.text(note.token), inked, area, italic=note.italic, stroke=ink.line(note.token))
    return top + frame.nights + 16


def _beside_nights(pen: Pen, view: Season, frame: Frame, day: Scale, y: Scale, top: float) -> None:
    """Names at the lines' ends and what is plotted, kept apart."""
    nights = view.nights
    assert nights is not None
    room = frame.right - frame.size * 0.9
    blocks: list[tuple[float, tuple[str, ...], str, bool]] = []
    for values, word, color in (
        (nights.inside, nights.inside_word, ink.text("cold")),
        (nights.outdoors, nights.outdoors_word, ink.line("neutral")),
    ):
        known = [v for v in values if v is not None]
        if known:
            blocks.append((y(known[-1]), wrap(word, frame.size, room, bold=True, most=1), color, True))
    blocks.sort(key=lambda block: block[0])
    if not frame.brief and nights.explained:
        lines = tuple(row for words in nights.explained for row in wrap(words, frame.size, room))
        blocks.append((max((b[0] for b in blocks), default=top) + 1, lines, ink.INK2, False))
    heights = [pen.lead * len(b[1]) for b in blocks]
    tops = apart([b[0] - pen.lead / 2 for b in blocks], heights, top - 6, top + frame.nights + 5)
    for (_, lines, color, bold), at in zip(blocks, tops, strict=True):
        pen.lines((day.end + frame.size * 0.9, at + pen.lead * 0.75), lines, color, bold=bold)


def _beside(pen: Pen, words: tuple[str, ...], frame: Frame, day: Scale, color: str, bottom: float, high: float) -> None:
    """Name and sums of a band, the last line on its foot."""
    room = frame.right - frame.size * 0.9
    rows = [(row, n) for n, line in enumerate(words) for row in wrap(line, frame.size, room, bold=n < 2, most=2)]
    fit = max(1, int((high + 12) // pen.lead))
    rows = rows[:fit] if not frame.brief else [row for row in rows if row[1] < 2][:fit]
    for k, (row, n) in enumerate(rows):
        at = (day.end + frame.size * 0.9, bottom - (len(rows) - 1 - k) * pen.lead + 2)
        pen.text(at, row, color if n == 0 else ink.INK if n == 1 else ink.INK2, bold=n < 2)


def _damp(pen: Pen, view: Season, frame: Frame, day: Scale, y: float) -> float:
    if view.damp is None:
        return y
    draw_damp(pen, view.damp, lambda a, b: (day(a), y, day(b), y + frame.strip))
    words = view.damp.words[:1] if frame.brief else view.damp.words
    room = frame.right - frame.size * 0.9
    rows = [(words[0], True)] + [(row, False) for line in words[1:] for row in wrap(line, frame.size, room, most=2)]
    for n, (row, bold) in enumerate(rows):
        at = (day.end + frame.size * 0.9, y + frame.strip - 3 + (n - (0.5 if len(rows) > 1 else 0)) * pen.lead)
        pen.text(at, row, ink.text("humid") if bold else ink.INK2, bold=bold)
    return y + frame.strip + 14


def _stacked(pen: Pen, stacked: Stacked | None, frame: Frame, day: Scale, y: float, high: float) -> float:
    if stacked is None:
        return y
    foot = y + high
    amount = Scale(low=0, high=stacked.most or 1.0, start=foot, end=y)
    found = draw_stacked(pen, stacked, day, amount, down=False)
    pen.line([(day.start, foot), (day.end, foot)], ink.EDGE)
    color = ink.text(stacked.sources[0].token) if stacked.sources else ink.INK
    _beside(pen, stacked.words, frame, day, color, foot, high)
    if len(stacked.sources) > 1:
        _name_sources(pen, stacked, found, Box(day.start, y - 8, day.end - 2, foot + 4))
    return foot + 14


def _name_sources(pen: Pen, stacked: Stacked, found: list[list[tuple[float, float, float, float]]], area: Box) -> None:
    """Each source's name near its largest part, where bars leave room."""
    inked = Inked()
    for boxes in found:
        for box in boxes:
            inked.box(*box)
    for source, boxes in zip(stacked.sources, found, strict=True):
        if not boxes:
            continue
        x0, y0, x1, y1 = max(boxes, key=lambda box: box[3] - box[1])
        write(pen, ((x0 + x1) / 2, y0 + min(4, (y1 - y0) / 2)), source.name, ink.text(source.token), inked, area)


def _time(pen: Pen, view: Season, frame: Frame, day: Scale, bottom: float) -> float:
    """Names of the months below the lowest band, the dark weeks' words below them; gives the picture's height."""
    pen.line([(day.start, bottom), (day.end, bottom)], ink.EDGE)
    base = bottom + 5 + pen.size
    for division in view.divisions:
        x0, x1 = day(division.first), day(division.last)
        if division.first > 0:
            pen.line([(x0, bottom), (x0, bottom + 6)], ink.EDGE)
        for words in (division.name, division.brief):
            if width_of(words, pen.size) <= x1 - x0 - 4 and not (frame.brief and words == division.name):
                pen.text(((x0 + x1) / 2, base), words, ink.INK2, anchor="middle", halo=False)
                break
    if not view.dark or not view.dark_words:
        return base + 8
    first, last = max(view.dark, key=lambda span: span[1] - span[0])
    words = shorten(view.dark_words, pen.size, frame.width)
    half = width_of(words, pen.size) / 2
    x = min(max(day((first + last) / 2), half), frame.width - half)
    pen.text((x, base + pen.lead), words, ink.INK2, anchor="middle", halo=False)
    return base + pen.lead + 8
