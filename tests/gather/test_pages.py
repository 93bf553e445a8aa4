"""Every page of a group, of one house to sixty, by friends and by strangers: whole, true, and harmless."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import replace
from datetime import date
from functools import cache
from html import unescape
from itertools import pairwise

import pytest
from gather import made_pages as made

from reportgen.gather.pages import NAMES, SUBJECTS, chat
from reportgen.gather.pages.heat import per_cover
from reportgen.gather.pages.index import front
from reportgen.gather.pages.measure import ordered
from reportgen.gather.pages.money import keeps_prices
from reportgen.gather.pages.plan import next_winter, plan_of
from reportgen.gather.pages.sheet import sheet
from reportgen.gather.pages.told import NOT_HERE, told_of
from reportgen.gather.site import files
from reportgen.gather.types import Band, Group, House, Winter

GROUPS = {
    "made": made.made,
    "one": lambda: made.made(1),
    "two": lambda: made.made(2),
    "three": lambda: made.made(3),
    "sixty": lambda: made.made(60),
    "us": lambda: made.made(8, show="us"),
    "unmarked": lambda: made.made(8, mark=None),
    "bare": made.bare,
    "hostile": made.hostile,
    "crowded": made.crowded,
    "no things": lambda: replace(made.made(8), things=()),
}
PAGES = tuple(f"{slug}.html" for slug in NAMES)
TAG = re.compile(r"<[^>]+>")
FORBIDDEN = re.compile(
    r"\b(best|worst|winner|loser|rank\w*|league|leader|champion|top[- ]scor\w*|beat|beats|beaten|outperform\w*|"
    r"fail(ed|s)? to keep|badly|poor(ly|est)?)\b", re.I
)  # fmt: skip
NOTHING = re.compile(r"(?<![\w.])(nan|None|inf|nat|null|undefined|-0)(?![\w.])")
ABOVE = {"index": 175}
OTHER_ABOVE = 90


@cache
def built(name: str) -> dict[str, bytes]:
    """The files of one of the groups."""
    return files(GROUPS[name](), lambda words: None)


def page(name: str, slug: str) -> str:
    """One page's text."""
    return built(name)[f"{slug}.html"].decode()


def main_of(text: str) -> str:
    """What stands in the page's main part, without the list of pages."""
    return text[text.index("<main") : text.index("</main>")].partition('<ul class="pages">')[0]


def words_of(markup: str) -> str:
    """The words a reader meets."""
    return " ".join(unescape(TAG.sub(" ", markup)).split())


def changed(group: Group, **newest: object) -> Group:
    """The group with that changed in every house's newest winter."""
    houses = tuple(replace(h, winters=(*h.winters[:-1], replace(h.newest, **newest))) for h in group.houses)  # type: ignore[arg-type]
    return replace(group, houses=houses)


@pytest.mark.parametrize("name", GROUPS)
def test_every_page_is_there_and_says_something(name: str) -> None:
    """All pages, one heading each of at most 15 words, files for every table, nothing that stands for nothing."""
    out = built(name)
    assert set(PAGES) <= set(out)
    assert {"handout.png", "handout.txt", "data/group.json"} <= set(out)
    for slug in NAMES:
        text = page(name, slug)
        assert text.count("<h1>") == 1
        assert not NOTHING.search(words_of(text[text.index("<body") :])), slug
        for link in re.findall(r'href="(data/[^"]+)"', text):
            assert link in out
        if slug in SUBJECTS and name != "hostile":
            heading = words_of(text[text.index("<h1>") : text.index("</h1>")])
            assert len(heading.split(" ")) <= 20, (
                heading
            )  # a figure and its unit are one word, see the browser's budget


@pytest.mark.parametrize("name", ["made", "sixty", "us", "bare", "two"])
def test_nobody_is_ranked(name: str) -> None:
    """No word of a league table anywhere, nor the difference of houses called an effect."""
    for slug in (*SUBJECTS, "index", "handout"):
        told = words_of(main_of(page(name, slug)))
        assert not FORBIDDEN.search(told), FORBIDDEN.search(told)
    assert not FORBIDDEN.search(built(name)["handout.txt"].decode())


