"""The plan by rows: each rule shown the season it must fire on, and the one on which it must not."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

import pandas as pd
import pytest
from counsel import hand
from counsel.grounded import FAN, GAS, at, event, grounds, hold, humid, lever, side, winter
from counsel.sentences import faults
from made_season import channel, heater, logger, picking, planting, season

from reportgen.counsel.brief import words_in
from reportgen.counsel.grounds import Ends, Grounds, PlanStep
from reportgen.counsel.next_season import a_year_on, next_season
from reportgen.counsel.results import Results
from reportgen.counsel.steps import steps
from reportgen.counsel.steps_try import trials
from reportgen.effects.trial import tryables
from reportgen.effects.types import Changes, Tryable
from reportgen.readings.types import DiaryEntry
from reportgen.winters.types import Winters

D = dt.date
HEATED = heater([("2025-11-24", "2025-11-25", 10.0, 3.0), ("2026-03-30", "2026-03-31", 90.0, 27.0)])


def of_row(row: str, r: Results, on: Grounds) -> list[PlanStep]:
    """The steps of one row."""
    return [step for step in steps(r, on) if step.row == row]


def could(what: str, outcome: str = "night_humidity", line: int = 3, **more: Any) -> Tryable:
    """What switching on and off could answer."""
    usual: dict[str, Any] = {
        "thing": None, "idea": False, "touches": ("air",), "hopes": ("drier air",), "hoped_for": "drier air",
        "visible": 3.0, "visible_unit": "%", "visible_now": 6.0,
    }  # fmt: skip
    return Tryable(line=line, what=what, outcome=outcome, **(usual | more))


def nights(low: dict[str, float], first: str = "2025-10-11", last: str = "2026-04-11") -> dict[str, Any]:
    """A frost section whose nights are at 5 °C outdoors but for those named."""
    days = pd.date_range(first, last)
    table = pd.DataFrame({"outdoor_min": 5.0, "inside_min": 8.0}, index=pd.Index(days.date, name="date"))
    for day, celsius in low.items():
        table.loc[D.fromisoformat(day), "outdoor_min"] = celsius
    return {"table": table}


def with_frost(r: Results, section: dict[str, Any]) -> Results:
    """Results whose frost section has attributes, as the real one."""
    section = {"holding_limit": None, "alarms": (), **section}
    r.frost = type("Frost", (), section)()  # type: ignore[misc, assignment]  # made by hand, not frozen
    return r


# ------------------------------------------------------------------------------------------------ keep and undo


def test_what_helped_is_up_before_the_first_heated_night_and_down_after_the_last_frost() -> None:
    """First heat 24 November 2025, so up a week before that day of 2026; the last night under 0 °C was 2 April, so it
    comes down on the third; its price of light is the reason for that."""
    film = lever("Bubble film inside the roof", thing="bubble film", price=(side("daily_light", -15.0, -9.0),))
    r = with_frost(winter(sources=(FAN,), heating=(HEATED,)), nights({"2026-04-02": -1.0, "2026-01-10": -12.0}))
    (kept,) = of_row("Keep", r, grounds(film))
    assert kept.from_ == D(2026, 11, 17) and kept.to == D(2027, 4, 3)
    assert kept.what == "Bubble film up before the first heated night"
    assert "27 to 43\u00a0% less heat for each degree" in kept.why and "9 to 15\u00a0% less light" in kept.why
    assert kept.lever == film.name and kept.caution is None


def test_in_a_house_in_which_something_burns_the_envelope_has_its_caution() -> None:
    """Never seal a space in which something burns; a lever unsafe with the stove has that of carbon monoxide too."""
    plain, unsafe = lever("Film"), lever("Film", unsafe_with=("gas stove",))
    for film, word in ((plain, "Never seal"), (unsafe, "carbon monoxide")):
        (kept,) = of_row("Keep", winter(sources=(FAN, GAS)), grounds(film))
        assert kept.caution and word in kept.caution
    (electric,) = of_row("Keep", winter(sources=(FAN,)), grounds(plain))
    assert electric.caution is None


def test_undo_names_what_replaces_it_and_the_unsafe_stands_first() -> None:
    """A tape left off is told the other way round: without it the air was drier."""
    tape = lever("Vent tape", "leave undone", on_now=False, undone_in_season=True, **humid(0.0, 6.0))
    stove = lever("Gas stove lit", "not again", touches=("heater",), unsafe_with=("gas stove",), effect=None, low=None,
                  high=None, relative=None)  # fmt: skip
    first, second = of_row("Undo", winter(sources=(FAN, GAS)), grounds(tape, stove))
    assert first.lever == "Gas stove lit" and "electric heat instead" in first.what
    assert first.caution and "carbon monoxide" in first.caution
    assert second.what == "Vent tape off; air by day"
    assert "0 to 6\u00a0points drier" in second.why


def test_without_another_heater_a_stove_is_replaced_by_hardy_crops() -> None:
    """Nothing else heats: grow hardy crops only."""
    stove = lever("Stove", "not again", touches=("heater",), unsafe_with=("gas stove",), low=None, high=None,
                  relative=None)  # fmt: skip
    (told,) = of_row("Undo", winter(sources=(GAS,)), grounds(stove))
    assert "grow hardy crops only" in told.what


@pytest.mark.parametrize("on_now", [True, False])
def test_what_is_not_worth_it_is_undone_only_where_it_is_there_and_costs(on_now: bool) -> None:
    """Idle and free: left as it is."""
    dear = lever(
        "Lamp hood", "not worth it", on_now=on_now, price=(side("daily_light", -30.0, -20.0, beyond_care=True),)
    )
    idle = lever("Bricks", "not worth it", on_now=True)
    told = of_row("Undo", winter(), grounds(dear, idle))
    assert [step.lever for step in told] == (["Lamp hood"] if on_now else [])


def test_a_verdict_has_no_row_that_speaks_against_it() -> None:
    """Cannot tell, not judged, try: neither kept nor undone."""
    silent = [lever(name, name) for name in ("cannot tell", "not judged", "try on and off", "change once")]  # type: ignore[arg-type]
    told = steps(winter(), grounds(*silent))
    assert not [step for step in told if step.row in ("Keep", "Undo")]


# --------------------------------------------------------------------------------------------------------- try


def tried(r: Results, on: Grounds, *able: Tryable) -> list[PlanStep]:
    """Row Try of a season in which these could be tried."""
    object.__setattr__(r, "effects", Changes(changes=(), could_try=able))
    return of_row("Try", r, on)


def dry(name: str = "Fan at night", **more: Any) -> Any:
    """A lever on humidity that wants a trial."""
    return lever(name, "try on and off", **(humid(-6.0, 1.0) | more))


def test_a_trial_is_four_weeks_in_blocks_of_three_or_four_nights() -> None:
    """28 nights, each state for three or four in a row; the lever's name stands with it."""
    (told,) = tried(winter(), grounds(dry()), could("Fan at night"))
    assert len(told.nights) == 28 and (told.to - told.from_).days == 27
    runs = "".join("1" if on else "0" for _, on in told.nights).replace("10", "1 0").replace("01", "0 1").split()
    assert {len(run) for run in runs} == {3, 4}
    assert told.lever == "Fan at night"


