"""What the crops met, where the book and the band disagree; and bands as they were given."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any, cast

import pytest

from reportgen.charts.frost_met import crops_title, lost_above
from reportgen.charts.frost_tables import crop_table
from reportgen.charts.frost_worst import _title
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import HEAT_OUT, CropMet
from reportgen.measures.frost_crops import BANDS
from reportgen.wording import Wording


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


@pytest.mark.parametrize(
    ("ends", "source", "us", "words"),
    [
        ((-3.0, -1.5), "your own figure in season.toml", False, "−3.0 to −1.5\u00a0°C"),
        ((-3.0, -1.0), "your own figure in season.toml", False, "−3 to −1\u00a0°C"),
        ((-4.0, -2.0), "table 2", True, "25 to 28\u00a0°F"),  # a table's band is no finer than it was
    ],
)
def test_one_s_own_band_is_printed_as_it_was_given(ends: Any, source: str, us: bool, words: str) -> None:
    """−1.5 °C is not −2 °C: the margin beside it is counted from it."""
    crop = SimpleNamespace(
        crop="pak choi", bed=None, from_=dt.date(2026, 1, 5), to=dt.date(2026, 2, 1), assumed_standing=False,
        coldest_c=-2.5, week_before_c=1.7, damage_low_c=ends[0], damage_high_c=ends[1], survived_c=None, lost=4.0,
        without_heat_c=None, source=source,
    )  # fmt: skip
    of = SimpleNamespace(r=SimpleNamespace(frost=SimpleNamespace(crops=(crop,))), w=Wording(us=us, currency="EUR"))
    table = crop_table(cast("Facts", of))
    assert table is not None and table.rows[0][4] == words


def test_silverbeet_is_chard() -> None:
    """Another name of one plant (Beta vulgaris, the leaf beet)."""
    assert BANDS["silverbeet"] == BANDS["silver beet"] == BANDS["chard"]


def test_the_minutes_by_the_diary_stand_over_the_night() -> None:
    """As they do of a failure that a plug recorded."""
    out: Any = SimpleNamespace(cause=HEAT_OUT, line_crossed_after_min=49.0)
    of: Any = SimpleNamespace(r=SimpleNamespace(frost=SimpleNamespace(line_c=0.0)), w=Wording(us=False, currency="EUR"))
    assert _title(out, of) == "The heat was out by the diary, and 49\u00a0minutes later it was 0\u00a0°C"
