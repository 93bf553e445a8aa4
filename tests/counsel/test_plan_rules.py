"""Rows of the plan at their bounds: dates, amounts and what replaces what, by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, GAS, at, balance, event, grounds, hold, humid, lever, side, winter
from counsel.hand import PRICE_OF_DEGREE, change, outcome
from made_season import channel, heater, logger, picking, planting

from reportgen.counsel import cautions, steps_levers, steps_log, steps_money, steps_season
from reportgen.counsel.grounds import TOO_COLD, UNHEATED, Ends, Grounds, JudgedLever, PlanStep
from reportgen.counsel.next_season import NextSeason
from reportgen.effects.estimate import OFTEN
from reportgen.effects.types import Changes
from reportgen.measures.frost_types import Alarm, Minimum
from reportgen.readings.lever_types import State
from reportgen.readings.types import DiaryEntry, HeatSupply
from reportgen.season import Place
from reportgen.season.sources import Appliance
from reportgen.winters.types import Winters

D = dt.date
NBSP = "\u00a0"


def ahead(**more: Any) -> NextSeason:
    """Next winter from 11 October to 12 April: heat from 24 November to 30 March, frost from 5 December to 2 April."""
    usual: dict[str, Any] = {
        "first": D(2026, 10, 11),
        "last": D(2027, 4, 12),
        "heated": (D(2026, 11, 24), D(2027, 3, 30)),
        "frost": (D(2026, 12, 5), D(2027, 4, 2)),
        "coldest": None,
        "away": (),
        "unlogged": frozenset(),
    }
    return NextSeason(**(usual | more))


def test_a_price_is_told_once_in_its_row() -> None:
    """It stands among the reasons; what is to be kept to stands beside the thing."""
    price = lever(
        "Fan", "keep with a condition", condition="3 to 10 points damper at night", touches=("air",), saves_heat=False
    )
    assert kept(price).what == "Fan stays"
    never = lever(
        "Fan", "keep with a condition", condition="never with the stove lit", touches=("air",), saves_heat=False
    )
    assert kept(never).what == "Fan stays; never with the stove lit"


def test_heat_known_as_a_sum_names_no_first_night() -> None:
    """Cylinders tell from when on, a plug tells the night."""
    assert steps_season._first_heat(ahead()) == f"the first heated night was 24{NBSP}November"
    summed = ahead(unlogged=frozenset({D(2026, 11, 24)}))
    assert steps_season._first_heat(summed) == f"it gave heat some time from 24{NBSP}November on"


RUNNING = ahead(running=True, first=D(2026, 1, 21), last=D(2026, 4, 12), heated=None, frost=None, quiet=D(2026, 1, 25))


# ---- keep, undo


def kept(of: JudgedLever, when: NextSeason | None = None, **more: Any) -> PlanStep:
    (found,) = steps_levers.keep(winter(**more), (of, lever("no", "not worth it")), when or ahead())
    return found


def test_what_saves_heat_is_up_a_week_before_the_first_heated_night() -> None:
    """17 November; one that went up earlier, on 1 November, then; one for the air when it went on, a year later."""
    assert kept(lever("Film")).from_ == D(2026, 11, 17)
    november = (State(from_=at("2025-11-01"), to=at("2026-04-13", "00:00"), on=True),)
    assert kept(lever("Film", states=november)).from_ == D(2026, 11, 1)
    assert kept(lever("Vent", **humid(-6.0, -3.0))).from_ == D(2027, 1, 22)
    assert kept(lever("Film", saves_heat=False)).from_ == D(2026, 11, 17)  # the envelope, whatever it was hoped to do
    assert kept(lever("Dial", touches=("thermostat",))).from_ == D(2026, 11, 17)  # hoped to save heat
    assert kept(lever("Film", states=(), saves_heat=False, touches=("air",))).from_ == D(2026, 10, 11)
    early = ahead(heated=(D(2026, 10, 13), D(2027, 3, 30)))
    assert kept(lever("Film"), early).from_ == D(2026, 10, 11)  # not before the season


def test_in_a_running_winter_what_is_off_waits_for_the_quiet_nights() -> None:
    """On: from now; off: from the day that is quiet, or now where nothing is."""
    assert kept(lever("Film"), RUNNING).from_ == D(2026, 1, 21)
    assert kept(lever("Film", on_now=False), RUNNING).from_ == D(2026, 1, 25)
    free = ahead(running=True, first=D(2026, 1, 21), last=D(2026, 4, 12), heated=None, frost=None)
    assert kept(lever("Film", on_now=False), free).from_ == D(2026, 1, 21)


@pytest.mark.parametrize(
    ("more", "until"),
    [
        ({"price": (side("daily_light", -15.0, -9.0),)}, D(2027, 4, 3)),
        ({"price": (side("daily_light", -15.0, 0.0),)}, D(2027, 4, 12)),  # perhaps none
        ({"price": (side("lift", -15.0, -9.0),)}, D(2027, 4, 12)),
        ({"price": (side("daily_light", -15.0, -9.0),), "touches": ("air",)}, D(2027, 4, 12)),
        ({}, D(2027, 4, 12)),
    ],
)
def test_what_takes_light_comes_down_after_the_last_frost(more: dict[str, Any], until: D) -> None:
    """The day after 2 April, of a cover whose light is surely less; said where there is room for it."""
    found = kept(lever("Film", **more))
    assert found.to == until
    assert kept(lever("Film", price=(side("daily_light", -15.0, -9.0),)), ahead(frost=None)).to == D(2027, 4, 12)
    damp = humid(-6.0, -3.0, touches=("envelope",))
    assert "last frost" in kept(lever("Film", price=(side("daily_light", -15.0, -9.0),), **damp)).why
    assert "last frost" not in kept(lever("Film", **damp)).why


def test_what_saves_no_heat_only_stays() -> None:
    """Nor what is kept where no night was heated; with its condition where there is room."""
    assert "before the first heated night" in kept(lever("Film")).what
    assert kept(lever("Film"), ahead(heated=None)).what == "Film stays"
    vent = lever("Vent", "keep with a condition", condition="shut by night", **humid(-6.0, -3.0))
    assert kept(vent).what == "Vent stays; shut by night"
    assert (
        kept(
            lever(
                "Vent", "keep with a condition", condition="shut it on every night of hard frost", **humid(-6.0, -3.0)
            )
        ).what
        == "Vent stays"
    )


def undone(*levers: JudgedLever, when: NextSeason | None = None, sources: Any = (FAN, GAS)) -> list[PlanStep]:
    return steps_levers.undo(winter(sources=sources), levers, when or ahead())


def test_which_levers_are_undone_the_unsafe_first() -> None:
    """Of those that are not worth it only one that is on and costs something."""
    dear = (side("daily_light", -15.0, -9.0, beyond_care=True),)
    levers = (
        lever("a", "leave undone"),
        lever("b", "not worth it", price=dear),
        lever("c", "not worth it"),
        lever("d", "not worth it", price=dear, on_now=False),
        lever("e", "keep"),
        lever("f", "not again"),
        lever("g", "not while that burns here", unsafe_with=("gas stove",)),
        lever("h", "not worth it", price=(*dear, side("lift", 0.0, 1.0))),
    )
    assert [step.lever for step in undone(*levers)] == ["f", "g", "a", "b", "h"]


def test_why_it_is_undone() -> None:
    """Fumes by the stove's name; a flue that nobody told of; else both sides the other way round."""
    unsafe: dict[str, Any] = {"unsafe_with": ("gas stove",)}
    assert "fumes of the gas stove" in undone(lever("a", "not while that burns here", **unsafe))[0].why
    assert "its fumes" in undone(lever("a", "not again"))[0].why
    assert "whether the gas stove has" in undone(lever("a", "not again", flue_unsaid=True, **unsafe))[0].why
    assert "whether it has a flue" in undone(lever("a", "not again", flue_unsaid=True))[0].why
    plain = undone(lever("a", "leave undone", flue_unsaid=True, **humid(2.0, 6.0)))[0].why
    assert f"2 to 6{NBSP}points drier" in plain and "flue" not in plain


