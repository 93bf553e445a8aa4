"""The tables of the study of pooling: false alarms, truths held, verdicts given, what houses of a fortnight share."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import numpy as np
import pandas as pd
from studies.pooling_bank import NOTHING
from studies.results import table

from reportgen.gather.pool_recipe import SHARED_ERROR

WORDS = {
    "lift": "warmth at night",
    "heat": "heat",
    "watts_per_kelvin": "watts per kelvin",
    "night_humidity": "humidity at night",
    "soil_mean": "bed",
}
CHOSEN = (
    "Two constants were first planned smaller, and chosen anew on the first eight weathers. There, houses of one "
    "fortnight shared 5.9 % of watts per kelvin (planned 4 %; 5.5 % are taken), and with 1.25 points of humidity the "
    "mean truth of a film was held in 90 and 92 of 100 groups of 12 and 8 houses of one fortnight (with the 1.75 "
    "points that are taken in 96). The tables hold all weathers."
)
FILM_HEAD = ("weather and fortnight", "houses are", "told", "truth, K", "told, K", "single intervals hold it")
SUMMARY = (
    "groups", "nothing done: 0 left out", "nothing done: a verdict", "something done: mean truth held",
    "next house there held", "next house anywhere held", "a verdict of the wrong sign",
)  # fmt: skip


def marked(groups: pd.DataFrame) -> pd.DataFrame:
    """With marks: 0 outside, a verdict, one of the wrong sign, the mean truth and next houses' truths inside."""
    out = groups.copy()
    out["sign"] = (out["low"] > 0) | (out["high"] < 0)
    out["verdict_given"] = out["verdict"].isin(("more", "less"))
    out["wrong"] = out["verdict_given"] & (np.sign(out["mean"]) != np.sign(out["truth"]))
    out["held"] = (out["low"] <= out["truth"]) & (out["truth"] <= out["high"])
    for mark, truth in (("next", "next_truth"), ("elsewhere", "next_elsewhere")):
        out[mark] = (out["next_low"] <= out[truth]) & (out[truth] <= out["next_high"])
    return out


def rates(rows: pd.DataFrame, mark: str, sizes: Iterable[int]) -> list[tuple[str, ...]]:
    """One row an outcome, warmth, deed and arrangement: so many of so many for each size of group."""
    found = []
    for (outcome, warmth, deed, arrangement), part in rows.groupby(["outcome", "warmth", "deed", "arrangement"]):
        houses = WORDS[outcome] if warmth == "any" else f"{WORDS[outcome]}, {warmth}"
        name = houses if deed == NOTHING else f"{houses}, {deed}"
        counts = [part.loc[part["k"] == k, mark] for k in sizes]
        cells = [f"{int(c.sum())} of {len(c)}" if len(c) else "–" for c in counts]
        found.append((name, str(arrangement), str(part["cell"].nunique()), *cells))
    return found


def shared_errors(told: pd.DataFrame) -> list[tuple[str, ...]]:
    """sd of what houses of one fortnight share and of what each has of its own, on dates without a deed.

    Method of moments: the mean square of the fortnights' mean errors, less what their own errors explain of it.
    """
    found = []
    for (outcome, heated), part in told[told["deed"] == NOTHING].groupby(["outcome", "heated"]):
        by = part.groupby("cell")["effect"].agg(["mean", "var", "size"])
        by = by[by["size"] >= 3]
        own = float((by["var"] * (by["size"] - 1)).sum() / (by["size"] - 1).sum())
        shared = max(float((by["mean"] ** 2 - own / by["size"]).mean()), 0.0) ** 0.5
        name = f"{WORDS[outcome]}, {'heated' if heated else 'unheated'}"
        row = (name, str(len(by)), f"{shared:.3f}", f"{own**0.5:.3f}", f"{SHARED_ERROR[outcome]:g}")
        found.append(row)
    return found


def left_out(told: pd.DataFrame) -> list[tuple[str, ...]]:
    """Film: mean of what was told and of the truth by weather, warmth at night."""
    film = told[(told["deed"] == "film") & (told["outcome"] == "lift")]
    return [
        (
            str(cell),
            "heated" if heated else "unheated",
            str(len(part)),
            f"{part['truth'].mean():.2f}",
            f"{part['effect'].mean():.2f}",
            f"{int(((part['low'] <= part['truth']) & (part['truth'] <= part['high'])).sum())} of {len(part)}",
        )
        for (cell, heated), part in film.groupby(["cell", "heated"])
    ]


