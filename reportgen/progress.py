"""What is being done, and how long it took: a line a stage on a terminal, nothing where stderr is none."""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass

from reportgen import console


@dataclass(slots=True)
class Progress:
    """`tell(words)` begins a stage and ends the one before with its seconds."""

    begun: float = 0.0
    first: float | None = None

    def __enter__(self) -> Progress:
        return self

    def tell(self, words: str) -> None:
        """Names the stage that begins."""
        if not _watched():
            return
        self._end()
        now = time.monotonic()
        self.begun, self.first = now, now if self.first is None else self.first
        console.say(f"{words} ... ", err=True, nl=False)

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        if self.first is None:
            return
        if kind is not None:
            console.say("", err=True)
            return
        self._end()
        console.say(f"done in {_seconds(time.monotonic() - self.first)}", err=True)

    def _end(self) -> None:
        if self.first is not None:
            console.say(_seconds(time.monotonic() - self.begun), err=True)


def _watched() -> bool:
    return sys.stderr is not None and sys.stderr.isatty()


def _seconds(value: float) -> str:
    return f"{value:.1f} s"
