"""The hold in words: what is advised, what it would spare, which alarm would have warned; numbers by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from counsel.grounded import FAN, at, event, grounds, hold, winter
from counsel.sentences import faults
from made_season import heater

from reportgen.counsel import hold as rule
from reportgen.counsel import hold_crops, hold_words, the_hold
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HEAT_FAILED, OPEN_OR_ALTERED, TOO_COLD, Ends, HoldAdvice
from reportgen.counsel.types import Said
from reportgen.measures.dial_room import DialRoom
from reportgen.measures.exposure import Band
from reportgen.measures.frost_types import Alarm
from reportgen.measures.heat_types import DegreePrice
from reportgen.wording import Wording

NBSP = "\u00a0"
EURO = Wording(us=False, currency="EUR")
BURNT = (heater([("2026-01-05", "2026-02-01", 60.0, 18.0)]),)
ROOM: dict[str, Any] = {
    "dial_c": 6.0,
    "down_by_k": 2.0,
    "lowest_c": 4.0,
    "usually_c": 3.5,
    "coldest_c": 2.8,
    "nights": 41,
    "crop": "pak choi",
    "reason": None,
    "limit_c": 1.0,
    "held_c": 6.0,
}


def room(**more: Any) -> HoldAdvice:
    """From 6 to 4 °C, by pak choi that asks for no less than 1 °C, over 41 nights."""
    return hold(**(ROOM | more))


def plain(words: str) -> str:
    assert not faults(words), words
    return words.replace(NBSP, " ")


def test_with_a_written_dial_both_settings_are_told_without_one_only_the_step() -> None:
    """6 to 4 °C; where no dial is written, turn it down by so much and name no setting."""
    assert "from 6.0 °C to 4.0 °C" in plain(hold_words.advised(room(), EURO))
    for more in ({"dial_c": None}, {"lowest_c": None}):
        told = plain(hold_words.advised(room(**more), EURO))
        assert "by 2.0 K" in told and "4.0 °C" not in told
    limit = plain(hold_words.advised(room(), EURO))
    assert "Pak choi asks for no less than 1.0 °C" in limit and "mild week" not in limit
    assert "3 K of it because a mild week" in plain(hold_words.advised(room(unhardened=True), EURO))
    assert "asks" not in hold_words.advised(room(limit_c=None), EURO)


def test_without_advice_the_reason_is_told() -> None:
    """No figure at all."""
    assert "cannot be told: too few nights" in hold_words.advised(room(down_by_k=None, reason="too few nights"), EURO)


@pytest.mark.parametrize(("short_by_k", "words"), [(1.2, ": 1.2 K short"), (0.04, None), (None, None)])
def test_no_room_tells_by_how_much_it_is_short(short_by_k: float | None, words: str | None) -> None:
    """1.2 K; what prints as 0.0 K is not told as short."""
    told = plain(hold_words.advised(room(down_by_k=0.0, short_by_k=short_by_k), EURO))
    assert told.startswith("Your dial leaves no room for pak choi (1.0 °C)")
    assert (words in told) if words else ("short" not in told)
    assert hold_words.no_room(room(dial_c=None), EURO).startswith("What was held")
    assert "(" not in hold_words.no_room(room(limit_c=None), EURO)


def test_nights_are_told_at_the_setting_or_as_they_were() -> None:
    """Usually 3.5, coldest 2.8 °C of 41 nights; one night has no usual one; none counts, none is told."""
    told = plain(hold_words.nights_told(room(), EURO))
    assert "usually 3.5 °C, 2.8 °C on the coldest of 41 nights" in told and "would be" in told
    was = hold_words.nights_told(room(down_by_k=0.0), EURO)
    assert "was" in was and "At that setting" not in was
    one = plain(hold_words.nights_told(room(nights=1), EURO))
    assert "3.5 °C on the one night" in one and "usually" not in one
    for more in ({"nights": 0}, {"usually_c": None}, {"coldest_c": None}):
        assert hold_words.nights_told(room(**more), EURO) == ""


@pytest.mark.parametrize(("nights", "words"), [(0, None), (1, "1 night; that one is"), (3, "3 nights; those are")])
def test_flat_out_nights_are_counted(nights: int, words: str | None) -> None:
    """Colder than −9 °C the dial decides nothing; not known, not said."""
    told = plain(hold_words.flat_out(room(flat_out_c=-9.0, flat_out_nights=nights), EURO))
    assert "−9 °C" in told and ((words in told) if words else ("counted" not in told))
    assert hold_words.flat_out(room(flat_out_nights=nights), EURO) == ""


@pytest.mark.parametrize(
    ("kwh", "money", "w", "words"),
    [
        ((40.2, 60.4), (12.0, 18.0), EURO, "spares 40 to 60 kWh, EUR 12 to 18."),
        ((40.2, 40.4), (12.1, 12.2), EURO, "spares 40 kWh, EUR 12."),
        ((40.2, 60.4), None, EURO, "spares 40 to 60 kWh."),
        ((40.2, 60.4), (12.0, 18.0), Wording(us=False, currency=""), "spares 40 to 60 kWh."),
    ],
)
def test_what_it_spares(kwh: Any, money: Any, w: Wording, words: str) -> None:
    """Two ends of heat, and of money where there is any; ends that print alike are one."""
    ends = None if money is None else Ends(low=money[0], high=money[1])
    assert words in plain(hold_words.price(room(saves_kwh=Ends(low=kwh[0], high=kwh[1]), saves_money=ends), w))


def test_nothing_is_spared_where_nothing_is_advised_or_known() -> None:
    """No room or no advice: no price; an end that is not known is not printed."""
    spares = {"saves_kwh": Ends(low=40.0, high=60.0)}
    assert hold_words.price(room(), EURO) == ""
    for down in (None, 0.0):
        assert hold_words.price(room(down_by_k=down, **spares), EURO) == ""
    for ends in (Ends(low=None, high=60.0), Ends(low=40.0, high=None)):
        told = hold_words.price(room(saves_kwh=ends, saves_money=ends), EURO)
        assert "40" not in told and "60" not in told


@pytest.mark.parametrize(
    ("why", "hours", "rings", "needed", "words"),
    [
        ("", 2.5, 4, 3, "at 5.0 °C would have warned 2.5 h ahead at least; it rang 4 times, 3 times in need"),
        ("", 3.0, 2, 1, "3 h ahead at least; it rang twice, once in need"),
        ("", 1.0, 1, 0, "1.0 h ahead at least; it rang once, never in need"),
        ("minutes", 0.5, 4, 3, "only 30 min ahead"),
        ("minutes", 0.001, 4, 3, "only 1 min ahead"),
        ("for nothing", 2.0, 9, 2, "(at 5.0 °C it rang 9 times, twice in need)"),
        ("silent", None, 0, 0, "No alarm line"),
    ],
)
def test_an_alarm_is_told_with_its_warning_and_its_rings(
    why: str, hours: float | None, rings: int, needed: int, words: str
) -> None:
    """Where it warns in minutes, rings for nothing or was silent, what comes before an alarm is said."""
    told = plain(
        hold_words.alarm(
            room(alarm_c=5.0, alarm_why=why, alarm_warning_h=hours, alarm_rings=rings, alarm_needed=needed), EURO
        )
    )
    assert words in told
    assert ("come before an alarm" in told) == bool(why)


def test_of_an_alarm_that_is_not_known_nothing_is_said() -> None:
    """No line, no warning known, or not worked out; rings for nothing of no one line have no brackets."""
    for more in ({"alarm_why": "no line"}, {"alarm_why": "not known"}, {"alarm_why": ""}, {"alarm_why": "minutes"}):
        assert hold_words.alarm(room(alarm_c=5.0, **more), EURO) == ""
    assert "(" not in hold_words.alarm(room(alarm_why="for nothing"), EURO)


# ---- the finding


def price_rows(cost: bool = True) -> tuple[DegreePrice, ...]:
    """Of 60 kWh at EUR 0.30 a degree less spares 16 (12 to 20), one more takes 20 kWh."""
    rows = ((-1.0, 44.0, 40.0, 48.0), (1.0, 80.0, 78.0, 90.0))
    return tuple(
        DegreePrice(
            away_k=away,
            kwh=kwh,
            low=low,
            high=high,
            cost=0.3 * kwh if cost else None,
            cost_low=0.3 * low if cost else None,
            cost_high=0.3 * high if cost else None,
        )
        for away, kwh, low, high in rows
    )


def said(advice: HoldAdvice, *, sources: Any = (FAN,), share: Band | None = None, **heat: Any) -> Said | None:
    usual: dict[str, Any] = {"hold_found_c": 6.0, "price_of_degree": price_rows(), "kwh": 60.0, "cost": 18.0}
    section = SimpleNamespace(share_at_or_above_hold=share, holds=((dt.date(2025, 10, 11), 6.0),), **(usual | heat))
    r = winter(heat=section, heating=BURNT, sources=sources, frost=SimpleNamespace(hours_recorded=4392.0))
    found = the_hold.the_hold(Facts.of(r, grounds(hold_advice=advice)))
    for words in (found.claim, found.evidence, found.how_sure, found.next_step) if found is not None else ():
        assert not faults(words), words
    return found


def stands(found: Said | None) -> Said:
    assert found is not None
    return found


def test_the_finding_tells_how_far_down_to_which_setting_and_what_a_degree_costs() -> None:
    """2 K, to 4 °C; a degree more takes 0.3 × 20 = EUR 6 more, one less 0.3 × 16 = EUR 4.80 less."""
    found = stands(said(room(saves_money=Ends(low=8.0, high=11.0), saves_kwh=Ends(low=30.0, high=40.0))))
    assert f"by 2.0{NBSP}K, to 4.0{NBSP}°C" in found.claim and "pak choi" in found.claim
    assert f"EUR{NBSP}6 more" in found.evidence and f"EUR{NBSP}5 less" in found.evidence
    assert f"usually 3.5{NBSP}°C" in found.evidence and f"41{NBSP}nights" in found.evidence
    assert f"EUR{NBSP}8 to 11 less" in found.next_step and "kWh" not in found.next_step
    assert (found.figure, found.figure_note, found.stake) == (f"2.0{NBSP}K", "less on the dial", "money")
    assert (found.weight, found.about) == (11.0, "pak choi")


def test_what_is_spared_is_never_less_than_nothing_and_in_heat_where_no_money_is_known() -> None:
    """A low end under zero is zero."""
    money = stands(said(room(saves_money=Ends(low=-3.0, high=11.0))))
    assert f"EUR{NBSP}0 to 11" in money.next_step
    heat = stands(said(room(saves_kwh=Ends(low=-5.0, high=40.0))))
    assert f"0{NBSP}kWh to 40{NBSP}kWh" in heat.next_step and heat.weight == 0.0
    for ends in (Ends(low=None, high=11.0), Ends(low=8.0, high=None)):
        bare = stands(said(room(saves_money=ends, saves_kwh=ends)))
        assert f"down by 2.0{NBSP}K, with a probe" in bare.next_step


def test_no_room_is_told_with_what_it_is_short() -> None:
    """1.2 K short: growth is at stake; without a shortfall no figure of one."""
    found = stands(said(room(down_by_k=0.0, short_by_k=1.2)))
    assert f"1.2{NBSP}K short for the pak choi" in found.claim
    assert (found.figure, found.figure_note, found.stake) == (f"1.2{NBSP}K", "short on the dial", "growth")
    assert "Leave the dial" in found.next_step
    level = stands(said(room(down_by_k=0.0)))
    assert (level.figure, level.figure_note) == (f"0.0{NBSP}K", "of room") and "short" not in level.claim


def test_no_advice_leaves_the_dial_alone_and_names_the_crops_without_a_limit() -> None:
    """Cannot tell, with the reason, unknown crops are named twice: why, and what to do."""
    none = room(down_by_k=None, reason="rocket has no known limit", unknown_crops=("rocket",), crop=None)
    found = stands(said(none))
    assert "rocket has no known limit" in found.claim and found.how_sure.startswith("Cannot tell")
    assert "rocket" in found.evidence and "rocket" in found.next_step
    assert (found.figure, found.figure_note) == (f"EUR{NBSP}5", f"for 1{NBSP}K less hold")
    assert stands(said(none, price_of_degree=price_rows(cost=False))).figure == f"16{NBSP}kWh"
    bare = stands(said(none, price_of_degree=()))
    assert (bare.figure, bare.figure_note) == ("—", "no advice")
    assert "set to" in stands(said(room(down_by_k=None, reason="too few"))).next_step


def test_where_nothing_was_worked_out_the_price_of_a_degree_stands_alone() -> None:
    """Its ends, 18 − 0.3 × 48 = EUR 3.60 and 18 − 0.3 × 40 = EUR 6 less; without a price, or without a heater,
    silence."""
    alone = hold(reason=the_hold.NOT_WORKED_OUT)
    found = stands(said(alone))
    assert f"EUR{NBSP}6 more" in found.claim and found.stake == "money"
    assert f"EUR{NBSP}4 to 6 less" in found.how_sure and found.how_sure.startswith("Nine in ten")
    assert stands(said(alone)).evidence.count("EUR") == 0  # said once, in the claim
    assert said(alone, price_of_degree=()) is None and said(room(), sources=()) is None
    kwh = stands(said(alone, price_of_degree=price_rows(cost=False)))
    assert f"20{NBSP}kWh more" in kwh.claim and f"16{NBSP}kWh less" in kwh.claim
    assert f"12 to 20{NBSP}kWh less" in kwh.how_sure


def test_how_well_the_aim_was_kept_is_told_where_known() -> None:
    """96 %; NaN is not printed; flat-out cold beside it."""
    found = stands(said(room(flat_out_c=-9.0), share=Band(estimate=0.96)))
    assert f"96{NBSP}% of the time" in found.evidence and f"−9{NBSP}°C" in found.evidence
    assert "The aim" not in stands(said(room(), share=Band(estimate=float("nan")))).evidence


def test_the_nights_that_count_and_the_room_are_its_sources() -> None:
    """2 of 3 heated nights count; 2 K of room; with no heated night there is no table to name."""
    nights = pd.DataFrame({"heated": [True, True, True, False], "counted": [True, True, False, False]})
    found = {(s.csv, s.rows): s.value for s in stands(said(room(by_night=nights))).sources}
    assert found == {("hold.csv", "counts == 'yes'"): 2.0, ("hold_advice.csv", "figure == 'room to come down'"): 2.0}
    short = stands(said(room(down_by_k=0.0, short_by_k=1.2, by_night=nights))).sources
    assert [s.value for s in short] == [2.0, 1.2]
    assert stands(said(room(by_night=nights.assign(heated=False)))).sources == ()
    assert stands(said(room())).sources == ()


# ---- what is advised


def test_nights_of_a_failure_or_an_open_door_are_not_the_thermostats() -> None:
    """The failure's evenings, and those of a frost that something open let in; of a cold that the heater could not
    make good they stay."""
    r = winter(frost=SimpleNamespace(failures=(), table=pd.DataFrame({"inside_min": []})))
    night = {dt.date(2026, 1, 13)}
    assert rule.not_the_dial_s(r, [event()]) == night
    assert rule.not_the_dial_s(r, [event("frost", HEAT_FAILED)]) == night
    assert rule.not_the_dial_s(r, [event("frost", OPEN_OR_ALTERED)]) == night
    assert rule.not_the_dial_s(r, [event("failure", TOO_COLD)]) == night
    assert rule.not_the_dial_s(r, [event("frost", TOO_COLD)]) == set()


def ring(alarm_c: float, rings: int = 2, needed: int = 2, warning_h: float = 2.0) -> Alarm:
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


def alarmed(*alarms: Alarm, line_c: float = 0.0, **of: Any) -> HoldAdvice:
    usual: dict[str, Any] = {"held_c": 6.0, "dial_c": 6.0, "told": None, "lowest_c": 4.0, "down_by_k": 2.0}
    r = cast(Any, SimpleNamespace(frost=SimpleNamespace(alarms=alarms, line_c=line_c)))
    return rule._with_alarm(r, DialRoom(**(usual | of)), hold())


def test_the_alarm_lies_between_the_lowest_setting_and_what_was_held() -> None:
    """Of lines at 3, 5 and 7 °C only 5 lies between 4 and 6 °C; without room to come down, from the frost line on."""
    lines = (ring(3.0, warning_h=1.0), ring(5.0), ring(7.0, warning_h=9.0))
    found = alarmed(*lines)
    assert (found.alarm_c, found.alarm_warning_h, found.alarm_rings, found.alarm_needed) == (5.0, 2.0, 2, 2)
    assert found.alarm_why == ""
    for of in ({"down_by_k": 0.0}, {"down_by_k": None}, {"lowest_c": None}):
        assert alarmed(ring(3.0), **of).alarm_c == 3.0
    assert alarmed(ring(3.0), down_by_k=0.0, line_c=3.5).alarm_c is None


def test_where_no_alarm_served_why_is_told() -> None:
    """None between: no line; half an hour: minutes, with that line; nothing held or no alarms: as it was."""
    assert (alarmed(ring(3.0)).alarm_why, alarmed(ring(3.0)).alarm_c) == ("no line", None)
    late = alarmed(ring(5.0, warning_h=0.5))
    assert (late.alarm_why, late.alarm_c, late.alarm_warning_h) == ("minutes", 5.0, 0.5)
    assert alarmed().alarm_why == alarmed(ring(5.0), held_c=None).alarm_why == "not known"
    assert (alarmed().alarm_rings, alarmed().alarm_needed, alarmed().alarm_c) == (0, 0, None)  # nothing was counted


@pytest.mark.parametrize(
    ("dial_c", "down_by_k", "lowest_c"), [(6.0, 2.0, 4.0), (None, 2.0, None), (6.0, 0.0, None), (6.0, None, None)]
)
def test_a_setting_is_named_only_below_a_dial_that_is_written(
    dial_c: float | None, down_by_k: float | None, lowest_c: float | None
) -> None:
    """6 less 2 is 4 °C; without a dial, room or advice, none."""
    r = cast(Any, SimpleNamespace(frost=SimpleNamespace(holding_limit=SimpleNamespace(heater_flat_out_c=-9.0))))
    of = DialRoom(held_c=6.0, dial_c=dial_c, told=None, down_by_k=down_by_k)
    found = rule._advice(r, of)
    assert (found.lowest_c, found.down_by_k, found.nights, found.flat_out_nights) == (lowest_c, down_by_k, 0, 0)
    assert found.flat_out_c == -9.0


def test_a_house_without_a_heater_gets_no_advice() -> None:
    """No heater listed, or heat not known by the hour."""
    r = winter(heat=SimpleNamespace(by_hour=pd.DataFrame()))
    assert rule.hold_advice(r, ()).reason == rule.NO_HEAT and rule.hold_advice(r, ()).nights == 0


def test_the_first_evening_counts_from_its_own_noon() -> None:
    """An event from 01:00 belongs to the evening before."""
    r = winter(frost=SimpleNamespace(failures=(), table=pd.DataFrame({"inside_min": []})))
    early = event(start=at("2026-01-14", "01:00"), end=at("2026-01-14", "05:00"))
    assert rule.not_the_dial_s(r, [early]) == {dt.date(2026, 1, 13)}


def priced(monkeypatch: pytest.MonkeyPatch, found: Any, **of: Any) -> tuple[HoldAdvice, list[Any]]:
    """The advice with what it spares, and what was asked for it."""
    asked: list[Any] = []

    def spared(model: Any, heat: Any, held_c: float, down_k: float, days: Any) -> Any:
        asked.append((held_c, down_k, days))
        return found

    monkeypatch.setattr(rule, "spared", spared)
    usual: dict[str, Any] = {
        "held_c": 6.0,
        "dial_c": 6.0,
        "told": None,
        "down_by_k": 2.0,
        "weeks": (dt.date(2026, 1, 12),),
    }
    nights = pd.DataFrame({"heated": True}, index=[dt.date(2026, 1, day) for day in (11, 12, 18, 19)])
    r = cast(Any, SimpleNamespace(frost=SimpleNamespace(model=None), heat=None))
    return rule._with_price(r, DialRoom(**(usual | of)), nights, hold()), asked


def test_what_a_lower_hold_spares_is_of_the_nights_it_is_advised_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """2 K off 6 °C in the week of Monday the 12th: its nights of the 12th and the 18th; both ends of heat and money."""
    both = SimpleNamespace(kwh_low=40.0, kwh_high=60.0, money_low=12.0, money_high=18.0)
    found, asked = priced(monkeypatch, both)
    assert asked == [(6.0, 2.0, {dt.date(2026, 1, 12), dt.date(2026, 1, 18)})]
    assert (found.saves_kwh, found.saves_money) == (Ends(low=40.0, high=60.0), Ends(low=12.0, high=18.0))
    free = SimpleNamespace(kwh_low=40.0, kwh_high=60.0, money_low=None, money_high=None)
    assert priced(monkeypatch, free)[0].saves_money is None


def test_without_room_or_a_hold_no_price_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nor told where none can be worked out."""
    both = SimpleNamespace(kwh_low=40.0, kwh_high=60.0, money_low=12.0, money_high=18.0)
    for of in ({"down_by_k": None}, {"down_by_k": 0.0}, {"held_c": None}):
        found, asked = priced(monkeypatch, both, **of)
        assert found.saves_kwh is None and asked == []
    assert priced(monkeypatch, None)[0].saves_kwh is None


def test_only_nights_on_which_the_thermostat_decided_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """Heated, without an event, flat out under 5 % of the hours: of five nights one; 5 % itself is too much."""
    nights = pd.DataFrame(
        {
            "heated": [True, False, True, True, True],
            "eventful": [False, False, True, False, False],
            "flat_share": [0.049, 0.0, 0.0, 0.05, 0.0],
            "coldest_c": [4.0, 3.0, 2.0, 1.0, float("nan")],
        }
    )
    monkeypatch.setattr(hold_crops, "dial_nights", lambda *given: nights)
    frost = SimpleNamespace(failures=(), table=pd.DataFrame({"inside_min": []}))
    r = winter(frost=frost, heat=SimpleNamespace(by_hour=pd.DataFrame(), stretches=()))
    assert list(hold_crops._lows(Facts.of(r, grounds()))) == [4.0]


def test_which_crops_stay_above_their_band() -> None:
    """Room of 2.0 and 1.9 K where the hold is 2 K lower: exactly as much is enough."""
    assert hold_crops.kept_alive({"pea": 1.9, "leek": 2.0, "kale": 9.0}, 2.0) == (["kale", "leek"], ["pea"])
