"""Findings of the changes: each verdict in words that hold up, with its number where it can be worked out again."""

from __future__ import annotations

import dataclasses
import datetime as dt
from types import SimpleNamespace
from typing import Any

import pytest
from counsel.hand import NO_COUNSEL
from counsel.sentences import faults
from effects.in_memory import entry
from made_season import readings

from reportgen.charts.changes_tables import rows_table
from reportgen.counsel.changes import findings
from reportgen.counsel.changes_words import bound_words, hope_words, verdict_words
from reportgen.effects import Changes, DoNothing, Effect, Outcome, measured
from reportgen.effects.judge import judge
from reportgen.wording import Wording

W = Wording(us=False, currency="EUR")
JAN = dt.date(2026, 1, 15)


def outcome(name: str, unit: str, low: float, high: float, **more: Any) -> Outcome:
    usual: dict[str, Any] = {"days_before": 21, "days_after": 20, "smallest_visible": high - low, "before_mean": 10.0}
    return Outcome(
        outcome=name, unit=unit, declared=True, effect=(low + high) / 2, low=low, high=high, **(usual | more)
    )


def change(hoped: Outcome | None, verdict: str, **more: Any) -> Effect:
    (plain,) = judge(readings(diary=(entry(JAN, "seal", hoped_for=("warmer nights",)),))).changes
    outcomes = () if hoped is None else (hoped,)
    return dataclasses.replace(plain, outcomes=outcomes, verdict=verdict, **({"care": 0.5} | more))


def told(*changes: Effect, **more: Any) -> Any:
    made = Changes(changes=changes, **more)
    return SimpleNamespace(season=readings().season, readings=readings(), effects=made, counsel=NO_COUNSEL)


LIFT = outcome("lift", "K", 0.3, 1.5)
HEAT = outcome("heat", "kWh", -3.0, -1.0)


@pytest.mark.parametrize(
    ("hoped", "words"),
    [
        (LIFT, "Warmed the nights by at most 1.5\u00a0K"),
        (outcome("lift", "K", -1.5, -0.3), "Cooled the nights by at least 0.3\u00a0K"),
        (HEAT, "Saved at most 30\u00a0% of the heat"),
        (outcome("night_humidity", "%", -6.0, 2.0), "Dried the night air by at most 6\u00a0points"),
        (outcome("soil_swing", "K", -2.0, 0.5), "Took at most 2.0\u00a0K off the bed's daily swing"),
    ],
)
def test_the_bound_comes_first_and_in_its_unit(hoped: Outcome, words: str) -> None:
    """The favourable end of the interval; where even that is harm, the least harm."""
    assert bound_words(hoped, W) == words
    assert verdict_words(change(hoped, "cannot tell"), W).startswith(words)


def test_each_verdict_has_its_finding() -> None:
    """Helped is good news, hurt is harm, no sign saves the next attempt, and the untold are told once together."""
    found = findings(
        told(
            change(LIFT, "helped", line=2),
            change(outcome("night_humidity", "%", 1.0, 4.0), "hurt", line=3),
            change(outcome("lift", "K", -0.2, 0.3), "no sign", line=4, cost=30.0),
            change(outcome("lift", "K", -0.6, 0.9), "cannot tell", line=5),
            change(outcome("lift", "K", -0.6, 0.9), "cannot tell", line=6),
        )
    )
    assert [f.stake for f in found] == ["good news", "damp", "money", "record"]
    assert found[-1].figure == "2 of 5"


def test_no_finding_without_unit_count_and_interval() -> None:
    """The evidence of a judged change names the unit, the nights on both sides and the 95 % interval."""
    (finding,) = findings(told(change(LIFT, "helped")))
    for part in ("K", "21\u00a0nights before", "20 after", "95\u00a0%", "+0.3 to +1.5"):
        assert part in finding.evidence


def test_do_nothing_dates_are_counted_or_passed_over() -> None:
    """Larger than on 5 of 6; with fewer than five such dates nothing is said."""
    dots = [DoNothing(when=JAN + dt.timedelta(days=n), effect=0.1 * n, low=-1, high=1) for n in range(6)]
    dots[5] = dataclasses.replace(dots[5], effect=2.0)
    (many,) = findings(told(change(LIFT, "helped", do_nothing=tuple(dots))))
    (few,) = findings(told(change(LIFT, "helped", do_nothing=tuple(dots[:2]))))
    assert "larger than on 5 of 6\u00a0dates" in many.evidence
    assert "dates" not in few.evidence


