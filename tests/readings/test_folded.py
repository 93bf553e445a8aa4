"""Private names in any spelling, and no other word taken for one."""

from __future__ import annotations

import html
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.readings.folded import PrivateName, parts_of
from reportgen.readings.number_words import in_figures
from reportgen.readings.spot import RUN_END, PrivateSpot

GAPS = ["", " ", "  ", "_", "-", "\u00a0", "\u2009", ".", "\u200b", "'"]
PLACES = ["Tannery Yard", "Quarry End", "M\u00fcllerhof", "O'Dea Nook", "\u0141\u0105ki Dolne", "Owlbarrow"]


def spelled(draw: st.DrawFn, place: str, *, entities: bool = True) -> str:
    """A place in some other spelling that a reader would still take for it."""
    text = draw(st.sampled_from(GAPS)).join(place.replace("'", " ").split())
    text = "".join(draw(st.sampled_from([letter, letter.upper(), letter.lower()])) for letter in text)
    text = unicodedata.normalize(draw(st.sampled_from(["NFC", "NFD"])), text)
    if entities and draw(st.booleans()):
        at = draw(st.integers(0, len(text) - 1))
        text = f"{html.escape(text[:at])}&#x{ord(text[at]):x};{html.escape(text[at + 1 :])}"
    return text


@given(st.data(), st.sampled_from(PLACES), st.sampled_from(["", "in ", "x.", "(", "bench_"]))
def test_any_spelling_is_found(data: st.DataObject, place: str, before: str) -> None:
    """Case, gaps, decomposed letters and entities make no difference."""
    text = data.draw(st.composite(spelled)(place))
    assert PrivateName(place).told_in(f"{before}{text} by the wall"), text


@pytest.mark.parametrize(
    "text", ["Aas", "in Aas.", "AAS", "aas-bench", "aas_1", "AasBench", "aasbench", "\u00c5as", "Aas&#39;s", "aas2"]
)
def test_three_letters_count_as_a_word_of_their_own(text: str) -> None:
    """Alone, with a figure, or put together with a word of the garden."""
    assert PrivateName("Aas").told_in(text)


@pytest.mark.parametrize("text", ["Gaas", "gaas over the kale", "haas", "as a rule", "Klaas-Jan", "a as", "baasbench"])
def test_three_letters_do_not_count_within_another_word(text: str) -> None:
    """Gaas is a net to keep butterflies off, and no village."""
    assert not PrivateName("Aas").told_in(text)


@pytest.mark.parametrize(
    ("place", "text"),
    [
        ("Ash", "the ash bin was washed"),
        ("Stone", "limestone chips"),
        ("Heath", "a heather pot"),
        ("Theben", "on the bench"),
        ("House", "the greenhouse"),
        ("Ina", "in a pot"),
        ("\u00c5", "a pot"),
        ("Tannery Yard", "the yard behind the tannery"),
    ],
)
def test_the_wolf_is_not_cried(place: str, text: str) -> None:
    """Longer words, and words that meet by chance, are not the place; a word of the same letters is."""
    assert PrivateName(place).told_in(text) == (place == "Ash")


@pytest.mark.parametrize(
    "text", ["Tom &amp; Ann&#39;s Place", "tom & ann&apos;s place", "Tom_and", "Tom & Ann\u2019s place"]
)
def test_an_apostrophe_may_be_written_in_any_way(text: str) -> None:
    """As its sign, its number, its name, or curled."""
    assert PrivateName("Tom & Ann's Place").told_in(text) == (text != "Tom_and")


def test_letters_with_marks_may_be_written_out() -> None:
    """M\u00fcller is Mueller and muller, in both directions; \u00d8rsted is Orsted and Oersted."""
    assert all(PrivateName("M\u00fcller").told_in(text) for text in ("Mueller", "muller", "MU\u0308LLER"))
    assert PrivateName("Mueller").told_in("M\u00fcller")
    assert all(PrivateName("\u00d8rsted").told_in(text) for text in ("Orsted", "oersted"))


def test_one_and_two_letters_count_as_they_are_written() -> None:
    """The village of \u00c5 is no article; its decomposed letter is the same letter."""
    assert PrivateName("\u00c5").told_in("winter in A\u030a")
    assert not PrivateName("\u00c5").told_in("a winter, \u00e5 ja")


def test_parts_between_commas_are_names_too() -> None:
    """The village tells as much as the yard in it."""
    assert parts_of("Quarry End, Northmoor") == ("Quarry End, Northmoor", "Quarry End", "Northmoor")


