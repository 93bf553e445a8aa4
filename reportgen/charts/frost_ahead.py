"""What the Frost page says about nights to come: the limit, the winter without heat, a failure, the alarms."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.build import Curve, Dots, Fit, Level, Look, change_marks, points, time_lines
from reportgen.charts.nights_views import failure_view
from reportgen.charts.types import Drawing, Note
from reportgen.counsel.facts import Facts
from reportgen.counsel.frost_next import flat_out_words, of_which
from reportgen.drawing.failure import failure
from reportgen.measures.frost_cold import CLOSE, HELD
from reportgen.measures.frost_limit import last_touch
from reportgen.measures.frost_types import Forecast
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, clock, count, day

HOURS = {
    "<3": "under 3 hours",
    "3-8": "3 to 8 hours",
    ">8": "over 8 hours",
    "<3 or 3-8": "under 8 hours",
    "3-8 or >8": "over 3 hours",
    "<3 or 3-8 or >8": "cannot tell",
}
USED = {"with heat": "nights with heat", "at the hold": "nights at the hold"}  # and what is said of them below
WHICH = {
    "with heat": ", those with heat: on milder ones it shows nothing of what it can hold",
    "at the hold": ", those at its usual hold or under it: on milder ones it shows nothing of what it can hold",
}


def limit_drawing(review: Review, facts: Facts) -> Drawing | Note:
    """Night minimum inside against that outdoors, with the lower bound where one could be fitted."""
    f, w = review.frost, facts.w
    limit = f.holding_limit
    if limit.points.empty:
        return Note(
            title="How cold may it get outside?",
            kind="missing",
            text=f"Cannot tell: {limit.reason}.{_outdoors(facts)}",
        )
    frame = limit.points.rename(columns={"outdoor_c": "x", "inside_c": "y"})
    frame[["x", "y"]] = frame[["x", "y"]].map(w.temp_value)
    used_words = USED.get(limit.chosen, "nights used" if not limit.curve.empty else "since the last change")
    dots = [Dots(frame=frame[~frame["fitted"]], token="neutral", label="other nights", area=10)]
    dots.append(Dots(frame=frame[frame["fitted"]], token="cold", label=used_words, shape="diamond", area=22))
    fits = []
    if not limit.curve.empty:
        curve = limit.curve.map(w.temp_value)
        middle = pd.DataFrame({"x": curve["outdoor_c"], "y": curve["middle_c"]})
        low = pd.DataFrame({"x": curve["outdoor_c"], "y": curve["bound_c"]})
        fits = [
            Fit(frame=middle, token="cold"),
            Fit(frame=low, token="cold", label="19 in 20 stay above", style="dash"),
        ]
    look = Look(
        unit=w.temp_unit,
        x_title=f"coldest outdoors, {w.temp_unit}",
        levels=(Level(value=w.temp_value(f.line_c), label="frost line", token="warm"),),
        height=260,
    )
    wide, narrow = points([d for d in dots if len(d.frame)], look, fits)
    notes = [_limit_words(facts)] if limit.outdoor_c is None else []
    if limit.heater_flat_out_c is not None:
        notes.append(flat_out_words(facts).strip())
    if review.season.place.rare_low_c is not None:
        notes.append(f"A low of {w.temp(review.season.place.rare_low_c, 0)} comes about once in twenty years here.")
    notes.append(_which_nights(facts))
    out, inside = f"outdoors {w.temp_unit}", f"inside {w.temp_unit}"
    names = {"outdoor_c": out, "inside_c": inside, "fitted": "used"}
    table = (
        limit.points.assign(fitted=limit.points["fitted"].map({True: "yes", False: "no"}))
        .rename(columns=names)
        .assign(**{out: frame["x"], inside: frame["y"]})
        .round(2)
    )
    return Drawing(
        uid="frost_limit",
        title=_limit_title(facts),
        subtitle=f"Each mark is a night: coldest inside against coldest outdoors, {w.temp_unit}",
        label="Scatter chart of the coldest air inside against outdoors, a mark a night",
        description=_limit_words(facts),
        wide=wide,
        narrow=narrow,
        table=table,
        shown=table.nsmallest(12, out),
        notes=tuple(notes),
    )


def _outdoors(facts: Facts) -> str:
    there = facts.there
    if there.outdoor_air:
        return ""
    if there.logged("outdoor_air"):
        return (
            " It takes loggers that write day and night, beside the crop and outdoors in the shade, through the whole "
            f"{there.season}."
        )
    if there.outdoor_named:
        return " The logger outdoors left no reading."
    return f" It takes an outdoor logger in the shade through the whole {there.season}."


def _which_nights(facts: Facts) -> str:
    """Which nights are fitted, by what the diary and the heating leave."""
    touched = last_touch(facts.r.readings)
    since = "Nights since the house was last altered" if touched else "Nights of the whole season"
    return f"{since}{WHICH.get(facts.r.frost.holding_limit.chosen, '')}."


def _limit_title(facts: Facts) -> str:
    limit, w = facts.r.frost.holding_limit, facts.w
    if limit.outdoor_c is not None:
        return f"On 19 nights of 20 the house holds down to about {w.temp(limit.outdoor_c, 0)} outdoors"
    if limit.reason in (HELD, CLOSE) and limit.coldest_seen_c is not None:
        rest = ", but only just" if limit.reason == CLOSE else "; colder was not tested"
        return f"It held on every night{of_which(facts)}, down to {w.temp(limit.coldest_seen_c)} outdoors{rest}"
    return f"How cold it may get outside cannot be told from this {facts.there.season}"


def _limit_words(facts: Facts) -> str:
    limit, w = facts.r.frost.holding_limit, facts.w
    if limit.outdoor_c is not None:
        return (
            f"From {w.temp(limit.outdoor_c, 0)} upward the line that 19 in 20 nights stay above clears the frost line."
        )
    if limit.reason == CLOSE:
        return (
            "Every night used stayed above the line, but inside it fell with the cold, so near to the line that "
            "another night as cold may fall below it."
        )
    if limit.reason == HELD:
        return "Every night used stayed above the line; guesses about colder nights are wrong too often to print."
    return f"Cannot tell: {limit.reason}."


UNLISTED = "No heater is listed: if nothing heats the house, the nights above are those without heat."


def bare_drawing(review: Review, facts: Facts) -> Drawing | Note:
    """The winter as it would have been without heat, night by night, with the crops' lines."""
    f, w = review.frost, facts.w
    if not f.table["without_heat_c"].notna().any():
        why = f.reasons.get("without_heat_minimum_c.estimate", "")
        if not facts.there.heater:
            return Note(title="Without heat", text=UNLISTED)
        text = f"How cold it would have been cannot be told: {why}.{_may_fall(facts)}"
        return Note(title="Without heat", kind="missing", text=text)
    frame = pd.DataFrame(
        {
            "date": list(f.table.index),
            "with": [w.temp_value(v) for v in f.table["inside_min"]],
            "without": [w.temp_value(v) for v in f.table["without_heat_c"]],
            "low": [w.temp_value(v) for v in f.table["without_heat_low_c"]],
            "high": [w.temp_value(v) for v in f.table["without_heat_high_c"]],
        }
    )
    curves = (Curve("with", "warm", "as it was"), Curve("without", "cold", "without heat", style="dash"))
    lines: dict[float, list[str]] = {}
    for c in f.crops:
        if c.damage_high_c is not None and c.crop not in lines.setdefault(c.damage_high_c, []):
            lines[c.damage_high_c].append(c.crop)
    low = w.temp_value(float(f.table["without_heat_c"].min())) - 2
    levels = tuple(
        Level(value=w.temp_value(c), label=", ".join(names), token="target")
        for c, names in sorted(lines.items())
        if w.temp_value(c) >= low
    )
    span = (review.season.first_day, review.season.last_day)
    look = Look(unit=w.temp_unit, x_domain=span, marks=change_marks(review.readings, "cold"), levels=levels, height=260)
    wide, narrow = time_lines(frame, "date", curves, look)
    bare = f.without_heat_minimum_c
    below = int((f.table["without_heat_c"] < f.line_c).sum())
    named = {
        "with": f"as it was {w.temp_unit}",
        "without": f"without heat {w.temp_unit}",
        "low": f"at least {w.temp_unit}",
        "high": f"at most {w.temp_unit}",
    }
    return Drawing(
        uid="frost_bare",
        title=f"Without heat about {count(below, 'night')} would have fallen below {w.temp(f.line_c)}",
        subtitle=f"Coldest air of each night, {w.temp_unit}: as it was, and worked out without heat from the first day",
        label="Line chart of the coldest air of each night with and without heat",
        description=f"Without heat the coldest night would have been {w.temp(bare.estimate, 0)} "
        f"({w.temp(bare.low, 0)} to {w.temp(bare.high, 0)}).",
        wide=wide,
        narrow=narrow,
        table=frame.rename(columns=named).round(1),
        shown=frame.nsmallest(12, "without").rename(columns=named).round(1),
        notes=(
            "From how the air of this house followed its heat, the outdoor air and its own bed, which cools too. Each "
            "night's range is in the table; of ten such ranges on simulated houses about nine held the truth.",
        ),
    )


