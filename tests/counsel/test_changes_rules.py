"""Both sides of a lever at their bounds: which words an interval allows, what stays open, what it costs; by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, GAS, at, grounds, humid, lever, side, winter
from counsel.hand import change, outcome
from made_season import ZONE, channel, heater, logger, season

from reportgen.counsel import cautions, changes, changes_open, changes_words, sides
from reportgen.counsel.answers_lever import lever_why
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Ends, JudgedLever
from reportgen.counsel.types import Said
from reportgen.effects import Outcome
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.types import Changes
from reportgen.readings.lever_types import State
from reportgen.wording import Wording

NBSP = "\u00a0"
OUT = pd.Series(1.0, index=pd.date_range("2025-12-01", periods=500, freq="10min", tz=ZONE))
W, US = Wording(us=False, currency="EUR"), Wording(us=True, currency="USD")


def facts(*levers: JudgedLever, done: Any = (), sources: Any = (FAN,), **more: Any) -> Facts:
    made = Changes(changes=tuple(done), **more.pop("made", {}))
    return Facts.of(winter(effects=made, sources=sources, **more), grounds(*levers))


def told(of: JudgedLever, **more: Any) -> Said:
    """The finding of one lever."""
    at_it = facts(of, **more)
    (found,) = (*changes.kept(at_it), *changes.undone(at_it), *changes.not_worth_it(at_it))
    return found


HUMID = humid(-6.0, -2.0)


# ---- words of one interval


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.3, 1.5, f"between 0.3{NBSP}K and 1.5{NBSP}K warmer"),
        (-1.5, -0.3, f"between 0.3{NBSP}K and 1.5{NBSP}K cooler"),
        (-0.3, 1.5, f"anything from 0.3{NBSP}K cooler to 1.5{NBSP}K warmer"),
        (-0.01, 1.5, f"at most 1.5{NBSP}K warmer"),
        (-1.5, 0.01, f"at most 1.5{NBSP}K cooler"),
        (0.0, 1.5, f"at most 1.5{NBSP}K warmer"),
        (-0.001, 0.001, f"0.00{NBSP}K, neither warmer nor cooler"),
    ],
)
def test_an_interval_in_words(low: float, high: float, words: str) -> None:
    """Both ends with their ways; an end that prints as nothing leaves at most the other."""
    assert changes_words.between_words(outcome("lift", (low + high) / 2, low, high), W) == words


def test_shares_stay_shares_and_are_never_more_than_all() -> None:
    """−3 to −1 of 10 kWh: 10 to 30 % less; of a mean of 2, 150 % is told as all of it; without a mean in kWh."""
    heat = outcome("heat", -2.0, -3.0, -1.0, unit="kWh", before_mean=10.0)
    assert changes_words.between_words(heat, W) == f"between 10{NBSP}% and 30{NBSP}% less"
    assert f"100{NBSP}%" in changes_words.between_words(
        outcome("heat", -2.0, -3.0, -1.0, unit="kWh", before_mean=2.0), W
    )
    assert f"3.0{NBSP}kWh a day" in changes_words.between_words(outcome("heat", -2.0, -3.0, -1.0, unit="kWh"), W)
    one = outcome("night_humidity", 3.0, 1.0, 5.0)
    assert f"1{NBSP}point " not in changes_words.amount(one, 5.0, W)
    wide = outcome("night_humidity", 3.0, -9.0, 15.0)
    assert (
        changes_words.amount(wide, 1.0, W) == f"1{NBSP}point" and changes_words.amount(wide, 2.0, W) == f"2{NBSP}points"
    )


def test_effects_carry_their_sign_and_the_shown_unit() -> None:
    """+0.9 K of 0.3 to 1.5; in °F × 9/5; nothing has no sign."""
    warm = outcome("lift", 0.9, 0.3, 1.5)
    assert changes_words.effect_words(warm, W) == f"+0.9{NBSP}K"
    assert changes_words.interval_words(warm, W) == f"+0.3 to +1.5{NBSP}K"
    assert changes_words.effect_words(warm, US) == f"+1.6{NBSP}°F"
    assert (
        changes_words.signed(-0.04, 1) == "0.0"
        and changes_words.signed(-0.06, 1) == "−0.1"
        and changes_words.signed(2, 0) == "+2"
    )
    assert (
        changes_words.direction(warm) == "warmer" and changes_words.direction(outcome("lift", -0.1, -1, 1)) == "cooler"
    )
    assert changes_words.days_words(warm) == f"21{NBSP}nights before, 21 after"
    assert changes_words.days_words(warm, alternates=True) == f"21{NBSP}nights off, 21 on"
    assert changes_words.unit_of(outcome("night_humidity", 1, 0, 2), W) == "points"
    assert changes_words.unit_of(outcome("heat", 1, 0, 2, unit="kWh"), W) == "kWh a day"


def test_what_was_hoped_and_when() -> None:
    """Nothing noted; an idea; before; afterwards."""
    assert changes_words.hope_words(change("a", hoped_for=())) == "nothing noted"
    assert changes_words.hope_words(change("a", kind="idea")) == "warmer nights"
    assert changes_words.hope_words(change("a")).endswith("before")
    assert changes_words.hope_words(change("a", hope_written_before=False)).endswith("afterwards")


# ---- the finding of a lever


def test_a_lever_is_told_with_its_money_its_nights_and_its_price() -> None:
    """EUR 50 to 100 since, 60 to 120 a winter, cost 68; 21 nights off and 20 on; beside it what left out zero."""
    film = lever(
        "Film",
        spared_money=Ends(low=50.0, high=100.0),
        winter_money=Ends(low=60.0, high=120.0),
        cost=68.0,
        weight=7.0,
        price=(side("night_humidity", 3.0, 10.0), side("lift", -1.0, 1.0, unit="K")),
    )
    found = told(film)
    for words in (
        f"EUR{NBSP}50 to 100 since",
        f"EUR{NBSP}60 to 120",
        f"EUR{NBSP}68.00",
        f"21{NBSP}nights off and 20 on",
        "humidity at night between 3",
    ):
        assert words in found.evidence
    assert "warmth at night" not in found.evidence and "went into warmth" not in found.evidence
    assert (found.weight, found.line, found.token, found.about, found.subject) == (7.0, 3, "money", "Film", "lever")
    assert found.stake is None and found.caution is None and found.next_step == "Keep it."
    flat = told(lever("Film", spared_money=Ends(low=50.0, high=100.0), flat_out=True))
    assert (
        "went into warmth" in flat.evidence
        and "went into warmth" not in told(lever("Film", flat_out=True, cost=3.0)).evidence
    )
    assert told(lever("Film", undone_in_season=True)).subject == "undone"
    assert told(lever("Film", lines=())).line is None and told(lever("Film", lines=())).sources == ()


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (50.0, 100.0, f"EUR{NBSP}50 to 100"),
        (0.4, 100.0, f"at most EUR{NBSP}100"),
        (None, 100.0, f"at most EUR{NBSP}100"),
        (-5.0, 100.0, f"at most EUR{NBSP}100"),
        (50.0, None, f"at least EUR{NBSP}50"),
        (-9.0, 0.0, "nothing"),
        (0.6, 100.0, f"EUR{NBSP}1 to 100"),
    ],
)
def test_two_ends_of_money(low: float | None, high: float | None, words: str) -> None:
    """What prints as nothing is at most; an end that is not known at least."""
    assert f"spared {words} since" in told(lever("Film", spared_money=Ends(low=low, high=high))).evidence


@pytest.mark.parametrize(("widened", "said"), [(1.05, True), (1.04, False)])
def test_switches_that_disagree_widen_and_say_so(widened: float, said: bool) -> None:
    """From 5 % on."""
    assert ("do not agree" in told(lever("Tape", widened=widened, **HUMID)).evidence) == said
    assert "interval" not in told(lever("Tape", counted_days=(0, 0), **HUMID)).evidence
    assert f"no{NBSP}nights off and 4 on" in told(lever("Tape", counted_days=(0, 4), **HUMID)).evidence


def test_its_stake_caution_and_step_follow_its_verdict() -> None:
    """A condition is money; what is undone harms by what it was to do; sealing and fuel have their cautions."""
    cond = told(
        lever(
            "Film",
            "keep with a condition",
            condition="aired by day; 3 points damper",
            price=(side("night_humidity", 3.0, 10.0),),
        )
    )
    assert (cond.stake, cond.next_step) == ("money", "Keep it, but aired by day.") and "Beside it" not in cond.evidence
    assert "(aired by day; 3 points damper)" in cond.claim
    assert told(lever("Film", "keep with a condition")).next_step == "Keep it, on that condition."
    for price in ("0.8 to 2.2 K cooler at night", "pays back in 2 to 5 winters, against its 3 years"):
        known = told(lever("Dial", "keep with a condition", condition=price)).next_step
        assert known == f"Keep it, knowing its other side: {price}."  # a price is nothing that can be done
    assert (
        told(lever("Film", "leave undone")).stake == "money"
        and told(lever("Tape", "leave undone", **HUMID)).stake == "damp"
    )
    assert told(lever("T", "leave undone", outcome="lift", unit="K", relative=None)).stake == "growth"
    off = lever("Tape", "not while that burns here", on_now=False, unsafe_with=("gas stove",), **HUMID)
    assert told(off).next_step.startswith("Leave it off") and told(off).caution == cautions.FUEL
    on = lever("Tape", "not while that burns here", **HUMID)
    assert told(on).next_step.startswith("Undo it") and told(on).caution is None
    assert told(lever("Stove", "not again", **HUMID)).caution == cautions.FUEL
    assert told(lever("Film"), sources=(GAS,)).caution == cautions.SEAL
    assert told(lever("Film", touches=("heater",))).caution == cautions.MAINS
    assert told(lever("Film", "not worth it"), sources=(GAS,)).caution is None
    assert told(lever("Film", touches=("bed",)), sources=(GAS,)).caution is None


def test_without_an_estimate_only_the_rule_of_safety_speaks() -> None:
    """No number, no table row; each of the four must be known."""
    for gone in ("outcome", "effect", "low", "high"):
        found = told(lever("Tape", "not again", **(HUMID | {gone: None})))
        assert found.figure == "—" and found.sources == () and "rule of safety" in found.how_sure
        assert found.figure_note == "not told" and "interval" not in found.evidence


def test_how_sure_says_what_the_study_tried() -> None:
    """Switched on and off is a hint; a hope named afterwards is said."""
    tape = lever("Tape", **HUMID)
    assert told(tape, done=(change("Tape", line=3, switches=4),)).how_sure.startswith("A hint")
    assert "afterwards" in told(tape, done=(change("Tape", line=3, hope_written_before=False),)).how_sure
    assert (
        "afterwards" not in told(tape, done=(change("Tape", line=3, hope_written_before=False, hoped_for=()),)).how_sure
    )
    assert "afterwards" not in told(tape, done=(change("Tape", line=9, hope_written_before=False),)).how_sure


def test_cells_of_a_lever_are_effect_and_both_ends() -> None:
    """In points; of a share the ends in per cent of the days before."""
    found = {s.column: s.value for s in told(lever("Tape", **HUMID)).sources}
    assert found == {"effect": -4.0, "low": -6.0, "high": -2.0}
    before = change("Film", outcome("watts_per_kelvin", -40.0, -50.0, -30.0, unit="W/K", before_mean=100.0), line=3)
    share = {s.column: s.value for s in told(lever("Film"), done=(before,)).sources}
    assert share == {"effect": -40.0, "low, % of without it": -50.0, "high, % of without it": -30.0}
    assert "between 30" in told(lever("Film"), done=(before,)).claim
    refused = change("Film", outcome("watts_per_kelvin", 0, 0, 0, before_mean=100.0, refused="no"), line=3)
    assert "low" in {s.column for s in told(lever("Film"), done=(refused,)).sources}


def test_what_counts_as_tried() -> None:
    """Changes, spells, and upkeep that says what it touches."""
    kinds = [
        ("change", ()),
        ("spell", ()),
        ("upkeep", ("air",)),
        ("upkeep", ()),
        ("idea", ("air",)),
        ("event", ("air",)),
    ]
    done = [change(f"{n}", kind=kind, touches=touches) for n, (kind, touches) in enumerate(kinds)]
    assert [c.what for c in changes.tried(done)] == ["0", "1", "2"]


# ---- what stays open


def opened(*levers: JudgedLever, **more: Any) -> Said | None:
    return changes_open.cannot_tell(facts(*levers, **more))


def test_what_cannot_be_told_is_counted_among_what_was_judged() -> None:
    """2 of 3; not judged does not count; the only one is named; safety stands beside."""
    two = (lever("a", "cannot tell"), lever("b", "change once"), lever("c"), lever("d", "not judged"))
    found = opened(*two)
    assert found is not None and (found.figure, found.weight, found.about) == ("2 of 3", 2.0, None)
    assert f"2 of 3{NBSP}things" in found.claim and "in any case" not in found.claim
    assert [s.value for s in found.sources] == [2.0, 3.0]
    one = opened(lever("a", "cannot tell"))
    assert one is not None and "The one thing" in one.claim and one.about == "a"
    beside = opened(lever("a", "cannot tell"), lever("b", "not again"))
    assert beside is not None and "in any case" in beside.claim and beside.about == "a"
    assert opened(lever("c")) is None


def test_few_are_told_with_their_reason_many_by_their_verdict() -> None:
    """Three with reasons; four in groups; a condition goes before a reason."""
    three = [lever(name, "cannot tell", reasons={"verdict": f"why {name}"}) for name in "abc"]
    found = opened(*three)
    assert found is not None and "“b”: cannot tell, why b." in found.evidence
    cond = opened(lever("a", "change once", condition="in autumn", reasons={"verdict": "x"}))
    assert cond is not None and "“a”: change once, in autumn." in cond.evidence
    four = opened(*three, lever("d", "try on and off"))
    assert four is not None and "why" not in four.evidence.replace("says why", "") and "“a”; “b”; “c”" in four.evidence
    assert four.evidence.startswith("Cannot tell: ") and ". Try on and off: “d”" in four.evidence


def test_the_step_for_what_stays_open() -> None:
    """A trial if one is planned; a second bed for the bed's own; the logger outdoors that is missing; else patience."""
    trial = opened(lever("a", "cannot tell"), *(lever(name, "try on and off") for name in "bcd"))
    assert trial is not None and "“b”; “c” on and off next season" in trial.next_step.replace("winter", "season")
    soil = opened(lever("a", "cannot tell", outcome="soil_mean"), lever("b", "cannot tell", outcome="soil_swing"))
    assert soil is not None and "one bed" in soil.next_step
    unlike = {"verdict": "the nights after were too much colder than those before to be set side by side"}
    weather = opened(
        lever("a", "cannot tell", reasons=unlike), channels=(channel(OUT, where="outdoor", logger="yard"),),
        toml={"loggers": (logger("yard", where="outdoor"),)},
    )  # fmt: skip
    assert weather is not None and weather.next_step.startswith("Alter nothing for it: the weather")
    mixed = opened(lever("a", "cannot tell", outcome="soil_mean"), lever("b", "cannot tell"))
    assert mixed is not None and "Hang one logger outdoors" in mixed.next_step


