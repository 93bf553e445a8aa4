"""Sentences of the group's pages that were right in number and wrong in sense, each in the group where it stood."""

from __future__ import annotations

import re
from dataclasses import replace

from gather import made_pages as made
from gather.test_pages import main_of, words_of

from reportgen.gather.pages import chat
from reportgen.gather.pages import effect_words as say
from reportgen.gather.pages.index import front
from reportgen.gather.pages.plan import Plan, open_lines, title
from reportgen.gather.pages.sheet import sheet
from reportgen.gather.pages.told import told_of
from reportgen.gather.pages.words import cut_name
from reportgen.gather.site import files
from reportgen.gather.strata import NO_ERROR
from reportgen.gather.together import StillOpen
from reportgen.gather.types import Band, Group, Refusal, Stratum, Winter
from reportgen.wording import Wording


def words(group: Group, slug: str) -> str:
    """What one page of it says."""
    return words_of(main_of(files(group, lambda _: None)[f"{slug}.html"].decode())).replace("\u00a0", " ")


def each(group: Group, **headlines: object) -> Group:
    """The group with these headlines in every winter."""
    houses = tuple(
        replace(h, winters=tuple(replace(w, headlines=replace(w.headlines, **headlines)) for w in h.winters))  # type: ignore[arg-type]
        for h in group.houses
    )
    return replace(group, houses=houses)


def with_newest(group: Group, n: int, **fields: object) -> Group:
    """The group with the newest winter of its n-th house altered."""
    house = group.houses[n]
    newest: Winter = replace(house.newest, **fields)  # type: ignore[arg-type]
    altered = replace(house, winters=(*house.winters[:-1], newest))
    return replace(group, houses=(*group.houses[:n], altered, *group.houses[n + 1 :]))


def test_the_first_sentence_keeps_its_count_beside_its_warning() -> None:
    """A warning in brackets made the sentence too long, and “in 6 houses” fell off it."""
    group = made.made()
    stranger = replace(group.houses[-1], label="Stove house", winters=(replace(group.houses[-1].newest, burner=True),))
    first = front(told_of(replace(group, houses=(*group.houses, stranger)))).clauses[0]
    assert re.search(r"less heat for each degree, in \d\shouses\.$", first), first
    assert "…" not in first


def test_where_no_thing_can_be_told_none_is_said_to_be() -> None:
    """“Of three things we cannot tell one yet” reads as if the other two could be told."""
    group = made.made()
    few = tuple(replace(t, strata=tuple(replace(s, members=s.members[:2]) for s in t.strata)) for t in group.things)
    group = replace(group, things=few)
    assert "none can be told yet" in words(group, "index")
    assert "none can be told yet" in words(group, "things")


def test_a_harvest_that_was_not_handed_in_may_still_have_been_weighed() -> None:
    """A review that shares no harvest says of it the same as one of a house that weighed none."""
    group = with_newest(made.made(), 1, headlines=replace(made.made().houses[1].newest.headlines, harvest_kg=None))
    assert "1 of 8 houses handed in no weighed harvest." in words(group, "index")
    assert "Plot 2: no weighed harvest handed in" in words(group, "harvest")


def one_untold(**fields: object) -> Group:
    """Plot 1 tried the fan, and no change of it could be told."""
    group = made.made()
    fan = next(t for t in group.things if t.name == "fan at night")
    stratum = replace(fan.strata[0], members=fan.strata[0].members[1:])
    return with_newest(replace(group, things=(replace(fan, strata=(stratum,)),)), 0, **fields)


def test_a_house_without_a_logger_outdoors_is_told_to_hang_one() -> None:
    """Three quiet weeks would not help it."""
    h = made.made().houses[0].newest.headlines
    found = words(one_untold(lines=(), headlines=replace(h, mean_night_outdoor_c=None)), "things")
    assert "Plot 1: no logger outdoors, so no change could be told; hang one in the shade." in found


def test_older_reviews_that_judged_changes_had_a_logger_outdoors() -> None:
    """They tell no mean of the nights, but effects with the weather taken out, which take a logger outdoors."""
    group = each(made.made(6), mean_night_outdoor_c=None)
    assert all(house.newest.lines for house in group.houses)
    assert "no logger outdoors" not in words(group, "index")


