"""Both sides of a lever in a few words: what was hoped for, its money, its price; never a middle, always two ends."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.counsel.changes_words import WITHIN
from reportgen.counsel.grounds import Ends, JudgedLever, PriceSide
from reportgen.counsel.results import Results
from reportgen.effects.outcomes import HEAT, LARGER_IS_BETTER
from reportgen.measures.diary_words import says
from reportgen.wording import NBSP, Wording, between, digits_for, month, number

# outcome → (said of more of it, said of less of it)
_WAYS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "lift": ("warmer at night", "cooler at night"),
        "night_minimum": ("warmer at the coldest", "cooler at the coldest"),
        "heat": ("more heat", "less heat"),
        "watts_per_kelvin": ("more heat for each degree", "less heat for each degree"),
        "night_humidity": ("damper", "drier"),
        "moisture": ("more water in the air", "less water in the air"),
        "damp_hours": ("more damp a night", "less damp a night"),
        "soil_mean": ("warmer in the bed", "cooler in the bed"),
        "soil_swing": ("more swing in the bed", "less swing in the bed"),
        "daily_light": ("more light", "less light"),
    }
)
_ENDS = (" at night", " at the coldest", " heat for each degree", " heat", " water in the air", " damp a night",
         " in the bed", " light")  # fmt: skip
# The order in which prices are said: heat, damp, light, warmth, bed.
_ORDER = (
    "watts_per_kelvin", "heat", "night_humidity", "damp_hours", "moisture", "daily_light", "lift", "night_minimum",
    "soil_mean", "soil_swing",
)  # fmt: skip
# Outcomes that tell of one thing; of each only the first is said.
_FAMILIES = (("watts_per_kelvin", "heat"), ("night_humidity", "damp_hours", "moisture"), ("lift", "night_minimum"))
_DEGREES = frozenset({"lift", "night_minimum", "soil_mean", "soil_swing"})
_SHARES = frozenset({"heat", "watts_per_kelvin", "daily_light"})
WHOLE_FROM = 2.0  # points or per cent: an interval that reaches as far is told without decimals
ALL_OF_IT = 100.0  # per cent more: an end beyond it decides nothing (our own)
MOST_PRICES = 2


@dataclass(frozen=True, kw_only=True, slots=True)
class _Side:
    """An interval of one outcome, in its unit, and the mean it is a share of."""

    outcome: str
    unit: str
    low: float
    high: float
    base: float

    def turned(self) -> _Side:
        """The same with the lever off."""
        return _Side(outcome=self.outcome, unit=self.unit, low=-self.high, high=-self.low, base=self.base)

    @property
    def for_worse(self) -> tuple[float, float]:
        """The interval, so turned that more is worse."""
        return (-self.high, -self.low) if self.outcome in LARGER_IS_BETTER else (self.low, self.high)


def hoped_words(r: Results, lever: JudgedLever, *, off: bool = False) -> str:
    """27 to 43 % less heat for each degree; empty where nothing was measured. `off`: of the lever taken away."""
    side = _hoped(r, lever)
    return "" if side is None else _said(side.turned() if off else side, Wording.of(r.season))


def price_words(r: Results, lever: JudgedLever, *, off: bool = False) -> tuple[str, ...]:
    """What it did for the worse, the surest first; without one that is sure, the likeliest with its *perhaps*."""
    w, known = Wording.of(r.season), _worse(lever, off)
    sure = [side for side in known if side.for_worse[0] > 0]
    if sure:
        return tuple(_said(side, w) for side in sure[:MOST_PRICES])
    return tuple(_perhaps(side, w) for side in known[:1] if sum(side.for_worse) > 0)


def money_words(lever: JudgedLever, w: Wording) -> str:
    """EUR 50 to 100 since January for 68; empty where the money is not known, or nobody asked it to spare heat and it
    may have spared none."""
    spared = told_money(lever, lever.spared_money)
    if spared is None or spared.high is None or not w.currency:
        return ""
    price = "" if lever.cost is None else f" for {_whole_or_cents(lever.cost)}" if lever.cost else ", at no cost"
    return f"{ends_of_money(spared, w)}{_since(lever)}{price}"


def power_words(r: Results, lever: JudgedLever) -> str:
    """EUR 12 of power: what the appliance that the lever is drew; empty where it is none, or its power has no price."""
    w, told = Wording.of(r.season), f"{lever.thing or ''} {lever.name}"
    own = [supply for supply in r.readings.appliances if says(told, supply.name) and len(supply.intervals)]
    cost = sum(float(supply.intervals["cost"].sum(min_count=1)) for supply in own)
    return f"{w.money(cost, 0)} of power" if own and cost > 0 and w.currency else ""


def told_money(lever: JudgedLever, ends: Ends | None) -> Ends | None:
    """The money it spared, where that may be said: of what was not meant to spare heat only what it surely did."""
    sure = ends is not None and ends.low is not None and ends.low > 0
    return ends if lever.saves_heat or sure else None


def _whole_or_cents(cost: float) -> str:
    """68, 4.50: under ten the cents count."""
    return number(cost, 2 if cost < 10 and cost != round(cost) else 0)


def ends_of_money(ends: Ends, w: Wording) -> str:
    """EUR 50 to 100, at most EUR 46, nothing."""
    low, high = ends.low, ends.high
    if high is None:
        return "" if low is None else f"at least {w.money(low, 0)}"
    if high <= 0:
        return "no money"
    if low is None or round(low) <= 0:
        return f"at most {w.money(high, 0)}"
    return w.money(high, 0) if round(low) == round(high) else w.money_range(low, high)


def _since(lever: JudgedLever) -> str:
    first = next((state for n, state in enumerate(lever.states) if state.on and n), None)
    return f" since {month(first.from_)}" if first is not None and lever.on_now else ""


def _hoped(r: Results, lever: JudgedLever) -> _Side | None:
    if lever.outcome is None or lever.outcome not in _WAYS:
        return None
    ends = lever.relative if lever.outcome in HEAT else None  # a share of the heat, of whatever it was hoped for
    if ends is not None and ends.low is not None and ends.high is not None:
        return _Side(outcome=lever.outcome, unit="%", low=-100 * ends.high, high=-100 * ends.low, base=100.0)
    if lever.low is None or lever.high is None:
        return None
    base = _base(r, lever)
    if lever.outcome in _SHARES and not base > 0:
        return None
    return _Side(outcome=lever.outcome, unit=lever.unit, low=lever.low, high=lever.high, base=base)


def _base(r: Results, lever: JudgedLever) -> float:
    """What it was without, of which a share is told."""
    outcomes = (o for change in r.effects.changes if change.line in lever.lines for o in change.outcomes)
    return next((o.before_mean for o in outcomes if o.outcome == lever.outcome and o.before_mean > 0), float("nan"))


def _worse(lever: JudgedLever, off: bool) -> list[_Side]:
    """One of each family; what lies beyond what matters first."""
    sides = [(p, _priced(p).turned() if off else _priced(p)) for p in lever.price if _can_be_said(p, lever)]
    order = sorted(sides, key=lambda pair: (off or not pair[0].beyond_care, _ORDER.index(pair[1].outcome)))
    families: dict[str, _Side] = {}
    for _, side in order:
        families.setdefault(_family(side.outcome), side)
    return [side for name, side in families.items() if name != _family(lever.outcome or "")]


def _can_be_said(price: PriceSide, lever: JudgedLever) -> bool:
    whole = price.outcome not in _SHARES or price.before_mean > 0
    return price.outcome in _WAYS and whole and price.outcome != lever.outcome


def _family(outcome: str) -> str:
    return next((names[0] for names in _FAMILIES if outcome in names), outcome)


def _priced(price: PriceSide) -> _Side:
    return _Side(outcome=price.outcome, unit=price.unit, low=price.low, high=price.high, base=price.before_mean)


def _scaled(side: _Side, w: Wording) -> tuple[float, float]:
    if side.outcome in _SHARES:
        return max(100 * side.low / side.base, -100.0), 100 * side.high / side.base
    if side.outcome in _DEGREES:
        return w.diff_value(side.low), w.diff_value(side.high)
    return side.low, side.high


def _unit(side: _Side) -> str:
    if side.outcome in _SHARES:
        return "%"
    if side.outcome in _DEGREES:
        return "degrees"
    return "points" if side.unit == "%" else side.unit


def _amount(value: float, places: int, unit: str) -> str:
    text = number(abs(value), places)
    return f"{text}{NBSP}{unit[:-1] if text == '1' and unit in ('degrees', 'points') else unit}"


def _places(side: _Side, low: float, high: float) -> int:
    """Points and per cent whole, unless both ends are small; degrees as their interval allows."""
    if side.outcome in _DEGREES:
        return min(digits_for((high - low) / 2 / WITHIN), 1)
    return 0 if max(abs(low), abs(high)) >= WHOLE_FROM else 1


def _said(side: _Side, w: Wording) -> str:
    """Both ends with their direction; an end that is printed as nothing takes the other's."""
    low, high = _scaled(side, w)
    more, less = _WAYS[side.outcome]
    unit, places = _unit(side), _places(side, low, high)
    ends = [_amount(value, places, unit) for value in (low, high)]
    none = [not any(c in "123456789" for c in end) for end in ends]
    if all(none):
        end = next((end for end in _ENDS if more.endswith(end) and less.endswith(end)), "")
        return f"neither {more.removesuffix(end)} nor {less}"
    if (low >= 0 or none[0]) and not none[1]:
        return f"{between(*ends)} {more}"
    if high <= 0 or none[1]:
        return f"{between(ends[1], ends[0])} {less}"
    better = more if side.outcome in LARGER_IS_BETTER else less
    first = f"{ends[1]} {more}" if better == more else f"{ends[0]} {less}"
    last = f"{ends[0]} {less}" if better == more else f"{ends[1]} {more}"
    return f"between {first} and {last}"


def _perhaps(side: _Side, w: Wording) -> str:
    """The worse end; of a share that reaches beyond twice what there was, that it cannot be told."""
    low, high = _scaled(side, w)
    more, less = _WAYS[side.outcome]
    larger_is_worse = side.outcome not in LARGER_IS_BETTER
    if side.outcome in _SHARES and high > ALL_OF_IT and larger_is_worse:
        return f"its {more.removeprefix('more ')} cannot be told"
    places = _places(side, low, high)
    worst = _amount(high if larger_is_worse else low, places, _unit(side))
    return f"perhaps up to {worst} {more if larger_is_worse else less}"
