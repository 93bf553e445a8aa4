"""What the Frost page says where nothing happened, and what it says of the nights to come: decisions by hand."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pandas as pd
import pytest
from counsel.grounded import FAN, at, event, grounds, hold, winter
from counsel.sentences import faults
from made_season import channel, logger

from reportgen.counsel import alarms, cautions, frost, frost_next
from reportgen.counsel.facts import Facts
from reportgen.counsel.grounds import Event
from reportgen.counsel.types import Said
from reportgen.measures.exposure import Band
from reportgen.measures.frost_cold import CLOSE, HELD
from reportgen.measures.frost_types import Alarm, CropMargin, HoldingLimit, Minimum
from reportgen.readings.types import DiaryEntry
from reportgen.season import Aims, Place

NBSP = "\u00a0"


def facts(
    *events: Event,
    hold_advice: Any = None,
    sources: Any = (FAN,),
    toml: Any = None,
    channels: Any = (),
    there: Any = None,
    diary: Any = (),
    **figures: Any,
) -> Facts:
    """A heated winter of whole nights above a frost line of 0 °C, but for what is given."""
    usual: dict[str, Any] = {
        "line_c": 0.0,
        "hours_recorded": 4392.0,
        "hours_unrecorded": 0.0,
        "nights": 183,
        "nights_partly_logged": 0,
        "unrecorded_cold_hours": 0.0,
        "unrecorded_unknown_hours": 0.0,
        "minimum": Minimum(),
        "failures": (),
        "table": pd.DataFrame({"inside_min": [], "heated_h": []}),
        "crops": (),
        "alarms": (),
        "after_failure": (),
        "holding_limit": HoldingLimit(),
        "without_heat_nights": [dt.date(2026, 1, 1)] * 7,
        "away": (),
        "open_week": None,
        "hot_hours": Band(estimate=0.0),
        "ahead": SimpleNamespace(stopped_nights=21),
        "without_heat_minimum_c": Band(estimate=float("nan")),
        "could_have_been_c": None,
    }
    r = winter(
        frost=SimpleNamespace(**(usual | figures)), sources=sources, toml=toml or {}, channels=channels, diary=diary
    )
    return Facts.of(r, grounds(events=events, **({} if hold_advice is None else {"hold_advice": hold_advice})))


def stands(found: Said | None) -> Said:
    assert found is not None
    for words in (found.claim, found.evidence, found.how_sure, found.next_step):
        assert not faults(words), words
    return found


# ---- how close it was


def lowest(temperature_c: float, line_c: float = 0.0, **more: Any) -> Minimum:
    usual: dict[str, Any] = {"at": at("2026-01-14", "06:00"), "logger": "bench", "outdoor_c": -9.0}
    return Minimum(temperature_c=temperature_c, margin_k=temperature_c - line_c, **(usual | more))


@pytest.mark.parametrize(
    ("temperature_c", "words", "stake", "step"),
    [
        (-0.5, f"0.5{NBSP}K under", "crop at risk", "fleece"),
        (0.0, f"0.0{NBSP}K above", "record", "fleece"),
        (1.9, f"1.9{NBSP}K above", "record", "fleece"),
        (2.0, f"2.0{NBSP}K above", "good news", "Keep"),
        (5.0, f"5.0{NBSP}K above", "good news", "Keep"),
        (5.1, "never colder than 5.1", "good news", "Keep"),
    ],
)
def test_the_coldest_moment_by_its_margin(temperature_c: float, words: str, stake: str, step: str) -> None:
    """Under the line a risk; within 2 K a close call; more than 5 K off it is never colder than, with no line."""
    found = stands(frost.closest(facts(minimum=lowest(temperature_c))))
    assert words in found.claim and found.stake == stake and step in found.next_step
    assert f"14{NBSP}January" in found.claim and "06:00" in found.evidence and f"−9.0{NBSP}°C" in found.evidence
    assert found.weight == max(-temperature_c, 0.0) + 0.5


def test_it_is_told_once_by_the_event_that_holds_it() -> None:
    """An event as cold (to 0.05 K) or colder tells it; a warmer one, or one without air, does not."""
    of = {"minimum": lowest(-1.2)}
    assert frost.closest(facts(event(), **of)) is None
    assert (
        frost.closest(facts(event(minimum_c=-1.16), **of)) is None
        and frost.closest(facts(event(minimum_c=-9.0), **of)) is None
    )
    assert frost.closest(facts(event(minimum_c=-1.1), event(minimum_c=None), **of)) is not None


@pytest.mark.parametrize("gone", ["temperature_c", "margin_k", "at"])
def test_without_a_coldest_moment_nothing_is_told(gone: str) -> None:
    """Air, margin and moment belong together."""
    whole = lowest(1.0)
    parts = {name: getattr(whole, name) for name in ("temperature_c", "margin_k", "at", "logger", "outdoor_c")}
    assert frost.closest(facts(minimum=Minimum(**(parts | {gone: None})))) is None


def test_what_is_missing_is_no_good_news() -> None:
    """Five cold hours without a reading: it may have been colder, and that is no good news; 3 h missing of any kind
    make it a moment on record."""
    blind = stands(frost.closest(facts(minimum=lowest(4.0), unrecorded_cold_hours=5.0, hours_unrecorded=5.0)))
    assert "may have been colder" in blind.how_sure and blind.stake == "record" and "on record" in blind.claim
    assert f"5{NBSP}h are missing" in blind.next_step
    short = stands(frost.closest(facts(minimum=lowest(4.0), hours_unrecorded=2.9)))
    assert "on record" not in short.claim and "may have been" not in short.how_sure and "at any time" in short.next_step
    assert "on record" in stands(frost.closest(facts(minimum=lowest(9.0), hours_unrecorded=3.0))).claim


def test_nights_are_counted_with_those_in_part() -> None:
    """183 whole, 2 in part; none in part, none said; one night was."""
    assert f"183{NBSP}nights were logged whole." in stands(frost.closest(facts(minimum=lowest(4.0)))).evidence
    part = stands(
        frost.closest(facts(minimum=lowest(4.0, outdoor_c=None, logger=None), nights=1, nights_partly_logged=2))
    ).evidence
    assert f"1{NBSP}night was logged whole; 2{NBSP}nights in part" in part and "outdoors" not in part
    assert "the crop at 06:00" in part


def test_the_sensor_s_accuracy_stands_beside_it() -> None:
    """± 0.3 K of that logger; where none is given that is said."""
    hours = pd.Series(4.0, pd.date_range("2026-01-10", periods=48, freq="1h", tz="Europe/Prague"))
    of: dict[str, Any] = {"minimum": lowest(4.0), "toml": {"loggers": (logger("bench", main=True),)}}
    assert f"±{NBSP}0.3{NBSP}K" in stands(frost.closest(facts(channels=(channel(hours, accuracy=0.3),), **of))).how_sure
    assert "not given" in stands(frost.closest(facts(channels=(channel(hours),), **of))).how_sure
    assert "not given" in stands(frost.closest(facts(**of))).how_sure


def test_its_source_is_the_table_of_nights_where_it_lay_in_one() -> None:
    """The nights' least is 4 °C: a source; colder by day than any night, or no night, none."""
    table = pd.DataFrame({"inside_min": [4.0, 6.0]})
    (source,) = stands(frost.closest(facts(minimum=lowest(4.0), table=table))).sources
    assert (source.column, source.value) == ("inside °C", 4.0)
    assert stands(frost.closest(facts(minimum=lowest(3.9), table=table))).sources == ()
    assert stands(frost.closest(facts(minimum=lowest(4.0)))).sources == ()


