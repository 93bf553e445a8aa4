"""The harvest's findings on made-up seasons: which must appear, which must stay silent, and that their words stand."""

from __future__ import annotations

from typing import Any

import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import heater, picking, season, store

from reportgen.counsel.harvest import findings
from reportgen.season.models import Crop, Household
from reportgen.season.sources import HeatSource


def results(show: str = "metric", **more: Any) -> Any:
    heating = (HeatSource(name="fan heater", fuel="electricity", meter="m.csv", next_price=0.4),)
    made = season(
        show=show,
        crop=(Crop(name="spinach", shop_price_per_kg=6.0),),
        household=Household(people=2, vegetables_kg_per_week=2.0),
        heating=heating if "heating" in more else (),
    )
    return hand.results(made, **more)


DEAR = {"harvest": (picking("2026-01-06", 5.0),), "heating": (heater([("2026-01-05", "2026-01-12", 100.0, 60.0)]),)}
CHEAP = {"harvest": (picking("2026-01-06", 5.0),), "heating": (heater([("2026-01-05", "2026-01-12", 10.0, 3.0)]),)}


def test_without_a_book_only_the_missing_book_is_told() -> None:
    """No harvest.csv: one finding, that the cost cannot be told, and what to log."""
    (only,) = findings(results())
    assert (only.slug, only.sure) == ("harvest-not-weighed", "cannot tell")


@pytest.mark.parametrize(("books", "stake"), [(DEAR, "money"), (CHEAP, "good news")])
def test_shop_value_against_heat_is_bad_or_good_news(books: dict[str, Any], stake: str) -> None:
    """5 kg at 6.00 are worth 30.00: less than 60.00 of heat, more than 3.00."""
    found = {f.slug: f for f in findings(results(**books))}
    assert found["against-the-shop"].stake == stake


def test_a_house_without_losses_or_gaps_is_not_scolded() -> None:
    """Nothing lost and one week picked: no finding of loss, gap or empty beds."""
    slugs = {f.slug for f in findings(results(**CHEAP))}
    assert not slugs & {"lost-harvest", "longest-gap", "empty-beds"}


def test_a_loss_is_told_with_its_weight() -> None:
    """1 kg lost of 6 kg is told; its stake is the crop."""
    picks = (picking("2026-01-06", 5.0), picking("2026-01-07", 1.0, use="lost"))
    found = {f.slug: f for f in findings(results(harvest=picks))}
    assert found["lost-harvest"].stake == "crop lost"
    assert "1.0\u00a0kg of 6.0\u00a0kg" in found["lost-harvest"].claim


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_may_stand(show: str) -> None:
    """Both ways of printing pass the rules of wording."""
    picks = (picking("2026-01-06", 5.0), picking("2026-01-28", 1.0, use="lost"), picking("2026-01-30", 0.4))
    told = findings(results(show, harvest=picks, heating=DEAR["heating"]))
    words = [text for f in told for text in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if text]
    assert {text: faults(text) for text in words if faults(text)} == {}


PRICED = {"hold_found_c": 8.0, "price_of_hold": hand.PRICE_OF_HOLD}


def test_the_last_two_degrees_are_told_by_the_price_of_a_degree() -> None:
    """60 of 100 kWh at a hold 2 K lower: 40 % of the 60.00 that were paid are 24.00, 4.80 a kilogram; next winter's
    price is for the bill ahead alone."""
    found = {f.slug: f for f in findings(results(**DEAR, heat=PRICED))}
    told = found["last-two-degrees"]
    assert "EUR\u00a024" in told.evidence and "EUR\u00a04.80" in told.claim
    assert told.caution and "residual-current" in told.caution
    assert found["next-winters-bill"].sources[0].value == pytest.approx(40.0)
    assert "EUR\u00a056" in found["next-winters-bill"].evidence


def test_without_a_price_of_a_degree_nothing_is_said_of_the_last_two() -> None:
    """No rows of the price of a degree, or none within reach: silence."""
    assert not {f.slug for f in findings(results(**DEAR))} & {"last-two-degrees"}
    far = {"hold_found_c": 20.0, "price_of_hold": hand.PRICE_OF_HOLD}
    assert not {f.slug for f in findings(results(**DEAR, heat=far))} & {"last-two-degrees"}


def test_a_delivery_that_lasts_less_than_a_day_is_a_risk_to_the_crop() -> None:
    """90 kWh against 100 W/K over 23 K last 39 h; against 400 W/K not a day. Of the second 90 only 40 were burnt."""
    rows = [("2026-01-05", "2026-01-15", 90.0, 30.0), ("2026-01-15", "2026-02-01", 40.0, 14.0)]
    gas = heater(rows, fuel="propane", form="deliveries", unit="kg", stock=store(90.0, 90.0, left=50.0))
    for loss, stake in ((100.0, "record"), (400.0, "crop at risk")):
        heat = {"hold_found_c": 8.0, "loss_w_per_k": {"estimate": loss, "low": 0.8 * loss, "high": 1.1 * loss}}
        found = {f.slug: f for f in findings(results(harvest=DEAR["harvest"], heating=(gas,), heat=heat))}
        assert found["delivery-lasts"].stake == stake
        assert "carbon monoxide" in (found["delivery-lasts"].caution or "")
        assert found["delivery-lasts"].sources[0].value == pytest.approx(90_000 / (loss * 23.0))


@pytest.mark.parametrize("show", ["metric", "us"])
def test_the_sentences_that_look_ahead_may_stand(show: str) -> None:
    """Bill, last two degrees and delivery pass the rules of wording in both ways of printing."""
    heat = PRICED | {"loss_w_per_k": {"estimate": 120.0, "low": 100.0, "high": 140.0}}
    rows = [("2026-01-05", "2026-01-15", 11.0, 30.0), ("2026-01-15", "2026-02-01", 4.0, 14.0)]
    gas = heater(rows, fuel="propane", form="deliveries", unit="gal_us")
    told = findings(results(show, harvest=DEAR["harvest"], heating=(gas,), heat=heat))
    assert {"last-two-degrees", "next-winters-bill", "delivery-lasts"} <= {f.slug for f in told}
    words = [text for f in told for text in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if text]
    assert {text: faults(text) for text in words if faults(text)} == {}
