"""What is told first: safety before all and uncounted, then five, in their order."""

from __future__ import annotations

from dataclasses import replace

from counsel.grounded import FAN, GAS, balance, event, grounds, hold, humid, lever, side, winter
from counsel.sentences import faults

from reportgen.counsel.brief import words_in
from reportgen.counsel.first import told_first
from reportgen.counsel.grounds import BalanceWeek, Ends

FILM = lever("Bubble film", cost=68.0, spared_money=Ends(low=50.0, high=100.0),
             price=(side("daily_light", -15.0, -9.0),))  # fmt: skip
TAPE = lever("Vent tape", "leave undone", on_now=False, undone_in_season=True, **humid(0.0, 6.0))
FUMES = event("safety", "burnt without a flue", source="gas stove", days=10, levers=("Vent tape",), minimum_c=None,
              crops=(), line_crossed_after_min=None)  # fmt: skip
WEEK = BalanceWeek(week="2026-W03", heat_money=20.0, kg=1.0, value=8.0, needed_share=0.9)


def test_safety_then_five_in_their_order() -> None:
    """Safety, event, weeks, lever, undone, hold: each once, within its words, without a fault."""
    on = grounds(FILM, TAPE, events=(FUMES, event()), balance=balance(weeks=(WEEK,), judged_money=20.0),
                 hold_advice=hold(unknown_crops=("parsley",)))  # fmt: skip
    told = told_first(winter(sources=(FAN, GAS)), on)
    assert [one.subject for one in told] == ["safety", "event", "weeks", "lever", "undone", "hold"]
    assert [one.clause for one in told if words_in(one.clause) > 15] == []
    assert [one.words for one in told if words_in(one.words) > 40] == []
    assert [f for one in told for text in (one.clause, one.words, one.sure) for f in faults(text)] == []
    assert told[0].caution and "carbon monoxide" in told[0].caution and "10\u00a0days" in told[0].clause


def test_the_event_has_its_cause_its_minutes_and_its_losses() -> None:
    """One sentence: when, why, how cold, how soon, and what it cost."""
    (told,) = told_first(winter(), grounds(events=(event(),)))
    assert told.clause == "The heater stood still on 13\u00a0January: −1.2\u00a0°C inside"
    for part in (
        "crossed after 95\u00a0minutes",
        "it cost 7\u00a0pak choi",
        "the diary: “Heater stood still overnight”",
    ):
        assert part in told.words


def test_both_sides_stand_in_the_clause_of_a_lever() -> None:
    """What it gives and what it takes, in fifteen words."""
    (told,) = told_first(winter(), grounds(FILM))
    assert told.clause == "With “Bubble film” 27 to 43\u00a0% less heat for each degree, 9 to 15\u00a0% less light"
    assert told.words.startswith("Bubble film: in money, yes; 27 to 43")
    assert told.lever == "Bubble film"


def test_the_lever_undone_is_told_beside_the_first_not_in_its_place() -> None:
    """The first is the first that is not undone, whatever stands before it."""
    told = told_first(winter(), grounds(TAPE, FILM))
    assert [(one.subject, one.lever) for one in told] == [("lever", "Bubble film"), ("undone", "Vent tape")]
    assert told[1].clause == "Without “Vent tape” 0 to 6\u00a0points drier"


def test_nothing_is_told_of_what_is_not_there() -> None:
    """No event, no lever, no heater: nothing first."""
    assert told_first(winter(), grounds()) == ()
    assert told_first(winter(), grounds(lever("Fan", "cannot tell", effect=None, low=None, high=None))) == ()


def test_a_figure_that_holds_zero_is_no_headline_of_what_is_unsafe() -> None:
    """Barrels between 1 K colder and 0.6 K warmer: the safety line tells of them, and undone what burns beside them."""
    barrels = lever("Barrels", "not while that burns here", thing="water barrels", unsafe_with=("gas stove",),
                    outcome="lift", unit="K", relative=None, low=-1.0, high=0.6, effect=-0.2)  # fmt: skip
    assert told_first(winter(sources=(FAN, GAS)), grounds(barrels)) == ()
    (told,) = told_first(winter(sources=(FAN, GAS)), grounds(replace(barrels, undone_in_season=True, on_now=False)))
    assert told.clause == "Water barrels: not with the gas stove lit"


def test_a_figure_that_leaves_the_direction_open_is_no_headline() -> None:
    """Sides between 10 points drier and 2 damper: what is told first is that they are to be tried; 10 to 2 drier is."""
    sides = lever("Open sides", "try on and off", thing="open sides", outcome="night_humidity", unit="%", relative=None,
                  low=-10.0, high=2.0, effect=-4.0)  # fmt: skip
    (told,) = told_first(winter(), grounds(sides))
    assert told.clause == "Open sides: Perhaps"
    (told,) = told_first(winter(), grounds(replace(sides, high=-2.0)))
    assert told.clause.startswith("With the open sides 2 to 10\u00a0points drier")


def test_a_thermostat_is_told_by_the_way_it_was_turned() -> None:
    """With the thermostat there is less heat: no; with it turned down."""
    dial = lever("Thermostat down to 3 °C", thing="thermostat", touches=("thermostat",))
    (told,) = told_first(winter(sources=(FAN,)), grounds(dial))
    assert told.clause.startswith("With the thermostat down 27 to 43\u00a0% less heat")