# ---- if the heat fails


def fails(outdoor_c: float, to_line: str, after_8h_c: float = -2.0) -> SimpleNamespace:
    def band(value: float) -> SimpleNamespace:
        return SimpleNamespace(estimate=value, low=value - 2, high=value + 3)

    return SimpleNamespace(
        outdoor_c=outdoor_c,
        hours_to_line=to_line,
        after_3h_c=1.0,
        after_8h_c=after_8h_c,
        after_3h=band(1.0),
        after_8h=band(after_8h_c),
    )


@pytest.mark.parametrize(
    ("to_line", "words"),
    [("<3", "within three"), ("3-8", "between three and eight"), (">8", "more than eight"), ("?", "may or may not")],
)
def test_when_the_air_is_at_the_frost_line_after_a_failure(to_line: str, words: str) -> None:
    """Of the first row of −5 °C and colder: 1 °C after 3 h (−1 to 4), −2 after 8 h, by 21 nights."""
    rows = (fails(0.0, ">8"), fails(-5.0, to_line), fails(-10.0, "<3"))
    found = stands(frost.if_it_fails(facts(after_failure=rows)))
    assert words in found.claim and f"−5{NBSP}°C" in found.claim and f"21{NBSP}heated nights" in found.evidence
    assert f"1{NBSP}°C after 3{NBSP}h (−1{NBSP}°C to 4{NBSP}°C)" in found.evidence
    assert f"−2{NBSP}°C after 8{NBSP}h (−4{NBSP}°C to 1{NBSP}°C)" in found.evidence
    assert (found.figure, found.stake, found.caution) == (f"1{NBSP}°C", "crop at risk", cautions.ALONE)


