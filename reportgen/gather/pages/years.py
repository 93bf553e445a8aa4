"""Years: houses with several winters, each winter against the one before, raw and at equal weather."""

from __future__ import annotations

import pandas as pd

from reportgen.charts.types import Drawing, Note, Table
from reportgen.counsel.brief import begun, fitted
from reportgen.drawing import crowd, houses
from reportgen.drawing.axis import Axis
from reportgen.gather.pages import measure
from reportgen.gather.pages.drawn import wide_and_tall
from reportgen.gather.pages.houses import frame
from reportgen.gather.pages.opened import unanswered
from reportgen.gather.pages.told import Told
from reportgen.gather.pages.types import GroupPage, Lack
from reportgen.gather.pages.words import cut_name, name_of, unbroken, whole, winter_name
from reportgen.gather.pages.words import houses as so_many
from reportgen.gather.pages.years_pairs import Kind, Pair, order, pairs, sign
from reportgen.gather.types import House
from reportgen.wording import NBSP, are, count, number

MOST_OPEN, MOST_SHOWN = 12, 120  # rows of the table that stand open, and at most on the page


def page(told: Told) -> GroupPage:
    """Equal weather first, then every headline by winter."""
    several = [house for house in told.group.houses if len(house.winters) > 1]
    if not several:
        return unanswered(
            "years",
            "No house has handed in two winters yet",
            "Keep the same id under [house] in every season.toml and hand in each winter's review: then this page "
            "sets each winter against the one before.",
        )
    drawn = [one for kind in order(told) if (one := _drawing(kind, told)) is not None]
    table = _headlines(several, told)
    short = len(table.rows) <= MOST_OPEN
    if not drawn:
        return GroupPage(
            slug="years", headline=_plain_headline(told, several), picture=table, full=frozenset({"years"})
        )
    return GroupPage(
        slug="years",
        headline=headline(told, several),
        picture=drawn[0],
        blocks=(*drawn[1:3], *((table,) if short else ()), *_one_winter(told)),
        rest=(*drawn[3:], *(() if short else (table,))),
        full=frozenset({"years"} | ({drawn[1].uid} if len(drawn) == 2 else set())),
    )


def headline(told: Told, several: list[House]) -> str:
    """How many winters differ from the one before once the weather is taken out, on the first headline that tells."""
    kind = order(told)[0]
    found = pairs(kind, told)
    more, less = sum(sign(p) > 0 for p in found), sum(sign(p) < 0 for p in found)
    if not more and not less:
        return f"At equal weather no winter differs for certain from the one before, in {so_many(len(several))}"
    first, word = (more, kind.more) if more else (less, kind.less)
    who = f"{number(first)} of {count(len(found), 'winter')}" if len(found) > 1 else "the winter"
    begin = f"At equal weather {who} {are(first, *kind.verbs)} {word}"
    where = "" if kind.share else " in the bed" if kind.key == "soil_mean" else " at night"
    return f"{begin}{where} than the one before" + (f", {number(less)} {kind.less}" if more and less else "")


def _one_winter(told: Told) -> tuple[Note, ...]:
    """Houses that have no winter to be set against another."""
    labels = tuple(house.label for house in told.group.houses if len(house.winters) == 1)
    why = "one winter so far; hand in the next with the same id"
    return measure.missing([Lack(houses=labels, why=why)]) if labels else ()


def _plain_headline(told: Told, several: list[House]) -> str:
    n = sum(len(house.winters) for house in several)
    return f"{so_many(len(several))} with {count(n, 'winter')}, none set at equal weather"


def _drawing(kind: Kind, told: Told) -> Drawing | None:
    found = sorted(pairs(kind, told), key=lambda p: (p.equal.estimate or 0.0, p.house.label, p.winter.first_day))
    if not found:
        return None
    label = f"{kind.title}, each winter against the one before"
    description = _described(kind, found, told)
    wide, tall = _svg(kind, found, told, label, description)
    return Drawing(
        uid=f"years_{kind.key}",
        title=_title(kind, found),
        subtitle=f"{kind.sub}. Dot and bar: at equal weather, 95{NBSP}%; ring: as it was, weather and all.",
        label=label,
        description=description,
        wide=wide,
        narrow=tall,
        table=_table(kind, found, told),
        sure="As each house's own review told it. A change of crop or logger place is not weather and stays in it.",
    )


def _title(kind: Kind, found: list[Pair]) -> str:
    """How far winters lie from the one before; where none does for certain, that and no figure."""
    if not any(sign(p) for p in found):
        return f"{kind.title}: no certain difference from the winter before"
    return f"{kind.title}: {_ends(kind, found)} than the winter before"


def _firm(found: list[Pair]) -> str:
    """How many of them are told from nothing."""
    firm = sum(bool(sign(p)) for p in found)
    if len(found) == 1:
        return "That is certain" if firm else "That is not certain"
    return f"{begun(number(firm) if firm else 'none')} of them for certain"


def _ends(kind: Kind, found: list[Pair]) -> str:
    low, high = found[0].equal.estimate or 0.0, found[-1].equal.estimate or 0.0
    if low < 0 < high:
        return f"from {_size(kind, -low)} {kind.less} to {_size(kind, high)} {kind.more}"
    a, b = (low, high) if low >= 0 else (-high, -low)
    word = kind.more if low >= 0 else kind.less
    told = _size(kind, b) if _size(kind, a) == _size(kind, b) else f"{number(a, _places(kind))} to {_size(kind, b)}"
    return f"{told} {word}"


