"""review.json holds every key of its contract, and every null and every empty list has its reason in words."""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from kept_reviews import review_of
from odd_seasons import ODD
from scipy import stats

from reportgen.gather.schema import winter_of
from reportgen.pipeline import analyse

SAMPLE = Path(__file__).parents[1] / "sample_season"
# One outcome of a change or of a lever.
OUTCOME = {
    "outcome": "",
    "unit": "",
    "declared": "",
    "effect": "",
    "low": "",
    "high": "",
    "smallest_visible": "",
    "days_before": "",
    "days_after": "",
    "se": "",
    "dof": "",
    "before_mean": "",
    "through_bed": "",
    "refused": "",
}
# The document of format 1 as it was agreed: its keys alone. A list holds the keys of one entry.
CONTRACT: dict[str, Any] = {
    "format": "",
    "season": {"title": "", "first_day": "", "last_day": "", "time_zone": "", "currency": ""},
    "share": {"place": "", "prices": "", "harvest": "", "story": "", "diary_notes": "", "away": "", "place_named": ""},
    "so_far": "",
    "house": {
        "id": "",
        "label": "",
        "kind": "",
        "heated": "",
        "floor_area_m2": "",
        "glazing_area_m2": "",
        "glazing": "",
    },
    "weather": {"mean_night_c": "", "coldest_c": "", "kelvin_hours_below_hold": ""},
    "record": {
        "files": [{"file": "", "logger": "", "rows_read": "", "rows_used": "", "set_aside": ""}],
        "channels": [
            {
                "logger": "",
                "measure": "",
                "values_read": "",
                "values_used": "",
                "set_aside": "",
                "first": "",
                "last": "",
                "step_s": "",
                "hours_recorded": "",
                "hours_in_season": "",
                "minimum": "",
                "mean": "",
                "maximum": "",
            }
        ],
    },
    "frost": {
        "line_c": "",
        "minimum": {"temperature_c": "", "margin_k": "", "at": "", "logger": "", "outdoor_c": ""},
        "nights": "",
        "nights_partly_logged": "",
        "nights_below": {
            "0": {"estimate": "", "low": "", "high": ""},
            "1": {"estimate": "", "low": "", "high": ""},
            "2": {"estimate": "", "low": "", "high": ""},
            "3": {"estimate": "", "low": "", "high": ""},
            "5": {"estimate": "", "low": "", "high": ""},
        },
        "hours_below": {
            "0": {"estimate": "", "low": "", "high": ""},
            "1": {"estimate": "", "low": "", "high": ""},
            "2": {"estimate": "", "low": "", "high": ""},
            "3": {"estimate": "", "low": "", "high": ""},
            "5": {"estimate": "", "low": "", "high": ""},
        },
        "degree_hours_below": {"estimate": "", "low": "", "high": ""},
        "unrecorded_cold_hours": "",
        "unrecorded_unknown_hours": "",
        "could_have_been_c": "",
        "holding_limit": {"outdoor_c": "", "coldest_seen_c": "", "heater_flat_out_c": "", "reason": ""},
        "limit_by_state": [{"state": "", "holding_limit_c": "", "flat_out_c": "", "nights": ""}],
        "without_heat_minimum_c": {"estimate": "", "low": "", "high": ""},
        "after_failure": [{"outdoor_c": "", "after_3h_c": "", "after_8h_c": "", "hours_to_line": ""}],
        "failures": [{"start": "", "end": "", "hours": "", "minimum_c": "", "line_crossed_after_min": ""}],
        "alarms": [{"alarm_c": "", "rings": "", "needed": "", "warning_h": ""}],
        "hot_hours": {"estimate": "", "low": "", "high": ""},
        "crops": [
            {
                "crop": "",
                "bed": "",
                "from": "",
                "to": "",
                "damage_low_c": "",
                "damage_high_c": "",
                "coldest_c": "",
                "margin_k": "",
                "assumed_standing": "",
            }
        ],
    },
    "heat": {
        "hold_c": "",
        "share_at_or_above_hold": {"estimate": "", "low": "", "high": ""},
        "degree_hours_below_hold": {"estimate": "", "low": "", "high": ""},
        "kwh": "",
        "appliances_kwh": "",
        "cost": "",
        "co2_kg": "",
        "loss_w_per_k": {"estimate": "", "low": "", "high": ""},
        "loss_expected_w_per_k": "",
        "hold_found_c": "",
        "sources": [
            {
                "name": "",
                "fuel": "",
                "role": "",
                "kwh": "",
                "bought": "",
                "bought_unit": "",
                "cost": "",
                "hours_flat_out": "",
            }
        ],
        "price_of_hold": [{"hold_c": "", "kwh": "", "low": "", "high": "", "cost": "", "tested": ""}],
        "price_of_degree": [
            {"away_k": "", "kwh": "", "low": "", "high": "", "cost": "", "cost_low": "", "cost_high": ""}
        ],
        "heater_needed_w": {"coldest_hour": "", "five_colder": ""},
        "above_target_kwh": "",
        "dark_weeks": {"kwh": "", "cost": "", "kg": ""},
    },
    "damp": {
        "high_pct": "",
        "extreme_pct": "",
        "hours_recorded": "",
        "hours_above_high": {"estimate": "", "low": "", "high": ""},
        "hours_above_extreme": {"estimate": "", "low": "", "high": ""},
        "longest_spell": {"hours": "", "start": "", "end": ""},
        "glazing_dew_hours": {"estimate": "", "low": "", "high": ""},
        "leaf_wet_hours": {"estimate": "", "low": "", "high": ""},
        "airing_hours": "",
        "airing_band": {"low": "", "high": ""},
        "grey_mould_spells": {"low": "", "moderate": "", "high": "", "too_cold_for_equation": ""},
        "mean_dew_point_c": "",
        "mean_vpd_kpa": "",
    },
    "soil": {
        "mean_c": "",
        "hours_below_aim": {"estimate": "", "low": "", "high": ""},
        "swing_amplitude_k": "",
        "lag_h": "",
        "released_kwh_per_night": "",
        "season_balance_kwh": "",
    },
    "light": {"days_under_ten_hours": "", "shortest_day_h": "", "mean_daily_light_mol": "", "lamp_hours_needed": ""},
    "levers": [
        {
            "name": "",
            "thing": "",
            "touches": [],
            "entries": [""],
            "states": [{"from": "", "to": "", "on": ""}],
            "hours_on": "",
            "hours_off": "",
            "verdict": "",
            "condition": "",
            "outcome": "",
            "effect": "",
            "low": "",
            "high": "",
            "level": "",
            "spared_kwh": {"low": "", "high": ""},
            "spared_money": {"low": "", "high": ""},
            "winter_kwh": {"low": "", "high": ""},
            "winter_money": {"low": "", "high": ""},
            "payback_winters": {"low": "", "high": ""},
            "price": [{"outcome": "", "effect": "", "low": "", "high": "", "level": ""}],
            "unsafe_with": [],
            "outcomes": [OUTCOME],
        }
    ],
    "changes": [
        {
            "when": "",
            "what": "",
            "thing": "",
            "undoes": "",
            "kind": "",
            "touches": [],
            "hoped_for": [],
            "hope_written_before": "",
            "grouped_with": [],
            "verdict": "",
            "at_most": "",
            "outcomes": [OUTCOME],
        }
    ],
    "harvest": {
        "kg": "",
        "kg_per_m2": "",
        "cost_per_kg": "",
        "kwh_per_kg": "",
        "co2_kg_per_kg": "",
        "share_of_household": "",
        "weeks_at_half_or_more": "",
        "longest_gap_weeks": "",
        "shop_value": "",
        "crops": [{"crop": "", "kg": "", "kg_per_m2": "", "pickings": ""}],
        "weeks": [{"week": "", "kg": "", "kwh": "", "cost": ""}],
    },
    "winters": {
        "last": "",
        "rows": [
            {"what": "", "unit": "", "last": "", "this": "", "at_equal_weather": {"effect": "", "low": "", "high": ""}}
        ],
    },
    "plan": [{"row": "", "from": "", "to": "", "what": "", "why": "", "lever": "", "caution": ""}],
    "answers": [{"ask": "", "about": "", "answer": "", "why": "", "sure": ""}],
    "findings": [
        {
            "slug": "",
            "page": "",
            "about": "",
            "rank": "",
            "claim": "",
            "evidence": "",
            "how_sure": "",
            "next_step": "",
            "caution": "",
            "holds_for": "",
        }
    ],
}


