"""The pen: SVG of our own, for the pictures that words carry.

The charting library was tried first. It cannot wrap words by a font's widths, push labels apart with elbows or shade an
interval in nested steps; what it can of these pictures takes 0.1 to 0.3 s of one processor a chart, the pen 1 to 5 ms,
and a site has about forty. So these forms are written here, and everything else stays with the library.

Marks lie below, words above them in one group with a halo in the paper's colour. No ids but those under the drawing's
own uid, no style attributes, coordinates to a tenth: the same view gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

from reportgen.drawing import ink, trace
from reportgen.drawing.trace import Point, short
from reportgen.drawing.widths import width_of

Anchor = Literal["start", "middle", "end"]
ASCENT, DESCENT = 0.93, 0.24  # of the line box in ems: DejaVu Sans 2.37, table hhea
LINE = 1.27  # line height in ems
HALO = 0.22  # ems
DOT, DASH = "1.5 2.5", "5 3"


@dataclass(frozen=True, slots=True)
class Box:
    """An upright box in the drawing's units."""

    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Box, air: float = 0.0) -> bool:
        """True where the two come nearer than `air`."""
        return (
            self.x0 < other.x1 + air
            and other.x0 < self.x1 + air
            and self.y0 < other.y1 + air
            and other.y0 < self.y1 + air
        )

    def inside(self, other: Box) -> bool:
        """True where it lies wholly in the other."""
        return self.x0 >= other.x0 and self.x1 <= other.x1 and self.y0 >= other.y0 and self.y1 <= other.y1


@dataclass(frozen=True, slots=True)
class Part:
    """Some words of a line in one colour."""

    words: str
    color: str = ink.INK
    bold: bool = False


def line_box(x: float, y: float, width: float, size: float, anchor: Anchor = "start") -> Box:
    """Where a line of words of that width lies, its baseline at y."""
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return Box(left, y - ASCENT * size, left + width, y + DESCENT * size)


def isolated(words: str) -> str:
    """Words with letters that run from right to left, kept from turning the words beside them around (UAX #9)."""
    words = "".join(c for c in words if c >= " ")  # a control character is none of XML
    return f"\u2068{words}\u2069" if any("\u0590" <= c <= "\u08ff" for c in words) else words


