"""What a reader can get out of a built file: its words as they are shown, and what a picture carries unseen."""

from __future__ import annotations

import base64
import binascii
import csv
import io
import json
import re
import struct
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

from reportgen.readings.spot import RUN_END

DATA = re.compile(r"data:image/\w+;base64,([A-Za-z0-9+/=]+)")
SHAPES = ("d", "points", "transform", "style", "viewbox", "class")  # attributes that hold figures, not words
# Elements that end no word: <b>Tan</b>nery is one.
INLINE = "a|abbr|b|bdi|bdo|cite|code|em|i|kbd|mark|q|s|samp|small|span|strong|sub|sup|tspan|u|var|wbr"
PNG = b"\x89PNG\r\n\x1a\n"
# Chunks that hold only how the picture is drawn (PNG, third edition, 11.2 and 11.3); all others can hold words.
DRAWN = (b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"sBIT", b"sRGB", b"bKGD", b"hIST", b"pHYs")
JPEG, SCAN = b"\xff\xd8", 0xDA
UNSEEN = (0xFE, *range(0xE1, 0xEE), 0xEF)  # comment and APP1 … APP13, APP15 (ITU-T T.81, B.2.4.5 and B.2.4.6)


class _Words(HTMLParser):
    """Text and attributes of a page; the pictures in it apart."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.text: list[str] = []
        self.attributes: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._end_word(tag)
        self.attributes += [value for name, value in attrs if value and name not in SHAPES]

    def handle_endtag(self, tag: str) -> None:
        self._end_word(tag)

    def handle_data(self, data: str) -> None:
        self.text.append(data)

    def handle_comment(self, data: str) -> None:
        self.attributes.append(data)

    def _end_word(self, tag: str) -> None:
        if not re.fullmatch(INLINE, tag):
            self.text.append(RUN_END)


def seen_in(name: str, data: bytes) -> Iterator[str]:
    """The words of one file: of a page its text and attributes, of JSON its keys and texts, of a table its cells, of a
    calendar its lines unfolded, of other text all of it; of a picture, or anything that is no text, the letters that
    stand in it openly. Runs of text that only stand near each other, as a chart's ticks do, are parted by RUN_END."""
    if name.endswith(".html"):
        page = _Words()
        page.feed(data.decode("utf-8"))
        page.close()
        yield "".join(page.text)
        yield RUN_END.join(DATA.sub("", value) for value in page.attributes)
    elif name.endswith(".json"):
        yield RUN_END.join(_texts(json.loads(data)))
    elif data.startswith((PNG, JPEG)):
        return
    elif name.endswith(".csv"):
        rows = csv.reader(io.StringIO(data.decode("utf-8", errors="replace"), newline=""))
        yield RUN_END.join(cell for row in rows for cell in row)
    elif name.endswith(".ics"):
        yield re.sub(r"\\([,;\\])", r"\1", data.decode("utf-8").replace("\r\n ", "")).replace("\\n", "\n")
    else:
        yield data.decode("utf-8", errors="replace")


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from _texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(inner)
    elif isinstance(value, str):
        yield value


def unseen_in(name: str, data: bytes) -> Iterator[str]:
    """Where a picture, or a picture in a page, carries more than what is drawn: place, time, camera, comments."""
    if name.endswith(".html"):
        for found in DATA.finditer(data.decode("utf-8")):
            try:
                yield from _more(base64.b64decode(found[1], validate=True))
            except (binascii.Error, ValueError):
                yield "a picture that cannot be read"
    else:
        yield from _more(data)


def _more(data: bytes) -> Iterator[str]:
    try:
        if data.startswith(PNG):
            yield from _chunks(data)
        elif data.startswith(JPEG):
            yield from _segments(data)
    except (struct.error, IndexError):
        yield "a picture that cannot be read"


def _chunks(data: bytes) -> Iterator[str]:
    at = len(PNG)
    while at < len(data):
        (length,) = struct.unpack_from(">I", data, at)
        kind = data[at + 4 : at + 8]
        if kind not in DRAWN:
            yield f"chunk {kind.decode('latin-1')}"
        at += 12 + length
        if kind == b"IEND" and at < len(data):
            yield "bytes after its end"
            return


def _segments(data: bytes) -> Iterator[str]:
    at = len(JPEG)
    while data[at + 1] != SCAN:
        (length,) = struct.unpack_from(">H", data, at + 2)
        if data[at + 1] in UNSEEN:
            yield f"segment {data[at + 1]:X}"
        at += 2 + length
