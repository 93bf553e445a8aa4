"""The record page: what its titles, strips and tables say of seasons made by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import numpy as np
import pandas as pd
import pytest
from made_season import ZONE, channel, logger, readings, season

from reportgen.charts import record as charts
from reportgen.charts.record_tables import _agreement_title
from reportgen.measures.record import record
from reportgen.readings.types import FileAccount


def review(*channels: Any, loggers: tuple[Any, ...] = (), show: str = "metric", **more: Any) -> Any:
    """Only what the page reads."""
    of = season(loggers=loggers or (logger("bench"),), show=show)
    made = readings(of, channels=channels, **more)
    return SimpleNamespace(season=of, readings=made, record=record(made))


def steady(start: str, end: str, value: float = 5.0) -> pd.Series:
    """Ten-minute readings that all say the same."""
    index = pd.date_range(start, end, freq="10min", tz=ZONE)
    return pd.Series(value, index=index)


def block(page: Any, uid: str) -> Any:
    """The block of that anchor."""
    return next(b for b in page.blocks if getattr(b, "uid", "") == uid)


def test_a_whole_winter_says_so() -> None:
    """No gap: no gap table, a headline of 100 %, one strip a channel."""
    page = charts.page(review(channel(steady("2026-01-05", "2026-02-02"))))
    assert page.answers
    assert page.headline == "All of the season is on record beside the crop"
    assert not [b for b in page.blocks if getattr(b, "uid", "") == "record_gaps"]
    assert len(block(page, "record_days").table) == 28


def test_the_longest_gap_is_the_title_and_the_days_show_it() -> None:
    """Two days missing are named with their length and day; those days have no hour."""
    values = pd.concat([steady("2026-01-05", "2026-01-10"), steady("2026-01-12", "2026-02-02")])
    page = charts.page(review(channel(values)))
    assert block(page, "record_gaps").title == "One gap: 2.0\u00a0days of bench, from 10\u00a0January"
    table = block(page, "record_days").table.set_index("date")
    assert table.loc[dt.date(2026, 1, 10) : dt.date(2026, 1, 11), "hours recorded"].tolist() == [0.0, 0.0]


def test_the_rows_of_every_file_add_up_on_the_page() -> None:
    """Read, used and set aside stand beside each other with the reasons in words."""
    account = FileAccount(
        file="a.csv", logger="bench", rows_read=100, rows_used=88, set_aside={"stuck": 9, "outside the season": 3}
    )
    page = charts.page(review(channel(steady("2026-01-05", "2026-02-02")), files=(account,)))
    table = block(page, "record_files")
    assert table.title == "Of 100\u00a0rows read, 88 are used and 12 set aside"
    assert table.rows[0][2:5] == ("100", "88", "9\u00a0stuck, 3\u00a0outside the season")


def test_loggers_that_disagree_get_their_chart_in_the_shown_unit() -> None:
    """2 K apart with ± 0.5 K each: 3.6 °F on a US page, and the difference day by day."""
    pair = (
        channel(steady("2026-01-05", "2026-02-02", 5.0), accuracy=0.5),
        channel(steady("2026-01-05", "2026-02-02", 3.0), logger="second", accuracy=0.5),
    )
    page = charts.page(review(*pair, loggers=(logger("bench"), logger("second")), show="us"))
    drawing = block(page, "record_bench_second_air_temperature")
    assert drawing.title == "Beside bench, second usually reads 3.6\u00a0°F lower"
    assert np.allclose(drawing.table.iloc[:, 1], -3.6)


def test_without_a_reading_the_page_says_what_to_log() -> None:
    """One note and no chart."""
    page = charts.page(review())
    assert not page.answers and [b.kind for b in page.blocks] == ["missing"]


@pytest.mark.parametrize("share, tenths", [(0.0, 0), (0.01, 1), (0.5, 5), (0.97, 9), (0.9995, 10), (1.0, 10)])
def test_a_bar_is_never_full_nor_gone_where_it_is_not_so(share: float, tenths: int) -> None:
    """A day with one reading shows something; a day that lacks an hour is not drawn whole."""
    from reportgen.charts.record_strips import _tenths

    assert _tenths(share) == tenths


def test_a_headline_begins_like_a_sentence() -> None:
    """A share that is nearly all is told as such, with a capital."""
    values = pd.concat([steady("2026-01-05", "2026-01-10"), steady("2026-01-10 02:00", "2026-02-02")])
    assert charts.page(review(channel(values))).headline.startswith("Over 99\u00a0% of the season")


def test_accuracy_is_asked_for_where_a_band_needs_it() -> None:
    """A light sensor without accuracy is no reason to ask; a thermometer without one is."""
    light = channel(steady("2026-01-05", "2026-02-02"), "ppfd")
    air = channel(steady("2026-01-05", "2026-02-02"))
    texts = [" ".join(b.text for b in charts.page(review(one)).blocks if hasattr(b, "kind")) for one in (light, air)]
    assert ["Write the accuracy" in text for text in texts] == [False, True]


@pytest.mark.parametrize(("show", "words"), [("metric", "0\u00a0°C"), ("us", "32\u00a0°F")])
def test_melting_ice_is_told_in_the_shown_unit(show: str, words: str) -> None:
    """0 °C, the ice point, is 32 °F."""
    page = charts.page(review(channel(steady("2026-01-05", "2026-02-02")), show=show))
    told = " ".join(b.text for b in page.blocks if hasattr(b, "text"))
    assert f"it should say {words}" in told


def test_loggers_that_differ_by_more_than_allowed_at_times_agree_on_average_alone() -> None:
    """Half a kelvin apart in the middle, 1.5 K at the ends where 1.0 K is allowed: on average, and not as promised."""
    one = SimpleNamespace(disagree=False, allowed=1.0, median=0.5, low=-0.3, high=1.5)
    assert _agreement_title((one,)) == "On average the loggers agree within their accuracies"
