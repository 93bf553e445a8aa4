"""The one way to read a file of the season folder: inside it, a plain file, not too large; else in words why not."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

from reportgen.limits import Limit

ELSEWHERE = "put the file itself into the folder"


class Unreadable(Exception):
    """A file that cannot be read; `found` says why, `todo` what to do about it, `slug` is the problem's name."""

    def __init__(self, found: str, todo: str, slug: str = "cannot-open") -> None:
        self.found, self.todo, self.slug = found, todo, slug
        super().__init__(found)


def inside(folder: Path, name: str) -> Path:
    """Where a file of the folder is.

    Raises:
        Unreadable: It is not there (missing-file), lies outside by .. or a link (path-leads-out), or is no plain file.
    """
    path = folder / name
    try:
        mode = path.stat().st_mode
        real, root = path.resolve(), folder.resolve()
    except (OSError, RuntimeError, ValueError) as error:  # RuntimeError: a link to itself, up to Python 3.12
        raise _absent(path, error) from error
    if not real.is_relative_to(root):
        raise Unreadable("a path or link that leads out of the season folder", ELSEWHERE, "path-leads-out")
    if stat.S_ISDIR(mode):
        raise Unreadable("a folder of that name", "put a file of that name there, or rename the folder")
    if not stat.S_ISREG(mode):
        raise Unreadable("no plain file", ELSEWHERE)
    return path


def read_all(path: Path, limit: Limit) -> bytes:
    """The bytes of a file.

    Raises:
        Unreadable: It cannot be opened, or is longer than `limit` (too-much).
    """
    try:
        with path.open("rb") as file:
            if os.fstat(file.fileno()).st_size > limit.most:
                raise too_much(limit, f"{os.fstat(file.fileno()).st_size:,} bytes")
            raw = file.read(limit.most + 1)
    except (OSError, ValueError) as error:
        raise cannot_open(error) from error
    if len(raw) > limit.most:
        raise too_much(limit, f"more than {limit.most:,} bytes")
    return raw


def read_inside(folder: Path, name: str, limit: Limit) -> bytes:
    """The bytes of a file of the folder; raises as `inside` and `read_all`."""
    return read_all(inside(folder, name), limit)


def is_there(folder: Path, name: str) -> bool:
    """Whether something of that name is there, be it a file, a folder or a broken link."""
    try:
        return os.path.lexists(folder / name)
    except (OSError, ValueError):
        return False


def shown(name: str) -> str:
    r"""A file's name as it may be printed: bytes that are not UTF-8, as older systems wrote them, stand as \xe4."""
    return name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")


def cannot_open(error: Exception) -> Unreadable:
    """What to say of a file that the system does not open."""
    why = getattr(error, "strerror", None) or "the system gives no reason"
    todo = "close the program that has it open, see that you may read it, or copy the file again"
    return Unreadable(f"a file that cannot be opened ({why})", todo)


def too_much(limit: Limit, found: str) -> Unreadable:
    """What to say of something past a limit."""
    return Unreadable(f"{found}; {limit.words} are read", "take out what is not of this winter", "too-much")


def _absent(path: Path, error: Exception) -> Unreadable:
    number = getattr(error, "errno", None)
    dangling = number in (errno.ENOENT, errno.ENOTDIR, errno.ELOOP) or isinstance(error, RuntimeError)
    if dangling and path.is_symlink():
        return Unreadable("a link that leads to no file", ELSEWHERE)
    if number in (errno.ENOENT, errno.ENOTDIR, errno.ENAMETOOLONG, errno.ELOOP) or isinstance(error, ValueError):
        todo = "put the file there or correct its name in season.toml"
        return Unreadable("no such file", todo, "missing-file")
    return cannot_open(error)
