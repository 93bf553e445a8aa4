"""One outcome of one cause: the days, the columns, the fit against statsmodels, and why there is none."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.by_reference import PAIRS, noise, reference
from effects.in_memory import entry

from reportgen.effects.causes import Cause
from reportgen.effects.design import Refused
from reportgen.effects.estimate import DayArrays, _columns, _known, _rows, day_arrays, outcome_of, window
from reportgen.effects.heat_days import HeatDays
from reportgen.effects.lost_nights import Need
from reportgen.effects.outcomes import DayTable
from reportgen.measures.places import NO_OUTDOORS

FIRST = dt.date(2026, 1, 1).toordinal()
N = 80
DAYS = np.arange(float(FIRST), float(FIRST + N))
CAUSE = Cause(entries=(entry(dt.date(2026, 2, 10), "film"),), first=FIRST + 39, last=FIRST + 40)
RNG = np.random.default_rng(31)
OUTDOOR = 3.0 * RNG.standard_normal(N)
LIFT = 5.0 - 0.3 * OUTDOOR + 0.7 * (DAYS > FIRST + 40) + 0.3 * RNG.standard_normal(N)
UNITS = {"lift": "K", "heat": "kWh", "soil_mean": "K", "daily_light": "mol/m²", "watts_per_kelvin": "W/K"}


def arrays(**more: Any) -> DayArrays:
    """Eighty days of a lift that follows the outdoor night, raised by 0.7 K after day 40."""
    usual: dict[str, Any] = {
        "days": DAYS,
        "outcomes": {"lift": LIFT},
        "weather": {"ton": OUTDOOR},
        "heated": np.ones(N),
        "units": UNITS,
        "missing": {},
        "causes": (CAUSE,),
        "lost": frozenset(),
    }
    return DayArrays(**(usual | more))


def window_days(cause: Cause, days: Any = DAYS) -> list[int]:
    return [int(day) - FIRST for day in days[window(cause, days)]]


def test_three_weeks_on_either_side_of_a_change() -> None:
    """Spoiled on days 39 and 40: 18 to 61, both spoiled ones among them."""
    assert window_days(CAUSE) == list(range(18, 62))


def test_four_weeks_before_where_the_season_ends_too_soon() -> None:
    """Twenty days after: 28 before; twenty-one: 21. Of what goes on and off 21 whatever the season."""
    assert window_days(CAUSE, DAYS[:61]) == list(range(11, 61))
    assert window_days(CAUSE, DAYS[:62]) == list(range(18, 62))
    spell = replace(CAUSE, blocks=((FIRST + 39, FIRST + 40),))
    assert window_days(spell, DAYS[:61]) == list(range(18, 61))


def test_the_effect_is_the_references() -> None:
    """Level, step and the centred nights outdoors over days 18 to 38 and 41 to 61, by statsmodels in thirty noises."""
    found = outcome_of(CAUSE, "lift", arrays(), declared=True)
    rows = [*range(18, 39), *range(41, 62)]
    step = np.array([float(n > 40) for n in rows])
    outdoor = OUTDOOR[rows]
    x = np.column_stack([np.ones(42), step, outdoor - outdoor.mean()])
    theirs = reference(LIFT[rows], x, [noise([float(n) for n in rows], *pair) for pair in PAIRS])
    effect, se = theirs.coefficient(1)
    assert (found.effect, found.se, found.dof) == (pytest.approx(effect), pytest.approx(se), 39)
    assert (found.low, found.high) == (
        pytest.approx(effect - theirs.wide * se),
        pytest.approx(effect + theirs.wide * se),
    )
    assert found.smallest_visible == pytest.approx((theirs.wide + theirs.power) * se)
    assert (found.days_before, found.days_after, found.unit, found.declared) == (21, 21, "K", True)
    assert found.before_mean == pytest.approx(LIFT[18:39].mean())
    assert (found.columns, found.refused) == (("ton",), None)
    assert found.effective_days == pytest.approx(float(theirs.w @ [42 * (1 - r) / (1 + r) for r, _ in PAIRS]))
    nights = found.nights
    assert nights is not None and list(nights["day"]) == [dt.date.fromordinal(FIRST + n) for n in rows]
    assert nights["value"].tolist() == pytest.approx(LIFT[rows]) and nights["after"].tolist() == (step == 1).tolist()
    assert nights["outdoor_c"].tolist() == pytest.approx(outdoor)
    b = theirs.w @ theirs.b
    assert nights["without_change"].tolist() == pytest.approx(b[0] + b[2] * (outdoor - outdoor.mean()))
    assert outcome_of(CAUSE, "lift", arrays()).nights is None


def test_the_beds_effect_counts_yesterday() -> None:
    """Soil on days whose yesterday is known: one more column, yesterday's bed; the mean rise over the days after."""
    bed = [8.0]
    for n in range(1, N):
        bed.append(0.6 * bed[-1] + 3.0 + 0.2 * (n > 40) + 0.05 * OUTDOOR[n] + 0.1 * LIFT[n])
    soil = np.array(bed)
    soil[25] = np.nan
    found = outcome_of(
        CAUSE, "soil_mean", arrays(outcomes={"soil_mean": soil}, weather={"ton": OUTDOOR, "tun": OUTDOOR})
    )
    rows = [n for n in [*range(18, 39), *range(41, 62)] if n not in (25, 26)]
    lag = soil[[n - 1 for n in rows]]
    outdoor = OUTDOOR[rows]
    step = np.array([float(n > 40) for n in rows])
    x = np.column_stack([np.ones(40), step, lag - lag.mean(), outdoor - outdoor.mean()])
    theirs = reference(soil[rows], x, [noise([float(n) for n in rows], *pair) for pair in PAIRS])
    effect, se = theirs.lagged(1, 2, 21)
    assert (found.effect, found.days_before) == (pytest.approx(effect, rel=1e-6), 19)
    assert found.se == pytest.approx(se, rel=1e-4)  # the reference's derivative is one of differences
    first_day = _rows(replace(CAUSE, first=FIRST + 5, last=FIRST + 5), "soil_mean", soil, arrays())
    assert 0 not in first_day.index and 1 in first_day.index


