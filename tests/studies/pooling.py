"""Honesty study of pooling: groups of houses drawn from a bank of simulated ones, put to the recipe of the pages.

    nice python -m studies.pooling BANK.csv GROUPS.csv        (in `tests`)

draws the groups; `--write POOLING.md --date 2026-11-27` tells the table. The bank (`studies.pooling_bank`) holds what
the change estimator told of each house on dates with and without a deed, and the truth. Groups come in three
arrangements: all under one weather in one fortnight; under one weather in any fortnight; under many weathers. Houses
that could not tell are not drawn: as in a real group they are counted in words only. Groups of one size share houses of
the bank, so they are fewer than they look: weathers and fortnights are told beside them.
"""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).parents[1]))

from studies.pooling_bank import BED, FILM, NOTHING, WATER
from studies.pooling_results import write

from reportgen.gather.pool import judge
from reportgen.gather.pool_recipe import Floats
from reportgen.gather.types import BY_WARMTH, POOLED, RELATIVE, Member, Stratum

SEED = 20261129
DEEDS = {NOTHING: POOLED, FILM: POOLED, WATER: ("night_humidity",), BED: ("soil_mean",)}  # deed → outcomes it may alter
SIZES = (3, 5, 8, 12, 20)
LEAST_OF_USUAL = 0.5
GROUPS = 200  # of each outcome, warmth, deed, arrangement and size
ONE_FORTNIGHT, ONE_WINTER, MANY = "one fortnight", "one winter", "many weathers"
COLUMNS = (
    "outcome", "warmth", "deed", "arrangement", "k", "group", "cell", "mean", "low", "high", "next_low", "next_high",
    "verdict", "truth", "next_truth", "next_elsewhere",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Rows of a pool that lie under one weather, and of how many houses they are."""

    rows: NDArray[np.intp]
    houses: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Pool:
    """Members of the bank from which groups of one kind are drawn, with each one's truth, house and weather."""

    outcome: str
    warmth: str  # "heated", "unheated", "any"
    deed: str
    members: tuple[Member, ...]
    truth: Floats
    home: NDArray[np.intp]  # number of the house
    cell: NDArray[np.str_]  # weather and fortnight
    weather: NDArray[np.str_]
    places: Mapping[str, tuple[Place, ...]]  # by arrangement


def mild(bank: pd.DataFrame) -> pd.Series:
    """Rows of heat whose days before took less than half of what the house took before its other dates, in the mean.

    That half is about seven tenths of the winter's mean heat a day (16 houses). The same saving is a multiple of a
    mild autumn's heat, so that no share of it is told.
    """
    others = bank[bank["deed"] == NOTHING].groupby(["weather", "heated", "house", "outcome"])["before"].mean()
    usual = others.reindex(pd.MultiIndex.from_frame(bank[list(others.index.names)])).to_numpy()
    return (bank["outcome"] == "heat") & ~(bank["before"] >= LEAST_OF_USUAL * usual)


def told(bank: pd.DataFrame) -> pd.DataFrame:
    """Rows with an estimate and a truth, but no share of days before that were mild, or hardly above the error.

    Heat and watts per kelvin become a fraction of the days before.
    """
    hardly = bank["outcome"].isin(RELATIVE) & (bank["before"] <= bank["se"])
    rows = bank[bank["effect"].notna() & bank["truth"].notna() & ~hardly & ~mild(bank)].copy()
    scale = np.where(rows["outcome"].isin(RELATIVE), rows["before"], 1.0)
    for name in ("effect", "low", "high", "se", "truth"):
        rows[name] = rows[name] / scale
    rows["cell"] = rows["weather"] + " " + rows["fortnight"].astype(str)
    rows["home"] = rows["weather"] + " " + rows["heated"].astype(str) + " " + rows["house"].astype(str)
    return rows


def pools(bank: pd.DataFrame) -> Iterator[Pool]:
    """Every outcome, apart by warmth where the pages tell it apart, with nothing done and with what may alter it."""
    rows = told(bank)
    for outcome in POOLED:
        for warmth in ("heated", "unheated") if outcome in BY_WARMTH else ("any",):
            for deed, altered in DEEDS.items():
                if outcome in altered:
                    kept = rows[(rows["outcome"] == outcome) & (rows["deed"] == deed)]
                    yield _pool(outcome, warmth, deed, kept)


def _pool(outcome: str, warmth: str, deed: str, rows: pd.DataFrame) -> Pool:
    rows = rows if warmth == "any" else rows[rows["heated"] == (warmth == "heated")]
    members = tuple(
        Member(
            house=row.home, winter="", when=dt.date.fromisoformat(row.when), what=deed, heated=bool(row.heated),
            effect=row.effect, se=row.se, dof=row.dof, low=row.low, high=row.high, weather=row.cell,
        )
        for row in rows.itertuples()
    )  # fmt: skip
    homes = np.unique(rows["home"].to_numpy(dtype=str), return_inverse=True)[1].astype(np.intp)
    return Pool(
        outcome=outcome,
        warmth=warmth,
        deed=deed,
        members=members,
        truth=rows["truth"].to_numpy(dtype=np.float64),
        home=homes,
        cell=rows["cell"].to_numpy(dtype=str),
        weather=rows["weather"].to_numpy(dtype=str),
        places={
            ONE_FORTNIGHT: _places(rows["cell"].to_numpy(dtype=str), homes),
            ONE_WINTER: _places(rows["weather"].to_numpy(dtype=str), homes),
            MANY: (Place(rows=np.arange(len(rows)), houses=len(np.unique(homes))),),
        },
    )


def _places(names: NDArray[np.str_], homes: NDArray[np.intp]) -> tuple[Place, ...]:
    found = (np.flatnonzero(names == name) for name in np.unique(names))
    return tuple(Place(rows=rows, houses=len(np.unique(homes[rows]))) for rows in found)


def drawn(of: Pool, arrangement: str, k: int, rng: np.random.Generator) -> NDArray[np.intp] | None:
    """k houses and one more, the next where they are; None where the bank has too few."""
    enough = [place for place in of.places[arrangement] if place.houses > k]
    if not enough:
        return None
    rows = rng.permutation(enough[int(rng.integers(len(enough)))].rows)
    _, first = np.unique(of.home[rows], return_index=True)
    return rows[np.sort(first)[: k + 1]]


def groups(of: Pool, arrangement: str, k: int) -> Iterator[tuple[object, ...]]:
    """What the recipe says of each group; the mean truth where it was drawn; a next house there, and one anywhere.

    The mean truth of houses of one fortnight is that of all houses of the bank that could tell in it, else of all.
    """
    names = [of.outcome, of.warmth, of.deed, arrangement]
    rng = np.random.default_rng([SEED, k, *"".join(names).encode()])
    heated = None if of.warmth == "any" else of.warmth == "heated"
    for number in range(GROUPS):
        found = drawn(of, arrangement, k, rng)
        if found is None:
            return
        members = tuple(of.members[n] for n in found[:k])
        judged = judge(Stratum(outcome=of.outcome, unit="", heated=heated, members=members, refused=()))
        at, cell = judged.interval, of.cell[found[0]]
        there = of.cell == cell if arrangement == ONE_FORTNIGHT else slice(None)
        name = of.weather[found[0]] if arrangement == ONE_WINTER else cell
        yield (
            *names, k, number, str(name), at.mean, at.low, at.high, at.next_low, at.next_high, judged.verdict,
            of.truth[there].mean(), of.truth[found[k]], of.truth[_another(of, found[:k], rng)],
        )  # fmt: skip


def _another(of: Pool, own: NDArray[np.intp], rng: np.random.Generator) -> int:
    """A row of any house that is not of the group."""
    while True:
        row = int(rng.integers(len(of.home)))
        if of.home[row] not in of.home[own]:
            return row


def all_groups(bank: pd.DataFrame) -> pd.DataFrame:
    """Every kind of group that the bank can fill."""
    rows = [
        row
        for of in pools(bank)
        for arrangement in ((ONE_FORTNIGHT, ONE_WINTER, MANY) if of.deed == NOTHING else (ONE_FORTNIGHT, MANY))
        for k in SIZES
        for row in groups(of, arrangement, k)
    ]
    return pd.DataFrame(rows, columns=list(COLUMNS))


def main() -> None:
    """The command line of the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("bank", type=Path)
    parser.add_argument("groups", type=Path)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--date", default="")
    given = parser.parse_args()
    bank = pd.read_csv(given.bank)
    if not given.groups.exists():
        all_groups(bank).to_csv(given.groups, index=False)
    if given.write:
        write(bank, mild(bank), told(bank), pd.read_csv(given.groups), given.write, given.date)


if __name__ == "__main__":
    main()
