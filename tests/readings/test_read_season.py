"""The ordinary season: files, books and heating become frozen readings, every row accounted for."""

from __future__ import annotations

from pathlib import Path

import pytest
from readings.folder import air, fail, logger, read, season, times

from reportgen.problems import SeasonError
from reportgen.readings import read_season


def test_an_ordinary_file_is_read_in_the_zone_of_the_season(tmp_path: Path) -> None:
    """Local times become instants: 1 December in Prague is UTC + 1 h."""
    channel = air(read(tmp_path, "Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,4.25\n"))
    assert times(channel) == ["2025-11-30 23:00:00", "2025-11-30 23:10:00"]
    assert channel.values.tolist() == [4.5, 4.25]
    assert (channel.values_read, channel.values_used, channel.step_s) == (2, 2, 600.0)
    assert str(channel.values.index.tz) == "Europe/Prague"


def test_of_overlapping_files_the_later_name_wins(tmp_path: Path) -> None:
    """Two exports that overlap are merged; the overlap of the earlier-named file is repeated, not lost."""
    (tmp_path / "b-1.csv").write_text("Time,Temp\n2025-12-01 00:00,1\n2025-12-01 00:10,2\n")
    (tmp_path / "b-2.csv").write_text("Time,Temp\n2025-12-01 00:10,2.5\n2025-12-01 00:20,3\n")
    readings = read_season(season(tmp_path, logger(files=("b-*.csv",))))
    assert air(readings).values.tolist() == [1, 2.5, 3]
    assert [(f.rows_read, f.rows_used, dict(f.set_aside)) for f in readings.files] == [
        (2, 1, {"repeated": 1}),
        (2, 2, {}),
    ]


def test_a_file_without_the_columns_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    """A missing column names the file, the line of the header and the column meant."""
    (problem,) = fail(tmp_path, "Time,Tempp\n2025-12-01 00:00,4.5\n").problems
    assert problem.text() == (
        "a.csv:1, Temp  [missing-column]\n"
        "  found     columns Time, Tempp\n"
        "  expected  a column 'Temp'\n"
        "  to do     did you mean 'Tempp'?"
    )


def test_problems_of_all_parts_come_at_once(tmp_path: Path) -> None:
    """A missing logger file and a faulty diary are told together."""
    (tmp_path / "diary.csv").write_text("date,kind,what\nyesterday,change,fleece\n")
    with pytest.raises(SeasonError) as caught:
        read_season(season(tmp_path))
    assert {problem.slug for problem in caught.value.problems} == {"missing-file", "not-a-date"}


@pytest.mark.parametrize(
    ("zone", "longitude", "asked"),
    [
        ("America/Denver", -105.0, False),
        ("America/Denver", 105.0, True),  # the sign forgotten
        ("Europe/Prague", 16.6, False),
        ("Europe/Prague", -166.0, True),
        ("Asia/Shanghai", 76.0, False),  # Kashgar: one clock for all of China, three hours from the sun
        ("Pacific/Kiritimati", -157.4, False),  # UTC+14 east of the date line's bend: the sun stands right
        ("Australia/Adelaide", 138.6, False),
        ("Asia/Kathmandu", 85.3, False),
    ],
)
def test_a_longitude_far_from_the_clock_is_asked_about(
    tmp_path: Path, zone: str, longitude: float, asked: bool
) -> None:
    """More than four hours (60°) off the zone's standard time is a warning; the season is read all the same."""
    more = {"time_zone": zone, "place": {"latitude": 40.0, "longitude": longitude}}
    readings = read(tmp_path, "Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,4.25\n", season_more=more)
    assert [p.slug for p in readings.warnings] == (["longitude-far-from-clock"] if asked else [])


def test_levers_and_questions_come_with_the_readings(tmp_path: Path) -> None:
    """What the diary set and what the grower asks stand beside the channels; a question about nothing is a problem
    with its line in season.toml."""
    (tmp_path / "diary.csv").write_text("date,kind,what,touches,thing\n2026-01-22,change,Film hung,envelope,film\n")
    text = "Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,4.25\n"
    asks = ({"ask": "Does the film pay?", "about": "2026-01-22"}, {"ask": "Was it close?", "about": "frost"})
    readings = read(tmp_path, text, season_more={"question": asks})
    assert [lever.thing for lever in readings.levers] == ["film"]
    assert [(q.ask, q.topic, q.line) for q in readings.questions] == [
        ("Does the film pay?", None, 2),
        ("Was it close?", "frost", None),
    ]
    (tmp_path / "season.toml").write_text('\n[[question]]\nask = "x"\nabout = "hld"\n')
    (problem,) = fail(tmp_path, text, season_more={"question": ({"ask": "x", "about": "hld"},)}).problems
    assert (problem.line, problem.todo) == (4, "did you mean 'hold'?")
