"""Whatever a file holds: rows read = used + set aside, in every file and channel, or a list of problems."""

from __future__ import annotations

import csv
import tempfile
from pathlib import Path

import numpy as np
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from readings.folder import logger, season

from reportgen.problems import SeasonError
from reportgen.readings import read_season
from reportgen.readings.marks import REASONS
from reportgen.readings.types import Readings

TWO = {"air_temperature": {"column": "Temp"}, "relative_humidity": {"column": "Hum", "unit": "%"}}
GOOD_TIME = st.integers(0, 4000).map(lambda n: f"2025-12-{1 + n // 1440 % 28:02d} {n // 60 % 24:02d}:{n % 60:02d}")
ODD_TIME = st.sampled_from(["", "Time", "Average", "2025-13-01 00:00", "2025-06-01 12:00", "01/13/2026 01:00", "24:00"])
GOOD = st.decimals(-30, 99, places=1).map(str)
IN_RANGE = st.decimals(-30, 75, places=1).map(str)  # of an air temperature, °C: warmer is set aside as impossible
ODD = st.sampled_from(
    ["", " ", "-999", "85", "-127", "0", "104", "200", "NaN", "--", "50 °F", "1,5", "1e400", '"', "∞"]
)
CELL = st.one_of(GOOD, GOOD, ODD)
ROW = st.tuples(st.one_of(GOOD_TIME, GOOD_TIME, GOOD_TIME, ODD_TIME), CELL, CELL)
LINE = st.one_of(ROW.map(",".join), ROW.map(",".join), ROW.map(",".join), st.sampled_from(["", ",,", "Time,Temp,Hum"]))


def reading(texts: list[bytes]) -> Readings | SeasonError:
    """The readings of one logger with those files, or the error."""
    with tempfile.TemporaryDirectory() as name:
        for n, text in enumerate(texts):
            (Path(name) / f"a-{n}.csv").write_bytes(text)
        try:
            return read_season(season(Path(name), logger(files=("a-*.csv",), measures=TWO)))
        except SeasonError as error:
            return error


def check(readings: Readings) -> None:
    """The promise of the record."""
    for account in readings.files:
        assert account.rows_read == account.rows_used + sum(account.set_aside.values())
        assert set(account.set_aside) <= set(REASONS)
    for channel in readings.channels:
        assert channel.values_read == channel.values_used + sum(channel.set_aside.values())
        assert channel.values_used == len(channel.values)
        assert not channel.values.isna().any()
        assert channel.values.index.is_monotonic_increasing
        assert channel.values.index.is_unique
        assert np.isfinite(channel.values.to_numpy()).all()


MIDNIGHTS = ("2025-12-01 00:00",) * 3


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.lists(LINE, max_size=25), min_size=1, max_size=3))
@example(  # an hour's end on a row without a time
    [
        [
            f"{time},0,0"
            for time in ("2025-12-01 01:01", *MIDNIGHTS, "2025-13-01 00:00", MIDNIGHTS[0], "", "2025-12-01 00:01")
        ]
    ]
)
def test_every_row_of_a_messy_file_is_accounted_for(files: list[list[str]]) -> None:
    """Rows with faults of every kind, repeated and overlapping: the sums hold, and every non-blank line is counted."""
    found = reading([("Time,Temp,Hum\n" + "\n".join(lines) + "\n").encode() for lines in files])
    if isinstance(found, Readings):
        check(found)
        blank = [sum(not any(map(str.strip, next(csv.reader([line]), []))) for line in lines) for lines in files]
        assert [a.rows_read for a in found.files] == [len(lines) - n for lines, n in zip(files, blank, strict=True)]
    else:
        assert all(problem.todo and problem.expected for problem in found.problems)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(st.binary(max_size=400), st.binary(max_size=200).map(lambda raw: b"Time,Temp,Hum\n" + raw)))
def test_random_bytes_give_readings_or_problems(raw: bytes) -> None:
    """No file, whatever its bytes, ends in anything but readings that add up or a list of problems."""
    found = reading([raw])
    if isinstance(found, Readings):
        check(found)
    else:
        assert found.problems


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.tuples(st.integers(0, 500), IN_RANGE, GOOD), min_size=1, max_size=40, unique_by=lambda row: row[0]))
def test_a_clean_file_loses_nothing(rows: list[tuple[int, str, str]]) -> None:
    """Distinct times, plain numbers in range and humidity a percentage: every number comes back as it was."""
    lines = [f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00,{a},{abs(float(b)) + 0.5}" for n, a, b in sorted(rows)]
    found = reading([("Time,Temp,Hum\n" + "\n".join(lines) + "\n").encode()])
    assert isinstance(found, Readings)
    humidity = found.channel("bench", "relative_humidity")
    assert humidity is not None
    assert humidity.values.tolist() == [abs(float(b)) + 0.5 for _, _, b in sorted(rows)]
