"""The words of answers and first things: which word each ground allows, and its numbers by hand."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
from counsel.grounded import FAN, GAS, balance, event, grounds, hold, humid, lever, side, winter
from counsel.hand import PRICE_OF_DEGREE, change
from made_season import heater, planting

from reportgen.counsel import answers_lever, answers_topics, first, said_events, surely
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    TOO_COLD,
    UNHEATED,
    Answer,
    BalanceWeek,
    CropMet,
    Ends,
    Event,
    Grounds,
    JudgedLever,
)
from reportgen.effects.types import Changes
from reportgen.readings.lever_types import Asked
from reportgen.readings.types import DiaryEntry
from reportgen.wording import Wording

NBSP = "\u00a0"
EURO = Wording(us=False, currency="EUR")
BURNT = (heater([("2026-01-05", "2026-02-01", 100.0, 30.0)]),)


def topic(name: str, on: Grounds | None = None, **more: Any) -> Answer:
    on = grounds() if on is None else on
    return answers_topics.about_topic("?", name, Facts.of(winter(**more), on), on)


def room(**more: Any) -> Any:
    return hold(
        **(
            {"down_by_k": 2.0, "usually_c": 3.5, "coldest_c": 2.8, "nights": 41, "crop": "pak choi", "reason": None}
            | more
        )
    )


# ---- the hold


@pytest.mark.parametrize(
    ("advice", "word", "sure"),
    [
        (room(), f"Yes, by 2.0{NBSP}K", True),
        (room(down_by_k=0.0), "No", True),
        (room(down_by_k=-1.0), "No", True),
        (room(unknown_crops=("rocket",)), "Perhaps", True),
        (room(down_by_k=0.0, unknown_crops=("rocket",)), "No", True),
        (room(down_by_k=None, unknown_crops=("rocket",)), "Perhaps", False),
        (room(down_by_k=None), "Cannot tell", False),
    ],
)
def test_the_word_on_holding_it_cooler(advice: Any, word: str, sure: bool) -> None:
    """Yes by so much, No without room, Perhaps where a crop's limit is open; sure of 41 nights only with a number."""
    found = answers_topics.hold_word(advice, EURO)
    assert found[0] == word and found[1].startswith("Nine in ten: the coldest of 41") == sure and bool(found[1]) == sure


def test_what_keeps_the_hold_where_it_is() -> None:
    """Down with its nights; a shortfall; a reason, unless it is the crops that are named anyway."""
    told = answers_topics.hold_words(room(), EURO)
    for words in (f"2.0{NBSP}K down for pak choi", f"usually 3.5{NBSP}°C", f"coldest 2.8{NBSP}°C of 41{NBSP}nights"):
        assert words in told
    assert "for" not in answers_topics.hold_words(room(crop=None), EURO)
    assert f"1.2{NBSP}K short" in answers_topics.hold_words(room(down_by_k=0.0, short_by_k=1.2), EURO)
    for more in ({"down_by_k": None}, {"down_by_k": 0.0}, {"usually_c": None}, {"coldest_c": None}):
        assert answers_topics.hold_words(room(reason="why", **more), EURO) == "why"
        assert answers_topics.hold_words(room(reason="why", unknown_crops=("rocket",), **more), EURO) == ""
        assert answers_topics.hold_words(room(**more), EURO) == ""


def spares(on: Grounds, currency: bool = True, rows: Any = PRICE_OF_DEGREE) -> str:
    r = winter(heat={"hold_found_c": 8.0, "price_of_degree": rows}, heating=BURNT, sources=(FAN,))
    found = Facts.of(r, on)
    of = Facts(r=found.r, w=Wording(us=False, currency="EUR" if currency else ""), there=found.there, on=on)
    return answers_topics.spares_words(of, on)