@pytest.mark.parametrize("name", GROUPS)
def test_what_stands_above_the_first_picture_is_short(name: str) -> None:
    """At most 175 words on the first page, 90 elsewhere; a picture is told in at most 60 words."""
    for slug in (*SUBJECTS, "index"):
        main = main_of(page(name, slug))
        before = words_of(main.partition("<figure>")[0]) if "<figure>" in main else ""
        assert len(before.split()) <= ABOVE.get(slug, OTHER_ABOVE), before
        for told in re.findall(r"<desc[^>]*>([^<]*)</desc>", main):
            assert 1 <= len(unescape(told).split(" ")) <= 60, told


@pytest.mark.parametrize("slug", ["frost", "damp", "harvest", "houses"])
def test_every_house_stands_once_in_the_picture_in_the_order_of_the_measure(slug: str) -> None:
    """Each name once in the wide drawing, from low to high; the marked one with its word."""
    main = main_of(page("made", slug))
    wide = main[main.index('<svg class="wide"') : main.index("</svg>")]
    names = re.findall(r">(Plot \d+)(?: – your house)?</text>", wide)
    assert sorted(names) == sorted({f"Plot {n}" for n in range(1, 9)})
    assert wide.count("your house</text>") == 1
    values = [float(v.replace("−", "-")) for v in
              re.findall(r'text-anchor="end"[^>]*>(−?\d+(?:\.\d+)?)\u00a0[^<]*</text>', wide)]  # fmt: skip
    assert len(values) == 8
    assert all(a <= b for a, b in pairwise(values))


def test_every_picture_marks_the_house_by_its_word() -> None:
    """Wherever the marked house has a value its word stands there, in the wide form and in the small one."""
    for slug in (*SUBJECTS, "index"):
        main = main_of(page("made", slug))
        for svg in re.findall(r"<svg class=.*?</svg>", main, re.S):
            if "Plot 3" in svg or "dot a house" in svg:
                assert "your house" in svg, svg[:200]
    assert "your house" not in "".join(page("unmarked", slug) for slug in NAMES)


def test_a_crowd_is_drawn_above_forty_houses() -> None:
    """Sixty houses: dots that add up to them, no names, and the whole table in a file."""
    main = main_of(page("sixty", "frost"))
    wide = main[main.index('<svg class="wide"') : main.index("</svg>")]
    assert sum(d.count("h0") for d in re.findall(r'<path d="([^"]*)"', wide)) == 59
    rows = list(csv.reader(io.StringIO(built("sixty")["data/frost_coldest.csv"].decode())))
    assert len({row[0] for row in rows[1:]}) == 60


@pytest.mark.parametrize("name", GROUPS)
def test_no_page_is_heavy(name: str) -> None:
    """At most 400 KB a page, 60 KB a picture in both widths; the picture for a chat 200 KB."""
    for slug in NAMES:
        text = page(name, slug)
        assert len(text.encode()) <= 400_000
        for pair in re.findall(r'<svg class="wide".*?</svg>\s*<svg class="tall".*?</svg>', text, re.S):
            assert len(pair.encode()) <= 60_000
        style = re.search(r"<style>(.*?)</style>", text, re.S)
        assert style is not None and len(style[1].encode()) <= 14_000
    assert len(built(name)["handout.png"]) <= 200_000


def test_strangers_words_are_shown_and_do_nothing() -> None:
    """Markup is text, formulas are quoted in files, marks that turn a line around are gone, control characters too."""
    out = built("hostile")
    for name, raw in out.items():
        if name.endswith(".html"):
            text = raw.decode()
            assert "<script>alert" not in text
            assert "javascript:" not in text.casefold()
            assert "&lt;script&gt;alert(1)&lt;/script&gt;" in text
            assert not re.search("[\u202a-\u202e\u0000-\u0008\u000b\u000c\u000e-\u001f]", text)
            assert len(re.findall("\u2068", text)) == len(re.findall("\u2069", text))
            assert "style=" not in re.sub(r"font-style=", "", text[text.index("<body") :])
        if name.endswith(".csv"):
            for row in csv.reader(io.StringIO(raw.decode())):
                assert not any(cell[:1] in "=+@\t\r" for cell in row if cell), row
                assert not any(cell[:1] == "-" and not re.fullmatch(r"-[\d.e-]+", cell) for cell in row if cell)
    assert "'=HYPERLINK(1)" in out["data/frost_coldest.csv"].decode()


