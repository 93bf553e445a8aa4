"""The terms of the balance, the bed and the response, each against the figure that a linear house was made with."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from measures.house.made_house import Made, hours_of, stepped, weather

from reportgen.measures.exposure import Floats
from reportgen.measures.house.balance import fit_balance
from reportgen.measures.house.bed import AIR_LAGS_H, fit_bed
from reportgen.measures.house.hours import HouseHours
from reportgen.measures.house.meter import by_the_hour
from reportgen.measures.house.response import in_state, respond, run
from reportgen.measures.house.without_heat import NightLine, without_heat

OUT = weather()
N = len(OUT)
FITTED = N - 73  # all but the first three days and the last hour (`balance.usable`)
SOIL = 8.0 + 3.0 * np.sin(np.arange(N) / 97.0)  # a bed that goes its own way, so that it can be told from the outdoors
WIND = 3.0 + 2.5 * np.sin(np.arange(N) / 31.0)  # 0.5 … 5.5 m/s
DAY_LAG, TO_AIR, TO_OUTDOORS = 24.0, 0.76, 0.14  # of a made bed; their sums 0.76 and 0.90 are those of `bed`'s priors


@dataclass(frozen=True, kw_only=True)
class Linear:
    """A house without masses: loss and wind, air, the bed's probe, a constant."""

    loss_w_k: float = 120.0
    wind_w_k: float = 10.0
    air_wh_k: float = 200.0
    bed_w_k: float = 80.0
    constant_w: float = 60.0
    hold_c: float = 10.0


def held(made: Linear, outdoor_c: Floats, given_w: Floats | None = None) -> tuple[Floats, Floats]:
    """Air [°C] and heat [W] by the hour, backward differences: (U + W·v)(T − To) + C·ΔT + G·(T − Ts) + c = P.

    Args:
        given_w: Heat given whatever the air does; NaN where a thermostat without limit keeps the hold.
    """
    given = np.full(len(outdoor_c), np.nan) if given_w is None else given_w
    airs, heats, air = np.zeros(len(outdoor_c)), np.zeros(len(outdoor_c)), made.hold_c
    for t, outside in enumerate(outdoor_c):
        loss = made.loss_w_k + made.wind_w_k * float(WIND[t])
        grip = loss + made.air_wh_k + made.bed_w_k
        base = loss * outside + made.air_wh_k * air + made.bed_w_k * float(SOIL[t]) - made.constant_w
        free = given[t] == given[t]
        heat = float(given[t]) if free else made.hold_c * grip - base
        air = (base + heat) / grip if free else made.hold_c
        airs[t], heats[t] = air, heat
    return airs, heats


def linear(made: Linear, outdoor_c: Floats, given_w: Floats | None = None, **more: object) -> HouseHours:
    """Its hours, with probe and wind."""
    usual: dict[str, object] = {"temp_soil_c": SOIL, "wind_m_s": WIND, "rated_w": 20_000.0}
    return hours_of(Made(), outdoor_c, *held(made, outdoor_c, given_w), **(usual | more))


def following(values: Floats, lag_h: float) -> Floats:
    """What follows with a lag, step by step: one capacity behind one resistance, from the mean of three days on."""
    keep = float(np.exp(-1.0 / lag_h))
    out, now = np.zeros(len(values)), float(np.mean(values[:72]))
    for t, value in enumerate(values):
        now = keep * now + (1.0 - keep) * float(value)
        out[t] = now
    return out


def test_loss_wind_and_bed_of_a_house_that_was_always_heated() -> None:
    """The air stands at the hold, so that loss, wind and bed are all there is: least squares has the truth exactly,
    but for where its search stops (1 %). What does not vary (the air's own heat, masses) is no term."""
    found = fit_balance(linear(Linear(), OUT - 20.0))
    assert found.loss_w_k[0] == pytest.approx(120.0, rel=0.01)
    assert found.wind_w_k == pytest.approx(10.0, rel=0.01)
    assert found.bed_w_k == pytest.approx(80.0, rel=0.01)
    assert found.constant_w == pytest.approx(60.0, abs=20.0)  # 1 % of a usual loss of 3 kW, in the constant's place
    assert (found.air_wh_k, found.deep_w_k, found.masses, found.kind) == (0.0, 0.0, (), "probe")


def test_without_a_wind_logger_and_a_probe_there_are_no_such_terms() -> None:
    """Their coefficients are 0, and the deep ground stands in the probe's place."""
    made = Made(deep_w_k=60.0)
    found = fit_balance(hours_of(made, OUT, *stepped(made, OUT)))
    assert (found.wind_w_k, found.bed_w_k) == (0.0, 0.0)
    assert found.deep_w_k > 0.0


