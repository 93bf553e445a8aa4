"""Pictures of the story, carried in the page itself: upright, small, without where and when they were taken."""

from __future__ import annotations

import base64
import contextlib
import io
import warnings
from pathlib import Path

from PIL import Image

from reportgen import limits
from reportgen.disk import Unreadable, read_inside, too_much

LONGEST = 1000  # pixels of the longer side; wider than the column on a sharp screen
QUALITY = 80
ORIENTATION = 0x0112  # tag of EXIF 2.3, 4.6.4; its values 2 to 8 name the turn that puts the picture upright
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
KINDS = ("JPEG", "PNG", "GIF", "WEBP")  # no other decoder is tried
Image.MAX_IMAGE_PIXELS = None  # limits.PICTURE_PIXELS is judged instead, before a pixel is unpacked


class Album:
    """The pictures of one story, each made small once; together they stay below the limits."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._small: dict[str, str] = {}
        self._pixels = 0

    def embedded(self, name: str) -> str:
        """The picture as a data: address, drawn anew so that no metadata (place, time, camera) comes along.

        Raises:
            Unreadable: Outside the season folder, missing, too large, or no PNG, JPEG, GIF or WebP picture.
        """
        if name not in self._small:
            if len(self._small) >= limits.PICTURES.most:
                raise too_much(limits.PICTURES, f"picture {len(self._small) + 1:,}")
            self._small[name] = self._made_small(read_inside(self._folder, name, limits.PICTURE_BYTES))
        return self._small[name]

    def _made_small(self, raw: bytes) -> str:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # damaged metadata, which is not kept
                with Image.open(io.BytesIO(raw), formats=KINDS) as opened:
                    self._count(opened)
                    return _address(_upright(opened))
        except Unreadable:
            raise
        except Exception as error:  # what decoders raise on damaged files has no common parent
            todo = "open it in a picture program and save it again as PNG or JPEG"
            raise Unreadable("a file that cannot be read as a picture", todo) from error

    def _count(self, opened: Image.Image) -> None:
        pixels = opened.width * opened.height
        self._pixels += pixels
        if pixels > limits.PICTURE_PIXELS.most:
            raise too_much(limits.PICTURE_PIXELS, f"{pixels:,} pixels")
        if self._pixels > limits.PICTURES_PIXELS.most:
            raise too_much(limits.PICTURES_PIXELS, f"{self._pixels:,} pixels in the pictures so far")


def _upright(opened: Image.Image) -> Image.Image:
    """Small first, so that a large picture stands in memory once; then turned as its camera says."""
    see_through = "A" in opened.getbands() or "transparency" in opened.info
    turn = None
    with contextlib.suppress(Exception):  # damaged EXIF: the picture is shown as it lies
        turn = TURNS.get(opened.getexif().get(ORIENTATION, 1))
    opened.draft("RGB", (2 * LONGEST, 2 * LONGEST))  # a JPEG is unpacked at a half, a quarter or an eighth
    image = opened if opened.mode in ("RGB", "RGBA", "L") else opened.convert("RGBA" if see_through else "RGB")
    image.thumbnail((LONGEST, LONGEST), Image.Resampling.LANCZOS)
    image = image.convert("RGBA" if see_through else "RGB")
    image = image if turn is None else image.transpose(turn)
    return Image.frombytes(image.mode, image.size, image.tobytes())  # the pixels and nothing else


def _address(image: Image.Image) -> str:
    """Photographs as JPEG, drawings with few colours or see-through parts as PNG."""
    few = image.getcolors(maxcolors=256) is not None
    out = io.BytesIO()
    if image.mode == "RGBA" or few:
        image.save(out, "PNG", optimize=True)
        kind = "png"
    else:
        image.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=True)
        kind = "jpeg"
    return f"data:image/{kind};base64,{base64.b64encode(out.getvalue()).decode()}"
