"""What the Harvest page says and two winters side by side: shares, dates and bounds by hand."""

from __future__ import annotations

import dataclasses
import datetime as dt
from types import SimpleNamespace
from typing import Any

import pytest
from counsel.grounded import FAN, GAS, event, grounds, lever, winter
from counsel.sentences import faults
from made_season import heater, season, store

from reportgen.counsel import answers_winters, cautions, harvest, harvest_beds, harvest_next, perfect
from reportgen.counsel.facts import Facts
from reportgen.counsel.harvest_words import picked_words, seldom_weighed
from reportgen.counsel.types import Said
from reportgen.counsel.winters import than_last
from reportgen.measures.beds import Strip
from reportgen.measures.beds_bare import Bare
from reportgen.measures.harvest import CropYield
from reportgen.measures.harvest_next import Delivery, Lasting
from reportgen.season.models import Household
from reportgen.winters import EqualWeather, Row, Winters

NBSP = "\u00a0"


def stands(found: Said | None) -> Said:
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


def facts(
    *strips: Strip,
    on: Any = None,
    toml: Any = None,
    sources: Any = (FAN,),
    bare: Any = (),
    dark_from: Any = None,
    in_time: Any = None,
    too_late: Any = (),
    **more: Any,
) -> Facts:
    """25 kg in three weighings, of 24 weeks."""
    beds = SimpleNamespace(strips=strips, bare=bare, dark_from=dark_from, in_time=in_time, too_late=too_late)
    usual: dict[str, Any] = {
        "kg": 25.0,
        "pickings": [1, 2, 3],
        "first": dt.date(2025, 11, 3),
        "last": dt.date(2026, 4, 2),
        "beds": beds,
        "weeks": [None] * 24,
        "share_of_household": 0.25,
        "weeks_at_half_or_more": 6,
        "longest_gap_weeks": None,
        "gap": None,
        "lost_kg": 0.0,
        "crops": (),
    }
    r = winter(sources=sources, toml=toml or {})
    object.__setattr__(r, "harvest", SimpleNamespace(**(usual | more)))
    return Facts.of(r, grounds() if on is None else on)


EATERS = {"household": Household(people=2, vegetables_kg_per_week=4.0)}


@pytest.mark.parametrize(("weeks", "good"), [(12, True), (11, False)])
def test_half_of_the_weeks_at_half_are_good_news(weeks: int, good: bool) -> None:
    """12 of 24."""
    found = stands(harvest.household(facts(toml=EATERS, weeks_at_half_or_more=weeks)))
    assert (found.stake == "good news") == good and f"{weeks} of 24{NBSP}weeks" in found.claim
    assert f"25{NBSP}%" in found.claim and f"4.0{NBSP}kg" in found.evidence and "Sow each crop twice" in found.next_step
    assert found.sources[0].value == weeks


def test_of_no_week_at_half_some_are_wanted() -> None:
    """More than 1 week reaches; of none, some."""
    steps = [stands(harvest.household(facts(toml=EATERS, weeks_at_half_or_more=n))).next_step for n in (0, 1)]
    assert (
        "so that some weeks reach half" in steps[0] and "no\u00a0weeks" not in steps[0] and "no weeks" not in steps[0]
    )
    assert f"more than 1{NBSP}week reaches half" in steps[1]


def test_the_household_is_told_only_where_all_of_it_is_known() -> None:
    """Every week at half: keep the dates; no weight, share, weeks or need: silent."""
    assert "Keep" in stands(harvest.household(facts(toml=EATERS, weeks_at_half_or_more=24))).next_step
    for gone in ({"kg": 0.0}, {"share_of_household": None}, {"weeks_at_half_or_more": None}, {"toml": {}}):
        assert harvest.household(facts(**({"toml": EATERS} | gone))) is None


