"""What happened, one sentence an event: its numbers, its cause's own step, and what is not said of it."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from counsel.grounded import FAN, GAS, at, event, grounds, winter
from counsel.sentences import faults

from reportgen.counsel import cautions, happened, happened_next
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import (
    HEAT_FAILED,
    HEAT_OUT,
    NO_HEAT_ANY_MORE,
    NO_HEAT_YET,
    NOT_KNOWN,
    OPEN_OR_ALTERED,
    TOO_COLD,
    UNHEATED,
    CropMet,
    Event,
)
from reportgen.counsel.types import Said
from reportgen.readings.types import Watering
from reportgen.season import HeatSource

NBSP = "\u00a0"


def facts(*events: Event, line_c: float = 0.0, lowest_c: float | None = None, **more: Any) -> Facts:
    """A heated winter with these events; `lowest_c` is the coldest of the table of nights."""
    table = pd.DataFrame({"inside_min": [] if lowest_c is None else [lowest_c, lowest_c + 5.0]})
    frost = SimpleNamespace(line_c=line_c, table=table, failures=more.pop("failures", ()))
    return Facts.of(winter(frost=frost, **({"sources": (FAN,)} | more)), grounds(events=events))


def told(*events: Event, **more: Any) -> list[Said]:
    """What is said of them; every sentence may stand."""
    found = [*happened.cold_events(facts(*events, **more)), *happened.losses(facts(*events, **more))]
    for said in found:
        for words in (said.claim, said.evidence, said.how_sure, said.next_step):
            assert not faults(words), words
    return found


def met(crop: str, coldest_c: float | None = None, lost: float | None = None, **more: Any) -> CropMet:
    return CropMet(**({"crop": crop, "bed": None, "coldest_c": coldest_c, "lost": lost, "cause": None} | more))


def test_a_failure_is_told_with_its_minutes_its_line_its_coldest_and_its_loss() -> None:
    """95 min from the failure to the line, then −1.2 °C, seven pak choi lost, of one event and its heater."""
    (found,) = told(event(source="fan heater", hours=9.3))
    for words in ("fan heater", f"13{NBSP}January", f"95{NBSP}min", f"0.0{NBSP}°C", f"−1.2{NBSP}°C", "7 pak choi"):
        assert words in found.claim
    assert (found.figure, found.about, found.stake) == (f"−1.2{NBSP}°C", "fan heater", "crop lost")
    assert found.figure_note == f"coldest, 14{NBSP}January"  # the day of the coldest moment, not of the failure
    for words in (
        "“door”",
        "06:00",
        f"−11.0{NBSP}°C outdoors",
        f"9{NBSP}h without heat",
        f"the pak choi in door −1.2{NBSP}°C",
    ):
        assert words in found.evidence
    assert found.weight == 1000.0  # of rank 0: told before one of rank 1


def test_an_event_without_a_loss_is_not_called_a_crop_lost() -> None:
    """Nothing lost, 0 lost, or not written: no loss in words, and the stake of the kind; of rank 2 it weighs less."""
    for lost in (0.0, None):
        (found,) = told(event(crops=(met("leek", -1.0, lost),), rank=2))
        assert "lost" not in found.claim and found.stake is None and found.weight == 998.0


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(1.0, f"1{NBSP}min"), (119.0, f"119{NBSP}min"), (120.0, f"2.0{NBSP}h"), (150.0, f"2.5{NBSP}h")],
)
def test_from_two_hours_on_a_time_is_told_in_hours(minutes: float, words: str) -> None:
    """150 min are 2.5 h; below 120 minutes stay."""
    assert happened.minutes(minutes) == words


@pytest.mark.parametrize(("minimum_c", "under"), [(-3.0, f"5.0{NBSP}K under"), (1.5, f"0.5{NBSP}K under"), (2.0, None)])
def test_how_far_under_the_line_a_frost_came(minimum_c: float, under: str | None) -> None:
    """A line of 2 °C: −3 °C is 5 K under it, 1.5 °C half a kelvin; 2.0 °C is not under it."""
    one = event("frost", NOT_KNOWN, line_crossed_after_min=None, minimum_c=minimum_c)
    (found,) = told(one, line_c=2.0)
    assert (under in found.claim) if under else ("under your" not in found.claim)


def test_without_a_coldest_reading_the_crops_are_counted() -> None:
    """No air on record: no temperature is made up, one crop lost is the figure."""
    (found,) = told(event(minimum_c=None, line_crossed_after_min=None))
    assert found.figure == f"1{NBSP}crop" and "°C" not in found.claim
    (none,) = told(event(minimum_c=None, line_crossed_after_min=None, crops=()))
    assert none.figure == f"no{NBSP}crops" and none.stake is None


@pytest.mark.parametrize(
    ("source", "crops", "about"),
    [("stove", (met("kale", 1.0),), "stove"), (None, (met("kale", 1.0), met("leek", 0.0)), "kale"), (None, (), "door")],
)
def test_it_speaks_of_the_heater_else_of_the_first_crop_else_of_the_place(
    source: str | None, crops: tuple[CropMet, ...], about: str
) -> None:
    """In that order."""
    assert told(event(source=source, crops=crops))[0].about == about


def test_only_three_crops_are_named_by_their_cold_the_coldest_first() -> None:
    """Five crops: the coldest three by name, the two others counted; one whose air is not known is not among them."""
    crops = (met("a", 3.0), met("b", -2.0), met("c", 1.0), met("d", -1.0), met("e", 2.0), met("unknown"))
    evidence = told(event(crops=crops))[0].evidence
    spots = [evidence.index(f"the {name} ") for name in "bdc"]
    assert spots == sorted(spots) and f"2{NBSP}other crops" in evidence
    assert "the a " not in evidence and "the unknown" not in evidence
    three = told(event(crops=crops[:3]))[0].evidence
    assert "other crop" not in three and "the a " in three
    assert "Coldest met" not in told(event(crops=(met("unknown"),)))[0].evidence


def test_where_and_when_only_as_far_as_known() -> None:
    """Without a coldest moment, a place or the outdoors none is said; under half an hour below the line neither."""
    bare = told(event("frost", NOT_KNOWN, at=None, outdoor_c=None, hours=0.4, diary=(), crops=()))[0].evidence
    assert bare == ""
    assert "outdoors" in told(event(place=None))[0].evidence and "coldest at" not in told(event(place=None))[0].evidence
    under = told(event("frost", NOT_KNOWN, hours=1.0))[0].evidence
    assert f"1{NBSP}h under the line" in under and "without heat" not in under


def test_a_silent_diary_is_told_only_of_a_failure_that_nobody_noted() -> None:
    """What is written is quoted; silence is told where the diary is kept, and only of heat that failed."""
    assert "Heater stood still overnight" in happened.diary_words(event())
    assert "silent" in happened.diary_words(event(diary=(), nobody_noted=True))
    assert happened.diary_words(event(diary=(), nobody_noted=False)) == ""
    assert happened.diary_words(event("frost", UNHEATED, diary=(), nobody_noted=True)) == ""


@pytest.mark.parametrize(
    ("cause", "step", "caution"),
    [
        (HEAT_FAILED, "alarm", True),
        (TOO_COLD, f"−11{NBSP}°C", True),
        (NO_HEAT_YET, f"ready by 13{NBSP}January", True),
        (NO_HEAT_ANY_MORE, f"after 14{NBSP}January", False),
        (OPEN_OR_ALTERED, "doors and vents", False),
        (UNHEATED, "fleece over the pak choi", False),
        (NOT_KNOWN, "fleece over the pak choi", False),
    ],
)
def test_each_cause_has_its_own_step_and_caution(cause: str, step: str, caution: bool) -> None:
    """What would have helped follows from why it was cold: before the first day, after the last, under that cold."""
    kind = "failure" if cause == HEAT_FAILED else "frost"
    (found,) = told(event(kind, cause))
    assert step in found.next_step
    assert found.caution == (cautions.ALONE if caution else None)
    sure = {HEAT_FAILED: "turned off by hand", NOT_KNOWN: "cause is not known"}.get(cause, "accuracy")
    assert found.how_sure.startswith("Sure") and sure in found.how_sure


def test_an_empty_cylinder_asks_for_a_fuller_one_and_not_for_doors() -> None:
    """Of what is bought and stored: weighed before the night; of mains power an alarm as of any failure."""
    gas = told(event("frost", HEAT_OUT), sources=(GAS,))[0]
    assert gas.claim.startswith(f"From 13{NBSP}January to 14{NBSP}January the heat was out, and the air fell")
    assert "Weigh what is left" in gas.next_step and "doors" not in gas.next_step and gas.caution == cautions.FUEL
    mains = told(event("frost", HEAT_OUT), sources=(FAN,))[0]
    assert "heater's power is gone" in mains.next_step and mains.caution == cautions.ALONE


def test_fleece_is_drawn_from_the_mildest_night_that_came_close() -> None:
    """−11.7 °C at the coldest moment, yet at −8.4 °C the air came within a degree of the line too; a night on which
    the door stood open tells nothing of the heater."""
    nights = [dt.date(2026, 1, n) for n in (13, 18, 20, 25)]
    table = pd.DataFrame(
        {"inside_min": [-0.3, 0.9, 0.5, 4.0], "outdoor_min": [-11.8, -8.4, -2.0, 1.0]}, index=pd.Index(nights)
    )
    cold = event("frost", TOO_COLD, outdoor_c=-11.7, crops=())
    door = event("frost", OPEN_OR_ALTERED, start=at("2026-01-20", "23:00"), end=at("2026-01-21", "03:00"))
    of = facts(cold, door)
    cast("Any", of.r.frost).table = table
    assert f"forecast under −8{NBSP}°C" in happened_next.step(of, cold)


def test_only_what_was_lost_is_to_be_covered() -> None:
    """Lamb's lettuce beside it stands far colder; where nothing was lost, all that stood are named."""
    stood = (met("lamb's lettuce", -2.5), met("pak choi", -2.5, lost=4.0))
    assert "over the pak choi at dusk" in told(event("frost", UNHEATED, crops=stood), sources=())[0].next_step
    whole = told(event("frost", UNHEATED, crops=(met("kale", -2.5), met("leek", -2.5))), sources=())[0]
    assert "over the kale and leek at dusk" in whole.next_step


