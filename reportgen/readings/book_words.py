"""What stands in each column of each book, in the grower's words: said in the template's remarks and in README.md."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from reportgen.readings.book_rows import JUDGED_HOPES, KINDS, LEVELS, TOLD_HOPES, TOUCHES, USES, WEIGHTS

YES_NO = ("yes", "no")

REMARKS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "diary": {
            "date": "the day it was done",
            "kind": "change (altered, and stays so), spell (from date to until), event (a power cut, a door open), "
            "away (nobody there), upkeep (cleaning, mending), idea (to be tried)",
            "what": "what you did, in your words; the same words again for the same thing",
            "time": "the time of day, if you know it",
            "touches": "what it alters; several with ; between them",
            "reversible": "yes if it can be switched on and off in minutes",
            "hoped_for": "what you hope it does; several with ; between them, the first is judged",
            "until": "of a spell, its last day",
            "cost": "what it cost",
            "years": "how many years it lasts",
            "written": "the day you wrote the hope down; empty counts as named afterwards",
            "note": "anything else",
            "undoes": "the date, or the words, of the line that this one takes back",
            "thing": "a short word by which others know it: bubble film",
        },
        "harvest": {
            "date": "the day of the picking",
            "crop": "one name for one crop",
            "weight": "the weight, as a number",
            "unit": "its unit, if not that of season.toml",
            "bed": "where it was picked",
            "use": "what became of it; empty is eaten",
            "price_per_kg": "what a kilogram costs in a shop (or price_per_lb)",
            "note": "anything else",
        },
        "plantings": {
            "crop": "the name that it has in the harvest book",
            "bed": "where it stood",
            "area_m2": "how much room it took (or area_ft2)",
            "sown": "the day it was sown",
            "planted": "the day it came into the bed",
            "cleared": "the day the bed was free again",
            "cultivar": "its cultivar",
            "plants": "how many plants",
            "spacing_cm": "how far apart (or spacing_in)",
            "lost": "how many of them died",
            "lost_on": "the day they were lost",
            "cause": "of what: cold, mould, slugs",
        },
        "watering": {
            "date": "the day of the watering",
            "bed": "which bed",
            "litres": "how much (or gallons)",
            "time": "the time of day",
        },
        "inspections": {
            "date": "the day you looked",
            "bed": "which bed",
            "crop": "which crop",
            "found": "what you saw; write the line too when you saw nothing",
            "level": "0 nothing, 1 a little, 2 much, 3 all over",
            "action": "what you did about it",
        },
        "costs": {
            "date": "the day you paid",
            "what": "what for",
            "kind": "your own word for the sort of cost: seed, tools; hours for hours of your own work",
            "amount": "how much",
            "years": "how many years it lasts, for what lasts",
        },
    }
)

ANSWERS: Mapping[str, str] = MappingProxyType(
    {
        "diary": "which changes helped, with the weather taken out",
        "harvest": "was it worth it; which crops, weeks and beds",
        "plantings": "how near each crop came to its own limit; which sowings fed the dark weeks",
        "watering": "whether watering made it damp",
        "inspections": "whether grey-mould weather brought mould",
        "costs": "what a kilogram cost with everything in",
    }
)

# An invented row of each book, by column.
EXAMPLES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "diary": {
            "date": "2026-01-22",
            "kind": "change",
            "what": "bubble film under the roof",
            "touches": "envelope",
            "reversible": "no",
            "hoped_for": "warmer nights;less heating",
            "cost": "64",
            "years": "4",
            "written": "2026-01-20",
            "thing": "bubble film",
        },
        "harvest": {"date": "2026-01-25", "crop": "spinach", "weight": "0.84", "unit": "kg", "bed": "east"},
        "plantings": {
            "crop": "spinach",
            "bed": "east",
            "area_m2": "2.1",
            "sown": "2025-09-04",
            "planted": "2025-10-02",
            "cleared": "2026-03-20",
            "plants": "40",
        },
        "watering": {"date": "2026-01-25", "bed": "east", "litres": "12", "time": "10:30"},
        "inspections": {
            "date": "2026-01-25",
            "bed": "east",
            "crop": "spinach",
            "found": "grey mould on two leaves",
            "level": "1",
            "action": "picked off",
        },
        "costs": {"date": "2025-11-20", "what": "hygrometer", "kind": "tools", "amount": "18.5", "years": "5"},
    }
)

WORDS: Mapping[tuple[str, str], Sequence[str]] = MappingProxyType(
    {
        ("diary", "kind"): KINDS,
        ("diary", "touches"): TOUCHES,
        ("diary", "reversible"): YES_NO,
        ("diary", "hoped_for"): JUDGED_HOPES + TOLD_HOPES,
        ("harvest", "unit"): WEIGHTS,
        ("harvest", "use"): USES,
        ("inspections", "level"): LEVELS,
    }
)
SEVERAL = frozenset({("diary", "touches"), ("diary", "hoped_for")})  # columns that take more than one of the words
DAYS = frozenset({"date", "until", "written", "sown", "planted", "cleared", "lost_on"})
CLOCKS = frozenset({"time"})
