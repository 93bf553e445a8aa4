"""Everything a lever's verdict is decided from, put together once."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.counsel.grounds import Ends, PriceSide
from reportgen.counsel.levers_safety import Burner
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.types import Outcome
from reportgen.readings.lever_types import Lever
from reportgen.wording import Wording


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """One lever before its verdict.

    `forbidden_by`: burners that speak against it; `beside`: burners that belong to the house while it tightens it;
    `sealed`: it is itself a burner that was lit in a tightened house. `refused`: why nothing can be told of it.
    `price`: what it did beside what was hoped. `undoing_helped`: what it was undone for came true. `cost`: money it
    cost, None where the diary names none.
    """

    lever: Lever
    effect: LeverEffect
    hoped: Outcome | None
    hopes: tuple[str, ...]
    forbidden_by: tuple[Burner, ...]
    beside: tuple[Burner, ...]
    sealed: bool
    refused: str
    price: tuple[PriceSide, ...]
    payback: Ends | None
    no_payback: str  # why there is none, where it would be asked for
    winter_kwh: Ends | None
    cost: float | None
    years: float | None
    on_now: bool
    undone: bool
    undoing_helped: bool
    spell: bool
    reversible: bool
    w: Wording
    running: bool = False  # the winter still runs
    own_flue_unsaid: bool = False  # it is itself a burner of which season.toml does not say whether it has a flue

    @property
    def warms(self) -> bool:
        """A heater, hoped to warm or to save: told under heat."""
        heats = ("lift", "night_minimum", "heat", "watts_per_kelvin")
        return "heater" in self.lever.touches and (self.hoped is None or self.hoped.outcome in heats)

    @property
    def switched(self) -> tuple[Outcome, ...]:
        """All it did, *on* against *off*, where that is more than its one line tells."""
        return self.effect.outcomes if self.lever.undone and not self.effect.without else ()

    @property
    def judged_on_heat(self) -> bool:
        """The outcome hoped for is heat: it must pay."""
        return self.hoped is not None and self.hoped.outcome in ("heat", "watts_per_kelvin")

    @property
    def in_minutes(self) -> bool:
        """It can be switched in minutes and nothing forbids it: spells were, and what touches the air alone."""
        slow = {"water", "bed", "heater", "thermostat", "plants"} & set(self.lever.touches)
        quick = self.spell or set(self.lever.touches) == {"air"}
        return self.reversible and quick and not slow and not self.beside
