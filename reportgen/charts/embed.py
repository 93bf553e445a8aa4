"""A Drawing as two inline SVGs: drawn without a browser, tidied, named for screen readers, coloured by CSS alone.

The engine's picture carries a class, a role and a label on every mark; all that goes. Marks that differ only in
their shape become one path, coordinates are rounded to 0.1, and ids are renumbered under the drawing's own uid, so that
many drawings stand on one page and the same input gives the same bytes.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from reportgen.charts.pathdata import compact, radius
from reportgen.charts.types import Drawing

NAMESPACE = re.compile(r"\{[^}]*\}")
TRANSLATE = re.compile(r"^translate\(\s*(-?[\d.eE+-]+)[ ,]+(-?[\d.eE+-]+)\s*\)$")
REFERENCE = re.compile(r"url\(#([^)]+)\)")
DROPPED = frozenset({"class", "role", "font-family", "pointer-events", "aria-label", "aria-roledescription"})
# What an SVG has anyway, or what the outer <svg> already says.
USUAL: Mapping[str, frozenset[str]] = {
    "font-weight": frozenset({"normal"}),
    "text-anchor": frozenset({"start"}),
    "stroke-dasharray": frozenset({""}),
    "stroke-width": frozenset({"1"}),
    "stroke-linecap": frozenset({"butt"}),
    "stroke-miterlimit": frozenset({"10"}),
    "fill-opacity": frozenset({"1"}),
    "stroke-opacity": frozenset({"1"}),
    "opacity": frozenset({"1"}),
    "stroke": frozenset({"none"}),
    "font-size": frozenset({"11px"}),
}
SHAPES = frozenset({"path", "line"})


@dataclass(frozen=True, kw_only=True, slots=True)
class Picture:
    """Both widths as SVG text, and what the page needs to know of the plot."""

    wide: str
    narrow: str
    marks: tuple[str, ...]  # the change lines in words, in the order of their numbers
    numbered_wide: bool  # their labels are numbers in the wide picture
    numbered_narrow: bool


@dataclass(frozen=True, slots=True)
class Leaf:
    """One element to write: tag, attributes, path data or inner text."""

    tag: str
    attributes: tuple[tuple[str, str], ...]
    body: str


def picture(drawing: Drawing, *, narrow_only: bool = False) -> Picture:
    """The drawing's two SVGs, or the narrow one alone; what the pen drew is SVG already."""
    if isinstance(drawing.narrow, str):
        wide_svg = "" if narrow_only else drawing.wide
        return Picture(wide=wide_svg, narrow=drawing.narrow, marks=(), numbered_wide=False, numbered_narrow=False)
    narrow, narrow_meta = _drawn(drawing.narrow)
    wide, wide_meta = ("", narrow_meta) if narrow_only else _drawn(drawing.wide)
    return Picture(
        wide=framed(wide, drawing, "w", wide_meta) if wide else "",
        narrow=framed(narrow, drawing, "n", narrow_meta),
        marks=tuple(wide_meta.get("marks", ())),
        numbered_wide=bool(wide_meta.get("numbered")),
        numbered_narrow=bool(narrow_meta.get("numbered")),
    )


def _drawn(chart: Any) -> tuple[str, dict[str, Any]]:
    """Raw SVG of an altair chart, and the usermeta that travels with it."""
    import vl_convert  # costs a tenth of a second; nothing else needs it

    spec = chart.to_dict()
    meta = dict(spec.get("usermeta") or {})
    meta.pop("embedOptions", None)
    return vl_convert.vegalite_to_svg(spec), meta


def framed(raw: str, drawing: Drawing, suffix: str, meta: Mapping[str, Any]) -> str:
    """The tidied marks inside an `<svg>` start tag of our own with name and description."""
    root = ET.fromstring(raw)  # of our own engine, never of a user's file
    uid = f"{drawing.uid}-{suffix}"
    plot = ""
    if drawing.day_slider and "plot" in meta:
        ends = [*meta["plot"], *meta["domain"]]
        plot = f' data-plot="{" ".join(f"{end:g}" for end in ends)}"'
    width, height = root.get("width", "0"), root.get("height", "0")
    return (
        f'<svg class="{suffix}" role="img" aria-label={quoteattr(drawing.label)} aria-describedby="{uid}-d"'
        f' viewBox="0 0 {width} {height}" width="{width}" height="{height}"{plot}>'
        f'<desc id="{uid}-d">{escape(drawing.description)}</desc><g aria-hidden="true">{tidy(root, uid)}</g></svg>'
    )


def tidy(root: ET.Element, uid: str) -> str:
    """Everything inside the raw `<svg>`, as short as it goes."""
    ids = {element.get("id", ""): f"{uid}-{n}" for n, element in enumerate(e for e in root.iter() if e.get("id"))}
    leaves: list[Leaf] = []
    for child in root:
        _walk(child, 0.0, 0.0, ids, leaves)
    return "".join(_written(leaf) for leaf in _joined(leaves))