def test_other_changes_have_a_step_and_their_days_are_out() -> None:
    """A change on day 50 (without a time: 49 and 50) takes two days and has a column of its own; events take theirs."""
    other = Cause(entries=(entry(dt.date(2026, 2, 20), "vents", line=3),), first=FIRST + 49, last=FIRST + 50)
    found = outcome_of(CAUSE, "lift", arrays(causes=(CAUSE, other), lost=frozenset({FIRST + 20})))
    assert (found.days_before, found.days_after, found.dof) == (20, 19, 39 - 4)
    own = LIFT + 2.0 * (DAYS > FIRST + 50)
    told = outcome_of(
        CAUSE, "lift", arrays(causes=(CAUSE, other), outcomes={"lift": own}, lost=frozenset({FIRST + 20}))
    )
    assert told.effect == pytest.approx(found.effect)  # what the other did is the other's


def refusal(outcome: str = "lift", cause: Cause = CAUSE, **more: Any) -> str:
    found = outcome_of(cause, outcome, arrays(**more))
    assert np.isnan(found.effect)
    return str(found.refused)


def test_why_there_is_none() -> None:
    """A chain too long, not logged, no outdoor air, nothing that varies, two sides of unlike weather."""
    assert refusal(cause=replace(CAUSE, too_long=True)).startswith("a chain of changes longer than a week")
    assert refusal("heat") == "it was not logged"
    unknown = outcome_of(CAUSE, "heat", arrays())
    assert (unknown.days_before, unknown.days_after) == (0, 0)
    assert refusal("heat", missing={"heat": "no heater is listed"}) == "no heater is listed"
    assert refusal(weather={}) == "no outdoor temperature was logged"
    assert refusal(weather={}, missing={"weather": "read too seldom"}) == "read too seldom"
    assert refusal(outcomes={"lift": np.full(N, 4.0)}) == "it hardly varied in these weeks"
    assert "much colder" in refusal(weather={"ton": OUTDOOR - 20.0 * (DAYS > FIRST + 40)})
    light = arrays(outcomes={"daily_light": LIFT}, weather={"sol": OUTDOOR})
    assert outcome_of(CAUSE, "daily_light", light).refused is None  # light asks for no outdoor air


