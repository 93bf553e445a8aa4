"""Pictures of many houses on plain and odd views: words apart and inside, every house once, the marked one marked."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from drawing.measured import faults, ids, said

from reportgen.drawing.axis import outward
from reportgen.drawing.crowd import Crowd, Kind, crowd_tall, crowd_wide
from reportgen.drawing.houses import Houses, Row, houses_tall, houses_wide
from reportgen.drawing.together import Dot, Together, together_tall, together_wide
from reportgen.drawing.together import Row as Thing
from reportgen.wording import number

LONG = "The very long name of a garden that somebody wrote without a stop for breath or a comma " * 2
ARABIC = "البيت الزجاجي الشرقي عند البئر القديمة"


def rows(many: int, *, name: str = "Plot", band: float | None = 2.0, beside: bool = True) -> Houses:
    """That many houses, the third marked."""
    made = tuple(
        Row(name=f"{name} {n}", value=n * 1.7 - 6, said=f"{n * 1.7 - 6:.1f} °C", more=f"outdoors {n * 1.7 - 9:.1f} °C",
            low=None if band is None else n * 1.7 - 6 - band, high=None if band is None else n * 1.7 - 6 + band,
            beside=n * 1.7 - 9 if beside else None, ours=n == 2)
        for n in range(many)
    )  # fmt: skip
    ends = [v for row in made for v in (row.value, row.low, row.high, row.beside) if v is not None]
    axis = outward(ends, 5, lambda v: f"{number(v)}°", 0.0)
    return Houses(uid="h", label="Houses", description="From low to high.", axis=axis, rows=made, token="cold",
                  value_word="coldest inside", beside_word="coldest outdoors", heavy_word="frost line",
                  left_word="← colder", right_word="warmer →", joined=True)  # fmt: skip


def forest() -> Houses:
    """Houses with their sum and the next one."""
    view = rows(5, beside=False)
    more = (Row(name="All together", value=-2.0, low=-3.0, high=-1.0, said="−2 °C", kind="mean"),
            Row(name="The next house", value=None, low=-9.0, high=400.0, said="−9 to 4", kind="next"))  # fmt: skip
    return replace(view, rows=(*view.rows, *more))


def crowd(many: int, kinds: int = 1, *, name: str = "Heated house", spread: float = 0.37) -> Crowd:
    """That many houses in so many kinds, the first of the first marked."""
    found = tuple(
        Kind(name=f"{name} {k}" if kinds > 1 else "", values=tuple((n * spread) % 17 - 4 for n in range(many)),
             said=f"{many} houses" if kinds > 1 else "", ours=0 if k == 0 else None)
        for k in range(kinds)
    )  # fmt: skip
    axis = outward([-4, 13], 5, lambda v: f"{number(v)}°", 0.0)
    return Crowd(uid="c", label="Crowd", description="Many.", axis=axis, kinds=found, token="cold", heavy_word="line",
                 band=1.0, band_word="a usual sensors' band")  # fmt: skip


def dot(n: int, wide: float) -> Dot:
    """One house; the first is the marked one."""
    at = n * 0.41 - 1
    return Dot(at * wide, (at - 2) * wide, (at + 2) * wide, n == 0)


def together(*many: int, name: str = "Bubble film", wide: float = 1.0) -> Together:
    """A row of so many houses each, the first house marked."""
    made = tuple(
        Thing(mark=("helped", "opposite", "open")[k % 3], words=f"{name} {k}", note=f"heat for each degree, {n} houses",
              dots=tuple(dot(i, wide) for i in range(n)),
              mean=(0.2 * wide, 1.1 * wide, 2.0 * wide) if n > 2 else None,
              next_=(-2 * wide, 4 * wide) if n > 2 else None,
              said="12 to 19 % less heat for each degree", said_next="next house: from 3 % more to 31 % less heat",
              verdict="helped", ours="your house: from 0.3 degrees colder to 0.9 degrees warmer")
        for k, n in enumerate(many)
    )  # fmt: skip
    return Together(uid="t", label="Things", description="What each did.", rows=made, folded="3 more rows in the "
    "table.",
                    times="times what is worth having: 0.5 degrees of warmth, 10 % of the heat, 3 points")  # fmt: skip


HOUSES = {
    "plain": rows(8),
    "one": rows(1),
    "forty": rows(40),
    "bare": rows(6, band=None, beside=False),
    "long": rows(8, name=LONG),
    "right to left": rows(8, name=ARABIC),
    "forest": forest(),
    "beyond the axis": replace(forest(), axis=outward([-4, 2], 2, number, 0.0)),
}
CROWDS = {
    "plain": crowd(60),
    "kinds": crowd(15, 5),
    "five hundred": crowd(500),
    "all alike": crowd(90, spread=0.0),
    "long": crowd(30, 3, name=LONG),
    "right to left": crowd(30, 3, name=ARABIC),
}
TOGETHER = {
    "plain": together(6, 5, 2),
    "one": together(1),
    "many": together(60, 500, 12, 13),
    "long": together(6, 3, name=LONG),
    "right to left": together(6, 3, name=ARABIC),
    "wide": together(6, 3, wide=40.0),
}
DRAWN: dict[str, Callable[[], str]] = {}
for key, houses in HOUSES.items():
    DRAWN[f"houses wide, {key}"] = lambda v=houses: houses_wide(v)  # type: ignore[misc]
    DRAWN[f"houses tall, {key}"] = lambda v=houses: houses_tall(v)  # type: ignore[misc]
for key, many in CROWDS.items():
    DRAWN[f"crowd wide, {key}"] = lambda v=many: crowd_wide(v)  # type: ignore[misc]
    DRAWN[f"crowd tall, {key}"] = lambda v=many: crowd_tall(v)  # type: ignore[misc]
for key, things in TOGETHER.items():
    DRAWN[f"together wide, {key}"] = lambda v=things: together_wide(v)  # type: ignore[misc]
    DRAWN[f"together flat, {key}"] = lambda v=things: together_wide(v, 760, 12.5, "flat")  # type: ignore[misc]
    DRAWN[f"together tall, {key}"] = lambda v=things: together_tall(v)  # type: ignore[misc]


@pytest.mark.parametrize("name", DRAWN)
def test_a_form_holds_its_words_apart_and_inside(name: str) -> None:
    """No word over another nor cut, no bad number, a name and a description; twice the same bytes; small."""
    svg = DRAWN[name]()
    assert faults(svg) == []
    assert svg == DRAWN[name]()
    assert len(ids(svg)) == len(set(ids(svg)))
    assert len(svg.encode()) <= 40_000


@pytest.mark.parametrize("many", [1, 8, 40])
def test_every_house_has_one_dot_and_the_marked_one_a_diamond_and_a_word(many: int) -> None:
    """A circle a house but the marked one, which is a diamond with its word; rings only beside."""
    view = rows(many, beside=False)
    for svg in (houses_wide(view), houses_tall(view)):
        marked = sum(row.ours for row in view.rows)
        assert svg.count("<circle") == many - marked
        assert sum("your house" in line.words for line in said(svg)) == marked


def test_a_crowd_draws_each_house_once() -> None:
    """Dots but the marked one's add up to the houses as long as a dot is one house."""
    svg = crowd_wide(crowd(60))
    assert sum(d.count("h0") for d in re.findall(r'<path d="([^"]*)"', svg)) == 59
    assert any("your house" in line.words for line in said(svg))
    assert "A dot stands for" not in svg


def test_a_crowd_that_is_too_tall_says_what_a_dot_stands_for() -> None:
    """90 houses of one value cannot stand upon one another: 89 others in piles of nine are ten a dot."""
    svg = crowd_tall(crowd(90, spread=0.0))
    assert sum(d.count("h0") for d in re.findall(r'<path d="([^"]*)"', svg)) == 9
    assert any(line.words == "A dot stands for up to 10 houses." for line in said(svg))


def test_dots_of_a_thing_are_its_houses() -> None:
    """Up to twelve houses have a line and a dot each, one of them the marked one."""
    svg = together_wide(together(12))
    assert svg.count("<circle") == 12  # eleven houses, and the ring before the name
