"""Events: what happened, one sentence each however many measures saw it."""

from __future__ import annotations

from reportgen.counsel.grounds import Event
from reportgen.counsel.results import Results


def events(r: Results) -> tuple[Event, ...]:
    """The events of the season, the worst first."""
    return ()
