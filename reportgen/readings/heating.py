"""Heat of every heater and appliance: what was bought or drawn, the heat it gave, what it cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pandas as pd

from reportgen.problems import Problem
from reportgen.readings.bills import read_bills
from reportgen.readings.bought import Bought
from reportgen.readings.degree_hours import Pull, pull
from reportgen.readings.deliveries import read_deliveries
from reportgen.readings.fuels import HeatValue, heat_value, why_no_co2
from reportgen.readings.logged_use import LoggedUse, of_counter, of_power, of_switch
from reportgen.readings.meter import read_meter
from reportgen.readings.prices import Tariff, cost_bounds, mean_price
from reportgen.readings.types import Channel, DiaryEntry, HeatSupply, Stock
from reportgen.readings.unknown_heat import gaps
from reportgen.season import Appliance, HeatSource, Season

FILE = "season.toml"
LOGGED = ("heater_energy", "heater_power", "heater_on", "fan_on")  # the first that a logger has is taken
COLUMNS = ["start", "end", "bought", "heat_kwh", "cost", "cost_low", "cost_high", "sparse", "estimated", "known_sum"]


def read_heating(
    season: Season, channels: tuple[Channel, ...], diary: Sequence[DiaryEntry] = ()
) -> tuple[tuple[HeatSupply, ...], tuple[HeatSupply, ...], list[Problem]]:
    """Heaters, appliances, and every problem and warning of them.

    Args:
        season: The season; its `heating` and `appliances` say where each figure comes from.
        channels: All logged channels, in kept units (W, kWh, 0/1).
        diary: Tells on which day a heater came or went, so that its absence is no gap in the record.
    """
    desk = _Desk(season=season, channels=channels, diary=diary, pull=pull(season, channels))
    heaters = tuple(_heater(source, n, desk) for n, source in enumerate(season.heating))
    appliances = tuple(_appliance(item, n, desk) for n, item in enumerate(season.appliances))
    return heaters, appliances, desk.problems


@dataclass(kw_only=True, slots=True)
class _Desk:
    """What every source is read with, and the problems found so far."""

    season: Season
    channels: Sequence[Channel]
    diary: Sequence[DiaryEntry]
    pull: Pull
    problems: list[Problem] = field(default_factory=list)


@dataclass(kw_only=True, slots=True)
class _Use:
    """What a source used before prices: columns start, end, kwh or bought, sparse, estimated, cost, known_sum."""

    table: pd.DataFrame
    resets: int = 0
    shared_by: str = ""
    stock: Stock | None = None
    reasons: dict[str, str] = field(default_factory=dict)


def _heater(source: HeatSource, n: int, desk: _Desk) -> HeatSupply:
    value = heat_value(source)
    if value is None:
        desk.problems.append(_no_heat_value(source, n))
        value = HeatValue(kwh=float("nan"), basis="", source="")
    elif source.fuel != "electricity" and not value.basis:
        desk.problems.append(_basis_unsaid(source, n))
    if source.logger is not None:
        form, use = "logger", _logged(source.logger, source.rated_power_w, f"[[heating]] {n + 1}", desk)
        use.table["bought"] = use.table["kwh"] / value.kwh
    else:
        form, use = _from_book(source, desk)
    reasons = use.reasons | ({"co2": why_no_co2(source.fuel)} if source.co2_kg_per_unit is None else {})
    tariff, per_unit = Tariff(price=source.price, prices=source.prices), value.kwh * source.efficiency
    most = None if source.rated_power_w is None else source.rated_power_w / 1000.0 / value.kwh
    paid = form == "deliveries"
    intervals = _priced(use.table, Tariff(price=None) if paid else tariff, per_unit, most, desk.pull, reasons)
    if paid and tariff.given:
        reasons = _why_unpriced(reasons)
    unknown = gaps(
        intervals, desk.season, desk.pull, tariff, source.rated_power_w, source.efficiency, per_unit, desk.diary,
        form != "logger",
    )  # fmt: skip
    return HeatSupply(
        name=source.name,
        fuel=source.fuel,
        role=source.role,
        form=form,
        kind=None,
        unit=source.unit,
        intervals=intervals,
        rated_power_w=source.rated_power_w,
        vented=source.vented,
        heating_value="" if source.fuel == "electricity" else value.basis,
        co2_kg_per_unit=source.co2_kg_per_unit,
        resets=use.resets,
        reasons=reasons,
        gaps=unknown.iloc[:0] if paid else unknown,  # of a store: what was not bought was not burnt
        stock=use.stock,
        shared_by=use.shared_by,
    )


def _why_unpriced(reasons: dict[str, str]) -> dict[str, str]:
    words = "no price is known for the day on which part of it was bought"
    return reasons | ({"cost": words} if "cost" in reasons else {})


def _from_book(source: HeatSource, desk: _Desk) -> tuple[str, _Use]:
    if source.meter is not None:
        form, bought = "meter", read_meter(desk.season, source.meter, desk.pull)
    elif source.bills is not None:
        form, bought = "bills", read_bills(desk.season, source.bills, desk.pull, source.unit)
    else:
        form, bought = "deliveries", read_deliveries(desk.season, source, source.deliveries or "", desk.pull)
    desk.problems += bought.problems
    return form, _sums(bought)


def _sums(bought: Bought) -> _Use:
    use = _Use(table=bought.stretches.assign(sparse=True), shared_by=bought.shared_by, stock=bought.stock)
    if len(use.table) == 0:
        use.reasons["heat_kwh"] = "no stretch between two readings lies in the season"
    return use


def _appliance(item: Appliance, n: int, desk: _Desk) -> HeatSupply:
    if item.logger is not None:
        form, use = "logger", _logged(item.logger, item.rated_power_w, f"[[appliance]] {n + 1}", desk)
    else:
        form, use = "rated hours", _rated(desk.season, item.rated_power_w or 0.0, item.hours_per_day or 0.0)
    use.table["bought"] = use.table["kwh"]
    reasons = dict(use.reasons)
    intervals = _priced(use.table, Tariff(price=item.price), 1.0, None, desk.pull, reasons)
    return HeatSupply(
        name=item.name,
        fuel="electricity",
        role="appliance",
        form=form,
        kind=item.kind,
        unit="kWh",
        intervals=intervals,
        rated_power_w=item.rated_power_w,
        vented=None,
        heating_value="",
        co2_kg_per_unit=None,
        resets=use.resets,
        reasons=reasons | {"co2": "no factor can be given for an appliance"},
    )


def _rated(season: Season, watts: float, hours: float) -> _Use:
    """The same sum every day; when in the day nobody knows."""
    edges = season.midnights
    table = pd.DataFrame({"start": edges[:-1], "end": edges[1:]})
    return _Use(table=table.assign(kwh=watts * hours / 1000.0, sparse=True, estimated=True))


def _logged(name: str, rated_power_w: float | None, address: str, desk: _Desk) -> _Use:
    """Energy by a logger's channel; an empty table with its reason where there is none."""
    season = desk.season
    declared = [measure for measure in LOGGED if measure in season.logger(name).measures]
    own = {c.measure: c for c in reversed(desk.channels) if c.logger == name}
    channel = next((own[measure] for measure in declared if measure in own), None)
    words = f"no usable reading of logger {name}"
    if not declared:
        desk.problems.append(_no_column(name, address))
    elif channel is not None and channel.measure in ("heater_on", "fan_on") and rated_power_w is None:
        desk.problems.append(_no_rating(channel, address))
    elif channel is not None and len(channel.values) > 1:
        found = _use_of(channel, rated_power_w)
        if len(found.stretches):
            return _Use(table=_clipped(found.stretches, season).assign(estimated=False), resets=found.resets)
        words = f"the readings of logger {name} lie too far apart to be joined"
    empty = pd.DatetimeIndex([], tz=season.zone)
    table = pd.DataFrame({"start": empty, "end": empty, "kwh": np.empty(0)})
    return _Use(table=table.assign(sparse=False, estimated=False), reasons={"heat_kwh": words, "cost": words})


