"""The rows of the dial's study as the tables that are written down: python -m studies.dial_results ROWS.csv DATE.

Writes DIAL.md beside this file and reportgen/measures/dial_measured.py, which the method page quotes.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pandas as pd

HERE = Path(__file__).parent
MEASURED = HERE.parents[1] / "reportgen" / "measures" / "dial_measured.py"
RULES = {
    "tail": "the 5 % night",
    "coldest": "the coldest night",
    "rule": "the coldest night and 1 K",
}
HEAD = '''"""How often a house really run lower stayed over a crop's limit, as the dial's study found.

Study: tests/studies/dial.py, its table tests/studies/DIAL.md; both are written by tests/studies/dial_results.py, and a
test holds them together. Whoever changes the offsets or the rule runs it again.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class DialRate:
    """One rule in one winter. Of `cases` (a house, 1, 2 or 3 K lower): no night under the limit in `clear_pct`, more
    than two nights in `many_pct`; in a tenth of them the coldest night lay `tenth_k` or less over the limit [K]."""

    rule: str
    winter: str
    cases: int
    clear_pct: float
    many_pct: float
    tenth_k: float


'''
TAIL = """DIAL_RATES: tuple[DialRate, ...] = tuple(
    DialRate(rule=r, winter=w, cases=n, clear_pct=c, many_pct=m, tenth_k=t) for r, w, n, c, m, t in _ROWS
)
"""


def told(rows: pd.DataFrame) -> pd.DataFrame:
    """The rows with an advice."""
    return rows[rows["winter"] != "refused"]


def summary(rows: pd.DataFrame) -> pd.DataFrame:
    """By rule and winter: cases, share without a night under the limit [%], with more than two [%], worst tenth [K]."""
    out = []
    for rule in RULES:
        for winter, cases in told(rows).groupby("winter", sort=False):
            under = cases[f"under_{rule}"]
            out.append(
                {
                    "rule": RULES[rule],
                    "winter": winter,
                    "cases": len(cases),
                    "clear_pct": round(100.0 * float((under == 0).mean()), 1),
                    "many_pct": round(100.0 * float((under > 2).mean()), 1),
                    "tenth_k": round(float(cases[f"spare_{rule}_k"].quantile(0.1)), 2),
                }
            )
    return pd.DataFrame(out)


def forecast(rows: pd.DataFrame) -> pd.DataFrame:
    """By winter: nights colder than setting + 5 % night's offset [%, of all nights], and how much warmer than it the
    house's own 5 % night was: median, 5 and 95 % of the houses [K]."""
    kept = told(rows).dropna(subset=["colder_than_forecast"]).copy()
    kept["cold"] = kept["colder_than_forecast"] * kept["nights"]
    groups = kept.groupby("winter", sort=False)
    quantiles = groups["tail_error_k"].quantile([0.05, 0.5, 0.95]).unstack()
    share = 100.0 * groups["cold"].sum() / groups["nights"].sum()
    return quantiles.assign(share=share).reset_index()


def table(found: pd.DataFrame) -> list[str]:
    """The rows of DIAL.md."""
    return [
        f"| {r.rule} | {r.winter} | {r.cases} | {r.clear_pct:.1f} % | {r.many_pct:.1f} % | {r.tenth_k:+.2f} K |"
        for r in found.itertuples()
    ]


def code(rows: pd.DataFrame, date: str) -> str:
    """dial_measured.py."""
    lines = [
        f'    ("{r.rule}", "{r.winter}", {r.cases}, {r.clear_pct}, {r.many_pct}, {r.tenth_k}),'
        for r in summary(rows).itertuples()
    ]
    seen = forecast(rows).set_index("winter")["share"].round(1)
    return (
        f'{HEAD}STUDY_DATE = "{date}"\nHOUSES, REFUSED = {_houses(rows)}, {_refused(rows)}\n'
        f"COLDER_PCT = ({', '.join(str(v) for v in seen)})  # nights colder than the 5 % night: same, another winter\n"
        f"COLDER_CASES = {_forecasts(rows)}\n"
        "_ROWS = (\n" + "\n".join(lines) + f"\n)  # fmt: skip\n{TAIL}"
    )


def _houses(rows: pd.DataFrame) -> int:
    return len(rows[["seed", "heater"]].drop_duplicates())


def _forecasts(rows: pd.DataFrame) -> int:
    return len(told(rows).dropna(subset=["colder_than_forecast"]))


def _refused(rows: pd.DataFrame) -> int:
    return int((rows["winter"] == "refused").sum())


def report(rows: pd.DataFrame, date: str) -> str:
    """DIAL.md."""
    kept = told(rows)
    small = kept[kept["heater"] == "small"][["seed"]].drop_duplicates()
    by_heater = [
        f"- {RULES['rule']}, {winter}, heater {heater}, {down:.0f} K lower: no night under the limit in "
        f"{int((cases['under_rule'] == 0).sum())} of {len(cases)}"
        for (winter, heater, down), cases in kept.groupby(["winter", "heater", "down"], sort=False)
    ]
    return "\n".join(
        [
            "# Study of the dial",
            "",
            f"Run on {date}: `python -m studies.dial ROWS.csv N` in `tests`, then `python -m studies.dial_results "
            f"ROWS.csv {date}`. {_houses(rows)} houses of studies/house_winters.py, half of them with a heater at its "
            f"limit; {_refused(rows)} were told nothing (fewer than 30 nights counted); {len(small)} of the rest have "
            "a heater at its limit. Thermostats swing by 0.4 to 2.5 K; three nights of every winter a door stands "
            "ajar (3 to 12 times the air changes) and nobody wrote it down; half of the houses were altered for good, "
            "and only nights after that count; the sensor is off by 0.2 K and promises 0.5 K. The same house was then "
            "really run 1, 2 and 3 K lower in the same winter, and at one of these in another weather with doors ajar "
            "on other nights. A crop's limit is set where the rule would just allow that setting. Nights flat out (5 % "
            "of the hours and more) are left out on both sides: they belong to the heater. One air node: no corner "
            "that is colder than the logger; no thermostat that drifts.",
            "",
            "| rule, less the accuracy | run | cases | no night under the limit | more than two | worst tenth |",
            "|---|---|---|---|---|---|",
            *table(summary(rows)),
            "",
            f"As a forecast by the same logger, in {_forecasts(rows)} of these cases (aim: 5 % of the nights colder "
            "than setting + the 5 % night's offset); the house's own 5 % night less that, median (5 to 95 % of the "
            "cases).",
            "",
            *(
                f"- {r['winter']}: {r['share']:.1f} % colder; {r[0.5]:+.2f} K ({r[0.05]:+.2f} to {r[0.95]:+.2f})"
                for _, r in forecast(rows).iterrows()
            ),
            "",
            *by_heater,
            "",
            "An earlier trial on 160 houses of two other simulators, not run again here, found no night under the "
            "limit in 99.6 % of its cases in the same winter and 94 % in another for the coldest night and 1 K; for "
            "the coldest night alone in 95 and 83 %, for the 5 % night in 66 and 61 %.",
            "",
        ]
    )


def main(path: str, date: str) -> None:
    """Both files."""
    rows = pd.read_csv(path)
    (HERE / "DIAL.md").write_text(report(rows, date), encoding="utf-8")
    MEASURED.write_text(code(rows, date), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
