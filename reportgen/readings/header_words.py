"""What a column's name says about what it holds: words of a few languages, from memory; a guess, never a rule."""

from __future__ import annotations

import re
import unicodedata

from reportgen.units import MEASURES

# In this order: the first pattern that fits names the measure; None is a column the report has no use for.
_KINDS: tuple[tuple[str | None, str], ...] = (
    (None, r"dew|taupunkt|rosn|rosee|rocio|rugiada|punto de|battery|batter|baterie|akku|rssi|signal|voltage|volt\b"),
    (None, r"pressure|druck|tlak|presion|press|hpa\b|co2|vpd|deficit|humdef|abs.*hum|hum.*abs|g/m|heat ?index|feels"),
    (None, r"setpoint|soll|alarm|serial|record|^#|^no\.?$|^nr\.?$|^id$|index|zeile|radek|note|comment|status"),
    ("heater_energy", r"kwh|energy|energie|energia|\bwh\b|consumption|verbrauch|spotreba|counter|zahler"),
    ("heater_power", r"power|leistung|vykon|puissance|potencia|potenza|\bwatts?\b|\(w\)|\[w\]|_w$"),
    ("ppfd", r"ppfd|\bpar|umol|mmol|quantum"),
    ("solar_radiation", r"solar|radiation|strahlung|zareni|rayonnement|radiacion|w/m|wm2|glob|pyrano"),
    (None, r"\blux\b|\blx\b|light|licht|svetlo|lumi"),
    ("wind_speed", r"wind ?s|windsp|wind|vitr|vent\b|viento|vento"),
    ("fan_on", r"fan|lufter|ventilator|ventilateur"),
    ("heater_on", r"heater|heiz|topeni|chauffage|relay|relais|switch|on/off"),
    ("soil_moisture", r"moisture|vwc|bodenfeucht|vlhkost pudy|volumetric"),
    ("relative_humidity", r"humid|\brh|r\.h|rhum|%rh|feucht|vlhk|humed|umidit|\bhum\b|wilgotn|luchtvocht|^hum|rf\b"),
    ("soil_temperature", r"soil|boden|puda|pudy|zem|terre|suelo|suolo|ground|bed\b|probe|sonda|sonde|fuhler|ext"),
    ("air_temperature", r"temp|tair|tout|tin\b|\bt_|^t$|teplot|degc|degf|°c|°f|℃|℉|celsius|fahrenheit|\bair\b|luft"),
)
_OUTDOOR = re.compile(r"out|aussen|venk|exter|dehors|yard|weather|wetter|pocasi|meteo|station|ambient")
_UNITS: tuple[tuple[str, str], ...] = (
    ("degF", r"°\s*f|℉|deg ?f|fahrenheit|[(\[_ /]f[)\]]?$"),
    ("degC", r"°\s*c|℃|deg ?c|celsius|[(\[_ /]c[)\]]?$"),
    ("µmol/m²/s", r"µ?u?mol"),
    ("W/m²", r"w\s*/?\s*m|wm2"),
    ("kWh", r"kwh"),
    ("Wh", r"\bwh\b"),
    ("kW", r"\bkw\b"),
    ("W", r"\bw\b|watt"),
    ("km/h", r"km/?h|kmh"),
    ("mph", r"mph"),
    ("knot", r"knot|\bkn?ts?\b"),
    ("m/s", r"m/s"),
    ("%", r"%|pct|percent|prozent"),
)


def plain_words(name: str) -> str:
    """A column's name in lower case without accents."""
    low = unicodedata.normalize("NFKD", name.casefold().replace("µ", "u").replace("ł", "l"))
    return "".join(mark for mark in low if not unicodedata.combining(mark)).replace("_", " ").strip()


def outdoors(name: str) -> bool:
    """Whether a name (of a column or a file) speaks of outside."""
    return _OUTDOOR.search(plain_words(name)) is not None


def measure_of(name: str) -> str | None:
    """The measure that a column's name suggests; None for one the report has no use for, or that says nothing."""
    words = plain_words(name)
    measure = next((kind for kind, pattern in _KINDS if re.search(pattern, words)), None)
    if measure in ("air_temperature", "soil_temperature") and outdoors(name):
        return "outdoor_temperature"
    return "outdoor_humidity" if measure == "relative_humidity" and outdoors(name) else measure


def unit_in(name: str, measure: str | None) -> str | None:
    """The unit that a column's name shows, if its measure can have it."""
    shown = name.casefold().replace("º", "°").replace("²", "2").replace("μ", "µ").strip()
    found = [unit for unit, pattern in _UNITS if re.search(pattern, shown)]
    accepted = MEASURES[measure].accepted if measure else ()
    return next((unit for unit in found if unit in accepted), None)
