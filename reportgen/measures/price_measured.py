"""How near the price of a degree came to the truth on simulated houses, as its study found.

Study: tests/studies/hold_prices.py, its tables tests/studies/HOLD_PRICES.md; both are written by
tests/studies/hold_prices_results.py, and a test holds them together.
"""

from __future__ import annotations

STUDY_DATE = "2026-11-27"
HOUSES = 60
# Heat known from: told ÷ true change of a degree less and more, 5 and 95 %; how often the ends held it, of
# how many.
NEAR: dict[str, tuple[float, float, int, int]] = {
    "plug": (0.87, 1.15, 114, 120),
    "meter, weekly": (0.80, 1.12, 113, 120),
    "meter, weekly, no rated power": (0.80, 1.12, 113, 120),
    "meter, every four weeks": (0.83, 1.34, 102, 110),
    "bottles": (0.81, 1.12, 93, 98),
    "plug, no balance of the house": (0.80, 1.12, 118, 120),
}
