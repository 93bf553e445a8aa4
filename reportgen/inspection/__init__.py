"""What was understood of a season folder, and every problem at once; never fails on a broken folder.

The parts are imported on first use: of a folder that cannot be read (fault_words.py) that is told at once.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from reportgen.inspection.found import Found
    from reportgen.inspection.look import inspect
    from reportgen.inspection.words import text

__all__ = ["Found", "inspect", "text"]
_PLACES = {"Found": "found", "inspect": "look", "text": "words"}


def __getattr__(name: str) -> Any:
    """Each name from the module that has it."""
    if name not in _PLACES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"reportgen.inspection.{_PLACES[name]}"), name)
