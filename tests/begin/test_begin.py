"""A folder of raw exports comes out as a season.toml that loads and reads; guesses are told, answers are kept."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from begin.workbooks import xlsx

from reportgen.begin import AlreadyBegun, begin, start
from reportgen.inspection import inspect, text
from reportgen.problems import SeasonError
from reportgen.season import load_season


@pytest.fixture(autouse=True)
def _one_computer(monkeypatch: pytest.MonkeyPatch) -> None:
    """The computer's own zone must not decide a test."""
    monkeypatch.setattr(start, "computer_zone", lambda: "Europe/Prague")


def export(
    path: Path,
    header: str = "Time,Temp (°C),Humidity (%)",
    row: str = "{t:%Y-%m-%d %H:%M},{c:.1f},{h:.0f}",
    days: int = 20,
    first: dt.datetime = dt.datetime(2025, 12, 1),
    level: float = 6.0,
) -> None:
    """Half-hourly readings of an invented house, written as a logger might."""
    rows = [header]
    for n in range(days * 48):
        t = first + dt.timedelta(minutes=30 * n)
        c = level + 4 * math.sin(n / 48 * 6.28) + 0.01 * (n % 7)
        rows.append(row.format(t=t, c=c, h=75 + 10 * math.sin(n / 31), f=c * 1.8 + 32))
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")


def answers(**given: str) -> Callable[[str, str], str]:
    """Answers by a word of the question, with _ for a space; the guess otherwise."""

    def ask(question: str, guess: str) -> str:
        return next((text for word, text in given.items() if word.replace("_", " ") in question), guess)

    return ask


def test_two_exports_become_a_season_that_is_ready(tmp_path: Path) -> None:
    """One in the house, one outdoors by its name; days, units and places are guessed and inspect finds no fault."""
    export(tmp_path / "loggers" / "bench.csv")
    export(tmp_path / "loggers" / "outside.csv", level=-3.0)
    result = begin(tmp_path, None, False)
    season = load_season(tmp_path)
    assert [(logger.name, logger.where) for logger in season.loggers] == [("bench", "crop"), ("outside", "outdoor")]
    assert (season.first_day, season.last_day) == (dt.date(2025, 12, 1), dt.date(2025, 12, 20))
    assert season.title == "Winter 2025–26"
    assert inspect(tmp_path).problems == ()
    assert (tmp_path / "season.toml").read_text(encoding="utf-8") == result.text
    assert any("time zone" in doubt for doubt in result.unsure)


def test_a_season_toml_is_never_replaced_unless_told_so(tmp_path: Path) -> None:
    """Without force it stays byte for byte; with force it is written anew."""
    export(tmp_path / "bench.csv")
    (tmp_path / "season.toml").write_text("mine", encoding="utf-8")
    with pytest.raises(AlreadyBegun):
        begin(tmp_path, None, False)
    assert (tmp_path / "season.toml").read_text(encoding="utf-8") == "mine"
    begin(tmp_path, None, True)
    assert load_season(tmp_path).title == "Winter 2025–26"


def test_the_clearly_colder_of_two_unnamed_loggers_is_outdoors(tmp_path: Path) -> None:
    """No name says so; nine degrees colder does, and it is told as a guess."""
    export(tmp_path / "a.csv")
    export(tmp_path / "b.csv", level=-3.0)
    result = begin(tmp_path, None, False)
    assert [logger.where for logger in load_season(tmp_path).loggers] == ["crop", "outdoor"]
    assert any("where each logger hangs" in doubt for doubt in result.unsure)


def test_fahrenheit_is_seen_in_the_header_and_by_its_level(tmp_path: Path) -> None:
    """A header with °F, and a bare column around 43: both are degF, and the report then prints US units."""
    export(tmp_path / "a.csv", header="Time,Temp (°F),RH (%)", row="{t:%Y-%m-%d %H:%M},{f:.1f},{h:.0f}")
    export(tmp_path / "b.csv", header="Time,Temp,RH", row="{t:%Y-%m-%d %H:%M},{f:.1f},{h:.0f}")
    result = begin(tmp_path, None, False)
    season = load_season(tmp_path)
    assert [logger.measures["air_temperature"].unit for logger in season.loggers] == ["degF", "degF"]
    assert season.show == "us"
    assert any("b.csv does not say its units" in doubt for doubt in result.unsure)