def test_what_it_spares_is_told_with_the_levers_that_are_up() -> None:
    """EUR 8 to 11 with the film; else less than 28 % of EUR 30 (EUR 8.40) a degree; neither, nothing."""
    film = lever("film", thing="bubble film")
    others = (lever("a", on_now=False), lever("b", saves_heat=False), lever("c", "not worth it"))
    known = room(saves_money=Ends(low=8.0, high=11.0))
    assert spares(grounds(film, *others, hold_advice=known)) == f"spares EUR{NBSP}8 to 11 with the bubble film up"
    assert spares(grounds(*others, hold_advice=known)) == f"spares EUR{NBSP}8 to 11"
    assert spares(grounds(lever("d", "keep with a condition", thing="door seal"), hold_advice=known)).endswith(
        "door seal up"
    )
    dial = lever("e", thing="thermostat", touches=("thermostat",))
    assert spares(grounds(dial, hold_advice=known)) == f"spares EUR{NBSP}8 to 11"  # it is the dial that is asked about
    assert spares(grounds(hold_advice=room())) == f"a degree down spares less than EUR{NBSP}8"
    assert (
        spares(grounds(hold_advice=room(down_by_k=0.0))) == "" and spares(grounds(hold_advice=room()), rows=None) == ""
    )
    assert spares(grounds(hold_advice=known), currency=False) == ""


def test_the_answer_on_the_hold() -> None:
    """With its caution, the crops without a limit and the failure beside; without a heater or a number no caution."""
    found = topic("hold", grounds(hold_advice=room(unknown_crops=("rocket", "rocket", "pea"))), sources=(FAN,))
    assert found.answer == "Perhaps" and "rocket and pea have no known limit" in found.why and found.caution
    one = topic("hold", grounds(hold_advice=room(unknown_crops=("rocket",)), events=(event(),)), sources=(FAN,))
    assert "rocket has no known limit" in one.why
    assert "proves nothing" in topic("hold", grounds(hold_advice=room(), events=(event(),)), sources=(FAN,)).why
    assert (
        "proves nothing"
        not in topic("hold", grounds(hold_advice=room(), events=(event("frost", TOO_COLD),)), sources=(FAN,)).why
    )
    none = topic("hold", grounds(hold_advice=room(down_by_k=None, reason=None)), sources=(FAN,))
    assert (none.answer, none.caution, none.why) == ("Cannot tell", None, "Nothing was heated")
    assert topic("hold", grounds(hold_advice=room())).caution is None


# ---- frost, damp, money, light, soil


@pytest.mark.parametrize(("number", "words"), [(1, "once"), (2, "twice"), (3, "3 times")])
def test_how_often_frost_came_in(number: int, words: str) -> None:
    """Frosts and failures together; losses and fumes are not counted."""
    events = [event()] * (number - 1) + [event("frost", UNHEATED), event("loss", "slugs"), event("safety", "fumes")]
    found = topic("frost", grounds(events=tuple(events)))
    assert found.answer == f"Frost came in {words}" and f"7{NBSP}pak choi" in found.why
    assert "nothing was lost" in topic("frost", grounds(events=(event(crops=()),))).why


def test_how_long_the_crop_had_is_told_where_it_was_measured() -> None:
    """49 minutes by the diary's own time; nothing of it where none is known."""
    out = event("frost", HEAT_OUT, line_crossed_after_min=49.0)
    assert f"crossed after 49{NBSP}minutes" in topic("frost", grounds(events=(out,))).why
    unknown = event("frost", UNHEATED, line_crossed_after_min=None)
    assert "crossed" not in topic("frost", grounds(events=(unknown,))).why


@pytest.mark.parametrize(("asked", "told"), [(1650.0, True), (800.0, False), (None, False)])
def test_a_heater_that_could_not_is_told_with_what_was_asked_of_it(asked: float | None, told: bool) -> None:
    """850 W of 1 650; none where it was large enough or the hours cannot tell."""
    cold = event("frost", TOO_COLD, line_crossed_after_min=None)
    small = FAN.model_copy(update={"rated_power_w": 850.0, "efficiency": 1.0})
    heat = {"heater_needed_w": {"coldest_hour": asked}}
    why = topic("frost", grounds(events=(cold,)), sources=(small,), heat=heat).why
    assert (f"gives 850 of the 1\u202f650{NBSP}W asked" in why) is told and f"7{NBSP}pak choi" in why


