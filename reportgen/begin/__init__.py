"""A first season.toml for a folder of exports: guesses where the files show it, questions where only a person knows.

The parts are imported on first use, so that a wrong call need not wait for pandas.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from reportgen.begin.refuse import AlreadyBegun, refuse

if TYPE_CHECKING:
    from reportgen.begin.start import BeginResult, begin

__all__ = ["AlreadyBegun", "BeginResult", "begin", "refuse"]


def __getattr__(name: str) -> Any:
    """`begin` and `BeginResult`."""
    if name in ("begin", "BeginResult"):
        from reportgen.begin import start

        return getattr(start, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
