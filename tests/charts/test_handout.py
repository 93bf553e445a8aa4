"""The printed sheet: its sizes on paper, its cautions, its words, and what it drops where there is too much."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from drawing.measured import faults, root_of
from kept_reviews import review_of

from reportgen.charts import handout as made
from reportgen.charts.handout import handout, views
from reportgen.charts.handout_fit import HIGH, LEVELS, TEXT, WIDE, fits, height_of
from reportgen.charts.handout_parts import Handout
from reportgen.charts.handout_words import GUIDANCE, _plain, _step, beside
from reportgen.counsel import cautions
from reportgen.counsel.grounds import PlanStep
from reportgen.drawing.doubt import one_band
from reportgen.drawing.effects import Effects, Group, Row
from reportgen.site.chat_words import text

# Units and names that a gardener does not use or has never seen: kelvin, watts a kelvin, relative humidity, files.
STRANGE = re.compile(r"\d\u00a0K\b|W/K|% RH|\.csv|\.toml|_")


def sheet_of(name: str = "sample") -> Handout:
    """The handout of one of the reviews."""
    return handout(review_of(name))


def eight(uid: str) -> Effects:
    """Eight judged changes with names of two lines each."""
    rows = tuple(
        Row(
            mark="helped",
            words=f"Change number {n} of the sides and of the roof, from end to end",
            when="24 Nov",
            doubt=one_band(n / 2, n / 2 - 1, n / 2 + 1),
            said=f"{n} to {n + 2}\u00a0points drier night air",
            brief=f"{n}–{n + 2}\u00a0points drier",
            verdict="helped",
        )
        for n in range(1, 9)
    )
    groups = (Group(title="Helped", mark="helped", rows=rows),)
    return Effects(uid=uid, label="Changes", description="Eight.", groups=groups)


def test_the_paper_is_the_smaller_of_both_ways() -> None:
    """A4 is 210 mm wide (ISO 216), US Letter 279.4 mm high (11 in); an inch is 72 points and 25.4 mm."""
    assert pytest.approx((210 - 26) / 25.4 * 72) == WIDE
    assert pytest.approx((279.4 - 16) / 25.4 * 72) == HIGH


def test_text_is_at_least_8_points_and_chart_text_8_and_a_half() -> None:
    """At every level of the ladder; a picture's words shrink with the picture."""
    assert min(level.root for level in LEVELS) * TEXT >= 8.0
    sheet = sheet_of()
    assert sheet.season is not None and sheet.changes is not None and sheet.kilogram is not None
    narrowest = (WIDE - 2 * 1.6 * 9.6) / 3.1  # three columns, gaps of 1.6 rem
    for svg, width in ((sheet.season.wide, WIDE), (sheet.changes.flat, WIDE), (sheet.kilogram.svg, narrowest)):
        units = float(root_of(svg).get("viewBox", "").split()[2])
        sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)]
        assert sizes and min(sizes) * width / units >= 8.5


def test_the_pictures_have_no_fault() -> None:
    """No word over another or cut off, and no word of a row shortened."""
    sheet = sheet_of()
    assert sheet.season is not None and sheet.changes is not None and sheet.kilogram is not None
    for svg in (sheet.season.wide, sheet.season.tall, sheet.changes.flat, sheet.changes.tall, sheet.kilogram.svg):
        assert faults(svg) == []
    assert "…" not in re.sub(r"<desc.*?</desc>", "", sheet.changes.flat)


@pytest.mark.parametrize("name", ["sample", "sample in °F"])
def test_the_sheet_fits_and_says_nothing_strange(name: str) -> None:
    """One page by the rule; plain words alone; no number that is none."""
    sheet = sheet_of(name)
    assert fits(sheet)
    words = text(sheet)
    assert STRANGE.findall(words) == []
    assert re.findall(r"\b(?:nan|None|NaT|inf)\b", words) == []
    assert sheet.clauses[0] in words and all(one.ask in words and one.why in words for one in sheet.answers)


def told_of(sheet: Handout) -> set[str]:
    """The cautions on it, in a few words each."""
    said = " ".join([*(one.caution for one in sheet.safety), *(c for line in sheet.plan for c in line.cautions)])
    return {short for _, short in cautions._BRIEF if short in said}


def test_the_caution_stands_beside_what_it_proposes() -> None:
    """Every row of the plan with a caution has its words beside it, or their first words and the whole above."""
    review, sheet = review_of("sample"), sheet_of()
    rows = {step.row for step in review.counsel.plan if step.caution}
    assert rows and rows == {line.row for line in sheet.plan if line.caution}
    above = " ".join(one.caution for one in sheet.safety)
    for line in sheet.plan:
        for caution in line.cautions:
            first = caution.partition(":")[0]
            assert caution in line.caution or (first.casefold() in line.caution.casefold() and caution in above)
        above += line.caution
    assert all(one.caution for one in sheet.safety)
    assert sheet.care[-1].endswith(cautions.LOCAL)


def test_the_sheet_names_a_book_as_the_pages_do() -> None:
    """One list of names for both; that a figure stands in a book is left out."""
    assert _plain("season.toml does not say whether the stove has a flue").startswith("the season file does not say")
    assert _plain("no costs.csv is kept, counted in plantings.csv") == "no costs book is kept, counted"


def test_much_makes_it_smaller_but_never_drops_a_caution(monkeypatch: pytest.MonkeyPatch) -> None:
    """Eight changes beside a full plan: fewer rows and no notes, all cautions, one page."""
    usual = told_of(sheet_of())
    monkeypatch.setattr(made, "effects_view", lambda _review, uid: eight(uid))
    sheet = sheet_of()
    assert fits(sheet) and sheet.changes is not None
    assert len(sheet.changes.rows) < 8 and "more judged" in sheet.changes.refused
    assert told_of(sheet) == usual and usual


def test_little_stands_in_full() -> None:
    """Without plan, safety and kilogram the notes stay, and cautions are told in full."""
    review = review_of("sample")
    calm = replace(review, counsel=replace(review.counsel, plan=(), told=()))
    sheet = handout(calm)
    assert sheet.level.notes and sheet.how and height_of(sheet) < HIGH
    full = " ".join(sheet.care)
    assert GUIDANCE.sub("", cautions.FUEL).partition(" Local")[0] in full


def test_a_caution_told_above_is_named() -> None:
    """By its first words; one without a colon is said again."""
    told = ("Fumes: fresh air.", "Never seal it.", "Fire: clear of it.", "Fire: clear of it.")
    assert beside(told, ["Fumes: fresh air. Never seal it."]) == "Never seal it. Fire: clear of it. Fumes: as above."
    assert beside((), ["Fumes: fresh air."]) == ""


def test_both_pictures_draw_the_same() -> None:
    """Sheet and chat picture are told by one set of views."""
    seen = views(review_of("sample"))
    assert handout(review_of("sample"), seen) == sheet_of()


def test_a_step_of_one_day_has_one_date() -> None:
    """1 Nov, and not 1 Nov – 1 Nov."""
    day = date(2026, 11, 1)
    one = PlanStep(row="Buy or put by", from_=day, to=day, what="EUR 30 for heat", why="", lever=None, caution=None)
    assert _step(one, True).endswith("(1\u00a0Nov)")
    assert "–" in _step(replace(one, to=date(2026, 11, 8)), True)
