"""Settings that may be right and hardly are: a hold in the other unit, a price in cents. Asked about, never changed.

Limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.problems import Problem
from reportgen.season.explain import FILE
from reportgen.season.models import Season
from reportgen.units import FAHRENHEIT_K

COLDEST_C, WARMEST_C = -8.0, 30.0  # no greenhouse is held colder or warmer in winter
SMALLEST_HEATER_W = 20.0  # a heater of a greenhouse draws more; a number below is one of kW
DEAR_KWH = 2.0  # a kilowatt-hour is nowhere as dear in these, and is told in hundredths of them
IN_CENTS = frozenset({"EUR", "USD", "GBP", "CHF", "CAD", "AUD", "NZD"})


def settings_doubts(season: Season) -> list[Problem]:
    """A warning for each temperature to be kept, and each price of a kWh, that looks as if in another unit."""
    told = [_ask_degrees(where, c) for where, c in _held(season) if not COLDEST_C <= c <= WARMEST_C]
    if season.currency in IN_CENTS:
        told += [_ask_price(where, price, season) for where, price in _prices(season) if price > DEAR_KWH]
    return told + [
        _ask_power(h.name, h.rated_power_w) for h in season.heating if 0 < (h.rated_power_w or 0) < SMALLEST_HEATER_W
    ]


def _held(season: Season) -> Iterator[tuple[str, float]]:
    """What is to be kept, with its place in season.toml: each once."""
    aims = season.aims
    steps = {step.c for step in aims.hold} | ({aims.hold_c} if aims.hold_c is not None else set())
    yield from (("[aims] · hold", c) for c in sorted(steps))
    if aims.alarm_c is not None:
        yield "[aims] · alarm", aims.alarm_c
    for source in season.heating:
        yield from ((f"[[heating]] {source.name} · dial", c) for c in sorted({step.c for step in source.dial}))


def _prices(season: Season) -> Iterator[tuple[str, float]]:
    """The dearest price of each source that is paid by the kWh, with its place in season.toml."""
    for source in season.heating:
        prices = [price for price in (source.price, source.next_price) if price is not None]
        prices += [entry.price for entry in source.prices]
        if source.unit == "kWh" and prices:
            yield f"[[heating]] {source.name} · price", max(prices)
    yield from ((f"[[appliance]] {a.name} · price", a.price) for a in season.appliances if a.price is not None)


def _ask_degrees(where: str, c: float) -> Problem:
    f = c / FAHRENHEIT_K + 32.0
    meant, unit, letter = (f"{c:g}", "°F", "f") if c > WARMEST_C else (f"{f:g}", "°C", "c")
    return Problem(
        slug="hold-in-other-unit",
        file=FILE,
        column=where,
        found=f"{c:.1f} °C, which is {f:.1f} °F",
        expected=f"{COLDEST_C:g} to {WARMEST_C:g} °C, as greenhouses are kept in winter",
        todo=f"if {meant} {unit} is meant, let the key end in _{letter} (hold_{letter}, alarm_{letter}; by date "
        f"just {letter}); else leave it",
        level="warning",
    )


def _ask_power(name: str, watts: float | None) -> Problem:
    return Problem(
        slug="power-unit",
        file=FILE,
        column=f"[[heating]] {name} · rated_power_w",
        found=f"{watts:g} W",
        expected=f"a heater's power in watts, {SMALLEST_HEATER_W:g} or more",
        todo=f"write {1000 * (watts or 0.0):g} if it is {watts:g} kW",
        level="warning",
    )


def _ask_price(where: str, price: float, season: Season) -> Problem:
    return Problem(
        slug="price-in-cents",
        file=FILE,
        column=where,
        found=f"{price:g} {season.currency} a kWh",
        expected=f"less than {DEAR_KWH:g} {season.currency}",
        todo=f"write {price / 100:g} if it is in hundredths; look at the unit if the price is not that of a kWh",
        level="warning",
    )
