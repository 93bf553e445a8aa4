"""story.md: the grower's own words, with figures of the review quoted by path and pictures carried along."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from markupsafe import Markup

from reportgen import limits
from reportgen.disk import Unreadable, is_there, read_inside, too_much
from reportgen.dotted import value_at
from reportgen.problems import Problem
from reportgen.site.figures import nearest, quoted
from reportgen.site.pictures import Album
from reportgen.site.text import safe_html
from reportgen.wording import Wording

FILE = "story.md"
PLACE = re.compile(r"\{\{([^{}]*)\}\}")
PICTURE = re.compile(r"!\[([^\]]*)\]\(\s*<?([^)\s>]+)>?((?:\s+\"[^\"]*\")?)\s*\)")
OPENING = re.compile(r"[\s>*+\-\d.]*")  # what opens lists and quotes at the start of a line
LEVEL = re.compile(r"(?:[*+-]|\d\.)\s|>")
PICTURE_TODO = "put the picture into pictures/ and name it as pictures/NAME"
MOST_TOLD = 10
ANY_WORDING = Wording(us=False, currency="")
MARKS = re.compile(r"([\\`*_{}\[\]<>#|])")


@dataclass(frozen=True, kw_only=True, slots=True)
class Story:
    """story.md as read: its lines, and each picture it shows as a data: address, by the name written."""

    lines: tuple[str, ...]
    pictures: Mapping[str, str]

    @property
    def sections(self) -> frozenset[str]:
        """The first part of the path of every figure it quotes."""
        return frozenset(path.partition(".")[0] for _, path in _quotes(self.lines))


def read_story(folder: Path) -> tuple[Story | None, list[Problem]]:
    """The story with its pictures, and all that is wrong with it but for the figures it quotes."""
    if not is_there(folder, FILE):
        return None, []
    try:
        source = read_inside(folder, FILE, limits.STORY_BYTES).decode("utf-8-sig")
    except Unreadable as error:
        return None, [_text_fault(error.slug, error.found, error.todo)]
    except UnicodeDecodeError:
        return None, [_not_text()]
    lines = tuple(source.splitlines())
    if heavy := _too_heavy(lines):
        return None, heavy
    album, pictures, problems = Album(folder), {}, []
    for n, name in ((n, found[2]) for n, line in enumerate(lines, start=1) for found in PICTURE.finditer(line)):
        try:
            if re.match(r"[a-z][a-z0-9+.-]*:", name, re.I):
                raise Unreadable("an address on the net or in the page", PICTURE_TODO)
            pictures[name] = album.embedded(name)
        except Unreadable as error:
            problems.append(_picture(name, n, error))
    return Story(lines=lines, pictures=pictures), problems


def figure_faults(read: Story, document: Mapping[str, Any], *, shared: bool) -> list[Problem]:
    """Every quoted figure that the review does not have, or, shared, that may not leave the house or is not known."""
    problems = []
    for n, path in _quotes(read.lines):
        if not _known(path, document):
            problems.append(_unknown(path, n, document))
        elif shared and _missing(path, document):
            problems.append(_private(path, n))
    return problems


def story_html(read: Story, document: Mapping[str, Any], w: Wording) -> Markup:
    """The story as safe HTML, once all its figures are known to be there."""

    def figure(found: re.Match[str]) -> str:
        return MARKS.sub(r"\\\1", quoted(found[1].strip(), document, w))

    def picture(found: re.Match[str]) -> str:
        return f"![{found[1]}]({read.pictures[found[2]]}{found[3]})"

    return safe_html("\n".join(PICTURE.sub(picture, PLACE.sub(figure, line)) for line in read.lines))


def _too_heavy(lines: Sequence[str]) -> list[Problem]:
    """What would keep the reader of Markdown busy for minutes: endless paragraphs, brackets, levels."""
    problems = []
    size = 0
    for n, line in enumerate(lines, start=1):
        size = size + len(line) + 1 if line.strip() else 0
        depth = len(LEVEL.findall(OPENING.match(line)[0])) + (len(line) - len(line.lstrip())) // 4  # type: ignore[index]
        for limit, count in ((limits.STORY_PARAGRAPH, size), (limits.STORY_LEVELS, depth)):
            if count > limit.most:
                error = too_much(limit, f"{count:,}")
                problems.append(_text_fault(error.slug, error.found, "begin a new paragraph", n))
                size = 0
    for limit, marks in ((limits.STORY_BRACKETS, "[<"), (limits.STORY_FIGURES, ("{{",))):
        if (count := sum(line.count(mark) for line in lines for mark in marks)) > limit.most:
            error = too_much(limit, f"{count:,}")
            problems.append(_text_fault(error.slug, error.found, "take some out"))
    return problems[:MOST_TOLD]


def _quotes(lines: Sequence[str]) -> list[tuple[int, str]]:
    """Line and path of every quoted figure."""
    return [(n, found[1].strip()) for n, text in enumerate(lines, start=1) for found in PLACE.finditer(text)]


def _known(path: str, document: Mapping[str, Any]) -> bool:
    try:
        quoted(path, document, ANY_WORDING)
    except KeyError:
        return False
    return True


def _missing(path: str, document: Mapping[str, Any]) -> bool:
    value = value_at(document, path)
    return value is None or (isinstance(value, Mapping) and "estimate" in value and value["estimate"] is None)


def _private(path: str, n: int) -> Problem:
    return Problem(
        slug="story-private-figure",
        file=FILE,
        line=n,
        found=f"{{{{ {path} }}}}",
        expected="a figure that may leave the house and is known",
        todo="take it out of the story, or allow it under [share] in season.toml",
    )


def _unknown(path: str, n: int, document: Mapping[str, Any]) -> Problem:
    close = nearest(path, document)
    todo = f"did you mean {{{{ {close} }}}}?" if close else "look up the path in data/review.json of a review"
    return Problem(
        slug="story-figure",
        file=FILE,
        line=n,
        found=f"{{{{ {path} }}}}",
        expected="the dotted path of one figure of the review",
        todo=todo,
    )


def _picture(name: str, n: int, error: Unreadable) -> Problem:
    problem = Problem(
        slug="story-picture",
        file=FILE,
        line=n,
        found=f"{name[:200]}: {error.found}",
        expected="a PNG, JPEG, GIF or WebP picture inside the season folder",
        todo=PICTURE_TODO if error.slug == "missing-file" else error.todo,
    )
    return replace(problem, slug=error.slug) if error.slug == "too-much" else problem


def _text_fault(slug: str, found: str, todo: str, line: int | None = None) -> Problem:
    return Problem(slug=slug, file=FILE, line=line, found=found, expected="UTF-8 text of some pages", todo=todo)


def _not_text() -> Problem:
    return Problem(
        slug="story-text",
        file=FILE,
        found="bytes that are not UTF-8",
        expected="UTF-8 text",
        todo="save the file as UTF-8 in your editor",
    )