@pytest.mark.parametrize(("weeks", "told"), [(2, True), (1, False), (None, False)])
def test_two_weeks_without_a_picking_are_a_gap(weeks: int | None, told: bool) -> None:
    """From their first Monday."""
    of = facts(longest_gap_weeks=weeks, gap=(dt.date(2026, 1, 5), dt.date(2026, 1, 12)), pickings=[1] * 20)
    found = harvest.gap(of)
    assert (found is not None) == told
    if found is not None:
        assert f"2{NBSP}weeks" in found.claim and f"5{NBSP}January" in found.claim and found.weight == 2.0
    assert harvest.gap(facts(longest_gap_weeks=3, pickings=[1] * 20)) is None
    empty = facts(longest_gap_weeks=3, gap=(dt.date(2026, 1, 5),) * 2, kg=0.0, pickings=[1] * 20)
    assert harvest.gap(empty) is None


@pytest.mark.parametrize(("weighed", "seldom"), [(7, False), (6, True), (1, True), (0, False)])
def test_a_book_kept_every_four_weeks_at_most_tells_no_gap(weighed: int, seldom: bool) -> None:
    """184 days: 7 weighings are one in 26 days, 6 one in 31. What a kilogram cost then names its weighings."""
    of = facts(longest_gap_weeks=9, gap=(dt.date(2026, 1, 5), dt.date(2026, 3, 2)), pickings=[1] * weighed)
    assert seldom_weighed(of) == seldom and (harvest.gap(of) is None) == seldom
    words = f"weighed ({weighed}{NBSP}weighing{'' if weighed == 1 else 's'})"
    assert picked_words(of) == (words if seldom else "picked")


def strip(crop: str = "lettuce", bed: str = "east", **more: Any) -> Strip:
    usual: dict[str, Any] = {
        "cultivar": None,
        "area_m2": 1.0,
        "sown": None,
        "start": dt.date(2025, 10, 11),
        "end": dt.date(2026, 1, 18),
        "cleared": True,
        "first_picked": None,
        "last_picked": None,
        "kg": None,
        "days_to_first": None,
        "kg_per_m2_week": None,
        "lost": None,
        "cause": "",
        "lost_on": None,
        "plants": None,
        "before_dark": None,
    }
    return Strip(crop=crop, bed=bed, **(usual | more))


def yields(crop: str, per_m2: float | None = None, lost_kg: float = 0.0, pickings: int = 2) -> CropYield:
    return CropYield(crop=crop, kg=5.0, kg_per_m2=per_m2, pickings=pickings, lost_kg=lost_kg)


@pytest.mark.parametrize(("lost_kg", "told"), [(1.0, True), (0.99, False), (0.0, False)])
def test_a_twentieth_weighed_as_lost_is_told(lost_kg: float, told: bool) -> None:
    """1 of 19 + 1 kg."""
    found = harvest.lost(facts(kg=19.0, lost_kg=lost_kg, crops=(yields("lettuce", lost_kg=lost_kg),)))
    assert (found is not None) == told
    if found is not None:
        assert f"1.0{NBSP}kg of 20.0{NBSP}kg" in stands(found).claim and "Write the cause" in found.next_step


def test_a_loss_that_an_event_tells_is_not_told_again() -> None:
    """Only where it lost something; nor where nothing was picked."""
    of = {"kg": 19.0, "lost_kg": 3.0, "crops": (yields("lettuce", lost_kg=3.0),)}
    assert harvest.lost(facts(on=grounds(events=(event(),)), **of)) is None
    assert harvest.lost(facts(on=grounds(events=(event(crops=()),)), **of)) is not None
    assert harvest.lost(facts(**(of | {"kg": 0.0}))) is None


def test_a_cause_is_asked_for_where_one_is_missing() -> None:
    """9 of 24 lettuce by mould on 16 January: booked with its cause; another crop, or a row without one: asked for."""
    booked = strip(lost=9.0, plants=24.0, cause="grey mould", lost_on=dt.date(2026, 1, 16))
    of = {"kg": 19.0, "lost_kg": 3.0, "crops": (yields("lettuce", lost_kg=3.0), yields("kale"))}
    found = stands(harvest.lost(facts(booked, strip("kale", lost=2.0), **of)))
    assert f"9 of 24 lettuce by grey mould on 16{NBSP}January." in found.evidence and "kale" not in found.evidence
    assert "dealt with" in found.next_step
    bare = stands(harvest.lost(facts(booked, strip(lost=2.0), **of)))
    assert "2 lettuce" in bare.evidence and "Write the cause" in bare.next_step
    two = {**of, "crops": (yields("lettuce", lost_kg=3.0), yields("kale", lost_kg=1.0))}
    assert "Write the cause" in stands(harvest.lost(facts(booked, **two))).next_step
    assert "Noted" not in stands(harvest.lost(facts(strip(lost=0.0, cause="x"), **of))).evidence