def test_a_long_name_is_cut_in_pictures_and_whole_in_the_table() -> None:
    """The picture cuts it by its width; table and file have all of it."""
    main = main_of(page("hostile", "frost"))
    wide = main[main.index('<svg class="wide"') : main.index("</svg>")]
    assert made.LONG not in wide and "the very long… a comma" in wide
    assert made.LONG in built("hostile")["data/frost_coldest.csv"].decode()


def test_the_data_is_whole_and_ties_no_groups_together() -> None:
    """group.json holds every house and winter, what they say together, and no hash of a house's own name."""
    raw = built("made")["data/group.json"].decode()
    document = json.loads(raw)
    assert [len(h["winters"]) for h in document["houses"]] == [len(h.winters) for h in made.made().houses]
    assert "hash3" not in raw
    assert len(document["together"]) == sum(len(t.strata) for t in made.made().things)


def test_same_group_same_bytes() -> None:
    """No clock and no chance."""
    assert files(made.made(), lambda words: None) == built("made")


def test_one_verdict_stands_everywhere() -> None:
    """The first page, the page of things, the handout and group.json say the same of each thing."""
    document = json.loads(built("made")["data/group.json"])
    told = {(one["thing"], one["outcome"]): one["verdict"] for one in document["together"]}
    for slug in ("index", "things", "handout"):
        words = words_of(main_of(page("made", slug)))
        assert told["bubble film", "watts_per_kelvin"] == "helped"
        assert re.search(r"Bubble film heat for each degree, 6 houses .*? helped", words), slug


def burning() -> Group:
    """The made group with a fuel heater in one house."""
    group = made.made()
    first = group.houses[4]
    houses = tuple(replace(h, winters=(replace(h.newest, burner=True),)) if h is first else h for h in group.houses)
    return replace(group, houses=houses)


def test_a_seal_is_neither_praised_nor_proposed_where_a_fuel_burns() -> None:
    """One heater that burns fuel: the film is not called a help, is on no calendar, and the caution stands there."""
    out = files(burning(), lambda words: None)
    for slug in ("index", "things", "handout"):
        words = words_of(main_of(out[f"{slug}.html"].decode()))
        film = re.search(r"Bubble film heat for each degree, 6 houses (.*?)(?:Fan at night|Tape off)", words)
        assert film is not None and NOT_HERE in film[1] and not re.search(r"\bhelped\b", film[1])
        assert "Never seal a space in which something burns" in words
    assert "Bubble film: not for a house in which a fuel burns." in words_of(out["index.html"].decode())
    plan = plan_of(told_of(burning()))
    assert "bubble film" not in plan.things
    assert not any(one.thing == "bubble film" for one in plan.open_)


def test_a_seal_is_told_of_the_houses_without_a_flame_with_that_word_beside_it() -> None:
    """A house that burns a fuel stands beside six others that hung the film: it helped them, not where a fuel burns."""
    group = made.made()
    stranger = replace(group.houses[-1], label="Stove house", winters=(replace(group.houses[-1].newest, burner=True),))
    out = files(replace(group, houses=(*group.houses, stranger)), lambda words: None)
    assert "Bubble film (not for a house in which a fuel burns):" in words_of(out["index.html"].decode())
    document = json.loads(out["data/group.json"])
    told = {(one["thing"], one["outcome"]): one["verdict"] for one in document["together"]}
    assert told["bubble film", "watts_per_kelvin"] == f"helped; {NOT_HERE}"
    assert "bubble film" not in plan_of(told_of(replace(group, houses=(*group.houses, stranger)))).things


