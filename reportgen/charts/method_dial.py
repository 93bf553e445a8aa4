"""The method of the dial in plain words, with what its study found."""

from __future__ import annotations

from reportgen.charts.method_types import Method
from reportgen.measures.dial import FEWEST_NIGHTS
from reportgen.measures.dial_measured import COLDER_CASES, COLDER_PCT, DIAL_RATES, HOUSES, REFUSED, DialRate
from reportgen.wording import NBSP, count, number


def _rate(rule: str, winter: str) -> DialRate:
    return next(rate for rate in DIAL_RATES if rate.rule == rule and rate.winter == winter)


def _clear(rule: str) -> str:
    same, other = (_rate(rule, winter).clear_pct for winter in ("same winter", "another winter"))
    return f"{number(same)} and {number(other)}"


def _measured() -> str:
    """What really running lower showed."""
    same, other = (_rate("the coldest night and 1 K", winter).cases for winter in ("same winter", "another winter"))
    return (
        f"{HOUSES} simulated houses, half with a heater at its limit, with doors left ajar that nobody wrote down; "
        f"{REFUSED} were told nothing. The rest were really run 1, 2 and 3{NBSP}K lower in the same winter ({same} "
        f"cases) and at one of these in another ({other} cases). No night lay under the limit in "
        f"{_clear('the coldest night and 1 K')}{NBSP}% of them; by the coldest night alone in "
        f"{_clear('the coldest night')}{NBSP}%, by the 5{NBSP}% night in {_clear('the 5 % night')}{NBSP}%. Colder than "
        f"the 5{NBSP}% night told were {number(COLDER_PCT[0], 1)} and {number(COLDER_PCT[1], 1)}{NBSP}% of the nights "
        f"({count(COLDER_CASES, 'case')}). An earlier trial on 160 houses of two other simulators found 99.6 and "
        f"94{NBSP}% for the rule, 95 and 83{NBSP}% for the coldest night alone."
    )


METHODS: tuple[Method, ...] = (
    Method(
        slug="dial",
        page="heat",
        title="How far the thermostat may come down",
        text=(
            "How far the coldest crop air of a night lies from what the thermostat was set to (or, where nobody wrote "
            "that down, from what it held), on heated nights of the house as it is now. A night with an event in the "
            "diary or a failure of the heat is not the thermostat's, and one with the heater flat out in 5 % of its "
            "hours or more is the heater's: none of them counts. The lowest setting is reckoned from the coldest such "
            "night, not the usual one, and from the tenderest crop that stood in those weeks, by the warmer end of "
            "its damage band in the table or in season.toml. After a mild week (night minima of 5 °C or more on "
            "average) nothing is hardened and 3 K are added. That a crop lived through one night makes no band. Other "
            "heat at a lower setting is the winter run again in the house as it is now."
        ),
        formula=(
            "offset = coldest crop air 18–09 h − setting",
            "lowest setting = crop limit − offset of the coldest night + accuracy of the sensor + 1 K, and at most 3 K "
            "under what was held",
        ),
        limit=(
            f"Fewer than {FEWEST_NIGHTS} such nights, a sensor of unknown accuracy, or a crop without a known limit in "
            "all of those weeks: no advice. Colder than where the heater runs flat out the setting decides nothing. A "
            "corner colder than the coldest logger is not known."
        ),
        sources=(
            "3 K for hardening: Fennell and Li 1985, J. Am. Soc. Hort. Sci. (spinach); 5 °C: our own line",
            "The rule: our own, from simulated houses",
        ),
        measured=_measured(),
    ),
)
