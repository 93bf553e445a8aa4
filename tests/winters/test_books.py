"""What the two diaries and logger lists say differently, one difference at a time."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pandas as pd
import pytest
from effects.in_memory import entry
from made_season import ZONE, channel, logger, readings, season

from reportgen.readings.types import Readings
from reportgen.season.models import House, Logger, MeasureColumn
from reportgen.winters.books import diary_differences, has_moved, logger_warnings, same_crop_loggers, with_air_of

AIR = pd.Series([1.0, 2.0], index=pd.date_range("2026-01-05", periods=2, freq="1h", tz=ZONE))


def test_upkeep_counts_where_it_touches_something() -> None:
    """A change and a spell always, upkeep that touches the cover too; not upkeep that touches nothing, an idea, an
    absence. In order of date, then of line, each thing once, in the words that came first."""
    rows = (
        entry(dt.date(2026, 1, 9), "Late", line=2),
        entry(dt.date(2026, 1, 8), "second", line=5),
        entry(dt.date(2026, 1, 8), "First", line=4),
        entry(dt.date(2026, 1, 10), "FIRST ", line=6),
        entry(dt.date(2026, 1, 11), "Curtain", line=7, kind="spell"),
        entry(dt.date(2026, 1, 12), "Washed the glass", line=8, kind="upkeep", touches=("envelope",)),
        entry(dt.date(2026, 1, 13), "Swept", line=9, kind="upkeep"),
        entry(dt.date(2026, 1, 14), "Idea", line=10, kind="idea", touches=("envelope",)),
        entry(dt.date(2026, 1, 15), "Away", line=11, kind="away"),
    )
    told = ("First", "second", "Late", "Curtain", "Washed the glass")
    assert diary_differences(readings(diary=rows), readings(diary=())) == (told, ())
    assert diary_differences(readings(diary=()), readings(diary=rows)) == ((), told)


def test_what_was_put_up_between_the_two_winters_is_of_this_one() -> None:
    """Last winter ended on 2 February 2025: a cover of October is new, a film of the January before is not."""
    last = replace(readings(), season=season("2025-01-06", "2025-02-02"))
    rows = (entry(dt.date(2025, 1, 9), "Film", line=2), entry(dt.date(2025, 10, 12), "Twin-wall", line=3))
    this = replace(readings(diary=(entry(dt.date(2026, 1, 9), "Seal", line=4),)), diary_before=rows)
    assert diary_differences(this, last) == (("Twin-wall", "Seal"), ())


def with_air(*loggers: Logger, **more: Any) -> Readings:
    """A winter with these loggers, one of which logged."""
    return readings(season(logger=loggers, **more), channels=(channel(AIR, logger="bench"),))


def told(mine: Logger, theirs: Logger) -> tuple[str, ...]:
    return logger_warnings(with_air(mine), with_air(theirs))


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, ()),
        ({"where": "outdoor"}, ("somewhere else last winter",)),
        ({"under": "fleece"}, ("somewhere else last winter",)),
        ({"shielded": False}, ("screened from the sun in one winter only",)),
        ({"main": True}, ("spoke for the house in one winter only",)),
        ({"accuracy": 0.5}, ("another accuracy, unit or offset",)),
        ({"measures": {"air_temperature": MeasureColumn(column="t", unit="degF")}}, ("another accuracy, unit",)),
        ({"measures": {"air_temperature": MeasureColumn(column="t", offset=0.3)}}, ("another accuracy, unit",)),
        ({"measures": {"relative_humidity": MeasureColumn(column="rh")}}, ()),
    ],
)
def test_each_difference_of_a_logger_is_told_by_itself(more: dict[str, Any], words: tuple[str, ...]) -> None:
    """One difference, one sentence; a measure that only one winter had is none."""
    found = told(_logger(**more), _logger())
    assert len(found) == len(words)
    assert all(word in line and "Logger bench" in line for word, line in zip(words, found, strict=True))


def _logger(**more: Any) -> Logger:
    return Logger(**(logger("bench", accuracy=more.pop("accuracy", None)).model_dump() | more))


def test_beds_tell_of_a_move_only_where_both_winters_name_them() -> None:
    """Bed a and bed b: moved. The same beds in another order, or one winter that names none: not."""
    assert has_moved(_logger(beds=("a",)), _logger(beds=("b",)))
    assert not has_moved(_logger(beds=("a", "b")), _logger(beds=("b", "a")))
    assert not has_moved(_logger(beds=("a",)), _logger())
    assert not has_moved(_logger(), _logger(beds=("a",)))


def test_the_house_is_told_before_its_loggers() -> None:
    """The pages name the first: another cover explains more than a plug that is new."""
    this = with_air(_logger(), _logger(name="plug"), house=House(glazing="glass"))
    last = with_air(_logger(), house=House(glazing="film"))
    found = logger_warnings(this, last)
    assert found[0].startswith("The glazing of the house") and "Logger plug is new" in found[1]


@pytest.mark.parametrize(
    ("key", "mine", "theirs", "words"),
    [
        ("floor_area_m2", 6.0, 8.0, "The floor area of the house is not the same"),
        ("glazing_area_m2", 20.0, 25.0, "The glazing area of the house is not the same"),
        ("glazing", "film", "glass", "The glazing of the house is not the same"),
        ("floor_area_m2", 6.0, 6.0, None),
        ("floor_area_m2", 6.0, None, None),
        ("floor_area_m2", None, 6.0, None),
    ],
)
def test_an_altered_house_is_told_with_both_figures(key: str, mine: Any, theirs: Any, words: str | None) -> None:
    """Then and now, in this order; a figure that one winter does not give says nothing."""
    this, last = (with_air(_logger(), house=House(**{key: value})) for value in (mine, theirs))
    found = logger_warnings(this, last)
    assert len(found) == (words is not None)
    if words is not None:
        assert found[0].startswith(words) and f"({theirs} then, {mine} now)" in found[0]


def test_a_winter_without_readings_can_be_compared_by_its_books_alone() -> None:
    """Either of the two; where both logged nothing is said."""
    bare = readings(season(logger=(_logger(),)))
    for pair in ((bare, with_air(_logger())), (with_air(_logger()), bare)):
        assert logger_warnings(*pair) == (
            "One of the two winters has no logger readings, so only the books can be compared.",
        )


def test_the_crop_loggers_of_both_winters() -> None:
    """Of a name in both, in the same place, with at least two readings of the air beside the crop in either."""
    two, one, none = AIR, AIR.iloc[:1], AIR.iloc[:0]

    def book(values: pd.Series, where: str = "crop", name: str = "bench", measure: str = "air_temperature") -> Readings:
        return readings(
            season(logger=(logger(name, where=where),)), channels=(channel(values, measure, logger=name, where=where),)
        )

    assert same_crop_loggers(book(two), book(two)) == ("bench",)
    for other in (book(one), book(none), book(two, "outdoor"), book(two, name="door"), book(two, measure="ppfd")):
        assert same_crop_loggers(book(two), other) == ()
        assert same_crop_loggers(other, book(two)) == ()
    assert same_crop_loggers(book(two, "outdoor"), book(two, "outdoor")) == ()


def test_only_the_crop_air_of_other_loggers_is_left_out() -> None:
    """The door's air goes; its humidity, the outdoor air and the bench's air stay."""
    kept = (
        channel(AIR, logger="bench"),
        channel(AIR, "relative_humidity", logger="door"),
        channel(AIR, logger="out", where="outdoor"),
    )
    book = readings(channels=(channel(AIR, logger="door"), *kept))
    assert with_air_of(book, ("bench",)).channels == kept
