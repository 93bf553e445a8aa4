"""The hold: how far the thermostat may come down."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.counsel.grounds import Event, HoldAdvice
from reportgen.counsel.results import Results


def hold_advice(r: Results, happened: Sequence[Event]) -> HoldAdvice:
    """What can be advised on the thermostat."""
    return HoldAdvice(
        dial_c=None, down_by_k=None, usually_c=None, coldest_c=None, nights=0, crop=None, reason="not worked out"
    )
