"""How often the two ends of what a lever spared held the truth in this project's own study; written down from it.

Study: tests/studies/spared.py, its table tests/studies/SPARED.md (a test holds the two together). Whoever changes the
arithmetic of `spared` or of `by_state` runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.effects.measured import Counted

SPARED_DATE = "2026-11-27"
SPARED_HOUSES = 77
# By what the estimate rests on: since it was on, and by a whole winter.
HELD_BY_WAY: Mapping[str, tuple[Counted, Counted]] = MappingProxyType(
    {
        "heat for each degree": (Counted(k=62, n=63), Counted(k=62, n=63)),
        "days": (Counted(k=5, n=6), Counted(k=5, n=6)),
        "a weekly meter": (Counted(k=68, n=68), Counted(k=68, n=68)),
    }
)
# The same of heat logged by the hour, by what was done to the house; the last are houses with too small a heater.
HELD_BY_KIND: Mapping[str, tuple[Counted, Counted]] = MappingProxyType(
    {
        "cover": (Counted(k=23, n=25), Counted(k=23, n=25)),
        "gaps": (Counted(k=22, n=22), Counted(k=22, n=22)),
        "night curtain": (Counted(k=22, n=22), Counted(k=22, n=22)),
        "heater at its limit": (Counted(k=18, n=18), Counted(k=18, n=18)),
    }
)
