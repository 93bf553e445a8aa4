"""The study of spared heat: its counting is right by hand.

That pages quote its table: tests/effects/test_spared_measured.py.
"""

from __future__ import annotations

import pandas as pd
from studies.spared_results import held, line


def test_held_is_between_the_two_ends() -> None:
    """A truth of 5 lies between 4 and 6, not between 6 and 9; what was refused is not counted as told."""
    table = pd.DataFrame(
        {"truth_since": [5.0, 5.0, 5.0], "since_low": [4.0, 6.0, None], "since_high": [6.0, 9.0, None],
         "truth_winter": 5.0, "winter_low": [4.0, 6.0, None], "winter_high": [6.0, 9.0, None], "heat": 100.0}
    )  # fmt: skip
    assert held(table, "since").tolist()[:2] == [True, False]
    assert line("any", table) == "| any | 2 of 3 | 1 of 2 | 1 of 2 | 1.2 % | 1.2 % |"
