"""Cautions on one page: each is told in full once, and later rows only add what is new."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from reportgen.counsel.cautions import LOCAL, USUAL


def once(words: str) -> str:
    """Words of several cautions with the line on local codes once, at the end."""
    parts = _parts(words)
    return _joined(parts) if len(parts) > 1 and LOCAL in words else words


def _parts(words: str) -> list[str]:
    return [part.strip() for part in words.split(LOCAL) if part.strip()]


def _joined(parts: list[str]) -> str:
    return " ".join([*parts, LOCAL])


def cautions_of(said: Iterable[str | None]) -> tuple[str, ...]:
    """Every caution once, in the order of first being said, the line on local codes last."""
    parts = [part for words in said if words for part in _single(words)]
    told = tuple(dict.fromkeys(parts))
    return (*told, LOCAL) if told else ()


def _single(words: str) -> list[str]:
    """Each usual caution in these words by itself; what is none of them as it stands."""
    usual = [one.replace(LOCAL, "").strip() for one in USUAL]
    found = [one for one in usual if one in words]
    rest = words.replace(LOCAL, "")
    for one in found:
        rest = rest.replace(one, "")
    return [*found, *([rest.strip()] if rest.strip() else [])]


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
