"""Groups made by hand for the pages: an invented allotment, seeded, of any size, and odd ones."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date, timedelta

from reportgen.gather.types import (
    BY_WARMTH,
    Band,
    EqualWeather,
    Group,
    Headlines,
    House,
    LeftOut,
    Line,
    Member,
    Outcome,
    Refusal,
    Stratum,
    Thing,
    Winter,
)

KINDS = ("glasshouse", "polytunnel", "lean-to")
HOSTILE = "<script>alert(1)</script>\"'&=cmd|\u202eevil"
ARABIC = "البيت الزجاجي الشرقي عند البئر القديمة بجانب السور"
LONG = "the very long name of a house that somebody wrote without ever stopping for breath or for a comma" * 3


def band(value: float | None, half: float) -> Band:
    """An estimate with a band as wide on either side."""
    if value is None:
        return Band()
    return Band(estimate=value, low=max(value - half, 0.0), high=value + half)


def headlines(r: random.Random, heated: bool, **other: object) -> Headlines:
    """Plausible figures of one winter."""
    outdoors = round(r.uniform(-14, -4), 1)
    inside = round(outdoors + r.uniform(5, 12) if heated else outdoors + r.uniform(0.5, 3), 1)
    hours = 4300.0
    kwh = round(r.uniform(300, 1500), 1) if heated else None
    kg = round(r.uniform(8, 60), 1)
    below = float(r.randint(1, 40)) if inside < 0 else 0.0
    values: dict[str, object] = {
        "minimum_c": inside,
        "margin_k": inside,
        "outdoor_coldest_c": outdoors,
        "mean_night_outdoor_c": round(r.uniform(-1, 5), 2),
        "nights_below_line": band(below, min(3.0, below)),
        "line_c": 0.0,
        "failures": 0,
        "heat_kwh": kwh,
        "heat_cost": None if kwh is None else round(kwh * 0.31, 2),
        "loss_w_per_k": band(round(r.uniform(80, 220), 1), 25.0) if heated else Band(),
        "kelvin_hours_below_hold": round(r.uniform(4000, 9000), 1) if heated else None,
        "damp_hours_recorded": hours,
        "hours_above_high": band(round(hours * r.uniform(0.2, 0.85), 1), 380.0),
        "hours_above_extreme": band(round(hours * r.uniform(0.02, 0.2), 1), 190.0),
        "high_pct": 80.0,
        "extreme_pct": 90.0,
        "soil_mean_c": round(r.uniform(5, 11), 2),
        "harvest_kg": kg,
        "kg_per_m2": round(kg / 18, 3),
        "balance_total": None if kwh is None else round(kwh * 0.31 + 60, 2),
        "balance_per_kg": None if kwh is None else round((kwh * 0.31 + 60) / kg, 3),
        "weeks_at_half_or_more": r.randint(0, 14),
        "reasons": (),
    }
    return Headlines(**{**values, **other})  # type: ignore[arg-type]


def equal_weather(r: random.Random) -> tuple[EqualWeather, ...]:
    """A house's own comparison with the winter before."""
    lift, heat, damp = r.uniform(-0.8, 0.9), r.uniform(-3, 2), r.uniform(-5, 5)
    return (
        EqualWeather(what="outdoor temperature at night", unit="°C", last=2.1, this=1.0 + lift, at_equal=None),
        EqualWeather(what="how much warmer than outdoors the nights were", unit="K", last=5.0, this=5.0 + lift * 2,
                     at_equal=Band(estimate=lift, low=lift - 0.4, high=lift + 0.4)),
        EqualWeather(what="heat used in a day", unit="kWh a day", last=8.0, this=8 + heat * 1.5,
                     at_equal=Band(estimate=heat, low=heat - 1.2, high=heat + 1.2)),
        EqualWeather(what="humidity at night", unit="%", last=84.0, this=84 + damp,
                     at_equal=Band(estimate=damp, low=damp - 2.5, high=damp + 2.5)),
    )  # fmt: skip


def winter(r: random.Random, n: int, year: int, *, heated: bool, **other: object) -> Winter:
    """One review."""
    fields: dict[str, object] = {
        "source": f"reviews/plot-{n}-{year}.zip",
        "house_id": f"hash{n}",
        "label": f"Plot {n}",
        "title": f"Winter {year}",
        "first_day": date(year, 10, 1) + timedelta(days=r.randint(0, 20)),
        "last_day": date(year + 1, 4, 1) + timedelta(days=r.randint(0, 20)),
        "so_far": None,
        "currency": "EUR",
        "kind": KINDS[n % len(KINDS)],
        "heated": heated,
        "floor_area_m2": 18.0,
        "glazing_area_m2": round(r.uniform(35, 60), 1),
        "glazing": "single glass",
        "sealed_burner": False,
        "burner": False,
        "last_winter": None,
        "headlines": headlines(r, heated),
        "lines": (),
        "against_last": (),
    }
    return Winter(**{**fields, **other})  # type: ignore[arg-type]


