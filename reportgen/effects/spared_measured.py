"""How often the two ends of what a lever spared held the truth in this project's own study; written down from it.

Study: tests/studies/spared.py, its table tests/studies/SPARED.md (a test holds the two together). Whoever changes the
arithmetic of `spared` or of `by_state` runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.effects.measured import Counted

SPARED_DATE = "2026-11-27"
SPARED_HOUSES = 22
# By what the estimate rests on: since it was on, and by a whole winter.
HELD_BY_WAY: Mapping[str, tuple[Counted, Counted]] = MappingProxyType(
    {
        "heat for each degree": (Counted(k=18, n=19), Counted(k=18, n=19)),
        "days": (Counted(k=3, n=3), Counted(k=3, n=3)),
        "a weekly meter": (Counted(k=22, n=22), Counted(k=22, n=22)),
    }
)
# The same of heat logged by the hour, by what was done to the house; the last are houses with too small a heater.
HELD_BY_KIND: Mapping[str, tuple[Counted, Counted]] = MappingProxyType(
    {
        "cover": (Counted(k=9, n=10), Counted(k=9, n=10)),
        "gaps": (Counted(k=6, n=6), Counted(k=6, n=6)),
        "night curtain": (Counted(k=6, n=6), Counted(k=6, n=6)),
        "heater at its limit": (Counted(k=2, n=2), Counted(k=2, n=2)),
    }
)
