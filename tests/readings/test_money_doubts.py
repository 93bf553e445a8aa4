"""One amount in two books within a fortnight is asked about, once, without the amount."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from made_season import heater, store

from reportgen.readings.money_doubts import money_doubts
from reportgen.readings.types import Cost, DiaryEntry

FILES = {"diary": "diary.csv", "costs": "costs.csv", "gas heater": "heating/bottles.csv"}


def bought(day: str, amount: float | None, what: str = "The roof lined", **more: Any) -> DiaryEntry:
    """A line of the diary with its cost."""
    usual: dict[str, Any] = {"kind": "change", "until": None, "years": None, "line": 4}
    return DiaryEntry(
        date=dt.date.fromisoformat(day), time=None, what=what, touches=(), reversible=None, hoped_for=(), cost=amount,
        written=None, note="", **(usual | more),
    )  # fmt: skip


def cost(day: str, amount: float, what: str = "film", kind: str = "") -> Cost:
    """A row of costs.csv."""
    return Cost(line=7, date=dt.date.fromisoformat(day), what=what, kind=kind, amount=amount, years=None)


def test_the_same_amount_within_fourteen_days_is_asked_about() -> None:
    """68.00 on the 22nd and on the 8th: 14 days. The warning names both places and no sum."""
    (told,) = money_doubts([bought("2026-01-22", 68.0)], [cost("2026-01-08", 68.0)], (), FILES)
    assert (told.slug, told.level, told.file, told.line) == ("paid-once-or-twice", "warning", "diary.csv", 4)
    assert "“film” in costs.csv, line 7" in told.found and "68" not in told.text()


@pytest.mark.parametrize(
    ("line", "row"),
    [
        (bought("2026-01-23", 68.0), cost("2026-01-08", 68.0)),  # 15 days
        (bought("2026-01-22", 68.0), cost("2026-01-20", 68.01)),  # another amount
        (bought("2026-01-22", 0.0), cost("2026-01-20", 0.0)),  # nothing was paid
        (bought("2026-01-22", None), cost("2026-01-20", 68.0)),
        (bought("2026-01-22", 68.0, kind="idea"), cost("2026-01-20", 68.0)),  # not bought
        (bought("2026-01-22", 4.0), cost("2026-01-20", 4.0, kind="hours")),  # hours, no money
    ],
)
def test_nothing_is_asked_where_there_is_nothing_to_ask(line: DiaryEntry, row: Cost) -> None:
    """No warning."""
    assert money_doubts([line], [row], (), FILES) == []


def test_a_thing_that_comes_and_goes_is_asked_about_once_and_a_bottle_too() -> None:
    """A curtain drawn three times at 9.00; a bottle of 20.00 on 5 January in the book of deliveries."""
    curtain = [bought(f"2026-01-{day}", 9.0, "Curtain drawn", kind="spell", line=day) for day in (10, 12, 14)]
    assert len(money_doubts(curtain, [cost("2026-01-09", 9.0)], (), FILES)) == 1
    (bottle,) = store(11.0).purchases
    paid = type(bottle)(at=bottle.at, amount=11.0, paid=20.0)
    stock = type(store())(purchases=(paid,), opening=0.0, used_before=0.0, left=0.0, left_paid=0.0)
    gas = heater([("2026-01-05", "2026-02-01", 11.0, 20.0)], name="gas heater", form="deliveries", stock=stock)
    (told,) = money_doubts([bought("2026-01-07", 20.0, "Bottle fetched")], [], (gas,), FILES)
    assert "heating/bottles.csv of 2026-01-05" in told.found and told.todo.endswith("leave both as they are")
