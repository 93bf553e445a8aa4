"""What a page's figures lack: readings that could not be, with their count, and a soil probe that lies in no soil."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from reportgen.charts.types import Note
from reportgen.measures import record_words as say
from reportgen.measures.places import doubted_soil
from reportgen.measures.record import ChannelRecord
from reportgen.readings.checks import HUMIDITIES, WET_LIMIT
from reportgen.readings.probe import EXCHANGED
from reportgen.review import Review
from reportgen.units import MEASURES
from reportgen.wording import Wording, number

_AIR = ("air_temperature", "outdoor_temperature")
_HEATER = ("heater_power", "heater_energy", "heater_on")
_LIGHT = ("ppfd", "solar_radiation")
_BED = ("soil_temperature", "soil_moisture", "fan_on", "duct_in_temperature", "duct_out_temperature", "duct_airflow")

# Page → the measures its figures rest on.
RESTS_ON: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "frost": (*_AIR, "soil_temperature", *_HEATER),
        "heat": (*_AIR, *_HEATER),
        "damp": (*_AIR, *HUMIDITIES),
        "soil": ("air_temperature", *_BED),
        "light": _LIGHT,
        "changes": (*_AIR, *HUMIDITIES, *_HEATER, *_LIGHT, "soil_temperature", "wind_speed"),
        "harvest": _HEATER,
        "winters": (*_AIR, *HUMIDITIES, *_HEATER, "soil_temperature"),
    }
)
REASON = "impossible"
SOIL_PAGES = ("frost", "soil", "changes", "winters")  # pages whose figures rest on the bed
AIR_PAGES = ("heat", "damp")  # and those that are wrong as well where the bed's column stands for the air


def left_out(slug: str, review: Review) -> Note | None:
    """The note of that page; None where nothing it rests on was set aside as impossible."""
    measures = RESTS_ON.get(slug, ())
    found = [c for c in review.record.channels if c.measure in measures and c.set_aside.get(REASON)]
    if not found:
        return None
    w = Wording.of(review.season)
    told = "; ".join(_told(w, channel) for channel in found)
    one = sum(channel.set_aside[REASON] for channel in found) == 1
    rest = (
        "It was set aside, and no figure of this page has it"
        if one
        else ("They were set aside, and no figure of this page has them")
    )
    return Note(title="Not in these figures", text=f"{told}. {rest}.")


def no_soil(slug: str, review: Review) -> Note | None:
    """What the checks say of a probe that hangs in the air or whose column is exchanged, on the pages it touches."""
    pages = (*SOIL_PAGES, *AIR_PAGES)
    told = [one for one in doubted_soil(review.readings) if slug in (pages if one.slug == EXCHANGED else SOIL_PAGES)]
    if not told:
        return None
    return Note(title="The probe in the bed", text=" ".join(f"{one.words[:1].upper()}{one.words[1:]}." for one in told))


def _told(w: Wording, channel: ChannelRecord) -> str:
    """`3 of 26 000 readings of air temperature at bench cannot be (below −40.0 or above 75.0 °C)`."""
    count = channel.set_aside[REASON]
    which = f"{number(count)} of {say.readings_count(channel.values_read)} of {say.measure_name(channel.measure)}"
    return f"{which} at {channel.logger} cannot be ({_beyond(w, channel.measure)})"


def _beyond(w: Wording, measure: str) -> str:
    limits = MEASURES[measure]
    highest = WET_LIMIT if measure in HUMIDITIES else limits.highest
    low, unit = say.value_number(w, measure, limits.lowest), say.unit_name(w, measure)
    if highest == float("inf"):
        return f"below {low}\u00a0{unit}"
    return f"below {low} or above {say.value_words(w, measure, highest)}"
