"""The tables behind the things: what houses say together, each house's own figures, and which lines count as what."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.timeline import brief_day
from reportgen.charts.types import Table
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.told import Said, Told
from reportgen.gather.pages.words import whole
from reportgen.wording import NBSP, number

MOST_LINES = 120  # on the page; all are in the file


def together(told: Told) -> pd.DataFrame:
    """Every stratum with its houses and what they say together."""
    rows = []
    for one in told.said:
        p, s = one.pooled, one.stratum
        values = [None] * 5 if p is None else [p.mean, p.low, p.high, p.next_low, p.next_high]
        shown = [None if v is None else round(say.shown(s, v, told.w), 2) for v in values]
        kind = {True: "heated", False: "unheated", None: ""}[s.heated]
        need = None if p is None else p.more_houses
        rows.append(
            [whole(one.thing.name), "a kind" if one.thing.is_kind else "a thing", say.on(s.outcome), kind,
             say.unit(s, told.w), one.k, len(s.refused), *shown, one.verdict, need]
        )  # fmt: skip
    names = ["thing", "a thing or a kind", "on what", "houses of which kind", "unit", "houses that could tell",
             "tries that could not", "mean", "low", "high", "next house low", "next house high", "verdict",
             "more houses it would take"]  # fmt: skip
    return pd.DataFrame(rows, columns=names)


def members(said: Said, told: Told) -> pd.DataFrame:
    """Each house's own estimate of one thing, and the tries that could not be told with their reason."""
    s, w = said.stratum, told.w
    unit = say.unit(s, w)
    rows: list[list[object]] = [
        [
            whole(m.house),
            m.winter,
            m.when,
            whole(m.what),
            *(round(say.shown(s, v, w), 2) for v in (m.effect, m.low, m.high)),
            "",
        ]
        for m in s.members
    ]
    rows += [[whole(r.house), r.winter, r.when, whole(r.what), None, None, None, whole(r.reason)] for r in s.refused]
    names = ["house", "winter", "day", "what the diary says", f"effect, {unit}", f"low, {unit}", f"high, {unit}",
             "why it could not be told"]  # fmt: skip
    return pd.DataFrame(rows, columns=names)


def lines(told: Told) -> Table:
    """Which diary lines count as which thing."""
    found = [(thing, line) for thing in told.group.things for line in thing.lines]
    data = pd.DataFrame(
        [[whole(t.name), whole(house), winter, day, whole(what)] for t, (house, winter, day, what) in found],
        columns=["thing", "house", "winter", "day", "what the diary says"],
    )
    cells = tuple(
        (whole(t.name), whole(house), winter, f"{brief_day(day)}{NBSP}{day.year}", whole(what))
        for t, (house, winter, day, what) in found[:MOST_LINES]
    )
    cut = (
        f"The first {number(len(cells))} of {number(len(found))} lines; all are in the file."
        if len(found) > len(cells)
        else ""
    )
    return Table(
        uid="things_lines",
        title="Which diary lines count as which thing",
        subtitle="A line belongs to one thing only.",
        columns=tuple(data.columns),
        rows=cells,
        data=data,
        notes=(cut,) if cut else (),
    )
