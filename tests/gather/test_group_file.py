"""group.toml: found beside the reviews or named, strict, every fault at once with its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from gather.hand import put, review

from reportgen.gather.group_file import group_table
from reportgen.problems import Problem, SeasonError


def read(folder: Path, text: str, name: str = "group.toml") -> list[Problem]:
    """The problems of that text."""
    (folder / name).write_text(text, encoding="utf-8")
    with pytest.raises(SeasonError) as stopped:
        group_table([folder], None)
    return list(stopped.value.problems)


def test_without_a_file_what_holds_where_nothing_is_said(tmp_path: Path) -> None:
    """Metric, no story, no things."""
    table, file = group_table([tmp_path], None)
    assert (table.show, table.story, table.things, file) == ("metric", None, (), "group.toml")


def test_a_whole_file(tmp_path: Path) -> None:
    """As the help shows it, with a story of several lines and a byte order mark."""
    text = '\ufefftitle = "Ours"\nshow = "us"\nstory = """One.\n\nTwo."""\n[[thing]]\nname = "film"\nwords = ["wrap"]\n'
    (tmp_path / "group.toml").write_text(text, encoding="utf-8")
    table, _ = group_table([tmp_path], None)
    assert (table.title, table.show, table.story) == ("Ours", "us", "One.\n\nTwo.")
    assert [(thing.name, thing.words) for thing in table.things] == [("film", ("wrap",))]


def test_it_lies_in_the_place_or_beside_the_file_that_was_named(tmp_path: Path) -> None:
    """In one folder only; --group overrules."""
    place = put(tmp_path / "in", a=review(1))
    (place / "group.toml").write_text('title = "In"\n', encoding="utf-8")
    (tmp_path / "other.toml").write_text('title = "Other"\n', encoding="utf-8")
    assert group_table([place], None)[0].title == "In"
    assert group_table([place / "a.json", place], None)[0].title == "In"
    table, file = group_table([place], tmp_path / "other.toml")
    assert (table.title, file) == ("Other", "other.toml")
    (put(tmp_path / "two", b=review(2)) / "group.toml").write_text("", encoding="utf-8")
    with pytest.raises(SeasonError) as stopped:
        group_table([place, tmp_path / "two"], None)
    assert [problem.slug for problem in stopped.value.problems] == ["two-group-files"]


def test_every_fault_at_once_with_its_line_and_what_was_meant(tmp_path: Path) -> None:
    """A slip in a key (of which no missing key is made), a wrong word, a number for text, an empty list, a missing key,
    words without letters."""
    text = 'titel = "x"\nshow = "imperial"\nstory = 5\n[[thing]]\nnam = "film"\nwords = []\n[[thing]]\nwords = ["42"]\n'
    problems = read(tmp_path, text)
    told = {problem.address: (problem.slug, problem.todo) for problem in problems}
    assert told["group.toml:1, titel"] == ("unknown-key", "did you mean 'title'?")
    assert told["group.toml:2, show"][0] == "wrong-value"
    assert told["group.toml:3, story"][0] == "wrong-value"
    assert told["group.toml:5, [[thing]] 1 · nam"] == ("unknown-key", "did you mean 'name'?")
    assert told["group.toml:6, [[thing]] 1 · words"][0] == "wrong-value"
    assert told["group.toml:7, [[thing]] 2 · name"][0] == "missing-key"
    assert told["group.toml:8, [[thing]] 2 · words 1"][0] == "wrong-value"
    assert len(problems) == 7


def test_a_word_under_two_things_is_a_fault_of_its_own(tmp_path: Path) -> None:
    """Whatever its capitals; a name is a word too."""
    text = '[[thing]]\nname = "film"\nwords = ["wrap"]\n[[thing]]\nname = "Wrap"\nwords = ["quilt", "FILM"]\n'
    problems = read(tmp_path, text)
    assert [(p.slug, p.line) for p in problems] == [("two-things-one-line", 6), ("two-things-one-line", 6)]
    assert {"“wrap”" in p.found or "“film”" in p.found for p in problems} == {True}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("title = x\n", "title = x"),
        ("a = " + "[" * 5000, "nested"),
        ('title = "a\\u001bb"\n', "control"),
        ('title = "a\\u202eb"\n', "control"),
        ('thing = "film"\n', "a list"),
        ("story = '" + "x" * 20_001 + "'\n", "at most 20000"),
        ("# " + "x" * 200_001, "at most 200,000 bytes"),
    ],
)
def test_what_is_no_group_file(text: str, words: str, tmp_path: Path) -> None:
    """Told of this file, not of a season's."""
    problems = read(tmp_path, text)
    assert [problem.file for problem in problems] == ["group.toml"]
    assert words in problems[0].text() and "season" not in problems[0].text()


def test_bytes_and_files_that_cannot_be_read(tmp_path: Path) -> None:
    """No UTF-8; a file that is not there; a folder."""
    (tmp_path / "group.toml").write_bytes(b"title = '\xe4'\n")
    with pytest.raises(SeasonError) as stopped:
        group_table([tmp_path], None)
    assert [problem.slug for problem in stopped.value.problems] == ["toml-syntax"]
    for named in (tmp_path / "none.toml", tmp_path):
        with pytest.raises(SeasonError) as stopped:
            group_table([tmp_path], named)
        assert [problem.slug for problem in stopped.value.problems] == ["no-such-place"]
