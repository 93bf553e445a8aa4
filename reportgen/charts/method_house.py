"""The methods that rest on the house as a balance, in plain words, with the error rates of its study."""

from __future__ import annotations

from reportgen.charts.method_types import Method
from reportgen.charts.place import signed
from reportgen.measures import price_measured as price
from reportgen.measures.house.measured import RATES, Rate
from reportgen.measures.other_holds import SPANS
from reportgen.wording import NBSP, number

# The two kinds of logging whose rates the page tells; the rest stand in the study.
KINDS = {"probe, light": "air, bed probe, light", "air only": "air alone"}
HEATERS = {"large": "large enough", "small": "at its limit"}
TRIED = "On simulated houses whose truth is known. Ranges are meant to hold nine in ten; plus is told too "


def _degree() -> str:
    """What the study of the price of a degree found."""
    ways = "; ".join(
        f"{log}: {number(low, 2)} to {number(high, 2)}, the range held {number(held)} of {number(told)}"
        for log, (low, high, held, told) in price.NEAR.items()
    )
    ends = "; ".join(
        f"{name}: {number(span.less[0], 2)} to {number(span.less[1], 2)} of what is spared, "
        f"{number(span.more[0], 2)} to {number(span.more[1], 2)} of what is added"
        for name, span in SPANS.items()
    )
    return (
        f"{number(price.HOUSES)} simulated houses, half of them with the thermostat turned by date, half with a film "
        f"hung in mid-winter; a degree less and more, told ÷ true in nine of ten. {ways}. Ends of the range, true ÷ "
        f"told: {ends}."
    )


def _rates(*figures: str) -> tuple[tuple[str, ...], ...]:
    """What the study found of some figures, a row a kind of logging and of heater."""
    return tuple(_row(rate) for figure in figures for rate in RATES if rate.figure == figure and rate.kind in KINDS)


def _row(rate: Rate) -> tuple[str, ...]:
    return (
        rate.figure,
        KINDS[rate.kind],
        HEATERS[rate.heater],
        f"{signed(rate.bias, 1)}{NBSP}{rate.unit}",
        f"{number(rate.rmse, 1)}{NBSP}{rate.unit}",
        f"{rate.inside}{NBSP}%",
        f"{number(rate.values)} in {rate.houses} houses",
    )


