"""The balance in words: parts that add up, weeks that were worth heating, and the step that follows; by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, balance, grounds, winter
from counsel.sentences import faults
from made_season import ZONE, planting, season

from reportgen.counsel import said_balance, the_balance
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Balance, BalanceWeek, Ends
from reportgen.counsel.types import Said
from reportgen.wording import Wording

NBSP = "\u00a0"
EURO = Wording(us=False, currency="EUR")
# EUR 180.40 of heat, 12.40 of appliances, 100 by the book and 20.20 of a film: 313.00 in all, for 25 kg
SUM: dict[str, Any] = {
    "heat": 180.4,
    "appliances": 12.4,
    "costs": 100.0,
    "changes_by_years": 20.2,
    "total": 313.0,
    "per_kg": 12.52,
    "kg": 25.0,
}
WASTED: dict[str, Any] = {"not_needed_money": Ends(low=40.0, high=60.0), "judged_money": 150.0}


def facts(balanced: Balance, *, kg: float = 25.0, currency: str = "EUR", weighed: int = 0, **more: Any) -> Facts:
    usual = {} if "of" in more else {"sources": (FAN,)}
    made = winter(**(usual | {"plantings": (planting("kale", "east", "2025-11-01"),)} | more))
    pickings = [object()] * weighed
    object.__setattr__(made, "harvest", SimpleNamespace(kg=kg, pickings=pickings, first=None, last=None))
    found = Facts.of(made, grounds(balance=balanced))
    return Facts(r=found.r, w=Wording(us=found.w.us, currency=currency), there=found.there, on=found.on)


def said(balanced: Balance, **more: Any) -> Said | None:
    found = the_balance.the_balance(facts(balanced, **more))
    for words in (found.claim, found.evidence, found.how_sure, found.next_step) if found is not None else ():
        assert not faults(words), words
    return found


def stands(found: Said | None) -> Said:
    assert found is not None
    return found


# ---- the finding


def test_heat_that_no_crop_needed_is_told_first_with_the_sum_beside() -> None:
    """EUR 40 to 60 of 150 judged; then EUR 313.00 in all for 25 kg, EUR 12.52 a kg, by its four parts."""
    found = stands(said(balance(**(SUM | WASTED))))
    assert f"EUR{NBSP}40 to 60 of EUR{NBSP}150" in found.claim
    for words in (
        "313.00",
        f"25.0{NBSP}kg",
        "12.52",
        "180.40 for heat",
        "12.40 for appliances",
        "100.00 by the costs",
        "20.20 for a year's share of the changes",
    ):
        assert words in found.evidence
    assert (found.figure, found.about, found.anchor) == (f"EUR{NBSP}40 to 60", "heat", "harvest_weeks")
    assert found.weight == 40.0 and found.how_sure.startswith("Nine in ten")


def test_without_wasted_heat_the_sum_is_told() -> None:
    """In all EUR 313.00; a kilogram is the figure, without a weight of it the sum, to whole money."""
    found = stands(said(balance(**SUM)))
    assert "313.00" in found.claim and "12.52" in found.claim and "180.40" in found.evidence
    assert "313.00" not in found.evidence  # said once
    assert (found.figure, found.figure_note) == (f"EUR{NBSP}12.52", "a kg, all in")
    assert (found.about, found.anchor, found.weight) == (None, None, 313.0) and found.how_sure.startswith("Sure")
    whole = stands(said(balance(**(SUM | {"per_kg": None, "kg": None}))))
    assert (whole.figure, whole.figure_note) == (f"EUR{NBSP}313", "in all") and " for 25" not in whole.claim


def test_silent_where_nothing_was_weighed_or_nothing_can_be_told() -> None:
    """No kilogram, or neither a sum nor weeks; weeks alone are told, and then their weight is their low end."""
    assert said(balance(**(SUM | WASTED)), kg=0.0) is None and said(balance()) is None
    alone = stands(said(balance(**WASTED)))
    assert "150" in alone.claim and "In all" not in alone.evidence and alone.weight == 40.0


@pytest.mark.parametrize(
    ("spent", "claim"),
    [
        (Ends(low=40.0, high=0.6), True),
        (Ends(low=-5.0, high=60.0), True),
        (Ends(low=0.0, high=0.4), False),  # prints as nothing
        (Ends(low=None, high=60.0), False),
        (Ends(low=40.0, high=None), False),
    ],
)
def test_weeks_are_told_only_with_both_ends_and_something_between(spent: Ends, claim: bool) -> None:
    """At most EUR 0.40 is nothing; a low end under zero is printed as zero."""
    found = stands(said(balance(**(SUM | WASTED | {"not_needed_money": spent}))))
    assert ("did not need it" in found.claim) == claim
    if spent.low == -5.0:
        assert f"EUR{NBSP}0 to 60" in found.claim


def test_where_every_night_needed_its_heat_that_is_said() -> None:
    """Nothing for nothing of EUR 150 that could be judged; where it cannot be judged neither is said."""
    none = SUM | {"not_needed_money": Ends(low=0.0, high=0.4), "judged_money": 150.0}
    assert f"EUR{NBSP}150" in stands(said(balance(**none))).evidence
    assert "150" not in stands(said(balance(**(SUM | WASTED | {"judged_money": None})))).evidence
    assert "150" not in stands(said(balance(**(none | {"judged_money": None})))).evidence
    assert "needed the heat" not in stands(said(balance(**(SUM | WASTED)))).evidence
    unknown = SUM | {"not_needed_money": Ends(low=0.0, high=None), "judged_money": 150.0}
    assert "150" not in stands(said(balance(**unknown))).evidence


def test_ends_that_print_alike_are_one() -> None:
    """EUR 40.2 to 40.4 is EUR 40."""
    found = stands(said(balance(**(SUM | WASTED | {"not_needed_money": Ends(low=40.2, high=40.4)}))))
    assert found.figure == f"EUR{NBSP}40"


def test_printed_parts_add_up_to_the_printed_sum() -> None:
    """Thrice EUR 33.334 and 0.002: 100.00 + 0.00; parts of 33.34, 33.33, 33.33; what is under a cent is not named."""
    thirds = {"heat": 33.3334, "appliances": 33.3333, "costs": 33.3333, "changes_by_years": 0.0099, "total": 100.0099}
    evidence = stands(said(balance(**thirds))).evidence
    assert "33.34 for heat" in evidence and evidence.count("33.33") == 2 and "of the changes" not in evidence
    at_a_cent = stands(said(balance(**(thirds | {"changes_by_years": 0.01})))).evidence
    assert "0.01 for a year's share of the changes" in at_a_cent
    refund = stands(said(balance(heat=50.0, costs=-8.0, total=42.0))).evidence
    assert "−8.00 by the costs" in refund


def test_what_is_missing_is_named_and_not_called_in_all() -> None:
    """Without the gas: the sum says so; beside weeks it stands in a sentence of its own."""
    alone = stands(said(balance(**(SUM | {"missing": ("the gas", "the lamp")}))))
    assert alone.claim.startswith("Without the gas and the lamp, this") and "Not in it" not in alone.evidence
    beside = stands(said(balance(**(SUM | WASTED | {"missing": ("the gas",)}))))
    assert "Not in it: the gas." in beside.evidence
    assert "Not in it" not in stands(said(balance(**(SUM | WASTED)))).evidence


def test_it_is_set_against_the_shop_the_work_and_the_weighings() -> None:
    """EUR 200 in the shop, 30 h, 3 weighings; what is not known is not there."""
    evidence = stands(said(balance(**(SUM | {"shop_value": 200.0, "work_hours": 30.0})), weighed=3)).evidence
    assert "200.00" in evidence and f"30{NBSP}h" in evidence and f"3{NBSP}weighings" in evidence
    bare = stands(said(balance(**SUM))).evidence
    assert "shop" not in bare and "work" not in bare and "weighing" not in bare


@pytest.mark.parametrize(
    ("more", "season", "words"),
    [
        ({"hardy_from": dt.date(2026, 3, 2), "shop_value": 1.0}, {}, f"From 2{NBSP}March"),
        ({"shop_value": 312.0}, {}, "dear in the shop"),
        ({"shop_value": 313.0}, {}, "tender crop"),
        ({}, {"sources": ()}, "what the shop asks"),
        ({"shop_value": 400.0}, {"sources": ()}, "it paid for itself"),
        ({"shop_value": 400.0, "missing": ("the gas",)}, {"sources": ()}, "the rest of what it cost"),
        ({"kg": None}, {"sources": ()}, "Weigh what you pick"),
        ({}, {"plantings": ()}, "Weigh what you pick"),
        ({"kg": None}, {}, "Weigh what you pick"),
        ({}, {}, "tender crop"),
    ],
)
def test_the_step_follows_from_what_is_known(more: dict[str, Any], season: dict[str, Any], words: str) -> None:
    """Hardy crops from the first week that they could have had alone; else dear ones where the shop is cheaper; else
    the book that is missing; without a heater what the shop says, and never to weigh what was weighed; else heat for
    the tender."""
    assert words in stands(said(balance(**(SUM | more)), **season)).next_step


def test_each_number_names_its_row() -> None:
    """The sum, what could be judged and both ends; without a sum or a currency there is no such table."""
    found = {s.rows: s.value for s in stands(said(balance(**(SUM | WASTED)))).sources}
    assert found == {
        "what == 'in all'": 313.0,
        "what == 'heat of nights that can be judged'": 150.0,
        "what == 'of it needed by no crop, least'": 40.0,
        "what == 'of it needed by no crop, most'": 60.0,
    }
    assert stands(said(balance(**WASTED))).sources == ()
    assert [s.value for s in stands(said(balance(**SUM))).sources] == [313.0]
    assert the_balance._sources(facts(balance(**SUM), currency=""), balance(**SUM)) == ()


# ---- the short forms


def test_parts_are_short_and_add_up() -> None:
    """180.4 + 12.4 + 100 + 20.2 = 313: as 180, 13 (the largest remainder is .4 of the first): 181 + 12 + 100 + 20."""
    told = said_balance.total_words(balance(**SUM), EURO)
    assert told == "heat 181, appliances 12, costs 100 and a year's share of the changes 20"
    assert said_balance.total_words(balance(heat=5.0, costs=0.0), EURO) == "heat 5"
    assert said_balance.total_words(balance(), EURO) == ""


def test_a_kilogram_is_told_beside_the_shop() -> None:
    """EUR 12.52 per kg; all of it EUR 200 in the shop."""
    of = facts(balance())
    told = said_balance.per_kg_words(balance(**(SUM | {"shop_value": 200.0})), of)
    assert "12.52" in told and told.endswith(f"; all of it EUR{NBSP}200 in the shop")
    assert "shop" not in said_balance.per_kg_words(balance(**SUM), of)
    assert said_balance.per_kg_words(balance(**(SUM | {"kg": None})), of) == ""
    assert said_balance.per_kg_words(balance(**(SUM | {"per_kg": None})), of) == ""


def test_what_is_not_in_it_is_named_once() -> None:
    """Two of the same are one; of three two words and the rest as a number."""
    assert said_balance.missing_words(balance(missing=("gas", "gas"))) == "without gas"
    assert said_balance.missing_words(balance(missing=("gas", "lamp", "seed"))) == "without gas and 2 more"
    assert said_balance.missing_words(balance()) == ""


def week(money: float | None = None, kwh: float | None = None, needed: float | None = None) -> BalanceWeek:
    return BalanceWeek(week="2026-W03", heat_money=money, kg=None, value=None, needed_share=needed, heat_kwh=kwh)


def test_a_week_is_heated_from_a_twentieth_on() -> None:
    """0.05 of money or kWh is a plug that only woke; either is enough."""
    weeks = (week(0.05, 0.05), week(0.06), week(None, 0.06), week())
    assert said_balance.heated_weeks(balance(weeks=weeks)) == list(weeks[1:3])


def test_a_week_needed_its_heat_if_at_least_half_of_it_was() -> None:
    """0.5 is half; not judged is not needed."""
    assert said_balance.needed_weeks([week(needed=0.5), week(needed=0.49), week(needed=1.0), week()]) == 2


@pytest.mark.parametrize(
    ("shares", "words"),
    [
        ((1.0,), "The one week judged needed its heat"),
        ((0.2,), "The one week judged did not need its heat"),
        ((1.0, 0.7), "All 2 weeks judged needed their heat"),
        ((1.0, 0.2, 0.2), "1 of the 3 weeks judged needed its heat"),
        ((1.0, 1.0, 0.2), "2 of the 3 weeks judged needed their heat"),
        ((0.1, 0.2), "None of the 2 weeks judged needed their heat"),
    ],
)
def test_weeks_are_counted_in_a_clause(shares: tuple[float, ...], words: str) -> None:
    """Only heated weeks that were judged: one without heat and one without a judgement change nothing."""
    weeks = [week(5.0, needed=share) for share in shares] + [week(5.0), week(needed=1.0)]
    assert said_balance.weeks_clause(balance(weeks=tuple(weeks))) == words


def test_the_weeks_in_words() -> None:
    """EUR 40 to 60 of 150, from when hardy crops would have stood, heat beside greens."""
    more = {"hardy_from": dt.date(2026, 3, 2), "shop_value": 200.0}
    told = said_balance.weeks_words(balance(**(SUM | WASTED | more)), facts(balance()))
    assert f"EUR{NBSP}40 to 60 of 150" in told and f"2{NBSP}March" in told
    for name in ("not_needed_money", "judged_money"):
        assert "did not need" not in said_balance.weeks_words(
            balance(**(SUM | WASTED | more | {name: None})), facts(balance())
        )
    beside = said_balance.weeks_words(balance(**(SUM | {"shop_value": 200.0})), facts(balance()))
    assert beside == f"heat EUR{NBSP}180 beside EUR{NBSP}200 of greens"
    nothing = WASTED | {"not_needed_money": Ends(low=0.0, high=0.4)}
    told = said_balance.weeks_words(balance(**nothing), facts(balance()))
    assert f"EUR{NBSP}150 could be judged" in told and "did not need" not in told


def test_without_prices_the_weeks_are_told_in_kilowatt_hours() -> None:
    """40 kWh of which a quarter was needed and 10 all needed: 30 of 50 kWh for nothing; other weeks do not count."""
    weeks = (week(kwh=40.0, needed=0.25), week(kwh=10.0, needed=1.0), week(kwh=99.0), week(needed=0.0))
    told = said_balance.weeks_words(balance(weeks=weeks), facts(balance()))
    assert told == f"30 of 50{NBSP}kWh kept plants that did not need it"
    priced = balance(weeks=weeks, **(SUM | WASTED | {"shop_value": 200.0}))
    assert said_balance.weeks_words(priced, facts(balance(), currency="")) == told
    assert said_balance.weeks_words(balance(weeks=weeks[2:]), facts(balance())) == "no week's heat is known"


def test_of_a_winter_that_still_runs_the_sum_is_so_far() -> None:
    """Its kilograms and its money are not those of a winter."""
    running = season("2025-10-11", "2026-04-12", heating=(FAN,)).read_to(pd.Timestamp("2026-01-15 12:00", tz=ZONE))
    assert "has so far cost" in stands(said(balance(**SUM), of=running)).claim
    assert "so far" not in stands(said(balance(**SUM))).claim