def test_a_house_that_stays_above_the_line_for_eight_hours_is_good_news() -> None:
    """At the line is not under it; no row as cold, nothing told."""
    assert stands(frost.if_it_fails(facts(after_failure=(fails(-5.0, ">8", 0.0),)))).stake == "good news"
    assert stands(frost.if_it_fails(facts(after_failure=(fails(-5.0, ">8", -0.1),)))).stake == "crop at risk"
    assert frost.if_it_fails(facts(after_failure=(fails(-4.9, "<3"),))) is None


# ---- without heat


def margin(
    name: str, bare_c: float | None, high_c: float | None, margin_k: float | None = 3.0, first: str = "2025-10-11"
) -> CropMargin:
    known: dict[str, Any] = {
        "crop": name,
        "bed": None,
        "damage_high_c": high_c,
        "margin_k": margin_k,
        "without_heat_c": bare_c,
        "from_": dt.date.fromisoformat(first),
        "to": dt.date(2026, 4, 12),
        "assumed_standing": False,
    }
    names = ("damage_low_c", "coldest_c", "coldest_at", "place", "week_before_c", "survived_c", "lost", "source")
    return CropMargin(**(dict.fromkeys(names) | known))


def bare(*crops: CropMargin, low: float = -9.0, **more: Any) -> Said | None:
    return frost.without_heat(
        facts(without_heat_minimum_c=Band(estimate=-7.0, low=low, high=-5.0), crops=crops, **more)
    )


@pytest.mark.parametrize(
    ("crop", "saved"),
    [
        (margin("pea", -7.0, -4.0), True),
        (margin("pea", -4.0, -4.0), False),  # at the band is not under it
        (margin("pea", -7.0, -4.0, 0.0), True),  # with heat it came to the band and not under
        (margin("pea", -7.0, -4.0, -0.1), False),  # met it all the same
        (margin("pea", None, -4.0), False),
        (margin("pea", -7.0, None), False),
        (margin("pea", -7.0, -4.0, None), False),
    ],
)
def test_heat_saved_what_without_it_would_have_met_its_band(crop: CropMargin, saved: bool) -> None:
    """And with it did not."""
    found = stands(bare(crop))
    assert ("pea" in found.claim) == saved and found.stake == ("good news" if saved else "money")
    assert f"−7{NBSP}°C" in found.claim and f"−9{NBSP}°C and −5{NBSP}°C" in found.evidence
    assert f"7{NBSP}nights" in found.evidence


def test_a_crop_is_named_with_its_date_only_where_another_of_it_was_not_saved() -> None:
    """Two plantings of pea, one cleared before the cold: the saved one by its date; both saved, once by its name."""
    saved, safe = margin("pea", -7.0, -4.0, first="2025-12-01"), margin("pea", -2.0, -4.0)
    assert f"the pea that stood from 1{NBSP}December" in stands(bare(saved, safe)).claim
    assert stands(bare(saved, saved)).claim.count("pea") == 1 and "stood from" not in stands(bare(saved, saved)).claim
    assert "stood from" not in stands(bare(saved, margin("kale", -2.0, -4.0))).claim


