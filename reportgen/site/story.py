"""story.md: the grower's own words, with figures of the review quoted by path and pictures carried along."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from markupsafe import Markup

from reportgen.problems import Problem, SeasonError
from reportgen.review import look_up
from reportgen.site.figures import nearest, quoted
from reportgen.site.pictures import PictureError, embedded
from reportgen.site.text import safe_html
from reportgen.wording import Wording

FILE = "story.md"
PLACE = re.compile(r"\{\{\s*([^{}]*?)\s*\}\}")
PICTURE = re.compile(r"!\[([^\]]*)\]\(\s*<?([^)\s>]+)>?((?:\s+\"[^\"]*\")?)\s*\)")
MARKS = re.compile(r"([\\`*_{}\[\]<>#|])")


def story(folder: Path, document: Mapping[str, Any], w: Wording, *, shared: bool = False) -> Markup | None:
    """The story as safe HTML; None where the grower wrote none. Shared, it may quote no figure that is not there.

    Raises:
        SeasonError: A quoted figure does not exist, a picture cannot be shown, or the file is no text; all at once.
    """
    path = folder / FILE
    if not path.is_file():
        return None
    try:
        source = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise SeasonError([_not_text()]) from None
    problems: list[Problem] = []
    if shared:
        problems += [_private(path, n) for n, path in _quotes(source) if _missing(path, document)]
    lines = [_line(text, n, folder, document, w, problems) for n, text in enumerate(source.splitlines(), start=1)]
    if problems:
        raise SeasonError(problems)
    return safe_html("\n".join(lines))


def _line(text: str, n: int, folder: Path, document: Mapping[str, Any], w: Wording, problems: list[Problem]) -> str:
    def figure(found: re.Match[str]) -> str:
        try:
            return MARKS.sub(r"\\\1", quoted(found[1], document, w))
        except KeyError:
            problems.append(_unknown(found[1], n, document))
            return ""

    def picture(found: re.Match[str]) -> str:
        alt, name, title = found[1], found[2], found[3]
        if re.match(r"[a-z][a-z0-9+.-]*:", name, re.I):
            problems.append(_picture(name, n, "an address on the net or in the page"))
            return ""
        try:
            return f"![{alt}]({embedded(folder, name)}{title})"
        except PictureError as error:
            problems.append(_picture(name, n, str(error)))
            return ""

    return PICTURE.sub(picture, PLACE.sub(figure, text))


def _quotes(source: str) -> list[tuple[int, str]]:
    """Line and path of every quoted figure."""
    lines = enumerate(source.splitlines(), start=1)
    return [(n, found[1]) for n, text in lines for found in PLACE.finditer(text)]


def _missing(path: str, document: Mapping[str, Any]) -> bool:
    try:
        value = look_up(document, path)
    except KeyError:
        return False  # told as unknown
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


def _picture(name: str, n: int, found: str) -> Problem:
    return Problem(
        slug="story-picture",
        file=FILE,
        line=n,
        found=f"{name}: {found}",
        expected="a PNG, JPEG, GIF or WebP picture inside the season folder",
        todo="put the picture into pictures/ and name it as pictures/NAME",
    )


def _not_text() -> Problem:
    return Problem(
        slug="story-text",
        file=FILE,
        found="bytes that are not UTF-8",
        expected="UTF-8 text",
        todo="save the file as UTF-8 in your editor",
    )