def summary(found: pd.DataFrame, column: str) -> list[tuple[str, ...]]:
    """One row a word of the column: signs and verdicts where nothing was done, truths held where something was."""
    rows = []
    for name, part in found.groupby(column, sort=column == "k"):
        nothing, done = part[part["deed"] == NOTHING], part[part["deed"] != NOTHING]
        marks = [(nothing, "sign"), (nothing, "verdict_given")]
        marks += [(done, mark) for mark in ("held", "next", "elsewhere", "wrong")]
        counts = (f"{int(rows_[mark].sum())} of {len(rows_)}" if len(rows_) else "–" for rows_, mark in marks)
        rows.append((WORDS.get(str(name), f"{name} houses" if column == "k" else str(name)), *counts))
    return rows


def _mild_words(bank: pd.DataFrame, mild: pd.Series) -> str:
    film = (bank["deed"] == "film") & (bank["outcome"] == "heat") & bank["effect"].notna() & bank["truth"].notna()
    held = (bank["low"] <= bank["truth"]) & (bank["truth"] <= bank["high"])
    inside, beside = (f"{int(held[film & part].sum())} of {int((film & part).sum())}" for part in (mild, ~mild))
    return (
        "A share of heat is not told of mild days: where they would have taken less than half of what the house took, "
        f"in the mean, around its other dates, {inside} single intervals of a film (kWh a day) held the truth, "
        f"elsewhere {beside} (houses alone: ALONE.md); what is pooled is the share. That half is about seven tenths of "
        "the winter's mean heat a day (16 houses). Humidity of heated and unheated houses is told apart: a film makes "
        "a heated house damper, for it is heated less."
    )


def write(bank: pd.DataFrame, mild: pd.Series, told: pd.DataFrame, groups: pd.DataFrame, file: Path, date: str) -> None:
    """POOLING.md."""
    found = marked(groups)
    sizes = sorted(found["k"].unique())
    nothing, done = found[found["deed"] == NOTHING], found[found["deed"] != NOTHING]
    head = ("outcome", "arrangement", "places", *(f"{k} houses" for k in sizes))
    homes = bank.drop_duplicates(["weather", "heated", "house"])
    lines = [
        "# What several houses say together",
        "",
        f"Run on {date}: {len(homes)} simulated houses ({int(homes['heated'].sum())} heated) under "
        f"{bank['weather'].nunique()} weathers, {len(found)} groups drawn from them; `python -m studies.pooling_bank` "
        "and `python -m studies.pooling` in `tests` run it again. Groups share the houses of the bank, and houses of "
        "one fortnight err together: *places* says from how many weathers and fortnights the groups of a row come, and "
        "that, not the number of groups, is how much the row rests on. Houses that could not tell are not drawn. "
        "Arrangements: all in one fortnight under one weather; in any fortnight of one winter; under many weathers. "
        "Every house has a probe in its bed. Groups of 20 in one fortnight come from the first eight weathers alone.",
        "",
        *(line for words in (CHOSEN, _mild_words(bank, mild)) for line in (words, "")),
        *(line for by in ("arrangement", "outcome", "k") for line in table(SUMMARY, summary(found, by))),
        "## Nothing done: the mean's interval leaves out 0 (aim: at most 5 %)",
        "",
        *table(head, rates(nothing, "sign", sizes)),
        "## Nothing done: a verdict is given (five houses or more, none of which carries it)",
        "",
        *table(head, rates(nothing, "verdict_given", sizes)),
        "## Something done: the mean's interval holds the mean truth (aim: at least 95 %)",
        "",
        *table(head, rates(done, "held", sizes)),
        "## Something done: the next house's interval holds its truth, in the same place (aim: at least 90 %)",
        "",
        *table(head, rates(done, "next", sizes)),
        "## The same for a next house under any weather",
        "",
        *table(head, rates(done, "elsewhere", sizes)),
        "## Something done: a verdict is given",
        "",
        *table(head, rates(done, "verdict_given", sizes)),
        "## What houses of one fortnight share, on dates without a deed",
        "",
        "In the unit of the effect (K, points; heat as a fraction of what those days would have taken without it, "
        "watts per kelvin of the days before).",
        "",
        *table(("outcome", "fortnights", "shared sd", "own sd", "the recipe's shared sd"), shared_errors(told)),
        "## Film on the house: warmth at night, truth and told",
        "",
        "Without heat the estimator of one house tells less than the truth: the bed grows warmer too and gives some of "
        "it back by night, and the bed's warmth stands among the columns of the weather. 35 of the unheated houses "
        "were told twice, with that column and without: of a true 0.78 K in the mean it told 0.42 K with it and 0.53 K "
        "without, but without it 17 of 158 dates on which nothing was done were told something (with it 4), and its "
        "intervals were 1.6 times as wide. So the column stays, and the interval of the mean reaches further out by "
        "the mean once more, on the side away from 0.",
        "",
        *table(FILM_HEAD, left_out(told)),
    ]
    file.write_text("\n".join(lines), encoding="utf-8", newline="")
