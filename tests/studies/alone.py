"""Honesty study of single houses: a cover, gaps or a curtain, told of one house alone, in autumn, midwinter and spring.

    nice python -m studies.alone ROWS.csv 0 24 --set fresh        (in `tests`)

adds the weathers 0 to 23 that `ROWS.csv` lacks; `--set tried` takes the seeds by which the method was chosen; `--before
EARLIER.csv --write ALONE.md --date 2026-11-27` tells the table beside rows that an earlier release told of the same
houses. Under each weather stand an unheated and a heated house with habits that nobody wrote down. In each something is
done twice in autumn, in midwinter and in spring, each simulated by itself beside the house left as it was, so that the
truth is known; and nine dates are told on which nothing was done. What a house without a probe in its bed would be told
comes from the same winters.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd

sys.path.insert(0, str(Path(__file__).parents[1]))

from effects.in_memory import _entry
from simulator import Change, Simulated
from studies.alone_results import write
from studies.changes import _around, mean_difference
from studies.house_winters import LATITUDES, _house, _weather
from studies.pooling_bank import AFTER_DAYS, NOTHING, Bankhouse, Sky, _logged, _noon, altered, run
from studies.winters import hidden

from reportgen.effects.causes import Cause, causes
from reportgen.effects.estimate import day_arrays, outcome_of
from reportgen.effects.outcomes import DayTable, day_table
from reportgen.effects.types import Outcome

SETS = {"tried": 20261201, "fresh": 20261202}  # seeds
SEASONS = (  # days of the season: 30 October to 13 November, …
    ("autumn", 12, 27), ("autumn", 27, 42), ("midwinter", 55, 100), ("spring", 115, 146)
)  # fmt: skip
QUIET = 9
FILM, SEAL, CURTAIN = "film", "seal", "curtain"
DEEDS = {  # which parameter, to what share of itself (the curtain: to what resistance at night, m²K/W)
    FILM: ("u_w_m2k", 0.65, 0.85),
    SEAL: ("air_changes_h", 0.3, 0.7),
    CURTAIN: ("curtain_m2kw", 0.08, 0.25),
}
TOLD = ("lift", "night_minimum", "heat", "watts_per_kelvin", "soil_mean")
COLUMNS_OF_BED = ("ts", "tsd", "tsr")
COLUMNS = (
    "weather", "heated", "house", "probe", "season", "when", "deed", "outcome", "effect", "low", "high", "before",
    "truth", "true_share", "refused",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """One diary line of one house: what its loggers tell, and the truth (and of heat the share that it is of what the
    days after took without it)."""

    season: str
    when: str
    deed: str
    cause: Cause
    table: DayTable
    truth: dict[str, float]
    true_share: float


def sky(of: str, number: int, heated: bool) -> Sky:
    """The weather of that number; every fifth is a station's typical year."""
    place = {3: "Greensboro", 8: "Sand Point"}.get(number % 10, "simulated weather")
    rng = np.random.default_rng([SETS[of], number])
    frame = _weather(place, rng, SETS[of] % 1000 * 1000 + number)
    return Sky(number=number, place=place, heated=heated, frame=frame, deeds=())


def house(of: str, under: Sky) -> tuple[Bankhouse, np.random.Generator]:
    """The house under a sky, and the generator from which its days are drawn."""
    rng = np.random.default_rng([SETS[of], under.number, int(under.heated)])
    params = _house(rng)
    coldest = float(under.frame["temp_c"].quantile(0.002))
    loss = params.u_w_m2k * params.glazing_m2 + 0.33 * params.air_changes_h * params.volume_m3
    power = loss * max(params.hold_c - coldest, 4.0) * float(rng.uniform(1.5, 2.2)) if under.heated else 0.0
    params = replace(params, heater_w=power)
    logged = int(rng.integers(0, 3))  # 0: light and humidity outdoors too
    seed = 10 * under.number + int(under.heated)
    habits = hidden(params, rng)
    latitude = LATITUDES[under.place]
    light, moist = logged == 0, logged < 2
    return Bankhouse(seed=seed, params=params, habits=habits, light=light, moist=moist, latitude=latitude), rng


def line(what: str, day: int) -> Change:
    """How the diary tells it: a date without a time of day."""
    return Change(at=_noon(day), what=what, touches=("envelope",), hoped_for=("warmer nights",))


