"""A new measure is one entry of `units.MEASURES`: added to a copy of it all it is read, checked, shown, told."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import odd_seasons as odd
import pandas as pd
import pytest
from copied_package import ROOT, Put, copied, reviewed, run

from reportgen.units import MEASURES, convert, of_kind

SEASON = ("2026-01-05", "2026-01-14")
ENTRY = Put(
    "units.py",
    '        "duct_airflow": Measure(kept="m³/s", accepted=_FLOWS, lowest=0, highest=10, kind="flow"),\n',
    '        "leaf_temperature": Measure(\n'
    '            kept="degC", accepted=_DEGREES, lowest=-20, highest=50, kind="air", words="warmth of the leaf"\n'
    "        ),\n",
)
LEAF = 'leaf_temperature = { column = "leaf", unit = "degF", accuracy = 0.9 }'
WORDS = "warmth of the leaf"


def season(base: Path) -> Path:
    """Ten days; the leaf 1 K over the air, in °F, with one reading that no leaf can have and a day of one value; beside
    it a second logger that reads 2 K more."""
    table = odd.readings(*SEASON)
    leaf = (table["t"] + 1.0) * 9 / 5 + 32
    leaf.iloc[5] = 150.0  # °F, 66 °C
    leaf.iloc[100:124] = 41.3  # °F, far from 0 °C
    toml = odd.head(*SEASON, more="") + odd.PLACE
    toml += odd.logger("one", "crop", "all.csv", odd.AIR, LEAF) + odd.logger(
        "two", "crop", "all.csv", LEAF.replace('leaf"', 'leaf2"')
    )
    return odd.write(base / "season", toml, table.assign(leaf=leaf.round(2), leaf2=(leaf + 3.6).round(2)))


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package with that one entry more."""
    return copied(tmp_path_factory.mktemp("measure"), (ENTRY,))


@pytest.fixture(scope="module")
def site(copy: Path) -> Path:
    return reviewed(copy, season(copy.parent), copy.parent / "site")


@pytest.fixture(scope="module")
def document(site: Path) -> dict:
    return json.loads((site / "data" / "review.json").read_text(encoding="utf-8"))


def leaves(document: dict) -> list[dict]:
    return [c for c in document["record"]["channels"] if c["measure"] == "leaf_temperature"]


def test_it_is_read_converted_and_checked(document: dict) -> None:
    """What cannot be is set aside by the range of the entry, what stands still by the rule of its kind."""
    one, two = leaves(document)
    assert (one["logger"], two["logger"]) == ("one", "two")
    assert one["set_aside"]["impossible"] == 1
    assert one["set_aside"]["stuck"] == 24
    air = next(c for c in document["record"]["channels"] if c["measure"] == "air_temperature")
    assert one["maximum"] == pytest.approx(air["maximum"] + 1.0, abs=0.01)


def test_it_stands_on_the_record_page_under_its_own_words(site: Path) -> None:
    """Its lane among the strips, its row among the channels, its pair of loggers, in °C."""
    page = (site / "record.html").read_text(encoding="utf-8")
    assert f"one · {WORDS}" in page
    said = re.sub(r"<[^>]*>|record_\w+\.csv", "", page.split("<main")[1])
    assert "leaf_temperature" not in said
    channels = pd.read_csv(site / "data" / "record_channels.csv").set_index("channel")
    assert channels.loc[f"one · {WORDS}", "accuracy"] == pytest.approx(0.5)  # 0.9 °F
    assert channels.loc[f"one · {WORDS}", "unit"] == "degC"


def test_two_loggers_of_one_place_are_compared(site: Path, document: dict) -> None:
    """2 K apart where both together allow 1 K: a finding, and the picture that it leads to."""
    agreement = pd.read_csv(site / "data" / "record_agreement.csv").set_index("measure")
    assert agreement.loc["leaf_temperature", "median difference"] == pytest.approx(2.0, abs=0.01)
    (found,) = [one for one in document["findings"] if one["slug"] == "loggers-disagree"]
    assert WORDS in found["claim"] + found["evidence"]
    assert (site / "data" / "record_one_two_leaf_temperature.csv").is_file()


def test_the_method_page_names_its_sensor(site: Path) -> None:
    assert WORDS in (site / "method.html").read_text(encoding="utf-8").lower()


def test_inspect_names_it(copy: Path) -> None:
    told = run(
        copy,
        "import sys\nfrom reportgen.inspection import inspect, text\nprint(text(inspect(sys.argv[1])))\n",
        season(copy.parent / "again"),
    )
    assert WORDS in told


def test_a_unit_that_it_cannot_have_is_told_with_those_that_it_can(copy: Path) -> None:
    """The same table speaks in the error."""
    folder = season(copy.parent / "wrong")
    toml = folder / "season.toml"
    toml.write_text(toml.read_text(encoding="utf-8").replace('unit = "degF"', 'unit = "%"', 1), encoding="utf-8")
    told = run(
        copy,
        "import sys\nfrom reportgen.inspection import inspect\n"
        "print(*(f'{p.found} {p.expected}' for p in inspect(sys.argv[1]).problems))\n",
        folder,
    )
    assert "degC" in told and "degF" in told


def test_the_recipe_says_so() -> None:
    """DEVELOPERS.md, *To add a measure*."""
    told = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("### To add a measure")[1].split("\n#")[0]
    assert "`units.py`" in told and "`MEASURES`" in told


@pytest.mark.parametrize("name", MEASURES)
def test_every_entry_is_whole(name: str) -> None:
    """Its units convert into the kept one, its range is a range, its outdoor twin is of its kind."""
    measure = MEASURES[name]
    assert measure.kept in measure.accepted
    assert measure.lowest < measure.highest
    for unit in measure.accepted:
        assert np.isfinite(convert(np.array([0.5, 1.0]), unit, measure.kept)).all()
    if measure.outdoors_of:
        assert MEASURES[measure.outdoors_of].kind == measure.kind
    assert name in of_kind(measure.kind)
