"""Cautions on one page: each is told in full once, and later rows only add what is new."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from reportgen.counsel.cautions import LOCAL, parts
from reportgen.wording import listed

GUIDANCE = re.compile(r" \(the usual guidance of ([^)]+)\)")


def once(words: str) -> str:
    """Words of several cautions with the line on local codes once, at the end."""
    parts = _parts(words)
    return _joined(parts) if len(parts) > 1 and LOCAL in words else words


def _parts(words: str) -> list[str]:
    return [part.strip() for part in words.split(LOCAL) if part.strip()]


def _joined(parts: list[str]) -> str:
    return " ".join([*parts, LOCAL])


def cautions_of(said: Iterable[str | None]) -> tuple[str, ...]:
    """Every caution once, in the order of first being said; the last line says whose guidance they are and puts local
    codes first."""
    told = tuple(dict.fromkeys(part for words in said if words for part in parts(words)))
    whose = list(dict.fromkeys(body for part in told for body in GUIDANCE.findall(part)))
    whose = [body for body in whose if not any(body in other and body != other for other in whose)]
    if len(whose) < 2:
        return (*told, LOCAL) if told else ()
    bare = (GUIDANCE.sub("", part) for part in told)
    return (*bare, f"All this is the usual guidance of {listed(whose)}. {LOCAL}")


@dataclass
class Care:
    """What was told so far on a page: a part of a caution → the anchor of the row that told it."""

    rows: dict[str, str] = field(default_factory=dict)

    def told(self, words: str, row: str) -> tuple[str, str]:
        """What this row must still say, or the anchor of the row that said all of it: one of the two is empty."""
        parts = _parts(words)
        new = [part for part in parts if part not in self.rows]
        above = self.rows[parts[0]] if parts and not new else ""
        for part in new:
            self.rows[part] = row or "main"
        if not new:
            return "", above
        return (_joined(new) if LOCAL in words else " ".join(new)), ""
