"""What may be said of a winter that was not recorded whole: *never* and *nothing* only of the hours on record."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.measures.frost_types import Frost
from reportgen.wording import NBSP, Wording, number

NEARLY = 0.95  # share of the season from which its recorded hours may stand for it; ours, as on The record
COLD_LEAST_H = 1.0  # under the frost line outdoors: less is not worth a sentence; ours
LEAST_H = 3.0  # missing in all: less is not worth a sentence (readings so far apart may still be joined); ours


def gaps_in(missing_h: float) -> bool:
    """So many hours are missing that a sentence on all of the winter may not be said."""
    return missing_h >= LEAST_H


def on_record(recorded_h: float, season_h: float) -> str:
    """` in the 3 410 h on record; 120 h are missing`, to stand after what was not seen; empty where all is there.

    `recorded_h` of `season_h` hours.
    """
    if not gaps_in(season_h - recorded_h):
        return ""
    return f" in the {number(recorded_h)}{NBSP}h on record; {missing(season_h - recorded_h)}"


def of_the_time(recorded_h: float, season_h: float) -> str:
    """`of the time`, to stand after a share of the hours recorded; where more is missing, of the time on record."""
    return "of the time" if recorded_h >= NEARLY * season_h else "of the time on record"


def missing(hours: float) -> str:
    """Hours in words: 120 h are missing, 1 h is missing."""
    return f"{number(hours)}{NBSP}h {'is' if round(hours) == 1 else 'are'} missing"


def hidden(f: Frost, w: Wording) -> str:
    """The hours without crop air in which frost can hide, as a sentence; empty where there is none."""
    return hidden_words(f.unrecorded_cold_hours or 0.0, f.unrecorded_unknown_hours, w.temp(f.line_c))


def hidden_words(cold_h: float, unknown_h: float, line: str) -> str:
    """The same of hours under the frost line outdoors, and of hours of which outdoors is not known either."""
    told = f"For {_h(cold_h)} the crop air is not on record while it was under {line} outdoors" * (
        cold_h >= COLD_LEAST_H
    )
    if unknown_h >= LEAST_H:
        more = f"for {'another ' if told else ''}{_h(unknown_h)} neither the crop air nor the outdoor air is on record"
        told = f"{told}; {more}" if told else more[:1].upper() + more[1:]
    return f"{told}." if told else ""


def _h(hours: float) -> str:
    return f"{number(hours)}{NBSP}h"


def quoted(entries: Sequence[str]) -> str:
    """“Door left ajar”; “Vents shut”: the grower's own words, marked as such."""
    return "; ".join(f"“{entry}”" for entry in entries)