def test_no_change_no_hope_and_nothing_written() -> None:
    """Nothing done; done without a hope; a quiet date that looks like a change."""
    assert changes_open.none(facts(done=(change("a"),))) is None and changes_open.none(facts()) is not None
    done = (change("a", verdict="not judged"), change("b", verdict="not judged"))
    found = changes_open.no_hope(facts(done=done))
    assert found is not None and f"2{NBSP}changes" in found.claim and found.figure == "2"
    assert changes_open.no_hope(facts(done=(*done, change("c")))) is None and changes_open.no_hope(facts()) is None
    odd = SimpleNamespace(when=dt.date(2026, 1, 21), outcome="lift", dates=8, half_widths=2.1)
    asked = changes_open.unwritten(facts(made={"odd_date": odd}))
    assert (
        asked is not None
        and asked.weight == 2.1
        and f"8{NBSP}dates tried" in asked.evidence
        and "2.1 times" in asked.evidence
    )
    assert "that is not in the diary" not in asked.claim and changes_open.unwritten(facts()) is None


# ---- both sides in short


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.0, 6.0, f"0 to 6{NBSP}points damper"),
        (-6.0, 0.0, f"0 to 6{NBSP}points drier"),
        (-6.0, 0.4, f"0 to 6{NBSP}points drier"),
        (-0.4, 6.0, f"0 to 6{NBSP}points damper"),
        (-1.9, 1.2, f"between 1.9{NBSP}points drier and 1.2{NBSP}points damper"),
        (-2.0, 1.2, f"between 2{NBSP}points drier and 1{NBSP}point damper"),
    ],
)
def test_points_are_whole_unless_both_ends_are_small(low: float, high: float, words: str) -> None:
    """From two points on without decimals."""
    assert sides.hoped_words(winter(), lever("Tape", **humid(low, high))) == words


