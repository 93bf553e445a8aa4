"""Findings of the light: the dark days, the light that came, gloomy runs, what a lamp would have cost, the cover."""

from __future__ import annotations

from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import NEARLY
from reportgen.measures.light import Light
from reportgen.measures.light_daily import Run
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.wording import NBSP, Wording, count, day, number

DIMMER = 0.1  # the cover lets through this much less than was given before it is worth a sentence


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the place and the light sensors say."""
    facts = Facts.of(r)
    rules = (_dark, _daily, _gloomy, _lamp, _cover)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="light", token="sun", **more)


def mol(value: float) -> str:
    """6.4 mol: light of a day on a square metre."""
    return f"{number(value, 1)}{NBSP}mol"


def days_words(light: Light) -> str:
    """The days, or the 89 days measured where light is not known of all."""
    measured = light.days_measured or 0
    return "the days" if measured >= NEARLY * len(light.daily.table) else f"the {count(measured, 'day')} measured"


def dark_span(light: Light) -> str:
    """From 30 October to 10 February; until the latter where the season began in the dark."""
    if light.ten_from is None or light.ten_to is None:
        return ""
    if light.days_under_ten_hours == len(light.daily.table):
        return "all of the season"
    if light.daily.table.index[0] == light.ten_from:
        return f"until {day(light.ten_to)}"
    return f"from {day(light.ten_from)} to {day(light.ten_to)}"


def shortest_words(light: Light, w: Wording) -> str:
    """The shortest of the season was 21 December with 8.1 hours; or, where the sun stayed down, how long it did."""
    if light.sunless is not None:
        return f"the sun did not rise {_stretch(light.sunless)}"
    if light.shortest_day is None or light.shortest_day_h is None:
        return ""
    return f"the shortest of the season was {day(light.shortest_day)} with {w.hours(light.shortest_day_h, 1)}"


def sunlit_words(light: Light) -> str:
    """How long the sun stayed up; empty where it set every day."""
    return f"The sun did not set {_stretch(light.sunlit)}." if light.sunlit is not None else ""


def _stretch(run: Run) -> str:
    if run.days == 1:
        return f"on {day(run.start)}"
    return f"on {count(run.days, 'day')} on end, from {day(run.start)} to {day(run.end)}"


def _why_unknown(facts: Facts) -> str:
    """Why no light is known that came through the clouds."""
    if NOTHING_TOLD in facts.r.light.reasons.get("mean_daily_light_mol", ""):
        return "light was read too seldom"
    return "no whole day of light is on record" if facts.there.light else "it takes a light sensor"


def _dark(facts: Facts) -> Finding | None:
    light, w = facts.r.light, facts.w
    if not light.days_under_ten_hours or light.shortest_day is None or light.shortest_day_h is None:
        return None
    if light.ten_from is None or light.ten_to is None:
        return None
    unknown = "" if light.days_measured else f" How much of it the clouds took is not known: {_why_unknown(facts)}."
    return _finding(
        "days-under-ten-hours",
        claim=f"{count(light.days_under_ten_hours, 'day')} had under ten hours of daylight, {dark_span(light)}.",
        evidence=f"From the sun's path at your latitude; {shortest_words(light, w)}.{unknown}",
        how_sure="Sure for the day length; that winter greens all but stop under ten hours is common practice, "
        "without a "
        "source.",
        next_step=f"Have what you want to eat in those weeks full grown by {day(light.ten_from)}."
        if light.ten_from > facts.r.season.first_day
        else "Have what you want to eat in those weeks full grown before they begin.",
        figure=count(light.days_under_ten_hours, "day"),
        figure_note="under ten hours",
        anchor="light_length",
        stake="growth",
        sure="sure",
        weight=float(light.days_under_ten_hours) / 10,
        holds_for="anywhere",
        sources=(
            Source(
                csv="light_length.csv",
                how="count",
                column="date",
                rows="`day length h` < 10",
                value=float(light.days_under_ten_hours),
            ),
        ),
    )


def _daily(facts: Facts) -> Finding | None:
    light, w = facts.r.light, facts.w
    mean, enough = light.mean_daily_light_mol, light.days_enough
    if mean is None or enough is None or not light.days_measured:
        return None
    share = f"{w.percent(100 * enough / light.days_measured)} of {days_words(light)}"
    share = share if enough else f"none of {days_words(light)}"
    good = enough >= 0.8 * light.days_measured
    dark = f" In the dark weeks it was {mol(light.dark_mean_mol)}." if light.dark_mean_mol is not None else ""
    return _finding(
        "daily-light",
        claim=f"The crop had {mol(mean)} of light a day on average, and the {number(light.need_mol)}{NBSP}mol "
        "that leafy "
        f"crops need on {share}.",
        evidence=f"{count(light.days_measured, 'day')}, {how(facts)}.{dark}",
        how_sure="Fairly sure for the light; the need is the recommended least for fast growth of leafy greens "
        "(Jayalath "
        "et al. 2024, Plants 13:652): hardy greens stand, and only stand, on less.",
        next_step="Keep the cover clean inside and out before the days grow short, and set the tallest plants on the "
        "side away from the noon sun."
        if not good
        else "Nothing to do for the light.",
        caution=None if good else cautions.ROOF,
        figure=mol(mean),
        figure_note="of light a day",
        anchor="light_days",
        stake="good news" if good else "growth",
        sure="fairly sure",
        weight=1 - enough / light.days_measured,
        holds_for="this kind of cover",
        sources=(Source(csv="light_days.csv", how="mean", column="inside mol/m²", value=mean),),
    )


def how(facts: Facts) -> str:
    """What the light inside rests on."""
    daily = facts.r.light.daily
    w = facts.w
    through = (
        f" times the {w.percent(100 * daily.transmission)} that the cover lets through" if daily.transmission else ""
    )
    return {
        "quanta inside": f"measured beside the crop ({daily.logger})",
        "radiation inside": f"from the sun's energy beside the crop ({daily.logger}) at 2.11{NBSP}µmol a joule",
        "radiation outdoors": f"from the sun's energy outdoors ({daily.logger}) at 2.11{NBSP}µmol a joule{through}",
        "quanta outdoors": f"measured outdoors ({daily.logger}){through}",
        "none": "not measured",
    }[daily.kind]


def _gloomy(facts: Facts) -> Finding | None:
    light = facts.r.light
    if not light.gloomy_runs or not light.gloomy_days:
        return None
    longest = light.gloomy_runs[0]
    return _finding(
        "gloomy-run",
        claim=gloomy_words(light) + ".",
        evidence=f"{count(light.gloomy_days, 'gloomy day')} in all, with less than a third of a clear day's light.",
        how_sure="Sure for the light measured; a third is a line of our own.",
        next_step="Hold the house cooler through such a spell: plants without light cannot use the warmth."
        if facts.there.heater
        else "Water little through such a spell: plants without light take up little (common practice, no source).",
        caution=(cautions.heating(facts.fuels) or None) if facts.there.heater else None,
        figure=count(longest.days, "day"),
        figure_note=f"gloomy, from {day(longest.start)}",
        anchor="light_days",
        stake="growth",
        sure="fairly sure",
        weight=longest.days / 30,
    )


def gloomy_words(light: Light) -> str:
    """The longest gloomy spell; the first of several as long."""
    runs = light.gloomy_runs
    longest = max(run.days for run in runs)
    alike = [run for run in runs if run.days == longest]
    first = min(alike, key=lambda run: run.start)
    if len(runs) == 1:
        return f"One gloomy spell lasted {count(longest, 'day')}, from {day(first.start)}"
    if len(alike) > 1:
        return f"The longest gloomy spells lasted {count(longest, 'day')} each, the first from {day(first.start)}"
    return f"The longest gloomy spell lasted {count(longest, 'day')}, from {day(first.start)}"


def _lamp(facts: Facts) -> Finding | None:
    lamp, w = facts.r.light.lamp, facts.w
    if lamp is None or not lamp.days:
        return None
    money = f" for {w.money(lamp.cost)}" if lamp.cost is not None else ""
    energy = f", {w.kwh(lamp.kwh)}{money}" if lamp.kwh is not None else ""
    short = f" On {count(lamp.days_too_short, 'day')} even 24 hours would not do." if lamp.days_too_short else ""
    return _finding(
        "what-a-lamp-would-add",
        claim=f"To reach the need every day the {lamp.name} would have had to run {w.hours(lamp.hours)} more{energy}.",
        evidence=f"{count(lamp.days, 'day')} fell short, by {w.hours(lamp.hours_a_day, 1)} of lamp light each on "
        "average"
        f".{short}",
        how_sure="Fairly sure under the lamp itself; beds beside it get less.",
        next_step="Light the seedlings and not the whole house: a shelf under the lamp costs a part of this.",
        caution=f"{cautions.MAINS} {cautions.ALONE}",
        figure=w.money(lamp.cost, 0) if lamp.cost is not None else w.hours(lamp.hours),
        figure_note="for enough light",
        anchor="light_lamp",
        stake="money",
        sure="fairly sure",
        weight=lamp.cost or 0.0,
    )


def _cover(facts: Facts) -> Finding | None:
    seen, given, w = facts.r.light.daily.transmission_seen, facts.r.season.house.light_transmission, facts.w
    if seen is None or given is None or seen > given * (1 - DIMMER):
        return None
    lost = w.percent(100 * (1 - seen / given))
    return _finding(
        "cover-lets-less-through",
        claim=f"{w.percent(100 * seen)} of the light outdoors reached the crop, where the cover should let "
        f"{w.percent(100 * given)} through.",
        evidence="Sums of the light inside and outdoors, on the days with both.",
        how_sure="A hint: a beam, a leaf or a tilted sensor takes as much as dirt does.",
        next_step="Wash the cover before the days grow short and look again; set the light sensor level, above the "
        "leaves.",
        caution=cautions.ROOF,
        figure=lost,
        figure_note="less than it should",
        anchor="light_days",
        stake="growth",
        sure="a hint",
        weight=1 - seen / given,
        holds_for="this kind of cover",
    )
