"""A number as it is written by hand: 1.25, 1,25, .5, 1 250, 1,250.00, and the mark that a file uses for decimals."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

_PLAIN = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)")
_AMBIGUOUS = {mark: re.compile(rf"[+-]?[1-9]\d{{0,2}}{re.escape(mark)}\d{{3}}") for mark in ",."}
_DECIMALS = {  # in which that mark can only be the one of decimals
    mark: re.compile(rf"[+-]?\d*{m}(?:\d{{1,2}}|\d{{4,}})|[+-]?0{m}\d{{3}}|[+-]?\d{{1,3}}(?:{o}\d{{3}})+{m}\d+")
    for mark, m, o in ((",", ",", r"\."), (".", r"\.", ","))
}
_GROUPED = {  # decimal mark → what the other mark parts into thousands beyond doubt
    ",": re.compile(r"[+-]?\d{1,3}(?:(?:\.\d{3})+,\d+|(?:\.\d{3}){2,})"),
    ".": re.compile(r"[+-]?\d{1,3}(?:(?:,\d{3})+\.\d+|(?:,\d{3}){2,})"),
}
OTHER = {",": ".", ".": ","}
_SPACED = re.compile(r"(?<=\d)['\u2019\u00a0\u202f ](?=\d{3}(?!\d))")
_WITH_WORDS = re.compile(
    r"[^\d\s.,+-]{0,4}\s*(?P<number>[\d.,]*\d)\s*[^\d\s.,][^\d]{0,19}|[^\d\s.,+-]{1,4}\s*(?P<bare>[\d.,]*\d)"
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Marks:
    """`decimal`: the mark that can only be that of decimals in some cells of a file, None where none can or both.
    `grouped`: that the other mark parts thousands in some, beyond doubt."""

    decimal: str | None = None
    grouped: bool = False


UNSHOWN = Marks()


def marks_of(cells: Iterable[str]) -> Marks:
    """What the numbers of a file show of its marks."""
    texts = [_bare(cell) for cell in cells]
    found = {mark for text in texts for mark, pattern in _DECIMALS.items() if pattern.fullmatch(text)}
    grouped = {mark for text in texts for mark, pattern in _GROUPED.items() if pattern.fullmatch(text)}
    decimal = next(iter(found | grouped)) if len(found | grouped) == 1 else None
    return Marks(decimal=decimal, grouped=decimal in grouped)


def number_of(cell: str, marks: Marks) -> float | None:
    """The number of a cell; None where it is none, or may be two."""
    text = _bare(cell)
    if twofold(text, marks):
        return None
    for mark, pattern in _GROUPED.items():
        other = OTHER[mark]
        if pattern.fullmatch(text) or (marks.grouped and marks.decimal == mark and _AMBIGUOUS[other].fullmatch(text)):
            return float(text.replace(other, "").replace(",", "."))
    return float(text.replace(",", ".")) if _PLAIN.fullmatch(text) else None


def twofold(cell: str, marks: Marks, point: bool = True) -> tuple[str, str] | None:
    """The two readings of 1,250, the larger first, where the file does not show which; those of 1.250 too where its
    decimals are written with a comma, or where a `point` is not taken for the mark of decimals with three digits."""
    text = _bare(cell)
    if marks.grouped:
        return None
    if _AMBIGUOUS[","].fullmatch(text) and marks.decimal != ",":
        return text.replace(",", ""), text.replace(",", ".")
    if _AMBIGUOUS["."].fullmatch(text) and (marks.decimal == "," or (not point and marks.decimal is None)):
        return text.replace(".", ""), text.replace(".", ",") if marks.decimal == "," else f"{text}0"
    return None


def number_in(cell: str) -> str | None:
    """The number of a cell that holds a unit or a sign of money beside it; None where it is not so plain."""
    found = _WITH_WORDS.fullmatch(cell.strip())
    return (found["number"] or found["bare"]) if found else None


def _bare(cell: str) -> str:
    return _SPACED.sub("", cell.strip().replace("\u2212", "-"))
