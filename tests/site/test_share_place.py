"""Where the house is stays at home, however it is spelled and wherever it stands."""

from __future__ import annotations

import html
import json
import shutil
import unicodedata
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shared_folder import problems, small, unpacked

from reportgen.inspection import inspect
from reportgen.pipeline import analyse, check, review
from reportgen.problems import SeasonError
from reportgen.readings.folded import PrivateName
from reportgen.readings.spot import PrivateSpot
from reportgen.site import PublishError
from reportgen.site.share import search

LOGGERS = ["tanneryyard-bench", "Tannery_Yard", "tannery  yard", "TANNERY\u00a0YARD 2", "Ta\u0301nnery-Ya\u0301rd"]
TYPED = {
    "title": ("season.toml", None, "title"),
    "kind": ("season.toml", None, "[house] \u00b7 kind"),
    "label": ("season.toml", None, "[share] \u00b7 label"),
    "ask": ("season.toml", None, "[[question]] 1 \u00b7 ask"),
    "what": ("diary.csv", 2, "what"),
    "thing": ("diary.csv", 2, "thing"),
    "cultivar": ("plantings.csv", 2, "cultivar"),
    "cause": ("plantings.csv", 2, "cause"),
    "found": ("inspections.csv", 2, "found"),
    "story": ("story.md", 1, None),
}


def plain(text: str) -> str:
    """Letters and figures alone, small, without accents: another way than the code's own."""
    pieces = unicodedata.normalize("NFKD", html.unescape(text)).casefold()
    return "".join(letter for letter in pieces if letter.isalnum())


def leaks(packed: Path, place: str) -> list[str]:
    """The members of a ZIP in which the place stands."""
    members = unpacked(packed).items()
    return [name for name, data in members if plain(place) in plain(name + " " + data.decode("utf-8", "ignore"))]


@pytest.fixture(scope="module")
def renamed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The place in a logger's name, its file's and its folder's, of this winter and the last."""
    folder = tmp_path_factory.mktemp("renamed")
    toml = '[last_season]\nfolder = "before"\n'
    small(
        folder / "s",
        place="Tannery Yard",
        logger="tannery_yard bench",
        file="tannery yard/TanneryYard 1.csv",
        toml=toml,
    )
    small(folder / "s" / "before", place="Old Mill", logger="old  mill", file="oldmill.csv")
    review(folder / "s", folder / "site", share=True)
    return folder


def test_loggers_and_files_get_neutral_names_everywhere(renamed: Path) -> None:
    """One name in pages, tables and review.json, and the place of neither winter in any byte of the ZIP."""
    assert leaks(renamed / "site.zip", "Tannery Yard") == leaks(renamed / "site.zip", "Old Mill") == []
    members = unpacked(renamed / "site.zip")
    record = json.loads(members["review/data/review.json"])["record"]
    assert {(file["file"], file["logger"]) for file in record["files"]} == {
        ("logger-1.csv", "logger-1"),
        ("logger-1.csv", "yard"),
    }
    assert {channel["logger"] for channel in record["channels"]} == {"logger-1", "yard"}
    assert b"logger-1.csv,logger-1," in members["review/data/record_files.csv"]
    assert b"Logger logger-1 is new" in members["review/data/winters_alike.csv"]
    assert b"Logger logger-3 of last winter" in members["review/data/winters_alike.csv"]


def test_the_readings_are_those_of_the_grower_all_the_same(renamed: Path, tmp_path: Path) -> None:
    """Another name moves no number."""
    mine = analyse(renamed / "s", share=True).record
    bare = small(tmp_path / "s", place="Tannery Yard")
    theirs = analyse(bare, share=True).record
    assert [(c.values_used, c.mean) for c in mine.channels] == [(c.values_used, c.mean) for c in theirs.channels]


