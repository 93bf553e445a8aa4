"""What the crops met, where the book and the band disagree; and bands as they were given."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pytest

from reportgen.charts.frost_met import crops_title, lost_above
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import CropMet


def facts(margin_k: float | None, lost: float | None, kind: str = "frost") -> Facts:
    """One crop that stood so far from its band, and so many of it booked as lost in an event."""
    met = CropMet(crop="lettuce", bed="long", coldest_c=-0.3, lost=lost, cause="frost")
    frost = SimpleNamespace(
        crops=(SimpleNamespace(crop="lettuce", margin_k=margin_k),), hours_recorded=100.0, hours_unrecorded=0.0
    )
    on: Any = SimpleNamespace(events=(SimpleNamespace(kind=kind, crops=(met,)),))
    return cast("Facts", SimpleNamespace(r=SimpleNamespace(frost=frost), on=on))


def test_a_crop_lost_above_its_band_is_not_told_as_unharmed() -> None:
    """Seven lettuces lost at −0.3 °C, 1.7 K above the band of a table."""
    assert crops_title(facts(1.7, 7.0)).startswith("Lettuce: lost to frost above the cold that is said to harm it")


@pytest.mark.parametrize(
    ("margin_k", "lost", "kind"), [(1.7, None, "frost"), (None, 7.0, "frost"), (1.7, 7.0, "loss"), (-0.2, 7.0, "frost")]
)
def test_the_band_is_doubted_only_where_cold_is_booked_above_it(
    margin_k: float | None, lost: float | None, kind: str
) -> None:
    """Nothing lost; no band; mould took them; the band was met."""
    assert lost_above(facts(margin_k, lost, kind)) == []
