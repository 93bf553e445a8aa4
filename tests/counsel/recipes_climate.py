"""Frost, damp, soil, light and record: the numbers of each sentence from the headings of the tables alone."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pandas as pd
from counsel.said import Expected, Recipe, Tables, day_of, numbers


def _crop_in_band(t: Tables, claim: str) -> Expected:
    crops, stood = t("frost_crops"), t("frost_stood")
    crop, bed = re.findall(r"The (.+?) in the bed “(.+?)”", claim)[0]
    margin = crops[(crops["crop"] == crop) & (crops["bed"] == bed)]["margin K"].min()
    here = stood[(stood["crop"] == crop) & (stood["bed"] == bed)].sort_values("coldest °C").iloc[0]
    return here["coldest °C"], None, -margin, here["band, warmer end °C"]  # the day stands in no row of its own


def _coldest(t: Tables, claim: str) -> Expected:
    nights = t("frost_nights")
    coldest = nights.loc[nights["inside °C"].idxmin()]
    after_midnight = coldest["coldest at"] < "12:00"
    day = pd.Timestamp(coldest["date"]) + pd.Timedelta(days=int(after_midnight))
    line = coldest["inside °C"] - coldest["above the line K"]
    return coldest["inside °C"], day.day, -coldest["above the line K"], line


def _below(t: Tables, claim: str) -> Expected:
    first = t("frost_margins").iloc[0]
    nights = t("frost_nights")
    below = int((nights["above the line K"] < 0).sum())
    assert below == first["nights"]
    line = (nights["inside °C"] - nights["above the line K"]).median()
    return below, line, first["hours"]


def _alarm(t: Tables, claim: str) -> Expected:
    row = t("frost_alarms").set_index("alarm °C").loc[numbers(claim)[0][0]]
    return row.name, row["rings"], row["needed"], row["shortest warning h"] * 60


def _failed(t: Tables, claim: str) -> Expected:
    worst = t("frost_failures").sort_values("minimum °C").iloc[0]
    return day_of(worst["start"]), worst["hours"], worst["minimum °C"]


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
    return (None,)


def _dew(t: Tables, claim: str) -> Expected:
    roof = t("damp_dew").set_index("where").loc["roof"]
    return roof["hours"], 100 * roof["hours"] / t("damp_months")["h recorded"].sum()


def _mould(t: Tables, claim: str) -> Expected:
    classes = t("damp_spells")["class"]
    counts = [(classes == rank).sum() for rank in ("high", "moderate")]
    return [count for count in counts if count]  # none is said in words


def _damp_spell(t: Tables, claim: str) -> Expected:
    """The longest run of hours above the line: the table has hours, the loggers minutes."""
    hours = t("damp_carpet")
    damp = hours["humidity %"] > 80
    runs = damp.groupby((~damp).cumsum()).sum()
    inside = hours[damp & ((~damp).cumsum() == runs.idxmax())]["date"]
    return runs.max(), day_of(inside.iloc[0]), day_of(inside.iloc[-1])


def _wave(t: Tables, claim: str) -> Expected:
    """The share of the air's swing is one wave fitted to all days: no mean of the table."""
    days = t("soil_wave")
    return days["bed wave K"].mean(), None, days["bed behind air h"].mean()


def _bed_season(t: Tables, claim: str) -> Expected:
    """The last seven days less the first seven, and what the weeks' table gives for each kelvin."""
    bed, weeks = t("soil_days")["bed mean °C"], t("soil_weeks")
    warmer = bed.iloc[-7:].mean() - bed.iloc[:7].mean()
    return warmer, warmer * weeks["kWh"].abs().sum() / weeks["change K"].abs().sum()


def _fails(t: Tables, claim: str) -> Expected:
    row = t("frost_after").set_index("outdoors °C").loc[numbers(claim)[0][0]]
    assert (row["hours to line"] == "<3") == ("within three hours" in claim)
    return (row.name,)


def _whole(t: Tables, claim: str) -> Expected:
    channels = t("record_channels")
    name = re.findall(r"on record at (.+?):", claim)[0]
    here = channels[channels["channel"] == f"{name} · air temperature"]["share of the season %"].max()
    assert claim.startswith("Over") == (here > 99)
    return (99.0,) if here > 99 else (here,)


def _bed_below(t: Tables, claim: str) -> Expected:
    days = t("soil_days")
    return None, 100 * days["hours below the aim"].sum() / (24 * len(days)), days["bed mean °C"].mean()


def _dark(t: Tables, claim: str) -> Expected:
    dark = t("light_length").query("`day length h` < 10")["date"]
    return len(dark), day_of(dark.min()), day_of(dark.max())


def _light(t: Tables, claim: str) -> Expected:
    inside = t("light_days")["inside mol/m²"].dropna()
    return inside.mean(), 12, 100 * (inside >= 12).mean()


def _gloomy(t: Tables, claim: str) -> Expected:
    longest = t("light_gloomy").sort_values("days").iloc[-1]
    return longest["days"], day_of(longest["first day"])


CLIMATE: Mapping[str, Recipe] = {
    "crop-in-its-damage-band": _crop_in_band,
    "coldest-moment": _coldest,
    "nights-below-the-line": _below,
    "which-alarm-line": _alarm,
    "the-heat-failed": _failed,
    "without-any-heat": _without_heat,
    "hours-too-damp": _damp,
    "what-the-dehumidifier-did": _dryer,
    "airing-or-drying": _airing,
    "dew-on-the-glass": _dew,
    "grey-mould-weather": _mould,
    "bed-at-night": lambda t, _: (t("soil_nights")["kWh at most"].mean(),),
    "bed-below-the-root-line": _bed_below,
    "days-under-ten-hours": _dark,
    "daily-light": _light,
    "gloomy-run": _gloomy,
    "longest-damp-spell": _damp_spell,
    "bed-follows-the-air": _wave,
    "bed-over-the-season": _bed_season,
    "if-the-heat-fails": _fails,
    "how-whole-the-record-is": _whole,
}