def test_that_no_crop_would_have_met_its_band_is_said_only_of_known_ones() -> None:
    """One known crop above its band; an unknown one beside it keeps the heat from being harmless; where hours are
    missing it is said of the nights that can be worked out."""
    kale, unknown = margin("kale", -3.0, -4.0), margin("moon cabbage", -7.0, None)
    assert "No crop" in stands(bare(kale)).claim and "bought for growth" in stands(bare(kale)).next_step
    mixed = stands(bare(kale, unknown))
    assert "No crop" in mixed.claim and "Do not count" in mixed.next_step
    gaps = stands(bare(kale, hours_unrecorded=3.0))
    assert "can be worked out" in gaps.claim and "Do not count" in gaps.next_step
    none = stands(bare())
    assert "No crop" not in none.claim and "Do not count" in none.next_step
    assert "bought for growth" in stands(bare(unknown, low=0.0)).next_step  # even its low end stays above the line
    met = stands(bare(margin("kale", -7.0, -4.0, -1.0)))
    assert "No crop" not in met.claim and "Do not count" in met.next_step
    assert frost.without_heat(facts()) is None


# ---- hours that nobody watched


@pytest.mark.parametrize(
    ("cold", "unknown", "told"),
    [(0.9, 2.9, None), (1.0, 0.0, "crop at risk"), (0.9, 3.0, "record"), (5.0, 9.0, "crop at risk")],
)
def test_from_when_hours_without_a_reading_are_told(cold: float, unknown: float, told: str | None) -> None:
    """An hour under the line outdoors, or three of which outdoors is not known either; the cold ones weigh first."""
    found = frost.unwatched(facts(unrecorded_cold_hours=cold, unrecorded_unknown_hours=unknown))
    assert (found.stake if found else None) == told
    if found is not None:
        assert found.weight == (cold if cold >= 1 else unknown)


def test_what_to_hang_where_is_told_by_what_hangs_there() -> None:
    """A reading: fresh batteries; a logger without one: where it should hang; a logger that left nothing: why; none:
    hang one."""
    of: dict[str, Any] = {"unrecorded_cold_hours": 5.0}
    assert "batteries" in stands(frost.unwatched(facts(minimum=lowest(1.0), **of))).next_step
    assert stands(frost.unwatched(facts(**of))).next_step.startswith("Hang a logger among")
    bench = {"loggers": (logger("bench", main=True),)}
    assert "Find out why" in stands(frost.unwatched(facts(toml=bench, **of))).next_step
    hours = pd.Series(4.0, pd.date_range("2026-01-10", periods=48, freq="1h", tz="Europe/Prague"))
    assert "Hang the logger" in stands(frost.unwatched(facts(toml=bench, channels=(channel(hours),), **of))).next_step


# ---- the holding limit


def limit(**more: Any) -> Said | None:
    usual: dict[str, Any] = {"coldest_seen_c": -12.0, "points": pd.DataFrame({"fitted": [True, True, False]})}
    given = {name: more.pop(name) for name in list(more) if name in HoldingLimit.__dataclass_fields__}
    return frost_next.limit(facts(holding_limit=HoldingLimit(**(usual | given)), **more))


def test_the_holding_limit_where_it_was_tested() -> None:
    """−10 °C by two nights; 1 in 20 falls below it: a hint; beside it the low of twenty years of the place."""
    found = stands(limit(outdoor_c=-10.0, toml={"place": Place(rare_low_c=-18.0)}))
    assert f"−10{NBSP}°C" in found.claim and f"2{NBSP}nights" in found.evidence and f"−18{NBSP}°C" in found.evidence
    assert (found.stake, found.figure) == ("crop at risk", f"−10{NBSP}°C") and found.how_sure.startswith("A hint")
    assert found.caution == cautions.ALONE and "heater" in found.next_step
    bare_house = stands(limit(outdoor_c=-10.0, sources=()))
    assert bare_house.caution is None and "heater" not in bare_house.next_step and "twenty" not in bare_house.evidence