def test_a_house_whose_review_told_of_fumes_is_named_first() -> None:
    """Before the heading, with the way to the caution."""
    group = changed(made.made(2), sealed_burner=True)
    main = main_of(files(group, lambda words: None)["index.html"].decode())
    assert main.index("a fuel burnt inside while the house was closed") < main.index("<h1>")
    assert "Plot 1 and Plot 2: their own reviews tell" in words_of(main)


def test_two_currencies_never_share_a_line() -> None:
    """Each currency has its own picture; neither names the other's houses."""
    group = made.made(8)
    houses = tuple(
        replace(h, winters=(*h.winters[:-1], replace(h.newest, currency="CZK" if n < 4 else "EUR")))
        for n, h in enumerate(group.houses)
    )
    main = main_of(files(replace(group, houses=houses), lambda words: None)["heat.html"].decode())
    pictures = [svg for svg in re.findall(r"<svg class=.*?</svg>", main, re.S) if "CZK" in svg or "EUR" in svg]
    assert len(pictures) >= 2
    assert not any("CZK" in svg and "EUR" in svg for svg in pictures)


def test_a_house_that_keeps_its_prices_is_told_so() -> None:
    """Private prices: said in these words, and no money of it anywhere."""
    group = made.made(4)
    first = group.houses[0]
    lines = replace(first.newest.headlines, heat_cost=None, balance_total=None, balance_per_kg=None,
                    reasons=(("heat.cost", "kept private by the grower"),))  # fmt: skip
    house = replace(first, winters=(replace(first.newest, headlines=lines, currency=None),))
    assert keeps_prices(house.newest)
    out = files(replace(group, houses=(house, *group.houses[1:])), lambda words: None)
    assert "Plot 1: keeps its prices to itself." in words_of(out["heat.html"].decode())


def test_kinds_say_that_they_are_kinds() -> None:
    """A row grouped by what it touches and hopes for is called a kind, in the picture and in the table."""
    main = main_of(page("made", "things"))
    assert "a kind, not one thing" in words_of(main)
    assert "a kind" in built("made")["data/things.csv"].decode()


def test_fewer_than_three_houses_are_shown_not_put_together() -> None:
    """Two houses: dots, no sum, no next house."""
    main = main_of(page("two", "things"))
    assert "too few to put together" in words_of(main)
    assert "All together" not in main and "The next house" not in main


def test_heat_for_the_cover_is_the_quotient_it_says() -> None:
    """1 000 kWh through 50 m² over 4 800 kelvin-hours: 1 000 000 Wh / 50 m² / 200 K·d = 100 Wh, worked by hand."""
    winter = made.made(1).houses[0].newest
    lines = replace(winter.headlines, heat_kwh=1000.0, kelvin_hours_below_hold=4800.0)
    assert per_cover(replace(winter, headlines=lines, glazing_area_m2=50.0)) == pytest.approx(100.0)
    assert per_cover(replace(winter, headlines=replace(lines, kelvin_hours_below_hold=0.0))) is None
    assert per_cover(replace(winter, glazing_area_m2=None)) is None


def test_fahrenheit_is_shown_with_its_own_freezing_point() -> None:
    """NIST SP 811: t/°F = 1.8 t/°C + 32; the frost line is 32, differences are times 1.8."""
    group = made.made(8, show="us")
    coldest = min(h.newest.headlines.minimum_c or 0.0 for h in group.houses)
    words = words_of(main_of(page("us", "frost")))
    assert f"{coldest * 1.8 + 32:.1f}\u00a0°F".replace("-", "−") in unescape(page("us", "frost"))
    assert "°C" not in words
    head = built("us")["data/frost_coldest.csv"].decode().splitlines()[0]
    assert "coldest inside °F" in head and "°C" not in head


def test_a_damp_share_is_cut_at_all_hours_and_keeps_its_band() -> None:
    """Hours over hours; a band that would pass all hours ends there."""
    group = made.made(2)
    first = group.houses[0]
    lines = replace(first.newest.headlines, damp_hours_recorded=1000.0,
                    hours_above_high=Band(estimate=950.0, low=800.0, high=1000.0))  # fmt: skip
    house = House(label=first.label, winters=(replace(first.newest, headlines=lines),))
    raw = files(replace(group, houses=(house, *group.houses[1:])), lambda words: None)["data/damp_high.csv"].decode()
    row = next(row for row in csv.DictReader(io.StringIO(raw)) if row["house"] == "Plot 1")
    assert (row["share above high, %"], row["share above high, %, low"], row["share above high, %, high"]) == (
        "95.0", "80.0", "100.0",
    )  # fmt: skip