@dataclass(kw_only=True)
class Pen:
    """A drawing under construction: `size` is that of its words, `uid` the stem of its ids."""

    width: float
    size: float
    uid: str
    taken: list[Box] = field(default_factory=list)  # by words
    _marks: list[str] = field(default_factory=list)
    _words: list[str] = field(default_factory=list)
    _bare: list[str] = field(default_factory=list)
    _defs: dict[str, str] = field(default_factory=dict)

    @property
    def lead(self) -> float:
        """From one line of words to the next."""
        return self.size * LINE

    def path(
        self,
        d: str,
        *,
        fill: str = "",
        stroke: str = "",
        width: float = 1.0,
        dash: str = "",
        opacity: float = 1.0,
        round_: bool = False,
    ) -> None:
        """Any shape; one without data draws nothing."""
        if not d:
            return
        words = f' fill="{fill}"' if fill else ""
        if stroke:
            words += f' stroke="{stroke}"' + (f' stroke-width="{short(width)}"' if width != 1 else "")
        words += f' stroke-dasharray="{dash}"' if dash else ""
        words += ' stroke-linejoin="round" stroke-linecap="round"' if round_ else ""
        words += f' {"fill-" if fill else ""}opacity="{opacity:g}"' if opacity != 1 else ""
        self._marks.append(f'<path d="{d}"{words}/>')

    def line(self, ends: Sequence[Point], stroke: str, width: float = 1.0, dash: str = "") -> None:
        """Straight lines from point to point."""
        self.path(trace.polyline(ends), stroke=stroke, width=width, dash=dash)

    def boxes(self, boxes: Iterable[tuple[float, float, float, float]], fill: str, opacity: float = 1.0) -> None:
        """Filled boxes (x0, y0, x1, y1) as one mark."""
        self.path("".join(trace.box(*box) for box in boxes), fill=fill, opacity=opacity)

    def circle(
        self,
        at: Point,
        radius: float,
        *,
        fill: str = ink.PAPER,
        stroke: str = "",
        width: float = 2.0,
        opacity: float = 1,
    ) -> None:
        """A dot, or a ring with paper inside."""
        more = f' stroke="{stroke}" stroke-width="{short(width)}"' if stroke else ""
        more += f' fill-opacity="{opacity:g}"' if opacity != 1 else ""
        self._marks.append(f'<circle cx="{short(at[0])}" cy="{short(at[1])}" r="{short(radius)}" fill="{fill}"{more}/>')

    def rings(self, spots: Iterable[Point], radius: float, stroke: str, width: float = 1.3) -> None:
        """Many hollow rings as one mark."""
        r, across = short(radius), short(2 * radius)
        arc = f"a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0-{across} 0"
        self.path("".join(f"M{short(x - radius)} {short(y)}{arc}" for x, y in spots), stroke=stroke, width=width)

    def dots(self, spots: Iterable[Point], radius: float, color: str, opacity: float = 1.0) -> None:
        """Many dots as one mark: round ends of lines without length."""
        d = "".join(f"M{short(x)} {short(y)}h0" for x, y in spots)
        self.path(d, stroke=color, width=2 * radius, opacity=opacity, round_=True)

    def mark(self, at: Point, mark: ink.Mark, radius: float | None = None) -> None:
        """The sign of a verdict, told apart by its shape: ● ■ ○, a small dot where nothing was judged."""
        r = self.size * 0.36 if radius is None else radius
        if mark == "helped":
            self.circle(at, r, fill=ink.line("target"))
        elif mark == "opposite":
            self.boxes([(at[0] - r, at[1] - r, at[0] + r, at[1] + r)], ink.line("warm"))
        elif mark == "open":
            self.circle(at, r - 0.6, stroke=ink.line("neutral"), width=1.8)
        else:
            self.circle(at, r * 0.55, fill=ink.line("neutral"))

    def hatch(self, token: ink.Token) -> str:
        """A fill of slanting lines, for a second source of the same kind."""
        name = f"{self.uid}-{token}"
        self._defs[name] = (
            f'<pattern id="{name}" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
            f'<path d="M0 0h5v5H0z" fill="{ink.PAPER}"/><path d="M0 0h2.4v5H0z" fill="{ink.line(token)}"/></pattern>'
        )
        return f"url(#{name})"

    def text(
        self,
        at: Point,
        words: str,
        color: str = ink.INK,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        italic: bool = False,
        halo: bool = True,
    ) -> Box:
        """One line of words, its baseline at the point; gives the box it takes."""
        look = (' font-weight="700"' if bold else "") + (' font-style="italic"' if italic else "")
        inner = f'{look} fill="{color}">{escape(isolated(words))}'
        return self._write(at, inner, width_of(words, self.size, bold=bold), anchor, halo)

    def rich(self, at: Point, parts: Sequence[Part], *, anchor: Anchor = "start") -> Box:
        """One line of words in several colours."""
        inner = "".join(
            f'<tspan fill="{p.color}"{" font-weight=" + quoteattr("700") if p.bold else ""}>{escape(isolated(p.words))}'
            "</tspan>"
            for p in parts
        )
        wide = sum(width_of(p.words, self.size, bold=p.bold) for p in parts)
        return self._write(at, f">{inner}", wide, anchor, True)

    def _write(self, at: Point, inner: str, width: float, anchor: Anchor, halo: bool) -> Box:
        where = f'<text x="{short(at[0])}" y="{short(at[1])}"' + (
            f' text-anchor="{anchor}"' if anchor != "start" else ""
        )
        (self._words if halo else self._bare).append(f"{where}{inner}</text>")
        box = line_box(at[0], at[1], width, self.size, anchor)
        self.taken.append(box)
        return box

    def lines(
        self,
        at: Point,
        lines: Sequence[str],
        color: str = ink.INK,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        italic: bool = False,
    ) -> float:
        """Several lines of words; gives the baseline of the one that would follow."""
        for n, words in enumerate(lines):
            self.text((at[0], at[1] + n * self.lead), words, color, anchor=anchor, bold=bold, italic=italic)
        return at[1] + len(lines) * self.lead

    def svg(self, height: float, label: str, description: str, kind: str) -> str:
        """The finished drawing; `kind` is its class: wide, tall or flat."""
        wide, high = short(self.width), short(height)
        name = f"{self.uid}-d"
        defs = f"<defs>{''.join(self._defs.values())}</defs>" if self._defs else ""
        halo = f' paint-order="stroke" stroke="{ink.PAPER}" stroke-width="{short(HALO * self.size)}"'
        halo += ' stroke-linejoin="round"'
        words = f'<g aria-hidden="true" font-size="{short(self.size)}">{"".join(self._bare)}'
        words += f"<g{halo}>{''.join(self._words)}</g></g>"
        return (
            f'<svg class="{kind}" role="img" aria-label={quoteattr(label)} aria-describedby="{name}"'
            f' viewBox="0 0 {wide} {high}" width="{wide}" height="{high}">'
            f'<desc id="{name}">{escape(description)}</desc>'
            f'{defs}<g aria-hidden="true" fill="none">{"".join(self._marks)}</g>{words}</svg>'
        )
