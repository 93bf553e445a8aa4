"""What is known of a lever once the weather is taken out and its switches are one estimate: frozen, doubt included."""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.effects.types import NAN, Outcome, Verdict


@dataclass(frozen=True, kw_only=True, slots=True)
class Range:
    """Two ends of what may be; no middle, which a curtain drawn by night alone would put too high."""

    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Spared:
    """Heat and money that a lever spared; below 0 it cost heat.

    `since_…`: in the hours that it was on. `winter_…`: what a whole winter like this one would be spared. Money is
    None where any heat of the season has no price. `relative`: heat for each degree, share less (0 … 0.9; None where
    only sums over days were known). `flat_out`: the heater gave all it could in more than a tenth of its hours, so
    that part of what was spared went into warmth. `periods`: how many weeks or days it rests on, 0 for hours.
    """

    since_kwh: Range
    winter_kwh: Range
    since_money: Range | None
    winter_money: Range | None
    relative: Range | None
    flat_out: bool
    periods: int = 0


@dataclass(frozen=True, kw_only=True, slots=True)
class LeverEffect:
    """One lever of the diary: what it did while *on*, each outcome with its 95 % interval or why there is none.

    Of an outcome `days_before` are the days off, `days_after` those on, `before_mean` the level off. `hope`: the first
    hope that a logger can judge, in the diary's words. `verdict` is that of *on* against *off*. `without`: why it
    cannot be told from something else at all, empty where it can.
    """

    lines: tuple[int, ...]
    hope: str | None
    outcomes: tuple[Outcome, ...]
    verdict: Verdict
    care: float = NAN  # in the declared outcome's unit
    spared: Spared | None = None
    spared_reason: str = ""
    without: str = ""
    before_heat: bool = False  # it was on before the first heated night, or no night was heated

    @property
    def declared(self) -> Outcome | None:
        """The outcome hoped for, if a logger can judge one."""
        return next((o for o in self.outcomes if o.declared), None)

    def outcome(self, name: str) -> Outcome | None:
        """That outcome, if it could be told."""
        return next((o for o in self.outcomes if o.outcome == name and o.refused is None), None)
