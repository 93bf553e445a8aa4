"""Which crops met the cold that harms them, and of which the book says otherwise than their band."""

from __future__ import annotations

from reportgen.counsel.facts import Facts
from reportgen.counsel.whole import on_record
from reportgen.wording import listed


def crops_title(facts: Facts) -> str:
    """Which crops met the cold that harms them, on record."""
    f = facts.r.frost
    hit = list(dict.fromkeys(c.crop for c in f.crops if (c.margin_k or 0.0) < 0))
    taken = lost_above(facts)
    if not hit and taken:
        names = listed(taken)
        those = "it" if len(taken) == 1 else "them"
        return f"{names[:1].upper()}{names[1:]}: lost to frost above the cold that is said to harm {those}"
    if not hit:
        known = "" if all(c.margin_k is not None for c in f.crops) else " with a known limit"
        seen = on_record(f.hours_recorded, f.hours_recorded + f.hours_unrecorded)
        return f"No crop{known} met the cold that harms it{seen}"
    names = listed(hit)
    return f"{names[:1].upper()}{names[1:]} met cold that can harm {'it' if len(hit) == 1 else 'them'}"


def lost_above(facts: Facts) -> list[str]:
    """Crops of which plants are booked as lost in a frost that did not reach their band: it did not fit here."""
    cold = [e for e in facts.on.events if e.kind in ("frost", "failure")]
    lost = {met.crop for event in cold for met in event.crops if met.lost}
    safe = [c.crop for c in facts.r.frost.crops if c.margin_k is not None and c.margin_k >= 0 and c.crop in lost]
    return list(dict.fromkeys(safe))