def test_a_warm_level_that_could_be_either_is_asked(tmp_path: Path) -> None:
    """Readings around 29 are a cold house in °F or a hot one in °C: the answer counts."""
    export(tmp_path / "a.csv", header="Time,Temp", row="{t:%Y-%m-%d %H:%M},{c:.1f}", level=29.0)
    begin(tmp_path, answers(Is_column="degC"), False)
    assert load_season(tmp_path).loggers[0].measures["air_temperature"].unit == "degC"


def test_german_headers_semicolons_and_decimal_commas(tmp_path: Path) -> None:
    """Datum;Temperatur °C;Luftfeuchte % with commas is a logger file like any other."""
    path = tmp_path / "gewaechshaus.csv"
    export(path, header="Datum;Temperatur °C;Luftfeuchte %", row="{t:%d.%m.%Y %H:%M};{c:.1f};{h:.0f}")
    path.write_text(path.read_text(encoding="utf-8").replace(".1;", ",1;").replace(".2;", ",2;"), encoding="utf-8")
    begin(tmp_path, None, False)
    assert list(load_season(tmp_path).loggers[0].measures) == ["air_temperature", "relative_humidity"]
    assert inspect(tmp_path).problems == ()


def test_two_sensors_in_one_file_become_two_loggers(tmp_path: Path) -> None:
    """The second column of a measure is another sensor's; the first speaks for the house."""
    export(
        tmp_path / "inside.csv",
        header="Date,T1 (°C),T2 (°C)",
        row="{t:%Y-%m-%d %H:%M},{c:.1f},{c:.2f}",
    )
    begin(tmp_path, None, False)
    loggers = load_season(tmp_path).loggers
    assert [logger.measures["air_temperature"].column for logger in loggers] == ["T1 (°C)", "T2 (°C)"]
    assert [logger.main for logger in loggers] == [True, False]


def test_numbered_exports_of_one_logger_are_one_logger(tmp_path: Path) -> None:
    """bench-1 and bench-2 follow each other; peg-1 and peg-2 ran at the same time and are two."""
    export(tmp_path / "bench-1.csv")
    export(tmp_path / "bench-2.csv", first=dt.datetime(2025, 12, 21))
    export(tmp_path / "peg-1.csv", level=5.0)
    export(tmp_path / "peg-2.csv", level=5.5)
    begin(tmp_path, None, False)
    files = [logger.files for logger in load_season(tmp_path).loggers]
    assert files == [("bench-1.csv", "bench-2.csv"), ("peg-1.csv",), ("peg-2.csv",)]


def test_a_date_that_could_be_swapped_is_asked_and_written_down(tmp_path: Path) -> None:
    """Twelve days in which day and month never tell: the answer becomes a time_format that reads."""
    path = tmp_path / "a.csv"
    export(path, row="{t:%d/%m/%Y %H:%M},{c:.1f},{h:.0f}", days=1, first=dt.datetime(2025, 12, 11))
    result = begin(tmp_path, answers(which_comes_first="day"), False)
    logger = load_season(tmp_path).loggers[0]
    assert logger.time_format == "%d/%m/%Y %H:%M"
    assert load_season(tmp_path).first_day == dt.date(2025, 12, 11)
    assert not any("comes first" in doubt or "come first" in doubt for doubt in result.unsure)


def test_books_under_other_names_and_a_meter_are_found(tmp_path: Path) -> None:
    """A harvest book, a meter with its price, and money that needs a currency."""
    export(tmp_path / "bench.csv")
    (tmp_path / "picked.csv").write_text("date,crop,weight\n2025-12-05,spinach,0.4\n", encoding="utf-8")
    (tmp_path / "meter.csv").write_text("date,reading\n2025-12-01,100\n2025-12-20,180\n", encoding="utf-8")
    begin(tmp_path, answers(Price="0,31", Currency="czk"), False)
    season = load_season(tmp_path)
    assert season.harvest.file == "picked.csv"
    assert (season.heating[0].meter, season.heating[0].price, season.currency) == ("meter.csv", 0.31, "CZK")
    found = inspect(tmp_path)
    assert found.problems == () and found.readings is not None
    assert found.readings.heating[0].intervals["bought"].sum() == pytest.approx(80.0)


