"""A drawing that stands on its own: colours written out, so that a picture file can be made of it without a page."""

from __future__ import annotations

import re
from collections.abc import Mapping

_COLOR = re.compile(r"var\(--([a-z0-9-]+)\)")


def still(svg: str, colors: Mapping[str, str], family: str) -> str:
    """The SVG with its custom properties replaced.

    Args:
        svg: What one of the forms gave.
        colors: A colour for each name, without the two dashes.
        family: One font for all words, since a character that it lacks turns its whole line into another.

    Raises:
        KeyError: A colour is not told.
    """
    told = _COLOR.sub(lambda found: colors[found[1]], svg)
    return told.replace("<svg ", f'<svg xmlns="http://www.w3.org/2000/svg" font-family="{family}" ', 1)
