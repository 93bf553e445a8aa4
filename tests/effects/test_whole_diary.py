"""What stands beside the changes of a winter: what could be tried, kinds of night, an odd date, heat by the week."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.in_memory import entry
from heated_house import BALANCE_C, HOLD_C, LOSS_W_PER_K, hours, outdoor_c, steps, supply
from made_season import ZONE, channel, logger, readings, season

from reportgen.effects import by_state, effects
from reportgen.readings.lever_types import Lever, State
from reportgen.readings.types import Readings, Watering

FIRST, DAYS = dt.date(2026, 1, 5), 112
AT = hours(days=DAYS)
OUT = outdoor_c(AT)
GARDEN_DAY = (np.arange(len(AT)) - 12) // 24  # noon to noon; −1 before the first noon
ROUGH = np.random.default_rng(7).standard_normal(DAYS + 1)  # how nights of one kind differ for no reason


def heated(loss_w_k: np.ndarray, every: int = 1, **more: Any) -> Readings:
    """A house held at 8 °C whose loss below 5 °C is so much in every hour, read every so many hours."""
    of = season(str(FIRST), str(AT[-1].date()), loggers=(logger("bench"), logger("garden", where="outdoor")))
    watts = loss_w_k * np.maximum(BALANCE_C - OUT, 0.0)
    air = channel(steps(np.where(watts > 0, HOLD_C, OUT + 3.0), AT), accuracy=0.5)
    outside = channel(steps(OUT, AT), logger="garden", where="outdoor")
    channels = (air, outside, *more.pop("channels", ()))
    return readings(of, channels=channels, heating=(supply(AT, watts, every=every),), **more)


def test_what_could_be_tried_and_what_no_trial_can_answer() -> None:
    """An idea that can be undone is one to try; one that cannot has its reason; both stand under their words."""
    hope: dict[str, Any] = {"kind": "idea", "hoped_for": ("warmer nights",)}
    fleece = entry(FIRST, "fleece, double", touches=("envelope",), reversible=True, **hope)
    paint = entry(FIRST, "lime wash", line=3, reversible=False, **hope)
    found = effects(heated(np.full(len(AT), LOSS_W_PER_K), diary=(fleece, paint)))
    (one,) = found.could_try
    assert (one.what, one.line, one.idea, one.touches) == ("fleece, double", 2, True, ("envelope",))
    assert dict(found.no_trial) == {"lime wash": "it cannot be undone"}


def watered_house(points: float) -> Readings:
    """Air at 70 % that stands so many points higher in the nights after each of 30 waterings; 0.5 points of noise."""
    wet = np.random.default_rng(3).permutation(np.arange(5, DAYS - 5))[:30]
    rh = 70.0 + np.where(np.isin(GARDEN_DAY, wet), points, 0.0) + 0.5 * ROUGH[GARDEN_DAY]
    dates = [FIRST + dt.timedelta(days=int(day)) for day in wet]
    written = tuple(Watering(line=2, date=day, time=None, bed=None, litres=None) for day in sorted(dates))
    damp = channel(steps(rh, AT), "relative_humidity")
    return heated(np.full(len(AT), LOSS_W_PER_K), channels=(damp,), watering=written)


def test_nights_after_watering_are_as_much_damper_as_they_were_made() -> None:
    """6 points: within the interval, which at 0.5 points of noise and 30 nights is about ± 0.2 (2 · 0.5/√30), so well
    inside half a point. A house that is no damper has an interval that holds 0. Without waterings there are none."""
    (kind,) = effects(watered_house(6.0)).kinds_of_night
    assert (kind.name, kind.nights) == ("after watering", 30)
    assert kind.low < 6.0 < kind.high
    assert kind.effect == pytest.approx(6.0, abs=0.5)
    (none,) = effects(watered_house(0.0)).kinds_of_night
    assert none.low < 0.0 < none.high
    assert effects(replace(watered_house(6.0), watering=())).kinds_of_night == ()


def test_a_step_that_nobody_wrote_down_is_the_odd_date() -> None:
    """The loss rises by half on day 56, 3 % of noise: the date asked about lies within five days of it (every fifth
    is looked at), by the heat for each degree. The house that was left alone has none."""
    noise = 1.0 + 0.03 * ROUGH[GARDEN_DAY]
    odd = effects(heated(LOSS_W_PER_K * noise * np.where(GARDEN_DAY >= 56, 1.5, 1.0))).odd_date
    assert odd is not None
    assert abs((odd.when - FIRST).days - 56) <= 5
    assert odd.outcome == "watts_per_kelvin" and odd.half_widths > 2.0 and odd.dates >= 8
    assert effects(heated(LOSS_W_PER_K * noise)).odd_date is None


def lever(name: str, line: int, from_day: int) -> Lever:
    """A cover that was on from noon of one day of the winter to its end."""
    day = FIRST + dt.timedelta(days=from_day)
    on = State(from_=pd.Timestamp(day, tz=ZONE) + pd.Timedelta("12h"), to=AT[-1] + pd.Timedelta("1h"), on=True)
    return Lever(
        name=name, thing=None, touches=("envelope",), entries=(day,), states=(on,), hours_on=on.hours, hours_off=0.0,
        reasons=MappingProxyType({}), lines=(line,), undone=MappingProxyType({}),
    )  # fmt: skip


def test_a_meter_read_by_the_week_tells_what_a_cover_spared(monkeypatch: pytest.MonkeyPatch) -> None:
    """A quarter less loss from the middle of the winter on: the hours since would have taken a third more, which lies
    within the ends. The weeks are put together once for both covers, however many ask."""
    on = GARDEN_DAY >= 56
    made = heated(LOSS_W_PER_K * np.where(on, 0.75, 1.0), every=24 * 7)
    covers = (lever("film", 2, 56), lever("fleece", 3, 84))
    lines = [
        entry(FIRST + dt.timedelta(days=day), what, line=line, touches=("envelope",), hoped_for=("less heating",))
        for what, line, day in (("film", 2, 56), ("fleece", 3, 84))
    ]
    asked: list[int] = []
    weeks = by_state.periods_of
    monkeypatch.setattr("reportgen.effects.by_state.periods_of", lambda *a: asked.append(1) or weeks(*a))
    film, fleece = effects(replace(made, levers=covers, diary=tuple(lines))).levers
    given = float((0.75 * LOSS_W_PER_K * np.maximum(BALANCE_C - OUT, 0.0))[on].sum()) / 1000.0
    assert film.spared is not None, film.spared_reason
    assert film.spared.since_kwh.low < given / 3.0 < film.spared.since_kwh.high
    assert film.spared.periods == DAYS // 7
    assert fleece.spared is not None or fleece.spared_reason
    assert len(asked) == 1
