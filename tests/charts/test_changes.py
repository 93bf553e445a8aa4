"""The Changes page: words that follow the verdicts, pictures that follow the numbers, and what it says with little."""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
import re
from functools import lru_cache
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import pandas as pd
import pytest
from counsel.hand import NO_COUNSEL
from counsel.sentences import faults
from effects.in_memory import ZONE, entry, readings_of
from made_season import readings, season
from simulator import Change, Climate, HouseParams, simulate, synthetic

from reportgen.charts.changes import page
from reportgen.charts.changes_draw import nights_data
from reportgen.charts.embed import picture
from reportgen.charts.types import Drawing, Note, Page, Table
from reportgen.counsel.levers import judged_levers
from reportgen.effects import effects
from reportgen.measures.frost import frost
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import Readings

if TYPE_CHECKING:
    from reportgen.counsel.results import Results


PHONE = 360.0  # units that a phone shows at the size of its letters; ours


def at(day: str) -> pd.Timestamp:
    return pd.Timestamp(f"{day} 12:00", tz=ZONE)


@lru_cache(maxsize=2)
def reviewed(show: str = "metric") -> Any:
    """A winter with a mat that warms, a charm that does nothing, a late seal, and an idea."""
    changes = [
        Change(at=at("2025-12-20"), alters={"other_w": 400.0}, what="warming mat", hoped_for=("warmer nights",)),
        Change(at=at("2026-01-25"), what="charm", hoped_for=("drier air",), reversible=True, cost=12.0),
        Change(at=at("2026-03-09"), what="late seal", touches=("envelope",), hoped_for=("warmer nights",)),
    ]
    weather = synthetic(Climate(), "2025-11-15", "2026-03-15", seed=5, step_s=900)
    made = simulate(weather, HouseParams(), changes, seed=5)
    idea = entry(dt.date(2026, 1, 2), "fleece", line=9, kind="idea", hoped_for=("warmer nights",), reversible=True)
    return review_of(readings_of(made, diary=(idea,), show=show))


def review_of(of: Readings) -> Any:
    """With its levers, as a folder's diary would give them, and the verdict of each."""
    found, problems = chains(of.diary, "diary.csv")
    assert not problems
    of = dataclasses.replace(of, levers=levers_of(found, of.season))
    made = SimpleNamespace(season=of.season, readings=of, effects=effects(of), harvest=None, frost=frost(of))
    grounds = dataclasses.replace(NO_COUNSEL.grounds, levers=judged_levers(cast("Results", made), ()))
    made.counsel = dataclasses.replace(NO_COUNSEL, grounds=grounds)
    return made


def block(found: Page, uid: str) -> Any:
    return next(b for b in found.blocks if isinstance(b, Drawing | Table) and b.uid == uid)


def width(svg: str) -> float:
    """Units across a drawing."""
    found = re.search(r'viewBox="[\d.-]+ [\d.-]+ ([\d.]+) ', svg)
    assert found is not None
    return float(found[1])


def words(found: Page) -> list[str]:
    """Everything the page says in whole sentences, titles and cells apart."""
    told = [found.headline, found.lead]
    for b in found.blocks:
        if isinstance(b, Note):
            told += [b.text, b.title]
        else:
            told += [b.title, b.subtitle, *b.notes]
            told += [b.label, b.description] if isinstance(b, Drawing) else [cell for row in b.rows for cell in row]
    return [text for text in told if text]


def test_the_mat_helped_and_the_page_says_by_how_much() -> None:
    """The headline counts each thing by its verdict (the mat warms, the charm does nothing, the seal came too late);
    the row leads with the bound, in kelvin, with the nights on both sides."""
    found = page(reviewed())
    assert found.headline == "Of 3\u00a0things we changed, 1\u00a0helped, 1\u00a0showed no sign, 1\u00a0cannot be told"
    row = next(r for r in block(found, "changes_rows").rows if "warming mat" in r[0])
    assert row[1].startswith("Warmed the nights by at most")
    assert "K" in row[2]
    assert "before" in row[2]
    assert "could have been seen" in row[2].lower()


def test_the_overview_holds_every_interval_and_the_do_nothing_dates() -> None:
    """Its table has one row a judged change and one a do-nothing date; every interval encloses its effect."""
    review = reviewed()
    table = block(page(review), "changes_effects").table
    done = table[table["done"] == "yes"]
    assert list(done["change"]) == ["warming mat", "charm"]
    assert (table["low"] <= table["effect"]).all()
    assert (table["effect"] <= table["high"]).all()
    dots = sum(len(c.do_nothing) for c in review.effects.changes if c.declared and c.declared.refused is None)
    assert (table["done"] == "no").sum() == dots