def test_what_would_have_made_it_answerable() -> None:
    """A logger, an outdoor logger; where one writes too seldom, a reading every ten minutes."""
    seldom = "once a day, which tells no night, no hours and no extremes"
    for missing, more, wanted in (
        ({}, {}, "a logger for it"),
        ({"heat": NO_OUTDOORS}, {}, "an outdoor logger"),
        ({"heat": seldom}, {}, "a reading every ten minutes, day and night"),
    ):
        assert outcome_of(CAUSE, "heat", arrays(missing=missing, **more)).answerable == wanted
    for missing, wanted in (
        ({}, "an outdoor logger"),
        ({"weather": seldom}, "a reading every ten minutes, day and night"),
    ):
        with pytest.raises(Refused) as refused:
            _known("lift", arrays(weather={}, missing=missing))
        assert refused.value.answerable == wanted


def test_too_few_days_are_told_with_what_they_lacked() -> None:
    """The air was not logged on 15 of the 21 days after: six are left. Counted, with the reason."""
    lift = LIFT.copy()
    lift[41:56] = np.nan
    there = ~np.isnan(lift)
    needs = {"lift": (Need(words="the air outdoors was not logged", there=there),)}
    found = outcome_of(CAUSE, "lift", arrays(outcomes={"lift": lift}, needs=needs))
    assert found.refused == (
        "only 6 nights after with readings that can be used; at least 7 are needed (on 15 of 21 the air outdoors was "
        "not logged)"
    )
    assert (found.days_before, found.days_after) == (21, 6)
    bare = outcome_of(CAUSE, "lift", arrays(outcomes={"lift": lift}))
    assert str(bare.refused).endswith("(on 15 of 21 the air inside or outdoors was not logged)")


def test_days_without_outdoor_air_do_not_count_for_the_sides() -> None:
    """Sun in the place of the nights outdoors, which were logged on six days after only: too few."""
    outdoor = OUTDOOR.copy()
    outdoor[47:62] = np.nan
    found = refusal("daily_light", outcomes={"daily_light": LIFT}, weather={"ton": outdoor, "sol": OUTDOOR})
    assert found.startswith("only 6 nights after")


def test_heat_needs_heated_days_on_both_sides() -> None:
    """Heated on none of the days after: refused for heat, told for warmth."""
    cold = {"heat": LIFT, "watts_per_kelvin": LIFT, "lift": LIFT}
    off = arrays(outcomes=cold, heated=(DAYS <= FIRST + 40).astype(float))
    for outcome, told in (("heat", False), ("watts_per_kelvin", False), ("lift", True)):
        found = outcome_of(CAUSE, outcome, off)
        assert (found.refused is None) is told
        assert told or "heated on fewer than half" in str(found.refused)


def test_a_bed_is_not_switched_on_and_off() -> None:
    """Nights on and off cannot be told apart in it; its sides are called on and off."""
    spell = replace(CAUSE, first=FIRST + 30, last=FIRST + 50, blocks=((FIRST + 30, FIRST + 50),))
    assert refusal("soil_mean", spell, outcomes={"soil_mean": LIFT}).startswith("the bed remembers for weeks")
    assert outcome_of(spell, "lift", arrays(causes=(spell,))).refused is None
    short = replace(CAUSE, first=FIRST + 30, last=FIRST + 33, blocks=((FIRST + 30, FIRST + 33),))
    assert refusal("lift", short, causes=(short,)).startswith("only 3 nights on with readings")


USED = np.arange(N) < 40


def some(share: float) -> Any:
    """A column that was logged on that share of the forty days used, and nowhere else."""
    return np.where(np.arange(N) < 40 * share, 1.0, np.nan)