def test_changes_that_only_older_reviews_judged_are_told_so() -> None:
    """They were made and judged, but without the standard error nothing can be put together."""
    group = made.made(3)
    thing = group.things[0]
    refused = tuple(
        Refusal(house=h.label, winter="2025–26", when=day, what=what, reason=NO_ERROR)
        for h, (_, _, day, what) in zip(group.houses, thing.lines, strict=False)
    )
    stratum = Stratum(outcome="watts_per_kelvin", unit="%", heated=None, members=(), refused=refused)
    group = replace(group, things=(replace(thing, strata=(stratum,)),))
    found = words(group, "things")
    assert "No thing was changed" not in found
    assert "reviewed by an older release" in found and "review the season anew" in found
    assert "came with a review of an older release" in words(group, "index")


def test_what_closes_a_house_is_told_with_the_damp_that_it_brings() -> None:
    """The damp is the price of a film: it comes before what no house could tell either."""
    group = made.made()
    film = group.things[0]
    labels = [member.house for member in film.strata[0].members]
    more = made.thing(
        made.random.Random(5), "bubble film", labels, (("lift", "K", 0.0, 0.2, 0.3), ("soil_mean", "K", 0.0, 0.2, 0.3)),
        what="bubble film inside the roof", seals=True,
    )  # fmt: skip
    heat = film.strata[0]
    open_damp = made.thing(
        made.random.Random(5), "bubble film", labels, (("night_humidity", "points", 0.5, 2.5, 2.5),), what="film"
    ).strata  # fmt: skip
    group = replace(group, things=(replace(film, strata=(heat, *more.strata, *open_damp)), *group.things[1:]))
    beside = re.search(r"Beside it: ([^.]*?\.\d[^.]*|[^.]*)", words(group, "things"))
    assert beside is not None and "night air" in beside[1].split(";")[0], beside


def test_nothing_is_not_counted_as_drier_by_nothing() -> None:
    """An end that is printed as 0 is called none: “from 0 points drier” says nothing."""
    stratum = Stratum(outcome="night_humidity", unit="points", heated=True, members=(), refused=())
    w = Wording(us=False, currency="")
    assert say.interval(stratum, -0.1, 9.7, w).replace("\u00a0", " ") == "from none to 10 points damper night air"
    assert say.interval(stratum, -9.7, 0.1, w).replace("\u00a0", " ") == "from none to 10 points drier night air"
    assert say.interval(stratum, -5.0, 9.7, w).startswith("from 5")


def test_a_band_of_no_width_is_no_missing_accuracy() -> None:
    """A house far from frost has a band of no night to no night: its accuracy was given."""
    group = each(made.made(4), nights_below_line=Band(estimate=0.0, low=0.0, high=0.0))
    found = words(group, "frost")
    assert "accuracy was not given" not in found
    assert "Where a house has no bar, its sensor's inaccuracy would alter nothing." in found
    without = each(made.made(4), nights_below_line=Band(estimate=2.0))
    assert "Where a house has no bar, the logger's accuracy was not given." in words(without, "frost")


def test_an_unheated_house_has_no_failures_of_its_heat() -> None:
    """Nor has one whose heat is not known by the hour: its 0 would be a count of nothing."""
    group = made.made(4, years=0)
    h = group.houses[0].newest.headlines
    group = with_newest(group, 0, headlines=replace(h, reasons=(("frost.failures", "heat is not known by the hour"),)))
    csv = files(group, lambda _: None)["data/frost_coldest.csv"].decode().splitlines()
    at = csv[0].split(",").index("failures of the heat")
    assert [row.split(",")[at][:1] for row in csv[1:]] == ["", "0", "0", ""]  # Plot 4 is the unheated one


def test_a_house_alone_in_its_currency_is_named() -> None:
    """It is in no picture, and was in no sentence either."""
    group = with_newest(made.made(), 1, currency="CZK")
    assert "Plot 2 is alone in its currency: it stands in the table." in words(group, "heat")