def test_houses_with_another_humidity_line_are_not_set_beside() -> None:
    """A house that counts above 85 % is named with its reason."""
    group = made.made(5)
    last = group.houses[-1]
    lines = replace(last.newest.headlines, high_pct=85.0)
    house = replace(last, winters=(replace(last.newest, headlines=lines),))
    words = words_of(
        main_of(files(replace(group, houses=(*group.houses[:-1], house)), lambda x: None)["damp.html"].decode())
    )
    assert "Plot 5: counts by another line than 80 %." in words.replace("\u00a0", " ")


def test_turns_are_opposite_and_in_the_winter_to_come() -> None:
    """Rows differ in what they have on and begin a year after the newest winters; every house has its row."""
    told = told_of(made.made())
    first, last = next_winter(told)
    plan = plan_of(told)
    assert plan.things == ("fan at night",)
    assert len({one.turns for one in plan.turns}) == len(plan.turns) > 1
    assert all(first <= turn.first_day <= last for one in plan.turns for turn in one.turns)
    assert sorted(h for one in plan.turns for h in one.houses) == sorted(h.label for h in told.group.houses)
    assert first.year == max(h.newest.first_day for h in told.group.houses).year + 1


def test_a_thing_that_carries_over_is_not_switched() -> None:
    """The same spell, but of the watering: nothing is proposed for turns."""
    group = made.made()
    houses = []
    for house in group.houses:
        lines = tuple(replace(line, touches=("water",)) for line in house.newest.lines)
        houses.append(replace(house, winters=(*house.winters[:-1], replace(house.newest, lines=lines))))
    assert plan_of(told_of(replace(group, houses=tuple(houses)))).turns == ()


def test_leap_days_are_a_day_earlier_a_year_later() -> None:
    """A winter that ends on 29 February is followed by one that ends on the 28th."""
    group = changed(made.made(2), first_day=date(2023, 11, 1), last_day=date(2024, 2, 29))
    assert next_winter(told_of(group)) == (date(2024, 11, 1), date(2025, 2, 28))


def test_order_is_by_value_then_name() -> None:
    """Ties stand by name: the same on every machine."""
    from reportgen.gather.pages.measure import Point

    houses = [House(label=label, winters=(_any_winter(),)) for label in "CAB"]
    points = [Point(house=h, value=v, said="") for h, v in zip(houses, (1.0, 1.0, 0.0), strict=True)]
    assert [p.house.label for p in ordered(points)] == ["B", "A", "C"]


def _any_winter() -> Winter:
    return made.made(1).houses[0].newest


def test_years_stand_raw_and_at_equal_weather_with_outdoors_beside() -> None:
    """The ring is this less last, the dot the review's own estimate; outdoors is told in words."""
    rows = list(csv.DictReader(io.StringIO(built("made")["data/years_lift.csv"].decode())))
    group = {h.label: h for h in made.made().houses}
    for row in rows:
        told = {r.what: r for r in group[row["house"]].newest.against_last}
        lift, out = told["how much warmer than outdoors the nights were"], told["outdoor temperature at night"]
        assert lift.at_equal is not None and lift.this is not None and lift.last is not None
        assert float(row["at equal weather, K"]) == pytest.approx(lift.at_equal.estimate, abs=0.006)
        assert float(row["as it was, K"]) == pytest.approx(lift.this - lift.last, abs=0.006)
        assert out.this is not None and out.last is not None
        assert float(row["nights outdoors, K"]) == pytest.approx(out.this - out.last, abs=0.006)
    assert len(rows) == 2


