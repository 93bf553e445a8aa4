"""The harvest's findings on made-up seasons: which must appear, which must stay silent, and that their words stand."""

from __future__ import annotations

from typing import Any

import pytest
from counsel import hand
from counsel.sentences import faults
from made_season import heater, picking, season, store

from reportgen.season.models import Crop, Household
from reportgen.season.sources import HeatSource


def findings(r: Any, on: Any = None) -> tuple[Any, ...]:
    """What the harvest page's kinds say."""
    return hand.told_on(r, "harvest", on=on)


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
    """A delivery's sentences pass the rules of wording in both ways of printing."""
    heat = {"hold_found_c": 8.0, "loss_w_per_k": {"estimate": 120.0, "low": 100.0, "high": 140.0}}
    rows = [("2026-01-05", "2026-01-15", 11.0, 30.0), ("2026-01-15", "2026-02-01", 4.0, 14.0)]
    gas = heater(rows, fuel="propane", form="deliveries", unit="gal_us")
    told = findings(results(show, harvest=DEAR["harvest"], heating=(gas,), heat=heat))
    assert "delivery-lasts" in {f.slug for f in told}
    words = [text for f in told for text in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if text]
    assert {text: faults(text) for text in words if faults(text)} == {}
