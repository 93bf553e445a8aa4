"""Sharing: what [share] keeps private is in no file that leaves the house; the rest is whole."""

from __future__ import annotations

import csv
import json
import re
import shutil
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from reportgen.measures.harvest import harvest
from reportgen.pipeline import review
from reportgen.problems import SeasonError
from reportgen.readings import read_season
from reportgen.readings.folded import PrivateName
from reportgen.readings.sharing import without_private
from reportgen.readings.types import PRIVATE
from reportgen.season import load_season
from reportgen.season.models import Share
from reportgen.site import PublishError
from reportgen.site.share import search, without_offsets

SAMPLE = Path(__file__).parents[2] / "sample_season"
FLAGS = ("place", "prices", "harvest", "story", "diary_notes", "away")


def season(folder: Path, **allowed: bool) -> Path:
    """A copy of the sample with only what is named allowed."""
    copy = Path(shutil.copytree(SAMPLE, folder / "season"))
    toml = (copy / "season.toml").read_text(encoding="utf-8").partition("[share]")[0]
    lines = [f"{flag} = {str(allowed.get(flag, False)).lower()}" for flag in FLAGS]
    (copy / "season.toml").write_text(toml + "[share]\n" + "\n".join(lines) + "\n", encoding="utf-8")
    return copy


def texts(site: Path) -> dict[str, str]:
    """Every text file of a site."""
    kinds = {".html", ".json", ".csv", ".txt"}
    return {p.name: p.read_text(encoding="utf-8") for p in site.rglob("*") if p.suffix in kinds}


