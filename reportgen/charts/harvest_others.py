"""What others have measured, for the eye only: never a verdict."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts

OTHERS = (
    (
        "winter kale, unheated tunnel, sown in October",
        5.6,
        "Heyduck, VanLeeuwen and Guldan 2020, HortTechnology 30:570",
    ),
    (
        "lettuce in the open field, a whole year",
        3.9,
        "Barbosa et al. 2015, Int. J. Environ. Res. Public Health 12:6879",
    ),
    ("lettuce in a heated, lit greenhouse, a whole year", 41.0, "Barbosa et al. 2015"),
)


def others(facts: Facts) -> Table:
    """Yields per area of other houses and fields with their sources, this house first."""
    h = facts.r.harvest
    rows = [(what, facts.mass_per_area(per), source) for what, per, source in OTHERS]
    if h.kg_per_m2 is not None:
        rows.insert(
            0, ("this house, over its whole floor, this season", facts.mass_per_area(h.kg_per_m2), "your harvest book")
        )
    return Table(
        uid="harvest_others",
        title="What others have measured",
        subtitle="Yield per area; other crops, houses and lengths of time, so a range to look at and no yardstick",
        columns=("what", "yield", "source"),
        rows=tuple(rows),
        data=pd.DataFrame(OTHERS, columns=["what", "kg/m²", "source"]),
    )
