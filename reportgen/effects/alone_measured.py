"""How honest single houses are where a first estimator was not, so that the method page can say so.

Study: tests/studies/alone.py, its table tests/studies/ALONE.md (a test holds the two together). Whoever changes the
estimator runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.effects.measured import Counted

ALONE_DATE = "2026-11-27"
ALONE_HOUSES = (0, 0)  # unheated, heated
# Intervals that held the truth of something done, before and now; and signs where nothing was done, now.
HELD: Mapping[str, tuple[Counted, Counted]] = MappingProxyType({})
FALSE_SIGNS: Mapping[str, Counted] = MappingProxyType({})