def test_without_an_event_the_coldest_tells() -> None:
    """No air: cannot tell; hours of frost unwatched: cannot tell; else no, never colder than."""
    assert topic("frost").answer == "Cannot tell"
    low = {"minimum": {"temperature_c": 3.2}}
    assert topic("frost", frost=low).answer == "No" and f"3.2{NBSP}°C" in topic("frost", frost=low).why
    blind = topic("frost", frost=low | {"unrecorded_cold_hours": 5.0})
    assert blind.answer == "Cannot tell" and f"5{NBSP}h" in blind.why and f"3.2{NBSP}°C" in blind.why
    assert topic("frost", frost=low | {"unrecorded_cold_hours": 0.0}).answer == "No"
    without = event("frost", minimum_c=None)
    assert topic("frost", grounds(events=(without,)), frost=low).answer == "No"


def test_damp_is_answered_by_its_share() -> None:
    """1104 of 4416 h are 25 %, 1000 to 1200 by the sensor; what mould took stands beside it."""
    hours = {"estimate": 1104.0, "low": 1000.0, "high": 1200.0}
    damp: dict[str, Any] = {"hours_above_high": hours, "hours_recorded": 4416.0, "high_pct": 85.0}
    mould = event("loss", "Grey mould", crops=(CropMet(crop="lettuce", bed=None, coldest_c=None, lost=9.0, cause="x"),))
    found = topic("damp", grounds(events=(mould, event())), damp=damp)
    assert found.answer == f"25{NBSP}% of hours" and f"9{NBSP}lettuce" in found.why and "pak choi" not in found.why
    for words in (f"1\u202f104{NBSP}h of 4\u202f416 above 85{NBSP}%", f"between 1\u202f000 and 1\u202f200{NBSP}h"):
        assert words in found.why
    for end in ("low", "high"):
        assert "between" not in topic("damp", damp=damp | {"hours_above_high": hours | {end: None}}).why
    assert topic("damp").answer == topic("damp", damp=damp | {"hours_recorded": 0.0}).answer == "Cannot tell"
    assert f"80{NBSP}%" in topic("damp", damp=damp | {"high_pct": None}).why


def test_money_is_answered_in_all_or_not() -> None:
    """EUR 313; what is missing takes the sure away; without a total its reason."""
    whole: dict[str, Any] = {"heat": 300.0, "costs": 13.0, "total": 313.0, "per_kg": 12.5, "kg": 25.0}
    found = topic("money", grounds(balance=balance(**whole)))
    assert found.answer == f"EUR{NBSP}313 in all" and "Heat 300 and costs 13" in found.why and "12.50" in found.why
    assert found.sure.startswith("Sure")
    part = topic("money", grounds(balance=balance(**whole, missing=("the gas",))))
    assert part.sure == "" and "without the gas" in part.why
    assert topic("money", grounds(balance=balance(reasons={"heat": "no price"}))).why == "No price"
    assert topic("money").why == "No price is known"
    assert topic("money", grounds(balance=balance(missing=("gas",), reasons={"heat": "no price"}))).why == "Without gas"


def test_light_is_answered_by_its_dark_days_and_what_was_measured() -> None:
    """60 dark days, 6.4 of 12 mol; measured alone; one day is not said in the plural; neither, cannot tell."""
    both = topic("light", light=SimpleNamespace(days_under_ten_hours=60, mean_daily_light_mol=6.4, need_mol=12.0))
    assert both.answer == "60 dark days" and "6.4" in both.why and "12" in both.why and f"60{NBSP}days" in both.why
    days = topic("light", light=SimpleNamespace(days_under_ten_hours=60, mean_daily_light_mol=None, need_mol=12.0))
    assert days.answer == "60 dark days" and "12" not in days.why
    one = topic("light", light=SimpleNamespace(days_under_ten_hours=1, mean_daily_light_mol=6.4, need_mol=None))
    assert one.answer == "Light was measured" and "leafy" not in one.why
    assert topic("light").answer == "Cannot tell"