def test_without_a_book_a_scale_is_asked_for() -> None:
    """With and without a heater."""
    assert "heat bought" in stands(harvest.not_weighed(facts(kg=None))).claim
    assert "house gave" in stands(harvest.not_weighed(facts(kg=None, sources=()))).claim
    assert harvest.not_weighed(facts(kg=0.0)) is None


# ---- the ground


@pytest.mark.parametrize(("most", "told"), [(3.0, True), (2.9, False)])
def test_half_as_much_again_from_a_square_metre_is_told(most: float, told: bool) -> None:
    """3.0 against 2.0; of crops without an area, one alone, or none nothing."""
    crops = (yields("leek", 2.0), yields("kale", most), yields("pea", None))
    found = harvest_beds.best_ground(facts(crops=crops))
    assert (found is not None) == told
    if found is not None:
        assert "kale gave 3.0" in stands(found).claim and "leek 2.0" in found.claim and found.weight == 1.5
    assert harvest_beds.best_ground(facts(crops=crops[1:])) is None
    assert harvest_beds.best_ground(facts(crops=(yields("leek", 0.0), yields("kale", 2.0)))) is None


def test_a_crop_that_was_picked_once_is_not_compared() -> None:
    """40 g of sorrel from one visit to it say nothing of its ground."""
    once = (yields("sorrel", 0.2, pickings=1), yields("kale", 2.0, pickings=4))
    assert harvest_beds.best_ground(facts(crops=once)) is None


def test_of_three_the_best_and_the_worst_are_named() -> None:
    """And of equals the first by name."""
    crops = (yields("leek", 2.0, pickings=1), yields("kale", 4.0), yields("pea", 4.0), yields("dill", 1.0, pickings=5))
    found = stands(harvest_beds.best_ground(facts(crops=crops)))
    assert "kale gave" in found.claim and "dill 1.0" in found.claim and found.weight == 4.0
    assert f"2{NBSP}pickings of kale and 5 of dill" in found.evidence


def test_how_late_a_sowing_may_be() -> None:
    """Two of three sowings were in time, the last of them on 1 September; one is it; dates that are missing: silent."""
    early, latest = (
        strip("kale", sown=dt.date(2025, 8, 20), before_dark=True),
        strip("leek", sown=dt.date(2025, 9, 1), before_dark=True),
    )
    late = strip("pea", sown=dt.date(2025, 9, 20), before_dark=False)
    of: dict[str, Any] = {"dark_from": dt.date(2025, 11, 1), "in_time": latest, "too_late": (late,)}
    found = stands(harvest_beds.before_dark(facts(early, latest, late, strip("dill", before_dark=True), **of)))
    assert f"Of 3{NBSP}sowings, 2 could" in found.claim and "the last of these was leek" in found.claim
    assert f"1{NBSP}September" in found.next_step and f"20{NBSP}September" in found.evidence and found.weight == 1.0
    assert found.sources[0].value == 2.0
    assert "; it was leek" in stands(harvest_beds.before_dark(facts(latest, late, **of))).claim
    for gone in ({"dark_from": None}, {"in_time": None}, {"in_time": strip("leek")}, {"too_late": (strip("pea"),)}):
        assert harvest_beds.before_dark(facts(latest, late, **(of | gone))) is None


def bare(weeks: int, bed: str = "door", m2: float | None = 1.1, **more: Any) -> Bare:
    start = dt.date(2026, 1, 19)
    usual: dict[str, Any] = {"of_m2": 1.6, "after": "pak choi", "open_end": False}
    return Bare(bed=bed, start=start, end=start + dt.timedelta(days=7 * weeks - 1), m2=m2, **(usual | more))


