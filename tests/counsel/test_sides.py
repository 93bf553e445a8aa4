"""Both sides of a lever in words, and how words are counted."""

from __future__ import annotations

import pytest
from counsel.grounded import humid, lever, side, winter

from reportgen.counsel.brief import cut, fitted, short, words_in
from reportgen.counsel.grounds import Ends
from reportgen.counsel.sides import ends_of_money, hoped_words, money_words, price_words
from reportgen.wording import Wording, listed

W = Wording(us=False, currency="EUR")


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (-6.0, -2.0, "2 to 6\u00a0points drier"),
        (3.0, 10.0, "3 to 10\u00a0points damper"),
        (-6.0, 0.2, "0 to 6\u00a0points drier"),
        (-6.0, 3.0, "between 6\u00a0points drier and 3\u00a0points damper"),
        (-0.04, 0.04, "neither damper nor drier"),
    ],
)
def test_both_ends_with_the_way_they_point(low: float, high: float, words: str) -> None:
    """A tape that dries by 2 to 6 points; the smaller end stands as nothing only where it is printed so."""
    told = hoped_words(winter(), lever("Tape", **humid(low, high)))
    assert told == words


def test_taken_away_it_points_the_other_way() -> None:
    """What was damper by 0 to 6 points with the tape is drier by as much without it."""
    tape = lever("Tape", **humid(0.0, 6.0))
    assert hoped_words(winter(), tape) == "0 to 6\u00a0points damper"
    assert hoped_words(winter(), tape, off=True) == "0 to 6\u00a0points drier"


def test_heat_for_each_degree_is_a_share() -> None:
    """27 to 43 % less, never a third; more where it took more."""
    assert hoped_words(winter(), lever("Film")) == "27 to 43\u00a0% less heat for each degree"
    worse = lever("Film", relative=Ends(low=-0.25, high=-0.1))
    assert hoped_words(winter(), worse) == "10 to 25\u00a0% more heat for each degree"


def test_the_price_is_what_is_surely_worse_else_a_perhaps() -> None:
    """Damper by 3 to 10 points is the price; drier by as much is none; a doubtful one says perhaps."""
    r = winter()
    film = lever("Film", price=(side("night_humidity", 3.0, 10.0), side("daily_light", -15.0, -9.0)))
    assert price_words(r, film) == ("3 to 10\u00a0points damper", "9 to 15\u00a0% less light")
    assert price_words(r, lever("Film", price=(side("night_humidity", -10.0, -3.0),))) == ()
    tape = lever("Tape", price=(side("watts_per_kelvin", -45.0, 5.0),), **humid(0.0, 6.0))
    assert price_words(r, tape) == ()
    assert price_words(r, tape, off=True) == ("perhaps up to 45\u00a0% more heat for each degree",)


def test_a_share_beyond_all_there_was_is_not_told_as_a_bound() -> None:
    """4.3 of 3.3 kWh a day would read *up to 131 % more*: that bounds nothing."""
    open_ended = side("heat", -4.3, 1.0, unit="kWh", before_mean=3.3)
    tape = lever("Tape", price=(open_ended,), **humid(0.0, 6.0))
    assert price_words(winter(), tape, off=True) == ("its heat cannot be told",)
    within = side("heat", -3.2, 1.0, unit="kWh", before_mean=3.3)
    tape = lever("Tape", price=(within,), **humid(0.0, 6.0))
    assert price_words(winter(), tape, off=True) == ("perhaps up to 97\u00a0% more heat",)


def test_one_thing_is_not_said_by_two_measures() -> None:
    """Night humidity and damp hours are one price."""
    film = lever("Film", price=(side("damp_hours", 0.5, 1.0, unit="h"), side("night_humidity", 3.0, 10.0)))
    assert price_words(winter(), film) == ("3 to 10\u00a0points damper",)


def test_money_is_two_ends_since_when_for_what() -> None:
    """EUR 50 to 100 since January for 68; at most where the low end is none; nothing without a currency."""
    film = lever("Film", spared_money=Ends(low=50.0, high=100.0), cost=68.0)
    assert money_words(film, W) == "EUR\u00a050 to 100 since January for 68"
    assert money_words(film, Wording(us=False, currency="")) == ""
    assert ends_of_money(Ends(low=-3.0, high=46.0), W) == "at most EUR\u00a046"
    assert ends_of_money(Ends(low=-9.0, high=-1.0), W) == "no money"


def test_degrees_are_shown_in_the_season_s_own() -> None:
    """0.5 to 1.5 K are 0.9 to 2.7 degrees Fahrenheit (× 9/5, exact)."""
    warm = {"outcome": "lift", "unit": "K", "low": 0.5, "high": 1.5, "relative": None}
    from made_season import season

    assert hoped_words(winter(), lever("Fleece", **warm)) == "0.5 to 1.5\u00a0degrees warmer at night"
    us = winter(of=season("2025-10-11", "2026-04-12", show="us"))
    assert hoped_words(us, lever("Fleece", **warm)) == "0.9 to 2.7\u00a0degrees warmer at night"


def test_a_figure_with_its_unit_or_a_range_is_one_word() -> None:
    """Counted by hand."""
    assert words_in("27 to 43\u00a0% less heat for each degree") == 6
    assert words_in("EUR\u00a050 to 100 since January for 68") == 5
    assert words_in("from 24\u00a0November on") == 3
    assert words_in("air by day") == 3


def test_parts_and_names_are_kept_to_their_words() -> None:
    """The first part always stands; a cut name says so and ends on no article."""
    assert fitted(("one two three", "four five", "six"), 5) == "one two three; four five"
    assert short("Bubble film inside the roof and the sides") == "Bubble film inside…"
    assert short("Gas heater lit through the cold", 4) == "Gas heater lit through…"
    assert short("Tape on the vents") == "Tape…"
    assert short("x" * 80) == "x" * 31 + "…"
    assert short("Gewächshausfühler am Nordwestgiebel") == "Gewächshausfühler am…"  # at a word, not within one
    assert short("north-west-bench-under-the-old-vine") == "north-west-bench-under-the-old…"
    assert cut("one two three four five", 3) == "one two…" and cut("one two", 3) == "one two"
    assert listed(("a", "b", "c", "d"), 3) == "a, b and 2 more" and listed(("a", "b")) == "a and b" and listed(()) == ""
    assert listed(("a", "b", "c", "d")) == "a, b, c and d" and listed(("a", "a")) == "a and a"
