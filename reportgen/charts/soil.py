"""The soil page: the bed by day, its wave against the air's, its nights, its weeks, and a fan through it."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.build import Curve, Level, Look, Ring, change_marks, time_lines
from reportgen.charts.seldom import seldom_page
from reportgen.charts.soil_tables import days_csv, fan_table, nights_csv, wave_table, weeks_csv
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import of_the_time
from reportgen.measures.places import doubted_soil, seldom_soil
from reportgen.measures.there import There
from reportgen.review import Review
from reportgen.wording import NBSP, between, count, day, largest, number, of_all, share_time

SHOWS = (
    "this page would show whether it was warm enough for roots, how it follows the air, and what it gives back at "
    "night."
)
MISSING = (
    f"With a probe in the bed {SHOWS} From now on: push one temperature probe a hand deep into the main bed and let it "
    "write every ten minutes; write down the bed's volume."
)


FEW = (
    "The probe in the bed left too few readings that can be used, so this page has nothing to tell. The record says "
    "what was set aside and why."
)
WARM_ENOUGH = "No hour on record was too cold for roots"
LEAST_K = 0.1  # by which a week's loss must lead to be called the most: what a usual probe can tell; our own line


def page(review: Review) -> Page:
    """The page, or the note on what to log without a probe."""
    seldom = seldom_soil(review.readings)
    if seldom is not None:
        return seldom_page(review, "soil", "Soil", seldom, SHOWS)
    if review.soil.channel is None or review.soil.mean_c is None:
        return _without_probe(review)
    facts = Facts.of(review)
    found = [_days(review, facts), wave_table(facts), _nights(review, facts), _weeks(review, facts), fan_table(facts)]
    blocks: list[Drawing | Table | Note] = [block for block in found if block is not None]
    if review.soil.bed_kwh_per_k is None:
        words = "With the volume of the bed the nights and weeks would be told in kWh as well."
        blocks.append(Note(title="What is missing", text=words, kind="missing"))
    return Page(slug="soil", headline=_headline(facts), lead=_lead(facts), blocks=tuple(blocks))


def _without_probe(review: Review) -> Page:
    """No probe that lies in the bed, nothing usable of it, or none at all: what to do about it."""
    there, told, missing = There.of(review.readings), "not logged", MISSING
    if doubted_soil(review.readings):
        told = "no probe that lies in the bed"
    elif there.soil or "soil_temperature" in there.unheard:
        told, missing = "nothing to go by", FEW
    note = Note(title="Soil", text=missing, kind="missing")
    return Page(slug="soil", headline=f"Soil: {told}", lead=missing, blocks=(note,), answers=False)


def _headline(facts: Facts) -> str:
    s, w = facts.r.soil, facts.w
    if not s.hours_recorded:
        return f"How long the bed was under {w.temp(s.aim_c)} is not known"
    time = of_the_time(s.hours_recorded, facts.r.season.hours)
    if s.hours_below_aim.estimate < 0.5:
        seen = " on record" if time.endswith("record") else ""
        return f"The bed was never too cold for roots{seen}: not under {w.temp(s.aim_c)}"
    share = share_time(s.hours_below_aim.estimate / s.hours_recorded, time)
    return f"Too cold for roots {share}: the bed lay under {w.temp(s.aim_c)}"


def _lead(facts: Facts) -> str:
    s, w = facts.r.soil, facts.w
    parts = [f"Its mean was {w.temp(s.mean_c or 0.0)}"]
    if s.lag_h is not None and s.swing_amplitude_k is not None:
        parts.append(
            f"It swings {w.degrees(s.swing_amplitude_k)} either way each day and is warmest {w.hours(s.lag_h, 1)} "
            "after the air"
        )
    if s.released_kwh_per_night is not None:
        gives = s.released_kwh_per_night > 0
        kwh = w.kwh(abs(s.released_kwh_per_night), 1)
        parts.append(f"On the average night it {f'gives back at most {kwh}' if gives else f'takes up {kwh}'}")
    return ". ".join(parts) + "."


def _days(review: Review, facts: Facts) -> Drawing | None:
    s, w = review.soil, facts.w
    if s.days is None:
        return None
    frame = pd.DataFrame({"date": list(s.days.index)})
    for name in ("mean", "min", "max", "air_mean"):
        if name in s.days:
            frame[name] = s.days[name].map(w.temp_value).to_numpy()
    curves = [Curve("mean", "soil", "the bed", width=2.0)]
    if "air_mean" in frame:
        curves.append(Curve("air_mean", "neutral", "air inside", style="dash", width=1.1))
    rings = (
        (
            Ring(
                x=s.coldest[0],
                y=w.temp_value(s.coldest[1]),
                label=f"{w.temp(s.coldest[1])}, {day(s.coldest[0])}",
                token="soil",
            ),
        )
        if s.coldest
        else ()
    )
    look = Look(
        unit=w.temp_unit,
        x_domain=(review.season.first_day, review.season.last_day),
        levels=(Level(value=w.temp_value(s.aim_c), label="roots slow below", token="soil"),),
        rings=rings,
        marks=change_marks(review.readings, "bed"),
    )
    wide, narrow = time_lines(frame, "date", curves, look, fill=("min", "max", "soil"))
    table = days_csv(review)
    hours = s.hours_below_aim
    band = hours.low == hours.low and number(hours.low) != number(hours.high)
    low = f" ({between(w.hours(hours.low), w.hours(hours.high))} by its accuracy)" if band else ""
    depth = (
        f"{number(100 * s.channel.depth_m)}{NBSP}cm deep"
        if s.channel and s.channel.depth_m is not None
        else "depth not given"
    )
    return Drawing(
        uid="soil_days",
        title=_days_title(facts),
        subtitle=f"Mean of each day, {w.temp_unit}, with the bed's daily range shaded; probe {s.channel.logger}, "
        f"{depth}"
        if s.channel
        else "",
        label="Line chart of the bed's daily mean with its range, and the air's mean",
        description=f"Mean {w.temp(s.mean_c or 0.0)}; {w.hours(hours.estimate)}{low} under {w.temp(s.aim_c)}.",
        wide=wide,
        narrow=narrow,
        table=table,
        shown=table.iloc[::7],
        notes=(
            f"{w.hours(hours.estimate)}{low} of {w.hours(s.hours_recorded)} recorded were under {w.temp(s.aim_c)}.",
            "That roots slow below this line is common practice, without a source.",
        ),
        day_slider=True,
    )


def _days_title(facts: Facts) -> str:
    """The coldest day, where there is more than one."""
    s, w = facts.r.soil, facts.w
    if s.days is None or not s.coldest or s.days["mean"].notna().sum() < 2:
        return "How warm the bed was"
    return f"Coldest was {day(s.coldest[0])}, with {w.temp(s.coldest[1])} in the bed"


def _nights(review: Review, facts: Facts) -> Drawing | None:
    s, w = review.soil, facts.w
    if s.nights is None or s.nights["drop_k"].notna().sum() < 3:
        return None
    kwh = s.bed_kwh_per_k is not None
    values = s.nights["kwh"] if kwh else s.nights["drop_k"].map(w.diff_value)
    frame = pd.DataFrame({"date": list(s.nights.index), "given back": values.to_numpy()})
    unit = "kWh" if kwh else w.diff_unit
    look = Look(
        unit=unit,
        zero=True,
        x_domain=(review.season.first_day, review.season.last_day),
        marks=change_marks(review.readings, "bed"),
        levels=(Level(value=0.0, label="", token="neutral"),),
        height=190,
    )
    wide, narrow = time_lines(frame, "date", (Curve("given back", "soil", "given back"),), look)
    fed = int((s.nights["drop_k"] < 0).sum())
    nights = int(s.nights["drop_k"].notna().sum())
    mean = float(values.mean())
    words = w.kwh(mean, 1) if kwh else w.degrees(s.drop_k or 0.0)
    at_most = "at most " if kwh else ""
    return Drawing(
        uid="soil_nights",
        title=f"The bed gave back {at_most}{words} on the average night{_took_up(fed)}"
        if mean > 0
        else f"The bed took up heat on {of_all(fed, nights, 'night')}",
        subtitle=f"{unit}: what the bed lost from 18 to 8 o'clock"
        + (", all of it counted, so an upper bound" if kwh else ""),
        label="Line chart of the heat the bed gave back each night",
        description=f"{count(nights, 'night')}; mean {words}.",
        wide=wide,
        narrow=narrow,
        table=nights_csv(review),
        shown=nights_csv(review).iloc[::7],
        notes=(
            "Good to rank nights. On simulated houses this was 1.1 to 3 times what reached the air (1.6 in the "
            "middle): the "
            "rest goes down into the ground.",
        ),
    )


def _took_up(nights: int) -> str:
    return f", and took up heat on {count(nights, 'night')}" if nights else ""


def _weeks(review: Review, facts: Facts) -> Drawing | None:
    s, w = review.soil, facts.w
    if s.weeks is None or s.weeks["change_k"].notna().sum() < 2:
        return None
    frame = _steps(s.weeks["change_k"].map(w.diff_value))
    span = (review.season.first_day, review.season.last_day)
    zero = Level(value=0.0, label="")
    look = Look(
        unit="°",
        x_domain=span,
        marks=change_marks(review.readings, "bed"),
        levels=(zero,),
        height=190,
        plus=True,
    )
    curve = Curve("change", "soil", "gained, lost")
    wide, narrow = time_lines(frame, "date", (curve,), look, fill=("zero", "change", "soil"))
    drained = int((s.weeks["change_k"] < 0).sum())
    known = int(s.weeks["change_k"].notna().sum())
    worst = largest([-float(k) for k in s.weeks["change_k"]], LEAST_K)
    season = ""
    if s.season_change_k is not None:
        word = "warmer" if s.season_change_k > 0 else "colder"
        kwh = f" ({w.kwh(abs(s.season_balance_kwh))})" if s.season_balance_kwh is not None else ""
        season = f" It ended the season {w.degrees(abs(s.season_change_k))} {word} than it began{kwh}."
    return Drawing(
        uid="soil_weeks",
        title=f"The bed lost heat in {of_all(drained, known, 'week')}"
        + (f", most from {day(s.weeks.index[worst])} on" if worst is not None and drained > 1 else ""),
        subtitle="Degrees that the bed gained or lost in each week, Monday to Monday",
        label="Step chart of the bed's gain or loss of temperature by week",
        description=f"{count(drained, 'week')} of loss.{season}",
        wide=wide,
        narrow=narrow,
        table=weeks_csv(review),
        notes=(season.strip() or "The first or the last week was not logged whole, so the season has no balance.",),
    )


def _steps(weeks: pd.Series) -> pd.DataFrame:
    """Each week's figure held from its Monday to the next, with the zero line beside it."""
    rows = []
    for monday, value in weeks.items():
        start = pd.Timestamp(str(monday))
        ends = (start, start + pd.Timedelta(days=6, hours=23))
        rows += [{"date": end, "change": value, "zero": 0.0 if value == value else value} for end in ends]
    return pd.DataFrame(rows)
