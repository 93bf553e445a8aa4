"""Tables of what the review's decisions rest on, on the page where their findings stand."""

from __future__ import annotations

from reportgen.charts.events_tables import events_tables, page_of_events
from reportgen.charts.hold_tables import hold_tables
from reportgen.charts.levers_tables import levers_tables
from reportgen.charts.types import Table
from reportgen.review import Review


def grounds_tables(slug: str, review: Review) -> tuple[Table, ...]:
    """Events, levers and the hold; the balance stands among the blocks of its own page."""
    found: tuple[Table, ...] = ()
    if slug == page_of_events(review):
        found += events_tables(review)
    if slug == "changes":
        found += levers_tables(review)
    if slug == "heat":
        found += hold_tables(review)
    return found
