"""*Never* and *nothing* are said only of what is on record."""

from __future__ import annotations

from reportgen.counsel.whole import hidden_words, of_the_time, on_record


def plain(words: str) -> str:
    """With ordinary spaces."""
    return words.replace("\u00a0", " ").replace("\u202f", " ")


def test_what_was_not_seen_names_the_hours_on_record() -> None:
    """3 530 h of season, 3 410 of them on record; silent where all is there, singular for one."""
    assert plain(on_record(3410.0, 3530.0)) == " in the 3 410 h on record; 120 h are missing"
    assert on_record(3530.0, 3530.0) == ""
    assert on_record(3528.0, 3530.0) == ""  # two hours of a winter are no sentence


def test_a_share_of_a_record_with_holes_is_of_the_time_on_record() -> None:
    """From 95 % on the hours on record stand for the season."""
    assert of_the_time(960.0, 1000.0) == "of the time"
    assert of_the_time(740.0, 1000.0) == "of the time on record"


def test_hours_that_nobody_recorded_are_cold_or_unknown() -> None:
    """Cold by the outdoor air, unknown apart, and nothing where nothing is missing."""
    assert plain(hidden_words(12.0, 0.0, "0.0 °C")) == (
        "For 12 h the crop air is not on record while it was under 0.0 °C outdoors."
    )
    assert plain(hidden_words(0.0, 744.0, "0.0 °C")) == (
        "For 744 h neither the crop air nor the outdoor air is on record."
    )
    assert "; for another 744 h neither" in plain(hidden_words(12.0, 744.0, "0.0 °C"))
    assert hidden_words(0.0, 1.0, "0.0 °C") == ""