def test_what_is_better_is_said_first() -> None:
    """Warmer is better, so it leads; degrees in °F × 9/5; less heat of nothing known is silent."""
    warm: dict[str, Any] = {"outcome": "lift", "unit": "K", "relative": None, "low": -0.5, "high": 2.0}
    assert (
        sides.hoped_words(winter(), lever("Film", **warm))
        == f"between 2.0{NBSP}degrees warmer at night and 0.5{NBSP}degrees cooler at night"
    )
    us = winter(of=season(show="us"))
    assert f"3.6{NBSP}degrees warmer" in sides.hoped_words(us, lever("Film", **warm))
    assert sides.hoped_words(winter(), lever("Film", relative=None)) == ""  # a share of nothing known
    for gone in (
        {"outcome": None},
        {"outcome": "other"},
        {"low": None, "relative": None},
        {"high": None, "relative": None},
    ):
        assert sides.hoped_words(winter(), lever("Film", **gone)) == ""
    part = lever("Film", relative=Ends(low=None, high=0.4), outcome="lift", unit="K", low=1.0, high=2.0)
    assert sides.hoped_words(winter(), part) == f"1.0 to 2.0{NBSP}degrees warmer at night"
    seen = Changes(changes=(change("Film", outcome("watts_per_kelvin", -2, -3, -1, before_mean=10.0), line=3),))
    known = lever("Film", relative=None, low=-3.0, high=-1.0)
    assert sides.hoped_words(winter(effects=seen), known) == f"10 to 30{NBSP}% less heat for each degree"


