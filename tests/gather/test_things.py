"""Things and their strata: which line is what, what counts once, what is counted in words only."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from gather.hand import change, day, houses, outcome, refused, review

from reportgen.charts.types import Note
from reportgen.gather.alike import alike_lines
from reportgen.gather.group_table import GroupTable, ThingTable
from reportgen.gather.naming import claimed_twice
from reportgen.gather.pages.things import page
from reportgen.gather.pages.told import told_of
from reportgen.gather.strata import FUMES
from reportgen.gather.things import things_of
from reportgen.gather.types import Group, House, Stratum, Thing
from reportgen.season.opening import frozen

FILM = ThingTable(name="bubble film", words=("bubble wrap", "insulating film"))
DAY = "2025-12-10"


def of(*documents: dict[str, Any], table: tuple[ThingTable, ...] = ()) -> dict[str, Thing]:
    """Things by their names."""
    return {thing.name: thing for thing in things_of(houses(*documents), table)}


def stratum(thing: Thing, name: str, heated: bool | None = None) -> Stratum:
    """One outcome of a thing."""
    return next(s for s in thing.strata if s.outcome == name and s.heated is heated)


def unheated(number: int, **more: Any) -> dict[str, Any]:
    """A house without a heater."""
    return review(number, house={"id": f"{number:016x}", "label": f"Plot {number}", "heated": False}, **more)


def test_the_diary_s_own_word_then_the_words_of_the_group_then_the_kind() -> None:
    """Whatever the capitals; a word of the diary overrules what its line says, and group.toml may know that word."""
    found = of(
        review(1, changes=[change(DAY, "On the roof", thing="Bubble  FILM")]),
        review(2, changes=[change(DAY, "Bubble wrap, bought cheap")]),
        review(3, changes=[change(DAY, "Bubble wrap in the shed", thing="shed")]),
        review(4, changes=[change(DAY, "x", thing="insulating film")]),
        review(5, changes=[change(DAY, "A quilt over the roof")]),
        review(6, changes=[change(DAY, "Sat and thought", touches=[])]),
        review(7, changes=[change(DAY, "Wrapbubble wrapped")]),
        table=(FILM,),
    )
    assert {name: [line[0] for line in thing.lines] for name, thing in found.items()} == {
        "bubble film": ["Plot 1", "Plot 2", "Plot 4"],
        "shed": ["Plot 3"],
        "envelope: less heating": ["Plot 5", "Plot 7"],
    }
    assert [thing.is_kind for thing in found.values()] == [False, False, True]


def test_kinds_are_what_is_touched_and_the_first_hope() -> None:
    """In any order of what is touched; another first hope is another kind."""
    found = of(
        review(1, changes=[change(DAY, "a", touches=["air", "envelope"], hoped_for=["drier air", "more light"])]),
        review(2, changes=[change(DAY, "b", touches=["envelope", "air"], hoped_for=["drier air"])]),
        review(3, changes=[change(DAY, "c", touches=["envelope", "air"], hoped_for=["more light"])]),
        review(4, changes=[change(DAY, "d", touches=["envelope", "air"], hoped_for=[])]),
    )
    assert sorted(len(thing.lines) for thing in found.values()) == [1, 1, 2]


def test_heat_and_watts_are_a_fraction_of_the_days_before() -> None:
    """−2 (−2.4 to −1.6) kWh of 8 kWh a day are −0.25, and so are its ends and its error; other outcomes stay."""
    told = [outcome("heat", -2.0, se=0.2, before_mean=8.0), outcome("night_humidity", 3.0), outcome("lift", 0.5)]
    thing = of(review(1, changes=[change(DAY, "film", *told)]))["envelope: less heating"]
    heat, [member] = stratum(thing, "heat"), stratum(thing, "heat").members
    assert heat.unit == "%" and heat.heated is None
    assert (member.effect, member.se) == (pytest.approx(-0.25), pytest.approx(0.025))
    assert (member.low, member.high) == (pytest.approx(told[0]["low"] / 8), pytest.approx(told[0]["high"] / 8))
    assert (member.house, member.when, member.what, member.winter) == ("Plot 1", day(DAY), "film", "2025–26")
    damp = stratum(thing, "night_humidity", heated=True)
    assert (damp.unit, damp.members[0].effect, damp.members[0].dof) == ("points", 3.0, 30.0)
    assert stratum(thing, "lift", heated=True).members[0].effect == 0.5


def test_where_the_days_before_were_hardly_heated_there_is_no_fraction() -> None:
    """A mean not above its error, or none, or below nothing."""
    for before in (0.1, 0.0, -3.0, None):
        line = change(DAY, "film", outcome("heat", -2.0, se=0.2, before_mean=before, declared=True))
        heat = stratum(of(review(1, changes=[line]))["envelope: less heating"], "heat")
        assert heat.members == () and "hardly heated" in heat.refused[0].reason


def test_where_the_weeks_were_mild_there_is_no_fraction() -> None:
    """1200 kWh in the 120 days of 1 November to 28 February are 10 a day: 6.9 without it are mild, 7.1 are not."""
    for before, told in ((6.9, 0), (7.1, 1)):
        line = change(DAY, "film", outcome("heat", -2.0, se=0.2, before_mean=before, declared=True))
        heat = stratum(of(review(1, changes=[line], heat={"kwh": 1200.0}))["envelope: less heating"], "heat")
        assert len(heat.members) == told
        assert [("mild" in refusal.reason) for refusal in heat.refused] == [True] * (1 - told)
    watts = change(DAY, "film", outcome("watts_per_kelvin", -2.0, se=0.2, before_mean=6.9))
    of_watts = of(review(1, changes=[watts], heat={"kwh": 1200.0}))["envelope: less heating"]
    assert len(stratum(of_watts, "watts_per_kelvin").members) == 1  # watts per kelvin do not grow with the cold


def test_heated_and_unheated_stand_apart_for_warmth_humidity_and_soil() -> None:
    """An unheated house has no heat to spare: it is not even counted as one that could not tell."""
    both = [outcome("lift", 0.5), outcome("soil_mean", 0.2), outcome("night_humidity", 1.0)]
    heat = [refused("heat", "no heater is listed"), refused("watts_per_kelvin", "no heater is listed")]
    line = [change(DAY, "film", *both, outcome("heat", -1.0))]
    cold = [change(DAY, "film", *both, *heat)]
    thing = of(review(1, changes=line), unheated(2, changes=cold))["envelope: less heating"]
    for name in ("lift", "night_humidity", "soil_mean"):
        assert [[m.house for m in stratum(thing, name, warm).members] for warm in (True, False)] == [
            ["Plot 1"], ["Plot 2"]
        ]  # fmt: skip
    assert stratum(thing, "heat").refused == ()


def test_a_thermostat_is_not_pooled_on_heat_but_on_the_rest() -> None:
    """levers.md: the price of a degree tells it."""
    line = change(DAY, "down", outcome("heat", -2.0), outcome("lift", -1.0), touches=["thermostat"])
    thing = of(review(1, changes=[line]))["thermostat: less heating"]
    assert [s.outcome for s in thing.strata if s.members] == ["lift"]
    declared = change(DAY, "down", outcome("heat", -2.0, declared=True), touches=["thermostat"])
    thing = of(review(1, changes=[declared]))["thermostat: less heating"]
    assert "price of a degree" in stratum(thing, "heat").refused[0].reason


def test_refusals_are_counted_in_the_words_of_the_review() -> None:
    """Beside those that could tell; an older review without errors counts so too."""
    old = {key: value for key, value in outcome("lift", 1.0).items() if key not in ("se", "dof", "before_mean")}
    thing = of(
        review(1, changes=[change(DAY, "film", outcome("lift", 0.5))]),
        review(2, changes=[change(DAY, "film", refused("lift", "too few nights"))]),
        review(3, changes=[change(DAY, "film", old)]),
        review(4, changes=[change(DAY, "film", outcome("lift", 0.5), grouped_with=["Door brush"])]),
    )["envelope: less heating"]
    lift = stratum(thing, "lift", heated=True)
    assert [m.house for m in lift.members] == ["Plot 1"]
    reasons = {r.house: r.reason for r in lift.refused}
    assert reasons["Plot 2"] == "too few nights" and "older release" in reasons["Plot 3"]
    assert "“Door brush”" in reasons["Plot 4"]


def test_a_house_in_which_a_fuel_burns_is_not_put_together_for_what_closes_it() -> None:
    """The film of the house with the stove is counted in words; its fan, that closes nothing, is a member."""
    stove = {"heat": {"sources": [{"name": "stove", "fuel": "wood", "role": "main", "kwh": 900.0}]}}
    film = change(DAY, "Film", outcome("watts_per_kelvin", -1.0), thing="film")
    fan = change(
        "2026-01-20", "Fan", outcome("night_humidity", -2.0), thing="fan", touches=["air"], hoped_for=["drier air"]
    )
    found = of(review(1, changes=[film, fan]), review(2, changes=[film, fan], **stove))
    for name, outcome_name, heated, members in (
        ("film", "watts_per_kelvin", None, 1),
        ("fan", "night_humidity", True, 2),
    ):
        one = stratum(found[name], outcome_name, heated)
        assert len(one.members) == members
        assert len(one.refused) == 2 - members
        assert all(refusal.reason == FUMES for refusal in one.refused)


def test_the_page_says_why_a_house_with_a_flame_is_not_among_them() -> None:
    """Its only change closes the house: it is not asked for quiet weeks, which would not help."""
    stove = {"heat": {"sources": [{"name": "stove", "fuel": "wood", "role": "main", "kwh": 900.0}]}}
    film = change(DAY, "Film", outcome("watts_per_kelvin", -1.0), thing="film")
    own = houses(review(1, changes=[film]), review(2, changes=[film], **stove))
    group = Group(
        title="", show="metric", story=None, houses=own, things=things_of(own), alike=(), left_out=(), mark=None
    )
    words = " ".join(block.text for block in page(told_of(group)).blocks if isinstance(block, Note))
    assert "Plot 2: a fuel burns inside" in words and "quiet weeks" not in words


def test_what_was_done_together_and_is_one_thing_counts() -> None:
    """Film on roof and sides on one day: the joint effect is the film's, once."""
    joint = outcome("lift", 0.5)
    lines = [
        change(DAY, "roof", joint, thing="film", grouped_with=["sides"]),
        change(DAY, "sides", joint, thing="film", grouped_with=["roof"]),
    ]
    thing = of(review(1, changes=lines))["film"]
    assert len(thing.lines) == 2 and len(stratum(thing, "lift", heated=True).members) == 1


