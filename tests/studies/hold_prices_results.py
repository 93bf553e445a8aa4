"""The rows of the study of the price of a degree as what is written down.

    python -m studies.hold_prices_results ROWS.csv BEFORE.csv 2026-11-27        (in `tests`)

writes HOLD_PRICES.md beside this file and reportgen/measures/price_measured.py, which the method page quotes.
BEFORE.csv: the same fresh houses told by the measure as it was before.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pandas as pd
from studies.hold_houses import LOGS
from studies.hold_prices import BLIND

from reportgen.measures.other_holds import SPANS

HERE = Path(__file__).parent
MEASURED = HERE.parents[1] / "reportgen" / "measures" / "price_measured.py"
FRESH = 100  # the first seed by which nothing was chosen
ALL_LOGS = (*LOGS, BLIND)
DEGREE = (-1.0, 1.0)
FEWEST = 20.0  # kWh: a smaller change has no ratio worth telling


def ready(rows: pd.DataFrame) -> pd.DataFrame:
    """With `ratio`, told ÷ true change, and `held`, whether the ends held the truth; NaN where refused."""
    known = rows["told"].notna()
    held = (rows["low"] <= rows["true"]) & (rows["true"] <= rows["high"])
    ratio = (rows["told"] / rows["true"]).where(rows["true"].abs() >= FEWEST)
    return rows.assign(ratio=ratio, held=held.astype(float).where(known))


def spread(values: pd.Series) -> str:
    """Median and 5–95 % of a ratio."""
    kept = values.dropna()
    if not len(kept):
        return "–"
    low, middle, high = kept.quantile([0.05, 0.5, 0.95])
    return f"{middle:.2f} ({low:.2f}–{high:.2f})"


def share(values: pd.Series) -> str:
    """27 of 30."""
    kept = values.dropna()
    return f"{int(kept.sum())} of {len(kept)}"


def by_log(found: pd.DataFrame, moves: Sequence[float]) -> list[str]:
    """A line a way in which the heat is known: told ÷ true change and how often the ends held it, by move."""
    heads = " | ".join(f"{away:+.0f} K, told ÷ true | held" for away in moves)
    lines = [f"| heat known from | told | {heads} |", "|---" * (2 + 2 * len(moves)) + "|"]
    for log in ALL_LOGS:
        rows = found[found["log"] == log]
        if not len(rows):
            continue
        cells = [f"{spread(part['ratio'])} | {share(part['held'])}" for part in _moved(rows, moves)]
        told = rows[rows["away"] == moves[0]]["told"]
        lines.append(f"| {log} | {told.notna().sum()} of {len(told)} | {' | '.join(cells)} |")
    return lines


def by_house(found: pd.DataFrame) -> list[str]:
    """A line a kind of house and way: a degree less and more together."""
    near = found[found["away"].isin(DEGREE)].assign(
        film=np.where(found.loc[found["away"].isin(DEGREE), "film"], "film", "none")
    )
    lines = ["| thermostat | in mid-winter | heat known from | told ÷ true | held |", "|---|---|---|---|---|"]
    for (thermostat, film), rows in near.groupby(["thermostat", "film"]):
        for log in ALL_LOGS:
            part = rows[rows["log"] == log]
            lines.append(f"| {thermostat} | {film} | {log} | {spread(part['ratio'])} | {share(part['held'])} |")
    return lines


def _moved(rows: pd.DataFrame, moves: Sequence[float]) -> list[pd.DataFrame]:
    return [rows[rows["away"] == away] for away in moves]


def spans() -> list[str]:
    """The spans of the page, as its code has them."""
    lines = ["| told by | less heat | more heat |", "|---|---|---|"]
    return lines + [f"| {n} | {_ends(span.less)} | {_ends(span.more)} |" for n, span in SPANS.items()]


def _ends(ends: tuple[float, float]) -> str:
    return f"{ends[0]:.2f} to {ends[1]:.2f}"


def report(rows: pd.DataFrame, before: pd.DataFrame, date: str) -> str:
    """HOLD_PRICES.md."""
    found = ready(rows)
    fresh, chosen = found[found["seed"] >= FRESH], found[found["seed"] < FRESH]
    refused = fresh[(fresh["away"] == -1.0) & fresh["refused"].fillna("").ne("")]
    why = refused.groupby(["log", "refused"])["seed"].nunique()
    one = fresh.drop_duplicates("seed")
    lines = [
        "# Study of the price of a degree",
        "",
        f"Run on {date}: `python -m studies.hold_prices ROWS.csv 100 160` (and `0 48`) in `tests`, then "
        f"`python -m studies.hold_prices_results ROWS.csv BEFORE.csv {date}`. {len(one)} fresh houses of "
        f"studies/hold_houses.py (seeds {FRESH} and up), by which nothing was chosen: "
        f"{int((one['thermostat'] == 'turned').sum())} with the thermostat turned twice by date, "
        f"{int((one['film'] > 0).sum())} with a film hung in mid-winter ({int((one['film'] > 1).sum())} of them "
        "with the doors sealed later). A third each in the simulator's own weather, that of Greensboro and that of "
        "Sand Point; holds of 2 to 10 °C, heaters large enough, watering and growth that nobody wrote down, "
        "sensors with their errors. Each house goes through the measure as a grower's would, and is then really "
        "heated with every date's hold moved. Told ÷ true is of the change of heat: median (5–95 %). Held: the told "
        "ends held the true change.",
        "",
        "## A degree less and a degree more",
        "",
        *by_log(fresh, DEGREE),
        "",
        "## Two and four degrees",
        "",
        "Four only where the thermostat was left alone, by the table of one hold all winter long.",
        "",
        *by_log(fresh, (-2.0, 2.0)),
        "",
        *by_log(fresh[fresh["thermostat"] == "left alone"], (-4.0, 4.0)),
        "",
        "## By kind of house, a degree less and more together",
        "",
        *by_house(fresh),
        "",
        "## The measure as it was before, on the same fresh houses",
        "",
        "Until 2026-11-27 a degree was read between rows of one hold all winter long, around the mean of the holds, "
        "and one slope was fitted through all states of the house.",
        "",
        *by_log(ready(before), DEGREE),
        "",
        "## What is refused",
        "",
        *(f"- {log}: {reason} ({count} of {len(one)})" for (log, reason), count in why.items()),
        "",
        "## The spans",
        "",
        f"True ÷ told change, 5–95 % of {chosen['seed'].nunique()} other houses (seeds 0 to 47), rounded; that of a "
        "heater at its limit is HOUSE.md's and was not tried here. Where degree-hours stand alone, the bases that the "
        "readings allow are added in squares, so that few readings have wider ends.",
        "",
        *spans(),
        "",
        f"A change under {FEWEST:.0f} kWh has no ratio here.",
        "",
    ]
    return "\n".join(lines)


def code(rows: pd.DataFrame, date: str) -> str:
    """price_measured.py."""
    found = ready(rows)
    near = found[(found["seed"] >= FRESH) & found["away"].isin(DEGREE)]
    lines = [
        '"""How near the price of a degree came to the truth on simulated houses, as its study found.',
        "",
        "Study: tests/studies/hold_prices.py, its tables tests/studies/HOLD_PRICES.md; both are written by",
        "tests/studies/hold_prices_results.py, and a test holds them together.",
        '"""',
        "",
        "from __future__ import annotations",
        "",
        f'STUDY_DATE = "{date}"',
        f"HOUSES = {near['seed'].nunique()}",
        "# Heat known from: told ÷ true change of a degree less and more, 5 and 95 %; how often the ends held it, of",
        "# how many.",
        "NEAR: dict[str, tuple[float, float, int, int]] = {",
    ]
    for log in ALL_LOGS:
        part = near[near["log"] == log]
        low, high = part["ratio"].dropna().quantile([0.05, 0.95])
        held = part["held"].dropna()
        lines.append(f'    "{log}": ({low:.2f}, {high:.2f}, {int(held.sum())}, {len(held)}),')
    return "\n".join([*lines, "}", ""])


if __name__ == "__main__":
    table, earlier, day = pd.read_csv(sys.argv[1]), pd.read_csv(sys.argv[2]), sys.argv[3]
    (HERE / "HOLD_PRICES.md").write_text(report(table, earlier, day), encoding="utf-8")
    MEASURED.write_text(code(table, day), encoding="utf-8")