def test_four_weeks_of_bare_ground_are_a_gap() -> None:
    """Three are a turn-round; the largest is told, two more beside it."""
    assert harvest_beds.empty(facts(bare=(bare(3),))) is None and harvest_beds.empty(facts()) is None
    found = stands(harvest_beds.empty(facts(bare=(bare(4),))))
    assert f"1.1{NBSP}m² of the 1.6{NBSP}m² of the bed “door”" in found.claim and f"4{NBSP}weeks" in found.claim
    assert f"19{NBSP}January, after pak choi, to 15{NBSP}February" in found.claim and found.weight == 4.0
    many = stands(
        harvest_beds.empty(
            facts(bare=(bare(12, open_end=True), bare(3, "no"), bare(5, "b"), bare(6, "c"), bare(7, "d")))
        )
    )
    assert "to the last day" in many.claim and "“b”" in many.evidence and "“c”" in many.evidence
    assert "“d”" not in many.evidence and "“no”" not in many.evidence
    whole = stands(harvest_beds.empty(facts(bare=(bare(4, m2=None, after=None),))))
    assert whole.claim.startswith("All of the bed “door”") and "after" not in whole.claim


def test_bare_ground_names_its_row_where_it_is_the_longest_after_a_planting() -> None:
    """Pak choi was cleared on the 18th, the day before; a longer one elsewhere, or no planting there: no source."""
    cleared = strip("pak choi", "door", end=dt.date(2026, 1, 18))
    (source,) = stands(harvest_beds.empty(facts(cleared, bare=(bare(5),)))).sources
    assert source.value == 5.0
    other = strip("leek", "b", end=dt.date(2026, 1, 18))
    assert stands(harvest_beds.empty(facts(cleared, other, bare=(bare(5), bare(6, "b", after="leek"))))).sources == ()
    assert (
        len(stands(harvest_beds.empty(facts(cleared, other, bare=(bare(5), bare(5, "b", after="leek"))))).sources) == 1
    )
    assert len(stands(harvest_beds.empty(facts(cleared, bare=(bare(5), bare(6, "b", after="leek"))))).sources) == 1
    assert stands(harvest_beds.empty(facts(bare=(bare(5),)))).sources == ()


def test_a_gap_is_sown_for_by_the_latest_sowing_in_time() -> None:
    """Else before the first that came too late; else dates are asked for."""
    one, two = (strip(sown=dt.date(2025, 8, day), before_dark=True) for day in (1, 20))
    late = [strip(sown=dt.date(2025, 9, day), before_dark=False) for day in (10, 5)]
    assert f"by 20{NBSP}August" in harvest_beds.sow_earlier(facts(one, two, *late))
    assert f"before 5{NBSP}September" in harvest_beds.sow_earlier(facts(*late))
    assert "Note sowing dates" in harvest_beds.sow_earlier(
        facts(strip(sown=dt.date(2025, 8, 1)), strip(before_dark=True))
    )


@pytest.mark.parametrize(("dark", "seen"), [(dt.date(2025, 11, 8), True), (dt.date(2025, 11, 7), False)])
def test_a_season_that_begins_with_the_dark_weeks_blames_no_sowing(dark: dt.date, seen: bool) -> None:
    """From 11 October: 28 days before the 8th. What was picked earlier stands in no book, so no sowing was too late."""
    words = harvest_beds.sow_earlier(facts(strip(sown=dt.date(2025, 9, 5), before_dark=False), dark_from=dark))
    assert words.startswith("Sow the gap's crop before" if seen else "Keep the harvest book from a month before")


# ---- how long a delivery lasts


def lasts(monkeypatch: pytest.MonkeyPatch, *rows: tuple[Delivery, Lasting], sources: Any = (GAS,)) -> Said | None:
    monkeypatch.setattr(harvest_next, "lasts", lambda of: [(one, [row]) for one, row in rows])
    return harvest_next.delivery_lasts(facts(sources=sources))


def bottle(name: str = "gas stove", amount: float = 11.0, most_w: float | None = None, **more: Any) -> Delivery:
    return Delivery(
        **({"name": name, "fuel": "propane", "amount": amount, "unit": "kg", "kwh": 140.0, "most_w": most_w} | more)
    )


def row(hours: float, holds: bool | None = True, low: float | None = None, high: float | None = None) -> Lasting:
    ends = (hours * 0.8 if low is None else low, hours * 1.2 if high is None else high)
    return Lasting(outdoor_c=-15.0, hours=hours, low=ends[0], high=ends[1], needed_w=2344.0, holds=holds)


