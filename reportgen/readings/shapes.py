"""What a written time means: which of its numbers is the year, the day, the hour …"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

MONTHS = {  # the first letters of the months in the languages loggers' programs speak; from memory
    1: "jan led sty gen ene janv", 2: "feb úno unor lut fév fev févr fevr", 3: "mar mär mrz maa bře bre mars mrt mae",
    4: "apr dub kwi avr abr avril", 5: "may mai mei kvě kve maj mag maio", 6: "jun čer cze giu juin juni",
    7: "jul čvc lip lug juil juli", 8: "aug srp sie ago aoû aout août", 9: "sep zář zar wrz set sept",
    10: "oct okt říj rij paź paz ott out", 11: "nov lis", 12: "dec dez pro gru dic déc",
}  # fmt: skip
_MONTH = {word: month for month, words in MONTHS.items() for word in words.split()}

_DATES = (
    r"(?P<Y>\d{4})(?P<s>[-/. ])\s?(?P<m>\d{1,2})(?P=s)\s?(?P<d>\d{1,2})(?:(?<=\d)\.(?!\d))?",
    r"(?P<a>\d{1,2})(?P<s>[-/.])\s?(?P<b>\d{1,2})(?P=s)\s?(?P<Y>\d{4}|\d{2})",
    r"(?:[^\W\d]{2,10}\.?,?\s+)?(?P<d>\d{1,2})[-/. ]{1,2}(?P<mon>[^\W\d_]{3,10})\.?[-/., ]{1,2}(?P<Y>\d{4}|\d{2})",
    r"(?:[^\W\d]{2,10}\.?,?\s+)?(?P<mon>[^\W\d_]{3,10})\.?[- ](?P<d>\d{1,2}),?[- ](?P<Y>\d{4})",
    r"(?P<YMD>\d{8})",
)
_TIME = (
    r"(?P<H>\d{1,2})[:h](?P<M>\d{1,2})(?:[:m](?P<S>\d{1,2})s?(?:[.,:](?P<f>\d{1,9}))?)?"
    r"(?:\s?(?P<ap>[AaPp])\.?\s?[Mm]\.?)?"
    r"(?:\s?(?P<off>Z|(?:UTC|GMT)?\s?[+\u2212-]\d{1,2}(?::?\d{2})?|UTC|GMT))?(?:\s?\(?(?P<zone>[A-Z]{2,5})\)?)?"
)
# Short names of clocks that mean one offset wherever they are written, in minutes; from memory, checked against the
# IANA time zone database by a test. Those that mean several (CST, IST, BST, AST) tell nothing.
ZONES = {
    "WET": 0, "WEST": 60, "CET": 60, "MEZ": 60, "CEST": 120, "MESZ": 120, "EET": 120, "EEST": 180, "MSK": 180,
    "EST": -300, "EDT": -240, "CDT": -300, "MST": -420, "MDT": -360, "PST": -480, "PDT": -420, "AKST": -540,
    "AKDT": -480, "HST": -600, "JST": 540, "AWST": 480, "ACST": 570, "ACDT": 630, "AEST": 600, "AEDT": 660,
    "NZST": 720, "NZDT": 780,
}  # fmt: skip
_DOTTED_TIME = r"(?P<H>\d{1,2})\.(?P<M>\d{2})(?:\.(?P<S>\d{2}))?"
_PACKED_TIME = r"(?P<HMS>\d{4}|\d{6})"
_BETWEEN = r"(?:\s*[T ,;_]\s*|\s+)"
_PATTERNS = tuple(
    re.compile(pattern)
    for date in _DATES
    for pattern in (
        rf"{date}{_BETWEEN}{_TIME}",
        rf"{date}{_BETWEEN}{_DOTTED_TIME}",
        rf"{date}{_BETWEEN}{_PACKED_TIME}",
        rf"{_TIME}{_BETWEEN}{date}",
        date,
    )
)
_STAMP = re.compile(r"(?P<stamp>\d{12}|\d{14})Z?")
_COUNT = re.compile(r"(?P<count>\d{5}|\d{9,10}|\d{13})(?:[.,](?P<f>\d{1,12}))?")


@dataclass(frozen=True, kw_only=True, slots=True)
class Shape:
    """Which number of a text holds which field.

    `at`: field → number of the run of digits: Y year, m month, d day, a and b the first and second of a date whose
    order is open, H M S, f fraction, YMD HMS stamp (packed), count (since an epoch, or a spreadsheet's day number),
    off and offm (hours and minutes of an offset). `month`: by name. `half`: "a" or "p". `dotted`: day before month by
    custom. `sign`: of the offset, 0 without one; `utc` where the text says so; `zone_min`: the offset that the name of
    a clock behind the time means [minutes], None without one.
    """

    at: Mapping[str, int] = field(default_factory=dict)
    month: int | None = None
    half: str = ""
    dotted: bool = False
    sign: int = 0
    utc: bool = False
    zone_min: int | None = None

    @property
    def open_order(self) -> bool:
        """Whether day and month could be swapped."""
        return "a" in self.at


def understand(text: str) -> Shape | None:
    """The shape of one written time; None when it is none."""
    text = text.strip()
    for pattern in (_COUNT, _STAMP, *_PATTERNS):
        if (found := pattern.fullmatch(text)) is not None:
            return _shape(text, found)
    return None


def _shape(text: str, found: re.Match[str]) -> Shape | None:
    groups = {name: value for name, value in found.groupdict().items() if value is not None}
    month = None
    if (word := groups.pop("mon", None)) is not None:
        month = _month(word)
        if month is None:
            return None
    half, off, mark = groups.pop("ap", "").lower(), groups.pop("off", ""), groups.pop("s", "")
    zone = groups.pop("zone", "")
    at = {name: _run(text, found.start(name)) for name in groups}
    sign = 0
    if ahead := re.search(r"[+\u2212-]", off):
        sign = 1 if ahead[0] == "+" else -1
        at["off"] = _run(text, found.start("off") + ahead.end())
        if ":" in off:
            at["offm"] = at["off"] + 1
    utc = off in ("Z", "UTC", "GMT") or (text.endswith("Z") and "stamp" in at)
    return Shape(
        at=at,
        month=month,
        half=half,
        dotted=mark == "." and "a" in at,
        sign=sign,
        utc=utc,
        zone_min=None if sign or utc else ZONES.get(zone),
    )


def _run(text: str, position: int) -> int:
    """How many runs of digits begin before a position."""
    return len(re.findall(r"[0-9]+", text[:position]))


def _month(word: str) -> int | None:
    low = word.casefold()
    for size in (5, 4, 3):
        if low[:size] in _MONTH:
            return _MONTH[low[:size]]
    return None
