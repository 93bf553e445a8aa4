"""Record: what was read, what was left out and why, and which days each review tells of."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.timeline import brief_day
from reportgen.charts.types import Drawing, Note, Table
from reportgen.drawing import crowd, houses
from reportgen.drawing.axis import Axis, Tick, outward
from reportgen.gather.pages.drawn import wide_and_tall
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage
from reportgen.gather.pages.words import NONE_FOUND, cut_name, kind_of, whole, winter_name
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.types import House, Winter
from reportgen.wording import MONTHS, NBSP, are, count, number

MOST_SHOWN = 100


def page(told: Told) -> GroupPage:
    """The days of every review, what was left out, and what the group file may say."""
    left = told.group.left_out
    blocks: list[Drawing | Table | Note] = []
    if left:
        blocks.append(_left_out(told))
    blocks += _alike(told)
    return GroupPage(
        slug="record",
        headline=headline(told),
        lead="Only the figures that a shared review gives away were taken from each file.",
        picture=_picture(told),
        blocks=tuple(blocks),
        rest=(_read(told),),
        full=frozenset({"record_left_out", "record_alike"}),
    )


def headline(told: Told) -> str:
    """11 reviews of 8 houses were read; 2 files were left out."""
    left = len(told.group.left_out)
    read = (
        f"{count(told.winters, 'review')} of {so_many(len(told.group.houses))} {are(told.winters, 'was', 'were')} read"
    )
    return f"{read}; {count(left, 'file')} {are(left, 'was', 'were')} left out" if left else f"{read}, none left out"


def _winters(told: Told) -> list[tuple[House, Winter]]:
    return [(house, winter) for house in told.group.houses for winter in house.winters]


def _picture(told: Told) -> Drawing:
    every = _winters(told)
    label = "Days that each review tells of"
    days = [(w.last_day - w.first_day).days + 1 for _, w in every]
    ends = f"{number(min(days))} to {number(max(days))}" if min(days) != max(days) else number(days[0])
    title = f"The reviews tell of {ends} days each"
    description = f"{count(len(every), 'review')} of {so_many(len(told.group.houses))}, {ends} days each."
    wide, tall = _svg(told, every, days, label, description)
    crowded = len(every) > houses.MOST
    return Drawing(
        uid="record",
        title=title,
        subtitle="Days of each review, a dot a review."
        if crowded
        else "From the first to the last day of each review.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=_table(told),
        sure=_so_far(every),
    )


def _so_far(every: list[tuple[House, Winter]]) -> str:
    n = sum(winter.so_far is not None for _, winter in every)
    return f"{count(n, 'review')} {are(n)} of a winter that still runs." if n else ""


def _svg(
    told: Told, every: list[tuple[House, Winter]], days: list[int], label: str, description: str
) -> tuple[str, str]:
    if len(every) > houses.MOST:
        axis = outward([0, *days], 30 if max(days) <= 400 else 120, number)
        ours = next((n for n, (house, _) in enumerate(every) if told.ours(house.label)), None)
        kind = crowd.Kind(name="", values=tuple(float(d) for d in days), ours=ours)
        view = crowd.Crowd(
            uid="record", label=label, description=description, axis=axis, kinds=(kind,), token="neutral"
        )
        return wide_and_tall(view)
    rows = tuple(_row(house, winter, told) for house, winter in every)
    forms = houses.Houses(uid="record", label=label, description=description, axis=_axis(rows, every), rows=rows,
                          token="cold")  # fmt: skip
    return wide_and_tall(forms)


def _row(house: House, winter: Winter, told: Told) -> houses.Row:
    first = _in_year(winter)
    last = first + (winter.last_day - winter.first_day).days + 1
    years = f"{NBSP}{winter.last_day.year}"
    so_far = ", so far" if winter.so_far else ""
    return houses.Row(
        name=cut_name(house.label),
        value=None,
        low=float(first),
        high=float(last),
        said=f"{brief_day(winter.first_day)} to {brief_day(winter.last_day)}{years}{so_far}",
        ours=told.ours(house.label),
    )


def _in_year(winter: Winter) -> int:
    """Days from the first of its month of July or January, so that winters of one kind stand below one another."""
    first = winter.first_day
    start = first.replace(month=7 if first.month >= 7 else 1, day=1)
    return (first - start).days + (0 if first.month >= 7 else 184)


def _axis(rows: tuple[houses.Row, ...], every: list[tuple[House, Winter]]) -> Axis:
    low = min(row.low or 0.0 for row in rows)
    high = max(row.high or 0.0 for row in rows)
    starts = [0, 31, 62, 92, 123, 153, 184, 215, 243, 274, 304, 335]
    ticks = [
        Tick(float(at + 365 * year), MONTHS[(6 + n) % 12][:3])
        for year in range(int(high // 365) + 2)
        for n, at in enumerate(starts)
    ]
    kept = tuple(tick for tick in ticks if low - 31 <= tick.at <= high + 31)[:26]
    return Axis(low=min(low, kept[0].at if kept else low), high=max(high, kept[-1].at if kept else high), ticks=kept)


def _left_out(told: Told) -> Table:
    left = told.group.left_out
    data = pd.DataFrame(
        [[whole(one.source), whole(one.reason)] for one in left], columns=["file", "why it was left out"]
    )
    rows = tuple((whole(one.source), whole(one.reason)) for one in left[:MOST_SHOWN])
    cut = (
        (f"The first {number(len(rows))} of {number(len(left))}; all are in the file.",)
        if len(left) > len(rows)
        else ()
    )
    return Table(
        uid="record_left_out",
        title=f"{count(len(left), 'file')} {are(len(left), 'was', 'were')} left out, and why",
        subtitle="Nothing of these is in any figure.",
        columns=("file", "why it was left out"),
        rows=rows,
        data=data,
        notes=cut,
    )


def _alike(told: Told) -> list[Table]:
    """Diary lines that may be one thing, for the group's organiser."""
    found = [_lines_of(text) for text in told.group.alike]
    if not found:
        return []
    rows = tuple((name, lines) for name, lines in found[:MOST_SHOWN])
    return [
        Table(
            uid="record_alike",
            title="Diary lines that look alike",
            subtitle="May they count as one thing? If so, paste them from data/alike.toml into group.toml.",
            columns=("a word that they share", "lines"),
            rows=rows,
            data=pd.DataFrame(found, columns=["a word that they share", "lines"]),
        )
    ]


