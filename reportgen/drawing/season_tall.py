"""The season picture, tall: time runs down, the diary's words stand beside their days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.apart import apart
from reportgen.drawing.axis import Scale, Tick
from reportgen.drawing.notes import Inked, write
from reportgen.drawing.pen import DOT, Box, Part, Pen
from reportgen.drawing.season_parts import draw_nights, draw_stacked
from reportgen.drawing.season_types import Line, Season
from reportgen.drawing.widths import shorten, width_of, wrap

WIDTH, SIZE = 360, 12.5
LEAST, PER_DAY, MOST = 420.0, 4.7, 960.0  # height of the axis of time
TOP = 40.0
NIGHTS, HEAT, PICKED, GUTTER = 110.0, 36.0, 30.0, 7.0
MONTHS = 28.0  # room for the months' names
ELBOW, HANG = 14.0, 9.0  # from the columns to the mark, from the mark to the words
AIR = 6.0  # between two lines of the diary


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where each column begins and ends; None where it is left out."""

    nights: tuple[float, float] | None
    heat: tuple[float, float] | None
    picked: tuple[float, float] | None
    diary: float


def _columns(view: Season) -> _Columns:
    x = MONTHS
    found: list[tuple[float, float] | None] = []
    for there, wide in ((view.nights, NIGHTS), (view.heat, HEAT), (view.picked, PICKED)):
        found.append((x, x + wide) if there is not None else None)
        x += wide + GUTTER if there is not None else 0
    return _Columns(found[0], found[1], found[2], x + ELBOW + HANG)


@dataclass(frozen=True, slots=True)
class _Block:
    line: Line
    rows: tuple[tuple[Part, ...], ...]


def season_tall(view: Season) -> str:
    """The picture as SVG."""
    pen = Pen(width=WIDTH, size=SIZE, uid=f"{view.uid}-t")
    columns = _columns(view)
    room = WIDTH - columns.diary
    blocks = [_block(line, room) for line in view.lines]
    heights = [pen.lead * len(b.rows) for b in blocks]
    more = wrap(view.more, SIZE, room) if view.more else ()
    words = sum(heights) + AIR * len(heights) + pen.lead * len(more) + 4
    high = max(LEAST, min(MOST, PER_DAY * view.days), words)
    top = TOP + (pen.lead if _titled(view) else 0)
    day = Scale(low=0, high=view.days, start=top, end=top + high)
    pen.boxes([(0, day(a), columns.diary - ELBOW - HANG, day(b)) for a, b in view.dark], ink.DUSK)
    _months(pen, view, day)
    area = Box(0, top + 2, columns.diary - 8, day.end - 2)
    _bars(pen, view, columns, day)
    if more:
        pen.lines((columns.diary, day.end - pen.lead * (len(more) - 1) - 3), more, ink.INK2)
    _diary(pen, view, blocks, heights, columns, day, day.end - pen.lead * len(more))
    _nights(pen, view, columns, day, area)
    _titles(pen, view, columns)
    foot = day.end + 6
    for row in wrap(view.dark_brief, SIZE, WIDTH) if view.dark and view.dark_brief else ():
        foot += pen.lead
        pen.text((0, foot), row, ink.INK2)
    return pen.svg(foot + 8, view.label, view.description, "tall")


def _block(line: Line, room: float) -> _Block:
    """Its words in rows, the date in second ink, the verdict after them where it fits."""
    rows = wrap(f"{line.when} {line.words}", SIZE, room, most=4)
    out: list[list[Part]] = [[Part(row)] for row in rows]
    if rows[0].startswith(line.when):
        out[0] = [Part(line.when, ink.INK2), Part(rows[0][len(line.when) :])]
    verdict = f" – {line.verdict}"
    if line.verdict and width_of(rows[-1], SIZE) + width_of(verdict, SIZE, bold=True) <= room:
        out[-1].append(Part(verdict, ink.said(line.mark), True))
    elif line.verdict:
        out += [[Part(row, ink.said(line.mark), True)] for row in wrap(line.verdict, SIZE, room, bold=True, most=2)]
    return _Block(line, tuple(tuple(row) for row in out))


def _titled(view: Season) -> bool:
    return view.nights is not None and len(view.nights.title) > 1


def _titles(pen: Pen, view: Season, columns: _Columns) -> None:
    """What each column is, above it."""
    base = pen.size + 1
    if view.nights is not None:
        pen.lines((0, base), view.nights.title[:2], ink.text("cold"), bold=True)
    for span, stacked in ((columns.heat, view.heat), (columns.picked, view.picked)):
        if span is not None and stacked is not None:
            after = columns.picked[0] if span is columns.heat and columns.picked else columns.diary - 4
            words = shorten(stacked.brief or stacked.words[0], SIZE, after - span[0] - 3, bold=True)
            pen.text((span[0], base), words, ink.text(stacked.sources[0].token), bold=True)
    if view.lines:
        pen.text((columns.diary, base), shorten(view.diary_word, SIZE, WIDTH - columns.diary, bold=True), bold=True)


