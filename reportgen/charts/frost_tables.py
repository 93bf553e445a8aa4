"""Tables of the Frost page: every night, the worst five, the crops, failures, gaps."""

from __future__ import annotations

import math
from typing import Any

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import hidden
from reportgen.measures.there import diary_covers
from reportgen.review import Review
from reportgen.wording import NBSP, clock, count, day, number, of_all

WORST = 5
SILENT = "silent"
CLEAR, DULL = 0.6, 0.3  # share of a clear sky's light of the day before; common practice, no source


def rounded(frame: pd.DataFrame, digits: int = 2) -> pd.DataFrame:
    """The frame with its numbers rounded; times and words as they are."""
    numbers = frame.select_dtypes("number").columns
    return frame.assign(**{name: frame[name].round(digits) for name in numbers})


def nights_csv(review: Review, facts: Facts) -> pd.DataFrame:
    """Every night in shown units: date first."""
    t, w = review.frost.table, facts.w
    unit, k = w.temp_unit, w.diff_unit
    table = pd.DataFrame(
        {
            "date": list(t.index),
            f"inside {unit}": [w.temp_value(v) for v in t["inside_min"]],
            f"outdoors {unit}": [w.temp_value(v) for v in t["outdoor_min"]],
            f"above the line {k}": [w.diff_value(v) for v in t["margin_k"]],
            "logged %": (100 * t["share"]).round(0).to_numpy(),
            "coldest at": [clock(at) if isinstance(at, pd.Timestamp) and not pd.isna(at) else "" for at in t["at"]],
            "place": list(t["logger"]),
            "heated h": t["heated_h"].to_numpy(),
            f"without heat {unit}": [w.temp_value(v) for v in t["without_heat_c"]],
            "tenderest crop": list(t["tenderest"]),
            f"its margin {k}": [w.diff_value(v) for v in t["tenderest_margin_k"]],
            "diary": list(t["entries"]),
        }
    )
    return rounded(table)


WORST_NAMES = {  # with their units: in a file nothing else tells them
    "inside_min": "inside °C",
    "share": "logged, of 1",
    "outdoor_min": "outdoors °C",
    "outdoor_share": "logged outdoors, of 1",
    "margin_k": "above the line K",
    "heated_h": "heated h",
    "clear": "clear, of 1",
    "wind": "wind m/s",
    "without_heat_c": "without heat °C",
    "without_heat_low_c": "without heat, low °C",
    "without_heat_high_c": "without heat, high °C",
    "tenderest": "tenderest crop",
    "tenderest_margin_k": "its margin K",
}


def worst_table(review: Review, facts: Facts) -> Table | None:
    """The five coldest nights with what was happening."""
    t, w = review.frost.table, facts.w
    worst = t.dropna(subset=["inside_min"]).nsmallest(WORST, "inside_min")
    if worst.empty:
        return None
    nights: list[tuple[Any, Any]] = list(worst.iterrows())
    heated = heated_span(t)
    rows = tuple(
        (
            day(night),
            w.temp(row["inside_min"]),
            _or_dash(row["outdoor_min"], w.temp),
            f"{clock(row['at'])}, {row['logger']}",
            _heater(night, row["heated_h"], heated),
            _sky(row["clear"], row["wind"]),
            _tender(row, facts),
            row["entries"] or ("nothing written" if diary_covers(review.readings, night) else "no diary"),
        )
        for night, row in nights
    )
    silent = sum(_heater(night, row["heated_h"], heated) == SILENT for night, row in nights)
    written = int((worst["entries"] != "").sum())
    return Table(
        uid="frost_worst",
        title=(f"The coldest {count(len(worst), 'night')}" if len(worst) > 1 else "The one night on record")
        + (f": {number(written)} with a line in the diary" if written else ""),
        subtitle="What was happening, as far as it was logged or written",
        columns=("night", "inside", "outdoors", "when and where", "heater", "sky", "tenderest crop", "diary"),
        rows=rows,
        data=rounded(worst.drop(columns=["at"]).reset_index().rename(columns=WORST_NAMES)),
        notes=tuple(
            note
            for note in (
                f"On {of_all(silent, len(worst), 'night')} the main heater gave nothing, between its first day and its "
                "last."
                if silent
                else "",
                "Sky: sunlight of the day before against a cloudless one. A clear still night cools glass and "
                "ground far "
                "below the air."
                if worst["clear"].notna().any()
                else "",
            )
            if note
        ),
    )


