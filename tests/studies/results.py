"""The study's rows told as a table: counts, rates, and the binomial interval that the counts leave."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
from scipy.stats import binomtest

LIFT_CLASSES = ((0.0, 0.25), (0.25, 0.5), (0.5, 1.0), (1.0, 2.0), (2.0, 20.0))


def told(rows: pd.DataFrame) -> pd.DataFrame:
    """Rows with an estimate, with two marks: `sign` (the interval excludes zero) and `holds` (it holds the truth)."""
    kept = rows[rows["effect"].notna() & rows["truth"].notna()].copy()
    kept["sign"] = (kept["low"] > 0) | (kept["high"] < 0)
    kept["holds"] = (kept["low"] <= kept["truth"]) & (kept["truth"] <= kept["high"])
    kept["half"] = (kept["high"] - kept["low"]) / 2
    return kept


def rate(marks: pd.Series) -> str:
    """2.4 % (9 of 375; 1.1–4.5)."""
    n, k = len(marks), int(marks.sum())
    if n == 0:
        return "none"
    ci = binomtest(k, n).proportion_ci(method="exact")
    return f"{100 * k / n:.1f} % ({k} of {n}; {100 * ci.low:.1f}–{100 * ci.high:.1f})"


def by(rows: pd.DataFrame, column: str, mark: str) -> list[tuple[str, str]]:
    """The rate in every stratum of a column."""
    return [(str(name), rate(group[mark])) for name, group in rows.groupby(column, sort=True)]


def power(rows: pd.DataFrame) -> list[tuple[str, str]]:
    """How often a true lift of a size gets a sign that points the right way."""
    lift = rows[rows["outcome"] == "lift"]
    right = lift["sign"] & (np.sign(lift["effect"]) == np.sign(lift["truth"]))
    size = lift["truth"].abs()
    return [(f"{low:g}–{high:g} K", rate(right[(size >= low) & (size < high)])) for low, high in LIFT_CLASSES]


def table(head: tuple[str, ...], lines: list[tuple[str, ...]]) -> list[str]:
    """A table in Markdown, an empty line after it."""
    rows = [f"| {' | '.join(cells)} |" for cells in (head, *lines)]
    return [rows[0], "|" + "---|" * len(head), *rows[1:], ""]


def two_rates(rows: pd.DataFrame, part: pd.DataFrame, column: str, mark: str) -> list[tuple[str, ...]]:
    """The rate in every stratum of a column, of all rows and of a part of them."""
    return [(str(name), rate(group[mark]), rate(part.loc[part[column] == name, mark])) for name, group in rows.groupby(column)]


def text(rows: pd.DataFrame, date: str) -> str:
    """RESULTS.md."""
    found = told(rows)
    placebo, true = found[~found["true"].astype(bool)], found[found["true"].astype(bool)]
    winters = rows.groupby("true")["seed"].nunique()
    changes = rows.drop_duplicates(["seed", "true", "change"])
    counts = changes.groupby("true").size()
    declared = placebo[placebo["declared"].astype(bool)]
    lines = [
        "# Honesty study of the changes",
        "",
        f"Run on {date}; seeds [20251125, n]; through the public chain:",
        f"{winters.get(False, 0)} winters with {counts.get(False, 0)} changes that do nothing and",
        f"{winters.get(True, 0)} winters with {counts.get(True, 0)} changes that do something.",
        "A third of the winters each: the simulator's own weather, the typical year of Greensboro (36° N), that of",
        "Sand Point (55° N). Hidden growth, watering and draughts in all. In brackets: counts and the exact 95 %",
        "binomial interval; the ten outcomes of one change share its nights, so the pooled ones are too narrow.",
        "",
        "## Changes that do nothing: signs given (aim: at most 5 %)",
        "",
        *table(
            ("on", "false signs"), [("the outcome hoped for", rate(declared["sign"])), ("all", rate(placebo["sign"]))]
        ),
        *table(("outcome", "false signs"), by(placebo, "outcome", "sign")),
        *table(("weather columns of set", "false signs"), by(placebo, "set", "sign")),
        *table(("weather", "false signs"), by(placebo, "place", "sign")),
        "The usual before/after picture on the same dates (two means of 21 nights, t interval for independent nights):",
        "",
        *table(("outcome", "false signs"), [("all", rate(_plain(placebo))), *_plain_by(placebo)]),
        "## Beside the experiment by which the method was chosen",
        "",
        *table(("figure", "there, and here"), _beside(placebo, true)),
        "There: 126 winters without a change and 864 single changes in a simulated house, nine station-winters",
        "(methods page). Soil means use the delta method for the share of yesterday that the bed keeps; at windows of",
        "42 to 49 days its standard error was found 0–4 % too small against simulation: their intervals are that much",
        "too narrow.",
        "",
        "## Changes that do something: the interval holds the truth (aim: at least 93 %)",
        "",
        *table(("on", "coverage"), [("all", rate(true["holds"]))]),
        *table(("outcome", "coverage"), by(true, "outcome", "holds")),
        *table(("what was done", "coverage"), by(true, "change", "holds")),
        "## A true change of the lift: found, with the right sign",
        "",
        *table(("true size", "found"), power(true)),
        "## Half-width of the interval, median",
        "",
        *table(
            ("outcome", "half-width"),
            [(str(name), f"{group['half'].median():.2g}") for name, group in placebo.groupby("outcome")],
        ),
        "## Refused",
        "",
        *_refused(rows),
    ]
    return "\n".join(lines)


def _plain(rows: pd.DataFrame) -> pd.Series:
    return rows["plain"].dropna().astype(str).eq("True")


def _plain_by(rows: pd.DataFrame) -> list[tuple[str, str]]:
    return [(str(name), rate(_plain(group))) for name, group in rows.groupby("outcome", sort=True)]


def _beside(placebo: pd.DataFrame, true: pd.DataFrame) -> list[tuple[str, str]]:
    declared = placebo[placebo["declared"].astype(bool)]
    half = placebo.groupby("outcome")["half"].median()
    share = 100 * (placebo["half"] / placebo["before"]).groupby(placebo["outcome"]).median()
    return [
        ("false signs, outcome hoped for", f"2.4 %; {rate(declared['sign'])}"),
        ("coverage of the 95 % interval", f"96.6–97.4 %; {rate(true['holds'])}"),
        ("half-width, lift", f"0.5 K; {half.get('lift', np.nan):.2f} K"),
        ("half-width, heat", f"15 %; {share.get('heat', np.nan):.0f} % of the days before"),
        ("half-width, watts per kelvin", f"13–16 %; {share.get('watts_per_kelvin', np.nan):.0f} %"),
        ("half-width, night humidity", f"4 points; {half.get('night_humidity', np.nan):.1f} points"),
        ("false signs of a plain before/after picture", f"35–53 %; {rate(_plain(placebo))}"),
    ]


def _refused(rows: pd.DataFrame) -> list[str]:
    logged = rows[~rows["refused"].fillna("").str.startswith(("no ", "the heat was"))]
    refused = logged["refused"].fillna("") != ""
    why = logged.loc[refused, "refused"].str.replace("“.*?”", "“…”", regex=True)
    why = why.str.replace(r"^(only \d+ nights?|no night)", "too few nights", regex=True)
    common = why.value_counts().head(8)
    return table(
        ("reason, where it was logged", "share"), [("any", rate(refused))] + [(w, str(n)) for w, n in common.items()]
    )


def write(rows: pd.DataFrame, file: Path, date: str) -> None:
    """The table into a file."""
    file.write_text(text(rows, date), encoding="utf-8", newline="")
