"""Nights of one kind beside the others: after watering, without heat."""

from __future__ import annotations

from reportgen.charts.types import Table
from reportgen.counsel.damp_nights import points
from reportgen.counsel.facts import Facts
from reportgen.effects.types import KindOfNight
from reportgen.wording import NBSP, number
from reportgen.wording import points as in_points

UIDS = {"after watering": "damp_watering", "without heat": "damp_unheated"}


def kinds_of_night(facts: Facts) -> list[Table]:
    """A table for each kind of night of which there are enough on either side to be compared."""
    return [_nights(facts, found) for found in facts.r.effects.kinds_of_night]


def _nights(facts: Facts, found: KindOfNight) -> Table:
    kind = found.name
    data = found.table.rename(columns={"value": "humidity at night %", "kind": kind})
    rows = []
    for value, words in ((1, kind), (0, "other nights")):
        part = found.table.loc[found.table["kind"] == value, "value"]
        rows.append((words, number(len(part)), facts.w.percent(float(part.mean()), 1)))
    effect, low, high = points(found)
    note = (
        f"With the weather taken out they differ by {in_points(effect)} (95{NBSP}% interval {low} to {high}). "
        "That such nights differ does not show what made them so."
    )
    return Table(
        uid=UIDS[kind],
        title=f"Nights {kind}, beside the others",
        subtitle="Mean relative humidity beside the crop, 20 to 6 o'clock",
        columns=("nights", "how many", "mean humidity"),
        rows=tuple(rows),
        data=data,
        notes=(note,),
    )