def test_a_sentence_of_the_checks_speaks_of_the_neutral_name(tmp_path: Path) -> None:
    """What the checks say of a file names it; shared, by its neutral name."""
    folder = small(tmp_path / "s", place="Tannery Yard", file="tannery-yard.csv")
    rows = (folder / "tannery-yard.csv").read_text(encoding="utf-8").splitlines()
    later = [row.replace(" 03:00", " 04:00") if " 03:00" in row and "2026-01-1" in row else row for row in rows]
    (folder / "tannery-yard.csv").write_text("\n".join([*later, *later[40:60]]) + "\n", encoding="utf-8")
    shared = check(folder, share=True).readings
    assert shared is not None and {account.file for account in shared.files} == {"logger-1.csv"}
    mine, theirs = check(folder).readings, shared
    assert mine is not None and len(mine.findings) == len(theirs.findings) > 0
    assert all("tannery" not in finding.words for finding in theirs.findings)


def test_warnings_keep_the_names_the_grower_knows(tmp_path: Path) -> None:
    """What is to be mended is named as it is called at home."""
    toml = '[[logger]]\nname = "Tannery Yard shed"\nwhere = "elsewhere"\nfiles = ["loggers/all.csv"]\ntime = "time"\n'
    toml += '[logger.measures]\nsoil_moisture = { column = "none", unit = "m\u00b3/m\u00b3" }\n'
    folder = small(tmp_path / "s", place="Tannery Yard", toml=toml)
    table = (folder / "loggers/all.csv").read_text(encoding="utf-8").splitlines()
    (folder / "loggers/all.csv").write_text(
        "\n".join([table[0] + ",none", *(r + "," for r in table[1:])]), encoding="utf-8"
    )
    found = inspect(folder, share=True)
    assert found.problems == ()
    assert any("Tannery Yard shed" in warning.found for warning in found.warnings)


def test_a_neutral_name_is_taken_by_no_other_logger(tmp_path: Path) -> None:
    """Where one is called logger-1 already, another name is found."""
    folder = small(tmp_path / "s", place="Yard", logger="logger-2")
    readings = check(folder, share=True).readings
    assert readings is not None
    assert [logger.name for logger in readings.season.loggers] == ["logger-2", "logger-2-2"]


@pytest.mark.parametrize("field", TYPED)
def test_what_was_typed_is_listed_with_file_and_line(tmp_path: Path, field: str) -> None:
    """Any field, in another spelling; season.toml's lines are found by their key."""
    text = "Winter at tannery\u00a0 YA\u0301RD"
    folder = small(tmp_path / "s", place="Tannery Yard", share="story = true", **{field: text})
    file, line, column = TYPED[field]
    lines = (folder / file).read_text(encoding="utf-8").splitlines()
    line = line or next(n for n, words in enumerate(lines, start=1) if text in words)
    assert problems(check(folder, share=True)) == [(file, line, column)]


def test_all_of_it_at_once_and_of_last_winter_too(tmp_path: Path) -> None:
    """Every line of both folders, each with the name of its folder."""
    fields = dict.fromkeys(("title", "kind", "what", "bed", "cause"), "By Tannery_Yard")
    folder = small(tmp_path / "s", place="Northmoor", toml='[last_season]\nfolder = "before"\n', **fields)
    small(folder / "before", place="Tannery Yard", title="Tannery yard", thing="northmoor")
    found = {(file, column) for file, _, column in problems(check(folder, share=True))}
    here = {("season.toml", c) for c in ("title", "[house] \u00b7 kind", "[[logger]] 1 \u00b7 beds")}
    books = {("diary.csv", "what"), ("plantings.csv", "bed"), ("plantings.csv", "cause"), ("inspections.csv", "bed")}
    assert found == here | books | {("before/season.toml", "title"), ("before/diary.csv", "thing")}


@pytest.mark.parametrize(
    ("text", "told"), [("Aas &#39;26", 1), ("in aas-bench", 1), ("Gaas over the kale", 0), ("as it was", 0)]
)
def test_a_place_of_three_letters(tmp_path: Path, text: str, told: int) -> None:
    """Found as a word, not as part of one."""
    assert len(problems(check(small(tmp_path / "s", place="Aas", what=text), share=True))) == told


def test_a_place_of_three_letters_lets_its_neighbours_be_shared(tmp_path: Path) -> None:
    """Gaas stays in the pages; the logger that may be called after the place gets a neutral name."""
    review(
        small(tmp_path / "s", place="Aas", what="Gaas over the kale", logger="gaasbench"), tmp_path / "o", share=True
    )
    members = unpacked(tmp_path / "o.zip")
    assert any(b"Gaas over the kale" in data for data in members.values())
    assert not any(b"gaasbench" in data for data in members.values())