def test_a_colder_night_that_held_stands_beside_the_limit() -> None:
    """The line of 19 in 20 says −5 °C, and on 23 January it held at −17.6 °C: both are said."""
    seen = pd.DataFrame(
        {
            "date": [dt.date(2026, 1, 23), dt.date(2026, 1, 24), dt.date(2026, 3, 3)],
            "outdoor_c": [-17.6, -18.0, -7.0], "inside_c": [1.8, -5.4, 2.6], "fitted": [False, False, True],
        }
    )  # fmt: skip
    found = stands(limit(outdoor_c=-5.3, points=seen))
    assert found.claim.startswith("On 19 nights of 20 the house stays above")
    assert f"that of 23{NBSP}January, −17.6{NBSP}°C outdoors and 1.8{NBSP}°C inside" in found.evidence
    assert "no promise" not in stands(limit(outdoor_c=-18.5, points=seen)).evidence
    assert "before that change" not in found.evidence
    assert "no promise" in stands(limit(outdoor_c=-16.6, points=seen)).evidence  # a kelvin colder, to the tenth
    assert "no promise" not in stands(limit(outdoor_c=-16.7, points=seen)).evidence
    sealed = (altered("2026-02-14"),)
    assert "inside, before that change; one night" in stands(limit(outdoor_c=-5.3, points=seen, diary=sealed)).evidence

    since = stands(limit(reason=HELD, coldest_seen_c=-7.0, points=seen, diary=sealed, chosen="at the hold"))
    assert since.claim == (
        f"The house held on every night since it was last altered, down to −7.0{NBSP}°C outdoors; colder was not "
        "tested."
    )
    assert since.evidence.startswith(
        f"1{NBSP}night on which the air stood at its usual hold or under it since the house was last altered. Before "
        f"that change it had held on a colder night: that of 23{NBSP}January, −17.6{NBSP}°C outdoors and "
        f"1.8{NBSP}°C inside."
    )
    assert "Before that" not in stands(limit(reason=HELD, coldest_seen_c=-7.0, points=seen)).evidence


