"""Study of the dial on simulated houses really run lower: python -m studies.dial ROWS.csv 40 in `tests`.

Each house of studies/house_winters.py is run at its setting, logged by a sensor off by 0.2 K, and its offsets told by
`measures/dial.py`. Then the same house is really run 1, 2 and 3 K lower in the same winter, and at one of these in
another. A crop's limit is set where the rule would just allow it; the question is how many nights then lay under it.
`python -m studies.dial_results ROWS.csv DATE` writes DIAL.md and reportgen/measures/dial_measured.py.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from simulator import Change, Climate, synthetic
from studies.house_winters import STANDARD, Winter, run, winter
from studies.winters import FIRST, LAST, STEP_S, ZONE

from reportgen.measures.dial import FEWEST_NIGHTS, LIMIT_SHARE, Offsets, offsets
from reportgen.measures.dial_room import SPARE_K
from reportgen.measures.heating_hours import FLAT_OUT_SHARE, HEATED_SHARE
from reportgen.measures.house.hours import EVENING_H, MORNING_H

DOWN_K = (1.0, 2.0, 3.0)
HEATERS = ("large", "small")
ACCURACY_K, BIAS_K, NOISE_K = 0.5, 0.2, 0.05  # as printed on the sensor; as it really is
SWING_K = (0.4, 2.5)  # between the thermostat's on and off: common practice, no source
AJAR_NIGHTS, AJAR_TIMES = 3, (3.0, 12.0)  # a door left ajar that nobody wrote down: common practice, no source
WINTERS = ("same winter", "another winter")


def rows(seed: int, heater: str) -> Iterator[dict[str, Any]]:
    """Every setting of one house in both winters."""
    one = winter(seed, heater)
    rng = np.random.default_rng([20261127, seed, HEATERS.index(heater)])
    one = replace(one, params=replace(one.params, hysteresis_k=float(rng.uniform(*SWING_K))))
    doors = _ajar(one, rng)
    bias = float(rng.normal(0.0, BIAS_K))
    kept = _nights(_logged(run(one, doors), bias, rng), one, one.params.hold_c)
    base = {"seed": seed, "heater": heater, "place": one.place, "counted": int(kept["counted"].sum())}
    told = offsets(kept)
    if told is None or told.nights < FEWEST_NIGHTS:
        yield base | {"winter": "refused"}
        return
    base |= {"flat_out_nights": told.flat_out_nights}
    other = replace(one, weather=_other_weather(rng, seed))
    once = (DOWN_K[seed % len(DOWN_K)],)  # each house is run in the other winter at one setting
    for name, house, ajar, settings in ((WINTERS[0], one, doors, DOWN_K), (WINTERS[1], other, _ajar(one, rng), once)):
        for down in settings:
            setting = one.params.hold_c - down
            truth = _nights(run(house, ajar, hold_c=setting), house, setting)
            found = _judged(truth, told, setting, bias)
            if found is not None:
                yield base | {"winter": name, "down": down} | found


def _judged(truth: pd.DataFrame, told: Offsets, setting: float, bias: float) -> dict[str, Any] | None:
    """How the nights at that setting lay to what was told; None where hardly any was heated. A forecast is judged by
    the same logger, a crop's limit by the true air."""
    air = truth.loc[truth["counted"], "coldest_c"].to_numpy()
    if len(air) < 5:
        return None
    forecast = setting + told.tail_k
    limits = {
        "tail": setting + told.tail_k - ACCURACY_K,
        "coldest": setting + told.coldest_k - ACCURACY_K,
        "rule": setting + told.coldest_k - ACCURACY_K - SPARE_K,
    }
    out: dict[str, Any] = {"nights": len(air), "colder_than_forecast": float((air + bias < forecast).mean())}
    out["tail_error_k"] = float(np.quantile(air + bias, 0.05)) - forecast
    for name, limit in limits.items():
        out[f"under_{name}"] = int((air < limit).sum())
        out[f"spare_{name}_k"] = float(air.min()) - limit
    return out


def _nights(frame: pd.DataFrame, one: Winter, setting: float) -> pd.DataFrame:
    """The long nights as `dial.dial_nights` tells them, of the house after its last change."""
    local = frame.set_axis(pd.DatetimeIndex(frame.index - (frame.index[1] - frame.index[0])).tz_convert(STANDARD))
    hour = np.asarray(local.index.hour)
    dark = local[(hour >= EVENING_H) | (hour < MORNING_H - 24)]
    night = pd.Index((dark.index - pd.Timedelta(hours=12)).date)
    by_hour = dark["heater_w"].groupby([night, dark.index.floor("h")]).mean()
    least = HEATED_SHARE * float(by_hour.max())
    out = pd.DataFrame({"coldest_c": dark["temp_in_c"].groupby(night).min()})
    out["heated"] = (by_hour > max(least, 1e-9)).groupby(level=0).any()
    flat = by_hour >= FLAT_OUT_SHARE * one.params.heater_w
    after = max(one.marks).tz_convert(STANDARD).date() if one.marks else out.index[0]
    usable = out["heated"] & (out.index >= after) & (out.index > out.index[2])  # the first nights still settle
    out["at_limit"] = usable & (flat.groupby(level=0).mean() >= LIMIT_SHARE)
    out["counted"] = usable & ~out["at_limit"]
    out["offset_k"] = (out["coldest_c"] - setting).where(out["counted"])
    return out.assign(logger="bench")


def _logged(frame: pd.DataFrame, bias: float, rng: np.random.Generator) -> pd.DataFrame:
    return frame.assign(temp_in_c=frame["temp_in_c"] + bias + rng.normal(0.0, NOISE_K, len(frame)))


def _ajar(one: Winter, rng: np.random.Generator) -> Sequence[Change]:
    """Doors left ajar from 20 to 7 h on two nights of the winter."""
    first = pd.Timestamp(FIRST, tz=ZONE)
    days = rng.choice(np.arange(20, (pd.Timestamp(LAST) - pd.Timestamp(FIRST)).days - 20), AJAR_NIGHTS, replace=False)
    out = []
    for day in days:
        at = first + pd.Timedelta(days=int(day), hours=20)
        leaky = one.params.air_changes_h * float(rng.uniform(*AJAR_TIMES))
        out.append(Change(at=at, until=at + pd.Timedelta(hours=11), alters={"air_changes_h": leaky}))
    return out


def _other_weather(rng: np.random.Generator, seed: int) -> pd.DataFrame:
    climate = Climate(
        mean_c=rng.uniform(6.0, 10.0), swing_k=rng.uniform(8.0, 12.0), synoptic_sd_k=rng.uniform(2.8, 4.4)
    )
    first, last = (pd.Timestamp(day, tz=ZONE).tz_convert("UTC") for day in (FIRST, LAST))
    return synthetic(climate, first, last, 5000 + seed, STEP_S)


def main(out: str, seeds: int, first: int = 0) -> None:
    """Rows of that many seeds with either heater, written as they come."""
    found: list[dict[str, Any]] = []
    for seed in range(first, first + seeds):
        for heater in HEATERS:
            found += rows(seed, heater)
        pd.DataFrame(found).to_csv(Path(out), index=False)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 0)