VENTED = (GAS.model_copy(update={"vented": True}),)


@pytest.mark.parametrize(
    ("hours", "words", "stake"),
    [
        (23.9, f"24{NBSP}h", "crop at risk"),
        (24.0, f"24{NBSP}h", "record"),
        (47.9, f"48{NBSP}h", "record"),
        (72.0, f"3{NBSP}days", "record"),
    ],
)
def test_how_long_a_delivery_lasts(hours: float, words: str, stake: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """11 kg at −15 °C; under a day the crop is at risk; from two days on in days; against 2 340 W."""
    found = stands(lasts(monkeypatch, (bottle(), row(hours)), sources=VENTED))
    assert f"about {words}" in found.claim and f"(11{NBSP}kg)" in found.claim and f"−15{NBSP}°C" in found.claim
    assert found.stake == stake and found.weight == pytest.approx(1 / hours) and f"2\u202f340{NBSP}W" in found.evidence
    assert "next delivery at hand" in found.next_step and found.caution == cautions.FUEL


def test_the_delivery_that_lasts_shortest_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """By hours; small amounts keep a digit, gallons are named in words."""
    found = stands(
        lasts(monkeypatch, (bottle("a"), row(30.0)), (bottle("b", 9.9, unit="gal_us"), row(20.0)), sources=VENTED)
    )
    assert found.about == "b" and f"(9.9{NBSP}US gal)" in found.claim
    assert f"(10{NBSP}kg)" in stands(lasts(monkeypatch, (bottle(amount=10.0), row(30.0)))).claim
    assert lasts(monkeypatch) is None


def test_a_heater_that_gives_less_than_the_house_loses_is_said_to(monkeypatch: pytest.MonkeyPatch) -> None:
    """At most 2000 W: the house cools all the same, a risk; with a doubt only where the ends differ by 0.5 %."""
    weak = stands(lasts(monkeypatch, (bottle(most_w=2000.0), row(70.0, False)), sources=VENTED))
    assert "flat out" in weak.claim and weak.stake == "crop at risk" and "second source" in weak.next_step
    assert f"2\u202f000{NBSP}W at most" in weak.evidence and f"2.3 to 3.5{NBSP}days" in weak.evidence
    level = stands(lasts(monkeypatch, (bottle(most_w=2000.0), row(70.0, False, high=70.35)), sources=VENTED))
    assert "doubt" not in level.evidence
    unknown = stands(lasts(monkeypatch, (bottle(), row(30.0, None)), sources=VENTED))
    assert "not known" in unknown.evidence and f"24 to 36{NBSP}h" in unknown.evidence
    assert "not known" not in stands(lasts(monkeypatch, (bottle(), row(30.0)), sources=VENTED)).evidence


def test_never_more_of_what_leaves_its_fumes_in_the_house(monkeypatch: pytest.MonkeyPatch) -> None:
    """A stove without a flue: electric heat or a flue instead."""
    assert "electric" in stands(lasts(monkeypatch, (bottle(), row(30.0)))).next_step
    assert "electric" not in stands(lasts(monkeypatch, (bottle("other"), row(30.0)))).next_step


def test_without_a_loss_or_a_hold_nothing_lasts() -> None:
    """All three of the loss above zero, and a hold."""
    loss = {"estimate": 80.0, "low": 70.0, "high": 90.0}
    for heat in (
        {"loss_w_per_k": loss},
        {"hold_found_c": 5.0},
        {"hold_found_c": 5.0, "loss_w_per_k": loss | {"low": 0.0}},
    ):
        assert harvest_next.lasts(Facts.of(winter(heat=heat))) == []


# ---- nothing wrong


WELL: dict[str, Any] = {
    "frost": {
        "minimum": {"temperature_c": 0.0},
        "nights": 183,
        "unrecorded_cold_hours": 0.0,
        "crops": (),
        "failures": (),
    },
    "damp": {"hours_recorded": 4416.0, "hours_above_high": {"estimate": 1324.0}, "grey_mould_spells": {"high": 0}},
}


def test_nothing_wrong_at_the_bounds() -> None:
    """The line itself, 29.98 % damp and 2.9 unknown hours are nothing; each bound over it is something."""

    def told(on: Any = None, **frost: Any) -> bool:
        made = WELL | {"frost": WELL["frost"] | frost}
        return perfect.nothing_wrong(Facts.of(winter(**made), grounds() if on is None else on)) is not None

    assert told() and told(unrecorded_unknown_hours=2.9) and told(crops=({"margin_k": 0.0}, {"margin_k": None}))
    assert not told(unrecorded_unknown_hours=3.0) and not told(nights=0) and not told(minimum={"temperature_c": -0.01})
    assert not told(grounds(events=(event(),))) and not told(grounds(lever("tape", "leave undone")))
    assert told(grounds(lever("film")))
    damp = WELL | {"damp": WELL["damp"] | {"hours_above_high": {"estimate": 0.3 * 4416.0}}}
    assert perfect.nothing_wrong(Facts.of(winter(**damp))) is None


# ---- two winters


def compared(
    key: str,
    low: float,
    high: float,
    unit: str = "K",
    last: float | None = 10.0,
    this: float | None = 8.0,
    better: str = "more",
) -> Row:
    equal = EqualWeather(
        effect=(low + high) / 2,
        low=low,
        high=high,
        days_last=120,
        days_this=118,
        columns=("ton",),
        smallest_visible=1.0,
    )
    return Row(key=key, what=key, unit=unit, last=last, this=this, at_equal_weather=equal, better=better)


def two(*rows: Row, show: str = "metric", **more: Any) -> Facts:
    of = season(show=show)
    return Facts.of(
        winter(of=of, winters=Winters(last="Last winter", rows=rows, reasons=more.pop("reasons", {}), **more))
    )


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (compared("lift", 0.4, 0.6), True),  # half a kelvin is what matters
        (compared("lift", 0.4, 0.58), False),
        (compared("lift", 0.0, 2.0), False),
        (compared("lift", -2.0, 0.0), False),
        (compared("night_humidity", -3.1, -2.9, "%"), True),
        (compared("night_humidity", -3.0, -2.9, "%"), False),
        (compared("soil_mean", 0.4, 0.6, "°C"), True),
        (compared("soil_mean", 0.4, 0.58, "°C"), False),
        (compared("heat", -1.1, -0.9, "kWh a day"), True),  # 10 % of 10
        (compared("heat", -1.1, -0.88, "kWh a day"), False),
    ],
)
def test_a_difference_of_two_winters_is_told_from_what_matters_on(row: Row, told: bool) -> None:
    """Its interval without zero, its middle at least what the grower cares for."""
    assert (than_last(row.key)(two(row)) is not None) == told
    assert than_last("other")(two(row)) is None


