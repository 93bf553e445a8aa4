"""The shared site: searched for what must not leave the house, and packed into one ZIP."""

from __future__ import annotations

import html
import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from reportgen.site.publish import MARKER, PublishError, resolved
from reportgen.site.stage import NEW, stage

# A moment with its offset from UTC tells in which zone it was written.
OFFSET = re.compile(rb"(\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?)(?:[+-]\d\d:?\d\d|Z)")
LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first moment a ZIP can tell: same input, same bytes
TEXT = (".html", ".json", ".csv", ".txt")


def without_offsets(built: Mapping[str, bytes]) -> dict[str, bytes]:
    """The same files with every moment in local time alone."""
    return {name: OFFSET.sub(rb"\1", data) if name.endswith(TEXT) else data for name, data in built.items()}


def search(built: Mapping[str, bytes], words: Sequence[str]) -> None:
    """The last look before anything is written.

    Raises:
        PublishError: A private word stands in a file's name or text; the message names files and words.
    """
    found = [f"{word!r} in {name}" for name, data in built.items() for word in words if _holds(name, data, word)]
    if found:
        more = f" and {len(found) - 3} more" if len(found) > 3 else ""
        raise PublishError(
            f"something private would have been shared ({'; '.join(found[:3])}{more}), so nothing was written; "
            "take it out of the names and files of the season, or allow it under [share] in season.toml"
        )


def _holds(name: str, data: bytes, word: str) -> bool:
    if word.casefold() in name.casefold():
        return True
    if not name.endswith(TEXT):
        return False
    text = data.decode("utf-8").casefold()
    return any(form.casefold() in text for form in (word, html.escape(word)))


def target(out: Path) -> Path:
    """Where the ZIP stands: beside the site, by its name."""
    real = resolved(out)
    return real.with_name(f"{real.name}.zip")


def check_zip(out: Path) -> None:
    """Refuses a ZIP this tool did not write.

    Raises:
        PublishError: Another file has that name.
    """
    path = target(out)
    if path.exists() and not _ours(path):
        raise PublishError(f"{path} is there already and was not written by this tool; name another folder for --out")


def _ours(path: Path) -> bool:
    try:
        with zipfile.ZipFile(path) as there:
            return any(name.endswith(f"/{MARKER}") for name in there.namelist())
    except (OSError, zipfile.BadZipFile):
        return False


def write_zip(built: Mapping[str, bytes], out: Path) -> Path:
    """One ZIP of the whole site, its files in one folder; put in place in one step."""
    path = target(out)
    folder = path.stem
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in sorted({**built, MARKER: b'{"format": 1}'}.items()):
            entry = zipfile.ZipInfo(f"{folder}/{name}", LONG_AGO)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, data)
    try:
        with stage(path) as room:
            (room / NEW).write_bytes(packed.getvalue())
            (room / NEW).replace(path)
    except OSError as error:
        raise PublishError(f"{path} cannot be written ({error.strerror}); the site itself is in {out}") from error
    return path
