"""What may be a review among the places an organiser names: files and folders, looked through and never written to.

A review comes as a ZIP of `review --share`, as a built site's folder, or as a bare .json file. Links are not followed
out of the place that was named, and hidden files are not looked at.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from reportgen import limits
from reportgen.disk import Unreadable, read_all
from reportgen.gather.packed import Sheet, reviews_in
from reportgen.gather.texts import told
from reportgen.problems import Problem, SeasonError

ENDINGS = (".zip", ".json")


@dataclass(frozen=True, kw_only=True, slots=True)
class Spot:
    """One file to look at. `source`: what it is called; `reason`: why it cannot be looked at."""

    path: Path
    source: str
    reason: str | None = None


def spots(places: Sequence[Path]) -> list[Spot]:
    """Every file that may hold a review, each once, in order of place and name.

    Raises:
        SeasonError: A place is not there, or holds more than limits allow; all of them at once.
    """
    found: dict[str, Spot] = {}
    problems: list[Problem] = []
    for place in places:
        try:
            for spot in _at(place):
                found.setdefault(os.path.realpath(spot.path), spot)
        except Unreadable as error:
            problems.append(_problem(error.slug, place, error.found, error.todo))
    if problems:
        raise SeasonError(problems)
    return list(found.values())


def sheets(found: Sequence[Spot]) -> Iterator[Sheet]:
    """What stands in each of the files, one after the other, read within limits."""
    for spot in found:
        if spot.reason is not None:
            yield Sheet(source=spot.source, reason=spot.reason)
            continue
        packed = spot.path.suffix.lower() == ".zip"
        try:
            raw = read_all(spot.path, limits.ZIP_BYTES if packed else limits.REVIEW_BYTES)
        except Unreadable as error:
            yield Sheet(source=spot.source, reason=error.found)
            continue
        if packed:
            yield from reviews_in(raw, spot.source)
        else:
            yield Sheet(source=spot.source, raw=raw)


def _at(place: Path) -> Iterator[Spot]:
    try:
        real = place.resolve()
        if real.is_file():
            reason = None if place.suffix.lower() in ENDINGS else "neither a .zip nor a .json: no review comes so"
            yield Spot(path=real, source=told(place.name or real.name), reason=reason)
            return
        if not real.is_dir():
            raise Unreadable("no such file or folder", "name the ZIPs or the folder in which they lie", "no-such-place")
        yield from _below(real, told(real.name) or "here")
    except (OSError, RuntimeError, ValueError) as error:
        why = getattr(error, "strerror", None) or "it cannot be looked at"
        raise Unreadable(f"a place that cannot be opened ({why})", "see that you may read it", "cannot-open") from None


def _below(root: Path, name: str) -> Iterator[Spot]:
    left = limits.GATHERED_FILES.most
    for here, folders, files in os.walk(root):
        level = len(Path(here).relative_to(root).parts)
        folders[:] = sorted(folder for folder in folders if not _hidden(folder))
        left -= len(folders) + len(files)
        if left < 0:
            todo = "name the folder in which the reviews lie, and no larger one"
            found = f"more than there can be reviews in; {limits.GATHERED_FILES.words} are looked at"
            raise Unreadable(found, todo, "too-much")
        for file in sorted(files):
            if not _hidden(file) and file.lower().endswith(ENDINGS):
                yield _spot(Path(here) / file, root, name)
        if level >= limits.GATHERED_LEVELS.most and folders:
            source = told(f"{name}/{Path(here).relative_to(root).as_posix()}")
            yield Spot(path=Path(here), source=source, reason=f"{limits.GATHERED_LEVELS.words} are looked through")
            folders.clear()


def _spot(path: Path, root: Path, name: str) -> Spot:
    source = told(f"{name}/{path.relative_to(root).as_posix()}")
    real = Path(os.path.realpath(path))
    if not real.is_relative_to(root):
        return Spot(path=path, source=source, reason="a link that leads out of the folder; put the file itself there")
    if not real.is_file():
        return Spot(path=path, source=source, reason="no plain file, or a link that leads to none")
    return Spot(path=real, source=source)


def _hidden(name: str) -> bool:
    return name.startswith(".") or name == "__MACOSX"


def _problem(slug: str, place: Path, found: str, todo: str) -> Problem:
    expected = "a ZIP of `review --share`, a built site, a review.json, or a folder of such"
    return Problem(slug=slug, file=told(str(place)), found=found, expected=expected, todo=todo)