def test_prices_one_of_a_family_the_surest_first_two_at_most() -> None:
    """Sure ones before the rest, in their order; the family of what was hoped for is no price."""
    r = winter()
    many = lever(
        "Film",
        price=(
            side("lift", -2.0, -1.0, unit="K"),
            side("daily_light", -15.0, -9.0),
            side("moisture", 1.0, 2.0, unit="g"),
            side("night_humidity", 3.0, 10.0),
            side("heat", 1.0, 9.0),
        ),
    )
    assert sides.price_words(r, many) == (f"3 to 10{NBSP}points damper", f"9 to 15{NBSP}% less light")
    care = lever("Film", price=(side("night_humidity", 3.0, 10.0), side("daily_light", -15.0, -9.0, beyond_care=True)))
    assert sides.price_words(r, care)[0].endswith("less light")
    assert sides.price_words(r, care, off=True) == ()  # without it: drier and lighter
    better = lever("Film", price=(side("night_humidity", -10.0, -3.0),))
    assert sides.price_words(r, better) == () and sides.price_words(r, better, off=True) == (
        f"3 to 10{NBSP}points damper",
    )
    likely = lever("Film", price=(side("night_humidity", -1.0, 6.0),))
    assert sides.price_words(r, likely) == (f"perhaps up to 6{NBSP}points damper",)
    assert sides.price_words(r, lever("Film", price=(side("night_humidity", -6.0, 6.0),))) == ()
    light = lever("Film", price=(side("daily_light", -15.0, 3.0),))
    assert sides.price_words(r, light) == (f"perhaps up to 15{NBSP}% less light",)
    for silent in (
        side("daily_light", -15.0, -9.0, before_mean=float("nan")),
        side("other", 1.0, 2.0),
        side("watts_per_kelvin", 1.0, 2.0),
    ):
        assert sides.price_words(r, lever("Film", price=(silent,))) == ()
    assert sides.price_words(r, lever("Film", price=(side("daily_light", -150.0, -90.0),))) == (
        f"90 to 100{NBSP}% less light",
    )


