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


CLOCK = '"local" (with summer time), "utc", or a fixed "+01:00" from \u221212:00 to +14:00'


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
        ('where = "crop"', 'where = "crop"\nclock = "CET"', CLOCK),
        ("[[logger]]", "[place]\nlatitude = 490\n[[logger]]", "at or below 90"),
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


SENSOR = GOOD.replace("air_temp", "soil_temp").replace(
    'column = "T"', 'column = "T", unit = "degF", accuracy = 0.7, offset = -0.4'
)
FAN = '[[heating]]\nname = "fan"\nfuel = "electricity"\nlogger = "bench"\n'
CHECK = """where = "crop"
checks = [{{ date = 2025-10-01, measure = "soil_temperature", reference = {}, read = {} }}]"""
NO_NUMBER = ("inf", "-inf", "nan")


@pytest.mark.parametrize("number", NO_NUMBER)
def test_a_number_without_an_end_is_told_at_every_key(tmp_path: Path, number: str) -> None:
    """TOML knows inf and nan; neither is an offset, an accuracy, a check, a place, an area, a price or a power."""
    text = SENSOR.replace("0.7", number).replace("-0.4", number)
    text = text.replace(
        'where = "crop"',
        f"""where = "crop"
checks = [{{ date = 2025-10-01, measure = "soil_temperature", reference = {number}, read = {number} }}]""",
    )
    text = text.replace(
        "[[logger]]",
        f"""currency = "EUR"
[place]
latitude = {number}
longitude = {number}
altitude_m = {number}
[house]
floor_area_m2 = {number}
air_volume_m3 = {number}
u_value_w_m2k = {number}
air_changes_per_h = {number}
[aims]
hold_c = {number}
care = {{ lift_k = {number} }}
[[logger]]""",
    )
    text += FAN + f"rated_power_w = {number}\nprice = {number}\nefficiency = {number}\n"
    problems = told(tmp_path, text)
    assert {p.slug for p in problems} == {"wrong-value"}
    keys = [(p.column or "").rpartition(" · ")[2] for p in problems]
    assert sorted(keys) == sorted(
        ("accuracy", "offset", "reference", "read", "latitude", "longitude", "altitude_m", "floor_area_m2",
         "air_volume_m3", "u_value_w_m2k", "air_changes_per_h", "hold_c", "lift_k", "rated_power_w", "price",
         "efficiency")
    )  # fmt: skip
    assert all(p.line for p in problems)


@pytest.mark.parametrize("clock", ["+99:99", "+14:01", "-12:01", "+01:60", "+1:00", "01:00", "UTC"])
def test_a_clock_that_nobody_keeps_is_refused(tmp_path: Path, clock: str) -> None:
    """Offsets from UTC run from −12:00 to +14:00 (IANA time zone database: Etc/GMT+12, Pacific/Kiritimati)."""
    (problem,) = told(tmp_path, GOOD.replace('where = "crop"', f'where = "crop"\nclock = "{clock}"'))
    assert (problem.column, problem.expected) == ("[[logger]] 1 · clock", CLOCK)


@pytest.mark.parametrize("clock", ["local", "utc", "+14:00", "-12:00", "+05:45", "-03:30", "+00:00"])
def test_a_clock_that_somebody_keeps_is_taken(tmp_path: Path, clock: str) -> None:
    """Nepal keeps +05:45, Newfoundland −03:30, the Line Islands +14:00 (IANA time zone database)."""
    season = load_season(folder(tmp_path, GOOD.replace('where = "crop"', f'where = "crop"\nclock = "{clock}"')))
    assert season.loggers[0].clock == clock


def test_years_are_of_these_centuries(tmp_path: Path) -> None:
    """A year 205 or 20255 is a slip of the pen, wherever a day stands; each is told with its key."""
    text = GOOD.replace("first_day = 2025", "first_day = 0205").replace("last_day = 2026", "last_day = 2205")
    text += "[aims]\nhold = [{ from = 1899-12-31, c = 5.0 }]\n"
    text += FAN + "dial = [{ from = 2101-01-01, c = 5.0 }]\n"
    problems = told(tmp_path, text)
    assert [p.column for p in problems] == [
        "first_day", "last_day", "[aims] · hold 1 · from", "[[heating]] 1 · dial 1 · from"
    ]  # fmt: skip
    assert {p.expected for p in problems} == {"a day of the years 1900 to 2100"}


