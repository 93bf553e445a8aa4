"""Heaters that the files speak of → drafts of [[heating]] tables; what would make a review fail is left commented."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.begin.files import Seen
from reportgen.begin.loggers import Draft, free_name
from reportgen.begin.questions import Asker
from reportgen.readings.fuels import heat_value
from reportgen.season import HeatSource

FUELS = ("electricity", "propane", "natural_gas", "kerosene", "wood", "pellets", "other")
UNITS = ("kWh", "m3", "L", "kg", "gal_us", "therm", "lb")
_FUEL_WORDS = (
    ("propane", ("propan", "bottle", "cylinder", "lpg", "flasche", "butan")),
    ("natural_gas", ("gas",)),
    ("kerosene", ("kerosen", "paraffin", "petrol")),
    ("pellets", ("pellet",)),
    ("wood", ("wood", "holz", "log", "drev")),
)
_USUAL_UNIT = {"propane": "L", "natural_gas": "m3", "kerosene": "L", "wood": "kg", "pellets": "kg"}  # else kWh
_APPLIANCES = (
    ("dehumidifier", ("dry", "dehum", "entfeucht", "odvlh")),
    ("lamp", ("lamp", "light", "led", "licht", "svetl")),
    ("fan", ("fan", "lufter", "ventil")),
    ("pump", ("pump",)),
)
DEVICES = ("heater", "dehumidifier", "lamp", "fan", "pump", "other")
USE = ("heater_energy", "heater_power", "heater_on")


@dataclass(kw_only=True, slots=True)
class Heater:
    """A heater or, with a `kind`, an appliance. `key` and `source`: meter, deliveries, bills or logger, and which.
    `missing`: why it stays commented out."""

    name: str
    key: str
    source: str
    fuel: str = "electricity"
    unit: str = "kWh"
    price: float | None = None
    rated_power_w: float | None = None
    heat_kwh_per_unit: float | None = None
    missing: str = ""
    kind: str = ""  # of an appliance, whose use is no heating


def heaters(seen: Sequence[Seen], loggers: Sequence[Draft], asker: Asker) -> list[Heater]:
    """One heater a meter, book of deliveries or bills, or logger of use."""
    found: list[Heater] = []
    found += [_logged(draft, asker) for draft in loggers if any(measure in draft.measures for measure in USE)]
    for one in seen:
        if one.role in ("meter", "deliveries", "bills"):
            name = free_name(one.file.rpartition("/")[2].partition(".")[0], _names(found))
            found.append(Heater(name=name, key=one.role, source=one.file))
    for heater in found:
        _settle(heater, loggers, asker)
    bare = [heater.name for heater in found if heater.price is None and heater.key != "deliveries"]
    if bare:
        asker.doubt(f"the price of a kWh for {', '.join(bare)}: without it there is no cost on any page")
    return found


def _logged(draft: Draft, asker: Asker) -> Heater:
    """The device behind a logger of use: an appliance if its name says so, else a heater."""
    low = draft.name.casefold()
    guess = next((kind for kind, words in _APPLIANCES if any(word in low for word in words)), "heater")
    doubt = f"what {draft.name} counts: taken as a {guess}"
    kind = asker.choose(f"What does {draft.name} count", DEVICES, guess, doubt)
    name = draft.name if draft.name.casefold() != kind else f"the {kind}"
    return Heater(name=name, key="logger", source=draft.name, kind="" if kind == "heater" else kind)


def _names(found: Sequence[Heater]) -> list[str]:
    return [heater.name for heater in found]


def _settle(heater: Heater, loggers: Sequence[Draft], asker: Asker) -> None:
    if heater.key != "logger":
        guess = _fuel_in(heater)
        doubt = f"the fuel of {heater.source}: taken as {guess}"
        heater.fuel = asker.choose(f"What does {heater.source} measure", FUELS, guess, doubt)
        usual = _USUAL_UNIT.get(heater.fuel, "kWh")
        doubt = f"the unit of {heater.source}: taken as {usual}"
        heater.unit = asker.choose(f"In which unit is {heater.source}", UNITS, usual, doubt)
        _heat_value(heater, asker)
    elif _switch_only(heater, loggers):
        question = f"How many watts does the heater of {heater.source} draw when it is on"
        heater.rated_power_w = asker.get(question, "", positive)
        if heater.rated_power_w is None:
            heater.missing = "rated_power_w is not known: the log says when it was on, not what it drew"
    question = f"Price of one {heater.unit} for {heater.name} (empty if you do not know)"
    heater.price = asker.get(question, "", positive)
    if heater.missing:
        asker.doubt(f"{heater.name} is left commented out: {heater.missing}")


def _switch_only(heater: Heater, loggers: Sequence[Draft]) -> bool:
    draft = next(one for one in loggers if one.name == heater.source)
    return not {"heater_energy", "heater_power"} & set(draft.measures)


def _fuel_in(heater: Heater) -> str:
    low = heater.source.casefold()
    usual = "propane" if heater.key == "deliveries" else "electricity"
    return next((fuel for fuel, words in _FUEL_WORDS if any(word in low for word in words)), usual)


def _heat_value(heater: Heater, asker: Asker) -> None:
    draft = HeatSource.model_validate(
        {"name": heater.name, "fuel": heater.fuel, "unit": heater.unit, heater.key: heater.source}
    )
    if heat_value(draft) is None:
        question = f"Heat in one {heater.unit} of {heater.fuel}, in kWh (on the bill; empty if you do not know)"
        heater.heat_kwh_per_unit = asker.get(question, "", positive)
        if heater.heat_kwh_per_unit is None:
            heater.missing = f"heat_kwh_per_unit, the heat in one {heater.unit} of {heater.fuel}, is not known"


def positive(text: str) -> float | None:
    """A number above 0, point or comma as the decimal mark."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        return None
    return value if 0 < value < 1e9 else None