def test_a_stove_that_stuck_is_cleaned_and_not_filled() -> None:
    """Ash bridged the hopper: fuel was there. A sack that ran out is weighed; sacks are not connected."""
    stove = GAS.model_copy(update={"name": "pellet stove", "fuel": "pellets"})
    stuck = told(event("frost", HEAT_OUT, diary=("Stove out: bridge of ash in the hopper",)), sources=(stove,))[0]
    assert stuck.next_step.startswith("Clean the pellet stove once it has gone cold, and see that it feeds and burns")
    empty = told(event("frost", HEAT_OUT, diary=("Hopper ran empty",)), sources=(stove,))[0]
    assert "Weigh what is left" in empty.next_step and "connected" not in empty.next_step


@pytest.mark.parametrize(("hours", "said"), [((9, 9), False), ((9, 12), True), ((9, None), True), ((), True)])
def test_who_waters_in_the_morning_is_not_told_to(hours: tuple[int | None, ...], said: bool) -> None:
    """By the watering book, where it gives the time of every row."""
    rows = tuple(
        Watering(line=n, date=dt.date(2026, 1, n), time=None if h is None else dt.time(h), bed="east", litres=9.0)
        for n, h in enumerate(hours, start=2)
    )
    rotten = event("loss", "grey mould", crops=(met("lettuce", lost=9.0, bed="east"),))
    (found,) = told(rotten, watering=rows)
    assert ("water in the morning only" in found.next_step) is said and "wider" in found.next_step


