"""How honest single houses are told where an earlier sum told too little, so that the method page can say so.

Study: tests/studies/alone.py, its table tests/studies/ALONE.md (a test holds the two together). Whoever changes the
estimator runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.effects.measured import Counted

ALONE_DATE = "2026-11-27"
ALONE_HOUSES = (24, 24)  # unheated, heated
# Intervals that held the truth of something done, before and now; and signs where nothing was done, now.
HELD: Mapping[str, tuple[Counted, Counted]] = MappingProxyType(
    {
        "the warmth of nights without heat, with a probe in the bed": (Counted(k=70, n=75), Counted(k=73, n=75)),
        "the heat of a day with a probe": (Counted(k=55, n=61), Counted(k=57, n=61)),
        "the heat of a day without one": (Counted(k=52, n=61), Counted(k=58, n=61)),
        "its share with a probe": (Counted(k=57, n=61), Counted(k=61, n=61)),
        "its share without one": (Counted(k=59, n=61), Counted(k=61, n=61)),
    }
)
FALSE_SIGNS: Mapping[str, Counted] = MappingProxyType(
    {
        "the warmth of nights without heat, with a probe in the bed": Counted(k=0, n=176),
        "the heat of a day with a probe": Counted(k=2, n=159),
        "the heat of a day without one": Counted(k=4, n=159),
    }
)