def heated_by(group: Group) -> Group:
    """The four houses' water butts told as a second heater, with a firm effect."""
    thing = next(t for t in group.things if t.name == "water butts")
    stratum = thing.strata[0]
    firm = tuple(replace(m, effect=2.0, low=1.6, high=2.4, weather=f"w{n}") for n, m in enumerate(stratum.members))
    more = tuple(replace(m, house=f"Plot {n}") for n, m in zip(range(5, 9), firm, strict=True))
    other = replace(thing, strata=(replace(stratum, members=(*firm, *more)),))
    what, day = thing.lines[0][3], thing.lines[0][2]
    told = made.line(day, what, "heater", "warmer nights", made.outcome("lift", "K", 2.0, 0.2))
    houses = tuple(
        replace(h, winters=(*h.winters[:-1], replace(h.newest, lines=(*h.newest.lines, told)))) for h in group.houses
    )
    things = tuple(other if t is thing else t for t in group.things)
    return replace(group, houses=houses, things=things)


def test_a_heater_is_not_judged_by_the_warmth_it_gives() -> None:
    """Eight houses were 2 K warmer with it; that is no finding, and the first page does not say it helped."""
    out = files(heated_by(made.made()), lambda words: None)
    told = {one["thing"]: one["verdict"] for one in json.loads(out["data/group.json"])["together"]}
    assert told["water butts"] == "a heater warms: not judged"
    assert "Water butts" not in words_of(main_of(out["index.html"].decode()))


def test_an_effect_too_small_to_matter_is_said_to_be() -> None:
    """Eight houses 0.2 K warmer beyond doubt: helped, but by less than the 0.5 K that are worth having."""
    group = made.made()
    thing = next(t for t in group.things if t.name == "water butts")
    near = tuple(
        replace(m, house=f"Plot {n}", effect=0.2 + n / 1000, se=0.01, low=0.18, high=0.22, weather=f"w{n}")
        for n, m in enumerate(thing.strata[0].members * 2, start=1)
    )
    strata = (replace(thing.strata[0], members=near),)
    things = tuple(replace(t, strata=strata) if t is thing else t for t in group.things)
    out = files(replace(group, things=things), lambda words: None)
    told = {one["thing"]: one["verdict"] for one in json.loads(out["data/group.json"])["together"]}
    assert told["water butts"] == "helped, by less than is worth having"


def test_who_is_not_shown_is_told_what_to_log() -> None:
    """A house without a diary line, and houses with one winter, are named with what is missing."""
    group = made.made()
    fan = next(t for t in group.things if t.name == "fan at night")
    stratum = replace(fan.strata[0], members=fan.strata[0].members[1:])
    out = files(replace(group, things=(replace(fan, strata=(stratum,)),)), lambda words: None)
    words = words_of(main_of(out["things.html"].decode())).replace("\u00a0", " ")
    assert "Plot 7 and Plot 8: tried none of these" in words
    assert "Plot 1: no change could be told; leave three quiet weeks" in words
    years = words_of(main_of(page("made", "years"))).replace("\u00a0", " ")
    assert "one winter so far; hand in the next with the same id" in years


def test_fumes_bring_their_own_caution() -> None:
    """Where a review told of a fuel burnt in a closed house, carbon monoxide is on the page and on the sheet."""
    out = files(changed(made.made(3), sealed_burner=True), lambda words: None)
    assert "carbon monoxide alarm" in words_of(main_of(out["index.html"].decode()))
    assert "carbon monoxide alarm" in out["handout.txt"].decode()


@pytest.mark.parametrize("name", ["made", "hostile", "crowded", "bare", "sixty"])
def test_the_chat_picture_holds_all_its_parts(name: str) -> None:
    """1080 by 1350 pixels, nothing below its edge, the cautions of what is proposed in it."""
    told = told_of(GROUPS[name]())
    parts = sheet(told, front(told), "A title")
    drawn = chat.svg(parts)
    assert 'viewBox="0 0 1080 1350"' in drawn
    ends = [
        float(y) + float(h) for y, h in re.findall(r'<svg x="46" y="([\d.]+)" width="988" height="([\d.]+)"', drawn)
    ]
    assert ends and max(ends) <= 1350 - 46 + 0.5
    if parts.care_brief:
        assert parts.care_brief.split()[0] in drawn
