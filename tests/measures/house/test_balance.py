"""The balance of a house, on houses whose every coefficient is known because they were made with them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from measures.house.made_house import Made, hours_of, stepped, weather

from reportgen.measures.house.balance import fit_balance, usable
from reportgen.measures.house.failure import air_after, stops
from reportgen.measures.house.loss import loss_by_state, loss_w_per_k
from reportgen.measures.house.response import after_stop, respond, run
from reportgen.measures.house.size import size_w, sizes_w
from reportgen.measures.house.without_heat import BELOW_OUTDOORS_K, without_heat
from reportgen.problems import NotEnoughData

OUT = weather()


def house(made: Made | None = None, **more: object):  # type: ignore[no-untyped-def]
    """Hours of a made house under OUT."""
    made = made or Made()
    return hours_of(made, OUT, *stepped(made, OUT), **more)


def test_the_loss_of_a_made_house_is_found() -> None:
    """U is the one coefficient that all hours tell apart; the centred difference of the air costs under 2 %."""
    for u in (60.0, 150.0, 400.0):
        found = fit_balance(house(Made(loss_w_k=u, rated_w=12_000.0)))
        assert found.loss_w_k[0] == pytest.approx(u, rel=0.02)
        assert found.kind == "no probe" and not found.at_limit


def test_twice_the_heat_and_twice_the_watts_is_the_same_house() -> None:
    """Scaling: all coefficients go with the heat's unit, none with its size."""
    one, two = house(), house()
    two = replace(two, heaters_w=2.0 * two.heaters_w, rated_w=8000.0)
    first, second = fit_balance(one), fit_balance(two)
    assert second.loss_w_k[0] == pytest.approx(2.0 * first.loss_w_k[0], rel=1e-3)
    assert second.air_wh_k == pytest.approx(2.0 * first.air_wh_k, rel=2e-2, abs=5.0)


def test_two_states_have_two_losses() -> None:
    """A house that was tightened in mid-season: neither loss is the mean of both."""
    half = len(OUT) // 2
    loose, tight = Made(loss_w_k=200.0), Made(loss_w_k=120.0)
    a, p = stepped(loose, OUT)
    b, q = stepped(tight, OUT)
    state = np.where(np.arange(len(OUT)) < half, 0, 1)
    both = hours_of(loose, OUT, np.where(state, b, a), np.where(state, q, p), state=state)
    found = fit_balance(both)
    assert found.loss_w_k[0] == pytest.approx(200.0, rel=0.08)
    assert found.loss_w_k[1] == pytest.approx(120.0, rel=0.08)
    told = loss_by_state(respond(both))
    assert told[0][0] is not None and told[1][0] is not None
    assert told[0][0].low < 200.0 < told[0][0].high and told[1][0].low < 120.0 < told[1][0].high
    assert told[0][0].estimate > 1.4 * told[1][0].estimate


def test_a_heater_at_its_limit_does_not_make_the_house_look_tighter() -> None:
    """Hours at rated power: the air answers, not the heat. The loss found stays that of the house."""
    weak = Made(rated_w=900.0)
    found = fit_balance(hours_of(weak, OUT, *stepped(weak, OUT)))
    assert found.at_limit
    assert found.loss_w_k[0] == pytest.approx(150.0, rel=0.12)


def test_the_first_three_days_and_unlogged_hours_are_not_fitted() -> None:
    """What is not logged takes no part, whatever stands in it."""
    logged = np.ones(len(OUT), dtype=bool)
    logged[500:560] = False
    whole = house(logged=logged)
    spoiled = replace(whole, heaters_w=np.where(logged, whole.heaters_w, 3999.0))
    assert not usable(whole)[:72].any() and not usable(whole)[500:560].any()
    found = fit_balance(spoiled)
    assert found.loss_w_k[0] == pytest.approx(fit_balance(whole).loss_w_k[0], rel=1e-6)
    assert np.isnan(found.misfit_w[510]) and np.isfinite(found.misfit_w[600])