def test_money_since_when_and_for_what() -> None:
    """EUR 50 to 100 since January for 68; a lever on from the first day has no since; 4.50 keeps its cents."""
    film: dict[str, Any] = {"spared_money": Ends(low=50.0, high=100.0)}
    assert sides.money_words(lever("Film", cost=68.0, **film), W) == f"EUR{NBSP}50 to 100 since January for 68"
    assert sides.money_words(lever("Film", cost=4.5, **film), W).endswith("for 4.50")
    assert sides.money_words(lever("Film", cost=9.0, **film), W).endswith("for 9") and sides.money_words(
        lever("Film", cost=10.5, **film), W
    ).endswith("for 10")
    assert sides.money_words(lever("Film", cost=0.0, **film), W).endswith("at no cost")
    assert sides.money_words(lever("Film", **film), W).endswith("January")
    first = (State(from_=at("2025-10-11"), to=at("2026-04-13", "00:00"), on=True),)
    assert "since" not in sides.money_words(lever("Film", states=first, **film), W)
    assert "since" not in sides.money_words(lever("Film", on_now=False, **film), W)
    assert (
        sides.money_words(lever("Film"), W)
        == sides.money_words(lever("Film", **film), Wording(us=False, currency=""))
        == ""
    )
    assert sides.money_words(lever("Film", spared_money=Ends(low=5.0, high=None)), W) == ""


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (None, None, ""),
        (5.0, None, f"at least EUR{NBSP}5"),
        (-5.0, 0.0, "no money"),
        (0.4, 9.0, f"at most EUR{NBSP}9"),
        (None, 9.0, f"at most EUR{NBSP}9"),
        (0.6, 9.0, f"EUR{NBSP}1 to 9"),
        (8.6, 9.4, f"EUR{NBSP}9"),
    ],
)
def test_ends_of_money(low: float | None, high: float | None, words: str) -> None:
    """What prints alike is one."""
    assert sides.ends_of_money(Ends(low=low, high=high), W) == words