def test_soil_is_answered_by_its_mean() -> None:
    """8.0 °C, 100 h under 7 °C, 1.2 kWh a night given back; nothing given is not said."""
    soil = {"mean_c": 8.0, "hours_below_aim": {"estimate": 100.0}, "aim_c": 7.0, "released_kwh_per_night": 1.2}
    found = topic("soil", soil=soil)
    assert (
        found.answer == f"8.0{NBSP}°C on average"
        and f"100{NBSP}h under 7.0{NBSP}°C" in found.why
        and "1.2" in found.why
    )
    assert "gave back" not in topic("soil", soil=soil | {"released_kwh_per_night": 0.0}).why
    assert topic("soil", soil={"mean_c": 8.0}).why == f"8.0{NBSP}°C on average"
    assert topic("soil").answer == "Cannot tell"


# ---- what cost crops, which weeks were worth heating


def losing(cause: str, lost: float, kind: Any = "loss", **more: Any) -> Event:
    return event(kind, cause, crops=(CropMet(crop="leek", bed=None, coldest_c=None, lost=lost, cause="x"),), **more)


def lost(on: Grounds, **more: Any) -> Answer:
    return answers_topics.crops_lost("?", Facts.of(winter(**more), on), on)


def test_what_cost_crops_the_dearest_three_first() -> None:
    """Of 1, 9, 4 and 2 plants; a loss without a day has no date."""
    events = (
        losing("a", 1.0),
        losing("b", 9.0, dated=False),
        losing(HEAT_FAILED, 4.0, "failure"),
        losing("d", 2.0),
        losing("e", 0.0),
    )
    found = lost(grounds(events=events))
    assert (
        found.answer == "B"
        and found.why.startswith(f"B: 9{NBSP}leek; ")
        and f"13{NBSP}January: 4{NBSP}leek" in found.why
    )
    assert f"d, 13{NBSP}January: 2" in found.why and "a," not in found.why


def test_losses_of_the_book_where_no_event_tells_them() -> None:
    """No book, no loss written, none lost, or the largest first."""
    assert lost(grounds()).why.startswith("No planting book")
    assert lost(grounds(), plantings=(planting("kale", "east", "2025-11-01"),)).why.startswith("No planting has a loss")
    none = lost(
        grounds(), plantings=(planting("kale", "east", "2025-11-01", lost=0.0), planting("pea", "east", "2025-11-01"))
    )
    assert none.answer == "Nothing" and f"1{NBSP}planting " in none.why
    rows = (
        planting("kale", "east", "2025-11-01", lost=2.0, cause="slugs"),
        planting("pea", "west", "2025-11-01", lost=5.0),
    )
    long = (planting("winter butterhead lettuce", "east", "2025-11-01", lost=2.0, cause="slugs"),)
    assert lost(grounds(), plantings=long).why == f"Slugs: 2{NBSP}winter butterhead…"
    found = lost(grounds(), plantings=rows)
    assert found.answer == "Cause not noted" and found.why == f"Cause not noted: 5{NBSP}pea; slugs: 2{NBSP}kale"


def week(money: float, needed: float | None) -> BalanceWeek:
    return BalanceWeek(week="2026-W03", heat_money=money, kg=None, value=None, needed_share=needed, heat_kwh=10.0)


def worth(*weeks: BalanceWeek, reasons: Any = None, levels: Any = (0.92,), sources: Any = (FAN,)) -> Answer:
    on = grounds(balance=balance(weeks=weeks, reasons=reasons or {}))
    nights = [SimpleNamespace(level=level) for level in levels]
    return answers_topics.weeks_worth(
        "?", Facts.of(winter(frost=SimpleNamespace(without_heat_nights=nights), sources=sources), on), on
    )


