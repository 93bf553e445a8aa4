"""Findings of the changes: each verdict in words that hold up, with its number where it can be worked out again."""

from __future__ import annotations

import dataclasses
import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from counsel import hand
from counsel.grounded import grounds, lever, side
from counsel.hand import NO_COUNSEL
from counsel.sentences import faults
from effects.in_memory import entry
from made_season import readings

from reportgen.charts.levers_tables import levers_tables
from reportgen.counsel.changes_words import bound_words, hope_words, verdict_words
from reportgen.counsel.grounds import Ends, JudgedLever
from reportgen.effects import Changes, Effect, Outcome, measured
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
    review: Any = hand.results(effects=made)
    review.counsel = NO_COUNSEL
    return review


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


def said(*levers: JudgedLever, of: Any = None) -> dict[str, Any]:
    """Findings of the changes page by slug, of a season with these levers."""
    found = hand.told_on(of or told(), "changes", on=grounds(*levers))
    return {finding.slug: finding for finding in found}


def test_a_lever_is_told_once_with_its_verdict_word_for_word_and_both_sides() -> None:
    """The verdict with its condition, the outcome hoped for, what it did beside, its money as two ends."""
    film = lever(
        "Film", "keep", price=(side("night_humidity", 3.0, 9.0),), winter_money=Ends(low=60.0, high=200.0), cost=68.0
    )
    found = said(film)["worth-keeping-3"]
    assert found.claim.startswith("“Film”: keep.") and found.about == "Film"
    assert "between 3 points and 9 points damper" in found.evidence.replace("\u00a0", " ")
    assert "EUR\u00a060 to 200" in found.evidence and "EUR\u00a068.00" in found.evidence
    named = said(lever("Film", "keep with a condition", condition="aired by day"))["worth-keeping-3"]
    assert "“Film”: keep with a condition (aired by day)." in named.claim


def test_each_verdict_has_its_kind() -> None:
    """Kept, undone, not worth it; the open ones are told once together; what is not judged is not told."""
    found = said(
        lever("Film", "keep", lines=(2,)),
        lever("Tape", "not while that burns here", lines=(3,), unsafe_with=("stove",)),
        lever("Bottles", "not worth it", lines=(4,)),
        lever("Bricks", "change once", lines=(5,)),
        lever("Straw", "cannot tell", lines=(6,), reasons={"verdict": "no outdoor logger"}),
        lever("Heater", "not judged", lines=(7,)),
    )
    assert set(found) == {"worth-keeping-2", "better-left-undone-3", "not-worth-it-4", "cannot-tell", "no-change-noted"}
    assert found["cannot-tell"].figure == "2 of 5"
    assert "no outdoor logger" in found["cannot-tell"].evidence
    assert "carbon monoxide" in (found["better-left-undone-3"].caution or "")


def test_a_lever_undone_in_season_is_another_subject() -> None:
    """So that the first of either may be among the five."""
    assert said(lever("Film"))["worth-keeping-3"].subject == "lever"
    assert said(lever("Tape", "leave undone", undone_in_season=True))["better-left-undone-3"].subject == "undone"


def test_no_finding_without_unit_count_and_interval() -> None:
    """The evidence of a judged lever names the unit, the nights on both sides and the 95 % interval."""
    evidence = said(lever("Film"))["worth-keeping-3"].evidence
    for part in ("W/K", "21\u00a0nights off", "20 on", "95\u00a0%", "−50 to −30"):
        assert part in evidence


def test_how_sure_is_said_by_what_was_measured_of_that_outcome() -> None:
    """The counts are those of the outcome judged; what was switched on and off claims none of them."""
    held = measured.HELD_BY_OUTCOME["watts_per_kelvin"]
    (film,) = (said(lever("Film", lines=(3,)))[slug] for slug in ("worth-keeping-3",))
    assert film.how_sure.startswith(measured.confidence(held))
    assert f"held the truth {held.k} of {held.n} times" in film.how_sure
    switched = told(change(LIFT, "helped", line=3, switches=((JAN, JAN),)))
    found = said(lever("Film", lines=(3,)), of=switched)["worth-keeping-3"]
    assert found.how_sure.startswith("A hint") and str(held.n) not in found.how_sure