def _use_of(channel: Channel, rated_power_w: float | None) -> LoggedUse:
    if channel.measure == "heater_energy":
        return of_counter(channel.values, rated_power_w)
    if channel.measure == "heater_power":
        return of_power(channel.values)
    return of_switch(channel.values, rated_power_w or 0.0)


def _clipped(table: pd.DataFrame, season: Season) -> pd.DataFrame:
    """The part of every stretch in the season; energy shared by time."""
    start = table["start"].where(table["start"] > season.start, season.start)
    end = table["end"].where(table["end"] < season.end, season.end)
    share = (end - start) / (table["end"] - table["start"])
    clipped = table.assign(start=start, end=end, kwh=table["kwh"] * share)
    return clipped.loc[share > 0].reset_index(drop=True)


def _priced(
    table: pd.DataFrame, tariff: Tariff, kwh_per_unit: float, most_per_h: float | None, pull: Pull,
    reasons: dict[str, str],
) -> pd.DataFrame:  # fmt: skip
    """Heat and cost of every stretch; a cost that the book wrote goes before prices."""
    each = mean_price(pd.DatetimeIndex(table["start"]), pd.DatetimeIndex(table["end"]), tariff, pull)
    written = table["cost"] if "cost" in table else pd.Series(np.nan, index=table.index)
    out = table.assign(heat_kwh=table["bought"] * kwh_per_unit, cost=written.fillna(table["bought"] * each))
    used = out["bought"].to_numpy() > 0
    if len(out) and bool(out["cost"].isna().to_numpy()[used].any()):
        none = not tariff.given and bool(written.isna().all())
        reasons["cost"] = "no price given" if none else "no price is known for part of what was used"
    loose = out["sparse"].to_numpy(dtype=bool) & used & written.isna().to_numpy() & tariff.by_hour
    out = _bounded(out, loose, tariff, most_per_h)
    if loose.any():
        reasons["hours"] = "a sum over days cannot tell its hours: shared by the cold over the hours of the tariff"
    return out.assign(known_sum=out.get("known_sum", -1))[COLUMNS]


