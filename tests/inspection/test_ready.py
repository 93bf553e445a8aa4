"""What `inspect` calls ready, `review` makes; what it does not, `review` refuses with the same problems."""

from __future__ import annotations

import base64
from collections.abc import Callable
from pathlib import Path

import pytest
from inspection.test_look import TOML, folder, rows

from reportgen.inspection import inspect
from reportgen.pipeline import review
from reportgen.problems import SeasonError

LAST = '[last_season]\nfolder = "../before"\n'
FAULTY = "date,kind,what\nsoon,event,x\n"
PIXEL = base64.b64decode("R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7")


def _before(home: Path, **files: str) -> Path:
    before = home.parent / "before"
    before.mkdir()
    folder(before, **files)
    return folder(home, TOML + LAST)


def _linked(home: Path) -> Path:
    (home.parent / "secret.md").write_text("secret", encoding="utf-8")
    (home / "story.md").symlink_to(home.parent / "secret.md")
    return folder(home)


BROKEN: dict[str, tuple[Callable[[Path], Path], list[tuple[str, str]]]] = {
    "a picture is missing": (lambda f: folder(f, story__md="![a](a.png)"), [("story-picture", "story.md")]),
    "a story beyond measure": (lambda f: folder(f, story__md="[" * 5_000), [("too-much", "story.md")]),
    "a story by link": (_linked, [("path-leads-out", "story.md")]),
    "no last winter": (lambda f: folder(f, TOML + LAST), [("season-missing", "../before/season.toml")]),
    "a faulty book of last winter": (
        lambda f: _before(f, diary__csv=FAULTY),
        [("not-a-date", "../before/diary.csv")],
    ),
    "a file of last winter": (lambda f: _before(f, yard__csv=""), [("empty-file", "../before/yard.csv")]),
    "all at once": (
        lambda f: folder(
            f, TOML + LAST, yard__csv="", diary__csv="date,kind,what\nsoon,event,x\n", story__md="![a](b)"
        ),
        [
            ("season-missing", "../before/season.toml"),
            ("not-a-date", "diary.csv"),
            ("story-picture", "story.md"),
            ("empty-file", "yard.csv"),
        ],
    ),
    "season.toml and the story": (
        lambda f: folder(f, "title = ", story__md="![a](b)"),
        [("toml-syntax", "season.toml"), ("story-picture", "story.md")],
    ),
    "a figure of the story": (lambda f: folder(f, story__md="{{ frost.nothing }}"), [("story-figure", "story.md")]),
}


@pytest.mark.parametrize("case", sorted(BROKEN))
def test_both_tell_the_same(tmp_path: Path, case: str) -> None:
    """Story, pictures, figures, last winter: the same list from both, and no site."""
    make, told = BROKEN[case]
    home = tmp_path / "winter"
    home.mkdir()
    found = inspect(make(home))
    assert [(problem.slug, problem.file) for problem in found.problems] == told
    with pytest.raises(SeasonError) as caught:
        review(home, tmp_path / "site")
    assert [problem for problem in caught.value.problems if problem.level == "problem"] == list(found.problems)
    assert not (tmp_path / "site").exists()


def test_last_winter_named_in_the_call(tmp_path: Path) -> None:
    """`against` is looked at as in a review."""
    home = tmp_path / "winter"
    home.mkdir()
    assert inspect(folder(home)).complete
    found = inspect(home, against=tmp_path / "nowhere")
    assert [problem.slug for problem in found.problems] == ["season-missing"]


def test_what_keeps_a_review_from_being_shared(tmp_path: Path) -> None:
    """With `share` the name of a private place in the title is told; without, it is no problem."""
    home = tmp_path / "winter"
    home.mkdir()
    folder(home, TOML.replace("A winter", "Winter in Long Meadow") + '[place]\nname = "Long Meadow"\n')
    assert inspect(home).complete
    assert [problem.slug for problem in inspect(home, share=True).problems] == ["private-place-named"]


def test_a_ready_folder_is_made(tmp_path: Path) -> None:
    """A story with a figure and a picture, and a winter before: ready, and then written with both."""
    (tmp_path / "before").mkdir()
    folder(tmp_path / "before", TOML.replace("2025", "2024"), bench__csv=rows(2024), yard__csv=rows(2024))
    home = tmp_path / "winter"
    home.mkdir()
    (home / "a.gif").write_bytes(PIXEL)
    folder(home, TOML + LAST, story__md="The margin was {{ frost.minimum.margin_k }}.\n\n![the house](a.gif)\n")
    found = inspect(home)
    assert found.problems == () and found.complete
    review(home, tmp_path / "site")
    page = (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    assert 'alt="the house"' in page and "The margin was" in page
