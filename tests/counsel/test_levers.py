"""Levers: the verdict table row by row, what burns beside them, and the sample season's own."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pandas as pd
import pytest
from counsel.sentences import faults
from effects.in_memory import entry
from made_season import ZONE, readings, season

from reportgen.counsel.events_tight import tightens
from reportgen.counsel.grounds import Ends, JudgedLever, PriceSide
from reportgen.counsel.levers import judged_levers
from reportgen.counsel.levers_case import Case
from reportgen.counsel.levers_safety import Burner, burners, burns_with, sealed_in, stays_beside
from reportgen.counsel.levers_verdict import verdict_on
from reportgen.counsel.levers_words import fitting, names, payback_words
from reportgen.effects import effects
from reportgen.effects.lever_types import LeverEffect
from reportgen.effects.types import Outcome
from reportgen.readings import read_season
from reportgen.readings.chains import chains
from reportgen.readings.lever_types import Lever
from reportgen.readings.levers import levers_of
from reportgen.readings.types import DiaryEntry, HeatSupply, Readings
from reportgen.season import load_season
from reportgen.wording import Wording

SAMPLE = Path(__file__).parents[2] / "sample_season"
W = Wording(us=False, currency="EUR")
GAS = Burner(name="gas heater", main=False, flue_unsaid=False, lit=(), lever=None)


def at(day: str) -> pd.Timestamp:
    return pd.Timestamp(f"{day} 12:00", tz=ZONE)


def lever(**more: Any) -> Lever:
    """A film put up within a four-week season."""
    usual: dict[str, Any] = {
        "name": "film",
        "thing": "film",
        "touches": ("envelope",),
        "entries": (dt.date(2026, 1, 15),),
        "states": (),
        "hours_on": 400.0,
        "hours_off": 272.0,
        "reasons": {},
        "lines": (2,),
        "undone": {},
    }
    return Lever(**(usual | more))


def hoped(name: str = "watts_per_kelvin", low: float = -60.0, high: float = -30.0, **more: Any) -> Outcome:
    """The outcome hoped for: 24 to 48 % of 125 W/K less."""
    unit = {"watts_per_kelvin": "W/K", "night_humidity": "%"}.get(name, "K")
    middle = (low + high) / 2
    return Outcome(outcome=name, unit=unit, declared=True, effect=middle, low=low, high=high, before_mean=125.0, **more)


def side(name: str, low: float, high: float, beyond: bool = False) -> PriceSide:
    unit = {"night_humidity": "%", "daily_light": "mol/m²", "heat": "kWh"}.get(name, "K")
    middle = (low + high) / 2
    return PriceSide(
        outcome=name, unit=unit, effect=middle, low=low, high=high, level=0.95, beyond_care=beyond, before_mean=10.0
    )


def case(verdict: str, outcome: Outcome | None = None, care: float = 12.5, **more: Any) -> Case:
    """A film that cost 60 and lasts three years in a house without burners, unless told."""
    own = more.pop("lever", lever())
    effect = LeverEffect(
        lines=own.lines, hope="less heating", outcomes=(), verdict=cast("Any", verdict), care=care,
        before_heat=more.pop("before_heat", True),
    )  # fmt: skip
    usual: dict[str, Any] = {
        "lever": own,
        "effect": effect,
        "hoped": outcome if outcome is not None else hoped(),
        "hopes": ("less heating",),
        "forbidden_by": (),
        "beside": (),
        "sealed": False,
        "refused": "",
        "price": (),
        "payback": Ends(low=0.5, high=1.5),
        "no_payback": "",
        "winter_kwh": Ends(low=100.0, high=300.0),
        "cost": 60.0,
        "years": 3.0,
        "on_now": True,
        "undone": False,
        "undoing_helped": False,
        "spell": False,
        "reversible": True,
        "w": W,
    }
    return Case(**(usual | more))


DAMP_TAPE = {"lever": lever(touches=("air",)), "outcome": hoped("night_humidity", 1.0, 6.0), "care": 3.0}
WIDE = hoped("night_humidity", -8.0, 2.0)
QUICK = {"outcome": WIDE, "care": 3.0, "spell": True}
HEATER = lever(touches=("heater",))
DAMPER = side("night_humidity", 4, 9, True)
ROWS = [
    ("it tightens, and what burns has no flue", "helped", {"forbidden_by": (GAS,)}, "not while that burns here"),
    ("… even where nothing was hoped", "not judged", {"forbidden_by": (GAS,)}, "not while that burns here"),
    ("it burned behind tape", "hurt", {"sealed": True}, "not again"),
    ("no hope", "not judged", {"hoped": None}, "not judged"),
    ("a heater for warmth", "helped", {"lever": HEATER, "outcome": hoped("lift", 1, 2)}, "not judged"),
    ("a heater for warmth that hurt", "hurt", {"lever": HEATER}, "not judged"),
    ("a heater for dry air", "hurt", {**DAMP_TAPE, "lever": HEATER}, "leave undone"),
    ("refused", "cannot tell", {"refused": "no outdoor logger"}, "cannot tell"),
    ("hurt", "hurt", DAMP_TAPE, "leave undone"),
    ("undone, and that helped", "cannot tell", {"undone": True, "undoing_helped": True}, "leave undone"),
    ("undone for light in spring, but it helped", "helped", {"undoing_helped": True, "undone": True}, "keep"),
    ("helped, pays within its years", "helped", {}, "keep"),
    ("helped, nothing to pay", "helped", {"cost": None, "payback": None}, "keep"),
    ("helped, its price within care", "helped", {"price": (side("night_humidity", 1, 6),)}, "keep"),
    ("helped, a price beyond care", "helped", {"price": (DAMPER,)}, "keep with a condition"),
    ("helped, a backup burner in the house", "helped", {"beside": (GAS,)}, "keep with a condition"),
    ("helped, perhaps never pays", "helped", {"payback": Ends(low=0.5, high=None)}, "keep with a condition"),
    ("helped, money not known", "helped", {"payback": None, "winter_kwh": None}, "keep with a condition"),
    ("nothing that matters", "no sign", {"outcome": hoped(low=-5, high=5)}, "not worth it"),
    ("even at best it does not pay", "cannot tell", {"payback": Ends(low=3.5, high=None)}, "not worth it"),
    ("years unsaid", "cannot tell", {"payback": Ends(low=3.5, high=None), "years": None}, "change once"),
    ("the bed", "cannot tell", {"outcome": hoped("soil_mean", -0.2, 2.0), "care": 0.5}, "cannot tell"),
    ("in minutes", "cannot tell", QUICK, "try on and off"),
    ("in minutes, not worth it at best", "cannot tell", {**QUICK, "care": 9.0}, "change once"),
    ("in minutes beside a burner", "cannot tell", {**QUICK, "beside": (GAS,)}, "change once"),
    ("water carries over", "cannot tell", {**QUICK, "lever": lever(touches=("water",))}, "change once"),
    ("not to be undone", "cannot tell", {**QUICK, "reversible": False}, "change once"),
]  # fmt: skip


@pytest.mark.parametrize(("verdict", "more", "expected"), [row[1:] for row in ROWS], ids=[row[0] for row in ROWS])
def test_the_first_row_that_holds(verdict: str, more: dict[str, Any], expected: str) -> None:
    """The verdict of each row, its condition in at most twenty plain words."""
    told, condition = verdict_on(case(verdict, **more))
    assert told == expected
    if condition is not None:
        assert len(condition.replace("\u00a0", " ").split()) <= 20
        assert faults(f"{condition[:1].upper()}{condition[1:]}.") == []


def test_the_tape_is_only_advised_where_nothing_burns() -> None:
    """Undone at a cost in heat: closed on frosty nights and aired by day; with a gas heater in the house never."""
    costs = (side("heat", -5.0, -0.4),)
    _, safe = verdict_on(case("hurt", **DAMP_TAPE, price=costs))
    _, gas = verdict_on(case("hurt", **DAMP_TAPE, price=costs, beside=(GAS,)))
    assert safe is not None and "closed on frosty nights" in safe and "aired by day" in safe
    assert gas is not None and "never tighten with the gas heater lit" in gas and "closed" not in gas


def test_up_before_the_first_heated_night_where_light_allows() -> None:
    """It went up later and took no light: next winter earlier; where it took light that is left to the grower."""
    assert verdict_on(case("helped", before_heat=False)) == ("keep", "up before the first heated night")
    dark = (side("daily_light", -0.9, -0.2),)
    assert verdict_on(case("helped", before_heat=False, price=dark)) == ("keep", None)


def test_words_of_a_payback() -> None:
    """Both ends; from the favourable one where the other never comes."""
    assert payback_words(Ends(low=0.35, high=1.08)) == "pays back in 0.3 to 1.1\u00a0winters"
    assert payback_words(Ends(low=1.2, high=None)) == "pays back from 1.2\u00a0winters on, perhaps never"
    assert payback_words(Ends(low=0.02, high=None)) == "pays back from the first winter on, perhaps never"
    assert names(["a", "b", "c"]) == "a, b and c"
    assert fitting(["one two", "three " * 19, "four"]) == "one two; four"


def supply(name: str, *burnt: tuple[str, str], **more: Any) -> HeatSupply:
    """A propane heater with the stretches in which it burned."""
    table = pd.DataFrame({"start": [at(a) for a, _ in burnt], "end": [at(b) for _, b in burnt]})
    table = table.assign(bought=1.0, heat_kwh=10.0, cost=1.0, sparse=True)
    usual: dict[str, Any] = {
        "name": name, "fuel": "propane", "role": "backup", "form": "deliveries", "kind": None, "unit": "kg",
        "intervals": table, "rated_power_w": None, "vented": False, "heating_value": "gross", "co2_kg_per_unit": None,
    }  # fmt: skip
    return HeatSupply(**(usual | more))


def house(*heating: HeatSupply, diary: tuple[DiaryEntry, ...]) -> Readings:
    """A four-week season with that diary and those heaters."""
    of = season()
    return readings(of, diary=diary, heating=heating, levers=levers_of(chains(diary, "diary.csv")[0], of))


def day(d: int) -> dt.date:
    return dt.date(2026, 1, d)


FILM = entry(day(15), "Film", line=3, touches=("envelope",), hoped_for=("less heating",))
FAN = entry(day(16), "Fan", line=4, touches=("air",), hoped_for=("drier air",))
TAPE = entry(day(10), "Tape", line=5, touches=("air",), hoped_for=("drier air", "less heating"))


def test_a_backup_burner_forbids_only_what_was_tight_while_it_burned() -> None:
    """Lit 6 to 12 January: taped on the 10th, so the tape is forbidden; the film of the 15th is not, but the burner
    stays beside it; a fan tightens nothing."""
    of = house(supply("gas", ("2026-01-06", "2026-01-12")), diary=(TAPE, FILM, FAN))
    (gas,) = burners(of)
    told = {one.name: one for one in of.levers}
    assert tightens(told["Tape"], of) and tightens(told["Film"], of) and not tightens(told["Fan"], of)
    assert burns_with(told["Tape"], (gas,), of) == (gas,)
    assert burns_with(told["Film"], (gas,), of) == ()
    assert stays_beside(told["Film"], (gas,), of) == (gas,)
    assert stays_beside(told["Fan"], (gas,), of) == ()
    assert [one.name for one in sealed_in(gas, of)] == ["Tape"]


def test_the_main_heat_without_a_flue_forbids_everything_tight() -> None:
    """A main burner stays in the house whatever its book says; a flue or electricity ends it; unsaid counts as none."""
    main = house(supply("stove", role="main", vented=None), diary=(FILM,))
    assert [b.name for b in burns_with(main.levers[0], burners(main), main)] == ["stove"]
    assert burners(main)[0].flue_unsaid
    for harmless in ({"vented": True}, {"fuel": "electricity", "vented": None}):
        assert burners(house(supply("stove", role="main", **harmless), diary=(FILM,))) == ()


def test_the_diary_s_own_line_says_when_a_burner_was_lit() -> None:
    """A bottle lasts in the book until the 28th; the diary lit it for three days before the film went up."""
    lit = entry(day(6), "Gas heater lit", line=6, kind="spell", touches=("heater",), until=day(8), thing="gas heater")
    of = house(supply("gas heater", ("2026-01-06", "2026-01-28")), diary=(lit, FILM))
    film = next(one for one in of.levers if one.name == "Film")
    assert burns_with(film, burners(of), of) == ()


def judged(of: Any) -> tuple[JudgedLever, ...]:
    """Its levers with their verdicts."""
    made = SimpleNamespace(season=of.season, readings=of, effects=effects(of))
    return judged_levers(cast("Any", made), ())


@lru_cache(maxsize=1)
def sample() -> dict[str, JudgedLever]:
    """The sample's levers by their thing."""
    return {str(one.thing): one for one in judged(read_season(load_season(SAMPLE)))}


