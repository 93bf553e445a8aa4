"""Numbers of any section by the dotted paths of review.json, so that a finding can look across pages."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from reportgen.counsel.grounds import Balance, Grounds, HoldAdvice
from reportgen.counsel.results import Results
from reportgen.dotted import value_at
from reportgen.measures.there import There
from reportgen.plain import plain
from reportgen.units import FOOT_M, POUND_KG
from reportgen.wording import NBSP, Wording, number

# What charts and single rules read by: nothing happened, nothing was judged.
NO_HOLD = HoldAdvice(
    dial_c=None, down_by_k=None, usually_c=None, coldest_c=None, nights=0, crop=None, reason="not worked out"
)
NO_BALANCE = Balance(
    heat=None, appliances=None, costs=None, changes_by_years=None, total=None, per_kg=None, missing=(), weeks=(),
    reasons={},
)  # fmt: skip
NO_GROUNDS = Grounds(events=(), levers=(), hold_advice=NO_HOLD, balance=NO_BALANCE)


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """One season's sections as in review.json, how its numbers are printed, and what was decided of it (`on`)."""

    r: Results
    w: Wording
    there: There
    on: Grounds = NO_GROUNDS

    @classmethod
    def of(cls, r: Results, on: Grounds = NO_GROUNDS) -> Facts:
        """Of these results, and of what was decided of them."""
        return cls(r=r, w=Wording.of(r.season), there=There.of(r.readings), on=on)

    def at(self, path: str) -> Any:
        """What stands at `heat.cost` or `frost.nights_below.0.estimate`; None where null or not there."""
        try:
            return plain(value_at(self.r, path))
        except KeyError:
            return None

    def number(self, path: str) -> float | None:
        """The number there, in the unit of its field; None where there is none."""
        found = self.at(path)
        if isinstance(found, bool) or not isinstance(found, int | float) or not math.isfinite(found):
            return None
        return float(found)

    @property
    def fuels(self) -> set[str]:
        """Fuels of the heaters."""
        return {source.fuel for source in self.r.season.heating}

    def per_mass(self, per_kg: float) -> float:
        """A figure per kg, per shown unit of weight."""
        return per_kg * POUND_KG if self.w.us else per_kg

    def money_per_mass(self, per_kg: float) -> str:
        """EUR 4.20 per kg."""
        return f"{self.w.money(self.per_mass(per_kg))} per{NBSP}{self.w.mass_unit}"

    def money_per_mass_between(self, per_kg: float, low: float | None, high: float | None) -> str:
        """EUR 4.20 per kg, or EUR 4.20 to 4.90 per kg where the money has bounds `low` and `high`."""
        if low is None or high is None:
            return self.money_per_mass(per_kg)
        return f"{self.w.money_range(self.per_mass(low), self.per_mass(high), 2)} per{NBSP}{self.w.mass_unit}"

    def mass_per_area(self, kg_per_m2: float) -> str:
        """3.4 kg/m² or 0.70 lb/ft²."""
        if not self.w.us:
            return f"{number(kg_per_m2, 1)}{NBSP}kg/m²"
        return f"{number(kg_per_m2 / POUND_KG * FOOT_M**2, 2)}{NBSP}lb/ft²"
