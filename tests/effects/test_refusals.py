"""What cannot be told is refused with its reason and with what would have made it answerable."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache

import pandas as pd
import pytest
from effects.in_memory import ZONE, entry, readings_of
from made_season import readings, season
from simulator import Climate, HouseParams, Simulated, simulate, synthetic

from reportgen.effects import Changes, effects
from reportgen.plain import plain
from reportgen.readings.types import DiaryEntry, Readings

DAY = dt.date(2026, 1, 12)


@lru_cache(maxsize=1)
def plain_winter() -> Simulated:
    weather = synthetic(Climate(), "2025-12-10", "2026-02-20", seed=21, step_s=900)
    return simulate(weather, HouseParams(), seed=21)


def with_diary(*diary: DiaryEntry, **more: bool) -> Readings:
    return readings_of(plain_winter(), diary=diary, **more)


def why(found: Changes, outcome: str = "lift", n: int = 0) -> str:
    return next(str(o.refused) for o in found.changes[n].outcomes if o.outcome == outcome)


def warm(day: dt.date, what: str, line: int = 2, **more: object) -> DiaryEntry:
    return entry(day, what, line=line, hoped_for=("warmer nights",), **more)


def test_a_season_without_a_diary_has_no_changes_and_says_so() -> None:
    """An empty diary is a result, not a crash."""
    found = effects(readings())
    assert found.changes == ()
    assert "no diary" in found.reason


def test_a_change_in_a_season_without_loggers_is_refused() -> None:
    """No channel at all: every outcome says what was not logged."""
    found = effects(readings(season("2025-12-01", "2026-02-28"), diary=(warm(DAY, "seal"),)))
    assert found.changes[0].verdict == "cannot tell"
    assert all(o.refused for o in found.changes[0].outcomes)


def test_no_outdoor_logger_no_weather_no_verdict() -> None:
    """Without outdoor air nothing is compared: the reason names the logger."""
    full = with_diary(warm(DAY, "seal"))
    inside = tuple(c for c in full.channels if c.where != "outdoor")
    from dataclasses import replace

    found = effects(replace(full, channels=inside))
    assert "no outdoor logger" in why(found)
    assert "no outdoor temperature" in why(found, "night_humidity")


@pytest.mark.parametrize("day", [dt.date(2025, 12, 14), dt.date(2026, 2, 16)])
def test_too_few_days_on_a_side(day: dt.date) -> None:
    """A change in the first or last week: fewer than seven nights on that side."""
    found = effects(with_diary(warm(day, "seal")))
    assert "at least 7 are needed" in why(found)
    assert found.changes[0].declared is not None
    assert found.changes[0].declared.answerable


def test_two_changes_almost_together_are_told_as_a_pair() -> None:
    """Five days apart with nothing between: neither can be told from the other, and each names the other."""
    found = effects(with_diary(warm(DAY, "seal"), warm(DAY + dt.timedelta(days=5), "fleece", 3)))
    blocked = [c.declared.blocked_by for c in found.changes if c.declared is not None]
    told = [c.verdict for c in found.changes]
    pair = [c for c in found.changes if c.declared is not None and c.declared.refused is None]
    assert blocked == [("fleece",), ("seal",)] or all(c.meanwhile for c in pair), (blocked, told)


def test_changes_within_three_days_are_judged_as_one() -> None:
    """Both rows carry the same estimate and name each other."""
    found = effects(with_diary(warm(DAY, "seal"), warm(DAY + dt.timedelta(days=2), "fleece", 3)))
    first, second = found.changes
    assert (first.grouped_with, second.grouped_with) == (("fleece",), ("seal",))
    assert first.declared is not None
    assert second.declared is not None
    assert first.declared.effect == second.declared.effect


def test_soil_is_not_judged_by_switching() -> None:
    """The bed remembers for weeks: a spell's effect on it is refused with that reason."""
    spells = [
        warm(DAY + dt.timedelta(days=8 * n), "curtain", n + 2, kind="spell", until=DAY + dt.timedelta(days=8 * n + 3))
        for n in range(3)
    ]
    found = effects(with_diary(*spells))
    assert len(found.changes) == 1
    assert "remembers" in why(found, "soil_mean")


def test_ideas_and_events_are_listed_and_not_judged() -> None:
    """They stand in the list with the reason; no outcome is worked out for them."""
    found = effects(with_diary(entry(DAY, "fleece", kind="idea"), entry(DAY, "power cut", kind="event", line=3)))
    assert [c.verdict for c in found.changes] == ["not judged", "not judged"]
    assert found.changes[0].reasons["verdict"] == "an idea, not done yet"
    assert found.judged == 0


def test_a_hope_that_no_logger_can_judge() -> None:
    """*Better growth* is not judged; what moved is still listed without a verdict."""
    found = effects(with_diary(entry(DAY, "spacing", hoped_for=("better growth",))))
    (change,) = found.changes
    assert change.verdict == "not judged"
    assert change.unjudged_hopes == ("better growth",)
    assert any(o.refused is None for o in change.outcomes)


def test_a_long_gap_after_the_change_is_refused_not_filled() -> None:
    """The bench logger stops the day after: no night after the change counts."""
    full = with_diary(warm(DAY, "seal"))
    from dataclasses import replace

    stop = pd.Timestamp(DAY, tz=ZONE) + pd.Timedelta(days=2)
    cut = tuple(replace(c, values=c.values[c.values.index < stop]) if c.logger == "bench" else c for c in full.channels)
    found = effects(replace(full, channels=cut))
    assert "after" in why(found)
    assert found.changes[0].verdict == "cannot tell"


def nulls(value: object, path: str = "") -> list[str]:
    """Dotted paths of every null, and of every empty list, of a plain value."""
    if isinstance(value, dict):
        inner = [(f"{path}.{key}".strip("."), item) for key, item in value.items() if key not in ("reasons", "refused")]
    elif isinstance(value, list) and value:
        inner = [(f"{path}.{n}".strip("."), item) for n, item in enumerate(value)]
    else:
        return [path] if value is None or value == [] else []
    return [found for name, item in inner for found in nulls(item, name)]


def test_every_null_of_the_contract_has_its_reason() -> None:
    """In data/review.json no number is missing without words: effects, bounds, paybacks, hopes, empty lists."""
    diary = (
        warm(DAY, "seal", cost=20.0),
        entry(DAY + dt.timedelta(days=9), "spacing", line=3),
        entry(DAY, "fleece", kind="idea", line=4),
        entry(dt.date(2026, 2, 1), "power cut", kind="event", line=5),
        warm(dt.date(2026, 2, 14), "late", line=6, kind="spell", until=dt.date(2026, 2, 16)),
    )
    for found in (effects(with_diary(*diary)), effects(readings(season(), diary=diary))):
        for change in found.changes:
            document = plain(change)
            assert nulls(document)
            missing = [path for path in nulls(document) if path not in document["reasons"]]
            assert missing == [], (change.what, missing)
