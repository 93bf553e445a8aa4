"""story.md: figures by path, pictures without their secrets, every fault at once."""

from __future__ import annotations

import base64
import html
import io
import re
import time
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from reportgen.problems import SeasonError
from reportgen.site.pictures import LONGEST
from reportgen.site.story import figure_faults, read_story, story_html
from reportgen.wording import Wording

W = Wording(us=False, currency="EUR")
DOCUMENT: dict[str, Any] = {
    "frost": {"minimum": {"margin_k": 1.25, "outdoor_c": None, "at": "2026-01-14T05:40:00+01:00"}, "reasons": {}},
    "heat": {"cost": 96.5, "kwh": 412.0, "reasons": {}},
}
DOCUMENT["frost"]["reasons"] = {"minimum.outdoor_c": "no outdoor logger"}


def story(folder: Path, w: Wording = W) -> str | None:
    """The story of a folder as HTML, by the steps of a review."""
    read, problems = read_story(folder)
    problems += figure_faults(read, DOCUMENT, shared=False) if read is not None else []
    if problems:
        raise SeasonError(problems)
    return None if read is None else html.unescape(str(story_html(read, DOCUMENT, w)))


def told(folder: Path, text: str, w: Wording = W) -> str:
    """The story's HTML."""
    (folder / "story.md").write_text(text, encoding="utf-8")
    return story(folder, w) or ""


def faults(folder: Path, text: str) -> list[tuple[str, int | None]]:
    """Slug and line of every fault."""
    with pytest.raises(SeasonError) as caught:
        told(folder, text)
    return [(problem.slug, problem.line) for problem in caught.value.problems]


def test_without_a_story_there_is_none(tmp_path: Path) -> None:
    """No file, no section."""
    assert story(tmp_path) is None


def test_figures_are_quoted_in_the_shown_unit(tmp_path: Path) -> None:
    """1.25 K is 1.2 K here and 2.2 °F (1.25 × 9/5) where US units are shown; money carries its code."""
    assert "EUR\u00a096.50" in told(tmp_path, "It cost {{ heat.cost }}.")
    assert "412\u00a0kWh" in told(tmp_path, "{{heat.kwh}}")
    assert "2.2\u00a0°F" in told(tmp_path, "{{ frost.minimum.margin_k }}", Wording(us=True, currency=None))
    assert "14\u00a0January, 05:40" in told(tmp_path, "{{ frost.minimum.at }}")


def test_a_figure_that_is_not_known_says_why(tmp_path: Path) -> None:
    """Null is never printed as nothing."""
    assert "not known (no outdoor logger)" in told(tmp_path, "Outside {{ frost.minimum.outdoor_c }}.")


def test_every_fault_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    """An unknown figure, a picture that is not there and one from the net."""
    text = "a\n{{ frost.minimum.margin }}\n![x](pictures/none.jpg)\n![y](https://far.example/a.png)\n"
    assert faults(tmp_path, text) == [("story-figure", 2), ("story-picture", 3), ("story-picture", 4)]


def test_an_unknown_figure_names_the_nearest(tmp_path: Path) -> None:
    """The to-do line offers the path that was meant."""
    with pytest.raises(SeasonError) as caught:
        told(tmp_path, "{{ frost.minimum.margin }}")
    assert "frost.minimum.margin_k" in caught.value.problems[0].todo


def test_a_picture_outside_the_season_is_refused(tmp_path: Path) -> None:
    """Neither .. nor a link leads out of the folder."""
    home = tmp_path / "season"
    home.mkdir()
    Image.new("RGB", (4, 4)).save(tmp_path / "secret.png")
    (home / "link.png").symlink_to(tmp_path / "secret.png")
    assert faults(home, "![a](../secret.png)\n![b](link.png)") == [("story-picture", 1), ("story-picture", 2)]


def test_a_photograph_loses_place_and_camera_and_is_made_small(tmp_path: Path) -> None:
    """GPS and camera of the EXIF block are gone; the longer side is at most LONGEST."""
    noise = Image.merge("RGB", [Image.effect_noise((1600, 900), 80) for _ in range(3)])
    exif = Image.Exif()
    exif[0x010F] = "SECRETCAMERA"
    exif.get_ifd(0x8825)[1] = "N"
    noise.save(tmp_path / "a.jpg", exif=exif)
    assert b"SECRETCAMERA" in (tmp_path / "a.jpg").read_bytes()
    page = told(tmp_path, "![the bed](a.jpg)")
    found = re.search(r'src="data:image/jpeg;base64,([^"]+)"', page)
    assert found is not None and 'alt="the bed"' in page
    data = base64.b64decode(found[1])
    assert b"SECRETCAMERA" not in data
    with Image.open(io.BytesIO(data)) as image:
        assert max(image.size) == LONGEST and not image.getexif()


def test_a_file_that_is_no_text_is_a_problem(tmp_path: Path) -> None:
    """Bytes that are not UTF-8 are told, not guessed at."""
    (tmp_path / "story.md").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(SeasonError) as caught:
        story(tmp_path)
    assert caught.value.problems[0].slug == "story-text"


def test_a_story_that_leads_out_is_refused(tmp_path: Path) -> None:
    """By a link; and a folder of that name is told."""
    home = tmp_path / "season"
    home.mkdir()
    (tmp_path / "diary.md").write_text("secret", encoding="utf-8")
    (home / "story.md").symlink_to(tmp_path / "diary.md")
    assert [problem.slug for problem in read_story(home)[1]] == ["path-leads-out"]
    (home / "story.md").unlink()
    (home / "story.md").mkdir()
    assert [problem.slug for problem in read_story(home)[1]] == ["cannot-open"]


@pytest.mark.parametrize(
    "text",
    [
        "[" * 16_000,
        "![a](" * 2_000,
        "<b " * 2_000,
        "\n".join("  " * n + "- a" for n in range(300)),
        "- " * 300 + "a",
        ">" * 300 + "a",
        "word " * 800_000,
        "word " * 3_000,
        "{{ heat.cost }}" * 300,
    ],
)
def test_a_story_beyond_all_measure_is_told(tmp_path: Path, text: str) -> None:
    """Brackets, levels, paragraphs and words without end are not given to the reader of Markdown."""
    (tmp_path / "story.md").write_text(text, encoding="utf-8")
    _, problems = read_story(tmp_path)
    assert {problem.slug for problem in problems} == {"too-much"}


@pytest.mark.parametrize("mark", ["[ ", "> ", "*a", "**_", "\n|-", "{{ " + " " * 3_000, "![a](b" + " " * 3_000])
def test_a_story_at_the_limits_is_quick(tmp_path: Path, mark: str) -> None:
    """What is let through takes a moment of computing, whatever stands in it."""
    (tmp_path / "story.md").write_text(mark * (3_000 // len(mark) + 1), encoding="utf-8")
    before = time.process_time()
    read, problems = read_story(tmp_path)
    if read is not None and not problems:
        story_html(read, DOCUMENT, W)
    assert time.process_time() - before < 5.0