def test_hours_without_command_and_at_rated_power_are_counted() -> None:
    """40 hours off and 25 flat out of a winter that was heated throughout: 65 in which the air answered, and a share of
    25 in all that were fitted; hours of the first three days are none of them."""
    given = np.full(N, np.nan)
    given[10:30], given[1000:1040], given[2000:2025] = 0.0, 0.0, 9_000.0
    hours = linear(Linear(air_wh_k=20.0), OUT - 20.0, given, rated_w=9_000.0)
    thermostat = np.isnan(given) & (hours.heaters_w > 0.02 * 9_000.0) & (hours.heaters_w < 0.95 * 9_000.0)
    assert not (np.isnan(given) & ~thermostat)[72:].any()  # nothing else was off or flat out
    found = fit_balance(hours)
    assert found.free_hours == 65
    assert found.limit_share == pytest.approx(25 / FITTED)
    assert not found.at_limit


def test_the_heat_asked_for_is_the_houses_own_whatever_the_log_says() -> None:
    """100 hours are not logged and hold nonsense: what the balance asks for there is what the house took, and lamps are
    no part of it. 2 % of the mean heat: the fit's own error (above 1 %), taken twice."""
    hours = linear(Linear(), OUT - 20.0)
    lost = slice(1500, 1600)
    logged, wrong = np.ones(N, dtype=bool), hours.heaters_w - 300.0
    logged[lost], wrong[lost] = False, 4.0
    found = fit_balance(replace(hours, heaters_w=wrong, other_w=np.full(N, 300.0), logged=logged))
    true = hours.heaters_w - 300.0
    assert found.asked_w[lost] == pytest.approx(true[lost], abs=0.02 * float(true.mean()))


def test_a_probe_that_follows_air_and_outdoors_is_told_as_it_was_made() -> None:
    """T_s = 0.76·L₂₄(air) + 0.14·L₂₄(outdoors) + 2, whose sums are the priors': nothing is left over, so the least
    squares has it exactly (1e-4 for its arithmetic). Air that never stands, so that lags can be told apart."""
    air, _ = stepped(Made(), OUT)
    probe = TO_AIR * following(air, DAY_LAG) + TO_OUTDOORS * following(OUT, DAY_LAG) + 2.0
    found = fit_bed(hours_of(Made(), OUT, air, np.zeros(N), temp_soil_c=probe))
    assert found is not None
    assert AIR_LAGS_H[1] == DAY_LAG
    assert found.to_air == pytest.approx((0.0, TO_AIR, 0.0, 0.0), abs=1e-4)
    assert found.to_outdoors == pytest.approx(TO_OUTDOORS, abs=1e-4)
    assert fit_bed(hours_of(Made(), OUT, air, np.zeros(N))) is None


def bedded(bed_w_k: float = 80.0) -> HouseHours:
    """U 120 W/K, C 300 Wh/K, hold 6 °C by a thermostat, and a bed whose probe follows air and outdoors as above."""
    keep, c, u = float(np.exp(-1.0 / DAY_LAG)), 300.0, 120.0
    outside = following(OUT, DAY_LAG)
    air = followed = float(OUT[:72].mean()) + 4.0
    airs, heats, probe = np.zeros(N), np.zeros(N), np.zeros(N)
    for t in range(N):
        still = TO_AIR * keep * followed + TO_OUTDOORS * float(outside[t]) + 2.0  # of the probe, the hour's air apart
        grip = u + c + bed_w_k * (1.0 - TO_AIR * (1.0 - keep))
        base = u * float(OUT[t]) + c * air + bed_w_k * still
        heat = max(6.0 * grip - base, 0.0)
        air = (base + heat) / grip
        followed = keep * followed + (1.0 - keep) * air
        airs[t], heats[t], probe[t] = air, heat, still + TO_AIR * (1.0 - keep) * air
    return hours_of(Made(), OUT, airs, heats, temp_soil_c=probe, rated_w=20_000.0)