def outcome(name: str, unit: str, effect: float, se: float) -> Outcome:
    """One declared outcome as a review told it."""
    return Outcome(outcome=name, unit=unit, declared=True, effect=effect, low=effect - 2 * se, high=effect + 2 * se,
                   se=se, dof=20.0, before_mean=10.0, days_before=21, days_after=21, refused=None)  # fmt: skip


def line(when: date, what: str, touches: str, hope: str, told: Outcome, kind: str = "change") -> Line:
    """One diary line."""
    return Line(when=when, what=what, kind=kind, thing=None, touches=(touches,), hoped_for=(hope,), undoes=None,
                grouped_with=(), verdict="helped", outcomes=(told,))  # fmt: skip


def member(r: random.Random, house: str, what: str, mean: float, sd: float, se: float, heated: bool | None) -> Member:
    """One house's own estimate."""
    effect = r.gauss(mean, sd)
    return Member(house=house, winter="2025–26", when=date(2025, 11, 3) + timedelta(days=r.randint(0, 100)), what=what,
                  heated=heated, effect=effect, se=se, dof=20.0, low=effect - 2.09 * se, high=effect + 2.09 * se,
                  weather=f"w{r.randint(0, 5)}")  # fmt: skip


def thing(
    r: random.Random, name: str, labels: list[str], strata: tuple[tuple[str, str, float, float, float], ...], *,
    what: str, seals: bool = False, is_kind: bool = False, refused: int = 0,
) -> Thing:  # fmt: skip
    """One thing that those houses changed; strata are (outcome, unit, mean, sd, se)."""
    found = []
    for key, unit, mean, sd, se in strata:
        members = tuple(member(r, label, what, mean, sd, se, True) for label in labels[refused:])
        no = tuple(
            Refusal(house=label, winter="2025–26", when=date(2026, 1, 5), what=what, reason="too few quiet nights")
            for label in labels[:refused]
        )
        heated = True if key in BY_WARMTH else None
        found.append(Stratum(outcome=key, unit=unit, heated=heated, members=members, refused=no))
    lines = tuple((label, "2025–26", date(2025, 12, 1), what) for label in labels)
    return Thing(name=name, is_kind=is_kind, seals=seals, lines=lines, strata=tuple(found))


def made(n: int = 8, *, seed: int = 3, mark: str | None = "Plot 3", show: str = "metric", years: int = 3) -> Group:
    """A group of n houses; every `years`-th has two winters."""
    r = random.Random(seed)
    houses = []
    for k in range(1, n + 1):
        heated = k % 4 != 0
        now = winter(r, k, 2025, heated=heated)
        before = ()
        if years and k % years == 0:
            before = (winter(r, k, 2024, heated=heated),)
            now = replace(now, against_last=equal_weather(r), last_winter="Winter 2024")
        houses.append(House(label=f"Plot {k}", winters=(*before, now)))
    labels = [house.label for house in houses]
    on_off = line(date(2025, 12, 1), "fan at night", "air", "drier air", outcome("night_humidity", "%", -2, 1), "spell")
    houses = [
        replace(h, winters=(*h.winters[:-1], replace(h.newest, lines=(on_off,)))) if h.label in labels[:6] else h
        for h in houses
    ]
    things = (
        thing(r, "bubble film", labels[: max(n - 1, 1)], (
            ("watts_per_kelvin", "%", -0.18, 0.05, 0.05), ("night_humidity", "points", 3.1, 1.5, 1.1)),
            what="bubble film inside the roof", seals=True, refused=min(1, n - 1)),
        thing(r, "fan at night", labels[: min(6, n)], (("night_humidity", "points", -1.4, 2.0, 1.5),), what="fan at "
        "night"),
        thing(r, "water butts", labels[: min(4, n)], (("lift", "K", 0.3, 0.4, 0.3),), what="four black water butts"),
        thing(r, "tape off the vents", labels[-min(7, n):], (("night_humidity", "points", -4.8, 1.2, 1.2),),
              what="tape off the vents"),
        thing(r, "air, drier air", labels[:2], (("night_humidity", "points", -2, 1.2, 1.2),),
              what="door ajar", is_kind=True),
    )  # fmt: skip
    return Group(
        title="Winter on the Mill Lane allotments",
        show=show,
        story=None,
        houses=tuple(houses),
        things=things,
        alike=(
            '# Plot 1, 2025–26: fan at night\n# Plot 2, 2025–26: fan by night\n[[thing]]\nname  = "fan"\n'
            'words = ["fan at night", "fan by night"]',
        ),
        left_out=(LeftOut(source="reviews/broken.zip", reason="no review.json in it"),),
        mark=mark if mark in labels else None,
    )


