"""How often a house really run lower stayed over a crop's limit, as the dial's study found.

Study: tests/studies/dial.py, its table tests/studies/DIAL.md; both are written by tests/studies/dial_results.py, and a
test holds them together. Whoever changes the offsets or the rule runs it again.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class DialRate:
    """One rule in one winter. Of `cases` (a house, 1, 2 or 3 K lower): no night under the limit in `clear_pct`, more
    than two nights in `many_pct`; in a tenth of them the coldest night lay `tenth_k` or less over the limit [K]."""

    rule: str
    winter: str
    cases: int
    clear_pct: float
    many_pct: float
    tenth_k: float


STUDY_DATE = "2026-11-27"
HOUSES, REFUSED = 120, 40
COLDER_PCT = (2.1, 2.9)  # nights colder than the 5 % night: same, another winter
COLDER_CASES = 320
_ROWS = (
    ("the 5 % night", "same winter", 240, 96.2, 2.1, 0.18),
    ("the 5 % night", "another winter", 80, 97.5, 1.2, 0.24),
    ("the coldest night", "same winter", 240, 97.9, 0.8, 0.33),
    ("the coldest night", "another winter", 80, 100.0, 0.0, 0.36),
    ("the coldest night and 1 K", "same winter", 240, 100.0, 0.0, 1.33),
    ("the coldest night and 1 K", "another winter", 80, 100.0, 0.0, 1.36),
)  # fmt: skip
DIAL_RATES: tuple[DialRate, ...] = tuple(
    DialRate(rule=r, winter=w, cases=n, clear_pct=c, many_pct=m, tenth_k=t) for r, w, n, c, m, t in _ROWS
)
