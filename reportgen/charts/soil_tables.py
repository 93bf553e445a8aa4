"""Tables of the soil page, in shown units."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.facts import Facts
from reportgen.ground import wave_at
from reportgen.measures.soil_store import Duct
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number

# Thermal diffusivity [m² s⁻¹]: de Vries 1963, as tabled by Moene and van Dam 2014, Table 2.2
GROUNDS = (("sandy soil, moist", 0.99e-6), ("clay soil, moist", 0.4e-6), ("peat, wet", 0.12e-6))


def days_csv(review: Review) -> pd.DataFrame:
    """The bed by day; `hours below the aim` sums to the season's."""
    w, days = Wording.of(review.season), review.soil.days
    if days is None:
        return pd.DataFrame()
    names = {"mean": "bed mean", "min": "bed coldest", "max": "bed warmest", "air_mean": "air mean"}
    table = pd.DataFrame({"date": list(days.index)})
    for name, words in names.items():
        if name in days:
            table[f"{words} {w.temp_unit}"] = days[name].map(w.temp_value).round(1).to_numpy()
    table["hours below the aim"] = days["below_h"].round(4).to_numpy()
    return table


def nights_csv(review: Review) -> pd.DataFrame:
    """What the bed lost each night."""
    w, nights = Wording.of(review.season), review.soil.nights
    if nights is None:
        return pd.DataFrame()
    table = pd.DataFrame({"night": list(nights.index)})
    table[f"cooled by {w.diff_unit}"] = nights["drop_k"].map(w.diff_value).round(2).to_numpy()
    if review.soil.bed_kwh_per_k is not None:
        table["kWh at most"] = nights["kwh"].round(2).to_numpy()
    return table


def weeks_csv(review: Review) -> pd.DataFrame:
    """The bed by week."""
    w, weeks, s = Wording.of(review.season), review.soil.weeks, review.soil
    if weeks is None:
        return pd.DataFrame()
    table = pd.DataFrame({"week": list(weeks.index)})
    table[f"mean {w.temp_unit}"] = weeks["mean_c"].map(w.temp_value).round(1).to_numpy()
    table[f"change {w.diff_unit}"] = weeks["change_k"].map(w.diff_value).round(2).to_numpy()
    if s.bed_kwh_per_k is not None:
        table["kWh"] = weeks["kwh"].round(1).to_numpy()
    return table


def wave_table(facts: Facts) -> Table | None:
    """The bed's daily wave beside what the ground lets expect at that depth."""
    s, w = facts.r.soil, facts.w
    if s.waves is None or s.swing_amplitude_k is None or s.lag_h is None or s.waves.ratio is None:
        return None
    air = float(s.waves.table["air_k"].mean())
    rows = [
        ("this bed", w.diff(s.swing_amplitude_k), w.percent(100 * s.waves.ratio), w.hours(s.lag_h, 1)),
        ("the air inside", w.diff(air), w.percent(100), w.hours(0.0)),
    ]
    depth = s.channel.depth_m if s.channel is not None else None
    if depth:
        rows += [_ground(facts, name, kappa, depth) for name, kappa in GROUNDS]
    data = s.waves.table.reset_index(names="date").rename(
        columns={"soil_k": "bed wave K", "air_k": "air wave K", "lag_h": "bed behind air h"}
    )
    return Table(
        uid="soil_wave",
        title=f"The bed is warmest {w.hours(s.lag_h, 1)} after the air, with {w.percent(100 * s.waves.ratio)} of "
        "its swing",
        subtitle=f"Daily wave, half of its height in {w.diff_unit}; fitted over {count(s.waves.days, 'day')}",
        columns=("where", "swing either way", "share", "behind"),
        rows=tuple(rows),
        data=data.round(3),
        notes=tuple(_wave_notes(depth)),
    )


def _ground(facts: Facts, name: str, diffusivity: float, depth_m: float) -> tuple[str, str, str, str]:
    share, lag = wave_at(depth_m, diffusivity)
    words = f"{name}, {number(100 * depth_m)}{NBSP}cm under its own surface"
    return words, "–", facts.w.percent(100 * share), facts.w.hours(lag, 1)


def _wave_notes(depth_m: float | None) -> list[str]:
    if not depth_m:
        return ["With depth_m of the probe the wave could be set beside what such ground lets expect."]
    return [
        "The shares of ground are of its own surface, which swings less than the air (closed form of de Vries "
        "1963): so this bed's share is against more, and comes out smaller.",
    ]


def fan_table(facts: Facts) -> Table | None:
    """What a fan through the bed did."""
    d, w = facts.r.soil.duct, facts.w
    if d is None:
        return None
    five = w.diff(5.0, 0)
    rows: tuple[tuple[str, str], ...] = (
        (f"stored: ran while the air was more than {five} warmer than the bed", w.hours(d.used_h)),
        ("missed: stood while it was", w.hours(d.missed_h)),
        ("drained: ran while the air was colder than the bed", w.hours(d.drained_h)),
    )
    if d.stored_kwh is not None and d.drawn_kwh is not None:
        rows += (
            ("heat the air left in the bed", w.kwh(d.stored_kwh)),
            ("heat it took out of the bed", w.kwh(d.drawn_kwh)),
        )
    return Table(
        uid="soil_fan",
        title=f"The fan stored for {w.hours(d.used_h)}, missed {w.hours(d.missed_h)}, drained for "
        f"{w.hours(d.drained_h)}",
        subtitle="Hours of the fan, by whether the air was warmer than the bed",
        columns=("what it did", "how much"),
        rows=rows,
        data=d.by_day.reset_index(names="date").round(2),
        notes=(f"{w.hours(d.recorded_h)} with fan, air and bed all known.{_duct_heat(facts, d)}",),
    )


def _duct_heat(facts: Facts, d: Duct) -> str:
    w = facts.w
    drop = ""
    if d.drop_k is not None:
        drop = f" The air came out {w.diff(abs(d.drop_k))} {'cooler' if d.drop_k >= 0 else 'warmer'} than it went in."
    if d.stored_kwh is None:
        return f"{drop} Its kWh need duct_airflow and both duct temperatures, logged while it ran."
    return (
        f"{drop} The heat is airflow × 1.2{NBSP}kg/m³ × 1006{NBSP}J/kgK × that difference, over the "
        f"{w.hours(d.heat_h)} of the fan in which all three were logged; water that condenses in the duct leaves more."
    )