def test_no_figure_is_a_heading_where_no_winter_differs_for_certain() -> None:
    """Two winters whose interval holds nothing: the heading said “1 point damper than the winter before”."""
    group = made.made(3)
    rows = tuple(
        replace(row, at_equal=Band(estimate=1.2, low=-1.9, high=4.3)) if row.what == "humidity at night" else row
        for row in group.houses[2].newest.against_last
    )
    found = words(with_newest(group, 2, against_last=rows), "years")
    assert "Humidity at night: no certain difference from the winter before" in found
    assert "point damper than the winter before" not in found


def test_that_no_heater_failed_is_not_listed_as_unknown() -> None:
    """“None in the record” stood among what a review did not know."""
    group = each(made.made(2), reasons=(("frost.failures", "none in the record"), ("soil.mean_c", "no probe")))
    found = words(group, "record")
    assert "no probe" in found and "none in the record" not in found


def test_what_even_forty_houses_would_not_tell_is_not_proposed() -> None:
    """A heading of what to try stood over what trying cannot tell."""
    hopeless = StillOpen(
        thing="fan", outcome="night_humidity", heated=True, k=3, spread=None, one_weather=None, why=""
    )  # fmt: skip
    plan = Plan(open_=(hopeless,), turns=(), apart=(), cautions=(), things=())
    assert title(plan) == "What is still open"
    assert title(replace(plan, open_=(replace(hopeless, spread=4),))) == "What to try together"


def test_long_names_that_begin_alike_stay_apart_in_pictures() -> None:
    """Members of one garden often name their houses alike, and two of one name differ by their number only."""
    begin = "The community allotment behind the church, house of "
    cut = [cut_name(f"{begin}{end}") for end in ("Anna (1)", "Anna (2)", "Berta")]
    assert len(set(cut)) == 3
    assert all(name.startswith("The community…") for name in cut)
    assert cut_name("Plot 7") == "Plot 7"
    assert cut_name("w" * 300).endswith("…")


def test_fumes_are_warned_of_on_the_page_of_things_too() -> None:
    """Where a fuel burnt in a closed house of the group."""
    assert "carbon monoxide" not in words(made.made(), "things")
    assert "carbon monoxide" in words(with_newest(made.made(), 1, sealed_burner=True), "things")


def test_a_frost_line_that_is_not_at_freezing_is_no_frost() -> None:
    """A line at 2 °C and a coldest of 1 °C: no frost came in, though it fell under the line."""
    group = each(made.made(3), line_c=2.0, minimum_c=1.0, nights_below_line=Band(estimate=4.0, low=2.0, high=6.0))
    found = words(group, "frost")
    assert "All of 3 houses fell under their frost line" in found and "Frost came into" not in found
    mixed = with_newest(group, 0, headlines=replace(group.houses[0].newest.headlines, line_c=0.0))
    assert "2 of 3 houses fell under their frost line" in words(mixed, "index")
    assert "freezing" in words(mixed, "frost")


def test_houses_of_other_days_are_said_to_be_so() -> None:
    """A winter that is told only so far stands beside whole ones, with fewer nights and pickings by its days alone."""
    group = made.made(4)
    other = "Not all tell of the same days"
    pages = ("frost", "heat", "harvest", "houses")
    assert not any(other in words(group, slug) for slug in pages)
    now = group.houses[0].newest
    young = with_newest(group, 0, so_far=now.first_day.replace(month=12, day=28))
    assert all(other in words(young, slug) for slug in pages)


def test_a_house_without_heat_that_hung_the_film_too_is_told() -> None:
    """The film is told by the heat that it spares; what an unheated house saw of it stood in no picture or sentence."""
    group = made.made()
    film = group.things[0]
    alone = made.member(made.random.Random(2), "Plot 4", "film", 0.6, 0.0, 0.2, heated=False)
    cold = Stratum(outcome="lift", unit="K", heated=False, members=(alone,), refused=())
    heat = film.strata[:1]
    group = replace(group, things=(replace(film, strata=(*heat, cold)), *group.things[1:]))
    assert "Without heat, by itself: 0.2 to 1.0 degrees warmer nights (Plot 4)." in words(group, "things")


