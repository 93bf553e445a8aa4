"""The balance: what the season gave against what it took, and which weeks were worth heating."""

from __future__ import annotations

from reportgen.counsel.grounds import Balance
from reportgen.counsel.results import Results


def balance(r: Results) -> Balance:
    """Everything or nothing."""
    return Balance(
        heat=None,
        appliances=None,
        costs=None,
        changes_by_years=None,
        total=None,
        per_kg=None,
        missing=(),
        weeks=(),
        reasons={},
    )
