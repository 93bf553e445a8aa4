"""A first guess of the time zone, from the computer's own clock; always told as a guess."""

from __future__ import annotations

import os
from pathlib import Path
from zoneinfo import available_timezones

_CURRENCIES = (("America/", "USD"), ("Europe/London", "GBP"), ("Australia/", "AUD"), ("Europe/Zurich", "CHF"))


def computer_zone() -> str:
    """The zone this computer is set to, by its IANA name; UTC where it cannot be had."""
    known = available_timezones()
    linked = Path("/etc/localtime")
    target = linked.resolve().as_posix().partition("zoneinfo/")[2] if linked.is_symlink() else ""
    for name in (os.environ.get("TZ", "").lstrip(":"), target):
        if name in known:
            return "UTC" if name in ("Etc/UTC", "Etc/UCT", "Universal", "Zulu") else name
    return "UTC"


def zone_of(text: str) -> str | None:
    """An IANA name as it is written in the list, whatever its case."""
    names = {name.casefold(): name for name in available_timezones()}
    return names.get(text.strip().replace(" ", "_").casefold())


def currency_of(zone: str) -> str:
    """The likely currency of a zone."""
    return next((money for begin, money in _CURRENCIES if zone.startswith(begin)), "EUR")