def test_which_weeks_were_worth_heating() -> None:
    """One of two judged, a third that could not be; unheated ones do not count; sure by the least night."""
    found = worth(
        week(5.0, 1.0),
        week(5.0, 0.1),
        week(5.0, None),
        BalanceWeek(week="x", heat_money=0.0, kg=None, value=None, needed_share=1.0),
    )
    assert found.answer == f"1 of 2{NBSP}weeks" and f"1{NBSP}heated week could not be judged" in found.why
    assert found.sure.startswith("Nine in ten")
    assert "judged" not in worth(week(5.0, 1.0)).why
    assert worth(week(5.0, 1.0), levels=(0.95, 0.85)).sure.startswith("Fairly sure")
    assert worth(week(5.0, 1.0), levels=(0.95, 0.7)).sure == worth(week(5.0, 1.0), levels=()).sure == ""
    assert worth(week(5.0, None), reasons={"weeks.needed_share": "two", "weeks": "one"}).why == "One"
    assert worth(week(5.0, None), reasons={"weeks.needed_share": "two"}).why == "Two"
    assert worth().why.startswith("What a night") and worth(sources=()).why.startswith("No heater")


@pytest.mark.parametrize(
    ("level", "word"), [(0.9, "Nine in ten"), (0.89, "Fairly sure"), (0.8, "Fairly sure"), (0.79, ""), (None, "")]
)
def test_sure_words_by_the_measured_level(level: float | None, word: str) -> None:
    """Nine in ten from 90 %, fairly sure from 80, below no word; with the nights where any are counted."""
    assert surely.by_level(level) == word
    told = surely.lever_sure(lever("film", level=level))
    assert told == (f"{word}: 21{NBSP}nights without it, 20 with it, at equal weather." if word else "")
    assert surely.lever_sure(lever("film", low=None)) == ""
    assert ":" not in surely.lever_sure(lever("film", counted_days=(0, 0)))
    assert f"no{NBSP}nights without it, 3" in surely.lever_sure(lever("film", counted_days=(0, 3)))


# ---- a lever's answer


@pytest.mark.parametrize(
    ("of", "ask", "word"),
    [
        (lever("film"), "Does it pay?", "Yes"),
        (lever("film"), "Should it come off?", "Keep it"),
        (lever("film", condition="damper"), "", "In money, yes"),
        (lever("film", price=(side("lift", 1.0, 2.0),)), "", "In money, yes"),
        (lever("tape", "keep with a condition", condition="x", **humid(-6.0, -3.0)), "", "For drier air, yes"),
        (lever("tape", condition="x", **humid(-6.0, -3.0, hoped=None)), "", "Yes"),
        (lever("film", "not worth it"), "Remove it?", "At most a little"),
        (lever("film", "try on and off"), "", "Perhaps"),
        (lever("film", "change once"), "", "Perhaps"),
        (lever("film", "cannot tell"), "", "Cannot tell"),
        (lever("film", "not judged"), "", "Cannot tell"),
        (lever("film", "leave undone"), "", "Take it off"),
        (lever("film", "not again", on_now=False), "", "Leave it off"),
        (lever("film", "leave undone", on_now=False, thing="vent tape"), "Was it any good?", "Leave the tape off"),
        (lever("film", "leave undone", on_now=False, thing="vent tape"), "And the Tape?", "Leave it off"),
    ],
)
def test_the_word_of_a_lever_by_its_verdict(of: JudgedLever, ask: str, word: str) -> None:
    """And by which way round it was asked."""
    assert answers_lever.lever_word(of, ask) == word


def why(of: JudgedLever, sources: Any = (FAN,), **more: Any) -> str:
    return answers_lever.lever_why(winter(sources=sources, **more), of)


def test_payback_is_told_as_from_or_at_most() -> None:
    """From 1.2 winters, perhaps never; or in 3.4 at most; only with a cost, money and heat to save."""
    pays: dict[str, Any] = {"cost": 68.0, "spared_money": Ends(low=20.0, high=57.0)}
    never = lever("film", payback_winters=Ends(low=1.2, high=None), **pays)
    assert f"paid back from 1.2{NBSP}winters, perhaps never" in why(never)
    assert f"paid back in 3.4{NBSP}winters at most" in why(
        lever("film", payback_winters=Ends(low=1.2, high=3.4), **pays)
    )
    ends = {"payback_winters": Ends(low=1.2, high=3.4)}
    for gone in (
        {"payback_winters": None},
        {"payback_winters": Ends(low=None, high=3.4)},
        {"cost": None},
        {"saves_heat": False},
        {"spared_money": None},
    ):
        assert "paid back" not in why(lever("film", **(pays | ends | gone)))


