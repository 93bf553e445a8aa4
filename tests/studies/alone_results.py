"""The table of the study of single houses: what the intervals held, how much was told, what was told of nothing."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
from studies.pooling_bank import NOTHING
from studies.results import clusters, rate, table

SEASONS = ("autumn", "midwinter", "spring")
SHARE = "share of heat"
CELLS = (  # outcome, houses, a probe in the bed, words
    ("lift", False, True, "warmth at night, unheated, with a probe in the bed"),
    ("lift", False, False, "warmth at night, unheated, without one"),
    ("night_minimum", False, True, "coldest of the night, unheated, with a probe"),
    ("night_minimum", False, False, "coldest of the night, unheated, without one"),
    ("heat", True, True, "heat a day, kWh, with a probe"),
    ("heat", True, False, "heat a day, kWh, without one"),
    (SHARE, True, True, "heat a day as a share, with a probe"),
    (SHARE, True, False, "heat a day as a share, without one"),
    ("watts_per_kelvin", True, True, "heat for each kelvin, W/K, with a probe"),
    ("watts_per_kelvin", True, False, "heat for each kelvin, W/K, without one"),
    ("soil_mean", False, True, "temperature of the bed, unheated"),
    ("soil_mean", True, True, "temperature of the bed, heated"),
)


def told(rows: pd.DataFrame) -> pd.DataFrame:
    """Rows with an estimate and a truth; heat once more as a share; `sign`, `holds` and `cluster` as in `results`."""
    heat = rows[(rows["outcome"] == "heat") & (rows["before"] > 0)].copy()
    for name in ("effect", "low", "high"):
        heat[name] = heat[name] / heat["before"]
    heat["truth"], heat["outcome"] = heat["true_share"], SHARE
    both = pd.concat([rows, heat], ignore_index=True)
    kept = both[both["effect"].notna() & both["truth"].notna()].copy()
    kept["sign"] = (kept["low"] > 0) | (kept["high"] < 0)
    kept["right"] = kept["sign"] & (kept["effect"] * kept["truth"] > 0)
    kept["holds"] = (kept["low"] <= kept["truth"]) & (kept["truth"] <= kept["high"])
    kept["half"] = (kept["high"] - kept["low"]) / 2
    kept["cluster"] = clusters(kept)
    return kept


def of_cell(found: pd.DataFrame, cell: tuple[str, bool, bool, str]) -> pd.DataFrame:
    """The rows of one cell."""
    outcome, heated, probe, _ = cell
    return found[(found["outcome"] == outcome) & (found["heated"] == heated) & (found["probe"] == probe)]


def line(words: str, part: pd.DataFrame) -> tuple[str, ...]:
    """Held, true and told means, half-width, told with the right sign: of deeds in one part of the season."""
    if not len(part):
        return (words, *["none"] * 5)
    held = rate(part["holds"], part["cluster"])
    truth, mean, half = part["truth"].mean(), part["effect"].mean(), part["half"].median()
    right = f"{int(part['right'].sum())} of {len(part)}"
    return (words, held, f"{truth:.2f}", f"{mean:.2f}", f"{half:.2f}", right)


def done_lines(found: pd.DataFrame) -> list[tuple[str, ...]]:
    """Every cell by season, of what was done."""
    lines = []
    for cell in CELLS:
        part = of_cell(found, cell)
        part = part[part["deed"] != NOTHING]
        lines += [line(f"{cell[3]}, {season}", part[part["season"] == season]) for season in SEASONS]
        lines.append(line(f"{cell[3]}, all", part))
    return [tuple(cell.replace("-", "\N{MINUS SIGN}") if n else cell for n, cell in enumerate(row)) for row in lines]


def nothing_lines(found: pd.DataFrame, before: pd.DataFrame | None) -> list[tuple[str, ...]]:
    """Signs on dates on which nothing was done, before and now; and the mean told there."""
    lines = []
    for cell in CELLS:
        if cell[0] == SHARE:
            continue
        sets = [of_cell(rows, cell) for rows in (before, found) if rows is not None]
        sets = [part[part["deed"] == NOTHING] for part in sets]
        signs = [rate(part["sign"], part["cluster"]) for part in sets]
        means = [f"{sets[-1].loc[sets[-1]['season'] == name, 'effect'].mean():+.2f}" for name in SEASONS]
        lines.append((cell[3], *signs, *(mean.replace("-", "\N{MINUS SIGN}") for mean in means)))
    return lines


def text(rows: pd.DataFrame, earlier: pd.DataFrame | None, date: str) -> str:
    """ALONE.md."""
    found = told(rows)
    before = None if earlier is None else told(earlier)
    houses = rows.groupby("heated")["house"].nunique()
    head = ("what, and when it was done", "interval holds the truth", "true mean", "told", "half-width", "right sign")
    named = ("false signs",) if before is None else ("false signs before", "false signs now")
    lines = [
        "# What one house alone can tell",
        "",
        f"Run on {date}: {houses.get(False, 0)} unheated and {houses.get(True, 0)} heated simulated houses, each under "
        "a weather of its own but for those in the typical years of two stations; film, sealed gaps or a night curtain "
        "twice in autumn (30 October to 28 November), in midwinter (12 December to 25 January) and in spring (10 "
        "February to 12 March), each in a winter of its own beside the house left as it was. "
        "`python -m studies.alone ROWS.csv 0 24` in `tests` runs it again. In brackets: counts and the exact 95 % "
        "binomial interval, rows under one weather within a fortnight counting for fewer. Means and half-widths "
        "(median) in K, kWh a day, W/K or as a share.",
        "",
        *PROSE,
        "## Something done, now",
        "",
        *table(head, done_lines(found)),
    ]
    if before is not None:
        lines += ["## The same houses, before", "", *table(head, done_lines(before))]
    lines += [
        "## Nothing done (aim: at most 5 %)",
        "",
        *table(("what", *named, *(f"mean told, {name}" for name in SEASONS)), nothing_lines(found, before)),
    ]
    return "\n".join(lines)


PROSE = (
    "Heat of a day: what is done to it grows with the cold. A step alone is the effect at some cold between that "
    "of the days before and that of the days after, so that it told too little of a change before a cold spell "
    "(autumn) and too much of one before a mild one (spring). Now a column beside the step lets it grow, the "
    "effect is that at the mean cold of the days after, and its share is one of what those days would have taken "
    "without it. A step that is only proportional to the cold was not tried again: it had given false signs. "
    "Nothing is refused for mild days. Where the days before took less than seven tenths of what the house took "
    "before its other dates, the interval of the share held the truth in 22 of 22 cases with a probe and 22 of 22 "
    "without (before: 19 and 22), that of kilowatt-hours in 21 and 20 (before: 20 and 17). With a probe "
    "kilowatt-hours are still held in fewer than 95 of 100.",
    "",
    "Warmth of the nights without heat: beside the bed's evening warmth the estimate leaves out what came by way "
    "of the bed. The interval is now the outer of the one with that column and the one that a house without a "
    "probe is told; only where the first leaves out zero, and the second points the same way, its end near zero "
    "stays. So no sign is won by it and few are lost (two here), and “no sign” is said less often. Of the seeds "
    "`tried` these were looked at too, and not taken: the first two sets of columns without the bed's (9 houses: "
    "false signs on 5 of 63 dates, 25 of 27 held); the outdoor air of the last 3 and 10 days in place of the bed "
    "(14 houses: on 2 of 106 dates, 44 of 45 held, but the right sign for 10 of 45 where the bed's column had "
    "19); the bed's share by an estimate of its own, added (on 3 of 106, 42 of 44 held, right sign 13 of 44).",
    "",
    "Bed: film does not hide in any column there. Most of what is told too low in midwinter is told too low on "
    "dates on which nothing was done too: a drift of the season, perhaps of deeper ground that yesterday's value "
    "does not tell. Its intervals hold the truth all the same. Such a drift is told of those dates in houses "
    "without a probe too (last table: warmth of the nights in midwinter, watts per kelvin in autumn and spring); "
    "nothing was altered there.",
    "",
    "The seeds `tried` (48 other houses, 24 weathers), by which the two sums were chosen, before and now: warmth "
    "of the nights without heat, with a probe, held in 72 and 75 of 75; heat a day with a probe in 56 and 54 of "
    "56, without in 52 and 53 of 56; its share with a probe in 54 and 56, without in 53 and 54 of 56; false signs "
    "of heat with a probe on 1 and 1, without on 5 and 8 of 148 dates.",
    "",
)


def write(rows: pd.DataFrame, earlier: pd.DataFrame | None, file: Path, date: str) -> None:
    """The table into a file."""
    file.write_text(text(rows, earlier, date), encoding="utf-8", newline="")