def done(one: Bankhouse, of: Change, deed: str, rng: np.random.Generator) -> tuple[Change, ...]:
    """The house's habits with the deed."""
    name, low, high = DEEDS[deed]
    share = float(rng.uniform(low, high))
    return (*one.habits, replace(of, alters={name: share})) if deed == CURTAIN else altered(one, of, name, share)


def cases(of: str, under: Sky) -> Iterator[Told]:
    """Everything of one house: four deeds, each in a winter of its own, and the dates without one."""
    one, rng = house(of, under)
    base = run(under, one, one.habits)
    table = day_table(_logged(one, base))
    for day in np.sort(rng.choice(np.arange(10, 150), size=QUIET, replace=False)):
        told = line(NOTHING, int(day))
        season = next((name for name, first, end in SEASONS if first <= day < end), "between")
        yield _told(season, told, NOTHING, one, base, table, table)
    for season, first, end in SEASONS:
        deed = str(rng.choice(list(DEEDS)))
        day = int(rng.integers(first, end))
        told = line(deed, day)
        made = run(under, one, done(one, told, deed, rng), day + AFTER_DAYS)
        with_it = day_table(_logged(one, replace(made, changes=())))
        yield _told(season, told, deed, one, made, with_it, table)


def _told(
    season: str, told: Change, deed: str, one: Bankhouse, made: Simulated, table: DayTable, twin: DayTable
) -> Told:
    readings = _logged(one, replace(made, changes=()))
    (cause,) = causes(replace(readings, diary=(_entry(told, 2),)))
    truth = dict.fromkeys(TOLD, 0.0) if deed == NOTHING else mean_difference(table, twin, cause)
    level = float(twin.outcomes["heat"].reindex(_around(cause, 1)).mean()) if "heat" in twin.outcomes else 0.0
    share = truth["heat"] / level if level > 0 else float("nan")
    when = told.at.date().isoformat()
    return Told(season=season, when=when, deed=deed, cause=cause, table=table, truth=truth, true_share=share)


def without_probe(table: DayTable) -> DayTable:
    """What the house would tell without a probe in its bed."""
    weather = table.weather.drop(columns=[name for name in COLUMNS_OF_BED if name in table.weather])
    outcomes = table.outcomes.drop(columns=[name for name in ("soil_mean", "soil_swing") if name in table.outcomes])
    return replace(table, weather=weather, outcomes=outcomes)


def outcomes(told: Told, probe: bool) -> dict[str, Outcome]:
    """The outcomes of the study, as the pages would tell them."""
    arrays = day_arrays(told.table if probe else without_probe(told.table), (told.cause,), frozenset())
    return {name: outcome_of(told.cause, name, arrays) for name in TOLD}


def rows(of: str, under: Sky, told: Told) -> list[tuple[object, ...]]:
    """One row an outcome, with a probe in the bed and without."""
    name = under.place if under.place != "simulated weather" else f"{under.place} {of} {under.number}"
    return [
        (
            name, under.heated, under.number, probe, told.season, told.when, told.deed, outcome, o.effect, o.low,
            o.high, o.before_mean, told.truth.get(outcome, float("nan")), told.true_share, o.refused or "",
        )
        for probe in (True, False)
        for outcome, o in outcomes(told, probe).items()
    ]  # fmt: skip


def main() -> None:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rows", type=Path)
    parser.add_argument("first", type=int)
    parser.add_argument("end", type=int)
    parser.add_argument("--set", choices=sorted(SETS), default="fresh")
    parser.add_argument("--before", type=Path)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--date", default="")
    given = parser.parse_args()
    done = set()
    if given.rows.exists():
        old = pd.read_csv(given.rows)
        done = set(zip(old["house"], old["heated"].astype(bool), strict=True))
    for n in range(given.first, given.end):
        for heated in (False, True):
            if (n, heated) not in done:
                under = sky(given.set, n, heated)
                found = [row for told in cases(given.set, under) for row in rows(given.set, under, told)]
                table = pd.DataFrame(found, columns=list(COLUMNS))
                table.to_csv(given.rows, mode="a", header=not given.rows.exists(), index=False)
    if given.write:
        before = pd.read_csv(given.before) if given.before else None
        write(pd.read_csv(given.rows), before, given.write, given.date)


if __name__ == "__main__":
    main()
