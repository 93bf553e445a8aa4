"""Findings of the bed: too cold for roots, how it follows the air, what it gives back at night, whether it drains."""

from __future__ import annotations

from typing import Any

from reportgen.counsel import cautions
from reportgen.counsel.facts import Facts
from reportgen.counsel.results import Results
from reportgen.counsel.types import Finding, Source
from reportgen.counsel.whole import of_the_time, on_record
from reportgen.wording import NBSP, between, count, day

COLD_SHARE = 0.1  # share of the hours below the aim before it is worth a sentence
DRAINED_H = 5.0  # hours of a fan that cools the bed


def findings(r: Results) -> tuple[Finding, ...]:
    """All that the probe in the bed says."""
    facts = Facts.of(r)
    if r.soil.channel is None:
        return ()
    rules = (_cold, _wave, _given_back, _balance, _fan)
    return tuple(finding for rule in rules if (finding := rule(facts)) is not None)


def _finding(slug: str, **more: Any) -> Finding:
    return Finding(slug=slug, page="soil", token="soil", **more)


def _cold(facts: Facts) -> Finding | None:
    s, w = facts.r.soil, facts.w
    hours = s.hours_below_aim
    if s.hours_recorded <= 0 or s.mean_c is None:
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
    return _finding(
        "bed-below-the-root-line",
        claim=f"The bed was under {w.temp(s.aim_c)} for {w.percent(100 * share)} {time}; its mean was "
        f"{w.temp(s.mean_c)}.",
        evidence=f"{w.hours(hours.estimate)}{band} of {w.hours(s.hours_recorded)} recorded.{coldest}",
        how_sure="Sure for the place and depth of the probe, within its accuracy; that roots slow below this line is "
        "common practice, without a source.",
        next_step="Cover the beds before the coldest weeks, and sow what must grow then where the bed stays warmest."
        if often
        else quiet,
        figure=w.percent(100 * share),
        figure_note=f"of the time under {w.temp(s.aim_c, 0)}",
        anchor="soil_days",
        stake="growth" if often else "good news",
        sure="sure" if known else "fairly sure",
        weight=share,
        sources=(Source(csv="soil_days.csv", how="sum", column="hours below the aim", value=hours.estimate),),
    )


def _wave(facts: Facts) -> Finding | None:
    s, w = facts.r.soil, facts.w
    if s.swing_amplitude_k is None or s.lag_h is None or s.waves is None or s.waves.ratio is None:
        return None
    share = w.percent(100 * s.waves.ratio)
    return _finding(
        "bed-follows-the-air",
        claim=f"The bed swings {w.diff(s.swing_amplitude_k)} either way each day, {share} of the air's swing, and is "
        f"warmest {w.hours(s.lag_h, 1)} after the air.",
        evidence=f"A daily wave fitted over {count(s.waves.days, 'day')}, three days at a time.",
        how_sure="Fairly sure at the depth of the probe: a few centimetres deeper it would be less and later.",
        next_step="A bed that still rises after the sun has gone carries the evening: air the house before it cools, "
        "not after.",
        figure=w.hours(s.lag_h, 1),
        figure_note="behind the air",
        anchor="soil_wave",
        stake="growth",
        sure="fairly sure",
        weight=0.0,
    )


def _given_back(facts: Facts) -> Finding | None:
    s, w = facts.r.soil, facts.w
    if s.released_kwh_per_night is None or s.nights is None or s.drop_k is None:
        return None
    nights = int(s.nights["drop_k"].notna().sum())
    gives = s.released_kwh_per_night > 0
    kwh = w.kwh(abs(s.released_kwh_per_night), 1)
    claim = (
        f"At night the bed gave back at most {kwh}, on average."
        if gives
        else f"At night the bed took up {kwh} on average: it was fed and did not feed."
    )
    return _finding(
        "bed-at-night",
        claim=claim,
        evidence=f"It cooled {w.diff(s.drop_k)} from 18 to 8 o'clock on average, over {count(nights, 'night')}.",
        how_sure="An upper bound: what reaches the air is about two thirds of it (from a third to nearly all).",
        next_step="Rank nights by it, and let the sun onto the bed by day: cover it in the evening, not in the "
        "morning.",
        figure=kwh,
        figure_note="a night, at most" if gives else "a night, taken up",
        anchor="soil_nights",
        stake="money" if gives else "growth",
        sure="a hint",
        weight=0.0,
        sources=(Source(csv="soil_nights.csv", how="count", column=f"cooled by {w.diff_unit}", value=float(nights)),),
    )


def _balance(facts: Facts) -> Finding | None:
    s, w = facts.r.soil, facts.w
    if s.season_change_k is None or abs(s.season_change_k) < 0.5:
        return None
    warmer = s.season_change_k > 0
    kwh = f" ({w.kwh(abs(s.season_balance_kwh))})" if s.season_balance_kwh is not None else ""
    word = "warmer" if warmer else "colder"
    return _finding(
        "bed-over-the-season",
        claim=f"The bed ended the season {w.diff(abs(s.season_change_k))} {word} than it began{kwh}.",
        evidence="Mean of the last week less the mean of the first.",
        how_sure="Sure at the probe; the kWh take the whole bed to be as warm as the probe.",
        next_step="Look at the weeks in the chart: those in which it lost most are the ones to cover it in."
        if not warmer
        else "Nothing to do: the bed was left warmer than it was found.",
        figure=w.diff(s.season_change_k),
        figure_note="over the season",
        anchor="soil_weeks",
        stake="growth",
        sure="fairly sure",
        weight=0.0,
    )


def _fan(facts: Facts) -> Finding | None:
    s, w = facts.r.soil, facts.w
    if s.duct is None or s.duct.recorded_h <= 0:
        return None
    d = s.duct
    drains = d.drained_h >= DRAINED_H
    warm = d.used_h + d.missed_h
    share = f", {w.percent(100 * d.used_h / warm)} of the hours worth it" if warm > 0 else ""
    return _finding(
        "fan-through-the-bed",
        claim=f"The fan stored warmth for {w.hours(d.used_h)}{share}"
        + (f", and cooled the bed for {w.hours(d.drained_h)}." if drains else "."),
        evidence=f"{w.hours(d.recorded_h)} with fan, air and bed all known; worth it is air more than "
        f"{w.diff(5.0, 0)} warmer than the bed. Missed: {w.hours(d.missed_h)}.",
        how_sure="Sure for the hours; how much heat they moved depends on the airflow, which is not logged."
        if d.stored_kwh is None
        else f"Sure for the hours; their heat, {w.kwh(d.stored_kwh)} into the bed, is as sure as the airflow.",
        next_step="Let a difference switch run it: on when the air is well warmer than the bed, off when it is colder.",
        caution=cautions.MAINS,
        figure=w.hours(d.drained_h if drains else d.used_h),
        figure_note="cooled the bed" if drains else f"of storing{NBSP}warmth",
        anchor="soil_fan",
        stake="money" if drains else "good news",
        sure="fairly sure",
        weight=d.drained_h,
    )
