"""What a kilogram cost: one bar in its parts, the shop's below it."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.axis import Scale
from reportgen.drawing.pen import Pen
from reportgen.drawing.widths import shorten, width_of

BAR = 34.0
TALL_UNDER = 600.0  # width under which names stand above their bars


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """One part of a bar: its words, its amount as a number and as it is written."""

    words: str
    brief: str
    amount: float
    said: str
    token: ink.Token
    shade: float = 1.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Bar:
    """One bar; `sum_of` pieces from its start are told together below it in `sum_words`."""

    name: str
    pieces: tuple[Piece, ...]
    said: str
    brief: str = ""  # the name where the picture is narrow
    sum_of: int = 0
    sum_words: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Kilogram:
    """One bar or two on one scale."""

    uid: str
    label: str
    description: str
    bars: tuple[Bar, ...]


def kilogram(view: Kilogram, width: float = 1040, size: float = 14, kind: str = "wide") -> str:
    """The picture as SVG."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-{kind[0]}{round(width)}")
    beside = width >= TALL_UNDER
    names = max(width_of(bar.name, size, bold=True) for bar in view.bars) + 14 if beside else 0.0
    names = min(names, width * 0.3)
    said = max(width_of(bar.said, size, bold=True) for bar in view.bars) + 12
    most = max(sum(piece.amount for piece in bar.pieces) for bar in view.bars) or 1.0
    x = Scale(low=0, high=most, start=names, end=width - said if beside else width - 1)
    y = 4.0
    for bar in view.bars:
        y = _bar(pen, bar, x, y, beside)
    return pen.svg(y - 10, view.label, view.description, kind)


def _bar(pen: Pen, bar: Bar, x: Scale, y: float, beside: bool) -> float:
    """Gives where the next bar begins."""
    base = y + BAR / 2 + pen.size * 0.35
    end = x(sum(piece.amount for piece in bar.pieces))
    if beside:
        pen.text((x.start - 14, base), shorten(bar.name, pen.size, x.start - 14, bold=True), anchor="end", bold=True)
        pen.text((end + 10, base), bar.said, bold=True)
    else:
        pen.text((pen.width, y + pen.size), bar.said, anchor="end", bold=True)
        room = pen.width - width_of(bar.said, pen.size, bold=True) - 10
        fits = width_of(bar.name, pen.size, bold=True) <= room
        name = bar.name if fits or not bar.brief else bar.brief
        pen.text((0, y + pen.size), shorten(name, pen.size, room, bold=True), bold=True)
        y += pen.size * 1.6
        base += pen.size * 1.6
    left, outside = 0.0, list[tuple[float, str, ink.Token]]()
    for n, piece in enumerate(bar.pieces):
        a, b = x(left), x(left + piece.amount) - (1 if n + 1 < len(bar.pieces) else 0)
        left += piece.amount
        pen.boxes([(a, y, b, y + BAR)], ink.line(piece.token), piece.shade)
        if len(bar.pieces) > 1 or piece.words:
            _inside(pen, piece, a, b, base, outside)
    foot = _below(pen, bar, x, y + BAR, outside)
    return foot + 18


def _inside(
    pen: Pen, piece: Piece, a: float, b: float, base: float, outside: list[tuple[float, str, ink.Token]]
) -> None:
    """Words and amount in the bar where they fit, else below it."""
    color = ink.PAPER if piece.shade > 0.8 else ink.INK
    for words in (f"{piece.words} {piece.said}", f"{piece.brief} {piece.said}"):
        if width_of(words, pen.size, bold=True) <= b - a - 8:
            pen.text(((a + b) / 2, base), words, color, anchor="middle", bold=True, halo=False)
            return
    if width_of(piece.said, pen.size, bold=True) <= b - a - 6:
        pen.text(((a + b) / 2, base), piece.said, color, anchor="middle", bold=True, halo=False)
        outside.append((a, piece.brief, piece.token))
    else:
        outside.append((a, f"{piece.brief} {piece.said}", piece.token))


def _below(pen: Pen, bar: Bar, x: Scale, foot: float, outside: list[tuple[float, str, ink.Token]]) -> float:
    """The sum's line and words, then the words that did not fit, in as many rows as keep them apart."""
    if bar.sum_of and bar.sum_words:
        end = x(sum(piece.amount for piece in bar.pieces[: bar.sum_of])) - 1
        pen.line([(x.start, foot + 6), (end, foot + 6)], ink.line("warm"), 1.2)
        wide = width_of(bar.sum_words, pen.size, bold=True)
        at = min(max(end, wide), pen.width)
        pen.text((at, foot + 8 + pen.size), bar.sum_words, ink.text("warm"), anchor="end", bold=True)
        foot += 8 + pen.size * 1.3
    rows: list[float] = []
    for a, words, token in outside:
        wide = width_of(words, pen.size)
        at = min(a, pen.width - wide)
        row = next((n for n, free in enumerate(rows) if at >= free + 6), len(rows))
        rows[row : row + 1] = [at + wide]
        pen.text((max(at, 0), foot + 4 + pen.size * (1 + 1.27 * row)), words, ink.text(token))
    return foot + (4 + pen.size * 1.27 * len(rows) if rows else 0)
