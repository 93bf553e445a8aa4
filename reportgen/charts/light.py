"""The light page: day length against ten hours, the light of each day against the need, gloomy spells, a lamp."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.build import Curve, Level, Look, Ring, change_marks, time_lines
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.light import dark_span, days_words, gloomy_words, how, mol, shortest_words, sunlit_words
from reportgen.measures.light import Light
from reportgen.measures.light_daily import QUANTA_HIGH, QUANTA_LOW, QUANTA_PER_JOULE, lamp_hours
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.readings.types import PRIVATE
from reportgen.review import Review
from reportgen.wording import NBSP, count, day, number, share_of, share_time

MISSING = (
    "With the latitude this page would show the dark weeks, and with a light sensor whether the "
    "crop had enough to grow. From now on give the latitude"
)
ITS_GROWER = f"The place is {PRIVATE}, and the length of its days with it."
LIGHT_TOO = " How much light came was not logged either."
SENSOR = ", and log light beside the crop or the sun's energy outdoors."
USUAL_LAMP = 150.0  # [µmol m⁻² s⁻¹] a strong shelf lamp at leaf height; common practice, no source
NO_SENSOR = (
    "Without a light sensor this page knows the sun's path and not the clouds: how much light came cannot be "
    "told. From now on log light beside the crop, or the sun's energy outdoors together with the share of light that "
    "the cover lets through."
)

TOO_SELDOM = (
    "So this page knows the sun's path and not the clouds: how much light came cannot be told. From now on let the "
    "light sensor write every ten minutes."
)


def page(review: Review) -> Page:
    """The page; without a light sensor the sun's path alone, without a latitude the note on what to log."""
    facts, light = Facts.of(review), review.light
    blocks: list[Drawing | Table | Note] = [
        *_length(review, facts),
        *_days(review, facts),
        *_gloomy(facts),
        *_lamp(facts),
    ]
    if not blocks:
        missing = _missing(facts)
        note = Note(title="Light", text=missing, kind="missing")
        return Page(slug="light", headline="Light: not known", lead=missing, blocks=(note,), answers=False)
    if light.mean_daily_light_mol is None:
        why = light.reasons.get("mean_daily_light_mol", "")
        blocks.append(
            Note(title="What is missing", text=f"{why[:1].upper()}{why[1:]}.{_rest(facts, why)}", kind="missing")
        )
    return Page(slug="light", headline=_headline(facts), lead=_lead(facts), blocks=tuple(blocks))


def _missing(facts: Facts) -> str:
    """What the page would need; nobody is asked for a latitude that stays in the house."""
    if "place" in facts.r.readings.held_back:
        return ITS_GROWER + ("" if facts.there.logged("light") else LIGHT_TOO)
    return MISSING + ("." if facts.there.logged("light") else SENSOR)


def _rest(facts: Facts, why: str) -> str:
    """What to log, after the reason: nothing where a sensor hangs there that left no whole day."""
    if NOTHING_TOLD in why:
        return f" {TOO_SELDOM}"
    return "" if facts.there.light else f" {NO_SENSOR}"


def _headline(facts: Facts) -> str:
    light = facts.r.light
    if light.mean_daily_light_mol is not None and light.days_enough is not None:
        share = share_of(light.days_enough / light.days_measured)
        return f"Leafy crops had the light they need on {share} of {days_words(light)}"
    if light.days_under_ten_hours is not None:
        days = light.days_under_ten_hours
        return f"{count(days, 'day') if days else 'No day'} had under ten hours of daylight"
    return "The light of the season"


def _lead(facts: Facts) -> str:
    light = facts.r.light
    parts = []
    if light.mean_daily_light_mol is not None:
        dark = f", and {mol(light.dark_mean_mol)} in the dark weeks" if light.dark_mean_mol is not None else ""
        parts.append(f"On average {mol(light.mean_daily_light_mol)} a day came to each square metre{dark}")
    if light.days_under_ten_hours and light.ten_from and light.ten_to:
        parts.append(f"Under ten hours of daylight: {count(light.days_under_ten_hours, 'day')}, {dark_span(light)}")
    held = facts.number("heat.share_at_or_above_hold.estimate")
    if held is not None and light.days_enough is not None:
        parts.append(f"Warmth was at the aim {share_time(held)}; set the two side by side")
    return ". ".join(parts) + "." if parts else "What the place and the sensors tell of the light."


