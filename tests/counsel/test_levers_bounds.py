"""Verdicts at their bounds: equal to the years, to what matters, to nothing; and the words of each condition."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.test_levers import DAMP_TAPE, GAS, QUICK, W, at, case, hoped, lever, side

from reportgen.counsel.grounds import Ends
from reportgen.counsel.levers_safety import lit_with, sealed_in
from reportgen.counsel.levers_verdict import verdict_on
from reportgen.counsel.levers_words import at_most_words, fitting, price_words, worse, years_words
from reportgen.readings.lever_types import State

HEATS = (side("heat", -5.0, -0.4),)
BOUNDS = [
    ("paid back in exactly its years", "helped", {"payback": Ends(low=0.5, high=3.0)}, ("keep", None)),
    ("soonest in exactly its years", "cannot tell", {"payback": Ends(low=3.0, high=None)}, ("change once", "three")),
    ("exactly what matters, in minutes", "cannot tell", {**QUICK, "care": 8.0}, ("change once", "three")),
    ("a little more than matters, in minutes", "cannot tell", {**QUICK, "care": 7.9}, ("try on and off", "at most")),
    (
        "spares nothing even at best",
        "cannot tell",
        {"payback": None, "winter_kwh": Ends(low=-50.0, high=0.0)},
        ("not worth it", "at most"),
    ),
    (
        "spares a little at best",
        "cannot tell",
        {"payback": None, "winter_kwh": Ends(low=-50.0, high=0.5)},
        ("change once", "three"),
    ),
    ("free of cost, nothing known of money", "helped", {"cost": 0.0, "payback": None}, ("keep", None)),
    (
        "one winter where no years are noted",
        "helped",
        {"years": None, "payback": Ends(low=0.5, high=1.0)},
        ("keep", None),
    ),
    (
        "longer than one winter",
        "helped",
        {"years": None, "payback": Ends(low=0.5, high=1.2)},
        ("keep with a condition", "pays back in 0.5 to 1.2\u00a0winters, against one winter, as no years are noted"),
    ),
    (
        "not even at best",
        "helped",
        {"payback": None},
        ("keep with a condition", "even at best it does not pay"),
    ),
    (
        "no money known",
        "helped",
        {"payback": None, "winter_kwh": None},
        ("keep with a condition", "whether it pays is not known"),
    ),
    (
        "the winter still runs",
        "helped",
        {"running": True},
        ("keep with a condition", "whether it pays is known when the winter is over"),
    ),
    (
        "undone, costs no heat for sure",
        "hurt",
        {**DAMP_TAPE, "price": (side("heat", -5.0, 0.0),)},
        ("leave undone", None),
    ),
    (
        "undone, no matter of air or cover",
        "hurt",
        {**DAMP_TAPE, "lever": lever(touches=("plants",)), "price": HEATS},
        ("leave undone", "undone it takes more heat"),
    ),
    ("undone, heat dearer", "hurt", {**DAMP_TAPE, "price": (side("lift", -5.0, -1.0),)}, ("leave undone", None)),
    (
        "a burner of its own, its flue not noted",
        "helped",
        {"sealed": True, "own_flue_unsaid": True},
        ("not again", "unless it has a flue"),
    ),
    (
        "it cost nothing",
        "cannot tell",
        {"cost": 0.0, "payback": Ends(low=9.0, high=None)},
        ("change once", "three"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("verdict", "more", "expected"), [row[1:] for row in BOUNDS], ids=[row[0] for row in BOUNDS])
def test_at_the_bound(verdict: str, more: dict[str, Any], expected: tuple[str, str | None]) -> None:
    """The verdict, and how its condition begins."""
    told, condition = verdict_on(case(verdict, **more))
    assert told == expected[0]
    assert (condition is None) == (expected[1] is None)
    assert condition is None or condition.startswith(expected[1] or "")


def test_one_burner_known_to_have_no_flue_is_enough() -> None:
    """Beside one of which nothing is said: never, and replaced first; where nothing is said of any: asked."""
    unsaid = replace(GAS, name="stove", flue_unsaid=True)
    _, both = verdict_on(case("helped", forbidden_by=(GAS, unsaid)))
    assert both == "never with the gas heater and the stove lit; replace that or give it a flue first"
    _, two = verdict_on(case("helped", forbidden_by=(unsaid, replace(unsaid, name="boiler"))))
    assert two is not None and two.startswith("never with the stove and the boiler lit unless they have a flue")
    _, one = verdict_on(case("helped", forbidden_by=(unsaid,)))
    assert one == "never with the stove lit unless it has a flue; season.toml does not say whether it has one"


def test_what_is_left_as_it_is_and_what_stays_undone() -> None:
    """A change that stands is left as it is, one that was taken back is left undone."""
    assert "leave it as it is" in str(verdict_on(case("cannot tell"))[1])
    assert "leave it undone" in str(verdict_on(case("cannot tell", undone=True))[1])


def test_a_price_stands_once_in_its_condition() -> None:
    """Cooler nights, beyond what matters and surely worse: both rules name them, the reader hears it once."""
    damper = side("night_humidity", 3.0, 10.0, beyond=True)
    told, condition = verdict_on(case("helped", price=(damper,)))
    assert (told, condition) == ("keep with a condition", "3 to 10\u00a0points damper at night")


def test_worse_needs_the_whole_interval() -> None:
    """Damper from 0 on is not yet worse; less light up to 0 neither; the words name both ends and the way."""
    assert not worse(side("night_humidity", 0.0, 5.0)) and worse(side("night_humidity", 0.1, 5.0))
    assert not worse(side("daily_light", -2.0, 0.0)) and worse(side("daily_light", -2.0, -0.1))
    assert price_words(side("night_humidity", 3.0, 10.0), W) == "3 to 10\u00a0points damper at night"
    assert price_words(side("daily_light", -2.0, -1.0), W) == "10 to 20\u00a0% less light"


@pytest.mark.parametrize(
    ("outcome", "words"),
    [
        (hoped("lift", -0.2, 1.4), "at most 1.4\u00a0K warmer"),
        (hoped("lift", -1.4, 0.0), "not even at best what was hoped"),
        (hoped("night_humidity", 0.0, 4.0), "not even at best what was hoped"),
        (hoped("night_humidity", -3.0, 4.0), "at most 3\u00a0points drier"),
        (hoped(low=-25.0, high=-10.0), "at most 20\u00a0% less heat for each degree"),
        (hoped("lift", -2.0, 0.04), "next to nothing"),
    ],
)
def test_the_favourable_end_in_words(outcome: Any, words: str) -> None:
    """Of 125 W/K 25 are 20 %; an end of nothing is none."""
    assert at_most_words(outcome, W) == words


def test_a_condition_keeps_its_first_part_and_what_fits_in_twenty_words() -> None:
    """Twenty words stand, one more does not; a later part that fits is not lost for a long one before it."""
    ten, eleven = "a " * 9 + "b", "c " * 10 + "d"
    assert fitting((ten, ten)) == f"{ten}; {ten}"
    assert fitting((ten, eleven)) == ten
    assert fitting((ten, eleven, "e")) == f"{ten}; e"
    assert fitting((f"{eleven} {eleven}",)) == f"{eleven} {eleven}"
    assert (years_words(None), years_words(3.0)) == ("one winter, as no years are noted", "its 3\u00a0years")


def burning(first: str, last: str) -> Any:
    """The gas heater, lit from noon to noon."""
    return replace(GAS, lit=((at(first).timestamp(), at(last).timestamp()),))


def test_what_meets_at_an_instant_did_not_burn_together() -> None:
    """Put out as the film goes up: never lit behind it; a second later it was."""
    film = lever(states=(State(from_=at("2026-01-10"), to=at("2026-01-20"), on=True),))
    off = lever(states=(State(from_=at("2026-01-10"), to=at("2026-01-20"), on=False),))
    assert not lit_with(burning("2026-01-05", "2026-01-10"), film)
    assert not lit_with(burning("2026-01-20", "2026-01-25"), film)
    assert lit_with(burning("2026-01-05", "2026-01-11"), film)
    assert lit_with(burning("2026-01-01", "2026-01-30"), film)
    assert not lit_with(burning("2026-01-01", "2026-01-30"), off)
    assert sealed_in(replace(GAS, lit=()), _house(film)) == ()


def _house(*levers: Any) -> Any:
    """Readings of a house with these levers and no diary."""
    return SimpleNamespace(
        levers=levers,
        levers_before=(),
        diary=(),
        diary_before=(),
        season=SimpleNamespace(start=pd.Timestamp("2026-01-01")),
    )