def test_an_outcome_is_its_own_type() -> None:
    """Of the lever: the nights off and on, and what it was before."""
    made = changes.as_outcome(facts(), lever("Tape", **HUMID))
    assert isinstance(made, Outcome) and (made.days_before, made.days_after, made.low) == (21, 20, -6.0)


def test_the_picture_is_the_anchor_where_a_judged_lever_has_an_estimate() -> None:
    """Not of one that is not judged, that hoped for nothing, or that was refused."""
    good, none = outcome("night_humidity", -4.0, -6.0, -2.0, declared=True), ()

    def anchor(
        *outcomes: Outcome, verdict: str = "helped", lines: tuple[int, ...] = (3,), of: Any = "keep"
    ) -> str | None:
        one = LeverEffect(lines=lines, hope="drier air", outcomes=outcomes, verdict=verdict, care=3.0)  # type: ignore[arg-type]
        other = lever("Film", lines=(9,))
        at_it = facts(other, lever("Tape", of, **HUMID), made={"levers": (one,)})
        return changes.kept(at_it)[0].anchor

    assert anchor(good) == anchor(good, lines=()) == "changes_effects"
    assert anchor(good, verdict="not judged") == anchor(good, of="not judged") == anchor(*none) == "changes_rows"
    assert anchor(outcome("night_humidity", 0.0, 0.0, 0.0, declared=True, refused="no")) == "changes_rows"
    assert anchor(outcome("night_humidity", -4.0, -6.0, -2.0)) == "changes_rows"


