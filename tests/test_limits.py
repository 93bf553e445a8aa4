"""The limits: each with a reason."""

from __future__ import annotations

from reportgen import limits
from reportgen.limits import Limit

EVERY = {name: value for name, value in vars(limits).items() if isinstance(value, Limit)}


def test_every_limit_says_why() -> None:
    """What it counts in words, and what it was measured against."""
    assert len(EVERY) > 20
    for name, limit in EVERY.items():
        assert limit.most > 0 and limit.of and len(limit.why) > 20, name