def test_the_line_with_it_stands_off_the_weather_line_by_the_effect() -> None:
    """Night by night: with it less without it is the effect, and the residuals about the model sum to about zero."""
    review = reviewed()
    hoped = review.effects.changes[0].declared
    table = nights_data(hoped, _wording(review), False)
    with_, without = table.iloc[:, 5], table.iloc[:, 4]
    assert (with_ - without).to_numpy() == pytest.approx(hoped.effect)
    model = without.where(table["side"] == "before", with_)
    assert abs(float((table.iloc[:, 3] - model).mean())) < 0.3 * (hoped.high - hoped.low)


def _wording(review: Any) -> Any:
    from reportgen.wording import Wording

    return Wording.of(review.season)


def test_a_house_without_heat_says_once_why_its_intervals_reach_far() -> None:
    """The mat warms a house without heat, whose bed gives some of it back; with a thermostat nothing is said of it."""
    notes = [note for note in block(page(reviewed()), "changes_rows").notes if "gives some of that back" in note]
    assert len(notes) == 1
    review = reviewed()
    held = [
        dataclasses.replace(change, outcomes=tuple(dataclasses.replace(o, through_bed=False) for o in change.outcomes))
        for change in review.effects.changes
    ]
    plain = SimpleNamespace(**vars(review) | {"effects": dataclasses.replace(review.effects, changes=tuple(held))})
    assert "gives some of that back" not in " ".join(block(page(cast("Any", plain)), "changes_rows").notes)


def test_fahrenheit_is_nine_fifths_of_kelvin() -> None:
    """The US page shows the same effect in °F."""
    metric, us = (block(page(reviewed(show)), "changes_rows").data for show in ("metric", "us"))
    lift = metric["outcome"] == "lift"
    ratio = (us["effect"] / metric["effect"])[lift & metric["effect"].notna()]
    assert len(ratio) > 0
    assert ratio.to_numpy() == pytest.approx(1.8)
    assert set(us.loc[lift, "unit"]) == {"°F"}


def test_what_cannot_be_told_says_why_and_what_would_have_helped() -> None:
    """The late seal stands in the table of refusals with both."""
    rows = block(page(reviewed()), "changes_refused").rows
    assert any("late seal" in r[0] and "at least 7" in r[2] and "week or more" in r[3] for r in rows)


def test_ideas_get_a_tick_sheet_and_rows_for_the_diary() -> None:
    """Twenty-eight boxes to tick, and a CSV whose header is that of diary.csv."""
    found = page(reviewed())
    titles = [b.title for b in found.blocks if isinstance(b, Table)]
    assert any("fleece" in title for title in titles)
    sheet = block(found, "changes_ticks_1")
    assert sum(row[3].count("☐") for row in sheet.rows) == len(sheet.data) == 28
    assert [row[1] for row in sheet.rows[:3]] == ["on", "off", "on"]
    assert list(block(found, "changes_plan_1").data.columns)[:4] == ["date", "time", "kind", "what"]


@pytest.mark.parametrize("show", ["metric", "us"])
def test_every_sentence_may_stand(show: str) -> None:
    """Held to the rules of plain wording: no jargon, no NaN, no breaking space before a unit."""
    told = words(page(reviewed(show)))
    assert {text: faults(text) for text in told if faults(text)} == {}


def test_charts_are_small_and_drawn_in_both_widths() -> None:
    """Each drawing has a wide and a narrow picture, its data no infinite number; pairs at equal weather are drawn in
    one size, so that they compare."""
    for b in page(reviewed()).blocks:
        if isinstance(b, Drawing):
            drawn = picture(b)
            wide, narrow = width(drawn.wide), width(drawn.narrow)
            assert narrow <= PHONE and (wide == narrow if b.uid.endswith("_weather") else wide > narrow)
            numbers = b.table.select_dtypes("number").to_numpy()
            assert not any(math.isinf(v) for v in numbers.ravel())


def test_without_a_diary_the_page_says_what_to_write() -> None:
    """One note, marked missing, that names the file and what belongs in it."""
    found = page(review_of(readings()))
    (note,) = found.blocks
    assert isinstance(note, Note)
    assert note.kind == "missing"
    assert not found.answers
    assert "in a diary" in note.text


def test_a_single_change_without_an_outdoor_logger() -> None:
    """A sparse diary and no outdoor logger: the row says why, and nothing is drawn."""
    diary = (entry(dt.date(2026, 1, 15), "seal", hoped_for=("warmer nights",)),)
    found = page(review_of(readings(season("2026-01-01", "2026-02-01"), diary=diary)))
    assert not any(isinstance(b, Drawing) for b in found.blocks)
    assert "Cannot tell" in block(found, "changes_rows").rows[0][1]
    assert {text: faults(text) for text in words(found) if faults(text)} == {}