def test_what_dries_runs_from_the_first_damp_night() -> None:
    """On since 1 December; too damp for more than half of its hours since 20 October: then, a year later. Half is not
    more than half, and a night without a reading tells nothing."""
    nights = pd.DataFrame(
        {"above_high": [0.0, 7.5, 8.0, 9.0], "recorded": [0.0, 15.0, 15.0, 15.0]},
        index=[D(2025, 10, 18), D(2025, 10, 19), D(2025, 10, 20), D(2025, 12, 2)],
    )
    states = (State(from_=at("2025-12-01"), to=at("2026-04-13", "00:00"), on=True),)
    more: dict[str, Any] = {"touches": ("air",), "saves_heat": False, "states": states}
    dry = lever("Dehumidifier", outcome="night_humidity", **more)
    assert kept(dry, damp=SimpleNamespace(table=nights)).from_ == D(2026, 10, 20)
    assert kept(dry).from_ == D(2026, 12, 1)
    assert kept(lever("Fan", outcome="lift", **more), damp=SimpleNamespace(table=nights)).from_ == D(2026, 12, 1)


def test_from_when_it_is_undone() -> None:
    """At once where unsafe or off already; else once the quiet nights are over."""
    now, quiet = D(2026, 1, 21), D(2026, 1, 25)
    assert undone(lever("a", "leave undone"), when=RUNNING)[0].from_ == quiet
    assert undone(lever("a", "leave undone", on_now=False), when=RUNNING)[0].from_ == now
    assert undone(lever("a", "not again"), when=RUNNING)[0].from_ == now