def test_without_a_heater_no_caution_of_heaters() -> None:
    """The same cause in a house that lists none."""
    assert told(event("frost", TOO_COLD), sources=())[0].caution is None


def test_what_nobody_grew_is_not_named() -> None:
    """No crop stood: the tenderest is covered; a crop of two beds is named once."""
    assert "tenderest crop" in told(event("frost", UNHEATED, crops=()))[0].next_step
    twice = (met("kale", 1.0, bed="a"), met("kale", 2.0, bed="b"))
    assert told(event("frost", UNHEATED, crops=twice))[0].next_step.count("kale") == 1


def test_power_is_spoken_of_only_where_the_heat_that_failed_is_electric() -> None:
    """An alarm for a lost supply helps a fan heater, not a stove; of heat that nobody names, all must be electric."""
    both: tuple[HeatSource, ...] = (FAN, GAS)
    assert "power is gone" in told(event(source="fan heater"), sources=both)[0].next_step
    assert "power is gone" not in told(event(source="gas stove"), sources=both)[0].next_step
    assert "power is gone" not in told(event(source=None), sources=both)[0].next_step
    assert "power is gone" in told(event(source=None), sources=(FAN,))[0].next_step


def test_a_hazard_is_for_a_licensed_trade_first() -> None:
    """A cut-out that tripped: a licensed trade before it runs again, with the caution of fire, and of mains where the
    house has mains heat."""
    (found,) = told(event(hazard="a cut-out tripped", source="fan heater"))
    assert "licensed trade" in found.next_step and found.caution == f"{cautions.ALONE} {cautions.MAINS}"
    assert told(event(hazard="a cut-out tripped"), sources=(GAS,))[0].caution == cautions.ALONE
    assert "licensed trade" not in told(event())[0].next_step


def test_the_same_cause_a_second_time_points_back_to_the_first() -> None:
    """Its step and caution stand once: the second failure names its own day and the first one's coldest; another cause
    keeps its own step."""
    later = {"start": at("2026-02-03", "01:00"), "end": at("2026-02-03", "08:00"), "at": at("2026-02-03", "06:00")}
    first, second = told(event(), event(**later))
    assert first.caution and second.caution is None and "alarm" not in second.next_step
    assert f"3{NBSP}February" in second.next_step and f"14{NBSP}January" in second.next_step
    _, other = told(event(), event("frost", TOO_COLD, **later))
    assert other.caution and "January" not in other.next_step