def _length(review: Review, facts: Facts) -> list[Drawing | Table | Note]:
    light, table = review.light, review.light.daily.table
    if light.shortest_day is None or light.shortest_day_h is None:
        return []
    frame = pd.DataFrame({"date": list(table.index), "hours": table["day_length_h"].to_numpy()})
    span = (review.season.first_day, review.season.last_day)
    shortest = f"{facts.w.hours(light.shortest_day_h, 1)}, {day(light.shortest_day)}"
    if light.sunless is not None:
        shortest = f"no sunrise for {count(light.sunless.days, 'day')}"
    ring = Ring(x=light.shortest_day, y=light.shortest_day_h, label=shortest, token="sun")
    look = Look(unit="h", x_domain=span, levels=(Level(value=10.0, label="ten hours"),), rings=(ring,), height=180)
    wide, narrow = time_lines(frame, "date", (Curve("hours", "sun", "daylight"),), look)
    dark = light.days_under_ten_hours or 0
    title = (
        f"Days stayed under ten hours {dark_span(light)}"
        if light.ten_from and light.ten_to
        else "No day of the season was under ten hours"
    )
    out = pd.DataFrame({"date": frame["date"], "day length h": frame["hours"].round(4)})
    return [
        Drawing(
            uid="light_length",
            title=title,
            subtitle="Hours from sunrise to sunset at your latitude",
            label="Line chart of the day length over the season, with the ten-hour line",
            description=f"{count(dark, 'day')} under ten hours; {shortest_words(light, facts.w)}.",
            wide=wide,
            narrow=narrow,
            table=out,
            shown=out.iloc[::7],
            notes=(
                "Sunrise and sunset of the sun's upper edge, as almanacs have them. Under ten hours winter greens "
                "all but "
                "stop growing: common practice, without a source.",
                *filter(None, (sunlit_words(light),)),
            ),
            day_slider=True,
        )
    ]


def _days(review: Review, facts: Facts) -> list[Drawing | Table | Note]:
    light, table = review.light, review.light.daily.table
    if light.mean_daily_light_mol is None or light.darkest is None:
        return []
    frame = pd.DataFrame({"date": list(table.index), "inside": table["inside_mol"].to_numpy()})
    curves = [Curve("inside", "sun", "at the crop")]
    if table["clear_mol"].notna().any():
        share = light.daily.transmission or light.daily.transmission_seen or review.season.house.light_transmission
        if share is not None:
            frame["clear"] = (table["clear_mol"] * share).to_numpy()
            curves.append(Curve("clear", "neutral", "under a clear sky", style="dash"))
    ring = Ring(
        x=light.darkest[0], y=light.darkest[1], label=f"{mol(light.darkest[1])}, {day(light.darkest[0])}", token="sun"
    )
    look = Look(
        unit="mol",
        zero=True,
        x_domain=(review.season.first_day, review.season.last_day),
        levels=(Level(value=light.need_mol, label="leafy crops need", token="target"),),
        rings=(ring,),
        marks=change_marks(review.readings, "light"),
    )
    wide, narrow = time_lines(frame, "date", curves, look)
    names = {"inside_mol": "inside mol/m²", "outdoor_mol": "outdoors mol/m²", "clear_mol": "clear sky outdoors mol/m²"}
    out = table[list(names)].rename(columns=names).dropna(axis=1, how="all").round(3).reset_index(names="date")
    return [
        Drawing(
            uid="light_days",
            title=_days_title(light),
            subtitle=f"Light of each day on a square metre, mol, {how(facts)}",
            label="Line chart of the light of each day against the need of leafy crops",
            description=f"Mean {mol(light.mean_daily_light_mol)} over {count(light.days_measured, 'day')}; least "
            f"{mol(light.darkest[1])}.",
            wide=wide,
            narrow=narrow,
            table=out,
            shown=out.iloc[::7].round(1),
            notes=tuple(_day_notes(facts)),
            day_slider=True,
        )
    ]


