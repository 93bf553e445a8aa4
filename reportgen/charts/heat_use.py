"""Charts of when the heat was used and whether it sufficed: months against the aim, weeks by source, hours."""

from __future__ import annotations

from datetime import date

import pandas as pd

from reportgen.charts import heat_tables as tables
from reportgen.charts.build import Curve, Look, Row, bars, carpet, change_marks, ranked
from reportgen.charts.types import Drawing
from reportgen.counsel.brief import heater
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat_bounds import part_unknown, spread_by
from reportgen.counsel.heat_words import hold_words, watts
from reportgen.measures.heating_hours import HEATERS
from reportgen.review import Review
from reportgen.wording import between, day, largest, month, number, of_all, share_time

STANDS_OUT = 2.0  # points by which a month must fall short of every other to be called the least; our own line
MOST_BY = 0.01  # of all heat by which a week must lead to be called the one with most; our own line
EVEN = 0.4  # share of the heat in eight hours of the day up to which it was given about evenly; 1/3 is quite even
SOURCE_TOKENS = ("warm", "sun", "soil", "money", "humid")


def months_drawing(review: Review, facts: Facts) -> list[Drawing]:
    h, w = review.heat, facts.w
    if h.months is None or not len(h.months):
        return []
    table = tables.months(review)
    firsts: list[date] = list(h.months.index)
    kept_share = 100.0 * (1 - h.months["below_h"] / h.months["hours"].where(h.months["hours"] > 0))
    shares = [(m, float(s)) for m, s in zip(firsts, kept_share, strict=True) if s == s]
    rows = tuple(Row(label=month(m), value=s, words=w.percent(s), token="target") for m, s in shares)
    wide, narrow = ranked(rows, Look(unit="% of the hours", domain=(0, 100), zero=True))
    worst = largest([100.0 - share for _, share in shares], STANDS_OUT)
    kept = share_time(h.share_at_or_above_hold.estimate)
    return [
        Drawing(
            uid="heat_months",
            title=f"The aim was kept {kept}" + (f", least in {month(shares[worst][0])}" if worst is not None else ""),
            subtitle=f"% of the recorded hours in which the coldest crop air was at or above {hold_words(facts)}",
            label="Bar chart of the share of hours at or above the aim, by month",
            description="; ".join(f"{row.label} {row.words}" for row in rows) + ".",
            wide=wide,
            narrow=narrow,
            table=table,
            notes=_band_note(facts),
        )
    ]


def _band_note(facts: Facts) -> tuple[str, ...]:
    h, w = facts.r.heat, facts.w
    share, lack = h.share_at_or_above_hold, h.degree_hours_below_hold
    if share.low != share.low:
        return (f"No band: {h.reasons.get('share_at_or_above_hold.low', 'no accuracy given')}.",)
    unit = f"{w.diff_unit}·h"
    over = (
        (f"{w.kwh(h.above_target_kwh)} of heat kept the air above the aim, by the same weather with the aim kept.",)
        if h.above_target_kwh is not None
        else ()
    )
    ends = between(w.percent(100 * share.low), w.percent(100 * share.high))
    short = ", ".join(number(w.diff_value(x)) for x in (lack.low, lack.estimate, lack.high))
    return (
        f"With the sensor's accuracy the whole season's share is {ends}; degree-hours short of the aim "
        f"(low, estimate, high): {short}\u00a0{unit}.",
        *over,
    )


def weeks_drawing(review: Review, facts: Facts) -> list[Drawing]:
    h, w = review.heat, facts.w
    if h.weeks is None or not h.kwh:
        return []
    table = tables.weeks(review)
    names = [s.name for s in h.sources] + (["appliances"] if "appliances" in h.weeks else [])
    names = [name for name in names if name in h.weeks and h.weeks[name].sum() > 0]
    frame = h.weeks.reset_index(names="week")[["week", *names]]
    tokens = [*SOURCE_TOKENS[: len(h.sources)], *["soil"] * len(h.sources)]
    curves = [Curve(name, "neutral" if name == "appliances" else tokens[n], name) for n, name in enumerate(names)]
    span = (review.season.first_day, review.season.last_day)
    look = Look(unit="kWh", x_domain=span, marks=change_marks(review.readings, "cold"))
    wide, narrow = bars(frame, "week", curves, look)
    whole = frame[[n for n in names if n != "appliances"]].sum(axis=1)
    top = int(whole.to_numpy().argmax())
    most = largest([float(v) for v in whole], MOST_BY * float(whole.sum()))
    half = _half(whole)
    sums = h.weeks["of sums"].sum()
    spread = (
        (f"{w.kwh(sums)} of it is known only as sums, which are spread over their days {spread_by(review.readings)}.",)
        if sums > 1
        else ()
    )
    return [
        Drawing(
            uid="heat_weeks",
            title=f"Half of the heat went into {of_all(half, int((whole > 0).sum()), 'week')}"
            + (f", most into that of {day(frame['week'].iloc[most])}" if most is not None else ""),
            subtitle="Heat of each week, Monday to Sunday, kWh, by source; what appliances draw heats the house too",
            label="Stacked bar chart of heat by week and source",
            description=f"{w.kwh(h.kwh)} in all; the most in one week was {w.kwh(float(whole.iloc[top]))}.",
            wide=wide,
            narrow=narrow,
            table=table,
            notes=(*spread, *_not_all(facts)),
        )
    ]


