"""What must be true of a season's files for a phrase to stand on its pages, and what no English sentence may hold."""

from __future__ import annotations

import re
from collections.abc import Callable

from said_files import Files

Rule = Callable[[Files, re.Match[str]], bool]
MONTH = r"\b(January|February|March|April|May|June|July|August|September|October|November|December)\b"

RULES: tuple[tuple[str, Rule], ...] = (
    # loggers
    (r"(?i)hang one logger outdoors|keep a logger outdoors|one outdoors in the shade|hang a logger outdoors|"
     r"a thermometer outdoors, in shade|takes an outdoor logger|no logger of season.toml is outdoors",
     lambda f, m: not f.outdoors),
    (r"both outdoors too|[Ll]og humidity outdoors|and humidity outdoors",
     lambda f, m: not (f.outdoors and f.moist_outdoors)),
    (r"that writes humidity among|humidity logger at the crop|log humidity beside",
     lambda f, m: not f.listed("relative_humidity", where="crop")),
    (r"(?i)without a light sensor|it takes a light sensor|log light beside|and log light", lambda f, m: not f.light),
    (r"measured beside the crop|came to each square metre", lambda f, m: f.light),
    (r"A probe in the bed, a hand deep|Put a probe into|push one temperature probe|a probe in the bed\.",
     lambda f, m: not f.listed("soil_temperature")),
    (r"Give the latitude|write latitude under", lambda f, m: f.latitude is None),
    # books
    (r"the diary says nothing|in the diary|The diary names|the diary may tell|Your diary's|not in the diary",
     lambda f, m: bool(f.rows("diary")) or "change in the diary names" in m.string or "holds no change" in m.string),
    (r"[Nn]o diary was kept|no diary kept|With a diary", lambda f, m: not f.has_book("diary")),
    (r"the diary has no line|The diary has no line", lambda f, m: f.has_book("diary") and not f.rows("diary")),
    (r"inspections stand above|Your inspections found|Your \d+ visit|with inspections|\bvisits?\b",
     lambda f, m: bool(f.rows("inspections"))),
    (r"[Nn]o inspections are written", lambda f, m: not f.rows("inspections")),
    (r"no harvest\.csv|[Nn]o harvest\.csv", lambda f, m: not f.has_book("harvest")),
    (r"the strips show", lambda f, m: bool(f.rows("plantings"))),
    # heaters
    (r"(?i)ran flat out|main heater|the heater ran|thermostat|if the heat fails|\bsilent\b|no more heating|"
     r"hold the house cooler|in use yet|in use any more|the heat failed|heat bill|second source of heat|"
     r"what the heat bought|more heat alone|heat paid for|what the heat cost|it takes the heater",
     lambda f, m: f.heater),
    (r"[Nn]o heater is listed", lambda f, m: not f.heater),
    (r"went into a dehumidifier|dehumidifier ran|bigger dehumidifier", lambda f, m: f.dehumidifier),
    # parts of the year
    (r"\b(this|whole|of the|one|all) winter\b(?! than)", lambda f, m: f.winter),
    (r"open up again|no more heating by day", lambda f, m: f.winter and f.latitude is not None),
    # superlatives
    (rf"{MONTH} was the dampest month|Dampest was {MONTH}", lambda f, m: f.dampest(m[1] or m[2])),
    (r"Noon dried the house", lambda f, m: f.noon_dried()),
    (r"gave the most", lambda f, m: len({row["crop"] for row in f.rows("harvest")}) > 1),
    (r"The longest .* (?:spells?|gap)\b.*\b0(?:\.0)? (?:h|days)", lambda f, m: False),
)  # fmt: skip

ONE = re.compile(
    r"(?<![\d.,−+\-–]) ?\b1 (?!is\b|was\b|has\b|lies\b|stands\b|leaps\b|differs\b|hours? or\b)"
    r"(?:whole |gloomy |wet |other |more |such |damp |shorter )?([a-z-]+s)\b(?<!less)(?<!gas)(?<!across)"
)
MANY = re.compile(
    r"(?<![\d.,/])\b(?:[2-9]|[1-9]\d+) (?:whole |gloomy |wet |other |more |such |damp |shorter )?"
    r"(night|day|hour|week|month|reading|row|gap|spell|visit|dawn|change|trial|weighing|picking|crop|bed|planting|"
    r"sowing|thing|channel|ring|time|date|winter|logger|degree)\b(?!-|'s)"
)
SAME = re.compile(r"(?<![\d.,−+])([−+]?\d[\d.]*) to \1(?![\d.])")
NONE = re.compile(
    r"^(?:On|In|For) no (?:nights|days|hours|weeks)\b|^No (?:days|nights) (?:had|fell)|\bno more spells\b"
)
VERBS = re.compile(r"\b1 \w+ (?:are|were|have|do)\b|\b[2-9] \w+s (?:is|was|has|does)\b")
ENGLISH = {"1 and a plural": ONE, "many and a singular": MANY, "x to x": SAME, "none at the head": NONE, "verb": VERBS}


def untrue(words: str, files: Files) -> list[str]:
    """Phrases of a sentence whose condition the files do not bear out."""
    told = re.sub("“[^”]*”", "“…”", words)  # the grower's own words are theirs
    return [m[0] for pattern, rule in RULES for m in re.finditer(pattern, told) if not rule(files, m)]


def no_english(words: str) -> list[str]:
    """Numbers that do not agree with their nouns, and ranges from a number to itself."""
    told = re.sub("“[^”]*”", "“…”", words)
    return [f"{name}: {m[0].strip()}" for name, rule in ENGLISH.items() for m in rule.finditer(told)]
