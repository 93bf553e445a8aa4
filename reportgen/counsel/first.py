"""What is said first: safety, uncounted, then five."""

from __future__ import annotations

from reportgen.counsel.grounds import Grounds, Told
from reportgen.counsel.results import Results


def told_first(r: Results, on: Grounds) -> tuple[Told, ...]:
    """Safety first; then the worst event, the weeks, the lever, the lever undone, the hold: those that there are."""
    return ()