def test_why_no_change_can_be_judged_begins_as_a_sentence() -> None:
    """The reason of the changes, else that the diary holds none; the season's days."""
    found = changes_open.none(facts(made={"reason": "no diary was kept"}))
    assert found is not None and found.evidence.startswith("No diary was kept, from 11")
    bare = changes_open.none(facts())
    assert bare is not None and bare.evidence.startswith("The diary holds no change")


def test_a_share_of_the_heat_is_never_said_of_the_humidity() -> None:
    """A dehumidifier whose heat for each degree lies between 57 % less and 18 % more, and whose nights were 0.3 to 17
    points drier: its answer says the points."""
    dry = lever("Dehumidifier", **(humid(-17.4, -0.3) | {"relative": Ends(low=-0.18, high=0.57)}))
    words = sides.hoped_words(winter(), dry)
    assert words == f"0 to 17{NBSP}points drier"
    assert "57" not in words and "18" not in words


def test_what_was_not_meant_to_spare_heat_is_not_praised_for_heat_it_may_not_have_spared() -> None:
    """Between 77 more and 683 less: of a film hoped to save heat that is at most 683, of a dehumidifier nothing."""
    ends = Ends(low=-77.0, high=683.0)
    dry = lever("Dehumidifier", **(HUMID | {"spared_money": ends, "winter_money": None, "saves_heat": False}))
    assert "spared" not in told(dry).evidence and sides.money_words(dry, W) == ""
    film = lever("Film", spared_money=ends, saves_heat=True)
    assert "at most" in told(film).evidence and sides.money_words(film, W)
    sure = lever("Curtain", spared_money=Ends(low=20.0, high=60.0), saves_heat=False)
    assert "spared" in told(sure).evidence


def test_what_an_appliance_drew_stands_beside_what_it_gave() -> None:
    """117 kWh at 2.10: EUR 246 of power; of a lever that is no appliance nothing."""
    drawn = heater([("2025-12-12", "2026-01-15", 117.0, 245.8)], name="dehumidifier")
    r = winter(appliances=(drawn,))
    dry = lever("Dehumidifier on", thing="dehumidifier", **humid(-17.4, -0.3))
    assert sides.power_words(r, dry) == f"EUR{NBSP}246 of power"
    assert lever_why(r, dry) == f"0 to 17{NBSP}points drier, for EUR{NBSP}246 of power"
    assert sides.power_words(r, lever("Film")) == "" and sides.power_words(winter(), dry) == ""


@pytest.mark.parametrize(("sources", "said"), [((GAS,), True), ((FAN,), False), ((), False)])
def test_nothing_is_sealed_in_where_nothing_burns(sources: tuple[Any, ...], said: bool) -> None:
    """A carpet over a cold frame needs no flue."""
    told = changes_open.caution(facts(sources=sources), change("Carpet", touches=("envelope",)))
    assert (told == cautions.SEAL) is said and (told is None) is not said
