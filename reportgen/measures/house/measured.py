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
    ("no heat, coldest fifth", "probe, light, wind", "large", 17, 578, -0.27, 0.85, "K", 98),
    ("no heat, season minimum", "probe, light, wind", "large", 17, 17, -0.67, 1.17, "K", 100),
    ("loss", "probe, light, wind", "large", 20, 20, -0.74, 5.51, "%", 100),
    ("failure 3 h, ten coldest", "probe, light, wind", "large", 17, 170, 0.46, 1.21, "K", 96),
    ("failure 8 h, ten coldest", "probe, light, wind", "large", 17, 170, -1.39, 1.87, "K", 91),
    ("hold -4 K", "probe, light, wind", "large", 20, 20, -1.59, 4.73, "%", 100),
    ("hold -2 K", "probe, light, wind", "large", 20, 20, -1.82, 5.64, "%", 100),
    ("hold -1 K", "probe, light, wind", "large", 20, 20, -2.04, 5.93, "%", 100),
    ("hold +1 K", "probe, light, wind", "large", 20, 20, -3.88, 8.12, "%", 95),
    ("hold +2 K", "probe, light, wind", "large", 20, 20, -4.03, 8.52, "%", 95),
    ("hold +4 K", "probe, light, wind", "large", 20, 20, -4.49, 9.30, "%", 95),
    ("heater size", "probe, light, wind", "large", 20, 20, 2.62, 3.72, "%", 100),
    ("heater size, 5 K colder", "probe, light, wind", "large", 20, 20, 4.82, 5.93, "%", 100),
    ("short of the hold with the heater to buy", "probe, light, wind", "large", 20, 20, 0.51, 0.58, "K", 100),
    ("flat out", "probe, light, wind", "large", 2, 2, -1.79, 1.98, "K", 100),
    ("no heat, coldest fifth", "probe, light", "large", 17, 578, -0.35, 0.87, "K", 98),
    ("no heat, season minimum", "probe, light", "large", 17, 17, -0.74, 1.17, "K", 100),
    ("loss", "probe, light", "large", 20, 20, 0.01, 5.89, "%", 100),
    ("failure 3 h, ten coldest", "probe, light", "large", 17, 170, 0.76, 1.41, "K", 96),
    ("failure 8 h, ten coldest", "probe, light", "large", 17, 170, -1.21, 1.75, "K", 93),
    ("hold -4 K", "probe, light", "large", 20, 20, -1.23, 5.35, "%", 100),
    ("hold -2 K", "probe, light", "large", 20, 20, -1.06, 6.66, "%", 100),
    ("hold -1 K", "probe, light", "large", 20, 20, -1.04, 7.16, "%", 100),
    ("hold +1 K", "probe, light", "large", 20, 20, -2.69, 9.26, "%", 95),
    ("hold +2 K", "probe, light", "large", 20, 20, -2.80, 9.70, "%", 95),
    ("hold +4 K", "probe, light", "large", 20, 20, -3.24, 10.48, "%", 90),
    ("heater size", "probe, light", "large", 20, 20, 2.61, 3.73, "%", 100),
    ("heater size, 5 K colder", "probe, light", "large", 20, 20, 4.14, 5.34, "%", 100),
    ("short of the hold with the heater to buy", "probe, light", "large", 20, 20, 0.52, 0.61, "K", 95),
    ("flat out", "probe, light", "large", 3, 3, -0.81, 0.95, "K", 100),
    ("no heat, coldest fifth", "air only", "large", 17, 578, 0.80, 1.28, "K", 95),
    ("no heat, season minimum", "air only", "large", 17, 17, 0.98, 1.39, "K", 94),
    ("loss", "air only", "large", 20, 20, -7.51, 11.50, "%", 100),
    ("failure 3 h, ten coldest", "air only", "large", 17, 170, 1.68, 2.16, "K", 91),
    ("failure 8 h, ten coldest", "air only", "large", 17, 170, -0.20, 1.38, "K", 97),
    ("hold -4 K", "air only", "large", 20, 20, 2.11, 6.02, "%", 100),
    ("hold -2 K", "air only", "large", 20, 20, 3.12, 7.96, "%", 100),
    ("hold -1 K", "air only", "large", 20, 20, 3.64, 8.89, "%", 95),
    ("hold +1 K", "air only", "large", 20, 20, 2.44, 10.55, "%", 95),
    ("hold +2 K", "air only", "large", 20, 20, 2.36, 11.15, "%", 95),
    ("hold +4 K", "air only", "large", 20, 20, 1.84, 11.69, "%", 90),
    ("heater size", "air only", "large", 20, 20, 2.96, 4.14, "%", 95),
    ("heater size, 5 K colder", "air only", "large", 20, 20, 4.87, 6.06, "%", 100),
    ("short of the hold with the heater to buy", "air only", "large", 20, 20, 0.53, 0.61, "K", 95),
    ("flat out", "air only", "large", 3, 3, -0.53, 0.69, "K", 100),
    ("no heat, coldest fifth", "air, light, weekly meter", "large", 16, 544, 0.01, 0.67, "K", 100),
    ("no heat, season minimum", "air, light, weekly meter", "large", 16, 16, -0.57, 1.10, "K", 100),
    ("loss", "air, light, weekly meter", "large", 19, 19, -1.48, 6.37, "%", 100),
    ("failure 3 h, ten coldest", "air, light, weekly meter", "large", 16, 160, 0.17, 1.27, "K", 94),
    ("failure 8 h, ten coldest", "air, light, weekly meter", "large", 16, 160, -1.58, 1.99, "K", 90),
    ("hold -4 K", "air, light, weekly meter", "large", 19, 19, -0.14, 4.72, "%", 100),
    ("hold -2 K", "air, light, weekly meter", "large", 19, 19, 0.24, 5.80, "%", 100),
    ("hold -1 K", "air, light, weekly meter", "large", 19, 19, 0.49, 6.12, "%", 100),
    ("hold +1 K", "air, light, weekly meter", "large", 19, 19, -0.85, 7.78, "%", 100),
    ("hold +2 K", "air, light, weekly meter", "large", 19, 19, -1.62, 8.44, "%", 100),
    ("hold +4 K", "air, light, weekly meter", "large", 19, 19, -2.50, 9.35, "%", 100),
    ("no heat, coldest fifth", "probe, light, wind", "small", 20, 680, -0.35, 0.93, "K", 98),
    ("no heat, season minimum", "probe, light, wind", "small", 20, 20, -0.59, 1.12, "K", 100),
    ("loss", "probe, light, wind", "small", 20, 20, -1.36, 6.51, "%", 100),
    ("failure 3 h, ten coldest", "probe, light, wind", "small", 20, 200, 0.89, 1.54, "K", 98),
    ("failure 8 h, ten coldest", "probe, light, wind", "small", 20, 200, -0.13, 1.17, "K", 99),
    ("hold -4 K", "probe, light, wind", "small", 20, 20, -0.32, 4.85, "%", 100),
    ("hold -2 K", "probe, light, wind", "small", 20, 20, 0.38, 6.24, "%", 100),
    ("hold -1 K", "probe, light, wind", "small", 20, 20, 0.85, 6.77, "%", 100),
    ("hold +1 K", "probe, light, wind", "small", 20, 20, -1.23, 7.30, "%", 100),
    ("hold +2 K", "probe, light, wind", "small", 20, 20, -2.58, 6.96, "%", 100),
    ("hold +4 K", "probe, light, wind", "small", 20, 20, -3.95, 6.80, "%", 100),
    ("heater size", "probe, light, wind", "small", 20, 20, 10.64, 11.79, "%", 100),
    ("heater size, 5 K colder", "probe, light, wind", "small", 20, 20, 11.86, 13.47, "%", 100),
    ("short of the hold with the heater to buy", "probe, light, wind", "small", 20, 20, 0.39, 0.54, "K", 95),
    ("flat out", "probe, light, wind", "small", 13, 13, 0.09, 0.57, "K", 100),
    ("no heat, coldest fifth", "probe, light", "small", 20, 680, -0.66, 1.12, "K", 94),
    ("no heat, season minimum", "probe, light", "small", 20, 20, -0.90, 1.40, "K", 95),
    ("loss", "probe, light", "small", 20, 20, -0.80, 6.45, "%", 100),
    ("failure 3 h, ten coldest", "probe, light", "small", 20, 200, 0.95, 1.56, "K", 99),
    ("failure 8 h, ten coldest", "probe, light", "small", 20, 200, -0.30, 1.20, "K", 100),
    ("hold -4 K", "probe, light", "small", 20, 20, -1.70, 4.83, "%", 100),
    ("hold -2 K", "probe, light", "small", 20, 20, -1.21, 5.90, "%", 100),
    ("hold -1 K", "probe, light", "small", 20, 20, -0.96, 6.36, "%", 100),
    ("hold +1 K", "probe, light", "small", 20, 20, -3.04, 7.45, "%", 100),
    ("hold +2 K", "probe, light", "small", 20, 20, -4.03, 7.52, "%", 100),
    ("hold +4 K", "probe, light", "small", 20, 20, -5.11, 7.59, "%", 100),
    ("heater size", "probe, light", "small", 20, 20, 7.87, 9.14, "%", 100),
    ("heater size, 5 K colder", "probe, light", "small", 20, 20, 8.61, 10.39, "%", 100),
    ("short of the hold with the heater to buy", "probe, light", "small", 20, 20, 0.41, 0.57, "K", 95),
    ("flat out", "probe, light", "small", 13, 13, 0.06, 0.73, "K", 100),
    ("no heat, coldest fifth", "air only", "small", 20, 680, -0.31, 1.08, "K", 96),
    ("no heat, season minimum", "air only", "small", 20, 20, -0.35, 1.24, "K", 100),
    ("loss", "air only", "small", 20, 20, -4.34, 7.70, "%", 100),
    ("failure 3 h, ten coldest", "air only", "small", 20, 200, 1.38, 1.80, "K", 99),
    ("failure 8 h, ten coldest", "air only", "small", 20, 200, 0.12, 1.13, "K", 99),
    ("hold -4 K", "air only", "small", 20, 20, 0.55, 5.19, "%", 100),
    ("hold -2 K", "air only", "small", 20, 20, 2.10, 7.39, "%", 100),
    ("hold -1 K", "air only", "small", 20, 20, 3.13, 8.64, "%", 100),
    ("hold +1 K", "air only", "small", 20, 20, 1.56, 8.38, "%", 100),
    ("hold +2 K", "air only", "small", 20, 20, 0.22, 7.83, "%", 100),
    ("hold +4 K", "air only", "small", 20, 20, -1.61, 6.84, "%", 100),
    ("heater size", "air only", "small", 20, 20, 12.72, 13.75, "%", 95),
    ("heater size, 5 K colder", "air only", "small", 20, 20, 13.31, 14.57, "%", 95),
    ("short of the hold with the heater to buy", "air only", "small", 20, 20, 0.42, 0.55, "K", 95),
    ("flat out", "air only", "small", 12, 12, 0.31, 0.59, "K", 100),
    ("loss by state", "probe, light, wind", "large", 10, 19, -3.30, 6.63, "%", 100),
    ("loss by state", "probe, light", "large", 10, 19, -2.31, 6.52, "%", 100),
    ("loss by state", "air only", "large", 10, 19, -12.79, 16.84, "%", 95),
    ("loss by state", "air, light, weekly meter", "large", 9, 18, -2.32, 8.89, "%", 94),
    ("loss by state", "probe, light, wind", "small", 10, 19, -3.55, 6.77, "%", 95),
    ("loss by state", "probe, light", "small", 10, 19, -2.84, 6.75, "%", 100),
    ("loss by state", "air only", "small", 10, 19, -7.22, 8.82, "%", 100),
)  # fmt: skip
RATES: tuple[Rate, ...] = tuple(
    Rate(figure=f, kind=k, heater=h, houses=n, values=v, bias=b, rmse=r, unit=u, inside=i)
    for f, k, h, n, v, b, r, u, i in _ROWS
)
