"""Refuses a folder for the group's site that would touch what is gathered."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportgen.site.publish import PublishError, check_place, resolved


def check_target(out: Path, places: Sequence[Path]) -> None:
    """Refuses a target before anything is read.

    Raises:
        reportgen.site.publish.PublishError: It lies inside a place or around one, holds a review, or is no folder
            this tool may write.
    """
    target = resolved(out)
    for place in places:
        real = resolved(place)
        if target == real or real in target.parents:
            raise PublishError(f"{out} lies inside {place}, which is gathered; name a folder outside it")
        if target in real.parents:
            raise PublishError(f"{place} lies inside {out}, which would be replaced; name another folder")
    if (target / "data" / "review.json").is_file():
        raise PublishError(f"{out} holds the review of one house, which would be replaced; name another folder")
    check_place(out, places[0])
