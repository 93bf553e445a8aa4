"""Findings of the beds: what stood empty, which ground gave most, which sowing was in time."""

from __future__ import annotations

from datetime import date

from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.measures.beds import Strip
from reportgen.wording import count, day, number

EMPTY_ENOUGH = 4.0  # empty bed-weeks below this are a turn-round, not a gap


def best_ground(facts: Facts) -> Said | None:
    """The crop that gave most for its ground, where one gave half as much again."""
    known = [(c.kg_per_m2, c) for c in facts.r.harvest.crops if c.kg_per_m2 is not None]
    if len(known) < 2:
        return None
    known.sort(key=lambda pair: (-pair[0], pair[1].crop))
    (most, best), (least, worst) = known[0], known[-1]
    if least <= 0 or most / least < 1.5:
        return None
    return Said(
        claim=f"On the same ground {best.crop} gave {facts.mass_per_area(most)}, {worst.crop} "
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


def before_midwinter(facts: Facts) -> Said | None:
    """The last sowing that was picked before midwinter; silent where every later one was sown after it."""
    beds = facts.r.harvest.beds
    told = [s for s in beds.strips if s.before_midwinter is not None and _sown_before(s, beds.midwinter)]
    early = [s for s in told if s.before_midwinter]
    if beds.midwinter is None or not early or len(early) == len(told):
        return None
    latest = max((s for s in early), key=lambda s: (s.sown, s.crop))
    if latest.sown is None:
        return None
    return Said(
        claim=f"Of {count(len(told), 'sowing')} before midwinter, {number(len(early))} could be picked by then; "
        f"{'the last of these' if len(early) > 1 else 'it'} was {latest.crop}, sown on {day(latest.sown)}.",
        evidence=f"From plantings.csv, beside the harvest book; midwinter is {day(beds.midwinter)}.",
        how_sure="Sure for this season, by your own books; darker or colder weeks after the sowing move the date.",
        next_step=f"Sow what should feed the dark weeks by {day(latest.sown)}, and a second lot a fortnight before it.",
        figure=day(latest.sown),
        figure_note="last sowing in time",
        token="target",
        stake="growth",
        weight=float(len(told) - len(early)),
        sources=(
            Source(
                csv="harvest_beds.csv",
                how="count",
                column="crop",
                rows="`picked before midwinter` == 'yes' and sown == sown",
                value=float(len(early)),
            ),
        ),
    )


def _sown_before(strip: Strip, midwinter: date | None) -> bool:
    """What was sown after midwinter could not have been picked before it."""
    return strip.sown is not None and (midwinter is None or strip.sown < midwinter)


def empty(facts: Facts) -> Said | None:
    """Weeks in which beds stood empty."""
    weeks = sum(facts.r.harvest.beds.empty_weeks.values())
    beds = len(facts.r.harvest.beds.empty_weeks)
    if not beds or weeks < EMPTY_ENOUGH:
        return None
    return Said(
        claim=f"Beds stood empty for {count(weeks, 'bed-week')} in all."
        if beds > 1
        else f"The bed stood empty for {count(weeks, 'week')} in all.",
        evidence=f"{count(beds, 'bed')}, from planting to clearing, as plantings.csv has it.",
        how_sure="Sure if every planting was written down.",
        next_step="Raise plants in trays and set them out the week a bed is cleared.",
        figure=count(weeks, "week"),
        figure_note="of empty beds",
        token="soil",
        stake="growth",
        weight=weeks,
    )


def sow_earlier(facts: Facts) -> str:
    early = [s for s in facts.r.harvest.beds.strips if s.before_midwinter and s.sown]
    if early:
        latest = max(s.sown for s in early if s.sown is not None)
        return (
            f"Sow the gap's crop by {day(latest)}: that was the last sowing this season that was ready before "
            "midwinter."
        )
    return (
        "Note sowing dates in plantings.csv next winter, so that the sowing that would have filled the gap can be "
        "named."
    )
