"""Nothing is said of a logger, a book, a heater or a part of the year that is not true of this season's files."""

from __future__ import annotations

from pathlib import Path

import pytest
from kept_reviews import review_of, season_of
from odd_seasons import ODD
from said_files import Files
from said_rules import no_english, untrue
from said_seasons import SAID
from said_text import said

SEASONS = ODD | SAID


@pytest.mark.parametrize("name", ["sample", *SEASONS])
def test_every_phrase_is_true_of_the_files(name: str) -> None:
    """Each phrase that names a thing or a part of the year stands only where the files have it; numbers agree."""
    files, sentences = Files(season_of(name)), said(review_of(name))
    assert len(sentences) > 20
    wrong = {(page, words, *found) for page, words in sentences if (found := untrue(words, files))}
    assert not wrong
    bad = {(page, words, *found) for page, words in sentences if (found := no_english(words))}
    assert not bad


BARE = ("one thermometer", "September only")  # neither has a diary; the second has a heater and is no winter


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Files]:
    """Files of seasons that lack nearly all."""
    return {name: Files(SEASONS[name](tmp_path_factory.mktemp("bare") / "season")) for name in BARE}


@pytest.mark.parametrize(
    "words",
    [
        "Where the heater ran flat out it is too small.",
        "Nobody noticed: the diary says nothing of it.",
        "Your inspections found mould on 2 visits.",
        "Nothing was wrong this winter.",
        "Keep the cover clean; it was measured beside the crop.",
        "Vents open by day, and no more heating by day.",
        "It came to 900 kWh, some ran down the glass or went into a dehumidifier.",
    ],
)
def test_the_table_catches_what_is_not_there(words: str, bare: dict[str, Files]) -> None:
    """Each sentence speaks of a thing that one of the bare seasons has not: the test above can fail."""
    assert any(untrue(words, files) for files in bare.values())


def test_the_table_catches_advice_for_what_hangs_there(tmp_path: Path) -> None:
    """A season with an outdoor column is not sent for an outdoor logger, a kept diary is not said to be missing."""
    files = Files(SEASONS["a diary of events"](tmp_path / "season"))
    assert untrue("Hang one logger outdoors in the shade.", files)
    assert untrue("No diary was kept, from 20 November to 25 January.", files)
    assert not untrue("Log light beside the crop.", files)


@pytest.mark.parametrize("month", ["November", "January"])
def test_only_the_dampest_month_may_be_called_so(month: str, tmp_path: Path) -> None:
    """December is damp and the others are not: by the file itself."""
    files = Files(SEASONS["one damp month"](tmp_path / "season"))
    assert untrue(f"{month} was the dampest month", files)
    assert not untrue("December was the dampest month", files)


@pytest.mark.parametrize(
    "words",
    [
        "1 hours above 80 %",
        "On 1 nights the air fell below 0.0 °C.",
        "2 night were logged whole.",
        "between 0.0 to 0.0 K",
        "they differ by 1 points",
        "On no nights leaves stayed wet.",
        "no more spells were colder",
        "1 night were logged whole",
    ],
)
def test_the_scan_catches_bad_english(words: str) -> None:
    """Each is caught; and good English is not."""
    assert no_english(words)


@pytest.mark.parametrize(
    "words",
    ["11 hours above 80 %", "1 night was logged whole", "0.1 days", "1 h", "−2 to 2 K", "21 nights", "none of 1 night"],
)
def test_the_scan_lets_good_english_stand(words: str) -> None:
    """Numbers that only end in 1, decimals, and ranges about zero are right."""
    assert not no_english(words)