@pytest.mark.parametrize(
    ("of", "sources", "words"),
    [
        (lever("Stove", "not again", touches=("heater",)), (FAN, GAS), "electric heat instead"),
        (lever("Stove", "not again", touches=("heater",)), (GAS,), "grow hardy crops only"),
        (lever("fan heater", "not again", touches=("heater",)), (FAN, GAS), "grow hardy crops only"),
        (
            lever("Stove", "not again", touches=("heater",), unsafe_with=("fan heater",)),
            (FAN,),
            "grow hardy crops only",
        ),
        (lever("Tape", "leave undone", touches=("envelope", "air")), (FAN,), "air by day"),
        (lever("Film", "leave undone"), (FAN,), "fleece over the beds"),
        (lever("Other", "leave undone", touches=("plants",)), (FAN,), "as before"),
    ],
)
def test_what_replaces_what_is_undone(of: JudgedLever, sources: Any, words: str) -> None:
    """Electric heat that the house has and that is not meant itself; else by what it touched."""
    assert words in undone(of, sources=sources)[0].what


# ---- log


def logged(on: Grounds | None = None, **more: Any) -> dict[str, str]:
    return {step.what: step.why for step in steps_log.log(winter(**more), grounds() if on is None else on, ahead())}


def refused(verdict: Any, answerable: str, outcome_name: str = "night_humidity") -> tuple[Grounds, dict[str, Any]]:
    missing = outcome(outcome_name, 0.0, 0.0, 0.0, declared=True, refused="no", answerable=answerable)
    return grounds(lever("Vent tape", verdict)), {"effects": Changes(changes=(change("Vent tape", missing, line=3),))}