def test_a_place_named_like_a_word_of_the_report_can_be_shared(tmp_path: Path) -> None:
    """March is a town and a month; the pages' own words are nobody's secret."""
    review(small(tmp_path / "s", place="March"), tmp_path / "o", share=True)
    assert (tmp_path / "o.zip").exists()


def test_the_town_of_the_clock_counts_unless_a_crop_is_called_by_it(tmp_path: Path) -> None:
    """Brussels sprouts tell of no place."""
    title = "A winter near BRATISLAVA"
    assert len(problems(check(small(tmp_path / "a", title=title), share=True))) == 1
    sprouts = small(tmp_path / "b", zone="Europe/Brussels", crop="Brussels sprouts", what="Brussels sprouts covered")
    assert problems(check(sprouts, share=True)) == []


def test_coordinates_in_words_are_a_problem(tmp_path: Path) -> None:
    """Also rounded."""
    assert len(problems(check(small(tmp_path / "s", title="Winter at 48.61\u00b0 N"), share=True))) == 1


@pytest.mark.parametrize(
    ("latitude", "longitude", "show"), [(50.0, 15.0, "metric"), (-35.0, 149.0, "us"), (5.0, 0.0, "metric")]
)
def test_a_place_of_whole_degrees_can_be_shared(tmp_path: Path, latitude: float, longitude: float, show: str) -> None:
    """The ticks of its charts are no coordinates; the same figures as a grower types them are."""
    for name, title in (("a", "A winter"), ("b", f"A winter at {abs(latitude):.0f}\u00b0, {longitude:.0f}\u00b0")):
        file = small(tmp_path / name, title=title) / "season.toml"
        text = file.read_text(encoding="utf-8").replace("48.612", str(latitude)).replace("18.447", str(longitude))
        file.write_text(text.replace("format = 1\n", f'format = 1\nshow = "{show}"\n', 1), encoding="utf-8")
        assert f'show = "{show}"' in file.read_text(encoding="utf-8")
    review(tmp_path / "a", tmp_path / "o", share=True)
    assert any(
        f"{tick}\u00b0".encode() in data for tick in (0, 5, 50) for data in unpacked(tmp_path / "o.zip").values()
    )
    assert [column for _, _, column in problems(check(tmp_path / "b", share=True))] == ["title"]


def test_the_last_look_reads_coordinates_by_the_run() -> None:
    """A pair in one sentence, cell or attribute is found; figures in elements or cells of their own are not."""
    spot = [PrivateSpot(50.0, 15.0, pairs=False)]
    for name, data in (
        ("a.html", "<p>at 50\u00b0, <b>15\u00b0</b></p>"),
        ("a.html", '<img alt="50\u00b0 N">'),
        ("a.html", "<svg><text>50\u00b0<tspan> 15\u00b0</tspan></text></svg>"),
        ("a.json", '{"a": ["50\u00b0/15\u00b0"]}'),
        ("a.csv", 'x,y\n"50\u00b0, 15\u00b0",1\n'),
    ):
        with pytest.raises(PublishError, match="private"):
            search({name: data.encode()}, spot)
    page = "<svg><text>50\u00b0</text> <text>15\u00b0</text></svg><p>15\u00b0</p><p>North</p>"
    search(
        {"a.html": page.encode(), "a.json": rb'{"a": ["50\u00b0", "15\u00b0"]}', "a.csv": b"week,kg\n2025-W15,50\n"},
        spot,
    )


def test_a_story_that_breaks_the_name_over_two_lines(tmp_path: Path) -> None:
    """The first of the two lines is named; the file name of a picture, which is not shared, is no matter."""
    folder = small(tmp_path / "s", place="Tannery Yard", share="story = true", story="A.\n\nOur Tannery\nYard.\n")
    assert problems(check(folder, share=True)) == [("story.md", 3, None)]


