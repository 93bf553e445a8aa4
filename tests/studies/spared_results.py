"""The table of the study of spared heat: how often the two ends held the truth, and how far apart they lay."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pandas as pd

HEAD = "| houses | told | since held | winter held | half-width since | half-width winter |\n|---|---|---|---|---|---|"


def held(table: pd.DataFrame, what: str) -> pd.Series:
    """Whether the truth lies between the two ends."""
    return (table[f"{what}_low"] <= table[f"truth_{what}"]) & (table[f"truth_{what}"] <= table[f"{what}_high"])


def groups(table: pd.DataFrame) -> Iterator[tuple[str, pd.DataFrame]]:
    """Names and rows of the groups that the table tells."""
    ways = {
        "nights": "by the heat for each degree",
        "days": "by days, where that was refused",
        "weeks": "by a weekly meter",
    }
    for by, name in ways.items():
        part = table[
            (table["by"] == by) | (table["by"].isna() & (table["log"] == ("week" if by == "weeks" else "hour")))
        ]
        part = part if by != "days" else table[table["by"] == by]
        yield name, part
        for kind in ("cover", "gaps", "curtain"):
            yield f"… {kind}", part[part["kind"] == kind]
        yield "… heater at its limit", part[part["heater"] == "small"]
        yield "… other changes beside it", part[part["others"] > 0]
        yield "… undone again", part[part["undone"]]


def line(name: str, part: pd.DataFrame) -> str:
    """One row of the table."""
    told = part[part["since_low"].notna()]
    if not len(told):
        return f"| {name} | 0 of {len(part)} | | | | |"
    width = {w: 50 * ((told[f"{w}_high"] - told[f"{w}_low"]) / told["heat"]).median() for w in ("since", "winter")}
    counts = {w: f"{int(held(told, w).sum())} of {len(told)}" for w in ("since", "winter")}
    return (
        f"| {name} | {len(told)} of {len(part)} | {counts['since']} | {counts['winter']} | {width['since']:.1f} % | "
        f"{width['winter']:.1f} % |"
    )


def write(table: pd.DataFrame, file: Path, date: str) -> None:
    """SPARED.md."""
    lines = [line(name, part) for name, part in groups(table)]
    file.write_text(
        f"# What a lever spared\n\n{table['seed'].nunique()} simulated houses, {date}. Each run with the lever, "
        "without it, and with it from the first day; half-widths are medians, in percent of the heat of "
        "the winter without it. "
        "`python -m studies.spared` in `tests` runs it again.\n\n" + "\n".join([HEAD, *lines]) + "\n",
        encoding="utf-8",
    )
