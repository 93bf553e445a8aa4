"""Rows Keep and Undo: what the verdict of each lever calls for, and nothing against it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from types import MappingProxyType

import pandas as pd

from reportgen.counsel.brief import begun, cut, fitted, heater, short, words_in
from reportgen.counsel.grounds import JudgedLever, LeverVerdict, PlanStep
from reportgen.counsel.levers_words import known_only
from reportgen.counsel.next_season import NextSeason, a_year_on
from reportgen.counsel.results import Results
from reportgen.counsel.sides import hoped_words, price_words
from reportgen.counsel.touched import caution_of_lever, flue_words
from reportgen.season.sources import HeatSource
from reportgen.wording import listed

WHAT_WORDS, WHY_WORDS = 8, 12
DAMP = frozenset({"night_humidity", "damp_hours", "moisture"})
HALF = 0.5
LEAD_DAYS = 7  # between the day by which it is up and the first heated night
KEPT: tuple[LeverVerdict, ...] = ("keep", "keep with a condition")
UNSAFE: tuple[LeverVerdict, ...] = ("not again", "not while that burns here")
# What is done in place of what is undone, by what it touched.
INSTEAD: Mapping[str, str] = MappingProxyType(
    {
        "heater": "grow hardy crops only",
        "air": "air by day",
        "envelope": "fleece over the beds",
        "water": "water as before",
        "thermostat": "the dial as before",
        "light": "sow earlier",
        "bed": "the bed as before",
    }
)


def keep(r: Results, levers: tuple[JudgedLever, ...], ahead: NextSeason) -> list[PlanStep]:
    """What helped, from before the first heated night; what costs light comes down after the last frost."""
    return [_keep(r, lever, ahead) for lever in levers if lever.verdict in KEPT]


def undo(r: Results, levers: tuple[JudgedLever, ...], ahead: NextSeason) -> list[PlanStep]:
    """What must not stay, the unsafe first; each with what replaces it."""
    told = [lever for lever in levers if _to_undo(lever)]
    told.sort(key=lambda lever: lever.verdict not in UNSAFE)
    return [_undo(r, lever, ahead) for lever in told]


def _to_undo(lever: JudgedLever) -> bool:
    """Not worth it: taken away only where it is there still and costs something."""
    costs = any(side.beyond_care for side in lever.price)
    return lever.verdict in (*UNSAFE, "leave undone") or (lever.verdict == "not worth it" and lever.on_now and costs)


def _keep(r: Results, lever: JudgedLever, ahead: NextSeason) -> PlanStep:
    start, until = _from(r, lever, ahead), _until(lever, ahead)
    shuts = "envelope" in lever.touches or lever.saves_heat
    what = f"{begun(short(lever.thing or lever.name, 2))} up before the first heated night"
    if not shuts or ahead.heated is None:
        what = _named(lever, "stays", "" if known_only(lever.condition or "") else lever.condition or "")
    down = "down after the last frost" if until < ahead.last else ""
    parts = (hoped_words(r, lever), *price_words(r, lever), down)
    return PlanStep(
        row="Keep",
        from_=start,
        to=max(until, start),
        what=cut(what, WHAT_WORDS),
        why=cut(fitted(parts, WHY_WORDS) or "it helped", WHY_WORDS),
        lever=lever.name,
        caution=caution_of_lever(r, lever),
    )


def _from(r: Results, lever: JudgedLever, ahead: NextSeason) -> date:
    """A week before the first heated night for what saves heat, the first damp night for what dries; else when it went
    on this season."""
    if ahead.running:
        return ahead.first if lever.on_now else _once_quiet(ahead)
    began = next((a_year_on(state.from_.date()) for state in lever.states if state.on), ahead.first)
    if "envelope" in lever.touches or lever.saves_heat:
        began = min(began, ahead.begins - timedelta(days=LEAD_DAYS))
    if lever.outcome in DAMP:
        began = min(began, _damp_from(r) or began)
    return ahead.within(began)


def _damp_from(r: Results) -> date | None:
    """Next season's day of the first night that was too damp for half of its hours on record."""
    table = getattr(r.damp, "table", None)
    if not isinstance(table, pd.DataFrame) or not {"above_high", "recorded"} <= set(table.columns):
        return None
    damp = table.index[(table["above_high"] > HALF * table["recorded"]) & (table["recorded"] > 0)]
    return a_year_on(damp[0]) if len(damp) else None


def _once_quiet(ahead: NextSeason) -> date:
    """From when something may be altered."""
    return ahead.within(ahead.quiet or ahead.first)


def _until(lever: JudgedLever, ahead: NextSeason) -> date:
    dims = any(side.outcome == "daily_light" and side.high < 0 for side in lever.price)
    if "envelope" in lever.touches and dims and ahead.frost is not None:
        return ahead.within(ahead.frost[1] + timedelta(days=1))
    return ahead.last


def _undo(r: Results, lever: JudgedLever, ahead: NextSeason) -> PlanStep:
    return PlanStep(
        row="Undo",
        from_=ahead.first if lever.verdict in UNSAFE or not lever.on_now else _once_quiet(ahead),
        to=ahead.last,
        what=_named(lever, "off", _instead(r, lever)),
        why=cut(_why_not(r, lever), WHY_WORDS),
        lever=lever.name,
        caution=caution_of_lever(r, lever),
    )


def _why_not(r: Results, lever: JudgedLever) -> str:
    if lever.flue_unsaid and lever.verdict in UNSAFE:
        name = heater(lever.unsafe_with[0], 2) if lever.unsafe_with else ""
        return flue_words(name) if name else "season.toml does not say whether it has a flue"
    if lever.verdict == "not while that burns here":
        return (
            f"fumes of the {listed(dict.fromkeys(heater(name) for name in lever.unsafe_with), 2)} stay in a tight house"
        )
    if lever.verdict == "not again":
        return "its fumes stayed in the house"
    parts = (hoped_words(r, lever, off=True), *price_words(r, lever, off=True)[:1])
    return fitted(parts, WHY_WORDS) or "it did not help"


def _instead(r: Results, lever: JudgedLever) -> str:
    """What replaces it: electric heat where the house has some, else by what it touched."""
    if "heater" in lever.touches and _other_heat(r, lever) is not None:
        return "electric heat instead"
    return next((INSTEAD[word] for word in INSTEAD if word in lever.touches), "as before")


def _other_heat(r: Results, lever: JudgedLever) -> HeatSource | None:
    named = {*lever.unsafe_with, lever.name, lever.thing}
    return next((s for s in r.season.heating if s.fuel == "electricity" and s.name not in named), None)


def _named(lever: JudgedLever, *tails: str) -> str:
    """Name and tails within eight words, the name shortened first, then the last tail dropped."""
    for kept in (tails, tails[:1]):
        end = "; ".join(tail for tail in kept if tail)
        for most in (3, 2, 1):
            text = f"{begun(short(lever.thing or lever.name, most))} {end}"
            if words_in(text) <= WHAT_WORDS:
                return text
    return begun(short(lever.thing or lever.name))
