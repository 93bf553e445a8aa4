"""The pages of a group, one module a page: what they say, what they draw, and what is behind it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

# slug → its name in the navigation, in the order in which the pages stand
NAMES: Mapping[str, str] = MappingProxyType(
    {
        "index": "Group",
        "things": "Things",
        "frost": "Frost",
        "heat": "Heat",
        "damp": "Damp",
        "harvest": "Harvest",
        "houses": "Houses",
        "years": "Years",
        "record": "Record",
        "method": "Method",
        "handout": "Handout",
    }
)
SUBJECTS = tuple(slug for slug in NAMES if slug not in ("index", "method", "handout"))
