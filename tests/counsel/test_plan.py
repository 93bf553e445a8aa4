"""Next winter's plan: keep, undo, try, buy, log, each with its arithmetic and from the season that calls for it."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import channel, heater, logger, picking, season

from reportgen.counsel.plan import ORDER, Step, plan
from reportgen.counsel.plan_types import next_year
from reportgen.counsel.types import Finding
from reportgen.effects.trial import plan_from
from reportgen.effects.types import Changes, Trial
from reportgen.readings.types import DiaryEntry
from reportgen.season.sources import HeatSource


def steps(*, show: str = "metric", found: tuple[Finding, ...] = (), **more: Any) -> tuple[Step, ...]:
    source = HeatSource(name="fan heater", fuel="electricity", meter="m.csv", next_price=0.4)
    loggers = more.pop("loggers", ())
    made = season(show=show, loggers=loggers, heating=(source,) if "heating" in more else ())
    return plan(hand.results(made, **more), found)


def idea(cost: float | None = 120.0, touches: tuple[str, ...] = ("heater",)) -> DiaryEntry:
    return DiaryEntry(
        line=9, date=dt.date(2026, 1, 20), time=None, kind="idea", what="A second heater", touches=touches,
        reversible=True, hoped_for=("warmer nights",), until=None, cost=cost, years=8.0, written=None, note="",
    )  # fmt: skip


def trial(what: str = "A second heater") -> Trial:
    return Trial(
        what=what, hoped_for="warmer nights", outcome="lift", nights=plan_from(dt.date(2026, 11, 1)), visible=0.6,
        visible_unit="K", visible_now=1.1, why="this winter could not tell", diary_rows=(),
    )  # fmt: skip


LIFT = hand.outcome("lift", 1.5, 0.8, 2.2, declared=True)
HEAT = {"hold_found_c": 8.0, "price_of_hold": hand.PRICE_OF_HOLD, "cost": 60.0}
BOOKS: dict[str, Any] = {
    "harvest": (picking("2026-01-06", 5.0),),
    "heating": (heater([("2026-01-05", "2026-01-12", 100.0, 60.0)]),),
}


def test_what_helped_is_kept_and_what_hurt_is_undone() -> None:
    """Each with its interval; what gave no sign is in neither list."""
    helped, hurt = hand.change("Film", LIFT), hand.change("Vent tape", LIFT, verdict="hurt", line=4)
    idle = hand.change("Water bottles", LIFT, verdict="no sign", line=5)
    found = steps(effects=Changes(changes=(hurt, helped, idle)))
    told = [s for s in found if s.what in ("keep", "undo")]
    assert [(s.what, s.text) for s in told] == [("keep", "Keep “Film”."), ("undo", "Undo “Vent tape”.")]
    assert "0.8 to" in told[0].why and "2.2" in told[0].why
    assert told[0].caution and "Never seal" in told[0].caution


def test_a_trial_has_its_dates_and_its_caution() -> None:
    """The plan of the trial begins on its first night; a heater's caution stands beside it."""
    (told,) = [s for s in steps(effects=Changes(changes=(), trials=(trial(),)), diary=(idea(None),)) if s.what == "try"]
    assert told.when == dt.date(2026, 11, 1)
    assert "28\u00a0nights" in told.why
    assert told.caution and "residual-current" in told.caution


def test_the_sum_to_put_by_is_the_colder_winter_at_next_winters_price() -> None:
    """100 kWh at 0.40 are 40.00; 2 K more hold take 140 of 100, so 56.00. Two kelvin less save 16.00."""
    told = steps(**BOOKS, heat=HEAT)
    put_by = next(s for s in told if s.what == "buy")
    assert put_by.cost == pytest.approx(56.0)
    assert "EUR\u00a056" in put_by.text and "EUR\u00a016" in put_by.why
    lower = next(s for s in told if s.what == "try")
    assert "6.0\u00a0°C in place of 8.0\u00a0°C" in lower.text and "EUR\u00a016" in lower.why
    assert lower.caution


def test_no_lower_hold_is_proposed_at_or_under_the_frost_line() -> None:
    """A house held at 2 °C is not told to hold 0 °C."""
    rows = tuple(row | {"hold_c": row["hold_c"] - 6.0} for row in hand.PRICE_OF_HOLD)
    told = steps(**BOOKS, heat=HEAT | {"hold_found_c": 2.0, "price_of_hold": rows})
    assert not [s for s in told if s.what == "try"]


def test_an_idea_with_a_price_is_set_against_the_heat_bill() -> None:
    """120.00 are twice a heat bill of 60.00 and 15.00 for each of eight years; one without a price is left out."""
    (told,) = [s for s in steps(diary=(idea(),), heat=HEAT) if s.what == "buy"]
    assert "200\u00a0%" in told.why and "EUR\u00a015.00" in told.why
    assert told.cost == 120.0 and told.caution
    assert not [s for s in steps(diary=(idea(None),)) if s.what == "buy"]


def test_what_was_missing_is_to_be_logged_and_what_was_there_is_not() -> None:
    """An empty season is asked for everything; one with an outdoor logger and all books for none of these."""
    bare = " ".join(s.text for s in steps() if s.what == "log")
    for word in ("outdoors", "bed", "harvest.csv", "diary.csv", "plantings.csv"):
        assert word in bare
    index = pd.date_range("2026-01-05", periods=3, freq="1h", tz="Europe/Prague")
    values = pd.Series(1.0, index)
    channels = tuple(
        channel(values, measure, name, where=where, accuracy=0.5)
        for measure, name, where in (
            ("air_temperature", "out", "outdoor"), ("soil_temperature", "bed", "crop"), ("air_temperature", "b", "crop")
        )
    )  # fmt: skip
    named = tuple(logger(c.logger, c.measure, where=c.where) for c in channels)
    full = steps(**BOOKS, loggers=named, channels=channels, diary=(), plantings=())
    assert [s.text for s in full if s.what == "log"] == []


def test_the_order_is_keep_undo_try_buy_log_and_a_step_names_only_findings_that_were_told() -> None:
    """Steps come in the order of the list; the slug of a finding that was not told is taken away."""
    told = steps(**BOOKS, heat=HEAT, effects=Changes(changes=(hand.change("Film", LIFT),)))
    assert [s.what for s in told] == sorted((s.what for s in told), key=ORDER.index)
    assert all(s.finding is None for s in told)
    helped = Finding(slug="helped-3", page="changes", claim="", evidence="", how_sure="", next_step="", figure="",
                     figure_note="", anchor="a", stake="good news", sure="sure")  # fmt: skip
    named = steps(effects=Changes(changes=(hand.change("Film", LIFT),)), found=(helped,))
    assert named[0].finding == "helped-3"


def test_the_day_after_a_year_of_a_leap_day_is_the_twenty_eighth() -> None:
    """29 February has no like in a common year."""
    assert next_year(dt.date(2028, 2, 29)) == dt.date(2029, 2, 28)


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_line_may_stand(show: str) -> None:
    """Text, why, how sure and caution of every step pass the rules of wording in both ways of printing."""
    effects = Changes(changes=(hand.change("Film", LIFT), hand.change("Tape", LIFT, verdict="hurt")), trials=(trial(),))
    told = steps(show=show, **BOOKS, heat=HEAT, effects=effects, diary=(idea(),))
    assert {s.what for s in told} == set(ORDER)
    words = [text for s in told for text in (s.text, s.why, s.how_sure, s.caution) if text]
    assert {text: faults(text) for text in words if faults(text)} == {}
