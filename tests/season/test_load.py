"""season.toml: read into a frozen Season, or refused with every fault at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from pydantic import ValidationError

from reportgen.problems import Problem, SeasonError
from reportgen.season import load_season

GOOD = """format = 1
title = "A winter"
first_day = 2025-10-01
last_day = 2026-03-31
time_zone = "Europe/Prague"
[[logger]]
name = "bench"
where = "crop"
files = ["loggers/bench.csv"]
time = "Time"
[logger.measures]
air_temperature = { column = "T" }
"""


def folder(tmp_path: Path, text: str) -> Path:
    (tmp_path / "season.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_ten_lines_are_a_season(tmp_path: Path) -> None:
    """The shortest season is read; what is left out has its documented default; nothing can be changed."""
    season = load_season(folder(tmp_path, GOOD))
    assert season.aims.frost_c == 0.0
    assert season.hours == 182 * 24  # 25 h on 26 October, 23 h on 29 March
    with pytest.raises(ValidationError):
        season.title = "other"


def test_every_fault_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    """An unknown key, a wrong type and a path that leads out come together, each with its line."""
    text = GOOD.replace("format = 1\n", "").replace("title =", "titel =").replace('"crop"', '"crp"')
    with pytest.raises(SeasonError) as caught:
        load_season(folder(tmp_path, text))
    found = {(p.slug, p.line) for p in caught.value.problems}
    assert found == {("unknown-key", 1), ("missing-key", None), ("wrong-value", 7)}


@pytest.mark.parametrize("path", ["../x.csv", "/etc/passwd", "C:/x.csv"])
def test_no_path_leads_out(tmp_path: Path, path: str) -> None:
    """All paths stay inside the folder."""
    with pytest.raises(SeasonError, match="path-leads-out"):
        load_season(folder(tmp_path, GOOD.replace("loggers/bench.csv", path)))


def told(tmp_path: Path, text: str) -> list[Problem]:
    """The problems of a season.toml."""
    with pytest.raises(SeasonError) as caught:
        load_season(folder(tmp_path, text))
    return list(caught.value.problems)


def test_entries_are_counted_from_one_and_written_as_in_the_file(tmp_path: Path) -> None:
    """The second logger is [[logger]] 2; the exact words name the line and what to do."""
    second = GOOD + GOOD[GOOD.index("[[logger]]") :].replace('"bench"', '"door"').replace("loggers/", "../")
    assert told(tmp_path, second)[0].text() == (
        "season.toml:16, [[logger]] 2 · files  [path-leads-out]\n"
        "  found     '../bench.csv'\n"
        "  expected  a path inside the season folder\n"
        "  to do     move the file into the folder"
    )


def test_a_table_s_key_names_its_table(tmp_path: Path) -> None:
    """A key of [place] is written so."""
    problem = told(tmp_path, GOOD + "[place]\nlattitude = 49.2\n")[0]
    assert (problem.column, problem.line) == ("[place] · lattitude", 14)
    assert problem.todo == "did you mean 'latitude'?"


def test_an_unknown_measure_suggests_the_nearest_with_its_own_line(tmp_path: Path) -> None:
    """Every wrong name below [logger.measures] is one problem at its own line."""
    text = GOOD.replace("air_temperature =", "air_temprature =") + 'relative_humidty = { column = "H" }\n'
    problems = told(tmp_path, text)
    assert [(p.slug, p.line, p.todo) for p in problems] == [
        ("unknown-key", 12, "did you mean 'air_temperature'?"),
        ("unknown-key", 13, "did you mean 'relative_humidity'?"),
    ]


def test_an_unknown_key_of_a_measure_suggests_the_nearest(tmp_path: Path) -> None:
    """Below a measure the keys of a column are known."""
    problem = told(tmp_path, GOOD.replace('column = "T"', 'column = "T", acuracy = 0.5'))[0]
    assert problem.column == "[[logger]] 1 · measures · air_temperature · acuracy"
    assert problem.todo == "did you mean 'accuracy'?"


@pytest.mark.parametrize("time", ["0", "true", "[]", '[1.5, "Clock"]', '["a","b","c","d","e","f","g"]', '""'])
def test_a_wrong_time_is_one_problem(tmp_path: Path, time: str) -> None:
    """A column or up to six to be joined, by name or place: whatever else stands there is told once."""
    problems = told(tmp_path, GOOD.replace('time = "Time"', f"time = {time}"))
    assert [(p.slug, p.column, p.line) for p in problems] == [("wrong-value", "[[logger]] 1 · time", 10)]
    assert problems[0].expected == (
        'a column such as "Time", its place such as 1, or several to be joined: ["Date", "Clock"]'
    )


@pytest.mark.parametrize(
    ("time", "columns"),
    [
        ("1", (1,)),
        ('["Year", "Month", "Day", "Hour"]', ("Year", "Month", "Day", "Hour")),
        ('[1, "Clock"]', (1, "Clock")),
    ],
)
def test_a_time_by_place_or_in_parts(tmp_path: Path, time: str, columns: tuple[str | int, ...]) -> None:
    """A column without a name is named by its place from the left; a time may stand in up to six columns."""
    (tmp_path / "season.toml").write_text(GOOD.replace('time = "Time"', f"time = {time}"), encoding="utf-8")
    assert load_season(tmp_path).loggers[0].time_columns == columns


def test_a_temperature_by_place_needs_its_unit(tmp_path: Path) -> None:
    """No name can show °C or °F where only the place is given; with a unit it loads."""
    (problem,) = told(tmp_path, GOOD.replace('column = "T"', "column = 2"))
    assert problem.expected == 'air_temperature: a unit beside column = 2, such as unit = "degC"'
    (tmp_path / "season.toml").write_text(GOOD.replace('column = "T"', 'column = 2, unit = "degF"'), encoding="utf-8")
    assert load_season(tmp_path).loggers[0].measures["air_temperature"].column == 2


@pytest.mark.parametrize("column", ["0", "true", '""', "[1]"])
def test_a_column_is_a_name_or_a_place(tmp_path: Path, column: str) -> None:
    """Whatever else stands there is one problem at its line."""
    (problem,) = told(tmp_path, GOOD.replace('column = "T"', f"column = {column}"))
    assert (problem.slug, problem.expected) == (
        "wrong-value",
        'a column\'s name such as "Temp", or its place from the left where it has none: 1',
    )


def test_a_unit_that_its_measure_cannot_have_comes_with_all_other_faults(tmp_path: Path) -> None:
    """Wrong units of two columns and a wrong key elsewhere are told together, the near unit with them."""
    text = GOOD.replace('column = "T"', 'column = "T", unit = "F"').replace("title =", "titel =")
    text += 'wind_speed = { column = "W", unit = "kmh" }\n'
    problems = told(tmp_path, text)
    assert {(p.slug, p.line) for p in problems} == {
        ("unknown-key", 2),
        ("unknown-unit", 12),
        ("unknown-unit", 13),
    }
    assert [p.todo for p in problems if p.line == 12] == ["did you mean 'degF'?"]
    assert [p.todo for p in problems if p.line == 13] == ["did you mean 'km/h'?"]


def test_a_price_needs_a_currency_and_a_logger_must_exist(tmp_path: Path) -> None:
    """References and money are checked over the whole file."""
    text = GOOD + '[[heating]]\nname = "fan"\nfuel = "electricity"\nlogger = "bensch"\nprice = 0.3\n'
    problems = told(tmp_path, text)
    assert {(p.slug, p.column) for p in problems} == {
        ("unknown-logger", "[[heating]] 1 · logger"),
        ("missing-currency", "[[heating]] 1"),
    }
    assert [p.todo for p in problems if p.slug == "unknown-logger"] == ["did you mean 'bench'?"]


@pytest.mark.parametrize(
    ("text", "line"),
    [('format = 1\ntitle = "A\n', 2), ("format = 1\nx = [1,\n", None), ("format == 1", 1), ("\x00", 1)],
)
def test_what_is_no_toml_is_told_with_its_line(tmp_path: Path, text: str, line: int | None) -> None:
    """A syntax error is a problem with its place, never a crash."""
    problem = told(tmp_path, text)[0]
    assert problem.slug == "toml-syntax" and (line is None or problem.line == line)


def test_a_folder_without_season_toml_says_what_to_do(tmp_path: Path) -> None:
    """The exact words point at `begin`."""
    with pytest.raises(SeasonError) as caught:
        load_season(tmp_path)
    assert caught.value.problems[0].text() == (
        "season.toml  [season-missing]\n"
        "  found     a folder without season.toml\n"
        "  expected  a season folder\n"
        "  to do     name the folder of one winter, or let `reportgen begin FOLDER` write a first season.toml"
    )


@pytest.mark.parametrize(
    ("good", "bad", "expected"),
    [
        ("first_day = 2025-10-01", 'first_day = "2025-10-01"', "a date without quotes, such as 2025-10-18"),
        (
            'files = ["loggers/bench.csv"]',
            'files = "loggers/bench.csv"',
            'a list in [ ], such as ["loggers/bench.csv"]',
        ),
        ('where = "crop"', 'where = "hall"', "one of: 'crop', 'outdoor', 'elsewhere'"),
        ('where = "crop"', 'where = "crop"\nmain = "yes"', "true or false, without quotes"),
        ('where = "crop"', 'where = "crop"\nclock = "CET"', '"local" (with summer time), "utc", or a fixed "+01:00"'),
        ("[[logger]]", "[place]\nlatitude = 490\n[[logger]]", "at or below 66"),
        ("[[logger]]", '[place]\nlatitude = "49"\n[[logger]]', "a number, without quotes and with a point: 48.6"),
        ('{ column = "T" }', '"T"', 'a table of its own, or { … }: { column = "Temp", unit = "degC" }'),
    ],
)
def test_what_was_expected_is_said_as_a_grower_would(tmp_path: Path, good: str, bad: str, expected: str) -> None:
    """No word of the checking library: what to write instead."""
    (problem,) = told(tmp_path, GOOD.replace(good, bad))
    assert problem.expected == expected


def test_a_word_like_no_other_gets_no_far_fetched_suggestion(tmp_path: Path) -> None:
    """`hose` resembles no key: the message says what to do, not what it was not."""
    (problem,) = told(tmp_path, GOOD.replace("[[logger]]", "[zzz]\nx = 1\n[[logger]]"))
    assert problem.todo == "take it out, or look for its place in the sample season's season.toml"
