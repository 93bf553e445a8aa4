"""From diary lines to effects: what is judged, on what, and what stands beside it; on a season without a simulator."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import lru_cache
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd
import pytest
from effects.heaters import hourly
from effects.in_memory import entry
from made_season import ZONE, channel, logger, readings, season

from reportgen.effects.causes import Cause
from reportgen.effects.estimate import DayArrays, outcome_of
from reportgen.effects.judge import judge, season_heat_cost
from reportgen.effects.outcomes import OUTCOMES
from reportgen.effects.placebo import beaten, do_nothing
from reportgen.effects.reasons import NUMBERS, reasons_of, unjudged_hopes, unjudged_reasons
from reportgen.effects.types import Changes, DoNothing, Effect, Outcome
from reportgen.effects.unwritten import FEWEST, half_widths, odd_date, oddest
from reportgen.readings.chains import chains
from reportgen.readings.levers import levers_of
from reportgen.readings.types import DiaryEntry, Readings, Watering

FIRST, DAYS = dt.date(2026, 1, 1), 90
OF = season("2026-01-01", "2026-03-31", logger=(logger("bench"), logger("out", where="outdoor")))
HOURS = pd.date_range("2026-01-01", "2026-04-02", freq="1h", tz=ZONE)
RNG = np.random.default_rng(17)
OUTDOOR = np.repeat(2.0 + 3.0 * RNG.standard_normal(93), 24)[: len(HOURS)]
INSIDE = 6.0 + 0.6 * OUTDOOR + np.repeat(0.4 * RNG.standard_normal(93), 24)[: len(HOURS)]


def day(month: int, date: int) -> dt.date:
    return dt.date(2026, month, date)


FILM = entry(
    day(2, 10), "film", line=2, time=dt.time(12), hoped_for=("warmer nights", "better growth"), touches=("envelope",),
    written=day(2, 10), reversible=True, cost=40.0, years=4.0, thing="skin",
)  # fmt: skip


def book(*diary: DiaryEntry, raised_k: float = 1.5, **more: Any) -> Readings:
    """Ninety days of hourly air, warmer inside from noon of 10 February on."""
    warm = INSIDE + raised_k * (pd.Timestamp("2026-02-10 12:00", tz=ZONE) <= HOURS)
    inside = channel(pd.Series(warm, HOURS), logger="bench")
    outside = channel(pd.Series(OUTDOOR, HOURS), logger="out", where="outdoor")
    usual: dict[str, Any] = {"diary": diary, "levers": levers_of(chains(diary, "diary.csv")[0], OF)}
    return readings(OF, channels=(inside, outside), **(usual | more))


@lru_cache(maxsize=8)
def told(*diary: DiaryEntry) -> Changes:
    return judge(book(*diary))


def test_a_change_is_judged_on_its_first_hope() -> None:
    """Warmer by 1.5 K: helped, on the lift; the hope no logger can judge is named; what the diary says stands by it."""
    (found,) = told(FILM).changes
    hoped = found.declared
    assert hoped is not None and (hoped.outcome, found.verdict) == ("lift", "helped")
    assert hoped.low < 1.5 < hoped.high and found.at_most == hoped.high and found.saves_at_most is None
    assert [o.outcome for o in found.outcomes if o.declared] == ["lift"]
    assert tuple(o.outcome for o in found.outcomes) == OUTCOMES
    assert (found.care, found.small, found.unjudged_hopes) == (0.5, False, ("better growth",))
    assert (found.when, found.what, found.kind, found.line) == (day(2, 10), "film", "change", 2)
    assert (found.thing, found.cost, found.years, found.reversible) == ("skin", 40.0, 4.0, True)
    assert found.hope_written_before is True and found.until is None and found.switches == ()
    assert found.reasons["undoes"] == "it takes no earlier line back" and found.undoes is None
    assert not found.too_slow and hoped.nights is not None


def test_how_many_were_judged() -> None:
    """Of a change that helped, one without a hope, an idea and one refused, the first alone could have got a sign."""
    bare = entry(day(3, 20), "vents", line=3)
    late = entry(day(3, 30), "mat", line=4, hoped_for=("warmer nights",))
    idea = entry(day(1, 5), "fleece", line=5, kind="idea", hoped_for=("warmer nights",), reversible=True)
    found = told(FILM, bare, late, idea)
    assert found.judged == 1 and not any(e.small for e in found.changes)
    assert [(e.what, e.verdict) for e in found.changes] == [
        ("fleece", "not judged"), ("film", "helped"), ("vents", "not judged"), ("mat", "cannot tell"),
    ]  # fmt: skip
    assert [one.what for one in found.could_try] == ["film", "fleece"]
    assert found.no_trial == {
        "mat": "the diary does not say whether it can be undone: write yes or no under “reversible”"
    }
    assert found.reason == "" and found.heat_cost is None
    assert len(found.levers) == 3


def test_one_that_could_have_given_a_sign_counts_as_judged() -> None:
    """An interval that holds zero and more than matters: cannot tell, and judged all the same."""
    other = replace(FILM, date=day(1, 26), hoped_for=("warmer nights",))
    found = judge(book(other, raised_k=0.0))
    assert found.changes[0].verdict in ("cannot tell", "no sign") and found.judged == 1


def test_an_idea_that_hung_on_some_nights_is_tried_as_what_it_is() -> None:
    """Its spells are the lever; the idea of the same words is not offered beside it."""
    more: dict[str, Any] = {"touches": ("envelope",), "hoped_for": ("warmer nights",), "reversible": True}
    idea = entry(day(1, 5), "Curtain", line=2, kind="idea", **more)
    spell = entry(day(2, 10), "curtain", line=3, kind="spell", until=day(2, 20), **more)
    assert [one.idea for one in told(idea).could_try] == [True]
    assert not any(one.idea for one in told(idea, spell).could_try)


def test_bystanders_are_listed_with_their_reason() -> None:
    """Events, ideas and upkeep that touches nothing are not judged; upkeep that touches something is."""
    rows = (
        entry(day(1, 5), "power cut", line=2, kind="event"),
        entry(day(1, 9), "gutter", line=3, kind="upkeep"),
        entry(day(2, 10), "leak", line=4, kind="upkeep", touches=("envelope",), hoped_for=("warmer nights",)),
        entry(day(3, 15), "away", line=5, kind="away"),
    )
    found = {e.what: e for e in told(*rows).changes}
    assert set(found) == {"power cut", "gutter", "leak"}
    assert found["power cut"].reasons["verdict"] == "an event; its days are left out of every comparison"
    assert found["gutter"].reasons["outcomes"] == "the diary does not say what it touches"
    assert found["leak"].verdict != "not judged" and found["gutter"].outcomes == ()


def test_a_group_is_named_and_a_spell_has_its_switches() -> None:
    """Two changes two days apart name each other; rows of a spell are one, with first and last night and no dots."""
    pair = told(FILM, entry(day(2, 12), "vents", line=3, time=dt.time(12)))
    assert [e.grouped_with for e in pair.changes] == [("vents",), ("film",)]
    rows = tuple(
        entry(
            day(2, d),
            "curtain",
            line=n,
            kind="spell",
            until=day(2, d + 9),
            hoped_for=("warmer nights",),
            time=dt.time(12),
        )
        for n, d in ((2, 1), (3, 15))
    )
    (spell,) = told(*rows).changes
    assert spell.switches == ((day(2, 1), day(2, 10)), (day(2, 15), day(2, 24)))
    assert spell.do_nothing == () and spell.grouped_with == () and spell.declared is not None


def test_dots_stand_on_quiet_dates() -> None:
    """Every fifth date more than a week from the diary; of a change without a hope none."""
    (found,) = told(FILM).changes
    assert found.do_nothing and all(abs((dot.when - day(2, 10)).days) > 7 for dot in found.do_nothing)
    assert {(dot.when - FIRST).days % 5 for dot in found.do_nothing} == {0}
    assert told(entry(day(2, 10), "film", line=2)).changes[0].do_nothing == ()


def test_what_else_happened_in_its_window() -> None:
    """Three weeks on either side of 10 February: 20 January is in, 19 January is out unless it lasts; ideas and
    absences are nothing."""
    rows = (
        FILM,
        entry(day(1, 18), "too early", line=3, kind="event"),
        entry(day(1, 10), "lasting", line=4, kind="event", until=day(1, 20)),
        entry(day(1, 20), "first day", line=5, kind="event"),
        entry(day(3, 1), "first day", line=6, kind="event"),
        entry(day(3, 3), "last day", line=7, kind="event"),
        entry(day(3, 4), "too late", line=8, kind="event"),
        entry(day(2, 20), "idea", line=9, kind="idea"),
        entry(day(2, 21), "away", line=10, kind="away"),
    )
    film = next(e for e in told(*rows).changes if e.what == "film")
    assert film.meanwhile == ("lasting", "first day", "last day")


def test_a_line_taken_back_is_named_by_its_day() -> None:
    """Film off takes back the line of 10 February."""
    off = entry(day(3, 10), "film off", line=3, time=dt.time(12), undoes="film")
    effects = {e.what: e for e in told(FILM, off).changes}
    assert effects["film off"].undoes == day(2, 10) and effects["film"].undoes is None
    assert "undoes" not in effects["film off"].reasons


@pytest.mark.parametrize(
    ("written", "hoped", "before"),
    [
        (day(2, 10), ("warmer nights",), True), (day(2, 11), ("warmer nights",), False),
        (None, ("warmer nights",), None), (day(2, 9), (), None),
    ],
)  # fmt: skip
def test_whether_the_hope_was_written_before(written: Any, hoped: Any, before: bool | None) -> None:
    """On the day itself is before; a day later is not."""
    (found,) = judge(book(replace(FILM, written=written, hoped_for=hoped))).changes
    assert found.hope_written_before is before


def test_a_season_without_lines_says_why() -> None:
    """No diary, one without a line, one of absences alone."""
    assert judge(book(books={"diary": False})).reason == judge(book(books={})).reason == "no diary was kept"
    assert judge(book(books={"diary": True})).reason == "the diary has no line"
    assert told(entry(day(2, 1), "away", kind="away")).reason == "the diary holds no change"


def test_what_the_heat_cost() -> None:
    """Half a unit of money a kWh: 12 of 24 kWh; no heater, or heat without a price: not known."""
    assert season_heat_cost(book(heating=(hourly("2026-01-01", [1.0] * 24),))) == pytest.approx(12.0)
    assert season_heat_cost(book()) is None
    assert season_heat_cost(book(heating=(hourly("2026-01-01", [1.0] * 24, price=float("nan")),))) is None


def test_what_stands_beside_the_changes() -> None:
    """An unwritten step of 1.5 K on 10 February: the oddest of the quiet dates lies within three days of it. Nights
    after watering, every third, against the others: as damp as those by the made humidity, not knowing of it."""
    humid = channel(
        pd.Series(80.0 - OUTDOOR + np.sin(np.arange(len(HOURS))), HOURS), "relative_humidity", logger="bench"
    )
    days = [FIRST + dt.timedelta(days=n) for n in range(0, DAYS, 3)]
    watering = tuple(Watering(line=2, date=one, time=None, bed=None, litres=None) for one in days)
    plain = book(watering=watering)
    found = judge(replace(plain, channels=(*plain.channels, humid)))
    assert found.odd_date is not None and found.odd_date.outcome == "lift"
    assert abs((found.odd_date.when - day(2, 10)).days) <= 3 and found.odd_date.half_widths >= 2.0
    (wet,) = found.kinds_of_night
    assert (wet.name, wet.nights) == ("after watering", len(days)) and wet.low < 0.0 < wet.high
    assert judge(book(raised_k=0.0)).kinds_of_night == ()


N = 60
DAY_NUMBERS = np.arange(100.0, 100.0 + N)


def day_arrays(**more: Any) -> DayArrays:
    rng = np.random.default_rng(5)
    outdoor = rng.standard_normal(N)
    usual: dict[str, Any] = {
        "days": DAY_NUMBERS, "outcomes": {"lift": 4.0 - 0.4 * outdoor + rng.standard_normal(N)},
        "weather": {"ton": outdoor}, "heated": np.ones(N), "units": {"lift": "K"}, "missing": {}, "causes": (),
        "lost": frozenset(),
    }  # fmt: skip
    return DayArrays(**(usual | more))


def test_a_do_nothing_date_is_a_change_of_that_day() -> None:
    """Spoiled on the day before and its own, as a change without a time; those without seven days on a side are out."""
    quiet = [dt.date.fromordinal(n) for n in (104, 130, 155)]
    (dot,) = do_nothing("lift", quiet, day_arrays())
    theirs = outcome_of(Cause(entries=(), first=129, last=130), "lift", day_arrays())
    assert dot == DoNothing(when=quiet[1], effect=theirs.effect, low=theirs.low, high=theirs.high)


def dot(effect: float, half: float = 1.0, when: int = 1) -> DoNothing:
    return DoNothing(when=day(1, when), effect=effect, low=effect - half, high=effect + half)


def test_how_many_dates_were_beaten() -> None:
    """Smaller by size, whatever the sign; as large is not beaten."""
    assert beaten(-2.0, [dot(1.0), dot(-1.9), dot(2.0), dot(-3.0)]) == 2


def test_half_widths_of_an_effect() -> None:
    """−3 ± 1.5 measures two; without a width it is as large as can be."""
    assert half_widths(dot(-3.0, 1.5)) == 2.0
    assert half_widths(dot(1.0, 0.0)) == pytest.approx(1e9)


def test_the_oddest_date_measures_two_half_widths() -> None:
    """2 is odd, 1.99 is not; of equals the later."""
    assert oddest([dot(2.0), dot(1.0)]) == dot(2.0)
    assert oddest([dot(1.99), dot(-1.0)]) is None
    assert oddest([dot(-2.5, when=3), dot(2.5, when=9), dot(2.5, when=4)]) == dot(2.5, when=9)


def test_the_odd_date_is_looked_for_in_the_house_itself() -> None:
    """Watts per kelvin where eight dates have them, else the lift; one that is not odd there is not looked for
    elsewhere."""
    plain, odd = [dot(0.1, when=n) for n in range(1, 8)], dot(3.0, 1.0, when=20)
    assert len(plain) == FEWEST - 1
    both = {"watts_per_kelvin": [*plain, odd], "lift": [*plain, dot(9.0)]}
    found = odd_date(both.__getitem__)
    assert found is not None
    assert (found.when, found.outcome, found.half_widths, found.dates) == (day(1, 20), "watts_per_kelvin", 3.0, 8)
    few = odd_date({"watts_per_kelvin": plain, "lift": [*plain, odd]}.__getitem__)
    assert few is not None and few.outcome == "lift"
    assert odd_date({"watts_per_kelvin": [*plain, dot(0.2)], "lift": [*plain, odd]}.__getitem__) is None
    assert odd_date({"watts_per_kelvin": plain, "lift": plain}.__getitem__) is None


def hoped(**more: Any) -> Outcome:
    return Outcome(outcome="lift", unit="K", declared=True, **more)


def test_reasons_of_a_change() -> None:
    """No hope, a hope no logger can judge, a refused outcome, a bed; what a refused one lacks; empty lists."""
    full = replace(FILM, hoped_for=("warmer nights",))
    bare = entry(day(2, 10), "x")
    fine = hoped(effect=1.0)
    assert reasons_of(full, ("vents",), "lift", fine, (fine,), "helped") == {}
    assert reasons_of(full, (), "lift", fine, (fine,), "helped") == {
        "grouped_with": "nothing else was changed within three days of it"
    }
    nothing = reasons_of(bare, (), None, None, (), "not judged")
    assert nothing["verdict"] == nothing["hope_written_before"] == nothing["hoped_for"] == "no hope was noted"
    assert nothing["touches"] == "the diary does not say what it touches" and "thing" in nothing
    song = replace(full, hoped_for=("better growth",), written=None)
    told = reasons_of(song, ("v",), None, None, (), "not judged")
    assert told["verdict"] == "“better growth” is nothing a logger can judge"
    assert told["hope_written_before"] == "the diary does not say when the hope was noted"
    none = hoped(refused="no air")
    found = reasons_of(full, ("v",), "lift", none, (fine, none), "cannot tell")
    assert found == {"verdict": "no air"} | {f"outcomes.1.{name}": "no air" for name in NUMBERS}
    bed = replace(fine, outcome="soil_mean")
    assert "one winter cannot show it" in reasons_of(full, ("v",), "soil_mean", bed, (), "cannot tell")["verdict"]
    assert reasons_of(full, ("v",), "soil_mean", bed, (), "helped") == {}
    assert reasons_of(full, ("v",), "lift", fine, (), "cannot tell") == {}
    assert unjudged_hopes(FILM) == ("better growth",)
    assert set(unjudged_reasons(replace(full, kind="idea"))) == {
        "verdict", "outcomes", "at_most", "hope_written_before", "grouped_with",
    }  # fmt: skip


def test_a_bed_that_one_winter_cannot_show() -> None:
    """Hoped for, told, and its interval holds zero; not where it was refused, judged, or of the air."""

    def effect(verdict: Any, **more: Any) -> Effect:
        parts = (Outcome(**({"outcome": "soil_mean", "unit": "K", "declared": True} | more)),)
        return Effect(
            when=day(1, 1), what="x", kind="change", touches=(), hoped_for=(), hope_written_before=None,
            grouped_with=(), verdict=verdict, at_most=None, outcomes=parts, reasons=MappingProxyType({}), line=2,
        )  # fmt: skip

    assert effect("cannot tell").too_slow
    assert not effect("helped").too_slow and not effect("cannot tell", refused="x").too_slow
    assert not effect("cannot tell", outcome="lift").too_slow and not effect("cannot tell", declared=False).too_slow