def test_the_sign_of_the_marked_house_is_told_in_the_chat_picture() -> None:
    """The diamond stood there without a word."""
    for mark, told in (("Plot 3", True), (None, False)):
        group = told_of(made.made(mark=mark))
        assert ("Diamond: your house." in words_of(chat.svg(sheet(group, front(group), "Title")))) is told


def test_a_dial_that_was_turned_down_is_told_by_no_share_of_the_heat() -> None:
    """Five houses that turned it down were to read that a dial gives less heat for each degree."""
    group = made.made(6)
    day, what = made.date(2025, 12, 1), "Dial down"
    down = made.line(day, what, "thermostat", "less heating", made.outcome("heat", "kWh", -2.0, 0.5))
    houses = tuple(replace(h, winters=(*h.winters[:-1], replace(h.newest, lines=(down,)))) for h in group.houses)
    members = tuple(replace(m, what=what, when=day) for m in group.things[0].strata[0].members)
    stratum = Stratum(outcome="watts_per_kelvin", unit="%", heated=None, members=members, refused=())
    lines = tuple((h.label, "2025–26", day, what) for h in houses)
    dial = replace(group.things[0], name="dial", seals=False, lines=lines, strata=(stratum,))
    told = words(replace(group, houses=houses, things=(dial, group.things[1])), "things")
    assert "Dial" not in told.partition("Which diary lines")[0]
    assert "What a dial spares goes by its degrees" in told
    assert "What a dial spares goes by its degrees" in words(replace(group, houses=houses, things=(dial,)), "things")


def test_a_calendar_that_this_group_cannot_fill_says_so() -> None:
    """Eight houses are given turns, and a line below says that 36 more would settle it."""
    assert "Fan at night: our 8 houses alone will hardly settle it; ask other gardens to join." in words(
        made.made(), "index"
    )


def test_a_group_without_a_heater_is_not_told_to_log_heat() -> None:
    """Every house was unheated, and the page asked for the heater's readings."""
    group = each(made.made(3, years=0), heat_kwh=None, heat_cost=None, loss_w_per_k=Band())
    for n in range(3):
        group = with_newest(group, n, heated=False)
    found = words(group, "heat")
    assert "No house of this group is heated" in found and "Log what" not in found


def test_one_house_more_is_not_each() -> None:
    """“1 more house, each in a fortnight of its own”."""
    one = StillOpen(thing="fan", outcome="lift", heated=True, k=4, spread=1, one_weather=1, why="")
    [said] = open_lines(Plan(open_=(one,), turns=(), apart=(), cautions=(), things=()), told_of(made.made()))
    assert "1 more house, in a fortnight of its own, would settle it" in said.replace("\u00a0", " ")


def test_ends_that_are_alike_are_told_once() -> None:
    """“From no weeks to no weeks”, and half of the vegetables “in 0 weeks”."""
    group = each(made.made(4), weeks_at_half_or_more=0)
    text = files(group, lambda _: None)["harvest.html"].decode().replace("\u00a0", " ")
    assert "Half of the household's vegetables or more in no week" in words(group, "harvest")
    assert "no weeks in each" in text and "from no weeks to no weeks" not in text
    assert "or more in 1 week<" in files(each(group, weeks_at_half_or_more=1), lambda _: None)["harvest.html"].decode()


def test_the_one_reason_why_a_house_could_not_tell_is_told() -> None:
    """Its nights after were too mild: three quiet weeks on either side it had."""
    group = made.made()
    fan = next(t for t in group.things if t.name == "fan at night")
    own = fan.strata[0].members[0]
    why = "the nights after were too much milder"
    no = Refusal(house=own.house, winter=own.winter, when=own.when, what=own.what, reason=why)
    stratum = replace(fan.strata[0], members=fan.strata[0].members[1:], refused=(no,))
    group = replace(group, things=(replace(fan, strata=(stratum,)),))
    assert f"Plot 1: no change could be told: {why}." in words(group, "things")


def test_a_crowd_of_dots_is_not_said_to_have_bars() -> None:
    """Of 58 houses the picture of the film has a dot each."""
    found = words(made.made(60), "things")
    assert "58 houses, with the weather taken out; a dot a house." in found
    assert "7 heated houses, with the weather taken out; bars: 95 % of what may be." in found
