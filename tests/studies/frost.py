"""Study of the holding limit on simulated houses whose truth is known: python -m studies.frost FIRST END.

Every house as it was logged: the whole winter, or only the nights since it was altered in mid-winter or in spring; heat
logged by the hour or not at all; a frost line of 0 °C and one 2.5 K under the hold, without heat one that no night met.
The other forecasts of the frost page: studies/house.py.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from typing import Any

import numpy as np
import pandas as pd
from studies.frost_winters import HEATERS, OWN, nights

from reportgen.measures.exposure import Floats
from reportgen.measures.frost_cold import CLOSE, HELD, hold_by_nights
from reportgen.measures.frost_fit import limit_of, regress
from reportgen.measures.frost_limit import told_by

SINCE = {"whole winter": None, "mid-winter": dt.date(2026, 1, 10), "spring": dt.date(2026, 2, 14)}
UNDER_HOLD_K = 2.5
NEVER_MET_K = 0.5  # under the coldest night of a house without heat
NEAR_K = 2.0  # nights so far above what was told are about as cold
FALSE_K = 2.0  # a limit milder than the truth by more is false
WINDOW_K, STEP_K, LEAST, RISK = 1.5, 0.5, 8, 0.05
LIMIT, HOLDS, JUST, REFUSED = "limit", "held", "held, only just", "refused"
FIRST_SEED, END_SEED = 100, 136
BEFORE, NOW = "before", "now"


def true_limit(outdoor_c: Floats, inside_c: Floats, line_c: float) -> float:
    """The lowest outdoor minimum down to which at most one night in twenty of every 1.5 K falls below the line; −inf
    where the colder winters never met it.
    """
    last = float(outdoor_c.max())
    for low in np.arange(8.0, float(outdoor_c.min()), -STEP_K):
        own = (outdoor_c >= low) & (outdoor_c < low + WINDOW_K)
        if own.sum() < LEAST:
            continue
        if (inside_c[own] < line_c).mean() > RISK:
            return last
        last = float(low)
    return -np.inf


def as_before(seen: pd.DataFrame, line_c: float, heated: bool) -> tuple[str, float]:
    """What was told until November 2026: one line through all nights, in a heated house through the colder half."""
    used = seen.nsmallest(len(seen) // 2, "outdoor_min") if heated else seen
    x, y = (used[name].to_numpy() for name in ("outdoor_min", "inside_min"))
    fit = regress(x, y) if len(used) >= (20 if heated else 30) else None
    limit = None if fit is None else limit_of(fit, x, y, line_c)
    if limit is None:
        return REFUSED, np.nan
    coldest = float(seen["outdoor_min"].min())
    return (HOLDS, coldest) if limit < coldest else (LIMIT, limit)


def as_now(seen: pd.DataFrame, line_c: float, heated: bool) -> tuple[str, float]:
    """What is told."""
    told, coldest = told_by(seen, line_c, heated), float(seen["outdoor_min"].min())
    if told.outdoor_c is not None:
        return LIMIT, told.outdoor_c
    kind = {HELD: HOLDS, CLOSE: JUST}.get(told.reason, REFUSED)
    return kind, np.nan if kind == REFUSED else coldest


def cases(house: pd.DataFrame, heater: str) -> Iterator[dict[str, Any]]:
    """Every way in which one house is looked at, with what either method told and what then came."""
    own, truth = house[house["winter"] == OWN], house[house["winter"] != OWN]
    lines = {"0 °C": 0.0}
    warm = own[own["heated_h"] > 0]
    hold = hold_by_nights(warm["outdoor_min"].to_numpy(), warm["inside_min"].to_numpy())
    if hold is not None:
        lines["2.5 K under the hold"] = hold - UNDER_HOLD_K
    if heater == "none":
        lines["never met"] = float(own["inside_min"].min()) - NEVER_MET_K
    for line, line_c in lines.items():
        true = true_limit(truth["outdoor_min"].to_numpy(), truth["inside_min"].to_numpy(), line_c)
        for since, first in SINCE.items():
            seen, later = (part if first is None else part[part["date"] > first] for part in (own, truth))
            for logged in (True, False) if heater != "none" else (False,):
                shown = seen if logged else seen.assign(heated_h=np.nan)
                for method, tell in ((BEFORE, as_before), (NOW, as_now)):
                    kind, told = tell(shown, line_c, heater != "none")
                    base = {"heater": heater, "line": line, "since": since, "logged": logged, "method": method}
                    yield base | {"kind": kind, "told": told, "true": true} | _came(seen, later, told, line_c)


def _came(seen: pd.DataFrame, later: pd.DataFrame, told: float, line_c: float) -> dict[str, Any]:
    """Of the later nights of that part of the winter: those at or above what was told, those within 2 K of it, how
    many of each fell below the line; whether a colder night had held and none had crossed.
    """
    above = later[later["outdoor_min"] >= told]
    near = above[above["outdoor_min"] < told + NEAR_K]
    crossed = seen["inside_min"] < line_c
    return {
        "above": len(above),
        "above_fell": int((above["inside_min"] < line_c).sum()),
        "near": len(near),
        "near_fell": int((near["inside_min"] < line_c).sum()),
        "crossed": int(crossed.sum()),
        "colder_held": bool(not crossed.any() and seen["outdoor_min"].min() < told),
        "coldest_true": float(later["outdoor_min"].min()),
    }


def rows(houses: Iterable[tuple[str, pd.DataFrame]]) -> pd.DataFrame:
    """One row a case."""
    return pd.DataFrame([row for heater, house in houses for row in cases(house, heater)])


def run(first: int, end: int) -> pd.DataFrame:
    """The cases of the houses of those seeds, one of each heater a seed."""
    return rows((heater, nights(seed, heater)) for seed in range(first, end) for heater in HEATERS)


def table(found: pd.DataFrame) -> list[str]:
    """The table of FROST.md: a line for each heater, method and kind."""
    out = [
        "| heater | told by | told | cases | nights at or above it that fell | within 2 K of it | false limits |",
        "|---|---|---|---|---|---|---|",
    ]
    lines = np.where(found["line"] == "never met", ", line never met", "")
    for (heater, method), own in found.groupby([found["heater"] + lines, "method"], sort=False):
        for kind in (LIMIT, HOLDS, JUST, REFUSED):
            part = own[own["kind"] == kind]
            if len(part):
                out.append(f"| {heater} | {method} | {kind} | {len(part)} of {len(own)} | {_told(part, kind)} |")
    return out


def _told(part: pd.DataFrame, kind: str) -> str:
    if kind == REFUSED:
        return f"– | – | {int((part['crossed'] > 0).sum())} had crossed"
    shares = " | ".join(share(part[f"{name}_fell"].sum(), part[name].sum()) for name in ("above", "near"))
    return f"{shares} | {_false(part) if kind == LIMIT else '–'}"


def share(some: int, of: int) -> str:
    """4.9 % (312 of 6363)."""
    return f"{100 * some / max(of, 1):.1f} % ({some} of {of})"


def _false(part: pd.DataFrame) -> str:
    """Limits milder than the truth by more than 2 K; where the truth was never met, than the coldest night met."""
    over = part["told"] - np.maximum(part["true"], part["coldest_true"])
    wrong = over[over > FALSE_K]
    held = int(part["colder_held"].sum())
    words = f"{len(wrong)}, by {wrong.median():.1f} K in the middle, {wrong.max():.1f} at most" if len(wrong) else "0"
    return f"{words}; {held} above a night that held, none having crossed"


if __name__ == "__main__":
    import sys

    span = [int(word) for word in sys.argv[1:3]] or [FIRST_SEED, END_SEED]
    sys.stdout.write("\n".join(table(run(*span))) + "\n")
