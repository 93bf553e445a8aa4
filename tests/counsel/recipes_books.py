"""Heat, harvest, changes and winters: the numbers of each sentence from the headings of the tables alone."""

from __future__ import annotations

import re
from collections.abc import Mapping

from counsel.said import Expected, Recipe, Tables, day_of, numbers


def _changed(t: Tables, claim: str) -> Expected:
    """Low and high end of the effect, without their signs: the sentence says warmer, colder, damper, less."""
    what = re.findall(r"“(.+?)”", claim)[0]
    row = t("changes_rows").set_index("what").loc[what]
    inside = [None] * len(numbers(what))
    if "%" in claim:  # of what it was without the change: that is in the effect's own table, not in this one
        return *inside, None, None
    return *inside, *sorted((abs(row["low"]), abs(row["high"])))


def _cannot_tell(t: Tables, claim: str) -> Expected:
    rows = t("changes_rows")
    return (rows["verdict"] == "cannot tell").sum(), rows["kind"].isin(["change", "spell"]).sum()


def _but_damper(t: Tables, claim: str) -> Expected:
    what = re.findall(r"“(.+?)”", claim)[0]
    row = t("changes_others").query("outcome == 'night_humidity'").set_index("what").loc[what]
    return *[None] * len(numbers(what)), row["effect"]


def _dark_weeks(t: Tables, claim: str) -> Expected:
    dark = t("light_length").query("`day length h` < 10")["date"]
    running = t("harvest_running").set_index("date")
    before, last = running.loc[: dark.min()].iloc[-2], running.loc[dark.max()]
    given = (last - before) / running.max()
    return 100 * given["EUR of heat"], 100 * given["kg picked"]


def _degree(t: Tables, claim: str) -> Expected:
    """The bill one kelvin either way of the season's hold, between the rows of the table."""
    hold = t("harvest_next").set_index("winter").loc["as it was", "hold °C"]
    bill = t("heat_price").set_index("hold °C")["EUR"]
    asked = [hold - 1, hold, hold + 1]
    less, same, more = bill.reindex(bill.index.union(asked)).interpolate("index").loc[asked]
    return 1, more - same, 1, same - less


def _per_kg(t: Tables, claim: str) -> Expected:
    running = t("harvest_running")
    kg, money = running["kg picked"].max(), running["EUR of heat"].max()
    return money / kg, kg, money


def _next_bill(t: Tables, claim: str) -> Expected:
    money = t("harvest_next").set_index("winter")["EUR for heat"]
    return money["next prices"], money["next prices"] - money["as it was"]


def _all_in(t: Tables, claim: str) -> Expected:
    return (t("harvest_costs")["EUR this winter"].max() / t("harvest_running")["kg picked"].max(),)


def _last_two(t: Tables, claim: str) -> Expected:
    saved = t("harvest_next").set_index("winter").loc["lower hold as paid", "EUR less than at the same hold"]
    return saved / t("harvest_running")["kg picked"].max(), 2


def _appliances(t: Tables, claim: str) -> Expected:
    sources = t("heat_sources").set_index("source")
    name = re.findall(r"came from the (.+?):", claim)[0]
    one = sources.loc[name]
    return 100 * one["kWh"] / sources["kWh"].sum(), one["kWh"], one["cost"]


def _fed(t: Tables, claim: str) -> Expected:
    weeks = t("harvest_weeks")
    return None, (weeks["half or more"] == "yes").sum(), len(weeks)  # the household's need is in season.toml


def _sown(t: Tables, claim: str) -> Expected:
    beds = t("harvest_beds").dropna(subset=["sown"])
    ready = beds[beds["picked before the dark weeks"] == "yes"]
    return len(beds), len(ready), day_of(ready["sown"].max())


def _hold(t: Tables, claim: str) -> Expected:
    months = t("heat_months")
    kept = 100 * (1 - months["hours below the aim"].sum() / months["hours"].sum())
    return *[None] * (len(numbers(claim)) - 1), kept


def _ground(t: Tables, claim: str) -> Expected:
    yields = t("harvest_crops")["kg/m²"]
    return yields.max(), yields.min()


def _delivery(t: Tables, claim: str) -> Expected:
    row = t("harvest_delivery").set_index("outdoors °C").loc[numbers(claim)[0][0]]
    return row.name, row["amount"], row["hours"]


def _shop(t: Tables, claim: str) -> Expected:
    running = t("harvest_running")
    return running["EUR in the shop"].max(), running["EUR of heat"].max()


def _weather(t: Tables, claim: str) -> Expected:
    return (abs(t("winters_rows").set_index("key").loc["weather", "difference"]),)


def _night_air(t: Tables, claim: str) -> Expected:
    return (abs(t("winters_rows").set_index("key").loc["night_humidity", "equal weather"]),)


def _loss(t: Tables, claim: str) -> Expected:
    figures = t("heat_loss").set_index("figure")["W/K"]
    found = next(figures[name] for name in figures.index if name == "found" or name.endswith("as it is now"))
    return found, figures["expected from cover and air changes"]


BOOKS: Mapping[str, Recipe] = {
    "helped": _changed,
    "hurt": _changed,
    "cannot-tell": _cannot_tell,
    "cost-of-a-kilogram": _per_kg,
    "next-winters-bill": _next_bill,
    "with-everything-counted": _all_in,
    "last-two-degrees": _last_two,
    "appliances-heat-too": _appliances,
    "heat-loss": _loss,
    "fed-the-household": _fed,
    "sown-in-time": _sown,
    "hold-kept": _hold,
    "best-use-of-ground": _ground,
    "delivery-lasts": _delivery,
    "against-the-shop": _shop,
    "helped-but-damper": _but_damper,
    "dark-weeks-money": _dark_weeks,
    "price-of-a-degree": _degree,
    "heater-flat-out": lambda t, _: (t("heat_sources")["hours flat out"].max(),),
    "winters-not-alike": lambda t, _: (len(t("winters_alike")),),
    "weather-of-two-winters": _weather,
    "than-last-winter-night-humidity": _night_air,
}
