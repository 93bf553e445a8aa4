"""Findings that look across pages, and *nothing wrong here*."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.findings.cross_changes import warmer_but_damper
from reportgen.findings.cross_growth import dark_weeks, light_first
from reportgen.findings.cross_nights import bed_drained, heater_off, watering
from reportgen.findings.cross_watch import unnoticed, unwatched, unwritten
from reportgen.findings.facts import Facts
from reportgen.findings.nights import table_of
from reportgen.findings.results import Results
from reportgen.findings.types import Finding
from reportgen.wording import count

BAD = ("crop lost", "crop at risk", "damp")


def findings(r: Results) -> tuple[Finding, ...]:
    """All rules that need two subjects at once; each stays silent where one of them is not known."""
    facts, days = Facts.of(r), table_of(r)
    told = [
        watering(facts, days),
        heater_off(facts, days),
        *warmer_but_damper(facts),
        light_first(facts),
        *unnoticed(facts),
        dark_weeks(facts),
        unwatched(facts),
        bed_drained(facts, days),
        unwritten(facts),
    ]
    return tuple(finding for finding in told if finding is not None)


def nothing_wrong(r: Results, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """*Nothing wrong here*, where the record is good enough to say so and no finding speaks of harm."""
    facts = Facts.of(r)
    lowest, nights = facts.number("frost.minimum.temperature_c"), facts.number("frost.nights")
    blind = facts.number("frost.unrecorded_cold_hours") or 0.0
    if any(f.stake in BAD for f in found) or lowest is None or not nights or blind > 0:
        return ()
    if lowest < r.season.aims.frost_c:
        return ()
    return (
        Finding(
            slug="nothing-wrong",
            page="frost",
            claim="Nothing was wrong this winter: no crop came to harm by cold or damp that the record can show.",
            evidence=f"{count(nights, 'whole night')} on record, the coldest at {facts.w.temp(lowest)}, and no cold "
            "hour without a reading.",
            how_sure="Fairly sure: it speaks for the places where the loggers stood.",
            next_step="Change one thing at a time next winter, and only for less work or less heat.",
            figure="0",
            figure_note="things wrong",
            token="target",
            anchor="frost_nights",
            stake="good news",
            sure="fairly sure",
            weight=100.0,
        ),
    )