def test_the_first_set_that_was_logged_in_full() -> None:
    """The sun and the bed: set 1; without sun set 2; without the bed either the last, and what it lacks is named; a
    column counts from four fifths of the days on."""
    full = dict.fromkeys(("ton", "hd5", "hd10", "sol", "tsd"), some(1.0))
    assert _columns(CAUSE, "lift", USED, arrays(weather=full)) == (1, ("ton", "hd5", "hd10", "sol", "tsd"), ())
    sunless = full | {"sol": some(0.775)}
    assert _columns(CAUSE, "lift", USED, arrays(weather=sunless)) == (2, ("ton", "hd5", "hd10", "tsd"), ())
    assert _columns(CAUSE, "lift", USED, arrays(weather=full | {"sol": some(0.8)}))[0] == 1
    bare = {name: some(1.0) for name in ("ton", "hd5", "hd10", "cs")}
    assert _columns(CAUSE, "lift", USED, arrays(weather=bare)) == (3, ("ton", "hd5", "hd10", "cs"), ("tod", "csrng"))
    assert _columns(CAUSE, "lift", USED & False, arrays(weather=full)) == (
        3,
        (),
        ("ton", "hd5", "hd10", "tod", "csrng", "cs"),
    )


def test_wind_and_the_bed_stand_behind_the_others() -> None:
    """Heat for each kelvin: wind with the first set only, the bed's share last; of a change of the bed none of it."""
    full = dict.fromkeys(("ton", "tod", "sol", "windn", "tsr"), some(1.0))
    assert _columns(CAUSE, "watts_per_kelvin", USED, arrays(weather=full)) == (
        1, ("ton", "tod", "sol", "windn", "tsr"), (),
    )  # fmt: skip
    still = {name: full[name] for name in ("ton", "tod", "sol")}
    assert _columns(CAUSE, "watts_per_kelvin", USED, arrays(weather=still)) == (1, ("ton", "tod", "sol"), ("tsr",))
    dull = {name: full[name] for name in ("ton", "windn", "tsr")}
    assert _columns(CAUSE, "watts_per_kelvin", USED, arrays(weather=dull)) == (2, ("ton", "tsr"), ())
    both = (
        entry(dt.date(2026, 2, 10), "film"),
        entry(dt.date(2026, 2, 10), "mat", line=3, touches=("envelope", "bed")),
    )
    bed = replace(CAUSE, entries=both)
    assert _columns(bed, "watts_per_kelvin", USED, arrays(weather=full)) == (
        1,
        ("ton", "tod", "sol", "windn"),
        ("tsr",),
    )


def test_a_day_without_one_of_its_columns_is_out() -> None:
    """Days 20 and 45 lack the day's warmth of heat's second set."""
    tod = np.where(np.isin(np.arange(N), (20, 45)), np.nan, OUTDOOR)
    weather = dict.fromkeys(("ton", "hd5", "hd10", "hd15"), OUTDOOR) | {"tod": tod}
    rows = _rows(CAUSE, "heat", LIFT, arrays(weather=weather))
    assert rows.index.tolist() == [n for n in [*range(18, 39), *range(41, 62)] if n not in (20, 45)]
    assert (rows.covariate_set, rows.left_out) == (2, ("ts",))


def test_the_day_table_as_arrays() -> None:
    """Ordinals of its dates, every column as it stands."""
    index = pd.Index([dt.date(2026, 1, 1), dt.date(2026, 1, 3)], name="date")
    heat = HeatDays(table=pd.DataFrame({"heated": [1.0, 0.0]}, index), reason="", left_out=(), by_hour=True)
    table = DayTable(
        outcomes=pd.DataFrame({"lift": [1.0, 2.0]}, index),
        weather=pd.DataFrame({"ton": [3.0, 4.0]}, index),
        heat=heat,
        units=MappingProxyType(UNITS),
        missing=MappingProxyType({"heat": "no"}),
    )
    found = day_arrays(table, [CAUSE], frozenset({5}))
    assert found.days.tolist() == [FIRST, FIRST + 2] and found.heated.tolist() == [1.0, 0.0]
    assert found.outcomes["lift"].tolist() == [1.0, 2.0] and found.weather["ton"].tolist() == [3.0, 4.0]
    assert (found.causes, found.lost, found.missing["heat"]) == ((CAUSE,), {5}, "no")