def altered(on: str) -> DiaryEntry:
    """A change of the envelope on that day."""
    return DiaryEntry(
        line=2, date=dt.date.fromisoformat(on), time=None, kind="change", what="Door sealed", touches=("envelope",),
        reversible=None, hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip


def test_a_house_that_held_only_just_is_no_good_news() -> None:
    """Down to −9 °C outdoors, 0.3 °C inside, falling with the cold: a risk, with the share of such houses that fell."""
    seen = pd.DataFrame(
        {
            "date": [dt.date(2026, 1, 23), dt.date(2026, 1, 24)],
            "outdoor_c": [-9.0, -5.0], "inside_c": [0.3, 2.6], "fitted": [True, True],
        }
    )  # fmt: skip
    line = pd.DataFrame({"outdoor_c": [-9.0, -5.0], "middle_c": [0.4, 2.5], "bound_c": [-0.4, 1.7]})
    of: dict[str, Any] = {"coldest_seen_c": -9.0, "points": seen, "chosen": "with heat"}
    just = stands(limit(reason=CLOSE, curve=line, **of))
    assert just.claim == f"The house held on every night, down to −9.0{NBSP}°C outdoors, but only just."
    assert just.stake == "crop at risk" and "no promise" in just.how_sure and just.figure_note.endswith("just held")
    fell = f"the colder it was inside, down to 0.3{NBSP}°C."
    assert just.evidence.startswith(f"2{NBSP}nights with heat of a season") and fell in just.evidence
    assert fell in stands(limit(reason=HELD, curve=line, **of)).evidence  # it held with room, yet fell with the cold
    assert fell not in stands(limit(reason=HELD, **of)).evidence  # flat
    assert fell not in stands(limit(reason=HELD, curve=line, **(of | {"chosen": ""}))).evidence  # no heat, no bend


def test_a_close_call_with_an_event_in_the_diary_is_told_with_it() -> None:
    """A power cut: what helps is fleece and an alarm, and not fleece on every night forecast near 0 °C."""
    cut = DiaryEntry(
        line=2, date=dt.date(2026, 1, 13), time=dt.time(18, 20), kind="event", what="Power cut", touches=(),
        reversible=None, hoped_for=(), until=None, cost=None, years=None, written=None, note="",
    )  # fmt: skip
    m = lowest(1.8)
    found = stands(frost.closest(facts(minimum=m, diary=(cut,))))
    assert "“Power cut”" in found.evidence and "Keep fleece at hand" in found.next_step
    plain = stands(frost.closest(facts(minimum=m)))
    assert "nights forecast" in plain.next_step and "at hand" not in plain.next_step and "diary" not in plain.evidence


def test_where_it_always_held_only_what_was_seen_is_said() -> None:
    """Held down to −12 °C, colder was not tested; where it never froze outdoors no night put it to the test."""
    found = stands(limit(reason=HELD))
    assert f"−12.0{NBSP}°C" in found.claim and found.stake == "good news" and found.figure == f"−12{NBSP}°C"
    assert "heat ran through" not in found.claim
    assert "heat ran through" in stands(limit(reason=HELD, failures=(object(),))).claim
    assert "heat ran through" in stands(limit(reason=HELD, left_out=1)).claim
    assert limit(reason=HELD, coldest_seen_c=0.0) is None
    assert limit(reason="too few nights") is None and limit(outdoor_c=-10.0, coldest_seen_c=None) is None
    assert limit(outdoor_c=-10.0, points=pd.DataFrame()) is None


def test_flat_out_nights_are_told_with_their_band() -> None:
    """−8 ± 1.5 °C; without a band nothing."""
    told = frost_next.flat_out_words(facts(holding_limit=HoldingLimit(heater_flat_out_c=-8.0, flat_out_half_k=2.0)))
    assert f"−10{NBSP}°C to −6{NBSP}°C" in told
    for of in (HoldingLimit(heater_flat_out_c=-8.0), HoldingLimit(flat_out_half_k=2.0)):
        assert frost_next.flat_out_words(facts(holding_limit=of)) == ""


# ---- the alarm


def ring(alarm_c: float, rings: int, needed: int, warning_h: float | None = 2.0) -> Alarm:
    return Alarm(alarm_c=alarm_c, rings=rings, needed=needed, warning_h=warning_h)


def test_the_best_alarm_is_needed_half_the_time_and_warns_longest() -> None:
    """Exactly half is enough; of equal warnings the colder line; none worth hearing: the share needed decides, then
    the warning."""
    half, more = ring(3.0, 4, 2, 3.0), ring(2.0, 2, 2, 1.0)
    assert alarms.best_alarm((half, more)) == half
    assert alarms.best_alarm((ring(4.0, 2, 1, 3.0), half)) == half
    assert alarms.best_alarm((ring(3.0, 5, 2, 3.0), more)) == more
    assert alarms.best_alarm((ring(3.0, 5, 2, 1.0), ring(4.0, 5, 2, 3.0), ring(5.0, 9, 2, 9.0))) == ring(4.0, 5, 2, 3.0)
    assert alarms.best_alarm((ring(3.0, 2, 2, None), ring(3.0, 2, 0))) is None


def test_the_hold_s_own_line_is_told_where_one_serves() -> None:
    """At 5 °C, of the table; without one that serves, or not needed there, the best of the table."""
    table = (ring(3.0, 2, 2, 9.0), ring(5.0, 4, 3, 2.0))

    def told(alarms: Any = table, **more: Any) -> Any:
        return frost_next.told_alarm(facts(alarms=alarms, hold_advice=hold(**more)))

    assert told(alarm_c=5.0, alarm_why="") == table[1]
    assert told(alarm_c=5.0, alarm_why="minutes") == told(alarm_c=None, alarm_why="") == table[0]
    assert told(alarm_c=4.0, alarm_why="") == table[0]
    assert told((table[0], ring(5.0, 4, 0)), alarm_c=5.0, alarm_why="") == table[0]


def test_an_alarm_that_rings_mostly_for_nothing_is_not_set() -> None:
    """6 of 21 rings: fleece by the forecast, and no night's sleep."""
    found = stands(frost_next.alarm_line(facts(alarms=(ring(2.0, 21, 6),))))
    assert found.next_step.startswith("Draw fleece at dusk") and "for nothing" in found.next_step


def test_an_alarm_is_told_with_its_rings_in_vain_and_what_it_is_set_to() -> None:
    """4 rings, 3 needed: one for nothing; 2.0 h ahead; set to 5 °C it stays, else it is set to that."""
    found = stands(frost_next.alarm_line(facts(alarms=(ring(5.0, 4, 3),), toml={"aims": Aims(alarm_c=5.0)})))
    assert f"4{NBSP}times, 3 of them needed" in found.claim and f"2.0{NBSP}h" in found.claim
    assert f"1{NBSP}ring for nothing" in found.evidence and f"set to 5.0{NBSP}°C" in found.evidence
    assert found.next_step.startswith("Leave the alarm at 5.0") and found.caution is None
    other = stands(frost_next.alarm_line(facts(alarms=(ring(4.0, 1, 1),), toml={"aims": Aims(alarm_c=5.0)})))
    assert "once, and was needed" in other.claim and other.next_step.startswith("Set the alarm to 4.0")
    every = stands(frost_next.alarm_line(facts(alarms=(ring(4.0, 3, 3),))))
    assert f"3{NBSP}times, all of them needed" in every.claim and "Yours" not in every.evidence
    assert "on record" not in every.how_sure
    assert "on record" in stands(frost_next.alarm_line(facts(alarms=(ring(4.0, 3, 3),), hours_unrecorded=3.0))).how_sure
    assert frost_next.alarm_line(facts()) is None


@pytest.mark.parametrize(("hours", "short"), [(0.99, True), (1.0, False)])
def test_a_warning_under_an_hour_is_not_waited_for(hours: float, short: bool) -> None:
    """Fleece at dusk instead, clear of the heater where there is one."""
    found = stands(frost_next.alarm_line(facts(alarms=(ring(4.0, 3, 3, hours),))))
    assert ("fleece at dusk, clear of any heater" in found.next_step) == short
    assert (found.caution is not None) == short
    bare_house = stands(frost_next.alarm_line(facts(alarms=(ring(4.0, 3, 3, hours),), sources=())))
    assert bare_house.caution is None and "heater" not in bare_house.next_step


@pytest.mark.parametrize(("hours", "words"), [(0.75, "45"), (1.49, "89"), (1.5, "1.5"), (2.3, "2.3")])
def test_from_an_hour_and_a_half_on_a_warning_is_told_in_hours(hours: float, words: str) -> None:
    """0.75 h are 45 min."""
    assert frost_next.short_time(hours) == f"{words}{NBSP}{'min' if hours < 1.5 else 'h'}"


# ---- opening up, absences


@pytest.mark.parametrize(
    ("heated", "still"),
    [({dt.date(2026, 3, 15): 5.0}, False), ({dt.date(2026, 3, 16): 5.0}, True), ({dt.date(2026, 3, 16): 0.0}, False)],
)
def test_no_more_heat_by_day_is_said_only_where_heat_was_still_given(heated: dict[dt.date, float], still: bool) -> None:
    """In the week of 16 March or after it."""
    table = pd.DataFrame({"heated_h": list(heated.values())}, index=list(heated))
    of = facts(
        open_week=dt.date(2026, 3, 16), hot_hours=Band(estimate=31.0), table=table, toml={"place": Place(latitude=50.0)}
    )
    found = stands(frost_next.hot(of))
    assert ("no more heating" in found.next_step) == still and found.weight == 0.31
    assert f"31{NBSP}h" in found.evidence and "next year" in found.next_step
    assert frost_next.hot(facts(open_week=dt.date(2026, 3, 16), hot_hours=Band(estimate=float("nan")))) is None


def absent(start: str, coldest_c: float | None, blind_h: float = 0.0) -> SimpleNamespace:
    return SimpleNamespace(start=dt.date.fromisoformat(start), nights=3, coldest_c=coldest_c, blind_hours=blind_h)


@pytest.mark.parametrize(
    ("one", "told"),
    [
        (absent("2025-12-24", 1.9), True),
        (absent("2025-12-24", 2.0), False),
        (absent("2025-12-24", 9.0, 1.0), True),
        (absent("2025-12-24", 9.0, 0.9), False),
        (absent("2025-12-24", None), True),
    ],
)
def test_an_absence_is_told_within_two_kelvin_of_the_line_or_blind_for_an_hour(one: Any, told: bool) -> None:
    """Else all went well."""
    assert (frost_next.away(facts(away=(one,))) is not None) == told


def test_an_absence_is_set_against_the_grower_s_own_line() -> None:
    """A line of 3 °C: 4.9 °C is within two kelvin of it, 5.0 °C is not."""
    assert frost_next.away(facts(away=(absent("2025-12-24", 4.9),), line_c=3.0)) is not None
    assert frost_next.away(facts(away=(absent("2025-12-24", 5.0),), line_c=3.0)) is None


def test_the_worst_absence_is_told_that_without_a_record_first() -> None:
    """1 °C is colder than 1.5; of none on record nothing is known."""
    two = (absent("2025-12-24", 1.5), absent("2026-02-01", 1.0, 2.0))
    found = stands(frost_next.away(facts(away=two)))
    assert (
        f"1{NBSP}February" in found.claim
        and f"1.0{NBSP}°C" in found.claim
        and f"2{NBSP}h of this one" in found.evidence
    )
    blind = stands(frost_next.away(facts(away=(*two, absent("2026-03-01", None, 72.0)))))
    assert f"1{NBSP}March" in blind.claim and blind.figure == "no record" and f"3{NBSP}nights" in blind.claim