def test_sources_can_be_worked_out_again_from_the_table() -> None:
    """The row of the source holds the unrounded number of the claim."""
    review = told(change(LIFT, "helped", line=7), change(HEAT, "helped", line=8))
    table = rows_table(review).data
    for finding in findings(review):
        (source,) = finding.sources
        assert float(table.query(source.rows or "")[source.column].iloc[0]) == pytest.approx(source.value)


def test_the_hope_named_afterwards_is_said() -> None:
    """Written before, written after, not noted: three different words, and the finding tells them apart."""
    after, before = change(LIFT, "helped"), change(LIFT, "helped", hope_written_before=True)
    assert hope_words(before).endswith("written down before")
    assert hope_words(after).endswith("named afterwards")
    assert "afterwards" in findings(told(after))[0].how_sure


def test_sealing_carries_its_caution() -> None:
    """A change of the envelope: never seal a space in which something burns."""
    (finding,) = findings(told(change(LIFT, "helped", touches=("envelope",))))
    assert finding.caution is not None
    assert "seal" in finding.caution


def test_a_hope_for_the_bed_is_answered_with_what_one_winter_hides() -> None:
    """The interval holds zero: one winter cannot show it, with the size it hides, and no on/off plan is asked for."""
    bed = outcome("soil_mean", "K", -1.1, 1.3, smallest_visible=1.7)
    slow = change(bed, "cannot tell")
    words = (
        "One winter cannot show it: the weather of these weeks hides most changes of the bed's temperature under 1.7"
    )
    assert words in verdict_words(slow, W)
    (finding,) = findings(told(slow, no_trial={"seal": "the bed remembers for weeks"}))
    assert "one winter cannot show it" in finding.evidence
    assert "reversible" not in finding.next_step and "probe" in finding.next_step
    swing = change(outcome("soil_swing", "K", -1.1, 1.3, smallest_visible=1.7), "cannot tell")
    assert "the bed's daily swing under 1.7" in verdict_words(swing, W)


def test_a_bed_that_moved_or_was_refused_is_told_as_before() -> None:
    """An interval without zero keeps its verdict, one inside what matters too, a refused one its own reason."""
    assert "One winter" not in verdict_words(change(outcome("soil_mean", "K", 0.2, 1.8), "helped"), W)
    assert "One winter" not in verdict_words(change(outcome("soil_mean", "K", -0.2, 0.3), "no sign"), W)
    refused = Outcome(outcome="soil_mean", unit="K", declared=True, refused="no probe in the bed")
    assert "One winter" not in verdict_words(change(refused, "cannot tell"), W)
    assert "One winter" not in verdict_words(change(outcome("lift", "K", -0.6, 0.9), "cannot tell"), W)


def test_how_sure_is_said_by_what_was_measured_of_that_outcome() -> None:
    """The counts are those of the outcome judged; what was switched on and off claims none of them."""
    held, false = measured.HELD_BY_OUTCOME["lift"], measured.FALSE_SIGNS_BY_OUTCOME["lift"]
    (lasting,) = findings(told(change(LIFT, "helped")))
    assert lasting.how_sure.startswith(measured.confidence(held))
    assert f"held the truth {held.k} of {held.n} times" in lasting.how_sure
    assert f"{false.k} of {false.n} changes that did nothing" in lasting.how_sure
    (switched,) = findings(told(change(LIFT, "helped", switches=((JAN, JAN),))))
    assert "none switched on and off" in switched.how_sure
    assert str(held.n) not in switched.how_sure


def test_no_diary_is_one_finding() -> None:
    """It says what to write next winter."""
    (finding,) = findings(told(reason="no diary was kept"))
    assert finding.slug == "no-change-noted"
    assert "diary.csv" in finding.next_step


def test_every_sentence_may_stand() -> None:
    """All texts of all verdicts, held to the rules of plain wording."""
    found = findings(
        told(
            change(LIFT, "helped", small=True, cost=20.0, saves_at_most=3.0, years=4.0),
            change(HEAT, "hurt", meanwhile=("door open",), grouped_with=("fleece",)),
            change(outcome("soil_mean", "K", -0.2, 0.3), "no sign"),
            change(outcome("daily_light", "MJ/m²", -0.6, 0.9), "cannot tell"),
            change(Outcome(outcome="lift", unit="K", declared=True, refused="no outdoor logger"), "cannot tell"),
        )
    )
    texts = [t for f in found for t in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if t]
    assert {t: faults(t) for t in texts if faults(t)} == {}
