"""What a column's name says about what it holds: words of a few languages, from memory; a guess, never a rule."""

from __future__ import annotations

import re
import unicodedata

from reportgen.units import MEASURES

_SPEED = r"km ?/? ?h\b|kmh|m/s|\bm s\b|mph|knot|\bkn?ts?\b"
# In this order: the first pattern that fits names the measure; None is a column the report has no use for.
_KINDS: tuple[tuple[str | None, str], ...] = (
    (None, r"dew|taupunkt|rosn|rosee|rocio|rugiada|punto de|wet ?bulb|battery|batter|baterie|akku|rssi|signal|voltage"),
    (None, r"volt\b|pressure|druck|tlak|presion|press|hpa\b|co2|vpd|deficit|humdef|abs.*hum|hum.*abs|g/m|heat ?index"),
    (None, r"feels|wind ?chill|\bec\b|\bph\b|weight|gewicht|drain|rain|precip|regen\b|srazk|std ?dev|\bstd\b|\bsd\b"),
    (None, r"set ?point|\bsp\b|soll|target|alarm|serial|record|^#|^no\.?$|^nr\.?$|^id$|index|zeile|radek|note|comment"),
    (None, r"status|quality|\bflag\b|\bcount\b|samples|leaf|blatt|power factor|cos ?phi"),
    # lowest and highest since the row before: no readings of their moment
    (None, r"\b(min|max|minim\w*|maxim\w*|lowest|highest)\b|\b(t|ta|temp|tair|rh|hum)(min|max)|(min|max)(t|temp|rh)\b"),
    (None, r"\b(temp\w*|t|hum\w*|rh) (low|high)\b|\b(low|high) (temp\w*|hum\w*|rh)\b"),
    (None, r"wind ?(dir|richt|smer)|\bwd\b|direction|direccion|direzione|richtung|smer vetru"),
    (None, r"\bgusts?\b|\bboe|rafale|naraz"),
    ("wind_speed", rf"(wind(?!ow)|\bvent\b|viento|vento|vitr|\bwspd\b).*({_SPEED})|(vitesse|force) (du )?vent\b"),
    # how far something stands open
    (None, r"\bvents?\b|vent ?(lee|wind|side|roof|pos|open|\d)|ventilation|ventil\b|valve|luftung"),
    (None, r"window|fenster|klappe|okno"),
    (None, r"\bscreens?\b|curtain|schirm|shading|damper|opening|position|\bpos\b|mischer"),
    ("duct_airflow", r"\bduct.*(air ?flow|m3|cfm|l/s)|air ?flow\b|\bcfm\b|luftstrom|luftmenge"),
    # water in pipes and tanks, and what runs hot by itself
    (None, r"pipe|rohr|potrubi|tuyau|tubo|vorlauf|rucklauf|\bt?flow\b|outflow|inflow|\bt?return\b|\bt?supply\b"),
    (None, r"buffer|puffer|\btank\b|hot ?water|water ?temp|wassertemp|manifold|\binlet\b|\boutlet\b"),
    (None, r"boiler|kessel|flue|\bcpu\b|processor|inverter"),
    ("duct_in_temperature", r"\bduct.*\bin\b"),
    ("duct_out_temperature", r"\bduct.*\bout\b"),
    (None, r"\bduct\b"),
    ("heater_energy", r"kwh|energy|energie|energia|\bwh\b|consumption|verbrauch|spotreba|counter|zahler|\bmeter\b"),
    ("heater_power", r"power|leistung|vykon|puissance|potencia|potenza|\bwatts?\b|\(w\)|\[w\]|\bw$"),
    ("ppfd", r"ppfd|\bpar(in|out|\d|\b)|umol|mmol|quantum"),
    ("solar_radiation", r"solar|radiation|strahlung|zareni|rayonnement|radiacion|w/m|wm2|glob|pyrano"),
    (None, r"\blux\b|\blx\b|light|licht|svetlo|lumi"),
    ("wind_speed", r"wind|vitr|viento|vento\b"),
    ("fan_on", r"fan\b|fan ?on|lufter|ventilator|ventilateur"),
    ("heater_on", r"heater|heiz|topeni|chauffage|relay|relais|switch|on/off"),
    (
        "soil_moisture",
        r"moisture|vwc|water content|bodenfeucht|vlhkost pudy|volumetric|\bwc\b|(jord|mark)fukt|jordfugt",
    ),
    ("soil_moisture", r"maankosteus|talajnedv|влажн\w* почв"),
    (
        "relative_humidity",
        r"humid|\brh|r\.h|rhum|%rh|feucht|vlhk|humed|umidi|umida|\bhum\b|wilgotn|luchtvocht|^hum|rf\b|hygrom"
        r"|fuktig|luftfukt|fugtig|luftfugt|kosteus|paratart|niiskus|\bnem\b|влажн|湿度",
    ),
    (
        "soil_temperature",
        r"soil|boden|puda|pudy|zem|terre|suelo|suolo|ground|\bbeds?\b|substrat|slab|root ?zone|compost",
    ),
    ("soil_temperature", r"growbag|\bpeat\b|\bjord|marktemp|\bmaa(n|pera)|talaj|\bgleb|почв"),
    (
        "air_temperature",
        r"temp|tmp|tair|tout|\btin\b|\bt\b|\bt ?\d+\b|\bta\b|\bt(avg|mean|med|mid)|(avg|mean) ?t\b|teplot|thermom",
    ),
    ("air_temperature", r"lampotil|homerseklet|sicaklik|темпер|温度|気温"),
    # a place alone: what stands there in a book of readings by hand is a temperature
    (
        "air_temperature",
        r"^(inside|indoors?|outside|outdoors?|innen|drinnen|aussen|draussen|uvnitr|venku|binnen|buiten|greenhouse)$",
    ),
    ("air_temperature", r"degc|degf|°c|°f|℃|℉|celsius|fahrenheit|\bair\b|luft"),
)
_OUTDOOR = re.compile(
    r"\bout(?:side|doors?|er|air|temp\w*|hum\w*|rh|[tcf])?\b|\b(?:t|temp|tair|air|rh|hum|rhair|par|rad|glob)out\b"
    r"|\w(?:outside|outdoors?)\b|aussen|\bvenk|exterio|exterieur|esterno|esterna|dehors|fuera|\bbuiten"
    r"|\byard\b|weather|wetter|pocasi|meteo"
    r"|\bute\b|utomhus|\butelu|\butetemp|utendors|utend|udend|\bulko|zewn|\bkint|\bkulso|наруж|улиц"
)
# A sensor on a wire, or one that is only said to be outside the logger itself: it may hang anywhere.
_LOOSE = re.compile(r"\bext\b|external|probe|\bsonda\b|\bsonde\b|fuhler")
_TIME = re.compile(
    r"\b(?:date|time|datum|zeit|uhrzeit|cas|heure|fecha|hora|timestamp|datetime|datumzeit"
    r"|tid|tidpunkt|dato|tijd|aika|pvm|ido|idopont|czas|время|дата|日時)\b"
)
_NUMBER = re.compile(r"[+-]?\d*[.,]?\d+(?:e[+-]?\d+)?\s*\D{0,4}|on|off|true|false|nan|na|null|-+", re.I)
_MOMENT = re.compile(r"\d[:h]\d|\d{1,4}([-/.])\d{1,2}\1\d{1,4}|\d{8,}")
_UNITS: tuple[tuple[str, str], ...] = (
    ("degF", r"°\s*f|℉|deg\s*f|fahrenheit|[(\[_ /.]f[)\].]*$|(?:temp|tmp)(?:in|out|indoor|outdoor|[\d_])*f$"),
    ("degC", r"°\s*c|℃|deg\s*c|celsius|[(\[_ /.]c[)\].]*$|(?:temp|tmp)(?:in|out|indoor|outdoor|[\d_])*c$"),
    ("µmol/m²/s", r"µ?u?mol"),
    ("W/m²", r"w\s*/?\s*m|wm2"),
    ("kWh", r"kwh"),
    ("Wh", r"\bwh\b"),
    ("MJ", r"\bmj\b"),
    ("kW", r"\bkw\b|_kw$"),
    ("W", r"\bw\b|watt|_w$"),
    ("cfm", r"\bcfm\b"),
    ("m3/h", r"m[³3] ?/ ?h"),
    ("m3/s", r"m[³3] ?/ ?s"),
    ("L/s", r"\bl ?/ ?s\b"),
    ("km/h", r"km/?h|kmh"),
    ("mph", r"mph"),
    ("knot", r"knot|\bkn?ts?\b"),
    ("m/s", r"m/s"),
    ("%", r"%|pct|percent|prozent"),
)