def test_damp_is_tried_in_the_damp_months_and_cold_in_the_cold() -> None:
    """Damp nights in November, cold ones in February: each trial lies in its own weeks."""
    r = with_frost(winter(sources=(FAN,), heating=(HEATED,)), nights({f"2026-02-{n:02d}": -9.0 for n in range(1, 29)}))
    damp = pd.DataFrame({"above_high": 0.0}, index=r.frost.table.index)
    damp.loc[[d for d in damp.index if d.month == 11], "above_high"] = 9.0
    r.damp = type("Damp", (), {"table": damp})()  # type: ignore[misc, assignment]
    wet = dry()
    warm = lever("Fleece", "try on and off", lines=(5,), outcome="lift", unit="K", low=-0.2, high=1.5, relative=None)
    both = (could("Fan at night"), could("Fleece", "lift", 5, touches=("light",), hopes=("warmer nights",)))
    known = dataclasses.replace(grounds(wet, warm), hold_advice=hold())
    r.frost.holding_limit = type("Limit", (), {"outdoor_c": -8.0})()
    told = {step.lever: step for step in tried(r, known, *both)}
    assert told["Fan at night"].from_.month == 11
    assert told["Fleece"].from_ == D(2027, 2, 1)


def test_at_most_two_trials_ten_free_nights_apart() -> None:
    """Three levers want one; two get one."""
    three = [dry(f"Lever {n}", lines=(n,)) for n in (3, 4, 5)]
    told = tried(winter(), grounds(*three), *(could(f"Lever {n}", line=n) for n in (3, 4, 5)))
    assert [step.lever for step in told] == ["Lever 3", "Lever 4"]
    assert (told[1].from_ - told[0].to).days > 10