@pytest.mark.parametrize(
    ("good", "bad", "expected"),
    [
        ("offset = -0.4", "offset = 180.0", "less than 117 degF, all that it can be"),
        ("accuracy = 0.7", "accuracy = 700.0", "less than 117 degF, all that it can be"),
        ('where = "crop"', CHECK.format(-60.0, 31.0), "-4 to 113 degF"),
        ('where = "crop"', CHECK.format(32.0, 310.0), "-4 to 113 degF"),
    ],
)
def test_a_sensor_s_numbers_lie_within_what_it_can_measure(tmp_path: Path, good: str, bad: str, expected: str) -> None:
    """A bed lies at −20 to 45 °C (season folder, format 1), which is −4 to 113 °F and 65 K or 117 °F wide."""
    text = SENSOR.replace(good, bad)
    (problem,) = told(tmp_path, text)
    assert (problem.slug, problem.expected) == ("wrong-value", expected)


@pytest.mark.parametrize("latitude", [-90.0, -70.0, 0.0, 70.0, 90.0])
def test_a_house_may_stand_at_any_latitude(tmp_path: Path, latitude: float) -> None:
    """From pole to pole."""
    text = GOOD.replace("[[logger]]", f"[place]\nlatitude = {latitude}\n[[logger]]")
    assert load_season(folder(tmp_path, text)).place.latitude == latitude


@pytest.mark.parametrize("zone", ["localtime", "Factory", "right/Europe/Prague", "posix/Europe/Prague", "", "/etc"])
def test_a_clock_of_the_machine_is_no_time_zone(tmp_path: Path, zone: str) -> None:
    """Files that stand beside the zones on some machines are none: the season must read alike everywhere."""
    problems = told(tmp_path, GOOD.replace("Europe/Prague", zone))
    assert [p.slug for p in problems] == ["unknown-time-zone"]


def test_the_newer_keys_are_carried(tmp_path: Path) -> None:
    """Questions, the house's id, the dial by date and the name for others are read as they stand."""
    text = GOOD.replace(
        "[[logger]]",
        """[[question]]
ask = "Does the film pay?"
about = "2026-01-22"
[house]
id = "k3v9qhd2mwpa"
[aims]
hold = [{ from = 2025-10-18, c = 10 }, { from = 2025-12-20, c = 5.0 }]
[share]
label = "Plot 7"
[[logger]]""",
    )
    text += FAN + "dial = [{ from = 2025-10-18, c = 9.0 }, { from = 2025-12-20, c = 4.5 }]\n"
    season = load_season(folder(tmp_path, text))
    assert [(q.ask, q.about) for q in season.questions] == [("Does the film pay?", "2026-01-22")]
    assert (season.house.id, season.share.label) == ("k3v9qhd2mwpa", "Plot 7")
    assert [hold.c for hold in season.aims.hold] == [10.0, 5.0]
    assert [step.c for step in season.heating[0].dial] == [9.0, 4.5]


@pytest.mark.parametrize(
    ("more", "column", "expected"),
    [
        ('[[question]]\nask = "x"\nabout = "hold"\n' * 7, "question", "at most 6 of them"),
        ('[[question]]\nask = "x"\n', "[[question]] 1 · about", "the key 'about'"),
        ('[[question]]\nask = ""\nabout = "hold"\n', "[[question]] 1 · ask", "something between the quotes"),
        (f'[house]\nid = "{"x" * 65}"\n', "[house] · id", "at most 64 letters"),
        ('[share]\nlabel = ""\n', "[share] · label", "something between the quotes"),
        (
            FAN + "dial = [{ from = 2025-12-20, c = 9.0 }, { from = 2025-12-20, c = 4.5 }]\n",
            "[[heating]] 1",
            "dial in order of date, one a date",
        ),
    ],
)
def test_a_newer_key_that_cannot_be_is_told(tmp_path: Path, more: str, column: str, expected: str) -> None:
    """More questions than a page can answer, an empty word, two settings of one day."""
    (problem,) = told(tmp_path, GOOD + more)
    assert (problem.column, problem.expected) == (column, expected)


@pytest.mark.parametrize(
    ("wrong", "todo"),
    [
        ("title = \u201cMy winter\u201d  # curly", "straight quotes"),
        ('title = "C:\\Users\\me"', "write / in place of \\"),
        ("title = 0,31", "with a point"),
        ("title = 18.10.2025", "2026-01-14"),
        ("title = My winter", "in quotes"),
        ('title: "My winter"', "write = between"),
    ],
)
def test_a_line_that_is_no_toml_says_what_to_do(tmp_path: Path, wrong: str, todo: str) -> None:
    """By what stands there: what people write who know no TOML."""
    with pytest.raises(SeasonError) as error:
        load_season(folder(tmp_path, GOOD.replace('title = "A winter"', wrong)))
    (problem,) = error.value.problems
    assert (problem.slug, problem.line) == ("toml-syntax", 2) and todo in problem.todo
