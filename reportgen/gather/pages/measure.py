"""One measure of every house as a picture: a row a house, or a crowd of dots where there are many."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta

import pandas as pd

from reportgen.charts.types import Drawing, Note
from reportgen.counsel.brief import begun, fitted
from reportgen.drawing import crowd, houses
from reportgen.drawing.axis import Axis, nice_step, outward
from reportgen.drawing.ink import Token
from reportgen.gather.bands import usual_half_width
from reportgen.gather.pages.drawn import wide_and_tall
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import Lack
from reportgen.gather.pages.words import cut_name, name_of, named, whole, winter_name
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.types import Band, House, Winter
from reportgen.wording import number

Value = Callable[[Winter], float | None]
MOST_WORDS = 58
DIFFER = "Houses differ in much besides: no difference between them is an effect of anything."
BARS = "bar: as far as the sensors may be wrong"
SAME_DAYS = timedelta(days=21)  # between first days, and between last days, of winters set side by side; our choice
BAND_WORD = "a usual sensors' band"


@dataclass(frozen=True, kw_only=True, slots=True)
class Point:
    """One house's value, in the unit shown."""

    house: House
    value: float
    said: str
    more: str = ""  # in the wide picture
    low: float | None = None
    high: float | None = None
    beside: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Look:
    """How a measure is drawn."""

    token: Token
    unit: str = ""  # behind each tick
    value_word: str = ""
    beside_word: str = ""
    heavy: float | None = None
    heavy_word: str = ""
    band_word: str = ""
    joined: bool = False
    whole: bool = False  # it is counted: no tick between two numbers
    least: float | None = None  # the axis begins there at the latest
    most: float | None = None  # … and ends there at the earliest


def ordered(points: Iterable[Point]) -> list[Point]:
    """By value, then by name: a line, no ranking of anything but what was read."""
    return sorted(points, key=lambda p: (p.value, p.house.label))


def axis_of(points: Sequence[Point], look: Look) -> Axis:
    """Wide enough for every value and band."""
    ends = [v for p in points for v in (p.value, p.low, p.high, p.beside) if v is not None]
    ends += [v for v in (look.heavy, look.least, look.most) if v is not None]
    return scaled(ends, look.unit, look.heavy, whole=look.whole)


def scaled(ends: Sequence[float], unit: str, heavy: float | None, about: int = 5, *, whole: bool = False) -> Axis:
    """An axis from the values outward, its ticks with as many decimals as their step has."""
    step = max(nice_step(max(ends) - min(ends) if ends else 1.0, about), 1.0 if whole else 0.0)
    digits = next((n for n in (0, 1, 2) if abs(step * 10**n - round(step * 10**n)) < 1e-9), 3)
    return outward(ends, step, lambda v: f"{number(v, digits)}{unit}", heavy)


def pictures(
    uid: str, points: Sequence[Point], look: Look, told: Told, label: str, description: str
) -> tuple[str, str]:
    """Wide and tall, of one measure."""
    if len(points) > houses.MOST:
        return crowded(uid, {"": points}, look, told, label, description)
    rows = tuple(
        houses.Row(
            name=cut_name(p.house.label),
            value=p.value,
            said=p.said,
            more=p.more,
            low=p.low,
            high=p.high,
            beside=p.beside,
            ours=told.ours(p.house.label),
        )
        for p in ordered(points)
    )
    view = houses.Houses(
        uid=uid,
        label=label,
        description=description,
        axis=axis_of(points, look),
        rows=rows,
        token=look.token,
        value_word=look.value_word,
        beside_word=look.beside_word,
        heavy_word=look.heavy_word,
        joined=look.joined,
    )
    return wide_and_tall(view)


def crowded(
    uid: str, kinds: dict[str, Sequence[Point]], look: Look, told: Told, label: str, description: str
) -> tuple[str, str]:
    """Wide and tall, of dots a row a kind."""
    every = [p for points in kinds.values() for p in points]
    rows = []
    for name, points in kinds.items():
        held = ordered(points)
        ours = next((n for n, p in enumerate(held) if told.ours(p.house.label)), None)
        said = so_many(len(held)) if name else ""
        rows.append(crowd.Kind(name=name, values=tuple(p.value for p in held), said=said, ours=ours))
    view = crowd.Crowd(
        uid=uid,
        label=label,
        description=description,
        axis=axis_of(every, look),
        kinds=tuple(rows),
        token=look.token,
        heavy_word=look.heavy_word,
        band=usual_half_width((p.low, p.high) for p in every if p.low is not None and p.high is not None),
        band_word=look.band_word,
    )
    return wide_and_tall(view)


