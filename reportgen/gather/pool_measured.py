"""How honest pooling was in this project's own study, so that pages can say so; written down by hand from it.

Study: tests/studies/pooling.py, its tables tests/studies/POOLING.md (a test holds the two together). Whoever changes the
recipe, or the estimator of one house, runs it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from reportgen.effects.measured import Counted


@dataclass(frozen=True, kw_only=True, slots=True)
class Rates:
    """Groups of simulated houses, so many of so many; None where none of that kind was drawn.

    `false_signs`: nothing was done and the mean's interval leaves out 0; `false_verdicts`: and a verdict was given.
    `mean_held`: something was done and the mean's interval held the mean truth. `next_there`, `next_anywhere`: the next
    house's interval held its truth, of a house under the same weather or under any. `wrong_sign`: a verdict that was.
    """

    false_signs: Counted
    false_verdicts: Counted
    mean_held: Counted | None
    next_there: Counted | None
    next_anywhere: Counted | None
    wrong_sign: Counted | None
