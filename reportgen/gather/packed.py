"""Reviews inside a ZIP, read in memory: nothing is unpacked to disk, and no size that a ZIP claims is believed."""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath

from reportgen import limits
from reportgen.gather.document import Unfit
from reportgen.gather.texts import told
from reportgen.limits import Limit

END, END_BYTES, COMMENT_BYTES = b"PK\x05\x06", 22, 65_535  # APPNOTE 4.3.16
LARGE, LARGE_BYTES = b"PK\x06\x07", 20  # APPNOTE 4.3.15
READ = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)  # only these unpack no further than they are asked
LOCKED = 0x1  # APPNOTE 4.4.4
REVIEW = "review.json"


@dataclass(frozen=True, kw_only=True, slots=True)
class Sheet:
    """A file that may be a review: its bytes, or why it cannot be read."""

    source: str
    raw: bytes = b""
    reason: str | None = None


@dataclass(slots=True)
class _Left:
    """How much may still be unpacked of one ZIP and what is in it."""

    bytes: int


def reviews_in(raw: bytes, source: str) -> Iterator[Sheet]:
    """Every review.json of a ZIP and of the ZIPs in it, or in their stead why it cannot be read.

    Args:
        raw: The whole file, at most limits.ZIP_BYTES.
        source: What it is called.
    """
    yield from _reviews(raw, source, 1, _Left(limits.ZIP_UNPACKED.most))


def _reviews(raw: bytes, source: str, level: int, left: _Left) -> Iterator[Sheet]:
    try:
        _check_list(raw)
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            members = [entry for entry in packed.infolist() if not entry.is_dir()]
            if len(members) > limits.ZIP_MEMBERS.most:
                raise Unfit(f"it holds {len(members):,} files; {limits.ZIP_MEMBERS.words} are read")
            wanted = [entry for entry in members if _may_be_one(entry.filename)]
            if not wanted:
                raise Unfit("a ZIP without a review.json: no shared review")
            if len({entry.filename for entry in wanted}) < len(wanted):
                raise Unfit("it holds two files of one name; ask for the ZIP as `review --share` wrote it")
            for entry in wanted:
                yield from _of_member(packed, entry, source, level, left)
    except Unfit as unfit:
        yield Sheet(source=source, reason=str(unfit))
    except (zipfile.BadZipFile, ValueError, OSError, struct.error, EOFError, NotImplementedError):
        yield Sheet(source=source, reason="no ZIP, or a damaged one: it was cut off on its way; ask for it again")


def _of_member(
    packed: zipfile.ZipFile, entry: zipfile.ZipInfo, source: str, level: int, left: _Left
) -> Iterator[Sheet]:
    name = f"{source}: {told(entry.filename)[:200]}"
    try:
        if entry.filename.lower().endswith(".zip"):
            if level >= limits.ZIP_LEVELS.most:
                raise Unfit(f"{limits.ZIP_LEVELS.words} are read")
            yield from _reviews(_unpacked(packed, entry, limits.ZIP_BYTES, left), name, level + 1, left)
        else:
            yield Sheet(source=name, raw=_unpacked(packed, entry, limits.REVIEW_BYTES, left))
    except Unfit as unfit:
        yield Sheet(source=name, reason=str(unfit))


def _may_be_one(name: str) -> bool:
    """Whether a member is a review or a ZIP; what systems leave beside files is none."""
    parts = PurePosixPath(name.replace("\\", "/")).parts
    if any(part.startswith("._") or part == "__MACOSX" for part in parts):
        return False
    return parts[-1:] == (REVIEW,) or name.lower().endswith(".zip")


def _unpacked(packed: zipfile.ZipFile, entry: zipfile.ZipInfo, limit: Limit, left: _Left) -> bytes:
    """What a member really unpacks to.

    Raises:
        Unfit: Its name leads out of the ZIP, it is locked, packed in another way, damaged, or too large.
    """
    parts = PurePosixPath(entry.filename.replace("\\", "/")).parts
    if ".." in parts or parts[0].startswith("/") or ":" in parts[0]:
        raise Unfit("its name leads out of the ZIP, as none does that `review --share` writes")
    if entry.flag_bits & LOCKED:
        raise Unfit("it is locked with a password; ask for it without one")
    if entry.compress_type not in READ:
        raise Unfit("it is packed in a way that `review --share` does not use; ask for the ZIP as it was written")
    most = min(limit.most, left.bytes)
    try:
        with packed.open(entry) as stream:
            raw = stream.read(most + 1)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError, struct.error):
        raise Unfit("it is damaged inside the ZIP; ask for it again") from None
    left.bytes -= len(raw)
    if len(raw) > most:
        told_of = limit if most == limit.most else limits.ZIP_UNPACKED
        raise Unfit(f"it unpacks to more than a review can be: {told_of.words} are read")
    return raw


def _check_list(raw: bytes) -> None:
    """Refuses a ZIP whose list of files is too long to be held, before anything holds it.

    Raises:
        Unfit: It has no such list, a longer one than limits.ZIP_LIST_BYTES, or one for very large files.
    """
    at = len(raw) - END_BYTES
    if not (raw[at : at + 4] == END and raw[-2:] == b"\0\0"):
        at = raw.rfind(END, max(0, len(raw) - END_BYTES - COMMENT_BYTES))
    if at < 0 or at + END_BYTES > len(raw):
        raise Unfit("no ZIP, or a damaged one: it was cut off on its way; ask for it again")
    if raw[max(0, at - LARGE_BYTES) : at].startswith(LARGE):
        raise Unfit("a ZIP of the form for very large files, as `review --share` writes none")
    (size,) = struct.unpack_from("<I", raw, at + 12)
    if size > limits.ZIP_LIST_BYTES.most:
        raise Unfit(f"its own list of files has {size:,} bytes; {limits.ZIP_LIST_BYTES.words} are read")
