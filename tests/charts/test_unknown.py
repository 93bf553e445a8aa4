"""What is not known: sentences that stand alone, nothing that merely does not apply, no bare page told twice."""

from __future__ import annotations

from typing import Any

import pytest

from reportgen.charts.types import Page
from reportgen.charts.unknown import BARE, MOST, QUESTIONS, unknown
from reportgen.counsel.types import Finding
from reportgen.measures.there import There


def bare(slug: str) -> Page:
    """A page without data."""
    return Page(slug=slug, headline=f"{slug}: not logged", lead="", blocks=(), answers=False)


def with_reasons(section: str, **reasons: str) -> dict[str, Any]:
    """A review.json of which only these reasons are there."""
    return {section: {"reasons": {path.replace("__", "."): why for path, why in reasons.items()}}}


@pytest.mark.parametrize("why", ["several holds by date", "no hour under a hold", "no heater is listed in season.toml"])
def test_what_does_not_apply_is_left_out(why: str) -> None:
    """A reason that only says that a value has no place in this house is nothing unknown."""
    assert unknown((), (), with_reasons("heat", kwh=why, hold_c=why)) == ()


def test_a_reason_becomes_a_question_with_what_to_log() -> None:
    """The line says what is not known, why, and what would answer it."""
    heat = with_reasons("heat", price_of_hold="only 12 days with heat; 20 are needed")
    (line,) = unknown((), (), heat, There(heat_by_hour=False))
    assert line.startswith("What a degree more or less would have cost is not known: only 12 days")
    assert "Read the meter each week" in line


def test_crops_without_a_band_share_one_line() -> None:
    """Two plantings of one crop and one of another: both crops in one sentence, each once."""
    frost = {
        "crops": [{"crop": "rocket"}, {"crop": "rocket"}, {"crop": "parsley"}],
        "reasons": {f"crops.{n}.damage_low_c": "no band known for this crop" for n in range(3)},
    }
    (line,) = unknown((), (), {"frost": frost})
    assert "rocket and parsley" in line


def test_a_bare_page_is_told_once_and_its_reasons_are_not() -> None:
    """A page without data stands for all that its section lacks."""
    damp = with_reasons("damp", airing_hours="no humidity at a crop logger")
    lines = unknown((), (bare("damp"),), damp, There(crop_humidity=False))
    assert lines == (BARE["damp"],)


def test_every_line_is_a_sentence_and_there_are_eight_at_most() -> None:
    """All questions open at once: eight lines, each begun with a capital and ended with a full stop."""
    document: dict[str, Any] = {}
    for question in QUESTIONS:
        document.setdefault(question.section, {"reasons": {}})["reasons"][question.path] = "nothing was logged then"
    lines = unknown((), (), document)
    assert len(lines) == MOST
    assert all(line[0].isupper() and line.endswith(".") and ": nothing was logged then." in line for line in lines)


def test_nobody_is_sent_for_what_is_there() -> None:
    """With a heater logged by the hour and an outdoor logger the reason stands alone; a missing one is named."""
    heat = with_reasons("heat", price_of_hold="only 12 days with heat; 20 are needed")
    (line,) = unknown((), (), heat, There())
    assert line == "What a degree more or less would have cost is not known: only 12 days with heat; 20 are needed."
    (line,) = unknown((), (), heat, There(outdoor_air=False, outdoor_named=False))
    assert line.endswith("Hang a logger outdoors, in the shade.")
    (line,) = unknown((), (), heat, There(outdoor_air=False))
    assert line.endswith("See why the logger outdoors left no reading.")


def test_a_flame_has_no_power_to_log_and_its_flue_is_what_is_open() -> None:
    """Propane: the hours of the burner are asked for; that it burned is known, whether it has a flue is not."""
    heat = with_reasons("heat", loss_w_per_k__estimate="the heat is not known by the hour, only by what was bought")
    (flame,) = unknown((), (), heat, There(heat_by_hour=False, mains=False))
    assert flame.endswith("Log by the hour when the burner runs.")
    (mains,) = unknown((), (), heat, There(heat_by_hour=False))
    assert mains.endswith("Log the heater's power by the hour.")
    burned = Finding(
        slug="fumes", page="heat", about="propane heater", subject="safety", figure="", figure_note="", anchor="",
        stake="safety", claim="The propane heater burned some time while “Foam” kept the house tight.", evidence="",
        how_sure="Cannot tell: season.toml does not say whether it has a flue.", next_step="Write it down.",
    )  # fmt: skip
    (line,) = unknown((burned,), (), {})
    assert line.startswith("Whether the propane heater has a flue is not known: ")


def test_where_nobody_heats_no_hold_is_asked_for() -> None:
    """A page of heat without a heater leaves nothing open, and neither does a hold that nobody named."""
    named = with_reasons("heat", share_at_or_above_hold__estimate="no hold is named in season.toml")
    assert unknown((), (), named, There(heater=False)) == ()
    assert unknown((), (bare("heat"),), {}, There(heater=False)) == ()
    assert unknown((), (bare("heat"),), {}, There()) == (BARE["heat"],)
