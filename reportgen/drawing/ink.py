"""The colours of the drawings by name: CSS custom properties, so that dark, print and forced colours are CSS alone."""

from __future__ import annotations

from typing import Literal

Token = Literal["cold", "target", "warm", "humid", "soil", "sun", "money", "neutral"]
Mark = Literal["helped", "opposite", "open", "none"]  # ● ■ ○ and a small dot; never without its word

INK, INK2, PAPER, RULE, RULE2 = (f"var(--{name})" for name in ("ink", "ink2", "paper", "rule", "rule2"))
LIFT = "var(--lift)"  # what sun, bed and heat added
DUSK = "var(--dusk)"  # dark weeks; too small to matter
EDGE = "var(--rule2)"  # rules that carry meaning
MARK_TOKENS: dict[Mark, Token] = {"helped": "target", "opposite": "warm", "open": "neutral", "none": "neutral"}


def line(token: Token) -> str:
    """Colour of a line or mark."""
    return f"var(--{token})"


def text(token: Token) -> str:
    """Colour of words."""
    return f"var(--{token}-t)"


def said(mark: Mark) -> str:
    """Colour of a verdict's word."""
    return INK2 if mark in ("open", "none") else text(MARK_TOKENS[mark])
