"""What `inspect` prints, word for word, and what it gives to programs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from made_season import ZONE, channel, heater, logger, picking, readings, season

from reportgen import inspection
from reportgen.inspection.heating_words import heating_lines
from reportgen.measures.record import record
from reportgen.problems import Problem
from reportgen.readings.types import CheckFinding, FileAccount

FAULT = Problem(
    slug="missing-column", file="loggers/a.csv", line=1, column="Temp", found="columns Time, Tmp",
    expected="a column 'Temp'", todo="did you mean 'Tmp'?",
)  # fmt: skip


def steady(start: str, end: str, value: float = 5.0) -> pd.Series:
    """Ten-minute readings that all say the same."""
    index = pd.date_range(start, end, freq="10min", tz=ZONE)
    return pd.Series(value, index=index)


def found(problems: tuple[Problem, ...] = (), **more: Any) -> Any:
    """A four-week season of one logger with a day's gap."""
    of = season(loggers=(logger("bench"),))
    values = pd.concat([steady("2026-01-05", "2026-01-10"), steady("2026-01-11", "2026-02-02")])
    account = FileAccount(file="a.csv", logger="bench", rows_read=4000, rows_used=len(values), set_aside={"stuck": 7})
    told = {"channels": (channel(values, step_s=600.0, set_aside={"stuck": 7}),), "files": (account,)} | more
    made = readings(of, **told)
    return inspection.Found(
        folder=Path("my-winter"), season=of, readings=made, record=record(made), problems=problems, warnings=()
    )


def test_a_good_season_reads_so() -> None:
    """The season, its logger with rows, span, values, set aside and gap, and what to do next."""
    words = inspection.text(found()).replace("\u00a0", " ").replace("\u202f", " ")
    assert words.splitlines() == [
        "A made-up winter",
        "5 January 2026 to 1 February 2026, 28 days; clock of Europe/Prague; money in EUR",
        "",
        "bench, beside the crop",
        "  a.csv: 4 000 rows, 3 890 used; set aside: 7 stuck",
        "  5 January 2026, 00:00 to 2 February 2026, 00:00, every 10 min, 96 % of the season",
        "  1 gap of an hour or more: 10 January, 00:00 to 11 January, 00:00 (24 h)",
        "  air temperature, column 'Temp': 3 890 readings, from 5.0 to 5.0 °C, mean 5.0",
        "",
        "Books",
        "  diary.csv, not kept; its first line would be",
        "    date,kind,what,time,touches,reversible,hoped_for,until,cost,years,written,note,undoes,thing",
        "  harvest.csv, not kept; its first line would be date,crop,weight,unit,bed,use,price_per_kg,note",
        "  plantings.csv, not kept; its first line would be",
        "    crop,bed,area_m2,sown,planted,cleared,cultivar,plants,spacing_cm,lost,lost_on,cause",
        "  watering.csv, not kept; its first line would be date,bed,litres,time",
        "  inspections.csv, not kept; its first line would be date,bed,crop,found,level,action",
        "  costs.csv, not kept; its first line would be date,what,kind,amount,years",
        "  or write them into books.xlsx: `reportgen begin FOLDER --books` makes an empty one",
        "",
        "Ready for a review.",
        "Next: reportgen review my-winter --open",
    ]


def test_books_heating_and_checks_are_counted() -> None:
    """Every book that is there with its rows, those not kept by name, heat with its cost, checks in their words."""
    rows = [("2026-01-05", "2026-01-12", 40.0, 12.0), ("2026-01-12", "2026-01-19", 60.0, 18.0)]
    check = CheckFinding(
        slug="stuck", logger="bench", measure="air_temperature", start=None, end=None, count=7, words="stood still"
    )
    book = (picking("2026-01-08", 0.4), picking("2026-01-20", 0.6))
    words = inspection.text(found(harvest=book, heating=(heater(rows),), findings=(check,)))
    plain = " ".join(words.replace("\u00a0", " ").split())
    assert "harvest.csv: 2 pickings, 8 January 2026 to 20 January 2026" in plain
    assert plain.count("not kept; its first line would be") == 5 and "harvest.csv, not kept" not in plain
    assert "100.0 kWh bought or drawn, 100 kWh of heat, EUR 30.00; 2 stretches" in plain
    assert "bench, air temperature: stood still" in plain


def test_every_problem_is_told_with_its_four_lines() -> None:
    """Address and slug, found, expected, to do; the verdict counts them."""
    words = inspection.text(found((FAULT,)))
    assert (
        "  loggers/a.csv:1, Temp  [missing-column]\n"
        "    found     columns Time, Tmp\n"
        "    expected  a column 'Temp'\n"
        "    to do     did you mean 'Tmp'?"
    ) in words
    assert "1\u00a0problem to mend before a review can be made." in words
    assert "Ready" not in words


def test_no_line_is_wider_than_the_screen() -> None:
    """Long file names and long reasons are broken at 100 columns."""
    long = Problem(slug="x", file="a.csv", found="word " * 60, expected="word " * 60, todo="word " * 60)
    assert max(len(line) for line in inspection.text(found((long,))).splitlines()) <= 100


def test_programs_get_the_record_of_the_review_and_the_faults() -> None:
    """Same keys as review.json's record; gaps, books and problems beside it, in plain values."""
    given = found((FAULT,), harvest=(picking("2026-01-08", 0.4),)).to_dict()
    assert given["ready"] is False
    assert given["record"]["channels"][0]["values_used"] == 3890
    assert given["gaps"][0]["hours"] == pytest.approx(24.0)
    assert given["books"]["harvest"] == 1 and given["books"]["diary"] is None
    assert given["problems"][0]["slug"] == "missing-column"


def test_a_cost_in_the_books_is_no_missing_price() -> None:
    """Cylinders with what they cost: the next line must not say that no cost can be told."""

    def last(cost: float) -> str:
        gas = heater(
            [("2026-01-05", "2026-02-01", 20.0, cost)], name="gas", fuel="propane", unit="kg", form="deliveries"
        )
        return heating_lines(readings(season(), heating=(gas,)))[-1]

    assert last(44.0) == "prices: none given; the cost is what the books name"
    assert last(float("nan")) == "prices: none given, so no cost can be told"
