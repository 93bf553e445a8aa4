"""Publishing a built folder: beside the target first, then exchanged in one step; the old site is never half gone."""

from __future__ import annotations

import ctypes
import errno
import json
import os
import shutil
import sys
import tempfile
import time
from collections.abc import Mapping
from pathlib import Path

MARKER = ".reportgen-site.json"
SEASON = "season.toml"
AT_FDCWD, RENAME_EXCHANGE = -100, 2  # Linux, renameat2(2)
TRIES, PAUSE_S = 5, 0.2


class PublishError(Exception):
    """The target is no folder this tool may write; the message says what to do."""


def check_target(out: Path, folder: Path) -> None:
    """Refuses a target before anything is computed.

    Raises:
        PublishError: `out` is a file, lies inside a season folder or around the season, cannot be written, or holds
            files this tool did not write.
    """
    target, season = out.resolve(), folder.resolve()
    if target.exists() and not target.is_dir():
        raise PublishError(f"{out} is a file; name a folder for the site")
    for parent in (target, *target.parents):
        if (parent / SEASON).is_file():
            raise PublishError(f"{out} lies inside the season folder {parent}; name a folder outside it")
    if season == target or target in season.parents:
        raise PublishError(f"the season folder lies inside {out}, which would be replaced; name another folder")
    foreign = strangers(target)
    if foreign:
        names = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
        raise PublishError(f"{out} holds files this tool did not write ({names}); name a new or empty folder")
    _writable(target)


def strangers(target: Path) -> list[str]:
    """Files in the target that no older site of ours wrote; empty when it may be replaced."""
    if not target.is_dir():
        return []
    there = {p.relative_to(target).as_posix() for p in target.rglob("*") if not p.is_dir()}
    return sorted(there - {MARKER} - set(_own_files(target)))


def _own_files(target: Path) -> list[str]:
    try:
        marker = json.loads((target / MARKER).read_text(encoding="utf-8"))
        files = marker["files"]
        return [str(name) for name in files] if isinstance(files, list) else []
    except (OSError, ValueError, KeyError, TypeError):
        return []


def _writable(target: Path) -> None:
    parent = target.parent
    while not parent.exists():
        parent = parent.parent
    if not parent.is_dir() or not os.access(parent, os.W_OK):
        raise PublishError(f"nothing can be written in {parent}; name another folder")


def publish(files: Mapping[str, bytes], out: Path) -> None:
    """Writes the files beside `out`, then puts them in its place; what was there before is removed last.

    Raises:
        PublishError: Files that are not ours have come into `out` meanwhile, or the disk refused; the old site stands.
    """
    target = out.resolve()
    foreign = strangers(target)
    if foreign:
        raise PublishError(f"{out} holds a file this tool did not write ({foreign[0]}); name a new or empty folder")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        stage = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    except OSError as error:
        raise PublishError(f"nothing can be written in {target.parent} ({error.strerror})") from error
    try:
        _fill(stage, files)
        _exchange(stage, target)
    except OSError as error:
        raise PublishError(f"the site could not be put in {out} ({error.strerror}); the old one stands") from error
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def _fill(stage: Path, files: Mapping[str, bytes]) -> None:
    stage.chmod(0o755)
    marker = json.dumps({"format": 1, "files": sorted(files)}, indent=1).encode()
    for name, content in {**files, MARKER: marker}.items():
        path = stage / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


def _exchange(stage: Path, target: Path) -> None:
    """Afterwards `target` holds what `stage` held; `stage` holds the old site or nothing."""
    if not target.exists():
        stage.rename(target)
    elif not _swap(stage, target):
        _two_renames(stage, target)


def _swap(stage: Path, target: Path) -> bool:
    """One system call on Linux; False where the kernel or the file system has none."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    done: int = call(AT_FDCWD, os.fsencode(stage), AT_FDCWD, os.fsencode(target), RENAME_EXCHANGE)
    if done == 0:
        return True
    code = ctypes.get_errno()
    if code in (errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.EXDEV):
        return False
    raise OSError(code, os.strerror(code))


def _two_renames(stage: Path, target: Path) -> None:
    """The old site steps aside and comes back if the new one cannot take its place."""
    aside = stage.with_name(stage.name + "-old")
    for attempt in range(TRIES):
        try:
            target.rename(aside)
            break
        except PermissionError:
            if attempt == TRIES - 1:
                _file_by_file(stage, target)
                return
            time.sleep(PAUSE_S)
    try:
        stage.rename(target)
    except OSError:
        aside.rename(target)
        raise
    shutil.rmtree(aside, ignore_errors=True)


def _file_by_file(stage: Path, target: Path) -> None:
    """Where an open page locks the folder: each file is replaced by itself, the first page and the marker last."""
    old = set(_own_files(target))
    names = sorted(p.relative_to(stage).as_posix() for p in stage.rglob("*") if p.is_file())
    names.sort(key=lambda name: (name == MARKER, name == "index.html"))
    for name in names:
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        (stage / name).replace(target / name)
    for name in old - set(names):
        (target / name).unlink(missing_ok=True)
