"""Every kind of finding: its page, when it is told, what it rests on in review.json and on the page.

A finding's slug is its kind's, with the diary's line behind it where one change each has its own (helped-7).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """One kind. `paths`: dotted paths of review.json behind its number; `anchors`: uids of the charts it links to."""

    page: str
    told: str  # the season in which it is told; silent in every other
    anchors: tuple[str, ...]
    paths: tuple[str, ...]


def _kind(page: str, told: str, anchors: str, *paths: str) -> Kind:
    return Kind(page=page, told=told, anchors=tuple(anchors.split()), paths=paths)


_RECORD = {
    "nothing-recorded": _kind("record", "no logger gave a reading", "record", "record.channels"),
    "how-whole-the-record-is": _kind("record", "there is a crop logger", "record_days", "record.channels"),
    "longest-gap-in-the-record": _kind("record", "a gap of a day and more", "record_gaps", "record.channels"),
    "read-too-seldom": _kind("record", "readings too far apart for a night", "record_channels", "record.channels"),
    "readings-set-aside": _kind("record", "readings were set aside", "record_channels", "record.files"),
    "loggers-disagree": _kind(
        "record", "two loggers of one place differ by more than they may", "record_agreement", "record.channels"
    ),
    "sensor-reads-off": _kind(
        "record", "the grower's own check shows a sensor off", "record_channels", "record.channels"
    ),
    "no-outdoor-logger": _kind("record", "nothing was logged outdoors", "record_channels", "record.channels"),
    "no-accuracy-given": _kind("record", "a sensor's ± is not in season.toml", "record_channels", "record.channels"),
}
_FROST = {
    "coldest-moment": _kind(
        "frost", "crop air was logged", "frost_nights", "frost.minimum.temperature_c", "frost.minimum.at"
    ),
    "crop-in-its-damage-band": _kind("frost", "a standing crop met its damage band", "frost_crops", "frost.crops"),
    "nights-below-the-line": _kind(
        "frost", "a night below the frost line", "frost_worst", "frost.nights_below.0", "frost.hours_below.0"
    ),
    "the-heat-failed": _kind("frost", "two hours without heat while it fell", "frost_failures", "frost.failures"),
    "if-the-heat-fails": _kind("frost", "the house's own behaviour is known", "frost_after", "frost.after_failure"),
    "without-any-heat": _kind("frost", "a heated house's own behaviour is known", "frost_bare",
                              "frost.without_heat_minimum_c"),
    "how-cold-it-may-get": _kind("frost", "enough nights since the last change", "frost_limit", "frost.holding_limit"),
    "which-alarm-line": _kind("frost", "an alarm would have been needed", "frost_alarms", "frost.alarms"),
    "time-to-open-up": _kind("frost", "three hot days running", "frost_hot", "frost.hot_hours"),
    "while-nobody-was-there": _kind("frost", "a close call or blind hours while away", "frost_nights", "frost.minimum"),
    "failure-nobody-noticed": _kind("frost", "a failure that the diary leaves out", "frost_failures", "frost.failures"),
    "hours-nobody-watched": _kind(
        "frost", "hours without crop air, cold or unknown outdoors", "frost_gaps frost_nights",
        "frost.unrecorded_cold_hours", "frost.unrecorded_unknown_hours"
    ),
    "nothing-wrong": _kind(
        "frost", "a whole record and no harm in it", "frost_nights", "frost.minimum.temperature_c", "frost.nights"
    ),
}  # fmt: skip
_HEAT = {
    "hold-kept": _kind("heat", "a hold is given", "heat_months", "heat.share_at_or_above_hold"),
    "price-of-a-degree": _kind("heat", "the price of a degree can be told", "heat_price", "heat.price_of_hold"),
    "heat-loss": _kind("heat", "nights heated right through", "heat_loss", "heat.loss_w_per_k"),
    "heat-above-the-aim": _kind("heat", "heat given above the hold", "heat_weeks", "heat.above_target_kwh"),
    "heater-size": _kind("heat", "heat follows the cold by the night", "heat_line", "heat.heater_needed_w"),
    "heater-flat-out": _kind("heat", "a heater at its full power", "heat_sources", "heat.sources"),
    "fumes-in-the-house": _kind("heat", "a burner whose fumes stay inside", "heat_sources", "heat.sources"),
    "appliances-heat-too": _kind("heat", "lamps and fans gave a share of the heat", "heat_sources",
                                 "heat.appliances_kwh"),
    "heat-not-known": _kind("heat", "nothing of the heating was written down", "heat_missing", "heat.reasons"),
}  # fmt: skip
_DAMP = {
    "hours-too-damp": _kind("damp", "humidity was logged", "damp_months", "damp.hours_above_high"),
    "longest-damp-spell": _kind("damp", "two days and more without a break", "damp_carpet", "damp.longest_spell"),
    "dew-on-the-glass": _kind("damp", "a day's hours of dew and more", "damp_nights", "damp.glazing_dew_hours"),
    "grey-mould-weather": _kind("damp", "wet spells", "damp_nights", "damp.grey_mould_spells"),
    "airing-or-drying": _kind("damp", "humidity logged outdoors too", "damp_airing", "damp.airing_hours"),
    "what-the-dehumidifier-did": _kind("damp", "a dehumidifier with a logger", "damp_dryer", "damp.hours_recorded"),
    "hours-too-dry": _kind("damp", "a day's hours of dry, warm air and more", "damp_clock", "damp.mean_vpd_kpa"),
}
_CHANGES = {
    "helped": _kind("changes", "a change whose interval lies on the hoped side", "changes_effects", "changes"),
    "hurt": _kind("changes", "a change whose interval lies on the other side", "changes_effects", "changes"),
    "no-sign": _kind("changes", "a change whose interval lies inside what matters", "changes_effects", "changes"),
    "cannot-tell": _kind("changes", "changes that cannot be told", "changes_effects changes_rows", "changes"),
    "no-change-noted": _kind("changes", "no change in the diary", "changes_missing", "changes"),
    "no-hope-noted": _kind("changes", "changes without a hope that a logger can judge",
                           "changes_effects changes_rows", "changes"),
    "helped-but-damper": _kind("changes", "warmer as hoped, and damper", "changes_effects", "changes"),
    "something-unwritten": _kind("changes", "a quiet date that looks like a change", "changes", "record.channels"),
}  # fmt: skip
_HARVEST = {
    "harvest-not-weighed": _kind("harvest", "no harvest book", "harvest_missing", "harvest.reasons.kg"),
    "fed-the-household": _kind("harvest", "the household's need is given", "harvest_weeks",
                               "harvest.share_of_household", "harvest.weeks_at_half_or_more"),
    "longest-gap": _kind("harvest", "two empty weeks running", "harvest_weeks", "harvest.longest_gap_weeks"),
    "lost-harvest": _kind("harvest", "a twentieth and more was lost", "harvest_crops", "harvest.kg"),
    "best-use-of-ground": _kind("harvest", "one crop gave half as much again for its ground", "harvest_crops",
                                "harvest.crops"),
    "sown-in-time": _kind("harvest", "of two sowings before midwinter the later was too late", "harvest_beds",
                          "harvest.crops"),
    "empty-beds": _kind("harvest", "ground lay bare for four weeks and more", "harvest_beds", "harvest.crops"),
    "cost-of-a-kilogram": _kind("harvest", "weights and a heat bill", "harvest_running", "harvest.cost_per_kg",
                                "harvest.kg"),
    "against-the-shop": _kind("harvest", "weights, a heat bill and shop prices", "harvest_running",
                              "harvest.shop_value"),
    "with-everything-counted": _kind("harvest", "costs.csv has things that last", "harvest_costs", "harvest.kg"),
    "last-two-degrees": _kind("harvest", "a price of a degree within reach", "harvest_next", "heat.price_of_hold"),
    "next-winters-bill": _kind("harvest", "a next_price is given", "harvest_next", "heat.cost"),
    "delivery-lasts": _kind("harvest", "fuel by bottle, can or sack, and a heat loss", "harvest_delivery",
                            "heat.loss_w_per_k"),
    "dark-weeks-money": _kind("harvest", "the dark weeks took more of the money than they gave", "harvest_weeks",
                              "heat.dark_weeks"),
    "damp-after-watering": _kind("damp", "nights after watering were damper", "damp_watering",
                                 "damp.hours_above_high"),
    "damp-with-the-heater-off": _kind("damp", "nights without heat were damper", "damp_unheated",
                                      "damp.hours_above_high"),
}  # fmt: skip
_WINTERS = {
    "than-last-winter-lift": _kind("winters", "night warmth differs at equal weather", "winters_rows", "winters.rows"),
    "than-last-winter-heat": _kind("winters", "heat differs at equal weather", "winters_rows", "winters.rows"),
    "than-last-winter-night-humidity": _kind("winters", "humidity differs at equal weather", "winters_rows",
                                             "winters.rows"),
    "than-last-winter-soil-mean": _kind("winters", "the bed differs at equal weather", "winters_rows", "winters.rows"),
    "weather-of-two-winters": _kind("winters", "the nights outdoors differ by half a kelvin", "winters_rows",
                                    "winters.rows"),
    "winters-not-alike": _kind("winters", "loggers or house are not as last winter", "winters_alike", "winters.rows"),
    "no-last-winter": _kind("winters", "no last winter was given", "winters_missing", "winters.reasons.last"),
}  # fmt: skip
_SOIL_AND_LIGHT = {
    "bed-below-the-root-line": _kind("soil", "a probe in the bed", "soil_days", "soil.hours_below_aim", "soil.mean_c"),
    "bed-follows-the-air": _kind("soil", "the bed swings with the air", "soil_wave", "soil.swing_amplitude_k",
                                 "soil.lag_h"),
    "bed-at-night": _kind("soil", "the size of the bed is given", "soil_nights", "soil.released_kwh_per_night"),
    "bed-over-the-season": _kind("soil", "the bed ended half a kelvin off", "soil_weeks", "soil.season_balance_kwh"),
    "fan-through-the-bed": _kind("soil", "a fan that blows through the bed", "soil_fan", "soil.mean_c"),
    "days-under-ten-hours": _kind("light", "dark days in the season", "light_length", "light.days_under_ten_hours"),
    "daily-light": _kind("light", "a light sensor", "light_days", "light.mean_daily_light_mol"),
    "gloomy-run": _kind("light", "gloomy days running", "light_days", "light.mean_daily_light_mol"),
    "what-a-lamp-would-add": _kind("light", "a lamp, and days short of light", "light_lamp", "light.lamp_hours_needed"),
    "cover-lets-less-through": _kind("light", "light inside and out, and less than the cover should let through",
                                     "light_days", "light.mean_daily_light_mol"),
}  # fmt: skip
_GROWTH = {
    "light-before-warmth": _kind("light", "warmth was there and light was not", "light_days",
                                 "light.mean_daily_light_mol", "light.days_under_ten_hours"),
    "bed-drained-before-the-cold": _kind("soil", "the bed cooled before the coldest night", "soil_days",
                                         "soil.mean_c", "frost.minimum.at"),
}  # fmt: skip
KINDS: Mapping[str, Kind] = MappingProxyType(
    _RECORD | _FROST | _HEAT | _DAMP | _SOIL_AND_LIGHT | _CHANGES | _HARVEST | _WINTERS | _GROWTH
)


def kind_of(slug: str) -> Kind:
    """The kind of a finding.

    Raises:
        KeyError: No such kind.
    """
    return KINDS[re.sub(r"-\d+$", "", slug)]
