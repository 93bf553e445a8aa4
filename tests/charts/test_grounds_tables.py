"""Tables of what the decisions rest on: a row an event, a lever, a night, a step, each in the shown unit."""

from __future__ import annotations

import io
from dataclasses import replace
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from counsel.grounded import at, balance, event, grounds, lever, side, winter
from counsel.hand import NO_COUNSEL
from made_season import season

from reportgen.charts.balance_tables import balance_table
from reportgen.charts.events_tables import events_tables, page_of_events
from reportgen.charts.hold_tables import hold_tables
from reportgen.charts.levers_tables import levers_tables
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HoldAdvice, PlanStep
from reportgen.site.plan_files import rows
from reportgen.wording import Wording


def review(on: Any, **more: Any) -> Any:
    """A review of a winter with these grounds."""
    made: Any = winter(**more)
    made.counsel = replace(NO_COUNSEL, grounds=on)
    return made


def test_an_event_is_one_row_with_its_minutes_and_losses() -> None:
    """Its number is its place among the events; what is not known is empty, never 0."""
    failed, loss = event(), event("loss", "slugs", minimum_c=None, crops=(), line_crossed_after_min=None, dated=False)
    (table, crops) = events_tables(review(grounds(events=(failed, loss))))
    first, second = (row for _, row in table.data.iterrows())
    assert (first["event"], second["event"]) == (1, 2)
    assert first["minutes from the failure to the frost line"] == failed.line_crossed_after_min
    assert first["coldest °C"] == pytest.approx(failed.minimum_c)
    assert pd.isna(second["coldest °C"]) and pd.isna(second["plants lost"])
    assert second["dated"] == "no" and table.rows[1][0].startswith("not dated")
    assert list(crops.data["event"]) == [1] * len(failed.crops)
    assert crops.data["lost"].sum() == sum(met.lost or 0.0 for met in failed.crops)


def test_events_are_in_the_shown_unit() -> None:
    """−1.2 °C is 29.8 °F, by 9/5 and 32."""
    us = season("2025-10-11", "2026-04-12", show="us")
    (table, _) = events_tables(review(grounds(events=(event(minimum_c=-1.2),)), of=us))
    assert table.data["coldest °F"].iloc[0] == pytest.approx(29.84)
    assert table.rows[0][3] == "29.8\u00a0°F"


def test_without_events_there_is_no_table() -> None:
    """Nothing happened, nothing was set, no thermostat is known."""
    none = review(grounds())
    assert events_tables(none) == () and levers_tables(none) == () and hold_tables(none) == ()


def test_a_house_without_crop_air_has_its_events_beside_its_harvest() -> None:
    """The Frost page has nothing to show then."""

    def home(temperature_c: float | None, kg: float | None, kwh: float | None) -> str:
        frost = SimpleNamespace(minimum=SimpleNamespace(temperature_c=temperature_c))
        harvest, heat = SimpleNamespace(kg=kg), SimpleNamespace(kwh=kwh)
        none = SimpleNamespace(changes=())
        return page_of_events(cast("Any", SimpleNamespace(frost=frost, harvest=harvest, heat=heat, effects=none)))

    assert [home(-1.0, 3.0, 5.0), home(None, 3.0, 5.0), home(None, None, 5.0)] == ["frost", "harvest", "heat"]
    assert home(None, None, None) == "frost"  # nothing is shown anywhere; the file is written all the same


def test_a_lever_has_both_ends_and_what_it_did_beside() -> None:
    """Of heat as a share of the level without it; a second look in a table of its own."""
    film = lever("Film", lines=(7,), price=(side("daily_light", -15.0, -9.0),), cost=68.0, widened=2.5)
    (table, beside) = levers_tables(review(grounds(film)))
    row = table.data.iloc[0]
    assert (row["lever"], row["first diary line"], row["widened by"]) == ("Film", 7, 2.5)
    assert (row["effect"], row["low"], row["high"]) == (film.effect, film.low, film.high)
    assert "widened" in table.notes[0]
    assert (beside.data["low"].iloc[0], beside.data["high"].iloc[0]) == (-15.0, -9.0)


def nights() -> pd.DataFrame:
    """Six nights: one counts, and one of each kind that does not."""
    table = pd.DataFrame(
        {
            "coldest_c": [2.0, 2.0, 2.0, 2.0, 2.0, float("nan")],
            "logger": "bench",
            "heated": [True, True, True, True, False, True],
            "flat_share": [0.0, 0.0, 0.0, 0.2, 0.0, 0.0],
            "kwh": 5.0,
            "present": [True, False, True, True, True, True],
            "dial_c": 3.0,
            "held_c": 3.0,
            "eventful": [False, False, True, False, False, False],
            "at_limit": [False, False, False, True, False, False],
        },
        index=[at(f"2026-01-{n:02d}").date() for n in range(1, 7)],
    )
    counted = pd.Series([True, False, False, False, False, False], index=table.index)
    return table.assign(counted=counted, offset_k=(table["coldest_c"] - table["held_c"]).where(counted))


def test_the_nights_of_the_thermostat_add_up() -> None:
    """Each heated night once, by what keeps it from counting; the file has every night and its offset."""
    usual = {"dial_c": 3.0, "down_by_k": None, "usually_c": None, "coldest_c": None, "crop": None}
    advice = HoldAdvice(nights=1, reason="only 1 night", by_night=nights(), **usual)
    (table, figures) = hold_tables(review(replace(grounds(), hold_advice=advice)))
    assert [row[0] for row in table.rows] == ["1"] * 5
    assert table.title == "1 of 5\u00a0heated nights tell what the thermostat keeps"
    assert len(table.data) == 6 and table.data["offset K"].dropna().tolist() == [-1.0]
    assert figures.data.set_index("figure")["value"]["nights needed"] == 30


def test_the_plan_is_a_table_too() -> None:
    """A line a step with its dates, its cost and its care."""
    step = PlanStep(
        row="Keep", from_=at("2026-11-17").date(), to=at("2027-03-19").date(), what="Film up", why="26 to 48 %",
        lever="Film", caution="Take care.", cost=12.5,
    )  # fmt: skip
    table = pd.read_csv(io.StringIO(rows((step,), "EUR")))
    assert table.iloc[0].tolist() == [
        "Keep", "2026-11-17", "2027-03-19", "Film up", "26 to 48 %", "Film", 12.5, 0, "Take care.",
    ]  # fmt: skip


def test_what_is_not_in_the_sum_is_named_in_full() -> None:
    """Ten words fit under a table: nothing is cut to dots."""
    missing = ("some heat that was not recorded", "seed, soil and the like (no book of costs)")
    made = review(grounds(balance=balance(heat=30.0, total=30.0, missing=missing)))
    object.__setattr__(made, "harvest", SimpleNamespace(kg=None))
    object.__setattr__(made, "heat", SimpleNamespace(sources=()))
    found = Facts.of(made, made.counsel.grounds)
    (table,) = balance_table(Facts(r=found.r, w=Wording(us=False, currency="EUR"), there=found.there, on=found.on))
    whole = "The sum is without some heat that was not recorded and seed, soil and the like (no book of costs)."
    assert whole in table.notes and not any("…" in note for note in table.notes)
