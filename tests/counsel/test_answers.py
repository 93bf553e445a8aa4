"""Answers: the word that the verdict allows, both sides in 25 words, and sure only as defined."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel import hand
from counsel.grounded import FAN, GAS, at, balance, event, grounds, hold, humid, lever, side, winter
from made_season import ZONE, planting, season

from reportgen.counsel.answers import answers
from reportgen.counsel.answers_lever import lever_why
from reportgen.counsel.brief import begun, words_in
from reportgen.counsel.grounds import UNHEATED, Answer, BalanceWeek, Ends, Grounds
from reportgen.counsel.results import Results
from reportgen.effects.types import Changes
from reportgen.measures.exposure import Band
from reportgen.measures.frost_types import Minimum
from reportgen.readings.lever_types import Asked
from reportgen.readings.types import DiaryEntry
from reportgen.winters.types import EqualWeather, Row, Winters

FILM = lever(
    "Bubble film inside the roof", thing="bubble film", cost=68.0, spared_money=Ends(low=50.0, high=100.0),
    price=(side("night_humidity", 3.0, 10.0), side("daily_light", -15.0, -9.0)),
)  # fmt: skip
TAPE = lever("Vent tape", "leave undone", on_now=False, undone_in_season=True,
             price=(side("watts_per_kelvin", -45.0, 5.0),), **humid(0.0, 6.0))  # fmt: skip


def asked(
    on: Grounds, ask: str = "Does it pay?", topic: str | None = None, line: int | None = None, **more: Any
) -> Answer:
    """The answer to one question."""
    r: Results = winter(questions=(Asked(ask=ask, topic=topic, line=line),), **more)
    (found,) = answers(r, on)
    assert words_in(found.why) <= 25
    return found


def test_the_film_pays_in_money_and_its_other_sides_are_told() -> None:
    """Yes to what was asked and nothing more: both ends of heat and money, then damp and light."""
    found = asked(grounds(FILM), line=3)
    assert found.answer == "In money, yes"
    for part in (
        "27 to 43\u00a0% less heat for each degree, EUR\u00a050 to 100 since January for 68",
        "3 to 10\u00a0points damper, 9 to 15\u00a0% less light",
    ):
        assert part in found.why
    assert found.sure == "Nine in ten: 21\u00a0nights without it, 20 with it, at equal weather."
    assert found.page == "changes" and found.about == FILM.name


def test_the_vents_stay_open_whichever_way_it_was_asked() -> None:
    """A lever undone in-season: leave it off; drier, perhaps more heat; never sealed with gas lit."""
    for ask in ("Should the vents stay open?", "Was the tape any good?"):
        found = asked(grounds(TAPE), ask, line=3, sources=(FAN, GAS))
        assert found.answer == "Leave it off"
        assert found.why == (
            "Without the Vent tape 0 to 6\u00a0points drier; perhaps up to 45\u00a0% more heat for each degree; "
            "never sealed with gas lit"
        )
        assert found.caution and "Never seal" in found.caution


def test_what_the_question_does_not_name_is_named() -> None:
    """The vents are asked about, the tape is answered: by the last word of what the diary calls it."""
    tape = grounds(replace(TAPE, thing="vent tape"))
    assert asked(tape, "Should the vents stay open?", line=3).answer == "Leave the tape off"
    assert asked(tape, "Was the tape any good?", line=3).answer == "Leave it off"


def test_a_yes_to_keeping_is_no_yes_to_taking_away() -> None:
    """Asked whether it shall come off, what is kept is told as kept."""
    assert asked(grounds(FILM), "Shall we take it off?", line=3).answer == "Keep it"


@pytest.mark.parametrize(
    ("verdict", "word"),
    [
        ("keep", "Yes"),
        ("not worth it", "At most a little"),
        ("try on and off", "Perhaps"),
        ("change once", "Perhaps"),
        ("cannot tell", "Cannot tell"),
        ("not judged", "Cannot tell"),
        ("not again", "Take it off"),
    ],
)
def test_the_word_follows_the_verdict(verdict: Any, word: str) -> None:
    """One verdict a lever, one word an answer."""
    assert asked(grounds(lever("Fan", verdict, **humid(-6.0, -2.0))), line=3).answer == word


def test_what_cannot_be_told_says_why_and_is_not_sure() -> None:
    """The true reason; no sure-line where there is no figure."""
    bare = lever("Fan", "cannot tell", low=None, high=None, relative=None, level=None,
                 reasons={"effect": "no humidity was logged beside the crop"})  # fmt: skip
    found = asked(grounds(bare), line=3)
    assert (found.answer, found.why, found.sure) == ("Cannot tell", "No humidity was logged beside the crop", "")


def test_what_cannot_be_told_yet_says_from_when_and_what_must_not_burn() -> None:
    """Film of 22 January, read to the 27th: its ten quiet nights end on 1 February; the gas is named all the same.
    Of a winter that is over it says what would have told."""
    film = DiaryEntry(
        line=3, date=dt.date(2026, 1, 22), time=None, kind="change", what="Film", touches=("envelope",),
        reversible=True, hoped_for=("less heating",), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    why = "only 5 nights after with heat; at least 7 are needed"
    bare = lever("Film", "cannot tell", low=None, high=None, relative=None, level=None, unsafe_with=("gas",),
                 reasons={"verdict": why})  # fmt: skip
    running = season("2025-10-11", "2026-04-12", heating=(GAS,)).read_to(pd.Timestamp("2026-01-27 12:00", tz=ZONE))
    when = "from 1\u00a0February on it may be told"
    found = asked(grounds(bare), line=3, of=running, diary=(film,))
    assert found.why == f"{begun(why)}; {when}; never with the gas heater lit"
    full = "only 5 nights after with heat for 7 of 10 hours and the house 3 K (5 °F) or more above outdoors"
    short = replace(bare, reasons={"verdict": f"{full}; at least 7 are needed (on 4 of 9 the heaters stood)"})
    found = asked(grounds(short), line=3, of=running, diary=(film,))
    assert found.why == f"Only 5 nights after so far, 7 are needed; {when}; never with the gas heater lit"
    refused = hand.outcome("heat", float("nan"), float("nan"), float("nan"), declared=True, refused="x",
                           answerable="a week or more of such nights after")  # fmt: skip
    told = Changes(changes=(hand.change("Film", refused, verdict="cannot tell"),))
    assert "wanted: a week or more of such nights after" in asked(grounds(short), line=3, effects=told).why


def test_a_line_that_is_no_lever_says_what_it_is() -> None:
    """An idea was not done yet."""
    idea = DiaryEntry(
        line=9, date=dt.date(2026, 1, 20), time=None, kind="idea", what="Second curtain", touches=(), reversible=True,
        hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    found = asked(grounds(), line=9, diary=(idea,))
    assert found.answer == "Cannot tell" and "not done yet" in found.why


def test_a_hope_named_afterwards_says_so() -> None:
    """Bad weeks are followed by better ones."""
    late = hand.change("Fan", verdict="helped", hope_written_before=False)
    found = asked(grounds(lever("Fan", **humid(-6.0, -2.0))), line=3, effects=Changes(changes=(late,)))
    assert "hoped for only afterwards" in found.why


def test_less_heat_is_a_perhaps_while_a_limit_is_unknown() -> None:
    """The money of a degree, the failure that proves nothing, the crops without a limit: by 100 kWh for EUR 30, of
    which 7 °C in place of 8 takes 80 (72 at the low end), a degree spares at most 30 × 28/100 = EUR 8.40."""
    on = grounds(FILM, events=(event(),), hold_advice=hold(unknown_crops=("parsley", "rocket")))
    from made_season import heater, picking

    heated = heater([("2025-11-24", "2025-11-25", 100.0, 30.0)])
    found = asked(
        on, "Less heat?", "hold", sources=(FAN,), heating=(heated,), harvest=(picking("2026-01-06", 5.0),),
        heat={"hold_found_c": 8.0, "price_of_degree": hand.PRICE_OF_DEGREE},
    )  # fmt: skip
    assert found.answer == "Perhaps" and found.sure == ""
    assert found.why == (
        "A degree down spares less than EUR\u00a08 with the bubble film up; parsley and rocket have no known limit; "
        "the failure proves nothing against it"
    )
    assert found.caution and "residual-current" in found.caution


def test_a_hold_that_every_crop_stands_says_by_how_much_and_what_the_coldest_night_was() -> None:
    """Down by 2 K: usually 3, coldest 1.5 of 40 nights; a dial without room says how much is short."""
    advice = hold(down_by_k=2.0, usually_c=3.0, coldest_c=1.5, nights=40, crop="pak choi", reason=None)
    found = asked(grounds(hold_advice=advice), "Less heat?", "hold", sources=(FAN,))
    assert found.answer == "Yes, by 2.0\u00a0K"
    assert "usually 3.0\u00a0°C, coldest 1.5\u00a0°C of 40\u00a0nights" in found.why and "safe" not in found.why
    short = hold(down_by_k=0.0, short_by_k=0.8, nights=40, crop="pak choi", reason=None)
    found = asked(grounds(hold_advice=short), "Less heat?", "hold", sources=(FAN,))
    assert found.answer == "No" and "0.8\u00a0K short" in found.why
    none = asked(grounds(hold_advice=hold(reason="12 heated nights, 30 are needed")), "Less heat?", "hold")
    assert none.answer == "Cannot tell" and "12 heated nights" in none.why


def test_frost_by_its_events_and_never_only_without_a_gap() -> None:
    """Once, with its cause; none where the air was warmer; cannot tell where frosty hours were not logged."""
    frosty = asked(grounds(events=(event(),)), "Did it freeze?", "frost")
    assert frosty.answer == "Frost came in once" and "it cost 7\u00a0pak choi" in frosty.why
    warm = {"minimum": {"temperature_c": 3.1}}
    assert asked(grounds(), "Did it freeze?", "frost", frost=warm).answer == "No"
    gap = asked(grounds(), "Did it freeze?", "frost", frost=warm | {"unrecorded_cold_hours": 9.0})
    assert gap.answer == "Cannot tell" and "9\u00a0h" in gap.why and gap.sure == ""


def test_money_is_all_or_says_without_what() -> None:
    """Printed parts add up to the printed sum: 120.4 + 30.4 + 9.4 are 160, not 159."""
    whole = balance(heat=120.4, costs=30.4, changes_by_years=9.4, total=160.2, per_kg=5.0, kg=32.0, shop_value=150.0)
    found = asked(grounds(balance=whole), "Was it worth it?", "money")
    assert found.answer == "EUR\u00a0160 in all"
    assert "Heat 121, costs 30 and a year's share of the changes 9" in found.why
    assert found.sure
    part = balance(heat=120.4, total=120.4, missing=("the gas bottles",))
    found = asked(grounds(balance=part), "Was it worth it?", "money")
    assert "without the gas bottles" in found.why and found.sure == ""
    assert asked(grounds(), "Was it worth it?", "money").answer == "Cannot tell"


def test_winters_are_better_worse_or_level_only_beyond_their_intervals() -> None:
    """Less heat and level damp: better; drier too little to tell is level; one better and one worse is both."""

    def row(key: str, low: float, high: float, better: Any = "less", **more: Any) -> Row:
        equal = EqualWeather(effect=(low + high) / 2, low=low, high=high, days_last=100, days_this=100, columns=(),
                             smallest_visible=1.0)  # fmt: skip
        return Row(
            what=key, unit="", last=more.get("last", 10.0), this=9.0, at_equal_weather=equal, key=key, better=better
        )

    def told(*rows: Row) -> Answer:
        return asked(grounds(), "Better?", "winters", winters=Winters(last="w", rows=rows, reasons={}))

    better = told(row("heat", -3.0, -1.0), row("night_humidity", -2.0, 1.0))
    assert better.answer == "Better" and "10 to 30\u00a0% less heat a day" in better.why
    assert told(row("heat", 1.0, 3.0)).answer == "Worse"
    assert told(row("heat", -1.0, 3.0)).answer == "Level"
    assert told(row("heat", -3.0, -1.0), row("night_humidity", 2.0, 5.0)).answer == "Better and worse"
    assert told().answer == "Cannot tell"


# --------------------------------------------------------------------------------------------- the usual three


def three(on: Grounds, **more: Any) -> tuple[Answer, ...]:
    """The answers where nothing was asked."""
    return answers(winter(**more), on)


def test_without_a_question_three_are_answered() -> None:
    """What cost crops, which weeks, what first."""
    asks = [answer.ask for answer in three(grounds(), sources=(FAN,))]
    assert asks == ["What cost us crops?", "Which weeks were worth heating?", "What first next season?"]


def test_crops_are_lost_by_cause_the_dearest_first() -> None:
    """Mould took nine, frost seven; a book without a loss says nothing was lost; no book cannot tell."""
    mould = event("loss", "grey mould", start=at("2026-01-04"), minimum_c=None, crops=(
        type(event().crops[0])(crop="lettuce", bed="a", coldest_c=None, lost=9.0, cause="grey mould"),))  # fmt: skip
    found = three(grounds(events=(event(), mould)))[0]
    assert found.answer == "Grey mould"
    assert found.why.startswith(
        "Grey mould, 4\u00a0January: 9\u00a0lettuce; the heater stood still, 13\u00a0January: 7"
    )
    kept = planting("kale", "a", "2025-09-01", lost=0.0)
    assert three(grounds(), plantings=(kept,))[0].answer == "Nothing"
    assert three(grounds())[0].answer == "Cannot tell"


def test_the_weeks_that_were_worth_heating_are_counted() -> None:
    """Two of three judged weeks needed it; one was not judged; EUR 12 of 60 were spent for nothing."""
    weeks = tuple(
        BalanceWeek(week=f"2026-W0{n}", heat_money=20.0, kg=1.0, value=8.0, needed_share=share)
        for n, share in enumerate((0.9, 0.6, 0.1, None), start=1)
    )
    told = balance(weeks=weeks, not_needed_money=Ends(low=8.0, high=12.0), judged_money=60.0)
    found = three(grounds(balance=told), sources=(FAN,))[1]
    assert found.answer == "2 of 3\u00a0weeks"
    assert "EUR\u00a08 to 12 of 60 kept plants that did not need it" in found.why
    assert "1\u00a0heated week could not be judged" in found.why
    assert three(grounds(), sources=(FAN,))[1].answer == "Cannot tell"


def test_a_house_without_a_heater_is_not_asked_which_weeks_were_worth_heating() -> None:
    """It is asked how cold it got: −6.2 °C on 14 January, −9 °C outside, on five nights under 0 °C."""
    low = Minimum(temperature_c=-6.2, margin_k=-6.2, at=at("2026-01-14"), logger="bench", outdoor_c=-9.0)
    frost = {
        "minimum": low, "line_c": 0.0, "nights_below": {"0": Band(estimate=5.0)}, "hours_unrecorded": 0.0,
    }  # fmt: skip
    found = three(grounds(), frost=SimpleNamespace(**frost))
    assert [one.ask for one in found if "heating" in one.ask] == []
    assert (found[1].ask, found[1].answer) == ("How cold did it get inside?", "−6.2\u00a0°C")
    assert found[1].why == "On 14\u00a0January at “bench”; −9.0\u00a0°C outside; 5\u00a0nights under 0.0\u00a0°C"
    assert three(grounds())[1].answer == "Cannot tell"


def test_frost_of_a_house_without_heat_is_counted_by_nights() -> None:
    """20 nights, of which only the coldest are events: not once, and as the Frost page says."""
    frost = {"nights_below": {"0": {"estimate": 20.0}}}
    cold = grounds(events=(event("frost", UNHEATED),))
    assert asked(cold, "Do we need a heater?", "frost", frost=frost).answer == "Frost came in on 20\u00a0nights"
    heated = asked(cold, "Was it close?", "frost", frost=frost, sources=(FAN,))
    assert heated.answer == "Frost came in once"


def test_no_outdoor_logger_is_wanted_and_no_second_one_beside_the_crop() -> None:
    """The bubble film of a house without a logger outdoors: one in the shade, and not a logger for it."""
    missing = hand.outcome(
        "lift", 0.0, 0.0, 0.0, declared=True, refused="no outdoor logger", answerable="an outdoor logger"
    )
    film = lever("Film", "cannot tell", low=None, high=None, relative=None, level=None,
                 reasons={"verdict": "no outdoor logger"})  # fmt: skip
    more = {"effects": Changes(changes=(hand.change("Film", missing, line=3),))}
    assert lever_why(winter(**more), film) == "No outdoor logger; wanted: one in the shade"


def test_a_reason_too_long_beside_its_warning_is_not_broken_off() -> None:
    """Fifteen words are left beside the warning: the reason stands without what it takes."""
    why = "the heat is known only by what was bought: a change needs the heat of each day"
    poly = lever("Poly", "not while that burns here", low=None, high=None, relative=None, level=None, effect=None,
                 unsafe_with=("propane heater",), flue_unsaid=True, reasons={"effect": why})  # fmt: skip
    told = lever_why(winter(sources=(GAS,)), poly)
    assert told.endswith("the heat is known only by what was bought") and "…" not in told


def test_frosts_without_an_event_are_frosts_all_the_same() -> None:
    """A house without heat: −6.2 °C is not answered with No."""
    frost = {"minimum": {"temperature_c": -6.2}, "line_c": 0.0, "nights_below": {"0": {"estimate": 5.0}}}
    found = asked(grounds(), "How close was it?", "frost", frost=frost)
    assert (found.answer, found.why) == ("Frost came in on 5\u00a0nights", "−6.2\u00a0°C at the coldest")


def test_what_comes_first_is_the_plan_s_own_first_row() -> None:
    """The same words as the plan, with its caution."""
    on = grounds(FILM, events=(event(),))
    found = three(on, sources=(FAN,))[2]
    assert found.answer == "Before the frost" and found.why.startswith("Clear round the fan heater")
    assert found.caution
