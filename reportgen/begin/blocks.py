"""Tables of season.toml that only the grower can fill: written as comments, with numbers as the grower measures."""

from __future__ import annotations

import textwrap

BESIDE = "# beside a column may stand: accuracy = 0.5 (its ±), offset = -0.3 (added), {depth} (of a soil probe)"
DEPTH = {False: "depth_m = 0.10", True: "depth_in = 4"}

HOUSE = {
    False: """\
# kind = "lean-to glasshouse"
# floor_area_m2 = 12.0           # kilograms per square metre
# glazing_area_m2 = 40.0         # with u_value_w_m2k: the heat loss to be expected
# u_value_w_m2k = 3.3            # twin-wall polycarbonate about 3.3, single glass about 5.8 (common practice)
# air_volume_m3 = 25.0
# air_changes_per_h = 0.8
# light_transmission = 0.7       # share of the light that the cover lets in
# soil_bed_volume_m3 = 2.0""",
    True: """\
# kind = "lean-to glasshouse"
# floor_area_ft2 = 130           # pounds per square foot
# glazing_area_ft2 = 430         # with u_value_w_m2k: the heat loss to be expected
# u_value_w_m2k = 3.3            # Btu/(h ft² °F) × 5.678; twin-wall about 3.3, single glass 5.8 (common practice)
# air_volume_ft3 = 880
# air_changes_per_h = 0.8
# light_transmission = 0.7       # share of the light that the cover lets in
# soil_bed_volume_ft3 = 70""",
}

AIMS = {
    False: """\
# hold_c = 5.0                   # keep the air at the crop above this; or by date:
# hold = [ { from = 2025-10-18, c = 8.0 }, { from = 2025-12-20, c = 5.0 } ]
# frost_c = 0.0
# humidity_high_pct = 80.0
# alarm_c = 3.0                  # where your low-temperature alarm is set""",
    True: """\
# hold_f = 41                    # keep the air at the crop above this; or by date:
# hold = [ { from = 2025-10-18, f = 46 }, { from = 2025-12-20, f = 41 } ]
# frost_f = 32
# humidity_high_pct = 80.0
# alarm_f = 37                   # where your low-temperature alarm is set""",
}

CROP = {
    False: """\
# area_m2 = 4.0
# damage_below_c = [-10.0, -7.0]
# shop_price_per_kg = 6.5""",
    True: """\
# area_ft2 = 43
# damage_below_f = [14, 19]
# shop_price_per_lb = 3.5""",
}

SHARE = """# What may leave the house with --share; all false when left out.
# [share]
# place = false
# prices = false
# harvest = true"""

HEATING = """# Heating, known by a logger that counts (logger = "plug"), by a meter (a file with date,reading)
# or by deliveries (a file with date,amount).
# [[heating]]
# name = "fan heater"
# fuel = "electricity"
# meter = "heating/meter.csv"
# unit = "kWh"
# price = 0.31                   # per unit; needs currency at the top"""


def house(us: bool, identity: str) -> str:
    """The house: its id, and what may be told of it."""
    head = f"""\
# The house: each key is optional and lets one more thing be told.
[house]
id = "{identity}"              # keep it each winter: it tells that two winters are of one house, and nothing else"""
    return f"{head}\n{HOUSE[us]}"


def aims(us: bool) -> str:
    """What the grower aims for."""
    head = "# What you aim for. Without a hold the pages judge by the frost line and the crops alone.\n[aims]"
    return f"{head}\n{AIMS[us]}"


def crops(us: bool) -> str:
    """The crops."""
    head = "# One table for each crop: what cold harms it, what it costs in a shop."
    return f'{head}\n# [[crop]]\n# name = "spinach"\n{CROP[us]}'


def beside(us: bool) -> str:
    """What may stand beside a column."""
    return textwrap.shorten(BESIDE.format(depth=DEPTH[us]), 200)