@pytest.mark.parametrize(
    ("verdict", "answerable", "name", "what"),
    [
        ("cannot tell", "an outdoor logger", "lift", "A thermometer outdoors, in shade"),
        ("change once", "a logger for it", "night_humidity", "Humidity beside the crop"),
        ("try on and off", OFTEN, "soil_mean", "A probe in the bed, a hand deep"),
        ("cannot tell", "patience", "night_humidity", None),
        ("keep", "a logger for it", "night_humidity", None),
    ],
)
def test_a_lever_that_could_not_be_judged_asks_for_what_was_missing(
    verdict: Any, answerable: str, name: str, what: str | None
) -> None:
    """By what would have made it answerable; not what no logger answers, nor a lever that was judged."""
    on, more = refused(verdict, answerable, name)
    found = {what for what, why in logged(on, **more).items() if "Vent tape" in why}
    assert found == ({what} if what else set())


def test_what_the_hold_and_the_books_miss_is_logged() -> None:
    """Crops without a limit, a dial, meters, prices; each only where it is missing."""
    on = grounds(hold_advice=hold(unknown_crops=("rocket", "rocket", "pea")))
    found = logged(on, sources=(FAN,))
    assert "How cold rocket and pea stood unharmed" in found and "The heater's meter, once a week" in found
    assert "The dial's setting, with its dates" in found and "The price of fuel or power" not in found
    burnt = (heater([("2026-01-05", "2026-02-01", 100.0, float("nan"))]),)
    unpaid = logged(heating=burnt, sources=(FAN,))
    assert "The price of fuel or power" in unpaid and "The heater's meter, once a week" not in unpaid
    paid = logged(heating=(heater([("2026-01-05", "2026-02-01", 100.0, 30.0)]),), sources=(FAN,))
    assert "The price of fuel or power" not in paid
    bare = logged()
    assert not any("dial" in what or "heater" in what or "How cold" in what for what in bare)
    books = (
        "Each picking's weight, in the harvest book",
        "Each change and its hope, in a diary",
        "Sowing and clearing dates, in the planting book",
    )
    assert set(books) <= set(bare)
    full = logged(harvest=(picking("2026-01-06", 1.0),), diary=(), plantings=(planting("kale", "east", "2025-11-01"),))
    assert not set(books) & set(full)


def test_a_stove_without_a_meter_is_weighed() -> None:
    """Its sacks or cylinders are all that can be read; a heater with a meter has it read."""
    bought = replace(heater([("2026-01-05", "2026-02-01", 300.0, 90.0)]), name="pellet stove", form="deliveries")
    stove = FAN.model_copy(update={"name": "pellet stove", "role": "main"})
    r = winter(sources=(stove,), heating=(bought,))
    assert steps_log._by_weight(r) == "What the pellet stove burns, weighed every noon"
    metered = winter(sources=(stove,), heating=(replace(bought, form="meter"),))
    assert steps_log._by_weight(metered) == steps_log.BY_LOGGER["heat"]


def test_a_heater_is_named_whole_where_the_row_has_room() -> None:
    """Eight words: what is tested loses its small words first."""
    assert steps_season._clear("pellet stove", "flue and flame") == "Clear round the pellet stove; test flue, flame"
    assert steps_season._clear("fan heater", "flame") == "Clear round the fan heater; test its flame"


def test_loggers_without_an_accuracy_are_asked_for_it() -> None:
    """One by its name, several counted; humidity has none to ask for here."""
    hours = pd.Series(5.0, pd.date_range("2026-01-05", "2026-02-01", freq="1h", tz="Europe/Prague"))
    of = {"toml": {"loggers": (logger("bench", main=True), logger("door"))}}
    one = logged(channels=(channel(hours), channel(hours, "relative_humidity", "door")), **of)
    assert "How far the logger “bench” may be off" in one
    two = logged(channels=(channel(hours), channel(hours, logger="door")), **of)
    assert f"How far 2{NBSP}loggers may be off" in two
    assert not any("How far" in what for what in logged(channels=(channel(hours, accuracy=0.3),), **of))


# ---- buy or put by


def bought(*levers: JudgedLever, diary: Any = (), when: NextSeason | None = None, **more: Any) -> list[PlanStep]:
    usual: dict[str, Any] = {
        "heating": (heater([("2026-01-05", "2026-02-01", 100.0, 30.0)]),),
        "sources": (FAN,),
        "heat": {"hold_found_c": 8.0, "price_of_degree": PRICE_OF_DEGREE, "cost": 30.0},
    }
    return steps_money.buy(winter(diary=diary, **(usual | more)), grounds(*levers), when or ahead())