@pytest.fixture(scope="module")
def nothing_allowed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample shared with everything private."""
    folder = tmp_path_factory.mktemp("private")
    review(season(folder), folder / "site", share=True)
    return folder / "site"


def test_place_zone_and_offsets_stay_at_home(nothing_allowed: Path) -> None:
    """No name, no zone, no coordinate, no moment with its offset, no length of the day."""
    toml = (SAMPLE / "season.toml").read_text(encoding="utf-8")
    zone = re.search(r'time_zone = "(.+?)"', toml)
    place = re.search(r'\nname +?= "(.+?)"', toml)
    assert zone and place
    for name, text in texts(nothing_allowed).items():
        for word in (zone[1], zone[1].partition("/")[2], place[1]):
            assert word.casefold() not in text.casefold(), (name, word)
        assert not re.search(r"(\d\d:\d\d|UTC)[+-]\d\d:?\d\d", text), name
    document = json.loads((nothing_allowed / "data" / "review.json").read_text(encoding="utf-8"))
    assert document["season"]["time_zone"] is None
    assert document["light"]["shortest_day_h"] is None
    assert document["light"]["reasons"]["shortest_day_h"]


def test_money_harvest_and_story_stay_at_home(nothing_allowed: Path) -> None:
    """No sum of money, no weight, no word of the story."""
    document = json.loads((nothing_allowed / "data" / "review.json").read_text(encoding="utf-8"))
    assert document["season"]["currency"] is None
    assert document["harvest"]["kg"] is None and document["harvest"]["reasons"]["kg"] == PRIVATE
    assert document["balance"]["reasons"]["total"] == document["balance"]["reasons"]["costs"] == PRIVATE
    assert document["heat"]["cost"] is None and document["heat"]["reasons"]["cost"]
    assert document["heat"]["kwh"] > 100  # kilowatt-hours may go
    assert not document["harvest"]["weeks"] or not any(week["kg"] for week in document["harvest"]["weeks"])
    assert all(lever["payback_winters"] is None for lever in document["levers"])
    first = (SAMPLE / "story.md").read_text(encoding="utf-8").split(".")[0]
    for name, text in texts(nothing_allowed).items():
        assert not re.search(r"(EUR|€)\W?\d", text), name
        assert first not in text, name


def test_what_is_kept_private_is_not_said_to_be_missing(nothing_allowed: Path) -> None:
    """No page says that nobody weighed, paid or gave a latitude, nor asks for it; without a book it does."""
    said = texts(nothing_allowed)
    for name, text in said.items():
        for words in ("harvest.csv:", "nothing weighed", "No harvest book", "Weigh what you pick", "Give the latitude",
                      "No weights were written", "no latitude is given", "book of costs"):  # fmt: skip
            assert words not in text, (name, words)
    assert all(PRIVATE in said[name] for name in ("harvest.html", "index.html", "review.json"))
    readings = without_private(read_season(load_season(SAMPLE)))
    assert readings.held_back == {"place", "prices"}  # the sample allows its harvest
    bare = replace(readings, harvest=(), books={}, season=readings.season.model_copy(update={"share": Share()}))
    assert "harvest" not in without_private(bare).held_back
    assert "nothing weighed" in harvest(without_private(bare)).reasons["kg"]


def test_notes_and_times_away_stay_at_home(nothing_allowed: Path) -> None:
    """No note of the diary and no day on which nobody was there."""
    rows = list(csv.DictReader((SAMPLE / "diary.csv").read_text(encoding="utf-8").splitlines()))
    notes = [row["note"] for row in rows]
    away = [row["what"] for row in rows if row["kind"] == "away"]
    assert away and any(len(note) > 12 for note in notes)
    for name, text in texts(nothing_allowed).items():
        for words in [*(note for note in notes if len(note) > 12), *away]:
            assert words not in text, (name, words)


def test_what_is_allowed_is_there(tmp_path: Path) -> None:
    """With everything allowed the shared pages are those of the plain review."""
    whole = season(tmp_path, **dict.fromkeys(FLAGS, True))
    review(whole, tmp_path / "shared", share=True)
    review(whole, tmp_path / "plain")
    assert texts(tmp_path / "shared") == texts(tmp_path / "plain")


def test_one_zip_stands_beside_the_site_and_is_the_same_each_time(nothing_allowed: Path) -> None:
    """It holds every file of the site in one folder; the same season gives the same bytes."""
    packed = nothing_allowed.with_name("site.zip")
    with zipfile.ZipFile(packed) as archive:
        names = {name.removeprefix("review/") for name in archive.namelist()}
        assert archive.testzip() is None
    assert names == {p.relative_to(nothing_allowed).as_posix() for p in nothing_allowed.rglob("*") if p.is_file()}
    before = packed.read_bytes()
    review(nothing_allowed.parent / "season", nothing_allowed, share=True)
    assert packed.read_bytes() == before


def test_a_foreign_zip_is_kept(tmp_path: Path) -> None:
    """A file of that name that is not ours stops the sharing."""
    (tmp_path / "site.zip").write_bytes(b"mine")
    with pytest.raises(PublishError, match=r"site\.zip"):
        review(season(tmp_path), tmp_path / "site", share=True)
    assert (tmp_path / "site.zip").read_bytes() == b"mine"


def test_every_line_that_names_the_place_is_listed(tmp_path: Path) -> None:
    """Title, diary and story: each line with its number, all at once, and nothing is written."""
    folder = season(tmp_path, story=True)
    toml = (folder / "season.toml").read_text(encoding="utf-8")
    (folder / "season.toml").write_text(
        re.sub(r"\ntitle.*\n", '\ntitle = "Winter at Owlbarrow"\n', toml), encoding="utf-8"
    )
    with (folder / "diary.csv").open("a", encoding="utf-8") as diary:
        diary.write("2026-04-01,,event,Open day at owlbarrow,,,,,,,,\n")
    (folder / "story.md").write_text("One line.\n\nOur Owlbarrow house.\n", encoding="utf-8")
    with pytest.raises(SeasonError) as caught:
        review(folder, tmp_path / "site", share=True)
    places = [(problem.slug, problem.file, problem.line) for problem in caught.value.problems]
    rows = len((folder / "diary.csv").read_text(encoding="utf-8").splitlines())
    assert sorted(places, key=str) == [
        ("private-place-named", "diary.csv", rows),
        ("private-place-named", "season.toml", 3),
        ("private-place-named", "story.md", 3),
    ]
    assert not (tmp_path / "site").exists()


def test_a_story_that_quotes_a_private_figure_is_a_problem(tmp_path: Path) -> None:
    """The quote is named with its line, and nothing is written."""
    folder = season(tmp_path, story=True)
    (folder / "story.md").write_text("Words.\n\nIt cost {{ heat.cost }}.\n", encoding="utf-8")
    with pytest.raises(SeasonError) as caught:
        review(folder, tmp_path / "site", share=True)
    assert [(p.slug, p.file, p.line) for p in caught.value.problems] == [("story-private-figure", "story.md", 3)]
    assert not (tmp_path / "site").exists()


def test_the_last_look_finds_a_private_word_anywhere() -> None:
    """In a page, as HTML writes it, in a table, or in a file's name."""
    words = (PrivateName("Tom & Ann's place"),)
    for name, data in (
        ("a.html", b"at Tom &amp; Ann&#x27;s place"),
        ("a.html", b"at Tom &amp; Ann&#39;s place"),
        ("a.html", b"at Tom &amp; Ann&apos;s place"),
        ("a.html", "at Tom &amp; Ann\u2019s place".encode()),
        ("a.png", b"Tom & Ann's place"),
        ("a.csv", b"tom & ann's PLACE"),
        ("Tom & Ann's place.csv", b""),
    ):
        with pytest.raises(PublishError, match="private"):
            search({name: data}, words)
    search({"a.html": b"nothing of the kind"}, words)


