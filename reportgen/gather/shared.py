"""A review that was handed over whole → what `review --share` would have let out of it.

Prices and harvest that `[share]` of its season.toml does not allow are taken out with the reason that a shared review
gives. What else `--share` takes out (notes, story, absences, day length, zone) is on no white list (keys.py). One whose
words name the place that it keeps private is left out, as `--share` makes none of it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from reportgen.gather.document import Unfit
from reportgen.gather.keys import Kept, Review, Row, Share
from reportgen.readings.types import PRIVATE

MONEY = re.compile("(?:money|[A-Z]{3})(?:/.*)?")  # unit of a row of two winters: the currency, or its word
PICKED, PICKING = "kg", "picking"  # in its unit; in its words, where it is counted in weeks
PRICES: Mapping[str, tuple[str, ...]] = {"heat": ("cost",), "balance": ("total", "per_kg")}
HARVEST: Mapping[str, tuple[str, ...]] = {
    "harvest": ("kg", "kg_per_m2", "weeks_at_half_or_more"),
    "balance": ("per_kg",),
}


def without_private(review: Review) -> Review:
    """The review with what its grower lets out.

    Raises:
        Unfit: Its words name the place that is kept private.
    """
    share = _share(review)
    if share.place_named and not share.place:
        raise Unfit(
            "its words name the place that its [share] keeps private; ask its grower for one made with `review --share`"
        )
    if not share.prices:
        season = review.season.model_copy(update={"currency": None})
        review = _without(review.model_copy(update={"season": season}), PRICES)
    if not share.harvest:
        review = _without(review, HARVEST)
    rows = [row for row in review.winters.rows if _may_go(row, share)]
    return review.model_copy(update={"winters": review.winters.model_copy(update={"rows": rows})})


def _share(review: Review) -> Share:
    """What may go. A review of an older release does not say: one without its zone was made with `--share`, so that it
    holds nothing else; of another only what season.toml lets out by itself."""
    if review.share is not None:
        return review.share
    return Share(prices=True, harvest=True) if review.season.time_zone is None else Share()


def _without(review: Review, taken: Mapping[str, Sequence[str]]) -> Review:
    changed: dict[str, Kept] = {}
    for section, names in taken.items():
        found: Any = getattr(review, section)
        held = [name for name in names if getattr(found, name) is not None]
        reasons = found.reasons | dict.fromkeys(held, PRIVATE)
        changed[section] = found.model_copy(update={**dict.fromkeys(held), "reasons": reasons})
    return review.model_copy(update=changed)


def _may_go(row: Row, share: Share) -> bool:
    of_money = MONEY.fullmatch(row.unit) is not None
    of_harvest = PICKED in row.unit or PICKING in row.what
    return (share.prices or not of_money) and (share.harvest or not of_harvest)
