"""Findings of the beds: what lay bare, which ground gave most, which sowing was in time."""

from __future__ import annotations

from datetime import timedelta

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.measures.beds_bare import Bare
from reportgen.wording import count, day, number

SEEN_DAYS = 28  # between the season's first day and its dark weeks, before what was not picked tells anything; our own
FEW_PICKINGS = 2  # of a crop, before what its ground gave is compared; our own
EMPTY_ENOUGH = 4.0  # weeks of bare ground below this are a turn-round, not a gap


def best_ground(facts: Facts) -> Said | None:
    """The crop that gave most for its ground, where one gave half as much again."""
    picked = [c for c in facts.r.harvest.crops if c.pickings >= FEW_PICKINGS]  # one picking says little of a crop
    known = [(c.kg_per_m2, c) for c in picked if c.kg_per_m2 is not None]
    if len(known) < 2:
        return None
    known.sort(key=lambda pair: (-pair[0], pair[1].crop))
    (most, best), (least, worst) = known[0], known[-1]
    if least <= 0 or most / least < 1.5:
        return None
    return Said(
        claim=f"From the same area {best.crop} gave {facts.mass_per_area(most)}, {worst.crop} "
        f"{facts.mass_per_area(least)}.",
        evidence=f"{count(best.pickings, 'picking')} of {best.crop} and {number(worst.pickings)} of {worst.crop}, by "
        "the area you gave each. They did not stand for the same weeks, and one bed each is no trial.",
        how_sure="A hint: beds differ in light and warmth as well as in what grew in them.",
        next_step=f"Give {best.crop} more of the ground next winter if you would eat it, and keep one bed of "
        f"{worst.crop} beside it to compare.",
        figure=facts.mass_per_area(most),
        figure_note=best.crop,
        token="target",
        stake="growth",
        weight=most / least,
    )


def before_dark(facts: Facts) -> Said | None:
    """How late a sowing may be; silent where the season did not try it."""
    beds = facts.r.harvest.beds
    latest, late = beds.in_time, beds.too_late
    if latest is None or latest.sown is None or beds.dark_from is None or late[0].sown is None:
        return None
    told = [s for s in beds.strips if s.before_dark is not None and s.sown is not None]
    early = [s for s in told if s.before_dark]
    return Said(
        claim=f"Of {count(len(told), 'sowing')}, {number(len(early))} could be picked before the dark weeks; "
        f"{'the last of these' if len(early) > 1 else 'it'} was {latest.crop}, sown on {day(latest.sown)}.",
        evidence=f"From plantings.csv, beside the harvest book; {late[0].crop}, sown on {day(late[0].sown)}, came too "
        f"late. From {day(beds.dark_from)} on the days were under ten hours.",
        how_sure="Sure for this season, by your own books; crops differ, and dark or cold weeks after the sowing "
        "move the date.",
        next_step=f"Sow what should stand ready for the dark weeks by {day(latest.sown)}, and a second lot a fortnight "
        "before it.",
        figure=day(latest.sown),
        figure_note="last sowing in time",
        about=latest.crop,
        token="target",
        weight=float(len(late)),
        sources=(
            Source(
                csv="harvest_beds.csv",
                how="count",
                column="crop",
                rows="`picked before the dark weeks` == 'yes' and sown == sown",
                value=float(len(early)),
            ),
        ),
    )


def empty(facts: Facts) -> Said | None:
    """The largest stretch of bare ground of four weeks and more."""
    long = [one for one in facts.r.harvest.beds.bare if one.weeks >= EMPTY_ENOUGH]
    if not long:
        return None
    most, rest = long[0], long[1:]
    others = "; ".join(bare_words(facts, one) for one in rest[:2])
    more = f" Also: {others}." if others else ""
    return Said(
        claim=f"{_upper(bare_words(facts, most))}.",
        evidence=f"By the days and areas of plantings.csv.{more}",
        how_sure="Sure if every planting was written down.",
        next_step="Raise plants in trays and set them out the week ground is cleared.",
        figure=count(most.weeks, "week"),
        figure_note=f"bare, bed {most.bed}",
        about=most.bed,
        token="soil",
        weight=most.weeks,
        sources=_bare_source(facts, most),
    )


def _bare_source(facts: Facts, one: Bare) -> tuple[Source, ...]:
    """The cell of the planting that was cleared, where it is the longest that lay bare after any."""
    cleared = {(s.bed, s.crop, s.end) for s in facts.r.harvest.beds.strips}
    before = one.start - timedelta(days=1)
    known = [b for b in facts.r.harvest.beds.bare if (b.bed, b.after, b.start - timedelta(days=1)) in cleared]
    if (one.bed, one.after, before) not in cleared or any(other.weeks > one.weeks for other in known):
        return ()
    return (Source(csv="harvest_beds.csv", how="max", column="weeks bare afterwards", value=one.weeks),)


def bare_words(facts: Facts, one: Bare) -> str:
    """1.1 m² of 1.6 m² of the bed door lay bare for 12 weeks, from 19 January, after pak choi, to the last day."""
    what = "all of the bed" if one.whole else f"{_m2(facts, one.m2)} of the {_m2(facts, one.of_m2)} of the bed"
    after = f", after {one.after}," if one.after else ""
    until = "to the last day" if one.open_end else f"to {day(one.end)}"
    return f"{what} “{one.bed}” lay bare for {count(one.weeks, 'week')}, from {day(one.start)}{after} {until}"


def _m2(facts: Facts, area: float | None) -> str:
    return facts.w.area(area or 0.0)


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]


def _seen_before_dark(facts: Facts) -> bool:
    """Whether the season began so long before its dark weeks that a picking could have been missed in them."""
    dark = facts.r.harvest.beds.dark_from
    return dark is None or (dark - facts.r.season.first_day).days >= SEEN_DAYS


def sow_earlier(facts: Facts) -> str:
    """What to do about a gap: by the sowing that was in time, else by the dates there are, else write them down."""
    sown = [(s.sown, s.before_dark) for s in facts.r.harvest.beds.strips if s.sown is not None]
    early = [when for when, in_time in sown if in_time]
    late = [when for when, in_time in sown if in_time is False]
    if early:
        return (
            f"Sow the gap's crop by {day(max(early))}: that was the latest sowing this season that was picked before "
            "the dark weeks."
        )
    if late and not _seen_before_dark(facts):
        return (
            "Keep the harvest book from a month before the dark weeks on: then the sowing that would have filled the "
            "gap can be named."
        )
    if late:
        return (
            f"Sow the gap's crop before {day(min(late))}: nothing sown from then on was picked before the dark weeks."
        )
    return (
        "Note sowing dates in the planting book from now on, so that the sowing that would have filled the gap can be "
        "named."
    )
