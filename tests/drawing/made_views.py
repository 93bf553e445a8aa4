"""Views made up for the pen, from plain to very odd; no season stands behind them."""

from __future__ import annotations

import math
from datetime import date, timedelta

from reportgen.drawing.axis import Axis, Division, Tick, outward
from reportgen.drawing.dots import Dots, Kind
from reportgen.drawing.doubt import by_t, one_band
from reportgen.drawing.effects import Effects, Group, Row
from reportgen.drawing.failure import Cold, Failure, Harm
from reportgen.drawing.frost import Crop, Frost
from reportgen.drawing.ink import Mark
from reportgen.drawing.kilogram import Bar as MoneyBar
from reportgen.drawing.kilogram import Kilogram, Piece
from reportgen.drawing.notes import Note
from reportgen.drawing.pair import Pair
from reportgen.drawing.season_types import Bar, Damp, Line, Nights, Season, Source, Stacked, named
from reportgen.drawing.weeks import Week, Weeks
from reportgen.drawing.worst_night import Track, WorstNight

LONG = "The third of the old oak cold frames behind the potting shed, next to the pear wall"  # 83 characters
RIGHT_TO_LEFT = "מד חום ליד הדלת הצפונית של החממה"
MARKS: tuple[tuple[Mark, str], ...] = (
    ("helped", "helped"),
    ("opposite", "the opposite"),
    ("open", "cannot tell"),
    ("none", "no logger can judge it"),
)


def words(value: float) -> str:
    """−5°."""
    return f"{'−' if value < 0 else ''}{abs(value):.0f}°"


def axis(values: list[float | None], us: bool = False) -> Axis:
    """Degrees outward, the frost line heavy."""
    return outward(values, 10.0 if us else 5.0, words, 32.0 if us else 0.0)


def months(days: int, first: date = date(2025, 10, 11)) -> tuple[Division, ...]:
    """Months of a season of so many days."""
    out, start = [], first
    last = first + timedelta(days=days)
    while start < last:
        after = (start.replace(day=1) + timedelta(days=32)).replace(day=1)
        end = min(after, last)
        name = f"{start:%B}"
        out.append(Division(first=(start - first).days, last=(end - first).days, name=name, brief=name[:3]))
        start = after
    return tuple(out)