def test_the_hope_named_afterwards_is_said() -> None:
    """Written before, written after, not noted: three different words, and the finding tells them apart."""
    after, before = change(LIFT, "helped"), change(LIFT, "helped", hope_written_before=True)
    assert hope_words(before).endswith("written down before")
    assert hope_words(after).endswith("named afterwards")
    late = told(change(LIFT, "helped", line=3, hope_written_before=False))
    assert "afterwards" in said(lever("Film", lines=(3,)), of=late)["worth-keeping-3"].how_sure


@pytest.mark.parametrize("lines", [(7,), (7, 8)])
@pytest.mark.parametrize(("hoped", "before"), [(LIFT, 10.0), (replace(HEAT, before_mean=8.0), 8.0)])
def test_the_numbers_of_a_lever_come_out_of_its_row(lines: tuple[int, ...], hoped: Outcome, before: float) -> None:
    """Effect and both ends as they are said, of heat as a share of the level without it; of one line or of two."""
    review = told(change(hoped, "helped", line=7))
    numbers = {"outcome": hoped.outcome, "unit": hoped.unit, "effect": hoped.effect}
    ends = {"low": hoped.low, "high": hoped.high, "relative": None}
    one = lever("Film", lines=lines, **numbers, **ends)
    other = lever("Bricks", lines=(9,), **(numbers | {"effect": -9.0}), **ends)
    sources = said(one, other, of=review)["worth-keeping-7"].sources
    review.counsel = replace(NO_COUNSEL, grounds=grounds(one, other))
    data = levers_tables(review)[0].data
    assert len(sources) == 3
    for source in sources:
        (cell,) = data.query(source.rows or "")[source.column]
        assert cell == pytest.approx(source.value)
    share = 100.0 / before if hoped is not LIFT else 1.0
    assert [s.value for s in sources[1:]] == pytest.approx([hoped.low * share, hoped.high * share])


def test_a_hope_for_the_bed_is_answered_with_what_one_winter_hides() -> None:
    """The interval holds zero: one winter cannot show it, with the size it hides, and no on/off plan is asked for."""
    bed = outcome("soil_mean", "K", -1.1, 1.3, smallest_visible=1.7)
    slow = change(bed, "cannot tell")
    words = (
        "One winter cannot show it: the weather of these weeks hides most changes of the bed's temperature under 1.7"
    )
    assert words in verdict_words(slow, W)
    bricks = lever("Bricks", "cannot tell", condition="one winter cannot show it", outcome="soil_mean", unit="K")
    finding = said(bricks)["cannot-tell"]
    assert "one winter cannot show it" in finding.evidence and "probe" in finding.next_step
    swing = change(outcome("soil_swing", "K", -1.1, 1.3, smallest_visible=1.7), "cannot tell")
    assert "the bed's daily swing under 1.7" in verdict_words(swing, W)


def test_a_bed_that_moved_or_was_refused_is_told_as_before() -> None:
    """An interval without zero keeps its verdict, one inside what matters too, a refused one its own reason."""
    assert "One winter" not in verdict_words(change(outcome("soil_mean", "K", 0.2, 1.8), "helped"), W)
    assert "One winter" not in verdict_words(change(outcome("soil_mean", "K", -0.2, 0.3), "no sign"), W)
    refused = Outcome(outcome="soil_mean", unit="K", declared=True, refused="no probe in the bed")
    assert "One winter" not in verdict_words(change(refused, "cannot tell"), W)
    assert "One winter" not in verdict_words(change(outcome("lift", "K", -0.6, 0.9), "cannot tell"), W)


def test_no_diary_is_one_finding() -> None:
    """It says what to write next winter."""
    found = said(of=told(reason="no diary was kept"))
    assert set(found) == {"no-change-noted"}
    finding = found["no-change-noted"]
    assert "in a diary" in finding.next_step


def test_every_sentence_may_stand() -> None:
    """All texts of all verdicts, held to the rules of plain wording."""
    verdicts = ("keep", "keep with a condition", "leave undone", "not again", "not worth it", "try on and off")
    found = said(*(lever(f"Film {n}", verdict, lines=(n,)) for n, verdict in enumerate(verdicts)))
    texts = [t for f in found.values() for t in (f.claim, f.evidence, f.how_sure, f.next_step, f.caution) if t]
    assert len(texts) > 20
    assert {t: faults(t) for t in texts if faults(t)} == {}