SEEN = [
    "48.612\u00b0", "48.61\u00a0\u00b0 N", "48,6 N", "at 48.612, 18.447", "18.4 E", "18.447/48.612", "48.612,18.447",
    "48,612,18,447", "Lat: 48.612 Lon: 18.447", "latitude 48.6", "48.6 degrees north", "N 48.6", "48.6\u00b0",
    "forty-eight point six degrees north", "48\u00b036\u203243\u2033N 18\u00b026\u203249\u2033E", "48\u00b0 37' N",
]  # fmt: skip


@pytest.mark.parametrize("text", SEEN)
def test_coordinates_are_found(text: str) -> None:
    """With a mark, or one beside the other, also shortened, in words, in minutes of arc (0.612 × 60 = 36.72; by
    hand)."""
    assert PrivateSpot(48.612, 18.447, pairs=True).told_in(text)


NOT_SEEN = [
    "48.6\u00a0\u00b0C", "48.6 \u00b0F at noon", "48.6 %", "148.612\u00b0", "48.7\u00b0", "486", "48.6 degrees C",
    "18.4 W", "18.4 W/K", "18.4.2026", "48.9\u00b0 N", "48\u00b0 50' N",
]  # fmt: skip


@pytest.mark.parametrize("text", NOT_SEEN)
def test_a_temperature_is_no_latitude(text: str) -> None:
    """Nor is a bare figure, a heater's power, a date, or another figure."""
    assert not PrivateSpot(48.612, 18.447, pairs=True).told_in(text)


WHOLE = [
    "50\u00b0 N", "15.0\u00b0 E", "50 N, 15 E", "50\u00b0, 15\u00b0", "50\u00b0 15\u00b0", "50.0,15.0",
    "at 50, 15", "50/15", "latitude 50", "fifty degrees north, fifteen east", "50\u00b000\u2032N",
    "50.04, 15.02", "15\u00b0 E 50\u00b0 N",
]  # fmt: skip


@pytest.mark.parametrize("text", WHOLE)
def test_a_place_of_whole_degrees_is_found(text: str) -> None:
    """By its compass letter, its axis, or one figure beside the other."""
    assert PrivateSpot(50.0, 15.0, pairs=True).told_in(text)


HOMELY = [
    "\u221215\u00b0", "held at 15\u00b0", "from 15\u00b0 to 50\u00b0", "a 50 W lamp", "15 W",
    "10 \u00d7 50 cm", "50, 15 cm", "15 and 50 cm", "50, 15 and 10 cm",
    "turned 15\u00b0 east of south", "15 north beds", "50 % at 15 \u00b0C", "15.3\u00b0",
    "15 E27 bulbs",
]  # fmt: skip


@pytest.mark.parametrize("text", HOMELY)
def test_whole_degrees_are_also_warmth_watts_and_lengths(text: str) -> None:
    """One figure with a degree sign alone is a temperature as it is commonly written."""
    assert not PrivateSpot(50.0, 15.0, pairs=True).told_in(text)


def test_greenwich_and_the_south_have_coordinates_too() -> None:
    """Nought is a longitude; a minus is a place's own."""
    assert PrivateSpot(51.5, 0.0, pairs=True).told_in("51.5, 0.0")
    south = PrivateSpot(-35.0, 149.0, pairs=True)
    assert all(south.told_in(text) for text in ("-35, 149", "35\u00b0 S", "\u221235.0\u00b0, 149.0\u00b0"))
    assert not PrivateSpot(None, None, pairs=True).told_in("0\u00b0, 5\u00b0")


def test_on_a_page_a_run_of_text_is_read_by_itself() -> None:
    """Ticks that stand near each other are no pair, nor are the pages' own temperatures to one decimal."""
    here = PrivateSpot(50.5, 15.0, pairs=False)
    for text in ("50.5\u00b0", f"50.5\u00b0{RUN_END}15\u00b0", "50.5, 15.0", f"15{RUN_END}N"):
        assert not here.told_in(text), text
    for text in ("50.5\u00b0, 15\u00b0", "50.5\u00b0 N", "50.512\u00b0", "50\u00b030\u2032"):
        assert here.told_in(text), text


@pytest.mark.parametrize(
    ("words", "figures"),
    [
        ("forty-eight point six one north", "48.61 north"),
        ("One hundred and five", "105"),
        ("twenty one beds", "21 beds"),
        ("someone weighed seventeen", "someone weighed 17"),
        ("a tenth", "a tenth"),
    ],
)
def test_numbers_in_words(words: str, figures: str) -> None:
    """As far as degrees go."""
    assert in_figures(words) == figures