def test_nothing_is_tried_while_nobody_is_there() -> None:
    """Away over Christmas this winter: no night of a trial lies on those dates of the next."""
    away = DiaryEntry(line=2, date=D(2025, 12, 20), time=None, kind="away", what="Family", touches=(), reversible=None,
                      hoped_for=(), until=D(2026, 1, 6), cost=None, years=None, written=None, note="")  # fmt: skip
    two = [dry(f"Lever {n}", lines=(n,)) for n in (3, 4)]
    told = tried(winter(diary=(away,)), grounds(*two), *(could(f"Lever {n}", line=n) for n in (3, 4)))
    assert len(told) == 2
    assert not [night for s in told for night, _ in s.nights if D(2026, 12, 20) <= night <= D(2027, 1, 6)]


def test_the_coldest_three_weeks_are_left_alone_while_a_limit_is_unknown() -> None:
    """Coldest from 1 to 21 February: a lever judged on cold nights is tried elsewhere until every limit is known."""
    cold = {f"2026-02-{n:02d}": -9.0 for n in range(1, 22)}
    warm = lever("Fleece", "try on and off", outcome="lift", unit="K", low=-0.2, high=1.5, relative=None)
    able = could("Fleece", "lift", touches=("light",))
    for limit, overlaps in ((None, False), (type("Limit", (), {"outdoor_c": -8.0})(), True)):
        r = with_frost(winter(), nights(cold) | {"holding_limit": limit})
        (told,) = tried(r, grounds(warm), able)
        assert (told.from_ <= D(2027, 2, 21) and told.to >= D(2027, 2, 1)) is overlaps
    r = with_frost(winter(), nights(cold) | {"holding_limit": limit})
    (told,) = tried(r, grounds(warm, hold_advice=hold(unknown_crops=("parsley",))), able)
    assert told.to < D(2027, 2, 1) or told.from_ > D(2027, 2, 21)


def test_heat_is_tried_only_where_it_is_logged_by_the_day_and_given() -> None:
    """Heat from 24 November to 31 March, a bottle from 1 December to 8 February: no four weeks are left before it,
    so it is tried after it."""
    bottle = heater([("2025-12-01", "2026-02-08", 200.0, 60.0)], name="gas stove", fuel="propane")
    daily = [
        (f"{d:%Y-%m-%d}", f"{d + pd.Timedelta('1D'):%Y-%m-%d}", 5.0, 1.5)
        for d in pd.date_range("2025-11-24", "2026-03-30")
    ]
    film = lever("Curtain", "try on and off")
    r = winter(sources=(FAN,), heating=(heater(daily), bottle))
    (told,) = tried(r, grounds(film), could("Curtain", "watts_per_kelvin", touches=("light",)))
    assert told.from_ > D(2027, 2, 8)
    assert D(2026, 11, 24) <= told.from_ and told.to <= D(2027, 3, 31)


@pytest.mark.parametrize("touches", ["water", "bed", "thermostat", "heater"])
def test_what_carries_over_or_is_the_last_heat_is_never_switched(touches: str) -> None:
    """Water, bed, dial, heater: no trial, whoever asks for one."""
    asked = dry("Lever", touches=(touches,))
    assert tried(winter(), grounds(asked), could("Lever", touches=(touches,))) == []
    assert tried(winter(), grounds(), could("Idea", idea=True, touches=(touches,))) == []


