"""The hold's advice in the sample, in odd seasons, and in words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from kept_reviews import review_of

from reportgen.counsel import hold_words
from reportgen.counsel.grounds import Ends, HoldAdvice
from reportgen.wording import Wording

METRIC, US = Wording(us=False, currency="EUR"), Wording(us=True, currency="USD")
PLAIN = {"dial_c": 6.0, "down_by_k": 2.0, "usually_c": 3.5, "coldest_c": 2.8, "nights": 41, "crop": "pak choi"}
MORE = {"reason": None, "lowest_c": 4.0, "limit_c": 1.0, "unhardened": True, "held_c": 6.0}


def advice(**changed: Any) -> HoldAdvice:
    """Two kelvin down for pak choi."""
    return HoldAdvice(**(PLAIN | MORE | changed))


def said(a: HoldAdvice, w: Wording = METRIC) -> str:
    """All that is said of it."""
    parts = (hold_words.advised, hold_words.nights_told, hold_words.price, hold_words.flat_out, hold_words.alarm)
    return " ".join(filter(None, (part(a, w) for part in parts))).replace("\u00a0", " ")


def test_the_sample_says_which_crops_stop_it_and_how_few_nights_count() -> None:
    """Its parsley and rocket have no known limit (none in the table, none in season.toml), and as the house stood last
    the heater ran on few nights: no degree is advised. The night of the failure, −5.2 °C, is not in what is told."""
    found = review_of("sample").counsel.grounds.hold_advice
    assert found.down_by_k is None
    assert set(found.unknown_crops) == {"parsley", "rocket"}
    assert "rocket and parsley have no known limit of cold" in (found.reason or "")
    assert found.dial_c is None
    assert found.nights < 30
    assert found.coldest_c is not None
    assert found.coldest_c > 0.0
    assert found.saves_money is None


@pytest.mark.parametrize("name", ["ten days", "heater by meter", "southern", "US units", "crops without plantings"])
def test_odd_seasons_say_why(name: str) -> None:
    """No advice without its reason, no figure that is none."""
    found = review_of(name).counsel.grounds.hold_advice
    assert (found.down_by_k is None) == bool(found.reason)
    assert "None" not in said(found)
    assert "nan" not in said(found)


def test_both_sides_stand_together() -> None:
    """The setting with its limit; usually and coldest; never the word that nobody can promise."""
    text = said(advice(saves_kwh=Ends(low=40.2, high=60.4), saves_money=Ends(low=12.0, high=18.0)))
    assert text.startswith("The dial may come down from 6.0 °C to 4.0 °C. Pak choi asks for no less than 1.0 °C")
    assert "usually 3.5 °C, 2.8 °C on the coldest of 41 nights" in text
    assert "40 to 60 kWh, EUR 12 to 18" in text
    assert "safe" not in text


def test_without_a_dial_no_setting_is_named() -> None:
    """Only by how much."""
    text = hold_words.advised(advice(dial_c=None, lowest_c=None), METRIC).replace("\u00a0", " ")
    assert text.startswith("The thermostat may come down by 2.0 K.")


def test_no_room_says_how_much_is_short() -> None:
    """A kelvin and a half; in °F 2.7."""
    short = advice(down_by_k=0.0, short_by_k=1.5, lowest_c=None)
    assert "Your dial leaves no room" in said(short)
    assert "1.5 K short" in said(short)
    assert "2.7 °F short" in said(short, US)
    assert "short" not in hold_words.advised(replace(short, short_by_k=None), METRIC)


def test_one_night_is_one_night() -> None:
    """Numbers agree with their nouns."""
    text = said(advice(nights=1, flat_out_c=-13.1, flat_out_nights=1))
    assert "on the one night that counts" in text
    assert "So it did on 1 night; that one is not counted." in text
    assert "those are not counted" in said(advice(flat_out_c=-13.1, flat_out_nights=2))


@pytest.mark.parametrize(
    ("why", "words"),
    [
        ("", "would have warned 2.0 h ahead at least; it rang 3 times, twice in need"),
        ("minutes", "warned only 2.0 h ahead: power to the heater"),
        ("for nothing", "rang mostly for nothing"),
        ("silent", "none was put to the test"),
    ],
)
def test_the_alarm_s_words(why: str, words: str) -> None:
    """What serves, or what comes before an alarm."""
    text = said(advice(alarm_c=2.0, alarm_warning_h=2.0, alarm_rings=3, alarm_needed=2, alarm_why=why))
    assert words in text
    assert ("fleece drawn at dusk, clear of any heater" in text) == bool(why)
