"""The Damp page by night: wet leaves and what inspections found, the wet spells ranked, how near to dew at dawn."""

from __future__ import annotations

from datetime import timedelta

import pandas as pd

from reportgen.charts.build import Curve, Dots, Level, Look, change_marks, points, time_lines
from reportgen.charts.types import Drawing, Table
from reportgen.counsel.facts import Facts
from reportgen.measures.damp import SPREAD_K
from reportgen.measures.damp_mould import SEEN_DAYS, WET_PCT, WetSpell
from reportgen.review import Review
from reportgen.wording import NBSP, clock, count, day, number, of_all

LOOKED_H, FOUND_H = 18.6, 17.0  # where inspections stand above the nights' 0–15 h
TOP = 8  # spells in the table
ORDER = {"high": 0, "moderate": 1, "low": 2, "none": 3, "too cold": 4, "unknown": 5}


def nights_drawing(review: Review, facts: Facts) -> Drawing:
    """Leaf-wet hours of every night by the class of its wet spell, inspections above them."""
    d, w = review.damp, facts.w
    t = d.table.reset_index()
    logged = t[t["recorded"] > 0]
    ranked = logged["klass"].isin(["moderate", "high"])
    dots = [
        Dots(frame=_xy(logged[~ranked]), token="humid", label="wet hours of a night", area=12),
        Dots(frame=_xy(logged[ranked]), token="warm", label="mould weather", shape="square", area=30),
    ]
    looked, found = _inspections(review)
    dots.append(Dots(frame=looked, token="neutral", label="looked, nothing", shape="circle", area=26))
    dots.append(Dots(frame=found, token="warm", label="looked, found", shape="cross", area=60))
    span = (review.season.first_day, review.season.last_day)
    look = Look(unit="h", domain=(0, 20), x_domain=span, marks=change_marks(review.readings, "damp"), height=240)
    wide, narrow = points([one for one in dots if len(one.frame)], look)
    table = _nights_csv(logged)
    wet, visits = int((logged["leaf_wet"] >= 10).sum()), len(looked) + len(found)
    return Drawing(
        uid="damp_nights",
        title=f"On {count(wet, 'night')} leaves stayed wet for ten hours or more"
        if wet
        else "On no night did leaves stay wet for ten hours",
        subtitle=f"Hours of each night, 18 to 09{NBSP}h, with {number(WET_PCT)}{NBSP}% humidity or more"
        + ("; inspections stand above" if visits else ""),
        label="Scatter chart of wet hours by night" + (", with inspections" if visits else ""),
        description=f"{w.hours(d.leaf_wet_hours.estimate)} of wet leaves in the season"
        + (f"; something was found on {of_all(len(found), visits, 'visit')}." if visits else "."),
        wide=wide,
        narrow=narrow,
        table=table,
        shown=table.nlargest(20, "wet h").sort_values("date"),
        notes=_night_notes(facts),
        day_slider=True,
    )


def _night_notes(facts: Facts) -> tuple[str, ...]:
    d, w = facts.r.damp, facts.w
    notes = [
        "Mould weather: a wet spell ranked moderate or high by hours and warmth, an equation fitted on grape "
        "(Broome and "
        "others 1995). It ranks nights and is no forecast for salad."
    ]
    if d.near_wet_hours is not None:
        notes.append(
            f"Within {w.diff(SPREAD_K, 0)} of dew, another way to count, the air stood for {w.hours(d.near_wet_hours)} "
            "(common practice, no source)."
        )
    if not facts.there.inspections:
        notes.append(
            "No inspections are written down; a line for each look, zeros too, would show which nights mattered."
        )
    return tuple(notes)


def _xy(rows: pd.DataFrame) -> pd.DataFrame:
    return pd.DataFrame({"x": rows["date"], "y": rows["leaf_wet"]})


def _inspections(review: Review) -> tuple[pd.DataFrame, pd.DataFrame]:
    """Dates with an inspection: nothing found, something found."""
    inside = [i for i in review.readings.inspections if review.season.first_day <= i.date <= review.season.last_day]
    some = {i.date for i in inside if i.level is None or i.level > 0}
    none = {i.date for i in inside} - some
    return (
        pd.DataFrame({"x": sorted(none), "y": [LOOKED_H] * len(none)}),
        pd.DataFrame({"x": sorted(some), "y": [FOUND_H] * len(some)}),
    )


def _nights_csv(rows: pd.DataFrame) -> pd.DataFrame:
    names = {
        "recorded": "h recorded",
        "above_high": "h above the high line",
        "above_extreme": "h above the extreme line",
        "leaf_wet": "wet h",
        "dawn_spread_k": "air above dew at dawn K",
        "klass": "mould weather",
        "index": "index",
        "found": "inspection next day",
    }
    table = rows[["date", *names]].rename(columns=names)
    numbers = table.select_dtypes("number").columns
    return table.assign(**{name: table[name].round(2) for name in numbers})


