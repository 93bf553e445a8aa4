"""What stands over and under the picture of the holding limit."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pytest
from made_season import readings

from reportgen.charts.frost_ahead import _limit_title, _limit_words, _which_nights
from reportgen.charts.unknown import QUESTIONS, _sentence
from reportgen.measures.frost_cold import CLOSE, HELD
from reportgen.measures.frost_types import HoldingLimit
from reportgen.readings.types import DiaryEntry
from reportgen.wording import Wording

NBSP = "\u00a0"


def facts(touched: bool = False, **more: Any) -> Any:
    """A winter whose coldest night was −12 °C outdoors."""
    change = DiaryEntry(
        line=2, date=dt.date(2026, 1, 9), time=None, kind="change", what="", touches=("envelope",), reversible=None,
        hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    made = readings(diary=(change,) if touched else ())
    limit = HoldingLimit(coldest_seen_c=-12.0, **more)
    return SimpleNamespace(
        r=SimpleNamespace(frost=SimpleNamespace(holding_limit=limit, failures=()), readings=made),
        w=Wording.of(made.season),
        there=SimpleNamespace(season="winter", heater=True),
    )


@pytest.mark.parametrize(
    ("told", "title", "words"),
    [
        ({"outdoor_c": -8.0}, f"19 nights of 20 the house holds down to about −8{NBSP}°C", f"From −8{NBSP}°C upward"),
        ({"reason": HELD}, f"every night, down to −12.0{NBSP}°C outdoors; colder was not tested", "Every night used"),
        ({"reason": CLOSE}, f"every night, down to −12.0{NBSP}°C outdoors, but only just", "another night as cold"),
        ({"reason": HELD, "left_out": 1}, "every night that its heat ran through, down to", "Every night used"),
        ({"reason": "only 4 nights with heat"}, "cannot be told", "Cannot tell: only 4 nights with heat."),
    ],
)
def test_title_and_words(told: dict[str, Any], title: str, words: str) -> None:
    """A limit; held; held only just; with a night left out for its heat; not to be told."""
    assert title in _limit_title(facts(**told)) and words in _limit_words(facts(**told))


def test_since_the_last_change_is_said() -> None:
    """What came before it is another house."""
    assert "on every night since it was last altered, down to" in _limit_title(facts(touched=True, reason=HELD))


@pytest.mark.parametrize("reason", [HELD, CLOSE])
def test_what_is_not_known_of_a_house_that_held(reason: str) -> None:
    """Nights before the last change and without heat may not have held: only those that tell are spoken of."""
    question = next(one for one in QUESTIONS if one.path == "holding_limit.outdoor_c")
    told = _sentence(question, reason, SimpleNamespace())  # type: ignore[arg-type]
    assert "the nights that tell of it as it is now" in told and ("only just" in told) == (reason == CLOSE)


def test_which_nights_are_used() -> None:
    """All; those with heat; those at the hold; since the last change."""
    assert _which_nights(facts()) == "Nights of the whole season."
    assert _which_nights(facts(chosen="with heat")).startswith("Nights of the whole season, those with heat")
    assert "its usual hold or under it" in _which_nights(facts(touched=True, chosen="at the hold"))
    assert _which_nights(facts(touched=True)) == "Nights since the house was last altered."
