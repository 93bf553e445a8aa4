"""The hold as tables: every night with its offset from the setting, and the figures that the advice rests on."""

from __future__ import annotations

from datetime import date

import pandas as pd

from reportgen.charts.types import Table
from reportgen.counsel.grounds import HoldAdvice
from reportgen.measures.dial import FEWEST_NIGHTS
from reportgen.review import Review
from reportgen.wording import NBSP, Wording, count, number, of_all

HOLD, ADVICE = "hold", "hold_advice"


def hold_tables(review: Review) -> tuple[Table, ...]:
    """Both tables; nothing where no night of the thermostat is known."""
    advice, w = review.counsel.grounds.hold_advice, Wording.of(review.season)
    nights = advice.by_night
    if nights is None or not nights["heated"].any():
        return ()
    return _nights(advice, nights, w), _advice(advice, w)


def _nights(advice: HoldAdvice, nights: pd.DataFrame, w: Wording) -> Table:
    heated = nights[nights["heated"]]
    counted = int(nights["counted"].sum())
    return Table(
        uid=HOLD,
        title=f"{of_all(counted, len(heated), 'heated night')} tell what the thermostat keeps",
        subtitle="Coldest crop air of each night, less what the thermostat was set to or held; a night counts that was "
        "heated, without an event, not at the heater's limit, in the house as it is now",
        columns=("heated nights", "which"),
        rows=tuple((number(n), words) for words, n in _parts(heated).items() if n),
        data=_nights_data(nights, w),
    )


def _parts(heated: pd.DataFrame) -> dict[str, int]:
    """Heated nights by what keeps them from counting, the first that holds; they add up."""
    left, out = heated, {}
    for name, words in (
        ("counted", "count"),
        ("present", "before the house was as it is now"),
        ("eventful", "with an event, or the heat failed"),
        ("at_limit", "with the heater at its limit"),
    ):
        found = ~left["present"] if name == "present" else left[name]
        out[words] = int(found.sum())
        left = left[~found]
    return out | {"without a known setting, or the coldest not logged": len(left)}


def _nights_data(nights: pd.DataFrame, w: Wording) -> pd.DataFrame:
    unit = w.temp_unit
    return pd.DataFrame(
        {
            "evening": [day.isoformat() if isinstance(day, date) else str(day) for day in nights.index],
            f"coldest {unit}": nights["coldest_c"].map(w.temp_value).round(3).to_numpy(),
            "place": nights["logger"].fillna("").to_numpy(),
            "heated": _said(nights["heated"]),
            "at full power, % of the hours": (100 * nights["flat_share"]).round(1).to_numpy(),
            "kWh": nights["kwh"].round(3).to_numpy(),
            "house as it is now": _said(nights["present"]),
            "event": _said(nights["eventful"]),
            f"set to {unit}": nights["dial_c"].map(w.temp_value).round(3).to_numpy(),
            f"held {unit}": nights["held_c"].map(w.temp_value).round(3).to_numpy(),
            "counts": _said(nights["counted"]),
            f"offset {w.diff_unit}": nights["offset_k"].map(w.diff_value).round(3).to_numpy(),
        }
    )


def _said(column: pd.Series) -> list[str]:
    return ["yes" if one else "no" for one in column]


def _advice(advice: HoldAdvice, w: Wording) -> Table:
    data = pd.DataFrame(_figures(advice, w), columns=["figure", "value", "unit"])
    known = data.dropna(subset=["value"])
    return Table(
        uid=ADVICE,
        title="The figures behind how far the thermostat may come down",
        subtitle=f"{count(FEWEST_NIGHTS, 'night')} and a known limit of every crop are asked for, else nothing is "
        "advised",
        columns=("figure", "value"),
        rows=tuple((str(name), _shown(float(value), str(unit))) for name, value, unit in known.itertuples(index=False)),
        data=data.astype({"value": float}),
    )


def _shown(value: float, unit: str) -> str:
    return count(int(value), unit[:-1]) if unit in ("nights", "rings") else f"{number(value, 1)}{NBSP}{unit}"


def _figures(a: HoldAdvice, w: Wording) -> list[tuple[str, float | None, str]]:
    def level(name: str, celsius: float | None) -> tuple[str, float | None, str]:
        return name, None if celsius is None else w.temp_value(celsius), w.temp_unit

    def step(name: str, kelvin: float | None) -> tuple[str, float | None, str]:
        return name, None if kelvin is None else w.diff_value(kelvin), w.diff_unit

    money = a.saves_money if w.currency else None
    kwh = a.saves_kwh
    return [
        ("nights needed", float(FEWEST_NIGHTS), "nights"),
        ("nights that count", float(a.nights), "nights"),
        ("nights left out, heater at its limit", float(a.flat_out_nights), "nights"),
        level("thermostat, as written", a.dial_c),
        level("held, as set or as found", a.held_c),
        level("lowest setting by the rule", a.lowest_c),
        step("room to come down", a.down_by_k),
        step("short already", a.short_by_k),
        level("the crop's limit", a.limit_c),
        level("at that setting: coldest at the crop on the median night", a.usually_c),
        level("at that setting: coldest at the crop, 19 nights of 20 above", a.tail_c),
        level("at that setting: coldest at the crop on the coldest night", a.coldest_c),
        level("outdoors, under which the heater is at its limit", a.flat_out_c),
        ("spared, least", None if kwh is None else kwh.low, "kWh"),
        ("spared, most", None if kwh is None else kwh.high, "kWh"),
        *([("money spared, least", None if money is None else money.low, w.currency)] if w.currency else []),
        *([("money spared, most", None if money is None else money.high, w.currency)] if w.currency else []),
        level("alarm line", a.alarm_c),
        ("alarm line, rings", float(a.alarm_rings), "rings"),
        ("alarm line, rings needed", float(a.alarm_needed), "rings"),
        ("alarm line, shortest warning", a.alarm_warning_h, "h"),
    ]