def test_what_is_open_or_was_hoped_afterwards_is_said() -> None:
    """A trial can tell, or once more; a hope that was only named afterwards."""
    assert "trial" in why(lever("film", "try on and off")) and "once more" in why(lever("film", "change once"))
    assert "perhaps nothing" not in why(lever("film"))
    for written, said in ((False, True), (True, False), (None, False)):
        late = Changes(changes=(change("film", hope_written_before=written, line=3),))
        assert ("afterwards" in why(lever("film"), effects=late)) == said
    other = Changes(changes=(change("film", hope_written_before=False, line=4),))
    assert "afterwards" not in why(lever("film", lines=(3, 4)), effects=other)  # its first line is meant


def test_what_burns_in_it_is_never_left_out() -> None:
    """Not while the stove burns: first; of one whose flue nobody told, unless it has one; two of them: they have."""
    unsafe = lever("Vent tape", "not while that burns here", unsafe_with=("gas stove",))
    assert why(unsafe).startswith("Never with the gas stove lit; without the Vent tape") and "unless" not in why(unsafe)
    assert "unless it has a flue" in why(lever("Vent tape", "not again", unsafe_with=("gas stove",), flue_unsaid=True))
    two = lever("Vent tape", "not again", unsafe_with=("gas stove", "oil lamp"), flue_unsaid=True)
    assert "gas stove and oil lamp lit unless they have a flue" in why(two)
    assert "unless" not in why(lever("Vent tape", unsafe_with=("gas stove",), flue_unsaid=True))
    tape = lever("Vent tape", "leave undone", **humid(0.0, 6.0))
    assert "never sealed with gas lit" in why(tape, (FAN, GAS)) and "sealed" not in why(tape)
    assert "sealed" not in why(lever("Vent tape", **humid(-6.0, -3.0)), (FAN, GAS))
    undone = lever("Window", "leave undone", undone_in_season=True, **humid(0.0, 6.0))
    assert "never sealed" in why(undone, (FAN, GAS))


def test_what_is_sure_beside_is_told_though_the_hope_cannot_be() -> None:
    """A curtain whose heat nobody metered made the night air 5 to 8 points damper: wholly beyond the 3 that matter."""
    none: dict[str, Any] = {"effect": None, "low": None, "high": None, "relative": None, "outcome": None}
    damper = side("night_humidity", 5.0, 8.0, beyond_care=True)
    told = why(lever("curtain", "cannot tell", reasons={"verdict": "no meter"}, price=(damper,), **none))
    assert told.startswith("No meter; with it 5 to 8") and "damper" in told
    small = replace(damper, beyond_care=False)
    assert why(lever("curtain", "cannot tell", reasons={"verdict": "no meter"}, price=(small,), **none)) == "No meter"


def test_where_nothing_was_measured_the_reason_is_told() -> None:
    """The verdict's own, then the effect's; of one that is not judged, its hope is missing."""
    none: dict[str, Any] = {"effect": None, "low": None, "high": None, "relative": None, "outcome": None}
    told = lever(
        "film", "cannot tell", reasons={"low": "four", "outcome": "three", "effect": "two", "verdict": "one"}, **none
    )
    assert why(told) == "One"
    assert why(lever("film", "cannot tell", reasons={"low": "four", "effect": "two"}, **none)) == "Two"
    assert "side by side" in why(lever("film", "cannot tell", **none))
    assert "hoped" in why(lever("film", "not judged", reasons={"effect": "two"}, **none))
    assert why(lever("film", "not judged", reasons={"verdict": "one"}, **none)) == "One"
    assert "never with" in why(lever("film", "not again", unsafe_with=("gas stove",), **none)).lower()


