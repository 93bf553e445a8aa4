"""The limits: each with a reason, each in README.md."""

from __future__ import annotations

from pathlib import Path

from reportgen import limits
from reportgen.limits import Limit

README = Path(__file__).parents[1] / "README.md"
EVERY = {name: value for name, value in vars(limits).items() if isinstance(value, Limit)}


def test_readme_lists_every_limit() -> None:
    """Its number stands in the section on how much a folder may hold."""
    section = README.read_text(encoding="utf-8").partition("## How much a folder may hold")[2].partition("\n## ")[0]
    numbers = section.replace(" ", "")
    assert len(EVERY) > 20
    assert {name for name, limit in EVERY.items() if str(limit.most) not in numbers} == set()


def test_every_limit_says_why() -> None:
    """What it counts in words, and what it was measured against."""
    for name, limit in EVERY.items():
        assert limit.most > 0 and limit.of and len(limit.why) > 20, name
