"""What a lever's verdict is made of: its cost, its payback, its other sides, its weight; each worked out by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pytest
from counsel.hand import outcome

from reportgen.counsel import levers
from reportgen.counsel.grounds import Ends
from reportgen.counsel.results import Results
from reportgen.effects.lever_types import LeverEffect
from reportgen.readings.types import DiaryEntry
from reportgen.season.models import Aims


def line(what: str, number: int, cost: float | None, kind: Any = "change", **more: Any) -> DiaryEntry:
    usual: dict[str, Any] = {
        "date": dt.date(2026, 1, 12),
        "time": None,
        "touches": ("air",),
        "reversible": True,
        "hoped_for": (),
        "until": None,
        "years": None,
        "written": None,
        "note": "",
    }
    return DiaryEntry(line=number, what=what, cost=cost, kind=kind, **(usual | more))


def effect(*outcomes: Any, **more: Any) -> LeverEffect:
    usual: dict[str, Any] = {"lines": (2,), "hope": "drier air", "outcomes": outcomes, "verdict": "helped", "care": 3.0}
    return LeverEffect(**(usual | more))


def results(heat_cost: float | None = 90.0) -> Results:
    return cast(
        "Results", SimpleNamespace(effects=SimpleNamespace(heat_cost=heat_cost), season=SimpleNamespace(aims=Aims()))
    )


def test_a_price_that_rows_of_one_spell_repeat_counts_once() -> None:
    """Two changes of 10 and 20 are 30; a fan in three spells of at most 40 is 40; without a price None."""
    assert levers._cost([line("a", 2, 10.0), line("b", 3, 20.0), line("c", 4, None)]) == 30.0
    assert levers._cost([line("a", 2, 10.0), line("a", 3, 10.0)]) == 20.0
    spells = [line("fan", n, cost, "spell") for n, cost in ((2, 40.0), (3, 40.0), (4, 30.0))]
    assert levers._cost(spells) == 40.0 and levers._cost([line("a", 2, 0.0)]) == 0.0
    assert levers._cost([line("a", 2, None)]) is levers._cost([]) is None


def money(low: float, high: float) -> Any:
    return SimpleNamespace(low=low, high=high)


def test_payback_is_cost_over_what_a_winter_spares() -> None:
    """60 over 20 to 40 a winter: 1.5 to 3 winters; perhaps never where its low end spares nothing."""
    paid = effect(spared_reason="no heat is known")
    assert levers._payback(60.0, money(20.0, 40.0), paid, True) == (Ends(low=1.5, high=3.0), "")
    for low in (0.0, -5.0):
        assert levers._payback(60.0, money(low, 40.0), paid, True) == (Ends(low=1.5, high=None), "")
    assert levers._payback(0.0, money(20.0, 40.0), paid, True)[0] == Ends(low=0.0, high=0.0)


def test_why_there_is_no_payback() -> None:
    """Not meant to, no cost, no price of the heat, no heat known, or nothing spared even at best."""
    spared = effect(spared=cast(Any, SimpleNamespace()), spared_reason="x")
    none = effect(spared_reason="no heat is known")
    told = [
        levers._payback(60.0, money(20.0, 40.0), none, False),
        levers._payback(None, money(20.0, 40.0), none, True),
        levers._payback(60.0, None, spared, True),
        levers._payback(60.0, None, none, True),
        levers._payback(60.0, money(-9.0, 0.0), none, True),
    ]
    assert [ends for ends, _ in told] == [None] * 5
    words = ("not meant", "no cost", "no price", "no heat is known", "even at best")
    assert all(word in why for word, (_, why) in zip(words, told, strict=True))


@pytest.mark.parametrize(
    ("name", "low", "high", "beyond"),
    [
        ("night_humidity", 3.1, 9.0, True),  # 3 points are what matters
        ("night_humidity", 3.0, 9.0, False),
        ("night_humidity", -9.0, -4.0, False),  # drier is no price
        ("lift", -2.0, -0.6, True),  # half a kelvin
        ("lift", -2.0, -0.5, False),
        ("lift", 0.6, 2.0, False),
        ("daily_light", -3.0, -1.1, True),  # a tenth of 10
        ("daily_light", -3.0, -1.0, False),
    ],
)
def test_a_side_beyond_what_matters(name: str, low: float, high: float, beyond: bool) -> None:
    """Its interval wholly on the worse side of what the grower cares for."""
    found = levers._side(outcome(name, (low + high) / 2, low, high, before_mean=10.0), results())
    assert found.beyond_care == beyond and (found.low, found.high, found.before_mean) == (low, high, 10.0)


def sides(*outcomes: Any) -> list[str]:
    return [one.outcome for one in levers._price(effect(*outcomes), results())]


def test_the_other_sides_leave_out_what_was_hoped_for_and_tell_heat_once() -> None:
    """Heat for each degree before heat a day; of what was hoped to save heat neither; refused ones are none."""
    every = [
        outcome(name, 1.0, 0.5, 1.5) for name in ("watts_per_kelvin", "heat", "night_humidity", "daily_light", "lift")
    ]
    damp = outcome("night_humidity", 1.0, 0.5, 1.5, declared=True)
    assert set(sides(damp, *(one for one in every if one.outcome != "night_humidity"))) == {
        "watts_per_kelvin",
        "daily_light",
        "lift",
    }
    assert "heat" in sides(damp, *(one for one in every if one.outcome not in ("night_humidity", "watts_per_kelvin")))
    saves = outcome("watts_per_kelvin", -1.0, -1.5, -0.5, declared=True)
    assert set(sides(saves, *every[1:])) == {"night_humidity", "daily_light", "lift"}
    refused = outcome("lift", 0.0, 0.0, 0.0, refused="no")
    assert sides(damp, refused) == []


def undoing(low: float, high: float, name: str = "night_humidity", hope: str = "drier air", undone: Any = (4,)) -> bool:
    entries = [line("Vents taped", 2, None), line("Tape off", 4, None, hoped_for=(hope,) if hope else ())]
    of = cast(Any, SimpleNamespace(undone=undone))
    return levers._undoing_helped(of, effect(outcome(name, (low + high) / 2, low, high)), entries)


def test_undoing_helped_where_on_it_was_worse_in_what_the_undoing_was_for() -> None:
    """Damper with it, undone for drier air; cooler with it, undone for warmth; zero in between tells nothing."""
    assert undoing(1.0, 6.0) and not undoing(0.0, 6.0) and not undoing(-6.0, -1.0)
    assert undoing(-2.0, -1.0, "lift", "warmer nights") and not undoing(-2.0, 0.0, "lift", "warmer nights")
    assert undoing(1.0, 2.0, "heat", "less heating") and undoing(-2.0, -1.0, "daily_light", "more light")
    assert (
        not undoing(1.0, 6.0, hope="") and not undoing(1.0, 6.0, hope="less work") and not undoing(1.0, 6.0, undone=())
    )
    assert not undoing(1.0, 6.0, "lift", "drier air")  # that outcome is not known


def weight(
    low: float, high: float, care: float = 2.0, winter: Ends | None = None, heat_cost: float | None = 90.0, **more: Any
) -> float:
    hoped = outcome("night_humidity", (low + high) / 2, low, high, declared=True)
    of: Any = SimpleNamespace(refused="", hoped=hoped, warms=False, effect=SimpleNamespace(care=care))
    for name, value in more.items():
        setattr(of, name, value)
    return levers._weight(of, winter, results(heat_cost))


def test_a_lever_weighs_by_the_unfavourable_end_in_multiples_of_what_matters() -> None:
    """3 to 8 points where 2 matter: 1.5, either way round; an interval over zero weighs nothing."""
    assert weight(3.0, 8.0) == weight(-8.0, -3.0) == 1.5
    assert (
        weight(-1.0, 8.0) == weight(0.0, 8.0) == 0.0
        and weight(3.0, 8.0, care=0.0) == weight(3.0, 8.0, care=float("nan")) == 0.0
    )


def test_or_by_its_money_whichever_is_more() -> None:
    """18 a winter of 90 of heat, where a tenth (9) matters: 2; less than nothing is nothing; unknown counts not."""
    assert weight(3.0, 8.0, winter=Ends(low=18.0, high=40.0)) == 2.0
    assert weight(3.0, 8.0, winter=Ends(low=9.0, high=40.0)) == 1.5
    assert weight(-1.0, 8.0, winter=Ends(low=-18.0, high=40.0)) == 0.0
    assert (
        weight(-1.0, 8.0, winter=Ends(low=None, high=40.0))
        == weight(-1.0, 8.0, winter=Ends(low=18.0, high=40.0), heat_cost=None)
        == 0.0
    )


def test_what_cannot_be_told_weighs_nothing() -> None:
    """Refused, without an outcome, or a heater that is told under heat."""
    for more in ({"refused": "no"}, {"hoped": None}, {"warms": True}):
        assert weight(3.0, 8.0, **more) == 0.0
