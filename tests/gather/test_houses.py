"""Who is who: one id through the years is one house, letters for those without a name, no winter twice."""

from __future__ import annotations

from pathlib import Path

import pytest
from gather.hand import houses, put, review, season, winter

from reportgen.gather.gathering import gather
from reportgen.gather.houses import houses_of, read_twice, winter_word
from reportgen.problems import SeasonError

LAST = season("2024-11-01", "2025-02-28")


def nameless(number: int, night_c: float | None, **more: object) -> dict[str, object]:
    """A house with an id and no label, under nights of that mean."""
    return review(number, house={"id": f"{number:016x}"}, weather={"mean_night_c": night_c}, **more)


def test_letters_by_the_cold_of_their_nights() -> None:
    """The coldest first, those not known last; a letter that somebody has as a label is passed over."""
    named = review(9, house={"id": "9" * 16, "label": "b"})
    found = houses(nameless(1, 3.0), nameless(2, None), nameless(3, -4.0), named)
    assert [(house.label, house.newest.house_id) for house in found] == [
        ("b", "9" * 16), ("A", f"{3:016x}"), ("C", f"{1:016x}"), ("D", f"{2:016x}")
    ]  # fmt: skip


def test_more_houses_than_letters() -> None:
    """After Z comes AA, as columns of a sheet are counted."""
    labels = [house.label for house in houses(*(nameless(n, float(n)) for n in range(1, 60)))]
    assert labels[25:28] == ["Z", "AA", "AB"] and labels[51:53] == ["AZ", "BA"]


def test_winters_of_one_id_are_one_house_under_its_newest_label() -> None:
    """Whatever it was called before."""
    old = review(1, season=LAST, house={"id": f"{1:016x}", "label": "Plot one"})
    [house] = houses(review(1), old)
    assert house.label == "Plot 1" and [winter_word(w) for w in house.winters] == ["2024–25", "2025–26"]


def test_labels_in_the_order_in_which_people_count() -> None:
    """Plot 2 before Plot 10."""
    assert [house.label for house in houses(*(review(n) for n in (10, 2, 1)))] == ["Plot 1", "Plot 2", "Plot 10"]


def test_two_houses_with_one_label_are_told_apart_and_told() -> None:
    """Each gets a number behind it, and the organiser reads of it; a label that is already so is not taken."""
    same = [review(n, house={"id": f"{n:016x}", "label": "Plot 7"}) for n in (1, 2)]
    taken = review(3, house={"id": f"{3:016x}", "label": "plot 7 (1)"})
    found, told = houses_of([winter(document, f"{n}.json") for n, document in enumerate([*same, taken])])
    assert sorted(house.label for house in found) == ["Plot 7 (2)", "Plot 7 (3)", "plot 7 (1)"]
    assert len(told) == 2 and all("More than one house is called “Plot 7”" in words for words in told)


def test_houses_without_an_id_are_not_joined_and_told() -> None:
    """Two winters under one label without an id: two houses, and why."""
    both = [review(1, house={"label": "Plot 1"}), review(1, house={"label": "Plot 1"}, season=LAST)]
    found, told = houses_of([winter(document, f"{n}.json") for n, document in enumerate(both)])
    assert [house.label for house in found] == ["Plot 1 (1)", "Plot 1 (2)"]
    assert any("`id`" in words and "Plot 1 (1), Plot 1 (2)" in words for words in told)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (review(1), review(1)),
        (review(1), review(1, season=season("2025-11-01", "2026-01-10"), so_far="2026-01-10")),
        (review(1, house={"label": "Plot 1"}), review(1, house={"label": "plot  1"}, heat={"kwh": 5.0})),
        (review(1, house={}), review(1, house={})),
    ],
    ids=["one id", "a winter that still ran", "one label and the same days", "the very same without a name"],
)
def test_one_winter_twice_is_a_problem_that_names_both(one: object, other: object, tmp_path: Path) -> None:
    """It would count double."""
    place = put(tmp_path / "in", first=one, second=other, third=review(5))
    with pytest.raises(SeasonError) as stopped:
        gather([place])
    [problem] = stopped.value.problems
    assert problem.slug == "winter-twice"
    assert {word in problem.text() for word in ("in/first.json", "in/second.json")} == {True}


def test_what_is_no_winter_twice() -> None:
    """Winters that follow each other; one label with other days and no id; two ids in one winter."""
    apart = [
        review(1), review(1, season=LAST), review(2), review(3, house={"label": "Plot 9"}),
        review(3, house={"label": "Plot 9"}, season=season("2025-11-02", "2026-02-28")),
    ]  # fmt: skip
    assert read_twice([winter(document, f"{n}.json") for n, document in enumerate(apart)]) == []


def test_two_houses_that_chose_one_id_are_not_taken_for_one_in_silence(tmp_path: Path) -> None:
    """Two growers who both wrote `id = "greenhouse"`: whoever takes one file out as a copy loses a house."""
    mill = {"id": "a" * 16, "label": "Mill", "floor_area_m2": 12.0}
    weir = {"id": "a" * 16, "label": "Weir", "floor_area_m2": 30.0}
    place = put(tmp_path / "in", first=review(1, house=mill), second=review(1, house=weir))
    with pytest.raises(SeasonError) as stopped:
        gather([place])
    [problem] = stopped.value.problems
    assert "two houses" in problem.todo and "“Mill”, 12 m²" in problem.todo and "another id" in problem.todo
    _, told = houses_of([winter(review(1, house=mill, season=LAST), "a.json"), winter(review(1, house=weir), "b.json")])
    assert any("“Mill”, 12 m² of a.json and “Weir”, 30 m² of b.json" in words for words in told)
    _, told = houses_of([winter(review(1, house=mill, season=LAST), "a.json"), winter(review(1, house=mill), "b.json")])
    assert told == ()
