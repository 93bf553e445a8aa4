"""review.json holds every key of its contract, and every null and every empty list has its reason in words."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from odd_seasons import ODD, odd_season

from reportgen.pipeline import analyse

SAMPLE = Path(__file__).parents[1] / "sample_season"
# The document of format 1 as it was agreed: its keys alone. A list holds the keys of one entry.
CONTRACT: dict[str, Any] = {
    "format": "",
    "season": {"title": "", "first_day": "", "last_day": "", "time_zone": "", "currency": ""},
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
        "without_heat_minimum_c": {"estimate": "", "low": "", "high": ""},
        "after_failure": [{"outdoor_c": "", "after_3h_c": "", "after_8h_c": "", "hours_to_line": ""}],
        "failures": [{"start": "", "end": "", "hours": "", "minimum_c": ""}],
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
    "changes": [
        {
            "when": "",
            "what": "",
            "kind": "",
            "touches": [],
            "hoped_for": [],
            "hope_written_before": "",
            "grouped_with": [],
            "verdict": "",
            "at_most": "",
            "payback_years": "",
            "outcomes": [
                {
                    "outcome": "",
                    "unit": "",
                    "declared": "",
                    "effect": "",
                    "low": "",
                    "high": "",
                    "smallest_visible": "",
                    "days_before": "",
                    "days_after": "",
                    "refused": "",
                }
            ],
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
    "findings": [
        {
            "slug": "",
            "page": "",
            "claim": "",
            "evidence": "",
            "how_sure": "",
            "next_step": "",
            "caution": "",
            "holds_for": "",
        }
    ],
}


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
    reasons = found.get("reasons", {})
    wrong = []
    for path, value in paths(CONTRACT[section], found):
        if value is None or value == []:
            # A list's entries share one reason: `crops.margin_k` or `crops` tells it for `crops.3.margin_k`.
            shared = ".".join(part for part in path.split(".") if not part.isdigit() or ".below" in path)
            named = {path, shared, path.partition(".")[0] if value == [] else path}
            if not any(reasons.get(name) for name in named):
                wrong.append(f"{section}.{path}")
    return wrong


@pytest.mark.parametrize("name", [*ODD, "sample"])
def test_review_json_keeps_its_contract(name: str, tmp_path: Path) -> None:
    """No key is missing in any entry; every null has its words; it is JSON without a number that is none."""
    document = analyse(SAMPLE if name == "sample" else odd_season(name, tmp_path)).to_dict()
    assert [path for path, value in paths(CONTRACT, document) if value is KeyError] == []
    sections = ("record", "frost", "heat", "damp", "soil", "light", "harvest", "winters")
    assert [wrong for section in sections for wrong in unexplained(section, document[section])] == []
    assert json.loads(json.dumps(document, allow_nan=False)) == document
