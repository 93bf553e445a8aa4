"""What the harvest's findings share: how sure a weight is, and how the weighings are told."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.wording import count, day

WEIGHED = "Sure: it was weighed, and the meters and prices are your own."


def weighings(facts: Facts) -> str:
    """12 weighings from 3 November to 2 April."""
    pickings = len(facts.r.harvest.pickings)
    first, last = facts.r.harvest.first, facts.r.harvest.last
    if first is None or last is None:
        return count(pickings, "weighing")
    return f"{count(pickings, 'weighing')} from {day(first)} to {day(last)}"
