"""Money of several houses: never of two currencies in one line, and who keeps prices to itself is told so."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pandas as pd

from reportgen.charts.types import Drawing
from reportgen.counsel.brief import begun
from reportgen.gather.pages import measure
from reportgen.gather.pages.measure import Look, Point
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.words import kept_private, named, plain_words
from reportgen.gather.types import Winter
from reportgen.units import POUND_KG
from reportgen.wording import NBSP, number

MOST_CURRENCIES = 2  # with a picture of their own; the rest stand in the table


def by_currency(winter: Winter) -> str:
    """The currency's own letters; '' where none is given."""
    return plain_words(winter.currency or "")[:3].upper()


def keeps_prices(winter: Winter) -> bool:
    """Whether its review says that money was kept in the house."""
    return kept_private(winter, "heat.cost", "balance.")


def money_pictures(
    told: Told, uid: str, value: Callable[[Winter], float | None], title: str, subtitle: str, table: pd.DataFrame
) -> list[Drawing]:
    """A picture of money for each kilogram (pound) for each currency that two houses share, the commonest first."""
    w = told.w
    found: dict[str, list[Point]] = {}
    for house in told.group.houses:
        amount, currency = value(house.newest), by_currency(house.newest)
        if amount is None or not currency:
            continue
        shown = amount * POUND_KG if w.us else amount
        found.setdefault(currency, []).append(
            Point(house=house, value=shown, said=f"{currency}{NBSP}{number(shown, 2)}")
        )
    kept = sorted((item for item in found.items() if len(item[1]) > 1), key=lambda item: (-len(item[1]), item[0]))
    unit = "pound" if w.us else "kilogram"
    alone = [points[0].house.label for points in found.values() if len(points) == 1]
    out = []
    for n, (currency, points) in enumerate(kept[:MOST_CURRENCIES]):
        ends = f"{currency}{NBSP}{measure.spread_words([p.value for p in points], 2)}"
        look = Look(token="money", least=0.0)
        out.append(
            measure.drawing(
                f"{uid}_{n + 1}" if n else uid,
                title.format(unit=unit, ends=ends),
                subtitle.format(unit=unit, currency=currency),
                points,
                look,
                told,
                table,
                sure=_rest(told, len(kept), alone),
            )
        )
    return out


def _rest(told: Told, currencies: int, alone: Sequence[str]) -> str:
    private = [h.label for h in told.group.houses if keeps_prices(h.newest)]
    parts = ["Prices are each house's own."]
    if currencies > 1:
        parts.append("Each currency stands by itself.")
    if alone:
        their = (
            "is alone in its currency: it stands" if len(alone) == 1 else "are alone in their currencies: they stand"
        )
        parts.append(f"{begun(named(alone, 3))} {their} in the table.")
    if private:
        parts.append(f"{named(private, 3)} {'keeps its' if len(private) == 1 else 'keep their'} prices in the house.")
    return " ".join(parts)