def test_a_house_with_an_unvented_burner_is_not_tightened_nor_its_vents_switched() -> None:
    """A curtain and vents with a gas stove inside: none; with electric heat the curtain is tried."""
    curtain = could("Curtain", "watts_per_kelvin", idea=True, touches=("envelope",), hopes=("less heating",))
    vents = could("Vents closed at night", idea=True, touches=("air",))
    assert tried(winter(sources=(FAN, GAS)), grounds(), curtain, vents) == []
    assert [step.what for step in tried(winter(sources=(FAN,)), grounds(), curtain)] == ["Curtain on and off, by ticks"]
    unsafe = dry(unsafe_with=("gas stove",))
    assert tried(winter(sources=(FAN, GAS)), grounds(unsafe), could("Fan at night")) == []


def test_an_idea_that_a_judged_lever_answers_is_not_tried() -> None:
    """The same thing has its verdict; so has another of its kind: a second curtain says what the first said."""
    first = lever("Roof curtain", "keep")
    second = could("Door curtain", "watts_per_kelvin", idea=True, touches=("envelope",))
    same = could("roof  CURTAIN", "watts_per_kelvin", idea=True, touches=("envelope",))
    assert tried(winter(sources=(FAN,)), grounds(first), second, same) == []
    assert len(tried(winter(sources=(FAN,)), grounds(), second)) == 1


def test_what_cannot_be_switched_is_changed_once_midway_with_three_quiet_weeks() -> None:
    """42 nights, at most two trials with it."""
    water = lever("Half the water", "change once", **humid(-6.0, 1.0, touches=("water",)))
    (told,) = tried(winter(), grounds(water))
    assert not told.nights and (told.to - told.from_).days == 41
    assert "once" in told.what and "three quiet weeks" in told.why


def test_what_care_rules_out_is_not_tried() -> None:
    """At most a point drier where three would matter: neither a trial nor a change; at most six: tried."""
    for low, n in ((-1.0, 0), (-6.0, 1)):
        told = hand.outcome("night_humidity", -0.5, low, 1.0, declared=True)
        change = hand.change("Fan at night", told, verdict="cannot tell", care=3.0)
        r = winter()
        object.__setattr__(r, "effects", Changes(changes=(change,), could_try=(could("Fan at night"),)))
        assert len(of_row("Try", r, grounds(dry(low=low, high=1.0)))) == n
        assert len(of_row("Try", r, grounds(lever("Water", "change once", **humid(low, 1.0, touches=("water",)))))) == n


def test_a_short_season_has_no_trial() -> None:
    """Ten weeks hold four weeks of trial and three on either side; nine do not."""
    for last, n in (("2025-12-19", 1), ("2025-12-12", 0)):
        r = hand.results(season("2025-10-11", last))
        assert len(tried(r, grounds(dry()), could("Fan at night"))) == n


def test_the_dated_trials_are_those_of_the_plan() -> None:
    """One truth: the tick sheets on the page of changes have the nights of the plan's rows."""
    r, on = winter(), grounds(dry())
    (told,) = tried(r, on, could("Fan at night"))
    (trial,) = trials(r, on)
    assert tuple((night.night, night.on) for night in trial.nights) == told.nights


def test_what_a_trial_could_answer_is_found_in_the_diary() -> None:
    """A reversible change with a hope that a logger can judge, and an idea; not what cannot be undone."""
    change = hand.change("Fan", hand.outcome("night_humidity", -2.0, -5.0, 1.0, declared=True), verdict="cannot tell",
                         touches=("air",), hoped_for=("drier air",), reversible=True)  # fmt: skip
    fixed = dataclasses.replace(change, what="Paint", line=4, reversible=False)
    found, without = tryables((change, fixed), (), False)
    assert [one.what for one in found] == ["Fan"]
    assert without == {"Paint": "it cannot be undone"}


# ------------------------------------------------------------------------------------- before the frost, sow


