"""Pictures of the story, carried in the page itself: upright, small, without where and when they were taken."""

from __future__ import annotations

import base64
import io
from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

LONGEST = 1000  # pixels of the longer side; wider than the column on a sharp screen
QUALITY = 80
KINDS = {"JPEG", "PNG", "GIF", "WEBP"}
Image.MAX_IMAGE_PIXELS = 120_000_000


class PictureError(Exception):
    """The picture cannot be shown; the message is what was found."""


def embedded(folder: Path, name: str) -> str:
    """The picture as a data: address, drawn anew so that no metadata (place, time, camera) comes along.

    Raises:
        PictureError: Outside the season folder, missing, or no PNG, JPEG, GIF or WebP picture.
    """
    path = (folder / name).resolve()
    if not path.is_relative_to(folder.resolve()):
        raise PictureError("a picture outside the season folder")
    if not path.is_file():
        raise PictureError("no such file")
    try:
        with Image.open(path) as opened:
            if opened.format not in KINDS:
                raise PictureError(f"a {opened.format or 'strange'} file")
            upright = ImageOps.exif_transpose(opened)
            return _address(upright)
    except (UnidentifiedImageError, OSError, Image.DecompressionBombError, ValueError) as error:
        raise PictureError("a file that cannot be read as a picture") from error


def _address(image: Image.Image) -> str:
    """Photographs as JPEG, drawings with few colours or see-through parts as PNG."""
    image = image.convert("RGBA" if "A" in image.getbands() or "transparency" in image.info else "RGB")
    image.thumbnail((LONGEST, LONGEST), Image.Resampling.LANCZOS)
    few = image.getcolors(maxcolors=256) is not None
    clean = Image.frombytes(image.mode, image.size, image.tobytes())
    out = io.BytesIO()
    if clean.mode == "RGBA" or few:
        clean.save(out, "PNG", optimize=True)
        kind = "png"
    else:
        clean.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=True)
        kind = "jpeg"
    return f"data:image/{kind};base64,{base64.b64encode(out.getvalue()).decode()}"
