"""The grower's Markdown: nothing runs, nothing is fetched, and what is harmless stays."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from reportgen.counsel.happened import AGAIN
from reportgen.counsel.types import Finding
from reportgen.site.text import safe_html
from reportgen.site.views import _next_steps

HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "[a](javascript:alert(1))",
    "[a](JaVaScRiPt:alert(1))",
    "[a](java\tscript:alert(1))",
    "[a](data:text/html;base64,PHNjcmlwdD4=)",
    "[a](vbscript:x)",
    "[a](../../etc/passwd)",
    "[a](//far.example/x)",
    "[a](\\\\far.example\\x)",
    "![a](https://far.example/pixel.png)",
    "![a](data:image/svg+xml;base64,PHN2Zz4=)",
    "![a](file:///etc/passwd)",
    "<svg onload=alert(1)><a href='javascript:1'>x</a></svg>",
    "<math><mtext><img src=x onerror=alert(1)></mtext></math>",
    "<iframe src=https://far.example></iframe>",
    "<object data=x></object><embed src=x>",
    "<form action=https://far.example><input name=q><button>go</button></form>",
    "<style>*{display:none}</style>",
    "<p style='position:fixed'>x</p>",
    "<p onclick=alert(1) id=main class=skip>x</p>",
    "<meta http-equiv=refresh content='0;url=https://far.example'>",
    "<base href=https://far.example><link rel=stylesheet href=x>",
    "<template><script>alert(1)</script></template>",
    "<details ontoggle=alert(1) open>x</details>",
    "<video src=https://far.example/v><source src=x></video>",
]


class Seen(HTMLParser):
    """Tags and attributes of a piece of HTML."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]


@pytest.mark.parametrize("source", HOSTILE)
def test_hostile_text_cannot_run_fetch_or_restyle(source: str) -> None:
    """No element or attribute that runs, loads from elsewhere, submits, restyles or takes an id of the page."""
    seen = Seen(safe_html(source))
    forbidden = {"script", "style", "svg", "math", "iframe", "object", "embed", "form", "input", "button", "meta"}
    assert not forbidden & set(seen.tags)
    assert not {"base", "link", "template", "video", "source", "details"} & set(seen.tags)
    for _, name, value in seen.attributes:
        assert not name.startswith("on") and name not in ("style", "id")
        if name == "src":
            pytest.fail(f"a picture is loaded: {value}")
        if name == "href":
            assert not value.lower().startswith(("javascript", "data", "vbscript", "//", "\\", ".."))
        if name == "class":
            assert value != "skip"


def test_headings_stay_below_the_pages_own() -> None:
    """# and ## become h3, so that the page keeps one h1."""
    assert Seen(safe_html("# One\n\n## Two\n\n### Three")).tags == ["h3", "h3", "h3"]


def test_aligned_table_cells_are_classes() -> None:
    """The page's own policy blocks style attributes, so alignment travels as a class."""
    html = safe_html("| a | b |\n|---|--:|\n| x | 1 |\n")
    assert '<td class="num">1</td>' in html and "style" not in html


def test_plain_good_text_survives() -> None:
    """Emphasis, lists, links, notes and pictures carried in the page are kept."""
    html = safe_html(
        "*So* **cold**[^1]\n\n- [more](https://far.example/a)\n\n![bed](data:image/png;base64,AAAA)\n\n[^1]: note"
    )
    for piece in ("<em>So</em>", "<strong>cold</strong>", 'href="https://far.example/a"', "data:image/png", "note"):
        assert piece in html


def test_what_would_have_helped_once_more_is_nothing_to_do_next() -> None:
    """Three frosts of one cause: one step on the list, and no sentence about the past."""

    def said(step: str) -> Finding:
        return Finding(slug="cold-event", page="frost", about=None, claim="It froze.", evidence="", how_sure="Sure",
                       next_step=step, figure="", figure_note="", anchor="", stake="crop lost")  # fmt: skip

    found = [said("Draw fleece at dusk."), said(f"On 10 January {AGAIN}12 February."), said("Move the pots.")]
    assert [one.next_step for one in _next_steps(found)] == ["Draw fleece at dusk.", "Move the pots."]