def test_next_winter_s_heat_is_put_by_before_it_begins() -> None:
    """100 kWh at EUR 0.40: EUR 40, by 23 November, from 30 days before the 24th; 2 K colder takes 140 kWh: 16 more."""
    (step,) = bought()
    assert (step.from_, step.to, step.cost) == (D(2026, 10, 25), D(2026, 11, 23), 40.0)
    assert f"EUR{NBSP}40 " in step.what and f"100{NBSP}kWh at next prices" in step.why and f"EUR{NBSP}16" in step.why
    kept_up = bought(
        lever("film", thing="bubble film", winter_kwh=Ends(low=30.0, high=50.0), spared_kwh=Ends(low=10.0, high=20.0))
    )
    assert (
        f"EUR{NBSP}28 to 32" in kept_up[0].what
        and f"70 to 80{NBSP}kWh" in kept_up[0].why
        and kept_up[0].cost == pytest.approx(32.0)
    )
    same = bought(sources=(FAN.model_copy(update={"next_price": None}),))
    assert f"EUR{NBSP}30 " in same[0].what and "next prices" not in same[0].why
    early = bought(when=ahead(heated=(D(2026, 10, 11), D(2027, 3, 30))))
    assert (early[0].from_, early[0].to) == (D(2026, 10, 11), D(2026, 10, 11))
    assert bought(heating=()) == []


DRYER = Appliance(name="dehumidifier", kind="dehumidifier", rated_power_w=200.0, hours_per_day=2.0)


def put_by(drawn: float | None, *supplies: HeatSupply) -> str:
    """The words of the row, beside EUR 30 of heat."""
    heat = {"hold_found_c": 8.0, "price_of_degree": PRICE_OF_DEGREE, "cost": 30.0}
    burnt = heater([("2026-01-05", "2026-02-01", 100.0, 30.0)])
    r = winter(toml={"appliances": (DRYER,)}, heat=heat, heating=(burnt,), appliances=supplies, sources=(FAN,))
    of = replace(grounds(), balance=balance(heat=30.0, appliances=drawn))
    return steps_money.buy(r, of, ahead())[0].what


@pytest.mark.parametrize(("drawn", "said"), [(3.0, f"; appliances EUR{NBSP}3"), (2.9, ""), (None, "")])
def test_power_of_a_dehumidifier_is_put_by_too(drawn: float | None, said: str) -> None:
    """From a tenth of the heat's EUR 30 on: the money of the heat is without it."""
    assert put_by(drawn) == f"Put by EUR{NBSP}40 for heat{said}"


@pytest.mark.parametrize(("day", "words"), [("2025-10-25", "appliances EUR"), ("2025-10-26", "appliances over EUR")])
def test_power_of_what_ran_late_is_a_least(day: str, words: str) -> None:
    """From 11 October: begun more than a fortnight later, a whole winter takes more."""
    drew = replace(heater([(day, "2026-02-01", 30.0, 9.0)]), name="dehumidifier", role="appliance")
    assert words in put_by(9.0, drew)


def test_what_kept_heat_and_is_to_come_off_makes_the_sum_a_least() -> None:
    """Film that is not to stay beside a burner saved heat in the sum; what is off already did not."""
    unsafe = lever("film", "not while that burns here", thing="bubble film")
    (step,) = bought(unsafe)
    assert step.what.startswith("Put by at least EUR")
    assert bought(lever("film", "not while that burns here", on_now=False))[0].what.startswith("Put by EUR")


