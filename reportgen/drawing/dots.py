"""One dot a night, by class of margin."""

from __future__ import annotations

import math
from dataclasses import dataclass

from reportgen.drawing import ink
from reportgen.drawing.pen import Part, Pen
from reportgen.drawing.widths import shorten, width_of

MOST = 300  # dots; more nights than that share one


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """Nights of one class: how many, and a note beside their number."""

    words: str
    nights: int
    said: str
    token: ink.Token
    shade: float = 1.0
    note: str = ""
    strong: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Dots:
    """All nights by class; `each_words` says how many nights a dot stands for where it is more than one."""

    uid: str
    label: str
    description: str
    kinds: tuple[Kind, ...]
    each_words: str = ""


def each(nights: int) -> int:
    """How many nights a dot stands for."""
    return max(1, math.ceil(nights / MOST))


def dots(view: Dots, width: float = 500, size: float = 14, kind: str = "wide") -> str:
    """The picture as SVG."""
    pen = Pen(width=width, size=size, uid=f"{view.uid}-{kind[0]}")
    left = min(max(width_of(k.words, size, bold=k.strong) for k in view.kinds) + 10, width * 0.4)
    one = each(sum(k.nights for k in view.kinds))
    most = max(1, int((width - left - size * 3.2) / (size * 0.62)))
    step = (width - left - size * 3.2) / most
    y = size
    for k in view.kinds:
        y = _kind(pen, k, left, step, most, one, y)
    if view.each_words and one > 1:
        pen.text((left, y), shorten(view.each_words, size, width - left), ink.INK2)
        y += pen.lead
    return pen.svg(y - size * 0.8, view.label, view.description, kind)


def _kind(pen: Pen, k: Kind, left: float, step: float, most: int, one: int, y: float) -> float:
    """Gives where the next class begins."""
    many = math.ceil(k.nights / one)
    words = shorten(k.words, pen.size, left - 10, bold=k.strong)
    pen.text((left - 10, y + pen.size * 0.35), words, anchor="end", bold=k.strong)
    down = step * 1.15
    spots = [(left + (n % most + 0.5) * step, y + n // most * down) for n in range(many)]
    pen.dots(spots, step / 2 - 0.8, ink.line(k.token), k.shade)
    at = left + min(many, most) * step + 8
    parts = [Part(k.said, ink.INK, True)]
    room = pen.width - at - width_of(k.said, pen.size, bold=True)
    if k.note and width_of(f"  {k.note}", pen.size) <= room:
        parts.append(Part(f"  {k.note}", ink.INK2))
    pen.rich((at, y + pen.size * 0.35), parts)
    return y + max(0, math.ceil(many / most) - 1) * down + pen.size * 1.9