def bare() -> Group:
    """Two houses of which next to nothing is known."""
    r = random.Random(1)
    nothing = headlines(r, False, minimum_c=None, margin_k=None, outdoor_coldest_c=None, mean_night_outdoor_c=None,
                        nights_below_line=Band(), line_c=None, heat_kwh=None, heat_cost=None, damp_hours_recorded=None,
                        hours_above_high=Band(), hours_above_extreme=Band(), high_pct=None, extreme_pct=None,
                        soil_mean_c=None, harvest_kg=None, kg_per_m2=None, balance_total=None, balance_per_kg=None,
                        weeks_at_half_or_more=None)  # fmt: skip
    winters = [
        winter(r, n, 2025, heated=False, headlines=nothing, kind=None, currency=None, glazing_area_m2=None)
        for n in (1, 2)
    ]
    winters = [replace(w, heated=None) for w in winters]
    houses = tuple(House(label=label, winters=(w,)) for label, w in zip("AB", winters, strict=True))
    return Group(title="", show="metric", story=None, houses=houses, things=(), alike=(), left_out=(), mark=None)


def hostile() -> Group:
    """Eight houses whose members wrote what no page may carry."""
    group = made(8)
    names = {
        "Plot 1": HOSTILE,
        "Plot 2": ARABIC,
        "Plot 3": LONG,
        "Plot 4": "=HYPERLINK(1)",
        "Plot 5": "a\u0000b\nc\u2028d",
    }

    def renamed(label: str) -> str:
        return names.get(label, label)

    def told(winter: Winter) -> Winter:
        return replace(winter, lines=tuple(replace(line, what=HOSTILE) for line in winter.lines))

    houses = tuple(replace(h, label=renamed(h.label), winters=tuple(told(w) for w in h.winters)) for h in group.houses)
    houses = (replace(houses[0], winters=tuple(replace(w, kind=HOSTILE, source=HOSTILE, currency="<b>") for w in
                      houses[0].winters)), *houses[1:])  # fmt: skip
    things = []
    for one in group.things:
        strata = tuple(
            replace(s, members=tuple(replace(m, house=renamed(m.house), what=HOSTILE) for m in s.members),
                    refused=tuple(replace(x, house=renamed(x.house), reason=HOSTILE) for x in s.refused))
            for s in one.strata
        )  # fmt: skip
        lines = tuple((renamed(house), w, d, HOSTILE) for house, w, d, _ in one.lines)
        things.append(replace(one, strata=strata, lines=lines, name=f"{HOSTILE} {one.name}"))
    return replace(
        group, title=HOSTILE, houses=houses, things=tuple(things), mark=ARABIC, story="# "
        f"{HOSTILE}\n\n[x](javascript:1)",
        alike=(HOSTILE,), left_out=(LeftOut(source=HOSTILE, reason=HOSTILE),),
    )  # fmt: skip


def crowded(n: int = 24) -> Group:
    """Long names everywhere, three things to be switched, and a fuel burnt in closed houses: a sheet that is full."""
    group = made(n, mark=None)
    labels = {h.label: f"{h.label} {LONG}"[:90] for h in group.houses}
    r = random.Random(5)
    what = [f"thing number {k} with a name that goes on and on until somebody stops reading it" for k in range(4)]
    drier = outcome("night_humidity", "%", -2, 1)
    spells = tuple(line(date(2025, 12, 1), words, "air", "drier air", drier, "spell") for words in what)
    houses = tuple(
        replace(
            h, label=labels[h.label], winters=(*h.winters[:-1], replace(h.newest, lines=spells, sealed_burner=k < 6))
        )
        for k, h in enumerate(group.houses)
    )
    names = list(labels.values())
    told = ((names[:4], -3.0), (names[:4], -2.6), (names, -1.0), (names, -0.5))  # too few yet, and cannot tell
    things = tuple(
        thing(r, words, of, (("night_humidity", "points", mean, 2.0, 1.5), ("lift", "K", 0.1, 0.4, 0.3)), what=words)
        for words, (of, mean) in zip(what, told, strict=True)
    )
    return replace(group, houses=houses, things=things, mark=names[0], title=LONG)
