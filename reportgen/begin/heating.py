"""Heaters that the files speak of → drafts of [[heating]] tables; what would make a review fail is left commented."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.begin.files import Seen
from reportgen.begin.loggers import INSIDE, Draft, Offer, free_name, in_fahrenheit, meters
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
_US_UNIT = {"propane": "gal_us", "natural_gas": "therm", "kerosene": "gal_us", "wood": "lb", "pellets": "lb"}
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
    dial: float | None = None  # in the unit of the season, °C or °F
    missing: str = ""
    kind: str = ""  # of an appliance, whose use is no heating


def heaters(seen: Sequence[Seen], loggers: Sequence[Draft], asker: Asker) -> list[Heater]:
    """One heater a meter, book of deliveries or bills, or logger of use."""
    found: list[Heater] = []
    for draft in loggers:
        if any(measure in draft.measures for measure in USE):
            found.append(_logged(draft, _names(found), asker))
        elif offer := next((offer for offer in draft.offers if offer.measure == "heater_energy"), None):
            found.append(_offered(draft, offer, _names(found)))
    for one in seen:
        if one.role in ("meter", "deliveries", "bills"):
            name = free_name(one.file.rpartition("/")[2].partition(".")[0], _names(found))
            found.append(Heater(name=name, key=one.role, source=one.file))
    for heater in found:
        if not heater.missing:
            _settle(heater, loggers, asker)
    _fuel_meters(seen, asker)
    bare = [h.name for h in found if h.price is None and h.key != "deliveries" and not h.missing]
    if bare:
        asker.doubt(f"the price of a kWh for {', '.join(bare)}: without it there is no cost on any page")
    return found


def _logged(draft: Draft, taken: Sequence[str], asker: Asker) -> Heater:
    """The device behind a logger of use: an appliance if its name says so, else a heater."""
    low = draft.name.casefold()
    guess = next((kind for kind, words in _APPLIANCES if any(word in low for word in words)), "heater")
    columns = ", ".join(repr(column.name) for measure, column in draft.measures.items() if measure in USE)
    doubt = f"what {draft.name} counts with {columns}: taken as what a {guess} used"
    kind = asker.choose(f"What does {draft.name} count with {columns}", DEVICES, guess, doubt)
    climate = set(INSIDE) & set(draft.measures)
    name = f"the {kind}" if climate or draft.name.casefold() == kind else draft.name
    return Heater(name=free_name(name, taken), key="logger", source=draft.name, kind="" if kind == "heater" else kind)


def _offered(draft: Draft, offer: Offer, taken: Sequence[str]) -> Heater:
    """A counter of which nothing says what it counts: a heater that stays commented out."""
    missing = f"what {offer.column.name!r} of {draft.label} counts is not known; use heater_energy of {draft.name} too"
    return Heater(name=free_name("the heater", taken), key="logger", source=draft.name, missing=missing)


def _fuel_meters(seen: Sequence[Seen], asker: Asker) -> None:
    """A column of a logger file that runs up like a gas or oil meter: how it can be counted as heating."""
    for label, column in meters(seen):
        asker.doubt(
            f"{column!r} of {label} runs up like a meter: to count it as heating, write its readings into a file with "
            'the columns date,reading and name that under [[heating]] as meter = "…"'
        )


def _names(found: Sequence[Heater]) -> list[str]:
    return [heater.name for heater in found]


def _settle(heater: Heater, loggers: Sequence[Draft], asker: Asker) -> None:
    if heater.key != "logger":
        guess = _fuel_in(heater)
        doubt = f"the fuel of {heater.source}: taken as {guess}"
        heater.fuel = asker.choose(f"What does {heater.source} measure", FUELS, guess, doubt)
        usual = (_US_UNIT if in_fahrenheit(loggers) else _USUAL_UNIT).get(heater.fuel, "kWh")
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
