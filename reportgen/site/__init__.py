"""Frozen views, templates and the published folder."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from reportgen.site.publish import PublishError, check_target, publish

if TYPE_CHECKING:
    from reportgen.readings.folded import Private
    from reportgen.review import Review
    from reportgen.site.story import Story

__all__ = ["PublishError", "check_target", "write_site"]


def _quietly(_: str) -> None:
    """The progress of a caller who wants none."""


def write_site(
    review: Review,
    out: Path,
    *,
    story: Story | None = None,
    share: bool = False,
    private: Sequence[Private] = (),
    tell: Callable[[str], None] = _quietly,
) -> None:
    """Draws every page and puts the site in `out`, replacing an older site of ours in one step.

    With `share` the review must have been made of shared readings; `private` is what may stand nowhere. One
    ZIP of the site is written beside it.

    Raises:
        PublishError: `out` may not be written; what was there stays as it was.
    """
    from reportgen.site import share as sharing  # what draws is imported late: a wrong --out is told at once
    from reportgen.site.render import files

    check_target(out, review.season.folder)
    if share:
        sharing.check_zip(out)
    built = files(review, tell, story=story, share=share)
    if share and not review.season.share.place:
        built = sharing.without_offsets(built)
    if share:
        sharing.search(built, private, out)
    tell("writing the site")
    publish(built, out)
    if share:
        sharing.write_zip(built, out)