def plain_words(name: str) -> str:
    """A column's name in lower case without accents; underscores and dots part words."""
    low = unicodedata.normalize("NFKD", name.casefold().replace("µ", "u").replace("ł", "l"))
    bare = "".join(mark for mark in low if not unicodedata.combining(mark))
    return re.sub(r"[_.\-\s]+", " ", bare).strip()


def _readings_of(name: str) -> tuple[str, str]:
    """The words of a name as written, and with capitals inside words taken as beginnings: VentWind as vent wind."""
    return plain_words(name), plain_words(re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name))


def outdoors(name: str) -> bool:
    """Whether a name (of a column or a file) speaks of outside."""
    return any(_OUTDOOR.search(words) for words in _readings_of(name))


def loose(name: str) -> bool:
    """Whether a name speaks of a probe without saying where it is: in the bed, in the air, outdoors."""
    return measure_of(name) in (None, "air_temperature") and not outdoors(name) and _loose_words(name)


def _loose_words(name: str) -> bool:
    words = _readings_of(name)[0]
    used = not any(re.search(pattern, words) for kind, pattern in _KINDS if kind is None)
    return used and _LOOSE.search(words) is not None


def measure_of(name: str) -> str | None:
    """The measure that a column's name suggests; None for one the report has no use for, or that says nothing."""
    words, parted = _readings_of(name)
    measure = next((kind for kind, p in _KINDS if re.search(p, words) or re.search(p, parted)), None)
    if measure in ("air_temperature", "soil_temperature") and outdoors(name):
        return "outdoor_temperature"
    return "outdoor_humidity" if measure == "relative_humidity" and outdoors(name) else measure


def names_time(name: str) -> bool:
    """Whether a column's name says that it holds a date or a time."""
    return any(_TIME.search(words) for words in _readings_of(name))


def fits_cell(name: str, cell: str) -> bool:
    """Whether a cell can be of a column of that name: a number under a measure, a moment under a time."""
    if not cell:
        return True
    if names_time(name):
        return _MOMENT.search(cell) is not None
    return measure_of(name) is None or (_NUMBER.fullmatch(cell) is not None and _MOMENT.search(cell) is None)


def unit_in(name: str, measure: str | None) -> str | None:
    """The unit that a column's name shows, if its measure can have it."""
    shown = name.casefold().replace("º", "°").replace("²", "2").replace("μ", "µ").strip()
    found = [unit for unit, pattern in _UNITS if re.search(pattern, shown)]
    accepted = MEASURES[measure].accepted if measure else ()
    return next((unit for unit in found if unit in accepted), None)
