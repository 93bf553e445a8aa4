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
RATES: tuple[Rate, ...] = (
    Rate(
        figure='no heat, coldest fifth', kind='probe, light, wind', heater='large', houses=2, values=68, bias=-0.40, rmse=0.57, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='probe, light, wind', heater='large', houses=2, values=2, bias=-0.52, rmse=0.53, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='probe, light, wind', heater='large', houses=3, values=3, bias=1.97, rmse=4.14, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='probe, light, wind', heater='large', houses=2, values=20, bias=0.26, rmse=0.72, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='probe, light, wind', heater='large', houses=2, values=20, bias=-1.03, rmse=1.32, unit='K', inside=85,
    ),
    Rate(
        figure='hold -4 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-2.41, rmse=3.46, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-2.63, rmse=3.69, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-3.00, rmse=4.09, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-4.72, rmse=6.16, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-4.52, rmse=6.14, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-4.67, rmse=6.43, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-6.95, rmse=7.82, unit='%', inside=67,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='probe, light, wind', heater='large', houses=3, values=3, bias=-6.57, rmse=6.90, unit='%', inside=100,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='probe, light, wind', heater='large', houses=3, values=3, bias=0.30, rmse=0.39, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='probe, light, wind', heater='large', houses=1, values=1, bias=-1.65, rmse=1.65, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='probe, light', heater='large', houses=2, values=68, bias=-0.47, rmse=0.62, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='probe, light', heater='large', houses=2, values=2, bias=-0.56, rmse=0.57, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='probe, light', heater='large', houses=3, values=3, bias=2.67, rmse=5.27, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='probe, light', heater='large', houses=2, values=20, bias=0.45, rmse=0.83, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='probe, light', heater='large', houses=2, values=20, bias=-0.85, rmse=1.14, unit='K', inside=100,
    ),
    Rate(
        figure='hold -4 K', kind='probe, light', heater='large', houses=3, values=3, bias=-1.38, rmse=4.50, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='probe, light', heater='large', houses=3, values=3, bias=-1.06, rmse=5.23, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='probe, light', heater='large', houses=3, values=3, bias=-1.25, rmse=5.70, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='probe, light', heater='large', houses=3, values=3, bias=-2.87, rmse=7.16, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='probe, light', heater='large', houses=3, values=3, bias=-2.63, rmse=7.25, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='probe, light', heater='large', houses=3, values=3, bias=-2.74, rmse=7.55, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='probe, light', heater='large', houses=3, values=3, bias=-6.97, rmse=7.84, unit='%', inside=67,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='probe, light', heater='large', houses=3, values=3, bias=-7.10, rmse=7.51, unit='%', inside=100,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='probe, light', heater='large', houses=3, values=3, bias=0.31, rmse=0.39, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='probe, light', heater='large', houses=2, values=2, bias=-1.76, rmse=1.79, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='air only', heater='large', houses=2, values=68, bias=0.42, rmse=0.61, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='air only', heater='large', houses=2, values=2, bias=0.67, rmse=0.83, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='air only', heater='large', houses=3, values=3, bias=-1.94, rmse=2.40, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='air only', heater='large', houses=2, values=20, bias=1.20, rmse=1.49, unit='K', inside=95,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='air only', heater='large', houses=2, values=20, bias=-0.12, rmse=0.66, unit='K', inside=100,
    ),
    Rate(
        figure='hold -4 K', kind='air only', heater='large', houses=3, values=3, bias=0.69, rmse=3.19, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='air only', heater='large', houses=3, values=3, bias=1.36, rmse=3.76, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='air only', heater='large', houses=3, values=3, bias=1.45, rmse=3.89, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='air only', heater='large', houses=3, values=3, bias=-0.04, rmse=4.35, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='air only', heater='large', houses=3, values=3, bias=0.14, rmse=4.48, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='air only', heater='large', houses=3, values=3, bias=-0.09, rmse=4.71, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='air only', heater='large', houses=3, values=3, bias=-6.81, rmse=7.53, unit='%', inside=67,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='air only', heater='large', houses=3, values=3, bias=-6.86, rmse=7.14, unit='%', inside=100,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='air only', heater='large', houses=3, values=3, bias=0.31, rmse=0.41, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='air only', heater='large', houses=2, values=2, bias=-1.38, rmse=1.44, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='air, light, weekly meter', heater='large', houses=2, values=68, bias=-0.19, rmse=0.49, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='air, light, weekly meter', heater='large', houses=2, values=2, bias=-0.60, rmse=0.71, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-0.59, rmse=3.69, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='air, light, weekly meter', heater='large', houses=2, values=20, bias=0.10, rmse=0.67, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='air, light, weekly meter', heater='large', houses=2, values=20, bias=-1.25, rmse=1.54, unit='K', inside=80,
    ),
    Rate(
        figure='hold -4 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-0.54, rmse=4.82, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-0.34, rmse=5.35, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-0.39, rmse=5.45, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-1.89, rmse=6.76, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-2.32, rmse=7.28, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='air, light, weekly meter', heater='large', houses=3, values=3, bias=-3.14, rmse=8.07, unit='%', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='probe, light, wind', heater='small', houses=3, values=102, bias=-0.12, rmse=0.62, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='probe, light, wind', heater='small', houses=3, values=3, bias=-0.31, rmse=0.70, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='probe, light, wind', heater='small', houses=3, values=3, bias=1.48, rmse=3.34, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='probe, light, wind', heater='small', houses=3, values=30, bias=1.25, rmse=1.74, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='probe, light, wind', heater='small', houses=3, values=30, bias=-0.20, rmse=0.88, unit='K', inside=100,
    ),
    Rate(
        figure='hold -4 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=2.33, rmse=4.06, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=3.48, rmse=5.14, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=4.49, rmse=5.66, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=2.05, rmse=4.49, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=0.26, rmse=3.10, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='probe, light, wind', heater='small', houses=3, values=3, bias=-1.16, rmse=3.40, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='probe, light, wind', heater='small', houses=3, values=3, bias=12.31, rmse=13.27, unit='%', inside=100,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='probe, light, wind', heater='small', houses=3, values=3, bias=13.49, rmse=14.17, unit='%', inside=67,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='probe, light, wind', heater='small', houses=3, values=3, bias=0.64, rmse=0.66, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='probe, light, wind', heater='small', houses=2, values=2, bias=-0.41, rmse=0.42, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='probe, light', heater='small', houses=3, values=102, bias=-0.42, rmse=0.62, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='probe, light', heater='small', houses=3, values=3, bias=-0.47, rmse=0.66, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='probe, light', heater='small', houses=3, values=3, bias=2.78, rmse=5.10, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='probe, light', heater='small', houses=3, values=30, bias=1.37, rmse=1.81, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='probe, light', heater='small', houses=3, values=30, bias=-0.29, rmse=0.84, unit='K', inside=100,
    ),
    Rate(
        figure='hold -4 K', kind='probe, light', heater='small', houses=3, values=3, bias=0.58, rmse=1.78, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='probe, light', heater='small', houses=3, values=3, bias=1.43, rmse=2.64, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='probe, light', heater='small', houses=3, values=3, bias=2.40, rmse=3.09, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='probe, light', heater='small', houses=3, values=3, bias=0.65, rmse=3.15, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='probe, light', heater='small', houses=3, values=3, bias=-0.59, rmse=2.61, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='probe, light', heater='small', houses=3, values=3, bias=-1.31, rmse=3.68, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='probe, light', heater='small', houses=3, values=3, bias=7.47, rmse=8.03, unit='%', inside=100,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='probe, light', heater='small', houses=3, values=3, bias=8.28, rmse=8.87, unit='%', inside=100,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='probe, light', heater='small', houses=3, values=3, bias=0.72, rmse=0.72, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='probe, light', heater='small', houses=2, values=2, bias=-0.52, rmse=0.58, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, coldest fifth', kind='air only', heater='small', houses=3, values=102, bias=-0.25, rmse=0.48, unit='K', inside=100,
    ),
    Rate(
        figure='no heat, season minimum', kind='air only', heater='small', houses=3, values=3, bias=-0.20, rmse=0.30, unit='K', inside=100,
    ),
    Rate(
        figure='loss', kind='air only', heater='small', houses=3, values=3, bias=-0.33, rmse=1.35, unit='%', inside=100,
    ),
    Rate(
        figure='failure 3 h, ten coldest', kind='air only', heater='small', houses=3, values=30, bias=1.63, rmse=1.90, unit='K', inside=100,
    ),
    Rate(
        figure='failure 8 h, ten coldest', kind='air only', heater='small', houses=3, values=30, bias=-0.08, rmse=0.69, unit='K', inside=100,
    ),
    Rate(
        figure='hold -4 K', kind='air only', heater='small', houses=3, values=3, bias=1.77, rmse=1.93, unit='%', inside=100,
    ),
    Rate(
        figure='hold -2 K', kind='air only', heater='small', houses=3, values=3, bias=3.20, rmse=3.32, unit='%', inside=100,
    ),
    Rate(
        figure='hold -1 K', kind='air only', heater='small', houses=3, values=3, bias=4.57, rmse=4.67, unit='%', inside=100,
    ),
    Rate(
        figure='hold +1 K', kind='air only', heater='small', houses=3, values=3, bias=3.16, rmse=3.75, unit='%', inside=100,
    ),
    Rate(
        figure='hold +2 K', kind='air only', heater='small', houses=3, values=3, bias=1.79, rmse=2.38, unit='%', inside=100,
    ),
    Rate(
        figure='hold +4 K', kind='air only', heater='small', houses=3, values=3, bias=0.67, rmse=2.64, unit='%', inside=100,
    ),
    Rate(
        figure='heater size', kind='air only', heater='small', houses=3, values=3, bias=10.51, rmse=10.90, unit='%', inside=100,
    ),
    Rate(
        figure='heater size, 5 K colder', kind='air only', heater='small', houses=3, values=3, bias=11.45, rmse=12.06, unit='%', inside=100,
    ),
    Rate(
        figure='short of the hold with the heater to buy', kind='air only', heater='small', houses=3, values=3, bias=0.68, rmse=0.70, unit='K', inside=100,
    ),
    Rate(
        figure='flat out', kind='air only', heater='small', houses=2, values=2, bias=-0.48, rmse=0.57, unit='K', inside=100,
    ),
    Rate(
        figure='loss by state', kind='probe, light, wind', heater='large', houses=1, values=2, bias=8.46, rmse=8.61, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='probe, light', heater='large', houses=1, values=2, bias=11.32, rmse=11.64, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='air only', heater='large', houses=1, values=2, bias=-0.41, rmse=0.41, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='air, light, weekly meter', heater='large', houses=1, values=2, bias=4.54, rmse=4.54, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='probe, light, wind', heater='small', houses=1, values=2, bias=5.50, rmse=5.52, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='probe, light', heater='small', houses=1, values=2, bias=9.22, rmse=9.25, unit='%', inside=100,
    ),
    Rate(
        figure='loss by state', kind='air only', heater='small', houses=1, values=2, bias=-1.75, rmse=2.49, unit='%', inside=100,
    ),
)  # fmt: skip
