"""Findings of the bed: too cold for roots, what a fan through it did, warmth lost before the cold."""

from __future__ import annotations

from datetime import date, timedelta

import pandas as pd

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said, Source
from reportgen.counsel.whole import of_the_time, on_record
from reportgen.wording import NBSP, between, day, share_of, share_time

COLD_SHARE = 0.1  # share of the hours below the aim before it is worth a sentence
DRAIN_K = 1.0  # lost by the bed in the three days before the coldest night; our own line
DRAINED_H = 5.0  # hours of a fan that cools the bed


def cold(facts: Facts) -> Said | None:
    """How much of the time the bed was too cold for roots; None without a probe."""
    s, w = facts.r.soil, facts.w
    hours = s.hours_below_aim
    if s.channel is None or s.hours_recorded <= 0 or s.mean_c is None:
        return None
    share = hours.estimate / s.hours_recorded
    often, season_h = share >= COLD_SHARE, facts.r.season.hours
    time = of_the_time(s.hours_recorded, season_h)
    mostly = "mostly " if hours.estimate else ""
    quiet = f"Nothing to do: the bed was {mostly}warm enough for roots{on_record(s.hours_recorded, season_h)}."
    known = hours.low == hours.low
    band = f" ({between(w.hours(hours.low), w.hours(hours.high))} by the sensor's accuracy)" if known else ""
    several = s.days is not None and s.days["mean"].notna().sum() > 1
    coldest = (
        f" The coldest day was {day(s.coldest[0])}, {w.temp(s.coldest[1])} on average." if s.coldest and several else ""
    )
    return Said(
        claim=f"The bed was under {w.temp(s.aim_c)} {share_time(share, time)}; its mean was {w.temp(s.mean_c)}.",
        evidence=f"{w.hours(hours.estimate)}{band} of {w.hours(s.hours_recorded)} recorded.{coldest}",
        how_sure="Sure for the place and depth of the probe, within its accuracy; that roots slow below this line is "
        "common practice, without a source.",
        next_step="Cover the beds before the coldest weeks, and sow what must grow then where the bed stays warmest."
        if often
        else quiet,
        figure=w.percent(100 * share),
        figure_note=f"of the time under {w.temp(s.aim_c, 0)}",
        token="soil",
        stake="growth" if often else "good news",
        weight=share,
        sources=(Source(csv="soil_days.csv", how="sum", column="hours below the aim", value=hours.estimate),),
    )


def fan(facts: Facts) -> Said | None:
    """What the fan of a soil store did; None without one, or where it was never on record."""
    s, w = facts.r.soil, facts.w
    if s.channel is None or s.duct is None or s.duct.recorded_h <= 0:
        return None
    d = s.duct
    drains = d.drained_h >= DRAINED_H
    warm = d.used_h + d.missed_h
    share = f", {share_of(d.used_h / warm)} of the hours worth it" if warm > 0 else ""
    return Said(
        claim=f"The fan stored warmth for {w.hours(d.used_h)}{share}"
        + (f", and cooled the bed for {w.hours(d.drained_h)}." if drains else "."),
        evidence=f"{w.hours(d.recorded_h)} with fan, air and bed all known; worth it is air more than "
        f"{w.diff(5.0, 0)} warmer than the bed. Missed: {w.hours(d.missed_h)}.",
        how_sure="Sure for the hours; how much heat they moved depends on the airflow, which is not logged."
        if d.stored_kwh is None
        else f"Sure for the hours; their heat, {w.kwh(d.stored_kwh)} into the bed, is as sure as the airflow.",
        next_step="Let a difference switch run the fan: on when the air is well warmer than the bed, off when colder.",
        caution=cautions.MAINS,
        figure=w.hours(d.drained_h if drains else d.used_h),
        figure_note="cooled the bed" if drains else f"of storing{NBSP}warmth",
        token="soil",
        stake="money" if drains else "good news",
        weight=d.drained_h,
    )


def drained(facts: Facts) -> Said | None:
    """The bed had cooled by a kelvin and more in the three days before the coldest night."""
    at, days = facts.at("frost.minimum.at"), facts.r.soil.days
    if at is None or days is None:
        return None
    night = night_of(pd.Timestamp(at))
    first, last = night - timedelta(days=4), night - timedelta(days=1)
    lost = float(days["mean"].get(first, float("nan")) - days["mean"].get(last, float("nan")))
    if not lost >= DRAIN_K:
        return None
    return Said(
        claim=f"The bed had already lost {facts.w.diff(lost)} in the three days before the coldest night.",
        evidence=f"Daily means of the soil probe, {day(first)} to {day(last)}; the coldest night was that of "
        f"{day(night)}.",
        how_sure="Sure for the place of the probe.",
        next_step="When a cold spell is forecast, shut the house early on the sunny days before it, so that the bed "
        "goes into it warm.",
        figure=facts.w.diff(lost),
        figure_note="lost before the cold",
        token="soil",
        weight=lost,
    )


def night_of(at: pd.Timestamp) -> date:
    """The evening whose night holds this instant: 5 o'clock on the 14th belongs to the night of the 13th."""
    return (at - pd.Timedelta(hours=12)).date()