def _or_dash(value: float, words: object) -> str:
    return "not logged" if pd.isna(value) else str(words(value))  # type: ignore[operator]


def heated_span(nights: pd.DataFrame) -> tuple[Any, Any] | None:
    """First and last evening on which a main heater gave heat; None where none did or it is not known."""
    warm = nights.index[(nights["heated_h"] > 0).to_numpy()]
    return (warm[0], warm[-1]) if len(warm) else None


def _heater(night: Any, hours: float, heated: tuple[Any, Any] | None) -> str:
    """What the main heater did that night: a heater that was not in use yet, or no longer, was not silent."""
    if pd.isna(hours):
        return "not known"
    if hours > 0:
        return f"{number(hours)} of 15{NBSP}h"
    if heated is None:
        return "no heat"
    return "not in use yet" if night < heated[0] else "not in use any more" if night > heated[1] else SILENT


def _sky(clear: float, wind: float) -> str:
    sky = "" if pd.isna(clear) else "clear" if clear >= CLEAR else "dull" if clear < DULL else "mixed"
    air = "" if pd.isna(wind) else "still" if wind < 1.5 else "windy" if wind > 4 else "light wind"
    return ", ".join(word for word in (sky, air) if word) or "not logged"


def _tender(row: pd.Series, facts: Facts) -> str:
    if not row["tenderest"] or pd.isna(row["tenderest_margin_k"]):
        return "none with a known band"
    margin = float(row["tenderest_margin_k"])
    return f"{row['tenderest']}, {facts.w.diff(abs(margin))} {'below' if margin < 0 else 'above'}"


def crop_table(facts: Facts) -> Table | None:
    """Every crop while it stood, against its band and against what it survived."""
    w, crops = facts.w, facts.r.frost.crops
    if not crops:
        return None
    rows = []
    for c in crops:
        band = "not known"
        if c.damage_low_c is not None and c.damage_high_c is not None:
            ends = (w.temp_value(c.damage_low_c), w.temp_value(c.damage_high_c))
            places = 1 if c.source.startswith("your own") and any(abs(end - round(end)) > 0.05 for end in ends) else 0
            band = w.temp(c.damage_high_c, places)
            if c.damage_low_c != c.damage_high_c:
                band = f"{number(ends[0], places)} to {band}"
        survived = w.temp(c.survived_c) if c.survived_c is not None else "losses noted" if c.lost else "not noted"
        rows.append(
            (
                f"{c.crop}{f', {c.bed}' if c.bed else ''}",
                f"{day(c.from_)} to {day(c.to)}" + (" (assumed)" if c.assumed_standing else ""),
                w.temp(c.coldest_c) if c.coldest_c is not None else "not logged",
                w.temp(c.week_before_c) if c.week_before_c is not None else "not known",
                band,
                survived,
                w.temp(c.without_heat_c, 0) if c.without_heat_c is not None else "not known",
            )
        )
    sources = dict.fromkeys(f"{c.crop}: {c.source}" for c in crops)
    return Table(
        uid="frost_stood",
        title=_survived_title(facts),
        subtitle="Coldest air while it stood, at its bed's logger or the coldest place; nights of the week before",
        columns=("crop", "stood", "coldest", "week before", "damage band", "stood it without loss", "without heat"),
        rows=tuple(rows),
        data=_crops_csv(facts),
        notes=(f"Bands: {'; '.join(sources)}.",),
    )


