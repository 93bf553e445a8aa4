"""What the Heat page says of the house and its heaters, at its bounds; numbers by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pytest
from counsel.grounded import FAN, GAS, event, grounds, winter
from counsel.sentences import faults

from reportgen.counsel import cautions, heat, heat_more
from reportgen.counsel.facts import Facts
from reportgen.counsel.types import Said
from reportgen.measures.exposure import Band
from reportgen.measures.frost_types import HoldingLimit
from reportgen.measures.heat_types import HeaterNeeded, Source
from reportgen.season import HeatSource

NBSP = "\u00a0"
NONE = HeaterNeeded(coldest_hour=None, five_colder=None, to_buy=None)
RATED = FAN.model_copy(update={"rated_power_w": 1000.0})


def facts(*, sources: Any = (FAN,), events: Any = (), toml: Any = None, **more: Any) -> Facts:
    usual: dict[str, Any] = {
        "loss_w_per_k": Band(estimate=90.0, low=80.0, high=100.0),
        "loss_expected_w_per_k": None,
        "loss_with_air": False,
        "loss_nights": 41,
        "loss_by_state": (),
        "above_target_kwh": None,
        "kwh": 300.0,
        "cost": 90.0,
        "sources": (),
        "holds": ((dt.date(2025, 10, 11), 6.0),),
        "heater_needed_w": NONE,
        "reasons": {},
    }
    r = winter(
        heat=SimpleNamespace(**(usual | more)),
        sources=sources,
        toml=toml or {},
        frost=SimpleNamespace(holding_limit=HoldingLimit()),
    )
    return Facts.of(r, grounds(events=events))


def stands(found: Said | None) -> Said:
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


@pytest.mark.parametrize(("expected", "leaky"), [(69.0, True), (70.0, False)])
def test_a_house_that_loses_three_tenths_more_than_its_cover_has_gaps(expected: float, leaky: bool) -> None:
    """90 W/K found: 1.304 times 69, 1.286 times 70."""
    found = stands(heat.loss(facts(loss_expected_w_per_k=expected)))
    assert ("Close gaps" in found.next_step) == leaky and f"{expected:.0f}{NBSP}W/K" in found.claim
    assert (
        f"90{NBSP}W" in found.claim
        and f"41{NBSP}nights" in found.evidence
        and f"80{NBSP}W/K and 100{NBSP}W/K" in found.evidence
    )


def test_no_gap_is_closed_around_a_burner_without_a_flue() -> None:
    """A flue first; where nobody told, the word for it; a vented one, with the caution of sealing."""
    leaky: dict[str, Any] = {"loss_expected_w_per_k": 60.0}
    open_ = stands(heat.loss(facts(sources=(FAN, GAS), **leaky)))
    assert "Give the burner a flue" in open_.next_step and open_.caution == cautions.SEAL
    unsaid = (GAS.model_copy(update={"vented": None}),)
    assert "Make sure that the burner has a flue" in stands(heat.loss(facts(sources=unsaid, **leaky))).next_step
    vented = stands(heat.loss(facts(sources=(GAS.model_copy(update={"vented": True}),), **leaky)))
    assert "Close gaps" in vented.next_step and vented.caution == cautions.SEAL
    assert stands(heat.loss(facts(**leaky))).caution is None
    assert stands(heat.loss(facts(sources=(GAS,), loss_expected_w_per_k=90.0))).caution is None


def test_what_the_loss_is_set_beside() -> None:
    """Nothing, the cover, or the cover and the air; as the house is now where it had states; else silent."""
    assert "u_value" in stands(heat.loss(facts())).next_step and "account" not in stands(heat.loss(facts())).claim
    assert "air changes" in stands(heat.loss(facts(loss_expected_w_per_k=90.0, loss_with_air=True))).claim
    assert "air changes" not in stands(heat.loss(facts(loss_expected_w_per_k=90.0))).claim
    assert "as the house is now" in stands(heat.loss(facts(loss_by_state=(1, 2)))).evidence
    assert "as the house is now" not in stands(heat.loss(facts(loss_by_state=(1,)))).evidence
    assert heat.loss(facts(loss_w_per_k=Band(estimate=float("nan")))) is None
    us = stands(heat.loss(facts(toml={"show": "us"})))
    assert f"50{NBSP}W" in us.claim  # 90 × 5/9


@pytest.mark.parametrize(("above", "told"), [(30.0, True), (29.0, False)])
def test_a_tenth_of_the_heat_above_the_aim_is_told(above: float, told: bool) -> None:
    """30 of 300 kWh are EUR 9 of 90."""
    found = heat.over_target(facts(above_target_kwh=above))
    assert (found is not None) == told
    if found is not None:
        assert (
            f"EUR{NBSP}9.00" in stands(found).claim
            and f"10{NBSP}%" in found.evidence
            and found.weight == pytest.approx(9.0)
        )
    free = stands(heat.over_target(facts(above_target_kwh=60.0, cost=None)))
    assert "EUR" not in free.claim and free.weight == 0.0
    assert heat.over_target(facts()) is None and heat.over_target(facts(above_target_kwh=60.0, kwh=0.0)) is None


def needed(hour: float = 1200.0, to_buy: float | None = 1500.0, **more: Any) -> HeaterNeeded:
    bands = {
        "coldest_band": Band(estimate=hour, low=1000.0, high=1400.0),
        "five_band": Band(estimate=1.0, low=1300.0, high=1700.0),
    }
    return HeaterNeeded(
        **({"coldest_hour": hour, "five_colder": 1.0, "to_buy": to_buy, "coldest_c": -12.0} | bands | more)
    )


@pytest.mark.parametrize(
    ("watts", "short", "step"),
    [
        (1199.0, True, "licensed trade"),
        (1200.0, False, "single hours"),
        (1499.0, False, "single hours"),
        (1500.0, False, "large enough"),
    ],
)
def test_a_heater_is_short_of_the_hardest_hours_or_of_what_is_to_buy(watts: float, short: bool, step: str) -> None:
    """1200 W asked for, 1500 W to buy: short, just carries, or large enough."""
    main = (FAN.model_copy(update={"rated_power_w": watts}),)
    found = stands(heat.size(facts(sources=main, heater_needed_w=needed())))
    assert (found.stake == "crop at risk") == short and (found.caution == cautions.MAINS) == short
    assert step in found.next_step and found.weight == pytest.approx(1200.0 / watts)
    for words in (f"−12.0{NBSP}°C", f"1\u202f200{NBSP}W of heat", "the main heater gives"):
        assert words in found.claim
    for words in (
        f"1\u202f000{NBSP}W and 1\u202f400{NBSP}W",
        f"1\u202f300{NBSP}W and 1\u202f700{NBSP}W",
        f"1\u202f500{NBSP}W is wanted",
    ):
        assert words in found.evidence


def test_what_the_main_heaters_give_is_summed_by_their_efficiency() -> None:
    """1000 + 0.5 × 800 W; a backup does not count; one without a rated power, or none, is not known."""
    second = HeatSource(name="tube", fuel="electricity", meter="m.csv", rated_power_w=800.0, efficiency=0.5)
    assert heat.rated_heat_w(facts(sources=(RATED, second, GAS))) == 1400.0
    assert heat.rated_heat_w(facts(sources=(RATED, FAN))) is None and heat.rated_heat_w(facts(sources=(GAS,))) is None
    two = stands(heat.size(facts(sources=(RATED, second), heater_needed_w=needed())))
    assert f"the main heaters give 1\u202f400{NBSP}W" in two.claim
    unknown = stands(heat.size(facts(heater_needed_w=needed())))
    assert "gives" not in unknown.claim and unknown.weight == 0.0 and "large enough" in unknown.next_step
    for gone in ("coldest_hour", "to_buy", "coldest_band", "five_band"):
        assert heat.size(facts(heater_needed_w=needed(**{gone: None}))) is None


def source(name: str = "fan heater", **more: Any) -> Source:
    usual: dict[str, Any] = {
        "fuel": "electricity",
        "role": "main",
        "kwh": 300.0,
        "bought": 300.0,
        "bought_unit": "kWh",
        "cost": 90.0,
        "hours_flat_out": None,
    }
    return Source(name=name, **(usual | more))


@pytest.mark.parametrize(("hours", "told"), [(6.0, True), (5.9, False), (None, False)])
def test_six_hours_flat_out_are_told_where_its_size_is_not(hours: float | None, told: bool) -> None:
    """Of two the longer; where the size could be told it is silent."""
    two = (source("tube", hours_flat_out=1.0), source(hours_flat_out=hours))
    found = heat_more.flat_out(_with(two))
    assert (found is not None) == told
    if found is not None:
        assert f"6{NBSP}h" in stands(found).claim and found.about == "fan heater" and found.weight == 6.0
    assert heat_more.flat_out(_with((source(hours_flat_out=99.0),), heater_needed_w=needed())) is None
    assert heat_more.flat_out(_with((source(hours_flat_out=99.0),), heater_needed_w=needed(to_buy=None))) is not None
    assert heat_more.flat_out(_with(())) is None


def _with(sources: Any, **more: Any) -> Facts:
    """Facts of a heat section with these sources measured."""
    found = facts(events=more.pop("events", ()), **more)
    section = SimpleNamespace(**(vars(found.r.heat) | {"sources": sources}))
    object.__setattr__(found.r, "heat", section)
    return found


def test_a_flame_without_a_flue_is_told_by_its_water() -> None:
    """1.5 + 2 kg of two burners; under a kilogram its heat; vented, electric, unlit: silent; an event tells."""
    gas = source("gas", fuel="propane", vented=False, kwh=140.0, water_kg=1.5)
    oil = source("oil lamp", fuel="paraffin", vented=False, kwh=60.0, water_kg=2.0)
    two = stands(heat_more.unvented(_with((gas, oil))))
    assert (
        "gas heater and oil lamp" in two.claim
        and "their fumes" in two.claim
        and f"4{NBSP}kg" in two.claim
        and two.weight == 3.5
    )
    assert f"200{NBSP}kWh" in two.evidence and two.sources[0].value == 3.5
    dry = stands(heat_more.unvented(_with((source("gas", fuel="propane", vented=False, kwh=140.0, water_kg=0.9),))))
    assert "water free" not in dry.claim and dry.figure == f"140{NBSP}kWh" and "its fumes" in dry.claim
    assert (
        "water free"
        in stands(heat_more.unvented(_with((source("gas", fuel="propane", vented=False, water_kg=1.0),)))).claim
    )
    for other in ({"vented": True}, {"vented": None}, {"fuel": "electricity"}, {"kwh": 0.0}, {"kwh": None}):
        assert (
            heat_more.unvented(
                _with((source("gas", **({"fuel": "propane", "vented": False, "water_kg": 2.0} | other)),))
            )
            is None
        )
    assert heat_more.unvented(_with((gas,), events=(event("safety", "fumes", source="gas"),))) is None
    assert heat_more.unvented(_with((gas,), events=(event("safety", "fumes"), event(source="gas")))) is not None


def test_heat_that_nobody_knows_has_no_price() -> None:
    """With its reason; nothing given, something known, or no heater: silent."""
    found = stands(heat_more.no_heat_known(facts(kwh=None, reasons={"kwh": "no price is known"})))
    assert found.evidence == "No price is known." and found.weight == 3.0
    assert "missing" in stands(heat_more.no_heat_known(facts(kwh=None))).evidence
    for silent in (facts(kwh=0.0), facts(), facts(kwh=None, sources=())):
        assert heat_more.no_heat_known(silent) is None
