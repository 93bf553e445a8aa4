"""The style sheet, the small script, the rule of what a page may load, and where the templates are."""

from __future__ import annotations

import base64
import hashlib
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape

from reportgen.charts import theme


@lru_cache(maxsize=1)
def templates() -> Path:
    """The folder of the templates: inside the installed package, or beside it in the project's own folder."""
    package = Path(__file__).parents[1]
    inside = package / "templates"
    return inside if inside.is_dir() else package.parent / "templates"


def style() -> str:
    """The whole style sheet: the palette for light, dark, print and forced colours, then style.css."""
    light = _properties(0)
    dark = _properties(1)
    forced = "".join(f"--{name}:CanvasText;" for name in ("ink", "ink2", *_lines(), *(f"{n}-t" for n in _lines())))
    forced += "--paper:Canvas;--lift:Canvas;--dusk:Canvas;--rule:GrayText;--rule2:GrayText;"
    head = (
        f":root{{color-scheme:light dark;{light}}}"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}"
        f"@media print{{:root{{color-scheme:light;--paper:#fff;--dusk:#eceff1;}}}}"
        f"@media (forced-colors:active){{:root{{{forced}}}}}"
    )
    return head + _file("style.css") + _file("drawing.css")


def sheet_style() -> str:
    """The style sheet of the handout: that of every page, and what its one printed sheet needs."""
    return style() + _file("handout.css")


def method_style() -> str:
    """The style sheet of the method page: that of every page, and its contents list, formulas and words."""
    return style() + _file("method.css")


def _lines() -> tuple[str, ...]:
    return tuple(theme.PALETTE)


def _properties(mode: int) -> str:
    """Custom properties of mode 0 (light) or 1 (dark)."""
    page = [f"--{name}:{pair[mode]};" for name, pair in theme.PAGE.items()]
    lines = [f"--{name}:{four[2 * mode]};--{name}-t:{four[2 * mode + 1]};" for name, four in theme.PALETTE.items()]
    ramp = [f"--r{n}:{pair[mode]};" for n, pair in enumerate(theme.RAMP)]
    return "".join(page + lines + ramp)


def script() -> str:
    """The optional script: a slider that reads one day from the table below its chart."""
    return "".join(line.strip() + "\n" for line in _file("script.js").splitlines())


def _file(name: str) -> str:
    return (templates() / name).read_text(encoding="utf-8").strip()


def policy(style_text: str, script_text: str) -> str:
    """Content-Security-Policy of a page: its own style and script by hash, pictures from itself, nothing else."""
    return (
        "default-src 'none'; img-src data: 'self'; "
        f"style-src '{_hash(style_text)}'; script-src '{_hash(script_text)}'; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


@lru_cache(maxsize=1)
def environment() -> Environment:
    """Templates that escape everything by themselves and refuse names that are not there."""
    return Environment(
        loader=FileSystemLoader(templates()),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
