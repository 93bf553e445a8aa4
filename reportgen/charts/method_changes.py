"""The methods of the changes, the two winters and the findings, in plain words."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.charts.method_types import Method
from reportgen.counsel.changes_words import NAMES
from reportgen.effects import alone_measured as alone
from reportgen.effects import measured as study
from reportgen.effects import spared_measured as spared
from reportgen.effects.verdict import FALSE_SIGN, chance_of_false_sign
from reportgen.winters import measured as winters
from reportgen.wording import NBSP, number


def _of(counted: study.Counted) -> str:
    """3.6 % (21 of 576)."""
    return f"{number(100 * counted.share, 1)}{NBSP}% ({number(counted.k)} of {number(counted.n)})"


def _by_outcome(counts: Mapping[str, study.Counted]) -> str:
    """Heat a day 97.1 % (34 of 35); …"""
    return "; ".join(f"{NAMES[name]} {_of(counted)}" for name, counted in counts.items())


def _alone() -> str:
    """What the study of single houses found, before the sums for heat and warmth were mended and since."""
    cells = "; ".join(f"{name} in {_of(now)}, before in {_of(then)}" for name, (then, now) in alone.HELD.items())
    signs = "; ".join(f"{name} {_of(counted)}" for name, counted in alone.FALSE_SIGNS.items())
    without, heated = alone.ALONE_HOUSES
    return (
        f"Heat, and warmth without heat, were tried once more on {without} unheated and {heated} heated simulated "
        f"houses, beside an earlier sum: the interval held the truth for {cells}. False signs there: {signs}."
    )


def _two_winters() -> str:
    missed, far, held = winters.totals()
    return (
        f"Pairs of simulated winters: with nothing altered, an interval left out zero in {_of(missed)} of all cases, "
        f"in {_of(far)} where the nights lay 3{NBSP}K and more apart outdoors; for a better house it held the truth in "
        f"{_of(held)}. Light was not tried and bears no verdict."
    )


def _spared() -> str:
    """What the study of spared heat found."""
    ways = "; ".join(
        f"by {name}, since it was on {_of(since)}, by a whole winter {_of(winter)}"
        for name, (since, winter) in spared.HELD_BY_WAY.items()
    )
    kinds = "; ".join(f"{name} {_of(since)}" for name, (since, _) in spared.HELD_BY_KIND.items() if since.n)
    untried = [name for name, (since, _) in spared.HELD_BY_KIND.items() if not since.n]
    left = f" Not tried yet: {', '.join(untried)}." if untried else ""
    return (
        f"{number(spared.SPARED_HOUSES)} simulated houses, each run with the lever, without it and with it from the "
        f"first day. The two ends held the truth, {ways}. With heat logged by the hour, since it was on: {kinds}.{left}"
    )


METHODS: tuple[Method, ...] = (
    Method(
        slug="changes",
        page="changes",
        title="What a change did, with the weather taken out",
        text=(
            "Each change has one outcome, the first that you hoped for. Three weeks before and three weeks after it "
            "are compared, one number a day, and the weather of those days (outdoor cold, sun or its signs, "
            "warmth of the soil) is fitted along with the change. Days of other changes and events are left out. Days "
            "that follow one another are alike, so they count for less than as many days apart: thirty ways in which "
            "they may be alike are fitted and weighed by how well each explains the days. Heat for each degree counts "
            "the heaters alone: what a dehumidifier draws is no loss of the house. A bed gives warmth in autumn and "
            "takes it in spring, so its evening temperature is fitted with the heat, and its share of the night with "
            "the heat for each degree; not where the change touched the bed. What is done to the heat of a day "
            "grows with the cold, so its effect is told at the mean cold of the days after, and as a share of what "
            "those days would have taken without it. Where no thermostat holds the nights, a warmer house warms its "
            "bed, which gives some of that back by night; beside the bed's evening warmth only the rest is told. So "
            "the sum for the warmth of the nights is done twice, with the bed and without, and the interval reaches "
            "to the outer ends of both. Only where the sum with the bed leaves out zero, and the one without points "
            "the same way, its end near zero stays."
        ),
        formula=(
            "y = a + effect · (after) + other changes + weather",
            "likeness of days i and j: ρ^|tᵢ − tⱼ| + q · min(sᵢ, sⱼ), six values of ρ × five of q",
            "effect = Σ weight · estimate; 95 % interval = effect ± t(0.975, n − p) · s.e.",
            "heat a day: y = … + effect · (after) + g · (after) · (cold of the day − mean cold of the days after)",
            "soil: yesterday's value is one more column, because a bed answers slowly",
            "share of the bed = (bed at 19 to 20 h − H) / (H − outdoor night, at least 3 K), H = median night air of "
            "the counted nights while the thermostat stood alike",
        ),
        sources=(
            "A. C. Aitken 1935: least squares with known likeness (generalised least squares)",
            "D. A. Harville 1977: restricted likelihood, which weighs the thirty ways",
        ),
        limit=(
            "Refused, with the reason, where fewer than 7 days stand on a side, where the weather before and after did "
            "not overlap (means 1.5 standard deviations apart; 2 for the heat for each degree, which has the cold "
            "divided out), or where two changes cannot be told apart. What you did besides is not in the diary's sums. "
            "Hopes for the bed are answered “one winter cannot show it” where the interval holds zero and more than "
            "you said would matter."
        ),
        measured=(
            f"{study.PLACEBO_WINTERS} simulated winters with {study.PLACEBO_CHANGES} changes that did nothing: a false "
            f"sign on the outcome hoped for in {_of(study.FALSE_SIGNS_HOPED)}, on any outcome in "
            f"{_of(study.FALSE_SIGNS_ALL)}; plain before and after in {_of(study.PLAIN_FALSE_SIGNS)}. "
            f"{study.TRUE_WINTERS} more with {study.TRUE_CHANGES} changes that did something: the 95 % interval held "
            f"the truth in {_of(study.HELD_TRUTH)}: {_by_outcome(study.HELD_BY_OUTCOME)}. False signs by outcome: "
            f"{_by_outcome(study.FALSE_SIGNS_BY_OUTCOME)}. Dates were drawn over the whole season. Switching on and "
            f"off was not part of it. {_alone()}"
        ),
    ),
    Method(
        slug="spared",
        page="changes",
        title="What a lever spared, in heat and money",
        text=(
            "A lever is one thing that you set: what puts it on and what takes it off are one estimate. Two switches "
            "that lie six weeks apart share no night and are averaged by what each knows, and where they disagree by "
            "more than their own doubt the interval is widened by as much; nearer ones are fitted together, "
            "so that no night counts twice. A change of the cover or of the air takes a share off the heat "
            "for each degree; that share of the heaters' kilowatt-hours was spared, hour by hour, at that hour's "
            "price: what was given while it was on is only the rest, so more was spared than the share of it. Two ends "
            "are told and no middle. The low end counts only hours with the sun below the horizon in which the heater "
            "could have given more, because a night curtain spares nothing by day, and a heater that never rests "
            "spares nothing: the house gets warmer instead. Neither end is more than the heaters could have "
            "given on top of what they gave. Where the heat for each degree cannot be had, the heat of weeks or days "
            "is fitted on the cold of each, one share with the lever and one without."
        ),
        formula=(
            "p = − effect / heat for each degree without it, at most 0.9",
            "spared since = p / (1 − p) · heat given while on; by a whole winter: + p · heat given while off",
            "by weeks or days: heat = k · DH + δ · DH while on + other changes + c · sun, DH below a base of 0 to "
            "21 °C; all bases and likenesses weighed; half-width × 1.6",
            "payback = cost / what a whole winter like this one would be spared, at either end",
            "two switches: effect = Σ w · e, w ∝ 1 / s.e.²; s.e. × √(Q / (m − 1)) where that is over 1, m switches, "
            "Q = Σ (e − effect)² / s.e.²",
        ),
        sources=(
            "W. G. Cochran 1954: means of independent estimates, weighed by the inverse of their variances",
            "R. T. Birge 1932, Physical Review 40:207: the ratio by which estimates that disagree widen their mean's "
            "error; the Particle Data Group's scale factor (from memory)",
        ),
        limit=(
            "Refused under 4 heated weeks (14 heated days) on a side, and where something else was changed within "
            "three days. What a fan or dehumidifier draws is not taken off. Of other levers no spared heat is told."
        ),
        measured=_spared(),
    ),
    Method(
        slug="verdict",
        page="changes",
        title="Helped, hurt, no sign, cannot tell",
        text=(
            "Helped or hurt: the interval leaves out zero. No sign: the whole interval is smaller than what you said "
            "would matter. Cannot tell: everything else. Other outcomes are shown without a verdict, because judging "
            "them all would find a false sign on 18 % of dates on which nothing was done. The page also tries the "
            "same sum on dates on which nothing was done, and shows what came out."
        ),
        formula=(
            f"chance of at least one false sign among n judged changes = 1 − (1 − p)ⁿ, p from {number(FALSE_SIGN, 3)} "
            f"to {number(study.FALSE_SIGNS_HOPED.share, 3)}",
            "most it can have saved = favourable end of the interval × the winter's heat cost",
        ),
        limit=(
            "Seven changes judged in one winter: "
            f"{number(100 * chance_of_false_sign(7))} to "
            f"{number(100 * chance_of_false_sign(7, study.FALSE_SIGNS_HOPED.share))} of 100 such winters have a "
            "false sign somewhere."
        ),
        measured=(
            "The 18 % and the 2.4 % are from the trial by which the method was chosen, the "
            f"{number(100 * study.FALSE_SIGNS_HOPED.share, 1)}{NBSP}% from the study above."
        ),
    ),
    Method(
        slug="trial",
        page="changes",
        title="On and off next winter",
        text=(
            "A change that can be undone is best judged by switching it on and off every three or four nights for "
            "four weeks: on and off then see the same weather. The switch is at noon, which spoils no night."
        ),
        measured=(
            "Simulated houses: the interval for warmth at night shrank from ± 0.76 to ± 0.41 K, for heat from ± 5.0 to "
            "± 2.9 kWh a day, for humidity from ± 3.5 to ± 2.1 points."
        ),
        limit="Not for the soil, which remembers for too long.",
    ),
    Method(
        slug="winters",
        page="winters",
        title="This winter and last",
        text=(
            "Raw figures side by side, and the same at equal weather: the sum used for changes, with “this winter” in "
            "the place of the change, and a wider interval, as simulated pairs of winters called for: 1.6 times the "
            "standard error, and more the further apart the two winters' nights lay outdoors. Humidity has 1.3 points "
            "more for another winter's crop and watering, which is no matter of the house. The bed's warmth is not "
            "counted as weather for the warmth of the nights: over a whole winter it is the house's own doing. Weights "
            "have no equal weather."
        ),
        measured=_two_winters(),
        formula=(
            "half-width = t · √((1.6 · s.e.)² + (k · ΔT)² + a²), ΔT between the winters' mean nights outdoors; k a "
            "kelvin and a: night warmth 0.06, 0.03 K; heat 0.9, 1.5 % of last winter's; humidity 0.25, 1.3 points; bed "
            "0.09, 0.05 K",
            "likeness within a winter: ρ^|tᵢ − tⱼ| + q · (min(sᵢ, sⱼ) centred on the winter); none between winters",
        ),
        limit="Everything that differs between two winters, loggers too, is in the difference.",
    ),
    Method(
        slug="findings",
        page="index",
        title="Findings and their order",
        text=(
            "A finding is a sentence with its number, what it rests on, how sure it is, what else could explain it, "
            "and one thing to do. What is in a table alone is no finding. Safety comes first; then "
            "the worst event, which "
            "weeks were worth heating, the lever to be told first, a lever that was undone, the hold; then page by "
            "page by what is at stake: a crop lost, a crop at risk, damp, money, growth, the record, good news; then "
            "by how sure, then by size. Sure is what was counted within its band; nine in ten and fairly sure are "
            "measured on made-up winters; a hint is neither. No cause is claimed from a before-and-after picture "
            "alone."
        ),
        limit="The order of what is at stake is a choice of ours: a grower may weigh money before damp.",
    ),
)