def _lines_of(text: str) -> tuple[str, str]:
    """The name and the diary lines of a [[thing]] ready to be pasted: its comments are the lines."""
    rows = text.splitlines()
    told = [whole(row.removeprefix("#")) for row in rows if row.startswith("#")]
    name = next((row.partition("=")[2].strip().strip('"') for row in rows if row.startswith("name")), "")
    return whole(name), "; ".join(told) or whole(text)


def _read(told: Told) -> Table:
    every = _winters(told)
    rows = tuple(
        (whole(w.source), whole(h.label), winter_name(w), kind_of(w), _reasons(w)) for h, w in every[:MOST_SHOWN]
    )
    cut = (
        (f"The first {number(len(rows))} of {number(len(every))}; all are in the file.",)
        if len(every) > len(rows)
        else ()
    )
    return Table(
        uid="record_read",
        title="Every review that was read, and what it did not know",
        subtitle="In each review's own words.",
        columns=("file", "house", "winter", "kind", "not known, and why"),
        rows=rows,
        data=_table(told),
        notes=cut,
    )


def _reasons(winter: Winter) -> str:
    told = _unknown(winter)
    return f"{told[:199]}…" if len(told) > 200 else told or "–"


def _unknown(winter: Winter) -> str:
    """Why figures are not known, each reason once; that no heater failed is known."""
    told = dict.fromkeys(words for _, words in winter.headlines.reasons if words != NONE_FOUND)
    return "; ".join(whole(words) for words in told)


def _table(told: Told) -> pd.DataFrame:
    return pd.DataFrame(
        [
            [whole(w.source), whole(h.label), winter_name(w), w.first_day, w.last_day, kind_of(w), len(w.lines),
             _unknown(w)]
            for h, w in _winters(told)
        ],
        columns=["file", "house", "winter", "first day", "last day", "kind", "diary lines", "not known, and why"],
    )  # fmt: skip
