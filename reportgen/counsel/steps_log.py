"""Row Log: one line for each *cannot tell* that a column would have answered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from reportgen.counsel.brief import cut, heater, short, words_in
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Grounds, PlanStep
from reportgen.counsel.next_season import NextSeason
from reportgen.counsel.results import Results
from reportgen.effects import Outcome
from reportgen.effects.estimate import OFTEN, OUTDOOR_LOGGER
from reportgen.measures.seldom import too_seldom
from reportgen.units import is_temperature
from reportgen.wording import count, listed

WHAT_WORDS, WHY_WORDS = 8, 12
# What an outcome is judged by → what to log.
BY_LOGGER: Mapping[str, str] = MappingProxyType(
    {
        "lift": "Air temperature beside the crop",
        "night_minimum": "Air temperature beside the crop",
        "heat": "The heater's meter, every day",
        "watts_per_kelvin": "The heater's meter, every day",
        "night_humidity": "Humidity beside the crop",
        "moisture": "Humidity beside the crop",
        "damp_hours": "Humidity beside the crop",
        "soil_mean": "A probe in the bed, a hand deep",
        "soil_swing": "A probe in the bed, a hand deep",
        "daily_light": "Light inside, every ten minutes",
    }
)
Row = tuple[bool, str, str]


def log(r: Results, on: Grounds, ahead: NextSeason) -> list[PlanStep]:
    """What was missing, what a lever or the hold could not be judged without first."""
    facts = Facts.of(r)
    rows = [*_levers(r, on), *_hold(r, on), *_loggers(facts), *_books(facts), *_prices(facts)]
    wanted = dict.fromkeys((what, why) for missing, what, why in rows if missing)
    seen: dict[str, str] = {}
    for what, why in wanted:
        seen.setdefault(what, why)
    return [
        PlanStep(
            row="Log",
            from_=ahead.first,
            to=ahead.last,
            what=cut(what, WHAT_WORDS),
            why=cut(why, WHY_WORDS),
            lever=None,
            caution=None,
        )
        for what, why in seen.items()
    ]


def _levers(r: Results, on: Grounds) -> Iterable[Row]:
    """A sensor that was not there, or wrote too seldom, and the levers that could not be told for it."""
    for lever in on.levers:
        if lever.verdict not in ("cannot tell", "change once", "try on and off"):
            continue
        changes = [change for change in r.effects.changes if change.line in lever.lines]
        hoped = next((c.declared for c in changes if c.declared is not None), None)
        if hoped is not None and hoped.refused is not None and (what := _missing(hoped)):
            what = _by_weight(r) if what == BY_LOGGER["heat"] else what
            yield True, what, f"without it “{short(lever.thing or lever.name)}” could not be judged"


def _by_weight(r: Results) -> str:
    """Of a main heater that burns what is bought and has no meter: what can be read each day of it."""
    bought = {supply.name for supply in r.readings.heating if supply.form == "deliveries"}
    named = next((s.name for s in r.season.heating if s.role == "main" and s.name in bought), None)
    return BY_LOGGER["heat"] if named is None else f"What the {heater(named, 2)} burns, weighed every noon"


def _missing(hoped: Outcome) -> str:
    if hoped.answerable == OUTDOOR_LOGGER:
        return "A thermometer outdoors, in shade"
    if hoped.answerable == "a logger for it" or hoped.answerable == OFTEN:
        return BY_LOGGER.get(hoped.outcome, "")
    return ""


def _hold(r: Results, on: Grounds) -> Iterable[Row]:
    names, dial = on.hold_advice.unknown_crops, any(source.dial for source in r.season.heating)
    named = listed(dict.fromkeys(short(name, 2) for name in names), 2)
    yield bool(names), f"How cold {named} stood unharmed", f"{count(len(names), 'crop')} without a known limit"
    thermostat = bool(r.season.heating) and not dial
    yield thermostat, "The dial's setting, with its dates", "no setting can be advised without it"


def _loggers(facts: Facts) -> Iterable[Row]:
    channels, there = facts.r.readings.channels, facts.there
    seldom = sorted({c.logger for c in channels if too_seldom(c)})
    bare = sorted({c.logger for c in channels if c.accuracy is None and is_temperature(c.measure)})
    outdoors = "Readings of the thermometer outdoors" if there.outdoor_named else "A thermometer outdoors, in shade"
    bed = "Readings of the probe in the bed" if "soil_temperature" in there.unheard else BY_LOGGER["soil_mean"]
    return (
        (bool(seldom), _at("Every ten minutes at", seldom), "readings hours apart tell no night"),
        (not there.logged("outdoor_air"), outdoors, "without it no weather can be taken out"),
        (not there.logged("soil"), bed, "whether the bed carries the night is not known"),
        (bool(bare), _how_far_off(bare), "every count of hours then gets its band"),
    )


def _how_far_off(loggers: list[str]) -> str:
    """What stands after ± on the data sheet, in words."""
    if len(loggers) > 1:
        return f"How far {count(len(loggers), 'logger')} may be off"
    name = f"“{short(''.join(loggers))}”"
    one = f"How far the logger {name} may be off"
    return one if words_in(one) <= WHAT_WORDS else f"How far {name} may be off"


def _at(head: str, loggers: list[str]) -> str:
    """The loggers by name where eight words hold them, each name shortened at a word; else how many they are."""
    for most in (3, 2, 1):
        text = f"{head} {listed(dict.fromkeys(f'“{short(name, most)}”' for name in loggers), 2)}"
        if words_in(text) <= WHAT_WORDS:
            return text
    return f"{head} {count(len(loggers), 'logger')}"


def _books(facts: Facts) -> Iterable[Row]:
    books, held, there = facts.r.readings.books, facts.r.readings.held_back, facts.there
    return (
        (
            not books.get("harvest", False) and "harvest" not in held,
            "Each picking's weight, in the harvest book",
            "no cost of a weight without it",
        ),
        (not books.get("diary", False), "Each change and its hope, in a diary", "only a dated change can be judged"),
        (
            not books.get("plantings", False),
            "Sowing and clearing dates, in the planting book",
            f"which sowing fed the dark weeks of the {there.season} is not known",
        ),
    )


def _prices(facts: Facts) -> Iterable[Row]:
    season, heated = facts.r.season, bool(facts.r.readings.heating)
    held = "prices" in facts.r.readings.held_back
    without = heated and facts.r.harvest.heat.cost is None and not held
    return (
        (without, "The price of fuel or power", "heat could not be set against the harvest"),
        (
            not heated and bool(season.heating),
            "The heater's meter, once a week",
            "what a degree costs is not known",
        ),
    )
