"""The winters of known truth by their name."""

from __future__ import annotations

from scenarios import SCENARIOS, Scenario


def scenario(name: str) -> Scenario:
    """The winter of that name."""
    return next(s for s in SCENARIOS if s.name == name)
