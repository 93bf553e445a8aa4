"""The harvest's findings on made-up seasons: which must appear, which must stay silent, and that their words stand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import pytest
from findings.sentences import faults
from made_season import heater, picking, readings, season

from reportgen.findings.harvest import findings
from reportgen.measures.harvest import harvest
from reportgen.season.models import Crop, Household

if TYPE_CHECKING:
    from reportgen.findings.results import Results


def results(show: str = "metric", **more: Any) -> Results:
    made = season(
        show=show,
        crop=(Crop(name="spinach", shop_price_per_kg=6.0),),
        household=Household(people=2, vegetables_kg_per_week=2.0),
    )
    read = readings(made, **more)
    return cast("Results", SimpleNamespace(season=made, readings=read, harvest=harvest(read)))


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
