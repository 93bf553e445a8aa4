"""Each kind of the harvest page: a season in which it must be told and one in which it must not."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from counsel import hand
from made_season import heater, picking, planting, season

from reportgen.counsel.kinds import KINDS
from reportgen.readings.types import Cost
from reportgen.season.models import Crop, Household, Place
from reportgen.season.sources import HeatSource

PLAIN = {"harvest": (picking("2026-01-06", 2.0), picking("2026-01-13", 2.0), picking("2026-01-20", 2.0))}
HEAT = {"heating": (heater([("2026-01-05", "2026-01-12", 100.0, 60.0)]),)}
GAS = {"heating": (heater([("2026-01-05", "2026-01-12", 90.0, 60.0)], fuel="propane", form="deliveries", unit="kg"),)}
LOSS = {"hold_found_c": 8.0, "loss_w_per_k": {"estimate": 100.0, "low": 80.0, "high": 120.0}}
PRICED = {"hold_found_c": 8.0, "price_of_degree": hand.PRICE_OF_DEGREE}
FILM = Cost(line=2, date=dt.date(2026, 1, 5), what="film", kind="cover", amount=80.0, years=4.0)
SEED = Cost(line=3, date=dt.date(2026, 1, 5), what="seed", kind="seed", amount=8.0, years=None)
WINTER = ("2025-11-03", "2026-03-01")


AUTUMN = {"span": ("2025-10-01", "2026-03-01"), "place": Place(latitude=49.0)}  # under ten hours from 28 October on


def sowing(day: str, crop: str, bed: str, until: str | None = None) -> Any:
    return planting(crop, bed, day, until, sown=dt.date.fromisoformat(day), area_m2=2.0)


TWO = (sowing("2025-09-01", "spinach", "east"), sowing("2025-10-20", "kale", "west"))
BEFORE = (picking("2025-10-20", 1.0, bed="east"), picking("2026-02-01", 1.0, "kale", bed="west"))
LATE = (picking("2025-12-01", 1.0, bed="east"), picking("2026-02-01", 1.0, "kale", bed="west"))
AREAS = (Crop(name="spinach", area_m2=1.0), Crop(name="kale", area_m2=4.0))
BOTH = {
    "harvest": tuple(picking(day, 2.0, crop) for day in ("2026-01-06", "2026-01-13") for crop in ("spinach", "kale"))
}
# slug → (season it must be told of, season it must not): keys of `make`
TRUTHS: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "harvest-not-weighed": ({}, PLAIN),
    "fed-the-household": (PLAIN, PLAIN | {"household": Household()}),
    "longest-gap": ({"harvest": (picking("2026-01-06", 2.0), picking("2026-01-30", 2.0))}, PLAIN),
    "lost-harvest": ({"harvest": (picking("2026-01-06", 2.0), picking("2026-01-07", 1.0, use="lost"))}, PLAIN),
    "best-use-of-ground": (BOTH | {"crops": AREAS}, BOTH | {"crops": (Crop(name="spinach", area_m2=4.0), AREAS[1])}),
    "sown-in-time": (
        AUTUMN | {"plantings": TWO, "harvest": BEFORE},
        AUTUMN
        | {"plantings": (TWO[0], sowing("2026-01-10", "kale", "west")), "harvest": BEFORE},  # all later in spring
    ),
    "empty-beds": (
        {"span": WINTER, "plantings": (sowing("2025-09-01", "spinach", "east", "2025-12-20"),), "harvest": LATE[:1]},
        {"span": WINTER, "plantings": TWO, "harvest": LATE},
    ),
    "delivery-lasts": (PLAIN | GAS | {"heat": LOSS}, PLAIN | HEAT | {"heat": LOSS}),
}


def make(
    crops: tuple[Crop, ...] = (Crop(name="spinach", shop_price_per_kg=6.0),),
    household: Household = Household(people=2, vegetables_kg_per_week=2.0),  # noqa: B008 - frozen
    span: tuple[str, str] = ("2026-01-05", "2026-02-01"),
    next_price: float | None = 0.4,
    place: Place = Place(),  # noqa: B008 - frozen
    **more: Any,
) -> Any:
    source = HeatSource(name="fan heater", fuel="electricity", meter="m.csv", next_price=next_price)
    of = season(*span, crop=crops, household=household, place=place, heating=(source,) if "heating" in more else ())
    return hand.results(of, **more)


@pytest.mark.parametrize("slug", sorted(TRUTHS))
def test_it_is_told_of_its_season_and_of_no_other(slug: str) -> None:
    """Told once where it is true, and not at all where the one thing that makes it true is gone."""
    due, not_due = TRUTHS[slug]
    assert [f.slug for f in hand.told_on(make(**due), "harvest")].count(slug) == 1
    assert slug not in [f.slug for f in hand.told_on(make(**not_due), "harvest")]


def test_every_kind_of_the_harvest_has_its_truth() -> None:
    """All kinds of the page stand in the table, but for those on counsel's grounds, which have their own tests."""
    kinds = {slug for slug, kind in KINDS.items() if kind.page == "harvest"} - {"the-balance", "loss-by-cause"}
    assert kinds == set(TRUTHS)
