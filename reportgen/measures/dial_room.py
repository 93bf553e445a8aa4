"""How far the thermostat may come down for the crops that stood.

lowest dial = crop limit − coldest counted night's offset + sensor accuracy + 1 K, at most 3 K under what was held. The
coldest night, not the usual one, and 1 K more: measured on simulated houses really run lower. Methods page, *The dial*.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
import pandas as pd

from reportgen.measures.dial import FEWEST_NIGHTS, Offsets, offsets
from reportgen.readings.types import Readings
from reportgen.units import FAHRENHEIT_K
from reportgen.wording import listed

SPARE_K = 1.0
DEEPEST_K = 3.0
STEP_K, STEP_US_K = (
    0.5,
    FAHRENHEIT_K,
)  # dials are turned by half a degree Celsius or one Fahrenheit; our own line


@dataclass(frozen=True, kw_only=True, slots=True)
class DialRoom:
    """What the nights and the crops allow.

    `held_c`: the setting that took most of the heat (while the winter runs: the present one), `dial_c` where it was
    written down. `told`: the nights, None where none counts. `limit_c`, `crop`: the tenderest of the weeks that can be
    advised, of `weeks` (Mondays); `stopped`: weeks in which a crop without a known limit stood, `unknown` their names.
    `lowest_c`: by the rule alone, before the 3 K. `down_by_k`: None no advice, 0 no room. `short_by_k`: by how much the
    setting is too low already.
    """

    held_c: float | None
    dial_c: float | None
    told: Offsets | None
    weeks: tuple[date, ...] = ()
    stopped: tuple[date, ...] = ()
    unknown: tuple[str, ...] = ()
    limit_c: float | None = None
    crop: str | None = None
    unhardened: bool = False  # 3 K of the limit are for a mild week before
    lowest_c: float | None = None
    down_by_k: float | None = None
    short_by_k: float | None = None
    reason: str | None = None

    @property
    def usually_c(self) -> float | None:
        """Coldest crop air of the median night at the setting advised, else at the one that was [°C]."""
        return self._at(None if self.told is None else self.told.median_k)

    @property
    def coldest_c(self) -> float | None:
        """The same of the coldest night counted [°C]."""
        return self._at(None if self.told is None else self.told.coldest_k)

    @property
    def tail_c(self) -> float | None:
        """What 19 nights of 20 stayed above [°C]."""
        return self._at(None if self.told is None else self.told.tail_k)

    def _at(self, offset_k: float | None) -> float | None:
        if offset_k is None or self.held_c is None:
            return None
        return self.held_c - (self.down_by_k or 0.0) + offset_k


def dial_room(readings: Readings, nights: pd.DataFrame, limits: pd.DataFrame) -> DialRoom:
    """The advice of a season.

    Args:
        nights: From `dial.dial_nights`.
        limits: From `dial_crops.night_limits`.
    """
    told = offsets(nights)
    held = setting(nights, readings.season.so_far is not None)
    if held is None:
        return DialRoom(held_c=None, dial_c=None, told=told, reason=_why_no_setting(readings, nights))
    own = nights[nights["heated"] & np.isclose(nights["held_c"], held)]
    written = own["dial_c"].dropna()
    weeks, stopped, unknown = _weeks(own, limits)
    known = DialRoom(
        held_c=held,
        dial_c=float(written.iloc[0]) if len(written) else None,
        told=told,
        weeks=weeks,
        stopped=stopped,
        unknown=unknown,
    )
    accuracy, no_accuracy = _accuracy(readings, told)
    asked = limits.loc[[day for day in own.index if monday(day) in weeks]].dropna(subset=["limit_c"])
    why = [_few(told), _no_limit(known, len(asked)), no_accuracy]
    if told is None or accuracy is None or any(why):
        return replace(known, reason=", and ".join(dict.fromkeys(filter(None, why))))
    tenderest = asked.iloc[int(np.argmax(asked["limit_c"].to_numpy()))]
    known = replace(
        known,
        limit_c=float(tenderest["limit_c"]),
        crop=str(tenderest["crop"]),
        unhardened=bool(tenderest["unhardened"]),
    )
    return _judged(known, told, accuracy, _step(readings))


def lowest_dial(limit_c: float, coldest_k: float, accuracy_k: float) -> float:
    """The rule: the lowest setting at which the coldest counted night would have stayed 1 K clear of the limit [°C]."""
    return limit_c - coldest_k + accuracy_k + SPARE_K


def down_by(held_c: float, lowest_c: float, step_k: float) -> float:
    """Whole steps of the dial down to the lowest, at most 3 K; 0 where there is no room [K]."""
    room = min(held_c - lowest_c, DEEPEST_K)
    return max(float(np.floor(room / step_k + 1e-9)) * step_k, 0.0)


def setting(nights: pd.DataFrame, running: bool = False) -> float | None:
    """The setting that took most of the heat [°C], of a winter that still runs the one of its last heated night; None
    where none is known."""
    heated = nights[nights["heated"]].dropna(subset=["held_c"])
    if not len(heated):
        return None
    if running:  # what it may come down from is what it is set to now
        return float(heated["held_c"].iloc[-1])
    taken = heated.groupby(heated["held_c"].round(6))["kwh"].sum()
    return float(taken.index[int(np.argmax(taken.to_numpy()))])


def monday(day: date) -> date:
    """The Monday of a date's week."""
    return day - timedelta(days=day.weekday())