@pytest.mark.parametrize(("spoil", "words"), [("cold", "dark hours were heated"), ("even", "alike outdoors")])
def test_too_little_heat_or_too_even_a_winter_is_refused(spoil: str, words: str) -> None:
    """No heated hours, or no spread outdoors: nothing is told."""
    hours = house()
    if spoil == "cold":
        hours = replace(hours, heaters_w=np.where(np.arange(hours.count) < 200, hours.heaters_w, 0.0))
    else:
        hours = replace(hours, temp_outdoor_c=np.full(hours.count, 1.0))
    with pytest.raises(NotEnoughData, match=words):
        fit_balance(hours)


def test_the_winter_without_heat_is_what_the_same_house_did_without_heat() -> None:
    """The made house stepped again without heat is the truth; the response comes within half a kelvin of its nights."""
    made = Made()
    told, heat = run(respond(house(made)))
    true, _ = stepped(made, OUT, heated=False)
    assert not heat.any()
    cold = np.quantile(OUT, 0.3) > OUT
    cold[:96] = False
    assert float(np.abs(told - true)[cold].mean()) < 0.5
    assert float(np.abs(told - true)[cold].max()) < 2.0


def test_the_same_target_asks_for_the_same_heat() -> None:
    """Running the winter with what was logged as target changes nothing: the response to no change is none."""
    hours = house()
    fitted = respond(hours)
    air, heat = run(fitted, np.where(hours.heaters_w > 0, hours.temp_air_c, -50.0), 1e9)
    assert heat == pytest.approx(hours.heaters_w, abs=1e-6)
    assert air == pytest.approx(hours.temp_air_c, abs=1e-9)


def test_a_heater_that_stops_lets_the_air_fall_by_the_closed_form() -> None:
    """One capacity and one loss, no masses: x(t) = −(P/U)(1 − (1 + U/C)^−t), the backward step's own closed form, which
    goes to −(P/U)(1 − e^(−Ut/C)) for small steps (first-order linear system, any textbook)."""
    fitted = respond(house())
    bare = replace(
        fitted,
        loss_w_k=np.full(fitted.hours.count, 100.0),
        balance=replace(fitted.balance, air_wh_k=500.0),
        links_w_k=np.zeros(1),
        lags_h=np.array([4.0]),
        held_w_k=0.0,
        hours=replace(fitted.hours, heaters_w=np.full(fitted.hours.count, 800.0)),
    )
    starts = np.array([1000])
    fall = after_stop(bare, starts, 8)[:, 0] - fitted.hours.temp_air_c[1000:1008]
    expected = -8.0 * (1.0 - (1.0 + 100.0 / 500.0) ** -np.arange(1.0, 9.0))
    assert fall == pytest.approx(expected, abs=1e-9)


