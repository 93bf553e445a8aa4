"""Spared heat by weeks and days: columns by hand, the grid against statsmodels, the bounds, and a known truth."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np
import pandas as pd
import pytest
import statsmodels.api as sm
from effects.heaters import hourly, meter
from effects.in_memory import entry
from made_season import ZONE, channel, heater, logger, readings, season
from scipy import stats

from reportgen.effects.by_state import (
    BASES_C,
    DAILY_BASES_C,
    DAY_GRID,
    WEEK_GRID,
    Averaged,
    ByState,
    Columns,
    _columns,
    _independent,
    _told,
    averaged,
    spared_by_state,
    too_few,
)
from reportgen.effects.lever_types import Spared
from reportgen.effects.spared import HeatHours
from reportgen.effects.spared_hours import heat_hours
from reportgen.effects.state_periods import Periods
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import Readings


def periods(kwh: list[float], hours: int = 10, inside: Any = None) -> Periods:
    """Periods of ten hours each unless told."""
    n = len(kwh)
    edges = np.arange(n + 1.0) * hours
    return Periods(
        kwh=np.array(kwh),
        middle=np.arange(n) + 0.5,
        first=edges[:-1],
        end=edges[1:],
        inside=np.ones(n * hours, dtype=bool) if inside is None else inside,
        days=7.0,
    )


def test_the_grids_are_those_of_the_method() -> None:
    """Bases of 0 to 21 °C (of days every third), ρ and q as planned for weeks and for days."""
    assert BASES_C.tolist() == list(range(22))
    assert DAILY_BASES_C.tolist() == [0.0, 3.0, 6.0, 9.0, 12.0, 15.0, 18.0, 21.0]
    assert WEEK_GRID == ((0.0, 0.3, 0.6, 0.8), (0.0, 0.01, 0.03, 0.1, 0.3))
    assert DAY_GRID == ((0.0, 0.3, 0.6, 0.9), (0.0, 0.003, 0.01, 0.03))


N = 9
OUTDOOR = np.repeat([4.0, 2.0, 0.0, -2.0, -4.0, -6.0, 3.0, 1.0, 12.0], 10)
ON = np.arange(10 * N) >= 45  # from the middle of the fifth period on
OTHER = np.arange(10 * N) >= 70
KWH = [10.0, 11.0, 12.0, 13.0, 14.0, 15.0, 16.0, 0.2, 17.0]


def test_the_columns_of_a_base_by_hand() -> None:
    """Base 6 °C: outdoors fell short by 2, 4, … 12, 3, 5 and nothing, ten hours each; while on, from half of the fifth
    period on; the other lever in the last two. Sun counts where the heat was more than 2 % of the largest. Misfits grow
    with the root of the cold, and never under √0.05."""
    sun = np.repeat(np.arange(1.0, N + 1), 10)
    kwh = [*KWH[:6], 0.36, 0.34, 17.0]  # a little more than 2 %, exactly 2 %
    told = _columns(6.0, periods(kwh), ON, [OTHER], OUTDOOR, sun)
    assert told is not None
    cold = np.array([20.0, 40, 60, 80, 100, 120, 30, 50, 0])
    while_on = np.array([0.0, 0, 0, 0, 50, 120, 30, 50, 0])
    other = np.array([0.0, 0, 0, 0, 0, 0, 0, 50, 0])
    light = 10 * np.array([1.0, 2, 3, 4, 5, 6, 7, 0, 9])
    assert told.x == pytest.approx(np.column_stack([cold, while_on, other, light]))
    assert told.spread == pytest.approx(np.sqrt(np.maximum(cold / 120, 0.05)))
    assert (told.on_kh, told.all_kh) == (250.0, 500.0)


def test_kelvin_hours_count_between_the_first_heated_period_and_the_last() -> None:
    """The last two periods lie outside: 50 fewer of both."""
    inside = np.arange(10 * N) < 70
    told = _columns(6.0, periods(KWH, inside=inside), ON, [], OUTDOOR, None)
    assert told is not None and (told.on_kh, told.all_kh) == (200.0, 450.0)
    assert told.x.shape == (N, 2)


def test_a_base_is_left_out_where_it_tells_nothing() -> None:
    """Never so cold; a lever that was on in all of the cold, or in none; too few periods for the columns: seven leave
    four free beside two columns and one more, six leave three."""
    assert _columns(-6.0, periods(KWH), ON, [], OUTDOOR, None) is None
    assert _columns(-5.0, periods(KWH), ON, [], OUTDOOR, None) is None  # on in all of the one cold period
    assert _columns(6.0, periods(KWH), ~ON & ON, [], OUTDOOR, None) is None
    seven = _columns(6.0, periods(KWH[:7]), ON[:70], [], OUTDOOR[:70], None)
    assert seven is not None and seven.x.shape == (7, 2)
    assert _columns(6.0, periods(KWH[:6]), ON[:60], [], OUTDOOR[:60], None) is None
    assert _columns(6.0, periods(KWH[:7]), ON[:70], [np.arange(70) >= 60], OUTDOOR[:70], None) is None


def test_a_lever_without_cold_or_like_another_has_no_column() -> None:
    """Never on in the cold, the same as the lever itself: left out, and the rest stays."""
    never = np.arange(10 * N) >= 80
    told = _columns(6.0, periods(KWH), ON, [never, ON.copy(), OTHER], OUTDOOR, None)
    assert told is not None and told.x.shape == (N, 3)
    assert told.x[:, 2].tolist() == [0, 0, 0, 0, 0, 0, 0, 50, 0]


def test_columns_made_of_others_are_left_out() -> None:
    """a, b, a + b and c: the third goes, however large the figures; where the second is made of the first, the first
    alone is left."""
    a, b, c = np.array([1.0, 2, 3, 4]), np.array([1e6, 0, 1e6, 0]), np.array([0.0, 0, 1e-3, 1])
    assert _independent([a, b, a + b, c]) == pytest.approx(np.column_stack([a, b, c]))
    assert _independent([a, 2 * a, c]) == pytest.approx(a[:, None])
    assert _independent([a, 0 * a, c]) == pytest.approx(a[:, None])


def weeks(base: float, rng: np.random.Generator, n: int = 14) -> Columns:
    """Made columns of some base: cold, cold while on, sun."""
    cold = base * (100.0 + 50.0 * rng.random(n))
    on = cold * (np.arange(n) % 3 == 0)
    return Columns(
        x=np.column_stack([cold, on, rng.random(n)]),
        spread=np.sqrt(cold / cold.max()),
        on_kh=float(on.sum()),
        all_kh=float(cold.sum()),
    )


def test_the_mean_over_bases_and_noises_is_the_references() -> None:
    """statsmodels' GLS for two bases by six noises; its residual variance over n − p − 1; weighed by the restricted
    likelihood of columns of length 1, so that bases compare; half-width 1.6 t · √(Σ w (v + (b − mean)²))."""
    rng = np.random.default_rng(12)
    bases = [weeks(1.0, rng), weeks(1.7, rng)]
    n, p = bases[0].x.shape
    middle = np.delete(np.arange(n + 2), [4, 9]) + 0.5
    kwh = 0.2 * bases[0].x[:, 0] - 0.06 * bases[0].x[:, 1] + rng.standard_normal(n)
    grid = ((0.0, 0.5, 0.8), (0.0, 0.05))
    rows = []
    for columns, (rho, q) in product(bases, product(*grid)):
        s = middle - middle[0] + 1
        noise = np.array([[(1.0 if a == b else rho ** abs(a - b)) + q * min(a, b) for b in s] for a in s])
        sigma = noise * np.outer(columns.spread, columns.spread)
        unit = columns.x / np.linalg.norm(columns.x, axis=0)
        one, other = sm.GLS(kwh, columns.x, sigma=sigma).fit(), sm.GLS(kwh, unit, sigma=sigma).fit()
        assert one.ssr == pytest.approx(other.ssr)
        information = unit.T @ np.linalg.solve(sigma, unit)
        likely = -0.5 * (np.linalg.slogdet(sigma)[1] + np.linalg.slogdet(information)[1] + (n - p) * np.log(one.ssr))
        variance = one.cov_params()[1, 1] * (n - p) / (n - p - 1)
        rows.append((likely, one.params[1], variance, columns.on_kh, columns.all_kh))
    table = np.array(rows)
    weight = np.exp(table[:, 0] - table[:, 0].max())
    weight /= weight.sum()
    found = averaged(bases, kwh, middle, grid)
    assert found is not None
    for (mean, half), total in ((found.since, table[:, 3]), (found.winter, table[:, 4])):
        each = -table[:, 1] * total
        centre = float(weight @ each)
        spread = np.sqrt(weight @ (table[:, 2] * total**2 + (each - centre) ** 2))
        assert mean == pytest.approx(centre, rel=1e-7)
        assert half == pytest.approx(1.6 * stats.t.ppf(0.975, n - p - 1) * spread, rel=1e-7)


def test_the_fewest_degrees_of_freedom_count_and_no_base_is_no_figure() -> None:
    """A base with one column more has one degree fewer: its t for both."""
    rng = np.random.default_rng(3)
    one = weeks(1.0, rng)
    kwh, middle = 0.2 * one.x[:, 0] + rng.standard_normal(14), np.arange(14) + 0.5
    bare = replace(one, x=one.x[:, :2])
    grid = ((0.3,), (0.0,))
    alone, wide = averaged([bare], kwh, middle, grid), averaged([bare, bare], kwh, middle, grid)
    assert alone is not None and wide is not None and alone.since == pytest.approx(wide.since)
    more = averaged([bare, replace(one, x=np.column_stack([bare.x, 1e3 * rng.random(14)]))], kwh, middle, grid)
    assert more is not None
    assert averaged([], kwh, middle, WEEK_GRID) is None


@pytest.mark.parametrize(("daily", "unit", "fewest"), [(False, "week", 4), (True, "day", 14)])
def test_too_few_heated_periods_of_a_side(daily: bool, unit: str, fewest: int) -> None:
    """None, one, one too few and enough, of either side; a period of exactly 3 % of the largest is not heated."""
    n = 40
    hours = np.arange(10 * n)
    outdoor = np.zeros(10 * n)
    for count in (0, 1, fewest - 1, fewest):
        on = hours < 10 * count
        said = {
            0: f"no heated {unit} with it", 1: f"only 1 heated {unit} with it", fewest: "",
            fewest - 1: f"only {fewest - 1} heated {unit}s with it",
        }[count]  # fmt: skip
        rest = f" whose heat is known; at least {fewest} are needed"
        for lever, side in ((on, "on"), (~on, "off")):
            told = too_few(periods([10.0] * n), lever, outdoor, daily)
            assert told == (f"{said} {side}{rest}" if said else "")
    cool = [10.0] * fewest + [0.3] * (n - fewest - 1) + [10.0]
    assert too_few(periods(cool), hours < 10 * fewest, outdoor, daily).startswith(f"only 1 heated {unit} with it off")
    warm = [10.0] * fewest + [0.31] * (n - fewest)
    assert too_few(periods(warm), hours < 10 * fewest, outdoor, daily) == ""


def test_a_period_belongs_to_the_side_with_half_of_its_cold() -> None:
    """On for half of the hours of the fourth week at one temperature: on. An hour less, or half of the hours that are
    the milder ones: off, and on has three weeks only. What is above 21 °C is no cold."""
    hours = np.arange(80)
    kwh = periods([10.0] * 8)
    assert too_few(kwh, hours < 35, np.zeros(80), False) == ""
    assert too_few(kwh, hours < 34, np.zeros(80), False).startswith("only 3 heated weeks with it on")
    milder = np.where((hours >= 30) & (hours < 35), 5.0, 0.0)
    assert too_few(kwh, hours < 35, milder, False).startswith("only 3 heated weeks with it on")
    hot = np.where((hours >= 30) & (hours < 39), 21.0, 0.0)
    assert too_few(kwh, hours < 39, hot, False).startswith("only 3 heated weeks with it on")
    hot[39] = 30.0  # no cold at all in the fourth week: of no share, so off
    assert too_few(kwh, hours < 40, hot, False).startswith("only 3 heated weeks with it on")


SIDE = np.arange(300) < 200  # 200 hours on, 100 off


def heat(**more: Any) -> HeatHours:
    """1 kWh in each of 300 hours, at 0.4 while on and 0.1 while off, with room for 10 more in each."""
    usual: dict[str, Any] = {
        "kwh": np.ones(300),
        "room": np.full(300, 10.0),
        "money": np.where(SIDE, 0.4, 0.1),
        "dark": np.ones(300, dtype=bool),
        "flat_out": np.zeros(300, dtype=bool),
        "heated": np.ones(300, dtype=bool),
    }
    return HeatHours(**(usual | more))


def told(since: tuple[float, float], winter: tuple[float, float] = (0.0, 0.0), **more: Any) -> Spared | None:
    found = _told(Averaged(since=since, winter=winter), heat(**more), SIDE, 20)
    return found if isinstance(found, Spared) else None


def test_the_ends_and_their_money() -> None:
    """50 ± 20 of the hours on at 0.4; 90 ± 30 of the winter at (80 + 10)/300 = 0.3."""
    found = told((50.0, 20.0), (90.0, 30.0))
    assert found is not None and found.since_money is not None and found.winter_money is not None
    assert (found.since_kwh.low, found.since_kwh.high) == (30.0, 70.0)
    assert (found.winter_kwh.low, found.winter_kwh.high) == (60.0, 120.0)
    assert (found.since_money.low, found.since_money.high) == (pytest.approx(12.0), pytest.approx(28.0))
    assert (found.winter_money.low, found.winter_money.high) == (pytest.approx(18.0), pytest.approx(36.0))
    assert (found.periods, found.relative, found.flat_out) == (20, None, False)
    unpriced = told((50.0, 20.0), (90.0, 30.0), money=None)
    assert unpriced is not None and unpriced.since_money is None and unpriced.winter_money is None
    none_on = np.where(SIDE, 0.0, 1.0)
    cold = told((0.0, 20.0), (50.0, 30.0), kwh=none_on)
    assert cold is not None and cold.since_money is None and cold.winter_money is not None


def test_the_ends_stay_within_what_physics_allows() -> None:
    """200 kWh given while on: at worst they are lost whole, at best nine times as much was spared, 1800; of the winter
    0.9 of the 100 while off more. With room for 5 an hour at most 1000."""
    low = told((-150.0, 100.0), (-100.0, 400.0))
    assert low is not None and (low.since_kwh.low, low.since_kwh.high) == (-200.0, -50.0)
    assert (low.winter_kwh.low, low.winter_kwh.high) == (-500.0, 300.0)
    high = told((1700.0, 300.0), (1800.0, 300.0))
    assert high is not None and high.since_kwh.high == pytest.approx(1800.0)
    assert high.winter_kwh.high == pytest.approx(1890.0)
    room = told((900.0, 300.0), (1050.0, 300.0), room=np.full(300, 5.0))
    assert room is not None and room.since_kwh.high == 1000.0 and room.winter_kwh.high == pytest.approx(1090.0)


@pytest.mark.parametrize(
    ("since", "fine"),
    [
        ((-200.0, 1.0), True), ((-200.1, 500.0), False), ((1799.9, 1.0), True), ((1800.1, 500.0), False),
    ],
)  # fmt: skip
def test_a_middle_beyond_them_is_refused(since: tuple[float, float], fine: bool) -> None:
    """Less than all of it lost, or more than nine times spared."""
    assert (told(since) is not None) is fine


def test_a_low_end_beyond_the_room_is_refused() -> None:
    """Room for 100: 60 to 140 is cut, 100 to 140 is all of it, 101 to 141 is refused."""
    half = np.full(300, 0.5)
    cut, whole = told((100.0, 40.0), room=half), told((120.0, 20.0), room=half)
    assert cut is not None and (cut.since_kwh.low, cut.since_kwh.high) == (60.0, 100.0)
    assert whole is not None and (whole.since_kwh.low, whole.since_kwh.high) == (100.0, 100.0)
    assert told((121.0, 20.0), room=half) is None


FIRST, LAST = "2025-11-03", "2026-02-22"  # sixteen weeks
HOURS = pd.date_range(FIRST, "2026-02-23", freq="1h", tz=ZONE, inclusive="left")
RNG = np.random.default_rng(77)
WEEKLY_C = np.repeat(RNG.permutation(np.linspace(-4.0, 6.0, 16)), 168)
AIR = WEEKLY_C + 3.0 * np.sin(2 * np.pi * np.arange(len(HOURS)) / 24)
FILM = entry(dt.date(2025, 12, 29), "film", touches=("envelope",), time=dt.time(0))
IS_ON = np.asarray(pd.Timestamp("2025-12-29", tz=ZONE) <= HOURS)
GIVEN = 0.05 * np.maximum(10.0 - AIR, 0.0) * np.where(IS_ON, 0.75, 1.0)  # the film takes a quarter off


def house(supply: Any, *diary: Any, colder_k: float = 0.0) -> Readings:
    """Sixteen weeks with outdoor air, a heater and a diary."""
    of = season(FIRST, LAST, logger=(logger("out", where="outdoor"),))
    outdoor = channel(pd.Series(AIR - colder_k, HOURS), logger="out", where="outdoor")
    book = readings(of, channels=(outdoor,), heating=(supply,), diary=diary)
    return replace(book, levers=levers_of(chains(diary, "diary.csv")[0], of))


def by_state(book: Readings) -> Spared | str:
    film = next(lever for lever in book.levers if lever.name == "film")
    return spared_by_state(film, ByState(book, heat_hours(book)))


def test_a_known_quarter_comes_back_from_a_weekly_meter() -> None:
    """0.05 kWh for each kelvin-hour under 10 °C, a quarter less with the film, by a meter read every Monday: the truth
    lies within the ends, of the weeks on and of the winter, and they are less than a tenth of it apart."""
    stamps = [str(day) for day in pd.date_range(FIRST, periods=17, freq="7D").date]
    found = by_state(house(meter(stamps, [float(week.sum()) for week in GIVEN.reshape(16, 168)]), FILM))
    assert isinstance(found, Spared)
    pull = 0.05 * 0.25 * np.maximum(10.0 - AIR, 0.0)
    for told, truth in ((found.since_kwh, pull[IS_ON].sum()), (found.winter_kwh, pull.sum())):
        assert told.low <= truth <= told.high and told.high - told.low < 0.1 * truth
    assert found.periods == 16 and found.relative is None


def test_and_from_a_log_by_the_day() -> None:
    """The same by the hour: 112 days."""
    found = by_state(house(hourly(FIRST, GIVEN.tolist()), FILM))
    assert isinstance(found, Spared) and found.periods == 112
    truth = (0.05 * 0.25 * np.maximum(10.0 - AIR, 0.0))[IS_ON].sum()
    assert found.since_kwh.low <= truth <= found.since_kwh.high
    assert found.since_money is not None and found.since_money.low == pytest.approx(0.5 * found.since_kwh.low)


def test_why_nothing_is_told() -> None:
    """Read too seldom, no outdoor air, too few weeks on."""
    stamps = [str(day) for day in pd.date_range(FIRST, periods=17, freq="7D").date]
    sums = [float(week.sum()) for week in GIVEN.reshape(16, 168)]
    weekly = meter(stamps, sums)
    assert "too seldom" in str(by_state(house(meter([FIRST, LAST], [500.0]), FILM)))
    dark = house(weekly, FILM)
    assert "outdoor" in str(by_state(replace(dark, channels=())))
    late = replace(FILM, date=dt.date(2026, 2, 6))  # a Friday: three days of that week
    assert str(by_state(house(weekly, late))).startswith("only 2 heated weeks with it on")
    crowd = tuple(
        entry(dt.date(2025, 11, 10) + dt.timedelta(days=8 * n), f"thing {n}", line=n + 3, touches=("envelope",))
        for n in range(11)
    )
    frozen = house(weekly, FILM, *crowd, colder_k=12.0)  # cold by every base, so that no thing is without a week of it
    assert by_state(frozen) == "too few heated weeks for all that was changed in them"
    heated = house(weekly, FILM)
    assert spared_by_state(heated.levers[0], ByState(heated, None)) == "no heater is listed"


def test_what_the_season_is_told_by() -> None:
    """Outdoor air with its holes bridged and its ends drawn out; sun by energy, else by quanta, nothing where it was
    not logged; one reading is no record."""
    of = season("2026-01-05", "2026-01-05", logger=(logger("out", where="outdoor"),))
    hours = pd.date_range("2026-01-05", periods=24, freq="1h", tz=ZONE)

    def one(values: pd.Series, measure: str = "air_temperature") -> Any:
        return channel(values, measure, logger="out", where="outdoor")

    def known(*channels: Any) -> ByState:
        return ByState(readings(of, channels=channels), None)

    air = pd.Series(np.arange(24.0), hours).drop(hours[[0, 1, 10, 11, 12, 13]])
    found = known(one(air)).outdoor_c
    assert not isinstance(found, str)
    assert found[5] == pytest.approx(5.5) and found[11] == pytest.approx(11.5)
    assert found[0] == found[1] == pytest.approx(2.5) and found[23] == pytest.approx(22.5)
    assert isinstance(known(one(air.iloc[:1])).outdoor_c, str) and isinstance(known().outdoor_c, str)
    assert not isinstance(known(one(air.iloc[:2])).outdoor_c, str)
    light = pd.Series(100.0, hours[6:18])
    for measure in ("solar_radiation", "ppfd"):
        sun = known(one(light, measure)).sun
        assert sun is not None and sun[10] == pytest.approx(100.0) and sun[2] == 0.0
    both = known(one(light, "ppfd"), one(3 * light, "solar_radiation")).sun
    assert both is not None and both[10] == pytest.approx(300.0)
    assert known(one(light.iloc[:1], "ppfd")).sun is None and known().sun is None
    assert known(one(light.iloc[:2], "ppfd")).sun is not None
    assert known().hours.equals(hours)
    assert isinstance(ByState(readings(of, heating=(heater([]),)), None).periods, str)
