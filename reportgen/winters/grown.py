"""The picking of two winters that may be set side by side: of crops that both sowed at the same time of the year.

More crops, or an autumn sowing that the other winter had not, are no better winter. Two plantings are alike when they
are of one crop and were sown (else set out) within a fortnight by the calendar; each has one like at most.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from reportgen.measures.beds import owners
from reportgen.readings.types import Planting, Readings
from reportgen.winters.common import moved

ALIKE_D = 14  # our own line
NO_BOOK = "plantings.csv of both winters would tell which crops they sowed at the same time"
NONE_ALIKE = "the two winters sowed no crop within a fortnight of the same day"


@dataclass(frozen=True, kw_only=True, slots=True)
class Alike:
    """Weights [kg] of what both winters grew alike, lost pickings left out; None with `reason`. `crops`: their names.
    `whole`: it is all that either winter picked, so that its heat may be told by the kilogram in both."""

    this: float | None
    last: float | None
    crops: tuple[str, ...] = ()
    whole: bool = False
    reason: str = ""


def grown_alike(this: Readings, last: Readings, years: int) -> Alike:
    """What both winters grew alike.

    Args:
        years: Whole years by which last winter's dates are moved to lie on this one's.
    """
    if not this.harvest or not last.harvest:
        return Alike(this=None, last=None, reason="no harvest was weighed in one of the two winters")
    if not this.plantings or not last.plantings:
        return Alike(this=None, last=None, reason=NO_BOOK)
    pairs = _pairs(this.plantings, last.plantings, years)
    if not pairs:
        return Alike(this=None, last=None, reason=NONE_ALIKE)
    mine, theirs = (_kg(book, {pair[n] for pair in pairs}) for n, book in enumerate((this, last)))
    if mine is None or theirs is None:
        why = "two sowings of one crop stood at once, and the harvest book does not say which was picked"
        return Alike(this=None, last=None, reason=why)
    names = dict.fromkeys(this.plantings[i].crop for i, _ in pairs)
    whole = all(abs(kg - _all(book)) < 1e-6 for kg, book in ((mine, this), (theirs, last)))
    return Alike(this=mine, last=theirs, crops=tuple(names), whole=whole)


def _pairs(mine: Sequence[Planting], theirs: Sequence[Planting], years: int) -> list[tuple[int, int]]:
    """Indices of plantings that are alike, the nearest in time first."""
    near = sorted(
        (apart, i, j)
        for i, a in enumerate(mine)
        for j, b in enumerate(theirs)
        if a.crop.casefold() == b.crop.casefold() and (apart := _apart(a, b, years)) is not None and apart <= ALIKE_D
    )
    found: list[tuple[int, int]] = []
    for _, i, j in near:
        if all(i != a and j != b for a, b in found):
            found.append((i, j))
    return found


def _apart(mine: Planting, theirs: Planting, years: int) -> int | None:
    """Days between two sowings by the calendar; between settings out where a sowing is not written."""
    for key in ("sown", "planted"):
        a, b = getattr(mine, key), getattr(theirs, key)
        if isinstance(a, date) and isinstance(b, date):
            return abs((a - moved(b, years)).days)
    return None


def _kg(readings: Readings, chosen: set[int]) -> float | None:
    """What those plantings gave; None where a picking may be of one of them or of another."""
    rows = [(p, set(own)) for p, own in zip(readings.harvest, owners(readings), strict=True) if p.use != "lost"]
    if any(own & chosen and own - chosen for _, own in rows):
        return None
    return sum(picking.weight_kg for picking, own in rows if own & chosen)


def _all(readings: Readings) -> float:
    return sum(picking.weight_kg for picking in readings.harvest if picking.use != "lost")