def test_moments_lose_their_offset_and_nothing_else() -> None:
    """ISO moments in text files only; dates and temperatures such as -05:00-like figures stay."""
    built = {"a.json": b'"2026-01-14T06:24:00+01:00" "2026-01-14" "-5"', "a.png": b"2026-01-14T06:24:00+01:00"}
    assert without_offsets(built) == {"a.json": b'"2026-01-14T06:24:00" "2026-01-14" "-5"', "a.png": built["a.png"]}


def test_the_label_and_the_questions_are_searched_for_the_place_too(tmp_path: Path) -> None:
    """What the grower calls the house for others, asks, or writes under `thing` may not name a place kept private."""
    folder = season(tmp_path)
    toml = (folder / "season.toml").read_text(encoding="utf-8")
    count = toml.count("[[question]]") + 1  # it stands behind the sample's own
    asks = '[[question]]\nask = "Is Owlbarrow worth heating?"\nabout = "money"\n'
    (folder / "season.toml").write_text(toml + 'label = "owlbarrow 7"\n' + asks, encoding="utf-8")
    with (folder / "diary.csv").open("a", encoding="utf-8") as diary:
        diary.write("2026-04-01,,event,Open day,,,,,,,,,,Owlbarrow fair\n")
    with pytest.raises(SeasonError) as caught:
        review(folder, tmp_path / "site", share=True)
    assert [(p.file, p.column) for p in caught.value.problems] == [
        ("diary.csv", "thing"),
        ("season.toml", "[share] · label"),
        ("season.toml", f"[[question]] {count} · ask"),
    ]


def test_a_question_about_a_time_away_goes_with_it(tmp_path: Path) -> None:
    """Where times away stay at home, nothing is asked about them either."""
    folder = season(tmp_path)
    asks = '[[question]]\nask = "Did it freeze while we were gone?"\nabout = "2025-12-27"\n'
    toml = (folder / "season.toml").read_text(encoding="utf-8")
    (folder / "season.toml").write_text(toml + asks, encoding="utf-8")
    read = read_season(load_season(folder))
    assert read.questions[-1].line == 7 and len(read.questions) > 1
    assert without_private(read).questions == read.questions[:-1]  # the sample's own ask of other things