def mould_table(facts: Facts) -> Table | None:
    """Wet spells, the worst first; those too cold for the equation by their hours."""
    d, w = facts.r.damp, facts.w
    if not d.wet_spells:
        return None
    ranked = sorted(d.wet_spells, key=lambda s: (ORDER[s.klass], -(s.index if s.index == s.index else s.wet_h / 1e4)))
    g = d.grey_mould_spells
    rows = tuple(
        (
            f"{day(s.start)}, {clock(s.start)}",
            f"{day(s.end)}, {clock(s.end)}",
            w.hours(s.wet_h),
            w.temp(s.mean_c) if s.mean_c == s.mean_c else "not logged",
            "too cold to rank" if s.klass == "too cold" else s.klass,
            _seen(s, facts),
        )
        for s in ranked[:TOP]
    )
    high, cold = g.high or 0, g.too_cold_for_equation or 0
    title = f"{count(high, 'wet spell').capitalize()} ranked high for grey mould"
    title += f", {number(cold)} too cold to rank" if cold else ""
    return Table(
        uid="damp_spells",
        title=title,
        subtitle=f"Spells with {number(WET_PCT)}{NBSP}% humidity or more, dry gaps of up to 4{NBSP}h in them left "
        "out; the worst first",
        columns=("from", "to", "wet", "mean air", "grey-mould weather", "inspections to a week after"),
        rows=rows,
        data=pd.DataFrame(
            [(s.start, s.end, round(s.wet_h, 1), round(s.mean_c, 1), round(s.index, 2), s.klass) for s in ranked],
            columns=["start", "end", "wet h", "mean °C", "index", "class"],
        ),
        notes=(
            f"{count(len(d.wet_spells), 'spell')} in all; the file has every one. A spell under {w.temp(12, 0)} "
            "on average is "
            "never called high: mould grows there too, more slowly, and the equation does not say how fast.",
        ),
    )


def visits_table(facts: Facts) -> Table | None:
    """Every visit: whether it found mould or rot, and whether the index had warned in the week before."""
    seen = facts.r.damp.mould
    if not seen.looked:
        return None
    cells = [
        (when, "yes" if when in seen.found else "no", "yes" if when in seen.warned else "no") for when in seen.looked
    ]
    found = [row for row in cells if row[1] == "yes"]
    return Table(
        uid="damp_visits",
        title=f"Mould or rot on {of_all(len(seen.found), len(seen.looked), 'visit')}",
        subtitle="By inspections.csv; a wet spell: one ranked moderate or high in the week before, or lasting still",
        columns=("visit that found some", "wet spell that ranks"),
        rows=tuple((day(when), warned) for when, _, warned in found),
        data=pd.DataFrame(cells, columns=["date", "mould or rot", "of these, after a wet spell that ranks"]),
    )


def _seen(spell: WetSpell, facts: Facts) -> str:
    """What inspections found from the spell's beginning to a week after its end; zeros kept."""
    first, last = spell.start.date(), spell.end.date() + timedelta(days=SEEN_DAYS)
    told = [
        f"{day(i.date)}: {i.found}" if i.level is None or i.level > 0 else f"{day(i.date)}: nothing"
        for i in facts.r.readings.inspections
        if first <= i.date <= last
    ]
    more = f"; {number(len(told) - 2)} more" if len(told) > 2 else ""
    return "; ".join(told[:2]) + more if told else "nothing written" if facts.there.inspections else "no book"


def dawn_drawing(review: Review, facts: Facts) -> Drawing | None:
    """Air temperature above its dew point at sunrise."""
    d, w = review.damp, facts.w
    spread = d.table["dawn_spread_k"].dropna()
    if spread.empty:
        return None
    frame = pd.DataFrame({"date": list(d.table.index), "spread": [w.diff_value(v) for v in d.table["dawn_spread_k"]]})
    span = (review.season.first_day, review.season.last_day)
    level = Level(value=w.diff_value(SPREAD_K), label="near dew", token="humid")
    look = Look(
        unit=w.diff_unit, zero=True, x_domain=span, marks=change_marks(review.readings, "damp"), levels=(level,)
    )
    wide, narrow = time_lines(frame, "date", (Curve("spread", "humid", "at dawn"),), look)
    near = int((spread < SPREAD_K).sum())
    return Drawing(
        uid="damp_dawn",
        title=f"On {of_all(near, len(spread), 'dawn')} the air was within {w.diff(SPREAD_K, 0)} of dew",
        subtitle=f"Air temperature less dew point at sunrise, {w.diff_unit}; 0 is fog",
        label="Line chart of how near the air was to dew at sunrise",
        description=f"On average {w.diff(float(spread.mean()))}, least {w.diff(max(float(spread.min()), 0.0))}.",
        wide=wide,
        narrow=narrow,
        table=frame.rename(columns={"spread": f"air above dew point {w.diff_unit}"}).round(2),
        shown=frame.rename(columns={"spread": f"air above dew point {w.diff_unit}"}).round(1).iloc[6::7],
        notes=(f"Under {w.diff(SPREAD_K, 0)}: common practice, no source. The table shows one night a week.",),
    )
