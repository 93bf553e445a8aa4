"""The invented group is what its head says: else every test that rests on it would rest on nothing."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import pytest
from gather.made_group import documents


def test_what_was_collected(collected: Path) -> None:
    """Seven winters of six houses in three forms, and one file that ends in the middle."""
    there = {path.relative_to(collected).as_posix() for path in collected.rglob("*") if path.is_file()}
    assert there == {
        "plot-3/data/review.json", "plot-7-2024.json", "plot-7-2025.json", "plot-9.zip", "plot-12.zip",
        "garden-e.json", "garden-f.json", "plot-15.json", "group.toml",
    }  # fmt: skip
    with pytest.raises(json.JSONDecodeError):
        json.loads((collected / "plot-15.json").read_text(encoding="utf-8"))
    for name in ("plot-9.zip", "plot-12.zip"):
        with zipfile.ZipFile(collected / name) as packed:
            assert "+01:00" not in packed.read("review/data/review.json").decode()


def test_the_houses() -> None:
    """Five heated, one not; one with two winters, one without an id, two without a label."""
    houses = {word: document["house"] for word, document in documents().items()}
    assert [word for word, house in houses.items() if not house["heated"]] == ["garden-e"]
    assert houses["plot-7-2024"]["id"] == houses["plot-7-2025"]["id"]
    assert [word for word, house in houses.items() if house["id"] is None] == ["garden-f"]
    assert [word for word, house in houses.items() if house["label"] is None] == ["garden-e", "garden-f"]


def test_what_is_told_and_what_is_not() -> None:
    """All hung a film; the one that hides its prices tells no money; one burnt gas in a house that was taped."""
    of = documents()
    films = [word for word, d in of.items() if any("ilm" in c["what"] or "wrap" in c["what"] for c in d["changes"])]
    assert films == [word for word in of if word != "plot-7-2024"]
    assert of["plot-12"]["heat"]["cost"] is None and of["plot-3"]["heat"]["cost"] > 0
    assert of["plot-12"]["heat"]["kwh"] > 0
    assert of["plot-7-2025"]["winters"]["last"] == of["plot-7-2024"]["season"]["title"]
    assert any(event["kind"] == "safety" for event in of["garden-f"]["events"])
