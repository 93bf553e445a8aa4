"""Study of the balance of the house on simulated houses whose truth is known: python -m studies.house OUT.csv 24.

Rows: one a house, kind of logging and figure, with what was told, its band, and the truth. HOUSE.md holds the results.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from studies.house_winters import AWAY_K, HEATERS, Winter, by_hour, hours_of, loss_truth, run, stopped, winter

from reportgen.measures.house.failure import AFTER_H, air_after, stops
from reportgen.measures.house.hold import change_span, ratios, usual_target
from reportgen.measures.house.hours import EVENING_H, MORNING_H, NIGHT_END_H, NIGHT_H, HouseHours
from reportgen.measures.house.loss import counted_nights, loss_by_state, loss_w_per_k
from reportgen.measures.house.meter import by_the_hour
from reportgen.measures.house.response import Response, respond
from reportgen.measures.house.size import BUY, flat_out, size_w
from reportgen.measures.house.without_heat import without_heat
from reportgen.problems import NotEnoughData

KINDS = {  # what the grower logs
    "probe, light, wind": {"probe": True, "light": True, "wind": True},
    "probe, light": {"probe": True, "light": True, "wind": False},
    "air only": {"probe": False, "light": False, "wind": False},
    "air, light, weekly meter": {"probe": True, "light": True, "wind": False},
}
WEEK_H = 168
TEN = 10


def rows(seed: int, heater: str) -> Iterator[dict[str, Any]]:
    """Every figure of one house under every kind of logging."""
    one = winter(seed, heater)
    frame = run(one)
    truth: dict[str, Any] = {}
    for kind, logs in KINDS.items():
        base = {"seed": seed, "heater": heater, "place": one.place, "altered": bool(one.marks), "kind": kind}
        try:
            hours = hours_of(one, frame, **logs)
            if "meter" in kind:
                hours = _metered(hours)
            house = respond(hours)
        except NotEnoughData as why:
            yield base | {"figure": "refused", "why": str(why)}
            continue
        base |= {"at_limit": house.balance.at_limit}
        for row in _figures(one, frame, house, truth):
            yield base | row


def _metered(hours: HouseHours) -> HouseHours:
    sums = []
    for first in range(0, hours.count, WEEK_H):
        end = min(first + WEEK_H, hours.count)
        sums.append((first, end, float(hours.heaters_w[first:end].sum())))
    return by_the_hour(replace(hours, heaters_w=np.zeros(hours.count)), sums)


def _figures(one: Winter, frame: pd.DataFrame, house: Response, truth: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield from _bare(one, house, truth)
    yield from _losses(one, frame, house)
    if one.heater == "none":
        return
    yield from _failures(one, frame, house, truth)
    yield from _holds(one, frame, house, truth)
    yield from _sizes(one, frame, house, truth)


def _row(figure: str, estimate: float, low: float, high: float, true: float, **more: Any) -> dict[str, Any]:
    return {"figure": figure, "told": estimate, "low": low, "high": high, "true": true} | more


def _bare(one: Winter, house: Response, truth: dict[str, Any]) -> Iterator[dict[str, Any]]:
    if "bare" not in truth:
        truth["bare"] = by_hour(run(one, heater_w=0.0)["temp_in_c"]).to_numpy()
    spans = house.hours.nights(EVENING_H, MORNING_H)
    true = truth["bare"][spans].min(axis=1)
    try:
        found = without_heat(house, np.ones(len(spans), dtype=bool))
    except NotEnoughData as why:
        yield {"figure": "refused no heat", "why": str(why)}
        return
    outdoors = house.hours.temp_outdoor_c[spans].min(axis=1)
    for night in np.argsort(outdoors)[: len(spans) // 5]:
        middle, half = float(found.estimate_c[night]), float(found.half_k[night])
        yield _row("no heat, coldest fifth", middle, middle - half, middle + half, float(true[night]), night=int(night))
    assert found.season_c is not None and found.season_half_k is not None
    low, high = found.season_c - found.season_half_k, found.season_c + found.season_half_k
    yield _row("no heat, season minimum", found.season_c, low, high, float(true.min()))


def _losses(one: Winter, frame: pd.DataFrame, house: Response) -> Iterator[dict[str, Any]]:
    spans = house.hours.nights(NIGHT_H, NIGHT_END_H)[counted_nights(house)]
    try:
        band, _ = loss_w_per_k(house)
    except NotEnoughData as why:
        yield {"figure": "refused loss", "why": str(why)}
        return
    yield _row("loss", band.estimate, band.low, band.high, loss_truth(one, frame, house.hours, spans.ravel()))
    if not one.marks:
        return
    at = spans.ravel()
    for state, (own, _) in loss_by_state(house).items():
        if own is not None:
            true = loss_truth(one, frame, house.hours, at[house.hours.state[at] == state])
            yield _row("loss by state", own.estimate, own.low, own.high, true, state=state)


def _failures(one: Winter, frame: pd.DataFrame, house: Response, truth: dict[str, Any]) -> Iterator[dict[str, Any]]:
    try:
        found = stops(house)
    except NotEnoughData as why:
        yield {"figure": "refused failure", "why": str(why)}
        return
    starts = house.hours.nights(NIGHT_H, NIGHT_H + 8)
    if "stops" not in truth:
        heated = by_hour(frame["heater_w"]).to_numpy()[starts].mean(axis=1) > 0.02 * one.params.heater_w
        cold = by_hour(frame["temp_out_c"]).to_numpy()[starts].mean(axis=1)
        order = [int(n) for n in np.argsort(np.where(heated, cold, np.inf)) if heated[n] and n > 3][:TEN]
        truth["stops"] = stopped(one, frame, order)
    for evening, air in truth["stops"].items():
        for h in AFTER_H:
            outside = float(
                house.hours.temp_outdoor_c[24 * evening + 20 + max(h - 3, 0) : 24 * evening + 20 + h].mean()
            )
            middle, half = air_after(found, outside, h, hold_of(house))
            yield _row(
                f"failure {h} h, ten coldest", middle, middle - half, middle + half, float(air[h - 1]), night=evening
            )


def hold_of(house: Response) -> float:
    """Median crop air of dark hours in which the thermostat commands, else of the heated ones [°C]."""
    hours = house.hours
    seen = hours.temp_air_c[hours.commanded & hours.dark]
    if len(seen) < 100:
        seen = hours.temp_air_c[hours.heated & hours.dark]
    return float(np.median(seen))


def _holds(one: Winter, frame: pd.DataFrame, house: Response, truth: dict[str, Any]) -> Iterator[dict[str, Any]]:
    measured = float(by_hour(frame["heater_w"]).sum()) / 1000.0
    target = usual_target(house, hold_of(house))
    for away in AWAY_K:
        if away not in truth:
            other = run(one, hold_c=one.params.hold_c + away)
            truth[away] = float(by_hour(other["heater_w"]).sum()) / 1000.0
        (share,) = ratios(house, target, [away])
        middle, low, high = _told(house, measured, share, _degree_hours(house, away))
        if measured > 100.0:
            yield _row(f"hold {away:+.0f} K", middle, low, high, truth[away], measured=measured)


def _told(house: Response, measured: float, run_share: float, degree_hours: float) -> tuple[float, float, float]:
    """Heat at the other hold [kWh], low and high: the mean of both ways, at its limit the run alone."""
    middle = run_share if house.balance.at_limit else 0.5 * (run_share + degree_hours)
    change = [measured * (1.0 + (middle - 1.0) * end) for end in change_span(house)]
    return measured * middle, max(min(change), 0.0), max(change)


def _degree_hours(house: Response, by_k: float) -> float:
    """Base temperature by scan over days (Fels 1986), the base moved with the hold."""
    days = house.hours.count // 24 * 24
    heat = house.hours.heaters_w[:days].reshape(-1, 24).sum(axis=1)
    best = (np.inf, 0.0)
    for base in np.arange(-5.0, 25.1, 0.25):
        x = np.maximum(base - house.hours.temp_outdoor_c[:days], 0.0).reshape(-1, 24).sum(axis=1)
        k = float(x @ heat) / max(float(x @ x), 1e-9)
        best = min(best, (float(((heat - k * x) ** 2).sum()), float(base)))
    moved, same = (np.maximum(best[1] + k - house.hours.temp_outdoor_c, 0.0).sum() for k in (by_k, 0.0))
    return float(moved / same) if same > 0 else 1.0


def _sizes(one: Winter, frame: pd.DataFrame, house: Response, truth: dict[str, Any]) -> Iterator[dict[str, Any]]:
    dial = one.params.hold_c + 0.4  # middle of the thermostat's swing
    for colder in (0.0, 5.0):
        try:
            band = size_w(house, dial, colder)
        except NotEnoughData as why:
            yield {"figure": "refused size", "why": str(why)}
            return
        key = f"size{colder}"
        if key not in truth:
            truth[key] = _need(one, colder)
        name = "heater size" if not colder else "heater size, 5 K colder"
        yield _row(name, band.estimate, band.low, band.high, truth[key])
    bought = BUY * size_w(house, dial).estimate
    air = by_hour(run(one, heater_w=bought)["temp_in_c"]).to_numpy()
    yield _row("short of the hold with the heater to buy", 0.0, -1.0, np.inf, float(air.min()) - one.params.hold_c)
    try:
        flat = flat_out(house, dial)
    except NotEnoughData as why:
        yield {"figure": "refused flat out", "why": str(why)}
        return
    true = _flat_truth(one, truth)
    if true is not None:
        yield _row("flat out", flat.outdoor_c, flat.outdoor_c - flat.half_k, flat.outdoor_c + flat.half_k, true)


def _large(one: Winter, colder: float) -> pd.DataFrame:
    """The winter, colder by so much, with a heater that is never at its limit.

    A switching heater of that size overshoots and would ask for too much: its thermostat is lowered by as much as the
    heated dark hours lie over the dial.
    """
    weather = one.weather.assign(temp_c=one.weather["temp_c"] - colder)
    twin = replace(one, weather=weather)
    params = one.params
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    watts = 2.5 * loss * max(params.hold_c - float(weather["temp_c"].min()), 4.0)
    dial = params.hold_c + 0.4
    frame = run(twin, heater_w=watts, hysteresis_k=0.1, hold_c=dial)
    heated = (frame["heater_w"] > 0.02 * watts) & (frame["solar"] < 5.0)
    over = float(frame["temp_in_c"][heated].mean()) - dial
    return run(twin, heater_w=watts, hysteresis_k=0.1, hold_c=dial - over)


def _need(one: Winter, colder: float) -> float:
    heat = by_hour(_large(one, colder)["heater_w"]).to_numpy()
    return float(np.convolve(heat, np.ones(3) / 3, "valid").max())


def _flat_truth(one: Winter, truth: dict[str, Any]) -> float | None:
    """Where the line of true night needs on night outdoors reaches the rated power."""
    if "flat" not in truth:
        x, y = [], []
        for colder in (0.0, 6.0, 12.0):
            frame = _large(one, colder)
            heat, out = (by_hour(frame[c]).to_numpy() for c in ("heater_w", "temp_out_c"))
            spans = np.arange(len(heat) // 24 - 1)[:, None] * 24 + np.arange(20, 30)[None, :]
            spans = spans[len(spans) // 6 : -(len(spans) // 6)]
            x.append(out[spans].mean(axis=1))
            y.append(heat[spans].mean(axis=1))
        cold, need = np.concatenate(x), np.concatenate(y)
        near = np.abs(need - one.params.heater_w) < 0.3 * one.params.heater_w
        truth["flat"] = None
        if near.sum() >= 15:
            slope, offset = np.polyfit(cold[near], need[near], 1)
            truth["flat"] = float((one.params.heater_w - offset) / slope)
    return truth["flat"]


def main(out: str, houses: int, first: int = 0) -> None:
    """Rows of that many houses of every kind of heater, written as they come."""
    found: list[dict[str, Any]] = []
    for seed in range(first, first + houses):
        for heater in HEATERS:
            found += rows(seed, heater)
        pd.DataFrame(found).to_csv(Path(out), index=False)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 0)