def _walk(element: ET.Element, dx: float, dy: float, ids: Mapping[str, str], out: list[Leaf]) -> None:
    """Groups that say nothing are unwrapped, their shifts added to what is inside."""
    tag = NAMESPACE.sub("", element.tag)
    if element.get("display") == "none" or element.get("class") == "background":
        return
    shift = TRANSLATE.match(element.get("transform", "translate(0,0)"))
    kept = _kept(element, ids)
    if tag == "g":
        kept = [(name, value) for name, value in kept if name != "fill" or value != "none"]
        if shift and not kept:
            for child in element:
                _walk(child, dx + float(shift[1]), dy + float(shift[2]), ids, out)
            return
        if not shift:
            kept.append(("transform", f"translate({dx:g},{dy:g}) {element.get('transform')}"))
        inner: list[Leaf] = []
        start = (dx + float(shift[1]), dy + float(shift[2])) if shift else (0.0, 0.0)
        for child in element:
            _walk(child, *start, ids, inner)
        out.append(Leaf("g", tuple(kept), "".join(_written(leaf) for leaf in _joined(inner))))
    elif tag in SHAPES and shift:
        _shape(element, tag, kept, dx + float(shift[1]), dy + float(shift[2]), out)
    elif tag == "text":
        out.append(_text(element, kept, dx, dy, shift))
    else:
        out.append(_other(element, tag, kept, dx, dy, ids))


def _kept(element: ET.Element, ids: Mapping[str, str]) -> list[tuple[str, str]]:
    """Attributes that say something, ids renumbered; geometry is handled apart."""
    out = []
    for name, value in element.attrib.items():
        name = NAMESPACE.sub("", name)
        if name in DROPPED or name in ("transform", "d", "aria-hidden") or value in USUAL.get(name, ()):
            continue
        if name == "id":
            value = ids[value]
        value = REFERENCE.sub(lambda m: f"url(#{ids.get(m[1], m[1])})", value)
        out.append((name, value[:-2] if name == "font-size" and value.endswith("px") else value))
    return out


def _shape(element: ET.Element, tag: str, kept: list[tuple[str, str]], dx: float, dy: float, out: list[Leaf]) -> None:
    d = element.get("d", "")
    if tag == "line":
        x1, y1, x2, y2 = (float(element.get(name, "0")) for name in ("x1", "y1", "x2", "y2"))
        d = f"M{x1},{y1}L{x2},{y2}"
        kept = [(name, value) for name, value in kept if name not in ("x1", "y1", "x2", "y2")]
    if not d:
        return
    paint = dict(kept)
    round_dot = radius(d)
    if round_dot is not None and paint.get("fill", "none") != "none" and "stroke" not in paint:
        # A filled dot is written as a round line end of no length: a fifth of the bytes of two arcs.
        paint["stroke"] = paint.pop("fill")
        paint |= {"stroke-width": f"{round(2 * round_dot, 1):g}", "stroke-linecap": "round"}
        d = "M0,0h0"
    out.append(Leaf("path", tuple(sorted(paint.items())), compact(d, dx, dy)))


def _text(element: ET.Element, kept: list[tuple[str, str]], dx: float, dy: float, shift: re.Match[str] | None) -> Leaf:
    if shift:
        x, y = round(dx + float(shift[1]), 1), round(dy + float(shift[2]), 1)
        at = [("x", f"{x:g}"), ("y", f"{y:g}")]
    else:
        x = 0.0
        at = [("transform", f"translate({dx:g},{dy:g}) {element.get('transform', '')}".strip())]
    lines = [child for child in element if NAMESPACE.sub("", child.tag) == "tspan"]
    if not lines:
        return Leaf("text", tuple(at + kept), escape(element.text or ""))
    body = ""
    for n, child in enumerate(lines):
        down = f' dy="{child.get("dy", "14")}"' if n else ""
        body += f'<tspan x="{x:g}"{down}>{escape(child.text or "")}</tspan>'
    return Leaf("text", tuple(at + kept), body)


def _other(
    element: ET.Element, tag: str, kept: list[tuple[str, str]], dx: float, dy: float, ids: Mapping[str, str]
) -> Leaf:
    """Definitions and whatever else the engine draws: kept as it is, moved to its place."""
    inner: list[Leaf] = []
    for child in element:
        _walk(child, 0.0, 0.0, ids, inner)
    moved = f"translate({dx:g},{dy:g}) {element.get('transform', '')}".strip()
    if tag not in ("defs", "clipPath", "linearGradient", "radialGradient", "stop") and moved != "translate(0,0)":
        kept = [*kept, ("transform", moved)]
    return Leaf(tag, tuple(kept), "".join(_written(leaf) for leaf in inner))


def _joined(leaves: list[Leaf]) -> list[Leaf]:
    """Neighbouring paths that differ only in their shape become one."""
    out: list[Leaf] = []
    for leaf in leaves:
        if out and leaf.tag == "path" == out[-1].tag and leaf.attributes == out[-1].attributes:
            # A path starts relative to the end of the one before only if its first m is made absolute.
            out[-1] = Leaf("path", leaf.attributes, f"{out[-1].body}M{leaf.body[1:]}")
        else:
            out.append(leaf)
    return out


def _written(leaf: Leaf) -> str:
    words = "".join(f" {name}={quoteattr(value)}" for name, value in leaf.attributes)
    if leaf.tag == "path":
        return f'<path{words} d="M{leaf.body[1:]}"/>'
    return f"<{leaf.tag}{words}>{leaf.body}</{leaf.tag}>" if leaf.body else f"<{leaf.tag}{words}/>"
