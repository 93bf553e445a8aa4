"""The rows of the house study as the tables that are written down: python -m studies.house_results ROWS.csv."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pandas as pd

RATIOS = ("loss", "loss by state", "heater size", "heater size, 5 K colder")


def summary(rows: pd.DataFrame) -> pd.DataFrame:
    """By figure, kind of logging and heater: houses, values, bias and rmse (K, or % for losses, sizes and changes of
    heat), and the share of truths inside the band [%]."""
    told = rows.dropna(subset=["told", "true"]).copy()
    told["error"] = told["told"] - told["true"]
    ratio = told["figure"].isin(RATIOS)
    told.loc[ratio, "error"] = 100.0 * (told["told"] / told["true"] - 1.0)
    hold = told["figure"].str.startswith("hold")
    change = (told["true"] - told["measured"]).where(hold)
    told.loc[hold, "error"] = 100.0 * ((told["told"] - told["measured"]) / change - 1.0)
    told["inside"] = (told["true"] >= told["low"]) & (told["true"] <= told["high"])
    groups = told.groupby(["figure", "kind", "heater"], sort=False)
    return groups.agg(
        houses=("seed", "nunique"),
        values=("error", "size"),
        bias=("error", "mean"),
        rmse=("error", lambda e: float(np.sqrt((e**2).mean()))),
        inside=("inside", lambda i: 100.0 * float(i.mean())),
    ).reset_index()


if __name__ == "__main__":
    found = pd.read_csv(Path(sys.argv[1]))
    sys.stdout.write(summary(found).round(2).to_string() + "\n\n")
    refused = found[found["figure"].str.startswith("refused")]
    sys.stdout.write(refused.groupby(["figure", "kind", "heater", "why"]).size().to_string() + "\n")
