"""Other holds: which way counts, with which span, and what is refused; on houses made by closed forms."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from heated_house import house

from reportgen.measures.heat import heat
from reportgen.measures.heat_types import Stretch
from reportgen.measures.heating_hours import heat_by_day, heat_by_hour, heat_curves
from reportgen.measures.hold import stretches, with_heat
from reportgen.measures.hold_price import Paid
from reportgen.measures.house.season import HouseModel, house_model, no_house
from reportgen.measures.other_holds import SPANS, OtherHolds, away_k, other_holds
from reportgen.problems import NotEnoughData
from reportgen.readings.types import Readings


def told(made: Readings, model: HouseModel, found: tuple[Stretch, ...] | None = None, **more: bool) -> OtherHolds:
    """The tables of that house."""
    by_hour = heat_by_hour(made)
    found = found or with_heat(stretches(made, by_hour), heat_by_day(made))
    kwh = sum(one.kwh for one in found)
    paid = Paid(found=found, kwh=kwh, cost=0.3 * kwh)
    return other_holds(made, by_hour, heat_curves(made), model, paid, 8.0, flat_out=more.get("flat_out", False))


def ends(found: OtherHolds, kwh: float) -> tuple[float, float, float, float]:
    """Ends ÷ told change of a kelvin less and more: less, most of less, least of more, most."""
    less, more = (next(row for row in found.degrees if row.away_k == away) for away in (-1.0, 1.0))
    return tuple(  # type: ignore[return-value]
        (getattr(row, end) - kwh) / (row.kwh - kwh)
        for row, names in ((less, ("high", "low")), (more, ("low", "high")))
        for end in names
    )


@pytest.mark.parametrize(
    ("every", "days", "blind", "name"),
    [
        (1, 56, False, "the house run again, with degree-hours"),
        (1, 56, True, "degree-hours by days"),
        (24 * 7, 56, True, "degree-hours by readings"),
        (24 * 28, 56 * 3, True, "degree-hours by monthly readings"),
    ],
)
def test_each_way_has_the_span_of_its_study(every: int, days: int, blind: bool, name: str) -> None:
    """The heat of this house follows the cold without a miss, so the readings add nothing to the span."""
    made = house(every=every, days=days)
    found = told(made, no_house("not asked for") if blind else house_model(made))
    kwh = sum(one.kwh for one in with_heat(stretches(made, heat_by_hour(made)), heat_by_day(made)))
    span = SPANS[name]
    assert found.by_run is not blind
    assert ends(found, kwh) == pytest.approx((*span.less, *span.more), abs=0.02)


def test_the_moves_are_two_kelvin_and_one_degree_as_shown() -> None:
    """Celsius, and Fahrenheit of 5/9 K."""
    assert away_k(False) == (-2.0, -1.0, 1.0, 2.0)
    assert away_k(True) == pytest.approx((-2.0, -5 / 9, 5 / 9, 2.0))


def test_a_tenth_of_the_heat_may_lie_where_the_hold_is_not_known() -> None:
    """56 days in two stretches, the second of ten days and without a hold: a tenth of the heat is told, more is not."""
    made = house()
    (whole,) = with_heat(stretches(made, heat_by_hour(made)), heat_by_day(made))
    cut = whole.last - dt.timedelta(days=10)
    for share in (0.1, 0.101):
        parts = (
            replace(whole, last=cut, kwh=1000.0 * (1 - share)),
            replace(whole, first=cut + dt.timedelta(days=1), hold_c=None, kwh=1000.0 * share),
        )
        if share > 0.1:
            with pytest.raises(NotEnoughData, match="two turns of the thermostat"):
                told(made, no_house(""), parts)
        else:
            assert told(made, no_house(""), parts).rows


def test_a_heater_flat_out_overstates_a_lower_hold_where_no_balance_knows_it() -> None:
    """1 K lower by 1.0675 (1.27 at 4 K); the run of the balance knows the heater's limit."""
    made = house()
    for model, factor in ((no_house(""), 1.0675), (house_model(made), 1.0)):
        plain, flat = (told(made, model, flat_out=out).degrees[1] for out in (False, True))
        assert flat.low == pytest.approx(plain.low / factor) and flat.high == plain.high


def test_the_section_has_both_tables_or_says_why_not() -> None:
    """Four moves beside the holds; without heat the reasons stand under both keys."""
    found = heat(house())
    assert [row.away_k for row in found.price_of_degree] == list(away_k(False)) and len(found.price_of_hold) == 13
    cold = heat(replace(house(), heating=()))
    assert cold.price_of_degree == () and cold.reasons["price_of_degree"]
