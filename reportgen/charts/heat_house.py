"""What the house loses, and the heater that its hardest hours ask for."""

from __future__ import annotations

import pandas as pd

from reportgen.charts import heat_tables as tables
from reportgen.charts.build import Dots, Level, Look, points
from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.facts import Facts
from reportgen.counsel.heat import rated_heat_w
from reportgen.counsel.heat_words import known, watts
from reportgen.review import Review
from reportgen.wording import count

NINE_IN_TEN = "Of ten such spans on simulated houses about nine held the truth."


def loss_block(review: Review, facts: Facts) -> list[Table | Note]:
    h = review.heat
    if not known(h.loss_w_per_k):
        why = h.reasons.get("loss_w_per_k.estimate", "")
        if not review.season.heating or not why:
            return []
        return [Note(title="What the house loses", text=f"The heat loss cannot be told: {why}.")]
    return [tables.loss(review, facts)]


def needed_drawing(review: Review, facts: Facts) -> list[Drawing | Note]:
    """The nights' heat against the cold, and the heater that the hardest hours ask for."""
    h, w = review.heat, facts.w
    size, nights = h.heater_needed_w, h.nights
    if size.coldest_hour is None or size.coldest_band is None or size.five_band is None or nights is None:
        why = h.reasons.get("heater_needed_w.coldest_hour", "")
        words = f"How large a heater it takes cannot be told: {why}."
        return [Note(title="The heater it takes", text=words)] if review.season.heating and why else []
    kept = nights.dropna(subset=["out_c", "heaters_w"])
    dots = pd.DataFrame({"x": kept["out_c"].map(w.temp_value), "y": kept["heaters_w"]})
    look = Look(
        unit="W",
        x_title=f"mean of the night outdoors, {w.temp_unit}",
        zero=True,
        levels=(Level(value=size.coldest_hour, label="hardest 3 hours", token="warm"),),
    )
    wide, narrow = points([Dots(frame=dots, token="warm", area=20)], look)
    band, five = size.coldest_band, size.five_band
    return [
        Drawing(
            uid="heat_line",
            title=f"The hardest three hours asked for about {watts(size.coldest_hour)}",
            subtitle="Mean heater power of each night, W, by how cold it was outdoors; the line: the hardest 3 hours",
            label="Points: heater power by night against the outdoor air, with a line at what the hardest hours need",
            description=f"{count(len(kept), 'night')}. The hardest three hours need {watts(band.low)} to "
            f"{watts(band.high)} as the house is now.",
            wide=wide,
            narrow=narrow,
            table=tables.needed(review, kept),
            notes=(
                f"As the house is now, {_held(facts)}: {watts(band.low)} to {watts(band.high)} "
                f"with {w.temp(size.coldest_c or 0.0)} the coldest outdoors; {w.diff(5.0, 0)} colder: "
                f"{watts(five.low)} to {watts(five.high)}. {NINE_IN_TEN}",
                f"To stay within about {w.diff(1.0, 0)} of the hold in single hours too a heater of about "
                f"{watts(size.to_buy or 0.0)} is wanted: a thermostat is late, and an hour can be harder than three.",
            ),
        )
    ]


def size_table(facts: Facts) -> list[Table]:
    """What the hardest hours ask for beside what the main heaters give; nothing where it cannot be told."""
    size, w = facts.r.heat.heater_needed_w, facts.w
    if size.coldest_hour is None or size.coldest_band is None or size.five_band is None:
        return []
    now, five, coldest = size.coldest_band, size.five_band, size.coldest_c
    colder = None if coldest is None else coldest - 5.0
    figures = [
        ("hardest three hours", size.coldest_hour, now.low, now.high, coldest),
        (f"hardest three hours, {w.diff(5.0, 0)} colder", size.five_colder, five.low, five.high, colder),
        ("to keep single hours too", size.to_buy, None, None, coldest),
        ("main heaters at most", rated_heat_w(facts), None, None, None),
    ]
    known = [(name, watt, low, high, cold) for name, watt, low, high, cold in figures if watt is not None]
    data = pd.DataFrame(known, columns=["figure", "W", "low W", "high W", "outdoors °C"]).round(2)
    return [
        Table(
            uid="heat_size",
            title="The heat that the hardest hours ask for, and what is there",
            subtitle=f"As the house is now, {_held(facts)}. {NINE_IN_TEN}",
            columns=("figure", "power", "between", "coldest outdoors"),
            rows=tuple(
                (
                    name,
                    watts(watt),
                    "–" if low is None or high is None else f"{watts(low)} to {watts(high)}",
                    "–" if cold is None else w.temp(cold),
                )
                for name, watt, low, high, cold in known
            ),
            data=data.astype({name: float for name in data if name != "figure"}),
        )
    ]


def _held(facts: Facts) -> str:
    """At what the run was held: the dial, else the aim, else the hold found."""
    season = facts.r.season
    if any(source.dial for source in season.heating):
        return "held at what its thermostat was set to"
    return "held at your aim" if facts.r.heat.holds else "held at what was held"
