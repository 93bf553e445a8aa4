"""The terminal: words that any console can print, and an end in one sentence when the run is stopped."""

from __future__ import annotations

import codecs
import io
import os
import signal
import sys
import textwrap
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

import click

STANDS_IN = {
    "\u2212": "-", "\u2013": "-", "\u2014": "-", "\u2192": "->", "\u2026": "...", "\u00b7": "-", "\u00d7": "x",
    "\u00b1": "+/-", "\u2264": "<=", "\u2265": ">=", "\u2248": "about ", "\u00b0": "deg ", "\u00b2": "2",
    "\u00b3": "3", "\u201c": '"', "\u201d": '"', "\u2018": "'", "\u2019": "'", "\u00ab": '"', "\u00bb": '"',
    "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u20ac": "EUR", "\u00a3": "GBP", "\ufffd": "?",
    "\u00b5": "u", "\u03bc": "u", "\u00df": "ss", "\u00f8": "o", "\u00d8": "O", "\u0142": "l", "\u0141": "L",
    "\u0111": "d", "\u0110": "D", "\u00f0": "d", "\u00d0": "D", "\u00fe": "th", "\u00de": "Th", "\u00e6": "ae",
    "\u00c6": "AE", "\u0153": "oe", "\u0152": "OE", "\u0131": "i", "\u2010": "-", "\u2011": "-", "\u2022": "-",
    "\u2032": "'", "\u2033": '"', "\u00f7": "/", "\u00bc": " 1/4", "\u00bd": " 1/2", "\u00be": " 3/4",
}  # fmt: skip
WIDTH = 100
KEPT = "\n\t\u200c\u200d"  # lines are ours; the joiners belong to words and pictures
OBEYED = ("Cc", "Cf", "Zl", "Zp")  # Unicode: controls, signs without a shape, ends of line and paragraph
HANDLER = "reportgen-stand-in"
INTERRUPTED, TERMINATED = 128 + signal.SIGINT, 128 + signal.SIGTERM  # as shells count them: 130 and 143
STOPPED = "Stopped: nothing half done was left behind."


class Stopped(BaseException):
    """The run was told to end; `code` is its exit code."""

    def __init__(self, code: int) -> None:
        self.code = code
        super().__init__(code)


class Commands(click.Group):
    """A group of commands that prints on any console and ends in order when it is stopped."""

    def main(self, *args: object, **kwargs: object) -> object:  # type: ignore[override]
        """As click's; the streams first."""
        printable(sys.stdout)
        printable(sys.stderr)
        return super().main(*args, **kwargs)  # type: ignore[call-overload]

    def make_context(self, *args: object, **kwargs: object) -> click.Context:
        """As click's; a wrong call is quoted harmlessly."""
        with _quoted():
            return super().make_context(*args, **kwargs)  # type: ignore[arg-type]

    def invoke(self, ctx: click.Context) -> object:
        """Runs the command; Ctrl-C ends with 130, SIGTERM with 143, a closed pipe without a word."""
        try:
            with stoppable(), _quoted():
                return super().invoke(ctx)
        except Stopped as stopped:
            with suppress(OSError):
                say(f"\n{STOPPED}" if sys.stderr.isatty() else STOPPED, err=True)
            ctx.exit(stopped.code)


@contextmanager
def _quoted() -> Iterator[None]:
    """A wrong call is told without what a terminal would obey."""
    try:
        yield
    except click.ClickException as error:
        object.__setattr__(error, "message", harmless(error.message))  # which click calls final
        raise


@contextmanager
def stoppable() -> Iterator[None]:
    """Turns the first Ctrl-C or SIGTERM into Stopped, so that what was begun is tidied; later ones find it at that."""

    def stop(number: int, _: FrameType | None) -> None:
        for other in before:
            signal.signal(other, signal.SIG_IGN)
        raise Stopped(128 + number)

    before: dict[signal.Signals, object] = {}
    try:
        for number in (signal.SIGINT, signal.SIGTERM):
            with suppress(ValueError):  # not in the main thread: then signals are not ours
                before[number] = signal.signal(number, stop)
        yield
    finally:
        for number, old in before.items():
            signal.signal(number, old)  # type: ignore[arg-type]


def say(words: str, *, err: bool = False, nl: bool = True) -> None:
    """Prints words on stdout or stderr, without what a terminal would obey; click's own printing would take an ASCII
    console for one of UTF-8."""
    print(harmless(words), file=sys.stderr if err else sys.stdout, end="\n" if nl else "", flush=True)


def harmless(words: str) -> str:
    """Words that no terminal obeys: escapes and other control characters, and signs that turn the direction of
    reading, stand as \\x1b or \\u202e. Titles, names of files and headers come from outside."""
    return words if words.isprintable() else "".join(_shown(letter) for letter in words)


def wrapped(words: str) -> str:
    """Words broken to fit a terminal of 100 columns, two in from its edge; a list keeps its lines."""
    edge = "  "
    return "\n".join(
        textwrap.fill(
            line, WIDTH, initial_indent=edge, subsequent_indent=edge, break_on_hyphens=False, break_long_words=False
        )
        for line in words.split("\n")
    )


def _shown(letter: str) -> str:
    if letter.isprintable() or letter in KEPT or unicodedata.category(letter) not in OBEYED:
        return letter
    return letter.encode("ascii", "backslashreplace").decode() if ord(letter) > 0x7F else f"\\x{ord(letter):02x}"


def printable(stream: object) -> None:
    """Lets a stream write what its encoding lacks by something that reads alike."""
    if isinstance(stream, io.TextIOWrapper):
        codecs.register_error(HANDLER, _instead)
        stream.reconfigure(errors=HANDLER)


def _instead(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(stand_in(letter) for letter in error.object[error.start : error.end]), error.end


def stand_in(letter: str) -> str:
    """ASCII that reads like a letter: -, ->, deg, e for é; ? where nothing does; \\xe4 for a byte of a file's name."""
    if letter in STANDS_IN:
        return STANDS_IN[letter]
    if 0xDC80 <= ord(letter) <= 0xDCFF:  # a byte that is no UTF-8, as Python carries it in the name of a file
        return os.fsencode(letter).decode("ascii", "backslashreplace") if os.name != "nt" else "?"
    plain = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode()
    return plain or ("" if unicodedata.combining(letter) else "?")
