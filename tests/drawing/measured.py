"""What a finished SVG holds: its words with the boxes they take by the width table, its marks, its ids."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from itertools import combinations

from reportgen.drawing.pen import ASCENT, DESCENT, Box
from reportgen.drawing.widths import width_of

TOUCH = 0.15  # coordinates are written to a tenth


@dataclass(frozen=True, slots=True)
class Said:
    """One line of words and its box."""

    words: str
    box: Box


def root_of(svg: str) -> ET.Element:
    """The parsed drawing; it must be well-formed."""
    return ET.fromstring(svg)


def said(svg: str) -> list[Said]:
    """Every line of words with its box."""
    out: list[Said] = []
    _walk(root_of(svg), 0.0, out)
    return out


def _walk(element: ET.Element, size: float, out: list[Said]) -> None:
    size = float(element.get("font-size", size))
    if element.tag == "text":
        out.append(_line(element, size))
        return
    for child in element:
        _walk(child, size, out)


def _line(element: ET.Element, size: float) -> Said:
    bold = element.get("font-weight") == "700"
    parts = [(element.text or "", bold), *((c.text or "", c.get("font-weight") == "700") for c in element)]
    wide = sum(width_of(words, size, bold=heavy) for words, heavy in parts)
    x, y = float(element.get("x", "nan")), float(element.get("y", "nan"))
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
    box = Box(left, y - ASCENT * size, left + wide, y + DESCENT * size)
    return Said("".join(words for words, _ in parts), box)


def overlapping(svg: str) -> list[tuple[str, str]]:
    """Pairs of lines whose boxes touch."""
    lines = [line for line in said(svg) if line.words.strip()]
    return [(a.words, b.words) for a, b in combinations(lines, 2) if a.box.meets(b.box, -TOUCH)]


def outside(svg: str) -> list[str]:
    """Lines that reach out of the view box."""
    _, _, wide, high = (float(v) for v in root_of(svg).get("viewBox", "").split())
    whole = Box(-TOUCH, -TOUCH, wide + TOUCH, high + TOUCH)
    return [f"{line.words!r} {line.box}" for line in said(svg) if not line.box.inside(whole)]


def faults(svg: str, *, most_words: int = 60) -> list[str]:
    """Everything that no drawing may have, in words."""
    root = root_of(svg)
    out = [f"{a!r} over {b!r}" for a, b in overlapping(svg)]
    out += [f"out of the picture: {words}" for words in outside(svg)]
    out += [f"bad number: {m}" for m in re.findall(r"(?:nan|inf|None|[0-9]e-?[0-9])", re.sub(r">[^<]*<", "><", svg))]
    out += [f"style attribute: {m}" for m in re.findall(r'\sstyle="[^"]*"', svg)]
    colors = re.findall(r'(?:fill|stroke)="([^"]+)"', svg)
    out += [f"colour {c}" for c in colors if not re.fullmatch(r"none|var\(--[a-z0-9-]+\)|url\(#[a-z0-9-]+\)", c)]
    long = re.findall(r'\s(?:x|y|cx|cy|r)="(-?\d+\.\d\d+)"', svg)
    out += [f"coordinate {v}" for v in long]
    if root.get("role") != "img" or not root.get("aria-label"):
        out.append("no role or name")
    desc = root.find("desc")
    if desc is None or not (desc.text or "").strip() or root.get("aria-describedby") != desc.get("id"):
        out.append("no description")
    elif len((desc.text or "").replace("\u00a0", " ").split()) > most_words:
        out.append(f"a description of {len((desc.text or '').split())} words")
    return out


def ids(svg: str) -> list[str]:
    """Its ids."""
    return [element.get("id", "") for element in root_of(svg).iter() if element.get("id")]
