"""Writes season.toml: what was found, each key with what it means, and what may be added as comments."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Sequence

from reportgen.begin import blocks
from reportgen.begin.draft import Outline
from reportgen.begin.files import Seen
from reportgen.begin.heating import Heater
from reportgen.begin.loggers import Draft
from reportgen.readings.shelf import WORKBOOKS
from reportgen.readings.sniff import SniffedColumn
from reportgen.season import Season
from reportgen.season.guesses import HEAD, ITEM
from reportgen.season.sources import shown
from reportgen.units import MEASURES

NOTE_AT = 46  # column at which the words behind a key begin


def toml_text(
    outline: Outline,
    loggers: Sequence[Draft],
    heaters: Sequence[Heater],
    seen: Sequence[Seen],
    unsure: Sequence[str],
    winters: Sequence[str],
) -> str:
    """The whole file; loads as it stands."""
    us = outline.show == "us"
    parts = [
        _head(outline, unsure),
        _place(outline),
        blocks.house(us, outline.house_id),
        blocks.aims(us),
        *(_logger(draft, loggers, us) for draft in loggers),
        *(_heater(heater, outline) for heater in heaters),
        *([] if heaters else [blocks.HEATING]),
        *_books(seen),
        blocks.crops(us),
        *(_last(name) for name in winters[:1]),
        blocks.SHARE,
        *_unknown(seen),
    ]
    return "\n\n".join(parts) + "\n"


def _line(key: str, value: str, note: str = "") -> str:
    text = f"{key} = {value}"
    return f"{text:<{NOTE_AT - 2}}  # {note}" if note else text


def quoted(text: str) -> str:
    """A text as TOML writes it."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")  # which JSON leaves bare


def _column(address: str | int) -> str:
    return quoted(address) if isinstance(address, str) else str(address)


def _head(o: Outline, unsure: Sequence[str]) -> str:
    doubts = ["#", HEAD, *(_comment(doubt) for doubt in unsure), ""] if unsure else []
    lines = [
        "# One winter of a greenhouse. What stands behind a # is for you alone: take the # away to use a line.",
        *doubts,
        "format = 1",
        _line("title", quoted(o.title)),
        _line("first_day", o.first_day.isoformat(), "both days are of the season"),
        _line("last_day", o.last_day.isoformat(), "leave it out while the winter still runs"),
        _line("time_zone", quoted(o.time_zone), "where the house stands, by the IANA list"),
    ]
    if o.currency:
        lines.append(_line("currency", quoted(o.currency)))
    else:
        lines.append(_line("# currency", '"EUR"', "needed as soon as a price stands anywhere"))
    lines.append(_line("show", quoted(o.show), 'how the report prints: "metric" or "us"'))
    return "\n".join(lines)


def _place(o: Outline) -> str:
    us = o.show == "us"
    keys = (
        (
            "name",
            quoted(o.place_name) if o.place_name else None,
            '"Long Meadow"',
            "printed; without it you stay private",
        ),
        ("latitude", _number(o.latitude), "49.2", "day length and light; a tenth of a degree will do"),
        ("longitude", _number(o.longitude), "16.6", "only shifts sunrise on the clock"),
        ("altitude_ft" if us else "altitude_m", None, "1020" if us else "310", "for the air pressure"),
        ("rare_low_f" if us else "rare_low_c", None, "-6" if us else "-21.0", "a low that comes once in twenty years"),
    )
    lines = [
        _line(key, value, note) if value is not None else _line(f"# {key}", example, note)
        for key, value, example, note in keys
    ]
    return "\n".join(["[place]", *lines])


def _number(value: float | None) -> str | None:
    return None if value is None else f"{value:g}"


def _several(draft: Draft, loggers: Sequence[Draft]) -> bool:
    return sum(other.where == draft.where for other in loggers) > 1


def _logger(draft: Draft, loggers: Sequence[Draft], us: bool) -> str:
    times = [_column(address) for address in draft.sniffed.time]
    lines = [
        "[[logger]]",
        _line("name", quoted(draft.name), "also names the place of its readings"),
        *([_comment(f"? {draft.question}", "# ")] if draft.question else []),
        _line("where", quoted(draft.where), '"crop", "outdoor" or "elsewhere"'),
    ]
    if draft.main:
        lines.append(_line("main", "true", "speaks for the house"))
    elif _several(draft, loggers) and draft.where != "elsewhere":
        lines.append(_line("# main", "true", "on one of them: it speaks for all of its place"))
    lines += [
        _line("# shielded", "false", "if the sun can shine on it"),
        _line("files", f"[{', '.join(quoted(pattern) for pattern in draft.patterns)}]"),
        *([_line("sheet", quoted(draft.sheet))] if draft.sheet else []),
        _line("time", times[0] if len(times) == 1 else f"[{', '.join(times)}]", _placed(draft.sniffed.time)),
    ]
    if draft.time_format:
        lines.append(_line("time_format", quoted(draft.time_format)))
    lines.append(_line("clock", quoted(draft.clock), '"local" with summer time, "utc", or fixed such as "+01:00"'))
    return "\n".join([*lines, "[logger.measures]", *_measures(draft, us), *_offers(draft), *_left_out(draft, loggers)])


def _placed(times: Sequence[str | int]) -> str:
    return "its place from the left: it has no name of its own" if any(isinstance(one, int) for one in times) else ""


