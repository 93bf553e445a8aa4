"""Heat, harvest, changes and winters: the numbers of each sentence from the headings of the tables alone."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pandas as pd
from counsel.said import Expected, Recipe, Tables, numbers


def _fed(t: Tables, claim: str) -> Expected:
    weeks = t("harvest_weeks")
    eaten, need = weeks["kg eaten or stored"], weeks["kg you would eat"]
    assert ((weeks["half or more"] == "yes") == (eaten >= need / 2)).all()
    return 100 * eaten.sum() / need.sum(), (eaten >= need / 2).sum(), len(weeks)


def _ground(t: Tables, claim: str) -> Expected:
    yields = t("harvest_crops")["kg/m²"]
    return yields.max(), yields.min()


def _delivery(t: Tables, claim: str) -> Expected:
    row = t("harvest_delivery").set_index("outdoors °C").loc[numbers(claim)[0][0]]
    days = re.search(r"lasts about [\d.]+\sdays?|about [\d.]+\sdays?\.", claim)  # long ones are told in days
    return row.name, row["amount"], row["hours"] / (24.0 if days else 1.0)


def _night_air(t: Tables, claim: str) -> Expected:
    return (abs(t("winters_rows").set_index("key").loc["night_humidity", "equal weather"]),)


def _loss(t: Tables, claim: str) -> Expected:
    figures = t("heat_loss").set_index("figure")["W/K"]
    found = next(figures[name] for name in figures.index if name == "found" or name.endswith("as it is now"))
    return found, figures["expected from cover and air changes"]


def _balance(t: Tables, claim: str) -> Expected:
    """The parts of the balance added up, the last of the running harvest, and one over the other."""
    parts = t("harvest_balance").set_index("what")["EUR"]
    total = parts[["heat", "appliances", "the costs book", "a year's share of the changes"]].sum()
    assert abs(total - parts["in all"]) < 0.005 and abs(total - t("harvest_costs")["EUR this winter"].max()) < 0.005
    kg = t("harvest_running")["kg picked"].max()
    return (total, kg, total / kg)


def _bare(t: Tables, claim: str) -> Expected:
    """The stretch of the most ground and weeks: its ground, its bed's, its weeks, and the day after it was cleared."""
    beds = t("harvest_beds")
    (_, row), *_ = beds.assign(size=beds["m² bare then"] * beds["weeks bare afterwards"]).nlargest(1, "size").iterrows()
    first = pd.Timestamp(row["to"]) + pd.Timedelta(days=1)
    assert row["bed"] in claim and row["crop"] in claim
    return row["m² bare then"], row["m² of its bed"], row["weeks bare afterwards"], first.day


def _size(t: Tables, claim: str) -> Expected:
    """The coldest outdoors, the hardest three hours and what the main heater gives, watts to the nearest fifty."""
    figures = t("heat_size").set_index("figure")
    hardest, have = (
        50 * round(figures.loc[name, "W"] / 50) for name in ("hardest three hours", "main heaters at most")
    )
    return figures.loc["hardest three hours", "outdoors °C"], hardest, have


def _fumes_water(t: Tables, claim: str) -> Expected:
    return (t("heat_sources")["water set free kg"].sum(),)


BOOKS: Mapping[str, Recipe] = {
    "the-balance": _balance,
    "empty-beds": _bare,
    "heater-size": _size,
    "fumes-in-the-house": _fumes_water,
    "heat-loss": _loss,
    "fed-the-household": _fed,
    "best-use-of-ground": _ground,
    "delivery-lasts": _delivery,
    "than-last-winter-night-humidity": _night_air,
}