def _not_all(facts: Facts) -> tuple[str, ...]:
    if not part_unknown(facts):
        return ()
    return ("Hours of which nothing is known count as nothing here: a low week may be one with a gap in the record.",)


def _half(weeks: pd.Series) -> int:
    """The fewest weeks that together took half of the heat."""
    ordered = weeks.sort_values(ascending=False).cumsum()
    return int((ordered < weeks.sum() / 2).sum()) + 1


def hours_drawing(review: Review) -> list[Drawing]:
    """Carpet of the power by the hour: of all heaters, or of the one best known where the others are only sums."""
    name, hours = _best_known(review)
    if hours is None:
        return []
    at, called = pd.DatetimeIndex(hours.index), heater(name)
    frame = pd.DataFrame({"date": at.date, "hour": at.hour, "value": hours.to_numpy()})
    frame = frame.drop_duplicates(["date", "hour"])
    top = float(hours.max())
    edges = [0.02 * top, top / 3, 2 * top / 3]
    names = ("off", "up to a third", "up to two thirds", "near its most")
    span = (review.season.first_day, review.season.last_day)
    look = Look(height=190, x_domain=span, marks=change_marks(review.readings, "cold"))
    wide, narrow = carpet(frame, edges, names, look, steps=(3, 4, 5, 6))
    busiest, share = _busiest(hours)
    percent = f"{number(100 * share)}\u00a0%"
    end = (busiest + 8) % 24
    return [
        Drawing(
            uid="heat_hours",
            title=f"{percent} of the {_of(called)} heat was given between {busiest} and {end} o'clock"
            if share > EVEN
            else f"The {_of(called)} heat was spread over the whole day",
            subtitle=f"Power of the {called} by day and hour, as a share of its most in one hour ({watts(top)})",
            label=f"Day by hour carpet of the power of the {called}",
            description=f"The eight hours from {busiest} o'clock took {percent} of its heat.",
            wide=wide,
            narrow=narrow,
            table=pd.DataFrame({"hour": at.strftime("%Y-%m-%d %H:00"), "W": hours.round().to_numpy()}),
            shown=tables.by_month_and_hour(hours),
            notes=("Bare paper: hours for which the heat is not known.",),
        )
    ]


def _of(name: str) -> str:
    """The heater's, the heaters'."""
    return f"{name}'" if name.endswith("s") else f"{name}'s"


def _best_known(review: Review) -> tuple[str, pd.Series | None]:
    """All heaters together, unless one of them is known for more hours; None where little is known by the hour."""
    table = review.heat.by_hour
    if table is None:
        return "", None
    known = {source.name: float(table[source.name].notna().mean()) for source in review.heat.sources}
    best = max(known, key=lambda name: known[name], default="")
    together = float(table[HEATERS].notna().mean())
    if together >= 0.2 and together >= 0.9 * known.get(best, 0.0):
        only = review.heat.sources[0].name if len(review.heat.sources) == 1 else "heaters"
        return only, table[HEATERS]
    if known.get(best, 0.0) < 0.2 or not float(table[best].max()) > 0:
        return "", None
    return best, table[best]


def _busiest(hours: pd.Series) -> tuple[int, float]:
    """First of the eight hours on end that took most, and their share."""
    by_hour = hours.groupby(pd.DatetimeIndex(hours.index).hour).sum()
    sums = {start: sum(by_hour.get((start + n) % 24, 0.0) for n in range(8)) for start in range(24)}
    start = max(sums, key=lambda key: sums[key])
    return start, float(sums[start] / by_hour.sum()) if by_hour.sum() > 0 else 0.0
