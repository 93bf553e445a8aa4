"""Bytes of a file → UTF-8 bytes with plain line ends, whatever the logger's program wrote."""

from __future__ import annotations

import codecs
from pathlib import Path

from reportgen import limits
from reportgen.disk import Unreadable, read_all, too_much
from reportgen.limits import Limit


class NotATable(Unreadable):
    """The file cannot be a table; `found` says what it is, `todo` what to do."""

    def __init__(self, found: str, todo: str, slug: str = "not-a-table") -> None:
        super().__init__(found, todo, slug)


RESAVE = "export it again as CSV, or save the sheet as CSV (UTF-8)"


def load_text(path: Path, encoding: str | None = None) -> bytes:
    """The text of a file as UTF-8 with line ends \\n.

    UTF-8 (with or without mark), UTF-16 (with mark, or seen by its zero bytes), else the Western European code page of
    older programs. Blocks of zero bytes, which a logger leaves when its power fails, are taken out.

    Raises:
        NotATable: Empty, or no text, or an encoding nobody knows.
        Unreadable: It cannot be opened, or is past a limit.
    """
    raw = read_all(path, limits.FILE_BYTES)
    if not raw.strip(b"\0 \t\r\n"):
        raise NotATable("an empty file", "export it again, or take it out of the folder", "empty-file")
    text = _utf8(raw, encoding)
    if b"\0" in text:
        text = text.replace(b"\0", b"")
    if b"\r" in text:
        text = text.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    check_lines(text, limits.FILE_ROWS)
    return text


def check_lines(text: bytes, rows: Limit) -> None:
    """Refuses a text of too many lines, or with a line that never ends.

    Raises:
        Unreadable: More than `rows` lines, or a line longer than limits.LINE_BYTES.
    """
    count = text.count(b"\n")
    if count > rows.most:
        raise too_much(rows, f"{count:,} lines")
    start = 0
    while len(text) - start > limits.LINE_BYTES.most:
        end = text.rfind(b"\n", start, start + limits.LINE_BYTES.most + 1)
        if end < 0:
            raise too_much(limits.LINE_BYTES, f"a line of more than {limits.LINE_BYTES.most:,} bytes")
        start = end + 1


def _utf8(raw: bytes, encoding: str | None) -> bytes:
    if encoding is not None:
        return _declared(raw, encoding)
    if raw.startswith(codecs.BOM_UTF8):
        return raw[3:]
    if raw[:2] in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE):
        return raw.decode("utf-16", errors="replace").encode()
    if (bare := _bare_utf16(raw)) is not None:
        return raw.decode(bare, errors="replace").encode()
    if raw[:4096].count(0) > 0 and not _looks_like_text(raw[:4096].replace(b"\0", b"")):
        raise NotATable("a file that is no plain text", RESAVE)
    try:
        if not raw.isascii():
            raw.decode("utf-8")
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace").encode()
    return raw


def _declared(raw: bytes, encoding: str) -> bytes:
    try:
        return raw.decode(encoding, errors="replace").lstrip("\ufeff").encode()
    except (LookupError, ValueError):
        todo = 'leave `encoding` out, or write "utf-8", "utf-16" or "cp1252"'
        raise NotATable(f"the encoding {encoding!r}, which nobody knows", todo, "unknown-encoding") from None


def _bare_utf16(raw: bytes) -> str | None:
    """UTF-16 without its mark: every other byte of plain text is zero."""
    head = raw[:512]
    half = len(head) // 2
    if half < 8:
        return None
    if head[1::2].count(0) > 0.8 * half and head[0::2].count(0) < 0.1 * half:
        return "utf-16-le"
    if head[0::2].count(0) > 0.8 * half and head[1::2].count(0) < 0.1 * half:
        return "utf-16-be"
    return None


def _looks_like_text(head: bytes) -> bool:
    control = sum(byte < 32 and byte not in (9, 10, 13) for byte in head)
    return bool(head) and control <= 0.02 * len(head)