@pytest.mark.parametrize(
    ("kind", "words"),
    [("idea", "idea"), ("event", "event"), ("away", "away"), ("upkeep", "upkeep"), ("change", "outside the season")],
)
def test_a_line_that_is_no_lever_says_why(kind: Any, words: str) -> None:
    """By its kind; a line that is not there."""
    line = DiaryEntry(
        line=7,
        date=dt.date(2026, 1, 12),
        time=None,
        kind=kind,
        what="Film",
        touches=(),
        reversible=True,
        hoped_for=(),
        until=None,
        cost=None,
        years=None,
        written=None,
        note="",
    )
    found = answers_lever.about_line(winter(diary=(line,)), grounds(), Asked(ask="?", topic=None, line=7))
    assert found.answer == "Cannot tell" and words in found.why.casefold() and found.about == "Film"
    gone = answers_lever.about_line(winter(diary=(line,)), grounds(), Asked(ask="?", topic=None, line=8))
    assert "no such line" in gone.why and gone.about == ""


# ---- events in a sentence


@pytest.mark.parametrize(
    ("minutes", "words"), [(36.0, f"36{NBSP}minutes"), (119.0, "119"), (120.0, f"2.0{NBSP}h"), (258.0, f"4.3{NBSP}h")]
)
def test_a_lag_is_told_in_hours_from_two_on(minutes: float, words: str) -> None:
    """258 min are 4.3 h."""
    assert said_events.lag_words(minutes).startswith(words)


def test_losses_are_summed_over_events_the_most_first() -> None:
    """7 + 2 pak choi before 4 leek; equal ones by name; three are named."""
    more = losing("x", 4.0)
    again = event(crops=(CropMet(crop="pak choi", bed=None, coldest_c=None, lost=2.0, cause=None),))
    assert said_events.losses([more, event(), again]) == f"9{NBSP}pak choi and 4{NBSP}leek"
    assert said_events.losses([event(crops=())]) == ""


def test_an_event_in_a_clause_and_a_sentence() -> None:
    """The day and depth; minutes, loss, cold outside and the diary; silence where the diary is kept."""
    clause = said_events.clause(event(), EURO)
    assert f"13{NBSP}January" in clause and f"−1.2{NBSP}°C" in clause
    told = said_events.sentence(event(), EURO)
    for words in (f"95{NBSP}minutes", f"7{NBSP}pak choi", f"−11.0{NBSP}°C outside", "Heater stood still overnight"):
        assert words in told
    assert "silent" in said_events.sentence(event(diary=(), nobody_noted=True), EURO)
    assert "silent" not in said_events.sentence(event(diary=()), EURO)
    frost = said_events.clause(event("frost", TOO_COLD), EURO)
    assert frost.startswith(f"−1.2{NBSP}°C inside on 14{NBSP}January")  # of its coldest moment
    assert f"13{NBSP}January" in said_events.clause(event("frost", TOO_COLD, minimum_c=None), EURO)
    loss = said_events.sentence(losing("slugs", 4.0, diary=("x",)), EURO)
    assert loss.startswith(f"Slugs took 4{NBSP}leek") and "cost" not in loss and "diary" not in loss
    assert said_events.clause(losing("", 0.0), EURO) == "A cause not noted took plants"
    assert said_events.cause_words(losing("slugs", 1.0)) == "slugs"


def test_fumes_in_a_clause() -> None:
    """Five days in a tight house; without days or levers; where no flue is noted; a hazard by its days."""
    fumes = {"source": "gas stove", "days": 5, "levers": ("tape",)}
    told = said_events.safety_clause(event("safety", "fumes", **fumes))
    assert f"5{NBSP}days" in told and "without a flue" in told and "tight" in told
    assert "no flue is noted" in said_events.safety_clause(event("safety", "fumes", flue_unsaid=True, **fumes))
    bare = said_events.safety_clause(event("safety", "fumes", source="gas stove"))
    assert "day" not in bare and "tight" not in bare
    assert f"14{NBSP}January" in said_events.safety_clause(event("safety", "a switch tripped"))


# ---- what is told first


def order(on: Grounds, **more: Any) -> list[str]:
    r = winter(**({"sources": (FAN,), "frost": SimpleNamespace(without_heat_nights=())} | more))
    return [told.subject for told in first.told_first(r, on)]