def _measures(draft: Draft, us: bool) -> list[str]:
    lines = [blocks.beside(us)]
    for measure, column in draft.measures.items():
        unit = draft.units.get(measure, MEASURES[measure].kept)
        name = f"{column.name!r}, " if column.name and isinstance(column.address, int) else ""
        lines.append(_line(measure, _value(column, unit), name + _range(column)))
    return lines


def _value(column: SniffedColumn, unit: str) -> str:
    return f"{{ column = {_column(column.address)}, unit = {quoted(unit)} }}"


def _range(column: SniffedColumn) -> str:
    low, high = (f"{value:g}" if value is not None else "?" for value in (column.low, column.high))
    return f"{low} to {high}"


def _offers(draft: Draft) -> list[str]:
    """Columns that only the grower can place, as lines to be used."""
    return [
        _line(f"# {offer.measure}", _value(offer.column, offer.unit), f"{_range(offer.column)}; {offer.question}")
        for offer in draft.offers
    ]


def _left_out(draft: Draft, loggers: Sequence[Draft]) -> list[str]:
    """The columns that no logger of the file uses, told once, with the reason where the numbers gave one."""
    same = [other for other in loggers if other.files == draft.files and other.sheet == draft.sheet]
    if draft is not same[-1]:
        return []
    used = {column.address for other in same for column in other.measures.values()} | set(draft.sniffed.time)
    used |= {offer.column.address for other in same for offer in other.offers}
    rest = [column for column in draft.sniffed.columns if column.address not in used and column.filled]
    words = [shown(c.name or c.address) + (f" ({c.doubt})" if c.doubt else "") for c in rest]
    return [_comment(f"not used: {', '.join(words)}", "# ")] if words else []


def _comment(text: str, head: str = ITEM) -> str:
    """A text as lines of comment."""
    bare = "".join(c if c.isprintable() else " " for c in text)
    return textwrap.fill(bare, 110, initial_indent=head, subsequent_indent=head + "  ", break_on_hyphens=False)


def _heater(heater: Heater, o: Outline) -> str:
    if heater.kind:
        return _appliance(heater)
    lines = [
        "[[heating]]",
        _line("name", quoted(heater.name)),
        _line("fuel", quoted(heater.fuel), "electricity, propane, natural_gas, kerosene, wood, pellets, other"),
        _line(heater.key, quoted(heater.source)),
        _line("unit", quoted(heater.unit), "kWh, m3, L, kg, gal_us, therm, lb"),
    ]
    if heater.rated_power_w is not None:
        lines.append(_line("rated_power_w", f"{heater.rated_power_w:g}"))
    if heater.heat_kwh_per_unit is not None:
        lines.append(_line("heat_kwh_per_unit", f"{heater.heat_kwh_per_unit:g}"))
    lines.append(_line("price", f"{heater.price:g}", "per unit") if heater.price is not None else "# price = 0.31")
    lines.append(_dial(heater, o))
    if heater.fuel != "electricity":
        lines.append(_line("# vented", "true", "true where the fumes leave the house; false warns of them"))
    if heater.missing:
        return "\n".join([f"# Not in use yet: {heater.missing}.", *(f"# {line}" for line in lines)])
    return "\n".join(lines)


def _dial(heater: Heater, o: Outline) -> str:
    """What its thermostat was set to, from the first day on; as a comment where nobody said."""
    letter, example = ("f", 41.0) if o.show == "us" else ("c", 5.0)
    value = example if heater.dial is None else heater.dial
    steps = f"[ {{ from = {o.first_day.isoformat()}, {letter} = {value:g} }} ]"
    return _line("dial" if heater.dial is not None else "# dial", steps, "its thermostat, by date")


def _appliance(heater: Heater) -> str:
    """What a device draws that is no heater: its use warms the house too."""
    price = _line("price", f"{heater.price:g}", "per kWh") if heater.price is not None else "# price = 0.31"
    keys = [
        _line("name", quoted(heater.name)),
        _line("kind", quoted(heater.kind), "dehumidifier, lamp, fan, pump, other"),
        _line("logger", quoted(heater.source)),
    ]
    return "\n".join(["[[appliance]]", *keys, price])


def _books(seen: Sequence[Seen]) -> list[str]:
    """Books that lie under another name than the usual one."""
    usual = {name: getattr(Season.model_fields[name].default, "file", f"{name}.csv") for name in BOOKS}
    tables = []
    for name in BOOKS:
        found = [one for one in seen if one.role == name]
        if found and usual[name] not in [one.file for one in found] and found[0].file not in WORKBOOKS:
            sheet = f"\nsheet = {quoted(found[0].sheet)}" if found[0].sheet else ""
            tables.append(f"[{name}]\nfile = {quoted(found[0].file)}{sheet}")
    return tables


BOOKS = ("harvest", "diary", "plantings", "watering", "inspections", "costs")


def _last(name: str) -> str:
    return f"# A winter to compare with lies here:\n# [last_season]\n# folder = {quoted(name)}"


def _unknown(seen: Sequence[Seen]) -> list[str]:
    lost = [_comment(f"{one.label}: {one.why}") for one in seen if not one.role]
    return ["\n".join(["# Not used, because nothing could be made of it:", *lost])] if lost else []
