"""The picture for a group chat: its size, its letters, its bytes, and nothing in it but the picture."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
import vl_convert
from drawing.measured import Said, _walk
from kept_reviews import review_of
from PIL import Image

from reportgen.charts.handout import handout, views
from reportgen.drawing.pen import Box
from reportgen.review import Review
from reportgen.site import chat_picture
from reportgen.site.seen_words import unseen_in

LEAST, CHART = 24, 27  # pixels


def svg_of(review: Review) -> str:
    """The picture as SVG."""
    seen = views(review)
    return chat_picture.svg(handout(review, seen), seen)


def said_in(svg: str) -> list[Said]:
    """Every line of words at its place in the whole picture."""
    bare = svg.replace(' xmlns="http://www.w3.org/2000/svg"', "")
    out: list[Said] = []
    for block in ET.fromstring(bare).findall("svg"):
        x, y = float(block.get("x", "0")), float(block.get("y", "0"))
        inner: list[Said] = []
        _walk(block, 0.0, inner)
        out += [Said(s.words, Box(s.box.x0 + x, s.box.y0 + y, s.box.x1 + x, s.box.y1 + y)) for s in inner]
    return out


def faults_of(svg: str) -> list[str]:
    """Words cut off, over one another, or too small."""
    lines = said_in(svg)
    whole = Box(0, 0, 1080, 1350)
    cut = [f"{line.words!r} is cut" for line in lines if not line.box.inside(whole)]
    over = [f"{a.words!r} over {b.words!r}" for a, b in combinations(lines, 2) if a.box.meets(b.box, -2.5)]
    small = [f"{size} px" for size in re.findall(r'font-size="([\d.]+)"', svg) if float(size) < LEAST]
    return [*cut, *over, *small]


def test_it_is_what_a_chat_takes() -> None:
    """1080 × 1350, a palette of at most 256 colours, at most 200 KB, no chunk that could hold words."""
    review = review_of("sample")
    seen = views(review)
    sheet = handout(review, seen)
    data = chat_picture.png(sheet, seen)
    picture = Image.open(io.BytesIO(data))
    assert picture.size == (1080, 1350) and picture.mode == "P" and len(data) <= 200_000
    assert list(unseen_in("handout.png", data)) == []
    assert chat_picture.png(sheet, seen) == data


def test_its_words() -> None:
    """Letters of 24 pixels at least, those of the chart 27; what helped, what hurt, and the cautions."""
    svg = svg_of(review_of("sample"))
    assert faults_of(svg) == []
    assert f'font-size="{CHART}"' in svg and 'font-family="Liberation Sans"' in svg
    words = " ".join(line.words for line in said_in(svg))
    assert "What we changed" in words and "Keep" in words and "Fumes" in words and "One house, one winter." in words


@pytest.mark.parametrize("name", ["only soil", "ten days", "diary of every kind", "names", "one reading"])
def test_odd_seasons(name: str) -> None:
    """Whatever is missing, however long the names."""
    svg = svg_of(review_of(name))
    assert faults_of(svg) == []
    assert not re.search(r">[^<]*\b(?:nan|None|NaT)\b", svg)


def drawn(words: str) -> Image.Image:
    """One line in the picture's font, black on white."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="600" height="60" font-family="{chat_picture.FONT}">'
        f'<rect width="600" height="60" fill="#fff"/><text x="4" y="40" font-size="30">{words}</text></svg>'
    )
    return Image.open(io.BytesIO(vl_convert.svg_to_png(svg, scale=1))).convert("L")


def test_the_font_holds_the_minus_sign() -> None:
    """A sign that a font lacks turns its whole line into another one: the words before it would move."""
    plain, signed = drawn("Frost 5.2"), drawn("Frost 5.2 −14.9 °C")
    left = plain.point(lambda p: 255 - p).getbbox()
    assert left is not None and left[2] > 40
    box = (0, 0, left[2], 60)
    assert plain.crop(box).tobytes() == signed.crop(box).tobytes()
    assert signed.tobytes() != drawn("Frost 5.2 14.9 °C").tobytes()
