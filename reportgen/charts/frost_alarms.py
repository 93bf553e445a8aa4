"""The alarm line: how often it rang, how often that was needed, and how long it warned."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost_next import short_time, told_alarm
from reportgen.counsel.whole import on_record
from reportgen.wording import NBSP, day, number, of_all


def alarm_table(facts: Facts) -> Table | None:
    """Which alarm line would have rung when."""
    f, w = facts.r.frost, facts.w
    if not f.alarms:
        return None
    best = told_alarm(facts)
    rows = []
    for a in f.alarms:
        warning = "not needed" if a.warning_h is None else short_time(a.warning_h)
        own = " (yours)" if a.alarm_c == facts.r.season.aims.alarm_c else ""
        rows.append(
            (
                f"{w.temp(a.alarm_c)}{own}",
                number(a.rings),
                number(a.needed),
                number(a.rings - a.needed),
                warning,
                day(a.when[0]) if a.when else "none",
            )
        )
    seen = on_record(f.hours_recorded, f.hours_recorded + f.hours_unrecorded)
    title = f"No alarm line would have been needed{seen or f' this {facts.there.season}'}"
    if best is not None:
        title = f"An alarm at {w.temp(best.alarm_c)}: {of_all(best.needed, best.rings, 'ring')} needed"
    return Table(
        uid="frost_alarms",
        title=title,
        subtitle=f"Rings when the coldest crop air is below the line for 15 minutes; within 6{NBSP}h they are one, "
        f"and what stays below rings again every 12{NBSP}h",
        columns=("alarm line", "rings", "needed", "for nothing", "shortest warning", "first ring"),
        rows=tuple(rows),
        data=pd.DataFrame(
            [(a.alarm_c, a.rings, a.needed, a.warning_h) for a in f.alarms],
            columns=["alarm °C", "rings", "needed", "shortest warning h"],
        ).round(2),
        notes=(
            f"Needed: the air came within {w.degrees(1.0, 1 if w.us else 0)} of the frost line while it rang. "
            f"Warning: how long the air had then been below the alarm line without a break, 12{NBSP}h at most.",
        ),
        nothing=not any(a.rings for a in f.alarms),
    )