def _may_fall(facts: Facts) -> str:
    """The one thing that can be said without a balance: a bound from above."""
    bound = facts.r.frost.ahead.may_fall_to_c
    if bound is None:
        return ""
    return (
        f" On the coldest night it may have fallen to {facts.w.temp(bound, 0)}, or colder: as cold as outdoors but for "
        "the least that the house kept on a night without heat."
    )


def _takes(facts: Facts) -> str:
    """What it would take, of what is not there."""
    there = facts.there
    probe = f"a probe in the bed{' that writes day and night' if there.logged('soil') else ''}"
    asked = ((there.heat_by_hour, "the heater logged by the hour"), (there.soil, probe))
    missing = [words for known, words in asked if not known]
    return f" It takes {' and '.join(missing)}." if missing else ""


def after_drawing(review: Review, facts: Facts) -> Drawing | Note | None:
    """Where the air would be after 3 and 8 h without heat; None in a house without a heater."""
    f, w = facts.r.frost, facts.w
    if not facts.there.heater:
        return None
    if not f.after_failure:
        return Note(
            title="If the heat fails",
            kind="missing",
            text=f"How long you would have cannot be told: {f.reasons.get('after_failure', '')}.{_takes(facts)}",
        )
    rows = tuple(
        (w.temp(x.outdoor_c, 0), _told(w, x.after_3h), _told(w, x.after_8h), _until(x.hours_to_line))
        for x in f.after_failure
    )
    worst = next((x for x in f.after_failure if x.hours_to_line == "<3"), None)
    title = (
        f"From {w.temp(worst.outdoor_c, 0)} outdoors you would have under three hours"
        if worst
        else _time_left([x.hours_to_line for x in f.after_failure])
    )
    view = failure_view(review, "frost_after")
    assert view is not None  # it is told wherever there are rows
    return Drawing(
        uid="frost_after",
        title=title,
        subtitle=f"Air at the main crop logger after 8{NBSP}h without heat in the night, {w.temp_unit}; shaded: "
        "where nine in ten would end",
        label=view.label,
        description=view.description,
        wide=failure(view),
        narrow=failure(view, 360, 12.5, "one"),
        shown=pd.DataFrame(rows, columns=["outdoors", f"after 3{NBSP}h", f"after 8{NBSP}h", "until the frost line"]),
        table=pd.DataFrame(
            [(x.outdoor_c, *_ends(x.after_3h), *_ends(x.after_8h), x.hours_to_line) for x in f.after_failure],
            columns=[
                "outdoors °C",
                *(f"after {h} h{end} °C" for h in (3, 8) for end in ("", " low", " high")),
                "hours to line",
            ],
        ).round(2),
        notes=(
            *_measured(facts),
            f"From {count(f.ahead.stopped_nights, 'heated night')} of this house, as it is now, each stopped at "
            f"20{NBSP}h; of ten such ranges on simulated houses about nine held the truth. Milder nights are left "
            "out. There is no single rate of cooling: most of the warmth of the air goes in the first three hours, "
            "then the bed carries it.",
        ),
    )


def _told(w: Wording, told: Forecast) -> str:
    return f"{w.temp(told.estimate, 0)} ({w.temp(told.low, 0)} to {w.temp(told.high, 0)})"


def _ends(told: Forecast) -> tuple[float, float, float]:
    return told.estimate, told.low, told.high


def _until(classes: str) -> str:
    """The class of hours in words; all three of them decide nothing."""
    return HOURS.get(classes, "cannot tell")


def _measured(facts: Facts) -> tuple[str, ...]:
    """What a failure of this season did, beside the forecast."""
    f, w = facts.r.frost, facts.w
    return tuple(
        f"Measured from {clock(x.start)} on {day(x.start)}: {w.temp(x.minimum_c)} after {w.hours(x.hours)} without "
        "heat."
        for x in f.failures[:2]
    )


def _time_left(spans: list[str]) -> str:
    """The time to the frost line where no row says that it is under three hours for sure."""
    if all("<3" not in one for one in spans):
        return "If the heat fails you would have three hours or more"
    return "How long you would have if the heat fails"