@lru_cache(maxsize=1)
def sample() -> dict[str, Any]:
    """The sample's review, once."""
    return review_of("sample").to_dict()


def paths(tree: Any, found: Any, here: str = "") -> Iterator[tuple[str, Any]]:
    """(dotted path, value) of every key of the tree; a key that is missing has the value KeyError."""
    if isinstance(tree, dict) and isinstance(found, dict):
        for key, inner in tree.items():
            path = f"{here}.{key}" if here else key
            value = found.get(key, KeyError)
            yield path, value
            yield from paths(inner, value, path)
    elif isinstance(tree, list) and isinstance(found, list) and tree:
        for number, entry in enumerate(found):
            yield from paths(tree[0], entry, f"{here}.{number}")


def unexplained(section: str, found: Any) -> list[str]:
    """Nulls and empty lists of a section without words for them in its `reasons`."""
    return [f"{section}.{path}" for path in without_words(CONTRACT[section], found)]


def without_words(tree: Any, found: Any) -> list[str]:
    """Paths of nulls and empty lists for which the `reasons` beside them have no words."""
    reasons = found.get("reasons", {})
    wrong = []
    for path, value in paths(tree, found):
        if value is None or value == []:
            # A list's entries share one reason: `crops.margin_k` or `crops` tells it for `crops.3.margin_k`.
            shared = ".".join(part for part in path.split(".") if not part.isdigit() or ".below" in path)
            named = {path, shared, path.partition(".")[0] if value == [] else path}
            if not any(reasons.get(name) for name in named):
                wrong.append(path)
    return wrong