def drawing(
    uid: str,
    title: str,
    subtitle: str,
    points: Sequence[Point],
    look: Look,
    told: Told,
    table: pd.DataFrame,
    *,
    said: Sequence[str] = (),
    sure: str = "",
    bars: str = "",
) -> Drawing:
    """The picture of one measure with its words and its whole table; `bars`: what bars and rings are in rows."""
    label = f"{begun(title)}: a row a house" if len(points) <= houses.MOST else f"{begun(title)}: a dot a house"
    description = described(points, told, said)
    wide, tall = pictures(uid, points, look, told, label, description)
    return Drawing(
        uid=uid,
        title=title,
        subtitle=f"{subtitle}; {'a dot a house' if len(points) > houses.MOST else bars or 'a row a house'}.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=table,
        sure=sure,
    )


def described(points: Sequence[Point], told: Told, said: Sequence[str]) -> str:
    """The conclusion, both ends and the marked house, in at most 60 words."""
    held = ordered(points)
    first, last = held[0].said, held[-1].said
    span = f"{first} in each" if first == last else f"from {first} to {last}"
    ends = [f"{so_many(len(held))}, {span}"] if len(held) > 1 else [first]
    ours = [f"{name_of(p.house.label)}, your house: {p.said}" for p in held if told.ours(p.house.label)]
    return f"{fitted([*said, *ends, *ours], MOST_WORDS - 6, '. ')}."


def band(found: Band, scale: float = 1.0) -> tuple[float | None, float | None]:
    """A band's ends times `scale`; both or none."""
    if found.low is None or found.high is None:
        return None, None
    return found.low * scale, found.high * scale


def frame(told: Told, columns: dict[str, Callable[[House, Winter], object]]) -> pd.DataFrame:
    """Every winter of every house with those columns: the whole data behind a page."""
    rows = [(house, winter) for house in told.group.houses for winter in house.winters]
    data: dict[str, list[object]] = {
        "house": [whole(house.label) for house, _ in rows],
        "winter": [winter_name(winter) for _, winter in rows],
    }
    for name, value in columns.items():
        data[name] = [value(house, winter) for house, winter in rows]
    return pd.DataFrame(data)


def only(table: pd.DataFrame, *begins: str) -> pd.DataFrame:
    """The columns that name a house and its winter, and those that begin so: what one picture is made of."""
    kept = [name for name in table.columns if str(name) in ("house", "winter") or str(name).startswith(begins)]
    return table[kept]


def differ(points: Sequence[Point]) -> str:
    """What may not be read out of a line of several houses."""
    return f"{DIFFER} {other_days(points)}" if len(points) > 1 else ""


def other_days(points: Sequence[Point]) -> str:
    """That the newest winters of these houses are not of one stretch of days, where they are not."""
    spans = [(w.first_day, w.so_far or w.last_day) for w in (p.house.newest for p in points)]
    if not spans or all(max(days) - min(days) <= SAME_DAYS for days in zip(*spans, strict=True)):
        return ""
    return "Not all tell of the same days: the page Record has them. "


def barless(points: Sequence[Point]) -> str:
    """Why some have no bar: the accuracy was not given, or what the sensors may be wrong by would alter nothing."""
    why = [
        *(["the logger's accuracy was not given"] if any(p.low is None or p.high is None for p in points) else []),
        *(["its sensor's inaccuracy would alter nothing"] if any(_flat(p) for p in points) else []),
    ]
    return f"Where a house has no bar, {' or '.join(why)}." if why else ""


def _flat(point: Point) -> bool:
    return point.low is not None and point.low == point.high


def lacks(told: Told, reasons: Sequence[tuple[str, Callable[[Winter], bool]]]) -> tuple[Lack, ...]:
    """Each reason with the houses whose newest winter it holds for; the first that holds counts."""
    found: dict[str, list[str]] = {}
    for house in told.group.houses:
        why = next((words for words, holds in reasons if holds(house.newest)), None)
        if why is not None:
            found.setdefault(why, []).append(house.label)
    return tuple(Lack(houses=tuple(labels), why=why) for why, labels in found.items())


def missing(lacking: Sequence[Lack]) -> tuple[Note, ...]:
    """Who is not in the picture and what to log, as one note."""
    if not lacking:
        return ()
    words = " ".join(f"{begun(named(lack.houses))}: {_agreeing(lack)}." for lack in lacking)
    return (Note(text=words, kind="missing", title="Who is not shown, and what to log"),)


def _agreeing(lack: Lack) -> str:
    """The reason with its verb for one house or several."""
    if len(lack.houses) == 1:
        return lack.why
    many = re.sub(r"^keeps its (\w+) to itself", r"keep their \1 to themselves", lack.why)
    return f"count{many.removeprefix('counts')}" if many.startswith("counts ") else many


def spread_words(values: Sequence[float], digits: int) -> str:
    """31 to 78; 31 where all are alike."""
    low, high = number(min(values), digits), number(max(values), digits)
    return low if low == high else f"{low} to {high}"
