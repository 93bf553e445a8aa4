"""What was understood of a season folder, and every problem at once; never fails on a broken folder."""

from reportgen.inspection.found import Found
from reportgen.inspection.look import inspect
from reportgen.inspection.words import text

__all__ = ["Found", "inspect", "text"]
