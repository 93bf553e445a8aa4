"""The harvest page and the two winters': what they show of known seasons, in both ways of printing."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any, cast

import pandas as pd
import pytest
from counsel import hand
from made_season import heater, picking, planting, season

from reportgen.charts import harvest, winters
from reportgen.charts.harvest_next import ahead
from reportgen.charts.harvest_strips import parts_words
from reportgen.charts.harvest_tables import crops, strips, weeks
from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.facts import Facts
from reportgen.readings.types import Cost
from reportgen.season.models import Crop, Household
from reportgen.season.sources import HeatSource
from reportgen.winters import EqualWeather, Row, Winters


def made(show: str = "metric", **more: Any) -> Any:
    currency = more.pop("currency", "EUR")
    source = HeatSource(name="fan heater", fuel="electricity", meter="m.csv", next_price=0.4 if currency else None)
    of = season(
        show=show,
        crop=(Crop(name="spinach", shop_price_per_kg=6.0, area_m2=2.0),),
        household=Household(people=2, vegetables_kg_per_week=2.0),
        heating=(source,) if "heating" in more else (),
    )
    return hand.results(of.model_copy(update={"currency": currency}), **more)


BOOKS: dict[str, Any] = {
    "harvest": (picking("2026-01-06", 4.5359237, bed="east"), picking("2026-01-20", 1.0, bed="east")),
    "plantings": (planting("spinach", "east", "2026-01-05", area_m2=2.0, sown=dt.date(2025, 12, 1)),),
    "heating": (heater([("2026-01-05", "2026-01-12", 100.0, 60.0)]),),
}


def test_without_weights_the_page_says_what_to_weigh() -> None:
    """One missing-note, and no chart."""
    found = harvest.page(made())
    assert not found.answers
    (note,) = found.blocks
    assert isinstance(note, Note) and note.kind == "missing" and "harvest.csv" in note.text


def test_a_small_harvest_is_not_nothing() -> None:
    """40 g are 0.04 kg on the bars and beside the strips; 4.5 kg stay at a decimal. One way of counting is named."""
    small = BOOKS | {"harvest": (picking("2026-01-06", 0.04, bed="east"),)}
    drawn = {b.uid: b for b in harvest.page(made(**small)).blocks if isinstance(b, Drawing)}
    assert "0.04\u00a0kg" in drawn["harvest_crops"].description
    assert parts_words(made(**small), 0.04) == "0.04\u00a0kg"
    w = Facts.of(made(**BOOKS)).w
    assert (w.picked(4.54), w.picked(0.96), w.picked(0.0)) == ("4.5\u00a0kg", "0.96\u00a0kg", "0.0\u00a0kg")


def test_every_chart_has_its_words_its_table_and_two_widths() -> None:
    """Each drawing of a small season has a title, a description, a table with rows, and wide and narrow charts."""
    found = harvest.page(made(**BOOKS))
    drawings = [b for b in found.blocks if isinstance(b, Drawing)]
    assert {d.uid for d in drawings} >= {"harvest_running", "harvest_weeks", "harvest_crops", "harvest_beds"}
    for d in drawings:
        assert d.title and d.description.endswith(".") and len(d.table)
        assert d.wide.to_dict() and d.narrow.to_dict()


@pytest.mark.parametrize("show", ["metric", "us"])
def test_without_a_currency_no_word_says_that_it_is_missing(show: str) -> None:
    """A heater that used nothing, without price or currency: no column, title or note holds "None" or "0.00"."""
    idle = heater([("2026-01-05", "2026-02-02", 0.0, float("nan"))])
    found = made(show, **(BOOKS | {"heating": (idle,)}), currency=None)
    page = harvest.page(found)
    said = [page.headline, page.lead]
    for block in page.blocks:
        said += [text for name in ("title", "subtitle", "description", "text") if (text := getattr(block, name, None))]
        said += [str(note) for note in getattr(block, "notes", ())]
        if isinstance(block, Drawing):
            said += [str(column) for column in block.table.columns]
    assert not [text for text in said if "None" in text or "0.00" in text]
    assert found.harvest.cost_per_kg is None and found.harvest.reasons["cost_per_kg"]


def test_heat_that_cost_next_to_nothing_has_its_page() -> None:
    """A thousandth of money over 5.5 kg: 0.00 a kilogram, as it was paid, and charts that stand."""
    page = harvest.page(made(**(BOOKS | {"heating": (heater([("2026-01-05", "2026-01-12", 100.0, 0.001)]),)})))
    assert page.answers and "EUR\u00a00.00 per" in page.headline


def test_half_of_a_total_is_reached_on_the_day_it_is_reached() -> None:
    """Of 1, 2, 7, 10 half (5) is reached on the third day; a total of nothing has no such day."""
    days = [dt.date(2026, 1, n) for n in (1, 2, 3, 4)]
    assert harvest.half_day(pd.Series([1.0, 2.0, 7.0, 10.0], days)) == days[2]
    assert harvest.half_day(pd.Series([0.0, 0.0], days[:2])) is None


def test_pounds_and_square_feet_are_exact_conversions() -> None:
    """4.5359237 kg are 10 lb (exact, NIST SP 811), and 1 kg/m² is 0.2048 lb/ft² (0.3048² ÷ 0.45359237)."""
    us = made("us", **BOOKS)
    assert weeks(us)["lb picked"].iloc[0] == pytest.approx(10.0)
    per_m2 = crops(made(**BOOKS))["kg/m²"].iloc[0]
    assert crops(us)["lb/ft²"].iloc[0] == pytest.approx(0.20482 * per_m2, rel=1e-4)
    assert strips(us)["lb/ft² and week"].iloc[0] == pytest.approx(
        0.20482 * strips(made(**BOOKS))["kg/m² and week"].iloc[0], rel=1e-4
    )


def test_next_winters_table_keeps_this_winters_prices_apart_from_the_next() -> None:
    """As it was 60.00, and 36.00 at 2 K less hold; at 0.40 a kWh 40.00, 2 K colder 56.00, 2 K less hold 24.00. What is
    spared is told against the same hold at the same prices."""
    heat = {"hold_found_c": 8.0, "price_of_degree": hand.PRICE_OF_DEGREE}
    (table,) = [b for b in ahead(Facts.of(made(**BOOKS, heat=heat))) if isinstance(b, Table)]
    assert table.data["EUR for heat"].tolist() == pytest.approx([60.0, 36.0, 40.0, 56.0, 24.0])
    assert table.data["EUR less than at the same hold"].tolist() == pytest.approx([0.0, 24.0, 0.0, -16.0, 16.0])


def compared(*rows: Row) -> Any:
    return cast("Any", hand.results(winters=Winters(last="The winter before", rows=rows, reasons={})))


def row(key: str, unit: str, last: float, this: float, low: float | None = None, headline: bool = False) -> Row:
    equal = None
    if low is not None:
        equal = EqualWeather(
            effect=low + 1, low=low, high=low + 2, days_last=99, days_this=99, columns=(), smallest_visible=1.0
        )
    return Row(key=key, what=key, unit=unit, last=last, this=this, at_equal_weather=equal, headline=headline)


def test_headlines_stand_first_and_one_file_holds_all_rows() -> None:
    """The first table shows the headlines; its file has the others too."""
    found = winters.page(compared(row("kg", "kg", 20.0, 30.0, headline=True), row("gap", "weeks", 3.0, 1.0)))
    first, rest = (b for b in found.blocks if isinstance(b, Table) and b.uid in ("winters_rows", "winters_more"))
    assert [cells[0] for cells in first.rows] == ["kg"] and [cells[0] for cells in rest.rows] == ["gap"]
    assert first.data["key"].tolist() == ["kg", "gap"]


def test_values_are_told_in_their_unit_with_the_digits_they_bear() -> None:
    """Counts have no decimals, one of a thing is singular, shares differ in points, differences carry a real minus."""
    page = winters.page(
        compared(row("gap", "weeks", 3.0, 1.0), row("held", "share", 0.99, 0.73), row("lift", "K", 3.5, 4.6, low=-0.5))
    )
    cells = {cells[0]: cells[1:] for b in page.blocks if isinstance(b, Table) for cells in b.rows}
    assert cells["gap"] == ("3\u00a0weeks", "1\u00a0week", "\u22122\u00a0weeks", "—")
    assert cells["held"][:3] == ("99\u00a0%", "73\u00a0%", "\u221226\u00a0points")
    assert cells["lift"] == ("3.5\u00a0K", "4.6\u00a0K", "1.1\u00a0K", "\u22120.5 to 1.5\u00a0K")


def test_an_interval_that_was_never_tried_bears_no_verdict_and_says_so() -> None:
    """Light was not in the study of two winters: its row keeps the interval and a note; heat has no such note."""
    page = winters.page(
        compared(row("daily_light", "mol/m² a day", 9.0, 8.0, low=-2.5), row("heat", "kWh a day", 9.0, 8.0, low=-2.5))
    )
    (rest,) = (b for b in page.blocks if isinstance(b, Table) and b.uid == "winters_more")
    assert [n for n in rest.notes if n.startswith("No verdict")] == [
        "No verdict: daily_light was never tried on winters of known truth."
    ]
    assert rest.rows[0][-1] != "—"


def test_without_a_last_winter_the_page_says_how_to_have_one() -> None:
    """One missing-note that names [last_season]."""
    found = winters.page(hand.results())
    (note,) = found.blocks
    assert isinstance(note, Note) and "as the last season" in note.text and not found.answers


def test_the_headline_says_what_differs_or_that_nothing_can_be_said() -> None:
    """No difference that matters only where the interval lies inside what is cared for; a wide one is left open."""
    open_ = row("lift", "K", 3.5, 4.6, low=-0.5)
    wide_equal = open_.at_equal_weather
    assert wide_equal is not None
    wide = winters.page(compared(open_))
    assert wide.headline.startswith("Nothing stands out from last winter")
    alike = row("lift", "K", 3.5, 3.6)
    within = replace(wide_equal, effect=0.1, low=-0.1, high=0.3)
    alike = replace(alike, at_equal_weather=within)
    assert winters.page(compared(alike)).headline.startswith("No difference from last winter that matters")
    assert "could not be taken out" in winters.page(compared(row("kg", "kg", 20.0, 30.0))).headline


def test_one_way_of_counting_is_named_and_a_pound_is_a_word() -> None:
    """Without heat the one bar is of what was used up; in pounds a title says pound."""
    cost = Cost(line=2, date=dt.date(2026, 1, 6), what="seed", kind="seed", amount=6.4, years=1.0)
    for show, unit in (("metric", "kg"), ("us", "pound")):
        bare = {"harvest": BOOKS["harvest"], "costs": (cost,)}
        drawn = {b.uid: b for b in harvest.page(made(show=show, **bare)).blocks if isinstance(b, Drawing)}
        assert "heat alone" not in drawn["harvest_costs"].subtitle and "used up" in drawn["harvest_costs"].subtitle
        assert f"a {unit} came to" in drawn["harvest_costs"].title
