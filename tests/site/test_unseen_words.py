"""Pictures of a shared site carry nothing but what is drawn."""

from __future__ import annotations

import base64
import io

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo
from shared_folder import small, unpacked

from reportgen.pipeline import review
from reportgen.site import PublishError
from reportgen.site.seen_words import unseen_in
from reportgen.site.share import search

EXIF = Image.Exif()
EXIF[0x010E] = "Tannery Yard"  # ImageDescription, EXIF 2.3


def picture(kind: str, **more: object) -> bytes:
    """A small picture, saved with what is given beside it."""
    out = io.BytesIO()
    Image.new("RGB", (9, 9), "green").save(out, kind, **more)  # type: ignore[arg-type]
    return out.getvalue()


def noted() -> PngInfo:
    """A note as cameras and programs leave it in a PNG."""
    told = PngInfo()
    told.add_text("Comment", "Tannery Yard")
    return told


CARRYING = {
    "PNG text": picture("PNG", pnginfo=noted()),
    "PNG EXIF": picture("PNG", exif=EXIF),
    "PNG with a tail": picture("PNG") + b"Tannery Yard",
    "JPEG EXIF": picture("JPEG", exif=EXIF),
    "JPEG comment": picture("JPEG", comment=b"Tannery Yard"),
}


@pytest.mark.parametrize("kind", CARRYING)
def test_what_a_picture_carries_unseen_stops_the_sharing(kind: str) -> None:
    """By itself or in a page; whatever it says, since nobody sees it."""
    data = CARRYING[kind]
    page = b'<img src="data:image/png;base64,' + base64.b64encode(data) + b'">'
    for name, built in (("a.png", data), ("a.html", page)):
        with pytest.raises(PublishError, match="unseen"):
            search({name: built}, [])


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_bare_picture_is_let_through(kind: str) -> None:
    """Figures of how it is drawn are no words."""
    assert list(unseen_in("a", picture(kind, dpi=(72, 72)))) == []


def test_the_pictures_of_a_story_lose_what_they_carry(tmp_path_factory: pytest.TempPathFactory) -> None:
    """With place and comment in them they are shared without; their files' names are not shared either."""
    folder = tmp_path_factory.mktemp("pictures")
    season = small(folder / "s", place="Tannery Yard", share="story = true", story="![The bed](tannery-yard.jpg)\n")
    (season / "tannery-yard.jpg").write_bytes(picture("JPEG", exif=EXIF, comment=b"Tannery Yard"))
    review(season, folder / "o", share=True)
    assert b"data:image/" in unpacked(folder / "o.zip")["review/index.html"]
    assert not any(b"annery" in data for data in unpacked(folder / "o.zip").values())