def test_which_things_are_told_first() -> None:
    """All safety, the first other event, the first lever with an effect that was not undone, the first undone, the
    hold where there is advice or a crop to know of."""
    fumes = event("safety", "fumes", source="gas stove")
    open_ = lever("open", "cannot tell", effect=None)
    levers = (open_, lever("film"), lever("other"), lever("tape", "leave undone", undone_in_season=True))
    on = grounds(*levers, events=(fumes, fumes, event(), event()), hold_advice=room())
    assert order(on) == ["safety", "safety", "event", "lever", "undone", "hold"]
    assert order(grounds(open_)) == [] and order(grounds(lever("x", "not again", effect=None))) == ["lever"]
    assert order(grounds(hold_advice=room()), sources=()) == []
    assert order(grounds(hold_advice=room(down_by_k=None))) == []
    assert order(grounds(hold_advice=room(down_by_k=None, unknown_crops=("rocket",)))) == ["hold"]
    paid = balance(heat=300.0, total=300.0)
    assert order(grounds(balance=paid)) == ["weeks"] and order(grounds(balance=balance(total=0.0))) == []
    assert order(grounds(balance=balance(heat=300.0, total=300.0, weeks=(week(5.0, 1.0),)))) == ["weeks"]


def test_the_named_lever_is_the_first_of_its_sort() -> None:
    """And a loss stands on the harvest page."""
    r = winter(sources=(FAN,), frost=SimpleNamespace(without_heat_nights=()))
    on = grounds(
        lever("film"), lever("other"), lever("tape", undone_in_season=True), lever("more", undone_in_season=True)
    )
    assert [told.lever for told in first.told_first(r, on)] == ["film", "tape"]
    (loss,) = first.told_first(r, grounds(events=(losing("slugs", 4.0),)))
    (frost,) = first.told_first(r, grounds(events=(event(),)))
    assert (loss.page, frost.page) == ("harvest", "frost")


def test_what_it_cost_alone_where_the_weeks_cannot_be_told() -> None:
    """EUR 313 in all, its parts, a kilogram; and why the weeks cannot."""
    r = winter(sources=(FAN,), frost=SimpleNamespace(without_heat_nights=()))
    of = balance(heat=300.0, costs=13.0, total=313.0, per_kg=12.5, kg=25.0, shop_value=200.0)
    (told,) = first.told_first(r, grounds(balance=of))
    assert f"EUR{NBSP}313 in all" in told.clause and "12.50" in told.clause and "shop" not in told.clause
    assert "heat 300 and costs 13" in told.words and "cannot be told" in told.words and told.page == "harvest"
    (bare,) = first.told_first(winter(frost=SimpleNamespace(without_heat_nights=())), grounds(balance=of))
    assert "cannot be told" not in bare.words


@pytest.mark.parametrize(
    ("sources", "levers", "has"),
    [((FAN,), ("x",), "m"), ((GAS,), ("x",), "cs"), ((GAS,), (), "c"), ((FAN, GAS), ("x",), "csm")],
)
def test_a_safety_event_has_the_cautions_of_what_burns_and_of_mains(sources: Any, levers: Any, has: str) -> None:
    """Carbon monoxide and sealing of a burner without a flue, mains of electric heat; running alone always."""
    r = winter(sources=sources, frost=SimpleNamespace(without_heat_nights=()))
    (told,) = first.told_first(r, grounds(events=(event("safety", "fumes", source="gas stove", levers=levers),)))
    for letter, words in (("c", "carbon monoxide"), ("s", "Never seal"), ("m", "residual-current")):
        assert (words in (told.caution or "")) == (letter in has)
    assert "nobody near" in (told.caution or "") and told.sure.startswith("Sure")
    (asked,) = first.told_first(r, grounds(events=(event("safety", "fumes", source="gas stove", flue_unsaid=True),)))
    assert asked.sure.startswith("Cannot tell") and "whether the gas stove has a flue" in asked.words
    (bare,) = first.told_first(r, grounds(events=(event("safety", "fumes", diary=()),)))
    assert bare.sure == ""