def _months(pen: Pen, view: Season, day: Scale) -> None:
    free = 0.0
    for division in view.divisions:
        if division.first > 0:
            pen.line([(0, day(division.first)), (MONTHS - 4, day(division.first))], ink.EDGE)
        y = day(division.first) + pen.size + 1
        if y > free and day(division.last) - day(division.first) > pen.lead * 0.8:
            pen.text((1.5, y), shorten(division.brief, SIZE, MONTHS + 6), ink.INK2)
            free = y + pen.lead


def _nights(pen: Pen, view: Season, columns: _Columns, day: Scale, area: Box) -> None:
    nights = view.nights
    if nights is None or columns.nights is None:
        return
    x = Scale(low=nights.axis.low, high=nights.axis.high, start=columns.nights[0], end=columns.nights[1])
    for tick in across(nights.axis.ticks, x, nights.axis.heavy, SIZE):
        frost = tick.at == nights.axis.heavy
        color = ink.text("cold") if frost else ink.INK2
        pen.line(
            [(x(tick.at), day.start - 4), (x(tick.at), day.end)],
            ink.line("cold") if frost else ink.RULE,
            1.2 if frost else 1,
        )
        pen.text((x(tick.at), day.start - 8), tick.words, color, anchor="middle", bold=frost, halo=False)
    inked = Inked()
    draw_nights(pen, nights, lambda at, value: (x(value), day(at)), inked, 2.0)
    for stacked, span in ((view.heat, columns.heat), (view.picked, columns.picked)):
        if stacked is not None and span is not None:
            for bar in stacked.bars:
                amount = Scale(low=0, high=stacked.most or 1.0, start=span[0], end=span[1])
                inked.box(span[0], day(bar.first), amount(sum(bar.parts)), day(bar.last))
    for note in nights.notes:
        at = (x(note.value), day(note.day + 0.5))
        write(
            pen,
            at,
            note.brief or note.words,
            ink.text(note.token),
            inked,
            area,
            italic=note.italic,
            stroke=ink.line(note.token),
            most=6,
        )


def across(ticks: Sequence[Tick], x: Scale, heavy: float | None, size: float) -> list[Tick]:
    """Ticks of a level axis whose words stand apart: the heavy one first, then the ends, then between."""
    kept: list[tuple[float, float, Tick]] = []
    ends = {ticks[0].at, ticks[-1].at} if ticks else set()
    for tick in sorted(ticks, key=lambda t: (t.at != heavy, t.at not in ends, t.at)):
        half = width_of(tick.words, size, bold=True) / 2
        a, b = x(tick.at) - half, x(tick.at) + half
        if all(a > d + 4 or b < c - 4 for c, d, _ in kept):
            kept.append((a, b, tick))
    return [tick for _, _, tick in kept]


def _bars(pen: Pen, view: Season, columns: _Columns, day: Scale) -> None:
    for stacked, span in ((view.heat, columns.heat), (view.picked, columns.picked)):
        if stacked is None or span is None:
            continue
        amount = Scale(low=0, high=stacked.most or 1.0, start=span[0], end=span[1])
        draw_stacked(pen, stacked, day, amount, down=True)
        pen.line([(span[0], day.start), (span[0], day.end)], ink.EDGE)


def _diary(
    pen: Pen, view: Season, blocks: list[_Block], heights: list[float], columns: _Columns, day: Scale, end: float
) -> None:
    """Dotted lines across the columns, an elbow to the words where these had to move."""
    left = columns.nights[0] if columns.nights else MONTHS
    turn, sign = columns.diary - ELBOW - HANG, columns.diary - HANG
    for tick in view.ticks:
        pen.line([(turn - 8, day(tick + 0.5)), (turn, day(tick + 0.5))], ink.INK2, 1.4)
    wished = [day(b.line.day + 0.5) - pen.size * 0.65 for b in blocks]
    tops = apart(wished, heights, day.start - pen.size * 0.5, end, AIR)
    for block, at in zip(blocks, tops, strict=True):
        y = day(block.line.day + 0.5)
        pen.line([(left, y), (turn, y), (sign, at + pen.size * 0.65)], ink.EDGE, dash=DOT)
        pen.mark((sign, at + pen.size * 0.65), block.line.mark, 4.2)
        base = at + pen.size * 0.95
        for row, parts in enumerate(block.rows):
            pen.rich((columns.diary, base + row * pen.lead), parts)