def idea(line: int, cost: float | None, what: str = "Thermal screen", **more: Any) -> DiaryEntry:
    usual: dict[str, Any] = {
        "line": line,
        "date": D(2026, 1, 12),
        "time": None,
        "kind": "idea",
        "what": what,
        "touches": ("envelope",),
        "reversible": True,
        "hoped_for": ("less heating",),
        "until": None,
        "cost": cost,
        "years": None,
        "written": None,
        "note": "",
    }
    return DiaryEntry(**(usual | more))


def test_an_idea_waits_until_something_was_measured_unless_it_is_for_safety() -> None:
    """EUR 60 of 30 of heat are 200 %, over 8 years 7.50 a year; the dearer first; for safety it is bought before the
    heating begins; without a price, or done, it is none."""
    ideas = (
        idea(2, 60.0, years=8.0),
        idea(3, 90.0, "Smoke alarm", hoped_for=("safer",)),
        idea(4, None),
        idea(5, 60.0, "Fleece"),
    )
    alarm, screen, fleece = bought(diary=(*ideas, idea(6, 99.0, kind="change")), heating=())
    assert alarm.what == "Smoke alarm: buy it" and alarm.to == D(2026, 11, 23) and "%" not in alarm.why
    assert screen.what.endswith(steps_money.NOT_YET) and screen.to == D(2027, 4, 12) and screen.cost == 60.0
    assert f"200{NBSP}%" in screen.why and f"EUR{NBSP}60" in screen.why
    tried = idea(7, 60.0, "thermal  SCREEN", kind="spell", until=D(2026, 1, 20))
    assert bought(diary=(ideas[0], tried), heating=()) == []  # it hung on some nights: it is there
    assert fleece.what.startswith("Fleece") and alarm.from_ == screen.from_ == D(2026, 10, 11)
    unheated = bought(diary=ideas[:1], heating=(), heat={})
    assert "%" not in unheated[0].why and f"EUR{NBSP}7.50 a year" in unheated[0].why


# ---- before the frost


def before(on: Grounds | None = None, when: NextSeason | None = None, **more: Any) -> list[PlanStep]:
    frost: dict[str, Any] = {"alarms": (), "line_c": 0.0, "minimum": Minimum()} | more.pop("frost", {})
    r = winter(frost=SimpleNamespace(**frost), **more)
    return steps_season.before_the_frost(r, grounds() if on is None else on, when or ahead())


def test_the_house_is_ready_in_the_three_weeks_before_the_first_heated_night() -> None:
    """3 to 23 November; where heat begins on the first day, then."""
    (step,) = before(sources=(FAN,))
    assert (step.from_, step.to) == (D(2026, 11, 3), D(2026, 11, 23))
    assert "fan heater" in step.what and "residual-current" in step.what and f"24{NBSP}November" in step.why
    early = before(when=ahead(heated=(D(2026, 10, 11), D(2027, 3, 30))), sources=(FAN,))[0]
    assert early.from_ == early.to == D(2026, 10, 11)
    none = before(when=ahead(heated=None), sources=(FAN,))[0]
    assert none.to == D(2026, 12, 4) and "first cold night" in none.why
    assert "next cold night" in before(when=RUNNING, sources=(FAN,))[0].why


def test_the_main_heater_is_checked_and_the_worst_failure_is_why() -> None:
    """The first main one, else the first; a flue only where it has one; of two failures the graver."""
    rows = [step.what for step in before(sources=(GAS, FAN))]
    assert any("fan heater" in what for what in rows) and not any("flue" in what for what in rows)
    vented = (GAS.model_copy(update={"vented": True}),)
    assert "flue" in before(sources=vented)[0].what
    assert any("test its flame" in step.what for step in before(sources=(GAS,)))
    two = (event(rank=1, start=at("2026-02-01", "22:00"), minimum_c=-3.0), event(rank=0))
    why = before(grounds(events=two), sources=(FAN,))[0].why
    assert f"13{NBSP}January: −1.2{NBSP}°C" in why
    assert "°C" not in before(grounds(events=(event(minimum_c=None),)), sources=(FAN,))[0].why
    assert "stood still" not in before(grounds(events=(event("frost", TOO_COLD),)), sources=(FAN,))[0].why


