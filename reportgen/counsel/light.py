"""Findings of the light: the dark days, the light that came, what a lamp would have cost, the cover."""

from __future__ import annotations

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import NEARLY
from reportgen.measures.light import LEAFY_NEED_MOL, Light
from reportgen.measures.light_daily import QUANTA_PER_JOULE, Run
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.wording import NBSP, Wording, count, day, number, share_of, share_time

HELD = 0.9  # warmth was there: this share of the time at or above the hold; our own line
DIMMER = 0.1  # the cover lets through this much less than was given before it is worth a sentence


def mol(value: float) -> str:
    """A `value` as 6.4 mol: light of a day on a square metre."""
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


def dark(facts: Facts) -> Said | None:
    """The days under ten hours of daylight; None where there were none or no latitude is given."""
    light, w = facts.r.light, facts.w
    if not light.days_under_ten_hours or light.shortest_day is None or light.shortest_day_h is None:
        return None
    if light.ten_from is None or light.ten_to is None:
        return None
    unknown = "" if light.days_measured else f" How much of it the clouds took is not known: {_why_unknown(facts)}."
    return Said(
        claim=f"{count(light.days_under_ten_hours, 'day')} had under ten hours of daylight, {dark_span(light)}.",
        evidence=f"From the sun's path at your latitude; {shortest_words(light, w)}.{unknown}",
        how_sure="Sure for the day length; that winter greens all but stop under ten hours is common practice, "
        "without a "
        "source.",
        next_step=f"Have what you want to eat in the dark weeks full grown by {day(light.ten_from)}."
        if light.ten_from > facts.r.season.first_day
        else "Have what you want to eat in the dark weeks full grown before they begin.",
        figure=count(light.days_under_ten_hours, "day"),
        figure_note="under ten hours",
        token="sun",
        stake="growth",
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


def daily(facts: Facts) -> Said | None:
    """The crop's daily light against its need; None where no light was logged."""
    light = facts.r.light
    mean, enough = light.mean_daily_light_mol, light.days_enough
    if mean is None or enough is None or not light.days_measured:
        return None
    share = f"{share_of(enough / light.days_measured)} of {days_words(light)}"
    good = enough >= 0.8 * light.days_measured
    dark = f" In the dark weeks it was {mol(light.dark_mean_mol)}." if light.dark_mean_mol is not None else ""
    return Said(
        claim=f"The crop had {mol(mean)} of light a day on average, and the {number(light.need_mol)}{NBSP}mol "
        "that leafy "
        f"crops need on {share}.",
        evidence=f"{count(light.days_measured, 'day')}, {how(facts)}.{dark}",
        how_sure="Sure for the light, as far as the sensor is; the need is the recommended least for fast growth "
        "of leafy greens (Jayalath et al. 2024, Plants 13:652): hardy greens stand, and only stand, on less.",
        next_step="Keep the cover clean inside and out before the days grow short, and set the tallest plants on the "
        "side away from the noon sun."
        if not good
        else "Nothing to do for the light.",
        caution=None if good else cautions.ROOF,
        figure=mol(mean),
        figure_note="of light a day",
        token="sun",
        stake="good news" if good else "growth",
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
    quanta = f"{number(QUANTA_PER_JOULE, 2)}{NBSP}µmol a joule"
    return {
        "quanta inside": f"measured beside the crop ({daily.logger})",
        "radiation inside": f"from the sun's energy beside the crop ({daily.logger}) at {quanta}",
        "radiation outdoors": f"from the sun's energy outdoors ({daily.logger}) at {quanta}{through}",
        "quanta outdoors": f"measured outdoors ({daily.logger}){through}",
        "none": "not measured",
    }[daily.kind]


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


def lamp(facts: Facts) -> Said | None:
    """What the lamp would have had to do more; None without a lamp, or where no day fell short."""
    lamp, w = facts.r.light.lamp, facts.w
    if lamp is None or not lamp.days:
        return None
    money = f" for {w.money(lamp.cost)}" if lamp.cost is not None else ""
    energy = f", {w.kwh(lamp.kwh)}{money}" if lamp.kwh is not None else ""
    short = f" On {count(lamp.days_too_short, 'day')} even 24 hours would not do." if lamp.days_too_short else ""
    return Said(
        claim=f"To reach the need every day the {lamp.name} would have had to run {w.hours(lamp.hours)} more{energy}.",
        evidence=f"{count(lamp.days, 'day')} fell short, by {w.hours(lamp.hours_a_day, 1)} of lamp light each on "
        "average"
        f".{short}",
        how_sure="Sure as arithmetic, under the lamp itself; beds beside it get less.",
        next_step="Light the seedlings and not the whole house: a shelf under the lamp costs a part of this.",
        caution=f"{cautions.MAINS} {cautions.ALONE}",
        figure=w.money(lamp.cost, 0) if lamp.cost is not None else w.hours(lamp.hours),
        figure_note="for enough light",
        token="sun",
        stake="money",
        weight=lamp.cost or 0.0,
    )


def cover(facts: Facts) -> Said | None:
    """How much less light the cover lets through than it should; None where it is as it should be, or not known."""
    seen, given, w = facts.r.light.daily.transmission_seen, facts.r.season.house.light_transmission, facts.w
    if seen is None or given is None or seen > given * (1 - DIMMER):
        return None
    lost = w.percent(100 * (1 - seen / given))
    return Said(
        claim=f"{w.percent(100 * seen)} of the light outdoors reached the crop, where the cover should let "
        f"{w.percent(100 * given)} through.",
        evidence="Sums of the light inside and outdoors, on the days with both.",
        how_sure="A hint: a beam, a leaf or a tilted sensor takes as much as dirt does.",
        next_step="Wash the cover before the days grow short, and set the light sensor level, above the leaves.",
        caution=cautions.ROOF,
        figure=lost,
        figure_note="less than it should",
        token="sun",
        stake="growth",
        weight=1 - seen / given,
        holds_for="this kind of cover",
    )


def before_warmth(facts: Facts) -> Said | None:
    """Warmth was there and light was not; silent without a daily light figure and a hold."""
    mean, held = facts.number("light.mean_daily_light_mol"), facts.number("heat.share_at_or_above_hold.estimate")
    days = facts.number("light.days_under_ten_hours")
    if mean is None or held is None or not days or mean >= LEAFY_NEED_MOL or held < HELD:
        return None
    return Said(
        claim=f"Light, more than warmth, looks like what held growth back: {number(mean, 1)}{NBSP}mol/m² a day on "
        "average.",
        evidence=f"The hold was kept {share_time(held)}, while {count(days, 'day')} had under "
        f"ten hours of daylight. Leafy crops are usually given {number(LEAFY_NEED_MOL)}{NBSP}mol/m² a day or more "
        "(Jayalath and others 2024).",
        how_sure="A hint: growth was not measured, only what it had to live on.",
        next_step="Clean the glazing before the dark weeks; more heat in them brings little."
        if facts.there.heater
        else "Clean the glazing before the dark weeks.",
        caution=cautions.ROOF,
        figure=f"{number(mean, 1)}{NBSP}mol/m²",
        figure_note="light a day",
        token="sun",
        weight=LEAFY_NEED_MOL - mean,
        holds_for="this kind of cover",
    )
