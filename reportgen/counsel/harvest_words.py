"""What the harvest's findings share: how sure a weight is, and how the weighings are told."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.wording import count, day

SELDOM_DAYS = 28.0  # of the season for each weighing: a book kept more seldom holds hardly all that was picked; our own
WEIGHED = "Sure: it was weighed, and the meters and prices are your own."


def seldom_weighed(facts: Facts) -> bool:
    """Whether the harvest book speaks of single weighings: then they are counted beside what each kilogram cost, and
    no gap between them is told."""
    return 0 < len(facts.r.harvest.pickings) < facts.r.season.hours / 24.0 / SELDOM_DAYS


def picked_words(facts: Facts) -> str:
    """picked; of few weighings: weighed (3 weighings)."""
    return f"weighed ({count(len(facts.r.harvest.pickings), 'weighing')})" if seldom_weighed(facts) else "picked"


def weighings(facts: Facts) -> str:
    """12 weighings from 3 November to 2 April."""
    pickings = len(facts.r.harvest.pickings)
    first, last = facts.r.harvest.first, facts.r.harvest.last
    if first is None or last is None:
        return count(pickings, "weighing")
    return f"{count(pickings, 'weighing')} from {day(first)} to {day(last)}"