METHODS: tuple[Method, ...] = (
    Method(
        slug="house",
        page="frost",
        title="The house as a balance",
        text=(
            "What sun, wind, sky and leaks did is already in the air that was logged. So each “what if” is the logged "
            "air plus what another amount of heat would have done to it, and only that answer is fitted: on the dark, "
            "logged hours of the season, without the first three days, without days with an event in the diary, "
            "and without hours whose heat is known only as a sum. Every way in which cover and vents stood has a loss "
            "of its own. Where the thermostat was in command the heat answers to what the balance misses, elsewhere "
            "the air does; the fit takes that into account, so that hours in which the heater could give no more need "
            "not be left out. The bed follows the air by a fit of its own, so that without heat it cools too."
        ),
        formula=(
            "P + X = U (T_in − T_out) + W v (T_in − T_out) + C dT_in/dt + G (T_in − T_bed) + Σ g (T_in − its lag) − "
            "Σ s · lag of the sun + c, all but c at least 0",
            "other air = logged air + x, with (U_t + K + C − Σ w (1 − a)) x = other heat − logged heat + C x₋₁ + "
            "Σ w a · lag of x₋₁",
        ),
        limit=(
            "It needs 150 dark hours that were heated and logged, not all alike outdoors. Without a light sensor the "
            "bed's probe is not used; without a latitude the night is taken from 21 to 5 h. Air without heat is never "
            "told more than 1 K (1.8 °F) under the outdoor air. Deep snow, vents open at night and long gaps were not "
            "tried."
        ),
        sources=("Own method; ranges from simulated houses of two other simulators, tried on a third one here",),
        measured=(
            "Figure by figure below, on 40 simulated houses whose truth is known. Five ranges held the truth less than "
            "85 times in 100 at first (after 8 h with a bed probe or a meter, after 3 h with air alone, the loss with "
            "air alone, the size of a heater at its limit). They were widened on these same houses and not tried on "
            "others, so their share below flatters them."
        ),
    ),
    Method(
        slug="failure",
        page="frost",
        title="If the heat fails, and the winter without heat",
        text=(
            "After a failure: every heated night of this house, as it is now, is stopped at 20 h, moved to the outdoor "
            "temperature that is asked for, and weighed by how near its own lay. A failure that was measured is told "
            "first. The winter without heat: the heaters off from the first day, the coldest hour of each long night; "
            "two fifths of a night's distance from the line through all nights are taken off, or the coldest of many "
            "would be told too cold. A house that was heated in nearly every dark hour was never seen to cool by "
            "itself, and is told nothing."
        ),
        formula=(
            "range after a failure = ± √(a² + (b · fall)² + (1.645 · spread of the nights)² + (0.15 · kelvin beyond "
            "the coldest heated night)²)",
            "range of a night without heat = ± √(a² + (b · warmth taken away)²)",
        ),
        limit="Nights milder than the heated ones, and ranges as wide as from outdoors to the hold, are not printed.",
        measured=f"{TRIED}warm.",
        rates=_rates(
            "failure 3 h, ten coldest", "failure 8 h, ten coldest", "no heat, coldest fifth", "no heat, season minimum"
        ),
    ),
    Method(
        slug="loss",
        page="heat",
        title="What the house loses for each degree",
        text=(
            "Cover and changed air, from the balance of nights heated for at least 7 of 10 hours and more than 3 K "
            "warmer than outdoors, for each way in which cover and vents stood. What went into the bed and the frame "
            "is taken out. Beside it stands what the glazing should lose."
        ),
        formula=(
            "loss [W/K] = 0.98 · Σ (U · lift + c + misfit) / Σ lift",
            "to be expected = U · A + 0.33 · air changes · volume",
        ),
        sources=("0.33 Wh/(m³·K), the heat held by air: EN ISO 13789 practice",),
        limit="Fewer than seven such nights: no figure.",
        measured=f"{TRIED}high.",
        rates=_rates("loss", "loss by state"),
    ),
    Method(
        slug="hold",
        page="heat",
        title="The price of a degree",
        text=(
            "A degree less is every date's own hold one degree lower. Two ways lead there. The base-temperature "
            "method: the base at which the heat used follows the cold best, moved as the hold moves; where the "
            "thermostat was turned it moves with each date's hold, and each state of the house (cover, vents) has a "
            "slope of its own. And the winter run again by the hour with the thermostat moved, at most at the "
            "heater's own power. Where heat is known by the hour their mean is told; where the heater stood at its "
            "limit the run alone; from a meter, bills or deliveries the base-temperature method alone. A bar of the "
            "table is one hold kept all winter long. Heat above the aim is what was used less what this table tells "
            "of the aim."
        ),
        formula=(
            "find B with the smallest Σ (kWh − Σ k(state) · DH(B, state))², in steps of 0.25 K",
            "change of a stretch = its kWh · (DH(B + move) / DH(B) − 1), hours weighed by k(state)",
            "told = ½ · (this + change of the run · kWh measured / kWh of the run)",
            "range = told change × the ends below; in squares with the bases that the readings allow: "
            "Σe² ≤ Σe²min · (1 + t(0.95, ν)² / ν)",
        ),
        sources=(
            "M. F. Fels, PRISM: An introduction, Energy and Buildings 9 (1986) 5–18: the base-temperature method",
            "D. M. Bates and D. G. Watts, Nonlinear Regression Analysis (1988): the range of one parameter",
        ),
        limit=(
            "Refused where the house was altered and fewer than two readings (seven days) lie on a side that took a "
            "quarter of the cold and more, and where the readings allow any base. Holds more than 4 K away are printed "
            "pale: nobody tried them."
        ),
        measured=_degree(),
    ),
    Method(
        slug="size",
        page="heat",
        title="The heater it takes",
        text=(
            "The winter is run again in the house as it is now with a heater without limit, held at what the "
            "thermostat was set to (else at the aim, else at what was held); the largest mean of three hours counts. A "
            "heater to buy gives 1.4 times that. The same run in colder copies of the winter tells on which nights the "
            "present heater runs flat out."
        ),
        formula=("size = 0.97 × largest 3-hour mean of the run (1.03 where the heater stood at its limit)",),
        limit="A meter's sums tell no hardest hours: no size; nor where 5 K colder would ask for more than 1.8 times "
        "what the house loses for so much. Flat out is not told further than 8 K beyond the coldest night.",
        measured=f"{TRIED}large (sizes) or too warm (outdoors, where the heater runs flat out).",
        rates=_rates("heater size", "heater size, 5 K colder", "flat out"),
    ),
)