@pytest.mark.parametrize("name", [*ODD, "sample"])
def test_review_json_keeps_its_contract(name: str) -> None:
    """No key is missing in any entry; every null has its words; it is JSON without a number that is none, and a review
    as `gather` reads it."""
    document = review_of(name).to_dict()
    assert [path for path, value in paths(CONTRACT, document) if value is KeyError] == []
    sections = ("house", "weather", "record", "frost", "heat", "damp", "soil", "light", "harvest", "winters")
    assert [wrong for section in sections for wrong in unexplained(section, document[section])] == []
    text = json.dumps(document, allow_nan=False)
    assert json.loads(text) == document
    assert winter_of(text.encode(), "review.json").title == " ".join(document["season"]["title"].split())


def test_it_says_what_its_grower_lets_out() -> None:
    """As [share] of season.toml has it; what it does not name stays in the house."""
    written = tomllib.loads((SAMPLE / "season.toml").read_text(encoding="utf-8"))["share"]
    topics = ("place", "prices", "harvest", "story", "diary_notes", "away")
    told = review_of("sample").to_dict()["share"]
    assert told == {**{topic: written.get(topic, False) for topic in topics}, "place_named": False}
    assert any(told.values())


@pytest.mark.parametrize("name", ["diary of every kind", "sample"])
def test_every_null_of_a_change_and_of_a_lever_has_its_words(name: str) -> None:
    """Each entry of the two lists tells what it lacks in `reasons` of its own; an outcome refused says why itself."""
    document = review_of(name).to_dict()
    for section in ("changes", "levers"):
        assert document[section]
        for entry in document[section]:
            wrong = without_words(CONTRACT[section][0], entry)
            assert [path for path in wrong if not path.endswith(".refused")] == [], entry.get("what", entry.get("name"))