def _days_title(light: Light) -> str:
    """The darkest day and what it had of the need; of a single day, what it had."""
    assert light.darkest is not None
    part = number(100 * light.darkest[1] / light.need_mol)
    which = f"The darkest day, {day(light.darkest[0])}," if light.days_measured > 1 else f"{day(light.darkest[0])}"
    return f"{which} had {part}{NBSP}% of what leafy crops need"


def _day_notes(facts: Facts) -> list[str]:
    light, w = facts.r.light, facts.w
    notes = [
        f"The need of {number(light.need_mol)}{NBSP}mol is the recommended least for leafy greens and herbs "
        "(Jayalath et "
        "al. 2024, Plants 13:652).",
    ]
    if light.daily.kind in ("radiation inside", "radiation outdoors"):
        notes.append(
            f"{number(QUANTA_PER_JOULE, 2)}{NBSP}µmol of light a joule of sun: Britton and Dodd 1976; by sky "
            f"{number(QUANTA_LOW, 1)} to {number(QUANTA_HIGH, 1)}."
        )
    if light.lack_mol is not None and light.lamp is None:
        hours = float(lamp_hours([light.lack_mol], USUAL_LAMP)[0])
        notes.append(
            f"The days below it lacked {mol(light.lack_mol)} on average: {w.hours(hours, 1)} a day under a lamp of "
            f"{number(USUAL_LAMP)}{NBSP}µmol/m²s. Name your lamp in the season file and its hours, kWh and money are "
            "worked out."
        )
    if light.daily.transmission_seen is not None:
        notes.append(
            f"{w.percent(100 * light.daily.transmission_seen)} of the light outdoors reached the sensor inside."
        )
    return notes


def _gloomy(facts: Facts) -> list[Drawing | Table | Note]:
    light = facts.r.light
    if not light.gloomy_runs or light.gloomy_days is None:
        return []
    kept = light.gloomy_runs[:5]
    rows = tuple((day(run.start), day(run.end), count(run.days, "day")) for run in kept)
    data = pd.DataFrame(
        [(r.start, r.end, r.days) for r in light.gloomy_runs], columns=["first day", "last day", "days"]
    )
    return [
        Table(
            uid="light_gloomy",
            title=gloomy_words(light),
            subtitle="Three days or more on end, each with less than a third of a clear day's light",
            columns=("from", "to", "length"),
            rows=rows,
            data=data,
            notes=(
                f"{count(light.gloomy_days, 'gloomy day')} in all. A third is a line of our own, without a source.",
            ),
        )
    ]


def _lamp(facts: Facts) -> list[Drawing | Table | Note]:
    light, lamp, w = facts.r.light, facts.r.light.lamp, facts.w
    if lamp is None:
        return []
    money = "–" if lamp.cost is None else w.money(lamp.cost)
    energy = "–" if lamp.kwh is None else w.kwh(lamp.kwh)
    rows = ((lamp.name, count(lamp.days, "day"), w.hours(lamp.hours_a_day, 1), w.hours(lamp.hours), energy, money),)
    data = pd.DataFrame(
        [{"lamp": lamp.name, "days": lamp.days, "hours": lamp.hours, "kWh": lamp.kwh, "cost": lamp.cost}]
    )
    short = (
        f" On {count(lamp.days_too_short, 'day')} 24 hours would not have been enough." if lamp.days_too_short else ""
    )
    table = Table(
        uid="light_lamp",
        title=f"The {lamp.name} would have had to run {w.hours(lamp.hours)} more to reach the need every day",
        subtitle=f"What is lacking to {number(light.need_mol)}{NBSP}mol a day, at the lamp's {number(lamp.ppfd)} "
        "µmol/m²s".replace(" µmol", f"{NBSP}µmol"),
        columns=("lamp", "days short", "hours a day", "hours in all", "energy", "money"),
        rows=rows,
        data=data,
        notes=(f"Under the lamp itself; beside it plants get less.{short}",),
    )
    return [table, Note(title="Before you hang a lamp", text=f"{cautions.MAINS} {cautions.ALONE}", kind="caution")]
