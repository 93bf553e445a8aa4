"""Events, levers and the hold: the numbers of each sentence from the headings of their tables alone."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pandas as pd
from counsel.said import Expected, Recipe, Tables, numbers

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")  # fmt: skip
DATE = re.compile(rf"(\d+)\s({'|'.join(MONTHS)})")
QUOTED = re.compile("“.*?”")
# What the condition of a verdict says beside its lever: the outcome, and whether as a share of the level without it.
SIDE = re.compile(r"to [\d.]+\s\S+ (damper|drier|less light|more light|warmer|cooler|more heat|less heat)")
SIDES = {
    "damper": "night_humidity", "drier": "night_humidity", "less light": "daily_light", "more light": "daily_light",
    "warmer": "lift", "cooler": "lift", "more heat": "watts_per_kelvin", "less heat": "watts_per_kelvin",
}  # fmt: skip
OPEN = ("try on and off", "change once", "cannot tell")


def _started(events: pd.DataFrame, claim: str) -> pd.Series:
    """The event that began on the first day the claim names."""
    day, month = next(iter(DATE.findall(claim)))
    begun = f"-{MONTHS.index(month) + 1:02d}-{int(day):02d}T"
    (row,) = (row for _, row in events.iterrows() if begun in row["from"])
    return row


def _day(moment: str) -> float:
    return float(moment[8:10])


def _last_day(moment: str) -> float:
    """The day on which what ends at that moment ended: of a midnight the day before, of which it is the end."""
    return _day(str(pd.Timestamp(moment) - pd.Timedelta(seconds=1)).replace(" ", "T"))


def _line(t: Tables) -> float:
    nights = t("frost_nights").dropna(subset=["inside °C"])
    return float((nights["inside °C"] - nights["above the line K"]).iloc[0])


def _cold_event(t: Tables, claim: str) -> Expected:
    """Day or days, minutes and line of a failure, the coldest, how far under the line, and what was lost."""
    events = t("events")
    row = _started(events[events["kind"].isin(["cold", "failure of the heat"])], claim)
    out: list[Any] = [_day(row["from"])]
    if len(DATE.findall(claim)) > 1:
        out.append(_last_day(row["to"]))
    minutes = row["minutes from the failure to the frost line"]
    if minutes == minutes:
        out += [minutes if "min it was" in claim.replace("\u00a0", " ") else minutes / 60, _line(t)]
    out.append(row["coldest °C"])
    if "under your frost line" in claim:
        out.append(_line(t) - row["coldest °C"])
    return [*out, *_losses(t, row["event"])]


def _losses(t: Tables, event: int) -> list[float]:
    met = t("events_crops")
    return list(met[(met["event"] == event) & (met["lost"] > 0)]["lost"])


def _loss(t: Tables, claim: str) -> Expected:
    """What each crop lost, then the days between which it was lost, where they are known."""
    events = t("events")
    (row,) = (row for _, row in events[events["kind"] == "loss"].iterrows() if f"lost to {row['cause']}" in claim)
    days = [_day(row["from"]), _last_day(row["to"])] if row["dated"] == "yes" else []
    return [*_losses(t, row["event"]), *days[: len(DATE.findall(claim))]]


def _fumes(t: Tables, claim: str) -> Expected:
    events = t("events")
    (row,) = (row for _, row in events[events["kind"] == "fire or fumes"].iterrows() if str(row["heater"]) in claim)
    assert row["levers on"] in claim
    return [row["days of burning"], *(None for quoted in QUOTED.findall(claim) for _ in numbers(quoted))]


def _ends(row: pd.Series) -> tuple[float, float]:
    """Low and high as they are said: of heat and light as a share, at most all of it."""
    share = [row[f"{end}, % of without it"] for end in ("low", "high")]
    low, high = share if share[0] == share[0] else (row["low"], row["high"])
    return max(low, -100.0) if share[0] == share[0] else low, high


def _condition(t: Tables, row: pd.Series) -> list[float | None]:
    """Numbers of the condition: both ends of what it did beside; others (years, winters) are no cell of these."""
    said: list[float | None] = []
    beside = t("levers_beside")
    for part in str(row["condition"] if row["condition"] == row["condition"] else "").split("; "):
        side = SIDE.search(part)
        if side is None:
            said += [None for _ in numbers(part)]
            continue
        of = (beside["lever"] == row["lever"]) & (beside["outcome"] == SIDES[side[1]])
        (cells,) = (cells for _, cells in beside[of].iterrows())
        said += sorted(abs(end) for end in _ends(cells))
    return said


def _lever(t: Tables, claim: str) -> Expected:
    """Name, verdict, condition, and both ends of what it did: abs of low and high, in the order in which they are."""
    levers = t("levers")
    (row,) = (row for _, row in levers.iterrows() if claim.startswith(f"“{row['lever']}”: {row['verdict']}"))
    low, high = _ends(row)
    ends = [abs(low), abs(high)]
    tail = claim.rpartition(": ")[2]
    assert ("between" in tail) == (low * high > 0)
    assert len(numbers(tail)) == 2
    return [*(None for _ in numbers(row["lever"])), *_condition(t, row), *(sorted(ends) if low * high > 0 else ends)]


def _cannot_tell(t: Tables, claim: str) -> Expected:
    verdicts = t("levers")["verdict"]
    return verdicts.isin(OPEN).sum(), (verdicts != "not judged").sum()


def _hold(t: Tables, claim: str) -> Expected:
    """Nights that count and nights asked for, both counted in the table of nights and of the rule's figures."""
    nights, figures = t("hold"), t("hold_advice").set_index("figure")["value"]
    plain = (nights["heated"] == "yes") & (nights["house as it is now"] == "yes") & (nights["event"] == "no")
    known = nights["coldest °C"].notna() & nights["held °C"].notna()
    counted = nights[plain & known & (nights["at full power, % of the hours"] < 5)]
    offset = counted["coldest °C"] - counted["held °C"]
    assert (offset - counted["offset K"]).abs().max() < 0.002
    assert (nights["counts"] == "yes").sum() == len(counted)
    return len(counted), figures["nights needed"]


GROUNDS: Mapping[str, Recipe] = {
    "cold-event": _cold_event,
    "loss-by-cause": _loss,
    "fire-or-fumes": _fumes,
    "worth-keeping": _lever,
    "better-left-undone": _lever,
    "not-worth-it": _lever,
    "cannot-tell": _cannot_tell,
    "the-hold": _hold,
}