def test_a_fuel_without_its_heat_value_stays_commented_out(tmp_path: Path) -> None:
    """Pellets by the kilogram have no tabled heat: the season is ready all the same, and the reason is told."""
    export(tmp_path / "bench.csv")
    (tmp_path / "pellets.csv").write_text("date,amount,left\n2025-12-01,60,10\n", encoding="utf-8")
    result = begin(tmp_path, None, False)
    assert load_season(tmp_path).heating == ()
    assert '# deliveries = "pellets.csv"' in result.text
    assert any("heat_kwh_per_unit" in doubt for doubt in result.unsure)
    assert inspect(tmp_path).problems == ()


def test_answers_are_written_and_bad_ones_asked_again(tmp_path: Path) -> None:
    """Place, title and zone as said; a zone that does not exist is asked for again, then the guess is taken."""
    export(tmp_path / "bench.csv")
    given = answers(Latitude="47,5", Longitude="\u22128.25", Title='The "lean-to" year', Time_zone="Nowhere/Land")
    result = begin(tmp_path, given, False)
    season = load_season(tmp_path)
    assert (season.place.latitude, season.place.longitude) == (47.5, -8.25)
    assert season.title == 'The "lean-to" year'
    assert season.time_zone == "Europe/Prague"
    assert any("time zone" in doubt for doubt in result.unsure)


def test_more_than_a_year_of_readings_is_cut_to_the_fullest_winter(tmp_path: Path) -> None:
    """From March 2024 to December 2025 only the winter 2024–25 is whole: it is taken, and that is told."""
    export(tmp_path / "a.csv", days=670, first=dt.datetime(2024, 3, 1), row="{t:%Y-%m-%d %H:%M},{c:.1f},{h:.0f}")
    result = begin(tmp_path, None, False)
    season = load_season(tmp_path)
    assert (season.first_day, season.last_day) == (dt.date(2024, 10, 1), dt.date(2025, 4, 30))
    assert any("season's days" in doubt for doubt in result.unsure)


NO_TABLES = [b"", b"\0" * 999, b"just words\nand more words\n", b"a,b\n1,2\n", b"%PDF-1.7\n\xff"]


@pytest.mark.parametrize("content", NO_TABLES)
def test_a_folder_without_a_logger_file_is_told_so(tmp_path: Path, content: bytes) -> None:
    """Nothing is written, and the file is named with the reason."""
    (tmp_path / "a.csv").write_bytes(content)
    with pytest.raises(SeasonError) as caught:
        begin(tmp_path, None, False)
    assert caught.value.problems[0].slug == "no-logger-file"
    assert "a.csv" in caught.value.problems[0].found
    assert not (tmp_path / "season.toml").exists()


def test_no_such_folder(tmp_path: Path) -> None:
    """The command is told which folder is meant."""
    with pytest.raises(SeasonError):
        begin(tmp_path / "nowhere", None, False)


def test_every_line_that_is_commented_out_would_load(tmp_path: Path) -> None:
    """Taking the # off the examples of house, aims and place gives keys that season.toml knows."""
    export(tmp_path / "bench.csv")
    text = begin(tmp_path, None, False).text
    example = re.compile(r"# (\[\[?\w+\]\]?$|(?!hold |folder)\w+ += )")
    kept = [line.removeprefix("# ") if example.match(line) else line for line in text.splitlines()]
    (tmp_path / "season.toml").write_text("\n".join(kept), encoding="utf-8")
    season = load_season(tmp_path)
    assert season.aims.hold_c == 5.0 and season.place.rare_low_c == -21.0 and season.house.u_value_w_m2k == 3.3
    assert season.heating[0].price == 0.31 and season.crops[0].name == "spinach" and season.share.harvest


def test_a_dehumidifier_s_plug_is_no_heater(tmp_path: Path) -> None:
    """A counter named after a dehumidifier becomes an appliance; another one a heater."""
    export(tmp_path / "bench.csv")
    counter = "time,kWh\n" + "".join(f"2025-12-{day:02d} 12:00,{day * 1.5}\n" for day in range(1, 21))
    (tmp_path / "dehumidifier.csv").write_text(counter, encoding="utf-8")
    (tmp_path / "plug.csv").write_text(counter, encoding="utf-8")
    begin(tmp_path, None, False)
    season = load_season(tmp_path)
    assert [(item.logger, item.kind) for item in season.appliances] == [("dehumidifier", "dehumidifier")]
    assert [source.logger for source in season.heating] == ["plug"]
    assert inspect(tmp_path).problems == ()


