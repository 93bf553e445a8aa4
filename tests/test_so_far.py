"""A winter that still runs: to its last crop reading, and not a day further."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable
from pathlib import Path

import made_season
import numpy as np
import odd_seasons as odd
import pandas as pd
import pytest
from cut_season import cut

from reportgen.inspection import inspect, text
from reportgen.measures.record import record
from reportgen.measures.stock_left import stock_left
from reportgen.pipeline import analyse, review
from reportgen.readings import read_season
from reportgen.readings.types import Readings
from reportgen.review import Review
from reportgen.season import load_season

SAMPLE = Path(__file__).parents[1] / "sample_season"
LAST = dt.date(2026, 1, 26)  # of the readings below
READ_TO = "2026-01-26"
CUT = dt.datetime(2026, 1, 15, 8, 30)
HARVEST = "date,crop,weight,unit\n{},kale,120,g\n"
Make = Callable[..., Path]


@pytest.fixture
def made(tmp_path: Path) -> Make:
    """Writes a season of a crop logger read to 26 January, and an outdoor logger beside it."""

    def make(last: str | None = "2026-03-31", crop_to: str = READ_TO, outdoors_to: str = READ_TO, **books: str) -> Path:
        loggers = odd.logger("bench", "crop", "all.csv", odd.AIR, odd.DAMP)
        loggers += odd.logger("yard", "outdoor", "yard.csv", odd.AIR.replace('"t"', '"o"'))
        toml = odd.head("2025-12-01", last or "2026-03-31") + odd.PLACE + loggers
        if last is None:
            toml = "".join(line for line in toml.splitlines(keepends=True) if not line.startswith("last_day"))
        folder = odd.write(tmp_path / "season", toml, odd.readings("2025-12-01", crop_to), **books)
        odd.readings("2025-12-01", outdoors_to).to_csv(folder / "yard.csv", index=False)
        return folder

    return make


def read(folder: Path) -> Readings:
    """The readings of that folder."""
    return read_season(load_season(folder))


def longest_gap_h(readings: Readings, logger: str = "bench") -> float:
    """Of the air of that logger [h]."""
    gaps = record(readings).gaps
    return float(gaps[(gaps["logger"] == logger) & (gaps["measure"] == "air_temperature")]["hours"].max())


def test_the_season_ends_with_the_last_crop_reading(made: Make) -> None:
    """Hourly readings on the UTC clock: the last at 23:00 UTC of 26 January, the midnight that ends it in Prague."""
    readings = read(made())
    season = readings.season
    assert season.so_far == season.last_day == LAST
    assert season.end == pd.Timestamp("2026-01-26 23:00", tz="UTC")
    assert season.planned_last_day == dt.date(2026, 3, 31)
    assert season.heading == "Odd winter, so far"
    # the hour before the first reading, 1:00 in Prague, is the only stretch that nothing covers
    assert longest_gap_h(readings) == pytest.approx(1.0)
    assert record(readings).channels[0].hours_in_season == pytest.approx(57 * 24.0)  # 31 + 26 days


def test_read_out_in_the_morning_the_day_is_as_long_as_that(made: Make) -> None:
    """What the outdoor logger wrote after the last crop reading waits; no gap is made of the hours to midnight."""
    folder = made()
    table = pd.read_csv(folder / "all.csv")
    table[table["time"] <= f"{READ_TO} 07:00"].to_csv(folder / "all.csv", index=False)
    readings = read(folder)
    assert readings.season.end == pd.Timestamp("2026-01-26 08:00", tz="Europe/Prague")
    assert record(readings).channels[0].hours_in_season == pytest.approx(56 * 24.0 + 8.0)
    assert longest_gap_h(readings) == longest_gap_h(readings, "yard") == pytest.approx(1.0)
    days = record(readings).days
    assert float(days[days["date"] == LAST]["hours"].iloc[0]) == pytest.approx(8.0)
    yard = next(file for file in readings.files if file.logger == "yard")
    assert yard.set_aside == {"outside the season": 16}  # 08:00 to 23:00 UTC


@pytest.mark.parametrize(("last", "runs"), [("2026-01-28", False), ("2026-01-29", True)])
def test_a_day_or_two_before_the_last_day_is_the_usual_read_out(made: Make, last: str, runs: bool) -> None:
    """Three days are a winter that runs; fewer are a gap at its end, as ever."""
    readings = read(made(last))
    assert (readings.season.so_far is not None) == runs
    assert longest_gap_h(readings) == pytest.approx(1.0 if runs else 48.0)


@pytest.mark.parametrize("what", ["another logger", "a harvest"])
def test_a_dead_logger_is_a_gap(made: Make, what: str) -> None:
    """Where another file goes on for weeks the crop logger has stopped: the season keeps its last day."""
    harvest = {"harvest": HARVEST.format("2026-02-20")} if what == "a harvest" else {}
    readings = read(made("2026-02-28", outdoors_to=READ_TO if harvest else "2026-02-20", **harvest))
    assert readings.season.so_far is None
    assert readings.season.last_day == dt.date(2026, 2, 28)
    assert longest_gap_h(readings) == pytest.approx(33 * 24.0)  # 27 January to 28 February


def test_without_a_last_day(made: Make) -> None:
    """Left out, the last crop reading ends it; a dead logger is a gap to the last word of the other files."""
    running = read(made(None)).season
    assert (running.so_far, running.planned_last_day, running.open_ended) == (LAST, None, True)
    dead = read(made(None, outdoors_to="2026-02-20"))
    assert dead.season.so_far == dt.date(2026, 2, 20)
    assert longest_gap_h(dead) == pytest.approx(25 * 24.0)  # 27 January to 20 February


def test_without_any_reading(made: Make) -> None:
    """Nothing was read yet, and no last day is named: the season is its first day, not a year."""
    folder = made(None)
    for file in ("all.csv", "yard.csv"):
        head = (folder / file).read_text(encoding="utf-8").splitlines()[0]
        (folder / file).write_text(head + "\n", encoding="utf-8")
    assert read(folder).season.last_day == dt.date(2025, 12, 1)


def test_a_line_after_the_last_reading_waits(made: Make) -> None:
    """Picked on the day after the logger was read: it is told that it will count, not that its date is wrong."""
    readings = read(made(harvest=HARVEST.format("2026-01-28")))
    assert readings.season.so_far == LAST
    assert readings.harvest == ()
    assert [w.slug for w in readings.warnings if w.file == "harvest.csv"] == ["after-the-readings"]


def test_inspect_says_so(made: Make) -> None:
    """Its first lines, and its form for programs."""
    found = inspect(made())
    words = " ".join(text(found).replace("\u00a0", " ").split())
    assert "Odd winter, so far" in words
    assert "1 December 2025 to 26 January 2026, 57 days, so far" in words
    season = found.to_dict()["season"]
    assert (season["last_day"], season["so_far"]) == ("2026-01-26", True)
    assert found.complete


DIARY = (
    "date,kind,what,touches,reversible,hoped_for,until,thing\n"
    "2026-01-05,change,Film under the roof,envelope,no,warmer nights,,film\n"
    "2026-01-24,change,Vents taped,air,yes,drier air,,tape\n"
    "2025-12-20,idea,Fan at night,air,yes,drier air,,fan\n"
)
LOOKS = "date,bed,crop,found,level\n2025-12-20,,kale,nothing,0\n2026-01-20,,kale,nothing,0\n"


def _ticks(*on: bool) -> str:
    """A tick sheet of a fan from 20 January on, a night each."""
    days = (dt.date(2026, 1, 20) + dt.timedelta(days=n) for n in range(len(on)))
    return "date,what,on\n" + "".join(
        f"{day},Fan at night,{'yes' if state else 'no'}\n" for day, state in zip(days, on, strict=True)
    )


@pytest.fixture(scope="module")
def minded(tmp_path_factory: pytest.TempPathFactory) -> Review:
    """A season with what has a date: a change two days old, a trial under way, a look six nights ago."""
    folder = tmp_path_factory.mktemp("minded") / "season"
    toml = odd.head("2025-12-01", "2026-03-31") + odd.PLACE + odd.logger("bench", "crop", "all.csv", odd.AIR, odd.OUT)
    ticks = _ticks(*[True] * 4, *[False] * 4, *[True] * 4, *[False] * 4)
    odd.write(folder, toml, odd.readings("2025-12-01", READ_TO), diary=DIARY, inspections=LOOKS, ticks=ticks)
    return analyse(folder)


def test_deadlines(minded: Review) -> None:
    """By hand: changed on 24 January, ten quiet nights end on 3 February. The fan is off in the nights of 24 to 27
    January, so that it is switched on at noon on the 28th, though the sheet reaches beyond the readings."""
    told = {line.kind: line for line in minded.counsel.deadlines}
    assert minded.season.so_far == LAST
    assert told["quiet"].until == dt.date(2026, 2, 3)
    assert told["quiet"].what.replace("\u00a0", " ") == "Alter nothing until 3 February"
    assert "“tape”" in told["quiet"].why and "film" not in told["quiet"].why
    assert told["trial"].until == dt.date(2026, 1, 28)
    assert told["trial"].what.replace("\u00a0", " ") == "“fan” is on trial: switch it on at noon on 28 January"
    assert told["look"].what.replace("\u00a0", " ") == "6 nights since a look at the plants was written down"
    assert "stock" not in told


def test_the_plan_is_of_what_is_still_to_come(minded: Review) -> None:
    """No step lies behind the last reading; nothing asks to alter the house before its quiet nights are over."""
    assert minded.counsel.plan
    assert all(step.from_ > LAST for step in minded.counsel.plan)
    assert {step.from_ for step in minded.counsel.plan if step.row == "Log"} == {dt.date(2026, 1, 27)}
    altering = [step for step in minded.counsel.plan if step.row == "Undo" and step.what.startswith("Take")]
    assert all(step.from_ >= dt.date(2026, 2, 3) for step in altering)
    assert minded.counsel.answers[-1].ask == "What first now?"


def test_a_winter_that_is_over_has_no_deadlines(made: Make) -> None:
    """The same folder with its last day reached."""
    over = analyse(made("2026-01-26", diary=DIARY, inspections=LOOKS))
    assert over.counsel.deadlines == ()
    assert over.to_dict()["so_far"] is None


def test_cold_nights_that_a_store_still_carries() -> None:
    """By hand: at −5 °C throughout every hour pulls alike. Five days took 1 kg each, five took 2 kg each; 5 kg are left
    for two and a half nights at the harder rate, five at the milder."""
    season = made_season.season("2026-01-05", "2026-01-25")
    hours = pd.date_range("2026-01-05", "2026-01-26", freq="1h", tz=made_season.ZONE)
    outside = made_season.channel(pd.Series(np.full(len(hours), -5.0), index=hours), logger="yard", where="outdoor")
    rows = [("2026-01-05 12:00", "2026-01-10 12:00", 5.0, 5.0), ("2026-01-10 12:00", "2026-01-15 12:00", 10.0, 10.0)]
    heater = made_season.heater(
        rows, form="deliveries", unit="kg", fuel="propane", stock=made_season.store(20.0, left=5.0)
    )
    season = season.model_copy(update={"loggers": (made_season.logger("yard", where="outdoor"),)})
    readings = made_season.readings(season, channels=(outside,), heating=(heater,))
    cold = [dt.date(2026, 1, day) for day in range(5, 21)]
    (found,) = stock_left(readings, cold)
    assert (found.nights, found.left, found.unit) == (10, 5.0, "kg")
    assert (found.low, found.high) == (pytest.approx(2.5), pytest.approx(5.0))
    assert stock_left(readings, cold[:2]) == ()  # two nights are no rate


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> tuple[Review, Path]:
    """The sample as it lay on the morning of 15 January, its site, without the questions of what came later."""
    folder = tmp_path_factory.mktemp("cut")
    season = cut(SAMPLE, folder / "season", CUT)
    toml = season / "season.toml"
    later = r'\[\[question\]\]\nask = "Does the film pay\?"\nabout = .*\n'
    words, found = re.subn(later, "", toml.read_text(encoding="utf-8"))
    assert found == 1
    toml.write_text(words, encoding="utf-8")
    with (season / "heating" / "mat-meter.csv").open("a", encoding="utf-8") as meter:
        meter.write("2026-01-14,12:00,12.5\n")  # read once more, as it was on 1 March
    return review(season, folder / "site"), folder / "site"


def test_the_sample_in_january(sample: tuple[Review, Path]) -> None:
    """It runs to 15 January; beside last winter to the same day; nothing is counted after the last reading."""
    found, site = sample
    document = json.loads((site / "data" / "review.json").read_text(encoding="utf-8"))
    assert (document["so_far"], document["season"]["last_day"]) == ("2026-01-15", "2026-01-15")
    assert found.winters.last_day == CUT.date()
    gaps = found.record.gaps
    assert float(gaps[gaps["name"].str.startswith("bench")]["hours"].max()) < 1.0
    assert found.heat.kwh is not None and found.heat.kwh > 0
    assert document["heat"]["cost"] is not None
    assert all(lever["payback_winters"] is None for lever in document["levers"])
    assert all(lever["winter_kwh"] is None for lever in document["levers"])


def test_nothing_in_the_sample_lies_ahead_but_the_plan(sample: tuple[Review, Path]) -> None:
    """Every date of every table and of review.json, those of the plan left aside, is a day that has happened."""
    _, site = sample
    for file in sorted((site / "data").glob("*.csv")):
        if file.name in ("ticks.csv", "plan.csv") or file.name.startswith(
            ("changes_trial", "changes_plan", "changes_ticks")
        ):
            continue
        days = re.findall(r"\b20\d\d-\d\d-\d\d\b", file.read_text(encoding="utf-8"))
        assert max(days, default="") <= "2026-01-16", file.name  # the midnight that ends the last day, or its night
    document = json.loads((site / "data" / "review.json").read_text(encoding="utf-8"))
    document.pop("plan")
    days = re.findall(r"\b20\d\d-\d\d-\d\d\b", json.dumps(document))
    assert max(days) <= "2026-01-15"


def test_every_page_of_the_sample_says_so(sample: tuple[Review, Path]) -> None:
    """The title of every page; deadlines before the answers; this winter's plan before next winter's."""
    _, site = sample
    for file in site.glob("*.html"):
        assert "in the three-bed glasshouse, so far</bdi>" in file.read_text(encoding="utf-8"), file.name
    first = (site / "index.html").read_text(encoding="utf-8")
    places = [first.index(part) for part in ('id="deadlines"', 'class="three"', 'id="plan-now"', 'id="plan"')]
    assert places == sorted(places)
    assert "The rest of this winter, month by month" in first
    assert "What next winter" not in (site / "harvest.html").read_text(encoding="utf-8")


def test_the_sample_gives_no_nights_to_a_heater_that_must_not_burn(sample: tuple[Review, Path]) -> None:
    """Gas is left, but its fumes stayed in the taped house: the stock is no comfort."""
    (line,) = [one for one in sample[0].counsel.deadlines if one.kind == "stock"]
    assert line.what.replace("\u00a0", " ") == "Do not count on the 2.8 kg left for the gas heater"
    assert line.caution is not None and "carbon monoxide" in line.caution
