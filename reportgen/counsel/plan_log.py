"""What to write down or measure next winter so that what stayed open can be answered."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.counsel.facts import Facts
from reportgen.counsel.plan_types import Step, next_year
from reportgen.measures.seldom import too_seldom

SURE = "Sure: it was missing this {season}."


def to_log(facts: Facts) -> list[Step]:
    """A line for each thing that was missing; none where all was there."""
    r = facts.r
    when = next_year(r.season.first_day)
    loggers = _loggers(facts)
    wanted = [*loggers, *_books(facts)]
    return [
        Step(what="log", text=text, why=why, how_sure=SURE.format(season=facts.there.season), when=when, finding=slug)
        for missing, text, why, slug in wanted
        if missing
    ]


def _loggers(facts: Facts) -> Iterable[tuple[bool, str, str, str | None]]:
    channels = facts.r.readings.channels
    seldom = sorted({c.logger for c in channels if too_seldom(c)})
    there = facts.there
    unknown = sorted({c.logger for c in channels if c.accuracy is None and "temperature" in c.measure})
    return (
        (
            bool(seldom),
            f"A reading every ten minutes, day and night, at {', '.join(seldom)}.",
            "Readings hours or days apart tell no night.",
            "read-too-seldom",
        ),
        (
            not there.logged("outdoor_air"),
            "Readings of the thermometer outdoors, which left none."
            if there.outdoor_named
            else "A thermometer outdoors, in shade and out of the rain.",
            "Without it no weather can be taken out.",
            None,
        ),
        (
            not there.logged("soil"),
            "Readings of the probe in the bed, which left none."
            if "soil_temperature" in there.unheard
            else "A probe in the bed, a hand deep.",
            "It tells whether the bed carries the night.",
            None,
        ),
        (
            bool(unknown),
            f"The ± of {', '.join(unknown)} from its leaflet, as accuracy in season.toml.",
            "Every count of hours then gets its band.",
            None,
        ),
    )


def _books(facts: Facts) -> Iterable[tuple[bool, str, str, str | None]]:
    books, season = facts.r.readings.books, facts.r.season
    heated = bool(facts.r.readings.heating)
    return (
        (
            not books.get("harvest", False),
            "A line in harvest.csv for each picking.",
            "Without weights there is no cost per weight.",
            "harvest-not-weighed",
        ),
        (
            not books.get("diary", False),
            "A line in diary.csv for each change, with what you hope.",
            "Only a dated change can be judged.",
            None,
        ),
        (
            not books.get("plantings", False),
            "Sowing and clearing dates in plantings.csv.",
            "They tell which sowing fed the dark weeks.",
            None,
        ),
        (
            heated and facts.r.harvest.heat.cost is None,
            "The price of your fuel or power, in season.toml.",
            "Heat without a price cannot be set against the harvest.",
            None,
        ),
        (
            not heated and bool(season.loggers),
            "If you heat at all: the meter once a week, or each bottle and bill, under [[heating]].",
            "Then the page can say what each degree cost.",
            None,
        ),
    )