def test_the_sample_s_film_is_kept_with_a_condition() -> None:
    """It cost 68, is told first, and paid itself back within its three years at either end; never with the gas lit;
    damper nights and less light are its price."""
    film = next(iter(sample().values()))
    assert film.thing == "bubble film"
    assert (film.verdict, film.unsafe_with) == ("keep with a condition", ("gas heater",))
    assert film.condition is not None
    for part in ("never with the gas heater lit", "damper at night", "less light"):
        assert part in film.condition
    assert film.payback_winters is not None and film.payback_winters.high is not None
    assert film.payback_winters.high < 3.0
    assert film.winter_money is not None and film.winter_money.low is not None
    assert film.payback_winters.high == pytest.approx(68.0 / film.winter_money.low)


def test_the_sample_s_tape_and_gas() -> None:
    """Gas burned behind the tape: neither again; the tape's two switches are one estimate."""
    tape, gas = sample()["vent tape"], sample()["gas heater"]
    assert (tape.verdict, tape.unsafe_with) == ("not while that burns here", ("gas heater",))
    assert tape.undone_in_season and not tape.on_now
    assert gas.verdict == "not again"
    assert sample()["fan heater"].verdict == "not judged"


def test_what_was_changed_together_is_not_told_apart() -> None:
    """Watering on 3 February, dehumidifier on 6 February: each names the other."""
    one = sample()["dehumidifier"]
    assert one.verdict == "cannot tell"
    assert "Watering halved" in one.reasons["verdict"]
    assert one.effect is None and one.low is None


def test_every_lever_has_words_for_what_it_lacks() -> None:
    """Nothing is None without its reason."""
    for one in sample().values():
        for name in (
            "effect",
            "spared_kwh",
            "winter_kwh",
            "spared_money",
            "winter_money",
            "payback_winters",
            "condition",
        ):
            assert getattr(one, name) is not None or one.reasons.get(name), (one.name, name)


def test_the_unfavourable_end_decides_what_is_told_first() -> None:
    """A wide promise does not go before a sure small one."""
    weights = [one.weight for one in sample().values()]
    assert weights == sorted(weights, reverse=True)
    assert all(weight >= 0 for weight in weights)