def nights(days: int, low: float, high: float, us: bool = False, outdoors: bool = True, holes: bool = False) -> Nights:
    """Waves between both ends, with a sharp dip."""
    middle, half = (low + high) / 2, (high - low) / 2
    out = [middle + half * math.sin(n / 5.0) for n in range(days)]
    inside: list[float | None] = [max(v, middle * 0.6 + low * 0.4) + half * 0.1 for v in out]
    inside[days // 2] = low + 0.35 * (high - low) * 0.5
    if holes:
        inside = [None if n % 11 == 3 else v for n, v in enumerate(inside)]
    scale = axis([*inside, *(out if outdoors else [])], us)
    line = 32.0 if us else 0.0
    worst = min((v, n) for n, v in enumerate(inside) if v is not None)
    cold = min((v, n) for n, v in enumerate(out))
    notes = [Note(day=worst[1], value=worst[0], words=f"14 January: heater stood still, {words(worst[0])} by the door")]
    if outdoors:
        notes.append(Note(day=cold[1], value=cold[0], words=f"{words(cold[0])} outdoors", token="neutral"))
    return Nights(
        inside=tuple(inside),
        outdoors=tuple(out) if outdoors else (),
        axis=scale,
        notes=tuple(notes),
        rings=tuple((n, v) for n, v in enumerate(inside) if v is not None and v < line),
        explained=("coldest of each night, °C", "shaded: what sun, bed and heat added"),
        title=("Coldest of", "each night"),
    )


def lines(days: int, many: int, text: str = "Bubble film inside the roof", crowd: bool = False) -> list[Line]:
    """So many lines of the diary, spread or all within one month."""
    span = min(days, 28) if crowd else days
    at = [round((n + 0.5) * span / max(many, 1)) for n in range(many)]
    return [
        Line(
            day=min(d, days - 1),
            when=f"{d % 28 + 1}\u00a0Jan",
            words=text,
            mark=MARKS[n % 4][0],
            verdict=MARKS[n % 4][1],
        )
        for n, d in enumerate(at)
    ]


def stacked(days: int, names: tuple[str, ...], step: int = 7) -> Stacked:
    """Bars over the season."""
    tokens = ("warm", "warm", "sun", "soil")
    sources = tuple(Source(name=n, token=tokens[k], hatched=k == 1) for k, n in enumerate(names))  # type: ignore[arg-type]
    bars = tuple(
        Bar(first=a, last=min(a + step, days), parts=tuple(abs(math.sin(a / 9 + k)) * 40 for k in range(len(names))))
        for a in range(0, days, step)
    )
    return Stacked(sources=sources, bars=bars, words=("Heat", "903 kWh", "EUR 276, by week"), brief="Heat")


def season(
    days: int = 184,
    *,
    low: float = -15.0,
    high: float = 16.0,
    us: bool = False,
    many: int = 9,
    text: str = "Bubble film inside the roof",
    crowd: bool = False,
    with_nights: bool = True,
    outdoors: bool = True,
    heat: tuple[str, ...] = ("fan heater", "gas heater", "warming mat"),
    picked: bool = True,
    damp: bool = True,
    dark: bool = True,
    holes: bool = False,
    first: date = date(2025, 10, 11),
) -> Season:
    """A season picture's view."""
    kept, rest = named(lines(days, many, text, crowd))
    step = 7 if days >= 42 else 1
    return Season(
        uid="made",
        label="The whole winter",
        description="A made-up winter.",
        days=days,
        divisions=months(days, first),
        nights=nights(days, low, high, us, outdoors, holes) if with_nights else None,
        lines=kept,
        ticks=rest,
        more=f"and {len(rest)} more, marked by ticks" if rest else "",
        damp=Damp(
            classes=tuple(n // 6 % 5 if n // 6 % 5 < 4 else None for n in range(days)),
            words=("Damp", "79 % of hours over 80 %"),
        )
        if damp
        else None,
        heat=stacked(days, heat, step) if heat else None,
        picked=stacked(days, ("picked",), step) if picked else None,
        dark=((days // 4, days // 2),) if dark else (),
        dark_words="under ten hours of daylight: 104 days",
        dark_brief="Grey: under ten hours of daylight: 104 days",
    )


def row(n: int, estimate: float | None, text: str = "Bubble film inside the roof and the sides") -> Row:
    """A row of effects."""
    return Row(
        mark=MARKS[n % 3][0],
        words=text,
        when="22\u00a0Jan",
        doubt=None if estimate is None else by_t(estimate, 0.4 + abs(estimate) / 6, 12),
        said="27 to 43 % less heat for each degree",
        brief="27–43 % less heat",
        verdict=MARKS[n % 3][1],
        refused="weather before and after too unlike",
    )


def effects(estimates: tuple[float | None, ...] = (3.5, 1.9, -1.2, None), text: str = "Bubble film") -> Effects:
    """Effects in three groups."""
    rows = [row(n, e, text) for n, e in enumerate(estimates)]
    titles: tuple[tuple[str, Mark], ...] = (
        ("Helped", "helped"),
        ("Did the opposite", "opposite"),
        ("Cannot tell", "open"),
    )
    groups = tuple(Group(title=t, mark=m, rows=tuple(r for r in rows if r.mark == m)) for t, m in titles)
    return Effects(
        uid="made-e", label="Effects", description="Made up.", groups=groups, folded="9 more could not be compared."
    )


def kilogram(
    parts: tuple[float, ...] = (6.06, 2.42, 2.59), shop: float | None = 9.16, name: str = "From our glasshouse"
) -> Kilogram:
    """One bar or two."""
    texts = (("heat in the dark weeks", "heat, dark weeks"), ("other heat", "other heat"), ("all else", "all else"))
    looks = (("warm", 1.0), ("warm", 0.55), ("money", 0.5))
    pieces = tuple(
        Piece(words=a, brief=b, amount=p, said=f"{p:.2f}", token=t, shade=s)  # type: ignore[arg-type]
        for (a, b), p, (t, s) in zip(texts, parts, looks, strict=False)
    )
    bars = [
        MoneyBar(name=name, pieces=pieces, said=f"EUR {sum(parts):.2f}", sum_of=2, sum_words="heat alone: EUR 8.48")
    ]
    if shop is not None:
        piece = Piece(words="", brief="", amount=shop, said="", token="neutral", shade=0.3)
        bars.append(MoneyBar(name="The same from the shop", pieces=(piece,), said=f"EUR {shop:.2f}"))
    return Kilogram(uid="made-k", label="A kilogram", description="Made up.", bars=tuple(bars))


def frost(days: int = 184, crops: int = 4, text: str = "lamb’s lettuce", **more: object) -> Frost:
    """Nights and crops."""
    view = nights(days, **({"low": -15.0, "high": 16.0} | more))  # type: ignore[arg-type]
    rows = tuple(
        Crop(
            name=text,
            met=-5.0,
            low=-4.0 - 4 * n,
            high=-2.0 - 3 * n,
            said=(f"{abs(3 - 3 * n)}.2°", "too cold" if n == 0 else "to spare"),
            harmed=n == 0,
        )
        for n in range(crops)
    )
    ends = [v for c in rows for v in (c.low, c.high, c.met)]
    us = bool(more.get("us"))
    whole = axis([*view.inside, *view.outdoors, *ends], us)
    changed = Nights(inside=view.inside, outdoors=view.outdoors, axis=whole, notes=view.notes, rings=view.rings)
    return Frost(
        uid="made-f",
        label="Nights",
        description="Made up.",
        days=days,
        divisions=months(days),
        nights=changed,
        crops=rows,
        more="No known line of damage: rocket, parsley, a very long name of a crop.",
    )


def worst(loggers: int = 2, heat: bool = True, text: str = "bench") -> WorstNight:
    """A night with so many loggers."""
    tokens = ("cold", "target", "humid", "soil", "sun")
    tracks = tuple(
        Track(
            name=f"{text} {n}",
            token=tokens[min(n, 4)],  # type: ignore[arg-type]
            points=tuple((h / 4, -5 + n * 0.4 + abs(h) / 5) for h in range(-32, 33)),
        )
        for n in range(loggers)
    )
    hours = tuple(Tick(float(h), "midnight" if h == -6 else f"{(h + 6) % 24}\u00a0h") for h in range(-6, 9, 3))
    values = [p[1] for t in tracks for p in t.points if p is not None]
    return WorstNight(
        uid="made-w",
        label="The worst night",
        description="Made up.",
        first=-8,
        last=8,
        hours=hours,
        axis=axis(list(values)),
        tracks=tracks,
        notes=(Note(day=0.0, value=-5.0, words="−5.2° at 06:24"), Note(day=-7.0, value=0.0, words="below 0° by 23:24")),
        heat=tuple((float(h), h + 1.0, 100.0 * abs(h)) for h in range(-9, 8)) if heat else (),
        still=(-7.0, 0.0) if heat else None,
        still_word="no heat" if heat else "",
    )


def dots(counts: tuple[int, ...] = (3, 4, 3, 91, 19, 63)) -> Dots:
    """Nights by class."""
    names = ("below 0°", "0 to 1°", "1 to 2°", "2 to 3°", "3 to 5°", "over 5°")
    kinds = tuple(
        Kind(
            words=w,
            nights=n,
            said=str(n),
            token="cold",
            shade=1 - k * 0.1,
            note="2 to 4 by the sensor" if k == 0 else "",
            strong=k == 0,
        )
        for k, (w, n) in enumerate(zip(names, counts, strict=True))
    )
    return Dots(uid="made-d", label="Nights", description="Made up.", kinds=kinds, each_words="one dot is 2 nights")


def failure(
    colds: tuple[float, ...] = (2.5, -1.0, -4.7, -8.4, -11.3), harms: int = 3, text: str = "lettuce"
) -> Failure:
    """Rows of what a failure would do."""
    rows = tuple(
        Cold(words=f"−{5 * n} °C", doubt=one_band(c, c - 2.3, c + 2.3), said=words(c)) for n, c in enumerate(colds)
    )
    bands = tuple(Harm(low=-4.0 - 5 * n, high=-2.0 - 5 * n, words=f"{text} harmed") for n in range(harms))
    ends: list[float | None] = [v for r in rows for v in (r.doubt.low, r.doubt.high)]
    return Failure(
        uid="made-x", label="A failure", description="Made up.", rows=rows, axis=axis([*ends, 0.0]), harms=bands
    )


def pair(up: float = 1.0) -> Pair:
    """Thirty nights on either side."""
    before = tuple((n / 3.0 - 6, 2.0 - n / 10 + 0.3 * math.sin(n)) for n in range(30))
    after = tuple((n / 3.0 - 4, 2.0 - n / 10 + up + 0.3 * math.cos(n)) for n in range(30))
    ys = [p[1] for p in (*before, *after)]
    return Pair(
        uid="made-p",
        label="A pair",
        description="Made up.",
        without=before,
        with_=after,
        slope=-0.3,
        level=0.2,
        effect=up,
        mark="helped" if up > 0 else "opposite",
        x=outward([-6.0, 6.0], 5.0, words),
        y=outward(list(ys), 1.0, lambda v: f"{v:.0f}"),
        x_words="outdoors that night, °C",
        y_words="degrees warmer than outdoors",
        names=("before", "after"),
    )


def weeks(days: int = 184, known: bool = True, dear: float = 1.0) -> Weeks:
    """Heat money against worth by the week."""
    rows = tuple(
        Week(
            first=a,
            last=min(a + 7, days),
            heat=dear * abs(math.sin(a / 20)) * 40,
            needed=abs(math.cos(a)) if known else None,
            value=abs(math.cos(a / 30)) * 90,
            said=f"{a / 20:.1f}",
        )
        for a in range(0, days, 7)
    )
    top = max(max(w.heat or 0, w.value or 0) for w in rows)
    step = 10 ** math.floor(math.log10(top)) if top else 1
    ticks = tuple(Tick(n * step, f"{n * step:.0f}") for n in range(int(top / step) + 2))
    return Weeks(
        uid="made-v",
        label="Weeks",
        description="Made up.",
        days=days,
        divisions=months(days),
        weeks=rows,
        ticks=ticks,
        heat_words=("Heat, EUR a week",),
        needed_word="kept crops that needed it",
        idle_word="kept none that needed it",
        value_words=("Picked, worth EUR", "that week and four more; in kg"),
        dark=((20, 80),),
    )
