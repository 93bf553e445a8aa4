"""Findings on what nobody saw or wrote down: failures, unlogged cold hours, changes without an entry."""

from __future__ import annotations

from datetime import date, timedelta

import pandas as pd

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Finding
from reportgen.counsel.whole import COLD_LEAST_H, LEAST_H, hidden_words
from reportgen.measures.there import diary_covers
from reportgen.wording import count, day


def unnoticed(facts: Facts) -> list[Finding]:
    """The worst failure of the heat of which the diary says nothing; silent about days that no diary covers."""
    noted = _noted(facts)
    unseen = []
    for failure in facts.at("frost.failures") or []:
        start = pd.Timestamp(failure["start"])
        if not diary_covers(facts.r.readings, start.date()):
            continue
        if start.date() not in noted and start.date() + timedelta(days=1) not in noted:
            unseen.append((float(failure["hours"]), start, failure["minimum_c"]))
    if not unseen:
        return []
    hours, start, lowest = max(unseen, key=lambda u: (u[0], u[1]))
    w = facts.w
    more = f" {count(len(unseen) - 1, 'other failure')} went unnoted too." if len(unseen) > 1 else ""
    return [
        Finding(
            slug="failure-nobody-noticed",
            page="frost",
            claim=f"Nobody seems to have noticed that the heat failed on {day(start)}: the diary says nothing of it.",
            evidence=f"{w.hours(hours, 1)} without heat while the air fell to {w.temp(lowest)}.{more}",
            how_sure="Fairly sure: a thermostat turned down by hand would look the same.",
            next_step="Fit a low-temperature alarm that reaches you, set to the line the Frost page works out.",
            caution=cautions.heating(facts.fuels) or None,
            figure=w.hours(hours, 1),
            figure_note=f"without heat, {day(start)}",
            token="cold",
            anchor="frost_failures",
            stake="record",
            sure="fairly sure",
            weight=hours,
        )
    ]


def _noted(facts: Facts) -> set[date]:
    """Dates on which the diary has something to say of the house, and the dates before."""
    days: set[date] = set()
    for entry in facts.r.readings.diary:
        if entry.kind in ("event", "upkeep", "change"):
            days |= {entry.date, entry.date - timedelta(days=1)}
    return days


def _watch(facts: Facts) -> str:
    """What keeps the next cold hours on record, by what hangs at the crop."""
    if facts.number("frost.minimum.temperature_c") is not None:
        return (
            "Put fresh batteries into the loggers before the cold begins, and keep a second logger in the coldest "
            "corner."
        )
    if facts.there.logged("crop_air"):
        return "Hang the logger in the coldest corner of the crop and let it write every ten minutes, day and night."
    if "air_temperature" in facts.there.unheard:
        return "See why the logger inside left no reading that can be used, before the cold begins."
    return (
        "Hang a logger among the plants, in the coldest corner, before the cold begins, and let it write every ten "
        "minutes, day and night."
    )


def unwatched(facts: Facts) -> Finding | None:
    """Hours under the frost line outdoors, or of which outdoors is not known either, without any crop air."""
    cold = facts.number("frost.unrecorded_cold_hours") or 0.0
    unknown = facts.number("frost.unrecorded_unknown_hours") or 0.0
    if cold < COLD_LEAST_H and unknown < LEAST_H:
        return None
    w, could, hours = facts.w, facts.number("frost.could_have_been_c"), cold if cold >= COLD_LEAST_H else unknown
    guess = f" The air could have been as low as {w.temp(could)}." if could is not None else ""
    return Finding(
        slug="hours-nobody-watched",
        page="frost",
        claim=hidden_words(cold, unknown, w.temp(facts.number("frost.line_c") or 0.0)),
        evidence=f"Hours without crop air on record, by the outdoor air of that time.{guess}",
        how_sure="Cannot tell what happened in them; that they are missing is sure.",
        next_step=_watch(facts),
        figure=w.hours(hours),
        figure_note="cold and unwatched" if cold >= COLD_LEAST_H else "of which nobody knows",
        token="cold",
        anchor="frost_gaps",
        stake="crop at risk" if cold >= COLD_LEAST_H else "record",
        sure="cannot tell",
        weight=hours,
    )
