"""A season.toml of the right shape with wrong values gives readings or a list of problems, never a traceback."""

from __future__ import annotations

import copy
import datetime as dt
import tempfile
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from simulator.toml import dumps

from reportgen.problems import SeasonError
from reportgen.readings import read_season
from reportgen.season import load_season

RIGHT: dict[str, Any] = {
    "format": 1,
    "title": "A winter",
    "first_day": dt.date(2025, 12, 1),
    "last_day": dt.date(2025, 12, 31),
    "time_zone": "Europe/Prague",
    "currency": "EUR",
    "place": {"latitude": 49.0, "longitude": 16.0, "altitude_m": 300},
    "aims": {"hold_c": 8.0, "humidity_high_pct": 80.0},
    "logger": [
        {
            "name": "bench",
            "where": "crop",
            "files": ["a.csv"],
            "time": "Time",
            "clock": "local",
            "measures": {"air_temperature": {"column": "Temp", "unit": "degC", "accuracy": 0.5, "offset": 0.1}},
        }
    ],
    "heating": [{"name": "fan heater", "fuel": "electricity", "meter": "meter.csv", "price": 0.3, "unit": "kWh"}],
    "crop": [{"name": "spinach", "area_m2": 4.0, "damage_below_c": -7.0}],
}
WRONG = st.one_of(
    st.sampled_from(["", "x", "utc", "../a.csv", "/etc", "**", "[", "a\x7f.csv", "Temp", "degF", "%d", "+25:99", "\\"]),
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False, width=32),
    st.booleans(),
    st.dates(dt.date(1, 1, 1), dt.date(9999, 12, 31)),
    st.lists(st.sampled_from(["a.csv", "", "Time", "*"]), max_size=3),
)
KEYS = st.sampled_from(
    ["time_format", "sheet", "delimiter", "decimal", "encoding", "skip_rows", "where", "files", "time", "clock", "main"]
)


def paths(data: Any, so_far: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in the season at which a value stands."""
    if isinstance(data, dict):
        return [path for key, inner in data.items() for path in paths(inner, (*so_far, key))]
    if isinstance(data, list) and data and isinstance(data[0], dict):
        return [path for n, inner in enumerate(data) for path in paths(inner, (*so_far, n))]
    return [so_far]


def put(data: dict[str, Any], path: tuple[Any, ...], wrong: Any) -> None:
    """Sets the value at a place."""
    inner: Any = data
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = wrong


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    changes=st.lists(st.tuples(st.sampled_from(paths(RIGHT)), WRONG), max_size=2),
    extra=st.lists(st.tuples(KEYS, WRONG), max_size=2),
)
def test_wrong_values_in_season_toml(changes: list[tuple[tuple[Any, ...], Any]], extra: list[tuple[str, Any]]) -> None:
    """One or two values of the wrong kind or range: problems with an address and what to do, or readings."""
    data = copy.deepcopy(RIGHT)
    for path, wrong in changes:
        put(data, path, wrong)
    for key, wrong in extra:
        data["logger"][0][key] = wrong
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "season.toml").write_text(dumps(data), encoding="utf-8")
        (folder / "a.csv").write_text("Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,4.6\n")
        (folder / "meter.csv").write_text("date,reading\n2025-12-01,100\n2025-12-31,160\n")
        try:
            readings = read_season(load_season(folder))
        except SeasonError as error:
            assert all(problem.todo and problem.expected and problem.found for problem in error.problems)
        else:
            assert all(a.rows_read == a.rows_used + sum(a.set_aside.values()) for a in readings.files)