def test_with_the_place_allowed_nothing_is_renamed(tmp_path: Path) -> None:
    """Who shares the place shares its names."""
    folder = small(
        tmp_path / "s", place="Tannery Yard", share="place = true", logger="tannery yard", title="Tannery Yard"
    )
    readings = check(folder, share=True).readings
    assert readings is not None and readings.season.loggers[0].name == "tannery yard"


def test_a_sum_of_money_in_words_is_warned_about(tmp_path: Path) -> None:
    """With file and line, and the review is made; not where prices may go."""
    checked = check(small(tmp_path / "a", what="Film for 40 \u20ac"), share=True)
    told = [(p.file, p.line, p.column) for p in checked.warnings if p.slug == "price-in-words"]
    assert told == [("diary.csv", 2, "what")] and checked.problems == ()
    allowed = check(small(tmp_path / "b", what="Film for 40 \u20ac", share="prices = true"), share=True)
    assert not [p for p in allowed.warnings if p.slug == "price-in-words"]


def test_the_zip_says_nothing_of_its_maker(renamed: Path) -> None:
    """A neutral folder inside, one moment and one system for all, no comment; the same bytes each time."""
    with zipfile.ZipFile(renamed / "site.zip") as archive:
        entries = archive.infolist()
    assert {entry.filename.partition("/")[0] for entry in entries} == {"review"}
    assert {(entry.date_time, entry.create_system) for entry in entries} == {((1980, 1, 1, 0, 0, 0), 3)}


def test_out_named_after_the_place_is_refused(tmp_path: Path) -> None:
    """The ZIP would bear the name; a folder around it may."""
    folder = small(tmp_path / "s", place="Tannery Yard")
    with pytest.raises(PublishError, match="another folder"):
        review(folder, tmp_path / "tannery-yard 2026", share=True)
    assert not (tmp_path / "tannery-yard 2026").exists()


def test_the_last_look_reads_words_as_they_are_shown() -> None:
    """Over marks of a page, in attributes, in JSON, in a table, in a name, in the letters of a drawing."""
    yard = [PrivateName("Tannery Yard")]
    for name, data in (
        ("a.html", b"<p>at Tan<b>nery</b>&nbsp;Yard</p>"),
        ("a.html", b'<img alt="tannery yard">'),
        ("a.html", b"<svg><text>Tannery</text><text>Yard</text></svg>"),
        ("a.json", rb'{"a": ["Tannery\u00a0Yard"]}'),
        ("a.csv", "x\ntánnery_yard\n".encode()),
        ("TanneryYard.csv", b""),
    ):
        with pytest.raises(PublishError, match="private"):
            search({name: data}, yard)
    search({"a.html": b'<path d="M1 2"/><td>tannery</td><p>the yard</p>'}, yard)


@given(st.data())
@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_spelling_in_no_field_gets_out(tmp_path_factory: pytest.TempPathFactory, data: st.DataObject) -> None:
    """Either the run ends with a problem that names the field, or the place is in no byte of the ZIP."""
    place = data.draw(st.sampled_from(["Tannery Yard", "M\u00fcllerhof", "O'Dea Nook"]))
    gaps = ["", " ", "  ", "_", "-", "\u00a0"]
    spelled = data.draw(st.sampled_from(gaps)).join(place.split())
    spelled = data.draw(st.sampled_from([str.upper, str.lower, str.title, str]))(spelled)
    spelled = unicodedata.normalize(data.draw(st.sampled_from(["NFC", "NFD"])), spelled)
    field = data.draw(st.sampled_from([*TYPED, "note", "logger", "file"]))
    if field in TYPED and data.draw(st.booleans()):
        spelled = f"&#{ord(spelled[0])};{spelled[1:]}"
    folder = tmp_path_factory.mktemp("spelled")
    text = f"loggers/{spelled}.csv" if field == "file" else spelled
    small(folder / "s", place=place, share="story = true", **{field: text})
    try:
        review(folder / "s", folder / "o", share=True)
    except SeasonError as error:
        assert field in TYPED and problems(error)[0][0] == TYPED[field][0]
        assert not (folder / "o.zip").exists()
    else:
        assert field in ("note", "logger", "file")
        assert leaks(folder / "o.zip", place) == []
    shutil.rmtree(folder)