def test_the_sample_s_tape_is_one_lever_and_its_curtain_one_entry() -> None:
    """Tape on 10 December, off on 21 February, both 11:30: 73 days on. Three rows of the curtain are one entry, whose
    `when` is the first date."""
    document = sample()
    tape = next(lever for lever in document["levers"] if lever["thing"] == "vent tape")
    assert tape["entries"] == ["2025-12-10", "2026-02-21"]
    assert [state["from"] for state in tape["states"] if state["on"]] == ["2025-12-10T11:30:00+01:00"]
    assert tape["hours_on"] == 73 * 24
    off = next(change for change in document["changes"] if change["undoes"])
    assert (off["when"], off["undoes"], off["thing"]) == ("2026-02-21", "2025-12-10", "vent tape")
    curtains = [change["when"] for change in document["changes"] if change["thing"] == "roof curtain"]
    assert curtains == ["2026-02-26"]


def test_what_was_taken_back_tells_all_it_did_on_against_off() -> None:
    """The sample's tape has outcomes of its own, the one it is judged on as the lever has it; a lever of one line says
    where they stand."""
    levers = sample()["levers"]
    tape = next(lever for lever in levers if lever["thing"] == "vent tape")
    judged = [o for o in tape["outcomes"] if o["declared"]]
    assert [(o["outcome"], o["effect"], o["low"]) for o in judged] == [(tape["outcome"], tape["effect"], tape["low"])]
    assert [lever["name"] for lever in levers if lever["outcomes"]] == [tape["name"]]
    film = next(lever for lever in levers if lever["thing"] == "bubble film")
    assert "changes" in film["reasons"]["outcomes"]


def test_se_and_dof_give_the_interval_back() -> None:
    """low and high are effect ∓ t(0.975, dof)·se: anybody can widen or pool them (Student 1908; scipy's quantile).

    Where the document says `through_bed` an end may lie further out, and nowhere but for the warmth of the nights.
    """
    outcomes = [o for change in sample()["changes"] for o in change["outcomes"] if not o["refused"]]
    assert len(outcomes) > 20
    for found in outcomes:
        half = stats.t.ppf(0.975, found["dof"]) * found["se"]
        if found["through_bed"]:
            assert found["outcome"] in ("lift", "night_minimum")
            assert found["low"] <= found["effect"] - half + 1e-9
            assert found["high"] >= found["effect"] + half - 1e-9
        else:
            assert found["effect"] - half == pytest.approx(found["low"], abs=1e-9)
            assert found["effect"] + half == pytest.approx(found["high"], abs=1e-9)
        assert found["before_mean"] is not None and found["dof"] >= 6


def test_a_lever_s_dof_is_whole_and_gives_the_interval_back_within_that() -> None:
    """Two switches far apart are averaged with the degrees of freedom of Welch and Satterthwaite, which are no whole
    number and are told as one: the interval lies between those of half a degree more and half a degree less."""
    outcomes = [
        o for lever in sample()["levers"] for o in lever["outcomes"] if not o["refused"] and not o["through_bed"]
    ]
    assert len(outcomes) > 3
    for found in outcomes:
        widest, narrowest = (stats.t.ppf(0.975, found["dof"] + step) * found["se"] for step in (-0.5, 0.5))
        assert narrowest <= found["effect"] - found["low"] <= widest
        assert narrowest <= found["high"] - found["effect"] <= widest


def test_the_house_leaves_only_as_a_hash() -> None:
    """SHA-256 of the word behind a fixed prefix, its first 16 digits; both winters of the sample are one house."""
    document, before = sample(), analyse(SAMPLE / "last_winter").to_dict()
    word = "owf7h2kx9qma"
    assert word in (SAMPLE / "season.toml").read_text(encoding="utf-8")
    assert document["house"]["id"] == before["house"]["id"]
    assert document["house"]["id"] == hashlib.sha256(b"reportgen house 1 " + word.encode()).hexdigest()[:16]
    assert word not in json.dumps(document)
