"""The study's rows told as a table: counts, rates, and the binomial interval that the counts leave."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
from scipy.stats import beta

LIFT_CLASSES = ((0.0, 0.25), (0.25, 0.5), (0.5, 1.0), (1.0, 2.0), (2.0, 20.0))


CLUSTER_DAYS = 14
SEASON_PARTS = (("before 5 December", "2025-12-05"), ("to 10 February", "2026-02-10"), ("after it", "2027-01-01"))


def clusters(rows: pd.DataFrame) -> pd.Series:
    """Rows under one weather within one fortnight err together, whichever house they are of."""
    day = pd.to_datetime(rows["when"])
    return rows["weather"] + " " + ((day - pd.Timestamp("2025-10-01")).dt.days // CLUSTER_DAYS).astype(str)


def part_of_season(rows: pd.DataFrame) -> pd.Series:
    """Autumn, winter or spring by the date of the change."""
    return rows["when"].map(lambda day: next(name for name, end in SEASON_PARTS if day < end))


def told(rows: pd.DataFrame) -> pd.DataFrame:
    """Rows with an estimate, with two marks: `sign` (the interval excludes zero) and `holds` (it holds the truth)."""
    kept = rows[rows["effect"].notna() & rows["truth"].notna()].copy()
    kept["sign"] = (kept["low"] > 0) | (kept["high"] < 0)
    kept["holds"] = (kept["low"] <= kept["truth"]) & (kept["truth"] <= kept["high"])
    kept["cluster"] = clusters(kept)
    kept["half"] = (kept["high"] - kept["low"]) / 2
    return kept


def rate(marks: pd.Series, clusters: pd.Series | None = None) -> str:
    """2.4 % (9 of 375; 1.1–4.5): exact binomial interval (Clopper and Pearson 1934).

    Args:
        clusters: A name for each row; rows of one name may err together, so that they count for fewer: n is divided by
            the ratio of the clustered to the independent variance of the rate (Kish 1965, design effect).
    """
    n, k = len(marks), int(marks.sum())
    if n == 0:
        return "none"
    effect = 1.0 if clusters is None else design_effect(marks, clusters)
    low, high = _exact(k / effect, n / effect)
    return f"{100 * k / n:.1f} % ({k} of {n}; {100 * low:.1f}–{100 * high:.1f})"


def _exact(k: float, n: float) -> tuple[float, float]:
    """Ends of the exact binomial interval, for counts that need not be whole."""
    low = float(beta.ppf(0.025, k, n - k + 1)) if k > 0 else 0.0
    high = float(beta.ppf(0.975, k + 1, n - k)) if k < n else 1.0
    return low, high


def design_effect(marks: pd.Series, clusters: pd.Series) -> float:
    """Clustered over independent variance of a rate, at least 1."""
    share = float(marks.mean())
    independent = share * (1 - share) * len(marks)
    if independent <= 0:
        return 1.0
    return max(1.0, _sum_of_squares(marks.astype(float) - share, clusters) / independent)


def mean_error(rows: pd.DataFrame) -> str:
    """+0.02 ± 0.03: mean of estimate less truth, and its clustered standard error."""
    error = rows["effect"] - rows["truth"]
    if not len(error):
        return "none"
    mean = float(error.mean())
    se = float(np.sqrt(_sum_of_squares(error - mean, rows["cluster"]))) / len(error)
    return f"{mean:+.2f} ± {se:.2f} ({len(error)})".replace("-", "−")


def _sum_of_squares(errors: pd.Series, clusters: pd.Series) -> float:
    """Of the sums of every cluster, with the small-sample factor G / (G − 1)."""
    sums = errors.groupby(clusters).sum()
    return float((sums**2).sum()) * len(sums) / max(len(sums) - 1, 1)


def by(rows: pd.DataFrame, column: str, mark: str) -> list[tuple[str, str]]:
    """The rate in every stratum of a column."""
    return [(str(name), rate(group[mark], group["cluster"])) for name, group in rows.groupby(column, sort=True)]


def errors(rows: pd.DataFrame) -> list[tuple[str, ...]]:
    """Mean error on do-nothing dates by outcome: whole season, then its three parts."""
    lines = []
    for name, group in rows.groupby("outcome", sort=True):
        part = part_of_season(group)
        lines.append((str(name), mean_error(group), *(mean_error(group[part == words]) for words, _ in SEASON_PARTS)))
    return lines


def hoped(rows: pd.DataFrame) -> list[tuple[str, str]]:
    """How often a true change gets a sign that points the right way, on the outcome hoped for."""
    declared = rows[rows["declared"].astype(bool)]
    right = declared["sign"] & (np.sign(declared["effect"]) == np.sign(declared["truth"]))
    return [(str(name), rate(right[group.index])) for name, group in declared.groupby("outcome", sort=True)]


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
    return [
        (str(name), rate(group[mark]), rate(part.loc[part[column] == name, mark]))
        for name, group in rows.groupby(column)
    ]


def text(rows: pd.DataFrame, date: str) -> str:
    """RESULTS.md."""
    found = told(rows)
    placebo, true = found[~found["true"].astype(bool)], found[found["true"].astype(bool)]
    winters = rows.groupby("true")["seed"].nunique()
    counts = rows.groupby("true").size() // rows["outcome"].nunique()
    declared = placebo[placebo["declared"].astype(bool)]
    lines = [
        "# Honesty study of the changes",
        "",
        f"Run on {date}; seeds [20251125, n]; tests/studies/changes.py:",
        f"{winters.get(False, 0)} winters with {counts.get(False, 0)} changes that do nothing and",
        f"{winters.get(True, 0)} winters with {counts.get(True, 0)} changes that do something.",
        "Dates are drawn over the whole season, any day as likely as another. A third of the winters each: the",
        "simulator's own weather (another one each winter), the typical year of Greensboro (36° N), that of Sand Point",
        "(55° N). Hidden growth, watering and draughts in all. In brackets: counts and the exact 95 % binomial",
        f"interval; rows under one weather within {CLUSTER_DAYS} days err together and count for fewer.",
        "",
        "## Changes that do nothing: signs given (aim: at most 5 %)",
        "",
        *table(
            ("on", "false signs"),
            [
                ("the outcome hoped for", rate(declared["sign"], declared["cluster"])),
                ("all", rate(placebo["sign"], placebo["cluster"])),
            ],
        ),
        *table(("outcome", "false signs"), by(placebo, "outcome", "sign")),
        *table(("weather columns of set", "false signs"), by(placebo, "set", "sign")),
        *table(("weather", "false signs"), by(placebo, "place", "sign")),
        *table(("date", "false signs"), _by_part(placebo)),
        "The usual before/after picture on the same dates (two means of 21 nights, t interval for independent nights):",
        "",
        *table(("outcome", "false signs"), [("all", rate(_plain(placebo))), *_plain_by(placebo)]),
        "## Mean error on the same dates, in the outcome's unit, ± its clustered standard error (estimates)",
        "",
        *table(("outcome", "whole season", *(words for words, _ in SEASON_PARTS)), errors(placebo)),
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
        *table(("on", "coverage"), [("all", rate(true["holds"], true["cluster"]))]),
        *table(("outcome", "coverage"), by(true, "outcome", "holds")),
        *table(("what was done", "coverage"), by(true, "change", "holds")),
        "## A true change: found, with the right sign, on the outcome hoped for",
        "",
        *table(("outcome", "found"), hoped(true)),
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


def _by_part(rows: pd.DataFrame) -> list[tuple[str, str]]:
    part = part_of_season(rows)
    marks = [(words, rows[part == words]) for words, _ in SEASON_PARTS]
    return [(words, rate(group["sign"], group["cluster"])) for words, group in marks]


def _plain_by(rows: pd.DataFrame) -> list[tuple[str, str]]:
    return [(str(name), rate(_plain(group))) for name, group in rows.groupby("outcome", sort=True)]


def _beside(placebo: pd.DataFrame, true: pd.DataFrame) -> list[tuple[str, str]]:
    declared = placebo[placebo["declared"].astype(bool)]
    half = placebo.groupby("outcome")["half"].median()
    share = 100 * (placebo["half"] / placebo["before"]).groupby(placebo["outcome"]).median()
    return [
        ("false signs, outcome hoped for", f"2.4 %; {rate(declared['sign'], declared['cluster'])}"),
        ("coverage of the 95 % interval", f"96.6–97.4 %; {rate(true['holds'], true['cluster'])}"),
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
    why = why.str.replace(r"are needed \(.*\)$", "are needed", regex=True)
    common = why.value_counts().head(8)
    return table(
        ("reason, where it was logged", "share"), [("any", rate(refused))] + [(w, str(n)) for w, n in common.items()]
    )


def write(rows: pd.DataFrame, file: Path, date: str) -> None:
    """The table into a file."""
    file.write_text(text(rows, date), encoding="utf-8", newline="")
