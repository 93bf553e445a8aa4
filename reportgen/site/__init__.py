"""Frozen views, templates and the published folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from reportgen.review import Review
from reportgen.site.publish import PublishError, check_target, publish
from reportgen.site.render import files

__all__ = ["PublishError", "check_target", "write_site"]


def _quietly(_: str) -> None:
    """The progress of a caller who wants none."""


def write_site(review: Review, out: Path, *, share: bool = False, tell: Callable[[str], None] = _quietly) -> None:
    """Draws every page and puts the site in `out`, replacing an older site of ours in one step.

    Raises:
        SeasonError: The story quotes what is not there; nothing is written.
        PublishError: `out` may not be written; what was there stays as it was.
    """
    check_target(out, review.season.folder)
    built = files(review, tell)
    tell("writing the site")
    publish(built, out)