def test_the_links_of_a_response_are_its_masses_and_its_bed() -> None:
    """K₀ = G + Σg + D; a link for every mass at its lag and for the bed, G·b at the bed's lags; a colder world takes
    G·o through the ground (the module's head). Of the made house: 80 W/K hold the air through the bed, 0.76 of them by
    way of the day's lag, and 80 · 0.14 = 11.2 W/K go outdoors."""
    found = respond(bedded())
    balance, bed = found.balance, found.bed
    assert bed is not None
    masses = sum(g for g, _ in balance.masses)
    assert found.held_w_k == pytest.approx(balance.bed_w_k + masses)
    assert found.lags_h.tolist() == [*(lag for _, lag in balance.masses), *AIR_LAGS_H]
    assert found.links_w_k.sum() == pytest.approx(masses + balance.bed_w_k * sum(bed.to_air))
    assert found.links_w_k[-3] == pytest.approx(80.0 * TO_AIR, rel=0.1)
    assert found.bed_outdoors_w_k == pytest.approx(80.0 * TO_OUTDOORS, rel=0.1)


def test_the_loss_by_the_fit_is_loss_and_wind_and_nothing_more_is_lost_in_the_house_as_it_was() -> None:
    """120 + 10·v W/K in every hour, 1 % (above)."""
    found = respond(linear(Linear(), OUT - 20.0))
    assert found.fitted_loss_w_k == pytest.approx(120.0 + 10.0 * WIND, rel=0.01)
    assert not found.otherwise_w.any()


def test_in_another_state_the_air_loses_more_by_the_ratio_of_the_losses() -> None:
    """States of 100 and 150 W/K; an hour of 120 W/K in the first would be one of 180 in the second: 60 W more for each
    kelvin of its lift. To keep 6 °C it takes more heat."""
    fitted = respond(hours_of(Made(), OUT, *stepped(Made(), OUT)))
    two = replace(
        fitted,
        balance=replace(fitted.balance, loss_w_k=np.array([100.0, 150.0])),
        loss_w_k=np.full(N, 120.0),
    )
    found = in_state(two, 1)
    assert found.loss_w_k == pytest.approx(180.0)
    assert found.otherwise_w == pytest.approx(60.0 * (two.hours.temp_air_c - OUT))
    assert not in_state(two, 0).otherwise_w.any()
    assert float(run(found, 6.0, 1e9)[1].sum()) > float(run(two, 6.0, 1e9)[1].sum())


def test_heat_made_from_a_meters_weeks_says_so_and_keeps_every_sum() -> None:
    """A meter read by the week: the hours made from it add up to each reading, and the house is one of kind `meter`."""
    made = Made()
    air, heat = stepped(made, OUT)
    logged = hours_of(made, OUT, air, heat)
    weeks = [(n, n + 168, float(heat[n : n + 168].sum())) for n in range(0, N, 168)]
    found = by_the_hour(replace(logged, heaters_w=np.zeros(N)), weeks)
    assert (logged.by_meter, found.by_meter) == (False, True)
    told = [float(found.heaters_w[first:end].sum()) for first, end, _ in weeks]
    assert told == pytest.approx([wh for *_, wh in weeks], rel=1e-6)
    assert (fit_balance(logged).kind, fit_balance(found).kind) == ("no probe", "meter")


def test_the_line_of_nights_without_heat_by_hand() -> None:
    """1 + 0.5·floor + 0.3·min(floor, −3) + 0.1·2, the floor 1 K under the outdoor minimum: at −1 °C 1 − 1 − 0.9 + 0.2 =
    −0.7; at −5 °C 1 − 3 − 1.8 + 0.2 = −3.6; a line that would lie under the floor stops there."""
    line = NightLine(weights=np.array([1.0, 0.5, 0.3, 0.1]), knee_c=-3.0, week_c=2.0, half_k=1.0)
    assert line.at(-1.0) == pytest.approx(-0.7)
    assert line.at(-5.0) == pytest.approx(-3.6)
    assert replace(line, weights=np.array([-9.0, 0.0, 0.0, 0.0])).at(-1.0) == pytest.approx(-2.0)


def test_the_lines_knee_and_week_are_the_medians_of_its_nights() -> None:
    """Knee: the median of the long nights' outdoor minima (18 to 9 h), 1 K lower. Week: the median, at each night's
    coldest hour without heat, of what follows the outdoor air with a lag of a week."""
    fitted = respond(hours_of(Made(), OUT, *stepped(Made(), OUT)))
    nights = [slice(24 * day + 18, 24 * day + 33) for day in range(N // 24 - 1)]
    found = without_heat(fitted, np.ones(len(nights), dtype=bool)).line
    assert found is not None
    assert found.knee_c == pytest.approx(float(np.median([OUT[night].min() for night in nights])) - 1.0)
    air, week = run(fitted)[0], following(OUT, 168.0)
    coldest = [night.start + int(np.argmin(air[night])) for night in nights]
    assert found.week_c == pytest.approx(float(np.median(week[coldest])))