def test_after_a_failure_the_air_is_where_the_made_house_went() -> None:
    """Truth: the made house with its heater off from 20 h of a cold night. Told: within the printed band."""
    made = Made()
    fitted = stops(respond(house(made)))
    cold = sorted(range(5, len(OUT) // 24 - 2), key=lambda d: float(OUT[d * 24 + 20 : d * 24 + 28].mean()))[:6]
    for day in cold:
        start = 24 * day + 20
        true, _ = stepped(made, OUT, off_from=start)
        for h in (3, 8):
            outside = float(OUT[start + max(h - 3, 0) : start + h].mean())
            told, half = air_after(fitted, outside, h, made.hold_c)
            assert abs(told - true[start + h - 1]) < half
            assert told <= made.hold_c


def test_colder_outdoors_is_colder_after_a_failure_and_less_sure() -> None:
    """The air falls with the outdoor air, and beyond the coldest heated night the band widens."""
    fitted = stops(respond(house()))
    coldest = float(fitted.outdoor_c[8].min())
    rows = [air_after(fitted, out, 8, 6.0) for out in (0.0, -5.0, coldest - 4.0, coldest - 12.0)]
    assert [row[0] for row in rows] == sorted((row[0] for row in rows), reverse=True)
    assert rows[3][1] > rows[2][1] > 0


def test_no_night_without_heat_is_told_colder_than_outdoors() -> None:
    """Physics: glass under a clear sky may fall a degree under the outdoor air, not further."""
    draught = np.where(np.arange(len(OUT)) % 170 < 20, 6000.0, 0.0)  # a door ajar: the fit sees a monstrous loss
    made = Made()
    hours = hours_of(made, OUT, *stepped(made, OUT, draught_w=draught))
    spans = hours.nights(18, 33)
    told = without_heat(respond(hours), np.ones(len(spans), dtype=bool))
    assert (told.estimate_c >= OUT[spans].min(axis=1) - BELOW_OUTDOORS_K - 1e-9).all()
    assert told.season_c is not None and told.season_half_k is not None
    assert told.season_c == pytest.approx(float(told.estimate_c.min()))


def test_nights_that_are_not_whole_are_not_told() -> None:
    """A night with a long gap has no figure, and the coldest of the season is one of the others."""
    fitted = respond(house())
    spans = fitted.hours.nights(18, 33)
    whole = np.ones(len(spans), dtype=bool)
    everything = without_heat(fitted, whole)
    coldest = int(np.argmin(everything.estimate_c))
    whole[coldest] = False
    told = without_heat(fitted, whole)
    assert np.isnan(told.estimate_c[coldest]) and np.isfinite(told.estimate_c[coldest - 1])
    assert told.season_c is not None and everything.season_c is not None and told.season_c > everything.season_c
    assert without_heat(fitted, np.zeros(len(spans), dtype=bool)).season_c is None


def test_the_heater_needed_is_what_the_made_house_needs() -> None:
    """Truth: the made house with a heater without limit; its hardest three hours lie inside the band."""
    made = Made(rated_w=2500.0)
    _, need = stepped(replace(made, rated_w=1e9), OUT)
    true = float(np.convolve(need[96:], np.ones(3) / 3, "valid").max())
    told = size_w(respond(hours_of(made, OUT, *stepped(made, OUT))), made.hold_c)
    assert told.low < true < told.high
    assert size_w(respond(house(made)), made.hold_c, 5.0).estimate > told.estimate


def test_what_no_house_can_ask_for_is_refused() -> None:
    """5 K through a loss of U take about 5 · U more: a run that asks for ten times that, or for less, is no house's."""
    fitted = respond(house(Made(rated_w=2500.0)))
    now, colder = sizes_w(fitted, 6.0)
    loss = float(fitted.fitted_loss_w_k.max())
    assert 0.0 < colder.estimate - now.estimate < 1.8 * 5.0 * loss
    with pytest.raises(NotEnoughData, match=r"about [\d\u202f]+\u00a0W more, far beyond"):
        sizes_w(replace(fitted, fitted_loss_w_k=fitted.fitted_loss_w_k / 10.0, bed_outdoors_w_k=0.0), 6.0)
    gains = replace(fitted, loss_w_k=-0.5 * fitted.loss_w_k, bed_outdoors_w_k=0.0)  # a house that the cold warms
    with pytest.raises(NotEnoughData, match="no more heat than this winter"):
        sizes_w(gains, 6.0)


def test_the_loss_is_told_from_seven_nights_on() -> None:
    """Fewer nights heated for seven of their ten hours carry no figure."""
    hours = house()
    few = np.arange(hours.count) < 30 * 24
    fitted = respond(hours)
    mild = replace(fitted, hours=replace(hours, temp_outdoor_c=np.where(few, hours.temp_outdoor_c, 9.0)))
    assert loss_w_per_k(fitted)[1] > 60
    with pytest.raises(NotEnoughData, match="nights were heated for 7 of 10 hours"):
        loss_w_per_k(replace(mild, hours=replace(mild.hours, temp_outdoor_c=np.full(hours.count, 5.0))))