def test_a_house_that_failed_is_made_ready_with_its_own_figures() -> None:
    """The heater cleared, with the night it stood still; an alarm on its power, with the minutes that were left."""
    r = winter(sources=(FAN,), heating=(HEATED,))
    told = of_row("Before the frost", r, grounds(events=(event(),)))
    assert [step.what for step in told] == [
        "Clear round the fan heater; test residual-current switch",
        "Alarm on the heater's power; fleece at dusk",
    ]
    assert "13\u00a0January: −1.2\u00a0°C" in told[0].why and "95\u00a0minutes" in told[1].why
    assert told[0].from_ == D(2026, 11, 3) and told[0].to == D(2026, 11, 23)
    assert all(step.caution for step in told)


def test_an_unvented_burner_stands_first_with_its_alarm() -> None:
    """Carbon monoxide before any plant."""
    safety = event("safety", "lit in a taped house", days=10, source="gas stove", minimum_c=None, crops=())
    told = of_row("Before the frost", winter(sources=(FAN, GAS)), grounds(events=(safety,)))
    assert told[0].what.startswith("Carbon monoxide alarm hung and tested") and "10\u00a0days" in told[0].why
    assert told[0].caution and "carbon monoxide" in told[0].caution


def test_a_house_without_a_heater_is_told_of_no_heater() -> None:
    """Fleece, where it froze; nothing where it did not."""
    cold = event("frost", "unheated", line_crossed_after_min=None)
    (told,) = of_row("Before the frost", winter(), grounds(events=(cold,)))
    assert "fleece ready" in told.what and "−1.2" in told.why  # by then, and not only until then
    assert of_row("Before the frost", winter(), grounds()) == []


def test_the_latest_sowing_picked_before_the_dark_weeks_is_named() -> None:
    """At 48.6° north days fall under ten hours on 5 November or so: spinach sown on 5 September was picked before,
    a second sowing of the twentieth was not."""
    plants = (
        planting("spinach", "a", "2025-09-05", sown=D(2025, 9, 5), cleared="2025-12-01"),
        planting("spinach", "b", "2025-09-20", sown=D(2025, 9, 20)),
    )
    picked = (picking("2025-10-20", 2.0, bed="a"), picking("2026-01-20", 1.0, bed="b"))
    r = winter(toml={"place": {"latitude": 48.6, "longitude": 18.0}}, plantings=plants, harvest=picked)
    (told,) = of_row("Sow", r, grounds())
    assert told.what == "Sow spinach by 5\u00a0September" and told.to == D(2026, 9, 5)
    assert "20\u00a0October" in told.why and "2.0\u00a0kg" in told.why


def test_a_crop_that_lost_over_a_third_two_winters_running_is_named_and_not_sown_again() -> None:
    """9 of 24 and 13 of 24 are 38 and 54 %; 7 of 24 last time would not be over a third."""
    lost = planting("lettuce", "a", "2025-09-24", sown=D(2025, 8, 28), plants=24.0, lost=9.0, cause="grey mould")
    picked = (picking("2025-10-20", 2.0, "lettuce", bed="a"),)
    for before, n in ((13 / 24, 1), (7 / 24, 0)):
        last = Winters(last="w", rows=(), reasons={}, lost_last={"Lettuce": before})
        told = of_row("Sow", winter(plantings=(lost,), harvest=picked, winters=last), grounds())
        assert len([s for s in told if s.what.startswith("No lettuce")]) == n
        assert len([s for s in told if s.what.startswith("Sow lettuce")]) == 1 - n
    assert not [s for s in told if "Sow lettuce" in s.what and "No lettuce" in s.what]


# --------------------------------------------------------------------------------------------- buy and log


BOOKS: dict[str, Any] = {"harvest": (picking("2026-01-06", 5.0),), "heating": (HEATED,)}
PRICED = {"hold_found_c": 8.0, "price_of_degree": hand.PRICE_OF_DEGREE, "cost": 30.0}


