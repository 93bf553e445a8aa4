"""Asks a person, or takes the guess; gathers what was not sure."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

Ask = Callable[[str, str], str]
T = TypeVar("T")
TRIES = 3  # then the guess is taken, so that a script that answers nonsense ends


@dataclass(kw_only=True, slots=True)
class Asker:
    """`ask(question, guess)` gives the answer; None: nobody is there and every guess is taken."""

    ask: Ask | None
    unsure: list[str] = field(default_factory=list)

    @property
    def alone(self) -> bool:
        """Whether nobody answers."""
        return self.ask is None

    def get(self, question: str, guess: str, read: Callable[[str], T | None], doubt: str = "") -> T | None:
        """The answer as a value; `doubt` is noted when nobody was asked. An empty answer leaves the thing out.

        `read` gives None for an answer that cannot be; it is then asked again.
        """
        if self.ask is None:
            self.doubt(doubt)
            return read(guess) if guess else None
        for _ in range(TRIES):
            answer = self.ask(question, guess).strip()
            if not answer:
                return None
            if (value := read(answer)) is not None:
                return value
            question = f"{answer!r} will not do. {question.removeprefix(_last_word(question))}"
        self.doubt(doubt or f"{question}: the guess {guess!r} was taken")
        return read(guess) if guess else None

    def choose(self, question: str, options: Sequence[str], guess: str, doubt: str = "") -> str:
        """One of the options."""
        words = f"{question} ({' / '.join(options)})"
        return self.get(words, guess, lambda text: _one_of(text, options), doubt) or guess

    def doubt(self, words: str) -> None:
        """Notes something that was not sure, once."""
        if words and words not in self.unsure:
            self.unsure.append(words)


def _last_word(question: str) -> str:
    """The complaint that an earlier round put before the question."""
    head, mark, _ = question.partition(" will not do. ")
    return head + mark if mark else ""


def _one_of(text: str, options: Sequence[str]) -> str | None:
    """The option meant, whatever its case, or by an unmistakable beginning."""
    low = text.casefold()
    exact = [option for option in options if option.casefold() == low]
    begun = [option for option in options if option.casefold().startswith(low)]
    return exact[0] if exact else begun[0] if len(begun) == 1 else None
