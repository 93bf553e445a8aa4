"""Findings of the beds: what stood empty, which ground gave most, which sowing was in time."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_words import harvest_finding
from reportgen.counsel.types import Finding, Source
from reportgen.wording import count, day, number

EMPTY_ENOUGH = 4.0  # empty bed-weeks below this are a turn-round, not a gap


def best_ground(facts: Facts) -> Finding | None:
    known = [(c.kg_per_m2, c) for c in facts.r.harvest.crops if c.kg_per_m2 is not None]
    if len(known) < 2:
        return None
    known.sort(key=lambda pair: (-pair[0], pair[1].crop))
    (most, best), (least, worst) = known[0], known[-1]
    if least <= 0 or most / least < 1.5:
        return None
    return harvest_finding(
        "best-use-of-ground",
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
        anchor="harvest_crops",
        stake="growth",
        sure="a hint",
        weight=most / least,
    )


def before_midwinter(facts: Facts) -> Finding | None:
    beds = facts.r.harvest.beds
    told = [s for s in beds.strips if s.before_midwinter is not None and s.sown is not None]
    early = [s for s in told if s.before_midwinter]
    if beds.midwinter is None or not early or len(early) == len(told):
        return None
    latest = max((s for s in early), key=lambda s: (s.sown, s.crop))
    if latest.sown is None:
        return None
    return harvest_finding(
        "sown-in-time",
        claim=f"Of {count(len(told), 'sowing')}, {number(len(early))} could be picked before midwinter; "
        f"{'the last of these' if len(early) > 1 else 'it'} was {latest.crop}, sown on {day(latest.sown)}.",
        evidence=f"From plantings.csv, beside the harvest book; midwinter is {day(beds.midwinter)}.",
        how_sure="Fairly sure for this season; darker or colder weeks after the sowing move the date.",
        next_step=f"Sow what should feed the dark weeks by {day(latest.sown)}, and a second lot a fortnight before it.",
        figure=day(latest.sown),
        figure_note="last sowing in time",
        token="target",
        anchor="harvest_beds",
        stake="growth",
        sure="fairly sure",
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


def empty(facts: Facts) -> Finding | None:
    weeks = sum(facts.r.harvest.beds.empty_weeks.values())
    beds = len(facts.r.harvest.beds.empty_weeks)
    if not beds or weeks < EMPTY_ENOUGH:
        return None
    return harvest_finding(
        "empty-beds",
        claim=f"Beds stood empty for {count(weeks, 'bed-week')} in all."
        if beds > 1
        else f"The bed stood empty for {count(weeks, 'week')} in all.",
        evidence=f"{count(beds, 'bed')}, from planting to clearing, as plantings.csv has it.",
        how_sure="Sure if every planting was written down.",
        next_step="Raise plants in trays and set them out the week a bed is cleared.",
        figure=count(weeks, "week"),
        figure_note="of empty beds",
        token="soil",
        anchor="harvest_beds",
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
