"""The shared site: searched for what must not leave the house, and packed into one ZIP."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from reportgen.readings.folded import Private
from reportgen.readings.spot import RUN_END
from reportgen.site.own_words import own_words
from reportgen.site.publish import MARKER, PublishError, resolved
from reportgen.site.seen_words import seen_in, unseen_in
from reportgen.site.stage import NEW, stage

# A moment with its offset from UTC tells in which zone it was written.
OFFSET = re.compile(rb"(\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?)(?:[+-]\d\d:?\d\d|Z)")
LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first moment a ZIP can tell: same input, same bytes
INSIDE = "review"  # the folder in the ZIP; what the grower calls theirs is theirs
UNIX = 3  # the system on which a ZIP says it was made (APPNOTE 4.4.2), on whatever it was
TEXT = (".html", ".json", ".csv", ".txt", ".ics")


def without_offsets(built: Mapping[str, bytes]) -> dict[str, bytes]:
    """The same files with every moment in local time alone."""
    return {name: OFFSET.sub(rb"\1", data) if name.endswith(TEXT) else data for name, data in built.items()}


def search(built: Mapping[str, bytes], private: Sequence[Private], out: Path | None = None) -> None:
    """The last look before anything is written, on words as a reader sees them and on what pictures carry unseen.

    A name that is a word of the report itself (March, Reading) cannot be told from it here and is passed over; what the
    grower typed was searched for it line by line before.

    Raises:
        PublishError: Something private stands in a file, or in the name of a file, of `out` or of the ZIP.
    """
    if out is not None:
        _check_name(resolved(out).name, private)
    found = [f"{words!r} in {name}" for name, data in built.items() for words in _told(name, data, private)]
    if found:
        more = f" and {len(found) - 3} more" if len(found) > 3 else ""
        raise PublishError(
            f"something private would have been shared ({'; '.join(found[:3])}{more}), so nothing was written; "
            "take it out of the names and files of the season, or allow it under [share] in season.toml"
        )


def _check_name(name: str, private: Sequence[Private]) -> None:
    if any(one.told_in(name) for one in private):
        raise PublishError(
            f"the ZIP to pass on would be called {name}.zip, which tells what [share] keeps private; name another "
            "folder for --out"
        )


def _told(name: str, data: bytes, private: Sequence[Private]) -> Iterator[str]:
    """What is private in one file."""
    texts = RUN_END.join((name, *seen_in(name, data)))
    yield from (one.name for one in private if one.told_in(texts) and not one.told_in(own_words()))
    yield from (f"unseen words ({what})" for what in unseen_in(name, data))


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
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in sorted({**built, MARKER: b'{"format": 1}'}.items()):
            entry = zipfile.ZipInfo(f"{INSIDE}/{name}", LONG_AGO)
            entry.create_system = UNIX
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
