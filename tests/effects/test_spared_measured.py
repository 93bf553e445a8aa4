"""What the pages quote of the study of spared heat stands in its table."""

from __future__ import annotations

import re
from pathlib import Path

from reportgen.effects import spared_measured as study
from reportgen.effects.measured import Counted

TABLE = (Path(__file__).parents[1] / "studies" / "SPARED.md").read_text(encoding="utf-8")
WAYS = {
    "heat for each degree": "by the heat for each degree",
    "days": "by days, where that was refused",
    "a weekly meter": "by a weekly meter",
}
KINDS = {"cover": "cover", "gaps": "gaps", "night curtain": "curtain", "heater at its limit": "heater at its limit"}


def quoted(way: str, kind: str = "") -> tuple[Counted, Counted]:
    """since held, winter held of a row of the table, or of a kind of house below it; none of none where it is empty."""
    lines = TABLE.splitlines()
    start = next(n for n, entry in enumerate(lines) if entry.startswith(f"| {way} |"))
    row = next(entry for entry in lines[start:] if not kind or entry.startswith(f"| … {kind} |"))
    since, winter = (re.findall(r"\d+", cell) or ["0", "0"] for cell in row.split("|")[3:5])
    return Counted(k=int(since[0]), n=int(since[1])), Counted(k=int(winter[0]), n=int(winter[1]))


def test_the_pages_quote_the_table() -> None:
    """Houses, date and counts of SPARED.md are those of effects/spared_measured.py."""
    assert f"{study.SPARED_HOUSES} simulated houses, {study.SPARED_DATE}" in TABLE
    assert {way: quoted(name) for way, name in WAYS.items()} == dict(study.HELD_BY_WAY)


def test_kinds_of_houses_are_counted_over_both_ways_of_heat_by_the_hour() -> None:
    """Cover: 21 of 22 by nights and 2 of 3 by days are 23 of 25; so with every kind and both ends."""
    hourly = (WAYS["heat for each degree"], WAYS["days"])
    for kind, row in KINDS.items():
        for which in (0, 1):
            parts = [quoted(way, row)[which] for way in hourly]
            told = study.HELD_BY_KIND[kind][which]
            assert (told.k, told.n) == (sum(part.k for part in parts), sum(part.n for part in parts))
    assert set(KINDS) == set(study.HELD_BY_KIND)


def test_kinds_and_ways_count_the_same_houses() -> None:
    """Heat by the hour is told by nights or by days; the three kinds add up to both."""
    for which in (0, 1):
        ways = [study.HELD_BY_WAY[way][which] for way in ("heat for each degree", "days")]
        kinds = [study.HELD_BY_KIND[kind][which] for kind in ("cover", "gaps", "night curtain")]
        assert sum(c.n for c in ways) == sum(c.n for c in kinds)
        assert sum(c.k for c in ways) == sum(c.k for c in kinds)
