"""Room beside the target in which a site is made ready: this run's own, gone afterwards, and tidied by the next run if
this one is killed."""

from __future__ import annotations

import os
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

HELD = ".reportgen-stage"  # says whose the folder is; locked as long as the run that made it lives
NEW, OLD = "new", "old"
WORDS = b"A run of reportgen made this folder for a moment. If it is still here, the next run takes it away.\n"
RANDOM = r"-[a-z0-9_]{8}"  # what tempfile.mkdtemp adds to a name


@contextmanager
def stage(target: Path) -> Iterator[Path]:
    """An empty folder beside the target, in the same file system.

    Raises:
        OSError: It cannot be made.
    """
    tidy(target)
    room = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    held: BinaryIO | None = None
    try:
        held = (room / HELD).open("xb")
        _lock(held)
        held.write(WORDS)
        held.flush()
        yield room
    finally:
        try:
            _remove(room, held)
        except BaseException:  # stopped while tidying: to the end, then stop
            _remove(room, held)
            raise


def tidy(target: Path) -> None:
    """Takes away what killed runs left beside the target; brings back an old site that one of them had set aside."""
    ours = re.compile(re.escape(f".{target.name}") + RANDOM)
    with suppress(OSError):
        for room in [path for path in target.parent.iterdir() if ours.fullmatch(path.name)]:
            if room.is_symlink() or not room.is_dir() or not _left(room):
                continue
            if (room / OLD).is_dir() and not os.path.lexists(target):
                (room / OLD).rename(target)
            shutil.rmtree(room, ignore_errors=True)


def _left(room: Path) -> bool:
    """Whether a run made this folder and no longer lives: the folder is empty, or its lock is free."""
    if not any(room.iterdir()):
        return True
    try:
        with (room / HELD).open("r+b") as held:
            return _lock(held)
    except OSError:
        return False


def _lock(held: BinaryIO) -> bool:
    """Locks a file for as long as this process lives; False where another has it."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(held.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(held.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _remove(room: Path, held: BinaryIO | None) -> None:
    if held is not None:
        held.close()  # some systems keep a file that is open
    shutil.rmtree(room, ignore_errors=True)
