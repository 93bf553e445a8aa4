"""Method: how the group's figures were put together, from where, and where they end."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.charts.method_types import Method
from reportgen.counsel.cautions import ALONE, FUEL, MAINS, SEAL
from reportgen.gather.pool_measured import BY_OUTCOME, GROUPS, HEATED_HOUSES, HOUSES, MISSED, WEATHERS
from reportgen.gather.pool_recipe import SHARED_ERROR
from reportgen.wording import NBSP, number


def _percent(shares: Iterable[float], digits: int = 1) -> str:
    """0.4 to 1.0 %."""
    found = list(shares)
    return f"{number(min(found) * 100, digits)} to {number(max(found) * 100, digits)}{NBSP}%"


def measured() -> str:
    """How wrong pooling was on simulated houses, by outcome, and where it missed its aim."""
    rates = BY_OUTCOME.values()
    held = _percent(r.mean_held.share for r in rates if r.mean_held is not None)
    nexts = _percent(r.next_anywhere.share for r in rates if r.next_anywhere is not None)
    verdicts = max(r.false_verdicts.share for r in rates) * 100
    least = min(MISSED, key=lambda m: m.held.share)
    return (
        f"On {number(GROUPS)} groups of 3 to 20 houses, drawn from {number(HOUSES)} simulated ones "
        f"({number(HEATED_HOUSES)} heated) under {number(WEATHERS)} weathers, by outcome: with nothing done the bar "
        f"left out nothing in {_percent(r.false_signs.share for r in rates)} of the groups, and at most "
        f"{number(verdicts, 1)}{NBSP}% were given a verdict; with something done the bar held the true mean in "
        f"{held}, and the next house's range its truth in {nexts}. Of the single kinds of group "
        f"{number(len(MISSED))} fell short of 95{NBSP}%, the lowest with {number(least.held.share * 100)}{NBSP}% "
        f"({least.what}, {least.arrangement}, {number(least.houses)} houses). Simulated houses are not real ones."
    )


B = (
    f"b = {number(SHARED_ERROR['lift'], 2)} K of warmth, {number(SHARED_ERROR['heat'] * 100, 1)} % of heat, "
    f"{number(SHARED_ERROR['watts_per_kelvin'] * 100, 1)} % of heat for each degree, "
    f"{number(SHARED_ERROR['night_humidity'], 2)} points of humidity, {number(SHARED_ERROR['soil_mean'], 1)} K in "
    "the bed"
)
METHODS: tuple[Method, ...] = (
    Method(
        slug="read",
        page="record",
        title="What is read, and what is not",
        text="Of each review handed in, one file of figures is read, and of it only a fixed list: headlines, the "
        "diary's own words for each change with what its review made of them, and the comparison with the winter "
        "before. Prices and harvest that a grower does not share are passed over, also where a review was handed in "
        "whole. The season's own folder is never read. A file that is broken is left out with its reason, and the "
        "rest goes on.",
        limit="What a review got wrong is wrong here too. A house that did not log a thing cannot be told of it.",
    ),
    Method(
        slug="houses",
        page="houses",
        title="Who is who",
        text="A house has a short name of its own in its season's file; here it is only compared, never printed. "
        "The label that a grower shares stands on the pages; without one houses are called A, B, C … in the order "
        "of their mean nights outdoors. Reviews with the same name are winters of one house.",
    ),
    Method(
        slug="things",
        page="things",
        title="What counts as one thing",
        text="A line of a diary belongs to one thing only: by the words that the group's organiser listed, else by "
        "the diary's own column for it. Lines with neither stand together by what they touch and what was hoped "
        "for, and such a row is called a kind.",
        limit="Two films of different make are one thing if the group calls them so; what differs between them "
        "widens the bar.",
    ),
    Method(
        slug="pooling",
        page="things",
        title="What several houses say together",
        text="Each house brings its own estimate, before and after, with the weather taken out by its own review. "
        "The mean is the plain mean of houses, each with the same weight. Its bar has two parts: one shrinks as "
        "houses are added; the other is the error that houses under one weather share when they change in the same "
        "fortnight, and no number of them averages it away. Heat is put together as a share of what "
        "the days took without the thing; for warmth at night, for the bed and for humidity heated and unheated houses "
        "stand apart; what a thermostat does to heat is not put together. Of the nights' warmth without heat the "
        "middle of a house's own bar leaves out what came by way of the bed, so the bar of the mean reaches further "
        "out on the side away from nothing.",
        formula=(
            "mean = Σ effect / k",
            "half = √( (t(0.975, k − 1) · sd / √k)² + (1.96 · b · √Σ(n_c / k)²)² )",
            "next house: half = √( (t(0.975, k − 1) · sd · √(1 + 1/k))² + (1.96 · b · √Σ(n_c / k)²)² )",
            "sd = the larger of the houses' standard deviation and their middle standard error; n_c houses under "
            "weather c",
            B,
        ),
        limit="Fewer than three houses are shown, not put together; a verdict takes five, and it must stand "
        "whichever house is left out, else it rests on one house. Where it is not known which houses shared a "
        "weather, all are taken to.",
        measured=measured(),
    ),
    Method(
        slug="settle",
        page="index",
        title="How many more houses would settle it",
        text="Groups of houses are drawn with the mean and the spread that the houses so far have shown, and the "
        "rule above is asked how often it would tell them; the number is the smallest with which it does so in four "
        "groups of five.",
        limit="If the true effect is smaller than what was seen so far, it takes more.",
    ),
    Method(
        slug="turns",
        page="index",
        title="Why houses switch by turns",
        text="All switch on the same Saturdays, three weeks apart, and begin one after another; from then on some "
        "houses have the thing on while others have it off. What the weather does to those weeks then stands in "
        "their estimates with opposite signs. Only what somebody has taken back before is proposed, never heat, "
        "thermostat, water or bed, and nothing that closes a house in which a fuel burns.",
    ),
    Method(
        slug="line",
        page="houses",
        title="Houses on a line",
        text="Dots on a line stand in the order of what was read, with the sensors' band where the review knew it. "
        "A difference between two houses is never called an effect: they differ in place, build, crop, habit and "
        "weather, and nobody has taken these out. Heat for each square metre of cover and degree-day is the heat of "
        "the winter over the area of glass or film and the kelvin-days that it was colder outdoors than the house "
        "was held.",
        formula=("Wh / (m² · K · d) = 1000 · kWh / cover / (kelvin-hours under the hold / 24)",),
        limit="Where there are more than 40 houses, dots that would lie over one another stand upon one another.",
    ),
    Method(
        slug="years",
        page="years",
        title="A winter against the one before",
        text="What stands at equal weather was worked out by the house's own review from both of its winters; the ring "
        "beside it is the plain difference, weather and all. Winters of different houses are not put together.",
    ),
)
WORDS: tuple[tuple[str, str], ...] = (
    ("thing", "What several houses changed alike: a film, a fan, an hour of airing."),
    ("kind", "Changes that touch the same part and hope for the same, where no thing was named."),
    ("next house", "Where the effect would lie in one more house like these, not where their mean lies."),
    ("95 % interval", "Made so that in 95 of 100 such reckonings the true value lies inside."),
    ("equal weather", "What is left of a difference once the weather of both times has been taken out."),
    ("sensor's band", "The count again with every reading shifted by the sensor's ±: all too high, all too low."),
    ("degree-day", "One degree colder outdoors than the house was held, for one day; of the scale that is shown."),
)
CAUTIONS = (FUEL, SEAL, MAINS, ALONE)
HEADLINE = "How the houses were put together, and how wrong it may be"