def test_a_house_counts_once_a_winter_by_its_first_line_that_could_tell() -> None:
    """Of three lines of one thing the second: the first was refused, and the third is not chosen for what it shows."""
    lines = [
        change("2026-01-20", "film, third layer", outcome("lift", 9.0), thing="film"),
        change("2025-12-20", "film, second layer", outcome("lift", 0.5), thing="film"),
        change("2025-11-20", "film, first layer", refused("lift", "too few nights"), thing="film"),
    ]
    lift = stratum(of(review(1, changes=lines))["film"], "lift", heated=True)
    assert [m.effect for m in lift.members] == [0.5] and lift.refused == ()


def test_a_lever_taken_back_counts_on_against_off_and_its_undoing_is_no_member() -> None:
    """The review's own estimate of both switches is taken; the line that takes it off belongs to the thing all the
    same, though it names none."""
    on = change("2025-12-10", "Gaps taped", outcome("lift", 0.4), thing="tape")
    off = change("2026-01-20", "All open again", outcome("lift", -0.6), undoes="2025-12-10", hoped_for=["drier air"])
    both = {"name": "Gaps taped", "entries": ["2025-12-10", "2026-01-20"], "outcomes": [outcome("lift", 0.5, se=0.1)]}
    thing = of(review(1, changes=[on, off], levers=[both]))["tape"]
    assert [line[3] for line in thing.lines] == ["Gaps taped", "All open again"]
    assert [m.effect for m in stratum(thing, "lift", heated=True).members] == [0.5]
    without = of(review(1, changes=[on, off]))["tape"]
    assert [m.effect for m in stratum(without, "lift", heated=True).members] == [0.4]