def _crops_csv(facts: Facts) -> pd.DataFrame:
    columns = {
        "crop": [c.crop for c in facts.r.frost.crops],
        "bed": [c.bed for c in facts.r.frost.crops],
        "from": [c.from_ for c in facts.r.frost.crops],
        "to": [c.to for c in facts.r.frost.crops],
        "coldest °C": [c.coldest_c for c in facts.r.frost.crops],
        "band, colder end °C": [c.damage_low_c for c in facts.r.frost.crops],
        "band, warmer end °C": [c.damage_high_c for c in facts.r.frost.crops],
        "stood without loss °C": [c.survived_c for c in facts.r.frost.crops],
        "without heat °C": [c.without_heat_c for c in facts.r.frost.crops],
        "source of the band": [c.source for c in facts.r.frost.crops],
    }
    return rounded(pd.DataFrame(columns))


def _survived_title(facts: Facts) -> str:
    known = [c for c in facts.r.frost.crops if c.survived_c is not None]
    if not known:
        return "What each crop met while it stood"
    best = min(known, key=lambda c: c.survived_c or 0.0)
    return f"{best.crop[:1].upper()}{best.crop[1:]} stood {facts.w.temp(best.survived_c or 0.0)} without a loss"


def failure_table(facts: Facts) -> Table | None:
    """Stretches without heat while the air was under the hold and falling."""
    f, w = facts.r.frost, facts.w
    if not f.failures:
        return None
    return Table(
        uid="frost_failures",
        title="The heat failed once" if len(f.failures) == 1 else f"The heat failed {count(len(f.failures), 'time')}",
        subtitle=f"At least 2{NBSP}h without the main heater, the air more than {w.diff(2, 0)} under the hold "
        "and falling",
        columns=("from", "to", "hours", "coldest"),
        rows=tuple(
            (
                f"{day(x.start)}, {clock(x.start)}",
                f"{day(x.end)}, {clock(x.end)}",
                w.hours(x.hours),
                w.temp(x.minimum_c),
            )
            for x in f.failures
        ),
        data=rounded(
            pd.DataFrame(
                [(x.start, x.end, x.hours, x.minimum_c) for x in f.failures],
                columns=["start", "end", "hours", "minimum °C"],
            )
        ),
        notes=(
            "A thermostat turned down by hand looks the same"
            + ("; the diary may tell which it was." if facts.there.diary_lines else "."),
        ),
    )


def gap_table(facts: Facts) -> Table | None:
    """Hours without crop air while it was under the frost line outdoors, or outdoors was not known either."""
    f, w = facts.r.frost, facts.w
    if not hidden(f, w):
        return None
    could = f.gaps["could_have_been_c"]
    gaps: list[Any] = list(f.gaps.itertuples())
    rows = tuple(
        (
            f"{day(g.start)}, {clock(g.start)}",
            f"{day(g.end)}, {clock(g.end)}",
            w.hours(g.cold_hours, 1),
            w.hours(g.unknown_hours, 1),
            w.temp(g.outdoor_c) if math.isfinite(g.outdoor_c) else "not known",
            w.temp(g.could_have_been_c) if math.isfinite(g.could_have_been_c) else "cannot tell",
        )
        for g in gaps
    )
    why = (
        f"It could have been: cannot tell, {f.reasons.get('could_have_been_c', 'too few nights are logged whole')}."
        if not could.notna().any()
        else "It could have been: the low side of what this house would do without heat at that outdoor air."
    )
    return Table(
        uid="frost_gaps",
        title="Hours of which nobody knows how cold it was inside",
        subtitle=f"Stretches without any crop air in which it was under {w.temp(f.line_c)} outdoors, or outdoors was "
        "not recorded either",
        columns=(
            "from",
            "to",
            f"hours under {w.temp(f.line_c)} outdoors",
            "hours unknown outdoors",
            "coldest known outdoors",
            "it could have been",
        ),
        rows=rows,
        data=rounded(f.gaps),
        notes=(why, "While such a gap stands, nobody can say that it was never colder than the coldest reading."),
    )
