"""What stands beside a verdict, in at most twenty plain words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from reportgen.counsel.brief import heater
from reportgen.counsel.changes_words import amount
from reportgen.counsel.grounds import Ends, JudgedLever, PriceSide
from reportgen.counsel.levers_safety import Burner
from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER
from reportgen.effects.types import Outcome
from reportgen.wording import NBSP, Wording, between, count, number

MOST_WORDS = 20
# What a price is: the outcome, the words when it is more and when it is less.
PRICES = {
    "watts_per_kelvin": ("more heat for each degree", "less heat for each degree"),
    "heat": ("more heat", "less heat"),
    "night_humidity": ("damper at night", "drier at night"),
    "daily_light": ("more light", "less light"),
    "lift": ("warmer at night", "cooler at night"),
}

# How a condition begins that is nothing to do but something to know: its price, or whether it pays.
NOT_DONE = ("between ", "at most ", "pays ", "perhaps ", "whether ", "even ")


def known_only(condition: str) -> bool:
    """Whether a condition is only to be known, as a price, and not to be kept."""
    return condition[:1].isdigit() or condition.startswith(NOT_DONE)


def fitting(parts: Iterable[str]) -> str:
    """As many of the parts, first first, as stay within twenty words; the first always stands."""
    said: list[str] = []
    for part in parts:
        if said and len(" ".join([*said, part]).replace(NBSP, " ").split()) > MOST_WORDS:
            continue
        said.append(part)
    return "; ".join(said)


def worse(side: PriceSide) -> bool:
    """Its interval leaves out zero on the side that is worse."""
    return side.high < 0 if side.outcome in LARGER_IS_BETTER else side.low > 0


def price_words(side: PriceSide, w: Wording) -> str:
    """2.7 to 9.7 points damper at night: both ends, and which way."""
    return f"{_ends(side_outcome(side), w)} {PRICES[side.outcome][0 if side.effect > 0 else 1]}"


def side_outcome(side: PriceSide) -> Outcome:
    """The side as an outcome, so that its numbers are printed as everywhere."""
    return Outcome(
        outcome=side.outcome,
        unit=side.unit,
        declared=False,
        effect=side.effect,
        low=side.low,
        high=side.high,
        before_mean=side.before_mean,
    )


def _ends(outcome: Outcome, w: Wording) -> str:
    ends = sorted((abs(outcome.low), abs(outcome.high)))
    return between(amount(outcome, ends[0], w), amount(outcome, ends[1], w))


def at_most_words(hoped: Outcome, w: Wording) -> str:
    """At most 0.4 K warmer: the favourable end; or that even that is none."""
    best = hoped.high if hoped.outcome in LARGER_IS_BETTER else -hoped.low
    what = {
        "lift": "warmer",
        "heat": "less heat",
        "watts_per_kelvin": "less heat for each degree",
        "night_humidity": "drier",
        "soil_mean": "warmer bed",
        "soil_swing": "less swing of the bed",
        "daily_light": "more light",
    }[hoped.outcome]
    if best <= 0:
        return "not even at best what was hoped"
    size = amount(replace(hoped, effect=best), best, w)
    return f"at most {size} {what}" if any(c in "123456789" for c in size) else "next to nothing"


def payback_words(payback: Ends) -> str:
    """Pays back in 0.4 to 1.1 winters; from 1.2 winters, perhaps never."""
    if payback.low is None:
        return "perhaps never pays back"
    if payback.high is None:
        soonest = "the first winter" if payback.low <= 1 else f"{number(payback.low, 1)}{NBSP}winters"
        return f"pays back from {soonest} on, perhaps never"
    low, high = number(payback.low, 1), number(payback.high, 1)
    ends = f"{low} to {high}" if low != high else low
    return f"pays back in {ends}{NBSP}{'winter' if ends == '1.0' else 'winters'}"


def cost_words(lever: JudgedLever | None, w: Wording) -> str:
    """What it cost and when it has paid that; empty where no cost is known or heat was not what it was for."""
    if lever is None or lever.payback_winters is None or not lever.cost or lever.outcome not in HEAT:
        return ""
    return f"It cost {w.money(lever.cost)} and, in winters like this one, {payback_words(lever.payback_winters)}."


def years_words(years: float | None) -> str:
    """The 3 years it lasts; one winter, where nobody said."""
    if years is None:
        return "one winter, as no years are noted"
    return f"its {count(years, 'year')}"


def never_lit(burning: Sequence[Burner], never: str = "with") -> str:
    """Never with the gas heater lit; unless it has a flue, where season.toml does not say so of any of them."""
    lit = f"never {never} {names(f'the {heater(b.name)}' for b in burning)} lit"
    unsaid = all(b.flue_unsaid for b in burning)
    return f"{lit} unless {'it has' if len(burning) == 1 else 'they have'} a flue" if unsaid else lit


def names(of: Iterable[str]) -> str:
    """The gas heater and the stove."""
    listed = list(of)
    return " and ".join([", ".join(listed[:-1]), listed[-1]] if len(listed) > 1 else listed)
