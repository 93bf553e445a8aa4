"""Lines broken to fit a terminal of 100 columns."""

from __future__ import annotations

import textwrap

WIDTH = 100


def wrapped(words: str, indent: int = 2, hang: int = 2) -> str:
    """Words broken at the width, later lines a little further in."""
    return textwrap.fill(
        words,
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hang),
        break_long_words=False,
        break_on_hyphens=False,
    )
