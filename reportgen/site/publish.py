"""Publishing a built folder: beside the target first, then exchanged in one step; the old site is never half gone."""

from __future__ import annotations

import ctypes
import errno
import json
import os
import sys
import time
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from reportgen.site.stage import NEW, OLD, stage

MARKER = ".reportgen-site.json"
SEASON = "season.toml"
GROUP = "data/group.json"  # what only the pages of a group hold
AT_FDCWD, RENAME_EXCHANGE = -100, 2  # Linux, renameat2(2)
TRIES, PAUSE_S = 5, 0.2


class PublishError(Exception):
    """The target is no folder this tool may write; the message says what to do."""


def check_target(out: Path, folder: Path) -> None:
    """Refuses a target for the site of one season before anything is computed.

    Raises:
        PublishError: As `check_place`, or `out` holds the pages of a group.
    """
    check_place(out, folder)
    if (resolved(out) / GROUP).is_file():
        raise PublishError(f"{out} holds the pages of a group, which would be replaced; name another folder")


def check_place(out: Path, folder: Path) -> None:
    """Refuses a target for any site of ours made from `folder`.

    Raises:
        PublishError: `out` is a file, no name the system can hold, a mounted folder, lies inside a season folder or
            around the season, cannot be written, or holds what this tool did not write.
    """
    target = resolved(out)
    try:
        _check_place(out, target, folder.resolve())
    except (OSError, RuntimeError, ValueError) as error:
        raise PublishError(f"{out} cannot be looked at ({_why(error)}); name another folder") from error


def resolved(out: Path) -> Path:
    """Where `out` really is.

    Raises:
        PublishError: A link leads back to itself, the name is too long, or the folder one stands in is gone.
    """
    try:
        target = out.resolve()
        os.path.lexists(target)
        target.exists()
    except FileNotFoundError:
        raise PublishError("the folder you are in is gone; change to another one and name --out from there") from None
    except (OSError, RuntimeError, ValueError) as error:
        why = "a link that leads back to itself" if isinstance(error, RuntimeError) else _why(error)
        raise PublishError(f"{str(out)[:200]} is no folder that can be made ({why}); name another one") from None
    if target.is_symlink():  # resolved, and a link still: it leads back to itself
        raise PublishError(f"{out} is no folder that can be made (a link that leads back to itself); name another one")
    return target


def _check_place(out: Path, target: Path, season: Path) -> None:
    if target.exists() and not target.is_dir():
        raise PublishError(f"{out} is a file; name a folder for the site")
    for parent in (target, *target.parents):
        if (parent / SEASON).is_file():
            raise PublishError(f"{out} lies inside the season folder {parent}; name a folder outside it")
    if season == target or target in season.parents:
        raise PublishError(f"the season folder lies inside {out}, which would be replaced; name another folder")
    if os.path.ismount(target):  # Path.is_mount is not to be had on Windows before Python 3.12
        raise _mounted(out)
    foreign = strangers(target)
    if foreign:
        names = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
        raise PublishError(f"{out} holds what this tool did not write ({names}); name a new or empty folder")
    _writable(target)


def _mounted(out: Path) -> PublishError:
    return PublishError(
        f"{out} is a drive or a mounted folder, which cannot be replaced in one step; name a folder in it, "
        f"such as {out / 'site'}"
    )


def _why(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()


def strangers(target: Path) -> list[str]:
    """What is in the target and no older site of ours brought there, by its path in it (folders end in a slash): files,
    links of any kind, empty folders. Empty when the target may be replaced.

    Raises:
        OSError: A folder in it cannot be listed.
    """
    if not target.is_dir():
        return []
    own = {MARKER, *_own_files(target)}
    ours = {parent.as_posix() for name in own for parent in PurePosixPath(name).parents}
    found: list[str] = []
    for place, folders, names in os.walk(target, onerror=_stop):
        below = Path(place).relative_to(target)
        links = [name for name in (*folders, *names) if (Path(place) / name).is_symlink()]
        found += [(below / name).as_posix() for name in links]
        found += [path for name in names if name not in links and (path := (below / name).as_posix()) not in own]
        strange = [n for n in folders if n not in links and (below / n).as_posix() not in ours]
        found += [f"{(below / name).as_posix()}/" for name in strange]
        folders[:] = [name for name in folders if name not in strange and name not in links]
    return sorted(found)


def _stop(error: OSError) -> None:
    raise error


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
    target = resolved(out)
    try:
        if foreign := strangers(target):
            raise PublishError(f"{out} holds what this tool did not write ({foreign[0]}); name a new or empty folder")
        target.parent.mkdir(parents=True, exist_ok=True)
        with stage(target) as room:
            _put(files, room, target, out)
    except OSError as error:
        raise PublishError(f"nothing can be written in {target.parent} ({_why(error)})") from error


def _put(files: Mapping[str, bytes], room: Path, target: Path, out: Path) -> None:
    try:
        (room / NEW).mkdir()
        _fill(room / NEW, files)
        _exchange(room / NEW, target)
    except OSError as error:
        if error.errno in (errno.EBUSY, errno.EXDEV):
            raise _mounted(out) from error
        raise PublishError(f"the site could not be put in {out} ({_why(error)}); the old one stands") from error


def _fill(stage: Path, files: Mapping[str, bytes]) -> None:
    stage.chmod(0o755)
    marker = json.dumps({"format": 1, "files": sorted(files)}, indent=1).encode()
    for name, content in {**files, MARKER: marker}.items():
        path = stage / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


def _exchange(new: Path, target: Path) -> None:
    """Afterwards `target` holds what `new` held; `new` holds the old site or nothing."""
    if not target.exists():
        new.rename(target)
    elif not _swap(new, target):
        _two_renames(new, target)


def _swap(new: Path, target: Path) -> bool:
    """One system call on Linux; False where the kernel or the file system has none."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    done: int = call(AT_FDCWD, os.fsencode(new), AT_FDCWD, os.fsencode(target), RENAME_EXCHANGE)
    if done == 0:
        return True
    code = ctypes.get_errno()
    if code in (errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP, errno.EXDEV):
        return False
    raise OSError(code, os.strerror(code))


def _two_renames(new: Path, target: Path) -> None:
    """The old site steps aside and comes back if the new one cannot take its place."""
    aside = new.with_name(OLD)
    for attempt in range(TRIES):
        try:
            target.rename(aside)
            break
        except PermissionError:
            if attempt == TRIES - 1:
                _file_by_file(new, target)
                return
            time.sleep(PAUSE_S)
    try:
        new.rename(target)
    except OSError:
        aside.rename(target)
        raise


def _file_by_file(new: Path, target: Path) -> None:
    """Where an open page locks the folder: each file is replaced by itself, the first page and the marker last."""
    old = set(_own_files(target))
    names = sorted(p.relative_to(new).as_posix() for p in new.rglob("*") if p.is_file())
    names.sort(key=lambda name: (name == MARKER, name == "index.html"))
    for name in names:
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        (new / name).replace(target / name)
    for name in old - set(names):
        (target / name).unlink(missing_ok=True)