def test_the_sum_to_put_by_is_at_next_prices_and_for_the_house_as_it_now_is() -> None:
    """100 kWh at 0.40 are 40.00; a film that spares 20 to 40 kWh a winter and spared 10 to 20 of it already leaves
    80 to 90 kWh: 32 to 36. A winter 2 K colder takes 140 in place of 100 kWh, so 16 more."""
    (plain,) = of_row("Buy or put by", winter(sources=(FAN,), heat=PRICED, **BOOKS), grounds())
    assert "EUR\u00a040" in plain.what and plain.cost == pytest.approx(40.0)
    assert "100\u00a0kWh at next prices" in plain.why and "adds EUR\u00a016" in plain.why
    film = lever("Film", winter_kwh=Ends(low=20.0, high=40.0), spared_kwh=Ends(low=10.0, high=20.0))
    (now,) = of_row("Buy or put by", winter(sources=(FAN,), heat=PRICED, **BOOKS), grounds(film))
    assert "EUR\u00a032 to 36" in now.what and "80 to 90\u00a0kWh" in now.why and "film all" in now.why


def idea(cost: float | None = 120.0, **more: Any) -> DiaryEntry:
    usual: dict[str, Any] = {
        "line": 9, "date": D(2026, 1, 20), "time": None, "kind": "idea", "what": "A second heater",
        "touches": ("heater",), "reversible": True, "hoped_for": ("warmer nights",), "until": None, "years": 8.0,
        "written": None, "note": "",
    }  # fmt: skip
    return DiaryEntry(cost=cost, **(usual | more))


def test_an_idea_with_a_price_waits_but_what_is_for_safety() -> None:
    """120.00 are four times a heat bill of 30.00; one without a price is left out; an alarm is bought."""
    (told,) = [s for s in steps(winter(diary=(idea(),), heat={"cost": 30.0}), grounds()) if s.row == "Buy or put by"]
    assert told.what == "A second heater: do not buy yet" and "400\u00a0%" in told.why
    assert told.cost == 120.0 and told.caution
    assert not [s for s in steps(winter(diary=(idea(None),)), grounds()) if s.row == "Buy or put by"]
    alarm = idea(34.0, what="Alarm for carbon monoxide", touches=(), hoped_for=("safer",))
    (bought,) = [s for s in steps(winter(diary=(alarm,)), grounds()) if s.row == "Buy or put by"]
    assert bought.what == "Alarm for carbon monoxide: buy it"


def test_what_was_missing_is_logged_and_what_was_there_is_not() -> None:
    """An empty season is asked for three things; one with loggers and books for none."""
    assert len(of_row("Log", winter(), grounds())) == 3
    index = pd.date_range("2026-01-05", periods=3, freq="1h", tz="Europe/Prague")
    channels = tuple(
        channel(pd.Series(1.0, index), measure, name, where=where, accuracy=0.5)
        for measure, name, where in (
            ("air_temperature", "out", "outdoor"), ("soil_temperature", "bed", "crop"), ("air_temperature", "b", "crop")
        )
    )  # fmt: skip
    named = tuple(logger(c.logger, c.measure, where=c.where) for c in channels)
    full = winter(toml={"loggers": named}, channels=channels, diary=(), plantings=(), harvest=())
    assert of_row("Log", full, grounds()) == []


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("bench", "How far the logger “bench” may be off"),
        ("The long south bench behind the pear wall", "How far “The long south…” may be off"),
        ("Temperaturfühler Nordwestgiebel unter dem Fenster", "How far “Temperaturfühler Nordwestgiebel…” may be off"),
    ],
)
def test_a_long_name_of_a_logger_ends_at_a_word(name: str, what: str) -> None:
    """Eight words; none is broken off."""
    index = pd.date_range("2026-01-05", periods=3, freq="1h", tz="Europe/Prague")
    one = channel(pd.Series(1.0, index), "air_temperature", name, accuracy=None)
    told = [step.what for step in of_row("Log", winter(channels=(one,)), grounds())]
    assert [text for text in told if text.startswith("How far")] == [what]


def test_a_lever_that_a_column_would_have_told_is_named_beside_that_column() -> None:
    """No humidity was logged: a line for it, with the lever that could not be judged."""
    refused = hand.outcome("night_humidity", float("nan"), float("nan"), float("nan"), declared=True,
                           refused="no humidity was logged beside the crop", answerable="a logger for it")  # fmt: skip
    change = hand.change("Fan at night", refused, verdict="cannot tell")
    r = winter(effects=Changes(changes=(change,)))
    told = of_row("Log", r, grounds(lever("Fan at night", "cannot tell")))
    assert told[0].what == "Humidity beside the crop" and "“Fan at night”" in told[0].why