def test_a_burner_without_a_flue_is_first_of_all() -> None:
    """By the days that its fumes stayed; where it was never lit they would; where nobody told of a flue, that."""
    burnt = (heater([("2026-01-05", "2026-02-01", 11.0, 30.0)], name="gas stove"),)
    fumes = grounds(
        events=(event("safety", "fumes", source="gas stove", days=5), event("safety", "x", source=None, days=2))
    )
    first = before(fumes, sources=(FAN, GAS))[0]
    assert f"5{NBSP}days" in first.why and "carbon monoxide" in first.what.casefold() and first.caution == cautions.FUEL
    assert "stayed inside this" in before(sources=(FAN, GAS), heating=burnt)[0].why
    cold = (heater([("2026-01-05", "2026-02-01", 0.0, 0.0)], name="gas stove"),)
    assert "would stay inside" in before(sources=(FAN, GAS), heating=cold)[0].why
    assert "would stay inside" in before(sources=(FAN, GAS))[0].why
    unsaid = GAS.model_copy(update={"vented": None, "name": "oil lamp"})
    assert "whether the oil lamp has a flue" in before(sources=(FAN, unsaid))[0].why
    assert "gas stove" in before(sources=(unsaid, GAS))[0].why  # the one that is known comes first
    assert not any("monoxide" in step.what for step in before(sources=(FAN,)))


def ring(alarm_c: float, rings: int, needed: int, warning_h: float | None = 2.0) -> Alarm:
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


@pytest.mark.parametrize(
    ("alarms", "set_to"),
    [
        ((ring(3.0, 4, 2), ring(4.0, 2, 2, 1.5)), "3.0"),  # the longest warning; twice as many rings are still heard
        ((ring(3.0, 5, 2), ring(4.0, 2, 2, 1.0)), "4.0"),  # five for two are not; an hour is enough
        ((ring(3.0, 2, 2), ring(4.0, 2, 2)), "3.0"),  # of equal warnings the colder line
        ((ring(3.0, 2, 2, 0.9), ring(4.0, 2, 0), ring(5.0, 2, 2, None)), None),
    ],
)
def test_which_alarm_is_set(alarms: Any, set_to: str | None) -> None:
    """Needed, an hour ahead, at most two rings for each that was needed."""
    found = [step for step in before(frost={"alarms": alarms}, sources=(FAN,)) if "set to" in step.what]
    assert len(found) == (set_to is not None)
    if set_to:
        assert f"{set_to}{NBSP}°C" in found[0].what
    assert not [step for step in before(frost={"alarms": alarms}) if "set to" in step.what]


def test_after_a_failure_the_alarm_is_on_what_failed() -> None:
    """95 minutes: on the heater's power where all heat is electric, at the crop else; unmeasured, the table tells."""
    failed = grounds(events=(event(),))
    power = before(failed, sources=(FAN,), frost={"alarms": (ring(3.0, 2, 2),)})
    assert any("heater's power" in step.what and "95" in step.why for step in power)
    assert not any("set to" in step.what for step in power)
    assert any(step.what.startswith("Alarm at the crop; fleece") for step in before(failed, sources=(FAN, GAS)))
    unmeasured = grounds(events=(event(line_crossed_after_min=None),))
    assert any(
        "set to" in step.what for step in before(unmeasured, sources=(FAN,), frost={"alarms": (ring(3.0, 2, 2),)})
    )


