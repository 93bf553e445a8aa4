"""What each kind of problem means and what to do about it: explanations.md beside this file, where each is said once.

A slug is the stable name of a kind; `reportgen explain SLUG` prints its words, `inspect` those of the kinds it found.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from reportgen import limits
from reportgen.limits import Limit

FILE = Path(__file__).with_name("explanations.md")
_SECTION = re.compile(r"^## (.+)\n", re.M)
_KIND = re.compile(r"^### (\S+)\n", re.M)
LIMITED = "too-much"  # the kind whose words end in the list of limits
LIKE = 0.5  # likeness from which a slug is offered as what was meant; common practice, no source


@cache
def sections() -> Mapping[str, Mapping[str, str]]:
    """The kinds in the order of the file: heading → slug → words."""
    parts = _SECTION.split(FILE.read_text(encoding="utf-8"))[1:]
    return MappingProxyType(
        {title: MappingProxyType(_kinds(text)) for title, text in zip(parts[::2], parts[1::2], strict=True)}
    )


def _kinds(text: str) -> dict[str, str]:
    parts = _KIND.split(text)[1:]
    return {slug: words.strip() for slug, words in zip(parts[::2], parts[1::2], strict=True)}


@cache
def explanations() -> Mapping[str, str]:
    """Every slug with its words; that of too much with the limits themselves."""
    every = {slug: words for kinds in sections().values() for slug, words in kinds.items()}
    return MappingProxyType(every | {LIMITED: "\n".join([every[LIMITED], *_limits()])})


def _limits() -> list[str]:
    """Every limit in words, a line each."""
    return [f"- {limit.words}" for limit in vars(limits).values() if isinstance(limit, Limit)]


def nearest(word: str) -> str | None:
    """The slug that was meant by a word that is none; None where none is like enough."""
    found = difflib.get_close_matches(word.lower()[:100], list(explanations()), n=1, cutoff=LIKE)
    return found[0] if found else None