def test_both_ends_and_the_weight_of_a_difference() -> None:
    """0.6 to 1.4 K: middle 1.0, half-width 0.4, weight 2.5; 118 days against 120."""
    found = stands(than_last("lift")(two(compared("lift", 0.6, 1.4))))
    assert f"1.0{NBSP}K further" in found.claim and f"Between 0.6 and 1.4{NBSP}K" in found.evidence
    assert f"118{NBSP}days of this winter and 120 of last" in found.evidence and found.weight == pytest.approx(2.5)
    colder = stands(than_last("lift")(two(compared("lift", -1.4, -0.6))))
    assert "less far" in colder.claim and colder.stake == "growth" and f"Between 0.6 and 1.4{NBSP}K" in colder.evidence
    less = stands(than_last("lift")(two(compared("lift", -1.4, -0.6, better="less"))))
    assert less.stake == "good news"


def test_what_is_new_is_named_up_to_three() -> None:
    """Four new things: three are named, and kept; nothing new: written down from now on."""
    found = stands(than_last("lift")(two(compared("lift", 0.6, 1.4), only_this=("a", "b", "c", "d"))))
    assert "“a”; “b”; “c”." in found.evidence and "“d”" not in found.evidence and "Keep what is new" in found.next_step
    bare = stands(than_last("lift")(two(compared("lift", 0.6, 1.4))))
    assert "No diary" in bare.evidence and "Write down" in bare.next_step
    worse = stands(than_last("lift")(two(compared("lift", -1.4, -0.6), only_this=("a",))))
    assert "Undo" in worse.next_step
    assert "Undo" not in stands(than_last("lift")(two(compared("lift", -1.4, -0.6)))).next_step  # nothing is new