def test_it_stands_beside_the_failures_only_where_the_page_has_them() -> None:
    """A failure with a table of failures; without one, or of another cause, the first anchor of its kind."""
    assert told(event(), failures=(object(),))[0].anchor == "frost_failures"
    assert told(event())[0].anchor is None
    assert told(event("frost", TOO_COLD), failures=(object(),))[0].anchor is None


def cells(said: Said, csv: str = "events.csv") -> dict[str, tuple[str | None, float]]:
    return {source.column: (source.rows, source.value) for source in said.sources if source.csv == csv}


def test_each_number_names_its_row_among_the_events() -> None:
    """The second of two events is row 2: its coldest, its minutes, 7 + 2 plants; no number, no cell."""
    two = event(crops=(met("kale", 1.0, 7.0), met("leek", 1.0, 2.0), met("rocket", 1.0)))
    found = cells(told(event("frost", TOO_COLD), two)[1])
    assert found == {
        "coldest °C": ("event == 2", -1.2),
        "minutes from the failure to the frost line": ("event == 2", 95.0),
        "plants lost": ("event == 2", 9.0),
    }
    assert cells(told(event(minimum_c=None, line_crossed_after_min=None, crops=()))[0]) == {}
    us = told(event(minimum_c=5.0), toml={"show": "us"})[0]
    assert cells(us)["coldest °F"][1] == pytest.approx(41.0)  # 5 × 9/5 + 32


def test_the_table_of_nights_is_a_source_only_of_its_own_coldest() -> None:
    """−1.2 °C is the least of the nights: a source; where the nights were colder or none is there, not."""
    assert cells(told(event(), lowest_c=-1.2)[0], "frost_nights.csv") == {"inside °C": (None, -1.2)}
    for lowest_c in (-1.3, -1.1, None):
        assert cells(told(event(), lowest_c=lowest_c)[0], "frost_nights.csv") == {}


def loss(cause: str, *crops: CropMet, **more: Any) -> Event:
    usual = {"line_crossed_after_min": None, "minimum_c": None, "diary": (), "rank": 3, "crops": crops}
    return event("loss", cause, **(usual | more))


def test_a_loss_is_counted_by_crop_and_bed_under_its_own_cause() -> None:
    """9 lettuce and 2 chard lost to mould are 11; what lost nothing is not named; one day is told as one."""
    one = loss("grey mould", met("lettuce", lost=9.0, bed="east"), met("chard", lost=2.0, bed="east"), met("kale"))
    (found,) = told(one)
    assert "9 lettuce in “east”" in found.claim and "2 chard in “east”" in found.claim and "kale" not in found.claim
    assert (found.figure, found.about, found.weight) == ("11", "lettuce", 997.0)
    assert "bed “east” wider" in found.next_step and found.caution == cautions.SPRAY and found.token == "humid"
    assert "January" in found.claim and "not written" not in found.evidence
    assert cells(found) == {"plants lost": ("event == 1", 11.0)}


@pytest.mark.parametrize(
    ("beds", "words"),
    [(("east", "east"), "bed “east”"), (("east", "west"), "those beds"), ((None, None), "that ground")],
)
def test_the_ground_of_a_loss_is_named_as_far_as_it_is_known(beds: tuple[str | None, ...], words: str) -> None:
    """One bed by its name, several as beds, none as ground; slugs are guarded against, not watered away."""
    (found,) = told(loss("slugs", *(met("lettuce", lost=2.0, bed=bed) for bed in beds)))
    assert f"Guard {f'the {words}' if words.startswith('bed') else words} against slugs" in found.next_step
    assert found.caution is None and found.token == "neutral"


def test_a_loss_without_a_date_says_so() -> None:
    """Only the planting's time is known: no day in the sentence."""
    (found,) = told(loss("slugs", met("lettuce", lost=2.0), dated=False))
    assert "January" not in found.claim and "not written" in found.evidence


def test_days_of_an_event() -> None:
    """One day, or from the first to the last."""
    one = event(end=at("2026-01-13", "23:50"))
    assert happened.dates_words(one) == f"13{NBSP}January" and happened.on_dates(one) == f"on 13{NBSP}January"
    for words in (happened.dates_words(event()), happened.on_dates(event())):
        assert f"13{NBSP}January" in words and f"14{NBSP}January" in words


def test_one_plant_was_lost_and_two_were() -> None:
    """The verb goes with what was lost in all."""
    claims = [told(event("loss", "slugs", crops=(met("leek", lost=n),)))[0].claim for n in (1.0, 2.0)]
    assert claims[0].startswith("1 leek was lost to slugs") and claims[1].startswith("2 leek were lost to slugs")