def test_what_reads_as_taken_away_and_does_not_say_so_is_no_member() -> None:
    """Its effect would have the other sign."""
    line = change(DAY, "Bubble film removed", outcome("lift", -0.5))
    thing = of(review(1, changes=[line]), table=(FILM,))["bubble film"]
    assert all(s.members == () for s in thing.strata)
    with_hope = change(DAY, "Bubble film removed", outcome("lift", -0.5, declared=True))
    lift = stratum(of(review(1, changes=[with_hope]), table=(FILM,))["bubble film"], "lift", heated=True)
    assert "taken away" in lift.refused[0].reason


def test_under_one_weather_are_days_that_follow_each_other_within_a_fortnight() -> None:
    """1, 15 and 29 December hang together; 13 January does not; another winter never does."""
    days = ("2025-12-01", "2025-12-15", "2025-12-29", "2026-01-13")
    documents = [review(n, changes=[change(d, "f", outcome("lift", 0.5), thing="f")]) for n, d in enumerate(days, 1)]
    last = {"title": "x", "first_day": "2024-11-01", "last_day": "2025-02-28"}
    documents.append(review(9, season=last, changes=[change("2024-12-15", "f", outcome("lift", 0.5), thing="f")]))
    members = stratum(of(*documents)["f"], "lift", heated=True).members
    assert [(m.house, m.weather) for m in members] == [
        ("Plot 9", "from 2024-12-15"), ("Plot 1", "from 2025-12-01"), ("Plot 2", "from 2025-12-01"),
        ("Plot 3", "from 2025-12-01"), ("Plot 4", "from 2026-01-13"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("what", "more", "seals"),
    [
        ("Gaps taped shut", {}, True),
        ("Roof vent opened", {"hoped_for": ["drier air"]}, False),
        ("Fan", {"touches": ["air"], "hoped_for": ["drier air"]}, False),
        ("A row of bricks", {"touches": ["bed"]}, False),
    ],
)
def test_what_closes_the_house_is_known(what: str, more: dict[str, Any], seals: bool) -> None:
    """By the rule of the reviews: a thing that seals is never praised where a fuel burns inside."""
    assert [thing.seals for thing in of(review(1, changes=[change(DAY, what, thing="x", **more)])).values()] == [seals]


def test_a_line_that_two_things_claim_is_a_problem_naming_both_and_the_line() -> None:
    """Once for each wording."""
    fleece = ThingTable(name="fleece", words=("fleece",))
    found = houses(*(review(n, changes=[change(DAY, "Bubble wrap over fleece")]) for n in (1, 2)))
    [problem] = claimed_twice(found, (FILM, fleece), "group.toml")
    assert all(word in problem.found for word in ("bubble film", "fleece", "Bubble wrap over fleece", DAY))
    assert problem.slug == "two-things-one-line" and problem.file == "group.toml"


def pasted(found: tuple[House, ...]) -> GroupTable:
    """The look-alikes as group.toml reads them."""
    text = "\n".join(alike_lines(found))
    return GroupTable.model_validate(frozen(tomllib.loads(text)))


def test_lines_that_look_alike_can_be_pasted_and_are_then_one_thing() -> None:
    """What two houses call by one word; quotes and backslashes in it do no harm; afterwards nothing is left to ask."""
    found = houses(
        review(1, changes=[change(DAY, 'Bubble "wrap" \\ on the north side')]),
        review(2, changes=[change(DAY, "bubbles, two layers")]),
        review(3, changes=[change(DAY, "Quilt")]),
        review(4, changes=[change(DAY, "north", thing="bubble")]),
    )
    [text] = alike_lines(found)
    assert "# Plot 1, 2025–26: Bubble" in text
    table = pasted(found)
    [thing] = [thing for thing in things_of(found, table.things) if not thing.is_kind]
    assert [line[0] for line in thing.lines] == ["Plot 1", "Plot 2", "Plot 4"]
    assert alike_lines(found, table.things) == ()


def test_what_group_toml_nearly_knows_is_told_as_more_of_its_words() -> None:
    """A line that shares a word with one that group.toml takes for a thing; told as a remark of TOML. Once it is a
    thing of its own, nothing is asked."""
    found = houses(
        review(1, changes=[change(DAY, "Bubble wrap on the roof")]),
        review(2, changes=[change(DAY, "Bubbles, two layers")]),
    )
    [text] = alike_lines(found, (FILM,))
    assert tomllib.loads(text) == {} and "“bubble film”" in text and '"bubbles, two layers"' in text
    assert "Bubble wrap on the roof" not in text
    other = ThingTable(name="soap", words=("bubbles",))
    assert alike_lines(found, (FILM, other)) == ()


def test_what_is_not_asked() -> None:
    """One house's own lines, and what all call by one word under `thing`."""
    own = houses(review(1, changes=[change(DAY, "Bubble film"), change("2026-01-20", "Bubble film again")]))
    assert alike_lines(own) == ()
    named = houses(*(review(n, changes=[change(DAY, "Bubble film", thing="film")]) for n in (1, 2)))
    assert alike_lines(named) == ()
