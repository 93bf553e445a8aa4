"""What the Damp, Light and Soil pages say: which share is much, what is known of it, what follows; by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, at, event, grounds, lever, winter
from counsel.sentences import faults
from made_season import ZONE, channel, logger

from reportgen.counsel import cautions, damp, damp_nights, dangers, light, soil
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said
from reportgen.effects.types import Changes, KindOfNight
from reportgen.measures.damp_dryers import Dryer
from reportgen.measures.exposure import Band
from reportgen.measures.light import Lamp
from reportgen.measures.light_daily import Run
from reportgen.measures.seldom import NOTHING_TOLD
from reportgen.season import Appliance, House
from reportgen.wording import share_words

NBSP = "\u00a0"
NAN = float("nan")
WHOLE_H = 184 * 24.0  # 11 October to 12 April


def stands(found: Said | None) -> Said:
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


# ---- damp


def damp_facts(high_h: float = 1000.0, *, toml: Any = None, channels: Any = (), **more: Any) -> Facts:
    """A winter of 4416 h on record, so many of them too damp."""
    usual: dict[str, Any] = {
        "logger": "bench",
        "hours_recorded": WHOLE_H,
        "high_pct": 85.0,
        "extreme_pct": 95.0,
        "hours_above_high": Band(estimate=high_h, low=high_h - 100, high=high_h + 100),
        "hours_above_extreme": Band(estimate=0.0),
        "airing_hours": None,
        "airing_band": SimpleNamespace(low=None, high=None),
        "airing": SimpleNamespace(water_gm3=1.5, wh_per_m3=4.0),
        "months": pd.DataFrame({"month": pd.to_datetime([]), "recorded": [], "above_high": []}),
        "clock": pd.DataFrame({"high": [40.0] * 24}),
        "dryers": (),
        "mould": SimpleNamespace(found=(), looked=(), warned=()),
        "grey_mould_spells": SimpleNamespace(high=0, moderate=0, too_cold_for_equation=0),
    }
    r = winter(damp=SimpleNamespace(**(usual | more)), sources=(FAN,), toml=toml or {}, channels=channels)
    return Facts.of(r, grounds())


@pytest.mark.parametrize(("share", "much"), [(0.3, True), (0.2999, False)])
def test_three_tenths_of_the_hours_are_damp(share: float, much: bool) -> None:
    """From 30 % on it is worth a step."""
    found = stands(damp.hours(damp_facts(share * WHOLE_H)))
    assert (found.stake == "damp") == much and ("Nothing to do" in found.next_step) != much
    assert found.weight == pytest.approx(share) and found.about == "bench"


def test_hours_too_damp_are_told_with_their_share_and_band() -> None:
    """1000 of 4416 h are 22.6 %; 900 to 1100 with the sensor off; 2000 of 4416 h are 45 %."""
    found = stands(damp.hours(damp_facts()))
    assert f"1\u202f000{NBSP}h, 23{NBSP}% of the time." in found.claim and f"85{NBSP}%" in found.claim
    assert f"900 to 1\u202f100{NBSP}h" in found.evidence and found.how_sure.startswith("Sure")
    bare = stands(damp.hours(damp_facts(hours_above_high=Band(estimate=1000.0))))
    assert "sensor off" not in bare.evidence and bare.how_sure.startswith("A hint")
    part = stands(damp.hours(damp_facts(hours_recorded=2000.0)))
    assert f"50{NBSP}% of the time on record" in part.claim and f"2\u202f000{NBSP}h on record" in part.evidence
    assert damp.hours(damp_facts(logger=None)) is None and damp.hours(damp_facts(hours_recorded=0.0)) is None


@pytest.mark.parametrize(
    ("high", "extreme", "words"), [(0.4, 0.0, "none was above"), (0.5, 0.4, None), (9.0, 0.5, "95")]
)
def test_under_half_an_hour_is_none(high: float, extreme: float, words: str | None) -> None:
    """Above either line."""
    found = stands(damp.hours(damp_facts(high, hours_above_extreme=Band(estimate=extreme))))
    assert (words in found.claim) if words else ("none" not in found.claim and "95" not in found.claim)


@pytest.mark.parametrize(("noon", "through"), [(50.0, True), (49.9, False)])
def test_damp_past_noon_asks_for_another_step_than_damp_nights(noon: float, through: bool) -> None:
    """Half of the hours from 11 to 15."""
    clock = pd.DataFrame({"high": [99.0] * 11 + [noon] * 4 + [99.0] * 9})
    found = stands(damp.hours(damp_facts(0.5 * WHOLE_H, clock=clock)))
    assert ("through the day" in found.next_step) == through


def test_the_dampest_month_is_named_where_one_leads() -> None:
    """60 % of November; of two alike none."""
    month = pd.to_datetime(["2025-11-01", "2025-12-01"])
    led = pd.DataFrame({"month": month, "recorded": [700.0, 700.0], "above_high": [420.0, 140.0]})
    assert f"November with 60{NBSP}%" in stands(damp.hours(damp_facts(months=led))).evidence
    assert "Dampest" not in stands(damp.hours(damp_facts(months=led.assign(above_high=300.0)))).evidence


def mould(found: int, warned: int, **spells: Any) -> Said | None:
    days = [dt.date(2026, 1, 5 + n) for n in range(found)]
    seen = SimpleNamespace(found=days, looked=[*days, dt.date(2026, 2, 1)], warned=days[:warned])
    of = SimpleNamespace(**({"high": 1, "moderate": 2, "too_cold_for_equation": 4} | spells))
    return damp.index_did_not_fit(damp_facts(mould=seen, grey_mould_spells=of))


def test_an_index_that_warned_of_less_than_half_did_not_fit() -> None:
    """Of three visits with mould one after a warning: told, 1 + 2 spells ranked, 4 too cold; of four, two: not."""
    found = stands(mould(3, 1))
    assert f"3 of 4{NBSP}visits" in found.claim and "1 of them" in found.claim
    assert (
        f"5{NBSP}January" in found.evidence
        and f"3{NBSP}spells" in found.evidence
        and "finds 4 too cold" in found.evidence
    )
    assert mould(4, 2) is None and mould(0, 0) is None and mould(3, 1, high=None) is None
    assert "none of them" in stands(mould(1, 0)).claim and stands(mould(1, 0)).figure_note.startswith("visit that")
    assert stands(mould(2, 0)).figure_note.startswith("visits that")
    bare = stands(mould(3, 1, moderate=None, too_cold_for_equation=None))
    assert f"1{NBSP}spell " in bare.evidence and "finds 0 too cold" in bare.evidence


OUTSIDE = pd.Series(80.0, pd.date_range("2025-10-11", "2026-04-13", freq="1h", tz=ZONE))
YARD = (
    channel(OUTSIDE, "relative_humidity", "yard", where="outdoor"),
    channel(OUTSIDE - 78, logger="yard", where="outdoor"),
)
YARD_TOML = {"loggers": (logger("yard", where="outdoor"),)}


def airing(share: float, *, damp_h: float = 2000.0, **more: Any) -> Said | None:
    usual: dict[str, Any] = {"airing_hours": share * damp_h, "toml": YARD_TOML, "channels": YARD}
    return damp.airing(damp_facts(damp_h, **(usual | more)))


@pytest.mark.parametrize(("share", "helps"), [(0.6, True), (0.59, False), (0.0, False)])
def test_airing_is_the_answer_from_six_tenths_on(share: float, helps: bool) -> None:
    """Of 2000 h too damp; else a dehumidifier, with the caution of mains."""
    found = stands(airing(share))
    assert ("would have dried" in found.claim) == helps
    assert found.caution == (None if helps else cautions.MAINS) and ("bursts" in found.next_step) == helps
    assert f"{100 * share:.0f}{NBSP}%" in found.figure and f"2\u202f000{NBSP}h" in found.evidence


@pytest.mark.parametrize(
    ("name", "more", "told"),
    [
        ("Open sides", {}, True),
        ("Dehumidifier", {}, False),
        ("Open sides", {"on_now": False}, False),
        ("Open sides", {"verdict": "keep"}, False),
        ("Open sides", {"hoped": "warmer nights"}, False),
    ],
)
def test_who_airs_already_is_not_told_to_air(name: str, more: dict[str, Any], told: bool) -> None:
    """Sides open by day and night to the last day, and whether they dried the air is still to be tried."""
    usual: dict[str, Any] = {"verdict": "try on and off", "hoped": "drier air", "touches": ("air",)} | more
    on = grounds(lever(name, usual.pop("verdict"), **usual))
    of = replace(damp_facts(clock=pd.DataFrame({"high": [90.0] * 24})), on=on)
    assert ("with the open sides" in damp._less_damp(of)) is told
    assert damp._air_in_bursts(of).startswith("Switch the open sides") is told


def test_airing_is_told_only_of_a_damp_house_whose_outdoors_is_known() -> None:
    """Under 30 % of the hours too damp; no hours; no grams; and that it would not help only where the air outside is
    known nearly throughout."""
    assert airing(0.9, damp_h=0.3 * WHOLE_H) is not None and airing(0.9, damp_h=0.29 * WHOLE_H) is None
    assert airing(0.9, airing_hours=None) is None and airing(0.9, hours_recorded=0.0) is None
    assert airing(0.9, airing=SimpleNamespace(water_gm3=None, wh_per_m3=None)) is None
    assert airing(0.1, channels=()) is None and airing(0.9, channels=()) is not None


def test_a_change_of_air_is_told_in_grams_and_kilowatt_hours() -> None:
    """1.5 g and 4 Wh a cubic metre in 50 m³: 75 g, 0.20 kWh; without a volume nothing."""
    house = YARD_TOML | {"house": House(air_volume_m3=50.0)}
    told = stands(airing(0.9, toml=house)).evidence
    assert f"75{NBSP}g" in told and f"0.20{NBSP}kWh" in told
    assert "change of air" not in stands(airing(0.9)).evidence
    unknown = airing(0.9, toml=house, airing=SimpleNamespace(water_gm3=1.5, wh_per_m3=None))
    assert "change of air" not in stands(unknown).evidence


def test_the_airing_band_stands_where_it_is_known_and_wide() -> None:
    """1500 to 1900 h: sure; without it a hint; ends that print alike are none."""
    wide = stands(airing(0.9, airing_band=SimpleNamespace(low=1500.0, high=1900.0)))
    assert f"1\u202f500{NBSP}h to 1\u202f900{NBSP}h" in wide.evidence and wide.how_sure.startswith("Sure")
    assert stands(airing(0.9)).how_sure.startswith("A hint") and "sensors off" not in stands(airing(0.9)).evidence
    for band in ((1800.1, 1800.2), (1500.0, None), (None, 1900.0)):
        told = stands(airing(0.9, airing_band=SimpleNamespace(low=band[0], high=band[1]))).evidence
        assert "sensors off" not in told


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.99, f"99{NBSP}%"),
        (0.9949, "over 99"),
        (0.995, f"over 99{NBSP}%"),
        (0.99985, "over 99"),
        (0.9999, f"100{NBSP}%"),
    ],
)
def test_all_is_said_only_of_all(share: float, words: str) -> None:
    """Above 99 % and below 99.99 % it is over 99 %."""
    assert share_words(share).startswith(words)


def test_a_bigger_dehumidifier_is_spoken_of_where_one_stands() -> None:
    """Else any."""
    has = YARD_TOML | {
        "appliances": (Appliance(name="dryer", kind="dehumidifier", rated_power_w=200.0, hours_per_day=2.0),)
    }
    assert "bigger" in stands(airing(0.9, toml=has)).next_step and "bigger" not in stands(airing(0.9)).next_step


def dryer(ran_h: float, above_h: float, **more: Any) -> Dryer:
    usual: dict[str, Any] = {"name": "dryer", "set_pct": 80.0, "hours_known": 4000.0}
    return Dryer(ran_h=ran_h, still_above_h=above_h, **(usual | more))


@pytest.mark.parametrize(("above", "small"), [(51.0, True), (50.0, False)])
def test_a_dehumidifier_is_too_small_where_it_stays_too_damp_more_than_half_the_time(above: float, small: bool) -> None:
    """Of 100 h; of two the one that ran longest; under a day none is told."""
    found = stands(damp.dryer(damp_facts(dryers=(dryer(24.0, 24.0, name="old"), dryer(100.0, above)))))
    assert f"100{NBSP}h" in found.claim and f"{above:.0f}{NBSP}%" in found.claim and f"80{NBSP}%" in found.claim
    assert (found.stake, found.about) == ("damp" if small else "money", "dryer")
    assert found.figure == f"{above:.0f}{NBSP}%"
    assert ("too small" in found.next_step) == small and f"4\u202f000{NBSP}h" in found.evidence
    assert damp.dryer(damp_facts(dryers=(dryer(23.9, 1.0),))) is None and damp.dryer(damp_facts()) is None


@pytest.mark.parametrize(("well", "step", "stake"), [(51.0, "too small", "damp"), (50.0, "Leave the dryer", "money")])
def test_a_dehumidifier_that_holds_its_setting_within_the_logger_s_accuracy_is_not_too_small(
    well: float, step: str, stake: str
) -> None:
    """59 of 100 h above 80 %, but only so many of them by more than the logger may be off."""
    found = stands(damp.dryer(damp_facts(dryers=(dryer(100.0, 59.0, well_above_h=well),))))
    assert step in found.next_step and found.stake == stake


def test_how_a_dehumidifier_s_hours_are_known() -> None:
    """From its draw: sure; by its rating or in part: a hint."""
    plain = stands(damp.dryer(damp_facts(dryers=(dryer(100.0, 10.0),))))
    rated = stands(damp.dryer(damp_facts(dryers=(dryer(100.0, 10.0, by_rating=True),))))
    part = stands(damp.dryer(damp_facts(dryers=(dryer(100.0, 10.0, in_part=True),))))
    assert [x.how_sure.startswith("Sure") for x in (plain, rated, part)] == [True, False, False]
    assert "rated power" in rated.evidence and "in part of 100" in part.claim and "in part" not in rated.claim
    assert "Stretches" in part.evidence and "Hours in which" in plain.evidence


# ---- fire and fumes


def test_fumes_are_certain_only_where_a_flue_is_known_to_be_missing() -> None:
    """Five days with tape up: sure; where nobody wrote of a flue it is asked first; the days are its figure."""
    more: dict[str, Any] = {"source": "gas stove", "days": 5, "levers": ("Vents taped",), "rank": 0}
    (sure,) = dangers.dangers(
        Facts.of(winter(sources=(FAN,)), grounds(events=(event("safety", "fumes", **more), event())))
    )
    assert f"5{NBSP}days" in sure.claim and "“Vents taped”" in sure.claim and sure.how_sure.startswith("Sure")
    assert (sure.figure, sure.weight, sure.about) == (f"5{NBSP}days", 1000.0, "gas stove")
    assert sure.caution == f"{cautions.FUEL} {cautions.SEAL}" and "book tells" not in sure.evidence
    asked = event("safety", "fumes", **(more | {"flue_unsaid": True, "days": 0, "levers": (), "diary": ()}))
    (found,) = dangers.dangers(Facts.of(winter(sources=(FAN,)), grounds(events=(asked,))))
    assert found.how_sure.startswith("Cannot tell") and "vented = true" in found.next_step
    assert f"13{NBSP}January" in found.figure and "some time" in found.claim and "tight" not in found.claim
    assert "not on which of these days" in found.evidence


def test_several_levers_are_listed_and_a_stretch_ends_on_its_last_day() -> None:
    """Tight from 7 December to the last day of March: its end is the midnight after it, and no day of it."""
    more: dict[str, Any] = {"source": "gas stove", "days": 0, "levers": ("Film", "Foam", "Tape"), "flue_unsaid": True}
    ends = {"start": at("2025-12-07", "00:00"), "end": at("2026-04-01", "00:00")}
    one = event("safety", "fumes", **(more | ends))
    (found,) = dangers.dangers(Facts.of(winter(sources=(FAN,)), grounds(events=(one,))))
    assert f"some time from 7{NBSP}December to 31{NBSP}March while “Film”, “Foam” and “Tape” kept" in found.claim


def test_a_hazard_is_for_an_electrician() -> None:
    """With the caution of mains and its day."""
    one = event("safety", "a residual-current switch tripped", source=None, rank=1)
    (found,) = dangers.dangers(Facts.of(winter(sources=(FAN,)), grounds(events=(one,))))
    assert "electrician" in found.next_step and found.caution == cautions.MAINS
    assert (found.figure, found.weight, found.about) == (f"13{NBSP}January", 999.0, None)


# ---- light

FIRST = dt.date(2025, 10, 11)


def light_facts(toml: Any = None, channels: Any = (), **more: Any) -> Facts:
    """100 dark days from 1 November to 8 February of a season of 184 days."""
    days = [FIRST + dt.timedelta(days=n) for n in range(184)]
    daily = {
        "table": pd.DataFrame(index=days),
        "kind": "quanta inside",
        "logger": "bench",
        "transmission": None,
        "transmission_seen": None,
    } | more.pop("daily", {})
    usual: dict[str, Any] = {
        "days_under_ten_hours": 100,
        "shortest_day": dt.date(2025, 12, 21),
        "shortest_day_h": 8.1,
        "ten_from": dt.date(2025, 11, 1),
        "ten_to": dt.date(2026, 2, 8),
        "sunless": None,
        "sunlit": None,
        "days_measured": 184,
        "days_enough": 46,
        "mean_daily_light_mol": 6.4,
        "dark_mean_mol": 3.2,
        "need_mol": 12.0,
        "reasons": {},
        "lamp": None,
        "gloomy_runs": (),
        "daily": SimpleNamespace(**daily),
    }
    r = winter(light=SimpleNamespace(**(usual | more)), sources=(FAN,), toml=toml or {}, channels=channels)
    return Facts.of(r, grounds())


def test_the_dark_days_are_told_with_their_span() -> None:
    """100 days, from 1 November to 8 February; the shortest 8.1 h; the crop full grown by the first."""
    found = stands(light.dark(light_facts()))
    assert f"100{NBSP}days" in found.claim and f"from 1{NBSP}November to 8{NBSP}February" in found.claim
    assert f"21{NBSP}December with 8.1{NBSP}h" in found.evidence and f"by 1{NBSP}November" in found.next_step
    assert found.weight == 10.0 and "clouds" not in found.evidence
    from_start = stands(light.dark(light_facts(ten_from=FIRST)))
    assert "until 8" in from_start.claim and "before they begin" in from_start.next_step
    assert "all of the season" in stands(light.dark(light_facts(days_under_ten_hours=184))).claim
    for gone in ("days_under_ten_hours", "shortest_day", "shortest_day_h", "ten_from", "ten_to"):
        assert light.dark(light_facts(**{gone: None})) is None
    assert light.dark(light_facts(days_under_ten_hours=0)) is None


def test_why_the_clouds_are_not_known() -> None:
    """Read too seldom; a sensor without a whole day; no sensor."""
    seldom = light_facts(days_measured=0, reasons={"mean_daily_light_mol": f"read once a day: {NOTHING_TOLD}"})
    assert "too seldom" in stands(light.dark(seldom)).evidence
    assert "takes a light sensor" in stands(light.dark(light_facts(days_measured=0))).evidence
    lit = (channel(OUTSIDE, "ppfd", "bench"),)
    there = light_facts(days_measured=0, toml={"loggers": (logger("bench", "ppfd"),)}, channels=lit)
    assert "no whole day" in stands(light.dark(there)).evidence


def test_where_the_sun_stays_down_that_is_told() -> None:
    """One day, or days on end; where it stays up likewise."""
    run = Run(start=dt.date(2025, 12, 1), end=dt.date(2026, 1, 10), days=41)
    one = Run(start=dt.date(2025, 12, 1), end=dt.date(2025, 12, 1), days=1)
    of = light_facts(sunless=run)
    told = light.shortest_words(of.r.light, of.w)
    assert f"41{NBSP}days" in told and f"1{NBSP}December" in told and f"10{NBSP}January" in told
    assert light.sunlit_words(light_facts(sunlit=one).r.light).endswith(f"on 1{NBSP}December.")
    assert light.sunlit_words(light_facts().r.light) == ""
    for gone in ("shortest_day", "shortest_day_h"):
        assert light.shortest_words(light_facts(**{gone: None}).r.light, of.w) == ""
    assert (
        light.dark_span(light_facts(ten_from=None).r.light) == light.dark_span(light_facts(ten_to=None).r.light) == ""
    )


@pytest.mark.parametrize(("enough", "good"), [(143, False), (144, True)])
def test_light_is_enough_where_four_fifths_of_the_days_had_it(enough: int, good: bool) -> None:
    """0.8 × 180 = 144 days."""
    found = stands(light.daily(light_facts(days_enough=enough, days_measured=180)))
    assert (found.stake == "good news") == good and (found.caution is None) == good
    assert found.weight == pytest.approx(1 - enough / 180) and ("Nothing to do" in found.next_step) == good


def test_daily_light_is_told_against_the_need() -> None:
    """6.4 of 12 mol; 46 of 184 days are 25 %; none is said as none; of 100 days measured that is said."""
    found = stands(light.daily(light_facts()))
    assert f"6.4{NBSP}mol" in found.claim and f"12{NBSP}mol" in found.claim and f"25{NBSP}% of the days." in found.claim
    assert f"3.2{NBSP}mol" in found.evidence and f"184{NBSP}days" in found.evidence
    assert "none of the days" in stands(light.daily(light_facts(days_enough=0))).claim
    assert f"the 100{NBSP}days measured" in stands(light.daily(light_facts(days_measured=100))).claim
    assert "of the days." in stands(light.daily(light_facts(days_measured=175))).claim  # 95 % of 184 is 174.8
    assert f"174{NBSP}days measured" in stands(light.daily(light_facts(days_measured=174))).claim
    assert "dark weeks" not in stands(light.daily(light_facts(dark_mean_mol=None))).evidence
    for gone in ({"mean_daily_light_mol": None}, {"days_enough": None}, {"days_measured": 0}):
        assert light.daily(light_facts(**gone)) is None


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("quanta inside", "beside the crop (bench)"),
        ("radiation inside", "energy beside"),
        ("quanta outdoors", f"times the 70{NBSP}%"),
        ("radiation outdoors", f"joule times the 70{NBSP}%"),
        ("none", "not measured"),
    ],
)
def test_what_the_light_rests_on(kind: str, words: str) -> None:
    """Outdoors by what the cover lets through."""
    assert words in light.how(light_facts(daily={"kind": kind, "transmission": 0.7}))
    assert "times the" not in light.how(light_facts(daily={"kind": "quanta outdoors"}))


def gloomy(*runs: tuple[str, int]) -> str:
    made = [
        Run(start=dt.date.fromisoformat(first), end=dt.date.fromisoformat(first) + dt.timedelta(days=n - 1), days=n)
        for first, n in runs
    ]
    return light.gloomy_words(light_facts(gloomy_runs=tuple(made)).r.light)


def test_the_longest_gloomy_spell_the_first_of_several_as_long() -> None:
    """One alone; the longest of three; two of the same length with the first of them."""
    assert gloomy(("2025-12-01", 6)).startswith(f"One gloomy spell lasted 6{NBSP}days, from 1{NBSP}December")
    longest = gloomy(("2025-11-01", 5), ("2025-12-01", 9), ("2026-01-01", 6))
    assert f"spell lasted 9{NBSP}days" in longest and f"1{NBSP}December" in longest
    alike = gloomy(("2026-01-01", 9), ("2025-11-01", 5), ("2025-12-01", 9))
    assert f"spells lasted 9{NBSP}days each" in alike and f"1{NBSP}December" in alike


def test_a_lamp_is_told_by_what_it_would_have_had_to_do() -> None:
    """300 h on 60 days, 40 kWh for EUR 12; three days too short; without a price its hours are the figure."""
    one = Lamp(name="lamp", ppfd=150.0, hours=300.0, days=60, days_too_short=3, hours_a_day=5.0, kwh=40.0, cost=12.0)
    found = stands(light.lamp(light_facts(lamp=one)))
    for words in (f"300{NBSP}h", f"40{NBSP}kWh for EUR{NBSP}12.00"):
        assert words in found.claim
    assert f"60{NBSP}days" in found.evidence and f"5.0{NBSP}h" in found.evidence and f"On 3{NBSP}days" in found.evidence
    assert (found.figure, found.weight) == (f"EUR{NBSP}12", 12.0)
    bare = Lamp(name="lamp", ppfd=150.0, hours=300.0, days=60, days_too_short=0, hours_a_day=5.0, kwh=None, cost=None)
    free = stands(light.lamp(light_facts(lamp=bare)))
    assert (
        (free.figure, free.weight) == (f"300{NBSP}h", 0.0)
        and "kWh" not in free.claim
        and "24 hours" not in free.evidence
    )
    none = Lamp(name="lamp", ppfd=150.0, hours=0.0, days=0, days_too_short=0, hours_a_day=0.0, kwh=0.0, cost=0.0)
    assert light.lamp(light_facts(lamp=none)) is None and light.lamp(light_facts()) is None


@pytest.mark.parametrize(("seen", "told"), [(0.63, True), (0.64, False)])
def test_a_cover_a_tenth_dimmer_than_given_is_told(seen: float, told: bool) -> None:
    """Of 70 % given: 63 % is a tenth less; 64 % is not."""
    of = light_facts(daily={"transmission_seen": seen}, toml={"house": House(light_transmission=0.7)})
    found = light.cover(of)
    assert (found is not None) == told
    if found is not None:
        assert found.figure == f"10{NBSP}%" and found.weight == pytest.approx(0.1)
    assert light.cover(light_facts(daily={"transmission_seen": seen})) is None


@pytest.mark.parametrize(
    ("mean", "held", "days", "told"),
    [
        (11.9, 0.9, 1, True),
        (12.0, 0.9, 1, False),
        (6.0, 0.89, 1, False),
        (6.0, 0.9, 0, False),
        (6.0, 0.95, 60, True),
    ],
)
def test_light_before_warmth(mean: float, held: float, days: int, told: bool) -> None:
    """Under 12 mol, the hold kept nine tenths of the time, and days under ten hours."""
    r = winter(
        light={"mean_daily_light_mol": mean, "days_under_ten_hours": days},
        heat={"share_at_or_above_hold": {"estimate": held}},
    )
    found = light.before_warmth(Facts.of(r))
    assert (found is not None) == told
    if found is not None:
        assert found.weight == pytest.approx(12.0 - mean) and f"{100 * held:.0f}{NBSP}%" in found.evidence
        assert "more heat" not in found.next_step  # no heater is listed


# ---- soil


def bed(below_h: float, recorded_h: float = WHOLE_H, **more: Any) -> Said | None:
    usual: dict[str, Any] = {
        "channel": "probe",
        "hours_below_aim": Band(estimate=below_h, low=NAN, high=NAN),
        "hours_recorded": recorded_h,
        "mean_c": 8.0,
        "aim_c": 7.0,
        "days": pd.DataFrame({"mean": [8.0, 6.0]}),
        "coldest": (dt.date(2026, 1, 14), 3.0),
    }
    return soil.cold(Facts.of(winter(soil=SimpleNamespace(**(usual | more)))))


@pytest.mark.parametrize(("share", "often"), [(0.1, True), (0.0999, False)])
def test_a_tenth_of_the_time_below_the_aim_is_often(share: float, often: bool) -> None:
    """Then beds are covered; else nothing is to do."""
    found = stands(bed(share * WHOLE_H))
    assert (found.stake == "growth") == often and ("Cover" in found.next_step) == often
    assert found.weight == pytest.approx(share)


def test_the_bed_is_told_with_its_mean_its_band_and_its_coldest_day() -> None:
    """1104 of 4416 h are 25 %, 1000 to 1200 by the sensor; the coldest day of several; nothing to do of a warm bed."""
    found = stands(bed(1104.0, hours_below_aim=Band(estimate=1104.0, low=1000.0, high=1200.0)))
    assert f"7.0{NBSP}°C 25{NBSP}% of the time;" in found.claim and f"8.0{NBSP}°C" in found.claim
    assert f"1\u202f000 to 1\u202f200{NBSP}h" in found.evidence and f"14{NBSP}January, 3.0{NBSP}°C" in found.evidence
    bare = stands(bed(1104.0))
    assert "accuracy)" not in bare.evidence
    one = stands(bed(1104.0, days=pd.DataFrame({"mean": [8.0, NAN]})))
    assert "coldest day" not in one.evidence and "coldest day" not in stands(bed(1104.0, coldest=None)).evidence
    assert "mostly" in stands(bed(1.0)).next_step and "mostly" not in stands(bed(0.0)).next_step
    part = stands(bed(0.0, 4000.0))
    assert "at no time on record" in part.claim and f"416{NBSP}h are missing" in part.next_step
    for gone in ({"channel": None}, {"mean_c": None}):
        assert bed(1.0, **gone) is None
    assert bed(0.0, 0.0) is None


def fan(**more: Any) -> Said | None:
    usual: dict[str, Any] = {
        "recorded_h": 1000.0,
        "used_h": 120.0,
        "missed_h": 40.0,
        "drained_h": 0.0,
        "stored_kwh": None,
    }
    made = SimpleNamespace(channel="probe", duct=SimpleNamespace(**(usual | more)))
    return soil.fan(Facts.of(winter(soil=made)))


@pytest.mark.parametrize(("drained", "cools"), [(5.0, True), (4.9, False)])
def test_five_hours_of_cooling_are_worth_a_word(drained: float, cools: bool) -> None:
    """Then they are the figure, and money; else the hours of storing."""
    found = stands(fan(drained_h=drained))
    assert ("cooled the bed" in found.claim) == cools and found.figure == f"{5 if cools else 120}{NBSP}h"
    assert found.stake == ("money" if cools else "good news") and found.weight == drained


def test_a_fan_is_told_by_the_hours_worth_it() -> None:
    """120 of 160 are 75 %; none worth it, no share; their heat where the airflow is known; else silent."""
    assert f"75{NBSP}%" in stands(fan()).claim and f"Missed: 40{NBSP}h" in stands(fan()).evidence
    assert "%" not in stands(fan(used_h=0.0, missed_h=0.0)).claim
    assert f"55{NBSP}kWh" in stands(fan(stored_kwh=55.0)).how_sure and "not logged" in stands(fan()).how_sure
    assert fan(recorded_h=0.0) is None


@pytest.mark.parametrize(("lost", "told"), [(1.0, True), (0.9, False)])
def test_a_kelvin_lost_in_the_three_days_before_is_told(lost: float, told: bool) -> None:
    """The night of the 14th: from the day mean of the 10th to that of the 13th."""
    days = pd.DataFrame({"mean": [9.0, 8.8, 8.6, 9.0 - lost]}, index=[dt.date(2026, 1, 10 + n) for n in range(4)])
    of = Facts.of(
        winter(soil=SimpleNamespace(days=days), frost={"minimum": {"at": pd.Timestamp("2026-01-15 05:00", tz=ZONE)}})
    )
    found = soil.drained(of)
    assert (found is not None) == told
    if found is not None:
        assert f"1.0{NBSP}K" in found.claim and f"10{NBSP}January to 13{NBSP}January" in found.evidence
    short = Facts.of(
        winter(
            soil=SimpleNamespace(days=days[1:]), frost={"minimum": {"at": pd.Timestamp("2026-01-15 05:00", tz=ZONE)}}
        )
    )
    assert soil.drained(short) is None


@pytest.mark.parametrize(("hours", "told"), [(24.0, True), (23.9, False)])
def test_a_dehumidifier_that_ran_a_day_is_told(hours: float, told: bool) -> None:
    """A day and no less."""
    assert (damp.dryer(damp_facts(dryers=(dryer(hours, 1.0),))) is not None) == told


def kind(name: str, low: float, effect: float = 4.0) -> Facts:
    """A comparison of nights of one kind, 12 against 60."""
    found = KindOfNight(
        name=name, effect=effect, low=low, high=2 * effect - low, nights=12, others=60, table=pd.DataFrame()
    )
    return Facts.of(winter(effects=Changes(changes=(), kinds_of_night=(found,))))


@pytest.mark.parametrize(
    ("rule", "name"), [(damp_nights.watering, "after watering"), (damp_nights.heater_off, "without heat")]
)
def test_nights_of_one_kind_are_told_where_they_are_surely_damper(rule: Any, name: str) -> None:
    """4 points, 0.5 to 7.5; from 0 on, or drier, nothing is said."""
    found = stands(rule(kind(name, 0.5)))
    assert f"4{NBSP}points" in found.claim and found.weight == 4.0
    assert f"12{NBSP}nights" in found.evidence and "60" in found.evidence and found.sources[0].value == 12.0
    assert rule(kind(name, 0.0)) is None and rule(kind(name, -1.0)) is None and rule(kind("other", 0.5)) is None
