"""What group.toml may say, as frozen models."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from reportgen.gather.texts import on_one_line
from reportgen.season.base import Name, Part

STORY_LETTERS = 20_000


def _no_controls(text: str) -> str:
    if any(on_one_line(line) != " ".join(line.split()) for line in text.splitlines()):
        raise ValueError("text without control characters and signs that turn the direction of reading")
    return text


def _has_letters(text: str) -> str:
    if not any(sign.isalpha() for sign in text):
        raise ValueError("words: a text with letters in it")
    return text


Words = Annotated[Name, AfterValidator(_no_controls), AfterValidator(_has_letters)]


class ThingTable(Part):
    """What counts as one thing, and the words by which members call it."""

    name: Words
    words: Annotated[tuple[Words, ...], Field(min_length=1, max_length=200)]


class GroupTable(Part):
    """The whole file; every key is optional."""

    title: Annotated[Name, AfterValidator(_no_controls)] = "Many gardens"
    show: Literal["metric", "us"] = "metric"
    story: Annotated[str, Field(max_length=STORY_LETTERS), AfterValidator(_no_controls)] | None = None
    things: Annotated[tuple[ThingTable, ...], Field(alias="thing", max_length=200)] = ()