def _places(kind: Kind) -> int:
    return 1 if kind.kelvin else 0


def _size(kind: Kind, value: float) -> str:
    told = number(value, _places(kind))
    if kind.share:
        return f"{told}{NBSP}%"
    word = "degree" if kind.kelvin else "point"
    return f"{told}{NBSP}{word if told == '1' else word + 's'}"


def _signed(kind: Kind, value: float) -> str:
    return f"+{_size(kind, value)}" if value > 0 else _size(kind, value)


def _described(kind: Kind, found: list[Pair], told: Told) -> str:
    ours = [f"{name_of(p.house.label)}, your house: {_said(kind, p)}" for p in found if told.ours(p.house.label)]
    parts = [
        f"{count(len(found), 'winter')} against the one before at equal weather, {_ends(kind, found)}",
        _firm(found),
        *ours,
    ]
    return f"{fitted(parts, 54, '. ')}."


def _said(kind: Kind, p: Pair) -> str:
    return ", ".join(part for part in (_signed(kind, p.equal.estimate or 0.0), _out(p)) if part)


def _out(p: Pair) -> str:
    return "" if p.outdoors is None else f"outdoors {'+' if p.outdoors > 0 else ''}{number(p.outdoors, 1)}°"


def _svg(kind: Kind, found: list[Pair], told: Told, label: str, description: str) -> tuple[str, str]:
    axis = _axis(kind, found)
    uid = f"years_{kind.key}"
    if len(found) > houses.MOST:
        values = tuple(p.equal.estimate or 0.0 for p in found)
        ours = next((n for n, p in enumerate(found) if told.ours(p.house.label)), None)
        view = crowd.Crowd(uid=uid, label=label, description=description, axis=axis, token=kind.token,
                           kinds=(crowd.Kind(name="", values=values, ours=ours),), heavy_word="as before")  # fmt: skip
        return wide_and_tall(view)
    rows = tuple(
        houses.Row(
            name=f"{cut_name(p.house.label, 120)}, {winter_name(p.winter)}",
            value=p.equal.estimate,
            low=p.equal.low,
            high=p.equal.high,
            beside=p.raw,
            said=_signed(kind, p.equal.estimate or 0.0),
            more=_out(p),
            ours=told.ours(p.house.label),
        )
        for p in found
    )
    forms = houses.Houses(
        uid=uid, label=label, description=description, axis=axis, rows=rows, token=kind.token,
        value_word="at equal weather", beside_word="as it was", heavy_word="as the winter before",
        left_word=f"← {kind.less}", right_word=f"{kind.more} →",
    )  # fmt: skip
    return wide_and_tall(forms)


def _axis(kind: Kind, found: list[Pair]) -> Axis:
    ends = [v for p in found for v in (p.equal.estimate, p.equal.low, p.equal.high, p.raw) if v is not None] + [0.0]
    return measure.scaled(ends, f"{NBSP}%" if kind.share else "°" if kind.kelvin else "", 0.0, 4)


def _table(kind: Kind, found: list[Pair], told: Told) -> pd.DataFrame:
    unit = "%" if kind.share else told.w.diff_unit if kind.kelvin else "points"

    def r(value: float | None) -> float | None:
        return None if value is None else round(value, 2)

    return pd.DataFrame(
        [
            [whole(p.house.label), winter_name(p.winter), r(p.raw), r(p.equal.estimate), r(p.equal.low),
             r(p.equal.high), r(p.outdoors)]
            for p in found
        ],
        columns=["house", "winter", f"as it was, {unit}", f"at equal weather, {unit}", f"low, {unit}", f"high, {unit}",
                 f"nights outdoors, {told.w.diff_unit}"],
    )  # fmt: skip


def _headlines(several: list[House], told: Told) -> Table:
    """Each headline by winter, the marked house first."""
    w = told.w
    order = sorted(several, key=lambda h: not told.ours(h.label))
    rows = []
    for house in order:
        for winter in house.winters:
            h = winter.headlines
            cells = (
                None if h.mean_night_outdoor_c is None else w.temp(h.mean_night_outdoor_c),
                None if h.minimum_c is None else w.temp(h.minimum_c),
                None if h.nights_below_line.estimate is None else count(h.nights_below_line.estimate, "night"),
                None if h.heat_kwh is None else w.kwh(h.heat_kwh),
                None if h.hours_above_high.estimate is None else w.hours(h.hours_above_high.estimate),
                None if h.harvest_kg is None else w.mass(h.harvest_kg),
            )
            mark = "◆ your house: " if told.ours(house.label) else ""
            rows.append(
                (f"{mark}{whole(house.label)}", unbroken(winter_name(winter)), *(cell or "–" for cell in cells))
            )
    columns = ("house", "winter", "outdoors, mean night", "coldest inside", "under the frost line", "heat",
               "above the high humidity line", "picked")  # fmt: skip
    data = frame(told)
    cut = (
        (f"The first {MOST_SHOWN} of {number(len(rows))} winters; all are in the file.",)
        if len(rows) > MOST_SHOWN
        else ()
    )
    return Table(
        uid="years",
        title="Each headline by winter, as it was",
        subtitle="With the weather of each winter in it; – is not known.",
        columns=columns,
        rows=tuple(rows[:MOST_SHOWN]),
        data=data,
        notes=cut,
    )
