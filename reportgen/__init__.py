"""reportgen: one winter of a small home greenhouse, reviewed from its own data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from reportgen.pipeline import analyse
    from reportgen.review import Review

__all__ = ["Review", "analyse"]


def __getattr__(name: str) -> Any:
    """`analyse` and `Review` on first use, so that `--help` and input errors need not wait for pandas."""
    if name == "analyse":
        from reportgen.pipeline import analyse

        return analyse
    if name == "Review":
        from reportgen.review import Review

        return Review
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
