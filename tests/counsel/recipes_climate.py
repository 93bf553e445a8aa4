"""Frost, damp, soil, light and record: the numbers of each sentence from the headings of the tables alone."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd
from counsel.said import Expected, Recipe, Tables, day_of, numbers


def _coldest(t: Tables, claim: str) -> Expected:
    nights = t("frost_nights")
    coldest = nights.loc[nights["inside °C"].idxmin()]
    after_midnight = coldest["coldest at"] < "12:00"
    day = pd.Timestamp(coldest["date"]) + pd.Timedelta(days=int(after_midnight))
    line = coldest["inside °C"] - coldest["above the line K"]
    return coldest["inside °C"], day.day, -coldest["above the line K"], line


def _alarm(t: Tables, claim: str) -> Expected:
    row = t("frost_alarms").set_index("alarm °C").loc[numbers(claim)[0][0]]
    return row.name, row["rings"], row["needed"], row["shortest warning h"] * 60


def _without_heat(t: Tables, claim: str) -> Expected:
    return t("frost_bare")["without heat °C"].min(), None  # the date is of a crop, not of the coldest night


def _damp(t: Tables, claim: str) -> Expected:
    months = t("damp_months")
    high = months["h above the high line"].sum()
    return None, high, 100 * high / months["h recorded"].sum(), None, months["h above the extreme line"].sum()


def _dryer(t: Tables, claim: str) -> Expected:
    row = t("damp_dryer").iloc[0]
    return row["ran h"], 100 * row["still above h"] / row["ran h"], row["set %"]


def _airing(t: Tables, claim: str) -> Expected:
    hours = t("damp_airing")
    drier, wetter = hours["h drier outside"].sum(), hours["h not drier outside"].sum()
    share = 100 * drier / (drier + wetter)
    assert ("over 99" in claim.replace("\u00a0", " ").lower()) == (share > 99)
    return (None, drier + wetter) if "%" in claim else (drier + wetter,)


def _fails(t: Tables, claim: str) -> Expected:
    row = t("frost_after").set_index("outdoors °C").loc[numbers(claim)[0][0]]
    assert (row["hours to line"] == "<3") == ("within three hours" in claim)
    return (row.name,)


def _bed_below(t: Tables, claim: str) -> Expected:
    days = t("soil_days")
    return None, 100 * days["hours below the aim"].sum() / (24 * len(days)), days["bed mean °C"].mean()


def _dark(t: Tables, claim: str) -> Expected:
    dark = t("light_length").query("`day length h` < 10")["date"]
    return len(dark), day_of(dark.min()), day_of(dark.max())


def _light(t: Tables, claim: str) -> Expected:
    inside = t("light_days")["inside mol/m²"].dropna()
    return inside.mean(), 12, 100 * (inside >= 12).mean()


def _mould(t: Tables, claim: str) -> Expected:
    visits = t("damp_visits")
    found = visits[visits["mould or rot"] == "yes"]
    warned = (found["of these, after a wet spell that ranks"] == "yes").sum()
    assert ("none of them" in claim) == (warned == 0)
    return [len(found), len(visits), *([warned] if warned else [])]


CLIMATE: Mapping[str, Recipe] = {
    "mould-index-did-not-fit": _mould,
    "coldest-moment": _coldest,
    "which-alarm-line": _alarm,
    "without-any-heat": _without_heat,
    "hours-too-damp": _damp,
    "what-the-dehumidifier-did": _dryer,
    "airing-or-drying": _airing,
    "bed-below-the-root-line": _bed_below,
    "days-under-ten-hours": _dark,
    "daily-light": _light,
    "if-the-heat-fails": _fails,
}