def test_a_house_without_heat_gets_fleece_by_its_coldest_night() -> None:
    """Of two events the colder; without one the coldest moment where it lay under the line; at the line nothing."""
    bare: dict[str, Any] = {"cause": UNHEATED, "line_crossed_after_min": None}
    colder = event("frost", minimum_c=-3.0, at=at("2026-02-02", "05:00"), **bare)
    two = grounds(events=(colder, event("frost", minimum_c=-1.0, **bare)))
    (step,) = before(two)
    assert f"−3.0{NBSP}°C inside on 2{NBSP}February" in step.why and "fleece" in step.what.casefold()

    def low(celsius: float | None) -> list[PlanStep]:
        minimum = Minimum(
            temperature_c=celsius, margin_k=celsius, at=None if celsius is None else at("2026-01-14", "06:00")
        )
        return before(frost={"minimum": minimum})

    assert f"−0.1{NBSP}°C inside on 14{NBSP}January" in low(-0.1)[0].why
    assert low(0.0) == low(None) == []
    assert not any("leece" in step.what for step in before(two, sources=(FAN,)))
    assert before(grounds(events=(event("loss", "slugs", minimum_c=-3.0, line_crossed_after_min=None),))) == []


# ---- sow


def sown(
    *rows: Any, last: dict[str, float] | None = None, harvest: Any = (), latitude: float | None = 50.0
) -> list[PlanStep]:
    r = winter(
        plantings=rows,
        harvest=harvest,
        toml={"place": Place(latitude=latitude)},
        winters=Winters(last=None, rows=(), reasons={}, lost_last=last or {}),
    )
    return steps_season.sow(r, ahead())


def crop(name: str, sown_on: str, **more: Any) -> Any:
    return planting(name, name, sown_on, sown=D.fromisoformat(sown_on), **more)


def test_the_latest_sowing_that_was_picked_before_the_dark_weeks() -> None:
    """Sown on 20 August and picked on 12 October: by 20 August of next year, the fortnight before it. What was picked
    in December was not; of four crops the three that gave most."""
    kale = picking("2025-10-12", 2.0, "kale", bed="kale")
    (step,) = sown(crop("kale", "2025-08-20"), harvest=(kale,))
    assert (step.from_, step.to) == (D(2026, 8, 6), D(2026, 8, 20))
    assert f"Sow kale by 20{NBSP}August" in step.what and f"12{NBSP}October" in step.why and f"2.0{NBSP}kg" in step.why
    assert sown(crop("kale", "2025-08-20"), harvest=(picking("2025-12-12", 2.0, "kale", bed="kale"),)) == []
    assert sown(crop("kale", "2025-08-20")) == []
    names = ("a", "b", "c", "d")
    four = [crop(name, "2025-08-20") for name in names]
    picked = tuple(picking("2025-10-12", float(n + 1), name, bed=name) for n, name in enumerate(names))
    assert [step.what.split()[1] for step in sown(*four, harvest=picked)] == ["d", "c", "b"]


def test_without_a_latitude_the_solstice_divides() -> None:
    """12 December is before it then."""
    late = (picking("2025-12-12", 2.0, "kale", bed="kale"),)
    assert len(sown(crop("kale", "2025-08-20"), harvest=late, latitude=None)) == 1


@pytest.mark.parametrize(
    ("lost", "last", "told"), [(7.0, 0.34, True), (6.0, 0.34, False), (7.0, 1 / 3, False), (7.0, 0.0, False)]
)
def test_what_lost_over_a_third_twice_is_not_sown_so_again(lost: float, last: float, told: bool) -> None:
    """7 of 18 are 39 %, 6 of 18 a third and no more; in both winters, whatever the case of its name; its worst row's
    sowing date and cause."""
    rows = (
        crop("Lettuce", "2025-09-01", lost=lost, plants=18.0, cause="grey mould"),
        crop("Lettuce", "2025-10-01", lost=0.0, plants=9.0),
    )
    found = sown(*rows, last={"lettuce": last}, harvest=(picking("2025-10-12", 2.0, "Lettuce", bed="Lettuce"),))
    warned = [step for step in found if step.what.startswith("No Lettuce")]
    assert bool(warned) == told
    if told:
        assert len(found) == 1  # it is not sown beside
        assert warned[0].to == D(2026, 9, 1) and warned[0].from_ == D(2026, 8, 18)
        assert f"lost 39, last time 34{NBSP}%, to grey mould" in warned[0].why
