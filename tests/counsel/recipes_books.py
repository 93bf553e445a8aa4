"""Heat, harvest, changes and winters: the numbers of each sentence from the headings of the tables alone."""

from __future__ import annotations

import re
from collections.abc import Mapping

from counsel.said import Expected, Recipe, Tables, numbers


def _fed(t: Tables, claim: str) -> Expected:
    weeks = t("harvest_weeks")
    return None, (weeks["half or more"] == "yes").sum(), len(weeks)  # the household's need is in season.toml


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
    """All of the costs' table, the last of the running harvest, and one over the other."""
    total, kg = t("harvest_costs")["EUR this winter"].max(), t("harvest_running")["kg picked"].max()
    return (total, kg, total / kg)


BOOKS: Mapping[str, Recipe] = {
    "the-balance": _balance,
    "heat-loss": _loss,
    "fed-the-household": _fed,
    "best-use-of-ground": _ground,
    "delivery-lasts": _delivery,
    "than-last-winter-night-humidity": _night_air,
}