def test_an_on_off_log_without_its_watts_stays_commented_out(tmp_path: Path) -> None:
    """With the watts it is a heater; without them the season is ready all the same."""
    export(tmp_path / "bench.csv")
    log = "time,heater\n" + "".join(f"2025-12-{day:02d} 12:00,{day % 2}\n" for day in range(1, 21))
    (tmp_path / "switch.csv").write_text(log, encoding="utf-8")
    begin(tmp_path, None, False)
    assert load_season(tmp_path).heating == () and inspect(tmp_path).problems == ()
    begin(tmp_path, answers(How_many_watts="1500"), True)
    assert load_season(tmp_path).heating[0].rated_power_w == 1500.0


def test_hundreds_of_empty_cells_are_a_few_lines(tmp_path: Path) -> None:
    """A harvest book with 300 pickings unweighed: begin tells one line of it, inspect ten at most."""
    export(tmp_path / "bench.csv")
    rows = "".join(f"2025-12-{1 + n % 20:02d},spinach,\n" for n in range(300))
    (tmp_path / "harvest.csv").write_text("date,crop,weight\n" + rows, encoding="utf-8")
    result = begin(tmp_path, None, False)
    about = [doubt for doubt in result.unsure if "harvest.csv" in doubt]
    assert len(about) == 1 and "and 299 more like it" in about[0]
    told = text(inspect(tmp_path)).partition("Problems")[2]
    assert sum("empty" in line or "more like it" in line for line in told.splitlines()) <= 10
    assert len(told) < 2500


def test_inspect_says_on_how_many_guesses_a_season_rests(tmp_path: Path) -> None:
    """Ready, if the guesses are right; without the list just ready."""
    export(tmp_path / "bench.csv")
    result = begin(tmp_path, None, False)
    n = len(result.unsure)
    assert f"Ready for a review, if the {n} guesses listed at the top of season.toml are right" in " ".join(
        text(inspect(tmp_path)).split()
    )
    kept = [line for line in result.text.splitlines() if not line.startswith(("# Not sure", "#   "))]
    (tmp_path / "season.toml").write_text("\n".join(kept), encoding="utf-8")
    assert "Ready for a review.\n" in text(inspect(tmp_path))


def test_the_days_follow_the_answer_on_day_and_month(tmp_path: Path) -> None:
    """06/12/2025 alone is 6 December or 12 June: the answer moves the season's days too."""
    row = "{t:%m/%d/%Y %H:%M},{c:.1f},{h:.0f}"
    export(tmp_path / "a.csv", row=row, days=1, first=dt.datetime(2025, 12, 6))
    begin(tmp_path, answers(which_comes_first="month"), False)
    season = load_season(tmp_path)
    assert (season.first_day, season.loggers[0].time_format) == (dt.date(2025, 12, 6), "%m/%d/%Y %H:%M")
    assert inspect(tmp_path).problems == ()
    begin(tmp_path, answers(which_comes_first="day"), True)
    assert load_season(tmp_path).first_day == dt.date(2025, 6, 12)


@pytest.mark.parametrize(("answer", "measure"), [("soil", "soil_temperature"), ("outdoor", "outdoor_temperature")])
def test_a_probe_is_what_the_grower_says(tmp_path: Path, answer: str, measure: str) -> None:
    """Where somebody is there a probe beside the air is asked about and then read."""
    export(tmp_path / "a.csv", header="Time,Temp (°C),Probe (°C)", row="{t:%Y-%m-%d %H:%M},{c:.1f},{c:.2f}")
    begin(tmp_path, answers(Where_is_the_probe=answer), False)
    logger = load_season(tmp_path).loggers[0]
    assert list(logger.measures) == ["air_temperature", measure]
    assert logger.measures[measure].column == "Probe (°C)"


