"""begin writes in the grower's units, gives the house its id, and asks what each thermostat was set to."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from begin.test_begin import answers, export

from reportgen.begin import begin, start
from reportgen.begin.draft import whole_days
from reportgen.begin.identity import LETTERS, new_id
from reportgen.season import Season, load_season

FAHRENHEIT = {"header": "Time,Temp (°F),Humidity (%)", "row": "{t:%Y-%m-%d %H:%M},{f:.1f},{h:.0f}"}
COMMENTED = re.compile(r"^# ((?:\[\[?|[a-z_0-9]+ = ).*)$", re.M)


@pytest.fixture(autouse=True)
def _one_computer(monkeypatch: pytest.MonkeyPatch) -> None:
    """The computer's own zone must not decide a test."""
    monkeypatch.setattr(start, "computer_zone", lambda: "America/Denver")


def begun(folder: Path, **given: str) -> str:
    """The season.toml of a folder with a logger and the meter of a heater."""
    rows = "date,reading\n2025-12-01,100\n2025-12-20,180\n"
    (folder / "heater meter.csv").write_text(rows, encoding="utf-8")
    return begin(folder, answers(**given) if given else None, True, make_id=lambda: "made-id").text


def with_all_comments_used(folder: Path, text: str) -> Season:
    """The season when every line that is offered as a comment is taken into use; of two ways of one thing the first."""
    used = COMMENTED.sub(r"\1", text).replace("\nhold = ", "\n# hold = ")
    (folder / "season.toml").write_text(used, encoding="utf-8")
    return load_season(folder)


def test_fahrenheit_files_get_us_keys(tmp_path: Path) -> None:
    """Every offered line is in US units, and all of them together load."""
    export(tmp_path / "bench.csv", **FAHRENHEIT)
    text = begun(tmp_path, Price="0.14", thermostat="41")
    assert 'show = "us"' in text
    keys = re.findall(r"^(?:# )?([a-z_0-9]+) = ", text, re.M)
    assert [key for key in keys if key.endswith(("_c", "_m", "_m2", "_m3", "_kg"))] == []
    assert load_season(tmp_path).heating[0].dial[0].c == 5.0  # 41 °F
    season = with_all_comments_used(tmp_path, text)
    assert season.house.floor_area_m2 == pytest.approx(130 * 0.3048**2)
    assert season.aims.hold_c == 5.0 and season.crops[0].damage_below_c == (-10.0, pytest.approx(-7.2222222))


def test_celsius_files_get_metric_keys(tmp_path: Path) -> None:
    """The same in metric; the dial is a comment where nobody said, and its example can be used."""
    export(tmp_path / "bench.csv")
    text = begun(tmp_path)
    assert "# dial = [ { from = 2025-12-01, c = 5 } ]" in text and load_season(tmp_path).heating[0].dial == ()
    season = with_all_comments_used(tmp_path, text)
    assert season.house.floor_area_m2 == 12.0 and season.heating[0].dial[0].c == 5.0


@pytest.mark.parametrize(("given", "dial"), [("", ()), ("warm", ()), ("400", ()), ("6,5", (6.5,))])
def test_the_thermostat_is_asked_for(tmp_path: Path, given: str, dial: tuple[float, ...]) -> None:
    """In °C here; nothing, words and what no thermostat can be set to leave it out."""
    export(tmp_path / "bench.csv")
    begun(tmp_path, thermostat=given, Price="0.3", Time_zone="Europe/Prague")
    assert tuple(step.c for step in load_season(tmp_path).heating[0].dial) == dial


def test_a_house_keeps_its_id(tmp_path: Path) -> None:
    """Written once; kept when season.toml is written again, and taken from a winter below."""
    export(tmp_path / "bench.csv")
    begun(tmp_path)
    assert load_season(tmp_path).house.id == "made-id"
    begin(tmp_path, None, True, make_id=lambda: "another")
    assert load_season(tmp_path).house.id == "made-id"
    (tmp_path / "winter-before").mkdir()
    (tmp_path / "season.toml").rename(tmp_path / "winter-before" / "season.toml")
    begin(tmp_path, None, False, make_id=lambda: "another")
    assert load_season(tmp_path).house.id == "made-id"


def test_an_id_is_twelve_random_letters() -> None:
    """Of letters that make no word; two are not alike."""
    found = {new_id() for _ in range(20)}
    assert len(found) == 20 and all(len(one) == 12 and set(one) <= set(LETTERS) for one in found)


HEADED = [
    ("Date Time, GMT-07:00", "-07:00"),
    ("time (UTC+1)", "+01:00"),
    ("time_utc", "utc"),
    ("dateutc", "utc"),
    ("Time", "local"),
    ("Time UTC+99", "local"),
]


@pytest.mark.parametrize(("heading", "clock"), HEADED)
def test_the_clock_that_a_heading_names(tmp_path: Path, heading: str, clock: str) -> None:
    """An offset or UTC in the heading of the times is taken where the times themselves show none."""
    export(tmp_path / "bench.csv", header=f'"{heading}",Temp (°C),Humidity (%)')
    result = begin(tmp_path, None, False)
    assert load_season(tmp_path).loggers[0].clock == clock
    assert any("the clock of" in doubt for doubt in result.unsure) == (clock == "local")


@pytest.mark.parametrize(
    ("above", "clock"),
    [
        ("Time zone: GMT+00:00", "utc"),
        ("Timezone;UTC+01:00", "+01:00"),
        ("latitude,utc_offset_seconds,timezone\n49.2,0,GMT", "utc"),
        ("Serial 4711, firmware UTC-2", "local"),
        ("Time zone: Europe/Prague", "local"),
    ],
)
def test_the_clock_that_a_line_above_the_header_names(tmp_path: Path, above: str, clock: str) -> None:
    """A preamble's time zone is taken where neither the times nor their heading show one."""
    export(tmp_path / "bench.csv", header=f"{above}\n\nTime,Temp (°C),Humidity (%)")
    begin(tmp_path, None, False)
    assert load_season(tmp_path).loggers[0].clock == clock


def test_us_books_and_a_tick_sheet_are_found(tmp_path: Path) -> None:
    """A planting book in ft² is a planting book, ticks.csv needs no word, fuel beside °F is bought by the gallon, and
    the sheet that is called outside hangs outdoors."""
    export(tmp_path / "bench.csv", **FAHRENHEIT)
    (tmp_path / "beds.csv").write_text(
        "crop,bed,area_ft2,sown,planted,cleared\nkale,a,20,2025-08-20,,\n", encoding="utf-8"
    )
    (tmp_path / "ticks.csv").write_text("date,what,on\n2025-12-05,fan,yes\n", encoding="utf-8")
    (tmp_path / "propane.csv").write_text("date,amount,left\n2025-12-01,20,\n2025-12-20,0,3\n", encoding="utf-8")
    result = begin(tmp_path, None, False)
    season = load_season(tmp_path)
    assert season.plantings.file == "beds.csv" and season.heating[0].unit == "gal_us"
    assert not any("ticks.csv" in doubt for doubt in result.unsure)


def test_an_hour_at_the_ends_is_no_day_of_the_season() -> None:
    """By hand: 48 readings a day; two on the first day and three on the last are left out, a thin day between stays."""
    days = {dt.date(2025, 12, n): count for n, count in ((1, 2), (2, 48), (3, 5), (4, 48), (5, 30), (6, 3))}
    assert [day.day for day in whole_days(days)] == [2, 3, 4, 5]
    assert [day.day for day in whole_days({dt.date(2025, 12, 1): 1, dt.date(2025, 12, 8): 1})] == [1, 8]
    assert whole_days({}) == []