def _bounded(
    table: pd.DataFrame, loose: np.ndarray[Any, np.dtype[np.bool_]], tariff: Tariff, most_per_h: float | None
) -> pd.DataFrame:
    """The least and the most that each stretch can have cost; what is shared by the cold is held between the two."""
    cost, low, high = (table["cost"].to_numpy(dtype=np.float64, copy=True) for _ in range(3))
    for i in np.flatnonzero(loose):
        row = table.iloc[int(i)]
        low[i], high[i] = cost_bounds(row["start"], row["end"], float(row["bought"]), tariff, most_per_h)
        cost[i] = min(max(cost[i], low[i]), high[i])
    return table.assign(cost=cost, cost_low=low, cost_high=high)


def _no_heat_value(source: HeatSource, n: int) -> Problem:
    return Problem(
        slug="heat-value-missing",
        file=FILE,
        column=f"[[heating]] {n + 1} · heat_kwh_per_unit",
        found=f"{source.fuel} by the {source.unit} without its heat value",
        expected="heat_kwh_per_unit: heat in one unit of this fuel, in kWh",
        todo="take it from the bill or the supplier; only propane by the litre and wood by the kg are tabled",
    )


def _basis_unsaid(source: HeatSource, n: int) -> Problem:
    return Problem(
        slug="heating-value-unsaid",
        file=FILE,
        column=f"[[heating]] {n + 1} · heating_value",
        found=f"a heat value of {source.fuel} that may be gross or net",
        expected='heating_value = "gross" or "net"',
        todo="look on the bill: gross counts the heat in the fumes' water vapour, net does not",
        level="warning",
    )


def _no_column(name: str, address: str) -> Problem:
    return Problem(
        slug="no-heater-column",
        file=FILE,
        column=f"{address} · logger",
        found=f"the logger {name!r}, which has no column of use",
        expected="heater_power, heater_energy or heater_on in its [logger.measures]",
        todo="declare that column, or name the logger that has it",
    )


def _no_rating(channel: Channel, address: str) -> Problem:
    return Problem(
        slug="rated-power-missing",
        file=FILE,
        column=f"{address} · rated_power_w",
        found=f"{channel.measure} of logger {channel.logger!r} without a rated power",
        expected="rated_power_w: what it draws when on, in W",
        todo="take it from the plate of the device",
    )