def test_the_answer_on_two_winters() -> None:
    """Better and worse by their intervals; heat for each degree tells instead of heat a day; level where zero is in."""

    def word(*rows: Row, **more: Any) -> tuple[str, str]:
        found = answers_winters.winters_answer("?", two(*rows, **more))
        return found.answer, found.why

    warm, level = compared("lift", 0.6, 1.4), compared("lift", -0.1, 1.4)
    damp = compared("night_humidity", 2.0, 4.0, "%", better="less")
    assert word(warm)[0] == "Better" and word(damp)[0] == "Worse" and word(warm, damp)[0] == "Better and worse"
    assert word(level)[0] == "Level" and "degrees" not in word(level)[1]
    assert word(level, damp)[1].startswith(f"2 to 4{NBSP}points damper")  # what differs first
    heat, per_k = (
        compared("heat", -3.0, -1.0, "kWh a day", better="less"),
        compared("watts_per_kelvin", 1.0, 2.0, "W/K", better="less"),
    )
    assert word(heat) == ("Better", f"10 to 30{NBSP}% less heat a day")
    assert word(heat, per_k) == ("Worse", f"10 to 20{NBSP}% more heat for each degree")
    assert word(warm)[1] == f"0.6 to 1.4{NBSP}degrees warmer at night"
    assert word(warm, show="us")[1] == f"1.1 to 2.5{NBSP}degrees warmer at night"  # × 9/5
    cost = Row(key="cost", what="", unit="EUR", last=30.0, this=24.0, at_equal_weather=None)
    assert word(warm, cost)[1].endswith(f"heat EUR{NBSP}24 after 30")
    unpaid = Row(key="cost", what="", unit="EUR", last=None, this=24.0, at_equal_weather=None)
    assert "EUR" not in word(warm, unpaid)[1]


def test_without_rows_the_reason_is_told() -> None:
    """That of the rows, of the last winter, or that none was named; and rows that could not be set at equal weather."""
    for reasons, words in (({"rows": "One", "last": "Two"}, "One"), ({"last": "Two"}, "Two"), ({}, "o last winter")):
        found = answers_winters.winters_answer("?", two(reasons=reasons))
        assert found.answer == "Cannot tell" and words in found.why
    raw = Row(key="lift", what="", unit="K", last=1.0, this=2.0, at_equal_weather=None)
    assert "equal weather" in answers_winters.winters_answer("?", two(raw)).why
    assert answers_winters.verdict_of(raw) == 0


def test_a_delivery_is_told_at_five_outdoor_temperatures_below_the_hold() -> None:
    """11 kg of 140 kWh against 80 W/K at a hold of 5 °C: at −15 °C 140 000 / (80 × 20) = 87.5 h, at −10 °C 116.7, at
    −5 °C 175, at 0 °C 350; at 5 °C it needs none. By 70 and 90 W/K 100 and 77.8 h at −15 °C."""
    gas = heater(
        [("2026-01-05", "2026-02-01", 140.0, 30.0)], name="gas stove", fuel="propane", form="deliveries", unit="kg"
    )
    gas = dataclasses.replace(gas, intervals=gas.intervals.assign(bought=11.0), stock=store(11.0))
    heat = {"hold_found_c": 5.0, "loss_w_per_k": {"estimate": 80.0, "low": 70.0, "high": 90.0}}
    ((one, rows),) = harvest_next.lasts(Facts.of(winter(heat=heat, heating=(gas,), sources=(GAS,))))
    assert (one.amount, one.kwh) == (11.0, pytest.approx(140.0))
    assert {r.outdoor_c: r.hours for r in rows} == pytest.approx(
        {-15.0: 87.5, -10.0: 116.6667, -5.0: 175.0, 0.0: 350.0}
    )
    assert (rows[0].low, rows[0].high) == (pytest.approx(77.78, abs=0.01), pytest.approx(100.0))