def _judged(known: DialRoom, told: Offsets, accuracy: float, step: float) -> DialRoom:
    assert known.held_c is not None and known.limit_c is not None
    lowest = lowest_dial(known.limit_c, told.coldest_k, accuracy)
    short = lowest - known.held_c
    return replace(
        known,
        lowest_c=lowest,
        down_by_k=down_by(known.held_c, lowest, step),
        short_by_k=short if short > 0 else None,
    )


def _weeks(own: pd.DataFrame, limits: pd.DataFrame) -> tuple[tuple[date, ...], tuple[date, ...], tuple[str, ...]]:
    """Mondays of the weeks that can be advised, of those that cannot, and the crops that stop them."""
    stood: dict[date, list[str]] = {}
    strange = limits["unknown"].to_dict()
    for day in own.index:
        stood.setdefault(monday(day), []).extend(strange[day])
    unknown = tuple(dict.fromkeys(name for names in stood.values() for name in names))
    return tuple(w for w, n in stood.items() if not n), tuple(w for w, n in stood.items() if n), unknown


def _accuracy(readings: Readings, told: Offsets | None) -> tuple[float | None, str]:
    """± of the least accurate of the loggers that were coldest [K], or why it is not known."""
    if told is None:
        return None, ""
    own = {c.logger: c.accuracy for c in readings.channels if c.measure == "air_temperature" and c.where == "crop"}
    known = [own.get(name) for name in told.loggers]
    missing = [name for name, value in zip(told.loggers, known, strict=True) if value is None]
    if missing:
        return None, f"no accuracy is given for {', '.join(missing)}"
    return max(value for value in known if value is not None), ""


def _why_no_setting(readings: Readings, nights: pd.DataFrame) -> str:
    if not readings.heating:
        return "no heater is listed in season.toml"
    if not nights["coldest_c"].notna().any():
        return "no air temperature was logged beside the crop through a whole night"
    if not nights["heated"].any():
        return "the heat is not known by the hour, so the nights that the thermostat kept cannot be told"
    return "no dial is written in season.toml, and too few heated night hours tell what was held"


def _few(told: Offsets | None) -> str:
    count = 0 if told is None else told.nights
    if count >= FEWEST_NIGHTS:
        return ""
    some = f"only {count} nights count" if count > 1 else "only 1 night counts" if count else "no night counts"
    return f"{some} of the {FEWEST_NIGHTS} needed (heated, no event, not flat out, the house as it is now)"


def _no_limit(known: DialRoom, asked: int) -> str:
    if known.unknown and not known.weeks:
        return f"{listed(known.unknown)} {'has' if len(known.unknown) == 1 else 'have'} no known limit of cold"
    return "" if asked else "no crop with a known limit of cold stood in the weeks that were heated"


def _step(readings: Readings) -> float:
    return STEP_US_K if readings.season.show == "us" else STEP_K