def test_a_crop_without_a_known_limit_is_asked_about() -> None:
    """What it met and stood is the limit that no table has."""
    told = of_row("Log", winter(), grounds(hold_advice=hold(unknown_crops=("parsley", "rocket"))))
    assert "parsley and rocket" in told[0].what and "2\u00a0crops" in told[0].why


# ------------------------------------------------------------------------------------------------ the whole


def test_there_are_at_most_ten_three_of_a_kind_and_each_kind_has_its_first() -> None:
    """Six levers to keep, six to undo: three of each at most, ten in all, and the log is not crowded out."""
    many = [lever(f"Keep {n}") for n in range(6)] + [lever(f"Undo {n}", "leave undone") for n in range(6)]
    told = steps(winter(sources=(FAN, GAS), heating=(HEATED,)), grounds(*many, events=(event(),)))
    rows = [step.row for step in told]
    assert len(told) == 10 and max(rows.count(row) for row in set(rows)) <= 3
    assert {"Before the frost", "Keep", "Undo", "Log"} <= set(rows)


@pytest.mark.parametrize("name", ["x" * 80, "A row of very long words about a film put inside the roof and the sides"])
def test_long_names_stay_within_the_words(name: str) -> None:
    """Eight words of what, twelve of why, whatever a lever is called."""
    levers = [lever(name, v) for v in ("keep", "leave undone", "not again", "change once", "not while that burns here")]  # type: ignore[arg-type]
    named = [dataclasses.replace(one, unsafe_with=(name,)) for one in levers[1:]]
    told = steps(winter(sources=(FAN, GAS), heating=(HEATED,)), grounds(*levers, *named, events=(event(),)))
    assert [s.what for s in told if words_in(s.what) > 8 or len(s.what) > 90] == []
    assert [s.why for s in told if words_in(s.why) > 12] == []


def test_the_day_after_a_year_of_a_leap_day_is_the_twenty_eighth() -> None:
    """29 February has no like in a common year."""
    assert a_year_on(D(2028, 2, 29)) == D(2029, 2, 28)


def test_a_southern_season_is_planned_by_its_own_dates() -> None:
    """May to September of one year is May to September of the next, the house made ready before its own first heat."""
    r = hand.results(
        season("2026-05-01", "2026-09-30", heating=(FAN,)),
        heating=(heater([("2026-06-10", "2026-06-11", 10.0, 3.0), ("2026-08-01", "2026-08-02", 10.0, 3.0)]),),
    )
    ahead = next_season(r)
    assert (ahead.first, ahead.last, ahead.heated) == (D(2027, 5, 1), D(2027, 9, 30), (D(2027, 6, 10), D(2027, 8, 1)))
    assert {(s.from_, s.to) for s in of_row("Before the frost", r, grounds())} == {(D(2027, 5, 20), D(2027, 6, 9))}


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_line_may_stand(show: str) -> None:
    """What, why and caution of every row pass the rules of wording in both ways of printing."""
    film = lever("Film", price=(side("daily_light", -15.0, -9.0),))
    tape = lever("Tape", "leave undone", lines=(4,), **humid(0.0, 6.0))
    r = winter(
        of=season("2025-10-11", "2026-04-12", show=show, heating=(FAN, GAS)), heat=PRICED, diary=(idea(),), **BOOKS
    )
    told = steps(r, grounds(film, tape, events=(event(),)))
    words = [text for s in told for text in (s.what, s.why, s.caution) if text]
    assert {text: faults(text) for text in words if faults(text)} == {}
    if show == "us":
        assert not [text for text in words if "°C" in text]


def test_the_first_heated_night_is_not_a_plug_that_woke() -> None:
    """0.02 kWh on 1 November is no heat; 10 kWh on the 24th are."""
    woke = heater([("2025-11-01", "2025-11-02", 0.02, 0.0), ("2025-11-24", "2025-11-25", 10.0, 3.0)])
    assert next_season(winter(sources=(FAN,), heating=(woke,))).heated == (D(2026, 11, 24), D(2026, 11, 24))
    assert at("2025-11-24").tzinfo is not None
