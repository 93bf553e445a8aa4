"""Pictures of the story however damaged or large: shown or told, never a fall, and upright."""

from __future__ import annotations

import base64
import io
import random
import struct
import zlib
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from reportgen import limits
from reportgen.disk import Unreadable
from reportgen.site.pictures import Album


def made(kind: str, **more: object) -> bytes:
    """A picture of four colours, 24 by 16."""
    image = Image.new("RGB", (24, 16), (20, 90, 40))
    image.paste((200, 30, 30), (0, 0, 6, 4))
    image.paste((30, 30, 200), (18, 12, 24, 16))
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def exif(orientation: object = 6) -> bytes:
    """An EXIF block with an orientation and a few more tags."""
    block = Image.Exif()
    block[0x0112] = orientation
    block[0x010F] = "Maker"
    block[0x011A] = 72.0
    block.get_ifd(0x8825)[1] = "N"
    return block.tobytes()


def shown(folder: Path, raw: bytes) -> Image.Image | str:
    """The picture as it would stand in the page, or why it cannot."""
    (folder / "a.png").write_bytes(raw)
    try:
        address = Album(folder).embedded("a.png")
    except Unreadable as error:
        return error.slug
    return Image.open(io.BytesIO(base64.b64decode(address.partition(",")[2])))


WHOLE = {
    "PNG": made("PNG", exif=exif()),
    "JPEG": made("JPEG", exif=exif()),
    "WEBP": made("WEBP", exif=exif()),
    "GIF": made("GIF"),
}


@pytest.mark.parametrize("kind", sorted(WHOLE))
def test_a_damaged_picture_is_shown_or_told(tmp_path: Path, kind: str) -> None:
    """Cut short and with bits turned, three hundred times each from one seed: no other error comes out."""
    whole, dice = WHOLE[kind], random.Random(f"damage {kind}")
    for _ in range(300):
        raw = bytearray(whole[: dice.randrange(len(whole)) if dice.random() < 0.3 else len(whole)])
        for _ in range(dice.randrange(1, 6) if raw else 0):
            raw[dice.randrange(len(raw))] ^= 1 << dice.randrange(8)
        found = shown(tmp_path, bytes(raw))
        assert not isinstance(found, str) or found in ("cannot-open", "too-much")


def test_damaged_chunks_with_right_sums(tmp_path: Path) -> None:
    """A PNG whose chunks are nonsense but whose check sums are right gets past the first look."""
    dice = random.Random("chunks")
    for _ in range(200):
        name = dice.choice([b"tRNS", b"PLTE", b"eXIf", b"iCCP", b"zTXt", b"iTXt", b"pHYs", b"gAMA", b"cHRM", b"acTL"])
        body = dice.randbytes(dice.randrange(40))
        chunk = struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        found = shown(tmp_path, WHOLE["PNG"][:33] + chunk + WHOLE["PNG"][33:])
        assert not isinstance(found, str) or found == "cannot-open"


@pytest.mark.parametrize("orientation", [0, 9, 65_535])
def test_an_orientation_that_is_none_is_passed_over(tmp_path: Path, orientation: object) -> None:
    """The picture is shown as it lies."""
    found = shown(tmp_path, made("JPEG", exif=exif(orientation)))
    assert not isinstance(found, str) and found.size == (24, 16)


@pytest.mark.parametrize(("orientation", "corner"), [(1, (0, 0)), (3, (23, 15)), (6, (15, 0)), (8, (0, 23))])
def test_a_picture_stands_upright(tmp_path: Path, orientation: int, corner: tuple[int, int]) -> None:
    """The red corner is at the top left of the stored picture; EXIF 2.3, 4.6.4 A: 3 is turned half round, 6 has its
    first row on the right-hand side, 8 its first row on the left-hand side and its first column at the bottom."""
    found = shown(tmp_path, made("PNG", exif=exif(orientation)))
    assert not isinstance(found, str)
    assert found.convert("RGB").getpixel(corner) == (200, 30, 30)


def test_limits_hold_before_a_pixel_is_unpacked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A header that claims 237 megapixels over no data at all: refused by the claim."""
    head = struct.pack(">IIBBBBB", 15_400, 15_400, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + head
    raw = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + chunk + struct.pack(">I", zlib.crc32(chunk))
    data = struct.pack(">I", 0) + b"IDAT" + struct.pack(">I", zlib.crc32(b"IDAT"))
    assert shown(tmp_path, raw + data) == "too-much"
    monkeypatch.setattr(limits, "PICTURE_BYTES", replace(limits.PICTURE_BYTES, most=50))
    assert shown(tmp_path, WHOLE["PNG"]) == "too-much"


def test_pictures_together_have_limits(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By number and by pixels; the same picture twice counts once."""
    for n in range(4):
        (tmp_path / f"{n}.png").write_bytes(WHOLE["PNG"])
    monkeypatch.setattr(limits, "PICTURES", replace(limits.PICTURES, most=2))
    album = Album(tmp_path)
    for name in ("0.png", "0.png", "1.png"):
        album.embedded(name)
    with pytest.raises(Unreadable, match="pictures"):
        album.embedded("2.png")
    monkeypatch.setattr(limits, "PICTURES_PIXELS", replace(limits.PICTURES_PIXELS, most=500))
    album = Album(tmp_path)
    album.embedded("0.png")
    with pytest.raises(Unreadable, match="pixels"):
        album.embedded("1.png")
