"""Looks at a season folder without ever failing: what cannot be read becomes a problem, the rest is shown."""

from __future__ import annotations

from pathlib import Path

from reportgen.inspection.found import Found
from reportgen.measures.record import record
from reportgen.pipeline import check


def inspect(folder: str | Path, *, against: str | Path | None = None, share: bool = False) -> Found:
    """Everything that can be said of a folder, whole or broken: the faults, and what could be read.

    The faults are those of `pipeline.check`, which a review makes of the same folder with the same `against` and
    `share`: what is called ready here is not refused there.
    """
    checked = check(folder, against=against, share=share)
    return Found(
        folder=Path(folder),
        season=checked.season,
        readings=checked.readings,
        record=record(checked.readings) if checked.readings is not None else None,
        problems=checked.problems,
        warnings=checked.warnings,
    )
