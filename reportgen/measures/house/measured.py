"""How near the balance of the house came to the truth on simulated houses, as its study found.

Study: tests/studies/house.py, its table tests/studies/HOUSE.md; both are written by tests/studies/house_results.py, and
a test holds them together. Whoever changes the balance runs it again.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Rate:
    """One figure under one kind of logging and of heater. `bias`, `rmse`: told less true, in `unit`; `inside`: share of
    the truths that lay in the band [%]; `values` of them in `houses` houses."""

    figure: str
    kind: str
    heater: str
    houses: int
    values: int
    bias: float
    rmse: float
    unit: str
    inside: int


STUDY_DATE = "2026-11-26"
_ROWS = (
    ("no heat, coldest fifth", "probe, light, wind", "large", 1, 34, -0.47, 0.61, "K", 100),
    ("no heat, season minimum", "probe, light, wind", "large", 1, 1, -0.57, 0.57, "K", 100),
    ("loss", "probe, light, wind", "large", 1, 1, 3.02, 3.02, "%", 100),
    ("failure 3 h, ten coldest", "probe, light, wind", "large", 1, 10, -0.05, 1.07, "K", 100),
    ("failure 8 h, ten coldest", "probe, light, wind", "large", 1, 10, -2.71, 2.92, "K", 30),
    ("hold -4 K", "probe, light, wind", "large", 1, 1, -7.04, 7.04, "%", 100),
    ("hold -2 K", "probe, light, wind", "large", 1, 1, -9.09, 9.09, "%", 100),
    ("hold -1 K", "probe, light, wind", "large", 1, 1, -9.70, 9.70, "%", 100),
    ("hold +1 K", "probe, light, wind", "large", 1, 1, -12.63, 12.63, "%", 100),
    ("hold +2 K", "probe, light, wind", "large", 1, 1, -13.46, 13.46, "%", 100),
    ("hold +4 K", "probe, light, wind", "large", 1, 1, -14.35, 14.35, "%", 100),
    ("heater size", "probe, light, wind", "large", 1, 1, 4.67, 4.67, "%", 100),
    ("heater size, 5 K colder", "probe, light, wind", "large", 1, 1, 3.29, 3.29, "%", 100),
    ("short of the hold with the heater to buy", "probe, light, wind", "large", 1, 1, 0.42, 0.42, "K", 100),
    ("no heat, coldest fifth", "probe, light", "large", 1, 34, -0.49, 0.62, "K", 100),
    ("no heat, season minimum", "probe, light", "large", 1, 1, -0.60, 0.60, "K", 100),
    ("loss", "probe, light", "large", 1, 1, 4.59, 4.59, "%", 100),
    ("failure 3 h, ten coldest", "probe, light", "large", 1, 10, 0.09, 1.08, "K", 100),
    ("failure 8 h, ten coldest", "probe, light", "large", 1, 10, -2.62, 2.84, "K", 30),
    ("hold -4 K", "probe, light", "large", 1, 1, -7.07, 7.07, "%", 100),
    ("hold -2 K", "probe, light", "large", 1, 1, -9.14, 9.14, "%", 100),
    ("hold -1 K", "probe, light", "large", 1, 1, -9.78, 9.78, "%", 100),
    ("hold +1 K", "probe, light", "large", 1, 1, -12.75, 12.75, "%", 100),
    ("hold +2 K", "probe, light", "large", 1, 1, -13.60, 13.60, "%", 100),
    ("hold +4 K", "probe, light", "large", 1, 1, -14.53, 14.53, "%", 100),
    ("heater size", "probe, light", "large", 1, 1, 4.65, 4.65, "%", 100),
    ("heater size, 5 K colder", "probe, light", "large", 1, 1, 2.90, 2.90, "%", 100),
    ("short of the hold with the heater to buy", "probe, light", "large", 1, 1, 0.43, 0.43, "K", 100),
    ("no heat, coldest fifth", "air only", "large", 1, 34, 0.40, 0.61, "K", 100),
    ("no heat, season minimum", "air only", "large", 1, 1, 0.96, 0.96, "K", 100),
    ("loss", "air only", "large", 1, 1, -14.13, 14.13, "%", 100),
    ("failure 3 h, ten coldest", "air only", "large", 1, 10, 1.35, 1.76, "K", 70),
    ("failure 8 h, ten coldest", "air only", "large", 1, 10, -1.26, 1.64, "K", 100),
    ("hold -4 K", "air only", "large", 1, 1, -4.63, 4.63, "%", 100),
    ("hold -2 K", "air only", "large", 1, 1, -5.71, 5.71, "%", 100),
    ("hold -1 K", "air only", "large", 1, 1, -5.81, 5.81, "%", 100),
    ("hold +1 K", "air only", "large", 1, 1, -8.51, 8.51, "%", 100),
    ("hold +2 K", "air only", "large", 1, 1, -9.47, 9.47, "%", 100),
    ("hold +4 K", "air only", "large", 1, 1, -10.67, 10.67, "%", 100),
    ("heater size", "air only", "large", 1, 1, 5.02, 5.02, "%", 100),
    ("heater size, 5 K colder", "air only", "large", 1, 1, 4.40, 4.40, "%", 100),
    ("short of the hold with the heater to buy", "air only", "large", 1, 1, 0.72, 0.72, "K", 100),
    ("no heat, coldest fifth", "air, light, weekly meter", "large", 1, 34, -0.36, 0.60, "K", 100),
    ("no heat, season minimum", "air, light, weekly meter", "large", 1, 1, -1.10, 1.10, "K", 100),
    ("loss", "air, light, weekly meter", "large", 1, 1, 0.84, 0.84, "%", 100),
    ("failure 3 h, ten coldest", "air, light, weekly meter", "large", 1, 10, -0.10, 1.08, "K", 100),
    ("failure 8 h, ten coldest", "air, light, weekly meter", "large", 1, 10, -2.73, 2.95, "K", 30),
    ("hold -4 K", "air, light, weekly meter", "large", 1, 1, -7.22, 7.22, "%", 100),
    ("hold -2 K", "air, light, weekly meter", "large", 1, 1, -8.85, 8.85, "%", 100),
    ("hold -1 K", "air, light, weekly meter", "large", 1, 1, -8.87, 8.87, "%", 100),
    ("hold +1 K", "air, light, weekly meter", "large", 1, 1, -11.57, 11.57, "%", 100),
    ("hold +2 K", "air, light, weekly meter", "large", 1, 1, -13.58, 13.58, "%", 100),
    ("hold +4 K", "air, light, weekly meter", "large", 1, 1, -15.52, 15.52, "%", 100),
    ("no heat, coldest fifth", "probe, light, wind", "small", 1, 34, -1.54, 1.66, "K", 97),
    ("no heat, season minimum", "probe, light, wind", "small", 1, 1, -2.94, 2.94, "K", 100),
    ("loss", "probe, light, wind", "small", 1, 1, -3.25, 3.25, "%", 100),
    ("failure 3 h, ten coldest", "probe, light, wind", "small", 1, 10, -0.32, 1.02, "K", 100),
    ("failure 8 h, ten coldest", "probe, light, wind", "small", 1, 10, -2.13, 2.39, "K", 70),
    ("hold -4 K", "probe, light, wind", "small", 1, 1, -2.88, 2.88, "%", 100),
    ("hold -2 K", "probe, light, wind", "small", 1, 1, -3.41, 3.41, "%", 100),
    ("hold -1 K", "probe, light, wind", "small", 1, 1, -4.22, 4.22, "%", 100),
    ("hold +1 K", "probe, light, wind", "small", 1, 1, -4.41, 4.41, "%", 100),
    ("hold +2 K", "probe, light, wind", "small", 1, 1, -6.63, 6.63, "%", 100),
    ("hold +4 K", "probe, light, wind", "small", 1, 1, -7.98, 7.98, "%", 100),
    ("heater size", "probe, light, wind", "small", 1, 1, 10.71, 10.71, "%", 100),
    ("heater size, 5 K colder", "probe, light, wind", "small", 1, 1, 15.70, 15.70, "%", 100),
    ("short of the hold with the heater to buy", "probe, light, wind", "small", 1, 1, 1.49, 1.49, "K", 0),
    ("no heat, coldest fifth", "probe, light", "small", 1, 34, -2.20, 2.33, "K", 65),
    ("no heat, season minimum", "probe, light", "small", 1, 1, -4.00, 4.00, "K", 0),
    ("loss", "probe, light", "small", 1, 1, -0.94, 0.94, "%", 100),
    ("failure 3 h, ten coldest", "probe, light", "small", 1, 10, 0.39, 1.05, "K", 100),
    ("failure 8 h, ten coldest", "probe, light", "small", 1, 10, -2.25, 2.50, "K", 70),
    ("hold -4 K", "probe, light", "small", 1, 1, -6.66, 6.66, "%", 100),
    ("hold -2 K", "probe, light", "small", 1, 1, -8.11, 8.11, "%", 100),
    ("hold -1 K", "probe, light", "small", 1, 1, -9.46, 9.46, "%", 100),
    ("hold +1 K", "probe, light", "small", 1, 1, -10.37, 10.37, "%", 100),
    ("hold +2 K", "probe, light", "small", 1, 1, -12.21, 12.21, "%", 100),
    ("hold +4 K", "probe, light", "small", 1, 1, -13.34, 13.34, "%", 100),
    ("heater size", "probe, light", "small", 1, 1, 9.17, 9.17, "%", 100),
    ("heater size, 5 K colder", "probe, light", "small", 1, 1, 14.51, 14.51, "%", 100),
    ("short of the hold with the heater to buy", "probe, light", "small", 1, 1, 1.54, 1.54, "K", 0),
    ("no heat, coldest fifth", "air only", "small", 1, 34, -2.00, 2.12, "K", 94),
    ("no heat, season minimum", "air only", "small", 1, 1, -3.32, 3.32, "K", 100),
    ("loss", "air only", "small", 1, 1, -1.09, 1.09, "%", 100),
    ("failure 3 h, ten coldest", "air only", "small", 1, 10, 0.76, 1.25, "K", 100),
    ("failure 8 h, ten coldest", "air only", "small", 1, 10, -1.73, 2.03, "K", 100),
    ("hold -4 K", "air only", "small", 1, 1, -5.22, 5.22, "%", 100),
    ("hold -2 K", "air only", "small", 1, 1, -6.09, 6.09, "%", 100),
    ("hold -1 K", "air only", "small", 1, 1, -7.09, 7.09, "%", 100),
    ("hold +1 K", "air only", "small", 1, 1, -7.52, 7.52, "%", 100),
    ("hold +2 K", "air only", "small", 1, 1, -9.44, 9.44, "%", 100),
    ("hold +4 K", "air only", "small", 1, 1, -10.93, 10.93, "%", 100),
    ("heater size", "air only", "small", 1, 1, 13.78, 13.78, "%", 100),
    ("heater size, 5 K colder", "air only", "small", 1, 1, 19.79, 19.79, "%", 0),
    ("short of the hold with the heater to buy", "air only", "small", 1, 1, 1.42, 1.42, "K", 0),
)  # fmt: skip
RATES: tuple[Rate, ...] = tuple(
    Rate(figure=f, kind=k, heater=h, houses=n, values=v, bias=b, rmse=r, unit=u, inside=i)
    for f, k, h, n, v, b, r, u, i in _ROWS
)
