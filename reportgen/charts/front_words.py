"""How many words the first page spends above its picture: what is answered below is not said in the heading too, and
long reasons lose their last parts, never a warning."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from reportgen.counsel.grounds import Answer, Told

SHOWN = 3  # answers that stand open
MOST_ABOVE = 175  # words before the first picture, with its own title and subtitle
HEAD = 5  # "As of 26 January 2026"
LINK = 3  # "How we know"
LEAST_CLAUSES, LEAST_PARTS = 2, 2  # a heading of one clause says too little; both sides of an answer stay
WARNINGS = ("never", "not while", "do not")


@dataclass(frozen=True, kw_only=True, slots=True)
class Above:
    """What stands above the first picture. `dated_first`: what has a date stands there too, else below the picture."""

    clauses: tuple[str, ...]
    answers: tuple[Answer, ...]
    dated_first: bool


def above(fixed: Sequence[str], clauses: Sequence[str], dated: Sequence[str], answers: Sequence[Answer]) -> Above:
    """The heading and the answers within the words there are; what has a date comes before them as long as one clause
    of the heading is left.

    Args:
        fixed: Words that stand there in any case: safety, the picture's title and subtitle.
        clauses: Of the heading, in order of rank.
        dated: Lines of a winter that still runs.
        answers: Those that stand open.
    """
    for n in range(len(clauses), 0, -1):
        taken = words_of([*fixed, *clauses[:n], *dated]) + (HEAD if dated else 0)
        shown = within(answers, MOST_ABOVE - taken)
        if not dated or taken + spent(shown) <= MOST_ABOVE:
            return Above(clauses=tuple(clauses[:n]), answers=shown, dated_first=bool(dated))
    shown = within(answers, MOST_ABOVE - words_of([*fixed, *clauses]))
    return Above(clauses=tuple(clauses), answers=shown, dated_first=False)


def words_of(texts: Iterable[str]) -> int:
    """Words as a reader counts them."""
    return sum(len(text.split()) for text in texts)


def spent(answers: Iterable[Answer]) -> int:
    """Words of the answers, with how sure each is and where it leads."""
    return sum(words_of((one.ask, one.answer, one.why, one.sure.partition(":")[0])) + LINK for one in answers)


def not_answered(told: Sequence[Told], answers: Sequence[Answer]) -> list[Told]:
    """What is told first without what an answer right below tells: a lever by its name, the hold by its subject."""
    about = {answer.about for answer in answers}
    kept = [one for one in told if one.lever not in about and not (one.subject == "hold" and "hold" in about)]
    return kept if len(kept) >= LEAST_CLAUSES else list(told)


def within(answers: Sequence[Answer], room: int) -> tuple[Answer, ...]:
    """The answers with their reasons in `room` words: the longest reason loses its last part that is no warning.

    The whole of it stands where *How we know* leads.
    """
    parts = [answer.why.split("; ") for answer in answers]
    bare = spent([replace(answer, why="") for answer in answers])
    while bare + sum(map(words_of, parts)) > room:
        longest = max((p for p in parts if _spare(p) is not None), key=words_of, default=None)
        if longest is None:
            break
        longest.pop(_spare(longest) or 0)
    return tuple(replace(answer, why="; ".join(kept)) for answer, kept in zip(answers, parts, strict=True))


def _spare(parts: Sequence[str]) -> int | None:
    """Which part may go: the last that warns of nothing, as long as both sides stay."""
    told = [n for n, part in enumerate(parts) if not part.casefold().startswith(WARNINGS)]
    return told[-1] if len(told) > LEAST_PARTS else None