def test_files_of_seasons_and_months_are_one_logger(tmp_path: Path) -> None:
    """Autumn and winter, November and December of one header follow each other; a bench and a bed are two."""
    for name, first in (("bench autumn", dt.datetime(2025, 11, 1)), ("bench winter", dt.datetime(2025, 12, 1))):
        export(tmp_path / f"{name}.csv", first=first)
    for name, first in (("bed-2025-nov", dt.datetime(2025, 11, 1)), ("bed-2025-december", dt.datetime(2025, 12, 1))):
        export(tmp_path / f"{name}.csv", first=first)
    begin(tmp_path, None, False)
    files = [logger.files for logger in load_season(tmp_path).loggers]
    assert files == [
        ("bed-2025-december.csv", "bed-2025-nov.csv"),
        ("bench autumn.csv", "bench winter.csv"),
    ]


def test_two_loggers_of_one_make_stay_two(tmp_path: Path) -> None:
    """One header, the same hours, other readings: no copy, whatever the names."""
    for n, name in enumerate(("house_1.csv", "house_2.csv")):
        export(tmp_path / name, level=8.0 + n)
    begin(tmp_path, None, False)
    assert [logger.files for logger in load_season(tmp_path).loggers] == [("house_1.csv",), ("house_2.csv",)]


def test_a_sheet_a_month_is_told(tmp_path: Path) -> None:
    """One logger's record in the sheets of a workbook: each is a logger by itself until they are put together."""
    first = dt.datetime(2025, 11, 20)
    rows = [(first + dt.timedelta(hours=n), 7.0 + n % 24 / 10) for n in range(480)]
    months = {name: [[t, v] for t, v in rows if t.month == m] for name, m in (("November", 11), ("December", 12))}
    xlsx(tmp_path / "bench.xlsx", {name: [["Time", "Temp °C"], *cells] for name, cells in months.items()})
    unsure = begin(tmp_path, None, False).unsure
    assert any(doubt.startswith("the sheets November, December of bench.xlsx look like one") for doubt in unsure)


def test_times_that_a_spreadsheet_cut_are_told(tmp_path: Path) -> None:
    """1.76092E+12 for milliseconds since 1970: nothing but a new export brings them back."""
    rows = [f"{1.76092e12 + 1.8e6 * n:.5E},{7 + n % 9 / 10}" for n in range(200)]
    (tmp_path / "a.csv").write_text("\n".join(["timestamp,temperature", *rows]), encoding="utf-8")
    with pytest.raises(SeasonError) as error:
        begin(tmp_path, None, False)
    assert "the times under 'timestamp' are cut to 1.76" in error.value.problems[0].found


@pytest.mark.parametrize("answer", ["day", "month"])
def test_the_days_of_several_files_follow_the_answer(tmp_path: Path, answer: str) -> None:
    """A file a day, 1 to 9 December, either way: the season's days are those of the answer."""
    for n in range(9):
        first = dt.datetime(2025, 12, 1 + n) if answer == "month" else dt.datetime(2025, 1 + n, 12)
        export(
            tmp_path / f"log_{n}.csv",
            row="{t:%m/%d/%Y %H:%M},{c:.1f},{h:.0f}" if answer == "month" else "{t:%d/%m/%Y %H:%M},{c:.1f},{h:.0f}",
            days=1,
            first=first,
        )
    begin(tmp_path, answers(which_comes_first=answer), False)
    season = load_season(tmp_path)
    if answer == "month":
        assert (season.first_day, season.last_day) == (dt.date(2025, 12, 1), dt.date(2025, 12, 9))
    assert season.loggers[0].time_format == ("%d/%m/%Y %H:%M" if answer == "day" else "%m/%d/%Y %H:%M")


def test_no_logger_is_taken_for_the_yard_s_while_a_column_may_be_it(tmp_path: Path) -> None:
    """A station that tells a room and something 20 °C colder: the latter is asked about, and the bench stays a crop
    logger though it is colder than the room."""
    export(tmp_path / "bench.csv", level=6.0)
    export(
        tmp_path / "station.csv", header="Time,T1 (°C),T2 (°C)", row="{t:%Y-%m-%d %H:%M},{c:.1f},21.{h:.0f}", level=-3
    )
    begin(tmp_path, None, False)
    places = {logger.name: logger.where for logger in load_season(tmp_path).loggers}
    assert places["bench"] == "crop" and "outdoor" not in places.values()
